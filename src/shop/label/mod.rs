//! A whole label at once: a pasted listing, a plate read by a camera, a sentence spoken to the phone.
//!
//! Text -> pieces (`token`, `spoken`) -> figures (`figure`, `unit`) -> whose they are and what the words beside
//! them say (`owner`, `sense`, `context`, `pressure`) -> fields (`choose`, `draft`). One pass each, so that
//! time grows with the text and no faster.

mod choose;
mod context;
mod draft;
mod electric;
mod facts;
mod field;
mod figure;
mod flows;
mod owner;
mod pressure;
mod pump;
mod scene;
mod sense;
mod spoken;
mod token;
mod unit;

use std::ops::Range;

pub use field::Field;

use crate::{Candidate, Units};

/// A figure that a field takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Taken {
    /// Where it goes.
    pub field: Field,
    /// What goes in, as a person would type it: "2.6 cfm".
    pub text: String,
    /// The bytes of the source that it was taken from.
    pub piece: Range<usize>,
    /// What the reader should know of it; mostly blank.
    pub note: String,
}

/// A figure that was recognised and goes nowhere.
#[derive(Clone, Debug, PartialEq)]
pub struct Left {
    /// The bytes of the source that it stands on.
    pub piece: Range<usize>,
    /// Why, in the reader's words: "8.1 cfm is displacement, not what it delivers".
    pub reason: String,
}

/// What a text says of a machine.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LabelReading {
    /// For each field at most one figure, in the order of [`Field`].
    pub taken: Vec<Taken>,
    /// What goes nowhere and why, in the order of the text.
    pub left: Vec<Left>,
    /// Figures that were not understood.
    pub unread: Vec<Range<usize>>,
}

impl LabelReading {
    /// The text for a field, where one was found.
    pub fn text(&self, field: Field) -> Option<&str> {
        self.taken
            .iter()
            .find(|taken| taken.field == field)
            .map(|taken| &*taken.text)
    }
}

/// Reads a label of any length. `units` decides where the text does not: what a bare figure counts.
///
/// # Validity
/// English, US and European wordings, from print, a camera or dictation. What is not surely of a field's kind is left
/// with its reason: displacement, peak power, the ratings of hoses and tools.
///
/// # Example
/// ```
/// # use shop::{Candidate, Units, label::{Field, fill, read_label}};
/// let reading = read_label("6 gal pancake, 2.6 SCFM @ 90 PSI (3.7 displacement), 150 psi max, hose 200 psi", Units::Us);
/// assert_eq!(reading.text(Field::Flow), Some("2.6 cfm"));
/// assert_eq!(reading.text(Field::CutOut), Some("150 psi"));
/// assert_eq!(reading.left[0].reason, "3.7 cfm is displacement, not what it delivers");
/// assert_eq!(reading.left[1].reason, "200 psi is the hose's, not the compressor's");
/// let mut machine = Candidate::default();
/// fill(&reading, &mut machine);
/// assert_eq!((&*machine.tank, &*machine.at), ("6 gal", "90 psi"));
/// ```
pub fn read_label(text: &str, units: Units) -> LabelReading {
    choose::choose(&scene::Scene::of(text, units))
}

/// Puts what was found into a machine's fields. Fields for which nothing was found keep what they have.
pub fn fill(reading: &LabelReading, candidate: &mut Candidate) {
    for taken in &reading.taken {
        taken.field.put(&taken.text, candidate);
    }
}
