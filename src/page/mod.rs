//! The boundary: the only module that knows a browser exists.
//!
//! It translates values and does nothing else; `exports` is all that the page can call. [`store`] and [`taking`] are plain Rust
//! over a shelf of texts, so that they are tested without a browser.

mod browser;
pub mod exports;
pub mod store;
pub mod taking;
