//! Power as a licensed electrician would judge it: labels and outlets in as typed, grade, gist and first fix out.
//!
//! Each row's source stands beside it. NEC is NFPA 70; breakers UL 489 and IEC 60898; cords the tables printed in tool
//! manuals; where nothing is named it is common practice, no source.

#![allow(clippy::unwrap_used, reason = "helpers of tests: a refusal is a failed test")]

use bellows::answer::report;
use bellows::answer::report::View;
use bellows::judge::assess::assess;
use bellows::judge::basis::Basis;
use bellows::judge::grade::Grade::{self, Ask, Danger, Good, Outlet, Trip};
use bellows::judge::power::PowerVerdict;
use bellows::shop::{Candidate, Place, Shop, Task, TaskKind, Units};

/// One garage at sea level and 70 °F with a 15 A outlet, nothing else on it; drilling and riveting.
fn shop(candidate: Candidate, place: Place) -> Shop {
    let on = |kind| Task {
        kind,
        on: true,
        ..Task::default()
    };
    Shop {
        units: Units::Us,
        places: vec![Place {
            name: "Garage".into(),
            altitude: "0 ft".into(),
            temperature: "70 F".into(),
            ..place
        }],
        tasks: vec![on(TaskKind::Drill), on(TaskKind::RivetGun)],
        candidates: vec![candidate],
        ..Shop::default()
    }
}

/// A machine by its volts and amps alone.
fn machine(volts: &str, amps: &str) -> Candidate {
    Candidate {
        volts: volts.into(),
        amps: amps.into(),
        ..Candidate::default()
    }
}

/// The same with flow and tank, so that the air speaks too.
fn sold_as(flow: &str, tank: &str, volts: &str, amps: &str) -> Candidate {
    Candidate {
        flow: flow.into(),
        at: "90 psi".into(),
        tank: tank.into(),
        ..machine(volts, amps)
    }
}

/// A place by some of its fields.
fn place(fields: &[(&str, &str)]) -> Place {
    let mut place = Place::default();
    for (name, text) in fields {
        let field = match *name {
            "volts" => &mut place.volts,
            "breaker" => &mut place.breaker,
            "other_load" => &mut place.other_load,
            "other_name" => &mut place.other_name,
            "branch_gauge" => &mut place.branch_gauge,
            "branch_length" => &mut place.branch_length,
            "cord_gauge" => &mut place.cord_gauge,
            "cord_length" => &mut place.cord_length,
            "cord_planned" => &mut place.cord_planned,
            "generator" => &mut place.generator,
            "generator_stands" => &mut place.generator_stands,
            "outlet" => &mut place.outlet,
            "wire_metal" => &mut place.wire_metal,
            "adapter" => &mut place.adapter,
            "gfci" => &mut place.gfci,
            "spare_volts" => &mut place.spare_volts,
            "spare_breaker" => &mut place.spare_breaker,
            "machine_comes" => &mut place.machine_comes,
            other => panic!("no field {other}"),
        };
        *field = (*text).into();
    }
    place
}

fn verdict(shop: &Shop, index: usize) -> PowerVerdict {
    let basis = Basis::of(shop);
    let facts = assess(&basis, &basis.candidates[basis.chosen]);
    facts.places[index].power.clone()
}

/// What the page says of a place's power, and its fixes.
fn told(shop: &Shop) -> (String, Vec<String>) {
    let report = report(shop, View::default());
    assert!(report.faults.is_empty(), "{:?}", report.faults);
    let text = report.places[0].circuit.text.clone();
    let basis = Basis::of(shop);
    let verdict = verdict(shop, 0);
    let words = bellows::answer::words::Words::new(&basis);
    let fixes = verdict
        .fixes
        .iter()
        .map(|fix| bellows::answer::fix_label(words, fix))
        .collect();
    (text, fixes)
}

/// What a row of the table expects.
struct Expected {
    /// Grades that are right.
    grades: &'static [Grade],
    /// Words of the first sentences, all of them.
    gist: &'static [&'static str],
    /// Words of the first fix, all of them; empty asks for nothing.
    first: &'static [&'static str],
    /// What neither the lines nor the fixes may say.
    never: &'static [&'static str],
}

fn check(shop: &Shop, expected: &Expected) {
    let verdict = verdict(shop, 0);
    let (text, fixes) = told(shop);
    let shown = format!("{:?}: {text} | {fixes:#?}", verdict.grade);
    assert!(expected.grades.contains(&verdict.grade), "grade of {shown}");
    let plain = text.to_lowercase();
    for word in expected.gist {
        assert!(plain.contains(&word.to_lowercase()), "no “{word}” in {shown}");
    }
    let first = fixes.first().map_or_else(String::new, |fix| fix.to_lowercase());
    for word in expected.first {
        assert!(
            first.contains(&word.to_lowercase()),
            "no “{word}” first in {shown}"
        );
    }
    let all = format!("{plain} {}", fixes.join(" ").to_lowercase());
    for word in expected.never {
        assert!(!all.contains(&word.to_lowercase()), "“{word}” in {shown}");
    }
}

/// A test a row: name, machine, place, what is expected.
macro_rules! rows {
    ($($(#[$doc:meta])* $name:ident: $machine:expr, $place:expr, $grades:expr, $gist:expr, $first:expr, $never:expr;)*) => {$(
        $(#[$doc])*
        #[test]
        fn $name() {
            let expected = Expected { grades: &$grades, gist: &$gist, first: &$first, never: &$never };
            check(&shop($machine, place(&$place)), &expected);
        }
    )*};
}

const NO_FIELDS: [(&str, &str); 0] = [];

rows! {
    /// UL 489: 15 A on a 15 A breaker holds; NEC 210.22: alone it may take it all.
    a_fifteen_amp_machine_on_a_fifteen_amp_outlet_runs:
        sold_as("5 cfm", "30 gal", "120 V", "15 A"), [("breaker", "15 A")],
        [Good, Trip], ["breaker to itself"], ["20 A", "12-gauge", "electrician"],
        ["can't run", "lawful", "receptacle"];
    a_two_hundred_forty_volt_machine_needs_its_own_outlet:
        sold_as("11.5 cfm", "60 gal", "240 V", "15 A"), [("volts", "120 V")],
        [Outlet], ["can't run it", "240 V"], ["20 A", "240 V", "12-gauge", "electrician"],
        ["at 120 V", "120 V"];
    a_large_machine_on_its_own_thirty_amp_circuit_runs:
        sold_as("13 cfm", "10 gal", "240 V", "22 A"),
        [("volts", "240 V"), ("breaker", "30 A"), ("branch_gauge", "10 AWG")],
        [Good, Trip], ["runs it"], [], ["danger"];
    /// NEMA: 12 and 6 A on 15 A are 120 %, the end of "may trip".
    a_freezer_on_the_same_breaker_may_trip_it:
        sold_as("2.6 cfm", "6 gal", "120 V", "12 A"), [("breaker", "15 A"), ("other_load", "6 A")],
        [Trip], ["18 A on a 15 A breaker", "may trip", "freezer"], ["another breaker"],
        ["can't run"];
    /// NEC table 210.21(B)(3): a 16 A machine has a 20 A plug.
    a_sixteen_amp_machine_needs_a_twenty_amp_outlet:
        sold_as("4.2 cfm", "20 gal", "120 V", "16 A"), [("breaker", "15 A"), ("outlet", "5-15")],
        [Outlet], ["needs a 20 A outlet", "plug"], ["20 A", "12-gauge"], ["adapter"];
    /// Both printed tables: 16 and 14 gauge.
    fifty_feet_of_sixteen_gauge_work_with_twelve_amps:
        machine("120 V", "12 A"), [("cord_gauge", "16 AWG"), ("cord_length", "50 ft")],
        [Good, Trip], ["14"], ["14"], ["10-gauge", "8-gauge", "10 gauge", "8 gauge"];
    /// Both printed tables ask for 14 or 10 gauge.
    a_hundred_feet_of_sixteen_gauge_are_too_light_for_twelve_amps:
        machine("120 V", "12 A"), [("cord_gauge", "16 AWG"), ("cord_length", "100 ft")],
        [Outlet, Trip], ["too light", "low volts", "may not start"],
        ["compressor at the outlet", "100 ft of 3/8 in hose"], ["8 gauge", "8-gauge", "6-gauge cord for", "6 gauge;"];
    /// Both printed tables: 12 gauge.
    fifty_feet_of_twelve_gauge_are_right_for_fifteen_amps:
        machine("120 V", "15 A"), [("cord_gauge", "12 AWG"), ("cord_length", "50 ft")],
        [Good, Trip], ["breaker to itself"], [], ["10-gauge", "10 gauge", "heavier cord"];
    /// "Not recommended" in the printed table.
    a_hundred_feet_without_a_cord_yet_are_for_the_hose:
        machine("120 V", "15 A"), [("cord_planned", "100 ft")],
        [Trip, Good], ["at the outlet", "100 ft of 3/8 in hose", "10 gauge"],
        ["compressor at the outlet", "hose"], ["12 gauge", "14 gauge", "16 gauge", "12-gauge cord", "14-gauge cord"];
    /// Printed tables: 14 gauge to 10 A at 100 ft.
    a_hundred_feet_of_fourteen_gauge_run_eight_amps:
        machine("120 V", "8 A"), [("breaker", "15 A"), ("cord_gauge", "14 AWG"), ("cord_length", "100 ft")],
        [Good], ["runs it"], [], ["10 gauge", "10-gauge"];
    /// NEC 240.4(D).
    a_thirty_amp_breaker_on_twelve_gauge_wire_is_dangerous:
        sold_as("2.6 cfm", "6 gal", "120 V", "12 A"), [("breaker", "30 A"), ("branch_gauge", "12 AWG")],
        [Danger], ["30 A breaker on 12-gauge wire", "stop", "put it right"], ["20 A breaker", "electrician"],
        ["cord", "cfm"];
    a_range_circuit_does_not_protect_a_small_plug:
        machine("240 V", "15 A"),
        [("volts", "240 V"), ("breaker", "50 A"), ("outlet", "14-50"), ("cord_gauge", "12 AWG"), ("cord_length", "25 ft")],
        [Danger], ["50 A breaker does not protect that cord or plug"], ["20 A", "electrician"],
        ["fine", "adapter"];
    /// NEMA WD 6: series 10 has no equipment ground.
    an_old_dryer_outlet_has_no_ground:
        machine("240 V", "15 A"), [("volts", "240 V"), ("outlet", "10-30")],
        [Danger], ["no ground"], ["20 A", "electrician"], ["adapter", "neutral"];
    /// UL 489: 20 A on a 15 A breaker are 133 %.
    what_is_on_the_breaker_is_called_by_its_name:
        sold_as("4.3 cfm", "20 gal", "120 V", "14 A"), [("breaker", "15 A"), ("other_load", "6 A"), ("other_name", "Freezer")],
        [Trip], ["With the freezer that is 20 A on a 15 A breaker", "expect it to trip"], ["plug the freezer in on another breaker"],
        ["the other 6 A", "unplug something"];
    /// NEC 210.52(G)(1): a garage with power has a regular outlet as well.
    a_regular_machine_does_not_go_to_the_dryer_outlet:
        sold_as("4.3 cfm", "20 gal", "120 V", "14 A"), [("volts", "240 V"), ("breaker", "30 A"), ("outlet", "14-30")],
        [Trip], ["runs on 120 V", "regular 120 V outlet"], ["regular 120 V outlet"], ["burn", "can't"];
    /// The same, NEMA WD 6: no plug of 120 V goes into a series 10 outlet.
    a_regular_machine_is_not_endangered_by_an_outlet_that_takes_no_plug_of_it:
        machine("120 V", "14 A"), [("volts", "240 V"), ("outlet", "10-30")],
        [Trip], ["regular 120 V outlet"], ["regular 120 V outlet"], ["no ground"];
    a_dual_voltage_machine_is_wired_for_the_spare_circuit:
        sold_as("5 cfm", "26 gal", "120/240 V", "15/7.5 A"),
        [("volts", "120 V"), ("breaker", "15 A"), ("other_load", "2 A"), ("spare_volts", "240 V"), ("spare_breaker", "20 A")],
        [Trip], ["17 A on a 15 A breaker"], ["wired for 240 V", "electrician reconnects", "6-15 plug", "switch and overload"],
        ["buy", "old plug"];
    /// NEMA MG 1: motors stand a tenth; 208 is 13 % below 240.
    two_hundred_eight_volts_are_low_for_a_two_hundred_forty_volt_motor:
        machine("240 V", "15 A"), [("volts", "208 V"), ("breaker", "20 A")],
        [Trip, Ask], ["13 % low", "208-230"], [], ["fine", "can't"];
    /// 3.5 kVA are 2.4 times the running load (judgement).
    a_small_generator_may_balk:
        machine("120 V", "12 A"), [("generator", "3.5 kVA")],
        [Trip], ["balk", "outdoors", "20 ft", "carbon monoxide", "unloader", "hard-start", "4.5 kVA"], ["4.5 kVA"], ["can't"];
    /// 2 kVA are 1.4 times the running load (judgement).
    a_tiny_generator_stalls:
        machine("120 V", "12 A"), [("generator", "2 kVA")],
        [Outlet, Trip], ["most likely stall", "outdoors", "20 ft"], ["4.5 kVA"], ["fine"];
    a_printed_locked_rotor_current_settles_the_start:
        Candidate { start: "60 A".into(), ..machine("120 V", "12 A") },
        [("cord_gauge", "14 AWG"), ("cord_length", "25 ft")],
        [Good], ["runs it"], [], ["six times", "usual motor"];
    /// NEC table 430.7(B): letter K is 8 to 9 kVA a horsepower.
    letter_k_starts_hard_on_a_long_cord_in_the_cold:
        Candidate { start: "K".into(), power: "1.5 hp".into(), ..machine("120 V", "15 A") },
        [("cord_gauge", "12 AWG"), ("cord_length", "75 ft")],
        [Trip, Outlet], ["hard start"], ["shorter cord", "hose"], [];
    an_interrupter_that_trips_is_trusted:
        machine("120 V", "13 A"), [("gfci", "GFCI outlet, trips at start now and then")],
        [Trip, Ask], ["trust the GFCI", "another outlet", "no cord", "don't use"], [], ["bypass", "nuisance"];
    /// NEC table 210.21(B)(3): no 120 V outlet of a garage stands behind 30 A.
    a_thirty_amp_breaker_does_not_belong_on_a_usual_outlet:
        machine("120 V", "12 A"), [("volts", "120 V"), ("breaker", "30 A")],
        [Danger, Ask], ["30 A breaker doesn't belong"], ["electrician"], ["10-gauge", "10 AWG"];
    /// NEC 240.4(G), 430.22, 430.52: 125 % on 12 AWG, breaker to 250 %.
    a_motor_that_an_electrician_wired_in_may_have_a_larger_breaker:
        sold_as("11.5 cfm", "60 gal", "240 V", "15 A"),
        [("volts", "240 V"), ("breaker", "30 A"), ("branch_gauge", "12 AWG"), ("outlet", "hard-wired")],
        [Good], ["lawful", "overload"], [], ["danger"];
    /// NEC table 400.5(A)(1): 16 AWG carries 13 A.
    sixteen_gauge_overheats_at_fifteen_amps:
        machine("120 V", "15 A"), [("cord_gauge", "16 AWG"), ("cord_length", "50 ft")],
        [Danger], ["made for 13 A", "overheats"], ["12-gauge"], ["good"];
    a_generator_in_the_garage_kills:
        machine("120 V", "12 A"), [("generator", "5 kVA"), ("generator_stands", "in the garage, door open")],
        [Danger], ["carbon monoxide kills", "outdoors, 20 ft"], ["outdoors, 20 ft from doors"], ["starts"];
    a_two_prong_adapter_leaves_no_ground:
        machine("120 V", "12 A"), [("adapter", "two-prong")],
        [Danger], ["no ground", "grounded outlet"], ["grounded outlet"], ["the adapter"];
    the_smallest_machine_runs_on_any_outlet:
        sold_as("2.1 cfm", "7 gal", "120 V", "9 A"), NO_FIELDS,
        [Good], ["runs it"], [], ["trip", "circuit of its own"];
}

#[test]
fn cold_makes_the_same_start_no_harder() {
    // Copper at 40 °F resists 6 % less than at 70 °F (IEC 60028): the start is judged at the place's temperature.
    let at = |temperature: &str| {
        let mut shop = shop(
            Candidate {
                start: "K".into(),
                power: "1.5 hp".into(),
                ..machine("120 V", "15 A")
            },
            place(&[("cord_gauge", "12 AWG"), ("cord_length", "75 ft")]),
        );
        shop.places[0].temperature = temperature.into();
        let load = verdict(&shop, 0).load.unwrap();
        load.starting.unwrap().volts
    };
    assert!(at("40 F") > at("70 F"));
    assert!(at("40 F") < 0.8 * 120.0, "a hard start on that cord");
}

#[test]
fn a_british_plug_in_a_metric_shop_hears_nothing_american() {
    let mut shop = shop(
        Candidate {
            flow: "250 L/min".into(),
            at: "7 bar".into(),
            tank: "50 L".into(),
            power: "2.2 kW".into(),
            ..machine("230 V", "9.6 A")
        },
        place(&[("volts", "230 V"), ("outlet", "UK 13 A plug")]),
    );
    shop.units = Units::Metric;
    shop.places[0].altitude = "0 m".into();
    shop.places[0].temperature = "20 C".into();
    let expected = Expected {
        grades: &[Good, Trip],
        gist: &["socket of its own", "reel"],
        first: &[],
        never: &["AWG", "NEC", "gauge", "in hose"],
    };
    check(&shop, &expected);
}

#[test]
fn a_stationary_machine_stays_home() {
    let mut shop = shop(
        Candidate {
            weight: "300 lb".into(),
            ..sold_as("12 cfm", "60 gal", "240 V", "15 A")
        },
        place(&[("volts", "240 V"), ("breaker", "20 A")]),
    );
    shop.places.push(Place {
        name: "Hangar".into(),
        volts: "120 V".into(),
        ..Place::default()
    });
    assert_eq!(verdict(&shop, 0).grade, Good);
    assert_eq!(verdict(&shop, 1).grade, Good);
    shop.places[1].machine_comes = "yes".into();
    assert_eq!(verdict(&shop, 1).grade, Outlet);
}

/// Judgement: what shares the breaker is heard in the first sentence, even where the air is worse.
#[test]
fn a_freezer_on_the_breaker_is_told_where_the_air_is_too_small() {
    let told = |name: &str| {
        let fields = [("breaker", "15 A"), ("other_load", "6 A"), ("other_name", name)];
        let shop = shop(sold_as("2.5 cfm", "6 gal", "120 V", "11.5 A"), place(&fields));
        report(&shop, View::default()).answer.sentence
    };
    assert!(
        told("freezer").contains("With the freezer the breaker may trip."),
        "{}",
        told("freezer")
    );
    assert!(
        told("").contains("With the other 6 A the breaker may trip."),
        "{}",
        told("")
    );
}
