//! Which of several flows is the one at 90 psi, which the second, and which are none that it delivers.

use std::ops::Range;

use super::Field;
use super::draft::Draft;
use super::scene::Scene;
use super::sense::Sense;
use super::unit::Measure;
use quantity::{Kind, PA_PER_PSI, would_be};

/// One delivered flow.
struct Flow {
    text: String,
    piece: Range<usize>,
    /// Its pressure: text, piece, Pa.
    at: Option<(String, Range<usize>, f64)>,
    /// Whether the text says that it is delivered.
    said: bool,
    /// Its figure.
    index: usize,
}

/// How far a flow in a second unit may be off, relative: "206 l/min / 7.3 cfm" is rounded.
const SAME: f64 = 0.04;

/// Whether a flow is the one before it in another unit.
fn is_same_again(scene: &Scene, index: usize) -> bool {
    let Some(one) = index.checked_sub(1).map(|before| &scene.figures[before]) else {
        return false;
    };
    let other = &scene.figures[index];
    let value = |text: &str| would_be(Kind::Flow, text, scene.units);
    match (value(&one.text()), value(&other.text())) {
        (Some(first), Some(second)) => {
            one.unit != other.unit && scene.follows(index) && (first - second).abs() <= SAME * first
        }
        _ => false,
    }
}

/// From here on a pressure is close enough to 90 psi to stand in its field, Pa: tools are run at 90.
const FIRST_FROM: f64 = 75.0 * PA_PER_PSI;
const USUAL: f64 = 90.0 * PA_PER_PSI;

/// Claims flows and their pressures; leaves displacement and the like with their reasons.
pub(super) fn flows(scene: &Scene, draft: &mut Draft) {
    let mut found: Vec<Flow> = Vec::new();
    for index in 0..scene.figures.len() {
        if !scene.figures[index].is(Measure::Flow) {
            continue;
        }
        if is_same_again(scene, index) {
            // "118 l/min / 4.2 cfm @ 6 bar": the pressure is of both.
            if let Some(last) = found
                .last_mut()
                .filter(|last| last.index == index - 1 && last.at.is_none())
            {
                last.at = pressure(scene, index, 0);
            }
            continue;
        }
        one(scene, draft, &mut found, index);
    }
    let mut distinct: Vec<Flow> = Vec::new();
    for flow in found {
        let again = |other: &Flow| other.text == flow.text && (flow.at.is_none() || pa(other) == pa(&flow));
        // "2.6 cfm" in the title and "2.6 cfm @ 90 psi" in the table are one; the table tells more.
        if let Some(title) = distinct
            .iter_mut()
            .find(|other| other.text == flow.text && other.at.is_none())
        {
            *title = flow;
        } else if !distinct.iter().any(again) {
            distinct.push(flow);
        }
    }
    settle(draft, distinct);
}

fn pa(flow: &Flow) -> Option<f64> {
    flow.at.as_ref().map(|(_, _, pa)| *pa)
}

/// Sorts one figure: a delivered flow goes to `found`.
fn one(scene: &Scene, draft: &mut Draft, found: &mut Vec<Flow>, index: usize) {
    let (figure, piece) = (&scene.figures[index], scene.span(index));
    let text = figure.text();
    if let Some(thing) = scene.owner(index) {
        return draft.leave(piece, format!("{text} is the {thing}'s, not the compressor's"));
    }
    if scene.has(index, Sense::Need) {
        return draft.leave(
            piece,
            format!("{text} is what a tool needs, not what it delivers"),
        );
    }
    let texts: Vec<String> = (0..figure.numbers.len()).map(|part| figure.part(part)).collect();
    let kinds: Vec<Sense> = kinds(scene, index);
    let of = |part: usize| {
        if texts.len() > 1 {
            kinds.get(part)
        } else {
            main_kind(&kinds)
        }
        .copied()
    };
    if texts.len() > 1 && figure.joint == '-' {
        return draft.leave(piece, format!("{text} is a range: which of them at 90 psi?"));
    }
    for (part, text) in texts.iter().enumerate() {
        let piece = piece.clone();
        match of(part) {
            Some(Sense::Displacement) => {
                draft.leave(piece, format!("{text} is displacement, not what it delivers"));
            }
            Some(Sense::Suction) => {
                let note = format!("{text} is suction, not what it delivers");
                draft.noted(2, Field::Suction, text.clone(), piece, note);
            }
            kind => {
                let at = pressure(scene, index, part);
                let open = texts.len() > 1 && at.is_none() && kind.is_none();
                if open {
                    draft.leave(piece, format!("{text}: at which pressure?"));
                } else {
                    let said = kind == Some(Sense::Delivered);
                    found.push(Flow {
                        text: text.clone(),
                        piece,
                        at,
                        said,
                        index,
                    });
                }
            }
        }
    }
}

/// What the words beside a flow call it, in their order. Words of a pair, "suction/delivered: 240/150", stay in theirs.
fn kinds(scene: &Scene, index: usize) -> Vec<Sense> {
    let context = &scene.contexts[index];
    let wanted = |at: usize| {
        scene.senses[at]
            .filter(|sense| matches!(sense, Sense::Displacement | Sense::Suction | Sense::Delivered))
    };
    let before: Vec<Sense> = context.before.clone().filter_map(wanted).collect();
    let after = context.after.clone().filter_map(wanted);
    if scene.figures[index].numbers.len() > 1 && before.len() > 1 {
        return before;
    }
    before.into_iter().chain(after).collect()
}

/// What makes a flow none that is delivered outweighs what makes it one.
fn main_kind(kinds: &[Sense]) -> Option<&Sense> {
    kinds
        .iter()
        .find(|kind| **kind != Sense::Delivered)
        .or_else(|| kinds.first())
}

fn pressure(scene: &Scene, index: usize, part: usize) -> Option<(String, Range<usize>, f64)> {
    let at = scene.stated.at[index]?;
    let figure = &scene.figures[at];
    let text = figure.part(if figure.numbers.len() > 1 { part } else { 0 });
    let pa = would_be(Kind::Pressure, &text, scene.units)?;
    Some((text, scene.span(at), pa))
}

/// The flow nearest to 90 psi first, the one farthest from that second.
fn settle(draft: &mut Draft, mut flows: Vec<Flow>) {
    flows.retain(|flow| match pa(flow) {
        Some(pa) if pa <= 0.0 => {
            draft.leave(
                flow.piece.clone(),
                format!("{} is without pressure: no tool runs on that", flow.text),
            );
            false
        }
        _ => true,
    });
    let off = |at: &usize| pa(&flows[*at]).map_or(f64::INFINITY, |pa| (pa - USUAL).abs());
    let nearest = |one: &usize, other: &usize| off(one).total_cmp(&off(other));
    let high = |at: &usize| pa(&flows[*at]).is_some_and(|pa| pa >= FIRST_FROM);
    let bare = || {
        (0..flows.len())
            .filter(|at| flows[*at].at.is_none())
            .min_by_key(|at| !flows[*at].said)
    };
    let first = (0..flows.len()).filter(high).min_by(nearest).or_else(bare);
    let from = first.and_then(|at| pa(&flows[at])).unwrap_or(USUAL);
    let apart = |at: &usize| pa(&flows[*at]).map_or(0.0, |pa| (pa - from).abs());
    let rest = (0..flows.len()).filter(|at| Some(*at) != first && flows[*at].at.is_some());
    let second = rest.max_by(|one, other| apart(one).total_cmp(&apart(other)));
    for (at, flow) in flows.into_iter().enumerate() {
        if Some(at) == first {
            put(draft, [Field::Flow, Field::At], flow, false);
        } else if Some(at) == second {
            put(draft, [Field::Flow2, Field::At2], flow, first.is_none());
        } else {
            let stated = flow
                .at
                .map_or(String::new(), |(text, _, _)| format!(" at {text}"));
            draft.leave(
                flow.piece,
                format!("{}{stated}: another flow is taken already", flow.text),
            );
        }
    }
}

fn put(draft: &mut Draft, [field, at_field]: [Field; 2], flow: Flow, alone: bool) {
    let metric = !flow.text.ends_with("cfm");
    let note = match &flow.at {
        Some((at, _, _)) if alone => format!("{} is at {at}: look for the flow at 90 psi", flow.text),
        None if metric && !flow.said => {
            format!(
                "{} may be suction: look for the flow that it delivers at 6 or 7 bar",
                flow.text
            )
        }
        _ => String::new(),
    };
    draft.noted(2, field, flow.text, flow.piece, note);
    if let Some((text, piece, _)) = flow.at {
        draft.claim(2, at_field, text, piece);
    }
}
