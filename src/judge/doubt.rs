//! How sure a verdict is: labels, hands, days and tools are ranges, and a thousand draws from them are judged.
//!
//! Each draw is a whole case: one machine as its label may be meant, one day, one pair of hands, one set of tools.
//! What is counted is what that machine does then. The draws are stratified and the same on every machine; only a
//! verdict that lies within rounding of its limit may differ between two processors.

mod case;
mod draws;
mod share;
mod unknown;

pub use case::Class;
pub use share::{variance_share, wilson};
pub use unknown::{Grounds, Spread, Unknown, Which, unknowns};

use crate::assess::machine::Supply;
use crate::basis::{Basis, CandidateBasis};
use case::{Case, Draw, NEVER, class};
use physics::compressor::Pump;

/// Draws that an answer rests on.
pub const DRAWS: usize = 1_000;
/// Draws that may be asked for.
pub const MOST_DRAWS: usize = 20_000;
/// An unknown that settles less of the doubt than this is not named: chance alone gives as much.
pub const NAMED: f64 = 0.05;

/// Of so many draws, how many keep up, wait, will not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Shares {
    /// Nobody waits; the motor may run hard.
    pub keeps: usize,
    /// Somebody waits.
    pub waits: usize,
    /// It will not do.
    pub will_not: usize,
}

impl Shares {
    /// All draws.
    pub fn draws(&self) -> usize {
        self.keeps + self.waits + self.will_not
    }

    /// Draws of a class.
    pub fn of(&self, class: Class) -> usize {
        match class {
            Class::Keeps => self.keeps,
            Class::Waits => self.waits,
            Class::WillNot => self.will_not,
        }
    }

    /// The share of a class, and the bounds of its sampling error.
    pub fn share(&self, class: Class) -> (f64, [f64; 2]) {
        let (hits, draws) = (self.of(class), self.draws());
        (hits as f64 / draws.max(1) as f64, wilson(hits, draws))
    }

    fn add(&mut self, class: Class) {
        match class {
            Class::Keeps => self.keeps += 1,
            Class::Waits => self.waits += 1,
            Class::WillNot => self.will_not += 1,
        }
    }
}

/// An unknown and how much of the doubt goes, on average, once it is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Driver {
    /// Index into [`Doubt::unknowns`].
    pub unknown: usize,
    /// Share of the variance.
    pub share: f64,
}

/// A task at a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Index into [`Basis::places`].
    pub place: usize,
    /// Index into [`Basis::tasks`].
    pub task: usize,
    /// What the draws say.
    pub shares: Shares,
    /// What its doubt hangs on most, if there is doubt.
    pub driver: Option<Driver>,
}

/// What a ranking is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum About {
    /// Whether everything keeps up.
    KeepsUp,
    /// Whether there is anything that it will not do.
    WillDo,
    /// The same verdict in every draw: how long one waits for the hardest task.
    Wait,
}

/// What the draws say.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// The worst of all tasks at all places.
    pub whole: Shares,
    /// Task by task, place by place.
    pub rows: Vec<Row>,
    /// What the unknowns settle of the whole, most first, those above [`NAMED`].
    pub drivers: Vec<Driver>,
    /// What that ranking is about; `None` where nothing varies.
    pub about: Option<About>,
}

/// A thousand draws, judged a few at a time, so that a page stays fluid.
///
/// ```
/// # use judge::basis::Basis; use judge::doubt::{Class, Doubt}; use shop::Shop;
/// let basis = Basis::of(&Shop::demo());
/// let mut doubt = Doubt::new(&basis, basis.chosen, 200).ok_or("no flow")?;
/// while !doubt.step(50) {}
/// let (share, [low, high]) = doubt.found().whole.share(Class::Keeps);
/// assert!(low <= share && share <= high);
/// # Ok::<(), &str>(())
/// ```
pub struct Doubt {
    basis: Basis,
    candidate: CandidateBasis,
    unknowns: Vec<Unknown>,
    strata: Vec<Vec<u16>>,
    case: Case,
    draws: usize,
    /// Waits of each row, draw by draw.
    waits: Vec<Vec<f64>>,
    done: usize,
}

impl Doubt {
    /// Prepares so many draws for a candidate; `None` where there is no flow that can be, no place or no task.
    pub fn new(basis: &Basis, candidate: usize, draws: usize) -> Option<Self> {
        Self::of(basis, candidate, unknowns(basis, candidate)?, draws)
    }

    /// The same, with the likely figure for every unknown but `open`.
    pub fn only(basis: &Basis, candidate: usize, open: &[Which], draws: usize) -> Option<Self> {
        let mut unknowns = unknowns(basis, candidate)?;
        for unknown in &mut unknowns {
            if !open.contains(&unknown.which) {
                unknown.spreads = unknown.spreads.iter().map(Spread::known).collect();
            }
        }
        Self::of(basis, candidate, unknowns, draws)
    }

    fn of(basis: &Basis, index: usize, unknowns: Vec<Unknown>, draws: usize) -> Option<Self> {
        let candidate = basis.candidates.get(index)?;
        let case = Case::new(basis, candidate, &unknowns)?;
        let draws = draws.clamp(1, MOST_DRAWS);
        let strata = unknowns
            .iter()
            .map(|unknown| draws::shuffled(draws as u16, unknown.which.stream()));
        Some(Self {
            strata: strata.collect(),
            waits: vec![Vec::with_capacity(draws); case.rows().count()],
            basis: basis.clone(),
            candidate: candidate.clone(),
            unknowns,
            case,
            draws,
            done: 0,
        })
    }

    /// Judges the next draws, at most so many; true once all are judged.
    pub fn step(&mut self, most: usize) -> bool {
        for _ in 0..most.min(self.draws - self.done) {
            let quantiles = self.quantiles(self.done);
            let draw = Draw {
                unknowns: &self.unknowns,
                at: &quantiles,
            };
            for (row, wait) in self.waits.iter_mut().zip(self.case.judge(&draw)) {
                row.push(wait);
            }
            self.done += 1;
        }
        self.done == self.draws
    }

    /// Draws judged so far.
    pub fn done(&self) -> usize {
        self.done
    }

    /// Whether these draws are what [`Self::new`] would make of this candidate in this shop.
    pub fn holds(&self, basis: &Basis, candidate: usize) -> bool {
        let own = &self.basis;
        basis.asks_for(&own.places, &own.tasks, &own.line)
            && own.auxiliary == basis.auxiliary
            && basis.candidates.get(candidate) == Some(&self.candidate)
            && unknowns(basis, candidate).is_some_and(|unknowns| unknowns == self.unknowns)
    }

    /// The delivery curve to which the range of the flow refers.
    pub fn pump(&self) -> Option<Pump> {
        Supply::of(&self.candidate).0.likely()
    }

    /// What is not known, with its ranges.
    pub fn unknowns(&self) -> &[Unknown] {
        &self.unknowns
    }

    /// Where a draw lies in the range of each unknown: in the middle of its stratum.
    pub fn quantiles(&self, draw: usize) -> Vec<f64> {
        let place = |strata: &Vec<u16>| {
            let stratum = strata.get(draw).copied().unwrap_or_default();
            (f64::from(stratum) + 0.5) / self.draws as f64
        };
        self.strata.iter().map(place).collect()
    }

    /// The shop, the machine and its delivery as they are with these quantiles: what the plain judgement takes.
    pub fn shop_at(&self, quantiles: &[f64]) -> Option<(Basis, CandidateBasis, Pump)> {
        let draw = Draw {
            unknowns: &self.unknowns,
            at: quantiles,
        };
        let (basis, candidate) = draw.shop(&self.basis, &self.candidate);
        Some((basis, candidate, draw.pump(&self.candidate)?))
    }

    /// The share of waiting of each row in a draw that was judged; 1 where it will not do.
    pub fn waits(&self, draw: usize) -> Option<Vec<f64>> {
        self.waits.iter().map(|row| row.get(draw).copied()).collect()
    }

    /// Counts what was judged so far.
    pub fn found(&self) -> Found {
        let worst: Vec<f64> = (0..self.done)
            .map(|draw| {
                let waits = self.waits.iter().filter_map(|row| row.get(draw));
                waits.copied().fold(0.0, f64::max)
            })
            .collect();
        let rows = self
            .case
            .rows()
            .zip(&self.waits)
            .map(|((place, task), waits)| Row {
                place,
                task,
                shares: count(waits),
                driver: self.ranking(waits, false).1.first().copied(),
            });
        let (about, drivers) = self.ranking(&worst, true);
        Found {
            whole: count(&worst),
            rows: rows.collect(),
            drivers,
            about,
        }
    }

    /// What the verdict on these waits hangs on; where it is the same in every draw and `longest` is asked for, what
    /// the wait hangs on.
    fn ranking(&self, waits: &[f64], longest: bool) -> (Option<About>, Vec<Driver>) {
        let shares = count(waits);
        let open = |hits: usize| hits * (shares.draws() - hits);
        let (keeps, does) = (open(shares.keeps), open(shares.will_not));
        let (about, values): (About, Vec<f64>) = if keeps.max(does) > 0 {
            let (about, limit) = if keeps >= does {
                (About::KeepsUp, Class::Keeps)
            } else {
                (About::WillDo, Class::Waits)
            };
            let is = |wait: &f64| f64::from(u8::from(class(*wait) <= limit));
            (about, waits.iter().map(is).collect())
        } else if longest && shares.waits > 0 {
            (About::Wait, waits.to_vec())
        } else {
            return (None, Vec::new());
        };
        let indices = self.strata.iter().enumerate();
        let mut drivers: Vec<Driver> = indices
            .map(|(unknown, strata)| Driver {
                unknown,
                share: variance_share(&values, strata),
            })
            .filter(|driver| driver.share >= NAMED)
            .collect();
        drivers.sort_by(|one, other| other.share.total_cmp(&one.share));
        (Some(about), drivers)
    }
}

fn count(waits: &[f64]) -> Shares {
    let mut shares = Shares::default();
    for wait in waits {
        debug_assert!((0.0..=NEVER).contains(wait));
        shares.add(class(*wait));
    }
    shares
}

/// What a candidate does for all tasks at all places in so many draws: for a comparison, where a hundred will do. All
/// candidates meet the same days, hands and tools.
pub fn shares(basis: &Basis, candidate: usize, draws: usize) -> Option<Shares> {
    let mut doubt = Doubt::new(basis, candidate, draws)?;
    doubt.step(draws);
    Some(doubt.found().whole)
}
