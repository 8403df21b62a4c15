//! A whole label as the page shows that it was read: what went where, what was left and why.

use quantity::field::page::bare_unit;
use serde::Serialize;
use shop::Units;
use shop::change::Change;
use shop::label::{Field, LabelReading, read_label};
use shop::part::Part;
use tsify::Tsify;

/// A figure that went into a field.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Tsify)]
pub struct LabelFigure {
    /// What the field is called.
    pub name: &'static str,
    /// What went in.
    pub text: String,
    /// The words that it was taken from.
    pub piece: String,
    /// What the reader should know of it; mostly blank.
    pub note: String,
}

/// A figure that goes nowhere.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Tsify)]
pub struct LabelRest {
    /// The words that it stands on.
    pub piece: String,
    /// Why; blank where it was not understood.
    pub reason: String,
}

/// What was read.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Tsify)]
pub struct LabelRead {
    /// What went into fields.
    pub taken: Vec<LabelFigure>,
    /// What was left.
    pub left: Vec<LabelRest>,
}

/// A figure without the unit that its box stands for anyhow.
fn short(field: Field, text: &str, units: Units) -> String {
    let own = field.row().kind().map(|kind| bare_unit(kind, units));
    let bare = own.and_then(|unit| text.strip_suffix(unit));
    match bare.map(str::trim_end) {
        Some(number) if number.ends_with(|c: char| c.is_ascii_digit()) => number.into(),
        _ => text.into(),
    }
}

/// Reads a label for the machine at `index`: what to tell, and the texts for its fields.
///
/// ```
/// # use bellows::page::label::read; use bellows::shop::Units;
/// let (told, changes) = read("2.6 CFM @ 90 PSI, displacement 3.7 cfm", Units::Us, 0);
/// assert_eq!((changes[0].field.as_str(), changes[0].text.as_str()), ("candidates.0.flow", "2.6"));
/// assert!(told.left[0].reason.contains("displacement"));
/// ```
pub fn read(text: &str, units: Units, index: usize) -> (LabelRead, Vec<Change>) {
    let reading: LabelReading = read_label(text, units);
    let piece = |range: &std::ops::Range<usize>| text.get(range.clone()).unwrap_or("").trim().to_owned();
    let changes = reading.taken.iter().map(|taken| Change {
        field: Part::Candidate(index).path(taken.field.name()),
        // A switch takes "true".
        text: match taken.field {
            Field::Wheels => "true".into(),
            field => short(field, &taken.text, units),
        },
    });
    let changes = changes.collect();
    let taken = reading.taken.iter().map(|taken| LabelFigure {
        name: taken.field.row().name,
        text: taken.text.clone(),
        piece: piece(&taken.piece),
        note: taken.note.clone(),
    });
    let unread = reading.unread.iter().map(|range| LabelRest {
        piece: piece(range),
        reason: String::new(),
    });
    let left = reading.left.iter().map(|left| LabelRest {
        piece: piece(&left.piece),
        reason: left.reason.clone(),
    });
    let told = LabelRead {
        taken: taken.collect(),
        left: left.chain(unread).collect(),
    };
    (told, changes)
}
