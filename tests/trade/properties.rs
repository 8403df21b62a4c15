//! What holds of every answer, over drawn shops: judgement, but where a line names its source.

use super::shops::{answered, said, shop, typed_into};
use crate::drawn::Stream;
use bellows::answer::report::Report;
use bellows::judge::grade::Grade;
use bellows::shop::{Shop, Units};
use regex::Regex;

/// Shops in the gate, some 20 s; TRADE_SHOPS sets another count, TRADE_SEED another start.
const SHOPS: u64 = 60;
const SEED: u64 = 20_261;

/// The index of one of so many.
fn below(draws: &mut Stream, count: usize) -> usize {
    ((draws.bits() >> 33) as usize) % count
}

fn one_of<'a>(draws: &mut Stream, texts: &[&'a str]) -> &'a str {
    texts[below(draws, texts.len())]
}

const LABELS: [&str; 11] = [
    "20 gal 4.0 cfm @ 90",
    "60 gal 14 cfm @ 90, 240 V",
    "6 gal 2.6 cfm @ 90, 120 V 12 A, 30 lb",
    "8 gal 3.1 cfm @ 90, 120 V 10 A, oil-free",
    "20 gal 4.0 cfm @ 90, 120 V 14 A, 125 lb",
    "26 gal 5.0 cfm @ 90, 120/240 V 15/7.5 A, 160 lb",
    "30 gal 5.3 cfm @ 90, 120 V 15 A",
    "60 gal 11.5 cfm @ 90, 240 V 15 A, 300 lb",
    "80 gal 17 cfm @ 90, 240 V 22 A, 430 lb",
    "10 gal 13 cfm @ 90, 240 V 22 A, 250 lb",
    "80 gal 18 cfm @ 90, 230 V 3 phase 14 A",
];
/// A field's path, and texts that may be typed into it; blank leaves it as it is.
type Field = (&'static str, &'static [&'static str]);
const TYPED: [Field; 16] = [
    ("places.0.breaker", &["", "", "15 A", "20 A", "30 A"]),
    ("places.0.volts", &["", "120 V", "240 V"]),
    ("places.0.branch_gauge", &["", "", "14 AWG", "12 AWG", "10 AWG"]),
    ("places.0.other_load", &["", "", "", "2 A", "6 A"]),
    ("places.0.cord_gauge", &["", "", "16 AWG", "14 AWG", "12 AWG"]),
    ("places.0.cord_length", &["", "25 ft", "50 ft", "100 ft"]),
    ("places.0.generator", &["", "", "", "", "3.5 kVA"]),
    ("places.0.altitude", &["", "", "5,000 ft"]),
    ("places.1.name", &["", "", "Hangar"]),
    ("candidates.0.cut_out", &["", "", "125 psi", "150 psi"]),
    ("candidates.0.stamp", &["", "", "", "125 psi", "no stamp"]),
    ("auxiliary.tank", &["", "", "", "20 gal"]),
    ("auxiliary.rated", &["150 psi", "100 psi"]),
    ("line.pipe", &["", "", "", "copper", "PVC", "grey stuff"]),
    ("tasks.8.on", &["false", "false", "true"]),
    ("tasks.9.on", &["false", "false", "false", "true"]),
];

const METRIC_LABELS: [&str; 5] = [
    "24 l 100 l/min FAD @ 7 bar 1.1 kW 230 V 5 A",
    "50 l 9.6 A 230 V 200 l/min FAD at 7 bar",
    "100 l 3 kW 230 V 13.5 A 320 l/min FAD",
    "50 l 1.5 kW 230 V 206 l/min suction 8 bar",
    "200 l 2.2 kW 230 V 260 l/min FAD @ 7 bar",
];
const METRIC_TYPED: [Field; 9] = [
    ("places.0.outlet", &["", "BS 1363", "Schuko"]),
    ("places.0.breaker", &["", "16 A", "32 A"]),
    ("places.0.branch_gauge", &["", "1.5 mm2", "2.5 mm2"]),
    ("places.0.cord_gauge", &["", "", "1.5 mm2", "2.5 mm2"]),
    ("places.0.cord_length", &["", "10 m", "25 m", "50 m"]),
    ("places.0.generator", &["", "", "", "3 kVA"]),
    ("places.0.other_load", &["", "", "6 A"]),
    ("tasks.8.on", &["false", "false", "true"]),
    ("tasks.9.on", &["false", "false", "true"]),
];

/// One shop in five is a metric one.
fn drawn(draws: &mut Stream) -> (Shop, Vec<(&'static str, &'static str)>) {
    let metric = below(draws, 5) == 0;
    let (units, labels, fields): (Units, &[&str], &[Field]) = match metric {
        true => (Units::Metric, &METRIC_LABELS, &METRIC_TYPED),
        false => (Units::Us, &LABELS, &TYPED),
    };
    let label = one_of(draws, labels);
    let mut typed: Vec<(&str, &str)> = vec![("label", label)];
    typed.extend(fields.iter().map(|(path, texts)| (*path, one_of(draws, texts))));
    let fields: Vec<(&str, &str)> = typed
        .iter()
        .skip(1)
        .filter(|(_, text)| !text.is_empty())
        .copied()
        .collect();
    (shop(units, label, &fields), typed)
}

fn text_of(typed: &[(&str, &str)], path: &str) -> String {
    let found = typed.iter().find(|(field, _)| *field == path);
    found.map_or_else(String::new, |(_, text)| (*text).to_owned())
}

fn has(pattern: &str, text: &str) -> bool {
    Regex::new(pattern).unwrap().is_match(text)
}

/// NEC 240.4(D): 15 A on 14 AWG, 20 on 12, 30 on 10 of copper. Tanks: the stamp bears the switch (OSHA 1910.169).
fn unsafe_as_typed(typed: &[(&str, &str)]) -> bool {
    let number = |path: &str| {
        text_of(typed, path)
            .split(' ')
            .next()
            .filter(|text| text.starts_with(|c: char| c.is_ascii_digit()))
            .map(|text| text.parse::<f64>().unwrap())
    };
    let most = number("places.0.branch_gauge").map(|gauge| match gauge as u32 {
        14 => 15.0,
        12 => 20.0,
        _ => 30.0,
    });
    let grid = text_of(typed, "places.0.generator").is_empty();
    let copper = matches!((number("places.0.breaker"), most), (Some(breaker), Some(most)) if breaker > most);
    // Metric wire has tables of its own.
    let wire = grid && copper && !text_of(typed, "places.0.branch_gauge").contains("mm2");
    let stamp = match text_of(typed, "candidates.0.stamp").as_str() {
        "no stamp" => true,
        _ => {
            matches!((number("candidates.0.cut_out"), number("candidates.0.stamp")), (Some(out), Some(stamp)) if out > stamp)
        }
    };
    wire || stamp || text_of(typed, "line.pipe") == "PVC"
}

/// Breakers (NEC 240.6, IEC 60898), gauges and bores that no store has, in all that the sections say.
fn not_sold(report: &Report) -> Vec<String> {
    let rules = [
        (
            r"(\d+) A(?: breaker|, \d+ V circuit| circuit)",
            &["15", "16", "20", "25", "30", "32", "40", "50", "60", "63"][..],
        ),
        (
            r"(\d+)[- ]gauge (?:cord|wire)",
            &["18", "16", "14", "12", "10", "8", "6"][..],
        ),
        (
            r"(\d+/\d+) in (?:main |whip )?hose",
            &["1/4", "3/8", "1/2", "3/4"][..],
        ),
        (
            r"second tank of (\d+) gal",
            &["8", "10", "15", "20", "30", "60", "80"][..],
        ),
    ];
    let all: String = ["mend", "plan", "money", "line", "power"]
        .map(|id| said(report, id))
        .join(" ");
    let mut odd = Vec::new();
    for (pattern, sold) in rules {
        for found in Regex::new(pattern).unwrap().captures_iter(&all) {
            if !sold.contains(&&found[1]) {
                odd.push(format!("not sold: {}", &found[0]));
            }
        }
    }
    odd
}

/// Sections against one another.
fn contradictions(report: &Report) -> Vec<String> {
    let [head, plan, carry, money, power, window] =
        ["head", "plan", "carry", "money", "power", "look for"].map(|id| said(report, id));
    let mut found = Vec::new();
    let mut check = |wrong: bool, what: &str| {
        if wrong {
            found.push(format!("{what}: {head} | {plan} | {carry}"));
        }
    };
    let standing = report.answer.standing;
    let alone = report.places.len() == 1;
    check(
        alone && standing > Grade::Wait && has("works as is", &plan),
        "planned as it is",
    );
    check(
        alone && standing == Grade::Good && !has("works as is", &plan),
        "good, and planned with a want",
    );
    check(
        has("stays at “", &carry) != has("it does not come here", &plan),
        "carrying and plan differ on what stays",
    );
    check(
        has(r"\d cord\b|gauge cord", &money) && !has("cord", &power),
        "a cord is priced that power does not ask for",
    );
    check(
        has("circuit by an electrician", &money) != has("circuit of its own", &plan),
        "money and plan differ on the circuit",
    );
    let size = Regex::new(r"ook for ([\d.]+ cfm) or more on a ([\d.]+ gal) tank").unwrap();
    for asked in size.captures_iter(&head) {
        check(
            !window.contains(&asked[1]) || !window.contains(&asked[2]),
            "headline and window differ on what to look for",
        );
    }
    found
}

/// Sentences of some length that two sections say, figures and names and all: each thing is said where it decides.
fn said_twice(report: &Report) -> Vec<String> {
    let mut seen: Vec<(String, &str)> = Vec::new();
    let mut twice = Vec::new();
    for section in &report.sections {
        let texts = section.findings.iter().map(|finding| &finding.text);
        let texts: Vec<&String> = texts.chain(&section.cautions).collect();
        for sentence in texts.iter().flat_map(|text| text.split_inclusive(['.', '?'])) {
            let sentence = sentence.trim().to_owned();
            if sentence.split_whitespace().count() < LONG_SENTENCE {
                continue;
            }
            match seen.iter().find(|(said, _)| *said == sentence) {
                Some((_, id)) if *id != section.id => {
                    twice.push(format!("{id} and {}: {sentence}", section.id));
                }
                Some(_) => {}
                None => seen.push((sentence, &section.id)),
            }
        }
    }
    twice
}

/// Shorter ones are turns of phrase.
const LONG_SENTENCE: usize = 7;

/// Every offered fix, put on, through the whole answer.
fn fixes_that_do_not(shop: &Shop, report: &Report) -> Vec<String> {
    let mend = report.sections.iter().filter(|section| section.id == "mend");
    let remedies = mend.flat_map(|section| section.findings.iter().flat_map(|finding| &finding.remedies));
    let mut failed = Vec::new();
    let text = said(report, "mend");
    for remedy in remedies.take(2) {
        let changes: Vec<(&str, &str)> = remedy
            .changes
            .iter()
            .map(|change| (&*change.field, &*change.text))
            .collect();
        let then = answered(&typed_into(shop, &changes)).answer;
        // Starts that a set leaves are said beside it.
        let starts = then.standing == Grade::Trip
            && then.sentence.contains("starts too often")
            && text.contains("still starts often");
        if then.standing > Grade::Wait && !starts {
            failed.push(format!(
                "“{}” leaves {:?}: {}",
                remedy.label, then.standing, then.sentence
            ));
        }
    }
    failed
}

fn faults(shop: &Shop, typed: &[(&str, &str)]) -> Vec<String> {
    let report = answered(shop);
    let mut found = contradictions(&report);
    found.extend(not_sold(&report));
    found.extend(said_twice(&report));
    found.extend(fixes_that_do_not(shop, &report));
    let standing = report.answer.standing;
    if unsafe_as_typed(typed) && standing != Grade::Danger {
        found.push(format!(
            "not a danger but {standing:?}: {}",
            report.answer.sentence
        ));
    }
    let words = said(&report, "head").split_whitespace().count();
    if words >= MOST_WORDS {
        found.push(format!("{words} words: {}", said(&report, "head")));
    }
    found
}

/// First lines stay under 40 words: they are read in an aisle.
const MOST_WORDS: usize = 40;

fn from_environment(name: &str, usual: u64) -> u64 {
    std::env::var(name).map_or(usual, |text| text.parse().unwrap())
}

#[test]
fn no_answer_contradicts_itself_or_advises_what_is_not_sold() {
    let (count, seed) = (
        from_environment("TRADE_SHOPS", SHOPS),
        from_environment("TRADE_SEED", SEED),
    );
    println!("{count} shops, seed {seed}");
    let mut draws = Stream(seed);
    let mut failed = Vec::new();
    for _ in 0..count {
        let (shop, typed) = drawn(&mut draws);
        let faults = faults(&shop, &typed);
        if !faults.is_empty() {
            failed.push(format!("{typed:?}\n    {}", faults.join("\n    ")));
        }
    }
    assert!(
        failed.is_empty(),
        "seed {seed}: {} of {count} fail:\n{}",
        failed.len(),
        failed.join("\n")
    );
}
