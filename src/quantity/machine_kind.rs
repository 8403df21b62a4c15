//! What compresses the air, for the model and for the sums alike.

use crate::words;

/// What compresses the air.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum MachineKind {
    /// Reciprocating, one stage.
    #[default]
    PistonOneStage,
    /// Reciprocating, two stages with a cooler between.
    PistonTwoStage,
    /// Screw, scroll or vane.
    Rotary,
}

words! {
    MachineKind {
        PistonOneStage = "piston_one_stage", PistonTwoStage = "piston_two_stage", Rotary = "rotary"
    }
}
