//! The boundary: the only module that knows a browser exists.
//!
//! It translates values and does nothing else; [`exports`] is all that the page can call.

pub mod exports;
