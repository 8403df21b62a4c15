//! Several shops from one file: what is read, what is refused, and what becomes of it where names clash or room ends.

// Helpers outside of a test function are not excused by `.clippy.toml`; a broken fixture is to stop the test.
#![allow(clippy::unwrap_used)]

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

use bellows::page::store::{self, Refused, Shelf};
use bellows::page::taking::{OnClash, clashes, take_back, take_in};
use bellows::shop::bundle::{BUNDLE_MAX, BundleError, SHOPS_MAX, check_size, from_json, to_json};
use bellows::shop::file::{self, FILE_MAX, FileError};
use bellows::shop::{SCHEMA, Shop};
use serde_json::{Value, json};

/// Storage of a stated size, as browsers count it: characters of keys and texts.
struct Drawer {
    texts: RefCell<BTreeMap<String, String>>,
    room: Cell<usize>,
}

impl Drawer {
    fn new() -> Self {
        Self {
            texts: RefCell::default(),
            room: Cell::new(usize::MAX),
        }
    }

    fn used(&self) -> usize {
        self.texts
            .borrow()
            .iter()
            .map(|(key, text)| key.len() + text.len())
            .sum()
    }
}

impl Shelf for Drawer {
    fn get(&self, key: &str) -> Result<Option<String>, Refused> {
        Ok(self.texts.borrow().get(key).cloned())
    }
    fn set(&self, key: &str, text: &str) -> Result<(), Refused> {
        let before = self
            .texts
            .borrow()
            .get(key)
            .map_or(0, |text| key.len() + text.len());
        if self.used() - before + key.len() + text.len() > self.room.get() {
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

fn shop(name: &str, budget: &str) -> Shop {
    let mut shop = Shop {
        name: name.into(),
        ..Shop::demo()
    };
    shop.limits.budget = budget.into();
    shop
}

fn budget(drawer: &Drawer, name: &str) -> String {
    store::fetch(drawer, name).unwrap().limits.budget
}

/// Names that a page, a key or an object might stumble over.
const NAMES: [&str; 10] = [
    "\"Quoted\" 'shop' \\ <b>&amp;",
    "Werkstatt – Größe ½",
    "قاعة الطائرة",
    "🛠️✈️",
    "__proto__",
    "constructor",
    "bellows.shop.x",
    "../../etc",
    "null",
    "a.b[0]",
];

#[test]
fn names_of_any_characters_go_out_and_come_back() {
    let from = Drawer::new();
    let shops: Vec<_> = NAMES.iter().map(|name| shop(name, "$1")).collect();
    for shop in &shops {
        store::keep(&from, shop).unwrap();
    }
    let (all, unread) = store::all(&from);
    assert_eq!((all.len(), unread), (NAMES.len(), 0));

    let to = Drawer::new();
    let read = from_json(&to_json(&all).unwrap()).unwrap();
    let taken = take_in(&to, &read, &[]);
    assert_eq!(taken.steps.len(), NAMES.len());
    for shop in &shops {
        assert_eq!(store::fetch(&to, &shop.name).as_ref(), Ok(shop));
    }
    assert!(taken.sentence.starts_with("Kept 10 shops: ") && taken.sentence.contains("and 5 more"));
}

#[test]
fn what_cannot_be_read_stays_out_of_the_file_and_is_counted() {
    let drawer = Drawer::new();
    store::keep(&drawer, &shop("Barn", "$1")).unwrap();
    drawer.set("bellows.shop.Cut", "{\"version\":1,").unwrap();
    let (all, unread) = store::all(&drawer);
    assert_eq!((all.len(), unread), (1, 1));
}

#[test]
fn each_choice_does_what_it_says_and_can_be_taken_back() {
    let incoming = [
        shop("A", "$2"),
        shop("B", "$2"),
        shop("C", "$2"),
        shop("New", "$2"),
        shop("Same", "$1"),
    ];
    let kept = ["A", "B", "C", "Same"];
    let drawer = Drawer::new();
    for name in kept {
        store::keep(&drawer, &shop(name, "$1")).unwrap();
    }
    let before = drawer.texts.borrow().clone();
    assert_eq!(clashes(&drawer, &incoming), [0, 1, 2]);

    let choices = [(0, OnClash::Both), (1, OnClash::Replace), (2, OnClash::Leave)];
    let taken = take_in(&drawer, &incoming, &choices);
    let budgets = ["A", "A (2)", "B", "C", "New", "Same"].map(|name| budget(&drawer, name));
    assert_eq!(budgets, ["$1", "$2", "$2", "$1", "$2", "$1"]);
    assert_eq!(
        taken.sentence.replace(['\u{2068}', '\u{2069}'], ""),
        "Kept 2 shops: “A (2)”, “New”. Replaced “B”. Kept already, just so, “Same”. Left out “C”."
    );

    assert!(take_back(&drawer, &taken.steps).contains("as it was before"));
    assert_eq!(*drawer.texts.borrow(), before);
}

#[test]
fn a_shop_changed_since_is_not_taken_back() {
    let drawer = Drawer::new();
    let taken = take_in(&drawer, &[shop("A", "$2"), shop("B", "$2")], &[]);
    store::keep(&drawer, &shop("A", "$3")).unwrap();
    let said = take_back(&drawer, &taken.steps);
    assert!(said.contains("Changed since") && said.contains('A'), "{said}");
    assert_eq!(budget(&drawer, "A"), "$3");
    assert!(store::fetch(&drawer, "B").is_err());
}

#[test]
fn two_of_one_name_in_a_file_are_both_kept_whatever_was_chosen() {
    for choice in [OnClash::Both, OnClash::Replace, OnClash::Leave] {
        let drawer = Drawer::new();
        let twins = [
            shop("A", "$1"),
            shop("A", "$2"),
            shop(" ", "$3"),
            shop(&"x".repeat(120), "$4"),
        ];
        let choices = [0, 1, 2, 3].map(|at| (at, choice));
        assert_eq!(take_in(&drawer, &twins, &choices).steps.len(), 4);
        let long = "x".repeat(80);
        let budgets = ["A", "A (2)", "My shop", long.as_str()].map(|name| budget(&drawer, name));
        assert_eq!(budgets, ["$1", "$2", "$3", "$4"]);
    }
}

#[test]
fn full_storage_keeps_what_fits_and_says_what_does_not() {
    let drawer = Drawer::new();
    store::keep(&drawer, &shop("Old", "$1")).unwrap();
    let one = drawer.used();
    drawer.room.set(2 * one + 60);
    let incoming = [shop("First", "$1"), shop("Second", "$1"), shop("Old", "$2")];
    let taken = take_in(&drawer, &incoming, &[(2, OnClash::Replace)]);
    assert_eq!(taken.refused, [1]);
    let said = taken.sentence.replace(['\u{2068}', '\u{2069}'], "");
    assert!(
        said.contains("Kept “First”.") && said.contains("Replaced “Old”."),
        "{said}"
    );
    assert!(
        said.contains("Not kept, as storage is full or switched off, “Second”."),
        "{said}"
    );
    assert_eq!(
        (budget(&drawer, "First"), budget(&drawer, "Old")),
        ("$1".into(), "$2".into())
    );
    assert!(store::fetch(&drawer, "Second").is_err());

    // No room even for the old text: the way back leaves the new one rather than neither.
    drawer.room.set(0);
    assert!(take_back(&drawer, &taken.steps).contains("refused"));
    assert_eq!(budget(&drawer, "Old"), "$2");
}

fn bundle(shops: Value) -> String {
    json!({ "version": SCHEMA, "shops": shops }).to_string()
}

fn refusal(text: &str) -> BundleError {
    from_json(text).unwrap_err()
}

#[test]
fn a_bad_file_is_refused_whole_with_its_reason() {
    let whole = to_json(&[Shop::demo(), Shop::fresh()]).unwrap();
    assert!(matches!(
        refusal(&whole[..whole.len() / 2]),
        BundleError::File(FileError::NotJson { .. })
    ));
    assert_eq!(refusal(&bundle(json!([]))), BundleError::Empty);
    let many = bundle(json!(vec![json!({ "version": 1 }); 4_000]));
    assert_eq!(refusal(&many), BundleError::TooMany { count: 4_000 });
    assert!(refusal(&many).to_string().contains("500"));
    let odd = bundle(json!({ "0": {} }));
    assert!(matches!(
        refusal(&odd),
        BundleError::File(FileError::BadField { .. })
    ));

    let newer = json!({ "version": SCHEMA + 1, "shops": [], "wings": 2 }).to_string();
    let said = refusal(&newer).to_string();
    assert!(said.contains("newer Bellows"), "{said}");
    let one_newer = bundle(json!([{ "version": 1 }, { "version": SCHEMA + 1 }]));
    let said = refusal(&one_newer).to_string();
    assert!(
        said.starts_with("shop 2 ") && said.contains("newer Bellows"),
        "{said}"
    );
    let wrong = bundle(json!([{ "version": 1 }, { "version": 1, "tasks": [{ "kind": "nailer" }] }]));
    assert_eq!(
        refusal(&wrong).to_string(),
        "shop 2 in it will not do: tasks[0].kind holds \"nailer\", which Bellows does not know there: correct it or leave it out"
    );
    for (not_a_shop, number) in [
        (json!([[]]), 1),
        (json!([{ "version": 1 }, 7]), 2),
        (json!([null]), 1),
    ] {
        let refused = refusal(&bundle(not_a_shop));
        assert!(
            matches!(refused, BundleError::Shop { number: at, .. } if at == number),
            "{refused}"
        );
    }
}

#[test]
fn huge_and_deep_files_are_refused_with_the_figure() {
    assert_eq!(check_size(BUNDLE_MAX as u64), Ok(()));
    assert!(check_size(BUNDLE_MAX as u64 + 1).is_err());
    let huge = refusal(&" ".repeat(BUNDLE_MAX + 1)).to_string();
    assert!(huge.contains("6000001") && huge.contains("6000000"), "{huge}");
    let one_big = json!({ "version": 1, "name": "x".repeat(FILE_MAX) });
    let text = one_big.to_string();
    assert_eq!(
        refusal(&text),
        BundleError::File(FileError::TooBig { bytes: text.len() })
    );
    assert!(matches!(
        refusal(&bundle(json!([one_big]))),
        BundleError::Shop {
            number: 1,
            why: FileError::TooBig { .. }
        }
    ));
    for (open, close) in [("[", "]"), ("{\"shops\":", "}"), ("{\"__proto__\":", "}")] {
        let deep = format!("{}1{}", open.repeat(100_000), close.repeat(100_000));
        assert!(matches!(
            refusal(&deep),
            BundleError::File(FileError::NotJson { .. })
        ));
    }
}

#[test]
fn keys_that_mean_something_to_a_script_mean_nothing_here() {
    let text = r#"{ "version": 1, "__proto__": { "name": "polluted" }, "constructor": 1, "shops": [
        { "version": 1, "name": "A", "__proto__": { "units": "metric" }, "toString": "x", "places": [{ "__proto__": [] }] }] }"#;
    let shops = from_json(text).unwrap();
    assert_eq!((shops.len(), shops[0].name.as_str()), (1, "A"));
    assert_eq!(shops[0].units, Shop::default().units);
}

#[test]
fn too_many_shops_are_not_written_to_a_file_that_would_not_open() {
    let shops = vec![Shop::default(); SHOPS_MAX + 1];
    assert_eq!(
        to_json(&shops),
        Err(BundleError::TooMany { count: SHOPS_MAX + 1 })
    );
    assert_eq!(
        from_json(&to_json(&shops[1..]).unwrap()).unwrap().len(),
        SHOPS_MAX
    );
}

/// Files of one shop written before several could be: as they were.
#[test]
fn a_file_of_one_shop_is_still_read() {
    assert_eq!(from_json(&file::to_json(&Shop::demo())), Ok(vec![Shop::demo()]));
}
