//! Carrying: what one person and two may lift, a tailgate's height, pushing up a ramp.
//!
//! Advice for healthy adults and a single lift, square to the load, with a good grip. Pain, a twist, wet ground or
//! a tank still under pressure forbid it at any mass.

use std::ops::RangeInclusive;

use quantity::range::{OutOfRange, within};

/// Load constant: the most that anyone is advised to lift, at the best place, kg.
/// Source: NIOSH 94-110, *Applications Manual for the Revised NIOSH Lifting Equation* (1994).
pub const LOAD_CONSTANT_KG: f64 = 23.0;

/// Two people together over the sum of what each may lift.
/// Source: HSE L23, *Manual handling*, team handling: two thirds (from memory). Typical.
pub const TEAM_SHARE: f64 = 2.0 / 3.0;

/// Rolling resistance of small wheels on concrete or a plank, over the weight. Typical; common practice, no source.
pub const ROLLING: f64 = 0.03;

/// Force that most adults can start and keep pushing for a few metres, N.
/// Source: psychophysical tables of Snook and Ciriello (1991), about 90 % of women, 2 m (from memory). Typical.
pub const PUSH_N: f64 = 170.0;

/// Hands' height as one lifts a compressor by its handle or feet, m. Typical; common practice, no source.
pub const GRIP_M: f64 = 0.4;

/// Distance of a bulky load's middle from the ankles, m. Typical; common practice, no source.
pub const REACH_M: f64 = 0.4;

/// Standard gravity, m/s².
const GRAVITY: f64 = quantity::STANDARD_GRAVITY;

/// Masses accepted, kg.
pub const MASS_KG: RangeInclusive<f64> = 0.1..=2_000.0;
/// Heights of hands accepted, m: the equation ends at 1.75 m.
pub const HANDS_M: RangeInclusive<f64> = 0.0..=1.75;
/// Reaches accepted, m: the equation ends at 0.63 m.
pub const REACHES_M: RangeInclusive<f64> = 0.0..=0.63;

/// One lift.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lift {
    /// Middle of the hands from the ankles, level, m.
    pub reach_m: f64,
    /// Height of the hands at the start, m.
    pub from_m: f64,
    /// Height of the hands at the end, m.
    pub to_m: f64,
}

impl Lift {
    /// From the floor onto a tailgate of this height, at [`REACH_M`] with hands at [`GRIP_M`] above the load's foot;
    /// the hands end no higher than the equation knows.
    pub fn onto(tailgate_m: f64) -> Self {
        Self {
            reach_m: REACH_M,
            from_m: GRIP_M,
            to_m: (tailgate_m + GRIP_M).min(*HANDS_M.end()),
        }
    }
}

/// Mass that one person is advised to lift at most, kg.
///
/// RWL = LC x HM x VM x DM,  HM = 0.25/H, VM = 1 − 0.3 |V − 0.75|, DM = 0.82 + 0.045/D
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | LC | load constant, 23 | kg | |
/// | H | reach, at least 0.25 | m | `lift` |
/// | V | height of the hands, at the start or the end, whichever is worse | m | `lift` |
/// | D | height lifted, at least 0.25 | m | `lift` |
/// | RWL | recommended weight limit | kg | result |
///
/// # Validity
/// The multipliers left out are 1: no twist, a good grip, fewer than one lift in five minutes within an hour.
/// # Errors
/// [`OutOfRange`] outside [`REACHES_M`] or [`HANDS_M`].
/// # Source
/// NIOSH 94-110 (1994), metric form (from memory).
/// # Example
/// At the best place, close, knuckle height, a short lift, the whole load constant:
/// ```
/// # use physics::carry::{one_person_kg, Lift};
/// let best = Lift { reach_m: 0.25, from_m: 0.75, to_m: 0.75 };
/// assert!((one_person_kg(best)? - 23.0).abs() < 1e-9);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn one_person_kg(lift: Lift) -> Result<f64, OutOfRange> {
    within("reach", lift.reach_m, REACHES_M)?;
    within("height of the hands", lift.from_m, HANDS_M)?;
    within("height of the hands", lift.to_m, HANDS_M)?;
    let horizontal = 0.25 / lift.reach_m.max(0.25);
    let vertical = |height_m: f64| 1.0 - 0.3 * (height_m - 0.75).abs();
    let worse = vertical(lift.from_m).min(vertical(lift.to_m));
    let distance = 0.82 + 0.045 / (lift.to_m - lift.from_m).abs().max(0.25);
    Ok(LOAD_CONSTANT_KG * horizontal * worse * distance.min(1.0))
}

/// Mass that two people are advised to lift together, kg: twice [`one_person_kg`], times [`TEAM_SHARE`].
///
/// # Errors
/// As [`one_person_kg`].
pub fn two_people_kg(lift: Lift) -> Result<f64, OutOfRange> {
    Ok(2.0 * TEAM_SHARE * one_person_kg(lift)?)
}

/// Force that pushes a wheeled load up a ramp at a steady pace, N.
///
/// F = m g (sin θ + μ cos θ),  sin θ = h/L
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | m | mass | kg | `mass_kg` |
/// | h | height of the ramp; 0 is the level | m | `height_m` |
/// | L | length along the ramp | m | `ramp_m` |
/// | μ | rolling resistance, [`ROLLING`] | 1 | |
/// | F | force along the ramp | N | result |
///
/// # Errors
/// [`OutOfRange`] outside [`MASS_KG`], 0 to 3 m, or a ramp shorter than its height or over 50 m.
/// # Source
/// Statics of the inclined plane.
/// # Example
/// 60 kg up 0.8 m over 3 m: 588.4 N x (0.2667 + 0.03 x 0.9638) = 174 N (hand sum):
/// ```
/// # use physics::carry::ramp_push_n;
/// assert!((ramp_push_n(60.0, 0.8, 3.0)? - 174.0).abs() < 0.5);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn ramp_push_n(mass_kg: f64, height_m: f64, ramp_m: f64) -> Result<f64, OutOfRange> {
    within("mass", mass_kg, MASS_KG)?;
    within("height of the ramp", height_m, 0.0..=3.0)?;
    within("length of the ramp", ramp_m, height_m.max(0.1)..=50.0)?;
    let sine = height_m / ramp_m;
    let cosine = (1.0 - sine * sine).sqrt();
    Ok(mass_kg * GRAVITY * (sine + ROLLING * cosine))
}

/// Shortest ramp, along it, up which a push of [`PUSH_N`] is enough, m; `None` if even the level asks more.
///
/// [`ramp_push_n`] solved for L: sin θ = (f − μ √(1 + μ² − f²))/(1 + μ²), f = F/(m g); never shorter than
/// [`gentle_ramp_m`].
/// # Errors
/// [`OutOfRange`] outside [`MASS_KG`] or 0 to 3 m.
/// # Example
/// A heavy load asks for its length by the push, a light one by the slope:
/// ```
/// # use physics::carry::{gentle_ramp_m, ramp_push_n, shortest_ramp_m, PUSH_N};
/// let length = shortest_ramp_m(90.0, 0.8)?.unwrap_or(0.0);
/// assert!((ramp_push_n(90.0, 0.8, length)? - PUSH_N).abs() < 1e-6);
/// assert_eq!(shortest_ramp_m(10.0, 0.8)?, Some(gentle_ramp_m(0.8)?));
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn shortest_ramp_m(mass_kg: f64, height_m: f64) -> Result<Option<f64>, OutOfRange> {
    within("mass", mass_kg, MASS_KG)?;
    let gentle = gentle_ramp_m(height_m)?;
    let force = PUSH_N / (mass_kg * GRAVITY);
    let squared = 1.0 + ROLLING * ROLLING;
    if force >= 1.0 {
        return Ok(Some(gentle));
    }
    let sine = (force - ROLLING * (squared - force * force).sqrt()) / squared;
    Ok((sine > 0.0).then(|| gentle.max(height_m / sine)))
}

/// Steepest ramp that anybody is sent up with a wheeled load, degrees: beyond it a load runs away from whoever slips.
/// Judgement; folding truck ramps of 8 to 10 ft on a tailgate of 34 in stand at 17 to 21.
pub const STEEPEST_DEGREES: f64 = 20.0;

/// Shortest ramp, along it, that is no steeper than [`STEEPEST_DEGREES`], m: L = h/sin θ.
///
/// # Errors
/// [`OutOfRange`] for a height outside 0 to 3 m.
/// # Example
/// A tailgate of 34 in (0.864 m) takes 2.53 m, 8.3 ft:
/// ```
/// # use physics::carry::gentle_ramp_m;
/// assert!((gentle_ramp_m(0.8636)? - 2.525).abs() < 0.001);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn gentle_ramp_m(height_m: f64) -> Result<f64, OutOfRange> {
    within("height of the ramp", height_m, 0.0..=3.0)?;
    Ok(height_m / STEEPEST_DEGREES.to_radians().sin())
}

/// How a machine gets into the car.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Carry {
    /// One person lifts it.
    Alone,
    /// Two people lift it.
    Two,
    /// It rolls up a ramp of a usual length, one person pushing.
    Ramp,
    /// Neither: a hoist, a liftgate, or it stays where it is.
    Stays,
}

/// Longest ramp that people own or borrow, m: folding ramps of 10 ft. Common practice, no source.
pub const USUAL_RAMP_M: f64 = 3.05;

/// What is known of one person's strength, a machine, and the car.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    /// Mass, kg.
    pub mass_kg: f64,
    /// Height of the tailgate, m.
    pub tailgate_m: f64,
    /// It has wheels.
    pub wheels: bool,
    /// Mass that the builder says one person will lift, kg; lower or higher than what is advised.
    pub own_limit_kg: Option<f64>,
}

/// The easiest way to get a machine onto a tailgate.
///
/// One person's limit is the builder's own if stated, else [`one_person_kg`]; two people's is that twice, times
/// [`TEAM_SHARE`]; wheels and [`USUAL_RAMP_M`] by [`shortest_ramp_m`].
/// # Errors
/// [`OutOfRange`] outside [`MASS_KG`], or a tailgate outside 0 to 1.75 m.
/// # Example
/// ```
/// # use physics::carry::{carry, Carry, Load};
/// let load = Load { mass_kg: 40.0, tailgate_m: 0.8, wheels: false, own_limit_kg: Some(35.0) };
/// assert_eq!(carry(load)?, Carry::Two);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn carry(load: Load) -> Result<Carry, OutOfRange> {
    within("mass", load.mass_kg, MASS_KG)?;
    within("height of the tailgate", load.tailgate_m, HANDS_M)?;
    let alone = match load.own_limit_kg {
        Some(limit) => {
            within("mass that one person lifts", limit, MASS_KG)?;
            limit
        }
        None => one_person_kg(Lift::onto(load.tailgate_m))?,
    };
    let ramp = shortest_ramp_m(load.mass_kg, load.tailgate_m)?;
    Ok(if load.mass_kg <= alone {
        Carry::Alone
    } else if load.mass_kg <= 2.0 * TEAM_SHARE * alone {
        Carry::Two
    } else if load.wheels && ramp.is_some_and(|length| length <= USUAL_RAMP_M) {
        Carry::Ramp
    } else {
        Carry::Stays
    })
}
