//! Whatever is typed: an answer comes, every figure in it is a figure, and more air is never worse.

#![allow(clippy::unwrap_used, reason = "helpers of tests: a refusal is a failed test")]

use bellows::answer::report;
use bellows::answer::report::{Report, View};
use bellows::judge::assess::{TaskFacts, assess};
use bellows::judge::basis::Basis;
use bellows::shop::link;
use bellows::shop::{Candidate, MachineKind, Place, SCHEMA, Shop, Task, TaskKind, Units};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;
use serde::Serialize;
use serde_json::Value;

/// Units of every kind and some of none.
const UNITS: [&str; 40] = [
    "", "cfm", "L/min", "m³/h", "psi", "bar", "kPa", "psia", "inHg", "hPa", "gal", "L", "ft3", "V", "A",
    "hp", "kW", "kVA", "ft", "m", "in", "mm", "AWG", "mm²", "°F", "C", "%", "lb", "kg", "$", "s", "min", "h",
    "dBA", "dB", "cents", "/kWh", "psi/cfm", "x", "furlong",
];

/// Texts that look for a hole: no figure, too many, other scripts, other signs.
const ODD: [&str; 18] = [
    "",
    " ",
    "?",
    "-",
    "NaN",
    "inf",
    "-inf",
    "1e308",
    "1e-308",
    "0",
    "-0",
    "5,1,2",
    "1-1/0 hp",
    "5.1 cfm @ 90 psi",
    "٣ bar",
    "½ in",
    "\u{feff}90",
    "🛩 90 psi",
];

/// A text in the range that a field's likely figures span, or any figure, or garbage.
fn typed() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => Just(String::new()),
        4 => (0.01..500.0_f64, select(&UNITS[..])).prop_map(|(figure, unit)| format!("{figure:.2} {unit}")),
        2 => (any::<f64>(), select(&UNITS[..])).prop_map(|(figure, unit)| format!("{figure:e} {unit}")),
        1 => select(&ODD[..]).prop_map(str::to_owned),
        1 => "\\PC{0,80}",
    ]
}

/// A field of words: blank, one of those that it knows, or anything.
fn said(known: &'static [&'static str]) -> impl Strategy<Value = String> {
    prop_oneof![
        4 => Just(String::new()),
        4 => select(known).prop_map(str::to_owned),
        1 => typed(),
    ]
}

/// A field that is likelier to be taken: a figure of its own unit, from nothing to the absurd.
fn figure(unit: &'static str, most: f64) -> impl Strategy<Value = String> {
    prop_oneof![
        3 => Just(String::new()),
        6 => (0.0..1.0_f64).prop_map(move |share| format!("{:.4} {unit}", most * share * share)),
        2 => typed(),
    ]
}

fn kind() -> impl Strategy<Value = TaskKind> {
    let mut kinds: Vec<TaskKind> = bellows::shop::catalogue::CATALOGUE
        .iter()
        .map(|entry| entry.kind)
        .collect();
    kinds.push(TaskKind::Other);
    select(kinds)
}

prop_compose! {
    fn place()(
        name in typed(),
        air in (figure("ft", 16_000.0), figure("inHg", 32.0), figure("F", 130.0), figure("%", 110.0)),
        power in (figure("V", 300.0), figure("A", 60.0), figure("A", 30.0), figure("AWG", 20.0), figure("ft", 900.0)),
        cord in (figure("AWG", 20.0), figure("ft", 900.0), figure("kVA", 20.0)),
        sound in (figure("ft", 90.0), figure("ft", 900.0), figure("dB", 60.0), any::<bool>(), any::<bool>()),
        stands in (
            said(&["4 x 3 x 3 ft", "1.2 x 0.9 x 0.9 m", "0 x 0 x 0 ft"]), figure("cfm", 900.0),
            said(&["fueled", "never fueled", "none"]), said(&["on the floor", "18 in up, 5 ft away", "outside"]),
        ),
        face in (
            said(&["5-15", "5-20", "6-20", "14-50", "10-30", "hard-wired", "Schuko", "BS 1363"]),
            said(&["copper", "aluminum"]),
            said(&["two-prong", "to 14-50", "none"]),
            said(&["outdoors", "in the garage", "by the door"]),
            said(&["yes", "no", "trips at start"]),
        ),
        other_name in said(&["freezer", "Lights", ""]),
        spare in (figure("V", 300.0), figure("A", 60.0), figure("ft", 300.0), said(&["yes", "no"])),
    ) -> Place {
        Place {
            name,
            altitude: air.0, station_pressure: air.1, temperature: air.2, humidity: air.3,
            volts: power.0, breaker: power.1, other_load: power.2, other_name, branch_gauge: power.3, branch_length: power.4,
            cord_gauge: cord.0, cord_length: cord.1, generator: cord.2,
            listener: sound.0, neighbour: sound.1, wall_loss: sound.2, inlet_ducted: sound.3, boxed: sound.4,
            box_size: stands.0, box_fan: stands.1, airplane: stands.2, compressor_stands: stands.3,
            outlet: face.0, wire_metal: face.1, adapter: face.2, generator_stands: face.3, gfci: face.4,
            spare_volts: spare.0, spare_breaker: spare.1, cord_planned: spare.2, machine_comes: spare.3,
        }
    }
}

prop_compose! {
    fn task()(
        kind in kind(), name in typed(), on in any::<bool>(), together in any::<bool>(), flow in figure("cfm", 40.0),
        pressures in (figure("psi", 150.0), figure("psi", 120.0)),
        trigger in (figure("s", 120.0), figure("s", 120.0)),
        rhythm in (figure("min", 300.0), figure("min", 300.0), figure("", 30.0)),
        spray in (
            said(&["touch-up", "LVLP", "HVLP", "conventional"]), said(&["urethane", "chromate primer", "waterborne"]),
            said(&["booth", "outdoors", "beside the compressor"]),
        ),
    ) -> Task {
        Task {
            kind, name, on, together, flow,
            setting: pressures.0, lowest: pressures.1,
            trigger_on: trigger.0, trigger_off: trigger.1,
            spell: rhythm.0, pause: rhythm.1, people: rhythm.2,
            gun: spray.0, paint: spray.1, sprayed: spray.2,
        }
    }
}

prop_compose! {
    fn candidate()(
        name in typed(),
        kind in select(&[MachineKind::PistonOneStage, MachineKind::PistonTwoStage, MachineKind::Rotary][..]),
        flows in (figure("cfm", 60.0), figure("psi", 200.0), figure("cfm", 60.0), figure("psi", 200.0)),
        tank in figure("gal", 120.0),
        power in (figure("V", 300.0), figure("A", 60.0), figure("hp", 10.0), figure("A", 200.0)),
        switch in (figure("psi", 200.0), figure("psi", 250.0), figure("%", 110.0)),
        sound in (figure("dBA", 140.0), figure("ft", 30.0)),
        carry in (figure("lb", 500.0), any::<bool>(), figure("$", 3_000.0)),
        pump in (figure("s", 900.0), figure("psi", 120.0), figure("psi", 150.0)),
        leak in (figure("h", 24.0), figure("psi", 150.0), figure("psi", 120.0)),
        listed in (figure("cfm", 60.0), figure("hp", 10.0), figure("dB", 120.0)),
        vessel in (said(&["no stamp", "125 psi"]), figure("psi", 250.0), said(&["blocked", "175 psi"]), figure("psi", 250.0)),
        words in (
            said(&["oil-free", "oiled, direct drive", "belt drive", "two-stage", "screw"]), typed(), any::<bool>(),
        ),
    ) -> Candidate {
        Candidate {
            name, kind,
            flow: flows.0, at: flows.1, flow2: flows.2, at2: flows.3,
            tank, volts: power.0, amps: power.1, power: power.2, start: power.3,
            cut_in: switch.0, cut_out: switch.1, duty: switch.2,
            sound: sound.0, sound_at: sound.1, weight: carry.0, wheels: carry.1, price: carry.2,
            pump_up: pump.0, pump_from: pump.1, pump_to: pump.2,
            leak_time: leak.0, leak_from: leak.1, leak_to: leak.2,
            suction: listed.0, peak_power: listed.1, sound_power: listed.2,
            pump: words.0, plug: words.1,
            stamp: if words.2 { vessel.0 } else { vessel.1 }, relief: if words.2 { vessel.2 } else { vessel.3 },
        }
    }
}

prop_compose! {
    fn shop()(
        name in typed(), metric in any::<bool>(), chosen in 0_usize..4,
        places in vec(place(), 0..=3), tasks in vec(task(), 0..=6), candidates in vec(candidate(), 0..=3),
        line in (figure("psi/cfm", 3.0), figure("in", 1.0), figure("ft", 400.0), figure("", 10.0)),
        whip in (figure("in", 1.0), figure("ft", 60.0), figure("%", 50.0)),
        auxiliary in (figure("gal", 120.0), figure("psi", 250.0), any::<bool>()),
        old in (said(&["used", "rusty inside", "new"]), said(&["PVC", "copper"]), said(&["paint hood", "no"])),
        limits in vec(figure("", 2_000.0), 7),
    ) -> Shop {
        let mut shop = Shop {
            version: SCHEMA, name, places, tasks, candidates, chosen,
            units: if metric { Units::Metric } else { Units::Us },
            ..Shop::default()
        };
        (shop.line.droop, shop.line.trunk_bore, shop.line.trunk_length, shop.line.couplers) = line;
        (shop.line.whip_bore, shop.line.whip_length, shop.line.loss_share) = whip;
        (shop.auxiliary.tank, shop.auxiliary.rated, shop.auxiliary.stays) = auxiliary;
        (shop.auxiliary.condition, shop.line.pipe, shop.line.breathing) = old;
        let to = &mut shop.limits;
        let fields = [
            &mut to.lift, &mut to.tailgate, &mut to.budget, &mut to.loudest, &mut to.hours, &mut to.day,
            &mut to.tariff,
        ];
        fields.into_iter().zip(limits).for_each(|(field, text)| *field = text);
        shop
    }
}

/// Every text in a report with its path, and the paths at which a figure is missing: JSON has no NaN and no infinity,
/// so null is written for them.
fn leaves(value: &Value, path: &str, texts: &mut Vec<(String, String)>, nulls: &mut Vec<String>) {
    match value {
        Value::Null => nulls.push(path.to_owned()),
        Value::String(text) => texts.push((path.to_owned(), text.clone())),
        Value::Array(items) => {
            let each = items.iter().enumerate();
            each.for_each(|(index, item)| leaves(item, &format!("{path}.{index}"), texts, nulls));
        }
        Value::Object(fields) => {
            let each = fields.iter();
            each.for_each(|(name, item)| leaves(item, &format!("{path}.{name}"), texts, nulls));
        }
        Value::Bool(_) | Value::Number(_) => {}
    }
}

/// What the page is handed.
fn tree<T: Serialize>(value: &T) -> Value {
    serde_json::to_value(value).unwrap()
}

/// "NaN" and "inf" as words of their own, not as a part of "information".
fn no_figure(text: &str) -> bool {
    let words = text.split(|c: char| !c.is_alphanumeric());
    words.into_iter().any(|word| word == "NaN" || word == "inf")
}

fn sound(report: &Report, shop: &Shop) -> Result<(), TestCaseError> {
    let told = tree(report);
    let (mut texts, mut nulls) = (Vec::new(), Vec::new());
    leaves(&told, "", &mut texts, &mut nulls);
    // A picture need not be, and a view need not name a task.
    nulls.retain(|path| !path.ends_with(".chart") && path != ".view.task");
    prop_assert!(nulls.is_empty(), "no figure at {:?}", nulls);
    // What was typed is quoted: names of things, and a text beside its field.
    let typed = tree(shop).to_string();
    if !typed.contains("NaN") && !typed.contains("inf") {
        let bad = texts.iter().find(|(_, text)| no_figure(text));
        prop_assert!(bad.is_none(), "{bad:?}");
    }
    prop_assert!(!report.answer.sentence.trim().is_empty());
    // What to look for stands by itself.
    let is_blank = report.answer.sentence.starts_with("Look for ");
    prop_assert!(is_blank || !report.answer.verdict.trim().is_empty());
    prop_assert!(!report.window.sentence.trim().is_empty());
    for fault in &report.faults {
        prop_assert!(fault.message.len() > 10, "{fault:?}");
        let pointer = format!("/{}", fault.field.replace('.', "/"));
        let there = tree(shop);
        prop_assert!(
            there.pointer(&pointer).is_some_and(Value::is_string),
            "no field {}",
            fault.field
        );
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(CASES) })]

    #[test]
    fn any_shop_gets_an_answer_of_figures(shop in shop(), place in 0_usize..4, task in 0_usize..7) {
        let answered = report(&shop, View { place, task: Some(task) });
        sound(&answered, &shop)?;
    }

    #[test]
    fn a_shop_that_came_by_link_gets_the_same_answer(shop in shop()) {
        let fragment = link::write(&shop);
        prop_assume!(fragment.len() <= link::LINK_MAX);
        let back = link::read(&fragment).unwrap();
        prop_assert_eq!(report(&back, View::default()), report(&shop, View::default()));
    }

    /// From full to weak and from weak to full, with the motor on from cut-in to cut-out: nothing may fall into step
    /// here, so that only the secant of the last step is left as an error.
    #[test]
    fn more_flow_never_shortens_the_trigger_nor_lengthens_the_recovery(
        cfm in 0.5..15.0_f64, more in 1.05..2.0_f64, gallons in 2.0..80.0_f64, tool_cfm in 2.0..20.0_f64,
        cut_in in 80.0..118.0_f64,
    ) {
        let [less, greater] = [cfm, cfm * more].map(|cfm| {
            let found = drilling(cfm, gallons, tool_cfm, ["5.00", "5.00", "5.00", "5.00"], cut_in);
            (found.trigger_s.unwrap_or(f64::MAX), found.recovery_s.unwrap_or(f64::MAX))
        });
        prop_assert!(greater.0 >= less.0 * (1.0 - 1e-3), "trigger {less:?} s, with more flow {greater:?} s");
        prop_assert!(greater.1 <= less.1 * (1.0 + 1e-3), "recovery {less:?} s, with more flow {greater:?} s");
    }
}

/// A drill of `tool_cfm` in a rhythm (s on, s off, min of spell, min of pause) on a machine with a tank.
fn drilling(
    cfm: f64,
    gallons: f64,
    tool_cfm: f64,
    [on, off, spell, pause]: [&str; 4],
    cut_in: f64,
) -> TaskFacts {
    let shop = Shop {
        places: vec![Place::default()],
        tasks: vec![Task {
            kind: TaskKind::Drill,
            on: true,
            flow: format!("{tool_cfm:.2} cfm"),
            trigger_on: format!("{on} s"),
            trigger_off: format!("{off} s"),
            spell: format!("{spell} min"),
            pause: format!("{pause} min"),
            ..Task::default()
        }],
        candidates: vec![Candidate {
            flow: format!("{cfm:.3} cfm"),
            tank: format!("{gallons:.2} gal"),
            cut_in: format!("{cut_in:.2} psi"),
            cut_out: "120 psi".into(),
            ..Candidate::default()
        }],
        ..Shop::default()
    };
    let basis = Basis::of(&shop);
    assert!(basis.faults.is_empty(), "{:?}", basis.faults);
    assess(&basis, &basis.candidates[0]).places[0].tasks[0].clone()
}

/// Each takes some milliseconds: the four together stay below twenty seconds on one slow core.
const CASES: u32 = 200;
