//! The map's borders against direct verdicts.

#![allow(clippy::disallowed_methods, reason = "a test asks for what was found")]
use bellows::answer::Memory;
use bellows::answer::report::Grade;
use bellows::judge::assess::machine::machine;
use bellows::judge::assess::work::task_work;
use bellows::judge::assess::{Outcome, judge};
use bellows::judge::basis::Basis;
use bellows::judge::map::{CELL_CFM, Column, FLOWS_CFM, Region, map};
use bellows::physics::compressor::Pump;
use bellows::quantity::{FreeAir, Gauge, Known, M3_PER_GALLON};
use bellows::shop::{MachineKind, Shop, Units};

/// The worst outcome of a one-stage machine, 90 to 120 psi, duty 70 %, found without the map's search.
fn direct(basis: &Basis, flow: FreeAir, tank_m3: f64) -> Option<Region> {
    let mut candidate = basis.candidates[0].clone();
    candidate.kind = MachineKind::PistonOneStage;
    (candidate.cut_in, candidate.cut_out) = (Gauge::psi(90.0), Gauge::psi(120.0));
    candidate.duty = Known::assumed(0.7);
    let pump = Pump::of_one_flow(candidate.kind, flow, Gauge::psi(90.0)).ok()?;
    let mut worst: f64 = 0.0;
    for place in &basis.places {
        let machine = machine(&candidate, &pump, tank_m3, place);
        for task in basis.tasks.iter().filter(|task| task.on) {
            let work = task_work(task, &basis.line, place, machine.cut_out_pa).ok()?;
            worst = worst.max(judge(&machine, &work, 0.7).0.severity());
        }
    }
    Some(match worst {
        worst if worst < Outcome::RunsHard.severity() => Region::KeepsUp,
        worst if worst < 2.0 => Region::RunsHard,
        _ => Region::Waits,
    })
}

/// A flow is near a border if it lies within one cell of it.
fn near(column: &Column, cfm: f64) -> bool {
    let borders = column.keeps_up.into_iter().flatten().chain(column.no_waits);
    borders
        .into_iter()
        .any(|border| (border.as_cfm() - cfm).abs() <= CELL_CFM)
}

#[test]
fn borders_agree_with_direct_verdicts_at_random_points() {
    let basis = Basis::of(&Shop::demo());
    let columns = map(&basis);
    assert_eq!(columns.len(), 12);
    // Numerical Recipes' 64-bit congruential generator, from memory: the same points every time.
    let mut seed = 7_u64;
    let mut draw = || {
        seed = seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (seed >> 11) as f64 / (1_u64 << 53) as f64
    };
    let (mut compared, mut wrong) = (0, Vec::new());
    for _ in 0..300 {
        let column = &columns[(draw() * 12.0) as usize];
        let cfm = FLOWS_CFM[0] + draw() * (FLOWS_CFM[1] - FLOWS_CFM[0]);
        if near(column, cfm) {
            continue;
        }
        compared += 1;
        let (drawn, found) = (
            column.region(FreeAir::cfm(cfm)),
            direct(&basis, FreeAir::cfm(cfm), column.tank_m3).unwrap(),
        );
        if drawn != found {
            wrong.push((column.tank_m3, cfm, drawn, found));
        }
    }
    assert!(compared > 250);
    // Starts an hour fall into step with the rhythm here and there, so the upper border frays: one in a hundred.
    assert!(
        wrong.len() * 100 <= compared,
        "{} of {compared}: {wrong:?}",
        wrong.len()
    );
}

#[test]
fn a_larger_tank_never_asks_for_more_flow_to_end_the_waits() {
    let columns = map(&Basis::of(&Shop::fresh()));
    for pair in columns.windows(2) {
        let [small, large] = pair else { unreachable!() };
        if let (Some(small), Some(large)) = (small.no_waits, large.no_waits) {
            // Within a cell, and the step that a spell which begins just above cut-in can make.
            assert!(large.as_cfm() <= small.as_cfm() + 2.0 * CELL_CFM, "{columns:?}");
        }
    }
}

#[test]
fn the_map_is_told_and_drawn_with_its_candidates() {
    let section = Memory::default().map(&Shop::demo());
    let chart = section.chart.unwrap();
    assert_eq!(chart.rows.len(), 12);
    assert_eq!(section.findings.len(), 3, "one for each machine of the example");
    assert!(
        section.sentence.contains("cfm") && section.sentence.contains("20 gal"),
        "{}",
        section.sentence
    );
    let inside =
        |at: &[f64; 2]| (0.0..=chart.size[0]).contains(&at[0]) && (-10.0..=chart.size[1]).contains(&at[1]);
    assert!(chart.labels.iter().all(|label| inside(&label.at)));
    let metric = Memory::default().map(&Shop {
        units: Units::Metric,
        ..Shop::demo()
    });
    assert!(metric.sentence.contains("L/min"), "{}", metric.sentence);
}

#[test]
fn a_shop_without_tasks_has_a_map_without_columns() {
    let section = Memory::default().map(&Shop {
        tasks: Vec::new(),
        ..Shop::fresh()
    });
    assert!(section.chart.is_none());
    assert!(!section.sentence.is_empty());
}

/// A point that is picked or stepped to is reckoned, not read off the borders: it says what a direct verdict says.
#[test]
fn a_point_says_what_a_direct_verdict_says() {
    let shop = Shop::demo();
    let basis = Basis::of(&shop);
    let mut memory = Memory::default();
    let [left, top, width, height] = memory.map(&shop).chart.expect("a map").plot;
    let mut at = [left + 0.5 * width, top + 0.5 * height];
    for step in 0..60_i32 {
        let read = memory
            .step_on_map(at, [1, -1, 2, -2][step as usize % 4], 7 * (step % 5) - 12)
            .expect("within the map");
        let mut words = read.text.split_whitespace();
        let flow = FreeAir::cfm(words.next().expect("a flow").parse().expect("a number"));
        let tank_gal: f64 = words.nth(2).expect("a tank").parse().expect("a number");
        let region = direct(&basis, flow, tank_gal * M3_PER_GALLON).expect("a verdict");
        let grade = match region {
            Region::KeepsUp => read.grade == Grade::Good,
            Region::RunsHard => read.grade == Grade::Fair,
            Region::Waits => read.grade >= Grade::Poor,
        };
        assert!(grade, "{read:?} {region:?}");
        at = read.at;
        assert!((left..=left + width).contains(&at[0]) && (top..=top + height).contains(&at[1]));
    }
}

/// Far outside, at no number, or with no map drawn yet, a point is still within the map or nothing at all.
#[test]
fn a_point_off_the_map_is_brought_back() {
    let mut memory = Memory::default();
    assert_eq!(memory.pick_on_map([100.0, 100.0]), None);
    memory.map(&Shop::demo());
    for at in [[-1e9, 1e9], [f64::MAX, f64::MIN], [f64::NAN, f64::NAN]] {
        let read = memory.step_on_map(at, i32::MAX, i32::MIN).expect("brought back");
        assert!(read.at.iter().all(|place| place.is_finite()), "{read:?}");
        assert!(
            memory
                .pick_on_map(at)
                .is_some_and(|read| !read.text.contains("NaN"))
        );
    }
}
