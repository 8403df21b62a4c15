//! Shops drawn over the whole table of fields, both ends of every field included: nothing that was typed is dropped.
//!
//! `BELLOWS_CASES` sets how many shops are tried; the gate tries as many as fit into a minute.

// Helpers outside of a test function are not excused by `.clippy.toml`; a broken fixture is to stop the test.
#![allow(clippy::unwrap_used)]

use bellows::answer::Memory;
use bellows::answer::report::{Grade as Shown, Report, View};
use bellows::judge::assess::assess_with;
use bellows::judge::assess::machine::Supply;
use bellows::judge::assess::work::task_work;
use bellows::judge::basis::{Basis, CandidateBasis};
use bellows::judge::draws::Draws;
use bellows::judge::grade::Grade;
use bellows::judge::verdict::{Judging, Verdict, Why};
use bellows::physics::compressor::Claim;
use bellows::quantity::field::{self, Field, Holds, SECTIONS, STROKE, STROKE_TIME};
use bellows::quantity::{Kind, M3_S_PER_CFM, PA_PER_PSI, Units};
use bellows::shop::{Candidate, Shop};
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
        bellows::shop::file::in_tree(&shop).unwrap()
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

    /// Every task at every place comes out judged, or not judged with the field to blame; nothing vanishes on the way to
    /// the page, and every figure is one.
    #[test]
    fn every_task_is_judged_or_told_why_not(shop in shops()) {
        let basis = Basis::of(&shop);
        let candidate = &basis.candidates[0];
        let facts = assess_with(&basis, candidate, few_draws(&basis, candidate));
        let on = basis.tasks.iter().filter(|task| task.on).count();
        let Some(verdict) = &facts.verdict else {
            let cannot_be = facts.claim.is_some_and(|(claim, ..)| claim == Claim::CannotBe);
            prop_assert!(facts.supply == Supply::Nothing || cannot_be, "{:?}", facts.supply);
            return Ok(());
        };
        // A machine that stays at home is judged for no other place.
        let visited = facts.places.iter().filter(|place| !place.stays_home()).count();
        prop_assert!(!facts.places[0].stays_home());
        prop_assert_eq!(verdict.records.len(), on * visited);
        for record in &verdict.records {
            let unread = basis.unread_air(candidate, record.place, record.task);
            prop_assert_eq!(record.grade == Grade::Ask, unread.is_some(), "{:?}", record);
            prop_assert_eq!(record.why == unread.map(Why::NotRead), unread.is_some() || record.why.is_none());
            prop_assert!(record.minutes.iter().all(|minutes| (0.0..=60.0).contains(minutes)), "{record:?}");
            prop_assert!(verdict.grade() >= record.grade);
        }
        for place in &facts.places {
            prop_assert_eq!(place.tasks.len(), if place.stays_home() { 0 } else { on });
            let told = format!("{:?}", place.power);
            prop_assert!(!told.contains("NaN"), "{told}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(cases() / 10) })]

    /// And nothing vanishes on the way to the page.
    #[test]
    fn every_task_reaches_the_page(shop in shops()) {
        let basis = Basis::of(&shop);
        let on = basis.tasks.iter().filter(|task| task.on).count();
        let report = report(&shop);
        let judged = report.places.iter().any(|place| !place.tasks.is_empty());
        for place in report.places.iter().filter(|_| judged) {
            let comes = !place.circuit.text.contains("It stays home.");
            prop_assert_eq!(place.tasks.len(), if comes { on } else { 0 });
            prop_assert!(comes || place.sentence.contains("stays home"), "{}", place.sentence);
        }
        let open = basis.candidates[0].unread_air.is_some();
        prop_assert!(!open || report.answer.grade > Shown::Good, "{:?}", report.answer);
        prop_assert!(!report.answer.sentence.trim().is_empty());
        let mut changes = Vec::new();
        proposed(&serde_json::to_value(&report).unwrap(), &mut changes);
        for (path, text) in changes {
            let row = field::find(&path);
            let row = row.ok_or_else(|| TestCaseError::fail(format!("no field {path}")))?;
            let read = row.kind().map_or(Ok(None), |_| row.read(&text, shop.units));
            let read = read.or_else(|error| if row.key == "flow" { STROKE.read(&text, shop.units) } else { Err(error) });
            prop_assert!(read.is_ok() || path.ends_with(".start"), "{path} does not take {text}: {read:?}");
        }
        prop_assert!(!serde_json::to_string(&report).unwrap().contains("NaN"));
    }
}

/// Every text that the report puts into a field, with the field's path: what is taken for blanks, and what fixes try on.
fn proposed(value: &Value, found: &mut Vec<(String, String)>) {
    match value {
        Value::Object(fields) => match (fields.get("field"), fields.get("text")) {
            (Some(Value::String(path)), Some(Value::String(text))) => {
                found.push((path.clone(), text.clone()));
            }
            _ => fields.values().for_each(|value| proposed(value, found)),
        },
        Value::Array(items) => items.iter().for_each(|item| proposed(item, found)),
        _ => {}
    }
}

/// The verdict of four draws: what is asked here is whether there is one, not which.
fn few_draws(basis: &Basis, candidate: &CandidateBasis) -> Option<Verdict> {
    let mut judging = Judging::with(basis, candidate, Draws::of(2, 0))?;
    judging.step(usize::MAX);
    Some(judging.verdict())
}

type Change = fn(&mut Shop);

fn report(shop: &Shop) -> Report {
    let mut memory = Memory::default();
    memory.report(shop, View::default()).clone()
}

/// A shop of one garage and a machine that drills all day.
fn good_shop() -> Shop {
    Shop {
        candidates: vec![Candidate {
            flow: "14 cfm".into(),
            at: "90 psi".into(),
            tank: "80 gal".into(),
            volts: "240 V".into(),
            amps: "22 A".into(),
            ..Candidate::default()
        }],
        ..Shop::fresh()
    }
}

/// What a row of the page says: grade and sentence.
fn row(report: &Report, name: &str) -> (Shown, String) {
    let found = report.places[0].tasks.iter().find(|row| row.name == name);
    let found = found.unwrap_or_else(|| panic!("{name} has vanished"));
    (found.grade, found.sentence.clone())
}

/// A refused figure of one job leaves that job open with the field to blame, the others judged, and no green above it.
#[test]
fn a_task_with_a_refused_figure_is_not_judged_and_does_not_vanish() {
    let before = report(&good_shop());
    for (units, setting, told) in [
        (Units::Us, "450 psi", "use 2 to 200 psi"),
        (Units::Metric, "30", "use 0.138 to 13.7 bar"),
    ] {
        let mut shop = Shop { units, ..good_shop() };
        shop.tasks[0].setting = setting.into();
        let report = report(&shop);
        let name = before.places[0].tasks[0].name.clone();
        assert_eq!(report.places[0].tasks.len(), before.places[0].tasks.len());
        let (grade, sentence) = row(&report, &name);
        assert_eq!(grade, Shown::Unsure);
        assert!(
            sentence.contains("pressure at the tool") && sentence.contains(told),
            "{sentence}"
        );
        assert!(report.answer.grade >= Shown::Unsure, "{:?}", report.answer);
        let others = report.places[0].tasks.iter().filter(|row| row.name != name);
        assert!(others.clone().count() > 0);
        others.for_each(|row| assert_ne!(row.grade, Shown::Unsure, "{row:?}"));
    }
}

/// What the whole line, or the machine, hangs on leaves every job open, none away.
#[test]
fn a_refused_figure_of_line_or_machine_leaves_every_job_open() {
    let cases: [(&str, Change); 9] = [
        ("pressure drop at the regulator", |shop| {
            shop.line.droop = "15 psi/cfm".into()
        }),
        ("number of quick couplers", |shop| {
            shop.line.couplers = "50".into()
        }),
        ("length of the main hose", |shop| {
            shop.line.trunk_length = "0.01 ft".into()
        }),
        ("cut-out", |shop| shop.candidates[0].cut_out = "300 psi".into()),
        ("cut-in", |shop| {
            (shop.candidates[0].cut_in, shop.candidates[0].cut_out) = ("150 psi".into(), "120 psi".into());
        }),
        ("tank", |shop| shop.candidates[0].tank = "20 psi".into()),
        ("flow", |shop| shop.candidates[0].flow = "14 psi".into()),
        ("air temperature", |shop| {
            shop.places[0].temperature = "200 F".into()
        }),
        ("second tank", |shop| shop.auxiliary.tank = "9 A".into()),
    ];
    let rows = report(&good_shop()).places[0].tasks.len();
    for (name, change) in cases {
        let mut shop = good_shop();
        change(&mut shop);
        let report = report(&shop);
        assert!(
            report.answer.grade >= Shown::Unsure,
            "{name}: {:?}",
            report.answer
        );
        let told = [&report.answer.sentence, &report.answer.verdict]
            .map(String::as_str)
            .concat();
        assert!(told.contains("an’t say yet"), "{name}: {told}");
        // A flow that was not read is asked for as one that is not there.
        let named = [name, "such as", "cfm at 90 psi"].map(|word| told.to_lowercase().contains(word));
        assert!(named.contains(&true), "{name}: {told}");
        assert_eq!(report.places[0].tasks.len(), rows, "{name}");
        for row in &report.places[0].tasks {
            assert_eq!(row.grade, Shown::Unsure, "{name}: {row:?}");
        }
    }
}

/// What the table takes is reckoned with: a long hose, a thin whip, a slow regulator, a stroke of a minute.
#[test]
fn what_the_table_takes_is_judged() {
    let cases: [(&str, Change); 5] = [
        ("2,000 ft of hose", |shop| {
            shop.line.trunk_length = "2000 ft".into()
        }),
        ("a whip of 0.2 in", |shop| shop.line.whip_bore = "0.2 in".into()),
        ("10 psi for each cfm", |shop| {
            shop.line.droop = "10 psi/cfm".into()
        }),
        ("a stroke of a minute", |shop| {
            let squeezer = shop.tasks.iter_mut().find(|task| task.kind.by_stroke());
            squeezer.unwrap().trigger_on = "60 s".into();
        }),
        ("cut-in 200, cut-out 240 psi", |shop| {
            (shop.candidates[0].cut_in, shop.candidates[0].cut_out) = ("200 psi".into(), "240 psi".into());
        }),
    ];
    let rows = report(&good_shop()).places[0].tasks.len();
    for (name, change) in cases {
        let mut shop = good_shop();
        change(&mut shop);
        assert!(Basis::of(&shop).faults.is_empty(), "{name}");
        let report = report(&shop);
        assert_eq!(report.places[0].tasks.len(), rows, "{name}");
        for row in &report.places[0].tasks {
            assert_ne!(row.grade, Shown::Unsure, "{name}: {row:?}");
        }
    }
}

/// A circuit that was not judged is not good: a breaker that is none; 12 V and 30 A at the end of 100 ft of 8 AWG.
#[test]
fn a_circuit_that_is_not_judged_is_not_good() {
    let mut breaker = good_shop();
    (breaker.places[0].volts, breaker.places[0].breaker) = ("240 V".into(), "0.5 A".into());
    let mut battery = good_shop();
    (battery.candidates[0].volts, battery.candidates[0].amps) = ("12 V".into(), "30 A".into());
    (battery.places[0].volts, battery.places[0].cord_gauge) = ("12 V".into(), "8 AWG".into());
    battery.places[0].cord_length = "100 ft".into();
    for shop in [breaker, battery] {
        let report = report(&shop);
        let circuit = &report.places[0].circuit;
        assert!(
            circuit.grade > Shown::Good && circuit.grade != Shown::Note,
            "{circuit:?}"
        );
        assert!(report.answer.grade > Shown::Good, "{:?}", report.answer);
    }
}
