//! A machine in a box: the heat that has to get out.

use physics::sound::{BOARD_W_M2_K, blown_rise_k, cooling_m3_s, shut_rise_k};
use quantity::FreeAir;
use quantity::range::OutOfRange;

use crate::basis::{CandidateBasis, PlaceBasis};
use crate::grade::Grade;

/// Real power over volts times amps of such motors under load. Common practice, no source.
pub const POWER_FACTOR: f64 = 0.8;
/// How much over the room the air in a box may get, K: 18 to 36 °F. Motors are made for 40 °C of air around them; builders
/// accept 20 K. Common practice, no source.
pub const RISE_K: [f64; 2] = [10.0, 20.0];
/// Heat of a machine whose amps are unknown, W: 12 to 16 A at 120 V. Common practice, no source.
const USUAL_W: [f64; 2] = [1_100.0, 1_500.0];
/// Area of a box whose size is unknown, m²: one of 4 by 3 by 3 ft.
const USUAL_M2: f64 = 6.13;

/// A machine's box at a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Boxed {
    /// [`Grade::Trip`] where it overheats, else [`Grade::Good`].
    pub grade: Grade,
    /// Heat while it runs, W; two ends where its amps are unknown.
    pub heat_w: [f64; 2],
    /// How much warmer than the room it would get in the end, shut, K.
    pub shut_k: f64,
    /// Fan that keeps it within [`RISE_K`]: the smaller for the larger rise.
    pub fan: [FreeAir; 2],
    /// The fan that is there, and how much warmer than the room the box gets with it, K.
    pub blown: Option<(FreeAir, f64)>,
}

/// What a box does to a machine at a place; `None` where there is none.
///
/// # Errors
/// [`OutOfRange`] where heat, air or box are beyond what the sums take.
/// # Example
/// ```
/// # use judge::{basis::Basis, boxed::boxed, grade::Grade}; use shop::Shop;
/// let mut shop = Shop::demo();
/// shop.places[0].boxed = true;
/// let basis = Basis::of(&shop);
/// let found = boxed(&basis.candidates[0], &basis.places[0])?;
/// assert_eq!(found.map(|found| found.grade), Some(Grade::Trip));
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn boxed(candidate: &CandidateBasis, place: &PlaceBasis) -> Result<Option<Boxed>, OutOfRange> {
    if !place.boxed {
        return Ok(None);
    }
    let known = candidate
        .amps
        .map(|amps| [POWER_FACTOR * candidate.volts.value * amps; 2]);
    let heat_w = known.unwrap_or(USUAL_W);
    let surface_m2 = place.standing.box_m.map_or(USUAL_M2, surface);
    let blow = |fan: FreeAir| {
        let rise = blown_rise_k(heat_w[1], place.air.density(), fan.as_m3_s())?;
        Ok::<_, OutOfRange>((fan, rise))
    };
    let blown = place.standing.fan.map(blow).transpose()?;
    let cool = blown.is_some_and(|(_, rise_k)| rise_k <= 1.02 * RISE_K[1]);
    let fan = |watts: f64, rise_k: f64| cooling_m3_s(watts, place.air.density(), rise_k).map(FreeAir::m3_s);
    Ok(Some(Boxed {
        grade: if cool { Grade::Good } else { Grade::Trip },
        heat_w,
        shut_k: shut_rise_k(heat_w[1], BOARD_W_M2_K, surface_m2)?,
        fan: [fan(heat_w[0], RISE_K[1])?, fan(heat_w[1], RISE_K[0])?],
        blown,
    }))
}

/// The walls that air touches: all six.
fn surface([length, width, height]: [f64; 3]) -> f64 {
    2.0 * (length * width + length * height + width * height)
}
