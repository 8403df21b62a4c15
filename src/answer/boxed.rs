//! A machine in a box, in words.

use super::label::finding;
use super::words::Words;
use crate::report::{Finding, Grade};
use judge::basis::{CandidateBasis, PlaceBasis};
use judge::boxed::{Boxed, RISE_K, boxed};
use quantity::{FreeAir, Kind, figure, number};
use shop::Units;

/// Fans are sold in steps, cfm: 50. Metric ones by 100 m³/h.
const STEP_CFM: f64 = 50.0;
const STEP_M3_H: f64 = 100.0;

/// The smaller fan upwards to a size sold, the larger to the nearest.
fn fans(words: Words, [small, large]: [FreeAir; 2]) -> String {
    let (step, small, large, unit) = match words.units {
        Units::Us => (STEP_CFM, small.as_cfm(), large.as_cfm(), "cfm"),
        Units::Metric => {
            let m3_h = |flow: FreeAir| flow.as_m3_s() * 3_600.0;
            (STEP_M3_H, m3_h(small), m3_h(large), "m³/h")
        }
    };
    let low = ((small / step).ceil() * step).max(step);
    let high = ((large / step).round() * step).max(low);
    if low == high {
        format!("{} {unit}", number(low, 0))
    } else {
        format!("{} to {} {unit}", number(low, 0), number(high, 0))
    }
}

fn kilowatts([low, high]: [f64; 2]) -> String {
    let [low, high] = [low, high].map(|watts| number(watts / 1e3, 1));
    if low == high {
        format!("{high} kW")
    } else {
        format!("{low} to {high} kW")
    }
}

/// What a box does, in a line; the whole of it; what to do.
pub fn said(words: Words, boxed: &Boxed) -> [String; 3] {
    let fan = fans(words, boxed.fan);
    let heat = kilowatts(boxed.heat_w);
    let rise = format!(
        "{} to {} over the room",
        number_of(words, RISE_K[0]),
        words.warmer(RISE_K[1])
    );
    if boxed.grade == judge::grade::Grade::Good {
        let warmer = boxed
            .blown
            .map_or_else(String::new, |(_, rise_k)| words.warmer(rise_k));
        return [
            format!("With that fan the box stays {warmer} over the room."),
            format!("{heat} has to get out of the box; your fan holds it {warmer} over the room."),
            "Keep two openings, low in and high out, lined and baffled.".into(),
        ];
    }
    let shut = match boxed.blown {
        Some((_, rise_k)) => format!(
            "With your fan it gets {} warmer than the room.",
            words.warmer(rise_k)
        ),
        None => format!(
            "Shut, it would end up {} warmer than the room, and motor and pump don’t stand that.",
            words.warmer(boxed.shut_k)
        ),
    };
    [
        format!("It will overheat in the box: {heat} has to get out."),
        shut,
        format!("Cut two openings, low in, high out, baffled, with a fan of {fan} ({rise})."),
    ]
}

/// The bare figure of a difference of temperatures.
fn number_of(words: Words, kelvin: f64) -> String {
    let text = words.warmer(kelvin);
    text.split(' ').next().unwrap_or_default().into()
}

/// The finding at a place that has a box.
pub(super) fn at_place(words: Words, candidate: &CandidateBasis, place: &PlaceBasis) -> Option<Finding> {
    let found = match boxed(candidate, place) {
        Ok(found) => found?,
        Err(error) => {
            let text = format!("{}: what the box does can’t be said yet: {error}.", place.name);
            return Some(finding("box", Grade::Unsure, text, "heat balance"));
        }
    };
    let [short, long, first] = said(words, &found);
    let grade = if found.grade == judge::grade::Grade::Good {
        Grade::Note
    } else {
        Grade::Poor
    };
    let size = place.standing.box_m.map_or_else(
        || "a box of usual size is assumed; ".to_owned(),
        |edges| format!("{} of box; ", words.of(Kind::Volume, edges.iter().product())),
    );
    Some(finding(
        "box",
        grade,
        format!("{}: {short} {long} {first}", place.name),
        &format!(
            "{size}heat balance, volts times amps times {}: rule of thumb",
            figure(judge::boxed::POWER_FACTOR)
        ),
    ))
}
