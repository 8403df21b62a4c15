//! From a task, a line and a place to work that a tank sees.

use uom::si::f64::{Ratio, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

use super::machine::line;
use crate::basis::{LineBasis, PlaceBasis, TaskBasis};
use physics::air::RATING;
use physics::line::{
    Leg, Line, LineError, Losses, Part, Restriction, draw, regulator_setting_for, smallest_bore,
};
use physics::run::{Curve, Work};
use quantity::{Absolute, Gauge};
use shop::catalogue::typical;

/// Tank pressures at which the line is solved below the point where it gives the tool its setting.
const LINE_POINTS: usize = 6;

/// A task's work at a place, and what its line needs.
#[derive(Clone, Debug)]
pub struct TaskWork {
    /// As the tank sees it.
    pub work: Work,
    /// Regulator setting that gives the tool its pressure while running; `None` where the line cannot.
    pub regulator: Option<Gauge>,
    /// Lowest tank pressure that still gives the tool its setting.
    pub full: Option<Absolute>,
    /// Pressures from tank to tool while the tool gets its setting, or the most that the line passes.
    pub losses: Option<Losses>,
    /// The flow at which those are, all people together, kg/s.
    pub flow_kg_s: f64,
    /// The part that chokes, where one does.
    pub choked: Option<Part>,
    /// Mass flow on the trigger at the setting, all people together, kg/s.
    pub asked_kg_s: f64,
    /// Absolute pressure at the running tool and the tank's that gives it, Pa, rising.
    pub tools: Vec<(f64, f64)>,
}

impl TaskWork {
    /// Tank pressure that gives the running tool `tool_pa`, both absolute, Pa; without end where the line does not
    /// pass it.
    pub fn enough_for(&self, tool_pa: f64) -> f64 {
        enough(&self.tools, tool_pa)
    }
}

fn enough(tools: &[(f64, f64)], tool_pa: f64) -> f64 {
    if tools.last().is_some_and(|(most, _)| *most >= tool_pa) {
        between(tools, tool_pa)
    } else {
        f64::INFINITY
    }
}

struct Solved {
    tank_pa: f64,
    tool_pa: f64,
    mass_kg_s: f64,
    losses: Losses,
    choked: Option<Part>,
}

fn solve(line: &Line, tool: Restriction, tank_pa: f64, place: &PlaceBasis) -> Result<Solved, LineError> {
    let air = ThermodynamicTemperature::new::<kelvin>(place.air.kelvin());
    let drawn = draw(line, tool, Absolute::pa(tank_pa), place.air.pressure(), air)?;
    Ok(Solved {
        tank_pa,
        tool_pa: drawn.losses.tool().as_pa(),
        mass_kg_s: drawn.total.get::<kilogram_per_second>(),
        losses: drawn.losses,
        choked: drawn.choked,
    })
}

/// Linear between known points; outside them the end values.
fn between(points: &[(f64, f64)], x: f64) -> f64 {
    let after = points.iter().position(|(at, _)| *at >= x);
    match after {
        Some(0) => points[0].1,
        Some(index) => {
            let ((x0, y0), (x1, y1)) = (points[index - 1], points[index]);
            y0 + (y1 - y0) * (x - x0) / (x1 - x0).max(1e-9)
        }
        None => points.last().map_or(0.0, |(_, y)| *y),
    }
}

fn tool(task: &TaskBasis) -> Result<Restriction, LineError> {
    let (sea, air) = (
        RATING.pressure(),
        ThermodynamicTemperature::new::<kelvin>(RATING.kelvin()),
    );
    Restriction::of_tool(task.flow.mass(RATING.density()), task.setting.at(sea), sea, air)
}

/// Bore that a leg of the line needs to keep its loss within the share that the shop states, where the present
/// one is smaller, m.
///
/// # Errors
/// [`LineError`] where the line's figures are out of range: then its rows are not judged either.
pub fn bore_wanted(
    task: &TaskBasis,
    basis: &LineBasis,
    place: &PlaceBasis,
    leg: Leg,
) -> Result<Option<f64>, LineError> {
    let present = if leg == Leg::Trunk {
        basis.trunk.0
    } else {
        basis.whip.0
    };
    let air = ThermodynamicTemperature::new::<kelvin>(place.air.kelvin());
    let share = Ratio::new::<ratio>(basis.loss_share);
    let at = (place.air.pressure(), air);
    let bore = smallest_bore(
        &line(basis, task.people),
        leg,
        tool(task)?,
        task.setting,
        share,
        at,
    )?;
    let bore = bore.map(|bore| bore.get::<meter>());
    Ok(bore.filter(|bore| *bore > present * 1.02))
}

/// What the other tasks that go on at the same time draw on their mean, kg/s: a choked tool's flow goes with its absolute
/// pressure.
pub fn beside_kg_s(tasks: &[TaskBasis], index: usize, place: &PlaceBasis) -> f64 {
    if !tasks.get(index).is_some_and(|task| task.together) {
        return 0.0;
    }
    let mean = |task: &TaskBasis| {
        let at = |outside: Absolute| task.setting.at(outside).as_pa();
        let thinner = at(place.air.pressure()) / at(RATING.pressure());
        let mass = task.flow.mass(RATING.density()).get::<kilogram_per_second>();
        mass * thinner * task.people * task.rhythm.long_share()
    };
    let others = tasks.iter().enumerate();
    others
        .filter(|(other, task)| *other != index && task.on && task.together)
        .map(|(_, task)| mean(task))
        .sum()
}

/// The tank's view of a task: what it draws at each tank pressure, and down to which pressure that is enough.
///
/// The builder sets the regulator so that the running tool gets its setting. Below the tank pressure that can
/// supply it the regulator stands open and the tool gets what the line leaves.
///
/// # Errors
/// [`LineError`] where the line's figures are out of range.
pub fn task_work(
    task: &TaskBasis,
    basis: &LineBasis,
    place: &PlaceBasis,
    top_pa: f64,
) -> Result<TaskWork, LineError> {
    let ambient = place.air.pressure();
    let air = ThermodynamicTemperature::new::<kelvin>(place.air.kelvin());
    let mut line = line(basis, task.people);
    let tool = tool(task)?;
    let asked = tool.mass(task.setting.at(ambient), ambient, air)?;
    let needs = regulator_setting_for(&line, tool, task.setting, ambient, air)?;
    let full_pa = needs.as_ref().map(|needs| needs.lowest_tank.as_pa());
    // Wide open: the regulator passes what the tank has.
    line.regulator.setting = Gauge::pa(top_pa * 1.05);
    let last_pa = full_pa
        .unwrap_or(top_pa)
        .max(ambient.as_pa() * 1.2)
        .min(top_pa.max(ambient.as_pa() * 1.3));
    let first_pa = ambient.as_pa() * 1.1;
    let mut solved = Vec::with_capacity(LINE_POINTS + 1);
    for point in 0..=LINE_POINTS {
        let share = point as f64 / LINE_POINTS as f64;
        solved.push(solve(
            &line,
            tool,
            first_pa + (last_pa - first_pa) * share,
            place,
        )?);
    }
    let flows: Vec<(f64, f64)> = solved
        .iter()
        .map(|point| (point.tank_pa, point.mass_kg_s))
        .collect();
    let tools: Vec<(f64, f64)> = solved
        .iter()
        .map(|point| (point.tool_pa, point.tank_pa))
        .collect();
    let lowest_pa = task.lowest.at(ambient).as_pa();
    let top = solved.last();
    let enough_pa = enough(&tools, lowest_pa);
    Ok(TaskWork {
        work: Work {
            draw: Curve::of(ambient.as_pa() * 0.5, top_pa * 1.02, |pressure| {
                between(&flows, pressure)
            }),
            enough_pa,
            rhythm: task.rhythm,
            by_air: typical(task.kind).by_air,
            beside_kg_s: 0.0,
        },
        regulator: needs.as_ref().map(|needs| needs.setting),
        full: needs.as_ref().map(|needs| needs.lowest_tank),
        choked: if needs.is_some() {
            None
        } else {
            top.and_then(|top| top.choked)
        },
        flow_kg_s: match (&needs, top) {
            (None, Some(top)) => top.mass_kg_s,
            _ => line.total(asked.get::<kilogram_per_second>()),
        },
        losses: needs.map(|needs| needs.losses).or(top.map(|top| top.losses)),
        asked_kg_s: asked.get::<kilogram_per_second>() * task.people,
        tools,
    })
}
