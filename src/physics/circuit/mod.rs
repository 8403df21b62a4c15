//! Circuit: volts at the motor through panel, branch wire and cord; breaker, generator, cords that work.
//!
//! Voltages and currents are plain numbers with the unit in the name: root mean square, single phase.

mod breaker;
mod cord;
mod feed;
mod generator;
mod motor;
mod wire;

pub use breaker::{Code, Trip, motor_breaker_a, trip, warming_amps, wire_breaker_a};
pub use cord::{CordAdvice, CordSize, DROP_SHARE, advised_cord, cord_drop_share, longest_cord_m};
pub use feed::{AtMotor, Feed, RUNNING_POWER_FACTOR, STARTING_POWER_FACTOR, running, starting};
pub use generator::{EASY_SHARE, GeneratorUse, LEAST_SHARE, SAG_SHARE, TYPICAL_SURGE, generator_use};
pub use motor::{
    HORSEPOWER, MULTIPLE, Motor, Start, StartingAmps, TYPICAL_MULTIPLE, code_letter_kva_per_hp,
    full_load_amps, horsepower_at, same_power_amps, starting_amps,
};
pub use wire::{
    AREA_M2, Awg, COPPER_OHM_M_20C, COPPER_RISE_20C, GAUGE_NUMBER, INSULATION_C, LENGTH_M,
    M2_PER_CIRCULAR_MIL, Metal, OHM_PER_M, RATED_C, STRANDING, Strands, WIRE_C, Wire, conductor_celsius,
    drop_volts, length_for_drop_m, ohm_per_m,
};

use quantity::plain;
use quantity::range::OutOfRange;
use std::fmt;
use std::ops::RangeInclusive;

/// Voltages accepted, V: from a car's battery to a three-phase shop.
pub const VOLTS: RangeInclusive<f64> = 6.0..=700.0;
/// Between the usual voltages of small motors: 100 to 127 V below, 200 to 250 V above.
pub const MIDDLE_VOLTS: f64 = 160.0;
/// Currents of a machine accepted, A.
pub const AMPS: RangeInclusive<f64> = 0.01..=2_000.0;
/// Currents of other loads accepted, A.
pub const OTHER_AMPS: RangeInclusive<f64> = 0.0..=400.0;
/// Breaker ratings accepted, A.
pub const BREAKER_AMPS: RangeInclusive<f64> = 1.0..=400.0;
/// Generator ratings accepted, kVA.
pub const GENERATOR_KVA: RangeInclusive<f64> = 0.1..=500.0;

/// Share of a branch's rating that one cord-and-plug load may take where the circuit serves more than that.
/// A rule to be told with its edition, no fault by itself: a circuit of its own may carry its full rating (210.22).
/// Source: NEC 210.23(A)(1) to the 2020 edition, 210.23(B)(1) in 2023.
pub const PLUG_LOAD_SHARE: f64 = 0.80;

/// What the sums cannot answer.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum CircuitError {
    /// A figure outside what is accepted.
    OutOfRange(OutOfRange),
    /// Not a locked-rotor code letter.
    NoSuchLetter {
        /// What was read.
        letter: char,
    },
    /// No voltage at the motor carries its power through this much wire.
    Starved {
        /// What the motor asks, VA.
        asked_va: f64,
        /// The most that the wire passes, VA.
        most_va: f64,
    },
}

impl fmt::Display for CircuitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OutOfRange(error) => error.fmt(f),
            Self::NoSuchLetter { letter } => {
                write!(f, "{letter} is no code letter; use A to V without I, O and Q")
            }
            Self::Starved { asked_va, most_va } => write!(
                f,
                "the wire passes at most {} VA, not {} VA: use thicker or shorter wire",
                plain(*most_va, 0),
                plain(*asked_va, 0)
            ),
        }
    }
}

impl std::error::Error for CircuitError {}

impl From<OutOfRange> for CircuitError {
    fn from(error: OutOfRange) -> Self {
        Self::OutOfRange(error)
    }
}
