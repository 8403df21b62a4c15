//! What tanks are stamped for, where their relief valve opens, how old a second one is.

use super::reader::Reader;
use quantity::{Gauge, lower};

/// The pressure stamped on a tank.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Stamp {
    /// Not typed.
    #[default]
    Untold,
    /// Typed: it has none.
    Missing,
    /// Typed.
    At(Gauge),
}

impl Stamp {
    /// The stamped pressure, where one was typed.
    pub fn pressure(self) -> Option<Gauge> {
        match self {
            Self::At(pressure) => Some(pressure),
            Self::Untold | Self::Missing => None,
        }
    }
}

/// A relief valve.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Relief {
    /// Not typed.
    #[default]
    Untold,
    /// Typed: plugged, painted shut, or none at all.
    Blocked,
    /// Typed: where it opens.
    At(Gauge),
}

/// A machine's tank as typed, beside its volume.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Vessel {
    /// Its stamp.
    pub stamp: Stamp,
    /// Its relief valve.
    pub relief: Relief,
}

/// The state of a second tank.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Condition {
    /// Blank or new.
    #[default]
    New,
    /// Used.
    Used,
    /// Rusty, dented, welded or weeping.
    Unsound,
}

fn plain(text: &str) -> String {
    lower(text.trim()).replace(['-', '_'], " ")
}

fn holds_any(text: &str, words: &[&str]) -> bool {
    words.iter().any(|word| text.contains(word))
}

/// Words that stand around a stamp's or a valve's pressure.
const AROUND: [&str; 10] = [
    "tank", "stamped", "stamp", "rated", "mawp", "wp", "relief", "valve", "opens", "for",
];

/// The pressure alone: "tank stamped 125" is 125.
fn pressure(reader: &mut Reader, name: &str, text: &str) -> Option<Gauge> {
    let words = text.split_whitespace();
    let kept: Vec<&str> = words
        .filter(|word| !AROUND.contains(&word.to_ascii_lowercase().trim_matches([':', ','])))
        .collect();
    let kept = if kept.is_empty() {
        text.to_owned()
    } else {
        kept.join(" ")
    };
    reader.get(name, &kept).map(Gauge::pa)
}

/// Whether a text is a word for nothing: "none", "no".
pub(super) fn is_none(text: &str) -> bool {
    matches!(plain(text).as_str(), "no" | "none" | "nothing" | "n" | "0")
}

pub(super) fn stamp(reader: &mut Reader, name: &str, text: &str) -> Stamp {
    let words = plain(text);
    let missing = [
        "no stamp",
        "no plate",
        "no asme",
        "unstamped",
        "not stamped",
        "no tag",
        "missing",
        "illegible",
        "unreadable",
    ];
    if is_none(text) || holds_any(&words, &missing) {
        return Stamp::Missing;
    }
    pressure(reader, name, text).map_or(Stamp::Untold, Stamp::At)
}

pub(super) fn relief(reader: &mut Reader, name: &str, text: &str) -> Relief {
    let words = plain(text);
    let blocked = [
        "block",
        "plug",
        "stuck",
        "paint",
        "seized",
        "removed",
        "missing",
        "no valve",
        "no relief",
        "capped",
        "wired shut",
    ];
    if is_none(text) || holds_any(&words, &blocked) {
        return Relief::Blocked;
    }
    pressure(reader, name, text).map_or(Relief::Untold, Relief::At)
}

pub(super) fn condition(reader: &mut Reader, name: &str, text: &str) -> Condition {
    let words = plain(text);
    if words.is_empty() || holds_any(&words, &["new", "unused"]) {
        return Condition::New;
    }
    if holds_any(&words, &["no rust", "not rusty", "without rust", "inspected"]) {
        return Condition::Used;
    }
    if holds_any(
        &words,
        &[
            "rust", "dent", "weld", "patch", "weep", "leak", "crack", "pitted", "corroded", "propane",
        ],
    ) {
        return Condition::Unsound;
    }
    if holds_any(
        &words,
        &["used", "old", "second hand", "secondhand", "farm", "sound"],
    ) {
        return Condition::Used;
    }
    reader.refuse(
        name,
        format!(
            "“{}”: say new, used, or what is wrong with it, e.g. rusty",
            text.trim()
        ),
    );
    Condition::Used
}
