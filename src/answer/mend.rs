//! What would fix it: each set in words, as changes that the page can try on.

use crate::advice::mark;
use crate::jobs::when;
use crate::power::fix_clause;
use crate::report::{Finding, Remedy, Section};
use crate::words::{Words, capital, listed, mid_sentence};
use judge::basis::Basis;
use judge::fix::{AirStep, Effort, Fix};
use judge::grade::Grade;
use quantity::Kind;
use shop::{TaskKind, Units};

/// One step about the air, as a part of a sentence.
fn air_step(words: Words, basis: &Basis, step: &AirStep) -> String {
    match step {
        AirStep::Cordless(_) => "use a cordless drill for the holes".into(),
        AirStep::Electric(task) => match basis.tasks.get(*task).map(|task| task.kind) {
            Some(TaskKind::Sander) => "use an electric sander".into(),
            _ => "use an electric or cordless grinder".into(),
        },
        AirStep::Hose(bore) => format!("use a {} main hose", words.bore_enough(*bore)),
        AirStep::SecondTank(volume) => format!(
            "plumb in a second tank of {}, stamped {} or more",
            words.of(Kind::Volume, *volume),
            stamp(words)
        ),
        AirStep::Pause(task, seconds) => format!(
            "take {} between pulls {}",
            words.of(Kind::Duration, *seconds),
            basis.tasks.get(*task).map_or_else(String::new, when)
        ),
    }
}

/// A second way is named while the fold is closed, where both take no more words than that.
const ROOM_WORDS: usize = 15;

/// What tanks sold beside such machines are stamped. Common practice, no source.
fn stamp(words: Words) -> &'static str {
    match words.units {
        Units::Us => "150 psi",
        Units::Metric => "11 bar",
    }
}

/// A set in words: the power first, as nothing runs before it.
pub fn label(words: Words, basis: &Basis, fix: &Fix) -> String {
    let several = basis.places.len() > 1;
    let power = fix.power.iter().map(|(place, fix)| {
        let clause = fix_clause(words, fix);
        match (several, basis.places.get(*place)) {
            (true, Some(place)) => format!("at “{}”: {clause}", place.name),
            _ => clause,
        }
    });
    let air = fix.air.iter().map(|step| air_step(words, basis, step));
    let steps: Vec<String> = power.chain(air).collect();
    capital(&listed(&steps))
}

/// What a set leaves, in a few words.
fn leaves(fix: &Fix) -> String {
    let then = &fix.then;
    let does = match then.core() {
        Grade::Good => "Then it does the job.",
        _ => "Then it works, with waits.",
    };
    let starts = match then.starts {
        Grade::Good => "",
        _ => " Its motor still starts often on so small a tank.",
    };
    let around = match then.around {
        Grade::Good => "",
        _ => " What is said of box or cold is left.",
    };
    [does, starts, around].concat()
}

fn effort(effort: Effort) -> (&'static str, &'static str) {
    match effort {
        Effort::Nothing => ("fix-nothing", "Costs nothing"),
        Effort::Purchase => ("fix-purchase", "Something to buy"),
        Effort::Electrician => ("fix-electrician", "An electrician"),
        Effort::Machine => ("fix-machine", "Another machine"),
    }
}

/// The section: every set that mends, least effort first, and the machine to look for where nothing does. Beside the sets stands
/// how many were not tried.
pub fn section(
    words: Words,
    basis: &Basis,
    grade: Grade,
    (fixes, untried): &(Vec<Fix>, usize),
    look_for: &str,
) -> Option<Section> {
    // Box, cold and a motor that starts too often are mended as the headline says: no other machine is asked for.
    let told = matches!(grade, Grade::Danger | Grade::Trip) && fixes.is_empty();
    if told || matches!(grade, Grade::Good | Grade::Ask) {
        return None;
    }
    let mut findings: Vec<Finding> = Vec::new();
    for kind in [
        Effort::Nothing,
        Effort::Purchase,
        Effort::Electrician,
        Effort::Machine,
    ] {
        let of_kind: Vec<&Fix> = fixes.iter().filter(|fix| fix.effort == kind).collect();
        let Some(first) = of_kind.first() else { continue };
        let (id, title) = effort(kind);
        findings.push(Finding {
            id: id.into(),
            grade: mark(first.then.grade()),
            text: format!("{title}. {}", leaves(first)),
            basis: "tried with all of it on, by the same odds".into(),
            remedies: of_kind
                .iter()
                .map(|fix| Remedy {
                    label: label(words, basis, fix),
                    changes: fix.changes.clone(),
                })
                .collect(),
        });
    }
    let none = format!("Another machine: look for {look_for}.");
    let sentence = match in_short(words, basis, fixes) {
        short if short.is_empty() => none.clone(),
        short => short,
    };
    if !findings.is_empty() && grade != Grade::Wait {
        findings.push(Finding {
            id: "fix-other".into(),
            text: none,
            ..Finding::default()
        });
    }
    Some(Section {
        id: "mend".into(),
        title: "What would fix it?".into(),
        grade: mark(grade),
        sentence,
        cautions: cautions(fixes, *untried),
        findings,
        ..Section::default()
    })
}

/// The least effort, and another way beside it: "Use a cordless drill for the holes; or take 8 s between pulls when drilling."
fn in_short(words: Words, basis: &Basis, fixes: &[Fix]) -> String {
    let mut ways = fixes.iter().map(|fix| label(words, basis, fix));
    let Some(first) = ways.next() else {
        return String::new();
    };
    let other = ways.next().map(|way| format!("; or {}", mid_sentence(&way)));
    let both = [&*first, other.as_deref().unwrap_or_default()].concat();
    match both.split_whitespace().count() <= ROOM_WORDS {
        true => format!("{both}."),
        false => format!("{first}."),
    }
}

fn cautions(fixes: &[Fix], untried: usize) -> Vec<String> {
    let has = |wanted: fn(&Fix) -> bool| fixes.iter().any(wanted);
    let mut cautions = Vec::new();
    if has(|fix| matches!(fix.air, Some(AirStep::SecondTank(_)))) {
        cautions.push(
            "A second tank needs a stamp above the switch, its own relief valve with nothing before it, and a dry inside. No stamp, no air.".into(),
        );
    }
    if untried > 0 {
        cautions.push(format!(
            "The shop is so large that {untried} more fixes were not tried."
        ));
    }
    cautions
}
