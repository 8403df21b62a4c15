//! Taking shops from a file into what is kept: what to do where names clash, what happened, and the way back.

use super::store::{self, Shelf, StoreError};
use serde::Serialize;
use shop::Shop;
use shop::{file, record, words};
use tsify::Tsify;

/// Most names that a sentence lists.
const NAMED: usize = 5;

/// What to do with a shop whose name is kept already.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum OnClash {
    /// Keep it under a name of its own.
    #[default]
    Both,
    /// Put it in the place of the one that is kept.
    Replace,
    /// Leave it out.
    Leave,
}

/// What was written for one shop, for the way back.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Tsify)]
pub struct Step {
    /// The name it is kept under.
    pub name: String,
    /// The text that was written.
    pub wrote: String,
    /// What stood there before.
    pub before: Option<String>,
}

words!(OnClash: Both Replace Leave);
record! { Step: name wrote before }

/// What came of it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Tsify)]
pub struct Taken {
    /// The sentence to show.
    pub sentence: String,
    /// What was written, in order.
    pub steps: Vec<Step>,
    /// Indices of the shops that storage would not take.
    pub refused: Vec<usize>,
}

/// Indices of the shops whose name is kept already for another shop; one that is kept just so is no clash.
pub fn clashes(shelf: &dyn Shelf, shops: &[Shop]) -> Vec<usize> {
    let clashing = |shop: &Shop| matches!(standing(shelf, &named(shop)), Standing::Other);
    (0..shops.len()).filter(|&at| clashing(&shops[at])).collect()
}

/// What is kept under a shop's name.
enum Standing {
    Nothing,
    Same,
    Other,
}

fn standing(shelf: &dyn Shelf, shop: &Shop) -> Standing {
    match store::text_of(shelf, &shop.name) {
        // Storage that refuses to be read refuses the writing that follows, which is told.
        Err(_) => Standing::Nothing,
        Ok(_) if store::fetch(shelf, &shop.name).as_ref() == Ok(shop) => Standing::Same,
        Ok(_) => Standing::Other,
    }
}

/// A shop under a name that can be kept.
fn named(shop: &Shop) -> Shop {
    Shop {
        name: store::fitting(&shop.name),
        ..shop.clone()
    }
}

/// Names by what became of them.
#[derive(Default)]
struct Tally {
    kept: Vec<String>,
    replaced: Vec<String>,
    same: Vec<String>,
    left: Vec<String>,
    refused: Vec<String>,
}

/// Keeps `shops`; where names clash, the choice for that index decides, or both are kept if there is none. Goes on
/// where storage refuses one, as a smaller one may still fit. Two of one name in a file are both kept.
pub fn take_in(shelf: &dyn Shelf, shops: &[Shop], choices: &[(usize, OnClash)]) -> Taken {
    let mut taken = Taken::default();
    let mut tally = Tally::default();
    for (at, shop) in shops.iter().enumerate() {
        let shop = named(shop);
        let written = taken.steps.iter().any(|step| step.name == shop.name);
        let choice = choices.iter().find(|(index, _)| *index == at);
        let choice = choice.map_or(OnClash::Both, |&(_, choice)| choice);
        let (list, wanted) = match (standing(shelf, &shop), choice) {
            (Standing::Same, _) => {
                tally.same.push(shop.name);
                continue;
            }
            (Standing::Other, OnClash::Leave) if !written => {
                tally.left.push(shop.name);
                continue;
            }
            (Standing::Other, OnClash::Replace) if !written => (&mut tally.replaced, Ok(shop.clone())),
            (Standing::Nothing, _) => (&mut tally.kept, Ok(shop.clone())),
            (Standing::Other, _) => (&mut tally.kept, apart(shelf, &shop)),
        };
        match wanted.and_then(|shop| write(shelf, &shop)) {
            Ok(step) => {
                list.push(step.name.clone());
                taken.steps.push(step);
            }
            Err(_) => {
                tally.refused.push(shop.name);
                taken.refused.push(at);
            }
        }
    }
    taken.sentence = tally.sentence();
    taken
}

fn apart(shelf: &dyn Shelf, shop: &Shop) -> Result<Shop, StoreError> {
    let name = store::free_name(shelf, &shop.name)?;
    Ok(Shop { name, ..shop.clone() })
}

fn write(shelf: &dyn Shelf, shop: &Shop) -> Result<Step, StoreError> {
    let before = match store::text_of(shelf, &shop.name) {
        Ok(text) => Some(text),
        Err(StoreError::Missing { .. }) => None,
        Err(refused) => return Err(refused),
    };
    store::keep(shelf, shop)?;
    Ok(Step {
        name: shop.name.clone(),
        wrote: file::to_json(shop),
        before,
    })
}

impl Tally {
    fn sentence(&self) -> String {
        let parts = [
            ("Kept", &self.kept, ""),
            ("Replaced", &self.replaced, ""),
            ("Kept already, just so,", &self.same, ""),
            ("Left out", &self.left, ""),
            (
                "Not kept, as storage is full or switched off,",
                &self.refused,
                " Delete what you no longer need and open the file again.",
            ),
        ];
        let told = parts.iter().filter(|(_, names, _)| !names.is_empty());
        let told = told.map(|(what, names, more)| format!("{what} {}.{more}", listed(names)));
        told.collect::<Vec<_>>().join(" ")
    }
}

/// "7 shops: “A”, “B” and 5 more". Names may run from right to left: each is set apart from the sentence round it.
fn listed(names: &[String]) -> String {
    let quoted = names
        .iter()
        .take(NAMED)
        .map(|name| format!("\u{2068}“{name}”\u{2069}"));
    let quoted = quoted.collect::<Vec<_>>().join(", ");
    match names.len() {
        1 => quoted,
        count if count > NAMED => format!("{count} shops: {quoted} and {} more", count - NAMED),
        count => format!("{count} shops: {quoted}"),
    }
}

/// Takes `steps` back, the last first, but for what was changed since. Returns the sentence to show.
pub fn take_back(shelf: &dyn Shelf, steps: &[Step]) -> String {
    let failed = steps.iter().rev().filter(|step| !undo(shelf, step));
    let failed: Vec<_> = failed.map(|step| step.name.clone()).collect();
    if failed.is_empty() {
        "What is kept is again as it was before the file was opened.".into()
    } else {
        format!(
            "Changed since, or refused by the browser, and left as it is now: {}.",
            listed(&failed)
        )
    }
}

fn undo(shelf: &dyn Shelf, step: &Step) -> bool {
    if store::text_of(shelf, &step.name).as_ref() != Ok(&step.wrote) {
        return false;
    }
    match &step.before {
        Some(text) => store::restore(shelf, &step.name, text).is_ok(),
        None => store::remove(shelf, &step.name).is_ok(),
    }
}
