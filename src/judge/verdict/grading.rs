//! The grade of the air and no more: as far into the draws as it takes to be sure of it.

use super::case::{Case, Size, first_alike};
use super::draw::Draw;
use super::record::{good_from, waits_from};
use super::sizing::does;
use super::slice::Budget;
use super::unknown::{flow, unknowns};
use super::{Verdict, asks};
use crate::assess::machine::Supply;
use crate::basis::{Basis, CandidateBasis};
use crate::draws::Draws;
use crate::grade::Grade;

/// The grade of a machine's air on its way, where only grades up to one are of use.
///
/// Rows that nothing has changed keep the grade that they had; of the others the one that was worst is judged first, and
/// the job ends with the first that is too bad. The same draws and the same sums as the verdict's.
pub(crate) struct Grading {
    case: Option<Case>,
    draws: Vec<Draw>,
    weak_counts: bool,
    /// Rows that are to be judged, the worst last.
    rows: Vec<usize>,
    /// The next draw of the last of them, and in how many it was done.
    at: usize,
    done: usize,
    most: Grade,
    grade: Grade,
}

/// What was judged before.
#[derive(Clone, Copy)]
pub(crate) struct Before<'a> {
    pub basis: &'a Basis,
    pub candidate: &'a CandidateBasis,
    pub verdict: Option<&'a Verdict>,
}

/// Whether two machines make the same air, whatever they draw.
fn same_machine(one: &CandidateBasis, other: &CandidateBasis) -> bool {
    let plate = CandidateBasis {
        volts: one.volts,
        amps: one.amps,
        connections: one.connections.clone(),
        unread: one.unread.clone(),
        power_w: one.power_w,
        peak_power_w: one.peak_power_w,
        start: one.start,
        ..other.clone()
    };
    let rests_on = |machine| (Supply::of(machine), flow(machine), asks(machine));
    *one == plate && rests_on(one) == rests_on(other)
}

impl Before<'_> {
    /// Whether all that every row hangs on is as it was.
    fn holds(&self, basis: &Basis, candidate: &CandidateBasis) -> bool {
        let air = |basis: &Basis| basis.places.first().map(|place| place.air);
        self.basis.line == basis.line
            && self.basis.auxiliary == basis.auxiliary
            && self.basis.unread_auxiliary == basis.unread_auxiliary
            && air(self.basis) == air(basis)
            && same_machine(self.candidate, candidate)
    }

    /// Whether a place and a task are as they were, and who works at the same time.
    fn same_row(&self, basis: &Basis, place: usize, task: usize) -> bool {
        let air = |basis: &Basis| {
            let place = basis.places.get(place)?;
            Some((place.air, place.air_origins, place.unread_air))
        };
        let others = |basis: &Basis| {
            let together = basis.tasks.iter().filter(|task| task.on && task.together);
            together.cloned().collect::<Vec<_>>()
        };
        let together = basis.tasks.get(task).is_some_and(|task| task.together);
        air(self.basis) == air(basis)
            && self.basis.tasks.get(task) == basis.tasks.get(task)
            && first_alike(&self.basis.tasks, task) == first_alike(&basis.tasks, task)
            && (!together || others(self.basis) == others(basis))
    }

    fn done(&self, place: usize, task: usize) -> usize {
        let record = self.verdict.and_then(|verdict| verdict.record(place, task));
        record.map_or(0, |record| record.done)
    }
}

impl Grading {
    /// Of a machine in a shop that differs from what was judged `before`; beyond `most` it need not be known.
    pub fn new(basis: &Basis, candidate: &CandidateBasis, before: Before, most: Grade) -> Self {
        let unknowns = unknowns(basis, candidate);
        let case = unknowns.and_then(|unknowns| {
            let case = Case::new(basis, candidate, &unknowns, None)?;
            (case.rows().count() > 0).then(|| (case, Draw::all(&Draws::usual(), &unknowns)))
        });
        let (case, draws) = case.map_or((None, Vec::new()), |(case, draws)| (Some(case), draws));
        let mut grading = Self {
            draws,
            weak_counts: candidate.switch_origins[0].is_given(),
            rows: Vec::new(),
            at: 0,
            done: 0,
            most,
            grade: match (&case, asks(candidate)) {
                (Some(_), None) => Grade::Good,
                _ => Grade::Ask,
            },
            case,
        };
        grading.sort_out(basis, candidate, before);
        grading
    }

    /// Takes what is known already, and orders the rest.
    fn sort_out(&mut self, basis: &Basis, candidate: &CandidateBasis, before: Before) {
        let Some(case) = &self.case else {
            return;
        };
        let holds = before.holds(basis, candidate);
        let mut rows: Vec<(usize, usize)> = Vec::new();
        for (place, task, row) in case.asked() {
            let kept = before.verdict.and_then(|verdict| verdict.record(*place, *task));
            let kept = kept.filter(|_| holds && before.same_row(basis, *place, *task));
            if let Some(record) = kept {
                self.grade = self.grade.max(record.grade);
            } else if basis.unread_air(candidate, *place, *task).is_some() {
                self.grade = self.grade.max(Grade::Ask);
            } else if rows.iter().all(|(_, other)| other != row) {
                rows.push((before.done(*place, *task), *row));
            }
        }
        quantity::order::by(&mut rows, |one, other| other.cmp(one));
        self.rows = rows.into_iter().map(|(_, row)| row).collect();
    }

    /// Judges on until the budget is spent; true once the grade is known, or known to be beyond the most.
    pub fn step(&mut self, budget: &mut Budget) -> bool {
        while self.grade <= self.most && !self.rows.is_empty() {
            if budget.go_on().is_err() {
                return false;
            }
            self.next(budget);
        }
        true
    }

    /// The grade, where it is not beyond the most.
    pub fn grade(&self) -> Option<Grade> {
        (self.grade <= self.most).then_some(self.grade)
    }

    /// Judges the next draw of the row that was worst.
    fn next(&mut self, budget: &mut Budget) {
        let (Some(row), Some(case)) = (self.rows.last(), &self.case) else {
            return;
        };
        if self.at == 0 {
            budget.line();
            if !case.is_open(*row) {
                self.grade = self.grade.max(Grade::Ask);
                self.rows.pop();
                return;
            }
        }
        if let Some(draw) = self.draws.get(self.at) {
            let (done, steps) = does(case, *row, draw, Size::OWN, self.weak_counts);
            budget.row(steps);
            self.done += usize::from(done);
        }
        self.at += 1;
        if let Some(grade) = self.sure() {
            self.grade = self.grade.max(grade);
            self.rows.pop();
            (self.at, self.done) = (0, 0);
        }
    }

    /// The grade of the row, once no draw that is left could change it.
    fn sure(&self) -> Option<Grade> {
        let draws = self.draws.len();
        let most_done = self.done + draws.saturating_sub(self.at);
        let (good, waits) = (good_from(draws), waits_from(draws));
        if self.done >= good {
            Some(Grade::Good)
        } else if most_done < waits {
            Some(Grade::Small)
        } else if most_done < good && (self.done >= waits || self.most < Grade::Wait) {
            Some(Grade::Wait)
        } else {
            None
        }
    }
}
