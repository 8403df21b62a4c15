//! Candidates side by side: what is said of each is what the answer says, and who beats whom is plain.

use bellows::answer::report::{Comparison, Report, Sort, View};
use bellows::answer::{Memory, compare, report};
use bellows::shop::{Candidate, Shop, Units};

#[test]
fn each_row_says_what_the_answer_says() {
    for units in [Units::Us, Units::Metric] {
        let mut shop = Shop {
            units,
            ..Shop::demo()
        };
        shop.candidates.push(Default::default());
        shop.candidates[1].flow.clear();
        let rows = compare(&shop, Sort::Verdict).rows;
        assert_eq!(rows.len(), 3, "the blank one is left out");
        for row in rows {
            shop.chosen = row.candidate;
            assert_eq!(row.answer, report(&shop, View::default()).answer);
            assert!(
                row.cells
                    .iter()
                    .all(|cell| !cell.value.contains("NaN") && !cell.value.is_empty())
            );
        }
    }
}

#[test]
fn sorts_put_the_least_first_and_the_unknown_last() {
    let mut shop = Shop::demo();
    let order = |shop: &Shop, sort| -> Vec<usize> {
        compare(shop, sort).rows.iter().map(|row| row.candidate).collect()
    };
    assert_eq!(order(&shop, Sort::Price), [1, 0, 2]);
    assert_eq!(order(&shop, Sort::Sound), [0, 1, 2]);
    shop.candidates[1].weight.clear();
    // The third wants 240 V, which neither place has.
    assert_eq!(order(&shop, Sort::Mass), [0, 1, 2]);
}

/// Whatever the order, the same rows come.
#[test]
fn candidates_with_any_names_come_in_order() {
    let mut shop = Shop::demo();
    let one = shop.candidates[0].clone();
    shop.candidates = (0..8)
        .map(|index| Candidate {
            name: ["", "<b>\"x\"</b>", "\u{202e}olleh", "🛠", "a, b and c"][index % 5].into(),
            flow: format!("{}", 1.0 + index as f64),
            price: format!("{}", 100 + 37 * (index * 5 % 8)),
            ..one.clone()
        })
        .collect();
    let mut memory = Memory::default();
    for sort in [
        Sort::Verdict,
        Sort::Waiting,
        Sort::Power,
        Sort::Sound,
        Sort::Mass,
        Sort::Price,
    ] {
        let rows = memory.compare(&shop, sort).rows;
        let mut seen: Vec<usize> = rows.iter().map(|row| row.candidate).collect();
        if sort == Sort::Price {
            assert!(rows.is_sorted_by_key(|row| 37 * (row.candidate * 5 % 8)));
        }
        seen.sort_unstable();
        assert_eq!(seen, (0..8).collect::<Vec<_>>());
        let mut names: Vec<&str> = rows.iter().map(|row| row.name.as_str()).collect();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), 8, "each has a name of its own");
    }
}

/// What is kept between calls never makes another answer than a fresh reckoning.
#[test]
fn memory_answers_as_a_fresh_reckoning() {
    let mut shop = Shop::demo();
    let mut memory = Memory::default();
    for step in 0..3 {
        match step {
            1 => shop.candidates[1].flow = "3.1".into(),
            2 => shop.places[0].altitude = "7000".into(),
            _ => {}
        }
        let map = Memory::default().map(&shop);
        assert_eq!(memory.map(&shop).chart, map.chart, "step {step}");
        assert_eq!(
            memory.compare(&shop, Sort::Verdict),
            compare(&shop, Sort::Verdict),
            "step {step}"
        );
        let written = |report: &Report| serde_json::to_string(report).unwrap();
        assert_eq!(
            written(memory.report(&shop, View::default())),
            written(&report(&shop, View::default())),
            "step {step}"
        );
    }
}

#[test]
fn one_label_is_no_comparison() {
    assert_eq!(compare(&Shop::fresh(), Sort::Verdict), Comparison::default());
}

fn sold_as(flow: &str, tank: &str, volts: &str, amps: &str, price: &str) -> Candidate {
    Candidate {
        name: format!("{flow} on {tank}"),
        flow: flow.into(),
        at: "90 psi".into(),
        tank: tank.into(),
        volts: volts.into(),
        amps: amps.into(),
        price: price.into(),
        ..Candidate::default()
    }
}

/// A garage with a freezer on a 20 A breaker and three machines: the smallest is too small for drilling, the largest wants a
/// new circuit, and the middle one works once a plug is moved. Any builder would buy the middle one: common practice, no source.
#[test]
fn the_machine_that_a_moved_plug_mends_is_the_one_to_buy() {
    let mut shop = Shop::fresh();
    (shop.places[0].breaker, shop.places[0].other_load) = ("20 A".into(), "6 A".into());
    shop.candidates = vec![
        sold_as("2.6 cfm", "6 gal", "120 V", "12 A", "$150"),
        sold_as("4.2 cfm", "20 gal", "120 V", "15 A", "$420"),
        sold_as("11.5 cfm", "60 gal", "240 V", "15 A", "$900"),
    ];
    let found = compare(&shop, Sort::Verdict);
    assert_eq!(found.rows[0].candidate, 1, "{found:?}");
    assert!(
        found.sentence.starts_with("Buy “4.2 cfm on 20 gal”"),
        "{}",
        found.sentence
    );
    assert!(
        found
            .sentence
            .contains("is too small unless you drill cordless ($270 less)"),
        "{}",
        found.sentence
    );
    assert!(
        found.sentence.contains("needs an electrician first"),
        "{}",
        found.sentence
    );
}

/// Volts that are blank are judged as taken, and the machine is compared as it was judged.
#[test]
fn a_blank_voltage_is_compared_as_it_was_judged() {
    let mut shop = Shop::fresh();
    let label = |volts: &str| sold_as("4.5 cfm", "25 gal", volts, "13 A", "$400");
    shop.candidates = vec![label("120 V"), label("")];
    let rows = compare(&shop, Sort::Verdict).rows;
    assert_eq!(rows[0].answer, rows[1].answer);
    assert_eq!(rows[0].because, rows[1].because);
}

/// What could hurt somebody is never the one to buy, whatever it costs or delivers.
#[test]
fn a_dangerous_machine_comes_last() {
    let mut shop = Shop::fresh();
    let mut overset = sold_as("6 cfm", "30 gal", "120 V", "14 A", "$99");
    (overset.cut_out, overset.stamp) = ("175 psi".into(), "125 psi".into());
    shop.candidates = vec![overset, sold_as("2.2 cfm", "4 gal", "120 V", "10 A", "$250")];
    let found = compare(&shop, Sort::Verdict);
    assert_eq!(found.rows.last().unwrap().candidate, 0, "{}", found.sentence);
    assert!(!found.sentence.starts_with("Buy “6 cfm"), "{}", found.sentence);
}

/// Sorted by sound or by waiting, machines that do not run here come last.
#[test]
fn machines_that_do_not_run_come_last_in_every_order() {
    let mut shop = Shop::fresh();
    shop.places[0].volts = "120 V".into();
    let with_sound = |mut label: Candidate, sound: &str| {
        label.sound = sound.into();
        label
    };
    shop.candidates = vec![
        with_sound(sold_as("11.5 cfm", "60 gal", "240 V", "15 A", "$900"), "71 dBA"),
        with_sound(sold_as("2.6 cfm", "6 gal", "120 V", "12 A", "$150"), "82 dBA"),
    ];
    for sort in [Sort::Sound, Sort::Waiting, Sort::Mass, Sort::Price] {
        let rows = compare(&shop, sort).rows;
        assert_eq!(rows.last().unwrap().candidate, 0, "{sort:?}");
    }
}
