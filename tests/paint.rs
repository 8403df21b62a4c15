//! Paint as a painter judges it: within 3 psi at the gun, no stop inside a coat, dry air at the bench end, supplied air from
//! elsewhere. Common practice, no source, unless said.

#![allow(clippy::unwrap_used, reason = "helpers of tests: a refusal is a failed test")]

use bellows::answer::paint::{breathing, painting};
use bellows::answer::report::{Report, View};
use bellows::answer::words::Words;
use bellows::answer::{paint, report};
use bellows::judge::assess::assess;
use bellows::judge::basis::Basis;
use bellows::judge::grade::Grade;
use bellows::judge::paint::{Coat, coats};
use bellows::shop::guns::{GUNS, GunKind};
use bellows::shop::{Candidate, MachineKind, Place, Shop, Task, TaskKind, Units};

fn machine(flow: &str, tank: &str) -> Candidate {
    Candidate {
        flow: flow.into(),
        at: "90 psi".into(),
        tank: tank.into(),
        ..Candidate::default()
    }
}

fn shop(candidate: Candidate, task: Task) -> Shop {
    Shop {
        units: Units::Us,
        places: vec![Place {
            temperature: "70 F".into(),
            ..Place::default()
        }],
        tasks: vec![Task { on: true, ..task }],
        candidates: vec![candidate],
        ..Shop::default()
    }
}

fn primer() -> Task {
    Task {
        kind: TaskKind::PrimerGun,
        ..Task::default()
    }
}

fn color(flow: &str) -> Task {
    Task {
        kind: TaskKind::PaintGun,
        flow: flow.into(),
        ..Task::default()
    }
}

fn coat(shop: &Shop) -> Coat {
    let basis = Basis::of(shop);
    assert!(basis.faults.is_empty(), "{:?}", basis.faults);
    coats(
        &basis,
        &basis.candidates[0],
        &assess(&basis, &basis.candidates[0]),
    )[0]
}

fn said(shop: &Shop) -> String {
    let basis = Basis::of(shop);
    let facts = assess(&basis, &basis.candidates[0]);
    let section = paint::section(Words::new(&basis), &basis, &basis.candidates[0], &facts).unwrap();
    let texts = section
        .findings
        .iter()
        .map(|finding| finding.text.clone())
        .chain(section.cautions.clone());
    format!("{} {}", section.sentence, texts.collect::<Vec<_>>().join(" "))
}

fn whole(report: &Report) -> String {
    let texts = report
        .sections
        .iter()
        .flat_map(|section| &section.findings)
        .map(|finding| finding.text.as_str());
    texts.collect::<Vec<_>>().join(" ")
}

#[test]
fn a_small_machine_primes_parts() {
    let shop = shop(machine("4 cfm", "20 gal"), primer());
    assert_eq!(coat(&shop).grade, Grade::Good);
    let all = said(&shop);
    for words in [
        "Primes parts",
        "trap and a filter at the bench end",
        "pilot lights away from the spray",
        "exhaust",
        "isocyanate",
        "chromate",
        "never from this compressor",
    ] {
        assert!(all.contains(words), "“{words}” not in {all}");
    }
    assert!(!all.contains("filter is enough"), "{all}");
}

#[test]
fn a_large_machine_keeps_up_with_a_color_coat_and_runs_nearly_nonstop() {
    let shop = shop(machine("11.5 cfm", "60 gal"), color("14 cfm"));
    let coat = coat(&shop);
    assert_eq!(coat.grade, Grade::Good, "{coat:?}");
    let all = said(&shop);
    for words in [
        "Keeps up with a color coat",
        "trap, a coalescing filter and a desiccant",
        "bench end",
        "never saw oil",
        "supplied air",
    ] {
        assert!(all.contains(words), "“{words}” not in {all}");
    }
    assert!(
        !all.contains("filter is enough") && !all.contains("fading"),
        "{all}"
    );
}

#[test]
fn a_small_machine_spoils_a_color_coat_and_borrowing_one_is_the_cure() {
    let shop = shop(machine("5 cfm", "30 gal"), color(""));
    let coat = coat(&shop);
    assert_eq!(coat.grade, Grade::Small);
    assert!(
        coat.fades_after_s.is_some_and(|seconds| seconds < 120.0),
        "{coat:?}"
    );
    let all = said(&shop);
    assert!(
        all.contains("Borrow or rent") && all.contains("Too small for painting"),
        "{all}"
    );
}

/// A painter allows 2 or 3 psi at the gun, whatever it is set to.
#[test]
fn a_gun_may_fade_by_three_psi() {
    for setting in ["", "30 psi", "45 psi", "60 psi"] {
        for kind in [TaskKind::PrimerGun, TaskKind::PaintGun] {
            let task = Task {
                kind,
                setting: setting.into(),
                ..Task::default()
            };
            let coat = coat(&shop(machine("11 cfm", "60 gal"), task));
            let [set, least] = coat.pressures.map(|pressure| pressure.as_psi());
            assert!((set - least - 3.0).abs() < 1e-6, "{setting}: {set} to {least}");
        }
    }
}

/// Flow of guns while sprayed, by makers' catalogs (typical): touch-up 2 to 6, reduced pressure 7 to 10, HVLP 9 to 20,
/// conventional 7 to 12 cfm.
#[test]
fn guns_take_what_their_kind_takes() {
    let ranges = GUNS.map(|gun| (gun.kind, gun.flow[0], gun.flow[2]));
    assert_eq!(
        ranges,
        [
            (GunKind::TouchUp, 2.0, 6.0),
            (GunKind::LowVolume, 7.0, 10.0),
            (GunKind::Hvlp, 9.0, 20.0),
            (GunKind::Conventional, 7.0, 12.0)
        ]
    );
    let with = |gun: &str| {
        let task = Task {
            gun: gun.into(),
            ..color("")
        };
        coat(&shop(machine("11 cfm", "60 gal"), task)).takes.as_cfm()
    };
    assert!(with("LVLP") < with("HVLP"));
    assert!((with("HVLP") - 14.0).abs() < 0.1, "{}", with("HVLP"));
}

/// Isocyanate and chromate: OSHA 1910.134, 1910.1026 (from memory); supplied air never comes from this machine.
#[test]
fn supplied_air_is_asked_for_by_paint_and_never_comes_from_here() {
    for (paint, words) in [
        ("two-part urethane", "isocyanate"),
        ("zinc chromate primer", "chromate"),
        ("", "supplied air"),
        ("waterborne", "safety sheet"),
    ] {
        let task = Task {
            paint: paint.into(),
            ..color("14 cfm")
        };
        let text = breathing(&coat(&shop(machine("11.5 cfm", "60 gal"), task)));
        assert!(
            text.contains(words) && text.contains("never from this compressor"),
            "{paint}: {text}"
        );
    }
}

/// Two-stage, 13.5 cfm, 80 gal, a hangar: from a warm tank a painter trusts no filter alone.
#[test]
fn a_warm_tank_is_never_trusted_to_a_filter() {
    let candidate = Candidate {
        kind: MachineKind::PistonTwoStage,
        ..machine("13.5 cfm", "80 gal")
    };
    let mut shop = shop(candidate, color(""));
    for (temperature, humidity) in [("70 F", "20 %"), ("90 F", "80 %"), ("40 F", "10 %")] {
        shop.places[0].temperature = temperature.into();
        shop.places[0].humidity = humidity.into();
        let all = whole(&report(&shop, View::default()));
        assert!(
            all.contains("desiccant") && !all.contains("filter is enough"),
            "{all}"
        );
    }
}

/// A headline's line and the whole are texts of their own.
#[test]
fn short_and_long_are_two_texts() {
    let shop = shop(machine("11.5 cfm", "60 gal"), color("14 cfm"));
    let basis = Basis::of(&shop);
    let said = painting(Words::new(&basis), &basis, &coat(&shop));
    assert!(!said.long.contains(&said.short) && !said.first.is_empty());
}

/// More air never spoils a coat that less air held.
#[test]
fn more_flow_and_more_tank_never_spoil_a_coat() {
    for tank in ["20 gal", "60 gal"] {
        let grades: Vec<Grade> = [4, 6, 8, 10, 12, 14, 16, 18]
            .map(|cfm| coat(&shop(machine(&format!("{cfm} cfm"), tank), color("14 cfm"))).grade)
            .into();
        assert!(
            grades.is_sorted_by(|one, other| one >= other),
            "{tank}: {grades:?}"
        );
    }
}
