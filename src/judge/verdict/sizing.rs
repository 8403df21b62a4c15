//! The same verdict for many sizes of machine: flow and tank by what they must do.

use super::case::{Case, Size};
use super::draw::Draw;
use super::is_weak;
use super::record::{LONG_WAIT_MIN, UNBROKEN_MIN};
use super::slice::{Budget, Paused};
use super::unknown::unknowns;
use crate::basis::{Basis, CandidateBasis};
use crate::draws::Draws;
use physics::run::{bounds, never_waits, waits_over};

/// A size at which a draw was tried, and whether the job was done.
type Tried = (Size, bool);

/// So many draws, and at which sizes a row was done in as many.
type Reached = (usize, Vec<Tried>);

/// Rows of a shop, tried on machines of one kind in many sizes.
///
/// What was tried is kept: a draw that does with some flow and tank does with more of either, and one that fails fails
/// with less. So the borders that come out are monotone, and most draws need no run. A search that pauses begins anew in
/// the next slice and finds what it knew, so that it goes the same way as one without pauses.
pub(crate) struct Sizing {
    case: Case,
    draws: Vec<Draw>,
    weak_counts: bool,
    tried: Vec<Vec<Vec<Tried>>>,
    reached: Vec<Vec<Reached>>,
    pressure: Vec<Option<bool>>,
    pub budget: Budget,
}

fn is_within(one: Size, other: Size) -> bool {
    one.flow <= other.flow && one.tank <= other.tank && one.added_m3 <= other.added_m3
}

/// What is known of a size from those that were tried: what is done with less is done, what fails with more fails.
fn settled(tried: &[Tried], size: Size) -> Option<bool> {
    let settles = |(at, done): &&Tried| {
        if *done {
            is_within(*at, size)
        } else {
            is_within(size, *at)
        }
    };
    tried.iter().find(settles).map(|(_, done)| *done)
}

/// Keeps what was tried, and lets go what follows from it.
fn keep(tried: &mut Vec<Tried>, size: Size, done: bool) {
    tried.retain(|(at, other)| {
        let follows = if done {
            is_within(size, *at)
        } else {
            is_within(*at, size)
        };
        *other != done || !follows
    });
    tried.push((size, done));
}

/// Whether the job of a row is done in a draw, and the steps that it took to know; where the balance of flow already says
/// that it can't be, without a run.
pub(super) fn does(case: &Case, row: usize, draw: &Draw, size: Size, weak_counts: bool) -> (bool, usize) {
    let Some((place, task)) = case.rows().nth(row) else {
        return (false, 0);
    };
    let Some((machine, work)) = case.machine(draw, place, size).zip(case.work(row, draw)) else {
        return (false, 0);
    };
    if work.enough_pa >= machine.cut_out_pa || (weak_counts && is_weak(&machine, &work)) {
        return (false, 0);
    }
    let hands = draw.hands(task);
    if never_waits(&machine, &work, hands) {
        return (true, 0);
    }
    let bounds = bounds(&machine, &work, hands);
    let most = if case.is_unbroken(task) {
        UNBROKEN_MIN
    } else {
        LONG_WAIT_MIN
    };
    if bounds.least_minutes > most {
        return (false, 0);
    }
    let (over, steps) = waits_over(&machine, &work, hands, &bounds, most);
    (!over, steps)
}

impl Sizing {
    /// All tasks at all places, or `only` one place and task, without end to the budget; `None` where there is no flow or
    /// nothing to try.
    pub fn new(basis: &Basis, candidate: &CandidateBasis, only: Option<(usize, usize)>) -> Option<Self> {
        let unknowns = unknowns(basis, candidate)?;
        let case = Case::new(basis, candidate, &unknowns, only)?;
        let rows = case.rows().count();
        let draws = Draw::all(&Draws::usual(), &unknowns);
        (rows > 0).then(|| Self {
            tried: vec![vec![Vec::new(); draws.len()]; rows],
            reached: vec![Vec::new(); rows],
            pressure: vec![None; rows],
            weak_counts: candidate.switch_origins[0].is_given(),
            budget: Budget::ENDLESS,
            case,
            draws,
        })
    }

    /// Place and task of each row; of equal ones the first.
    pub fn rows(&self) -> impl Iterator<Item = (usize, usize)> {
        self.case.rows()
    }

    /// Tasks that share a row.
    pub fn tasks_of(&self, row: usize) -> impl Iterator<Item = usize> {
        let asked = self.case.asked().iter();
        asked
            .filter(move |(_, _, of)| *of == row)
            .map(|(_, task, _)| *task)
    }

    /// How many draws there are.
    pub fn draws(&self) -> usize {
        self.draws.len()
    }

    /// Whether a row ever gets its pressure, in the middle of what is known.
    pub fn has_pressure(&mut self, row: usize) -> Result<bool, Paused> {
        if let Some(known) = self.pressure.get(row).copied().flatten() {
            return Ok(known);
        }
        self.budget.go_on()?;
        self.budget.line();
        let place = self.case.rows().nth(row).map_or(0, |(place, _)| place);
        let reaches = |draw: &&Draw| {
            let machine = self.case.machine(draw, place, Size::OWN);
            let both = machine.zip(self.case.work(row, draw));
            both.is_some_and(|(machine, work)| work.enough_pa < machine.cut_out_pa)
        };
        let known = 2 * self.draws.iter().filter(reaches).count() > self.draws();
        if let Some(pressure) = self.pressure.get_mut(row) {
            *pressure = Some(known);
        }
        Ok(known)
    }

    fn known(&self, row: usize, draw: usize, size: Size) -> Option<bool> {
        settled(self.tried.get(row)?.get(draw)?, size)
    }

    fn is_done(&mut self, row: usize, draw: usize, size: Size) -> Result<bool, Paused> {
        if let Some(known) = self.known(row, draw, size) {
            return Ok(known);
        }
        self.budget.go_on()?;
        let (done, steps) = match self.draws.get(draw) {
            Some(drawn) => does(&self.case, row, drawn, size, self.weak_counts),
            None => (false, 0),
        };
        self.budget.row(steps);
        if let Some(tried) = self.tried.get_mut(row).and_then(|row| row.get_mut(draw)) {
            keep(tried, size, done);
        }
        Ok(done)
    }

    /// Whether a row is done in so many draws; it stops as soon as that is sure.
    pub fn reaches(&mut self, row: usize, size: Size, least: usize) -> Result<bool, Paused> {
        self.budget.look();
        let known = self.reached.get(row).into_iter().flatten();
        let settled = known.filter_map(|(count, tried)| {
            // What is done in so many draws is done in fewer; what is not, is not in more.
            let done = settled(tried, size)?;
            (if done { *count >= least } else { *count <= least }).then_some(done)
        });
        if let Some(reaches) = settled.into_iter().next() {
            return Ok(reaches);
        }
        let reaches = self.counted(row, size, least)? >= least;
        if let Some(reached) = self.reached.get_mut(row) {
            let at = reached.iter().position(|(count, _)| *count == least);
            let at = at.unwrap_or_else(|| {
                reached.push((least, Vec::new()));
                reached.len() - 1
            });
            if let Some((_, tried)) = reached.get_mut(at) {
                keep(tried, size, reaches);
            }
        }
        Ok(reaches)
    }

    /// In how many draws a row is done, up to `least`, or as soon as it is sure that it is done in fewer.
    fn counted(&mut self, row: usize, size: Size, least: usize) -> Result<usize, Paused> {
        let count = self.draws();
        let (mut done, mut failed) = (0, 0);
        for draw in 0..count {
            if self.is_done(row, draw, size)? {
                done += 1;
            } else {
                failed += 1;
            }
            if done >= least || failed > count - least.min(count) {
                break;
            }
        }
        Ok(done)
    }

    /// In how many draws a row is done.
    pub fn count(&mut self, row: usize, size: Size) -> Result<usize, Paused> {
        let mut count = 0;
        for draw in 0..self.draws() {
            count += usize::from(self.is_done(row, draw, size)?);
        }
        Ok(count)
    }
}
