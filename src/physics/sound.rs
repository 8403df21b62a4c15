//! Sound: the level where people are, how long they may bear it, whether they can talk; air to cool a box.
//!
//! Levels are A-weighted, dB; sums over sources and paths go by power.

use crate::receiver::CP;
use quantity::range::{OutOfRange, within};
use std::f64::consts::{LN_2, PI};
use std::ops::RangeInclusive;
use uom::si::f64::MassDensity;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// Levels accepted, dB.
pub const LEVEL_DB: RangeInclusive<f64> = -50.0..=200.0;
/// Distances accepted, m.
pub const DISTANCE_M: RangeInclusive<f64> = 0.1..=5_000.0;
/// Losses of a wall accepted, dB.
pub const WALL_DB: RangeInclusive<f64> = 0.0..=100.0;
/// Areas of a room's surfaces accepted, m².
pub const SURFACE_M2: RangeInclusive<f64> = 1.0..=100_000.0;
/// Absorption coefficients accepted, averaged over a room.
pub const ABSORPTION: RangeInclusive<f64> = 0.01..=0.99;
/// Heat of a machine in a box accepted, W.
pub const HEAT_W: RangeInclusive<f64> = 0.0..=100_000.0;
/// Surfaces of boxes accepted, m²: from a cube of 0.2 m, into which no machine goes.
pub const BOX_M2: RangeInclusive<f64> = 0.2..=100_000.0;
/// Rises of cooling air accepted, K.
pub const RISE_K: RangeInclusive<f64> = 0.5..=100.0;

/// Directivity of a source on a hard floor: it sends into half of space.
pub const ON_FLOOR: f64 = 2.0;

/// Absorption of a bare garage or hangar: concrete, gypsum, sheet metal. Typical; common practice, no source.
pub const BARE_ABSORPTION: f64 = 0.1;

/// A level and the distance at which it was taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stated {
    /// Level, dB.
    pub level_db: f64,
    /// Distance, m.
    pub at_m: f64,
}

impl Stated {
    fn check(&self) -> Result<(), OutOfRange> {
        within("level", self.level_db, LEVEL_DB)?;
        within("distance of the level", self.at_m, DISTANCE_M)
    }
}

/// Level outdoors at another distance: it falls 6 dB at each doubling.
///
/// L = L₀ − 20 log₁₀(r/r₀)
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | L₀, r₀ | stated level, its distance | dB, m | `stated` |
/// | r | distance | m | `distance_m` |
/// | L | level | dB | result |
///
/// # Validity
/// Open air over hard ground, the source small against r₀; no wind, no screen.
/// # Errors
/// [`OutOfRange`] outside [`LEVEL_DB`] or [`DISTANCE_M`].
/// # Source
/// ISO 9613-2, divergence of a point source (from memory).
/// # Example
/// ```
/// # use physics::sound::{open_air_db, Stated};
/// let stated = Stated { level_db: 80.0, at_m: 1.0 };
/// assert!((open_air_db(stated, 2.0)? - 74.0).abs() < 0.03);
/// assert!((open_air_db(stated, 10.0)? - 60.0).abs() < 1e-9);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn open_air_db(stated: Stated, distance_m: f64) -> Result<f64, OutOfRange> {
    stated.check()?;
    within("distance", distance_m, DISTANCE_M)?;
    Ok(stated.level_db - 20.0 * (distance_m / stated.at_m).log10())
}

/// A room as sound knows it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Area of walls, floor and ceiling, m².
    pub surface_m2: f64,
    /// Absorption coefficient averaged over them, e.g. [`BARE_ABSORPTION`].
    pub absorption: f64,
}

impl Room {
    /// A box-shaped room of bare surfaces.
    pub fn bare(length_m: f64, width_m: f64, height_m: f64) -> Self {
        let walls = 2.0 * height_m * (length_m + width_m);
        Self {
            surface_m2: walls + 2.0 * length_m * width_m,
            absorption: BARE_ABSORPTION,
        }
    }

    /// Room constant, m²: R = S α/(1 − α).
    ///
    /// # Errors
    /// [`OutOfRange`] outside [`SURFACE_M2`] or [`ABSORPTION`].
    pub fn constant_m2(&self) -> Result<f64, OutOfRange> {
        within("area of the room's surfaces", self.surface_m2, SURFACE_M2)?;
        within("absorption", self.absorption, ABSORPTION)?;
        Ok(self.surface_m2 * self.absorption / (1.0 - self.absorption))
    }
}

/// Sound power level that a stated level comes from, dB re 1 pW: L_w = L₀ − 10 log₁₀(Q/(4π r₀²)).
///
/// # Errors
/// [`OutOfRange`] outside [`LEVEL_DB`] or [`DISTANCE_M`].
/// # Source
/// ISO 3744, free field over a reflecting plane, Q = 2 (from memory).
/// # Example
/// Over a hard floor the level at 1 m is 8 dB below the power level:
/// ```
/// # use physics::sound::{power_db, Stated};
/// assert!((power_db(Stated { level_db: 80.0, at_m: 1.0 })? - 88.0).abs() < 0.03);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn power_db(stated: Stated) -> Result<f64, OutOfRange> {
    stated.check()?;
    Ok(stated.level_db - 10.0 * direct(stated.at_m).log10())
}

/// Level at a distance over a hard floor of a source whose sound power is printed: L = L_w + 10 log₁₀(Q/(4π r²)).
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | L_w | sound power level, as European labels print it ("LWA") | dB re 1 pW | `power_db` |
/// | Q | directivity, [`ON_FLOOR`] | 1 | |
/// | r | distance | m | `distance_m` |
/// | L | level | dB | result |
///
/// # Validity
/// Open air over hard ground, the source small against r.
/// # Errors
/// [`OutOfRange`] outside [`LEVEL_DB`] or [`DISTANCE_M`].
/// # Source
/// ISO 3744, free field over a reflecting plane; for Q = 2 textbooks write L = L_w − 8 − 20 log₁₀ r. Second way: the power
/// spread over a hemisphere, 2π r².
/// # Example
/// 97 dB of sound power is 89 dB at 1 m and 69 at 10 m:
/// ```
/// # use physics::sound::level_of_power_db;
/// assert!((level_of_power_db(97.0, 1.0)? - 89.0).abs() < 0.03);
/// assert!((level_of_power_db(97.0, 10.0)? - 69.0).abs() < 0.03);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn level_of_power_db(power_db: f64, distance_m: f64) -> Result<f64, OutOfRange> {
    within("sound power", power_db, LEVEL_DB)?;
    within("distance", distance_m, DISTANCE_M)?;
    Ok(power_db + 10.0 * direct(distance_m).log10())
}

/// Direct field of a source on the floor: Q/(4π r²), 1/m².
fn direct(distance_m: f64) -> f64 {
    ON_FLOOR / (4.0 * PI * distance_m * distance_m)
}

/// Level in a room: what comes straight from the source, and what the room gives back.
///
/// L = L_w + 10 log₁₀(Q/(4π r²) + 4/R)
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | L_w | sound power level, by [`power_db`] | dB | `stated` |
/// | r | distance | m | `distance_m` |
/// | Q | directivity, [`ON_FLOOR`] | 1 | |
/// | R | room constant | m² | `room` |
/// | L | level | dB | result |
///
/// # Validity
/// A diffuse field: rooms no longer than about five times their height; the stated level taken in the open.
/// # Errors
/// [`OutOfRange`].
/// # Source
/// Beranek, *Noise and Vibration Control*, sound in rooms (equation from memory).
/// # Example
/// R = 20 m², 5 m away from 80 dB at 1 m (L_w 88): 88 + 10 log(0.00637 + 0.2) = 81.1 (hand sum):
/// ```
/// # use physics::sound::{room_db, Room, Stated};
/// let room = Room { surface_m2: 180.0, absorption: 0.1 };
/// let level = room_db(Stated { level_db: 80.0, at_m: 1.0 }, 5.0, room)?;
/// assert!((level - 81.1).abs() < 0.1);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn room_db(stated: Stated, distance_m: f64, room: Room) -> Result<f64, OutOfRange> {
    within("distance", distance_m, DISTANCE_M)?;
    let field = direct(distance_m) + 4.0 / room.constant_m2()?;
    Ok(power_db(stated)? + 10.0 * field.log10())
}

/// Level of several sources together: 10 log₁₀ Σ 10^(Lᵢ/10); `None` of no sources.
///
/// # Errors
/// [`OutOfRange`] outside [`LEVEL_DB`].
/// # Example
/// Two alike are 3 dB louder than one:
/// ```
/// # use physics::sound::sum_db;
/// assert!((sum_db(&[80.0, 80.0])?.unwrap_or(0.0) - 83.0).abs() < 0.02);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn sum_db(levels_db: &[f64]) -> Result<Option<f64>, OutOfRange> {
    let mut power = 0.0;
    for level in levels_db {
        within("level", *level, LEVEL_DB)?;
        power += 10_f64.powf(level / 10.0);
    }
    Ok((power > 0.0).then(|| 10.0 * power.log10()))
}

/// What a level loses when a share of its power is led away, dB: −10 log₁₀(1 − share).
///
/// A piston machine sends much of its sound out of its inlet: ducted outdoors, that share is gone from the room.
/// # Errors
/// [`OutOfRange`] outside 0 to 0.9999.
/// # Example
/// 70 % gone is 5.2 dB:
/// ```
/// # use physics::sound::share_gone_db;
/// assert!((share_gone_db(0.7)? - 5.2).abs() < 0.05);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn share_gone_db(share: f64) -> Result<f64, OutOfRange> {
    within("share of the sound", share, 0.0..=0.9999)?;
    Ok(-10.0 * (1.0 - share).log10())
}

/// Level at a neighbour behind a wall: [`open_air_db`] less the wall's loss, dB.
///
/// # Errors
/// As [`open_air_db`], and outside [`WALL_DB`].
pub fn neighbour_db(stated: Stated, distance_m: f64, wall_db: f64) -> Result<f64, OutOfRange> {
    within("wall loss", wall_db, WALL_DB)?;
    Ok(open_air_db(stated, distance_m)? - wall_db)
}

/// A rule for exposure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rule {
    /// Level that may be borne for eight hours, dBA.
    pub criterion_db: f64,
    /// Rise of level that halves the time, dB.
    pub exchange_db: f64,
    /// Level below which nothing counts, dBA.
    pub threshold_db: f64,
}

/// NIOSH recommended limit: 85 dBA, 3 dB, from 80 dBA. Source: NIOSH 98-126 (from memory).
pub const NIOSH: Rule = Rule {
    criterion_db: 85.0,
    exchange_db: 3.0,
    threshold_db: 80.0,
};

/// OSHA permissible limit: 90 dBA, 5 dB; counted from 80 dBA as 1910.95(c) and (d) do for hearing conservation.
/// Source: 29 CFR 1910.95, table G-16 and appendix A (from memory).
pub const OSHA: Rule = Rule {
    criterion_db: 90.0,
    exchange_db: 5.0,
    threshold_db: 80.0,
};

/// Hours at a level that use up a day's whole dose.
///
/// T = 8 h / 2^((L − L_c)/x)
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | L | level | dBA | `level_db` |
/// | L_c, x | criterion, exchange rate | dBA, dB | `rule` |
/// | T | time allowed | h | result |
///
/// # Errors
/// [`OutOfRange`] outside [`LEVEL_DB`].
/// # Source
/// 29 CFR 1910.95 appendix A; NIOSH 98-126, section 1.1 (from memory).
/// # Example
/// ```
/// # use physics::sound::{allowed_hours, NIOSH, OSHA};
/// assert_eq!(allowed_hours(100.0, OSHA)?, 2.0);
/// assert_eq!(allowed_hours(88.0, NIOSH)?, 4.0);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn allowed_hours(level_db: f64, rule: Rule) -> Result<f64, OutOfRange> {
    within("level", level_db, LEVEL_DB)?;
    within("criterion", rule.criterion_db, LEVEL_DB)?;
    within("exchange rate", rule.exchange_db, 1.0..=10.0)?;
    // As a power of two the sum would bring a table of 4 kB along.
    let doublings = (level_db - rule.criterion_db) / rule.exchange_db;
    Ok(8.0 * (-LN_2 * doublings).exp())
}

/// Share of a day's dose: the time that the machine runs over the time allowed; above 1 is too much.
///
/// D = h s / T, 0 below the rule's threshold
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | h | working hours in the day | h | `day_hours` |
/// | s | share of them in which the machine runs | 1 | `running_share` |
/// | T | time allowed, by [`allowed_hours`] | h | `level_db`, `rule` |
/// | D | dose | 1 | result |
///
/// # Errors
/// [`OutOfRange`] outside [`LEVEL_DB`], 0 to 24 h, 0 to 1.
/// # Source
/// As [`allowed_hours`].
/// # Example
/// Eight hours of 95 dBA, half the time, is one whole day's dose by OSHA:
/// ```
/// # use physics::sound::{dose, OSHA};
/// assert_eq!(dose(95.0, 8.0, 0.5, OSHA)?, 1.0);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn dose(level_db: f64, day_hours: f64, running_share: f64, rule: Rule) -> Result<f64, OutOfRange> {
    within("hours in the day", day_hours, 0.0..=24.0)?;
    within("running share", running_share, 0.0..=1.0)?;
    let allowed = allowed_hours(level_db, rule)?;
    if level_db < rule.threshold_db {
        return Ok(0.0);
    }
    Ok(day_hours * running_share / allowed)
}

/// The voice it takes to be understood.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Voice {
    /// As in a quiet room.
    Normal,
    /// Raised.
    Raised,
    /// Loud.
    Loud,
    /// Very loud.
    VeryLoud,
    /// Shouting.
    Shout,
    /// Not even shouting will do.
    Beyond,
}

/// Level of each voice at 1 m in front of the mouth, dBA.
/// Source: ISO 9921 annex A for normal to very loud; shouting from ANSI S3.5, rounded (both from memory).
pub const VOICES: [(Voice, f64); 5] = [
    (Voice::Normal, 60.0),
    (Voice::Raised, 66.0),
    (Voice::Loud, 72.0),
    (Voice::VeryLoud, 78.0),
    (Voice::Shout, 84.0),
];

/// Speech over noise at which short, expected phrases are understood, dB. Typical (from memory of ISO 9921's
/// lowest usable grade); comfortable talk wants 10 dB more.
pub const SPEECH_OVER_NOISE_DB: f64 = -5.0;

/// The least voice that is understood over a noise: L_v − 20 log₁₀ r − L ≥ −5 dB.
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | L | noise where they stand | dBA | `noise_db` |
/// | r | distance between them | m | `apart_m` |
/// | L_v | level of the voice at 1 m, [`VOICES`] | dBA | result |
///
/// # Errors
/// [`OutOfRange`] outside [`LEVEL_DB`] or [`DISTANCE_M`].
/// # Source
/// ISO 9921 (from memory); typical.
/// # Example
/// Common practice: where you must shout at arm's length, it is about 85 dBA or more.
/// ```
/// # use physics::sound::{voice_needed, Voice};
/// assert_eq!(voice_needed(86.0, 0.9)?, Voice::Shout);
/// assert_eq!(voice_needed(70.0, 1.0)?, Voice::Raised);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn voice_needed(noise_db: f64, apart_m: f64) -> Result<Voice, OutOfRange> {
    within("level", noise_db, LEVEL_DB)?;
    within("distance", apart_m, DISTANCE_M)?;
    let least = noise_db + SPEECH_OVER_NOISE_DB + 20.0 * apart_m.log10();
    let enough = VOICES.iter().find(|(_, level)| *level >= least);
    Ok(enough.map_or(Voice::Beyond, |(voice, _)| *voice))
}

/// Air that a box needs to stay cool.
///
/// q = P/(ρ c_p ΔT)
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | P | heat given off in the box: nearly all of the motor's power | W | `heat_w` |
/// | ρ | density of the cooling air | kg/m³ | `density` |
/// | ΔT | rise allowed | K | `rise_k` |
/// | c_p | heat capacity of air | J/(kg K) | |
/// | q | air flow | m³/s | result |
///
/// # Errors
/// [`OutOfRange`] outside [`HEAT_W`], [`RISE_K`] or 0.2 to 2 kg/m³.
/// # Source
/// Heat balance. A motor shut in a box without this overheats.
/// # Example
/// Fan makers' rule cfm = 3.16 W/ΔT(°F) (common practice): 1,500 W, 20 °F, 237 cfm.
/// ```
/// # use physics::sound::cooling_m3_s;
/// # use uom::si::{f64::MassDensity, mass_density::kilogram_per_cubic_meter};
/// let air = MassDensity::new::<kilogram_per_cubic_meter>(1.2);
/// let cfm = cooling_m3_s(1_500.0, air, 20.0 / 1.8)? / quantity::M3_S_PER_CFM;
/// assert!((cfm / 237.0 - 1.0).abs() < 0.01);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn cooling_m3_s(heat_w: f64, density: MassDensity, rise_k: f64) -> Result<f64, OutOfRange> {
    let kg_m3 = density.get::<kilogram_per_cubic_meter>();
    within("heat", heat_w, HEAT_W)?;
    within("rise of temperature", rise_k, RISE_K)?;
    within("density of air", kg_m3, 0.2..=2.0)?;
    Ok(heat_w / (kg_m3 * CP * rise_k))
}

/// Heat that passes a board wall, W for each square meter and kelvin, both air films counted.
///
/// 1/U = 1/h + t/k + 1/h with h = 8 W/(m² K) and 18 mm of board of 0.13 W/(m K): U = 2.6. Source: textbook resistances in
/// series; conductivity of plywood from ISO 10456 (from memory). A lining lowers it.
pub const BOARD_W_M2_K: f64 = 2.6;

/// How much warmer than the room a shut box gets when heat can leave through its walls alone, K.
///
/// ΔT = P/(U A)
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | P | heat given off in the box | W | `heat_w` |
/// | U | heat that a wall passes, [`BOARD_W_M2_K`] | W/(m² K) | `wall_w_m2_k` |
/// | A | area of the walls that air touches | m² | `surface_m2` |
/// | ΔT | rise, in the end | K | result |
///
/// # Validity
/// Steady, no air exchanged. Far beyond what a motor stands the figure says no more than that.
/// # Errors
/// [`OutOfRange`] outside [`HEAT_W`], 0.1 to 20 W/(m² K) or [`BOX_M2`].
/// # Source
/// Steady heat balance (textbook).
/// # Example
/// 260 W in a box of 10 m² of board: 10 K (hand sum).
/// ```
/// # use physics::sound::{shut_rise_k, BOARD_W_M2_K};
/// assert!((shut_rise_k(260.0, BOARD_W_M2_K, 10.0)? - 10.0).abs() < 1e-9);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn shut_rise_k(heat_w: f64, wall_w_m2_k: f64, surface_m2: f64) -> Result<f64, OutOfRange> {
    within("heat", heat_w, HEAT_W)?;
    within("heat that a wall passes", wall_w_m2_k, 0.1..=20.0)?;
    within("area of the box", surface_m2, BOX_M2)?;
    Ok(heat_w / (wall_w_m2_k * surface_m2))
}

/// How much cooling air warms on its way through a box, K: [`cooling_m3_s`] solved for ΔT.
///
/// # Errors
/// [`OutOfRange`] as there, and for a flow outside 0.000 1 to 10 m³/s.
/// # Example
/// ```
/// # use physics::sound::{blown_rise_k, cooling_m3_s};
/// # use uom::si::{f64::MassDensity, mass_density::kilogram_per_cubic_meter};
/// let air = MassDensity::new::<kilogram_per_cubic_meter>(1.2);
/// let flow = cooling_m3_s(1_500.0, air, 12.0)?;
/// assert!((blown_rise_k(1_500.0, air, flow)? - 12.0).abs() < 1e-9);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn blown_rise_k(heat_w: f64, density: MassDensity, air_m3_s: f64) -> Result<f64, OutOfRange> {
    let kg_m3 = density.get::<kilogram_per_cubic_meter>();
    within("heat", heat_w, HEAT_W)?;
    within("density of air", kg_m3, 0.2..=2.0)?;
    within("flow of the fan", air_m3_s, 1e-4..=10.0)?;
    Ok(heat_w / (kg_m3 * CP * air_m3_s))
}
