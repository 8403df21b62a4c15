//! What is said of one field of a shop: that its text could not be taken, or what text would go there.

use quantity::{Units, field};
use serde::Serialize;
use tsify::Tsify;

use crate::record;

/// A field that could not be taken as typed. The text stays; the sums go on as if it were blank.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Tsify)]
pub struct Fault {
    /// Path into the shop, e.g. `candidates.0.flow`.
    pub field: String,
    /// The sentence for beside the field.
    pub message: String,
}

/// A text for a field of the shop: what a remedy tries on, or what was taken for a blank.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Tsify)]
pub struct Change {
    /// Path into the shop.
    pub field: String,
    /// The text that goes there.
    pub text: String,
}

record! { Change: field text }

impl Change {
    /// Whether its field takes the text, as typed by a reader of such units.
    ///
    /// ```
    /// # use shop::{Units, change::Change};
    /// let tank = |text: &str| Change { field: "auxiliary.tank".into(), text: text.into() };
    /// assert!(tank("30 gal").is_taken(Units::Us) && !tank("5,000 gal").is_taken(Units::Us));
    /// ```
    pub fn is_taken(&self, units: Units) -> bool {
        field::find(&self.field).is_some_and(|row| match row.kind() {
            Some(_) => row.read(&self.text, units).is_ok(),
            None => true,
        })
    }
}
