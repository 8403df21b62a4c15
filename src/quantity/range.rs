//! Ranges that sums accept, and the refusal of what lies outside.

use std::fmt;
use std::ops::RangeInclusive;

use crate::write::short;

/// A figure outside what a sum accepts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutOfRange {
    /// Which figure.
    pub what: &'static str,
    /// Its unit; blank where the figure's name tells it.
    pub unit: &'static str,
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
            unit,
            value,
            low,
            high,
        } = self;
        let [gap, unit] = if unit.is_empty() { ["", ""] } else { [" ", unit] };
        let [value, low, high] = [*value, *low, *high].map(short);
        write!(f, "{what} is {value}{gap}{unit}; use {low} to {high}{gap}{unit}")
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
    within_of(what, "", value, range)
}

/// The same with the figure's unit.
///
/// ```
/// # use quantity::range::within_of;
/// let refused = within_of("hose bore", "m", 0.2, 0.001..=0.1).unwrap_err();
/// assert_eq!(refused.to_string(), "hose bore is 0.2 m; use 0.001 to 0.1 m");
/// ```
///
/// # Errors
/// [`OutOfRange`] with the figure and its bounds.
pub fn within_of(
    what: &'static str,
    unit: &'static str,
    value: f64,
    range: RangeInclusive<f64>,
) -> Result<(), OutOfRange> {
    if range.contains(&value) {
        return Ok(());
    }
    Err(OutOfRange {
        what,
        unit,
        value,
        low: *range.start(),
        high: *range.end(),
    })
}
