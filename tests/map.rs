//! The map's borders against direct verdicts.

#![allow(clippy::expect_used, reason = "helpers of tests: a refusal is a failed test")]

use bellows::answer::Memory;
use bellows::answer::report::Grade;
use bellows::judge::basis::Basis;
use bellows::judge::grade::Grade as Air;
use bellows::judge::map::{FLOWS_CFM, Region, map, own};
use bellows::judge::verdict::{Verdict, good_from, verdict, waits_from};
use bellows::quantity::{FreeAir, M3_PER_GALLON};
use bellows::shop::{Candidate, Shop, Units};
use drawn::Stream;

mod drawn;

/// What the verdict says of a label with flow and tank alone.
fn direct(shop: &Shop, cfm: f64, tank_m3: f64) -> Verdict {
    let mut shop = shop.clone();
    shop.candidates = vec![Candidate {
        flow: format!("{cfm:.6} cfm"),
        at: "90 psi".into(),
        tank: format!("{:.6} gal", tank_m3 / M3_PER_GALLON),
        ..Candidate::default()
    }];
    let basis = Basis::of(&shop);
    verdict(&basis, &basis.candidates[0]).expect("a flow")
}

/// Borders are monotone in each draw; a verdict is so but for three draws of 128 (`tests/verdict.rs`), and four here, as
/// several jobs are counted.
const DRAWS_OFF: usize = 4;

#[test]
fn borders_agree_with_direct_verdicts_at_random_points() {
    let shop = Shop::fresh();
    let columns = map(&Basis::of(&shop));
    assert_eq!(columns.len(), 12);
    let mut draws = Stream(7);
    let mut draw = || draws.next();
    let mut compared = 0;
    for _ in 0..24 {
        let column = &columns[(draw() * 12.0) as usize];
        let cfm = FLOWS_CFM[0] + draw() * 0.5 * (FLOWS_CFM[1] - FLOWS_CFM[0]);
        let verdict = direct(&shop, cfm, column.tank_m3);
        let least = verdict
            .records
            .iter()
            .map(|record| record.done)
            .min()
            .expect("records");
        let [good, waits] = [good_from(verdict.draws), waits_from(verdict.draws)];
        let fits = match column.region(FreeAir::cfm(cfm)) {
            Region::Good => least + DRAWS_OFF >= good,
            Region::Waits => least + DRAWS_OFF >= waits && least < good + DRAWS_OFF,
            Region::Small => least < waits + DRAWS_OFF,
        };
        assert!(fits, "{cfm} cfm: {column:?} against {least} of {}", verdict.draws);
        compared += 1;
    }
    assert_eq!(compared, 24);
}

#[test]
fn a_larger_tank_never_asks_for_more_flow_nor_the_job_for_less_than_waiting() {
    let columns = map(&Basis::of(&Shop::fresh()));
    let cfm = |border: Option<FreeAir>| border.map_or(f64::MAX, |flow| flow.as_cfm());
    for pair in columns.windows(2) {
        assert!(cfm(pair[1].good) <= cfm(pair[0].good) + 1e-9, "{columns:?}");
        assert!(cfm(pair[1].waits) <= cfm(pair[0].waits) + 1e-9, "{columns:?}");
    }
    for column in &columns {
        assert!(cfm(column.waits) <= cfm(column.good), "{column:?}");
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

/// A point that is stepped to is judged, not read off the borders; a machine's own point says what its verdict says.
#[test]
fn a_point_says_what_a_direct_verdict_says() {
    let shop = Shop::fresh();
    let mut memory = Memory::default();
    let [left, top, width, height] = memory.map(&shop).chart.expect("a map").plot;
    let mut at = [left + 0.5 * width, top + 0.5 * height];
    for step in 0..6_i32 {
        let read = memory
            .step_on_map(at, [1, -1, 2, -2][step as usize % 4], 7 * (step % 5) - 12)
            .expect("within the map");
        let mut words = read.text.split_whitespace();
        let cfm: f64 = words.next().expect("a flow").parse().expect("a number");
        let gallons: f64 = words.nth(2).expect("a tank").parse().expect("a number");
        let grade = match direct(&shop, cfm, gallons * M3_PER_GALLON).grade() {
            Air::Good => Grade::Good,
            Air::Wait => Grade::Poor,
            _ => Grade::Bad,
        };
        assert_eq!(read.grade, grade, "{read:?}");
        at = read.at;
        assert!((left..=left + width).contains(&at[0]) && (top..=top + height).contains(&at[1]));
    }
}

/// Shops, and machines of any flow, tank and switch: where a machine's own verdict lies more than a draw beyond the region
/// that is drawn at its point, its line and its point on the map say so, and nowhere else.
#[test]
fn a_machine_whose_verdict_is_not_what_is_drawn_at_its_point_says_so() {
    let mut draws = Stream(29);
    let mut draw = || draws.next();
    let (mut said, mut silent, mut usual) = (0, 0, Vec::new());
    for nth in 0..3 {
        let mut shop = Shop::fresh();
        shop.places[0].altitude = format!("{:.0} ft", 5_000.0 * draw());
        for task in &mut shop.tasks {
            task.on &= draw() < 0.7;
        }
        shop.tasks[0].on = true;
        shop.candidates = (0..12)
            .map(|index| Candidate {
                name: format!("No. {index}"),
                flow: format!("{:.2} cfm", 1.0 + 6.0 * draw()),
                at: "90 psi".into(),
                tank: format!("{:.1} gal", 3.0 + 50.0 * draw()),
                cut_in: if index % 2 == 0 {
                    String::new()
                } else {
                    "105 psi".into()
                },
                cut_out: if index % 2 == 0 {
                    String::new()
                } else {
                    "135 psi".into()
                },
                ..Candidate::default()
            })
            .collect();
        let basis = Basis::of(&shop);
        let columns = map(&basis);
        let mut memory = Memory::default();
        let section = memory.map(&shop);
        let labels = section.chart.expect("a map").labels;
        for (index, machine) in basis.candidates.iter().enumerate() {
            let judged = verdict(&basis, machine).expect("a flow");
            let worst = judged.worst().expect("records");
            let own = own(&columns, worst, machine.flows[0].0, machine.tank_m3.value).expect("a column");
            let id = format!("point-{}", index + 1);
            let finding = section
                .findings
                .iter()
                .find(|finding| finding.id == id)
                .expect("its line");
            let says_so = finding.text.contains("would stand elsewhere");
            assert_eq!(
                says_so,
                own.contradicts(),
                "shop {nth}: {finding:?} {own:?} {worst:?}"
            );
            let name = format!("{}", index + 1);
            let label = labels.iter().find(|label| label.text == name).expect("its point");
            let read = memory.pick_on_map(label.at).expect("a reading");
            if read.text.starts_with(&format!("No. {index}: ")) {
                assert_eq!(read.text.contains("would stand elsewhere"), says_so, "{read:?}");
            }
            if says_so {
                said += 1;
            } else {
                silent += 1;
            }
            if index % 2 == 0 {
                usual.push(own.apart);
            }
        }
    }
    println!(
        "{said} machines stand elsewhere and say so, {silent} do not; usual ones are apart by {usual:?} draws"
    );
    assert!(silent > said, "{said} of {} contradict the map", said + silent);
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
