//! What all draws share, and the machine and the work of one of them.

use super::draw::Draw;
use super::unknown::{Spread, Unknown, Which};
use crate::assess::machine::{Supply, machine, store_m3};
use crate::assess::work::{TaskWork, beside_kg_s, mean_kg_s, slowed, task_work};
use crate::basis::{Basis, CandidateBasis, PlaceBasis, TaskBasis};
use crate::power::stays_home;
use physics::compressor::INTO_TANK_K;
use physics::receiver::Receiver;
use physics::run::{Machine, Work};
use quantity::{FreeAir, Gauge};
use shop::catalogue::typical;
use std::cell::OnceCell;

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

/// What all draws of one task at one place share: its work at several factors on what the tool takes, once it was asked
/// for; none where the line cannot be solved.
struct TaskCase {
    place: usize,
    task: usize,
    nodes: OnceCell<Vec<(f64, TaskWork)>>,
}

/// Sums that all draws share: the line is solved and the pump tabulated once. Equal tasks at equal places are one row.
pub(crate) struct Case {
    basis: Basis,
    candidate: CandidateBasis,
    places: Vec<PlaceCase>,
    rows: Vec<TaskCase>,
    /// Place, task and row of all that is asked for.
    asked: Vec<Asked>,
    /// What each tool may take.
    tools: Vec<Spread>,
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

/// Whether two tasks differ by name alone.
fn alike(one: &TaskBasis, other: &TaskBasis) -> bool {
    let named = TaskBasis {
        index: one.index,
        name: one.name.clone(),
        unread_air: one.unread_air,
        ..other.clone()
    };
    *one == named
}

/// The first task that differs from this one by name alone: its hands and its tool are drawn for both.
pub(super) fn first_alike(tasks: &[TaskBasis], index: usize) -> usize {
    let same = tasks
        .get(index)
        .and_then(|task| tasks.iter().position(|other| alike(other, task)));
    same.unwrap_or(index)
}

/// Place, task and row of something that is asked for.
type Asked = (usize, usize, usize);

/// Place and task of each row, and what is asked for: equal tasks at equal places share a row, as do their records.
fn rows_of(
    basis: &Basis,
    candidate: &CandidateBasis,
    places: &[PlaceCase],
    only: Option<(usize, usize)>,
) -> (Vec<(usize, usize)>, Vec<Asked>) {
    let air = |(place, case): (&PlaceBasis, &PlaceCase)| (place.air, place.air_origins, case.auxiliary_m3);
    let airs: Vec<_> = basis.places.iter().zip(places).map(air).collect();
    let first = |air| airs.iter().position(|other| other == air).unwrap_or_default();
    let first_places = airs.iter().map(first);
    let tasks = 0..basis.tasks.len();
    let first_tasks: Vec<usize> = tasks.map(|task| first_alike(&basis.tasks, task)).collect();
    let (mut rows, mut asked) = (Vec::new(), Vec::new());
    // A machine that stays at home is not judged for another place.
    let comes = |place: usize| place == 0 || !stays_home(candidate, &basis.places[place], place);
    for (place, first_place) in first_places.enumerate().filter(|(place, _)| comes(*place)) {
        let tasks = basis.tasks.iter().zip(&first_tasks).enumerate();
        let wanted = |task: usize| only.is_none_or(|row| row == (place, task));
        for (task, (_, first_task)) in tasks.filter(|(task, (basis, _))| basis.on && wanted(*task)) {
            let first = (first_place, *first_task);
            let row = rows.iter().position(|row| *row == first).unwrap_or(rows.len());
            if row == rows.len() {
                rows.push(first);
            }
            asked.push((place, task, row));
        }
    }
    (rows, asked)
}

impl Case {
    /// Prepares what all draws share, for all tasks at all places or for `only` one place and task; `None` where there is
    /// no flow.
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
        let place = |(index, place)| PlaceCase {
            machine: machine(&highest, &pump, candidate.tank_m3.value, place),
            inlet_pa: place.air.pressure().as_pa(),
            kelvin: place.air.kelvin(),
            auxiliary_m3: store_m3(candidate, basis.auxiliary.as_ref(), index) - candidate.tank_m3.value,
        };
        let places: Vec<PlaceCase> = basis.places.iter().enumerate().map(place).collect();
        let tool = |task: usize| spread(Which::Tool(task)).unwrap_or(Spread::even([1.0, 1.0]));
        let (rows, asked) = rows_of(basis, candidate, &places, only);
        let row = |(place, task)| TaskCase {
            place,
            task,
            nodes: OnceCell::new(),
        };
        Some(Self {
            tools: (0..basis.tasks.len()).map(tool).collect(),
            basis: basis.clone(),
            candidate: candidate.clone(),
            places,
            rows: rows.into_iter().map(row).collect(),
            asked,
        })
    }

    /// The line solved for a row, at several factors on what the tool takes.
    fn nodes<'a>(&'a self, row: &'a TaskCase) -> &'a [(f64, TaskWork)] {
        row.nodes.get_or_init(|| self.solved(row).unwrap_or_default())
    }

    fn solved(&self, row: &TaskCase) -> Option<Vec<(f64, TaskWork)>> {
        let (place, task) = (self.basis.places.get(row.place)?, self.basis.tasks.get(row.task)?);
        let top_pa = self.places.get(row.place)?.machine.cut_out_pa;
        let at = |factor: f64| {
            let drawn = TaskBasis {
                flow: FreeAir::m3_s(task.flow.as_m3_s() * factor),
                ..task.clone()
            };
            match task_work(&drawn, &self.basis.line, place, top_pa) {
                Ok(work) => Some((factor, work)),
                Err(_) => None,
            }
        };
        factors(*self.tools.get(row.task)?).into_iter().map(at).collect()
    }

    pub fn basis(&self) -> &Basis {
        &self.basis
    }

    /// Place and task of each row; of equal ones the first.
    pub fn rows(&self) -> impl Iterator<Item = (usize, usize)> + Clone {
        self.rows.iter().map(|row| (row.place, row.task))
    }

    /// Place, task and row of all that is asked for.
    pub fn asked(&self) -> &[Asked] {
        &self.asked
    }

    /// Whether a row can be judged at all: whether its line could be solved.
    pub fn is_open(&self, row: usize) -> bool {
        self.rows.get(row).is_some_and(|row| !self.nodes(row).is_empty())
    }

    /// Whether a stop spoils a task.
    pub fn is_unbroken(&self, task: usize) -> bool {
        let task = self.basis.tasks.get(task);
        task.is_some_and(|task| typical(task.kind).unbroken)
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
        let nodes = self.nodes(row);
        let after = nodes.iter().position(|(node, _)| *node >= factor - 1e-9);
        let after = after.unwrap_or(nodes.len().saturating_sub(1));
        let ((low, below), (high, above)) = (nodes.get(after.saturating_sub(1))?, nodes.get(after)?);
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

    /// What the others draw that work at the same time.
    fn beside(&self, row: &TaskCase, draw: &Draw) -> f64 {
        let (tasks, place) = (&self.basis.tasks, self.basis.places.get(row.place));
        let together = tasks.get(row.task).is_some_and(|task| task.together);
        let Some(place) = place.filter(|_| together) else {
            return 0.0;
        };
        let others = tasks.iter().enumerate();
        others
            .filter(|(other, task)| *other != row.task && task.on && task.together)
            .map(|(other, task)| {
                mean_kg_s(
                    task,
                    draw.flow(other, task),
                    draw.rhythm(other, task.rhythm),
                    place,
                )
            })
            .sum()
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
