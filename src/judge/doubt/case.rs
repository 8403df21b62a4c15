//! One draw, judged: the quick way, and as a whole shop for the plain way.

use crate::assess::machine::{Supply, machine, store_m3};
use crate::assess::work::{TaskWork, task_work};
use crate::assess::{WAIT_MOST, WAIT_NOTICED};
use crate::basis::{Basis, CandidateBasis};
use crate::doubt::unknown::{Spread, Unknown, Which};
use physics::air::Air;
use physics::compressor::{GAMMA, INTO_TANK_K, Pump};
use physics::measure::{Leak, Measured};
use physics::receiver::Receiver;
use physics::run::{Machine, Rhythm, Work, longest_trigger_s, quick_wait};
use quantity::{Absolute, FreeAir, Gauge, PA_PER_PSI};

/// What a machine does for a task, as coarsely as it is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Class {
    /// Nobody waits; the motor may run hard.
    Keeps,
    /// Somebody waits.
    Waits,
    /// Not to be done with it.
    WillNot,
}

/// A share of waiting above every other: what will not do.
pub(super) const NEVER: f64 = 1.0;

/// The figures of one draw.
pub(super) struct Draw<'a> {
    pub unknowns: &'a [Unknown],
    /// Quantile of each.
    pub at: &'a [f64],
}

impl Draw<'_> {
    /// The figure of an unknown; of a list the one at `index`.
    fn of(&self, which: Which, index: usize) -> Option<f64> {
        let found = self.unknowns.iter().zip(self.at);
        let (unknown, at) = found.into_iter().find(|(unknown, _)| unknown.which == which)?;
        Some(unknown.spreads.get(index)?.at(*at))
    }

    fn factor(&self, which: Which, index: usize) -> f64 {
        self.of(which, index).unwrap_or(1.0)
    }

    fn rhythm(&self, task: usize, rhythm: Rhythm) -> Rhythm {
        Rhythm {
            on_s: rhythm.on_s * self.factor(Which::Trigger, task),
            off_s: rhythm.off_s,
            spell_s: rhythm.spell_s * self.factor(Which::Spell, task),
            pause_s: rhythm.pause_s * self.factor(Which::Pause, task),
        }
    }

    /// The lowest useful pressure, never above the setting.
    fn lowest(&self, basis: &Basis, task: usize) -> Gauge {
        let Some(task_basis) = basis.tasks.get(task) else {
            return Gauge::pa(0.0);
        };
        let shift = self.of(Which::Lowest, task).unwrap_or(0.0);
        let least = task_basis.lowest.as_pa().min(PA_PER_PSI);
        let pressure = (task_basis.lowest.as_pa() + shift).max(least);
        Gauge::pa(pressure.min(task_basis.setting.as_pa()))
    }

    /// The whole shop and the machine as they would be, every figure typed: for the plain judgement.
    pub fn shop(&self, basis: &Basis, candidate: &CandidateBasis) -> (Basis, CandidateBasis) {
        let mut basis = basis.clone();
        for task in 0..basis.tasks.len() {
            let lowest = self.lowest(&basis, task);
            if let Some(drawn) = basis.tasks.get_mut(task) {
                drawn.lowest = lowest;
                drawn.rhythm = self.rhythm(task, drawn.rhythm);
                let taken = drawn.flow.as_m3_s() * self.factor(Which::Tool(task), 0);
                drawn.flow = FreeAir::m3_s(taken);
            }
        }
        for (index, place) in basis.places.iter_mut().enumerate() {
            let pressure = self.of(Which::Weather, index).map(Absolute::pa);
            let kelvin = self.of(Which::Heat, index);
            let air = Air::new(
                pressure.unwrap_or(place.air.pressure()),
                kelvin.unwrap_or(place.air.kelvin()),
                place.air.relative_humidity(),
            );
            place.air = air.unwrap_or(place.air);
        }
        (basis, self.candidate(candidate))
    }

    fn candidate(&self, candidate: &CandidateBasis) -> CandidateBasis {
        let mut drawn = candidate.clone();
        drawn.tank_m3.value = self.of(Which::Tank, 0).unwrap_or(drawn.tank_m3.value);
        drawn.cut_in = self.of(Which::CutIn, 0).map_or(drawn.cut_in, Gauge::pa);
        drawn.cut_out = self.of(Which::CutOut, 0).map_or(drawn.cut_out, Gauge::pa);
        let leak = self.of(Which::Leak, 0).map(|kg_s_pa| Leak {
            kg_s_pa,
            error_kg_s_pa: 0.0,
        });
        drawn.measured = Some(Measured {
            air: candidate
                .measured
                .map_or(physics::air::RATING, |measured| measured.air),
            delivered: candidate.measured.and_then(|measured| measured.delivered),
            leak,
        });
        drawn
    }

    /// The machine's delivery curve.
    pub fn pump(&self, candidate: &CandidateBasis) -> Option<Pump> {
        let (supply, _) = Supply::of(candidate);
        Some(supply.likely()?.scaled(self.factor(Which::Flow, 0)))
    }
}

/// What all draws at one place share.
struct PlaceCase {
    machine: Machine,
    density_per_pa: f64,
    inlet_pa: f64,
    kelvin: f64,
}

/// What all draws of one task at one place share: its work at several factors on what the tool takes.
struct TaskCase {
    place: usize,
    task: usize,
    nodes: Vec<(f64, TaskWork)>,
}

/// Sums that all draws share.
pub(super) struct Case {
    basis: Basis,
    candidate: CandidateBasis,
    auxiliary_m3: Vec<f64>,
    places: Vec<PlaceCase>,
    tasks: Vec<TaskCase>,
}

/// Factors at which the line is solved: between them it is taken as straight.
fn factors(spread: Spread) -> Vec<f64> {
    let mut factors = vec![
        spread.low,
        0.5 * (spread.low + spread.likely),
        spread.likely,
        0.5 * (spread.likely + spread.high),
        spread.high,
    ];
    factors.dedup_by(|one, other| (*one - *other).abs() < 1e-6);
    factors
}

impl Case {
    /// Solves what all draws share.
    pub fn new(basis: &Basis, candidate: &CandidateBasis, unknowns: &[Unknown]) -> Option<Self> {
        let (supply, _) = Supply::of(candidate);
        let pump = supply.likely()?;
        let spread = |which: Which| {
            let unknown = unknowns.iter().find(|unknown| unknown.which == which);
            unknown.and_then(|unknown| unknown.spreads.first()).copied()
        };
        let highest = CandidateBasis {
            cut_out: spread(Which::CutOut).map_or(candidate.cut_out, |spread| Gauge::pa(spread.high)),
            ..candidate.clone()
        };
        let (mut places, mut tasks) = (Vec::new(), Vec::new());
        for (index, place) in basis.places.iter().enumerate() {
            let machine = machine(&highest, &pump, candidate.tank_m3.value, place);
            for (task, task_basis) in basis.tasks.iter().enumerate().filter(|(_, task)| task.on) {
                let range = spread(Which::Tool(task)).unwrap_or(Spread::even([1.0, 1.0]));
                let at = |factor: f64| {
                    let flow = FreeAir::m3_s(task_basis.flow.as_m3_s() * factor);
                    let drawn = crate::basis::TaskBasis {
                        flow,
                        ..task_basis.clone()
                    };
                    let work = task_work(&drawn, &basis.line, place, machine.cut_out_pa).ok()?;
                    Some((factor, work))
                };
                let nodes: Option<Vec<_>> = factors(range).into_iter().map(at).collect();
                if let Some(nodes) = nodes {
                    tasks.push(TaskCase {
                        place: index,
                        task,
                        nodes,
                    });
                }
            }
            let inlet_pa = place.air.pressure().as_pa();
            places.push(PlaceCase {
                machine,
                density_per_pa: 1.0 / inlet_pa,
                inlet_pa,
                kelvin: place.air.kelvin(),
            });
        }
        let extra = |index| store_m3(candidate, basis.auxiliary.as_ref(), index) - candidate.tank_m3.value;
        (!tasks.is_empty()).then(|| Self {
            auxiliary_m3: (0..basis.places.len()).map(extra).collect(),
            basis: basis.clone(),
            candidate: candidate.clone(),
            places,
            tasks,
        })
    }

    /// Place and task of each row, in the order in which [`Self::judge`] gives their waits.
    pub fn rows(&self) -> impl Iterator<Item = (usize, usize)> {
        self.tasks.iter().map(|row| (row.place, row.task))
    }

    /// Machines at all places.
    ///
    /// Delivered flow hangs on the ratio of pressures, so that the table made for the usual air is stretched to the
    /// day's; the air's density goes with pressure over temperature.
    fn machines(&self, draw: &Draw) -> Vec<Machine> {
        let flow = draw.factor(Which::Flow, 0);
        let candidate = draw.candidate(&self.candidate);
        let leak = draw.of(Which::Leak, 0).unwrap_or(0.0);
        let places = self.places.iter().enumerate();
        places
            .map(|(index, place)| {
                let inlet_pa = draw.of(Which::Weather, index).unwrap_or(place.inlet_pa);
                let kelvin = draw.of(Which::Heat, index).unwrap_or(place.kelvin);
                let extra = self.auxiliary_m3.get(index).copied().unwrap_or(0.0);
                let denser = inlet_pa * place.density_per_pa * place.kelvin / kelvin;
                Machine {
                    receiver: Receiver::cylinder(candidate.tank_m3.value + extra, kelvin),
                    delivery: place
                        .machine
                        .delivery
                        .stretched(inlet_pa / place.inlet_pa, flow * denser),
                    in_kelvin: kelvin + INTO_TANK_K,
                    cut_in_pa: candidate.cut_in.as_pa() + inlet_pa,
                    cut_out_pa: candidate.cut_out.as_pa() + inlet_pa,
                    leak_kg_s_pa: leak,
                }
            })
            .collect()
    }

    /// The work of a row. The line's pressures hang on ṁ² T and the tool's flow on p/√T, so that both tables hold on
    /// a warmer day with the flow alone changed; between two tools they are taken as straight. Where the line does
    /// not pass the pressure it is solved anew.
    fn work(&self, row: &TaskCase, draw: &Draw) -> Option<Work> {
        let place = self.places.get(row.place)?;
        let task = self.basis.tasks.get(row.task)?;
        let factor = draw.factor(Which::Tool(row.task), 0);
        let inlet_pa = draw.of(Which::Weather, row.place).unwrap_or(place.inlet_pa);
        let kelvin = draw.of(Which::Heat, row.place).unwrap_or(place.kelvin);
        let tool_pa = draw.lowest(&self.basis, row.task).as_pa() + inlet_pa;
        let after = row.nodes.iter().position(|(node, _)| *node >= factor - 1e-9);
        let after = after.unwrap_or(row.nodes.len() - 1);
        let ((low, below), (high, above)) = (row.nodes.get(after.saturating_sub(1))?, row.nodes.get(after)?);
        let share = if high > low {
            (factor - low) / (high - low)
        } else {
            0.0
        };
        let straight = |one: f64, other: f64| one + (other - one) * share;
        let enough_pa = straight(below.enough_for(tool_pa), above.enough_for(tool_pa));
        let (Some(full_below), Some(full_above), true) = (below.full, above.full, enough_pa.is_finite())
        else {
            return self.plain_work(row, draw);
        };
        let full_pa = straight(full_below.as_pa(), full_above.as_pa()) + inlet_pa - place.inlet_pa;
        let cooler = (place.kelvin / kelvin).sqrt();
        Some(Work {
            draw: below.work.draw.towards(&above.work.draw, share, cooler),
            enough_pa,
            resume_pa: full_pa.max(enough_pa) * 1.02,
            rhythm: draw.rhythm(row.task, task.rhythm),
            by_air: below.work.by_air,
            beside_kg_s: below.work.beside_kg_s,
        })
    }

    fn plain_work(&self, row: &TaskCase, draw: &Draw) -> Option<Work> {
        let (basis, candidate) = draw.shop(&self.basis, &self.candidate);
        let (task, place) = (basis.tasks.get(row.task)?, basis.places.get(row.place)?);
        let top_pa = candidate.cut_out.at(place.air.pressure()).as_pa();
        task_work(task, &basis.line, place, top_pa)
            .map(|work| work.work)
            .ok()
    }

    /// The share of waiting of each row; [`NEVER`] where it will not do.
    pub fn judge(&self, draw: &Draw) -> Vec<f64> {
        let machines = self.machines(draw);
        let wait = |row: &TaskCase| {
            let work = self.work(row, draw)?;
            Some(waiting(machines.get(row.place)?, &work))
        };
        self.tasks.iter().map(|row| wait(row).unwrap_or(NEVER)).collect()
    }
}

/// The class of a share of waiting.
pub(super) fn class(wait: f64) -> Class {
    match wait {
        wait if wait > WAIT_MOST => Class::WillNot,
        wait if wait > WAIT_NOTICED => Class::Waits,
        _ => Class::Keeps,
    }
}

/// As [`crate::assess::judge`], without what a count does not need.
fn waiting(machine: &Machine, work: &Work) -> f64 {
    if work.enough_pa >= machine.cut_out_pa || (!one_pull_for_sure(machine, work) && !one_pull(machine, work))
    {
        return NEVER;
    }
    let wait = quick_wait(machine, work);
    if wait.hopeless || wait.share > WAIT_MOST {
        NEVER
    } else {
        wait.share
    }
}

/// The seconds that a full tank must hold.
fn pull_s(work: &Work) -> f64 {
    0.5 * work.rhythm.on_s.min(10.0)
}

fn one_pull(machine: &Machine, work: &Work) -> bool {
    longest_trigger_s(machine, work).is_none_or(|seconds| seconds >= pull_s(work))
}

/// Without heat from the walls and with the motor off the pressure goes as the mass to the γ: what a tank holds then,
/// it holds.
fn one_pull_for_sure(machine: &Machine, work: &Work) -> bool {
    let from_pa = machine.cut_out_pa;
    let full_kg = machine.receiver.state(from_pa, machine.receiver.wall_k).mass_kg;
    let taken_kg = pull_s(work) * (work.draw.at(from_pa) + machine.leak_kg_s_pa * from_pa);
    from_pa * (1.0 - taken_kg / full_kg).max(0.0).powf(GAMMA) > work.enough_pa
}
