//! The table of fields: it knows every field of a shop and no other, and what it refuses is told what would do.

// Helpers outside of a test function are not excused by `.clippy.toml`; a broken fixture is to stop the test.
#![allow(clippy::unwrap_used)]

use std::collections::BTreeSet;
use std::{fs, path::Path};

use bellows::judge::basis::Basis;
use bellows::quantity::field::{self, Holds, NAME_MAX, SECTIONS};
use bellows::quantity::{Units, write};
use bellows::shop::{Candidate, Place, Shop, Task};
use serde_json::Value;

/// Paths of all that a shop holds, without the numbers of list entries.
fn leaves(value: &Value, path: &str, found: &mut BTreeSet<String>) {
    match value {
        Value::Object(fields) => {
            for (key, field) in fields {
                let below = if path.is_empty() {
                    key.clone()
                } else {
                    format!("{path}.{key}")
                };
                leaves(field, &below, found);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| leaves(item, path, found)),
        _ => {
            found.insert(path.to_owned());
        }
    }
}

#[test]
fn every_field_of_a_shop_has_one_row_and_every_row_a_field() {
    let shop = Shop {
        places: vec![Place::default()],
        tasks: vec![Task::default()],
        candidates: vec![Candidate::default()],
        ..Shop::default()
    };
    let tree: Value = serde_json::to_value(&shop).unwrap();
    let mut held = BTreeSet::new();
    leaves(&tree, "", &mut held);
    assert!(held.remove("version"), "the schema is no field");
    let rows = SECTIONS.into_iter().flat_map(|section| {
        let path = section.path;
        section.fields.iter().map(move |field| match path {
            "" => field.key.to_owned(),
            path => format!("{path}.{}", field.key),
        })
    });
    let rows: Vec<String> = rows.collect();
    let unique: BTreeSet<String> = rows.iter().cloned().collect();
    assert_eq!(rows.len(), unique.len(), "a field stands twice in the table");
    assert_eq!(unique, held);
}

#[test]
fn names_read_on_after_the() {
    for section in SECTIONS {
        for row in section.fields {
            assert!(!row.name.is_empty(), "{}.{}", section.path, row.key);
            assert!(!row.name.starts_with("the "), "{}", row.name);
            assert!(!row.name.ends_with('.'), "{}", row.name);
        }
    }
}

/// Both ends of a row are taken back as they are written, in either system of units.
#[test]
fn both_ends_of_every_row_are_taken() {
    for (section, row) in SECTIONS
        .into_iter()
        .flat_map(|section| section.fields.iter().map(move |row| (section, row)))
    {
        let Holds::Figure { kind, low, high } = row.holds else {
            continue;
        };
        assert!(low < high, "{}.{}", section.path, row.key);
        assert!(
            kind.range().contains(&low) && kind.range().contains(&high),
            "{}.{}",
            section.path,
            row.key
        );
        for units in [Units::Us, Units::Metric] {
            for end in [low, high] {
                // What is written is rounded: to three figures, or as its kind is written.
                let inside = end
                    * if end == low {
                        1.0 + 0.01 * f64::from(low > 0.0)
                    } else {
                        0.99
                    };
                let text = write(kind, inside.clamp(low, high), units);
                let read = row.read(&text, units);
                assert!(
                    matches!(read, Ok(Some(_))),
                    "{}.{}: {text} gave {read:?}",
                    section.path,
                    row.key
                );
            }
        }
    }
}

/// Each line of `tests/refused/field/<reason>.txt`: path | units | text | the sentence that the user reads.
#[test]
fn a_refused_field_is_named_and_told_what_would_do() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/refused/field");
    let mut lines = 0;
    for file in fs::read_dir(folder).unwrap() {
        for line in fs::read_to_string(file.unwrap().path()).unwrap().lines() {
            let parts: Vec<&str> = line.split(" | ").collect();
            let [path, units, text, sentence] = parts[..] else {
                panic!("{line}")
            };
            let units = if units == "us" { Units::Us } else { Units::Metric };
            let error = field::find(path).unwrap().read(text, units).expect_err(line);
            assert_eq!(error.to_string(), sentence, "{line}");
            lines += 1;
        }
    }
    assert!(lines >= 20, "only {lines} refusals were checked");
}

/// What is outside of its row is refused where it was typed, not bent to what would do.
#[test]
fn guns_and_couplers_beyond_the_table_are_refused_not_bent() {
    for (people, couplers, paths) in [
        ("0", "2", vec!["tasks.0.people"]),
        ("60", "2", vec!["tasks.0.people"]),
        ("1", "50", vec!["line.couplers"]),
        ("20", "20", vec![]),
    ] {
        let mut shop = Shop::demo();
        (shop.tasks[0].people, shop.line.couplers) = (people.into(), couplers.into());
        let basis = Basis::of(&shop);
        let refused: Vec<String> = basis.faults.iter().map(|refusal| refusal.path()).collect();
        assert_eq!(refused, paths);
    }
}

#[test]
fn a_name_that_is_cut_is_said_to_be() {
    let mut shop = Shop::demo();
    shop.places[1].name = "x".repeat(NAME_MAX + 1);
    let basis = Basis::of(&shop);
    let [refusal] = &basis.faults[..] else {
        panic!("{:?}", basis.faults)
    };
    assert_eq!(refusal.path(), "places.1.name");
    assert_eq!(
        refusal.message,
        "201 characters are too many here: only the first 200 are kept"
    );
}
