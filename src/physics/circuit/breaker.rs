//! A breaker against its load, by its trip curve, and against the wire that it guards.

use super::{AREA_M2, Awg, BREAKER_AMPS, CircuitError, Metal};
use quantity::range::within;

/// By whose rules a place is wired.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Code {
    /// North America: NEC (NFPA 70), breakers to UL 489.
    Nec,
    /// 230 V places: IEC 60364, breakers to IEC 60898.
    Iec,
}

/// What a breaker does under a load that stays on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Trip {
    /// It holds for good.
    Holds,
    /// It may trip in long runs.
    May,
    /// Expect it to trip.
    Expect,
    /// It trips.
    Trips,
}

/// Loads over the rating up to which a breaker holds for good, may trip, is expected to trip.
///
/// UL 489: holds 100 %; trips at 135 % within the hour; between them nothing is promised, and 120 % is where the
/// trade stops trusting it (judgement). IEC 60898: holds 113 %, trips at 145 % within the hour; halfway for the rest.
fn steps(code: Code) -> [f64; 3] {
    match code {
        Code::Nec => [1.0, 1.2, 1.35],
        Code::Iec => [1.13, 1.29, 1.45],
    }
}

/// What a breaker does under a load, as a share of its rating.
///
/// # Validity
/// Single-phase thermal-magnetic breakers to 50 A in a room; a hot panel trips sooner.
/// # Errors
/// [`CircuitError::OutOfRange`] outside [`BREAKER_AMPS`], or if the load is negative or absurd.
/// # Source
/// UL 489: holds 100 %, trips at 135 % within an hour to 50 A. IEC 60898: holds 113 %, trips at 145 % within an hour (the
/// hour from memory).
/// # Example
/// ```
/// # use physics::circuit::{trip, Code, Trip};
/// assert_eq!(trip(Code::Nec, 15.0, 15.0)?, Trip::Holds);
/// assert_eq!(trip(Code::Nec, 15.0, 18.0)?, Trip::May);
/// assert_eq!(trip(Code::Nec, 15.0, 20.5)?, Trip::Trips);
/// assert_eq!(trip(Code::Iec, 16.0, 18.0)?, Trip::Holds);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn trip(code: Code, rating_amps: f64, load_amps: f64) -> Result<Trip, CircuitError> {
    within("breaker rating", rating_amps, BREAKER_AMPS)?;
    within("load on the breaker", load_amps, 0.0..=4_000.0)?;
    // A plate's 18 A on 15 A is 120 %, not a hair above.
    let share = load_amps / rating_amps - 1e-9;
    let [holds, may, expect] = steps(code);
    Ok(match share {
        share if share <= holds => Trip::Holds,
        share if share <= may => Trip::May,
        share if share <= expect => Trip::Expect,
        _ => Trip::Trips,
    })
}

/// Steady load that warms a breaker as much as one that comes and goes.
///
/// I = √(d (I₁ + I₀)² + (1 − d) I₀²)
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | I₁ | what comes and goes | A | `amps` |
/// | I₀ | what stays on | A | `other_amps` |
/// | d | share of time that I₁ is on | 1 | `share_on` |
/// | I | as warm in the mean | A | result |
///
/// # Validity
/// The bimetal is warmed by I² and forgets slowly: for runs and pauses of a few minutes. A run of half an hour counts as
/// steady.
/// # Errors
/// [`CircuitError::OutOfRange`] outside [`AMPS`](super::AMPS), [`OTHER_AMPS`](super::OTHER_AMPS), or a share beyond 0 to 1.
/// # Source
/// Mean of I² R (any text).
/// # Example
/// 16 A a quarter of the time beside nothing warms like 8 A (hand sum: √(256/4)):
/// ```
/// # use physics::circuit::warming_amps;
/// assert!((warming_amps(16.0, 0.0, 0.25)? - 8.0).abs() < 1e-9);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn warming_amps(amps: f64, other_amps: f64, share_on: f64) -> Result<f64, CircuitError> {
    within("full-load current", amps, super::AMPS)?;
    within("other load", other_amps, super::OTHER_AMPS)?;
    within("share of time", share_on, 0.0..=1.0)?;
    let total = amps + other_amps;
    Ok((share_on * total * total + (1.0 - share_on) * other_amps * other_amps).sqrt())
}

/// Branch wire of copper, and its largest breaker in an ordinary outlet's circuit, A; then the same of aluminum.
///
/// To 10 AWG: NEC 240.4(D), copper 14, 12, 10 read, the others from memory. From 8 AWG on: NEC table 310.16, 75 °C, with
/// the next standard rating (240.4(B)) (from memory): what is called dangerous must be so by any column.
const NEC_BREAKERS: [(u8, f64, f64); 8] = [
    (18, 7.0, 0.0),
    (16, 10.0, 0.0),
    (14, 15.0, 0.0),
    (12, 20.0, 15.0),
    (10, 30.0, 25.0),
    (8, 50.0, 40.0),
    (6, 70.0, 50.0),
    (4, 90.0, 70.0),
];

/// Ampacity of copper at 75 °C, by which an electrician may size a motor's wire: NEC table 310.16 (from memory).
const NEC_AMPACITY_75C: [(u8, f64); 6] = [
    (14, 20.0),
    (12, 25.0),
    (10, 35.0),
    (8, 50.0),
    (6, 65.0),
    (4, 85.0),
];

/// Branch wire of copper, mm², and its largest breaker, A: IEC 60364-5-52, two loaded conductors clipped to a surface,
/// down to the next rating of IEC 60898 (from memory).
const IEC_BREAKERS: [(f64, f64); 6] = [
    (1.0, 13.0),
    (1.5, 16.0),
    (2.5, 25.0),
    (4.0, 32.0),
    (6.0, 40.0),
    (10.0, 63.0),
];

/// Areas this close, relatively, are one size: a plate's rounding.
const ONE_SIZE: f64 = 0.98;

/// Largest breaker that a branch wire may have in an ordinary outlet's circuit, A; 0 where no such wire is allowed.
///
/// A circuit that an electrician sized for one motor may have a larger one: see [`motor_breaker_a`].
/// # Validity
/// To 4 AWG or 10 mm²; a thicker wire counts as that.
/// # Errors
/// [`CircuitError::OutOfRange`] outside [`AREA_M2`].
/// # Source
/// NEC 240.4(D), 310.16; IEC 60364-5-52: see the tables (from memory in part).
/// # Example
/// 14 AWG 15 A, 12 AWG 20 A, 10 AWG 30 A; aluminum of 12 AWG 15 A:
/// ```
/// # use physics::circuit::{wire_breaker_a, Awg, Code, Metal};
/// let of = |gauge, metal| wire_breaker_a(Code::Nec, Awg::new(gauge)?.area_m2(), metal);
/// assert_eq!([of(14, Metal::Copper)?, of(12, Metal::Copper)?, of(10, Metal::Copper)?], [15.0, 20.0, 30.0]);
/// assert_eq!(of(12, Metal::Aluminum)?, 15.0);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn wire_breaker_a(code: Code, area_m2: f64, metal: Metal) -> Result<f64, CircuitError> {
    within("conductor area", area_m2, AREA_M2)?;
    let thick = |size_m2: f64| area_m2 >= ONE_SIZE * size_m2;
    let most = match code {
        Code::Nec => NEC_BREAKERS
            .iter()
            .filter(|(number, _, _)| thick(Awg(*number).area_m2()))
            .map(|(_, copper, aluminum)| match metal {
                Metal::Copper => *copper,
                Metal::Aluminum => *aluminum,
            })
            .next_back(),
        Code::Iec => {
            let as_copper_m2 = metal.as_copper_m2(area_m2);
            let thick = |mm2: f64| as_copper_m2 >= ONE_SIZE * mm2 * 1e-6;
            let of = |(mm2, amps): &(f64, f64)| thick(*mm2).then_some(*amps);
            IEC_BREAKERS.iter().filter_map(of).next_back()
        }
    };
    Ok(most.unwrap_or(0.0))
}

/// Standard ratings of breakers, A. Source: NEC 240.6.
const RATINGS: [f64; 12] = [
    15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0, 90.0,
];

/// Largest breaker of a circuit that an electrician wired for one motor alone, A; `None` where the wire is too thin for
/// that motor.
///
/// The wire carries 125 % of the motor's current; the breaker is at most 250 % of it, up to the next standard rating.
/// # Validity
/// Copper or aluminum by its NEC gauge; the motor has its own overload protection.
/// # Errors
/// [`CircuitError::OutOfRange`] outside [`AREA_M2`] or [`AMPS`](super::AMPS).
/// # Source
/// NEC 430.22, 240.4(G), 430.52 with table 430.52 for inverse-time breakers (the shares from memory).
/// # Example
/// 15 A on 12 AWG: the wire carries 18.75 A, the breaker may be 40 A (37.5 A, next standard rating):
/// ```
/// # use physics::circuit::{motor_breaker_a, Awg, Metal};
/// assert_eq!(motor_breaker_a(Awg::new(12)?.area_m2(), Metal::Copper, 15.0)?, Some(40.0));
/// assert_eq!(motor_breaker_a(Awg::new(14)?.area_m2(), Metal::Copper, 22.0)?, None);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn motor_breaker_a(area_m2: f64, metal: Metal, amps: f64) -> Result<Option<f64>, CircuitError> {
    within("conductor area", area_m2, AREA_M2)?;
    within("full-load current", amps, super::AMPS)?;
    let as_copper_m2 = metal.as_copper_m2(area_m2);
    let ampacity = NEC_AMPACITY_75C
        .iter()
        .filter(|(number, _)| as_copper_m2 >= ONE_SIZE * Awg(*number).area_m2())
        .map(|(_, carries)| *carries)
        .next_back();
    if ampacity.is_none_or(|carries| carries < 1.25 * amps) {
        return Ok(None);
    }
    let most = 2.5 * amps;
    let next = RATINGS.into_iter().find(|rating| *rating >= most - 1e-9);
    Ok(Some(next.unwrap_or(most)))
}
