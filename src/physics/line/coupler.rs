//! What couplers, fittings, tools and leaks pass: flow through a restriction.

use std::f64::consts::PI;
use std::ops::RangeInclusive;

use uom::si::f64::{Length, MassRate, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::mass_rate::kilogram_per_second;

use super::error::{LineError, check};
use super::{Air, PRESSURE_PA, mass_of};
use crate::receiver::R_DRY_AIR;
use quantity::Absolute;

/// Sonic conductances that the sums take, dm3/(s bar).
pub const CONDUCTANCE_DM3_S_BAR: RangeInclusive<f64> = 1e-5..=1e3;

/// Critical pressure ratios that the sums take; 0.528 is the ideal nozzle's.
pub const CRITICAL_RATIO: RangeInclusive<f64> = 0.0..=0.6;

/// Diameters of a hole that the sums take, m.
pub const HOLE_M: RangeInclusive<f64> = 1e-5..=0.1;

/// Discharge coefficients that the sums take.
pub const DISCHARGE: RangeInclusive<f64> = 0.1..=1.0;

/// Discharge coefficient of a well-rounded hole.
/// Source: DOE, Improving Compressed Air System Performance, tip sheet 3 (from memory).
pub const ROUNDED_HOLE: f64 = 0.97;

/// Discharge coefficient of a sharp-edged hole. Source: as [`ROUNDED_HOLE`].
pub const SHARP_HOLE: f64 = 0.61;

/// Density of the reference air that a conductance counts in, kg/m3: 20 C, 100 kPa, 65 % humidity.
/// Source: ISO 8778, as used by ISO 6358-1 (from memory).
pub const REFERENCE_DENSITY: f64 = 1.185;

/// Temperature of that reference air, K. Source: as [`REFERENCE_DENSITY`].
const REFERENCE_K: f64 = 293.15;

/// m3/(s Pa) in one dm3/(s bar).
const M3_S_PA: f64 = 1e-3 / 1e5;

/// Critical pressure ratio taken for a tool, whose maker states none. Typical, common practice, no source.
/// It matters only below twice the outside air's absolute pressure, about 15 psi on the dial at sea level.
const TOOL_RATIO: f64 = 0.5;

/// Ratio of the specific heats of air.
const GAMMA: f64 = 1.4;

/// A coupler, fitting or tool as ISO 6358 sees it: a sonic conductance and a critical pressure ratio.
///
/// m = C p1 rho0 sqrt(T0/T1) where p2/p1 <= b; above it times sqrt(1 - ((p2/p1 - b)/(1 - b))^2)
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | m | mass flow | kg/s | |
/// | C | sonic conductance | m3/(s Pa) | |
/// | b | critical pressure ratio | 1 | |
/// | p1, p2 | pressure in, out, absolute | Pa | |
/// | rho0, T0 | reference air: 1.185 kg/m3, 293.15 K | kg/m3, K | |
/// | T1 | temperature at the inlet | K | |
///
/// # Source
/// ISO 6358-1:2013 (from memory).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Restriction {
    /// C, m3/(s Pa).
    conductance: f64,
    /// b.
    ratio: f64,
}

/// Bodies of quick couplers, a plug in its socket, by trade size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Body {
    /// 1/4 in body: the common plug, bore about 5.5 mm.
    Quarter,
    /// 1/4 in body with a wide plug, bore about 7 mm.
    QuarterWide,
    /// 3/8 in body, bore about 8 mm.
    ThreeEighths,
    /// 1/2 in body, bore about 11 mm.
    Half,
}

impl Body {
    /// Conductance and critical ratio of a plug in its socket. Typical, common practice, no source: about 0.7
    /// of the ideal nozzle of the plug's bore, as the socket's valve stands in the way.
    pub fn typical(self) -> Restriction {
        let (dm3_s_bar, ratio) = match self {
            Self::Quarter => (3.3, 0.35),
            Self::QuarterWide => (5.4, 0.35),
            Self::ThreeEighths => (7.0, 0.35),
            Self::Half => (13.0, 0.35),
        };
        Restriction {
            conductance: dm3_s_bar * M3_S_PA,
            ratio,
        }
    }
}

impl Restriction {
    /// From the two figures of a data sheet: C in dm3/(s bar), and b.
    /// # Errors
    /// [`LineError::OutOfRange`].
    pub fn iso_6358(conductance_dm3_s_bar: f64, critical_ratio: f64) -> Result<Self, LineError> {
        let dm3_s_bar = check(
            "sonic conductance",
            "dm3/(s bar)",
            conductance_dm3_s_bar,
            CONDUCTANCE_DM3_S_BAR,
        )?;
        let ratio = check(
            "critical pressure ratio",
            "(no unit)",
            critical_ratio,
            CRITICAL_RATIO,
        )?;
        Ok(Self {
            conductance: dm3_s_bar * M3_S_PA,
            ratio,
        })
    }

    /// From the bore of the narrowest place: C = c A flux / (rho0 p1), the choked flow of a nozzle of that
    /// area times a discharge coefficient.
    ///
    /// # Errors
    /// [`LineError::OutOfRange`].
    /// # Example
    /// An effective area of 5 mm2 makes C close to 1 dm3/(s bar) (rule of the pneumatics trade, from memory):
    /// ```
    /// # use physics::line::Restriction;
    /// # use uom::si::{f64::Length, length::millimeter};
    /// let bore = Length::new::<millimeter>((5.0_f64 * 4.0 / std::f64::consts::PI).sqrt());
    /// let nozzle = Restriction::of_bore(bore, 1.0, 0.528)?;
    /// assert!((nozzle.conductance_dm3_s_bar() - 1.0).abs() < 0.01);
    /// # Ok::<(), physics::line::LineError>(())
    /// ```
    pub fn of_bore(bore: Length, discharge: f64, critical_ratio: f64) -> Result<Self, LineError> {
        let metres = check("bore", "m", bore.get::<meter>(), HOLE_M)?;
        let discharge = check("discharge coefficient", "(no unit)", discharge, DISCHARGE)?;
        let area = PI / 4.0 * metres * metres;
        let reference_rt = R_DRY_AIR * REFERENCE_K;
        let conductance = discharge * area * choked_flux(reference_rt) / REFERENCE_DENSITY;
        Self::iso_6358(conductance / M3_S_PA, critical_ratio)
    }

    /// A tool as the restriction that passes its rated flow: C = m / (p1 rho0 sqrt(T0/T1)) while it is choked.
    ///
    /// `mass` is drawn at the pressure `at` into outside air of `ambient` and `temperature`, as on its sheet.
    /// # Validity
    /// A tool that runs free. Above twice the outside air's absolute pressure its flow then scales with the
    /// absolute pressure at the tool; below, b is taken as 0.5 and the flow falls to nothing at no pressure.
    /// # Errors
    /// [`LineError::OutOfRange`] if `at` is not above `ambient` or the figures make no tool.
    /// # Example
    /// A drill that takes 8 g/s at 90 psig takes 4.6 g/s at 45 psig: (45 + 14.7)/(90 + 14.7) of it.
    /// ```
    /// # use physics::line::Restriction; use quantity::{Absolute, Gauge};
    /// # use uom::si::{f64::*, mass_rate::gram_per_second, thermodynamic_temperature::degree_celsius};
    /// let (sea, air) = (Absolute::psi(14.7), ThermodynamicTemperature::new::<degree_celsius>(20.0));
    /// let rated = MassRate::new::<gram_per_second>(8.0);
    /// let drill = Restriction::of_tool(rated, Gauge::psi(90.0).at(sea), sea, air)?;
    /// let flow = drill.mass(Gauge::psi(45.0).at(sea), sea, air)?;
    /// assert!((flow.get::<gram_per_second>() - 4.56).abs() < 0.01);
    /// # Ok::<(), physics::line::LineError>(())
    /// ```
    pub fn of_tool(
        mass: MassRate,
        at: Absolute,
        ambient: Absolute,
        temperature: ThermodynamicTemperature,
    ) -> Result<Self, LineError> {
        let ambient_pa = check("outside air", "Pa", ambient.as_pa(), PRESSURE_PA)?;
        let at_pa = check(
            "pressure at the tool",
            "Pa",
            at.as_pa(),
            ambient_pa * 1.001..=*PRESSURE_PA.end(),
        )?;
        let unit = Self {
            conductance: M3_S_PA,
            ratio: TOOL_RATIO,
        };
        let per_unit = unit.mass_kg_s(at_pa, ambient_pa, Air::at(temperature)?);
        Self::iso_6358(mass_of(mass)? / per_unit, TOOL_RATIO)
    }

    /// A tool from the mass that it passes for each pascal of absolute pressure at it while choked, in air of
    /// 20 C: C = k / rho0. What holds below the choked range is said at [`Restriction::of_tool`].
    /// # Errors
    /// [`LineError::OutOfRange`].
    /// # Example
    /// ```
    /// # use physics::line::Restriction; use quantity::{Absolute, Gauge};
    /// # use uom::si::{f64::*, mass_rate::gram_per_second, thermodynamic_temperature::degree_celsius};
    /// let (sea, air) = (Absolute::psi(14.7), ThermodynamicTemperature::new::<degree_celsius>(20.0));
    /// let ninety = Gauge::psi(90.0).at(sea);
    /// let drill = Restriction::of_conductance(6.5e-3 / ninety.as_pa())?;
    /// assert!((drill.mass(ninety, sea, air)?.get::<gram_per_second>() - 6.5).abs() < 1e-9);
    /// # Ok::<(), physics::line::LineError>(())
    /// ```
    pub fn of_conductance(kg_s_pa: f64) -> Result<Self, LineError> {
        Self::iso_6358(kg_s_pa / REFERENCE_DENSITY / M3_S_PA, TOOL_RATIO)
    }

    /// b.
    pub fn critical_ratio(&self) -> f64 {
        self.ratio
    }

    /// C, dm3/(s bar).
    pub fn conductance_dm3_s_bar(self) -> f64 {
        self.conductance / M3_S_PA
    }

    /// What passes from `inlet` to `outlet`; nothing if the outlet is the higher.
    /// # Errors
    /// [`LineError::OutOfRange`].
    pub fn mass(
        self,
        inlet: Absolute,
        outlet: Absolute,
        temperature: ThermodynamicTemperature,
    ) -> Result<MassRate, LineError> {
        let inlet = check("inlet pressure", "Pa", inlet.as_pa(), PRESSURE_PA)?;
        let outlet = check("outlet pressure", "Pa", outlet.as_pa(), PRESSURE_PA)?;
        let kg_s = self.mass_kg_s(inlet, outlet, Air::at(temperature)?);
        Ok(MassRate::new::<kilogram_per_second>(kg_s))
    }

    /// Pressure left behind it while `mass` flows: p2 = p1 (b + (1 - b) sqrt(1 - (m / m choked)^2)).
    /// # Errors
    /// [`LineError::Choked`] above the choked flow; [`LineError::OutOfRange`].
    pub fn outlet_pressure(
        self,
        inlet: Absolute,
        mass: MassRate,
        temperature: ThermodynamicTemperature,
    ) -> Result<Absolute, LineError> {
        let inlet = check("inlet pressure", "Pa", inlet.as_pa(), PRESSURE_PA)?;
        let (asked_kg_s, air) = (mass_of(mass)?, Air::at(temperature)?);
        self.outlet_pa(inlet, asked_kg_s, air)
            .map(Absolute::pa)
            .ok_or_else(|| LineError::Choked {
                part: None,
                asked_kg_s,
                most_kg_s: self.most_kg_s(inlet, air),
            })
    }

    /// Choked flow for each pascal at the inlet, kg/(s Pa).
    fn choked_per_pa(self, air: Air) -> f64 {
        self.conductance * REFERENCE_DENSITY * (R_DRY_AIR * REFERENCE_K / air.rt).sqrt()
    }

    pub(super) fn most_kg_s(self, inlet: f64, air: Air) -> f64 {
        inlet * self.choked_per_pa(air)
    }

    pub(super) fn mass_kg_s(self, inlet: f64, outlet: f64, air: Air) -> f64 {
        let over = (outlet / inlet - self.ratio) / (1.0 - self.ratio);
        let share = if over <= 0.0 {
            1.0
        } else {
            (1.0 - over * over).max(0.0).sqrt()
        };
        self.most_kg_s(inlet, air) * share
    }

    pub(super) fn outlet_pa(self, inlet: f64, mass: f64, air: Air) -> Option<f64> {
        let share = mass / self.most_kg_s(inlet, air);
        let left = 1.0 - share * share;
        (left >= 0.0).then(|| inlet * (self.ratio + (1.0 - self.ratio) * left.sqrt()))
    }

    /// Pressure before it, Pa absolute, that carries `mass` to `outlet`; whether the flow then chokes.
    ///
    /// The equation is a quadratic in p1: (1 - 2b) p1^2 + 2 b p2 p1 = p2^2 + (1 - b)^2 (m / choked per Pa)^2.
    pub(super) fn inlet_pa(self, outlet: f64, mass: f64, air: Air) -> (f64, bool) {
        let choked = mass / self.choked_per_pa(air);
        if outlet <= self.ratio * choked {
            return (choked, true);
        }
        let (square, half) = (1.0 - 2.0 * self.ratio, self.ratio * outlet);
        let whole = outlet * outlet + ((1.0 - self.ratio) * choked).powi(2);
        let inlet = whole / (half + (half * half + square * whole).max(0.0).sqrt());
        (inlet, false)
    }
}

/// Choked mass flow of an ideal nozzle for each square metre and pascal, kg/(s m2 Pa).
fn choked_flux(rt: f64) -> f64 {
    let exponent = (GAMMA + 1.0) / (2.0 * (GAMMA - 1.0));
    (GAMMA / rt).sqrt() * (2.0 / (GAMMA + 1.0)).powf(exponent)
}

/// Air that passes a round hole: what a leak or an open nozzle costs.
///
/// choked: m = c A p1 sqrt(k/(R T)) (2/(k+1))^((k+1)/(2(k-1)));
/// above the critical ratio: m = c A p1 sqrt(2k/((k-1) R T) (r^(2/k) - r^((k+1)/k))),  r = p2/p1
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | m | mass flow | kg/s | result |
/// | c | discharge coefficient, [`ROUNDED_HOLE`], [`SHARP_HOLE`] | 1 | `discharge` |
/// | A | area of the hole | m2 | from `diameter` |
/// | p1, p2 | pressure before, behind, absolute | Pa | `inlet`, `outlet` |
/// | k | ratio of the specific heats, 1.4 | 1 | |
/// | R, T | gas constant of dry air; temperature before the hole | J/(kg K), K | `temperature` |
///
/// # Validity
/// Ideal gas, a hole no longer than a few diameters. Nothing flows if `outlet` is the higher.
/// # Errors
/// [`LineError::OutOfRange`].
/// # Source
/// Isentropic flow of a perfect gas, NACA Report 1135 (1953) (from memory).
/// # Example
/// DOE's tip sheet 3 gives 23.1 cfm for 1/8 in at 90 psig before its coefficient (from memory); free air of
/// 14.7 psia and 60 F, 1.2238 kg/m3:
/// ```
/// # use physics::line::hole_mass; use quantity::{Absolute, FreeAir, Gauge};
/// # use uom::si::{f64::*, length::inch, mass_density::kilogram_per_cubic_meter, thermodynamic_temperature::degree_fahrenheit};
/// let (sea, air) = (Absolute::psi(14.7), ThermodynamicTemperature::new::<degree_fahrenheit>(60.0));
/// let leak = hole_mass(Length::new::<inch>(0.125), 1.0, Gauge::psi(90.0).at(sea), sea, air)?;
/// let free = FreeAir::of_mass(leak, MassDensity::new::<kilogram_per_cubic_meter>(1.2238));
/// assert!((free.as_cfm() / 23.1 - 1.0).abs() < 0.03);
/// # Ok::<(), physics::line::LineError>(())
/// ```
pub fn hole_mass(
    diameter: Length,
    discharge: f64,
    inlet: Absolute,
    outlet: Absolute,
    temperature: ThermodynamicTemperature,
) -> Result<MassRate, LineError> {
    let metres = check("hole diameter", "m", diameter.get::<meter>(), HOLE_M)?;
    let discharge = check("discharge coefficient", "(no unit)", discharge, DISCHARGE)?;
    let inlet = check("inlet pressure", "Pa", inlet.as_pa(), PRESSURE_PA)?;
    let outlet = check("outlet pressure", "Pa", outlet.as_pa(), PRESSURE_PA)?;
    let rt = Air::at(temperature)?.rt;
    let ratio = outlet / inlet;
    let critical = (2.0 / (GAMMA + 1.0)).powf(GAMMA / (GAMMA - 1.0));
    let flux = if ratio <= critical {
        choked_flux(rt)
    } else {
        let work = ratio.powf(2.0 / GAMMA) - ratio.powf((GAMMA + 1.0) / GAMMA);
        (2.0 * GAMMA / ((GAMMA - 1.0) * rt) * work.max(0.0)).sqrt()
    };
    let kg_s = discharge * PI / 4.0 * metres * metres * inlet * flux;
    Ok(MassRate::new::<kilogram_per_second>(kg_s))
}
