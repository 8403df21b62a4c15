//! Cold: stiff oil at the start, water that freezes in the drain.

use physics::air::ZERO_CELSIUS;

use crate::basis::{CandidateBasis, PlaceBasis};
use crate::grade::Grade;

/// Below this an oiled pump starts hard on its usual oil, K: 40 °F; most makers allow no less. Common practice, no source.
pub const STIFF_KELVIN: f64 = ZERO_CELSIUS + 4.4;

/// What the cold does at a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cold {
    /// [`Grade::Trip`] where it starts hard, else [`Grade::Good`].
    pub grade: Grade,
    /// Its oil is stiff; `None` where nobody said whether the pump has any.
    pub stiff: Option<bool>,
    /// Water freezes in tank, drain and line.
    pub freezes: bool,
}

/// What the cold does to a machine at a place; `None` where it is not cold.
///
/// ```
/// # use judge::{basis::Basis, cold::cold, grade::Grade}; use shop::Shop;
/// let mut shop = Shop::demo();
/// shop.places[0].temperature = "15 F".into();
/// shop.candidates[0].pump = "oiled, belt drive".into();
/// let basis = Basis::of(&shop);
/// let found = cold(&basis.candidates[0], &basis.places[0]).ok_or("not cold")?;
/// assert!(found.grade == Grade::Trip && found.freezes);
/// # Ok::<(), &str>(())
/// ```
pub fn cold(candidate: &CandidateBasis, place: &PlaceBasis) -> Option<Cold> {
    let kelvin = place.air.kelvin();
    if kelvin >= STIFF_KELVIN {
        return None;
    }
    let stiff = candidate.pump.map(|pump| pump.traits().oiled);
    let grade = if stiff == Some(false) {
        Grade::Good
    } else {
        Grade::Trip
    };
    Some(Cold {
        grade,
        stiff,
        freezes: kelvin < ZERO_CELSIUS + 0.5,
    })
}
