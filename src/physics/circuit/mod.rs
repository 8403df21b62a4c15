//! Circuit: volts at the motor through panel, branch wire and cord; breaker, generator, cords that work.
//!
//! Voltages and currents are plain numbers with the unit in the name: root mean square, single phase.
//! Drops are added to voltages as if in phase. A motor's current lags, so the true loss is smaller, most of
//! all while it starts: these sums stand on the cautious side.

mod cord;
mod motor;
mod wire;

pub use cord::{CordBound, CordLimits, LongestCord, longest_cord, smallest_cord};
pub use motor::{
    HORSEPOWER, MULTIPLE, Motor, Start, StartingAmps, TYPICAL_MULTIPLE, code_letter_kva_per_hp,
    full_load_amps, horsepower_at, same_power_amps, starting_amps,
};
pub use wire::{
    AREA_M2, Awg, COPPER_OHM_M_20C, COPPER_RISE_20C, GAUGE_NUMBER, GAUGES, LENGTH_M, M2_PER_CIRCULAR_MIL,
    OHM_PER_M, RATED_C, STRANDING, Strands, WIRE_C, Wire, drop_volts, length_for_drop_m, ohm_per_m,
};

use std::fmt;
use std::ops::RangeInclusive;

/// Voltages accepted, V.
pub const VOLTS: RangeInclusive<f64> = 50.0..=600.0;
/// Currents of a machine accepted, A.
pub const AMPS: RangeInclusive<f64> = 0.01..=2_000.0;
/// Currents of other loads accepted, A.
pub const OTHER_AMPS: RangeInclusive<f64> = 0.0..=400.0;
/// Breaker ratings accepted, A.
pub const BREAKER_AMPS: RangeInclusive<f64> = 1.0..=400.0;
/// Generator ratings accepted, kVA.
pub const GENERATOR_KVA: RangeInclusive<f64> = 0.1..=500.0;

/// Share of a branch's rating that one cord-and-plug load may take.
/// Source: NEC 210.23(A)(1) (from memory).
pub const PLUG_LOAD_SHARE: f64 = 0.80;

/// Surge of a small generator over its rating, when the plate states none. Common practice, no source.
pub const TYPICAL_SURGE: f64 = 1.25;

/// What the sums cannot answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CircuitError {
    /// A figure outside what is accepted.
    OutOfRange {
        /// Which figure.
        what: &'static str,
        /// What was read.
        value: f64,
        /// Least accepted.
        low: f64,
        /// Most accepted.
        high: f64,
    },
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
            Self::OutOfRange {
                what,
                value,
                low,
                high,
            } => {
                write!(f, "{what} is {value}; use {low} to {high}")
            }
            Self::NoSuchLetter { letter } => {
                write!(f, "{letter} is no code letter; use A to V without I, O and Q")
            }
            Self::Starved { asked_va, most_va } => write!(
                f,
                "the wire passes at most {most_va:.0} VA, not {asked_va:.0} VA: use thicker or shorter wire"
            ),
        }
    }
}

impl std::error::Error for CircuitError {}

/// Refuses a figure outside its range; a range refuses NaN by itself.
pub(crate) fn within(what: &'static str, value: f64, range: RangeInclusive<f64>) -> Result<(), CircuitError> {
    if range.contains(&value) {
        return Ok(());
    }
    Err(CircuitError::OutOfRange {
        what,
        value,
        low: *range.start(),
        high: *range.end(),
    })
}

/// The way from the panel to the motor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Feed {
    /// Voltage at the panel, V.
    pub panel_volts: f64,
    /// Wire from the panel to the outlet, if known.
    pub branch: Option<Wire>,
    /// Cord from the outlet to the motor, if any.
    pub cord: Option<Wire>,
    /// What other loads on the same branch draw, A.
    pub other_amps: f64,
}

/// A feed seen from the motor: a voltage behind a resistance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Source {
    pub volts: f64,
    pub ohm: f64,
}

impl Feed {
    /// The feed as a voltage behind a resistance: V₀ = Vₚ − I₀ R_b, R = R_b + R_c.
    pub(crate) fn source(&self) -> Result<Source, CircuitError> {
        within("panel voltage", self.panel_volts, VOLTS)?;
        within("other load", self.other_amps, OTHER_AMPS)?;
        let ohm = |wire: Option<Wire>| wire.map_or(Ok(0.0), |wire| wire.loop_ohm());
        let branch = ohm(self.branch)?;
        let volts = self.panel_volts - self.other_amps * branch;
        if volts <= 0.0 {
            return Err(CircuitError::Starved {
                asked_va: self.panel_volts * self.other_amps,
                most_va: most_va(self.panel_volts, branch),
            });
        }
        Ok(Source {
            volts,
            ohm: branch + ohm(self.cord)?,
        })
    }
}

/// The most power that a voltage delivers through a resistance: V²/(4 R).
fn most_va(volts: f64, ohm: f64) -> f64 {
    volts * volts / (4.0 * ohm)
}

/// What arrives at the motor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtMotor {
    /// Voltage at the motor, V.
    pub volts: f64,
    /// Current, A.
    pub amps: f64,
    /// Share of the panel's voltage that is lost on the way.
    pub drop_share: f64,
    /// Voltage at the motor over the voltage on its plate.
    pub plate_share: f64,
    /// Torque over what the plate's voltage would give: (V/V₁)².
    pub torque_share: f64,
}

impl AtMotor {
    fn new(feed: &Feed, motor: &Motor, volts: f64, amps: f64) -> Self {
        let plate_share = volts / motor.volts;
        Self {
            volts,
            amps,
            drop_share: 1.0 - volts / feed.panel_volts,
            plate_share,
            torque_share: plate_share * plate_share,
        }
    }
}

/// Voltage and current at the motor while it runs at full load.
///
/// V = V₀ − R S/V, so V = (V₀ + √(V₀² − 4 R S))/2,  S = V₁ I₁
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | V₀ | voltage at the outlet without this motor | V | `feed` |
/// | R | resistance of branch and cord, out and back | ohm | `feed` |
/// | V₁, I₁ | plate voltage and current | V, A | `motor` |
/// | S | apparent power, held constant: a loaded motor draws more as the voltage falls | VA | |
/// | V | voltage at the motor | V | result |
///
/// # Validity
/// Constant apparent power, drop in phase: within about ±15 % of the plate's voltage, and cautious.
/// # Errors
/// [`CircuitError::Starved`] if V₀² < 4 R S; [`CircuitError::OutOfRange`].
/// # Source
/// Ohm's law; the model is the usual one of load-flow sums.
/// # Example
/// 115 V behind 1 ohm feeding 1,000 VA: 105.5 V, 9.48 A, as 105.5 + 9.48 x 1 = 115 (hand sum).
/// ```
/// # use physics::circuit::{running, Feed, Motor, Strands, Wire};
/// let one_ohm = Wire { area_m2: 2.1386e-6, strands: Strands::Stranded, length_m: 50.0 };
/// let feed = Feed { panel_volts: 115.0, branch: None, cord: Some(one_ohm), other_amps: 0.0 };
/// let motor = Motor { volts: 100.0, amps: 10.0, starting_amps: 60.0 };
/// let at = running(&feed, &motor)?;
/// assert!((at.volts - 105.5).abs() < 0.1 && (at.amps - 9.48).abs() < 0.01);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn running(feed: &Feed, motor: &Motor) -> Result<AtMotor, CircuitError> {
    motor.check()?;
    let source = feed.source()?;
    let asked_va = motor.running_va();
    let inside = source.volts * source.volts - 4.0 * source.ohm * asked_va;
    if inside < 0.0 {
        return Err(CircuitError::Starved {
            asked_va,
            most_va: most_va(source.volts, source.ohm),
        });
    }
    let volts = 0.5 * (source.volts + inside.sqrt());
    Ok(AtMotor::new(feed, motor, volts, asked_va / volts))
}

/// Voltage and current at the motor while its rotor stands still.
///
/// V = V₀ Z/(Z + R),  Z = V₁/I_L
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | V₀, R | as in [`running`] | V, ohm | `feed` |
/// | V₁, I_L | plate voltage, locked-rotor current | V, A | `motor` |
/// | Z | impedance of the locked rotor, held constant | ohm | |
/// | V | voltage at the motor | V | result |
///
/// # Validity
/// A locked rotor is an impedance; Z and R added as if in phase, which overstates the loss by up to a third.
/// # Errors
/// [`CircuitError::OutOfRange`]; [`CircuitError::Starved`] if the other loads alone use up the voltage.
/// # Source
/// Voltage divider; torque as the square of the voltage is the induction motor's (any machines text).
/// # Example
/// 90 A locked at 120 V is 1.333 ohm; behind 1 ohm it gets 120 x 1.333/2.333 = 68.6 V and 33 % torque (hand sum):
/// ```
/// # use physics::circuit::{starting, Feed, Motor, Strands, Wire};
/// let one_ohm = Wire { area_m2: 2.1386e-6, strands: Strands::Stranded, length_m: 50.0 };
/// let feed = Feed { panel_volts: 120.0, branch: None, cord: Some(one_ohm), other_amps: 0.0 };
/// let at = starting(&feed, &Motor { volts: 120.0, amps: 15.0, starting_amps: 90.0 })?;
/// assert!((at.volts - 68.6).abs() < 0.1 && (at.torque_share - 0.33).abs() < 0.01);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn starting(feed: &Feed, motor: &Motor) -> Result<AtMotor, CircuitError> {
    motor.check()?;
    let source = feed.source()?;
    let impedance = motor.starting_ohm();
    let amps = source.volts / (impedance + source.ohm);
    Ok(AtMotor::new(feed, motor, amps * impedance, amps))
}

/// How a branch's breaker stands against what hangs on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BreakerUse {
    /// The machine's current over the rating.
    pub machine_share: f64,
    /// All loads' current over the rating.
    pub total_share: f64,
    /// How far the machine exceeds what one plugged load may draw, A; negative is room left.
    pub machine_over_amps: f64,
    /// How far all loads together exceed the rating, A; negative is room left.
    pub total_over_amps: f64,
}

/// The machine and the other loads against the breaker's rating.
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | I_n | rating | A | `rating_amps` |
/// | I | machine's full-load current | A | `machine_amps` |
/// | I₀ | other loads on the branch | A | `other_amps` |
///
/// Over by I − 0.8 I_n for one plugged load, by I + I₀ − I_n for all.
/// # Errors
/// [`CircuitError::OutOfRange`] outside [`BREAKER_AMPS`], [`AMPS`], [`OTHER_AMPS`].
/// # Source
/// NEC 210.23(A)(1) (from memory).
/// # Example
/// One plugged load on 20 A may draw 16 A:
/// ```
/// # use physics::circuit::breaker_use;
/// let used = breaker_use(20.0, 16.0, 0.0)?;
/// assert!(used.machine_over_amps.abs() < 1e-9 && used.total_over_amps == -4.0);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn breaker_use(rating_amps: f64, machine_amps: f64, other_amps: f64) -> Result<BreakerUse, CircuitError> {
    within("breaker rating", rating_amps, BREAKER_AMPS)?;
    within("full-load current", machine_amps, AMPS)?;
    within("other load", other_amps, OTHER_AMPS)?;
    let total = machine_amps + other_amps;
    Ok(BreakerUse {
        machine_share: machine_amps / rating_amps,
        total_share: total / rating_amps,
        machine_over_amps: machine_amps - PLUG_LOAD_SHARE * rating_amps,
        total_over_amps: total - rating_amps,
    })
}

/// How a generator or inverter stands against a motor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GeneratorUse {
    /// Motor and other loads while running, kVA.
    pub running_kva: f64,
    /// Other loads and the starting motor, kVA.
    pub starting_kva: f64,
    /// Running kVA over the rating; above 1 it is overloaded.
    pub running_share: f64,
    /// Starting kVA over the surge; above 1 the voltage sags and the motor may not start.
    pub starting_share: f64,
}

/// A motor and other loads against a generator's rating and surge.
///
/// S = V₁ I₁ + V₁ I₀ against the rating; S_L = V₁ I_L + V₁ I₀ against the surge
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | V₁, I₁, I_L | plate voltage, full-load and locked-rotor current | V, A | `motor` |
/// | I₀ | other loads | A | `other_amps` |
/// | | rating; surge, [`TYPICAL_SURGE`] times that if unknown | kVA | `rated_kva`, `surge_kva` |
///
/// # Errors
/// [`CircuitError::OutOfRange`] outside [`GENERATOR_KVA`], [`OTHER_AMPS`] or the motor's ranges.
/// # Source
/// Definition of apparent power.
/// # Example
/// 15 A and 90 A at 120 V are 1.8 kVA and 10.8 kVA (hand sum):
/// ```
/// # use physics::circuit::{generator_use, Motor};
/// let motor = Motor { volts: 120.0, amps: 15.0, starting_amps: 90.0 };
/// let used = generator_use(3.6, Some(5.4), &motor, 0.0)?;
/// assert!((used.running_share - 0.5).abs() < 1e-9 && (used.starting_share - 2.0).abs() < 1e-9);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn generator_use(
    rated_kva: f64,
    surge_kva: Option<f64>,
    motor: &Motor,
    other_amps: f64,
) -> Result<GeneratorUse, CircuitError> {
    motor.check()?;
    let surge = surge_kva.unwrap_or(TYPICAL_SURGE * rated_kva);
    within("generator rating", rated_kva, GENERATOR_KVA)?;
    within(
        "generator surge",
        surge,
        0.1..=TYPICAL_SURGE * GENERATOR_KVA.end(),
    )?;
    within("other load", other_amps, OTHER_AMPS)?;
    let other = motor.volts * other_amps;
    let running_kva = (motor.running_va() + other) / 1_000.0;
    let starting_kva = (motor.starting_va() + other) / 1_000.0;
    Ok(GeneratorUse {
        running_kva,
        starting_kva,
        running_share: running_kva / rated_kva,
        starting_share: starting_kva / surge,
    })
}
