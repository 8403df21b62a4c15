//! The boundary: the only room that knows a browser exists.
//!
//! **In:** what a reader types, a link, a file, what is kept. **Out:** the report, in the answer's words. Begin with
//! [`session::Session`], which is all that the page can call; [`mod@bench`] holds the open shop and the way back, [`draft`] keeps
//! it with every key, [`store`] and [`taking`] keep shops by name. All but [`session`] is plain Rust over a shelf of texts, so
//! that it is tested without a browser.

pub mod bench;
mod browser;
pub mod draft;
pub mod label;
pub mod session;
pub mod store;
pub mod taking;
