//! A machine in a box: the heat that has to get out.

use physics::sound::{BOARD_W_M2_K, blown_rise_k, cooling_m3_s, shut_rise_k};
use quantity::FreeAir;

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
/// Density of air at which boxes are cooled where the sums do not take the place's, kg/m³.
const USUAL_KG_M3: f64 = 1.2;

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
/// ```
/// # use judge::{basis::Basis, boxed::boxed, grade::Grade}; use shop::Shop;
/// let mut shop = Shop::demo();
/// shop.places[0].boxed = true;
/// let basis = Basis::of(&shop);
/// assert_eq!(boxed(&basis.candidates[0], &basis.places[0]).map(|found| found.grade), Some(Grade::Trip));
/// ```
pub fn boxed(candidate: &CandidateBasis, place: &PlaceBasis) -> Option<Boxed> {
    if !place.boxed {
        return None;
    }
    let known = candidate
        .amps
        .map(|amps| [POWER_FACTOR * candidate.volts.value * amps; 2]);
    let heat_w = known.unwrap_or(USUAL_W);
    let fan = fans(heat_w, place)?;
    let surface_m2 = place.standing.box_m.map_or(USUAL_M2, surface);
    let blown = place.standing.fan.and_then(|fan| {
        let rise = blown_rise_k(heat_w[1], place.air.density(), fan.as_m3_s()).ok()?;
        Some((fan, rise))
    });
    let cool = blown.is_some_and(|(_, rise_k)| rise_k <= 1.02 * RISE_K[1]);
    Some(Boxed {
        grade: if cool { Grade::Good } else { Grade::Trip },
        heat_w,
        shut_k: shut_rise_k(heat_w[1], BOARD_W_M2_K, surface_m2).ok()?,
        fan,
        blown,
    })
}

/// The fans for the larger and the smaller rise.
fn fans(heat_w: [f64; 2], place: &PlaceBasis) -> Option<[FreeAir; 2]> {
    use uom::si::f64::MassDensity;
    use uom::si::mass_density::kilogram_per_cubic_meter;
    let usual = MassDensity::new::<kilogram_per_cubic_meter>(USUAL_KG_M3);
    let fan = |watts: f64, rise_k: f64| {
        let here = cooling_m3_s(watts, place.air.density(), rise_k);
        here.or_else(|_| cooling_m3_s(watts, usual, rise_k))
            .ok()
            .map(FreeAir::m3_s)
    };
    Some([fan(heat_w[0], RISE_K[1])?, fan(heat_w[1], RISE_K[0])?])
}

/// The walls that air touches: all six.
fn surface([length, width, height]: [f64; 3]) -> f64 {
    2.0 * (length * width + length * height + width * height)
}
