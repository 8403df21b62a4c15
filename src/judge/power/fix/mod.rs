//! What mends a circuit: each fix is one set of changes, tried with all of it on.

mod step;
mod steps;

pub use step::{Circuit, Edit, Step};

use physics::compressor::Pump;
use shop::change::Change;

use super::{Cause, PowerVerdict, judged};
use crate::basis::{Basis, CandidateBasis, PlaceBasis};
use crate::fix::Effort;
use crate::grade::Grade;

/// Most fixes that are offered.
const MOST_FIXES: usize = 4;
/// Most steps that one fix takes together.
const MOST_STEPS: usize = 3;

/// One set of steps that mends a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Fix {
    /// What to do, in order.
    pub steps: Vec<Step>,
    /// The grade with all of it done.
    pub then: Grade,
    /// Worth doing only if it turns out to trip: it works as it is.
    pub if_needed: bool,
}

impl Fix {
    /// How much it asks: the most of its steps.
    pub fn effort(&self) -> Effort {
        let of_steps = self.steps.iter().map(|step| match step {
            Step::GeneratorOutdoors
            | Step::GroundedOutlet
            | Step::RegularOutlet
            | Step::MoveOthers { .. }
            | Step::OwnCircuit(Circuit { spare: true, .. }) => Effort::Nothing,
            // The hose for such a run is not on the wall yet.
            Step::AtOutlet { .. } | Step::ShorterCord { .. } | Step::HeavierCord { .. } => Effort::Purchase,
            Step::SmallerBreaker(_) | Step::Reconnect { .. } | Step::OwnCircuit(_) => Effort::Electrician,
            Step::Generator(_) => Effort::Machine,
        });
        of_steps.max().unwrap_or(Effort::Nothing)
    }

    /// What it sets in the shop. A field that several steps set has the last one's text.
    pub fn changes(&self, basis: &Basis, candidate: usize, place: usize) -> Vec<Change> {
        let mut changes: Vec<Change> = Vec::new();
        let edits = self.steps.iter().flat_map(Step::edits);
        for change in edits.flat_map(|edit| edit.changes(basis, candidate, place)) {
            match changes.iter_mut().find(|made| made.field == change.field) {
                Some(made) => *made = change,
                None => changes.push(change),
            }
        }
        changes
    }
}

/// What is tried, on copies of a place and a machine.
struct Bench<'a> {
    candidate: &'a CandidateBasis,
    place: &'a PlaceBasis,
    pump: Option<&'a Pump>,
    found: &'a PowerVerdict,
}

/// Every fix of a circuit, least effort first; of a circuit that works, what to do if it trips after all.
pub(super) fn fixes(
    candidate: &CandidateBasis,
    place: &PlaceBasis,
    pump: Option<&Pump>,
    found: &PowerVerdict,
) -> Vec<Fix> {
    let bench = Bench {
        candidate,
        place,
        pump,
        found,
    };
    if found.grade == Grade::Good {
        return bench.if_needed();
    }
    let steps = bench.steps();
    for size in 1..=MOST_STEPS {
        let fixes = bench.sets(&steps, size, Grade::Good);
        if !fixes.is_empty() {
            return fixes;
        }
    }
    bench.best_of_part(&steps)
}

impl Bench<'_> {
    /// The grade with all of some steps done.
    fn with(&self, steps: &[&Step]) -> Grade {
        let (mut place, mut candidate) = (self.place.clone(), self.candidate.clone());
        for edit in steps.iter().flat_map(|step| step.edits()) {
            edit.apply(&mut place, &mut candidate);
        }
        judged(&candidate, &place, self.pump, None).grade
    }

    /// Sets of so many steps that come to a grade, in the order of their efforts.
    fn sets(&self, steps: &[Step], size: usize, wanted: Grade) -> Vec<Fix> {
        let mut fixes: Vec<Fix> = Vec::new();
        for set in combinations(steps, size) {
            let apart = (0..set.len()).all(|i| (0..i).all(|j| !set[i].same_kind(set[j])));
            let alike = |made: &Fix| {
                made.steps
                    .iter()
                    .zip(&set)
                    .all(|(one, other)| one.same_kind_as(other))
            };
            if !apart || fixes.len() == MOST_FIXES || fixes.iter().any(alike) {
                continue;
            }
            let then = self.with(&set);
            if then <= wanted {
                fixes.push(Fix {
                    steps: set.into_iter().cloned().collect(),
                    then,
                    if_needed: false,
                });
            }
        }
        fixes
    }

    /// Where nothing makes it good, what makes it best, if that is better than it is.
    fn best_of_part(&self, steps: &[Step]) -> Vec<Fix> {
        let sets = (1..=2).flat_map(|size| combinations(steps, size));
        let best = sets.map(|set| (self.with(&set), set.len())).min();
        match best {
            Some((grade, size)) if grade < self.found.grade => self.sets(steps, size, grade),
            _ => Vec::new(),
        }
    }

    /// Of a circuit that works: a larger one where it is full, a kinder cord.
    fn if_needed(&self) -> Vec<Fix> {
        let step = self.found.all().find_map(|found| match found.cause {
            Cause::FullBreaker(_) => self.own_circuits().into_iter().next(),
            Cause::KinderCord(on) => on.wants.map(|size| Step::HeavierCord {
                size,
                length_m: on.length_m,
            }),
            _ => None,
        });
        let step = step.filter(|step| self.with(&[step]) == Grade::Good);
        step.map(|step| Fix {
            steps: vec![step],
            then: Grade::Good,
            if_needed: true,
        })
        .into_iter()
        .collect()
    }
}

/// Every choice of so many of the steps, in their order.
fn combinations(steps: &[Step], size: usize) -> Vec<Vec<&Step>> {
    if size == 0 {
        return vec![Vec::new()];
    }
    let mut sets = Vec::new();
    for (index, step) in steps.iter().enumerate() {
        for rest in combinations(&steps[index + 1..], size - 1) {
            let mut set = vec![step];
            set.extend(rest);
            sets.push(set);
        }
    }
    sets
}
