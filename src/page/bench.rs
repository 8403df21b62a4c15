//! The shop on the bench: what is open, where it came from, and the way back from each act.
//!
//! Typing is undone by the browser's own means; what is undone here are acts that take something away or put other texts
//! in its place: opening, removing, trying a fix, filling in a whole label.

use std::fmt;

use quantity::field::TooMany;
use serde::Serialize;
use serde_json::Value;
use shop::change::Change;
use shop::edit::{self, NoSuchField};
use shop::file::{self, FileError, bad_field};
use shop::part::Part;
use shop::{Candidate, Place, Shop, Task, TaskKind, record, word, words};
use tsify::Tsify;

/// Acts that can be undone, at most; the oldest goes first.
const ACTS_MOST: usize = 20;

/// Where the open shop came from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum Source {
    /// A first visit, or a start from blank.
    #[default]
    Fresh,
    /// The invented example.
    Example,
    /// It was kept, and its entry is gone.
    Loose,
    /// A link.
    Link,
    /// A file.
    File,
    /// It is kept in this browser.
    Stored,
}

/// Where the open shop came from and under what name.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Tsify)]
#[serde(default)]
pub struct Origin {
    /// What it is.
    pub kind: Source,
    /// The name that a stored one is kept under.
    pub name: String,
    /// The link that holds the shop as it was sent; blank where nobody sent it.
    pub sent: String,
}

words!(Source: Fresh Example Loose Link File Stored);
record! { Origin: kind name sent }

/// A list of the shop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum Row {
    /// Machines.
    Candidates,
    /// Places.
    Places,
    /// Tasks.
    Tasks,
}

words!(Row: Candidates Places Tasks);

impl Row {
    fn of(self, index: usize) -> Part {
        match self {
            Self::Candidates => Part::Candidate(index),
            Self::Places => Part::Place(index),
            Self::Tasks => Part::Task(index),
        }
    }

    fn key(self) -> &'static str {
        self.of(0).section().path
    }

    fn len(self, shop: &Shop) -> usize {
        match self {
            Self::Candidates => shop.candidates.len(),
            Self::Places => shop.places.len(),
            Self::Tasks => shop.tasks.len(),
        }
    }
}

/// One text put in the place of another.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
struct Swap {
    field: String,
    before: String,
    after: String,
}

record! { Swap: field before after }

/// What an act changed.
#[derive(Clone, Debug, PartialEq, Serialize)]
enum Way {
    /// Another shop was opened: the file of the one before.
    Opened(String, Origin),
    /// Texts were put into fields.
    Set(Vec<Swap>),
    /// An entry was taken out of a list.
    Removed(Row, usize, Value),
}

/// An act that can be undone.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(super) struct Act {
    /// What was done, as a sentence.
    what: String,
    way: Way,
}

impl Act {
    /// The act in a tree, as it was written.
    ///
    /// # Errors
    /// [`FileError::BadField`].
    pub(super) fn read(tree: &Value) -> Result<Self, FileError> {
        let refused = || bad_field("act", tree);
        let way = tree["way"].as_object().and_then(|way| way.iter().next());
        let (what, (name, parts)) = tree["what"].as_str().zip(way).ok_or_else(refused)?;
        let text = parts[0].as_str();
        let way = match (name.as_str(), text, parts[1].as_u64()) {
            ("Opened", Some(text), _) => Way::Opened(text.into(), record::of(&parts[1], "act")?),
            ("Set", ..) => Way::Set(record::list(parts, "act")?),
            ("Removed", Some(row), Some(index)) => Way::Removed(
                word::named(row).ok_or_else(refused)?,
                usize::try_from(index).map_err(|_| refused())?,
                parts[2].clone(),
            ),
            _ => return Err(refused()),
        };
        Ok(Self {
            what: what.into(),
            way,
        })
    }
}

/// What can be undone next.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Tsify)]
pub struct Undoable {
    /// What was done, as a sentence.
    pub what: String,
    /// The fields that hold other texts since, where it was that.
    pub fields: Vec<String>,
    /// How many acts can be undone.
    pub count: usize,
}

/// Why something was not done. `Display` is the sentence to show.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BenchError {
    /// The shop has no such field.
    NoField(NoSuchField),
    /// The list is full.
    TooMany(TooMany),
    /// The list has no such entry.
    NoEntry,
    /// What an act left to go back to is no shop.
    Unreadable(FileError),
}

impl fmt::Display for BenchError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoField(error) => error.fmt(f),
            Self::TooMany(error) => error.fmt(f),
            Self::NoEntry => f.write_str("the shop has no such entry any more"),
            Self::Unreadable(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for BenchError {}

impl From<NoSuchField> for BenchError {
    fn from(error: NoSuchField) -> Self {
        Self::NoField(error)
    }
}

/// The shop on the bench.
///
/// ```
/// # use bellows::page::bench::{Bench, Origin, Row}; use bellows::shop::Shop;
/// let mut bench = Bench::start(Shop::fresh(), Origin::default());
/// bench.set("candidates.0.flow", "4.2 cfm")?;
/// bench.add(Row::Candidates, None)?;
/// assert_eq!(bench.shop().chosen, 1);
/// bench.remove(Row::Candidates, 0, "The machine was removed.")?;
/// assert_eq!(bench.undo()?.as_deref(), Some("The machine was removed."));
/// assert_eq!(bench.shop().candidates[0].flow, "4.2 cfm");
/// # Ok::<(), bellows::page::bench::BenchError>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bench {
    shop: Shop,
    origin: Origin,
    acts: Vec<Act>,
}

impl Bench {
    /// Opens a shop without a way back: at the start of a visit.
    pub fn start(shop: Shop, origin: Origin) -> Self {
        let acts = Vec::new();
        Self { shop, origin, acts }.with_a_machine()
    }

    /// A shop without a machine gets a blank one: the form always has one to fill.
    fn with_a_machine(mut self) -> Self {
        if self.shop.candidates.is_empty() {
            self.shop.candidates.push(Candidate::default());
        }
        self
    }

    /// The acts that can be undone, the oldest first.
    pub(super) fn acts(&self) -> &[Act] {
        &self.acts
    }

    /// Takes over the acts of an earlier visit.
    pub(super) fn set_acts(&mut self, acts: Vec<Act>) {
        self.acts = acts;
    }

    /// The open shop.
    pub fn shop(&self) -> &Shop {
        &self.shop
    }

    /// Where it came from.
    pub fn origin(&self) -> &Origin {
        &self.origin
    }

    /// It came from elsewhere, or is kept under another name from now on.
    pub fn set_origin(&mut self, origin: Origin) {
        self.origin = origin;
    }

    fn remember(&mut self, what: &str, way: Way) {
        self.acts.push(Act {
            what: what.into(),
            way,
        });
        let over = self.acts.len().saturating_sub(ACTS_MOST);
        self.acts.drain(..over);
    }

    /// Opens another shop; `what` says so, and [`Self::undo`] brings this one back.
    pub fn open(&mut self, shop: Shop, origin: Origin, what: &str) {
        let next = Self::start(shop, origin);
        let before = std::mem::replace(&mut self.shop, next.shop);
        let origin = std::mem::replace(&mut self.origin, next.origin);
        self.remember(what, Way::Opened(file::to_json(&before), origin));
    }

    /// Shows the open shop as it stands elsewhere now: another window changed it, or its units.
    pub fn replace(&mut self, shop: Shop) {
        self.shop = shop;
    }

    /// Puts a text into a field.
    ///
    /// # Errors
    /// [`BenchError::NoField`].
    pub fn set(&mut self, field: &str, text: &str) -> Result<(), BenchError> {
        let change = Change {
            field: field.into(),
            text: text.into(),
        };
        self.shop = edit::with(&self.shop, &[change])?;
        Ok(())
    }

    /// Puts texts into fields as one act.
    ///
    /// # Errors
    /// [`BenchError::NoField`]; nothing is changed then.
    pub fn apply(&mut self, changes: &[Change], what: &str) -> Result<(), BenchError> {
        let next = edit::with(&self.shop, changes)?;
        let swaps = changes.iter().map(|change| Swap {
            field: change.field.clone(),
            before: edit::text_at(&self.shop, &change.field),
            after: change.text.clone(),
        });
        let swaps: Vec<Swap> = swaps.filter(|swap| swap.before != swap.after).collect();
        self.shop = next;
        if !swaps.is_empty() {
            self.remember(what, Way::Set(swaps));
        }
        Ok(())
    }

    /// Adds an entry of which nothing is known yet; a new machine is the chosen one. Returns its index.
    ///
    /// # Errors
    /// [`BenchError::TooMany`] where the list is full.
    pub fn add(&mut self, row: Row, kind: Option<TaskKind>) -> Result<usize, BenchError> {
        let index = row.len(&self.shop);
        if let Some(list) = row.of(0).section().list {
            list.check(index + 1).map_err(BenchError::TooMany)?;
        }
        match row {
            Row::Candidates => {
                self.shop.candidates.push(Candidate::default());
                self.shop.chosen = index;
            }
            Row::Places => self.shop.places.push(Place::default()),
            Row::Tasks => self.shop.tasks.push(Task {
                kind: kind.unwrap_or_default(),
                on: true,
                ..Task::default()
            }),
        }
        Ok(index)
    }

    /// Takes an entry out; `what` says so.
    ///
    /// # Errors
    /// [`BenchError::NoEntry`].
    pub fn remove(&mut self, row: Row, index: usize, what: &str) -> Result<(), BenchError> {
        let pointer = format!("/{}/{index}", row.key());
        let part = edit::tree_of(&self.shop)
            .pointer(&pointer)
            .cloned()
            .ok_or(BenchError::NoEntry)?;
        match row {
            Row::Candidates => drop(self.shop.candidates.remove(index)),
            Row::Places => drop(self.shop.places.remove(index)),
            Row::Tasks => drop(self.shop.tasks.remove(index)),
        }
        let last = self.shop.candidates.len().saturating_sub(1);
        if row == Row::Candidates && self.shop.chosen > index {
            self.shop.chosen -= 1;
        }
        self.shop.chosen = self.shop.chosen.min(last);
        self.remember(what, Way::Removed(row, index, part));
        if self.shop.candidates.is_empty() {
            self.shop.candidates.push(Candidate::default());
        }
        Ok(())
    }

    /// The machine that the answer is about.
    pub fn choose(&mut self, index: usize) {
        self.shop.chosen = index.min(self.shop.candidates.len().saturating_sub(1));
    }

    /// What would be undone next.
    pub fn undoable(&self) -> Option<Undoable> {
        let act = self.acts.last()?;
        let fields = match &act.way {
            Way::Set(swaps) => swaps.iter().map(|swap| swap.field.clone()).collect(),
            _ => Vec::new(),
        };
        Some(Undoable {
            what: act.what.clone(),
            fields,
            count: self.acts.len(),
        })
    }

    /// Undoes the last act and says what it was. A field that was typed in since keeps what was typed.
    ///
    /// # Errors
    /// [`BenchError`] where what it left has no place in this shop or is none; the shop then stays as it is.
    pub fn undo(&mut self) -> Result<Option<String>, BenchError> {
        let Some(act) = self.acts.pop() else {
            return Ok(None);
        };
        match act.way {
            Way::Opened(text, origin) => {
                let shop = file::from_json(&text).map_err(BenchError::Unreadable)?;
                (self.shop, self.origin) = (shop, origin);
            }
            Way::Set(swaps) => self.swap_back(&swaps)?,
            Way::Removed(row, index, part) => self.put_back(row, index, part)?,
        }
        Ok(Some(act.what))
    }

    fn swap_back(&mut self, swaps: &[Swap]) -> Result<(), NoSuchField> {
        let untouched = swaps
            .iter()
            .filter(|swap| edit::text_at(&self.shop, &swap.field) == swap.after);
        let changes = untouched.map(|swap| Change {
            field: swap.field.clone(),
            text: swap.before.clone(),
        });
        self.shop = edit::with(&self.shop, &changes.collect::<Vec<_>>())?;
        Ok(())
    }

    fn put_back(&mut self, row: Row, index: usize, part: Value) -> Result<(), NoSuchField> {
        let lone_blank = row == Row::Candidates && self.shop.candidates == [Candidate::default()];
        let index = index.min(row.len(&self.shop));
        self.shop = edit::with_entry(&self.shop, row.key(), index, part)?;
        if row == Row::Candidates {
            if lone_blank {
                self.shop.candidates.truncate(1);
            }
            self.shop.chosen = index.min(self.shop.candidates.len().saturating_sub(1));
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn change(field: &str, text: &str) -> Change {
        Change {
            field: field.into(),
            text: text.into(),
        }
    }

    #[test]
    fn a_fix_goes_back_and_leaves_alone_what_was_typed_since() {
        let mut bench = Bench::start(Shop::fresh(), Origin::default());
        let fix = [
            change("places.0.cord_gauge", "12 AWG"),
            change("places.0.cord_length", "25 ft"),
        ];
        bench.apply(&fix, "A 25 ft cord was tried.").unwrap();
        assert_eq!(bench.undoable().unwrap().fields.len(), 2);
        bench.set("places.0.cord_length", "30 ft").unwrap();
        assert_eq!(bench.undo().unwrap().as_deref(), Some("A 25 ft cord was tried."));
        let place = &bench.shop().places[0];
        assert_eq!((&*place.cord_gauge, &*place.cord_length), ("", "30 ft"));
        assert_eq!(bench.undo(), Ok(None));
    }

    #[test]
    fn opening_another_shop_goes_back_with_all_that_was_typed() {
        let mut bench = Bench::start(Shop::fresh(), Origin::default());
        bench.set("candidates.0.flow", "4 cfm").unwrap();
        let kept = Origin {
            kind: Source::Stored,
            name: "Barn".into(),
            ..Origin::default()
        };
        bench.open(Shop::demo(), kept.clone(), "Barn was opened.");
        assert_eq!(bench.origin(), &kept);
        bench.undo().unwrap();
        assert_eq!(
            (bench.shop().candidates[0].flow.as_str(), bench.origin().kind),
            ("4 cfm", Source::Fresh)
        );
    }

    #[test]
    fn the_last_machine_that_is_removed_leaves_a_blank_one_and_comes_back_alone() {
        let mut bench = Bench::start(Shop::fresh(), Origin::default());
        bench.set("candidates.0.tank", "20 gal").unwrap();
        bench.remove(Row::Candidates, 0, "Removed.").unwrap();
        assert_eq!(bench.shop().candidates, [Candidate::default()]);
        bench.undo().unwrap();
        assert_eq!(bench.shop().candidates.len(), 1);
        assert_eq!(bench.shop().candidates[0].tank, "20 gal");
    }

    #[test]
    fn a_full_list_says_so_where_the_thing_is_added() {
        let mut bench = Bench::start(Shop::fresh(), Origin::default());
        let most = Part::Place(0).section().list.unwrap().most;
        while bench.shop().places.len() < most {
            bench.add(Row::Places, None).unwrap();
        }
        let refused = bench.add(Row::Places, None).unwrap_err().to_string();
        assert!(refused.contains("12 is the most"), "{refused}");
    }

    #[test]
    fn no_more_acts_are_kept_than_stated() {
        let mut bench = Bench::start(Shop::fresh(), Origin::default());
        for litres in 0..50 {
            bench
                .apply(&[change("auxiliary.tank", &format!("{litres} L"))], "Tried.")
                .unwrap();
        }
        assert_eq!(bench.undoable().unwrap().count, ACTS_MOST);
    }
}
