//! The exam: labels as printed, each with what an old hand at a tool counter would answer. Grade, gist, what to do next, and what
//! must not be said. The rows were written before the code that must pass them, by other hands: common practice, no source,
//! unless a row names one.

#![allow(clippy::unwrap_used, reason = "helpers of tests: a refusal is a failed test")]
#![allow(
    clippy::needless_update,
    reason = "a row lists what it needs and leaves the rest blank"
)]

mod air;
mod danger;
mod power;
mod row;
mod safety;
#[path = "../typed/mod.rs"]
mod typed;

use row::{Row, faults};

/// Rows that fail, each with the reason why it is left so.
const LEFT_FAILING: &[(&str, &str)] = &[];

fn all() -> impl Iterator<Item = &'static Row> {
    air::ROWS
        .iter()
        .chain(power::ROWS)
        .chain(safety::ROWS)
        .chain(danger::ROWS)
}

#[test]
fn every_row_is_answered_as_an_old_hand_would() {
    let mut failed = Vec::new();
    for row in all() {
        let faults = faults(row);
        let left = LEFT_FAILING.iter().any(|(name, _)| *name == row.name);
        match (faults.is_empty(), left) {
            (true, false) | (false, true) => {}
            (true, true) => failed.push(format!("{}: passes, and is still listed as failing", row.name)),
            (false, false) => failed.push(format!("{}:\n    {}", row.name, faults.join("\n    "))),
        }
    }
    let count = all().count();
    assert_eq!(count, 59, "a row is missing");
    assert!(
        failed.is_empty(),
        "{} of {count} rows fail:\n{}",
        failed.len(),
        failed.join("\n")
    );
}

#[test]
fn no_row_about_danger_is_left_failing() {
    let dangers = all().filter(|row| row.grades.contains(&bellows::judge::grade::Grade::Danger));
    for row in dangers {
        assert!(
            LEFT_FAILING.iter().all(|(name, _)| *name != row.name),
            "{}",
            row.name
        );
    }
}

/// The first answer is read in an aisle: under 40 words. Judgement.
#[test]
fn first_lines_are_short() {
    let long: Vec<String> = all().filter_map(row::too_long).collect();
    assert!(
        long.is_empty(),
        "{} rows are long:\n{}",
        long.len(),
        long.join("\n")
    );
}
