//! Which machine to buy: each after its cheapest fix.

use shop::Shop;

use crate::basis::Basis;
use crate::fix::{AirStep, Effort, Fix, fixes};
use crate::grade::Grade;
use crate::standing::Standing;

/// What it takes until a machine does the work of its shop by air, least first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Takes {
    /// It does it as it is, or with what costs little.
    Little,
    /// An electrician first.
    Electrician,
    /// Some of the work goes to other tools, or is done at an easier pace.
    OtherTools,
    /// A figure is missing: it can't be said.
    Unknown,
    /// Nothing that is known here makes it do.
    TooMuch,
    /// Never: somebody could be hurt.
    Never,
}

/// A machine among others.
#[derive(Clone, Debug, PartialEq)]
pub struct Ranked {
    /// Index into the shop's candidates.
    pub candidate: usize,
    /// As it stands.
    pub standing: Standing,
    /// Its cheapest fix, where it wants one and there is one.
    pub fix: Option<Fix>,
    /// What it takes.
    pub takes: Takes,
}

impl Ranked {
    /// Of a machine (an index into the shop).
    pub fn of(shop: &Shop, basis: &Basis, candidate: usize) -> Self {
        let standing = Standing::of(basis, candidate);
        let fix = match standing.grade() {
            Grade::Good | Grade::Wait => None,
            _ => cheapest(fixes(shop, candidate)),
        };
        let takes = takes(&standing, fix.as_ref());
        Self {
            candidate,
            standing,
            fix,
            takes,
        }
    }

    /// How it stands after its fix.
    pub fn then(&self) -> Standing {
        self.fix.as_ref().map_or(self.standing, |fix| fix.then)
    }

    /// How much the fix asks; nothing without one.
    pub fn effort(&self) -> Effort {
        self.fix.as_ref().map_or(Effort::Nothing, |fix| fix.effort)
    }
}

/// A fix that leaves the work to this machine before one that takes it to other tools; then the least effort.
fn cheapest(fixes: Vec<Fix>) -> Option<Fix> {
    fixes
        .into_iter()
        .min_by_key(|fix| (of_fix(fix), fix.effort, fix.then.grade()))
}

fn of_fix(fix: &Fix) -> Takes {
    match (&fix.air, fix.effort) {
        (Some(AirStep::Cordless(_) | AirStep::Electric(_) | AirStep::Pause(..)), _) => Takes::OtherTools,
        (_, Effort::Electrician) => Takes::Electrician,
        (_, Effort::Machine) => Takes::TooMuch,
        _ => Takes::Little,
    }
}

fn takes(standing: &Standing, fix: Option<&Fix>) -> Takes {
    match (standing.grade(), fix) {
        (Grade::Danger, _) => Takes::Never,
        (Grade::Good | Grade::Wait, _) => Takes::Little,
        (_, Some(fix)) => of_fix(fix),
        (Grade::Ask, None) => Takes::Unknown,
        // It may trip, and nothing mends that but care: it works.
        (Grade::Trip, None) => Takes::Little,
        _ => Takes::TooMuch,
    }
}

/// The machines (indices into the shop) in the order in which to buy them: by what each takes, how it then stands, the effort,
/// and its price. Of equals the one typed first.
///
/// ```
/// # use judge::choice::{Takes, ranked}; use shop::{Candidate, Shop};
/// let label = |flow: &str, tank: &str, volts: &str, amps: &str| Candidate {
///     flow: flow.into(), tank: tank.into(), volts: volts.into(), amps: amps.into(), ..Candidate::default()
/// };
/// let mut shop = Shop::fresh();
/// shop.candidates = vec![label("2.5 cfm", "6 gal", "120 V", "11 A"), label("5 cfm", "25 gal", "120 V", "14 A")];
/// let order = ranked(&shop, &[0, 1]);
/// assert_eq!((order[0].candidate, order[0].takes), (1, Takes::Little));
/// ```
pub fn ranked(shop: &Shop, candidates: &[usize]) -> Vec<Ranked> {
    let basis = Basis::of(shop);
    let all = candidates.iter().map(|index| Ranked::of(shop, &basis, *index));
    ordered(&basis, all.collect())
}

/// Machines that were judged before, in the order of [`ranked`].
pub fn ordered(basis: &Basis, mut all: Vec<Ranked>) -> Vec<Ranked> {
    let price = |ranked: &Ranked| {
        let machine = basis.candidates.get(ranked.candidate);
        machine.and_then(|machine| machine.price).unwrap_or(f64::MAX)
    };
    all.sort_by(|one, other| {
        let key = |ranked: &Ranked| (ranked.takes, ranked.then().grade());
        key(one)
            .cmp(&key(other))
            .then(one.effort().cmp(&other.effort()))
            .then(price(one).total_cmp(&price(other)))
    });
    all
}
