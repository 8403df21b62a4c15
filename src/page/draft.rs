//! The draft: what is on the bench, kept at once with every key, and the acts that can be undone, kept over a reload.

use serde::Serialize;
use shop::{file, record};

use super::bench::{Act, Bench, Origin};
use super::store::{self, Refused, Shelf};

/// Holds the open shop and where it came from.
const DRAFT: &str = "bellows.draft";
/// Holds the acts that can be undone.
const ACTS: &str = "bellows.acts";
/// A draft that could not be read goes here when another is kept: it is nobody's to throw away.
const ASIDE: &str = "bellows.aside.Draft";
/// Acts that a reload brings back, the last ones.
const ACTS_KEPT: usize = 5;

/// A draft as it is written.
#[derive(Default, Serialize)]
struct Written {
    /// The window that wrote it.
    window: String,
    origin: Origin,
    /// The shop's file.
    shop: String,
}

record! { Written: window origin shop }

/// A draft as it is found.
#[derive(Debug, PartialEq)]
pub enum Found {
    /// None was kept, or storage tells nothing.
    Nothing,
    /// The bench as it was left, the window that left it, and what of it could not be read; blank where all could.
    Bench(Box<Bench>, String, String),
    /// It cannot be read: the sentence to show.
    Unreadable(String),
}

/// Keeps what is open.
///
/// # Errors
/// [`Refused`] if storage is full or switched off.
pub fn keep(shelf: &dyn Shelf, bench: &Bench, window: &str) -> Result<(), Refused> {
    let written = Written {
        window: window.into(),
        origin: bench.origin().clone(),
        shop: file::to_json(bench.shop()),
    };
    shelf.set(DRAFT, &serde_json::to_string(&written).map_err(|_| Refused)?)
}

/// Keeps the last acts that can be undone.
///
/// # Errors
/// [`Refused`] if storage is full or switched off.
pub fn keep_acts(shelf: &dyn Shelf, bench: &Bench) -> Result<(), Refused> {
    let acts = bench.acts();
    let last = &acts[acts.len().saturating_sub(ACTS_KEPT)..];
    shelf.set(ACTS, &serde_json::to_string(last).map_err(|_| Refused)?)
}

/// What an earlier visit left. What cannot be read is set aside, so that the next key does not write over it.
pub fn find(shelf: &dyn Shelf) -> Found {
    let Some(text) = store::at_hand(shelf, DRAFT) else {
        return Found::Nothing;
    };
    match read(&text) {
        Ok((mut bench, window)) => {
            let message = match acts(shelf) {
                Ok(acts) => {
                    bench.set_acts(acts);
                    String::new()
                }
                Err(why) => format!("What could be undone could not be read: {why}"),
            };
            Found::Bench(Box::new(bench), window, message)
        }
        Err(why) => Found::Unreadable(match shelf.set(ASIDE, &text) {
            Ok(()) => format!("The draft could not be read and was set aside: {why}"),
            Err(Refused) => format!("The draft could not be read, nor set aside: {why}"),
        }),
    }
}

fn read(text: &str) -> Result<(Bench, String), String> {
    let tree = file::parsed(text).map_err(|error| error.to_string())?;
    let written: Written = record::of(&tree, "draft").map_err(|error| error.to_string())?;
    let shop = file::from_json(&written.shop).map_err(|error| error.to_string())?;
    Ok((Bench::start(shop, written.origin), written.window))
}

/// The acts that can still be undone: without them a visit goes on all the same.
fn acts(shelf: &dyn Shelf) -> Result<Vec<Act>, String> {
    let Some(text) = store::at_hand(shelf, ACTS) else {
        return Ok(Vec::new());
    };
    let tree = file::parsed(&text).map_err(|error| error.to_string())?;
    let acts = tree.as_array().into_iter().flatten().map(Act::read);
    acts.collect::<Result<_, _>>().map_err(|error| error.to_string())
}

/// Forgets the draft and its acts.
///
/// # Errors
/// [`Refused`] if storage is switched off.
pub fn forget(shelf: &dyn Shelf) -> Result<(), Refused> {
    shelf.clear(DRAFT)?;
    shelf.clear(ACTS)
}

#[cfg(test)]
mod tests {
    use super::super::bench::{Row, Source};
    use super::super::store::tests::Drawer;
    use super::*;
    use shop::Shop;

    #[test]
    fn what_is_typed_and_taken_away_comes_back_after_a_reload() {
        let drawer = Drawer::default();
        let mut bench = Bench::start(Shop::demo(), Origin::default());
        bench.set("candidates.0.flow", "4.").unwrap();
        bench
            .remove(Row::Candidates, 2, "The machine was removed.")
            .unwrap();
        keep(&drawer, &bench, "w1").unwrap();
        keep_acts(&drawer, &bench).unwrap();
        let Found::Bench(mut back, window, message) = find(&drawer) else {
            panic!("no draft");
        };
        assert_eq!((*back.clone(), &*window, &*message), (bench, "w1", ""));
        back.undo().unwrap();
        assert_eq!(back.shop().candidates.len(), 3);
        assert_eq!(back.shop().candidates[0].flow, "4.");
    }

    #[test]
    fn a_damaged_draft_is_set_aside_and_said() {
        let drawer = Drawer::default();
        assert_eq!(find(&drawer), Found::Nothing);
        drawer.set(DRAFT, "{cut").unwrap();
        assert!(matches!(find(&drawer), Found::Unreadable(why) if why.contains("was set aside")));
        assert_eq!(drawer.get(ASIDE), Ok(Some("{cut".into())));
        let bench = Bench::start(
            Shop::fresh(),
            Origin {
                kind: Source::Link,
                ..Origin::default()
            },
        );
        keep(&drawer, &bench, "").unwrap();
        drawer.set(ACTS, "{cut").unwrap();
        let Found::Bench(back, _, message) = find(&drawer) else {
            panic!("no draft");
        };
        assert!(message.starts_with("What could be undone"), "{message}");
        assert_eq!((back.origin().kind, back.undoable()), (Source::Link, None));
    }

    #[test]
    fn only_the_last_acts_are_written() {
        let drawer = Drawer::default();
        let mut bench = Bench::start(Shop::fresh(), Origin::default());
        for _ in 0..9 {
            bench.open(Shop::demo(), Origin::default(), "Opened.");
        }
        keep(&drawer, &bench, "").unwrap();
        keep_acts(&drawer, &bench).unwrap();
        let Found::Bench(back, ..) = find(&drawer) else {
            panic!("no draft");
        };
        assert_eq!(back.undoable().unwrap().count, ACTS_KEPT);
    }
}
