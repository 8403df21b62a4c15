//! The shopping window in words.

use super::sums::{self, PutIn};
use super::words::{Words, capital, listed};
use crate::report::{Figure, Window as Said};
use judge::basis::{Basis, PlaceBasis};
use judge::power::{amps_fed, flow_fed, light_cord};
use judge::verdict::tenths;
use judge::window::{Window, usual};
use physics::carry::TEAM_SHARE;
use physics::circuit::MIDDLE_VOLTS;
use physics::compressor::INTO_TANK_K;
use quantity::{Gauge, Kind};

/// Places whose cord is too light for a machine that draws all that the tightest circuit feeds, each with the least
/// area that does, m².
fn heavier_cords(basis: &Basis) -> Vec<(&PlaceBasis, f64)> {
    let fed = |place: &PlaceBasis| amps_fed(place) * place.volts.value;
    let Some(tight) = basis
        .places
        .iter()
        .min_by(|one, other| fed(one).total_cmp(&fed(other)))
    else {
        return Vec::new();
    };
    let amps = amps_fed(tight);
    let places = basis.places.iter();
    places
        .filter_map(|place| {
            let size = light_cord(place, amps, tight.volts.value)?;
            Some((place, size.area_m2))
        })
        .collect()
}

/// Where the circuit is named in the window's sentence.
fn circuit(words: Words, basis: &Basis, window: &Window) -> Option<String> {
    let places = basis.places.iter().enumerate();
    let (index, tight) = places.min_by(|(_, one), (_, other)| amps_fed(one).total_cmp(&amps_fed(other)))?;
    if window.unfed.contains(&index) {
        let wants = match (tight.generator_va, tight.volts.value > MIDDLE_VOLTS) {
            (Some(_), _) => "a larger generator".to_owned(),
            (None, true) => "a larger circuit".to_owned(),
            (None, false) => format!("a {} circuit", words.volts(240.0)),
        };
        return Some(format!("which wants {wants} at “{}”", tight.name));
    }
    Some(format!(
        "drawing at most {} at {} (for “{}”)",
        words.amps(amps_fed(tight)),
        words.volts(tight.volts.value),
        tight.name
    ))
}

/// Limits of noise and mass, where the shop states them.
fn limits(words: Words, basis: &Basis) -> Vec<String> {
    let limits = &basis.limits;
    let mut texts = Vec::new();
    if let Some(level) = limits.loudest_dba {
        texts.push(format!(
            "no louder than {} where you stand",
            words.of(Kind::SoundLevel, level)
        ));
    }
    if let Some(mass) = limits.lift_kg {
        texts.push(format!(
            "under {} for two to lift",
            words.of(Kind::Mass, 2.0 * TEAM_SHARE * mass)
        ));
    }
    if let Some(budget) = limits.budget {
        texts.push(format!(
            "within {} for the whole set",
            words.of(Kind::Money, budget)
        ));
    }
    texts
}

/// The sentence, and how it comes about.
pub fn said(words: Words, basis: &Basis, window: Option<&Window>) -> Said {
    let Some(window) = window else {
        let lacking = basis.places.is_empty() || !basis.tasks.iter().any(|task| task.on);
        let sentence = if lacking {
            "With no place or no task there is nothing to look for yet."
        } else {
            "No usual machine on a tank of up to 80 gal does all of these jobs: ease the hardest, or plan for a shop installation."
        };
        return Said {
            sentence: sentence.into(),
            ..Said::default()
        };
    };
    let at = words.pressure(Gauge::psi(90.0));
    let mut parts = vec![format!(
        "Look for at least {} at {at} on a tank of at least {}",
        words.flow_enough(window.flow),
        words.volume_enough(window.tank_m3)
    )];
    parts.extend(circuit(words, basis, window));
    let heavier = heavier_cords(basis);
    if !heavier.is_empty() {
        let names: Vec<String> = heavier
            .iter()
            .map(|(place, _)| format!("“{}”", place.name))
            .collect();
        parts.push(format!("on a heavier cord at {}", listed(&names)));
    }
    parts.extend(limits(words, basis));
    if !window.beyond.is_empty() {
        let left_out = window.beyond.iter().filter_map(|task| basis.tasks.get(*task));
        let left_out: Vec<String> = left_out.map(super::jobs::doing).collect();
        parts.push(format!("with {} left out", listed(&left_out)));
    }
    Said {
        sentence: format!("{}.", parts.join(", ")),
        why: why(words, basis, window, &heavier),
        figures: vec![flow_figure(words, window), tank_figure(words, basis, window)],
    }
}

fn flow_figure(words: Words, window: &Window) -> Figure {
    let mut put_in = PutIn::new(words);
    put_in
        .of(
            "tank, the largest that two people move or the least that does",
            Kind::Volume,
            window.tank_m3,
        )
        .text("tries in which the hardest task is done", window.done.to_string())
        .text("of", window.draws.to_string());
    sums::figure(
        "least flow",
        format!(
            "{} at {}",
            words.flow(window.flow),
            words.pressure(Gauge::psi(90.0))
        ),
        sums::WINDOW_FLOW.with(&mut put_in),
    )
}

fn tank_figure(words: Words, basis: &Basis, window: &Window) -> Figure {
    let usual = usual(basis);
    let switch = format!(
        "{} to {}",
        words.pressure(usual.cut_in),
        words.pressure(usual.cut_out)
    );
    let mut put_in = PutIn::new(words);
    put_in
        .text("flow, as above", words.flow(window.flow))
        .text("the usual switch", switch)
        .text("air comes in warmer than the room by", words.warmer(INTO_TANK_K));
    if let Some((tank, _)) = window.smaller {
        put_in.of("next smaller, which does not do", Kind::Volume, tank);
    }
    if let Some((task, place)) = window.tank_by {
        put_in.text("what a smaller one fails at", name(basis, (task, place)));
    }
    sums::figure(
        "least tank",
        words.volume(window.tank_m3),
        sums::WINDOW_TANK.with(&mut put_in),
    )
}

fn name(basis: &Basis, (task, place): (usize, usize)) -> String {
    format!("“{}” at “{}”", basis.tasks[task].name, basis.places[place].name)
}

fn why(words: Words, basis: &Basis, window: &Window, heavier: &[(&PlaceBasis, f64)]) -> Vec<String> {
    let mut why = vec![format!(
        "The flow: {} asks for it. In {} of 10 shops like yours all of the work is then done.",
        name(basis, window.flow_by),
        tenths(window.done, window.draws)
    )];
    if let Some(by) = window.tank_by {
        why.push(format!(
            "The tank: a smaller one is not enough for {}.",
            name(basis, by)
        ));
    }
    if let Some((tank, flow)) = window.smaller {
        why.push(format!(
            "With {} only, it takes {}.",
            words.volume(tank),
            words.flow_enough(flow)
        ));
    }
    for place in &basis.places {
        let [likely, best] = flow_fed(place);
        let (grade, end) = if window.flow.as_m3_s() > best.as_m3_s() {
            (
                "feeds no such machine",
                match (place.generator_va, place.volts.value > MIDDLE_VOLTS) {
                    (Some(_), _) => ": it takes a larger generator",
                    (None, true) => ": it takes a larger one, by a licensed electrician and the local code",
                    (None, false) => ": look for 240 V there, by a licensed electrician and the local code",
                },
            )
        } else if window.flow.as_m3_s() > likely.as_m3_s() {
            ("feeds that only in an efficient machine", "")
        } else {
            ("feeds that", "")
        };
        why.push(format!(
            "The circuit of “{}” {grade} (about {} to {}){end}.",
            place.name,
            words.flow(likely),
            words.flow(best)
        ));
    }
    for (place, least) in heavier {
        let length = place.cord.map_or(0.0, |(_, length)| length);
        why.push(format!(
            "The cord at “{}” is too light for a machine that draws so much: over {} it takes {}.",
            place.name,
            words.of(Kind::Length, length),
            words.cord_enough(*least)
        ));
    }
    if !window.beyond.is_empty() {
        let names: Vec<String> = window
            .beyond
            .iter()
            .map(|task| basis.tasks[*task].name.clone())
            .collect();
        why.push(format!(
            "{} left out: the line or the usual switch does not bring its pressure.",
            capital(&listed(&names))
        ));
    }
    why
}
