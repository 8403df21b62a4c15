//! Bellows sizes the compressed air for building a metal aircraft at home.
//!
//! Six rooms, a crate each, and data flows one way: the compiler lets no room reach back.
//!
//! | room | what lives there |
//! |---|---|
//! | [`quantity`] | units, ranges, text in and out; pressures and flows that cannot be mixed up |
//! | [`physics`] | the sums: air, compressor, receiver, line, circuit, water, sound, carrying, cost |
//! | [`shop`] | a builder's air as typed; the catalogue of tasks; file, bundle, link, QR code |
//! | [`judge`] | typed text to quantities, and what a machine does in a shop: figures, no sentences |
//! | [`answer`] | the words for it |
//! | [`page`] | what the page can call, and where shops are kept: the only room that knows a browser |
//!
//! `page -> answer -> judge -> shop and physics -> quantity`

pub use answer;
pub use judge;
pub use physics;
pub use quantity;
pub use shop;

pub mod page;
