//! Links, files and kept shops that were written by an earlier build open as they were, field by field.
//!
//! `tests/fixtures/written/` was written once, by the build that ended with schema 1, and is never written again: what
//! somebody has kept or sent must open for ever. The expected shops are spelled here, so that a fault shared by today's
//! reader and writer is seen.

// Helpers outside of a test function are not excused by `.clippy.toml`; a broken fixture is to stop the test.
#![allow(clippy::unwrap_used)]
// Fields that a record gains later are blank in what was written before.
#![allow(clippy::needless_update)]

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::{fs, path::Path};

use bellows::page::store::{self, Refused, Shelf};
use bellows::shop::{
    Auxiliary, Candidate, Limits, Line, MachineKind, Place, SCHEMA, Shop, Task, TaskKind, Units,
};
use bellows::shop::{bundle, file, link};
use serde_json::Value;

fn written(name: &str) -> String {
    fs::read_to_string(Path::new("tests/fixtures/written").join(name)).unwrap()
}

/// Fields that hold their own path as text.
macro_rules! at_path {
    ($record:ident, $path:expr, [$($field:ident)*]) => {
        $record { $($field: format!("{}.{}", $path, stringify!($field)),)* ..$record::default() }
    };
}

/// A shop in which every text is the path of its field, so that one read into another's place is seen.
fn every_field() -> Shop {
    let place = |path: &str| {
        at_path!(Place, path, [
            name altitude station_pressure temperature humidity volts breaker other_load branch_gauge branch_length
            cord_gauge cord_length generator listener neighbour wall_loss
        ])
    };
    let task = |path: String| at_path!(Task, path, [name flow setting lowest trigger_on trigger_off spell pause people]);
    let candidate = |path: &str| {
        at_path!(Candidate, path, [
            name flow at flow2 at2 tank volts amps power start cut_in cut_out duty sound sound_at weight price pump_up
            pump_from pump_to leak_time leak_from leak_to
        ])
    };
    Shop {
        version: SCHEMA,
        name: "name".into(),
        units: Units::Metric,
        places: vec![
            Place {
                inlet_ducted: true,
                ..place("places.0")
            },
            Place {
                boxed: true,
                ..place("places.1")
            },
        ],
        tasks: KINDS
            .iter()
            .enumerate()
            .map(|(index, &kind)| Task {
                kind,
                on: index % 2 == 0,
                ..task(format!("tasks.{index}"))
            })
            .collect(),
        line: at_path!(Line, "line", [droop trunk_bore trunk_length couplers whip_bore whip_length loss_share]),
        auxiliary: Auxiliary {
            stays: true,
            ..at_path!(Auxiliary, "auxiliary", [tank rated])
        },
        limits: at_path!(Limits, "limits", [lift tailgate budget loudest hours day tariff]),
        candidates: vec![
            Candidate {
                wheels: true,
                ..candidate("candidates.0")
            },
            Candidate {
                kind: MachineKind::PistonTwoStage,
                ..candidate("candidates.1")
            },
            Candidate {
                kind: MachineKind::Rotary,
                wheels: true,
                ..candidate("candidates.2")
            },
        ],
        chosen: 2,
    }
}

const KINDS: [TaskKind; 11] = [
    TaskKind::Other,
    TaskKind::Drill,
    TaskKind::Deburr,
    TaskKind::RivetGun,
    TaskKind::BackRivet,
    TaskKind::Squeezer,
    TaskKind::BlowOff,
    TaskKind::DieGrinder,
    TaskKind::Sander,
    TaskKind::PrimerGun,
    TaskKind::PaintGun,
];

/// Texts that a form, a link or a page might stumble over, and gaps in the lists: what is blank stays blank and where it is.
fn odd_texts() -> Shop {
    Shop {
        version: SCHEMA,
        name: "Größe ½ \"8\" \\ <b>&amp; قاعة 🛠️".into(),
        places: vec![
            Place::default(),
            Place {
                temperature: "−5 °C".into(),
                ..Place::default()
            },
        ],
        tasks: vec![
            Task {
                flow: "4,5 cfm / 3".into(),
                on: true,
                ..Task::default()
            },
            Task::default(),
        ],
        candidates: vec![
            Candidate {
                pump_up: "182 s; 179 s".into(),
                ..Candidate::default()
            },
            Candidate::default(),
            Candidate {
                name: "x".repeat(200),
                ..Candidate::default()
            },
        ],
        chosen: 1,
        ..Shop::default()
    }
}

#[test]
fn a_file_of_every_field_opens_field_by_field() {
    assert_eq!(file::from_json(&written("every_field.json")), Ok(every_field()));
    assert_eq!(file::from_json(&written("odd_texts.json")), Ok(odd_texts()));
}

#[test]
fn a_link_of_every_field_opens_field_by_field() {
    assert_eq!(link::read(&written("every_field.link")), Ok(every_field()));
    assert_eq!(link::read(&written("odd_texts.link")), Ok(odd_texts()));
}

const NAMES: [&str; 5] = [
    "every_field",
    "odd_texts",
    "first_visit",
    "first_visit_metric",
    "example",
];

/// `serde_json` (general-purpose library) reads both texts as trees: whatever stood in the file stands in it again.
#[test]
fn what_was_read_is_written_again_with_nothing_lost() {
    for name in NAMES {
        let text = written(&format!("{name}.json"));
        let again = file::to_json(&file::from_json(&text).unwrap());
        let [before, after] = [&text, &again].map(|text| serde_json::from_str::<Value>(text).unwrap());
        assert_eq!(before, after, "{name}");
    }
}

#[test]
fn link_and_file_of_a_shop_hold_the_same() {
    for name in NAMES {
        let shop = file::from_json(&written(&format!("{name}.json"))).unwrap();
        assert_eq!(link::read(&written(&format!("{name}.link"))), Ok(shop), "{name}");
    }
}

#[test]
fn a_file_of_all_shops_opens_in_their_order() {
    let shops = bundle::from_json(&written("all_shops.json")).unwrap();
    let each = NAMES.map(|name| file::from_json(&written(&format!("{name}.json"))).unwrap());
    assert_eq!(shops, each);
}

/// A browser's storage as it was left.
struct Left(RefCell<BTreeMap<String, String>>);

impl Shelf for Left {
    fn get(&self, key: &str) -> Result<Option<String>, Refused> {
        Ok(self.0.borrow().get(key).cloned())
    }
    fn set(&self, key: &str, text: &str) -> Result<(), Refused> {
        self.0.borrow_mut().insert(key.into(), text.into());
        Ok(())
    }
    fn clear(&self, key: &str) -> Result<(), Refused> {
        self.0.borrow_mut().remove(key);
        Ok(())
    }
    fn keys(&self) -> Result<Vec<String>, Refused> {
        Ok(self.0.borrow().keys().cloned().collect())
    }
}

#[test]
fn what_a_browser_kept_is_there_again() {
    let left: BTreeMap<String, String> = serde_json::from_str(&written("local_storage.json")).unwrap();
    let shelf = Left(RefCell::new(left));
    let stored = store::stored(&shelf);
    let (damaged, whole): (Vec<_>, Vec<_>) = stored.shops.iter().partition(|entry| entry.damaged);
    assert_eq!(stored.current.as_deref(), Some("Example shop"));
    assert_eq!(store::chosen_units(&shelf), Some(Units::Metric));
    assert_eq!((whole.len(), damaged.len()), (5, 1));
    assert_eq!(
        store::raw(&shelf, &damaged[0].key).as_deref(),
        Ok("{\"version\":1,")
    );
    assert_eq!(store::fetch(&shelf, "name"), Ok(every_field()));
    assert_eq!(store::fetch(&shelf, &odd_texts().name), Ok(odd_texts()));
    let example = file::from_json(&written("example.json")).unwrap();
    assert_eq!(store::fetch(&shelf, "Example shop"), Ok(example));
}
