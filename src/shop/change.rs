//! What is said of one field of a shop: that its text could not be taken, or what text would go there.

use serde::{Deserialize, Serialize};
use tsify::Tsify;

/// A field that could not be taken as typed. The text stays; the sums go on as if it were blank.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
pub struct Fault {
    /// Path into the shop, e.g. `candidates.0.flow`.
    pub field: String,
    /// The sentence for beside the field.
    pub message: String,
}

/// A text for a field of the shop: what a remedy tries on, or what was taken for a blank.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
pub struct Change {
    /// Path into the shop.
    pub field: String,
    /// The text that goes there.
    pub text: String,
}
