//! Volts and amps, alone and in pairs, start, plug, power.

use super::Field;
use super::draft::Draft;
use super::figure::{Figure, with_unit};
use super::scene::Scene;
use super::sense::Sense;
use super::unit::Measure;

/// Below this nothing is mains: batteries, inflators. V.
const MAINS_FROM: f64 = 90.0;

/// Why three phases are left.
pub(super) const THREE_PHASE: &str = "three-phase: a house outlet has one phase and can't run it";

/// Claims what the motor's plate says.
pub(super) fn electric(scene: &Scene, draft: &mut Draft) {
    let mut volts: Vec<usize> = Vec::new();
    let mut amps: Vec<usize> = Vec::new();
    for index in 0..scene.figures.len() {
        match scene.figures[index].measure() {
            Some(Measure::Voltage) if is_mains(scene, draft, index) => volts.push(index),
            Some(Measure::Current) if is_draw(scene, draft, index) => amps.push(index),
            Some(Measure::Power) => power(scene, draft, index),
            _ => {}
        }
        let figure = &scene.figures[index];
        if figure.three_phase || figure.is(Measure::Phase) && figure.value() == 3.0 {
            draft.leave(scene.span(index), THREE_PHASE.into());
        }
    }
    match (distinct(scene, &volts), distinct(scene, &amps)) {
        (Some([low_v, high_v]), Some([one_a, other_a])) => {
            // The lower voltage has the larger current.
            let larger_first = scene.figures[one_a].value() >= scene.figures[other_a].value();
            let pair = if larger_first {
                [one_a, other_a]
            } else {
                [other_a, one_a]
            };
            joined(scene, draft, Field::Volts, [low_v, high_v]);
            joined(scene, draft, Field::Amps, pair);
        }
        (Some(pair), None) => {
            joined(scene, draft, Field::Volts, pair);
            singles(scene, draft, Field::Amps, &amps, true);
        }
        _ => {
            let two_volts = volts
                .first()
                .is_some_and(|index| scene.figures[*index].numbers.len() == 2);
            singles(scene, draft, Field::Volts, &volts, false);
            singles(scene, draft, Field::Amps, &amps, two_volts);
        }
    }
}

/// Two figures that differ, each of one number, the smaller first; nothing where there are more, fewer, or pairs.
fn distinct(scene: &Scene, indexes: &[usize]) -> Option<[usize; 2]> {
    let mut out: Vec<usize> = Vec::new();
    for index in indexes.iter().copied().take(8) {
        let figure = &scene.figures[index];
        if figure.numbers.len() > 1 {
            return None;
        }
        // 110, 115 and 120 V are one voltage; so are 220 and 240.
        let near = |other: &usize| {
            let ratio = scene.figures[*other].value() / figure.value();
            (0.8..1.25).contains(&ratio)
        };
        if !out.iter().any(near) {
            out.push(index);
        }
    }
    match out[..] {
        [one, other] if scene.figures[one].value() <= scene.figures[other].value() => Some([one, other]),
        [one, other] => Some([other, one]),
        _ => None,
    }
}

fn joined(scene: &Scene, draft: &mut Draft, field: Field, [one, other]: [usize; 2]) {
    let number = |index: usize| scene.figures[index].numbers.first().map_or("", |(text, _)| text);
    let text = with_unit(
        &format!("{}/{}", number(one), number(other)),
        scene.figures[one].unit,
    );
    let (one, other) = (scene.span(one), scene.span(other));
    draft.claim(3, field, text, one.start.min(other.start)..one.end.max(other.end));
}

fn singles(scene: &Scene, draft: &mut Draft, field: Field, indexes: &[usize], two_volts: bool) {
    for index in indexes {
        let (figure, piece) = (&scene.figures[*index], scene.span(*index));
        let pair = figure.numbers.len() > 1;
        if field == Field::Amps && figure.joint == '-' && figure.numbers.len() == 2 && two_volts {
            // "208-230 V, 15.5-15 A": a current for each voltage.
            let text = figure.text().replacen('-', "/", 1);
            draft.claim(3, field, text, piece);
            continue;
        }
        if field == Field::Amps && pair && (figure.joint != '/' || figure.numbers.len() > 2) {
            draft.leave(
                piece,
                format!("{} is more than one: which of them?", figure.text()),
            );
            continue;
        }
        let said = matches!(
            scene.sense(*index),
            Some(Sense::Draw | Sense::Running | Sense::Volts)
        );
        draft.claim(2 + u8::from(said || pair), field, figure.text(), piece);
    }
}

fn is_mains(scene: &Scene, draft: &mut Draft, index: usize) -> bool {
    let (figure, piece) = (&scene.figures[index], scene.span(index));
    let text = figure.text();
    match scene.owner(index) {
        Some(thing) if thing != "outlet" && thing != "circuit" && thing != "cord" => {
            draft.leave(piece, format!("{text} is the {thing}'s, not the compressor's"));
            false
        }
        _ if figure.value() < MAINS_FROM => {
            draft.leave(piece, format!("{text} is no wall outlet's voltage"));
            false
        }
        _ => true,
    }
}

/// Whether a current is what the motor draws; start, plug and circuit go where they belong.
fn is_draw(scene: &Scene, draft: &mut Draft, index: usize) -> bool {
    let (figure, piece) = (&scene.figures[index], scene.span(index));
    let text = figure.text();
    let plugged =
        scene.next_word(index).starts_with("plug") || scene.sense_before(index) == Some(Sense::Plug);
    if plugged {
        draft.claim(2, Field::Plug, text, piece);
        return false;
    }
    let starts = scene.has(index, Sense::Start) || scene.has(index, Sense::Peak);
    match (scene.owner(index), scene.sense(index)) {
        (Some("circuit" | "outlet" | "cord"), _) => {
            draft.leave(
                piece,
                format!("{text} is the circuit that it asks for, not what it draws"),
            );
            false
        }
        (Some(thing), _) => {
            draft.leave(piece, format!("{text} is the {thing}'s, not the compressor's"));
            false
        }
        (None, _) if starts => {
            draft.claim(3, Field::Start, text, piece);
            false
        }
        (None, Some(Sense::Plug)) => {
            draft.claim(2, Field::Plug, text, piece);
            false
        }
        _ => true,
    }
}

/// Power: peak is kept apart, it tells nothing of the work.
fn power(scene: &Scene, draft: &mut Draft, index: usize) {
    let (figure, piece) = (&scene.figures[index], scene.span(index));
    let text = figure.text();
    if let Some(thing) = scene
        .owner(index)
        .filter(|thing| *thing != "circuit" && *thing != "outlet")
    {
        return draft.leave(piece, format!("{text} is the {thing}'s, not the compressor's"));
    }
    let peak = scene.has(index, Sense::Peak) || scene.sense(index) == Some(Sense::Max);
    if let (Some(pair), true) = (of_two(figure), peak && scene.has(index, Sense::Running)) {
        // "running/peak 1.6/3 hp": the smaller is what it runs at.
        draft.claim(3, Field::Power, pair[0].clone(), piece.clone());
        return draft.noted(2, Field::PeakPower, pair[1].clone(), piece, peak_note(&pair[1]));
    }
    if peak {
        return draft.noted(2, Field::PeakPower, text.clone(), piece, peak_note(&text));
    }
    let weight = 2 + u8::from(scene.sense(index) == Some(Sense::Running));
    draft.claim(weight, Field::Power, text, piece);
}

fn peak_note(text: &str) -> String {
    format!("{text} is peak power: it tells nothing of what the motor can do")
}

/// Two numbers of one figure, the smaller first.
fn of_two(figure: &Figure) -> Option<[String; 2]> {
    match &figure.numbers[..] {
        [one, other] if one.1 <= other.1 => Some([figure.part(0), figure.part(1)]),
        [_, _] => Some([figure.part(1), figure.part(0)]),
        _ => None,
    }
}
