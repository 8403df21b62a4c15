//! The inverse: what to look for, from a shop alone.

use std::cell::Cell;

use crate::assess::machine::machine;
use crate::assess::work::{TaskWork, task_work};
use crate::assess::{Outcome, judge};
use crate::basis::vessel::Vessel;
use crate::basis::{Basis, CandidateBasis, StartClue};
use physics::compressor::Pump;
use physics::run::Machine;
use quantity::{FreeAir, Gauge, Known, M3_PER_GALLON};
use shop::MachineKind;

/// Receivers that shops sell, US gallons. Common practice, no source.
pub const TANKS_GAL: [f64; 12] = [2.0, 4.0, 6.0, 8.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 60.0, 80.0];

/// Largest tank of the list that two people still move, gal: the flow is raised by twentieths, up to half as
/// much again, before a larger one is asked for. Common practice, no source.
pub const MOVABLE_GAL: f64 = 30.0;
/// How often the flow is raised by a twentieth to stay with a movable tank: 1.05⁸ is about 1.5.
const RAISES: usize = 8;

/// What to look for.
#[derive(Clone, Debug, PartialEq)]
pub struct Window {
    /// Least delivered flow at 90 psi on the rating basis.
    pub flow: FreeAir,
    /// How often the flow was raised by a twentieth to stay with a movable tank.
    pub raised: usize,
    /// What the task that asks for the flow draws on the trigger, kg/s.
    pub asked_kg_s: f64,
    /// Least tank with that flow, m³.
    pub tank_m3: f64,
    /// The task and the place (indices into the basis) that ask for the flow.
    pub flow_by: (usize, usize),
    /// Those that ask for the tank, where a smaller one of the list would not do.
    pub tank_by: Option<Failing>,
    /// The next smaller tank of the list and the flow that it would take, at most twice as much.
    pub smaller: Option<(f64, FreeAir)>,
    /// Tasks that no machine on the list will do through this line or switch.
    pub beyond: Vec<usize>,
}

/// A task at a place (indices into the basis) and how it fails.
pub type Failing = (usize, usize, Outcome);

/// One task at one place, ready to be tried on machines.
struct Trial {
    task: usize,
    place: usize,
    work: TaskWork,
    mean_kg_s: f64,
}

/// The machine that a window is drawn for: one stage, 90 to 120 psi, duty of 70 %, typical clearance.
/// Common practice, no source.
pub fn usual(basis: &Basis) -> CandidateBasis {
    CandidateBasis {
        name: String::new(),
        kind: MachineKind::PistonOneStage,
        pump: None,
        vessel: Vessel::default(),
        sound_power_db: None,
        flows: Vec::new(),
        pressure_stated: true,
        tank_m3: Known::assumed(20.0 * M3_PER_GALLON),
        volts: basis
            .places
            .first()
            .map_or(Known::assumed(120.0), |place| place.volts),
        amps: None,
        connections: Vec::new(),
        unread: None,
        power_w: None,
        start: StartClue::Unknown,
        cut_in: Gauge::psi(90.0),
        cut_out: Gauge::psi(120.0),
        switch_given: [false; 2],
        duty: Known::assumed(0.7),
        sound: None,
        mass_kg: None,
        wheels: false,
        price: None,
        measured: None,
    }
}

fn trials(basis: &Basis, candidate: &CandidateBasis) -> Vec<Trial> {
    let mut trials = Vec::new();
    for (place, air) in basis.places.iter().enumerate() {
        let top_pa = candidate.cut_out.at(air.air.pressure()).as_pa();
        for (index, task) in basis.tasks.iter().enumerate().filter(|(_, task)| task.on) {
            if let Ok(work) = task_work(task, &basis.line, air, top_pa) {
                let mean_kg_s = work.asked_kg_s * task.rhythm.long_share();
                trials.push(Trial {
                    task: index,
                    place,
                    work,
                    mean_kg_s,
                });
            }
        }
    }
    trials
}

/// A tenth of a cfm upwards: nobody shops for hundredths.
fn rounded_up(flow: FreeAir) -> FreeAir {
    FreeAir::cfm((flow.as_cfm() * 10.0 - 1e-6).ceil() / 10.0)
}

/// Machines of the usual kind tried on every task of a shop at every place.
pub(crate) struct Search<'a> {
    basis: &'a Basis,
    candidate: CandidateBasis,
    pump: Pump,
    trials: Vec<Trial>,
    hardest: Cell<usize>,
}

impl Search<'_> {
    /// Whether there is nothing to try.
    pub(crate) fn is_empty(&self) -> bool {
        self.trials.is_empty()
    }

    /// All trials by index, one of them first.
    pub(crate) fn beginning_with(&self, first: usize) -> impl Iterator<Item = usize> + use<> {
        std::iter::once(first).chain((0..self.trials.len()).filter(move |index| *index != first))
    }

    /// Whether one trial's outcome with such a machine is not below `severity`.
    pub(crate) fn fails_one(&self, trial: usize, flow: FreeAir, tank_m3: f64, severity: f64) -> bool {
        let trial = self.trials.get(trial);
        let outcome = trial.and_then(|trial| self.outcome(trial, flow, tank_m3));
        outcome.is_none_or(|outcome| outcome.severity() >= severity)
    }

    fn machine(&self, flow: FreeAir, tank_m3: f64, place: usize) -> Option<Machine> {
        let pump = self.pump.scaled(flow.as_cfm());
        Some(machine(
            &self.candidate,
            &pump,
            tank_m3,
            self.basis.places.get(place)?,
        ))
    }

    fn outcome(&self, trial: &Trial, flow: FreeAir, tank_m3: f64) -> Option<Outcome> {
        let machine = self.machine(flow, tank_m3, trial.place)?;
        Some(judge(&machine, &trial.work, self.candidate.duty.value).0)
    }

    /// A trial that does not keep up with such a machine.
    fn fails(&self, flow: FreeAir, tank_m3: f64) -> Option<Failing> {
        self.fails_at(flow, tank_m3, 1.0)
    }

    /// A trial whose outcome with such a machine is not below `severity` (see [`Outcome::severity`]).
    pub(crate) fn fails_at(&self, flow: FreeAir, tank_m3: f64, severity: f64) -> Option<Failing> {
        // What failed last is the likeliest to fail again.
        let last = self.hardest.get();
        for index in self.beginning_with(last) {
            let trial = self.trials.get(index)?;
            let outcome = self.outcome(trial, flow, tank_m3)?;
            if outcome.severity() >= severity {
                self.hardest.set(index);
                return Some((trial.task, trial.place, outcome));
            }
        }
        None
    }

    /// The trial that fares worst with such a machine.
    pub(crate) fn worst(&self, flow: FreeAir, tank_m3: f64) -> Option<Failing> {
        let mut worst: Option<Failing> = None;
        for trial in &self.trials {
            let outcome = self.outcome(trial, flow, tank_m3)?;
            if worst.is_none_or(|(_, _, so_far)| outcome.severity() > so_far.severity()) {
                worst = Some((trial.task, trial.place, outcome));
            }
        }
        worst
    }

    /// Flow whose long-run average at mid-band covers the most thirsty task within the duty.
    fn average_flow(&self) -> Option<(FreeAir, &Trial)> {
        let mut most: Option<(f64, &Trial)> = None;
        for trial in &self.trials {
            let machine = self.machine(FreeAir::cfm(1.0), self.candidate.tank_m3.value, trial.place)?;
            let cfm = trial.mean_kg_s
                / self.candidate.duty.value
                / machine.delivery.at(machine.mid_band_pa()).max(1e-12);
            if most.is_none_or(|(so_far, _)| cfm > so_far) {
                most = Some((cfm, trial));
            }
        }
        most.map(|(cfm, trial)| (rounded_up(FreeAir::cfm(cfm)), trial))
    }

    /// Index of the smallest tank of the list that does with this flow, and what the next smaller fails at.
    fn smallest_tank(&self, flow: FreeAir) -> Option<(usize, Option<Failing>)> {
        let fails = |index: usize| self.fails(flow, TANKS_GAL[index] * M3_PER_GALLON);
        let (mut low, mut high) = (0, TANKS_GAL.len() - 1);
        if fails(high).is_some() {
            return None;
        }
        while low < high {
            let middle = (low + high) / 2;
            if fails(middle).is_some() {
                low = middle + 1
            } else {
                high = middle
            }
        }
        let by = low.checked_sub(1).and_then(fails);
        Some((low, by))
    }
}

/// The search for a shop, and the tasks that no machine of the usual kind does through this line.
pub(crate) fn search(basis: &Basis) -> Option<(Search<'_>, Vec<usize>)> {
    let candidate = usual(basis);
    let pump = Pump::of_one_flow(candidate.kind, FreeAir::cfm(1.0), Gauge::psi(90.0)).ok()?;
    let all = trials(basis, &candidate);
    let enough = |trial: &Trial| {
        let place = &basis.places[trial.place];
        trial.work.work.enough_pa < candidate.cut_out.at(place.air.pressure()).as_pa()
    };
    let mut beyond: Vec<usize> = all
        .iter()
        .filter(|trial| !enough(trial))
        .map(|trial| trial.task)
        .collect();
    beyond.sort_unstable();
    beyond.dedup();
    let trials = all.into_iter().filter(enough).collect();
    let search = Search {
        basis,
        candidate,
        pump,
        trials,
        hardest: Cell::new(0),
    };
    Some((search, beyond))
}

/// The shopping window: the least flow that covers the long average of every task within the duty, and the
/// least tank that with this flow covers every spell, at every place; somewhat more flow where that spares a tank
/// which two people cannot move.
///
/// `None` where no task is on, no place is given, or nothing on the list of tanks does with any flow.
pub fn window(basis: &Basis) -> Option<Window> {
    let (search, beyond) = search(basis)?;
    let (mut flow, thirsty) = search.average_flow()?;
    let mut found = None;
    for raised in 0..=RAISES {
        if let Some((tank, tank_by)) = search.smallest_tank(flow) {
            if TANKS_GAL[tank] <= MOVABLE_GAL || found.is_none() {
                found = Some((flow, tank, tank_by, raised));
            }
            if TANKS_GAL[tank] <= MOVABLE_GAL {
                break;
            }
        }
        flow = rounded_up(FreeAir::cfm(flow.as_cfm() * 1.05));
    }
    let (flow, tank, tank_by, raised) = found?;
    let smaller = smaller(&search, flow, tank);
    Some(Window {
        flow,
        tank_m3: TANKS_GAL[tank] * M3_PER_GALLON,
        flow_by: (thirsty.task, thirsty.place),
        raised,
        asked_kg_s: thirsty.work.asked_kg_s,
        tank_by,
        smaller,
        beyond,
    })
}

/// The next smaller tank and the flow that makes up for it, by halving between the flow and twice the flow.
fn smaller(search: &Search, flow: FreeAir, tank: usize) -> Option<(f64, FreeAir)> {
    let tank_m3 = TANKS_GAL[tank.checked_sub(1)?] * M3_PER_GALLON;
    let (mut low, mut high) = (flow.as_cfm(), 2.0 * flow.as_cfm());
    if search.fails(FreeAir::cfm(high), tank_m3).is_some() {
        return None;
    }
    for _ in 0..5 {
        let middle = 0.5 * (low + high);
        if search.fails(FreeAir::cfm(middle), tank_m3).is_some() {
            low = middle
        } else {
            high = middle
        }
    }
    Some((tank_m3, rounded_up(FreeAir::cfm(high))))
}
