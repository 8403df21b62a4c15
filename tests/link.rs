//! A shop as a link and as a file: round trips, size, damage, refused input.

// Helpers outside of a test function are not excused by `.clippy.toml`; a broken fixture is to stop the test.
#![allow(clippy::unwrap_used)]

use std::{fs, path::Path};

use base64::{Engine, engine::general_purpose::URL_SAFE_NO_PAD};
use bellows::quantity::field::{self, NAME_MAX};
use bellows::shop::file::{FILE_MAX, FileError, from_json, to_json};
use bellows::shop::link::{self, LINK_MAX, LinkError};
use bellows::shop::{Candidate, Place, SCHEMA, Shop, Task, TaskKind, Units};
use proptest::prelude::*;
use serde_json::{Value, json};

/// A link with a right check sum round any content.
fn pack(content: &[u8]) -> String {
    let mut bytes = miniz_oxide::deflate::compress_to_vec(content, 10);
    bytes.extend(crc32fast::hash(&bytes).to_be_bytes());
    format!("b1.{}", URL_SAFE_NO_PAD.encode(bytes))
}

/// A shop as JSON, every field in it.
fn tree(shop: &Shop) -> Value {
    serde_json::to_value(shop).unwrap()
}

/// Two places with 12 fields, ten tasks as they come, three candidates with 14 fields: invented.
fn usual() -> Shop {
    let place = |name: &str, altitude: &str, temperature: &str, breaker: &str| Place {
        name: name.into(),
        altitude: altitude.into(),
        temperature: temperature.into(),
        humidity: "55 %".into(),
        volts: "120 V".into(),
        breaker: breaker.into(),
        other_load: "1.5 A".into(),
        branch_gauge: "14 AWG".into(),
        branch_length: "40 ft".into(),
        cord_gauge: "12 AWG".into(),
        cord_length: "50 ft".into(),
        listener: "12 ft".into(),
        ..Place::default()
    };
    let candidate = |name: &str, [flow, tank, amps, power, sound, weight, price]: [&str; 7]| Candidate {
        name: name.into(),
        flow: flow.into(),
        at: "90 psi".into(),
        flow2: "6.3 cfm".into(),
        at2: "40 psi".into(),
        tank: tank.into(),
        volts: "120 V".into(),
        amps: amps.into(),
        power: power.into(),
        cut_in: "95 psi".into(),
        cut_out: "125 psi".into(),
        sound: sound.into(),
        weight: weight.into(),
        price: price.into(),
        ..Candidate::default()
    };
    let kinds = [
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
    Shop {
        version: SCHEMA,
        name: "Elevator kit, winter".into(),
        places: vec![
            place("Garage at home", "600 ft", "75 F", "15 A"),
            place("Hangar, row D", "4,900 ft", "90 F", "20 A"),
        ],
        tasks: kinds
            .map(|kind| Task {
                kind,
                on: true,
                ..Task::default()
            })
            .into(),
        candidates: vec![
            candidate(
                "Upright, quiet",
                [
                    "4.2 cfm", "20 gal", "11.5 A", "1.5 hp", "72 dBA", "125 lb", "$420",
                ],
            ),
            candidate(
                "Twin tank, on sale",
                ["5.1 cfm", "8 gal", "14 A", "2 hp", "85 dBA", "89 lb", "$279"],
            ),
            candidate(
                "Second hand, belt",
                [
                    "10.8 cfm", "60 gal", "15.8 A", "3.7 hp", "83 dBA", "318 lb", "$600",
                ],
            ),
        ],
        chosen: 2,
        ..Shop::default()
    }
}

/// Messages and address bars take 2,000 characters without harm (common practice, no source), address included. A QR
/// code of version 40 holds 2,953 bytes at its lowest error correction (ISO/IEC 18004, from memory).
/// `crc32fast` (general-purpose library) is the reference; "123456789" gives CBF43926 in every catalogue of sums.
#[test]
fn the_check_sum_is_the_usual_one() {
    assert_eq!(crc32fast::hash(b"123456789"), 0xCBF4_3926);
    for shop in [Shop::default(), Shop::fresh(), Shop::demo(), usual()] {
        let link = link::write(&shop);
        let bytes = URL_SAFE_NO_PAD.decode(link.trim_start_matches("b1.")).unwrap();
        let (packed, sum) = bytes.split_at(bytes.len() - 4);
        assert_eq!(sum, crc32fast::hash(packed).to_be_bytes());
    }
}

#[test]
fn a_usual_shop_makes_a_short_link() {
    let address = 60 + "#".len();
    let link = link::write(&usual());
    assert!(link.len() + address < 2_000, "{} characters", link.len());
    assert!(
        link.bytes()
            .all(|b| b.is_ascii_alphanumeric() || b"-_.".contains(&b))
    );
    assert_eq!(link::read(&link), Ok(usual()));
}

#[test]
fn a_link_is_found_in_what_people_paste() {
    let link = link::write(&usual());
    let (front, back) = link.split_at(70);
    for pasted in [
        format!("#{link}"),
        format!("  {link}\n"),
        format!("https://example.org/bellows/?a=%20b#{link}"),
        format!("https://example.org/bellows/%23{link}"),
        format!("https://example.org/#{link}."),
        format!("<https://example.org/#{link}>,"),
        format!("{front}\r\n {back}"),
        link.replace('.', "%2E"),
    ] {
        assert_eq!(link::read(&pasted), Ok(usual()), "{pasted}");
    }
}

/// A link that was given away once must open for ever: this one was written by the first build.
#[test]
fn pinned_first_link_still_opens() {
    let shop = link::read(FIRST_LINK).unwrap();
    assert_eq!(shop.name, "Hangar 7");
    assert_eq!(shop.units, Units::Metric);
    assert_eq!(shop.candidates[0].flow, "144 L/min");
    assert_eq!(shop.tasks[0].kind, TaskKind::RivetGun);
}

const FIRST_LINK: &str = "b1.VYxBCsMwDAS_EnQ2lECgkBf00B-UYESsGpFaLracHoL_XuWY68zuHLBTqZwF5tGBYCKY4YESsQx3cNCEtRpKpIVXA4p1M_A6YGMJZgrvpD42MXlmtDTqi4MVJXBApcv6y1Wz-Czkq2IkO70_-WdmnKbheUss0Jf-B7iBXWE";

#[test]
fn every_cut_and_every_changed_character_is_noticed() {
    let shop = usual();
    let link = link::write(&shop);
    for end in 0..link.len() {
        assert!(link::read(&link[..end]).is_err(), "cut to {end}");
    }
    for (at, old) in link.char_indices() {
        for new in "AZaz09-_.#%é \u{202e}".chars().filter(|new| *new != old) {
            let changed = format!("{}{new}{}", &link[..at], &link[at + 1..]);
            assert!(link::read(&changed).is_err(), "character {at} changed to {new:?}");
        }
    }
}

#[test]
fn a_small_link_that_unpacks_to_much_is_refused() {
    let bomb = pack(&vec![b' '; 4_000_000]);
    assert!(bomb.len() < LINK_MAX);
    assert_eq!(link::read(&bomb), Err(LinkError::TooBig));
    let padded = format!("{}{{\"version\":1}}", " ".repeat(FILE_MAX));
    assert_eq!(link::read(&pack(padded.as_bytes())), Err(LinkError::TooBig));
}

#[test]
fn long_text_is_refused_before_it_is_unpacked() {
    let long = format!("b1.{}", "A".repeat(LINK_MAX));
    assert_eq!(
        link::read(&long),
        Err(LinkError::TooLong { length: LINK_MAX + 3 })
    );
    let longer = "x".repeat(1_000_000);
    assert_eq!(link::read(&longer), Err(LinkError::TooLong { length: 1_000_000 }));
    assert_eq!(
        from_json(&" ".repeat(FILE_MAX + 1)),
        Err(FileError::TooBig { bytes: FILE_MAX + 1 })
    );
}

#[test]
fn lists_and_texts_have_limits() {
    for section in [&field::PLACES, &field::TASKS, &field::CANDIDATES] {
        let list = section.list.unwrap();
        let (path, most) = (section.path, list.most);
        let shop = |count: usize| json!({ "version": 1, path: vec![json!({}); count] }).to_string();
        assert!(from_json(&shop(most)).is_ok());
        assert_eq!(
            from_json(&shop(most + 1)),
            Err(FileError::TooMany(field::TooMany {
                list,
                count: most + 1,
            }))
        );
    }
    let named =
        |length: usize| json!({ "version": 1, "places": [{ "name": "é".repeat(length) }] }).to_string();
    assert!(from_json(&named(NAME_MAX)).is_ok());
    let field = "places[0].name".to_owned();
    assert_eq!(
        from_json(&named(NAME_MAX + 1)),
        Err(FileError::TextTooLong {
            field,
            length: NAME_MAX + 1
        })
    );
}

#[test]
fn what_is_written_is_within_the_limits() {
    let shop = Shop {
        name: format!("a\u{0}\n\u{202e}{}", "é".repeat(300)),
        ..Shop::default()
    };
    let name = format!("a{}", "é".repeat(NAME_MAX - 1));
    assert_eq!(from_json(&to_json(&shop)).unwrap().name, name);
    assert_eq!(link::read(&link::write(&shop)).unwrap().name, name);
}

#[test]
fn control_and_direction_characters_go() {
    let text = json!({ "version": 1, "name": "A\u{7}\u{202e}B\u{2066}\tC" }).to_string();
    assert_eq!(from_json(&text).unwrap().name, "ABC");
}

#[test]
fn the_chosen_candidate_is_kept_within_the_list() {
    let chosen = |text: &str| from_json(text).unwrap().chosen;
    assert_eq!(
        chosen(r#"{ "version": 1, "chosen": 7, "candidates": [{}, {}] }"#),
        1
    );
    assert_eq!(chosen(r#"{ "version": 1, "chosen": 7 }"#), 0);
}

#[test]
fn a_file_is_readable_and_has_no_blank_fields() {
    let text = to_json(&usual());
    assert!(text.contains("\n  \"name\": \"Elevator kit, winter\""));
    assert!(text.contains("\"cut_out\": \"125 psi\""));
    assert!(!text.contains("\"\"") && !text.contains("false"), "{text}");
}

#[test]
fn blank_entries_keep_their_places() {
    let shop = Shop {
        version: SCHEMA,
        candidates: vec![
            Candidate::default(),
            Candidate {
                tank: "20 gal".into(),
                ..Candidate::default()
            },
        ],
        ..Shop::default()
    };
    assert_eq!(link::read(&link::write(&shop)), Ok(shop.clone()));
    assert_eq!(from_json(&to_json(&shop)), Ok(shop));
}

/// `tests/refused/link/*.txt`: the link, then the sentence that the user reads.
#[test]
fn refused_links_say_what_is_wrong() {
    let mut count = 0;
    for (name, text) in files("link", "txt") {
        let (link, sentence) = text.trim_end().rsplit_once('\n').unwrap();
        assert_eq!(link::read(link).expect_err(&name).to_string(), sentence, "{name}");
        count += 1;
    }
    assert!(count >= 8, "only {count} links were checked");
}

/// `tests/refused/file/*.json`, each with the sentence that the user reads in the text file beside it.
#[test]
fn refused_files_say_what_is_wrong() {
    let sentences = files("file", "txt");
    let refused = files("file", "json");
    assert!(refused.len() >= 8 && refused.len() == sentences.len());
    for ((name, text), (_, sentence)) in refused.iter().zip(&sentences) {
        assert_eq!(
            from_json(text).expect_err(name).to_string(),
            sentence.trim_end(),
            "{name}"
        );
    }
}

/// Name and text of the refused examples with one ending, sorted.
fn files(folder: &str, ending: &str) -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/refused")
        .join(folder);
    let paths = fs::read_dir(folder).unwrap().map(|file| file.unwrap().path());
    let mut found: Vec<(String, String)> = paths
        .filter(|path| path.extension().is_some_and(|e| e == ending))
        .map(|path| {
            (
                path.file_stem().unwrap().to_str().unwrap().to_owned(),
                fs::read_to_string(&path).unwrap(),
            )
        })
        .collect();
    found.sort();
    found
}

/// Fills the texts, switches and choices of a blank shop from random ones, whatever fields it has.
fn fill(
    value: &mut Value,
    key: &str,
    texts: &mut impl Iterator<Item = String>,
    bits: &mut impl Iterator<Item = bool>,
) {
    let kinds: &[&str] = &["drill", "rivet_gun", "squeezer", "other", "paint_gun"];
    let machines: &[&str] = &["piston_one_stage", "piston_two_stage", "rotary"];
    match value {
        Value::String(text) => {
            let choices = match text.as_str() {
                "us" => &["us", "metric"],
                "other" => kinds,
                "piston_one_stage" => machines,
                default => {
                    assert_eq!(default, "", "{key} has a default that this test does not know");
                    *text = texts.next().unwrap();
                    return;
                }
            };
            let at = bits.take(3).fold(0, |at, bit| 2 * at + usize::from(bit));
            *text = choices[at % choices.len()].to_owned();
        }
        Value::Bool(on) => *on = bits.next().unwrap(),
        Value::Array(items) => items.iter_mut().for_each(|item| fill(item, key, texts, bits)),
        Value::Object(fields) => fields
            .iter_mut()
            .for_each(|(key, field)| fill(field, key, texts, bits)),
        _ => {}
    }
}

/// Shops with text of any script in any field.
fn shops() -> impl Strategy<Value = Shop> {
    let text = prop_oneof![4 => Just(String::new()), 2 => "[0-9.]{1,4} (psi|cfm|gal|°F)", 1 => "\\PC{0,16}"];
    let lists = (0..3_usize, 0..4_usize, 0..4_usize, 0..4_usize);
    let texts = prop::collection::vec(text, 31..60);
    let bits = prop::collection::vec(any::<bool>(), 37);
    (lists, texts, bits).prop_map(|((places, tasks, candidates, chosen), texts, bits)| {
        let blank = Shop {
            version: SCHEMA,
            places: vec![Place::default(); places],
            tasks: vec![Task::default(); tasks],
            candidates: vec![Candidate::default(); candidates],
            chosen: chosen.min(candidates.saturating_sub(1)),
            ..Shop::default()
        };
        let mut value = tree(&blank);
        fill(
            &mut value,
            "",
            &mut texts.into_iter().cycle(),
            &mut bits.into_iter().cycle(),
        );
        bellows::shop::file::in_tree(&value).unwrap()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(300) })]

    #[test]
    fn any_shop_comes_back_from_a_link(shop in shops()) {
        let link = link::write(&shop);
        prop_assert!(link.len() <= LINK_MAX);
        prop_assert_eq!(link::read(&link), Ok(shop));
    }

    #[test]
    fn any_shop_comes_back_from_a_file(shop in shops()) {
        prop_assert_eq!(from_json(&to_json(&shop)), Ok(shop));
    }

    /// A changed link is refused, or it still says the same.
    #[test]
    fn a_damaged_link_never_says_something_else(shop in shops(), at in any::<prop::sample::Index>(), new in "\\PC") {
        let mut link: Vec<char> = link::write(&shop).chars().collect();
        let at = at.index(link.len());
        link[at] = new.chars().next().unwrap();
        let link: String = link.into_iter().collect();
        prop_assert!(link::read(&link).is_ok_and(|read| read == shop) || link::read(&link).is_err());
    }

    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,200}", body in "[A-Za-z0-9_-]{0,100}") {
        prop_assert!(link::read(&text).is_err());
        let link = format!("b1.{body}");
        prop_assert!(link::read(&link).is_err());
        prop_assert!(from_json(&text).is_err());
    }

    /// Content that nobody vouches for, in a link with a right check sum.
    #[test]
    fn any_content_is_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        prop_assert!(link::read(&pack(&bytes)).is_err());
    }

    /// JSON of the right shape with one field of a wrong type: the refusal names a field, or the shop is whole.
    #[test]
    fn one_wrong_field_is_named(shop in shops(), at in any::<prop::sample::Index>(), wrong in 0..4_usize) {
        let mut value = tree(&shop);
        let fields = value.as_object_mut().unwrap();
        let names: Vec<String> = fields.keys().cloned().collect();
        let name = at.get(&names).clone();
        let wrong = [json!(-1.5), json!({ "a": [1] }), json!([[7]]), json!(true)][wrong].clone();
        fields.insert(name.clone(), wrong);
        match from_json(&value.to_string()) {
            Err(FileError::BadField { field, .. }) => prop_assert!(field.starts_with(&name), "{field} for {name}"),
            Err(other) => prop_assert!(false, "{other:?} for {name}"),
            Ok(_) => prop_assert!(["line", "auxiliary", "limits"].contains(&name.as_str()), "{name} was taken"),
        }
    }
}

#[test]
fn the_example_with_three_machines_makes_a_short_link() {
    // The limit of 2,000 is what old mail programs and chats keep whole: common practice, no source.
    let link = link::write(&Shop::demo());
    assert!(link.len() < 1_000, "{} characters", link.len());
    assert_eq!(link::read(&link).as_ref(), Ok(&Shop::demo()));
}

#[test]
fn a_value_in_the_wrong_place_is_named_by_its_path() {
    let cases = [
        (json!({ "name": null }), "name"),
        (json!({ "chosen": -1 }), "chosen"),
        (json!({ "chosen": 1.5 }), "chosen"),
        (json!({ "line": [] }), "line"),
        (json!({ "line": { "droop": 1 } }), "line.droop"),
        (json!({ "places": {} }), "places"),
        (json!({ "places": [{}, { "boxed": "yes" }] }), "places[1].boxed"),
        (json!({ "tasks": [["drill"]] }), "tasks[0]"),
        (json!({ "tasks": [{ "kind": "Drill" }] }), "tasks[0].kind"),
    ];
    for (mut tree, path) in cases {
        let held = path
            .split(['.', '['])
            .fold(&tree, |part, step| match step.trim_end_matches(']') {
                index if index.parse::<usize>().is_ok() => &part[index.parse::<usize>().unwrap()],
                name => &part[name],
            });
        let read = held.to_string();
        tree["version"] = SCHEMA.into();
        let refused = FileError::BadField {
            field: path.into(),
            read,
        };
        assert_eq!(from_json(&tree.to_string()), Err(refused));
    }
}
