//! What could hurt somebody, as a fitter and a safety man would say it: the grade, the gist, what to do first, and what must
//! not be said. Sources stand beside the rows; where none does it is judgement.

#![allow(clippy::unwrap_used, reason = "helpers of tests: a refusal is a failed test")]

use bellows::answer::danger::{Warning, warnings};
use bellows::answer::report;
use bellows::answer::report::{Grade as Shown, View};
use bellows::answer::words::Words;
use bellows::judge::assess::machine::store_m3;
use bellows::judge::basis::Basis;
use bellows::judge::grade::Grade;
use bellows::quantity::M3_PER_GALLON;
use bellows::shop::{Candidate, Place, Shop, Task, TaskKind, Units};

/// A garage at sea level with the usual work of an airframe, and one machine of 5 cfm on 20 gal.
fn shop() -> Shop {
    let task = |kind| Task {
        kind,
        on: true,
        ..Task::default()
    };
    Shop {
        units: Units::Us,
        places: vec![Place {
            name: "Garage".into(),
            ..Place::default()
        }],
        tasks: [TaskKind::Drill, TaskKind::RivetGun, TaskKind::BlowOff]
            .map(task)
            .into(),
        candidates: vec![Candidate {
            flow: "5 cfm".into(),
            at: "90 psi".into(),
            tank: "20 gal".into(),
            ..Candidate::default()
        }],
        ..Shop::default()
    }
}

fn with(change: impl FnOnce(&mut Shop)) -> Shop {
    let mut shop = shop();
    change(&mut shop);
    shop
}

fn found(shop: &Shop) -> Vec<Warning> {
    let basis = Basis::of(shop);
    warnings(Words::new(&basis), &basis, &basis.candidates[0], 0)
}

/// One row: grade, words that must stand in what is said, those of what to do first, those that must not stand anywhere.
fn row(shop: &Shop, grade: Grade, gist: &[&str], first: &[&str], never: &[&str]) {
    let all = found(shop);
    let worst = all
        .first()
        .unwrap_or_else(|| panic!("nothing found, wanted {gist:?}"));
    assert_eq!(worst.grade, grade, "{worst:?}");
    let said = format!("{} {}", worst.short, worst.long).to_lowercase();
    gist.iter()
        .for_each(|word| assert!(said.contains(word), "“{word}” not in: {said}"));
    let next = worst.first.to_lowercase();
    first
        .iter()
        .for_each(|word| assert!(next.contains(word), "“{word}” not in: {next}"));
    never.iter().for_each(|word| {
        assert!(
            !format!("{said} {next}").contains(word),
            "“{word}” in: {said} {next}"
        )
    });
    // Two texts of their own: neither is the other cut short.
    assert!(
        !worst.long.starts_with(worst.short.trim_end_matches('.')),
        "{worst:?}"
    );
    if grade == Grade::Danger {
        assert_eq!(report(shop, View::default()).answer.grade, Shown::Bad);
        assert_eq!(report(shop, View::default()).answer.sentence, worst.short);
    }
}

fn gallons(shop: &Shop) -> f64 {
    let basis = Basis::of(shop);
    store_m3(&basis.candidates[0], basis.auxiliary.as_ref(), 0) / M3_PER_GALLON
}

/// OSHA 1910.169 and the stamp: the working pressure is not above it.
#[test]
fn a_switch_above_the_stamp_is_dangerous() {
    let shop = with(|shop| {
        shop.candidates[0].cut_out = "175 psi".into();
        shop.candidates[0].stamp = "125".into();
    });
    row(
        &shop,
        Grade::Danger,
        &[
            "switch is above the tank’s stamp",
            "unplug it, bleed the tank",
            "do not run it",
        ],
        &["115 psi", "relief valve", "125 psi or less"],
        &["longer", "more air", "bursts of"],
    );
}

#[test]
fn a_switch_at_the_stamp_or_below_is_none() {
    let shop = with(|shop| {
        shop.candidates[0].cut_out = "125 psi".into();
        shop.candidates[0].stamp = "tank stamped 125 psi".into();
        shop.candidates[0].relief = "125 psi".into();
    });
    assert_eq!(found(&shop), []);
}

/// A danger rests on what was typed: a blank switch is asked for.
#[test]
fn a_low_stamp_with_a_blank_switch_is_a_question() {
    let shop = with(|shop| shop.candidates[0].stamp = "100 psi".into());
    row(&shop, Grade::Ask, &["max pressure"], &["label"], &["kills"]);
}

/// One-stage pumps stop near 150 psi; common practice, no source.
#[test]
fn a_switch_above_what_such_pumps_reach_is_asked_about() {
    let shop = with(|shop| shop.candidates[0].cut_out = "190 psi".into());
    row(&shop, Grade::Ask, &["190 psi", "stamp"], &["stamp"], &[]);
    // The stamp bears it out.
    let stamped = with(|shop| {
        shop.candidates[0].cut_out = "190 psi".into();
        shop.candidates[0].stamp = "200 psi".into();
    });
    assert_eq!(found(&stamped), []);
    // 150 psi is printed on most pancakes, 175 on two-stage machines.
    let usual = with(|shop| shop.candidates[0].cut_out = "150 psi".into());
    assert_eq!(found(&usual), []);
    let two_stage = with(|shop| {
        shop.candidates[0].cut_out = "175 psi".into();
        shop.candidates[0].pump = "two-stage, belt drive".into();
    });
    assert_eq!(found(&two_stage), []);
}

#[test]
fn a_second_tank_below_the_switch_stays_off_and_counts_for_nothing() {
    let shop = with(|shop| {
        shop.candidates[0].cut_out = "135 psi".into();
        shop.auxiliary.tank = "20 gal".into();
        shop.auxiliary.rated = "100 psi".into();
    });
    row(
        &shop,
        Grade::Danger,
        &["not for 135 psi", "never join"],
        &["stamped 150 psi or more"],
        &["40 gal", "longer bursts"],
    );
    assert!((gallons(&shop) - 20.0).abs() < 1e-9);
    let all = format!("{:?}", report(&shop, View::default()));
    assert!(!all.contains("40 gal"), "its volume is in the figures");
}

#[test]
fn a_second_tank_of_enough_stamp_counts() {
    let shop = with(|shop| {
        shop.candidates[0].cut_out = "135 psi".into();
        shop.auxiliary.tank = "20 gal".into();
        shop.auxiliary.rated = "150 psi".into();
    });
    assert_eq!(found(&shop), []);
    assert!((gallons(&shop) - 40.0).abs() < 1e-9);
}

#[test]
fn a_used_tank_without_a_stamp_gives_no_air() {
    let shop = with(|shop| {
        shop.auxiliary.tank = "20 gal".into();
        shop.auxiliary.rated = "no stamp".into();
        shop.auxiliary.condition = "used".into();
    });
    row(
        &shop,
        Grade::Danger,
        &["no stamp, no air"],
        &["stamped", "dry", "relief valve"],
        &["40 gal"],
    );
    assert!((gallons(&shop) - 20.0).abs() < 1e-9);
    // Its stamp not looked at: a question, and still no air from it.
    let unread = with(|shop| {
        shop.auxiliary.tank = "20 gal".into();
        shop.auxiliary.condition = "used".into();
    });
    row(&unread, Grade::Ask, &["stamped for"], &["look inside"], &[]);
    assert!((gallons(&unread) - 20.0).abs() < 1e-9);
    let rusty = with(|shop| {
        shop.auxiliary.tank = "20 gal".into();
        shop.auxiliary.rated = "200 psi".into();
        shop.auxiliary.condition = "rusty inside".into();
    });
    row(&rusty, Grade::Danger, &["scrap"], &["stamped"], &[]);
}

#[test]
fn a_relief_valve_above_the_stamp_or_blocked_is_dangerous() {
    let above = with(|shop| {
        let machine = &mut shop.candidates[0];
        (machine.cut_out, machine.stamp, machine.relief) =
            ("125 psi".into(), "150 psi".into(), "175 psi".into());
    });
    row(
        &above,
        Grade::Danger,
        &["relief valve is above the stamp"],
        &["150 psi or less"],
        &["good"],
    );
    let blocked = with(|shop| shop.candidates[0].relief = "painted shut".into());
    row(
        &blocked,
        Grade::Danger,
        &["relief valve", "do not run it"],
        &["new relief valve"],
        &["good"],
    );
    let below = with(|shop| {
        let machine = &mut shop.candidates[0];
        (machine.cut_out, machine.relief) = ("150 psi".into(), "125 psi".into());
    });
    row(
        &below,
        Grade::Ask,
        &["before the switch"],
        &["lower the switch"],
        &[],
    );
}

/// OSHA hazard bulletin of 1988 on PVC in compressed-air lines (from memory).
#[test]
fn an_air_line_of_pvc_shatters() {
    let shop = with(|shop| shop.line.pipe = "schedule 40 PVC".into());
    row(
        &shop,
        Grade::Danger,
        &["shatters"],
        &["copper", "aluminum", "hose"],
        &["rated", "psi"],
    );
    for sound in ["copper", "aluminum", "black iron", "PEX", "none", ""] {
        assert_eq!(found(&with(|shop| shop.line.pipe = sound.into())), [], "{sound}");
    }
}

/// OSHA 1910.134(i) (from memory): supplied air is grade D.
#[test]
fn a_hood_never_breathes_from_it() {
    let shop = with(|shop| shop.line.breathing = "paint hood".into());
    row(
        &shop,
        Grade::Danger,
        &["not breathing air"],
        &["separate source of breathing air"],
        &["filter is enough", "suffices"],
    );
    assert_eq!(found(&with(|shop| shop.line.breathing = "none".into())), []);
}

/// NFPA 33 (from memory).
#[test]
fn spraying_beside_the_motor_is_dangerous() {
    let primer = |sprayed: &str| {
        with(|shop| {
            shop.tasks.push(Task {
                kind: TaskKind::PrimerGun,
                on: true,
                sprayed: sprayed.into(),
                ..Task::default()
            });
        })
    };
    let beside = primer("beside the compressor");
    row(
        &beside,
        Grade::Danger,
        &["motor and switch spark"],
        &["outside the spray area", "hose", "pilot lights"],
        &[],
    );
    assert_eq!(found(&primer("booth")), []);
    assert_eq!(found(&primer("")), []);
}

/// NEC 513.3 (read): the floor of a hangar to 18 in, and 5 ft around tanks and engines; 513.1: not where aircraft never had fuel.
#[test]
fn a_motor_on_a_hangar_floor_beside_fuel_is_dangerous() {
    let hangar = |airplane: &str, stands: &str| {
        with(|shop| {
            let place = &mut shop.places[0];
            place.name = "Hangar".into();
            (place.airplane, place.compressor_stands) = (airplane.into(), stands.into());
        })
    };
    let gist = [
        "not on that floor",
        "outside",
        "18 in up and 5 ft from",
        "cord joints too",
    ];
    row(
        &hangar("fueled", "on the floor"),
        Grade::Danger,
        &gist,
        &["hose through the wall", "ask the airport"],
        &["on the floor"],
    );
    row(
        &hangar("fueled", "12 in up, 10 ft from the airplane"),
        Grade::Danger,
        &gist[..1],
        &["hose"],
        &[],
    );
    row(
        &hangar("fueled", "2 ft up, 3 ft from the tanks"),
        Grade::Danger,
        &gist[..1],
        &["hose"],
        &[],
    );
    row(
        &hangar("fueled", ""),
        Grade::Ask,
        &["where does the compressor stand"],
        &["hose through the wall"],
        &["on the floor"],
    );
    for safe in [
        "outside",
        "18 in up, 5 ft from the airplane",
        "on a bench 30 in high and 8 ft away",
    ] {
        assert_eq!(found(&hangar("fueled", safe)), [], "{safe}");
    }
    for airplane in ["never fueled", "none", ""] {
        assert_eq!(found(&hangar(airplane, "on the floor")), [], "{airplane}");
    }
}

/// What was refused is asked about, never passed over.
#[test]
fn a_stamp_that_cannot_be_read_is_a_question() {
    let shop = with(|shop| shop.candidates[0].stamp = "20 gal".into());
    row(&shop, Grade::Ask, &["tank stamp"], &["again"], &[]);
}

/// Metric readers read metric figures.
#[test]
fn a_metric_shop_is_warned_in_bar() {
    let shop = with(|shop| {
        shop.units = Units::Metric;
        shop.candidates[0].cut_out = "11 bar".into();
        shop.candidates[0].stamp = "8 bar".into();
    });
    row(
        &shop,
        Grade::Danger,
        &["11 bar", "8 bar"],
        &["relief valve"],
        &["psi"],
    );
}

/// A second tank that stays at the first place is no danger at the second.
#[test]
fn a_second_tank_that_stays_is_judged_where_it_is() {
    let shop = with(|shop| {
        shop.places.push(Place {
            name: "Hangar".into(),
            ..Place::default()
        });
        shop.candidates[0].cut_out = "135 psi".into();
        shop.auxiliary.tank = "20 gal".into();
        shop.auxiliary.rated = "100 psi".into();
        shop.auxiliary.stays = true;
    });
    let basis = Basis::of(&shop);
    let at = |place| warnings(Words::new(&basis), &basis, &basis.candidates[0], place).len();
    assert_eq!((at(0), at(1)), (1, 0));
}

/// Judgement: a danger is said before what to look for, even where nothing else of the machine is typed.
#[test]
fn a_danger_on_an_otherwise_blank_label_is_the_headline() {
    let blocked = with(|shop| {
        shop.candidates = vec![Candidate {
            relief: "blocked".into(),
            ..Candidate::default()
        }];
    });
    let answer = report(&blocked, View::default()).answer;
    assert_eq!((answer.standing, &*answer.verdict), (Grade::Danger, "Danger"));
    assert_eq!(answer.grade, Shown::Bad);
}
