//! Shop profiles in the browser's storage: one key each, read back as if a stranger had written them.
//!
//! Storage may be full, switched off, damaged or filled by a newer build. What cannot be read is never deleted or
//! written over: it stays under its key, and is moved aside only when its name is wanted for another shop.

use std::fmt;

use serde::Serialize;
use shop::file::{self, FileError};
use shop::{Shop, Units, word};
use tsify::Tsify;

/// A profile's key is this and its name.
const PROFILE: &str = "bellows.shop.";
/// Where text goes that cannot be read but whose name is wanted.
const ASIDE: &str = "bellows.aside.";
/// Holds the name of the profile that was last open.
const CURRENT: &str = "bellows.current";
/// Holds the unit system that the reader chose.
const UNITS: &str = "bellows.units";
/// Written to learn whether storage takes anything. The text never changes: other tabs hear of changes only.
const PROBE: &str = "bellows.probe";
/// Most characters in a profile's name.
const NAME_MAX: usize = 80;
/// What a shop without a name is kept under.
const UNNAMED: &str = "My shop";

/// The browser would not read or write.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Refused;

/// Texts under keys: local storage, or what stands in for it in a test.
pub trait Shelf {
    /// The text under `key`.
    ///
    /// # Errors
    /// [`Refused`] if storage cannot be read.
    fn get(&self, key: &str) -> Result<Option<String>, Refused>;
    /// Puts `text` under `key`.
    ///
    /// # Errors
    /// [`Refused`] if storage is full or switched off.
    fn set(&self, key: &str, text: &str) -> Result<(), Refused>;
    /// Takes away what is under `key`.
    ///
    /// # Errors
    /// [`Refused`] if storage is switched off.
    fn clear(&self, key: &str) -> Result<(), Refused>;
    /// All keys.
    ///
    /// # Errors
    /// [`Refused`] if storage cannot be read.
    fn keys(&self) -> Result<Vec<String>, Refused>;
}

/// Why a profile could not be kept or fetched. `Display` is the sentence to show.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StoreError {
    /// The browser would not read or write.
    Refused,
    /// No profile has that name.
    Missing {
        /// The name.
        name: String,
    },
    /// Another profile has that name.
    Taken {
        /// The name.
        name: String,
    },
    /// The name is blank or too long.
    BadName {
        /// Its length, characters.
        length: usize,
    },
    /// What is kept under that name cannot be read.
    Unreadable {
        /// The name.
        name: String,
        /// Why.
        why: FileError,
    },
}

impl fmt::Display for StoreError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Refused => f.write_str(
                "this browser keeps nothing for this page (storage is full, or switched off as in a private window): save the shop to a file, or copy its link",
            ),
            Self::Missing { name } => write!(f, "no shop named \"{name}\" is kept here any more: choose one from the list"),
            Self::Taken { name } => write!(f, "a shop named \"{name}\" is kept here already: choose another name"),
            Self::BadName { length: 0 } => f.write_str("the name is blank: give the shop a name"),
            Self::BadName { length } => write!(f, "the name has {length} characters: shorten it to {NAME_MAX}"),
            Self::Unreadable { name, why } => {
                write!(f, "what is kept as \"{name}\" cannot be read and is left as it is: {why}")
            }
        }
    }
}

impl std::error::Error for StoreError {}

impl From<Refused> for StoreError {
    fn from(_: Refused) -> Self {
        Self::Refused
    }
}

/// One profile in the list.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Tsify)]
pub struct Entry {
    /// Its name.
    pub name: String,
    /// Its key, for [`raw`].
    pub key: String,
    /// It cannot be read by this build.
    pub damaged: bool,
    /// Why not.
    pub message: String,
}

/// What is kept, and whether anything can be.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Tsify)]
pub struct Stored {
    /// Storage takes what it is given.
    pub working: bool,
    /// Why not.
    pub message: String,
    /// The profiles, by name; then what was moved aside.
    pub shops: Vec<Entry>,
    /// The name of the one that was last open.
    pub current: Option<String>,
}

/// What is kept. Never fails: a browser that refuses is an answer.
pub fn stored(shelf: &dyn Shelf) -> Stored {
    let working = shelf.set(PROBE, "1");
    let found = entries(shelf).and_then(|shops| Ok((shops, shelf.get(CURRENT)?)));
    let (shops, current, whole) = match found {
        Ok((shops, current)) => (shops, current, working),
        Err(refused) => (Vec::new(), None, Err(refused)),
    };
    Stored {
        working: whole.is_ok(),
        message: match whole {
            Ok(()) => String::new(),
            Err(refused) => StoreError::from(refused).to_string(),
        },
        shops,
        current,
    }
}

fn entries(shelf: &dyn Shelf) -> Result<Vec<Entry>, Refused> {
    let mut keys = shelf.keys()?;
    let rank = |key: &String| (key.starts_with(ASIDE), key.to_ascii_lowercase());
    keys.sort_by_cached_key(rank);
    let found = keys.iter().filter_map(|key| entry(shelf, key).transpose());
    found.collect()
}

fn entry(shelf: &dyn Shelf, key: &str) -> Result<Option<Entry>, Refused> {
    let Some(text) = shelf.get(key)? else {
        return Ok(None);
    };
    let of = |name: &str, message: String| Entry {
        name: name.into(),
        key: key.into(),
        damaged: !message.is_empty(),
        message,
    };
    if let Some(name) = key.strip_prefix(ASIDE) {
        return Ok(Some(of(name, "was moved aside, as it could not be read".into())));
    }
    Ok(key
        .strip_prefix(PROFILE)
        .map(|name| match file::from_json(&text) {
            Ok(_) => of(name, String::new()),
            Err(why) => of(name, why.to_string()),
        }))
}

/// The text under `key`, for what a visit can do without.
#[expect(
    clippy::disallowed_methods,
    reason = "that this browser keeps nothing for the page, `stored` tells at each visit"
)]
pub(super) fn at_hand(shelf: &dyn Shelf, key: &str) -> Option<String> {
    shelf.get(key).unwrap_or_default()
}

/// The profile `name`.
///
/// # Errors
/// [`StoreError`] if there is none, or it cannot be read.
pub fn fetch(shelf: &dyn Shelf, name: &str) -> Result<Shop, StoreError> {
    let shop = parse(name, &text_of(shelf, name)?)?;
    Ok(Shop {
        name: name.into(),
        ..shop
    })
}

fn parse(name: &str, text: &str) -> Result<Shop, StoreError> {
    file::from_json(text).map_err(|why| StoreError::Unreadable {
        name: name.into(),
        why,
    })
}

/// The text that is kept as `name`.
pub(crate) fn text_of(shelf: &dyn Shelf, name: &str) -> Result<String, StoreError> {
    shelf
        .get(&key(name))?
        .ok_or_else(|| StoreError::Missing { name: name.into() })
}

fn key(name: &str) -> String {
    format!("{PROFILE}{name}")
}

/// A name as it is kept: trimmed, neither blank nor too long.
fn checked(name: &str) -> Result<&str, StoreError> {
    let name = name.trim();
    let length = name.chars().count();
    if (1..=NAME_MAX).contains(&length) {
        Ok(name)
    } else {
        Err(StoreError::BadName { length })
    }
}

/// The nearest to `name` that can be kept.
pub(crate) fn fitting(name: &str) -> String {
    let name: String = name.trim().chars().take(NAME_MAX).collect();
    match name.trim_end() {
        "" => UNNAMED.into(),
        name => name.into(),
    }
}

/// All profiles that can be read, and how many cannot.
pub fn all(shelf: &dyn Shelf) -> (Vec<Shop>, usize) {
    let (mut whole, mut unread) = (Vec::new(), 0);
    for entry in stored(shelf).shops {
        match fetch(shelf, &entry.name) {
            Ok(shop) if !entry.damaged => whole.push(shop),
            Ok(_) | Err(_) => unread += 1,
        }
    }
    (whole, unread)
}

/// Keeps `shop` under its name, in the place of what was kept there; what cannot be read is moved aside first.
///
/// # Errors
/// [`StoreError`] if the name will not do or storage refuses; what was kept is then still there.
pub fn keep(shelf: &dyn Shelf, shop: &Shop) -> Result<(), StoreError> {
    let name = checked(&shop.name)?;
    if let Some(text) = shelf
        .get(&key(name))?
        .filter(|text| file::from_json(text).is_err())
    {
        shelf.set(&free_key(shelf, ASIDE, name)?, &text)?;
    }
    Ok(shelf.set(&key(name), &file::to_json(shop))?)
}

/// `name`, or the first of "name (2)", "name (3)", ... that no profile has.
///
/// # Errors
/// [`StoreError::Refused`] if storage cannot be read.
pub fn free_name(shelf: &dyn Shelf, name: &str) -> Result<String, StoreError> {
    let name: String = name.trim().chars().take(NAME_MAX - 6).collect();
    let name = if name.is_empty() { UNNAMED } else { name.trim_end() };
    Ok(free_key(shelf, PROFILE, name)?.split_off(PROFILE.len()))
}

fn free_key(shelf: &dyn Shelf, prefix: &str, name: &str) -> Result<String, StoreError> {
    let keys = shelf.keys()?;
    let wanted = format!("{prefix}{name}");
    let numbered = (2..=keys.len() + 2).map(|number| format!("{wanted} ({number})"));
    let free = std::iter::once(wanted.clone())
        .chain(numbered)
        .find(|key| !keys.contains(key));
    free.ok_or(StoreError::Taken { name: name.into() })
}

/// Takes the profile `name` away and returns its text, for [`put_back`].
///
/// # Errors
/// [`StoreError`] if there is none, or storage refuses.
pub fn remove(shelf: &dyn Shelf, name: &str) -> Result<String, StoreError> {
    let text = text_of(shelf, name)?;
    shelf.clear(&key(name))?;
    Ok(text)
}

/// Takes away all that this page keeps: shops, what was set aside, what was chosen.
///
/// # Errors
/// [`Refused`] if storage is switched off.
pub fn erase(shelf: &dyn Shelf) -> Result<(), Refused> {
    let keys = shelf.keys()?;
    let own = [PROFILE, ASIDE, CURRENT, UNITS];
    keys.iter()
        .filter(|key| own.iter().any(|own| key.starts_with(own)))
        .try_for_each(|key| shelf.clear(key))
}

/// Puts back what [`remove`] took away.
///
/// # Errors
/// [`StoreError`] if the name was given away meanwhile, or storage refuses.
pub fn put_back(shelf: &dyn Shelf, name: &str, text: &str) -> Result<(), StoreError> {
    if shelf.get(&key(name))?.is_some() {
        return Err(StoreError::Taken { name: name.into() });
    }
    Ok(shelf.set(&key(name), text)?)
}

/// Puts `text` in the place of what is kept as `name`, in one step, so that a refusal loses neither.
pub(crate) fn restore(shelf: &dyn Shelf, name: &str, text: &str) -> Result<(), StoreError> {
    Ok(shelf.set(&key(name), text)?)
}

/// Gives the profile `old` the name `new`. The new one is written before the old one goes.
///
/// # Errors
/// [`StoreError`] if `new` will not do or is taken, if `old` cannot be read, or storage refuses.
pub fn rename(shelf: &dyn Shelf, old: &str, new: &str) -> Result<(), StoreError> {
    let new = checked(new)?;
    if old == new {
        return Ok(());
    }
    let shop = Shop {
        name: new.into(),
        ..fetch(shelf, old)?
    };
    put_back(shelf, new, &file::to_json(&shop))?;
    if shelf.get(CURRENT)?.as_deref() == Some(old) {
        make_current(shelf, new)?;
    }
    Ok(shelf.clear(&key(old))?)
}

/// Keeps a second profile like `name` and returns its name.
///
/// # Errors
/// [`StoreError`] if there is none, it cannot be read, or storage refuses.
pub fn duplicate(shelf: &dyn Shelf, name: &str) -> Result<String, StoreError> {
    let shop = fetch(shelf, name)?;
    let copy = free_name(shelf, name)?;
    keep(
        shelf,
        &Shop {
            name: copy.clone(),
            ..shop
        },
    )?;
    Ok(copy)
}

/// The text under an [`Entry`]'s key, as it is.
///
/// # Errors
/// [`StoreError`] if there is none, or storage refuses.
pub fn raw(shelf: &dyn Shelf, key: &str) -> Result<String, StoreError> {
    let ours = key.starts_with(PROFILE) || key.starts_with(ASIDE);
    let text = if ours { shelf.get(key)? } else { None };
    text.ok_or_else(|| StoreError::Missing { name: key.into() })
}

/// Remembers which profile was open last.
///
/// # Errors
/// [`StoreError::Refused`] if storage refuses.
pub fn make_current(shelf: &dyn Shelf, name: &str) -> Result<(), StoreError> {
    Ok(shelf.set(CURRENT, name)?)
}

/// The unit system that the reader chose; none before he has.
pub fn chosen_units(shelf: &dyn Shelf) -> Option<Units> {
    word::named(&at_hand(shelf, UNITS)?)
}

/// Remembers the unit system that the reader chose.
///
/// # Errors
/// [`StoreError::Refused`] if storage refuses.
pub fn choose_units(shelf: &dyn Shelf, units: Units) -> Result<(), StoreError> {
    Ok(shelf.set(UNITS, &word::of(units))?)
}

/// The unit system of a first visit, from the browser's language ("en-US", "de"). Labels in English print cfm and
/// psi, whatever else; others print L/min and bar (common practice, no source).
pub fn usual_units(language: &str) -> Units {
    // "C" and "POSIX" are what a system says whose language nobody chose.
    let tongue = language.split('-').next().unwrap_or("");
    let english = ["", "en", "c", "posix"]
        .iter()
        .any(|known| tongue.eq_ignore_ascii_case(known));
    if english { Units::Us } else { Units::Metric }
}

#[cfg(test)]
pub(super) mod tests {
    use std::cell::{Cell, RefCell};
    use std::collections::BTreeMap;

    use super::*;

    /// Storage that can be full.
    #[derive(Default)]
    pub struct Drawer {
        texts: RefCell<BTreeMap<String, String>>,
        full: Cell<bool>,
    }

    impl Shelf for Drawer {
        fn get(&self, key: &str) -> Result<Option<String>, Refused> {
            Ok(self.texts.borrow().get(key).cloned())
        }
        fn set(&self, key: &str, text: &str) -> Result<(), Refused> {
            if self.full.get() {
                return Err(Refused);
            }
            self.texts.borrow_mut().insert(key.into(), text.into());
            Ok(())
        }
        fn clear(&self, key: &str) -> Result<(), Refused> {
            self.texts.borrow_mut().remove(key);
            Ok(())
        }
        fn keys(&self) -> Result<Vec<String>, Refused> {
            Ok(self.texts.borrow().keys().cloned().collect())
        }
    }

    fn shop(name: &str) -> Shop {
        let mut shop = Shop {
            version: shop::SCHEMA,
            name: name.into(),
            ..Shop::default()
        };
        shop.limits.budget = "$900".into();
        shop
    }

    fn with(names: &[&str]) -> Drawer {
        let drawer = Drawer::default();
        names.iter().for_each(|name| keep(&drawer, &shop(name)).unwrap());
        drawer
    }

    #[test]
    fn a_kept_shop_comes_back_as_it_was() {
        let drawer = with(&["Barn"]);
        assert_eq!(fetch(&drawer, "Barn"), Ok(shop("Barn")));
        assert_eq!(
            fetch(&drawer, "Shed"),
            Err(StoreError::Missing { name: "Shed".into() })
        );
    }

    #[test]
    fn what_cannot_be_read_is_listed_and_survives_a_shop_of_its_name() {
        let drawer = Drawer::default();
        let newer = r#"{ "version": 99, "name": "Barn", "airship": true }"#;
        drawer.set("bellows.shop.Barn", newer).unwrap();
        assert!(matches!(
            fetch(&drawer, "Barn"),
            Err(StoreError::Unreadable { .. })
        ));
        let list = stored(&drawer).shops;
        assert!(list[0].damaged && list[0].message.contains("newer"), "{list:?}");
        keep(&drawer, &shop("Barn")).unwrap();
        assert_eq!(fetch(&drawer, "Barn"), Ok(shop("Barn")));
        let aside = stored(&drawer)
            .shops
            .into_iter()
            .find(|entry| entry.damaged)
            .unwrap();
        assert_eq!(raw(&drawer, &aside.key), Ok(newer.into()));
    }

    #[test]
    fn two_damaged_shops_of_one_name_are_both_set_aside() {
        let drawer = Drawer::default();
        for text in ["{cut", "[off"] {
            drawer.set("bellows.shop.Barn", text).unwrap();
            keep(&drawer, &shop("Barn")).unwrap();
        }
        let texts = drawer.texts.borrow();
        assert_eq!(
            (&*texts["bellows.aside.Barn"], &*texts["bellows.aside.Barn (2)"]),
            ("{cut", "[off")
        );
    }

    #[test]
    fn full_storage_refuses_and_loses_nothing() {
        let drawer = with(&["Barn"]);
        drawer.full.set(true);
        let changed = Shop {
            name: "Barn".into(),
            ..Shop::default()
        };
        assert_eq!(keep(&drawer, &changed), Err(StoreError::Refused));
        assert_eq!(rename(&drawer, "Barn", "Shed"), Err(StoreError::Refused));
        assert_eq!(fetch(&drawer, "Barn"), Ok(shop("Barn")));
        let stored = stored(&drawer);
        assert!(!stored.working && stored.message.contains("save the shop to a file"));
    }

    #[test]
    fn a_rename_takes_the_open_shop_along_and_never_another_s_name() {
        let drawer = with(&["Barn", "Shed"]);
        make_current(&drawer, "Barn").unwrap();
        assert_eq!(
            rename(&drawer, "Barn", "Shed"),
            Err(StoreError::Taken { name: "Shed".into() })
        );
        assert_eq!(
            rename(&drawer, "Barn", "  "),
            Err(StoreError::BadName { length: 0 })
        );
        rename(&drawer, "Barn", " Loft ").unwrap();
        assert_eq!(fetch(&drawer, "Loft").unwrap().name, "Loft");
        assert_eq!(stored(&drawer).current.as_deref(), Some("Loft"));
        assert!(fetch(&drawer, "Barn").is_err());
    }

    #[test]
    fn a_removed_shop_can_be_put_back_unless_its_name_is_taken() {
        let drawer = with(&["Barn"]);
        let text = remove(&drawer, "Barn").unwrap();
        assert!(stored(&drawer).shops.is_empty());
        put_back(&drawer, "Barn", &text).unwrap();
        assert_eq!(fetch(&drawer, "Barn"), Ok(shop("Barn")));
        assert_eq!(
            put_back(&drawer, "Barn", &text),
            Err(StoreError::Taken { name: "Barn".into() })
        );
    }

    #[test]
    fn copies_get_names_of_their_own() {
        let drawer = with(&["Barn"]);
        assert_eq!(duplicate(&drawer, "Barn").as_deref(), Ok("Barn (2)"));
        assert_eq!(duplicate(&drawer, "Barn").as_deref(), Ok("Barn (3)"));
        assert_eq!(free_name(&drawer, " ").as_deref(), Ok("My shop"));
        let long = free_name(&drawer, &"x".repeat(300)).unwrap();
        assert!(keep(&drawer, &shop(&long)).is_ok());
    }

    #[test]
    fn other_pages_keys_are_none_of_ours() {
        let drawer = with(&["Barn"]);
        drawer.set("someone.else", "{}").unwrap();
        assert_eq!(stored(&drawer).shops.len(), 1);
        assert!(raw(&drawer, "someone.else").is_err());
    }

    #[test]
    fn units_are_remembered_once_chosen_and_guessed_by_language_before() {
        let drawer = Drawer::default();
        assert_eq!(chosen_units(&drawer), None);
        choose_units(&drawer, Units::Metric).unwrap();
        assert_eq!(chosen_units(&drawer), Some(Units::Metric));
        drawer.set("bellows.units", "furlongs").unwrap();
        assert_eq!(chosen_units(&drawer), None);
        let guessed = ["en-US", "EN-gb", "en", "", "C", "de-AT", "fr", "eng"].map(usual_units);
        assert_eq!(guessed[..5], [Units::Us; 5]);
        assert_eq!(guessed[5..], [Units::Metric; 3]);
    }
}
