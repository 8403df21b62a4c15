//! Draining: by hand, or by itself.

use super::hours;
use crate::day;
use crate::label::finding;
use crate::report::{Finding, Grade};
use crate::words::Words;
use judge::basis::Basis;
use physics::air::ZERO_CELSIUS;

/// A shop so warm and humid fills a tank in a day: 25 °C and 60 %. Common practice, no source.
const HUMID: (f64, f64) = (ZERO_CELSIUS + 25.0, 0.6);

/// Drained by hand, or by itself.
pub(super) fn drain(words: Words, basis: &Basis, soonest_h: Option<f64>) -> Finding {
    let by_hand = "Drain the tank every day after work";
    let trap = "Put a trap where the hose meets the bench: water drops out on the way, not only in the tank.";
    let early = soonest_h.filter(|needed| *needed < day::hours(basis));
    let text = match (early, humid(basis)) {
        (Some(needed), _) => format!(
            "{by_hand}, and on humid days every {} of work, or fit an auto drain in place of the petcock. {trap}",
            hours(words, needed)
        ),
        (None, true) => {
            format!("{by_hand}. In air this humid fit an auto drain in place of the petcock. {trap}")
        }
        (None, false) => {
            format!("{by_hand}. A valve on an elbow that you reach without kneeling makes it a habit. {trap}")
        }
    };
    let basis = "rule of thumb: skip the draining in a humid summer and sooner or later it spits water through your tools";
    finding("drain", Grade::Note, text, basis)
}

/// Whether a place is so warm and humid.
pub fn humid(basis: &Basis) -> bool {
    let (kelvin, humidity) = HUMID;
    let mut places = basis.places.iter();
    places.any(|place| place.air.kelvin() >= kelvin && place.air.relative_humidity() >= humidity)
}
