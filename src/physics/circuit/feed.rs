//! From the panel to the motor: volts while it runs and while it starts, drops added as vectors.

use super::{CircuitError, Motor, OTHER_AMPS, VOLTS, Wire};
use quantity::range::within;

/// Power factor of a small single-phase motor that compresses at full load, lagging. From memory: 0.8 to 0.9.
pub const RUNNING_POWER_FACTOR: f64 = 0.85;

/// Power factor of a single-phase capacitor-start motor at standstill, lagging: 0.5 to 0.8 (from memory).
pub const STARTING_POWER_FACTOR: f64 = 0.7;

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
    /// Temperature of the conductors, °C: the place's own at a cold start.
    pub celsius: f64,
}

/// A feed seen from the motor: a voltage behind a resistance.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Source {
    volts: f64,
    ohm: f64,
}

impl Feed {
    /// The feed as a voltage behind a resistance: V₀ = Vₚ − I₀ R_b, R = R_b + R_c.
    fn source(&self) -> Result<Source, CircuitError> {
        within("panel voltage", self.panel_volts, VOLTS)?;
        within("other load", self.other_amps, OTHER_AMPS)?;
        let ohm = |wire: Option<Wire>| wire.map_or(Ok(0.0), |wire| wire.loop_ohm(self.celsius));
        let branch = ohm(self.branch)?;
        let volts = self.panel_volts - self.other_amps * branch;
        if volts <= 0.0 {
            return Err(CircuitError::Starved {
                asked_va: self.panel_volts * self.other_amps,
                most_va: self.panel_volts * self.panel_volts / (4.0 * branch),
            });
        }
        let ohm = branch + ohm(self.cord)?;
        Ok(Source { volts, ohm })
    }
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
/// V = √((B + √(B² − 4 R² S²))/2),  B = V₀² − 2 R S c,  S = V₁ I₁
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | V₀ | voltage at the outlet without this motor | V | `feed` |
/// | R | resistance of branch and cord, out and back | ohm | `feed` |
/// | V₁, I₁ | plate voltage and current | V, A | `motor` |
/// | S | apparent power, held constant: a loaded motor draws more as the voltage falls | VA | |
/// | c | power factor, [`RUNNING_POWER_FACTOR`] | 1 | |
/// | V | voltage at the motor | V | result |
///
/// It is the larger root of V₀² = (V + R I c)² + (R I s)², I = S/V, s² = 1 − c²: the drop in the wire is in step with
/// the current, and the current lags the voltage at the motor.
///
/// # Validity
/// Constant apparent power: within about ±15 % of the plate's voltage. Wire as resistance only: to 6 AWG its
/// reactance adds less than 2 %.
/// # Errors
/// [`CircuitError::Starved`] if no voltage at the motor carries S; [`CircuitError::OutOfRange`].
/// # Source
/// Ohm's law on phasors (any text on alternating current); constant power is the usual model of load-flow sums.
/// # Example
/// 115 V behind 1 ohm feeding 1,000 VA at power factor 0.85: 106.9 V and 9.35 A, as
/// (106.9 + 9.35 x 0.85)² + (9.35 x 0.527)² = 115² (hand sum).
/// ```
/// # use physics::circuit::{running, Feed, Metal, Motor, Strands, Wire};
/// let one_ohm = Wire { area_m2: 1.7586e-6, strands: Strands::Stranded, metal: Metal::Copper, length_m: 50.0 };
/// let feed = Feed { panel_volts: 115.0, branch: None, cord: Some(one_ohm), other_amps: 0.0, celsius: 20.0 };
/// let motor = Motor { volts: 100.0, amps: 10.0, starting_amps: 60.0 };
/// let at = running(&feed, &motor)?;
/// assert!((at.volts - 106.95).abs() < 0.1 && (at.amps - 9.35).abs() < 0.01);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn running(feed: &Feed, motor: &Motor) -> Result<AtMotor, CircuitError> {
    motor.check()?;
    let source = feed.source()?;
    let asked_va = motor.running_va();
    let dropped = source.ohm * asked_va;
    let balance = source.volts * source.volts - 2.0 * dropped * RUNNING_POWER_FACTOR;
    let inside = balance * balance - 4.0 * dropped * dropped;
    if balance <= 0.0 || inside < 0.0 {
        let most = source.volts * source.volts / (2.0 * source.ohm * (1.0 + RUNNING_POWER_FACTOR));
        return Err(CircuitError::Starved {
            asked_va,
            most_va: most,
        });
    }
    let volts = (0.5 * (balance + inside.sqrt())).sqrt();
    Ok(AtMotor::new(feed, motor, volts, asked_va / volts))
}

/// Voltage and current at the motor while its rotor stands still.
///
/// V = V₀ Z/√((Z c + R)² + (Z s)²),  Z = V₁/I_L,  s² = 1 − c²
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | V₀, R | as in [`running`] | V, ohm | `feed` |
/// | V₁, I_L | plate voltage, locked-rotor current | V, A | `motor` |
/// | Z | impedance of the locked rotor, held constant | ohm | |
/// | c | power factor at standstill, [`STARTING_POWER_FACTOR`] | 1 | |
/// | V | voltage at the motor | V | result |
///
/// # Validity
/// A locked rotor is an impedance; the wire is a resistance at the temperature of `feed`.
/// # Errors
/// [`CircuitError::OutOfRange`]; [`CircuitError::Starved`] if the other loads alone use up the voltage.
/// # Source
/// Voltage divider on phasors; torque as the square of the voltage is the induction motor's (any machines text).
/// # Example
/// 90 A locked at 120 V is 1.333 ohm, 0.933 of it resistance; behind 1 ohm it gets
/// 120 x 1.333/√(1.933² + 0.952²) = 74.2 V and 38 % of its torque (hand sum):
/// ```
/// # use physics::circuit::{starting, Feed, Metal, Motor, Strands, Wire};
/// let one_ohm = Wire { area_m2: 1.7586e-6, strands: Strands::Stranded, metal: Metal::Copper, length_m: 50.0 };
/// let feed = Feed { panel_volts: 120.0, branch: None, cord: Some(one_ohm), other_amps: 0.0, celsius: 20.0 };
/// let at = starting(&feed, &Motor { volts: 120.0, amps: 15.0, starting_amps: 90.0 })?;
/// assert!((at.volts - 74.2).abs() < 0.1 && (at.torque_share - 0.38).abs() < 0.01);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn starting(feed: &Feed, motor: &Motor) -> Result<AtMotor, CircuitError> {
    motor.check()?;
    let source = feed.source()?;
    let impedance = motor.starting_ohm();
    let reactive = 1.0 - STARTING_POWER_FACTOR * STARTING_POWER_FACTOR;
    let resistance = impedance * STARTING_POWER_FACTOR + source.ohm;
    let total = (resistance * resistance + impedance * impedance * reactive).sqrt();
    let amps = source.volts / total;
    Ok(AtMotor::new(feed, motor, amps * impedance, amps))
}
