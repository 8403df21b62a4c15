//! Ranges that sums accept, and the refusal of what lies outside.

use std::fmt;
use std::ops::RangeInclusive;

/// A figure outside what a sum accepts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutOfRange {
    /// Which figure.
    pub what: &'static str,
    /// What was read.
    pub value: f64,
    /// Least accepted.
    pub low: f64,
    /// Most accepted.
    pub high: f64,
}

impl fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            what,
            value,
            low,
            high,
        } = self;
        write!(f, "{what} is {value}; use {low} to {high}")
    }
}

impl std::error::Error for OutOfRange {}

/// Refuses a figure outside its range; a range refuses NaN by itself.
///
/// ```
/// # use quantity::range::within;
/// assert!(within("share", 0.5, 0.0..=1.0).is_ok());
/// assert!(within("share", f64::NAN, 0.0..=1.0).is_err());
/// ```
///
/// # Errors
/// [`OutOfRange`] with the figure and its bounds.
pub fn within(what: &'static str, value: f64, range: RangeInclusive<f64>) -> Result<(), OutOfRange> {
    if range.contains(&value) {
        return Ok(());
    }
    Err(OutOfRange {
        what,
        value,
        low: *range.start(),
        high: *range.end(),
    })
}
