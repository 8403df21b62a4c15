//! The cold in words.

use super::label::finding;
use super::words::Words;
use crate::report::{Finding, Grade, Section};
use judge::basis::{Basis, CandidateBasis, PlaceBasis};
use judge::cold::{Cold, cold};
use judge::power::stays_home;
use quantity::Kind;

/// What the cold does, in a line, and what to do.
pub fn said(words: Words, place: &PlaceBasis, cold: &Cold) -> [String; 2] {
    let at = words.of(Kind::Temperature, place.air.kelvin());
    let short = match (cold.stiff, cold.freezes) {
        (Some(false), true) => format!("At {at} water freezes in the drain and the line."),
        (Some(false), false) => format!("At {at} an oil-free pump starts."),
        (Some(true), true) => format!("At {at} the oil is stiff: it starts hard, and the drain freezes."),
        (Some(true), false) => format!("At {at} the oil is stiff: it starts hard."),
        (None, true) => format!("At {at} an oiled pump starts hard, and the drain freezes."),
        (None, false) => format!("At {at} an oiled pump starts hard."),
    };
    let oil = "Use thin or synthetic oil that the maker allows, and see that the unloader works.";
    let drain = "Drain while the tank is still warm, and leave the drain open overnight.";
    let first = match (cold.stiff, cold.freezes) {
        (Some(false), true) => drain.into(),
        (Some(false), false) => String::new(),
        (_, true) => format!("{oil} {drain}"),
        (_, false) => oil.into(),
    };
    [short, first]
}

/// What to do first, in a line for the headline: the oil before the drain.
pub fn first_in_short(cold: &Cold) -> &'static str {
    match (cold.stiff, cold.freezes) {
        (Some(false), true) => "Drain while the tank is still warm.",
        (Some(false), false) => "",
        _ => "Use thin or synthetic oil that the maker allows, and see that the unloader works.",
    }
}

fn at_place(words: Words, place: &PlaceBasis, cold: &Cold) -> Finding {
    let [short, first] = said(words, place, cold);
    let grade = if cold.grade == judge::grade::Grade::Good {
        Grade::Note
    } else {
        Grade::Fair
    };
    finding(
        "cold",
        grade,
        format!("{}: {short} {first}", place.name).trim_end().into(),
        "oiled pumps are made for 40 °F and up: rule of thumb, the maker’s oil chart decides",
    )
}

/// The section; `None` where no place is cold.
pub fn section(words: Words, basis: &Basis, candidate: &CandidateBasis) -> Option<Section> {
    let places = basis.places.iter().enumerate();
    let found: Vec<(&PlaceBasis, Cold)> = places
        .filter(|(index, place)| !stays_home(candidate, place, *index))
        .filter_map(|(_, place)| Some((place, cold(candidate, place)?)))
        .collect();
    let (place, worst) = found.iter().max_by_key(|(_, cold)| cold.grade)?;
    let findings: Vec<Finding> = found
        .iter()
        .map(|(place, cold)| at_place(words, place, cold))
        .collect();
    Some(Section {
        id: "cold".into(),
        title: "Will it start in the cold?".into(),
        grade: findings
            .iter()
            .map(|finding| finding.grade)
            .max()
            .unwrap_or_default(),
        sentence: said(words, place, worst)[0].clone(),
        findings,
        ..Section::default()
    })
}
