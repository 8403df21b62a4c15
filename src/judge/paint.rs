//! Paint, judged by itself: a gun within 3 psi while it sprays, and no stop inside a coat.

use physics::run::{Fineness, Hands, Machine, Run, Work, Worker, longest_trigger_s, run};
use quantity::{FreeAir, Gauge};
use shop::TaskKind;
use uom::si::f64::MassRate;
use uom::si::mass_rate::kilogram_per_second;

use crate::assess::{Facts, TaskFacts};
use crate::basis::spray::Spray;
use crate::basis::{Basis, CandidateBasis, PlaceBasis, TaskBasis};
use crate::grade::Grade;

/// A spraying task on a machine at a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coat {
    /// Index of the task into the basis.
    pub task: usize,
    /// Index of the place.
    pub place: usize,
    /// Gun and paint.
    pub spray: Spray,
    /// A color coat wants dry air all through; parts are primed with less.
    pub color: bool,
    /// Pressure at the gun while it sprays, and how low it may sink.
    pub pressures: [Gauge; 2],
    /// What the gun takes while it sprays.
    pub takes: FreeAir,
    /// [`Grade::Small`] where a usual gun fades or the painter must stop inside a coat; else as the odds have it, which know
    /// thirstier guns and slower hands.
    pub grade: Grade,
    /// Seconds on the trigger from a full tank until the gun fades; `None` is for good.
    pub fades_after_s: Option<f64>,
    /// Share of time that the motor runs while a coat goes on.
    pub running: f64,
}

/// A motor that runs more than this in a coat runs nearly nonstop: the tank gets hot, and its air wet. Judgement.
pub const NONSTOP: f64 = 0.7;

impl Coat {
    /// The motor hardly rests.
    pub fn nonstop(&self) -> bool {
        self.running > NONSTOP
    }
}

/// Waiting or weakness that is more than rounding, as a share of time.
const SEEN: f64 = 3e-4;

/// Every coat of a candidate in a shop; none where nothing is sprayed or its flow is unknown.
pub fn coats(basis: &Basis, candidate: &CandidateBasis, facts: &Facts) -> Vec<Coat> {
    let mut coats = Vec::new();
    for (place, (at, found)) in basis.places.iter().zip(&facts.places).enumerate() {
        for row in &found.tasks {
            let task = basis.tasks.get(row.task);
            let machine = found.machine.as_ref();
            let coat = task
                .zip(machine)
                .and_then(|(task, machine)| coat(candidate, at, task, row, machine));
            // A flow that is asked about holds no coat yet.
            let asked = facts
                .verdict
                .as_ref()
                .is_some_and(|verdict| verdict.asks.is_some());
            let least = if asked { Grade::Ask } else { Grade::Good };
            coats.extend(coat.map(|coat| Coat {
                place,
                grade: coat.grade.max(least),
                ..coat
            }));
        }
    }
    coats
}

/// Whether a usual gun gets its pressure on a machine at a place, through the whole of a coat and without a stop.
pub(crate) fn holds(candidate: &CandidateBasis, place: &PlaceBasis, machine: &Machine, work: &Work) -> bool {
    reaches(candidate, place, work) && {
        let found = run(machine, work, Worker::Spares, Hands::typical(), Fineness::Coarse);
        is_held(&found)
    }
}

/// The switch opens above what the gun asks for in the tank.
fn reaches(candidate: &CandidateBasis, place: &PlaceBasis, work: &Work) -> bool {
    work.enough_pa < candidate.cut_out.at(place.air.pressure()).as_pa()
}

fn is_held(found: &Run) -> bool {
    !found.hopeless && found.waiting < SEEN && found.weak < SEEN
}

fn coat(
    candidate: &CandidateBasis,
    place: &PlaceBasis,
    task: &TaskBasis,
    row: &TaskFacts,
    machine: &Machine,
) -> Option<Coat> {
    let spray = task.spray?;
    let work = &row.work.work;
    let reached = reaches(candidate, place, work);
    let found = run(machine, work, Worker::Spares, Hands::typical(), Fineness::Coarse);
    let holds = reached && is_held(&found);
    let mass = MassRate::new::<kilogram_per_second>(row.work.asked_kg_s);
    Some(Coat {
        task: row.task,
        place: 0,
        spray,
        color: task.kind == TaskKind::PaintGun,
        pressures: [task.setting, task.lowest],
        takes: FreeAir::of_mass(mass, physics::air::RATING.density()),
        grade: if holds { row.record.grade } else { Grade::Small },
        fades_after_s: if reached {
            longest_trigger_s(machine, work)
        } else {
            Some(0.0)
        },
        running: found.running,
    })
}
