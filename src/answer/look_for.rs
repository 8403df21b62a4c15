//! The shopping window in words.

use super::sums::{self, PutIn};
use super::words::{Words, capital, listed};
use crate::report::{Figure, Window as Said};
use judge::assess::Outcome;
use judge::basis::{Basis, PlaceBasis};
use judge::power::{amps_fed, flow_fed};
use judge::window::{Window, usual};
use physics::carry::TEAM_SHARE;
use physics::circuit::advised_cord;
use physics::compressor::{INTO_TANK_K, Pump, RATING_PA, typical_clearance};
use quantity::{FreeAir, Gauge, Kind};
use uom::si::f64::MassRate;
use uom::si::mass_rate::kilogram_per_second;

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
            let (area, length) = place.cord?;
            let advice = advised_cord(place.wiring.code, amps, tight.volts.value, length).ok()?;
            let least = advice.size?.area_m2;
            (least > 1.02 * area).then_some((place, least))
        })
        .collect()
}

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
            ..Said::default()
        };
    };
    let at = words.pressure(Gauge::psi(90.0));
    let mut parts = vec![format!(
        "Look for at least {} at {at} on a tank of at least {}",
        words.flow_enough(window.flow),
        words.volume_enough(window.tank_m3)
    )];
    parts.extend(circuit(words, basis));
    let heavier = heavier_cords(basis);
    if !heavier.is_empty() {
        let names: Vec<String> = heavier
            .iter()
            .map(|(place, _)| format!("“{}”", place.name))
            .collect();
        parts.push(format!("on a heavier cord at {}", listed(&names)));
    }
    parts.extend(limits(words, basis));
    Said {
        sentence: format!("{}.", parts.join(", ")),
        why: why(words, basis, window, &heavier),
        figures: vec![
            flow_figure(words, basis, window),
            tank_figure(words, basis, window),
        ],
    }
}

fn flow_figure(words: Words, basis: &Basis, window: &Window) -> Figure {
    let usual = usual(basis);
    let (task, place) = window.flow_by;
    let (task, place) = (&basis.tasks[task], &basis.places[place]);
    let asked = FreeAir::of_mass(
        MassRate::new::<kilogram_per_second>(window.asked_kg_s),
        place.air.density(),
    );
    let at = Gauge::psi(90.0);
    let middle = 0.5 * (usual.cut_in.as_pa() + usual.cut_out.as_pa());
    let typical = typical_clearance(usual.kind);
    let exponent = Pump::of_one_flow(usual.kind, FreeAir::cfm(1.0), at).map_or(1.0, |pump| pump.exponent());
    let mut put_in = PutIn::new(words);
    put_in
        .flow("q, drawn on the trigger, free air there", asked)
        .percent("s, share of all time on the trigger", task.rhythm.long_share())
        .percent("d, share that the motor may run", usual.duty.value)
        .text(
            "n, raises by a twentieth for a tank that two can move",
            window.raised.to_string(),
        )
        .percent("c, typical loss by clearance", typical)
        .number("e, one stage", exponent)
        .pressure("p, middle of the usual switch, on the gauge", middle)
        .pressure("pₐ, outside air there, absolute", place.air.pressure().as_pa())
        .pressure("p₁, where flow is stated, on the gauge", at.as_pa())
        .pressure("p₀, air that labels count in, absolute", RATING_PA);
    let sum = sums::WINDOW_FLOW.with(&mut put_in);
    sums::figure(
        "least flow",
        format!("{} at {}", words.flow(window.flow), words.pressure(at)),
        sum,
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
    if let Some((task, place, _)) = window.tank_by {
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
            words.flow_enough(flow)
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
    for (place, least) in heavier {
        let length = place.cord.map_or(0.0, |(_, length)| length);
        why.push(format!(
            "The cord at “{}” is too light for the start of a machine that draws so much: over {} it takes {}.",
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
