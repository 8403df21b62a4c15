//! What a regulator lets through: its setting, less the droop, as long as the tank stands above it.

use std::ops::RangeInclusive;

use uom::si::f64::Pressure;
use uom::si::pressure::pascal;

use super::coupler::REFERENCE_DENSITY;
use super::error::{LineError, check};
use quantity::{Gauge, M3_S_PER_CFM, PA_PER_PSI};

/// Settings that the sums take, Pa above the outside air.
pub const SETTING_PA: RangeInclusive<f64> = 0.0..=3e6;

/// Droops that the sums take, Pa per m3/s of free air; the upper end is about 10 psi per cfm.
pub const DROOP_PA_PER_M3_S: RangeInclusive<f64> = 0.0..=1.5e8;

/// Drops of an open regulator that the sums take, Pa.
pub const MINIMUM_DROP_PA: RangeInclusive<f64> = 0.0..=2e5;

/// Droop of a small regulator, Pa per m3/s of free air: 0.4 psi per cfm. Typical, common practice, no source.
pub const TYPICAL_DROOP_PA_PER_M3_S: f64 = 0.4 * PA_PER_PSI / M3_S_PER_CFM;

/// Drop of a regulator that stands wide open, Pa: 3 psi. Typical, common practice, no source.
pub const TYPICAL_MINIMUM_DROP_PA: f64 = 3.0 * PA_PER_PSI;

/// A pressure regulator with a dial.
///
/// p2 = min(p set - s q, p1 - d),  q = m / rho0
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | p2, p1 | pressure out, in | Pa | |
/// | p set | setting, read while nothing flows | Pa | `setting` |
/// | s | droop | Pa per m3/s | `droop_pa_per_m3_s` |
/// | q | free air at the reference of ISO 8778, 1.185 kg/m3 | m3/s | |
/// | d | least drop, wide open | Pa | `minimum_drop` |
///
/// # Validity
/// Real droop curves dip at the first trickle and steepen near the regulator's full flow; the line stands for
/// the middle. The least drop is taken as the same at every flow. The setting's slow creep with a falling tank
/// pressure is left out.
/// # Source
/// The terms are ISO 6953-1's (from memory); that a straight line serves is common practice, no source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Regulator {
    /// What its dial shows while nothing flows.
    pub setting: Gauge,
    /// Fall of the regulated pressure with the flow, Pa per m3/s of free air.
    pub droop_pa_per_m3_s: f64,
    /// What it takes from the tank's pressure when it stands wide open.
    pub minimum_drop: Pressure,
}

impl Regulator {
    /// A regulator of usual droop and least drop.
    pub fn typical(setting: Gauge) -> Self {
        Self {
            setting,
            droop_pa_per_m3_s: TYPICAL_DROOP_PA_PER_M3_S,
            minimum_drop: Pressure::new::<pascal>(TYPICAL_MINIMUM_DROP_PA),
        }
    }

    pub(super) fn check(&self) -> Result<(), LineError> {
        check("regulator setting", "Pa", self.setting.as_pa(), SETTING_PA)?;
        check(
            "regulator droop",
            "Pa per m3/s",
            self.droop_pa_per_m3_s,
            DROOP_PA_PER_M3_S,
        )?;
        check(
            "regulator's least drop",
            "Pa",
            self.minimum_drop_pa(),
            MINIMUM_DROP_PA,
        )?;
        Ok(())
    }

    pub(super) fn minimum_drop_pa(&self) -> f64 {
        self.minimum_drop.get::<pascal>()
    }

    /// What the droop takes at a mass flow in kg/s, Pa.
    pub(super) fn droop_pa(&self, mass: f64) -> f64 {
        self.droop_pa_per_m3_s * mass / REFERENCE_DENSITY
    }

    /// Pressure behind it, Pa absolute; below zero where the droop leaves nothing.
    pub(super) fn outlet_pa(&self, tank: f64, mass: f64, ambient: f64) -> f64 {
        let set = self.setting.as_pa() + ambient - self.droop_pa(mass);
        set.min(tank - self.minimum_drop_pa())
    }
}
