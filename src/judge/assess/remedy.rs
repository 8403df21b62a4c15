//! The smallest change that mends what limits, found by trying.

use super::machine::{machine, store_m3};
use super::work::{TaskWork, bore_wanted, task_work};
use super::{Facts, Outcome, judge};
use crate::basis::{Basis, CandidateBasis, PlaceBasis, TaskBasis};
use crate::window::TANKS_GAL;
use physics::compressor::Pump;
use physics::line::Leg;
use quantity::{Gauge, M3_PER_GALLON};

/// Halvings in a search: an interval shrinks to a sixty-fourth.
const HALVINGS: usize = 6;
/// Longest time off the trigger that is tried, as a multiple of the time on it.
const LONGEST_OFF: f64 = 12.0;
/// Flows that are tried, as a multiple of the machine's.
const MOST_FLOW: f64 = 6.0;

/// What would mend a task that waits or runs hard at a place.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct TaskRemedies {
    /// Least auxiliary receiver of the list, m³.
    pub auxiliary_m3: Option<f64>,
    /// Least time off the trigger between pulls, s.
    pub off_s: Option<f64>,
    /// Least flow on the rating basis at 90 psi, as a multiple of the machine's.
    pub flow_factor: Option<f64>,
    /// Least trunk bore that keeps the line's loss within its share, where the present one does not, m.
    pub trunk_bore_m: Option<f64>,
    /// Least whip bore, likewise, m.
    pub whip_bore_m: Option<f64>,
}

struct Bench<'a> {
    basis: &'a Basis,
    candidate: &'a CandidateBasis,
    pump: Pump,
    place: &'a PlaceBasis,
    store_m3: f64,
    /// The outcome must be better than this: no waits, or, where there are none, no hard running.
    below: f64,
}

impl Bench<'_> {
    fn mends(&self, pump: &Pump, store_m3: f64, work: &TaskWork) -> bool {
        let machine = machine(self.candidate, pump, store_m3, self.place);
        judge(&machine, work, self.candidate.duty.value).0.severity() < self.below
    }

    fn auxiliary(&self, work: &TaskWork) -> Option<f64> {
        let mends = |gal: f64| self.mends(&self.pump, self.store_m3 + gal * M3_PER_GALLON, work);
        let (mut low, mut high) = (0, TANKS_GAL.len() - 1);
        if !mends(TANKS_GAL[high]) {
            return None;
        }
        while low < high {
            let middle = (low + high) / 2;
            if mends(TANKS_GAL[middle]) {
                high = middle
            } else {
                low = middle + 1
            }
        }
        Some(TANKS_GAL[low] * M3_PER_GALLON)
    }

    fn off(&self, work: &TaskWork) -> Option<f64> {
        let rhythm = work.work.rhythm;
        let with = |off_s: f64| {
            let mut eased = work.clone();
            eased.work.rhythm.off_s = off_s;
            self.mends(&self.pump, self.store_m3, &eased)
        };
        halved(rhythm.off_s, LONGEST_OFF * rhythm.on_s, with)
    }

    fn flow(&self, work: &TaskWork) -> Option<f64> {
        let rated = self.pump.rated(Gauge::psi(90.0)).as_cfm();
        let does = |tenths: f64| self.mends(&self.pump.scaled(0.1 * tenths / rated), self.store_m3, work);
        // In tenths of a cfm, as labels and the window go.
        let (mut low, mut high) = ((10.0 * rated).floor(), (10.0 * MOST_FLOW * rated).ceil());
        if !does(high) {
            return None;
        }
        while high - low > 1.0 {
            let middle = (0.5 * (low + high)).floor();
            if does(middle) { high = middle } else { low = middle }
        }
        Some(0.1 * high / rated)
    }

    fn bores(&self, task: &TaskBasis) -> [Option<f64>; 2] {
        let wanted = |leg| bore_wanted(task, &self.basis.line, self.place, leg);
        [wanted(Leg::Trunk), wanted(Leg::Whip)]
    }
}

/// The least value between `low` (which does not do) and `high` that does, by halving; `None` if `high` does not.
fn halved(low: f64, high: f64, does: impl Fn(f64) -> bool) -> Option<f64> {
    if !does(high) {
        return None;
    }
    let (mut low, mut high) = (low, high);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if does(middle) { high = middle } else { low = middle }
    }
    Some(high)
}

/// What would mend `task` (an index into the basis) at `place`; nothing where it keeps up.
pub fn task_remedies(
    basis: &Basis,
    candidate: &CandidateBasis,
    facts: &Facts,
    place: usize,
    task: usize,
) -> Option<TaskRemedies> {
    let found = facts
        .places
        .get(place)?
        .tasks
        .iter()
        .find(|row| row.task == task)?;
    if found.outcome == Outcome::KeepsUp {
        return None;
    }
    let at = basis.places.get(place)?;
    let store_m3 = store_m3(candidate, basis.auxiliary.as_ref(), place);
    let pump = facts.supply.likely()?;
    let below = if found.outcome == Outcome::RunsHard {
        1.0
    } else {
        2.0
    };
    let bench = Bench {
        basis,
        candidate,
        pump,
        place: at,
        store_m3,
        below,
    };
    let top_pa = candidate.cut_out.at(at.air.pressure()).as_pa();
    let task = basis.tasks.get(task)?;
    let work = task_work(task, &basis.line, at, top_pa).ok()?;
    let [trunk_bore_m, whip_bore_m] = bench.bores(task);
    Some(TaskRemedies {
        auxiliary_m3: bench.auxiliary(&work),
        off_s: bench.off(&work),
        flow_factor: bench.flow(&work),
        trunk_bore_m,
        whip_bore_m,
    })
}
