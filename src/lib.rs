//! Bellows sizes the compressed air for building a metal aircraft at home.
//!
//! Data flows one way: label and shop in, quantities, physics, verdicts, sentences, page.
//! No module reaches back. Only `page` knows that a browser exists.
//!
//! | question | module |
//! |---|---|
//! | What is a shop, as typed? | [`shop`] |
//! | What does "2.4 cfm" or "1-1/2 hp" mean, and how is a figure written? | [`quantity`] |

pub mod quantity;
pub mod shop;
