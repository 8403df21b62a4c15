//! One draw: the machine, the day, the hands and the tools as they would be.

use super::unknown::{HANDS, Spread, Unknown, Which};
use crate::assess::machine::{Supply, machine, store_m3};
use crate::assess::work::{TaskWork, beside_kg_s, slowed, task_work};
use crate::basis::{Basis, CandidateBasis, TaskBasis};
use crate::draws::Draws;
use physics::air::Air;
use physics::compressor::INTO_TANK_K;
use physics::measure::{Leak, Measured};
use physics::receiver::Receiver;
use physics::run::{Hands, Machine, Rhythm, Work};
use quantity::{Absolute, FreeAir, Gauge, PA_PER_PSI};

/// The figures of one draw.
pub(crate) struct Draw<'a> {
    unknowns: &'a [Unknown],
    /// Quantile of each.
    at: Vec<f64>,
    hands_at: f64,
}

impl<'a> Draw<'a> {
    pub fn of_index(draws: &Draws, unknowns: &'a [Unknown], index: usize) -> Self {
        let quantile = |unknown: &Unknown| {
            let (dimension, stream) = unknown.which.dimension();
            draws.quantile(index, dimension, stream)
        };
        Self {
            unknowns,
            at: unknowns.iter().map(quantile).collect(),
            hands_at: draws.quantile(index, HANDS, 0),
        }
    }

    /// Where it lies in each range.
    pub fn quantiles(&self) -> &[f64] {
        &self.at
    }

    /// The hands at a task: the same builder does not fall into the same row at each.
    pub fn hands(&self, task: usize) -> Hands {
        Hands::at((self.hands_at + 0.618_034 * task as f64).fract())
    }

    /// The figure of an unknown; of a list the one at `index`.
    fn of(&self, which: Which, index: usize) -> Option<f64> {
        let found = self.unknowns.iter().zip(&self.at);
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
    fn lowest(&self, index: usize, task: &TaskBasis) -> Gauge {
        let shift = self.of(Which::Lowest, index).unwrap_or(0.0);
        let least = task.lowest.as_pa().min(PA_PER_PSI);
        let pressure = (task.lowest.as_pa() + shift).max(least);
        Gauge::pa(pressure.min(task.setting.as_pa()))
    }

    fn task(&self, index: usize, task: &TaskBasis) -> TaskBasis {
        TaskBasis {
            lowest: self.lowest(index, task),
            rhythm: self.rhythm(index, task.rhythm),
            flow: FreeAir::m3_s(task.flow.as_m3_s() * self.factor(Which::Tool(index), 0)),
            ..task.clone()
        }
    }

    /// The whole shop as it would be, every figure typed.
    pub fn shop(&self, basis: &Basis) -> Basis {
        let mut drawn = basis.clone();
        for (index, task) in drawn.tasks.iter_mut().enumerate() {
            *task = self.task(index, task);
        }
        for (index, place) in drawn.places.iter_mut().enumerate() {
            let pressure = self.of(Which::Weather, index).map(Absolute::pa);
            let kelvin = self.of(Which::Heat, index);
            let air = Air::new(
                pressure.unwrap_or(place.air.pressure()),
                kelvin.unwrap_or(place.air.kelvin()),
                place.air.relative_humidity(),
            );
            place.air = air.unwrap_or(place.air);
        }
        drawn
    }

    /// The machine as it would be.
    pub fn candidate(&self, candidate: &CandidateBasis) -> CandidateBasis {
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
}

/// Flow and tank of a machine on trial, beside those of the candidate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Size {
    /// Times the candidate's flow.
    pub flow: f64,
    /// Times the candidate's own tank.
    pub tank: f64,
    /// What is added to its store, m³.
    pub added_m3: f64,
}

impl Size {
    pub const OWN: Self = Self {
        flow: 1.0,
        tank: 1.0,
        added_m3: 0.0,
    };
}

/// What all draws at one place share.
struct PlaceCase {
    machine: Machine,
    inlet_pa: f64,
    kelvin: f64,
    auxiliary_m3: f64,
}

/// What all draws of one task at one place share: its work at several factors on what the tool takes.
struct TaskCase {
    place: usize,
    task: usize,
    nodes: Vec<(f64, TaskWork)>,
}

/// Sums that all draws share: the line is solved and the pump tabulated once.
pub(crate) struct Case {
    basis: Basis,
    candidate: CandidateBasis,
    places: Vec<PlaceCase>,
    rows: Vec<TaskCase>,
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
    /// Solves what all draws share, for all tasks at all places or for `only` one place and task; `None` where there is no
    /// flow.
    pub fn new(
        basis: &Basis,
        candidate: &CandidateBasis,
        unknowns: &[Unknown],
        only: Option<(usize, usize)>,
    ) -> Option<Self> {
        let pump = Supply::of(candidate).0.likely()?;
        let spread = |which: Which| {
            let unknown = unknowns.iter().find(|unknown| unknown.which == which);
            unknown.and_then(|unknown| unknown.spreads.first()).copied()
        };
        let highest = CandidateBasis {
            cut_out: spread(Which::CutOut).map_or(candidate.cut_out, |spread| Gauge::pa(spread.high)),
            ..candidate.clone()
        };
        let (mut places, mut rows) = (Vec::new(), Vec::new());
        for (index, place) in basis.places.iter().enumerate() {
            let machine = machine(&highest, &pump, candidate.tank_m3.value, place);
            let asked = |task: usize| only.is_none_or(|row| row == (index, task));
            let on = basis.tasks.iter().enumerate().filter(|(_, task)| task.on);
            for (task, task_basis) in on.filter(|(task, _)| asked(*task)) {
                let range = spread(Which::Tool(task)).unwrap_or(Spread::even([1.0, 1.0]));
                let at = |factor: f64| {
                    let drawn = TaskBasis {
                        flow: FreeAir::m3_s(task_basis.flow.as_m3_s() * factor),
                        ..task_basis.clone()
                    };
                    match task_work(&drawn, &basis.line, place, machine.cut_out_pa) {
                        Ok(work) => Some((factor, work)),
                        Err(_) => None,
                    }
                };
                let nodes: Option<Vec<_>> = factors(range).into_iter().map(at).collect();
                // A line that cannot be solved leaves the row without nodes: it is a row all the same.
                rows.push(TaskCase {
                    place: index,
                    task,
                    nodes: nodes.unwrap_or_default(),
                });
            }
            places.push(PlaceCase {
                inlet_pa: place.air.pressure().as_pa(),
                kelvin: place.air.kelvin(),
                auxiliary_m3: store_m3(candidate, basis.auxiliary.as_ref(), index) - candidate.tank_m3.value,
                machine,
            });
        }
        Some(Self {
            basis: basis.clone(),
            candidate: candidate.clone(),
            places,
            rows,
        })
    }

    pub fn basis(&self) -> &Basis {
        &self.basis
    }

    /// Place and task of each row.
    pub fn rows(&self) -> impl Iterator<Item = (usize, usize)> + Clone {
        self.rows.iter().map(|row| (row.place, row.task))
    }

    /// Whether a row can be judged at all: whether its line could be solved.
    pub fn is_open(&self, row: usize) -> bool {
        self.rows.get(row).is_some_and(|row| !row.nodes.is_empty())
    }

    /// The machine at a place.
    ///
    /// Delivered flow hangs on the ratio of pressures, so that the table made for the usual air is stretched to the
    /// day's; the air's density goes with pressure over temperature.
    pub fn machine(&self, draw: &Draw, index: usize, size: Size) -> Option<Machine> {
        let place = self.places.get(index)?;
        let inlet_pa = draw.of(Which::Weather, index).unwrap_or(place.inlet_pa);
        let kelvin = draw.of(Which::Heat, index).unwrap_or(place.kelvin);
        let tank_m3 = draw.of(Which::Tank, 0).unwrap_or(self.candidate.tank_m3.value);
        let gauge = |which: Which, usual: Gauge| draw.of(which, 0).unwrap_or(usual.as_pa()) + inlet_pa;
        let denser = inlet_pa / place.inlet_pa * place.kelvin / kelvin;
        let flow = size.flow * draw.factor(Which::Flow, 0) * denser;
        Some(Machine {
            receiver: Receiver::cylinder(size.tank * tank_m3 + size.added_m3 + place.auxiliary_m3, kelvin),
            delivery: place.machine.delivery.stretched(inlet_pa / place.inlet_pa, flow),
            in_kelvin: kelvin + INTO_TANK_K,
            cut_in_pa: gauge(Which::CutIn, self.candidate.cut_in),
            cut_out_pa: gauge(Which::CutOut, self.candidate.cut_out),
            leak_kg_s_pa: draw.of(Which::Leak, 0).unwrap_or(0.0),
        })
    }

    /// The work of a row. The line's pressures hang on ṁ² T and the tool's flow on p/√T, so that both tables hold on
    /// a warmer day with the flow alone changed; between two tools they are taken as straight. Where the line does
    /// not pass the pressure it is solved anew.
    pub fn work(&self, row: usize, draw: &Draw) -> Option<Work> {
        let row = self.rows.get(row)?;
        let place = self.places.get(row.place)?;
        let task = self.basis.tasks.get(row.task)?;
        let factor = draw.factor(Which::Tool(row.task), 0);
        let inlet_pa = draw.of(Which::Weather, row.place).unwrap_or(place.inlet_pa);
        let kelvin = draw.of(Which::Heat, row.place).unwrap_or(place.kelvin);
        let tool_pa = draw.lowest(row.task, task).as_pa() + inlet_pa;
        let after = row.nodes.iter().position(|(node, _)| *node >= factor - 1e-9);
        let after = after.unwrap_or(row.nodes.len().saturating_sub(1));
        let ((low, below), (high, above)) = (row.nodes.get(after.saturating_sub(1))?, row.nodes.get(after)?);
        let share = if high > low {
            (factor - low) / (high - low)
        } else {
            0.0
        };
        let straight = |one: f64, other: f64| one + (other - one) * share;
        let enough_pa = straight(below.enough_for(tool_pa), above.enough_for(tool_pa));
        if !enough_pa.is_finite() {
            return self.plain_work(row, draw);
        }
        let cooler = (place.kelvin / kelvin).sqrt();
        Some(Work {
            draw: below.work.draw.towards(&above.work.draw, share, cooler),
            enough_pa,
            rhythm: slowed(
                draw.rhythm(row.task, task.rhythm),
                straight(below.slower, above.slower),
            ),
            beside_kg_s: self.beside(row, draw),
            ..below.work
        })
    }

    fn beside(&self, row: &TaskCase, draw: &Draw) -> f64 {
        let (Some(place), Some(task)) = (self.basis.places.get(row.place), self.basis.tasks.get(row.task))
        else {
            return 0.0;
        };
        if !task.together {
            return 0.0;
        }
        let tasks = self.basis.tasks.iter().enumerate();
        let tasks: Vec<TaskBasis> = tasks.map(|(index, task)| draw.task(index, task)).collect();
        beside_kg_s(&tasks, row.task, place)
    }

    fn plain_work(&self, row: &TaskCase, draw: &Draw) -> Option<Work> {
        let basis = draw.shop(&self.basis);
        let candidate = draw.candidate(&self.candidate);
        let (task, place) = (basis.tasks.get(row.task)?, basis.places.get(row.place)?);
        let top_pa = candidate.cut_out.at(place.air.pressure()).as_pa();
        match task_work(task, &basis.line, place, top_pa) {
            Ok(work) => Some(Work {
                beside_kg_s: beside_kg_s(&basis.tasks, row.task, place),
                ..work.work
            }),
            // What is refused for one tool of the range is a draw in which it is not done.
            Err(_) => None,
        }
    }
}
