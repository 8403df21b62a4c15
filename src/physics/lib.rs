//! The sums of compressed air. SI in, SI out; no text, no opinion, no serde.
//!
//! **In:** quantities, by type or with the unit in the name. **Out:** quantities, or an error that carries figures.
//! Nothing here knows a shop, a label or a sentence. Begin with [`air`], then [`compressor`] and [`receiver`]; [`run`] puts
//! them together over time.
//!
//! | question | module |
//! |---|---|
//! | What air does a place have, and how much water is in it? | [`air`] |
//! | What does a compressor deliver, and what may its label claim? | [`compressor`] |
//! | What happens to the air in the tank? | [`receiver`] |
//! | What does the pressure do over time, and in the long run? | [`run`] |
//! | What is lost between tank and tool? | [`mod@line`] |
//! | What do a clock and the gauge tell of a machine? | [`measure`] |
//! | What reaches the motor through panel, wire and cord? | [`circuit`] |
//! | What water drops in the tank, and what reaches the tool? | [`water`] |
//! | How loud is it, and for how long may one bear it? | [`sound`] |
//! | Who can lift it? | [`carry`] |
//! | What does the set cost, to buy and to run? | [`cost`] |

pub mod air;
pub mod carry;
pub mod circuit;
pub mod compressor;
pub mod cost;
pub mod line;
pub mod measure;
pub mod receiver;
pub mod run;
pub mod sound;
pub mod water;
