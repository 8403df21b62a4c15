//! What is lost between tank and tool: regulator, trunk hose, couplers, manifold, whip.
//!
//! ```text
//! tank -> regulator -> trunk hose -> couplers -> bench manifold -> whip -> coupler at the tool -> tool
//!         `------------ carries everyone's air -------------'      `-- carries one tool's air --'
//! ```
//!
//! | question | answer |
//! |---|---|
//! | What does one hose leave, and when does it choke? | [`outlet_pressure`], [`most_mass`] |
//! | What does a coupler leave, a leak cost? | [`Restriction`], [`hole_mass`] |
//! | What does each part leave at a known flow? | [`at_tool`] |
//! | What do tool and line agree on at a tank pressure? | [`draw`] |
//! | What must the regulator be set to, and how low may the tank fall? | [`regulator_setting_for`] |
//! | Which hose is large enough, or short enough? | [`smallest_bore`], [`longest_hose`] |
//!
//! Air is an ideal gas of one temperature along the line; its viscosity is that of dry air at that temperature.

mod choose;
mod coupler;
mod draw;
mod error;
mod hose;
mod regulator;
mod root;

use std::ops::RangeInclusive;

use uom::si::f64::{MassRate, ThermodynamicTemperature};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::thermodynamic_temperature::kelvin;

use crate::air::viscosity;
use crate::receiver::R_DRY_AIR;
use error::check;
use quantity::Absolute;

pub use choose::{Leg, STANDARD_BORES_IN, longest_hose, smallest_bore};
pub use coupler::{
    Body, CONDUCTANCE_DM3_S_BAR, CRITICAL_RATIO, DISCHARGE, HOLE_M, REFERENCE_DENSITY, ROUNDED_HOLE,
    Restriction, SHARP_HOLE, hole_mass,
};
pub use draw::{Draw, Setting, draw, regulator_setting_for};
pub use error::LineError;
pub use hose::{BORE_M, Hose, LENGTH_M, ROUGHNESS_M, SMOOTH_M, friction_factor, most_mass, outlet_pressure};
pub use regulator::{
    DROOP_PA_PER_M3_S, MINIMUM_DROP_PA, Regulator, SETTING_PA, TYPICAL_DROOP_PA_PER_M3_S,
    TYPICAL_MINIMUM_DROP_PA,
};

/// Absolute pressures that the sums take, Pa.
pub const PRESSURE_PA: RangeInclusive<f64> = 1e4..=4e6;

/// Mass flows that the sums take, kg/s.
pub const MASS_KG_S: RangeInclusive<f64> = 0.0..=5.0;

/// Temperatures of the air that the sums take, K.
pub const TEMPERATURE_K: RangeInclusive<f64> = 220.0..=400.0;

/// Couplers in a row that the sums take.
pub const MOST_COUPLERS: u32 = 20;

/// Whips in use that the sums take.
pub const MOST_WHIPS: u32 = 20;

/// The line from the tank's outlet to the tools.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// At the tank.
    pub regulator: Regulator,
    /// From the regulator to the bench; carries everyone's air.
    pub trunk: Hose,
    /// A quick coupler, plug in socket, such as all the couplers here are.
    pub coupler: Restriction,
    /// Couplers on the trunk; each carries everyone's air.
    pub couplers: u32,
    /// Inlet of the bench manifold, carrying everyone's air; nothing if it is wide or there is none.
    pub manifold: Option<Restriction>,
    /// The light hose to one tool.
    pub whip: Hose,
    /// Whips in use at once, one for each person.
    pub whips: u32,
    /// Couplers on each whip; each carries one tool's air.
    pub whip_couplers: u32,
}

/// A part of the line, from tank to tool.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The regulator.
    Regulator,
    /// The trunk hose.
    Trunk,
    /// All couplers on the trunk.
    Couplers,
    /// The bench manifold.
    Manifold,
    /// The whip.
    Whip,
    /// The whip's couplers: what is left behind them is the pressure at the tool.
    Tool,
}

impl Part {
    /// All parts in the order in which air meets them.
    pub const ALL: [Self; 6] = [
        Self::Regulator,
        Self::Trunk,
        Self::Couplers,
        Self::Manifold,
        Self::Whip,
        Self::Tool,
    ];

    fn name(self) -> &'static str {
        match self {
            Self::Regulator => "regulator",
            Self::Trunk => "trunk hose",
            Self::Couplers => "trunk's couplers",
            Self::Manifold => "manifold",
            Self::Whip => "whip",
            Self::Tool => "whip's couplers",
        }
    }
}

/// Pressure left after each part while air flows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Losses {
    tank_pa: f64,
    after_pa: [f64; 6],
}

impl Losses {
    /// In the tank.
    pub fn tank(&self) -> Absolute {
        Absolute::pa(self.tank_pa)
    }
    /// Behind a part.
    pub fn after(&self, part: Part) -> Absolute {
        Absolute::pa(self.after_pa[part as usize])
    }
    /// At the tool.
    pub fn tool(&self) -> Absolute {
        self.after(Part::Tool)
    }
    /// Behind each part, from tank to tool.
    pub fn steps(&self) -> [(Part, Absolute); 6] {
        Part::ALL.map(|part| (part, self.after(part)))
    }
}

/// The air's state as the parts need it.
#[derive(Clone, Copy)]
struct Air {
    /// R T, J/kg.
    rt: f64,
    /// Dynamic viscosity, Pa s.
    viscosity: f64,
}

impl Air {
    fn at(temperature: ThermodynamicTemperature) -> Result<Self, LineError> {
        let t_k = check("air temperature", "K", temperature.get::<kelvin>(), TEMPERATURE_K)?;
        let viscosity = viscosity(t_k)?;
        Ok(Self {
            rt: R_DRY_AIR * t_k,
            viscosity,
        })
    }
}

/// A mass flow in kg/s, if the sums take it.
fn mass_of(mass: MassRate) -> Result<f64, LineError> {
    check("mass flow", "kg/s", mass.get::<kilogram_per_second>(), MASS_KG_S)
}

/// Pressures behind each part, worked out from the tool back to the regulator.
struct Upstream {
    after_pa: [f64; 6],
    /// The part nearest the tool that chokes.
    choked: Option<Part>,
}

impl Line {
    fn check(&self) -> Result<(), LineError> {
        let count = |what, read: u32, low: u32, most: u32| {
            check(
                what,
                "(a count)",
                f64::from(read),
                f64::from(low)..=f64::from(most),
            )
        };
        self.regulator.check()?;
        self.trunk.check()?;
        self.whip.check()?;
        count("couplers", self.couplers, 0, MOST_COUPLERS)?;
        count("whip couplers", self.whip_couplers, 0, MOST_COUPLERS)?;
        count("whips", self.whips, 1, MOST_WHIPS)?;
        Ok(())
    }

    /// Flow through the trunk, kg/s, while each whip carries `each`.
    pub fn total(&self, each: f64) -> f64 {
        each * f64::from(self.whips)
    }

    fn row(&self, count: u32, inlet: f64, mass: f64, air: Air) -> Option<f64> {
        (0..count).try_fold(inlet, |p, _| self.coupler.outlet_pa(p, mass, air))
    }

    fn row_back(&self, count: u32, outlet: f64, mass: f64, air: Air) -> (f64, bool) {
        (0..count).fold((outlet, false), |(p, choked), _| {
            let (before, now) = self.coupler.inlet_pa(p, mass, air);
            (before, choked || now)
        })
    }

    /// Pressure behind a part that has `inlet` before it, or nothing if it chokes.
    fn step(&self, part: Part, inlet: f64, each: f64, air: Air) -> Option<f64> {
        let total = self.total(each);
        match part {
            Part::Regulator => Some(inlet),
            Part::Trunk => self.trunk.outlet_pa(inlet, total, air),
            Part::Couplers => self.row(self.couplers, inlet, total, air),
            Part::Manifold => match self.manifold {
                Some(manifold) => manifold.outlet_pa(inlet, total, air),
                None => Some(inlet),
            },
            Part::Whip => self.whip.outlet_pa(inlet, each, air),
            Part::Tool => self.row(self.whip_couplers, inlet, each, air),
        }
    }

    /// Pressure before a part that leaves `outlet` behind it; whether it chokes.
    fn step_back(&self, part: Part, outlet: f64, each: f64, air: Air) -> (f64, bool) {
        let total = self.total(each);
        match part {
            Part::Regulator => (outlet, false),
            Part::Trunk => self.trunk.inlet_pa(outlet, total, air),
            Part::Couplers => self.row_back(self.couplers, outlet, total, air),
            Part::Manifold => self
                .manifold
                .map_or((outlet, false), |manifold| manifold.inlet_pa(outlet, total, air)),
            Part::Whip => self.whip.inlet_pa(outlet, each, air),
            Part::Tool => self.row_back(self.whip_couplers, outlet, each, air),
        }
    }

    /// The pressures that carry `each` to `tool`. Always has an answer: a part that chokes stands at the
    /// pressure that just passes the flow, and the rest is lost where it ends.
    fn upstream(&self, tool: f64, each: f64, air: Air) -> Upstream {
        let mut up = Upstream {
            after_pa: [tool; 6],
            choked: None,
        };
        let mut pressure = tool;
        for part in Part::ALL.into_iter().rev() {
            up.after_pa[part as usize] = pressure;
            let (before, choked) = self.step_back(part, pressure, each, air);
            if choked && up.choked.is_none() {
                up.choked = Some(part);
            }
            pressure = before;
        }
        up
    }

    /// The most that a part passes with `inlet` before it, as the flow through one such part, kg/s.
    fn most_kg_s(&self, part: Part, inlet: f64, air: Air) -> f64 {
        match part {
            Part::Trunk => self.trunk.most_kg_s(inlet, air),
            Part::Whip => self.whip.most_kg_s(inlet, air),
            Part::Manifold => self.manifold.map_or(f64::INFINITY, |m| m.most_kg_s(inlet, air)),
            Part::Couplers => self.most_of_row(self.couplers, inlet, air),
            Part::Tool => self.most_of_row(self.whip_couplers, inlet, air),
            Part::Regulator => f64::INFINITY,
        }
    }

    fn most_of_row(&self, count: u32, inlet: f64, air: Air) -> f64 {
        let single = self.coupler.most_kg_s(inlet, air);
        root::largest(0.0, single, |mass| self.row(count, inlet, mass, air).is_some())
    }
}

/// Pressure left after each part of the line while each tool draws `mass`.
///
/// The regulator, then each part's own equation: [`outlet_pressure`] for the hoses,
/// [`Restriction::outlet_pressure`] for couplers and manifold. Trunk, its couplers and the manifold carry
/// `mass` times the whips in use.
///
/// # Validity
/// As the parts'. The parts follow each other far enough apart that each sees smooth flow.
/// # Errors
/// [`LineError::Choked`] naming the part; [`LineError::Starved`] if less than `ambient` would be left;
/// [`LineError::OutOfRange`].
/// # Example
/// 11 scfm (6.25 g/s) at 90 psig behind the regulator: 50 ft of 3/8 in costs 2.3 psi (`fluids` 1.3.1).
/// ```
/// # use physics::line::*; use quantity::{Absolute, Gauge};
/// # use uom::si::{f64::*, length::{foot, inch}, mass_rate::gram_per_second, pressure::psi, thermodynamic_temperature::degree_celsius};
/// let line = Line {
///     regulator: Regulator { droop_pa_per_m3_s: 0.0, ..Regulator::typical(Gauge::psi(90.0)) },
///     trunk: Hose::smooth(Length::new::<foot>(50.0), Length::new::<inch>(0.375)),
///     coupler: Body::Quarter.typical(),
///     couplers: 1,
///     manifold: None,
///     whip: Hose::smooth(Length::new::<foot>(10.0), Length::new::<inch>(0.25)),
///     whips: 1,
///     whip_couplers: 1,
/// };
/// let (sea, air) = (Absolute::psi(14.696), ThermodynamicTemperature::new::<degree_celsius>(20.0));
/// let tank = Gauge::psi(120.0).at(sea);
/// let losses = at_tool(&line, tank, MassRate::new::<gram_per_second>(6.25), sea, air)?;
/// let trunk = losses.after(Part::Regulator).as_psi() - losses.after(Part::Trunk).as_psi();
/// assert!((trunk - 2.3).abs() < 0.05);
/// assert!(losses.tool() < losses.after(Part::Whip));
/// # Ok::<(), LineError>(())
/// ```
pub fn at_tool(
    line: &Line,
    tank: Absolute,
    mass: MassRate,
    ambient: Absolute,
    temperature: ThermodynamicTemperature,
) -> Result<Losses, LineError> {
    line.check()?;
    let air = Air::at(temperature)?;
    let tank_pa = check("tank pressure", "Pa", tank.as_pa(), PRESSURE_PA)?;
    let ambient_pa = check("outside air", "Pa", ambient.as_pa(), PRESSURE_PA)?;
    let each = mass_of(mass)?;
    let mut pressure = line.regulator.outlet_pa(tank_pa, line.total(each), ambient_pa);
    let mut after_pa = [pressure; 6];
    for part in Part::ALL {
        pressure = match line.step(part, pressure, each, air) {
            Some(left) if left >= ambient_pa => left,
            Some(left_pa) => {
                return Err(LineError::Starved {
                    part,
                    left_pa,
                    ambient_pa,
                });
            }
            None => {
                return Err(LineError::Choked {
                    part: Some(part),
                    asked_kg_s: match part {
                        Part::Whip | Part::Tool => each,
                        _ => line.total(each),
                    },
                    most_kg_s: line.most_kg_s(part, pressure, air),
                });
            }
        };
        after_pa[part as usize] = pressure;
    }
    Ok(Losses { tank_pa, after_pa })
}
