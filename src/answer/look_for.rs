//! The shopping window in words.

use super::words::{Words, capital};
use crate::assess::Outcome;
use crate::assess::power::{amps_fed, flow_fed};
use crate::basis::Basis;
use crate::carry::TEAM_SHARE;
use crate::quantity::{Gauge, Kind};
use crate::report::Window as Said;
use crate::window::Window;

/// Where the circuit is named in the window's sentence.
fn circuit(words: Words, basis: &Basis) -> Option<String> {
    let tight = basis
        .places
        .iter()
        .min_by(|one, other| amps_fed(one).total_cmp(&amps_fed(other)))?;
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
            "No usual machine on a tank of up to 80 gal keeps up with these tasks at these places: ease the rhythm of the hardest, or plan for a shop installation."
        };
        return Said {
            sentence: sentence.into(),
            why: Vec::new(),
        };
    };
    let at = words.pressure(Gauge::psi(90.0));
    let mut parts = vec![format!(
        "Look for at least {} at {at} on a tank of at least {}",
        words.flow(window.flow),
        words.volume(window.tank_m3)
    )];
    parts.extend(circuit(words, basis));
    parts.extend(limits(words, basis));
    Said {
        sentence: format!("{}.", parts.join(", ")),
        why: why(words, basis, window),
    }
}

fn name(basis: &Basis, (task, place): (usize, usize)) -> String {
    format!("“{}” at “{}”", basis.tasks[task].name, basis.places[place].name)
}

fn why(words: Words, basis: &Basis, window: &Window) -> Vec<String> {
    let mut why = vec![format!(
        "The flow: {} asks for it in the long run, with the motor resting a third of the time.",
        name(basis, window.flow_by)
    )];
    if let Some((task, place, outcome)) = window.tank_by {
        let who = name(basis, (task, place));
        why.push(match outcome {
            Outcome::RunsHard => format!("The tank: with a smaller one {who} starts the motor too often."),
            _ => format!("The tank: a smaller one does not carry {who} through a spell."),
        });
    }
    if let Some((tank, flow)) = window.smaller {
        why.push(format!(
            "With {} only, it takes {}.",
            words.volume(tank),
            words.flow(flow)
        ));
    }
    for place in &basis.places {
        let [likely, best] = flow_fed(place);
        let (grade, end) = if window.flow.as_m3_s() > best.as_m3_s() {
            (
                "feeds no such machine",
                ": look for 240 V there, by a licensed electrician and the local code",
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
    if !window.beyond.is_empty() {
        let names: Vec<String> = window
            .beyond
            .iter()
            .map(|task| basis.tasks[*task].name.clone())
            .collect();
        why.push(format!(
            "{} left out: the line or the usual switch does not bring its pressure.",
            capital(&super::words::listed(&names))
        ));
    }
    why
}
