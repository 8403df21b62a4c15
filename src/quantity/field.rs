//! The one table of fields: what each field of a shop is called, holds and may be, and how long each list may get.
//!
//! **In:** a field's path. **Out:** its row, or a refusal that says what was read and what would do. Forms, links, files,
//! kept shops, catalogue, fixes, window and map ask this table, so that what one of them takes no other refuses. The
//! rows are in `table.rs`; where a row allows less than its kind of unit does, the reason stands beside it.

pub mod page;
pub(crate) mod table;

use std::fmt;
use std::ops::RangeInclusive;

use crate::read::{Asked, ReadError};
use crate::{Kind, Origin, Units};
pub use table::{AUXILIARY, CANDIDATES, LIMITS, LINE, PLACES, SECTIONS, SHOP, STROKE, STROKE_TIME, TASKS};

/// Most characters in a name or in a list of times.
pub const NAME_MAX: usize = 200;
/// Most characters in a figure.
pub const FIGURE_MAX: usize = 60;

/// What a field holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Holds {
    /// A name or another word, as the builder likes.
    Words,
    /// A figure, or several of one kind as labels print them.
    Figure {
        /// What it measures.
        kind: Kind,
        /// Least that the field takes, SI.
        low: f64,
        /// Most that it takes, SI.
        high: f64,
    },
    /// One of a list.
    Choice,
    /// Yes or no.
    Tick,
}

/// What is judged by a field. What a field refuses leaves that open: it cannot be said yet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bears {
    /// What the machine does for the work.
    Air,
    /// What the circuit does with the machine.
    Power,
    /// Whether somebody could be hurt.
    Safety,
    /// None of these: sound, weight, money, names.
    Beside,
}

/// One field of a shop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Field {
    /// Its name in the shop, as in files and links.
    pub key: &'static str,
    /// What a reader calls it; "the" goes before it.
    pub name: &'static str,
    /// What it holds.
    pub holds: Holds,
    /// What is judged by it.
    pub bears: Bears,
}

/// A list of the shop: what its entries are called and how many there may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct List {
    /// One of them.
    pub one: &'static str,
    /// Several of them.
    pub many: &'static str,
    /// Most that a shop holds.
    pub most: usize,
}

/// The fields of one part of a shop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Where it is in the shop: "places"; blank is the shop itself.
    pub path: &'static str,
    /// Set where the shop has several of it.
    pub list: Option<List>,
    /// Where a figure that stands in it comes from.
    pub origin: Origin,
    /// Where a figure comes from that is taken for a blank.
    pub blank: Origin,
    /// Its fields.
    pub fields: &'static [Field],
}

/// One more than a list holds. `Display` is the sentence to show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooMany {
    /// The list.
    pub list: List,
    /// How many there would be.
    pub count: usize,
}

impl fmt::Display for TooMany {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let List { one, many, most } = self.list;
        write!(
            f,
            "{} {many} are too many: {most} is the most. Take out a {one} first.",
            self.count
        )
    }
}

impl std::error::Error for TooMany {}

impl List {
    /// Refuses a count that the list does not hold.
    ///
    /// # Errors
    /// [`TooMany`], with what would do.
    /// # Example
    /// ```
    /// # use quantity::field;
    /// let places = field::PLACES.list.unwrap();
    /// assert!(places.check(places.most).is_ok());
    /// let refused = places.check(13).unwrap_err();
    /// assert_eq!(refused.to_string(), "13 places are too many: 12 is the most. Take out a place first.");
    /// ```
    pub fn check(self, count: usize) -> Result<(), TooMany> {
        if count > self.most {
            return Err(TooMany { list: self, count });
        }
        Ok(())
    }
}

/// What stands for a row that the table lacks; a test looks that no field of a shop is without one.
static MISSING: Field = Field {
    key: "",
    name: "field",
    holds: Holds::Words,
    bears: Bears::Beside,
};

impl Section {
    /// The field of that name in a shop.
    pub fn field(&self, key: &str) -> Option<&'static Field> {
        self.fields.iter().find(|field| field.key == key)
    }

    /// The same where the name is a program's own and cannot be wrong.
    pub fn row(&self, key: &str) -> &'static Field {
        self.field(key).unwrap_or(&MISSING)
    }
}

/// The section at a path: "places", or "" for the shop itself.
pub fn section(path: &str) -> Option<&'static Section> {
    SECTIONS.into_iter().find(|section| section.path == path)
}

/// The row of a field by its path in a shop, with or without the numbers of list entries.
///
/// ```
/// # use quantity::field;
/// assert_eq!(field::find("places.3.breaker").map(|field| field.name), Some("breaker"));
/// assert_eq!(field::find("name").map(|field| field.name), Some("name of the shop"));
/// assert_eq!(field::find("places.3.colour"), None);
/// ```
pub fn find(path: &str) -> Option<&'static Field> {
    let (list, key) = path.rsplit_once('.').unwrap_or(("", path));
    section(list.split('.').next()?)?.field(key)
}

impl Field {
    /// The quantity that a text states in this field, SI; nothing if it is blank, "?", "-", "n/a" or "unknown".
    ///
    /// # Errors
    /// [`ReadError`], which says what was read and what would do; also for a field that holds no figure.
    /// # Example
    /// ```
    /// # use quantity::{Units, field};
    /// let breaker = field::find("places.breaker").unwrap();
    /// assert_eq!(breaker.read("15 A", Units::Us)?, Some(15.0));
    /// let refused = breaker.read("0.5 A", Units::Us).unwrap_err();
    /// assert_eq!(refused.to_string(), "\"0.5 A\" is out of range for the breaker: use 1 to 400 A");
    /// # Ok::<(), quantity::ReadError>(())
    /// ```
    pub fn read(&self, text: &str, units: Units) -> Result<Option<f64>, ReadError> {
        match self.holds {
            Holds::Figure { kind, low, high } => Asked {
                kind,
                low,
                high,
                field: Some(self.name),
            }
            .read(text, units),
            _ => Err(ReadError::NoFigure { field: self.name }),
        }
    }

    /// The kind of its figure.
    pub fn kind(&self) -> Option<Kind> {
        match self.holds {
            Holds::Figure { kind, .. } => Some(kind),
            _ => None,
        }
    }

    /// Least and most of its figure, SI.
    pub fn range(&self) -> Option<RangeInclusive<f64>> {
        match self.holds {
            Holds::Figure { low, high, .. } => Some(low..=high),
            _ => None,
        }
    }

    /// Most characters of its text that are of use.
    pub fn most_characters(&self) -> usize {
        match self.holds {
            Holds::Words => NAME_MAX,
            // Several runs of a clock stand in one field.
            Holds::Figure {
                kind: Kind::Duration, ..
            } => NAME_MAX,
            _ => FIGURE_MAX,
        }
    }
}

/// Refuses a text that is longer than what is kept of any.
///
/// # Errors
/// [`ReadError::Cut`].
pub fn check_length(text: &str) -> Result<(), ReadError> {
    let (length, most) = (text.chars().count(), NAME_MAX);
    if length > most {
        return Err(ReadError::Cut { length, most });
    }
    Ok(())
}
