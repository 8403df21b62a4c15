//! The same verdict for many sizes of machine: flow and tank by what they must do.

use super::case::{Case, Draw, Size};
use super::is_weak;
use super::record::{Fared, LONG_WAIT_MIN, UNBROKEN_MIN};
use super::unknown::{Unknown, unknowns};
use crate::basis::{Basis, CandidateBasis};
use crate::draws::Draws;
use physics::run::{Fineness, Machine, Work, Worker, bounds, run};
use shop::catalogue::typical;

/// A size at which a draw was tried, and whether the job was done.
type Tried = (Size, bool);

/// Rows of a shop, tried on machines of one kind in many sizes.
///
/// What was tried is kept: a draw that does with some flow and tank does with more of either, and one that fails fails
/// with less. So the borders that come out are monotone, and most draws need no run.
pub(crate) struct Sizing {
    case: Case,
    unknowns: Vec<Unknown>,
    draws: Draws,
    weak_counts: bool,
    /// Place, task, and whether a stop spoils it.
    rows: Vec<(usize, usize, bool)>,
    tried: Vec<Vec<Vec<Tried>>>,
}

fn is_within(one: Size, other: Size) -> bool {
    one.flow <= other.flow && one.tank <= other.tank && one.added_m3 <= other.added_m3
}

/// Whether a job is done; where the balance of flow already says that it can't be, without a run.
fn does(machine: &Machine, work: &Work, draw: &Draw, task: usize, unbroken: bool, weak_counts: bool) -> bool {
    if work.enough_pa >= machine.cut_out_pa || (weak_counts && is_weak(machine, work)) {
        return false;
    }
    let hands = draw.hands(task);
    let bounds = bounds(machine, work, hands);
    let most = if unbroken { UNBROKEN_MIN } else { LONG_WAIT_MIN };
    if bounds.never_waits || bounds.least_minutes > most {
        return bounds.never_waits;
    }
    let run = run(machine, work, Worker::Spares, hands, Fineness::Coarse);
    let fared = Fared {
        minutes: run.minutes_waiting(),
        weak: false,
        settled: false,
    };
    fared.is_done(unbroken, weak_counts)
}

impl Sizing {
    /// All tasks at all places, or `only` one place and task; `None` where there is no flow or nothing to try.
    pub fn new(basis: &Basis, candidate: &CandidateBasis, only: Option<(usize, usize)>) -> Option<Self> {
        let unknowns = unknowns(basis, candidate)?;
        let case = Case::new(basis, candidate, &unknowns, only)?;
        let unbroken = |task: usize| {
            basis
                .tasks
                .get(task)
                .is_some_and(|task| typical(task.kind).unbroken)
        };
        let rows: Vec<_> = case
            .rows()
            .map(|(place, task)| (place, task, unbroken(task)))
            .collect();
        let draws = Draws::usual();
        (!rows.is_empty()).then(|| Self {
            tried: vec![vec![Vec::new(); draws.count()]; rows.len()],
            weak_counts: candidate.switch_origins[0].is_given(),
            rows,
            case,
            unknowns,
            draws,
        })
    }

    /// Place and task of each row.
    pub fn rows(&self) -> impl Iterator<Item = (usize, usize)> {
        self.rows.iter().map(|(place, task, _)| (*place, *task))
    }

    /// How many draws there are.
    pub fn draws(&self) -> usize {
        self.draws.count()
    }

    /// Whether a row ever gets its pressure, in the middle of what is known.
    pub fn has_pressure(&self, row: usize) -> bool {
        let reaches = |draw: usize| {
            let drawn = Draw::of_index(&self.draws, &self.unknowns, draw);
            let place = self.rows.get(row).map_or(0, |(place, _, _)| *place);
            let machine = self.case.machine(&drawn, place, Size::OWN);
            let both = machine.zip(self.case.work(row, &drawn));
            both.is_some_and(|(machine, work)| work.enough_pa < machine.cut_out_pa)
        };
        2 * (0..self.draws()).filter(|draw| reaches(*draw)).count() > self.draws()
    }

    fn known(&self, row: usize, draw: usize, size: Size) -> Option<bool> {
        let tried = self.tried.get(row)?.get(draw)?;
        let settles = |(at, done): &&Tried| {
            if *done {
                is_within(*at, size)
            } else {
                is_within(size, *at)
            }
        };
        tried.iter().find(settles).map(|(_, done)| *done)
    }

    fn is_done(&mut self, row: usize, draw: usize, size: Size) -> bool {
        if let Some(known) = self.known(row, draw, size) {
            return known;
        }
        let Some((place, task, unbroken)) = self.rows.get(row).copied() else {
            return false;
        };
        let drawn = Draw::of_index(&self.draws, &self.unknowns, draw);
        let machine = self.case.machine(&drawn, place, size);
        let done = machine
            .zip(self.case.work(row, &drawn))
            .is_some_and(|(machine, work)| does(&machine, &work, &drawn, task, unbroken, self.weak_counts));
        if let Some(tried) = self.tried.get_mut(row).and_then(|row| row.get_mut(draw)) {
            tried.push((size, done));
        }
        done
    }

    /// Whether a row is done in so many draws; it stops as soon as that is sure.
    pub fn reaches(&mut self, row: usize, size: Size, least: usize) -> bool {
        let count = self.draws();
        let (mut done, mut failed) = (0, 0);
        for draw in 0..count {
            if self.is_done(row, draw, size) {
                done += 1;
            } else {
                failed += 1;
            }
            if done >= least || failed > count - least.min(count) {
                break;
            }
        }
        done >= least
    }

    /// In how many draws a row is done.
    pub fn count(&mut self, row: usize, size: Size) -> usize {
        (0..self.draws())
            .filter(|draw| self.is_done(row, *draw, size))
            .count()
    }
}
