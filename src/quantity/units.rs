//! The two families of units.

use crate::words;

/// The units that answers are written in, and that a bare number is taken in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// cfm, psi, gal, ft, °F
    #[default]
    Us,
    /// L/min, bar, L, m, °C
    Metric,
}

words! {
    Units { Us = "us", Metric = "metric" }
}
