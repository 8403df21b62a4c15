//! What tool and line agree on: the flow at which the pressure that the line leaves draws just that flow.

use uom::si::f64::{MassRate, ThermodynamicTemperature};
use uom::si::mass_rate::kilogram_per_second;

use super::error::{LineError, check};
use super::{Air, Line, Losses, PRESSURE_PA, Part, Restriction, SETTING_PA, Upstream, root};
use quantity::{Absolute, Gauge};

/// Flow and pressures with all triggers held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Draw {
    /// What each tool takes.
    pub each: MassRate,
    /// What all the tools take from the tank.
    pub total: MassRate,
    /// Pressure after each part.
    pub losses: Losses,
    /// The part that holds the flow back, if one chokes.
    pub choked: Option<Part>,
}

/// What the tool's pressure asks of regulator and tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// What the regulator's dial must show while nothing flows.
    pub setting: Gauge,
    /// The lowest tank pressure that still gives the tool its pressure.
    pub lowest_tank: Absolute,
    /// Pressure after each part then, with the tank at its lowest.
    pub losses: Losses,
}

/// Flow and pressure on which tools and line agree at a tank pressure.
///
/// The pressure p at the tool solves  back(p, m) = min(p set + p0 - s q, p tank - d),  m = tool(p, p0)
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | p | pressure at the tool, absolute | Pa | in the result |
/// | m | what each tool takes, [`Restriction`] | kg/s | in the result; `tool` |
/// | back | pressure behind the regulator that carries m to p through the whole line | Pa | `line` |
/// | p0 | the outside air's pressure | Pa | `ambient` |
/// | right side | what the regulator leaves, [`super::Regulator`] | Pa | `line`, `tank` |
///
/// The left side rises with p and the right side falls, so there is one answer from `ambient` up to what the
/// regulator leaves without flow. A part that chokes counts with the inlet pressure that just passes m: the tool
/// then gets what passes.
///
/// # Validity
/// As the parts'. All whips and tools are alike, and all triggers are held. A tank too low to push gives no flow.
/// # Errors
/// [`LineError::OutOfRange`].
/// # Source
/// Conservation of mass; the parts name theirs.
/// # Example
/// Builders run a thin light hose as a whip, not across the shop (common practice, no source):
/// ```
/// # use physics::line::*; use quantity::{Absolute, Gauge};
/// # use uom::si::{f64::*, length::{foot, inch}, mass_rate::gram_per_second, thermodynamic_temperature::degree_celsius};
/// let hose = |feet, inches| Hose::smooth(Length::new::<foot>(feet), Length::new::<inch>(inches));
/// let line = Line {
///     regulator: Regulator::typical(Gauge::psi(100.0)),
///     trunk: hose(50.0, 0.375),
///     coupler: Body::Quarter.typical(),
///     couplers: 1,
///     manifold: None,
///     whip: hose(10.0, 0.25),
///     whips: 1,
///     whip_couplers: 1,
/// };
/// let (sea, air) = (Absolute::psi(14.696), ThermodynamicTemperature::new::<degree_celsius>(20.0));
/// let (ninety, tank) = (Gauge::psi(90.0).at(sea), Gauge::psi(130.0).at(sea));
/// let drill = Restriction::of_tool(MassRate::new::<gram_per_second>(6.5), ninety, sea, air)?;
/// let with_whip = draw(&line, drill, tank, sea, air)?;
/// let all_thin = draw(&Line { trunk: hose(50.0, 0.25), ..line }, drill, tank, sea, air)?;
/// assert!(with_whip.losses.tool().as_psi() > all_thin.losses.tool().as_psi() + 8.0);
/// # Ok::<(), LineError>(())
/// ```
pub fn draw(
    line: &Line,
    tool: Restriction,
    tank: Absolute,
    ambient: Absolute,
    temperature: ThermodynamicTemperature,
) -> Result<Draw, LineError> {
    line.check()?;
    let air = Air::at(temperature)?;
    let tank_pa = check("tank pressure", "Pa", tank.as_pa(), PRESSURE_PA)?;
    let ambient_pa = check("outside air", "Pa", ambient.as_pa(), PRESSURE_PA)?;
    let still = line.regulator.outlet_pa(tank_pa, 0.0, ambient_pa);
    if still <= ambient_pa {
        return Ok(drawn(line, 0.0, tank_pa, line.upstream(ambient_pa, 0.0, air)));
    }
    let pressure = root::rising(ambient_pa, still, |pressure| {
        let each = tool.mass_kg_s(pressure, ambient_pa, air);
        let left = line.regulator.outlet_pa(tank_pa, line.total(each), ambient_pa);
        line.upstream(pressure, each, air).after_pa[Part::Regulator as usize] - left
    });
    let each = tool.mass_kg_s(pressure, ambient_pa, air);
    let upstream = line.upstream(pressure, each, air);
    Ok(drawn(line, each, tank_pa, upstream))
}

fn drawn(line: &Line, each: f64, tank_pa: f64, upstream: Upstream) -> Draw {
    Draw {
        each: MassRate::new::<kilogram_per_second>(each),
        total: MassRate::new::<kilogram_per_second>(line.total(each)),
        losses: Losses {
            tank_pa,
            after_pa: upstream.after_pa,
        },
        choked: upstream.choked,
    }
}

/// What the regulator must be set to so that every tool runs at `pressure`, and how low the tank may fall.
///
/// p set = back(p, m) - p0 + s q;  lowest tank = back(p, m) + d;  symbols as in [`draw`].
/// The line's own setting is not used. Nothing where no setting within [`SETTING_PA`] does it: the line is far too thin.
///
/// # Validity
/// As [`draw`].
/// # Errors
/// [`LineError::OutOfRange`].
/// # Source
/// As [`draw`].
/// # Example
/// Without droop and couplers the setting is the tool's pressure and what the hoses lose: 11 scfm (6.25 g/s)
/// through 50 ft of 3/8 in, about 2.3 psi at 90 psig (`fluids` 1.3.1), and 1 ft of 3/4 in, nothing:
/// ```
/// # use physics::line::*; use quantity::{Absolute, Gauge};
/// # use uom::si::{f64::*, length::{foot, inch}, mass_rate::gram_per_second, thermodynamic_temperature::degree_celsius};
/// # let hose = |feet, inches| Hose::smooth(Length::new::<foot>(feet), Length::new::<inch>(inches));
/// # let line = Line {
/// #     regulator: Regulator { droop_pa_per_m3_s: 0.0, ..Regulator::typical(Gauge::psi(0.0)) },
/// #     trunk: hose(50.0, 0.375), coupler: Body::Quarter.typical(), couplers: 0, manifold: None,
/// #     whip: hose(1.0, 0.75), whips: 1, whip_couplers: 0,
/// # };
/// # let (sea, air) = (Absolute::psi(14.696), ThermodynamicTemperature::new::<degree_celsius>(20.0));
/// let at = Gauge::psi(87.7);
/// let drill = Restriction::of_tool(MassRate::new::<gram_per_second>(6.25), at.at(sea), sea, air)?;
/// let answer = regulator_setting_for(&line, drill, at, sea, air)?;
/// assert!(answer.is_some_and(|answer| (answer.setting.as_psi() - 90.0).abs() < 0.05));
/// # Ok::<(), LineError>(())
/// ```
pub fn regulator_setting_for(
    line: &Line,
    tool: Restriction,
    pressure: Gauge,
    ambient: Absolute,
    temperature: ThermodynamicTemperature,
) -> Result<Option<Setting>, LineError> {
    let (upstream, each, ambient_pa) = running(line, tool, pressure, ambient, temperature)?;
    let left = upstream.after_pa[Part::Regulator as usize];
    let setting = left - ambient_pa + line.regulator.droop_pa(line.total(each));
    let tank_pa = left + line.regulator.minimum_drop_pa();
    Ok(SETTING_PA.contains(&setting).then_some(Setting {
        setting: Gauge::pa(setting),
        lowest_tank: Absolute::pa(tank_pa),
        losses: Losses {
            tank_pa,
            after_pa: upstream.after_pa,
        },
    }))
}

/// The line while each tool runs at `pressure`: its pressures, each tool's flow in kg/s, the outside air in Pa.
pub(super) fn running(
    line: &Line,
    tool: Restriction,
    pressure: Gauge,
    ambient: Absolute,
    temperature: ThermodynamicTemperature,
) -> Result<(Upstream, f64, f64), LineError> {
    line.check()?;
    let air = Air::at(temperature)?;
    let ambient_pa = check("outside air", "Pa", ambient.as_pa(), PRESSURE_PA)?;
    let gauge_pa = check("pressure at the tool", "Pa", pressure.as_pa(), SETTING_PA)?;
    let tool_pa = gauge_pa + ambient_pa;
    let each = tool.mass_kg_s(tool_pa, ambient_pa, air);
    Ok((line.upstream(tool_pa, each, air), each, ambient_pa))
}
