//! What a label says, leaves out or gets wrong, through the whole answer: shop in, report out.

#![allow(clippy::unwrap_used, reason = "helpers of tests: a refusal is a failed test")]

use bellows::answer::report;
use bellows::answer::report::{Finding, Grade, Report, View};
use bellows::judge::basis::StartClue;
use bellows::quantity::M3_PER_GALLON;
use bellows::shop::{Candidate, Shop, Units};

/// The example shop with its first machine's label changed.
fn labelled(change: impl Fn(&mut Candidate)) -> Shop {
    let mut shop = Shop::demo();
    change(&mut shop.candidates[0]);
    shop
}

fn answered(shop: &Shop) -> Report {
    let report = report(shop, View::default());
    assert!(!report.answer.sentence.trim().is_empty());
    // What to look for stands by itself.
    let is_blank = report.answer.sentence.starts_with("Look for ");
    assert!(is_blank || !report.answer.verdict.trim().is_empty());
    report
}

fn finding<'a>(report: &'a Report, id: &str) -> Option<&'a Finding> {
    report
        .sections
        .iter()
        .find(|section| section.id == "label")?
        .findings
        .iter()
        .find(|finding| finding.id == id)
}

/// The finding of that name; its text must show every one of `figures`.
fn found(report: &Report, id: &str, grade: Grade, figures: &[&str]) {
    let finding = finding(report, id).unwrap_or_else(|| panic!("no finding {id}"));
    assert_eq!(finding.grade, grade, "{id}: {}", finding.text);
    for figure in figures {
        assert!(finding.text.contains(figure), "“{}” lacks {figure}", finding.text);
    }
    assert!(!finding.basis.is_empty(), "{id} rests on nothing");
}

#[test]
fn an_honest_label_is_not_faulted() {
    let report = answered(&labelled(|label| label.power = "1 hp".into()));
    assert!(report.faults.is_empty(), "{:?}", report.faults);
    found(&report, "claim", Grade::Good, &[]);
    for id in ["contradiction", "horsepower", "plug", "guess"] {
        assert!(finding(&report, id).is_none(), "{id}");
    }
}

/// The two ends of a guess, as its text writes them: "between 2.3 cfm and 4.6 cfm".
fn ends(text: &str) -> [f64; 2] {
    let after = |word: &str| -> f64 {
        let rest = text
            .split_once(word)
            .unwrap_or_else(|| panic!("no {word} in {text}"))
            .1;
        rest.split(" cfm").next().unwrap().trim().parse().unwrap()
    };
    [after("between "), after(" and ")]
}

#[test]
fn a_missing_flow_is_a_guess_and_says_so() {
    for (amps, power) in [("11.5 A", "1.5 hp"), ("11.5 A", ""), ("", "1.5 hp")] {
        let report = answered(&labelled(|label| {
            label.flow.clear();
            label.at.clear();
            label.amps = amps.into();
            label.power = power.into();
        }));
        found(&report, "guess", Grade::Unsure, &["guess", "cfm", "90 psi"]);
        let [low, high] = ends(&finding(&report, "guess").unwrap().text);
        // Common practice, no source: machines of one horsepower differ by about two in flow.
        assert!(high > 1.5 * low && low > 0.0, "{low} to {high}");
        assert!(report.answer.grade >= Grade::Unsure, "{:?}", report.answer);
        let label = report
            .sections
            .iter()
            .find(|section| section.id == "label")
            .unwrap();
        for figure in label.figures.iter().filter(|figure| figure.value.contains("cfm")) {
            let said = figure.value.contains(" to ") || figure.value.contains("guess");
            assert!(said, "looks measured: {} {}", figure.name, figure.value);
        }
    }
}

#[test]
fn a_label_that_tells_nothing_gets_what_to_look_for() {
    let report = answered(&Shop::fresh());
    assert!(
        report.answer.sentence.starts_with("Look for 4 cfm"),
        "{}",
        report.answer.sentence
    );
    assert!(report.window.sentence.contains("cfm") && report.window.sentence.contains("gal"));
    found(&report, "missing", Grade::Note, &["flow", "tank", "amps"]);
}

#[test]
fn two_swapped_flows_contradict_each_other() {
    let report = answered(&labelled(|label| {
        (label.flow, label.at) = ("4.2 cfm".into(), "40 psi".into());
        (label.flow2, label.at2) = ("5.3 cfm".into(), "90 psi".into());
    }));
    found(
        &report,
        "contradiction",
        Grade::Poor,
        &["4.2 cfm", "40 psi", "5.3 cfm", "90 psi", "swapped"],
    );
}

#[test]
fn two_flows_that_fall_too_fast_contradict_each_other() {
    let report = answered(&labelled(|label| {
        (label.flow, label.at) = ("0.5 cfm".into(), "90 psi".into());
        (label.flow2, label.at2) = ("9 cfm".into(), "40 psi".into());
    }));
    found(
        &report,
        "contradiction",
        Grade::Poor,
        &["9 cfm", "40 psi", "0.5 cfm", "90 psi"],
    );
}

/// Machinery's Handbook 31, table 36: 0.170 hp for 1 cfm at 90 psi, so 12 cfm take at least 2.04 hp; 5 A at
/// 120 V are 600 W, 0.805 hp. The table reads half a per cent higher than the formula, which writes 2.03.
#[test]
fn a_flow_that_the_plate_cannot_feed_is_not_believed() {
    let report = answered(&labelled(|label| {
        label.flow = "12 cfm".into();
        label.amps = "5 A".into();
        label.volts = "120 V".into();
        label.power.clear();
    }));
    found(&report, "claim", Grade::Bad, &["2.03 hp", "0.805 hp"]);
    // A contradiction is neither good nor bad: it is asked about.
    assert_eq!(report.answer.grade, Grade::Unsure);
    assert!(
        report.answer.sentence.contains("isn't possible on 5 A"),
        "{}",
        report.answer.sentence
    );
}

/// 15 A at 120 V are 1,800 W, 2.4 hp before any loss: common practice, no source, that a plug of that kind yields about
/// 1.5 to 2 hp at the shaft.
#[test]
fn horsepower_that_the_plug_cannot_supply_is_called_out() {
    let report = answered(&labelled(|label| {
        label.power = "5 hp".into();
        label.amps = "15 A".into();
        label.volts = "120 V".into();
    }));
    found(
        &report,
        "horsepower",
        Grade::Fair,
        &["5 hp", "15 A", "120 V", "peak"],
    );
}

#[test]
fn flow_and_pressure_may_stand_in_one_field() {
    let one = answered(&labelled(|label| {
        label.flow = "5.1 cfm @ 90 psi".into();
        label.at.clear();
    }));
    let two = answered(&labelled(|label| {
        label.flow = "5.1 cfm".into();
        label.at = "90 psi".into();
    }));
    assert!(one.faults.is_empty(), "{:?}", one.faults);
    assert_eq!(one, two);
}

/// Texts that a field cannot take: where, what, and a word that its sentence must hold.
const REFUSED: [(&str, &str, &str); 17] = [
    ("candidates.0.flow", "5.i cfm", "cfm"),
    ("candidates.0.flow", "0 cfm", ""),
    ("candidates.0.flow", "-3 cfm", ""),
    ("candidates.0.flow", "50000 cfm", "cfm"),
    ("candidates.0.flow", "20 gal", "gal"),
    ("candidates.0.tank", "20 psi", "psi"),
    ("candidates.0.tank", "0 gal", ""),
    ("candidates.0.tank", "-20 gal", ""),
    ("candidates.0.tank", "twenty", "gal"),
    ("candidates.0.amps", "1e9 A", ""),
    ("candidates.0.volts", "0 V", ""),
    ("candidates.0.duty", "300 %", "%"),
    ("candidates.0.start", "six times", ""),
    ("candidates.0.cut_in", "130 psi", "cut-out"),
    ("places.1.altitude", "40,000 ft", "ft"),
    ("places.0.breaker", "0 A", ""),
    ("tasks.0.lowest", "100 psi", "setting"),
];

fn put(shop: &mut Shop, path: &str, text: &str) {
    let mut tree = serde_json::to_value(&*shop).unwrap();
    let pointer = format!("/{}", path.replace('.', "/"));
    *tree
        .pointer_mut(&pointer)
        .unwrap_or_else(|| panic!("no field {path}")) = text.into();
    *shop = bellows::shop::file::in_tree(&tree).unwrap();
}

#[test]
fn a_text_that_cannot_be_read_is_a_fault_at_its_field_and_no_more() {
    for (path, text, word) in REFUSED {
        let mut shop = Shop::demo();
        put(&mut shop, path, text);
        let before = shop.clone();
        let report = answered(&shop);
        assert_eq!(shop, before, "{path} “{text}” was touched");
        let faults: Vec<_> = report.faults.iter().map(|fault| fault.field.as_str()).collect();
        assert_eq!(faults, [path], "“{text}”: {:?}", report.faults);
        let message = &report.faults[0].message;
        assert!(
            message.len() > 15 && message.contains(word),
            "{path} “{text}”: {message}"
        );
        // All else is still answered.
        assert_eq!(report.places.len(), 2, "{path} “{text}”");
        assert!(
            report.window.sentence.starts_with("Look for at least"),
            "{}",
            report.window.sentence
        );
        assert!(
            report
                .places
                .iter()
                .all(|place| place.tasks.len() == shop.tasks.iter().filter(|task| task.on).count()),
            "{path} “{text}”"
        );
    }
}

#[test]
fn a_shop_that_lacks_something_says_what() {
    let mut no_places = Shop::demo();
    no_places.places.clear();
    let report = answered(&no_places);
    assert_eq!(report.answer.grade, Grade::Unsure);
    assert!(
        report.answer.sentence.contains("no place"),
        "{}",
        report.answer.sentence
    );

    let mut no_tasks = Shop::demo();
    no_tasks.tasks.clear();
    assert!(answered(&no_tasks).answer.sentence.contains("no task"));

    let mut none_on = Shop::demo();
    none_on.tasks.iter_mut().for_each(|task| task.on = false);
    assert!(answered(&none_on).answer.sentence.contains("no task"));

    let mut no_candidates = Shop::demo();
    no_candidates.candidates.clear();
    let report = answered(&no_candidates);
    assert_eq!(report.answer.sentence, report.window.sentence);
    assert!(report.window.sentence.contains("cfm"));

    let blank = answered(&Shop::default());
    assert!(blank.faults.is_empty());
}

#[test]
fn a_shop_in_metric_units_is_answered_in_them() {
    let mut shop = labelled(|label| {
        (label.flow, label.at) = ("119 L/min".into(), "6.2 bar".into());
        label.tank = "76 L".into();
        (label.cut_in, label.cut_out) = ("6.2 bar".into(), "8.3 bar".into());
        label.weight = "57 kg".into();
    });
    let us = answered(&shop);
    shop.units = Units::Metric;
    let metric = answered(&shop);
    assert!(metric.faults.is_empty(), "{:?}", metric.faults);
    assert!(
        metric.window.sentence.contains("L/min at 6.2 bar"),
        "{}",
        metric.window.sentence
    );
    assert!(!metric.window.sentence.contains("cfm") && !metric.answer.sentence.contains("psi"));
    let grades = |report: &Report| -> Vec<Grade> {
        report
            .places
            .iter()
            .flat_map(|place| place.tasks.iter().map(|task| task.grade))
            .collect()
    };
    assert_eq!(grades(&us), grades(&metric), "units change no verdict");
}

#[test]
fn words_around_printed_horsepower_are_no_fault() {
    // Labels print "peak", "max" and "running" beside the figure: common practice, no source.
    for text in ["2.5 HP PEAK", "Peak 2.5 hp", "2.5 hp (max)", "2-1/2 HP running"] {
        let mut shop = Shop::fresh();
        shop.candidates[0].power = text.into();
        let report = report(&shop, View::default());
        assert!(report.faults.is_empty(), "{text}: {:?}", report.faults);
        assert!(
            report.answer.sentence.contains("horsepower"),
            "{text}: {}",
            report.answer.sentence
        );
    }
}

#[test]
fn the_plan_does_not_call_an_overloaded_circuit_ready() {
    let mut shop = Shop::demo();
    shop.candidates[0].amps = "14 A".into();
    let report = report(&shop, View::default());
    let plan = report
        .sections
        .iter()
        .find(|section| section.id == "plan")
        .unwrap();
    let now = plan
        .findings
        .iter()
        .find(|finding| finding.id == "stage-0")
        .unwrap();
    // 14 A and the garage's 1.5 A are more than its 15 A breaker holds for good (UL 489).
    assert!(now.text.contains("another breaker"), "{}", now.text);
}

#[test]
fn a_plate_for_two_voltages_is_read_for_the_outlet() {
    // Motors for two voltages print both, with the current of each: common practice, no source.
    let drawn = |volts: &str, amps: &str, mains: &str| {
        let mut shop = Shop::fresh();
        shop.places[0].volts = mains.into();
        (shop.candidates[0].volts, shop.candidates[0].amps) = (volts.into(), amps.into());
        let basis = bellows::judge::basis::Basis::of(&shop);
        assert!(basis.faults.is_empty(), "{volts}, {amps}: {:?}", basis.faults);
        (basis.candidates[0].volts.value, basis.candidates[0].amps)
    };
    assert_eq!(drawn("115/230", "15/7.5", "120 V"), (115.0, Some(15.0)));
    assert_eq!(drawn("115/230 V", "15/7.5 A", "240 V"), (230.0, Some(7.5)));
    assert_eq!(drawn("120V/60Hz", "12 A", "120 V"), (120.0, Some(12.0)));
    assert_eq!(drawn("120V 60Hz", "FLA 12", "120 V"), (120.0, Some(12.0)));
    // Volts, phases, hertz: common practice, no source.
    assert_eq!(drawn("120-1-60", "12.0 FLA", "120 V"), (120.0, Some(12.0)));
    assert_eq!(drawn("230-1-50", "7", "230 V"), (230.0, Some(7.0)));
    assert_eq!(drawn("", "12", "120 V"), (120.0, Some(12.0)));
    // One outlet, two currents: the larger belongs to the lower voltage.
    assert_eq!(drawn("120", "14.5/7.2", "120 V"), (120.0, Some(14.5)));
    assert_eq!(drawn("230", "14.5/7.2 A", "230 V"), (230.0, Some(7.2)));
}

/// The figure nearest the eye is the tank's limit, and two figures are no fraction: both once gave a flow.
#[test]
fn a_pressure_that_is_none_of_the_flow_is_refused_with_a_question() {
    for (field, text, asks) in [
        ("at", "90/40", "which of them"),
        ("at", "max 150", "what pressure stands beside the flow?"),
        ("at", "150 PSI MAX", "what pressure stands beside the flow?"),
        ("at", "400", "out of range"),
        ("flow", "7.3/6.1", "two figures"),
        ("flow", "6/7", "two figures"),
    ] {
        let mut shop = Shop::fresh();
        let label = &mut shop.candidates[0];
        (label.flow, label.at) = ("5".into(), "90".into());
        *(if field == "at" {
            &mut label.at
        } else {
            &mut label.flow
        }) = text.into();
        let faults = bellows::judge::basis::Basis::of(&shop).faults;
        let [fault] = &faults[..] else {
            panic!("{text}: {faults:?}")
        };
        assert_eq!(fault.path(), format!("candidates.0.{field}"));
        assert!(fault.message.contains(asks), "{}", fault.message);
    }
}

#[test]
fn a_figure_is_read_with_what_a_carton_prints_around_it() {
    // Common practice, no source.
    let mut shop = Shop::fresh();
    let label = &mut shop.candidates[0];
    (label.flow, label.at, label.tank) = ("5.1 SCFM".into(), "@90".into(), "15-gallon ASME".into());
    (label.sound, label.duty, label.weight) =
        ("<78 dBA".into(), "70% duty cycle".into(), "approx. 90 lb".into());
    let basis = bellows::judge::basis::Basis::of(&shop);
    assert!(basis.faults.is_empty(), "{:?}", basis.faults);
    let candidate = &basis.candidates[0];
    assert!((candidate.tank_m3.value - 15.0 * M3_PER_GALLON).abs() < 1e-9);
    assert!((candidate.flows[0].1.as_psi() - 90.0).abs() < 1e-9 && candidate.pressure_stated);
    assert!((candidate.duty.value - 0.7).abs() < 1e-9);
    for (flow, cfm) in [("SCFM 5", 5.0), ("CFM: 5.1 @ 90 psi", 5.1), ("5.2 scfm @90", 5.2)] {
        shop.candidates[0].flow = flow.into();
        let basis = bellows::judge::basis::Basis::of(&shop);
        assert!(basis.faults.is_empty(), "{flow}: {:?}", basis.faults);
        assert!(
            (basis.candidates[0].flows[0].0.as_cfm() - cfm).abs() < 1e-6,
            "{flow}"
        );
    }
    shop.candidates[0].flow.clear();
    for tank in ["15 gal. tank", "15-gal pancake", "15 gallon vertical tank"] {
        shop.candidates[0].tank = tank.into();
        let basis = bellows::judge::basis::Basis::of(&shop);
        assert!(
            (basis.candidates[0].tank_m3.value - 15.0 * M3_PER_GALLON).abs() < 1e-9,
            "{tank}"
        );
    }
    // Words alone are still refused, a mixed number keeps its hyphen, and a minus stays a minus.
    for (tank, faults) in [("ASME", 1), ("15-gallon-ish", 1), ("-15", 1), ("1-1/2 gal", 0)] {
        shop.candidates[0].tank = tank.into();
        assert_eq!(
            bellows::judge::basis::Basis::of(&shop).faults.len(),
            faults,
            "{tank}"
        );
    }
}

/// Flexible cords come in 0.75, 1, 1.5, 2.5, 4, 6, 10 mm² (IEC 60228, from memory): a metric shop is told such a size,
/// and it does when tried on.
#[test]
fn a_metric_shop_is_told_a_cord_that_it_can_buy() {
    let mut shop = Shop::fresh_in(Units::Metric);
    let label = &mut shop.candidates[0];
    (label.flow, label.tank, label.volts, label.amps) = ("140".into(), "50".into(), "230".into(), "9".into());
    let place = &mut shop.places[0];
    (place.volts, place.cord_gauge, place.cord_length) = ("230 V".into(), "1.5".into(), "60 m".into());
    let told = report(&shop, View::default());
    let mend = told.sections.iter().find(|section| section.id == "mend").unwrap();
    let remedies = mend.findings.iter().flat_map(|finding| &finding.remedies);
    let cord = remedies
        .flat_map(|remedy| &remedy.changes)
        .find(|change| change.field.ends_with("cord_gauge") && !change.text.is_empty())
        .unwrap();
    // 9 A over 60 m: 1.5 mm² loses 5.6 % of 230 V, 2.5 mm² 3.3 % (hand sum, IEC 60228).
    assert_eq!(cord.text, "2.5 mm²");
    shop.places[0].cord_gauge = cord.text.clone();
    let after = report(&shop, View::default());
    assert!(
        after.places[0].circuit.grade < told.places[0].circuit.grade,
        "{:?}",
        after.places[0].circuit
    );
}

/// 230 V, 10 A and 140 L/min is an ordinary label there: it must not meet places of 120 V.
#[test]
fn a_first_visit_in_metric_units_has_metric_mains() {
    let mut shop = Shop::fresh_in(Units::Metric);
    assert!(bellows::judge::basis::Basis::of(&shop).faults.is_empty());
    let label = &mut shop.candidates[0];
    (label.flow, label.tank, label.volts, label.amps) = ("140".into(), "50".into(), "230".into(), "8".into());
    let report = report(&shop, View::default());
    assert!(report.faults.is_empty(), "{:?}", report.faults);
    assert!(
        report.places[0].circuit.grade <= Grade::Fair,
        "{:?}",
        report.places[0].circuit
    );
    assert!(
        !report.answer.sentence.contains("120 V"),
        "{}",
        report.answer.sentence
    );
    assert_eq!(Shop::fresh_in(Units::Us), Shop::fresh());
}

/// Plates print locked-rotor amps or a code letter (NEC 430.7(B), from memory) with the words around them.
#[test]
fn a_start_is_read_as_the_plate_prints_it() {
    let start = |text: &str| {
        let mut shop = Shop::fresh();
        shop.candidates[0].start = text.into();
        let basis = bellows::judge::basis::Basis::of(&shop);
        assert!(basis.faults.is_empty(), "{text}: {:?}", basis.faults);
        basis.candidates[0].start
    };
    for text in ["60 A", "LRA 60", "LRA: 60 A", "locked rotor 60 A", "starting 60"] {
        assert_eq!(start(text), StartClue::Amps(60.0), "{text}");
    }
    for text in ["G", "g", "code G", "kVA code: G", "code letter G"] {
        assert_eq!(start(text), StartClue::Letter('G'), "{text}");
    }
    // Where the running current is asked for, a start is refused and not taken for it.
    let mut shop = Shop::fresh();
    shop.candidates[0].amps = "LRA 60".into();
    assert_eq!(
        bellows::judge::basis::Basis::of(&shop).faults[0].path(),
        "candidates.0.amps"
    );
}

/// Judgement: what was guessed is never good, and no job of it is said not to wait; of a printed flow each row says whether its job
/// waits.
#[test]
fn a_row_says_whether_its_job_waits_and_a_guess_never_says_that_it_does_not() {
    let waits = |change: &dyn Fn(&mut Candidate)| {
        let mut shop = Shop::fresh();
        change(&mut shop.candidates[0]);
        let rows = report(&shop, View::default()).places.remove(0).tasks;
        rows.into_iter()
            .map(|row| (row.waits, row.verdict))
            .collect::<Vec<_>>()
    };
    let guessed = waits(&|label| label.power = "5 hp".into());
    assert!(
        !guessed.is_empty() && guessed.iter().all(|(waits, _)| *waits),
        "{guessed:?}"
    );
    let small = waits(&|label| {
        (label.flow, label.tank, label.amps) = ("2.5 cfm".into(), "6 gal".into(), "11 A".into());
    });
    assert!(
        small.iter().any(|(waits, _)| *waits) && small.iter().any(|(waits, _)| !waits),
        "{small:?}"
    );
    for (waits, verdict) in small {
        assert_eq!(!waits, verdict == "no wait", "{verdict}");
    }
}
