//! One row of the exam: what is printed on a machine, the shop, and what an old hand would answer.

use bellows::answer::report as written;
use bellows::answer::report::{Answer, Report, View};
use bellows::judge::grade::Grade;
use bellows::shop::{Shop, Units, file};
use regex::Regex;
use serde_json::Value;

use crate::typed::set;

/// A row. The texts are regular expressions, blind to case; `|` parts what is as good.
pub struct Row {
    /// What it is about.
    pub name: &'static str,
    /// The label as printed.
    pub label: &'static str,
    /// What is typed besides: path of the field, text.
    pub typed: &'static [(&'static str, &'static str)],
    /// The grades that are right.
    pub grades: &'static [Grade],
    /// What the first lines (sentence and odds) must say, each.
    pub gist: &'static [&'static str],
    /// What the line on what to do next must say; with the first fixes under it.
    pub next: &'static [&'static str],
    /// What neither the lines nor the folds may say.
    pub never: &'static [&'static str],
}

/// A row that is blank but for its name and label.
pub const ROW: Row = Row {
    name: "",
    label: "",
    typed: &[],
    grades: &[],
    gist: &[],
    next: &[],
    never: &[],
};

/// The shop of the exam: one garage, nothing typed, the usual work.
fn shop_of(row: &Row) -> Shop {
    let metric = row.typed.contains(&("units", "metric"));
    let mut shop = Shop::fresh_in(if metric { Units::Metric } else { Units::Us });
    let reading = bellows::shop::label::read_label(row.label, shop.units);
    bellows::shop::label::fill(&reading, &mut shop.candidates[0]);
    edited(shop, row)
}

/// The shop with what is typed besides. A path that the model does not know fails the test.
fn edited(shop: Shop, row: &Row) -> Shop {
    let mut tree: Value = serde_json::from_str(&file::to_json(&shop)).unwrap();
    for (path, text) in row.typed.iter().filter(|(path, _)| *path != "units") {
        set(&mut tree, path, text);
    }
    let shop = file::from_json(&tree.to_string()).unwrap();
    let back: Value = serde_json::from_str(&file::to_json(&shop)).unwrap();
    for (path, text) in row.typed.iter().filter(|(path, _)| *path != "units") {
        let pointer = format!("/{}", path.replace('.', "/"));
        let kept = back.pointer(&pointer);
        // What is off is left out of a file.
        let known = kept.map_or(*text == "false", |kept| {
            kept == *text || format!("{kept}") == *text
        });
        assert!(known, "{}: no field {path}", row.name);
    }
    shop
}

/// Most words of sentence, odds and what to do next.
const MOST_WORDS: usize = 39;

/// The first lines with their count of words, where they are long.
pub fn too_long(row: &Row) -> Option<String> {
    let answer = written(&shop_of(row), View::default()).answer;
    let lines = format!("{} {} {}", answer.sentence, answer.odds, answer.next);
    let count = lines.split_whitespace().count();
    (count > MOST_WORDS).then(|| format!("{}: {count} words: {lines}", row.name))
}

/// What is wrong with the answer to a row; empty where nothing is. A label without a flow is asked about the power alone,
/// unless somebody could be hurt.
pub fn faults(row: &Row) -> Vec<String> {
    let shop = shop_of(row);
    let report = written(&shop, View::default());
    let label = &shop.candidates[0];
    let power_alone = !label.amps.is_empty()
        && [&label.flow, &label.tank, &label.suction]
            .iter()
            .all(|text| text.is_empty());
    let answer = match power_alone && report.answer.standing != Grade::Danger {
        true => &report.power,
        false => &report.answer,
    };
    let lines = format!("{} {}", answer.sentence, answer.odds);
    let next = next_of(answer, &report);
    let all = format!("{lines} {next} {}", folds_of(&report, power_alone));
    let grade = answer.standing;
    let mut faults = Vec::new();
    if !row.grades.contains(&grade) {
        faults.push(format!("grade {grade:?}, not one of {:?}", row.grades));
    }
    let says = |pattern: &str, text: &str| Regex::new(&format!("(?is){pattern}")).unwrap().is_match(text);
    faults.extend(
        row.gist
            .iter()
            .filter(|gist| !says(gist, &lines))
            .map(|gist| format!("does not say /{gist}/")),
    );
    faults.extend(
        row.next
            .iter()
            .filter(|gist| !says(gist, &next))
            .map(|gist| format!("what to do next is not /{gist}/")),
    );
    faults.extend(row.never.iter().filter(|gist| says(gist, &all)).map(|gist| {
        let found = Regex::new(&format!("(?is).{{0,60}}({gist}).{{0,40}}")).unwrap();
        format!(
            "says /{gist}/: …{}…",
            found.find(&all).map_or("", |found| found.as_str())
        )
    }));
    if !faults.is_empty() {
        faults.push(format!("the answer was: {lines} | {next}"));
    }
    faults
}

/// The line on what to do next, and the first fixes.
fn next_of(answer: &Answer, report: &Report) -> String {
    let fixes = report.sections.iter().filter(|section| section.id == "mend");
    let fixes = fixes
        .flat_map(|section| &section.findings)
        .flat_map(|finding| &finding.remedies);
    let fixes = fixes.take(2).map(|fix| fix.label.clone());
    std::iter::once(answer.next.clone())
        .chain(fixes)
        .collect::<Vec<_>>()
        .join(" ")
}

/// What the folds say, standing cautions left out.
fn folds_of(report: &Report, power_alone: bool) -> String {
    let mut text = String::new();
    let explaining: &[&str] = if power_alone {
        &["danger", "power"]
    } else {
        &["danger", "mend", "power", "line", "label"]
    };
    for section in report
        .sections
        .iter()
        .filter(|section| explaining.contains(&&*section.id))
    {
        text.push_str(&section.sentence);
        text.push(' ');
        for finding in &section.findings {
            text.push_str(&finding.text);
            text.push(' ');
        }
    }
    text
}
