//! The inverse: how long a cord of a gauge may be, and which gauge a length asks for.

use super::{Awg, CircuitError, Feed, GAUGES, LENGTH_M, Motor, RATED_C, Strands, ohm_per_m, within};

/// What a cord must keep.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CordLimits {
    /// Most of the panel's voltage that branch and cord together may lose while running.
    pub drop_share: f64,
    /// Least of the plate's voltage that must reach the motor while it starts.
    pub start_share: f64,
}

impl Default for CordLimits {
    /// 5 % in all (informational notes to NEC 210.19 and 215.2, from memory); 80 % at the start (common practice,
    /// no source).
    fn default() -> Self {
        Self {
            drop_share: 0.05,
            start_share: 0.80,
        }
    }
}

impl CordLimits {
    /// Share of the panel's voltage that the branch alone should lose at most.
    /// Source: informational note to NEC 210.19 (from memory).
    pub const BRANCH_DROP_SHARE: f64 = 0.03;

    fn check(&self) -> Result<(), CircuitError> {
        within("drop share", self.drop_share, 0.001..=0.4)?;
        within("starting share", self.start_share, 0.1..=1.2)
    }
}

/// What ends a cord's length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CordBound {
    /// What the gauge may carry.
    Ampacity,
    /// The drop while running.
    RunningDrop,
    /// The voltage left while starting.
    StartingVolts,
}

/// The longest cord of a gauge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LongestCord {
    /// Length one way, m; zero if not even the shortest will do.
    pub length_m: f64,
    /// What ends it.
    pub bound: CordBound,
}

/// Longest cord of a gauge with which the motor starts and runs; a cord already in `feed` is left out.
///
/// R_run = (V₀ − V) V/S, R_start = Z (V₀/(k V₁) − 1), L = (min R − R_b)/(2 R′)
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | V₀, R_b | voltage at the outlet without the motor, resistance of the branch | V, ohm | `feed` |
/// | S, Z, V₁ | apparent power, locked-rotor impedance, plate voltage | VA, ohm, V | `motor` |
/// | V | least voltage while running: (1 − s) of the panel's, and S over the cord's ampacity | V | `limits`, `gauge` |
/// | k, s | shares | 1 | `limits` |
/// | R′ | resistance of one conductor per length, 75 °C | ohm/m | `gauge` |
/// | L | length | m | result |
///
/// These are [`running`](super::running) and [`starting`](super::starting) solved for the resistance.
/// # Errors
/// [`CircuitError::OutOfRange`], also for a gauge without an ampacity; [`CircuitError::Starved`] if the other loads
/// alone use up the voltage.
/// # Source
/// As the functions that it inverts; ampacity from NEC table 400.5(A)(1).
/// # Example
/// 12 A at 120 V may lose 6 V in all: 0.475 ohm, 120 ft of 12 AWG (1.98 ohm per 1,000 ft, NEC chapter 9 table 8):
/// ```
/// # use physics::circuit::{longest_cord, Awg, CordLimits, Feed, Motor};
/// let feed = Feed { panel_volts: 120.0, branch: None, cord: None, other_amps: 0.0 };
/// let motor = Motor { volts: 120.0, amps: 12.0, starting_amps: 40.0 };
/// let cord = longest_cord(&feed, &motor, Awg::new(12)?, &CordLimits::default())?;
/// assert!((cord.length_m / 0.3048 - 120.0).abs() < 1.0);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn longest_cord(
    feed: &Feed,
    motor: &Motor,
    gauge: Awg,
    limits: &CordLimits,
) -> Result<LongestCord, CircuitError> {
    limits.check()?;
    motor.check()?;
    let ampacity = gauge.cord_ampacity_a().ok_or(CircuitError::OutOfRange {
        what: "cord gauge",
        value: f64::from(gauge.number()),
        low: f64::from(GAUGES[GAUGES.len() - 1].number()),
        high: f64::from(GAUGES[0].number()),
    })?;
    let source = Feed { cord: None, ..*feed }.source()?;
    let asked_va = motor.running_va();
    let running_ohm = |volts: f64| (source.volts - volts) * volts / asked_va;
    // Below half the open voltage the power would fall again: no cord can be meant to work there.
    let least = |volts: f64| running_ohm(volts.max(0.5 * source.volts));
    let bounds = [
        (CordBound::Ampacity, least(asked_va / ampacity)),
        (
            CordBound::RunningDrop,
            least((1.0 - limits.drop_share) * feed.panel_volts),
        ),
        (
            CordBound::StartingVolts,
            motor.starting_ohm() * (source.volts / (limits.start_share * motor.volts) - 1.0),
        ),
    ];
    let (bound, ohm) = bounds.into_iter().fold(
        bounds[0],
        |tight, next| if next.1 < tight.1 { next } else { tight },
    );
    let per_metre = 2.0 * ohm_per_m(gauge.area_m2(), Strands::Stranded, RATED_C)?;
    let length_m = ((ohm - source.ohm) / per_metre).max(0.0);
    Ok(LongestCord { length_m, bound })
}

/// Thinnest gauge of [`GAUGES`] whose cord of this length starts and runs the motor; `None` if none does, and
/// then the branch, the voltage or the place of the machine must change.
///
/// # Errors
/// As [`longest_cord`], and [`CircuitError::OutOfRange`] outside [`LENGTH_M`].
/// # Example
/// 16 AWG may not carry 15 A (NEC table 400.5(A)(1): 13 A), so 14 AWG is the least even for 1 ft:
/// ```
/// # use physics::circuit::{smallest_cord, Awg, CordLimits, Feed, Motor};
/// let feed = Feed { panel_volts: 120.0, branch: None, cord: None, other_amps: 0.0 };
/// let motor = Motor { volts: 120.0, amps: 15.0, starting_amps: 90.0 };
/// let gauge = smallest_cord(&feed, &motor, 0.3048, &CordLimits::default())?;
/// assert_eq!(gauge, Some(Awg::new(14)?));
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn smallest_cord(
    feed: &Feed,
    motor: &Motor,
    length_m: f64,
    limits: &CordLimits,
) -> Result<Option<Awg>, CircuitError> {
    within("length", length_m, LENGTH_M)?;
    for gauge in GAUGES {
        let longest = longest_cord(feed, motor, gauge, limits)?;
        if longest.length_m > 0.0 && length_m <= longest.length_m {
            return Ok(Some(gauge));
        }
    }
    Ok(None)
}
