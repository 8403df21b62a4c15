//! A generator or inverter against a motor.

use super::{CircuitError, GENERATOR_KVA, Motor, OTHER_AMPS};
use quantity::range::within;

/// Rating over running load from which a generator starts such a motor daily. Judgement, no source.
pub const EASY_SHARE: f64 = 3.0;

/// Rating over running load below which a generator stalls as the motor starts. Judgement, no source.
pub const LEAST_SHARE: f64 = 1.5;

/// Surge of a small generator over its rating, when the plate states none. Common practice, no source.
pub const TYPICAL_SURGE: f64 = 1.25;

/// Voltage to which a small generator may sag for the second that a start takes, over its own: an unloaded pump
/// still turns, with half of its torque. Judgement, no source.
pub const SAG_SHARE: f64 = 0.7;

/// How a generator or inverter stands against a motor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GeneratorUse {
    /// Motor and other loads while running, kVA.
    pub running_kva: f64,
    /// Rating over that.
    pub rating_share: f64,
    /// Other loads and the starting motor at the sagged voltage, kVA.
    pub starting_kva: f64,
    /// That over the surge; above 1 the voltage sags further and the motor stays still.
    pub starting_share: f64,
}

/// A motor and other loads against a generator's rating and surge.
///
/// S = V₁ I₁ + V₁ I₀ against the rating; S_L = k² V₁ I_L + V₁ I₀ against the surge
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | V₁, I₁, I_L | plate voltage, full-load and locked-rotor current | V, A | `motor` |
/// | I₀ | other loads | A | `other_amps` |
/// | k | voltage while starting over the plate's, [`SAG_SHARE`]; a locked rotor is an impedance, so kVA go as k² | 1 | |
/// | | rating; surge is [`TYPICAL_SURGE`] times that | kVA | `rated_kva` |
///
/// # Errors
/// [`CircuitError::OutOfRange`] outside [`GENERATOR_KVA`], [`OTHER_AMPS`] or the motor's ranges.
/// # Source
/// Definition of apparent power; the shares to hold them against are judgement, no source.
/// # Example
/// 15 A and 90 A at 120 V are 1.8 kVA and, at 0.7 of the voltage, 5.3 kVA (hand sum):
/// ```
/// # use physics::circuit::{generator_use, Motor};
/// let motor = Motor { volts: 120.0, amps: 15.0, starting_amps: 90.0 };
/// let used = generator_use(3.6, &motor, 0.0)?;
/// assert!((used.rating_share - 2.0).abs() < 1e-9 && (used.starting_kva - 5.29).abs() < 0.01);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn generator_use(rated_kva: f64, motor: &Motor, other_amps: f64) -> Result<GeneratorUse, CircuitError> {
    motor.check()?;
    within("generator rating", rated_kva, GENERATOR_KVA)?;
    within("other load", other_amps, OTHER_AMPS)?;
    let other = motor.volts * other_amps;
    let running_kva = (motor.running_va() + other) / 1_000.0;
    let starting_kva = (SAG_SHARE * SAG_SHARE * motor.starting_va() + other) / 1_000.0;
    Ok(GeneratorUse {
        running_kva,
        rating_share: rated_kva / running_kva,
        starting_kva,
        starting_share: starting_kva / (TYPICAL_SURGE * rated_kva),
    })
}
