//! What a hose loses: isothermal flow of a gas with friction, up to the flow that chokes it.

use std::f64::consts::PI;
use std::ops::RangeInclusive;

use uom::si::f64::{Length, MassRate, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::mass_rate::kilogram_per_second;

use super::error::{LineError, check};
use super::{Air, PRESSURE_PA, mass_of};
use quantity::Absolute;

/// Bores of a hose that the sums take, m.
pub const BORE_M: RangeInclusive<f64> = 0.001..=0.1;

/// Lengths of a hose that the sums take, m.
pub const LENGTH_M: RangeInclusive<f64> = 0.01..=1_000.0;

/// Roughness of a hose's wall that the sums take, m.
pub const ROUGHNESS_M: RangeInclusive<f64> = 0.0..=0.0005;

/// Roughness of a smooth wall, m: drawn tubing, 0.000 005 ft.
/// Source: Moody, *Friction factors for pipe flow*, Trans. ASME 66 (1944), figure 2 (from memory).
pub const SMOOTH_M: f64 = 1.5e-6;

/// A hose: what its loss depends on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hose {
    /// Length along the hose.
    pub length: Length,
    /// Inner diameter.
    pub bore: Length,
    /// Height of the wall's unevenness, as in pipe tables.
    pub roughness: Length,
}

impl Hose {
    /// A hose with a smooth lining, [`SMOOTH_M`].
    pub fn smooth(length: Length, bore: Length) -> Self {
        Self {
            length,
            bore,
            roughness: Length::new::<meter>(SMOOTH_M),
        }
    }

    /// Darcy friction factor of a flow through it, [`friction_factor`].
    ///
    /// # Errors
    /// [`LineError::OutOfRange`].
    pub fn friction(&self, mass: MassRate, temperature: ThermodynamicTemperature) -> Result<f64, LineError> {
        self.check()?;
        let air = Air::at(temperature)?;
        Ok(self.groups(mass_of(mass)?, air).friction * self.bore.get::<meter>() / self.length.get::<meter>())
    }

    pub(super) fn check(&self) -> Result<(), LineError> {
        check("hose length", "m", self.length.get::<meter>(), LENGTH_M)?;
        check("hose bore", "m", self.bore.get::<meter>(), BORE_M)?;
        check("hose roughness", "m", self.roughness.get::<meter>(), ROUGHNESS_M)?;
        Ok(())
    }

    fn area_m2(&self) -> f64 {
        let bore = self.bore.get::<meter>();
        PI / 4.0 * bore * bore
    }

    /// The two groups that the loss depends on, for a mass flow in kg/s.
    fn groups(&self, mass: f64, air: Air) -> Groups {
        let bore = self.bore.get::<meter>();
        let flux = mass / self.area_m2();
        let reynolds = flux * bore / air.viscosity;
        let friction = friction_factor(reynolds, self.roughness.get::<meter>() / bore);
        Groups {
            dynamic: flux * flux * air.rt,
            friction: friction * self.length.get::<meter>() / bore,
        }
    }

    /// Pressure at the far end, Pa absolute, or nothing if the flow chokes.
    pub(super) fn outlet_pa(&self, inlet: f64, mass: f64, air: Air) -> Option<f64> {
        let groups = self.groups(mass, air);
        let g = groups.dynamic / (inlet * inlet);
        if g <= 0.0 {
            return Some(inlet);
        }
        if groups.chokes(g) {
            return None;
        }
        // y = (p2/p1)^2 solves 1 - y = g (friction - ln y). The function is concave and falls from y = g to
        // 1, so Newton's steps from 1 come down to the root and never pass it.
        let mut y = 1.0;
        for _ in 0..STEPS {
            let slope = g / y - 1.0;
            if slope > -FLAT {
                break;
            }
            let next = f64::max(y - (1.0 - y - g * (groups.friction - y.ln())) / slope, g);
            let done = (y - next).abs() <= f64::EPSILON * y;
            y = next;
            if done {
                break;
            }
        }
        Some(inlet * y.sqrt())
    }

    /// Pressure at the near end, Pa absolute, that carries the flow to `outlet`; whether the flow then chokes.
    pub(super) fn inlet_pa(&self, outlet: f64, mass: f64, air: Air) -> (f64, bool) {
        let groups = self.groups(mass, air);
        let critical = groups.dynamic.sqrt();
        let end = outlet.max(critical);
        let g = groups.dynamic / (end * end);
        // y = (p1/p2)^2 solves y - 1 = g (friction + ln y), convex and rising above y = 1: Newton's steps pass
        // the root at most once, then come down to it.
        let mut y = 1.0 + g * groups.friction;
        for _ in 0..STEPS {
            let slope = 1.0 - g / y;
            if slope < FLAT {
                break;
            }
            let next = f64::max(y - (y - 1.0 - g * (groups.friction + y.ln())) / slope, 1.0);
            let done = (y - next).abs() <= f64::EPSILON * y;
            y = next;
            if done {
                break;
            }
        }
        (end * y.sqrt(), critical > outlet)
    }

    /// The most that passes, kg/s.
    pub(super) fn most_kg_s(&self, inlet: f64, air: Air) -> f64 {
        let (mut passes, mut chokes) = (0.0, self.area_m2() * inlet / air.rt.sqrt());
        for _ in 0..STEPS {
            let mass = 0.5 * (passes + chokes);
            let groups = self.groups(mass, air);
            if groups.chokes(groups.dynamic / (inlet * inlet)) {
                chokes = mass;
            } else {
                passes = mass;
            }
        }
        passes
    }
}

/// Most steps of any solver here; Newton's take four or five except beside choking, where each halves the gap.
const STEPS: u32 = 60;

/// A slope that counts as flat: the root beside it is known to its square root, 1 part in 10^6.
const FLAT: f64 = 1e-12;

/// What the flow in a hose depends on.
struct Groups {
    /// G^2 R T, Pa^2.
    dynamic: f64,
    /// f L / D.
    friction: f64,
}

impl Groups {
    /// Whether g = G^2 R T / p1^2 is too much: at the isothermal limit p2^2 = G^2 R T.
    fn chokes(&self, g: f64) -> bool {
        g >= 1.0 || (g > 0.0 && 1.0 - g < g * (self.friction - g.ln()))
    }
}

/// Darcy's friction factor in a round tube, all regimes.
///
/// f = 8 ((8/Re)^12 + (A + B)^-1.5)^(1/12),
/// A = (2.457 ln(1 / ((7/Re)^0.9 + 0.27 e/D)))^16, B = (37,530/Re)^16
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | f | Darcy friction factor | 1 | result |
/// | Re | Reynolds number | 1 | `reynolds` |
/// | e/D | roughness over bore | 1 | `relative_roughness` |
///
/// # Validity
/// Within 2 % of Colebrook above Re 4,000. From about 2,000 to 4,000 it joins laminar and turbulent flow
/// smoothly; a real hose does either there, a third apart. Below Re 100 it is 64/Re, which the formula equals.
/// # Source
/// Churchill, *Friction-factor equation spans all fluid-flow regimes*, Chem. Eng. 84 (24), 1977 (from memory).
/// # Example
/// The same equation in `fluids` 1.3.1 prints 0.018 462 6 for Re = 100,000 and e/D = 0.0001:
/// ```
/// # use physics::line::friction_factor;
/// assert!((friction_factor(1e5, 1e-4) - 0.018_462_6).abs() < 5e-8);
/// ```
pub fn friction_factor(reynolds: f64, relative_roughness: f64) -> f64 {
    if reynolds < 100.0 {
        return 64.0 / reynolds.max(1e-9);
    }
    let rough = 2.457 * ((7.0 / reynolds).powf(0.9) + 0.27 * relative_roughness).ln();
    let turbulent = rough.powi(16) + (37_530.0 / reynolds).powi(16);
    let blend = (8.0 / reynolds).powi(12) + 1.0 / (turbulent * turbulent.sqrt());
    8.0 * blend.powf(1.0 / 12.0)
}

/// Pressure left at the far end of a hose while air flows through it.
///
/// p1^2 - p2^2 = G^2 R T (f L/D + 2 ln(p1/p2)),  G = m / (pi D^2 / 4)
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | p1, p2 | pressure in, out, absolute | Pa | `inlet`, result |
/// | m | mass flow | kg/s | `mass` |
/// | L, D | length, bore | m | `hose` |
/// | f | Darcy friction factor at the hose's Reynolds number, [`friction_factor`] | 1 | |
/// | R, T | gas constant of dry air; temperature, held constant | J/(kg K), K | `temperature` |
///
/// The Reynolds number takes [`crate::air::viscosity`].
///
/// # Validity
/// Ideal gas, one temperature, below the isothermal limit G^2 R T < p2^2. A straight hose: one coiled tightly
/// loses more. End fittings are counted as couplers, [`super::Restriction`].
/// # Errors
/// [`LineError::Choked`] if no outlet pressure carries `mass`; [`LineError::OutOfRange`].
/// # Source
/// Rennels and Hudson, *Pipe Flow* (2012), isothermal gas flow (equation from memory).
/// # Example
/// 11 scfm (6.25 g/s) at 90 psig through 50 ft of 3/8 in smooth hose loses about 2.3 psi (`fluids` 1.3.1):
/// ```
/// # use physics::line::{Hose, outlet_pressure}; use quantity::{Absolute, Gauge};
/// # use uom::si::{f64::*, length::{foot, inch}, mass_rate::gram_per_second, thermodynamic_temperature::degree_celsius};
/// let hose = Hose::smooth(Length::new::<foot>(50.0), Length::new::<inch>(0.375));
/// let inlet = Gauge::psi(90.0).at(Absolute::psi(14.696));
/// let air = ThermodynamicTemperature::new::<degree_celsius>(20.0);
/// let outlet = outlet_pressure(hose, inlet, MassRate::new::<gram_per_second>(6.25), air)?;
/// assert!((inlet.as_psi() - outlet.as_psi() - 2.3).abs() < 0.05);
/// # Ok::<(), physics::line::LineError>(())
/// ```
pub fn outlet_pressure(
    hose: Hose,
    inlet: Absolute,
    mass: MassRate,
    temperature: ThermodynamicTemperature,
) -> Result<Absolute, LineError> {
    hose.check()?;
    let air = Air::at(temperature)?;
    let inlet_pa = check("inlet pressure", "Pa", inlet.as_pa(), PRESSURE_PA)?;
    let asked_kg_s = mass_of(mass)?;
    hose.outlet_pa(inlet_pa, asked_kg_s, air)
        .map(Absolute::pa)
        .ok_or_else(|| LineError::Choked {
            part: None,
            asked_kg_s,
            most_kg_s: hose.most_kg_s(inlet_pa, air),
        })
}

/// The most that a hose passes from an inlet pressure, however low its outlet.
///
/// p1^2/p2^2 - 1 = f L/D + 2 ln(p1/p2) with p2 = G sqrt(R T), the isothermal limit; symbols as in
/// [`outlet_pressure`], f at that flow.
///
/// # Validity
/// As [`outlet_pressure`]. A short hose chokes near the adiabatic limit instead, up to 18 % later.
/// # Errors
/// [`LineError::OutOfRange`].
/// # Source
/// Rennels and Hudson, *Pipe Flow* (2012), isothermal gas flow (equation from memory).
/// # Example
/// 40 scfm (22.7 g/s) at 90 psig cannot pass 50 ft of 1/4 in (`fluids` 1.3.1):
/// ```
/// # use physics::line::{Hose, most_mass}; use quantity::{Absolute, Gauge};
/// # use uom::si::{f64::*, length::{foot, inch}, mass_rate::gram_per_second, thermodynamic_temperature::degree_celsius};
/// let hose = Hose::smooth(Length::new::<foot>(50.0), Length::new::<inch>(0.25));
/// let air = ThermodynamicTemperature::new::<degree_celsius>(20.0);
/// let most = most_mass(hose, Gauge::psi(90.0).at(Absolute::psi(14.696)), air)?;
/// assert!(most < MassRate::new::<gram_per_second>(22.7));
/// # Ok::<(), physics::line::LineError>(())
/// ```
pub fn most_mass(
    hose: Hose,
    inlet: Absolute,
    temperature: ThermodynamicTemperature,
) -> Result<MassRate, LineError> {
    hose.check()?;
    let air = Air::at(temperature)?;
    let inlet_pa = check("inlet pressure", "Pa", inlet.as_pa(), PRESSURE_PA)?;
    Ok(MassRate::new::<kilogram_per_second>(
        hose.most_kg_s(inlet_pa, air),
    ))
}
