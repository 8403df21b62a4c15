//! Bellows sizes the compressed air for building a metal aircraft at home.
//!
//! Data flows one way: label and shop in, quantities, physics, verdicts, sentences, page.
//! No module reaches back. Only `page` knows that a browser exists.
//!
//! | question | module |
//! |---|---|
//! | What air does a place have, and how much water is in it? | [`air`] |
//! | What does a compressor deliver, and what may its label claim? | [`compressor`] |
//! | What happens to the air in the tank? | [`receiver`] |
//! | What does the pressure do over time, and in the long run? | [`run`] |
//! | What does a tool take, and in what rhythm? | [`task`] |
//! | What is lost between tank and tool? | [`mod@line`] |
//! | What do a clock and the gauge tell of a machine? | [`measure`] |
//! | What reaches the motor through panel, wire and cord? | [`circuit`] |
//! | What water drops in the tank, and what reaches the tool? | [`water`] |
//! | How loud is it, and for how long may one bear it? | [`sound`] |
//! | Who can lift it? | [`carry`] |
//! | What does the set cost, to buy and to run? | [`cost`] |
//! | What do the typed texts mean, and what is taken for the blank ones? | [`basis`] |
//! | What does a machine do for each task at each place? | [`assess`] |
//! | What to look for, from a shop alone? | [`window`] |
//! | Which flow on which tank keeps up? | [`mod@map`] |
//! | How sure is that, and what would settle it? | [`mod@doubt`] |
//! | How is all that said? | [`mod@answer`] |
//! | What is the page handed? | [`report`] |
//! | Which figures does a sum accept? | [`range`] |
//! | How are short lists put in order? | [`order`] |
//! | What is a shop, as typed? | [`shop`] |
//! | What does a shop look like as a file, in storage? | [`mod@file`] |
//! | And several shops in one file? | [`bundle`] |
//! | How do the fields of a record become JSON, and back? | [`json`] |
//! | How does a shop travel as a bookmark? | [`link`] |
//! | How does a phone's camera read that? | [`qr`] |
//! | What does "2.4 cfm" or "1-1/2 hp" mean, and how is a figure written? | [`quantity`] |
//! | What can the page call, and where are shops kept? | [`page`] |

pub mod air;
pub mod answer;
pub mod assess;
pub mod basis;
pub mod bundle;
pub mod carry;
pub mod circuit;
pub mod compressor;
pub mod cost;
pub mod doubt;
pub mod file;
pub mod json;
pub mod line;
pub mod link;
pub mod map;
pub mod measure;
pub mod order;
pub mod page;
pub mod qr;
pub mod quantity;
pub mod range;
pub mod receiver;
pub mod report;
pub mod run;
pub mod shop;
pub mod sound;
pub mod task;
pub mod water;
pub mod window;
