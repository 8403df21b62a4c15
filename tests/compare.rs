//! Candidates side by side: what is said of each is what the answer says, and who beats whom is plain.

use bellows::answer::report::{CompareRow, Comparison, Report, Sort, View};
use bellows::answer::{Memory, compare, report};
use bellows::judge::basis::Basis;
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

fn three_of_one() -> Shop {
    let mut shop = Shop::demo();
    let one = shop.candidates[0].clone();
    shop.candidates = vec![one.clone(), one.clone(), one];
    shop
}

#[test]
fn the_same_for_more_money_is_beaten_and_an_equal_ties() {
    let mut shop = three_of_one();
    shop.candidates[2].price = "$900".into();
    shop.candidates[2].sound.clear();
    let Comparison { sentence, rows } = compare(&shop, Sort::Price);
    let tie = &rows[0].beside[0];
    assert!(
        !tie.beaten && tie.than == 1 && tie.text.starts_with("A tie"),
        "{tie:?}"
    );
    let dear = &rows[2];
    assert_eq!(dear.candidate, 2);
    assert!(dear.beside.iter().all(|beside| beside.beaten));
    let text = &dear.beside[0].text;
    assert!(
        text.contains("costs more") && text.contains("not known of both: sound"),
        "{text}"
    );
    assert!(!rows[0].beside.iter().any(|beside| beside.beaten));
    assert!(
        sentence.contains("level") && sentence.contains("better in nothing that both state: leave it"),
        "{sentence}"
    );
}

#[test]
fn costs_more_and_does_less_is_said_so() {
    let mut shop = three_of_one();
    shop.candidates.truncate(2);
    shop.candidates[1] = Candidate {
        name: "the dear one".into(),
        flow: "2.0".into(),
        price: "$900".into(),
        ..shop.candidates[1].clone()
    };
    let Comparison { sentence, rows } = compare(&shop, Sort::Verdict);
    assert_eq!(rows[1].candidate, 1);
    assert!(
        rows[1].beside[0]
            .text
            .starts_with("It does less and costs more than"),
        "{rows:?}"
    );
    assert!(
        sentence.contains("“the dear one” does less and costs more than"),
        "{sentence}"
    );
}

/// Better in nothing must not be said of what is better in something, nor a guess be held against anything.
#[test]
fn a_trade_is_no_defeat_and_a_guess_beats_nothing() {
    let mut shop = three_of_one();
    shop.candidates.truncate(2);
    shop.candidates[1].flow = "2.0".into();
    shop.candidates[1].price = "$50".into();
    let cheap = compare(&shop, Sort::Verdict);
    assert!(cheap.rows.iter().all(|row| row.beside.is_empty()));
    assert!(
        cheap.sentence.contains("costs less, but does less"),
        "{}",
        cheap.sentence
    );
    shop.candidates[1].flow.clear();
    shop.candidates[1].price = shop.candidates[0].price.clone();
    for row in compare(&shop, Sort::Verdict).rows {
        assert!(
            row.beside
                .iter()
                .all(|beside| !beside.beaten && beside.text.contains("not known of both: air")),
            "{row:?}"
        );
    }
}

/// A difference that no reader sees in the rounded figures makes neither better nor worse.
#[test]
fn a_difference_too_small_to_show_is_a_tie() {
    let mut shop = three_of_one();
    shop.candidates.truncate(2);
    shop.candidates[0].sound = "78.1".into();
    shop.candidates[1].sound = "78.2".into();
    let rows = compare(&shop, Sort::Sound).rows;
    assert!(rows[0].beside[0].text.starts_with("A tie"), "{rows:?}");
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
    assert_eq!(order(&shop, Sort::Mass), [0, 2, 1]);
}

/// Whatever the order, grades never fall back by verdict, and the same rows come.
#[test]
fn twenty_candidates_with_any_names_come_in_order() {
    let mut shop = Shop::demo();
    let one = shop.candidates[0].clone();
    shop.candidates = (0..20)
        .map(|index| Candidate {
            name: ["", "<b>\"x\"</b>", "\u{202e}olleh", "🛠", "a, b and c"][index % 5].into(),
            flow: format!("{}", 1.0 + 0.4 * index as f64),
            price: format!("{}", 100 + 37 * (index * 7 % 20)),
            ..one.clone()
        })
        .collect();
    let most = compare(&shop, Sort::Verdict)
        .rows
        .iter()
        .map(|row| row.beside.len())
        .max();
    assert_eq!(most, Some(2), "a row is no list of all the others");
    for sort in [
        Sort::Verdict,
        Sort::Waiting,
        Sort::Power,
        Sort::Sound,
        Sort::Mass,
        Sort::Price,
    ] {
        let rows = compare(&shop, sort).rows;
        let mut seen: Vec<usize> = rows.iter().map(|row| row.candidate).collect();
        if sort == Sort::Verdict {
            assert!(rows.is_sorted_by_key(|row| row.answer.grade));
        }
        if sort == Sort::Price {
            assert!(rows.is_sorted_by_key(|row| 37 * (row.candidate * 7 % 20)));
        }
        seen.sort_unstable();
        assert_eq!(seen, (0..20).collect::<Vec<_>>());
        let mut names: Vec<&str> = rows.iter().map(|row| row.name.as_str()).collect();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), 20, "each has a name of its own");
    }
}

/// What is kept between calls never makes another answer than a fresh reckoning.
#[test]
fn memory_answers_as_a_fresh_reckoning() {
    let mut shop = Shop::demo();
    let mut memory = Memory::default();
    for step in 0..5 {
        match step {
            1 => shop.candidates[1].flow = "3.1".into(),
            2 => shop.places[0].altitude = "7000".into(),
            3 => shop.tasks[0].flow = "9".into(),
            4 => shop.line.trunk_length = "200 ft".into(),
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

/// By the odds: the machine with which all work is done in most shops comes first, what has no flow last.
#[test]
fn the_surest_comes_first_by_the_odds_of_its_verdict() {
    let mut shop = Shop::demo();
    let basis = Basis::of(&shop);
    let done = |row: &CompareRow| {
        let verdict = bellows::judge::verdict::verdict(&basis, &basis.candidates[row.candidate]);
        verdict.expect("a flow").all_done
    };
    let rows = compare(&shop, Sort::Draws).rows;
    assert!(rows.is_sorted_by(|one, other| done(one) >= done(other)));
    let cell = |row: &CompareRow| {
        let mut cells = row.cells.iter();
        cells
            .find(|cell| cell.name == "How sure")
            .expect("a cell")
            .value
            .clone()
    };
    assert!(
        cell(&rows[0]).starts_with("Out of 10 shops like yours"),
        "{}",
        cell(&rows[0])
    );
    let blank = &mut shop.candidates[1];
    (blank.flow, blank.amps, blank.power) = Default::default();
    let rows = compare(&shop, Sort::Draws).rows;
    assert_eq!(rows[2].candidate, 1, "what has no flow comes last");
}

/// Who blows the breaker is not the better choice, however much its label promises: amps left blank were once a way to
/// beat a machine that runs.
#[test]
fn nothing_with_a_worse_verdict_beats() {
    let mut shop = three_of_one();
    shop.candidates.truncate(2);
    (shop.candidates[1].flow, shop.candidates[1].amps) = ("9".into(), String::new());
    for candidate in &mut shop.candidates {
        candidate.start.clear();
    }
    let Comparison { sentence, rows } = compare(&shop, Sort::Verdict);
    assert!(rows[0].answer.grade < rows[1].answer.grade, "{rows:?}");
    assert!(!rows[0].beside.iter().any(|beside| beside.beaten), "{rows:?}");
    assert!(!sentence.contains("leave it"), "{sentence}");
}
