//! The two families of units.

use serde::Serialize;
use tsify::Tsify;

/// The units that answers are written in, and that a bare number is taken in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum Units {
    /// cfm, psi, gal, ft, °F
    #[default]
    Us,
    /// L/min, bar, L, m, °C
    Metric,
}
