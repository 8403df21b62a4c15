//! Answers read as those would who sign them: an electrician, a fitter who paints, a builder of several aircraft. Each label
//! is answered whole, and sections must not contradict one another.

#![allow(clippy::unwrap_used, reason = "helpers of tests: a refusal is a failed test")]
#![allow(
    clippy::needless_update,
    reason = "a row lists what it needs and leaves the rest blank"
)]

#[path = "../drawn/mod.rs"]
mod drawn;
mod properties;
mod shops;
mod signed;
#[path = "../typed/mod.rs"]
mod typed;
