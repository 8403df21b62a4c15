//! Paint in words: whether the gun holds through a coat, what dries the air, what the painter breathes.

use super::jobs::doing;
use super::label::finding;
use super::words::{Words, capital, listed};
use crate::report::{Finding, Section};
use judge::assess::Facts;
use judge::basis::{Basis, CandidateBasis};
use judge::grade::Grade;
use judge::paint::{Coat, coats};

/// A coat in words: a line for the headline, the whole of it, and what to get.
#[derive(Clone, Debug, PartialEq)]
pub struct Painting {
    /// A line.
    pub short: String,
    /// The whole.
    pub long: String,
    /// What to get or do first.
    pub first: String,
}

/// Whether one coat is held, in words.
pub fn painting(words: Words, basis: &Basis, coat: &Coat) -> Painting {
    let gun = coat.spray.gun.name;
    let task = basis
        .tasks
        .get(coat.task)
        .map_or_else(|| "painting".into(), doing);
    let what = if coat.color { "a color coat" } else { "parts" };
    let short = match (coat.grade, coat.color) {
        (Grade::Good, true) if coat.nonstop() => {
            format!("Keeps up with {what} ({gun}), running nearly nonstop: hot, wet air.")
        }
        (Grade::Good, true) => format!("Keeps up with {what} ({gun})."),
        (Grade::Good, false) => format!("Primes {what} with a {gun}."),
        (Grade::Wait, _) => format!("A usual {gun} holds {what}; a thirstier one fades."),
        (Grade::Ask, _) => format!("Can’t say yet whether the {gun} holds {what}."),
        _ => format!("Too small for {task}: the gun fades inside a coat."),
    };
    Painting {
        short,
        long: long(words, coat),
        first: first(coat),
    }
}

fn long(words: Words, coat: &Coat) -> String {
    let [setting, least] = coat.pressures.map(|pressure| words.pressure(pressure));
    let takes = words.flow(coat.takes);
    let held = match (coat.grade, coat.fades_after_s) {
        (Grade::Ask, _) => String::new(),
        (Grade::Good | Grade::Wait, _) => {
            format!("It holds {setting} at the gun, never under {least}, with no stop inside a coat.")
        }
        (_, Some(seconds)) if seconds >= 1.0 => format!(
            "After {} on the trigger the gun is under {least}, and a stop inside a coat spoils it.",
            words.time(seconds)
        ),
        _ => format!("The gun never gets its {setting} through this line."),
    };
    format!("The gun takes {takes} while it sprays. {held}")
        .trim_end()
        .into()
}

fn first(coat: &Coat) -> String {
    if coat.grade == Grade::Small {
        return "Borrow or rent a compressor for the paint, or use a gun that takes less.".into();
    }
    air(coat).into()
}

/// What to get, in a line for the headline: the section says the whole of it.
pub fn first_in_short(coat: &Coat) -> String {
    match (coat.grade, coat.color) {
        (Grade::Small, _) => "Borrow or rent a compressor for the paint.".into(),
        (_, true) => "Trap, coalescing filter and desiccant at the bench end.".into(),
        (_, false) => "Trap and filter at the bench end.".into(),
    }
}

/// What the painter breathes, in a line for the headline.
pub fn breathing_in_short(coat: &Coat) -> &'static str {
    match (coat.spray.isocyanate, coat.spray.chromate) {
        (Some(true), _) => "Supplied air for isocyanate, never from this compressor.",
        (_, Some(true)) => "Supplied air for chromate, never from this compressor.",
        (Some(false), _) => "A respirator by the paint’s safety sheet.",
        _ => "Supplied air for isocyanate and chromate.",
    }
}

/// What goes between the hose and the gun.
fn air(coat: &Coat) -> &'static str {
    if coat.color {
        "Put a trap, a coalescing filter and a desiccant dryer at the bench end, and use a hose that never saw oil. Start with a cool tank."
    } else {
        "Put a trap and a filter at the bench end, and use a hose that never saw oil."
    }
}

/// What the painter breathes. Supplied air never comes from this machine, whatever is filtered.
pub fn breathing(coat: &Coat) -> &'static str {
    match (coat.spray.isocyanate, coat.spray.chromate) {
        (Some(true), _) => {
            "Your paint hardens with isocyanate: wear supplied air from a separate source, never from this compressor."
        }
        (_, Some(true)) => {
            "Your primer has chromate, which causes cancer: wear supplied air from a separate source, never from this compressor. Don’t sand it dry."
        }
        (Some(false), _) => {
            "Wear the respirator that the paint’s safety sheet asks for. Isocyanate and chromate need supplied air, never from this compressor."
        }
        _ => {
            "Two-part urethane (isocyanate) and chromate primer need supplied air, from a separate source and never from this compressor."
        }
    }
}

/// What must not spark, and where the fumes go.
pub const SPARKS: &str =
    "Keep the compressor, switches and pilot lights away from the spray, and exhaust the fumes outdoors.";

fn findings(words: Words, basis: &Basis, coat: &Coat) -> [Finding; 3] {
    let said = painting(words, basis, coat);
    let place = basis
        .places
        .get(coat.place)
        .map_or("", |place| place.name.as_str());
    let grade = match coat.grade {
        Grade::Good => crate::report::Grade::Note,
        grade => crate::advice::mark(grade),
    };
    [
        finding(
            "coat",
            grade,
            format!("{place}: {} {} {}", said.short, said.long, said.first),
            "within 3 psi at the gun while it sprays, no stop inside a coat: rule of thumb; gun flows from makers’ catalogs",
        ),
        finding(
            "paint-breathing",
            crate::report::Grade::Note,
            breathing(coat).into(),
            "OSHA 1910.134 and 1910.1026; the paint’s safety data sheet decides",
        ),
        finding(
            "paint-air",
            crate::report::Grade::Note,
            format!("{} {SPARKS}", air(coat)),
            "rule of thumb; NFPA 33 and OSHA 1910.107 for spraying",
        ),
    ]
}

/// The section about paint; `None` where nothing is sprayed or the flow is unknown.
pub fn section(words: Words, basis: &Basis, candidate: &CandidateBasis, facts: &Facts) -> Option<Section> {
    let coats = coats(basis, candidate, facts);
    let worst = coats.iter().max_by_key(|coat| coat.grade)?;
    let mut all: Vec<Finding> = Vec::new();
    for finding in coats.iter().flat_map(|coat| findings(words, basis, coat)) {
        if !all.contains(&finding) {
            all.push(finding);
        }
    }
    let failing: Vec<String> = coats
        .iter()
        .filter(|coat| coat.grade == Grade::Small)
        .filter_map(|coat| basis.tasks.get(coat.task).map(doing))
        .collect();
    let sentence = if failing.is_empty() {
        painting(words, basis, worst).short
    } else {
        let mut names = failing;
        names.dedup();
        format!(
            "{}: borrow a bigger compressor for that.",
            capital(&listed(&names))
        )
    };
    Some(Section {
        id: "paint".into(),
        title: "Can I paint with it?".into(),
        grade: all.iter().map(|finding| finding.grade).max().unwrap_or_default(),
        sentence,
        findings: all,
        cautions: vec![
            SPARKS.into(),
            "Shop air is not breathing air. No oiler on a line that paints: keep a hose for each.".into(),
        ],
        ..Section::default()
    })
}
