//! The smallest change that mends what limits, found by trying.

use super::Facts;
use super::work::bore_wanted;
use crate::basis::{Basis, CandidateBasis};
use crate::grade::Grade;
use crate::verdict::{Paused, Size, Sizing, good_from, record_of};
use crate::window::TANKS_GAL;
use physics::compressor::Pump;
use physics::line::Leg;
use quantity::{Gauge, M3_PER_GALLON};

/// Halvings in a search: an interval shrinks to a sixteenth.
const HALVINGS: usize = 4;
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

/// The first of a list with which a row is good, by halving.
fn first_good(sizing: &mut Sizing, sizes: &[Size]) -> Option<usize> {
    let least = good_from(sizing.draws());
    let (mut low, mut high) = (0, sizes.len());
    while low < high {
        let middle = (low + high) / 2;
        match sizing.reaches(0, *sizes.get(middle)?, least) {
            Ok(true) => high = middle,
            Ok(false) => low = middle + 1,
            // Its budget has no end.
            Err(Paused) => return None,
        }
    }
    (low < sizes.len()).then_some(low)
}

fn auxiliary(sizing: &mut Sizing) -> Option<f64> {
    let added = TANKS_GAL.map(|gal| Size {
        added_m3: gal * M3_PER_GALLON,
        ..Size::OWN
    });
    let found = first_good(sizing, &added)?;
    added.get(found).map(|size| size.added_m3)
}

/// In tenths of a cfm, as labels go.
fn flow(sizing: &mut Sizing, pump: &Pump) -> Option<f64> {
    let rated = pump.rated(Gauge::psi(90.0)).as_cfm();
    let tenths = (10.0 * rated).floor() as usize + 1..=(10.0 * MOST_FLOW * rated).ceil() as usize;
    let sizes: Vec<Size> = tenths
        .map(|tenths| Size {
            flow: 0.1 * tenths as f64 / rated,
            ..Size::OWN
        })
        .collect();
    let found = first_good(sizing, &sizes)?;
    sizes.get(found).map(|size| size.flow)
}

fn off(basis: &Basis, candidate: &CandidateBasis, place: usize, task: usize) -> Option<f64> {
    let rhythm = basis.tasks.get(task)?.rhythm;
    let with = |off_s: f64| {
        let mut eased = basis.clone();
        if let Some(task) = eased.tasks.get_mut(task) {
            task.rhythm.off_s = off_s;
        }
        record_of(&eased, candidate, place, task).is_some_and(|record| record.grade == Grade::Good)
    };
    halved(rhythm.off_s, LONGEST_OFF * rhythm.on_s, with)
}

/// What would mend `task` (an index into the basis) at `place`, so that the job is then good; nothing where it is.
pub fn task_remedies(
    basis: &Basis,
    candidate: &CandidateBasis,
    facts: &Facts,
    place: usize,
    task: usize,
) -> Option<TaskRemedies> {
    let rows = &facts.places.get(place)?.tasks;
    let found = rows.iter().find(|row| row.task == task)?;
    if found.record.grade == Grade::Good {
        return None;
    }
    let at = basis.places.get(place)?;
    let pump = facts.supply.likely()?;
    let mut sizing = Sizing::new(basis, candidate, Some((place, task)))?;
    let asked = basis.tasks.get(task)?;
    let [trunk_bore_m, whip_bore_m] =
        // A line beyond the sums has its rows say so.
        [Leg::Trunk, Leg::Whip].map(|leg| bore_wanted(asked, &basis.line, at, leg).unwrap_or(None));
    Some(TaskRemedies {
        auxiliary_m3: auxiliary(&mut sizing),
        off_s: off(basis, candidate, place, task),
        flow_factor: flow(&mut sizing, &pump),
        trunk_bore_m,
        whip_bore_m,
    })
}
