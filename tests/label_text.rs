//! Whole labels as text: listings, plates, scans, dictation. What is taken, what is left, and nothing of a wrong kind.
//!
//! `labels/*.txt` holds invented texts, each with what a person reads off it below a line of dashes: `field: text` for
//! each field, `left: …` for the beginning of each reason. Wordings are the trade's (common practice, no source).

#![allow(clippy::disallowed_methods, reason = "a test asks for what was found")]
#![allow(clippy::unwrap_used, reason = "helpers of tests: a refusal is a failed test")]

use std::{collections::BTreeMap, fs, path::Path, time::Instant};

use bellows::judge::basis::Basis;
use bellows::shop::label::{Field, LabelReading, fill, read_label};
use bellows::shop::{Candidate, Shop, Units};
use proptest::prelude::*;

/// Cases a property is tried with: seconds, not minutes.
const CASES: u32 = 2_000;

/// A text and what a person reads off it.
struct Sheet {
    name: String,
    text: String,
    units: Units,
    fields: BTreeMap<String, String>,
    left: Vec<String>,
}

fn sheets() -> Vec<Sheet> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/labels");
    let mut out = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let whole = fs::read_to_string(&path).unwrap();
        let (text, expected) = whole.split_once("\n----\n").unwrap();
        let mut sheet = Sheet {
            name: path.file_stem().unwrap().to_string_lossy().into_owned(),
            text: text.into(),
            units: Units::Us,
            fields: BTreeMap::new(),
            left: Vec::new(),
        };
        for line in expected.lines() {
            match line.split_once(": ").unwrap() {
                ("units", "metric") => sheet.units = Units::Metric,
                ("left", reason) => sheet.left.push(reason.into()),
                (field, text) => {
                    sheet.fields.insert(field.into(), text.into());
                }
            }
        }
        out.push(sheet);
    }
    out.sort_by(|one, other| one.name.cmp(&other.name));
    out
}

/// What differs between a reading and what was expected, and how many figures were expected.
fn differences(sheet: &Sheet, reading: &LabelReading) -> (Vec<String>, Vec<String>, usize) {
    let name = &sheet.name;
    let mut missed = Vec::new();
    let mut silent = Vec::new();
    for (field, text) in &sheet.fields {
        let found = reading.taken.iter().find(|taken| taken.field.name() == field);
        if found.is_none_or(|found| found.text != *text) {
            missed.push(format!(
                "{name}: {field} is {text}, read {:?}",
                found.map(|found| &found.text)
            ));
        }
    }
    for reason in &sheet.left {
        if !reading.left.iter().any(|left| left.reason.starts_with(reason)) {
            missed.push(format!("{name}: left {reason}, read {:?}", reading.left));
        }
    }
    for taken in &reading.taken {
        let right = sheet
            .fields
            .get(taken.field.name())
            .is_some_and(|text| *text == taken.text);
        if !right && taken.note.is_empty() {
            silent.push(format!(
                "{name}: {} got {} in silence",
                taken.field.name(),
                taken.text
            ));
        }
    }
    (missed, silent, sheet.fields.len() + sheet.left.len())
}

#[test]
fn invented_labels_are_read() {
    let sheets = sheets();
    assert!(sheets.len() >= 60, "{}", sheets.len());
    let (mut missed, mut silent, mut figures) = (Vec::new(), Vec::new(), 0);
    for sheet in &sheets {
        let (one, other, count) = differences(sheet, &read_label(&sheet.text, sheet.units));
        missed.extend(one);
        silent.extend(other);
        figures += count;
    }
    assert!(silent.is_empty(), "{silent:#?}");
    let right = 1.0 - missed.len() as f64 / figures as f64;
    assert!(
        right >= 0.95,
        "{} of {figures} figures missed: {missed:#?}",
        missed.len()
    );
}
/// A label, the units it is read in, and its figures field by field.
type Row = (&'static str, Units, &'static [(Field, &'static str)]);

use Field::*;
use Units::{Metric, Us};

/// The labels that an old hand was asked about, as printed (common practice, no source). Each is read whole.
#[rustfmt::skip]
const ROWS: &[Row] = &[
    ("6 gal pancake 2.6 CFM @ 90, 120 V 12 A, 150 psi", Us, &[(Tank, "6 gal"), (Flow, "2.6 cfm"), (At, "90 psi"), (Volts, "120 V"), (Amps, "12 A"), (CutOut, "150 psi")]),
    ("7 gal 2.1 cfm @ 90, 9 A, 62 dBA, 44 lb", Us, &[(Tank, "7 gal"), (Flow, "2.1 cfm"), (At, "90 psi"), (Amps, "9 A"), (Sound, "62 dBA"), (Weight, "44 lb")]),
    ("20 gal 4.0 @ 90, 14 A 120 V", Us, &[(Tank, "20 gal"), (Flow, "4.0 cfm"), (At, "90 psi"), (Amps, "14 A"), (Volts, "120 V")]),
    ("30 gal 5.0 @ 90, 15 A 120 V, 15 A plug", Us, &[(Tank, "30 gal"), (Flow, "5.0 cfm"), (At, "90 psi"), (Amps, "15 A"), (Volts, "120 V"), (Plug, "15 A")]),
    ("60 gal 11.5 @ 90, 240 V 15 A, 300 lb", Us, &[(Tank, "60 gal"), (Flow, "11.5 cfm"), (At, "90 psi"), (Volts, "240 V"), (Amps, "15 A"), (Weight, "300 lb")]),
    ("60 gal 2.0 @ 90, 8 A", Us, &[(Tank, "60 gal"), (Flow, "2.0 cfm"), (At, "90 psi"), (Amps, "8 A")]),
    ("10 gal 13 @ 90, 240 V 22 A, 250 lb", Us, &[(Tank, "10 gal"), (Flow, "13 cfm"), (At, "90 psi"), (Volts, "240 V"), (Amps, "22 A"), (Weight, "250 lb")]),
    ("10 gal 3.2 @ 90, 12 A", Us, &[(Tank, "10 gal"), (Flow, "3.2 cfm"), (At, "90 psi"), (Amps, "12 A")]),
    ("26 gal 5.0 @ 90, 15 A", Us, &[(Tank, "26 gal"), (Flow, "5.0 cfm"), (At, "90 psi"), (Amps, "15 A")]),
    ("20 gal 4.0 @ 90, 14 A", Us, &[(Tank, "20 gal"), (Flow, "4.0 cfm"), (At, "90 psi"), (Amps, "14 A")]),
    ("20 gal 3.0 @ 90, 11 A", Us, &[(Tank, "20 gal"), (Flow, "3.0 cfm"), (At, "90 psi"), (Amps, "11 A")]),
    ("5 HP peak, 20 gal, 120 V 15 A", Us, &[(PeakPower, "5 hp"), (Tank, "20 gal"), (Volts, "120 V"), (Amps, "15 A")]),
    ("20 gal, 5.5 CFM @ 40 psi, 13 A", Us, &[(Tank, "20 gal"), (Flow2, "5.5 cfm"), (At2, "40 psi"), (Amps, "13 A")]),
    ("6 gal 9.0 CFM @ 90, 120 V 12 A", Us, &[(Tank, "6 gal"), (Flow, "9.0 cfm"), (At, "90 psi"), (Volts, "120 V"), (Amps, "12 A")]),
    ("26 gal, displacement 8.1, delivers 5.6 @ 90, 15 A", Us, &[(Tank, "26 gal"), (Flow, "5.6 cfm"), (At, "90 psi"), (Amps, "15 A")]),
    ("2 x 2 gal twin 4.6 @ 90, 14 A", Us, &[(Tank, "4 gal"), (Flow, "4.6 cfm"), (At, "90 psi"), (Amps, "14 A")]),
    ("20 gal 4.0 @ 90, 14 A, pump-up 0 to 120 timed 6 min 30 s", Us, &[(Tank, "20 gal"), (Flow, "4.0 cfm"), (At, "90 psi"), (Amps, "14 A"), (PumpUp, "6 min 30 s"), (PumpFrom, "0 psi"), (PumpTo, "120 psi")]),
    ("24 l, 180 l/min suction, 8 bar, 1.1 kW 230 V", Metric, &[(Tank, "24 L"), (Suction, "180 L/min"), (CutOut, "8 bar"), (Power, "1.1 kW"), (Volts, "230 V")]),
    ("50 l, 250 l/min FAD @ 7 bar, 2.2 kW 230 V 9.6 A", Metric, &[(Tank, "50 L"), (Flow, "250 L/min"), (At, "7 bar"), (Power, "2.2 kW"), (Volts, "230 V"), (Amps, "9.6 A")]),
    ("5 gal and $129", Us, &[(Tank, "5 gal"), (Price, "$129")]),
    ("6 gal 2.6 @ 90, 12 A", Us, &[(Tank, "6 gal"), (Flow, "2.6 cfm"), (At, "90 psi"), (Amps, "12 A")]),
    ("20 gal 4.2 @ 90, 16 A, 20 A plug", Us, &[(Tank, "20 gal"), (Flow, "4.2 cfm"), (At, "90 psi"), (Amps, "16 A"), (Plug, "20 A")]),
    ("12 A", Us, &[(Amps, "12 A")]),
    ("15 A", Us, &[(Amps, "15 A")]),
    ("8 A", Us, &[(Amps, "8 A")]),
    ("240 V 15 A", Us, &[(Volts, "240 V"), (Amps, "15 A")]),
    ("26 gal 5 @ 90, 120/240 V 15/7.5 A", Us, &[(Tank, "26 gal"), (Flow, "5 cfm"), (At, "90 psi"), (Volts, "120/240 V"), (Amps, "15/7.5 A")]),
    ("20 gal 4.3 cfm @ 90, 120 V 14 A LRA 75", Us, &[(Tank, "20 gal"), (Flow, "4.3 cfm"), (At, "90 psi"), (Volts, "120 V"), (Amps, "14 A"), (Start, "75 A")]),
    ("12 A, LRA 60", Us, &[(Amps, "12 A"), (Start, "60 A")]),
    ("15 A, 1.5 hp, code K", Us, &[(Amps, "15 A"), (Power, "1.5 hp"), (Start, "K")]),
    ("13 A", Us, &[(Amps, "13 A")]),
    ("20 gal 5 @ 90, cut-out 175, tank stamped 125", Us, &[(Tank, "20 gal"), (Flow, "5 cfm"), (At, "90 psi"), (CutOut, "175 psi"), (Stamp, "125 psi")]),
    ("20 gal 4 @ 90, cut-out 135; second tank 20 gal rated 100 psi", Us, &[(Tank, "20 gal"), (Flow, "4 cfm"), (At, "90 psi"), (CutOut, "135 psi")]),
    ("30 gal 5 @ 90", Us, &[(Tank, "30 gal"), (Flow, "5 cfm"), (At, "90 psi")]),
    ("20 gal 4 @ 90", Us, &[(Tank, "20 gal"), (Flow, "4 cfm"), (At, "90 psi")]),
    ("60 gal 11.5 @ 90, 240 V", Us, &[(Tank, "60 gal"), (Flow, "11.5 cfm"), (At, "90 psi"), (Volts, "240 V")]),
    ("60 gal 12 @ 90 240 V 15 A 300 lb", Us, &[(Tank, "60 gal"), (Flow, "12 cfm"), (At, "90 psi"), (Volts, "240 V"), (Amps, "15 A"), (Weight, "300 lb")]),
    ("20 gal 5 @ 90", Us, &[(Tank, "20 gal"), (Flow, "5 cfm"), (At, "90 psi")]),
    ("30 gal 5 @ 90 15 A", Us, &[(Tank, "30 gal"), (Flow, "5 cfm"), (At, "90 psi"), (Amps, "15 A")]),
    ("20 gal used tank, farm store, no stamp", Us, &[(Tank, "20 gal"), (Stamp, "no stamp")]),
    ("any", Us, &[]),
    ("6 gal oil-free, no dB printed", Us, &[(Tank, "6 gal"), (Pump, "oil-free")]),
    ("20 gal oiled belt drive", Us, &[(Tank, "20 gal"), (Pump, "oiled, belt drive")]),
    ("60 gal 11.5 @ 90, 240 V 15 A", Us, &[(Tank, "60 gal"), (Flow, "11.5 cfm"), (At, "90 psi"), (Volts, "240 V"), (Amps, "15 A")]),
    ("60 gal 11.5 @ 90", Us, &[(Tank, "60 gal"), (Flow, "11.5 cfm"), (At, "90 psi")]),
    ("cut-out 125, tank 150, relief valve 175", Us, &[(CutOut, "125 psi"), (Stamp, "150 psi"), (Relief, "175 psi")]),
];

#[test]
fn the_labels_of_a_tool_counter_are_read_whole() {
    for (text, units, expected) in ROWS {
        let reading = read_label(text, *units);
        let mut expected: Vec<(Field, &str)> = expected.to_vec();
        expected.sort();
        let taken: Vec<(Field, &str)> = reading
            .taken
            .iter()
            .map(|taken| (taken.field, &*taken.text))
            .collect();
        assert_eq!(taken, expected, "{text}");
        assert!(reading.unread.is_empty(), "{text}: {:?}", reading.unread);
    }
}

/// What makes a figure none that the machine delivers or does is said in the reader's words.
#[test]
fn what_is_left_is_said() {
    let cases = [
        (
            "displacement 8.1, delivers 5.6 @ 90",
            "8.1 cfm is displacement, not what it delivers",
        ),
        (
            "4 @ 90; second tank 20 gal",
            "20 gal is the second tank's, not the compressor's",
        ),
        (
            "25 ft hose rated 300 psi",
            "300 psi is the hose's, not the compressor's",
        ),
        (
            "requires a 20 A circuit",
            "20 A is the circuit that it asks for, not what it draws",
        ),
        (
            "230 V 3-phase",
            "three-phase: a house outlet has one phase and can't run it",
        ),
        (
            "fills 0-120 psi in 90 s",
            "90 s is the maker's: time it yourself with the gauge",
        ),
    ];
    for (text, reason) in cases {
        let left = read_label(text, Us).left;
        assert!(left.iter().any(|left| left.reason == reason), "{text}: {left:?}");
    }
    let notes = [
        (
            "5 HP peak",
            Us,
            "5 hp is peak power: it tells nothing of what the motor can do",
        ),
        (
            "180 l/min suction",
            Metric,
            "180 L/min is suction, not what it delivers",
        ),
        (
            "5.5 cfm @ 40 psi",
            Us,
            "5.5 cfm is at 40 psi: look for the flow at 90 psi",
        ),
        (
            "97 dB LwA",
            Us,
            "97 dB is sound power: some 8 to 11 dB more than a meter shows at 1 m",
        ),
    ];
    for (text, units, note) in notes {
        let taken = read_label(text, units).taken;
        assert!(taken.iter().any(|taken| taken.note == note), "{text}: {taken:?}");
    }
}

#[test]
fn only_what_was_found_is_filled() {
    let mut machine = Candidate {
        name: "Mine".into(),
        tank: "20 gal".into(),
        volts: "120 V".into(),
        ..Candidate::default()
    };
    fill(
        &read_label("two-stage, wheels, 60 gal, 11.5 cfm @ 90", Us),
        &mut machine,
    );
    assert_eq!((&*machine.name, &*machine.volts), ("Mine", "120 V"));
    assert_eq!(
        (&*machine.tank, &*machine.flow, &*machine.at),
        ("60 gal", "11.5 cfm", "90 psi")
    );
    assert!(machine.wheels && machine.kind == bellows::quantity::MachineKind::PistonTwoStage);
}

/// Whether the field's own row in the table reads a text that was taken.
fn read_back(field: Field, text: &str, units: Units) -> bool {
    let row = field.row();
    let figure = |text: &str| matches!(row.read(text.trim(), units), Ok(Some(_)));
    match field {
        // The judge reads the phases behind the volts by themselves.
        Volts => text
            .strip_suffix(" 3-phase")
            .unwrap_or(text)
            .split(['/', '-'])
            .all(figure),
        Amps => text.split(['/', '-']).all(figure),
        Start => figure(text) || text.len() == 1,
        Stamp => figure(text) || text == "no stamp",
        _ => row.kind().is_none() && !text.is_empty() || figure(text),
    }
}

/// Whether the judge, given a label's figures alone, refuses none of those that stand for themselves.
fn refused(reading: &LabelReading, units: Units) -> Vec<String> {
    let mut machine = Candidate::default();
    fill(reading, &mut machine);
    // Whether cut-in lies below cut-out and whether a time can be true is judged between fields, not read in one.
    machine.cut_in.clear();
    machine.pump_up.clear();
    machine.at = if machine.flow.is_empty() {
        String::new()
    } else {
        machine.at
    };
    let shop = Shop {
        candidates: vec![machine],
        ..Shop::fresh_in(units)
    };
    let own = |field: &str| {
        [
            "flow", "flow2", "tank", "volts", "amps", "power", "start", "weight", "price", "sound",
        ]
        .contains(&field)
    };
    let faults = Basis::of(&shop).faults;
    let of_machine = faults
        .iter()
        .filter(|fault| fault.path().strip_prefix("candidates.0.").is_some_and(own));
    of_machine
        .map(|fault| format!("{}: {}", fault.path(), fault.message))
        .collect()
}

#[test]
fn what_was_taken_is_no_fault_in_its_field() {
    for sheet in sheets() {
        let reading = read_label(&sheet.text, sheet.units);
        assert_eq!(
            refused(&reading, sheet.units),
            Vec::<String>::new(),
            "{}",
            sheet.name
        );
    }
}

fn held(text: &str, units: Units) -> Result<(), TestCaseError> {
    let reading = read_label(text, units);
    for taken in &reading.taken {
        prop_assert!(
            text.get(taken.piece.clone())
                .is_some_and(|piece| !piece.is_empty()),
            "{taken:?}"
        );
        prop_assert!(read_back(taken.field, &taken.text, units), "{taken:?}");
    }
    for left in &reading.left {
        prop_assert!(
            text.get(left.piece.clone())
                .is_some_and(|piece| !piece.is_empty()),
            "{left:?}"
        );
    }
    for piece in &reading.unread {
        prop_assert!(
            text.get(piece.clone()).is_some_and(|piece| !piece.is_empty()),
            "{piece:?}"
        );
    }
    let mut fields: Vec<Field> = reading.taken.iter().map(|taken| taken.field).collect();
    fields.dedup();
    prop_assert_eq!(fields.len(), reading.taken.len());
    prop_assert_eq!(refused(&reading, units), Vec::<String>::new());
    Ok(())
}

/// Words and figures of labels in any order: what a listing may come to.
fn soup() -> impl Strategy<Value = String> {
    let word = prop::sample::select(vec![
        "6",
        "2.6",
        "90",
        "120",
        "1/2",
        "1-1/2",
        "15/7.5",
        "120/240",
        "1,299",
        "O",
        "0",
        "2 x 2",
        "6:30",
        "½",
        "3",
        "40",
        "150",
        "gal",
        "cfm",
        "SCFM",
        "@",
        "at",
        "psi",
        "bar",
        "V",
        "A",
        "hp",
        "kW",
        "l/min",
        "l",
        "dBA",
        "lb",
        "#",
        "$",
        "€",
        "%",
        "ft",
        "in",
        "min",
        "s",
        "Hz",
        "phase",
        "to",
        "-",
        "/",
        ",",
        ";",
        ":",
        "(",
        ")",
        ".",
        "\n",
        "\n\n",
        "max",
        "peak",
        "running",
        "displacement",
        "suction",
        "delivered",
        "hose",
        "nailer",
        "tank",
        "stamped",
        "relief",
        "cut-in",
        "cut-out",
        "second tank",
        "two point six",
        "ninety",
        "hundred",
        "and a half",
        "p s i",
        "code K",
        "LRA",
        "plug",
        "NEMA 5-15P",
        "each",
        "twin",
        "timed",
        "pump-up",
        "LwA",
        "duty",
        "was",
        "now",
        "two-stage",
        "oil-free",
        "no stamp",
        "includes",
        "circuit",
        "battery",
    ]);
    prop::collection::vec((word, prop::sample::select(vec![" ", " ", "", "\n"])), 0..40).prop_map(|parts| {
        parts
            .into_iter()
            .map(|(word, gap)| format!("{word}{gap}"))
            .collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(CASES) })]

    #[test]
    fn any_text_is_read_without_a_panic(text in "\\PC{0,300}", us in any::<bool>()) {
        held(&text, if us { Us } else { Metric })?;
    }

    #[test]
    fn any_order_of_label_words_is_read(text in soup(), us in any::<bool>()) {
        held(&text, if us { Us } else { Metric })?;
    }
}

/// Milliseconds that this thread has had a processor, where the system tells (Linux), so that other work on the machine
/// does not count; else the clock's.
fn worked(since: Instant) -> f64 {
    let told = fs::read_to_string("/proc/thread-self/schedstat").ok();
    let nanoseconds = told.and_then(|text| text.split(' ').next()?.parse::<f64>().ok());
    nanoseconds.map_or(since.elapsed().as_secs_f64() * 1e3, |ns| ns * 1e-6)
}

/// Bytes that each measurement reads in all: tens of milliseconds and more, as the system counts in ticks.
const READ_IN_ALL: usize = 1 << 18;

/// Milliseconds for texts of `length` bytes, made of a part over and over, that come to [`READ_IN_ALL`].
fn milliseconds(part: &str, length: usize) -> f64 {
    let text = part.repeat(length / part.len() + 1);
    let since = Instant::now();
    let begun = worked(since);
    for _ in 0..READ_IN_ALL / length {
        assert!(read_label(&text[..length], Us).taken.len() < 40);
    }
    worked(since) - begun
}

/// The same bytes in texts sixteen times as long take as long; three times that is allowed, as long texts outgrow the
/// processor's cache. What grows with the square would take sixteen times as long.
#[test]
fn time_grows_with_the_text_and_no_faster() {
    let parts = [
        "6 gal 2.6 cfm @ 90 psi, hose 300 psi, 120/240 V 15/7.5 A; displacement 8.1\n",
        "1 2 3 4 5 6 7 8 9 ",
        "1/2/3/4/",
        "9,9.",
        "tank ",
        "------------",
        "\n",
        "2 .6 ",
        "one two three hundred and ",
        "p s i . ",
        "( ",
        "O0Ol",
        "lOIl1",
    ];
    for part in parts {
        let (short, long) = (milliseconds(part, 4_096), milliseconds(part, 65_536));
        assert!(long < 16.0 * short.max(0.5), "{part:?}: {short} ms, {long} ms");
    }
}
