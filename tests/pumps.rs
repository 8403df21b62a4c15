//! Pumps by kind, sound as printed in Europe, the cold and the wet: facts of the trade and standards.

#![allow(clippy::unwrap_used, reason = "helpers of tests: a refusal is a failed test")]

use bellows::answer::report;
use bellows::answer::report::{Report, View};
use bellows::judge::assess::machine::Supply;
use bellows::judge::basis::Basis;
use bellows::judge::cold::cold;
use bellows::judge::grade::Grade;
use bellows::judge::verdict::{AskAir, verdict};
use bellows::physics::sound::level_of_power_db;
use bellows::quantity::Gauge;
use bellows::shop::pumps::{PUMPS, PumpKind};
use bellows::shop::{Candidate, Place, Shop, Task, TaskKind, Units};

fn shop(pump: &str) -> Shop {
    Shop {
        units: Units::Us,
        places: vec![Place {
            name: "Garage".into(),
            temperature: "70 F".into(),
            ..Place::default()
        }],
        tasks: vec![Task {
            kind: TaskKind::Drill,
            on: true,
            ..Task::default()
        }],
        candidates: vec![Candidate {
            flow: "5 cfm".into(),
            at: "90 psi".into(),
            tank: "20 gal".into(),
            pump: pump.into(),
            ..Candidate::default()
        }],
        ..Shop::default()
    }
}

fn text_of(report: &Report, section: &str) -> String {
    let found = report.sections.iter().find(|found| found.id == section);
    let Some(found) = found else { return String::new() };
    let texts = found.findings.iter().map(|finding| finding.text.as_str());
    format!("{} {}", found.sentence, texts.collect::<Vec<_>>().join(" "))
}

/// Common practice, no source: oil-free direct drive is louder than oiled belt drive (78 to 90 against 75 to 80 dBA at 3 ft),
/// may run less of the time (50 against 60 to 75 %) and lasts less long.
#[test]
fn no_figure_serves_all_kinds_of_pump() {
    let [loud, belt] = [PumpKind::OilFree, PumpKind::Belt].map(PumpKind::traits);
    assert_eq!((loud.level_dba, belt.level_dba), ([78.0, 90.0], [75.0, 80.0]));
    assert!((loud.duty[1] - 0.5).abs() < 1e-9 && belt.duty[0] >= 0.6 && belt.duty[2] <= 0.75);
    assert!(loud.life_h[1] <= belt.life_h[0]);
    for row in PUMPS {
        assert!(
            row.duty.is_sorted() && row.level_dba.is_sorted() && row.life_h.is_sorted(),
            "{row:?}"
        );
        assert!(
            row.level_dba[1] > row.level_dba[0],
            "{:?}: a range, not a figure",
            row.kind
        );
    }
    let duty = |pump: &str| Basis::of(&shop(pump)).candidates[0].duty.value;
    assert!(
        duty("oil-free") < duty("")
            && duty("") < duty("belt drive")
            && duty("belt drive") < duty("two-stage")
    );
}

/// A level that no label states is a range, said to be likely; the rivet gun is louder (common practice, no source).
#[test]
fn an_oil_free_pump_without_a_level_is_told_as_a_range() {
    let mut shop = shop("oil-free");
    shop.places[0].neighbour = "30 ft".into();
    let sound = text_of(&report(&shop, View::default()), "sound");
    for words in [
        "likely 78 to 90 dBA at 3 ft",
        "Cover your ears",
        "rivet gun is louder",
        "Door shut",
        "daytime",
        "quiet kind",
    ] {
        assert!(sound.contains(words), "“{words}” not in {sound}");
    }
}

/// ISO 3744: over a hard floor Lp = LwA - 8 - 20 log r; second way 10 log(2 pi r²) = 7.98 dB at 1 m.
#[test]
fn printed_sound_power_is_brought_to_a_distance() {
    for (power, metres) in [(97.0, 1.0), (97.0, 4.0), (85.0, 2.0)] {
        let by_hand = power - 10.0 * (2.0 * std::f64::consts::PI * metres * metres).log10();
        assert!((level_of_power_db(power, metres).unwrap() - by_hand).abs() < 1e-9);
        let rule = power - 8.0 - 20.0 * metres.log10();
        assert!((by_hand - rule).abs() < 0.03);
    }
    let mut shop = shop("");
    shop.units = Units::Metric;
    shop.candidates[0].sound_power = "97 dB".into();
    let sound = text_of(&report(&shop, View::default()), "sound");
    assert!(
        sound.contains("97 dB") && sound.contains("about 89 dBA at 1 m"),
        "{sound}"
    );
    // Beside a stated level it is left alone.
    shop.candidates[0].sound = "80 dBA".into();
    shop.candidates[0].sound_at = "1 m".into();
    assert!(!text_of(&report(&shop, View::default()), "sound").contains("sound power"));
}

/// Common practice, no source: oil is stiff below about 40 °F, water freezes below 32.
#[test]
fn an_oiled_pump_starts_hard_in_an_unheated_hangar() {
    let at = |pump: &str, temperature: &str| {
        let mut shop = shop(pump);
        shop.places[0].temperature = temperature.into();
        shop
    };
    let grade = |shop: &Shop| {
        let basis = Basis::of(shop);
        cold(&basis.candidates[0], &basis.places[0]).map(|cold| cold.grade)
    };
    let hangar = at("oiled, belt drive", "15 F");
    assert_eq!(grade(&hangar), Some(Grade::Trip));
    let told = text_of(&report(&hangar, View::default()), "cold");
    for words in [
        "starts hard",
        "drain freezes",
        "thin or synthetic oil",
        "unloader",
        "while the tank is still warm",
    ] {
        assert!(told.contains(words), "“{words}” not in {told}");
    }
    assert!(!told.contains("fine"), "{told}");
    assert_eq!(grade(&at("oiled, belt drive", "45 F")), None);
    assert_eq!(grade(&at("oil-free", "15 F")), Some(Grade::Good));
    assert!(text_of(&report(&at("oil-free", "15 F"), View::default()), "cold").contains("water freezes"));
}

/// Common practice, no source: water drops out on the way, so the trap stands where the hose meets the bench.
#[test]
fn the_trap_stands_at_the_bench_and_humid_air_wants_an_auto_drain() {
    let mut humid = shop("");
    humid.places[0].temperature = "90 F".into();
    humid.places[0].humidity = "80 %".into();
    let water = text_of(&report(&humid, View::default()), "water");
    for words in ["every day", "trap where the hose meets the bench", "auto drain"] {
        assert!(water.contains(words), "“{words}” not in {water}");
    }
    assert!(!water.contains("ahead of the regulator"), "{water}");
    let mut dry = shop("");
    dry.places[0].humidity = "20 %".into();
    let water = text_of(&report(&dry, View::default()), "water");
    assert!(
        water.contains("every day") && water.contains("where the hose meets the bench"),
        "{water}"
    );
}

/// Common practice, no source: of 180 L/min taken in 95 to 125 are delivered; what is taken in is never told as delivered.
#[test]
fn suction_is_not_delivery() {
    let mut shop = shop("");
    shop.units = Units::Metric;
    let machine = &mut shop.candidates[0];
    (machine.flow, machine.at, machine.suction) = (String::new(), String::new(), "180 L/min".into());
    (machine.tank, machine.cut_out) = ("24 L".into(), "8 bar".into());
    let basis = Basis::of(&shop);
    let supply = Supply::of(&basis.candidates[0]).0;
    let ends = supply
        .range()
        .unwrap()
        .map(|pump| pump.rated(Gauge::psi(90.0)).as_m3_s() * 60_000.0);
    assert!(
        (ends[0] - 95.0).abs() < 1.0 && (ends[1] - 125.0).abs() < 1.0,
        "{ends:?}"
    );
    let found = verdict(&basis, &basis.candidates[0]).unwrap();
    assert_eq!(
        (found.asks, found.grade() >= Grade::Ask),
        (Some(AskAir::Guessed), true)
    );
    let label = text_of(&report(&shop, View::default()), "label");
    for words in ["not what it delivers", "95 L/min to 125 L/min", "6 to 7 bar"] {
        assert!(label.contains(words), "“{words}” not in {label}");
    }
}

/// Common practice, no source: 150 psi beside a small machine's flow is the most that its tank gets.
#[test]
fn the_tanks_limit_is_no_pressure_of_a_flow() {
    let mut pancake = shop("oil-free");
    pancake.candidates[0].at = "150 psi".into();
    let faults = Basis::of(&pancake).faults;
    assert_eq!(faults[0].path(), "candidates.0.at");
    assert!(
        faults[0].message.contains("most that the tank gets"),
        "{}",
        faults[0].message
    );
    // Two-stage machines do state their flow at 175.
    let mut two_stage = shop("two-stage");
    two_stage.candidates[0].at = "175 psi".into();
    assert_eq!(Basis::of(&two_stage).faults, []);
}

/// Common practice, no source: 13 cfm on 10 gal give air all day, and start the motor far too often.
#[test]
fn a_large_pump_on_a_small_tank_starts_too_often() {
    let mut shop = shop("belt drive");
    (shop.candidates[0].flow, shop.candidates[0].tank) = ("13 cfm".into(), "10 gal".into());
    let found = verdict(&Basis::of(&shop), &Basis::of(&shop).candidates[0]).unwrap();
    assert_eq!(found.grade(), Grade::Good);
    let rows = report(&shop, View::default()).places.remove(0).tasks;
    for words in ["times an hour", "second tank", "constant run with an unloader"] {
        assert!(
            rows[0].sentence.contains(words),
            "“{words}” not in {}",
            rows[0].sentence
        );
    }
}

/// Pulled rivets, holes punched to size: 3 cfm on 20 gal do, common practice, no source.
#[test]
fn pulled_rivets_ask_for_little() {
    let mut shop = shop("");
    (shop.candidates[0].flow, shop.candidates[0].tank) = ("3 cfm".into(), "20 gal".into());
    shop.tasks = [TaskKind::RivetPuller, TaskKind::ClecoTool, TaskKind::BlowOff]
        .map(|kind| Task {
            kind,
            on: true,
            ..Task::default()
        })
        .into();
    let basis = Basis::of(&shop);
    assert_eq!(
        verdict(&basis, &basis.candidates[0]).unwrap().grade(),
        Grade::Good
    );
}

/// NEC 513 (read): the plan sends no machine onto a hangar's floor unconditionally.
#[test]
fn the_plan_says_where_it_may_stand_in_a_hangar() {
    let mut shop = shop("");
    shop.places[0].name = "Hangar".into();
    let plan = text_of(&report(&shop, View::default()), "plan");
    for words in [
        "hose through the wall",
        "18 in up and 5 ft",
        "ask the airport",
        "never fueled",
    ] {
        assert!(plan.contains(words), "“{words}” not in {plan}");
    }
    shop.places[0].airplane = "never fueled".into();
    assert!(!text_of(&report(&shop, View::default()), "plan").contains("airport"));
}
