//! The boundary: the only module that knows a browser exists.
//!
//! It translates values and does nothing else; `exports` is all that the page can call. [`store`] and [`taking`] are plain Rust
//! over a shelf of texts, so that they are tested without a browser.

#[allow(clippy::disallowed_methods)]
mod browser;
#[allow(clippy::disallowed_methods)]
pub mod exports;
#[allow(clippy::disallowed_methods)]
pub mod store;
#[allow(clippy::disallowed_methods)]
pub mod taking;
