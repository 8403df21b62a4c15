//! What compresses the air, for the model and for the sums alike.

use serde::Serialize;
use tsify::Tsify;

/// What compresses the air.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum MachineKind {
    /// Reciprocating, one stage.
    #[default]
    PistonOneStage,
    /// Reciprocating, two stages with a cooler between.
    PistonTwoStage,
    /// Screw, scroll or vane.
    Rotary,
}
