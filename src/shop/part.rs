//! The parts of a shop by identity: which place, which task, which machine.

use quantity::field::{self, Section};

/// A part of a shop. An index counts from 0 in the shop's own list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The shop itself.
    Shop,
    /// A place.
    Place(usize),
    /// A task.
    Task(usize),
    /// The air line.
    Line,
    /// The second tank.
    Auxiliary,
    /// What the builder can carry, pay and bear.
    Limits,
    /// A machine.
    Candidate(usize),
}

impl Part {
    /// Its rows in the table of fields.
    pub fn section(self) -> &'static Section {
        match self {
            Self::Shop => &field::SHOP,
            Self::Place(_) => &field::PLACES,
            Self::Task(_) => &field::TASKS,
            Self::Line => &field::LINE,
            Self::Auxiliary => &field::AUXILIARY,
            Self::Limits => &field::LIMITS,
            Self::Candidate(_) => &field::CANDIDATES,
        }
    }

    /// The path of one of its fields in a shop.
    ///
    /// ```
    /// # use shop::part::Part;
    /// assert_eq!(Part::Candidate(2).path("flow"), "candidates.2.flow");
    /// assert_eq!((Part::Line.path("droop"), Part::Shop.path("name")), ("line.droop".into(), "name".into()));
    /// ```
    pub fn path(self, key: &str) -> String {
        let section = self.section().path;
        match self {
            Self::Shop => key.to_owned(),
            Self::Place(index) | Self::Task(index) | Self::Candidate(index) => {
                format!("{section}.{index}.{key}")
            }
            Self::Line | Self::Auxiliary | Self::Limits => format!("{section}.{key}"),
        }
    }
}
