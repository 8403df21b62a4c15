//! Which machine to buy: each after its cheapest fix.

use shop::Shop;

use crate::basis::Basis;
use crate::fix::{AirStep, Effort, Fix, Search};
use crate::grade::Grade;
use crate::standing::Standing;
use crate::verdict::{Judging, Verdict, verdict};

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
    /// Sets of changes that were not tried, as the search was broken off: a cheaper fix may be among them.
    pub untried: usize,
}

impl Ranked {
    /// Of a machine (an index into the shop).
    pub fn of(shop: &Shop, basis: &Basis, candidate: usize) -> Self {
        let machine = basis.candidates.get(candidate);
        Self::with(
            shop,
            candidate,
            machine.and_then(|machine| verdict(basis, machine)),
        )
    }

    /// [`Self::of`], where the verdict was [judged](Judging) before; `None` as there. The search for its fix may be broken
    /// off, as that of [`Search`], and says so in [`Self::untried`].
    pub fn with(shop: &Shop, candidate: usize, verdict: Option<Verdict>) -> Self {
        let mut search = Search::new(shop, candidate, verdict);
        while !Self::step(&mut search) {}
        Self::found(candidate, &search)
    }

    /// Sets that are still to be tried, where the machine wants mending.
    fn left(search: &Search) -> usize {
        match search.standing().grade() {
            Grade::Good | Grade::Wait => 0,
            _ => search.untried(),
        }
    }

    /// Searches on, where the machine wants mending before it is bought; true once that is over.
    fn step(search: &mut Search) -> bool {
        search.standing().grade() <= Grade::Wait || search.step()
    }

    fn found(candidate: usize, search: &Search) -> Self {
        let standing = search.standing();
        let fix = match standing.grade() {
            Grade::Good | Grade::Wait => None,
            _ => cheapest(search.fixes()),
        };
        let takes = takes(&standing, fix.as_ref());
        Self {
            candidate,
            standing,
            fix,
            takes,
            untried: Self::left(search),
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
    let known = candidates.iter().map(|index| (*index, None));
    let mut choosing = Choosing::new(shop, known.collect());
    while !choosing.step() {}
    choosing.ranked()
}

/// What a comparison is at.
enum Doing {
    Judging(Box<Judging>),
    Mending(Box<Search>),
}

/// A comparison on its way, a slice at a time.
///
/// ```
/// # use judge::choice::{Choosing, ranked}; use shop::Shop;
/// let shop = Shop::demo();
/// let mut choosing = Choosing::new(&shop, vec![(0, None), (2, None)]);
/// while !choosing.step() {}
/// assert_eq!(choosing.ranked(), ranked(&shop, &[0, 2]));
/// ```
pub struct Choosing {
    shop: Shop,
    basis: Basis,
    /// Machines that are still to be judged, the next one last.
    left: Vec<(usize, Option<Verdict>)>,
    now: Option<(usize, Doing)>,
    all: Vec<Ranked>,
}

impl Choosing {
    /// Prepares it for some machines (indices into the shop), each with its verdict where that is known.
    pub fn new(shop: &Shop, mut machines: Vec<(usize, Option<Verdict>)>) -> Self {
        machines.reverse();
        Self {
            basis: Basis::of(shop),
            shop: shop.clone(),
            left: machines,
            now: None,
            all: Vec::new(),
        }
    }

    /// Goes on for some 50 ms at the most; true once all machines are ranked.
    pub fn step(&mut self) -> bool {
        let Some((candidate, doing)) = self.now.take().or_else(|| self.begun()) else {
            return true;
        };
        self.now = match doing {
            Doing::Judging(mut judging) => Some(if judging.slice() {
                (candidate, self.mending(candidate, Some(judging.verdict())))
            } else {
                (candidate, Doing::Judging(judging))
            }),
            Doing::Mending(mut search) => {
                if Ranked::step(&mut search) {
                    self.all.push(Ranked::found(candidate, &search));
                    None
                } else {
                    Some((candidate, Doing::Mending(search)))
                }
            }
        };
        self.now.is_none() && self.left.is_empty()
    }

    fn begun(&mut self) -> Option<(usize, Doing)> {
        let (candidate, known) = self.left.pop()?;
        let machine = self.basis.candidates.get(candidate);
        let judging = match known {
            Some(_) => None,
            None => machine.and_then(|machine| Judging::new(&self.basis, machine)),
        };
        let doing = judging.map(|judging| Doing::Judging(Box::new(judging)));
        Some((candidate, doing.unwrap_or_else(|| self.mending(candidate, known))))
    }

    fn mending(&self, candidate: usize, verdict: Option<Verdict>) -> Doing {
        Doing::Mending(Box::new(Search::new(&self.shop, candidate, verdict)))
    }

    /// The machines that are ranked so far, in the order in which to buy them.
    pub fn ranked(&self) -> Vec<Ranked> {
        ordered(&self.basis, self.all.clone())
    }
}

/// Machines that were judged before, in the order of [`ranked`].
pub fn ordered(basis: &Basis, mut all: Vec<Ranked>) -> Vec<Ranked> {
    let price = |ranked: &Ranked| {
        let machine = basis.candidates.get(ranked.candidate);
        machine.and_then(|machine| machine.price).unwrap_or(f64::MAX)
    };
    quantity::order::by(&mut all, |one, other| {
        let key = |ranked: &Ranked| (ranked.takes, ranked.then().grade());
        key(one)
            .cmp(&key(other))
            .then(one.effort().cmp(&other.effort()))
            .then(price(one).total_cmp(&price(other)))
    });
    all
}
