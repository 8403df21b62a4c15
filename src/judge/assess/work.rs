//! From a task, a line and a place to work that a tank sees.

use uom::si::f64::{Ratio, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

use super::machine::line;
use crate::basis::{LineBasis, PlaceBasis, TaskBasis};
use physics::air::RATING;
use physics::line::{
    Leg, Line, LineError, Losses, Part, Restriction, draw, regulator_setting_for, smallest_bore,
};
use physics::run::{Curve, Rhythm, Work};
use quantity::{Absolute, FreeAir, Gauge};
use shop::catalogue::typical;

/// Tank pressures at which the line is solved below the point where it gives the tool its setting.
const LINE_POINTS: usize = 6;

/// A line that slows a tool more than this many times is judged by its pressure, not by its pulls.
const SLOWEST: f64 = 3.0;

/// A task's work at a place, and what its line needs.
#[derive(Clone, Debug)]
pub struct TaskWork {
    /// As the tank sees it.
    pub work: Work,
    /// What the regulator is set to with the tool at rest: what gives the running tool its setting, but never more than the
    /// tool's maker allows. `None` where the line passes too little.
    pub regulator: Option<Gauge>,
    /// Lowest tank pressure at which the regulator holds that.
    pub full: Option<Absolute>,
    /// Pressures from tank to running tool with the regulator so set, or the most that the line passes.
    pub losses: Option<Losses>,
    /// The flow at which those are, all people together, kg/s.
    pub flow_kg_s: f64,
    /// The part that chokes, where one does.
    pub choked: Option<Part>,
    /// Mass flow on the trigger at the setting, all people together, kg/s.
    pub asked_kg_s: f64,
    /// How many times longer a pull takes that lasts until its air is through, since the regulator is held back.
    pub slower: f64,
    /// Absolute pressure at the running tool and the tank's that gives it, Pa, rising.
    pub tools: Vec<(f64, f64)>,
}

/// A rhythm whose pulls take so many times longer; a spell keeps its number of pulls.
pub fn slowed(rhythm: Rhythm, slower: f64) -> Rhythm {
    let on_s = slower * rhythm.on_s;
    Rhythm {
        on_s,
        spell_s: rhythm.spell_s * (on_s + rhythm.off_s) / (rhythm.on_s + rhythm.off_s),
        ..rhythm
    }
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

/// What a task draws on its mean with so much flow and such a rhythm, kg/s: a choked tool's flow goes with its absolute
/// pressure.
pub fn mean_kg_s(task: &TaskBasis, flow: FreeAir, rhythm: Rhythm, place: &PlaceBasis) -> f64 {
    let at = |outside: Absolute| task.setting.at(outside).as_pa();
    let thinner = at(place.air.pressure()) / at(RATING.pressure());
    let mass = flow.mass(RATING.density()).get::<kilogram_per_second>();
    mass * thinner * task.people * rhythm.long_share()
}

/// What the other tasks that go on at the same time draw on their mean, kg/s.
pub fn beside_kg_s(tasks: &[TaskBasis], index: usize, place: &PlaceBasis) -> f64 {
    if !tasks.get(index).is_some_and(|task| task.together) {
        return 0.0;
    }
    let others = tasks.iter().enumerate();
    others
        .filter(|(other, task)| *other != index && task.on && task.together)
        .map(|(_, task)| mean_kg_s(task, task.flow, task.rhythm, place))
        .sum()
}

/// A line with its regulator set.
struct Regulated {
    setting: Gauge,
    full: Absolute,
    losses: Losses,
    flow_kg_s: f64,
    choked: Option<Part>,
    /// The tool's maker allows no more: the running tool gets less than its setting.
    held_back: bool,
}

/// Sets the regulator: to what gives the running tool its setting, or, where that is more than its maker allows with the tool
/// at rest, to what he allows; `None` where neither is to be had.
fn regulated(
    task: &TaskBasis,
    line: &Line,
    tool: Restriction,
    place: &PlaceBasis,
    top_pa: f64,
) -> Result<Option<Regulated>, LineError> {
    let ambient = place.air.pressure();
    let air = ThermodynamicTemperature::new::<kelvin>(place.air.kelvin());
    let needs = regulator_setting_for(line, tool, task.setting, ambient, air)?;
    let allowed = |setting: Gauge| task.rest_most.is_none_or(|most| setting <= most);
    if let Some(needs) = needs.filter(|needs| allowed(needs.setting)) {
        let asked = tool.mass(task.setting.at(ambient), ambient, air)?;
        return Ok(Some(Regulated {
            setting: needs.setting,
            full: needs.lowest_tank,
            losses: needs.losses,
            flow_kg_s: line.total(asked.get::<kilogram_per_second>()),
            choked: None,
            held_back: false,
        }));
    }
    let held = task
        .rest_most
        .map(|most| held_back(line, tool, most, place, top_pa));
    held.transpose()
}

/// The line with its regulator at the most that the tool's maker allows.
fn held_back(
    line: &Line,
    tool: Restriction,
    setting: Gauge,
    place: &PlaceBasis,
    top_pa: f64,
) -> Result<Regulated, LineError> {
    let mut line = *line;
    line.regulator.setting = setting;
    let held = solve(&line, tool, top_pa, place)?;
    let behind_pa = held.losses.after(Part::Regulator).as_pa();
    let full_pa = behind_pa + line.regulator.minimum_drop.get::<pascal>();
    // The same again from the lowest tank that does, so that the pressures begin there.
    let lowest = solve(&line, tool, full_pa, place)?;
    Ok(Regulated {
        setting,
        full: Absolute::pa(full_pa),
        losses: lowest.losses,
        flow_kg_s: held.mass_kg_s,
        choked: held.choked,
        held_back: true,
    })
}

/// Tank pressures at which the line is solved, up to the one at which the regulator begins to hold.
fn tank_points(ambient_pa: f64, full_pa: Option<f64>, top_pa: f64) -> impl Iterator<Item = f64> {
    let last_pa = full_pa
        .unwrap_or(top_pa)
        .max(ambient_pa * 1.2)
        .min(top_pa.max(ambient_pa * 1.3));
    let first_pa = ambient_pa * 1.1;
    (0..=LINE_POINTS).map(move |point| first_pa + (last_pa - first_pa) * point as f64 / LINE_POINTS as f64)
}

/// The tank's view of a task: what it draws at each tank pressure, and down to which pressure that is enough.
///
/// The builder sets the regulator so that the running tool gets its setting, but no higher than the tool's maker allows at
/// rest. Below the tank pressure that can supply it the regulator stands open and the tool gets what the line leaves.
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
    let set = regulated(task, &line, tool, place, top_pa)?;
    let full_pa = set.as_ref().map(|set| set.full.as_pa());
    // Wide open, the regulator passes what the tank has; held back, it never passes more than it is set to.
    let held = set.as_ref().filter(|set| set.held_back);
    line.regulator.setting = held.map_or(Gauge::pa(top_pa * 1.05), |set| set.setting);
    let solved: Vec<Solved> = tank_points(ambient.as_pa(), full_pa, top_pa)
        .map(|tank_pa| solve(&line, tool, tank_pa, place))
        .collect::<Result<_, _>>()?;
    let points = |of: fn(&Solved) -> (f64, f64)| solved.iter().map(of).collect::<Vec<_>>();
    let flows = points(|point| (point.tank_pa, point.mass_kg_s));
    let tools = points(|point| (point.tool_pa, point.tank_pa));
    let enough_pa = enough(&tools, task.lowest.at(ambient).as_pa());
    let top = solved.last();
    let asked_kg_s = line.total(asked.get::<kilogram_per_second>());
    let by_air = typical(task.kind).by_air;
    // A hole takes so much air: with less flow it takes longer.
    let slower = held
        .filter(|_| by_air)
        .map_or(1.0, |held| asked_kg_s / held.flow_kg_s.max(1e-9));
    let slower = slower.clamp(1.0, SLOWEST);
    Ok(TaskWork {
        work: Work {
            draw: Curve::of(ambient.as_pa() * 0.5, top_pa * 1.02, |pressure| {
                between(&flows, pressure)
            }),
            enough_pa,
            rhythm: slowed(task.rhythm, slower),
            by_air,
            beside_kg_s: 0.0,
        },
        regulator: set.as_ref().map(|set| set.setting),
        full: set.as_ref().map(|set| set.full),
        choked: set
            .as_ref()
            .map_or(top.and_then(|top| top.choked), |set| set.choked),
        flow_kg_s: set
            .as_ref()
            .map_or(top.map_or(0.0, |top| top.mass_kg_s), |set| set.flow_kg_s),
        losses: set.map(|set| set.losses).or(top.map(|top| top.losses)),
        asked_kg_s,
        slower,
        tools,
    })
}
