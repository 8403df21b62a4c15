//! What would fix it: sets of changes to the shop, each judged with all of it on.
//!
//! A set mends what limits in power and in air together, or it is not offered. On top of a danger nothing is offered but
//! putting that right, which is its own advice.

mod bench;

use shop::Shop;
use shop::change::Change;

use crate::basis::Basis;
use crate::grade::Grade;
use crate::power;
use crate::standing::Standing;
use crate::verdict::{Budget, Verdict, verdict};
use bench::{Bench, Set, Trial};

/// How much a fix asks of somebody, least first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Effort {
    /// Costs nothing: move a plug, move the machine, take a breath.
    Nothing,
    /// A tool, a hose, a cord or a tank: under a hundred dollars or so.
    Purchase,
    /// An electrician.
    Electrician,
    /// Another machine, or another generator.
    Machine,
}

/// What is done about the air.
#[derive(Clone, Debug, PartialEq)]
pub enum AirStep {
    /// A cordless drill for these tasks (indices into the basis).
    Cordless(Vec<usize>),
    /// An electric tool for this task.
    Electric(usize),
    /// A main hose of this bore, m.
    Hose(f64),
    /// A second tank of this volume, m³.
    SecondTank(f64),
    /// A longer pause between pulls at this task, s.
    Pause(usize, f64),
}

/// One set that mends.
#[derive(Clone, Debug, PartialEq)]
pub struct Fix {
    /// How much it asks.
    pub effort: Effort,
    /// What is done about the power, place by place.
    pub power: Vec<(usize, power::Fix)>,
    /// What is done about the air.
    pub air: Option<AirStep>,
    /// All of it, as texts of the shop's fields.
    pub changes: Vec<Change>,
    /// How the machine stands with all of it on.
    pub then: Standing,
}

/// The search for what mends a machine, a slice at a time.
///
/// The power of a set is judged before its air, its air as far as it takes to be sure of the grade, and only where the set
/// changes it.
///
/// ```
/// # use judge::{basis::Basis, fix::{Search, fixes}, verdict::verdict}; use shop::Shop;
/// let mut shop = Shop::fresh();
/// let label = &mut shop.candidates[0];
/// (label.flow, label.tank, label.amps) = ("4 cfm".into(), "20 gal".into(), "14 A".into());
/// let basis = Basis::of(&shop);
/// let mut search = Search::new(&shop, 0, verdict(&basis, &basis.candidates[0]));
/// while !search.step() {}
/// assert_eq!(search.fixes(), fixes(&shop, 0));
/// assert_eq!(search.untried(), 0);
/// ```
pub struct Search {
    bench: Bench,
    /// Sets that are still to be tried, the next one last.
    sets: Vec<Set>,
    trial: Option<Trial>,
    fixes: Vec<Fix>,
    budget: Budget,
}

/// The search is broken off after so many slices: some seconds on a desktop. Only shops with hundreds of different tasks
/// and places get there.
const MOST_SLICES: usize = 150;

/// Every set that mends a machine (an index into the shop) in its shop, least effort first; none where nothing is to be
/// mended, or where a danger comes first. All sets are tried, however long it takes: [`Search`] may be broken off.
///
/// ```
/// # use judge::fix::{AirStep, Effort, fixes}; use judge::grade::Grade; use shop::Shop;
/// let mut shop = Shop::fresh();
/// let label = &mut shop.candidates[0];
/// (label.flow, label.tank, label.amps) = ("2.5 cfm".into(), "6 gal".into(), "11 A".into());
/// let found = fixes(&shop, 0);
/// assert!(found.iter().any(|fix| matches!(fix.air, Some(AirStep::Cordless(_)))));
/// assert!(found.iter().all(|fix| fix.then.grade() <= Grade::Wait));
/// ```
pub fn fixes(shop: &Shop, candidate: usize) -> Vec<Fix> {
    let basis = Basis::of(shop);
    let machine = basis.candidates.get(candidate);
    let mut search = Search::new(
        shop,
        candidate,
        machine.and_then(|machine| verdict(&basis, machine)),
    );
    while !search.step() || search.untried() > 0 {}
    search.into_fixes()
}

impl Search {
    /// Prepares the sets for a machine (an index into the shop) whose verdict is known; `None` as for
    /// [`crate::verdict::verdict`].
    pub fn new(shop: &Shop, candidate: usize, verdict: Option<Verdict>) -> Self {
        let basis = Basis::of(shop);
        let before = Standing::with(&basis, candidate, verdict.as_ref());
        let bench = Bench {
            shop: shop.clone(),
            basis,
            candidate,
            verdict,
            before,
        };
        let right = before.core().max(before.starts) == Grade::Good;
        let closed = right || before.danger >= Grade::Ask || before.power == Grade::Danger;
        Self {
            sets: if closed { Vec::new() } else { bench.sets() },
            bench,
            trial: None,
            fixes: Vec::new(),
            budget: Budget::default(),
        }
    }

    /// Tries on for some 50 ms at the most; true once all sets are tried, or the search was broken off.
    pub fn step(&mut self) -> bool {
        self.budget.refill();
        while self.budget.go_on().is_ok() && self.untried() > 0 {
            match self.trial.take() {
                Some(trial) => self.grade(trial),
                None => self.begin_next(),
            }
        }
        self.untried() == 0 || self.budget.slices() >= MOST_SLICES
    }

    fn begin_next(&mut self) {
        if let Some((power, air)) = self.sets.pop() {
            self.budget.set();
            self.trial = self.bench.trial(power, air);
        }
    }

    fn grade(&mut self, mut trial: Trial) {
        if !trial.step(self.bench.candidate, &mut self.budget) {
            self.trial = Some(trial);
        } else if trial.grading.grade().is_some() && self.bench.mends(&trial.fix.then) {
            self.fixes.push(trial.fix);
        }
    }

    /// How the machine stands as it is.
    pub fn standing(&self) -> Standing {
        self.bench.before
    }

    /// What mends, of the sets that were tried: least effort first.
    pub fn fixes(&self) -> Vec<Fix> {
        let mut fixes = self.fixes.clone();
        quantity::order::by_key(&mut fixes, |fix| fix.effort);
        fixes
    }

    fn into_fixes(mut self) -> Vec<Fix> {
        quantity::order::by_key(&mut self.fixes, |fix| fix.effort);
        self.fixes
    }

    /// How many sets were not tried to the end: none, unless the search goes on or was broken off.
    pub fn untried(&self) -> usize {
        self.sets.len() + usize::from(self.trial.is_some())
    }
}
