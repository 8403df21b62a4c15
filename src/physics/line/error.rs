//! What the air line refuses, with the figures that say why.

use std::fmt;
use std::ops::RangeInclusive;

use super::Part;
use quantity::plain;
use quantity::range::{OutOfRange, within_of};

/// Why a sum about the air line has no answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LineError {
    /// A figure outside the range that the formulae hold for.
    OutOfRange(OutOfRange),
    /// No outlet pressure carries that flow: the air has reached its greatest speed.
    Choked {
        /// The part of the line that chokes; nothing if the sum was about a single hose or fitting.
        part: Option<Part>,
        /// The flow asked of it, kg/s.
        asked_kg_s: f64,
        /// The most that it passes from that inlet pressure, kg/s.
        most_kg_s: f64,
    },
    /// The flow would leave less than the outside air's pressure, so it cannot be had.
    Starved {
        /// The part after which nothing is left.
        part: Part,
        /// Pressure that the sum left there, Pa absolute.
        left_pa: f64,
        /// The outside air's pressure, Pa absolute.
        ambient_pa: f64,
    },
}

impl fmt::Display for LineError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::OutOfRange(error) => error.fmt(f),
            Self::Choked {
                part,
                asked_kg_s,
                most_kg_s,
            } => write!(
                f,
                "the {} passes at most {} g/s here, not {} g/s: use a larger bore or a shorter hose",
                part.map_or("hose or fitting", Part::name),
                plain(most_kg_s * 1e3, 1),
                plain(asked_kg_s * 1e3, 1),
            ),
            Self::Starved {
                part,
                left_pa,
                ambient_pa,
            } => write!(
                f,
                "after the {} {} kPa would be left, less than the {} kPa of the outside air: \
                 raise the pressure or draw less",
                part.name(),
                plain(left_pa / 1e3, 1),
                plain(ambient_pa / 1e3, 1),
            ),
        }
    }
}

impl std::error::Error for LineError {}

impl From<OutOfRange> for LineError {
    fn from(error: OutOfRange) -> Self {
        Self::OutOfRange(error)
    }
}

/// A figure within its range.
pub(super) fn check(
    what: &'static str,
    unit: &'static str,
    value: f64,
    range: RangeInclusive<f64>,
) -> Result<f64, LineError> {
    within_of(what, unit, value, range)?;
    Ok(value)
}
