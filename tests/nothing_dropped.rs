//! Shops drawn over the whole table of fields, both ends of every field included: nothing that was typed is dropped.
//!
//! `BELLOWS_CASES` sets how many shops are tried; the gate tries as many as fit into a minute.

// Helpers outside of a test function are not excused by `.clippy.toml`; a broken fixture is to stop the test.
#![allow(clippy::unwrap_used)]

use bellows::judge::assess::work::task_work;
use bellows::judge::basis::Basis;
use bellows::quantity::field::{Field, Holds, SECTIONS, STROKE, STROKE_TIME};
use bellows::quantity::{Kind, M3_S_PER_CFM, PA_PER_PSI};
use bellows::shop::Shop;
use proptest::prelude::*;
use serde_json::{Map, Value, json};

/// Cases of the gate, unless `BELLOWS_CASES` says otherwise.
const CASES: u32 = 300;

fn cases() -> u32 {
    std::env::var("BELLOWS_CASES").map_or(CASES, |cases| cases.parse().unwrap())
}

/// A value as text in a unit of SI, with all its digits.
fn text(kind: Kind, value: f64) -> String {
    let (scale, unit) = match kind {
        Kind::Flow => (1.0, "m3/s"),
        Kind::StrokeVolume | Kind::Volume => (1.0, "m3"),
        Kind::Pressure => (1.0, "Pa"),
        Kind::StationPressure => (100.0, "hPa"),
        Kind::Voltage => (1.0, "V"),
        Kind::Current => (1.0, "A"),
        Kind::Power => (1.0, "W"),
        Kind::ApparentPower => (1.0, "VA"),
        Kind::Length | Kind::Bore | Kind::Altitude => (1.0, "m"),
        Kind::WireArea => (1e-6, "mm2"),
        Kind::Temperature => (1.0, "K"),
        Kind::Fraction => (0.01, "%"),
        Kind::Mass => (1.0, "kg"),
        Kind::Money | Kind::Tariff | Kind::Count => (1.0, ""),
        Kind::Duration | Kind::Minutes | Kind::Hours => (1.0, "s"),
        Kind::SoundLevel | Kind::LevelLoss => (1.0, "dB"),
        Kind::Droop => (PA_PER_PSI / M3_S_PER_CFM, "psi/cfm"),
    };
    format!("{} {unit}", value / scale)
}

/// A figure's text: blank, either end, or anything between, small ones as likely as large ones.
fn figure(kind: Kind, low: f64, high: f64) -> BoxedStrategy<String> {
    let between = (0.0..=1.0).prop_map(move |share: f64| {
        let value = if low > 0.0 {
            low * (high / low).powf(share)
        } else {
            low + (high - low) * share * share
        };
        let value = if kind == Kind::Count { value.round() } else { value };
        text(kind, value.clamp(low, high))
    });
    prop_oneof![
        6 => Just(String::new()),
        1 => Just(text(kind, low)),
        1 => Just(text(kind, high)),
        2 => between,
    ]
    .boxed()
}

fn held(path: &str, field: &Field) -> BoxedStrategy<Value> {
    match (field.holds, path, field.key) {
        (Holds::Figure { kind, low, high }, _, _) => figure(kind, low, high).prop_map(Value::from).boxed(),
        (Holds::Tick, ..) => any::<bool>().prop_map(Value::from).boxed(),
        (Holds::Choice, "tasks", "kind") => prop::sample::select(vec![
            "other",
            "drill",
            "deburr",
            "rivet_gun",
            "back_rivet",
            "squeezer",
            "blow_off",
            "die_grinder",
            "sander",
            "primer_gun",
            "paint_gun",
            "rivet_puller",
            "cleco_tool",
        ])
        .prop_map(Value::from)
        .boxed(),
        (Holds::Choice, "candidates", "kind") => {
            prop::sample::select(vec!["piston_one_stage", "piston_two_stage", "rotary"])
                .prop_map(Value::from)
                .boxed()
        }
        (Holds::Choice, _, "chosen") => Just(json!(0)).boxed(),
        (Holds::Choice, ..) => prop::sample::select(vec!["us", "metric"])
            .prop_map(Value::from)
            .boxed(),
        (Holds::Words, ..) => Just(Value::from("")).boxed(),
    }
}

/// One part of a shop, every field drawn.
fn part(path: &'static str, fields: &'static [Field]) -> BoxedStrategy<Value> {
    let fields: Vec<_> = fields
        .iter()
        .map(|field| held(path, field).prop_map(|value| (field.key.to_owned(), value)))
        .collect();
    fields
        .prop_map(|fields| Value::Object(fields.into_iter().collect::<Map<_, _>>()))
        .boxed()
}

/// Where the tool works by the stroke, its two figures are the stroke's.
fn stroked(mut task: Value, amount: String, time: String) -> Value {
    let kind = task["kind"].as_str().unwrap_or_default();
    if ["squeezer", "rivet_puller", "cleco_tool"].contains(&kind) {
        (task["flow"], task["trigger_on"]) = (json!(amount), json!(time));
    }
    task["on"] = json!(true);
    task
}

fn of_row(row: &Field) -> BoxedStrategy<String> {
    match row.holds {
        Holds::Figure { kind, low, high } => figure(kind, low, high),
        _ => Just(String::new()).boxed(),
    }
}

fn shops() -> impl Strategy<Value = Shop> {
    let parts: Vec<BoxedStrategy<(&str, Value)>> = SECTIONS
        .into_iter()
        .map(|section| {
            let one = part(section.path, section.fields);
            let path = section.path;
            match path {
                "tasks" => {
                    let task = (one, of_row(&STROKE), of_row(&STROKE_TIME))
                        .prop_map(|(task, amount, time)| stroked(task, amount, time));
                    prop::collection::vec(task, 1..4)
                        .prop_map(move |list| (path, json!(list)))
                        .boxed()
                }
                _ if section.list.is_some() => prop::collection::vec(one, 1..3)
                    .prop_map(move |list| (path, json!(list)))
                    .boxed(),
                _ => one.prop_map(move |part| (path, part)).boxed(),
            }
        })
        .collect();
    parts.prop_map(|parts| {
        let mut shop = json!({ "version": 1 });
        for (path, part) in parts {
            match path {
                "" => part
                    .as_object()
                    .unwrap()
                    .iter()
                    .for_each(|(key, value)| shop[key] = value.clone()),
                _ => shop[path] = part,
            }
        }
        serde_json::from_value(shop).unwrap()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(cases()) })]

    /// The sums serve the whole table: a line with any figures of the table has an answer in figures.
    #[test]
    fn the_line_is_solved_over_the_whole_table(shop in shops()) {
        let basis = Basis::of(&shop);
        for candidate in &basis.candidates {
            for place in &basis.places {
                let top_pa = candidate.cut_out.at(place.air.pressure()).as_pa();
                for task in &basis.tasks {
                    let work = task_work(task, &basis.line, place, top_pa);
                    let work = work.map_err(|error| TestCaseError::fail(format!("{error}: {task:?} {:?}", basis.line)))?;
                    prop_assert!(work.flow_kg_s.is_finite() && work.asked_kg_s.is_finite(), "{work:?}");
                    prop_assert!(!work.work.enough_pa.is_nan(), "{work:?}");
                }
            }
        }
    }
}
