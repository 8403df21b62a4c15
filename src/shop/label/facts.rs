//! What is told by words alone: pump type, code letter, plug face, no stamp, wheels.

use std::ops::Range;

use super::draft::Draft;
use super::scene::Scene;
use super::sense::Sense;
use super::token::Piece;
use super::unit::Measure;
use super::{Field, electric};
use crate::MachineKind;

/// Phrases about the pump and what goes into its field.
const PUMP: &[(&str, &str)] = &[
    ("oil free", "oil-free"),
    ("oilfree", "oil-free"),
    ("oil less", "oil-free"),
    ("oilless", "oil-free"),
    ("oil lubricated", "oiled"),
    ("oil lubed", "oiled"),
    ("oil lube", "oiled"),
    ("oil bath", "oiled"),
    ("oil filled", "oiled"),
    ("oil splash", "oiled"),
    ("splash lubricated", "oiled"),
    ("oiled", "oiled"),
    ("belt drive", "belt drive"),
    ("belt driven", "belt drive"),
    ("direct drive", "direct drive"),
    ("direct driven", "direct drive"),
    ("direct coupled", "direct drive"),
    ("two stage", "two-stage"),
    ("dual stage", "two-stage"),
    ("double stage", "two-stage"),
    ("twin stage", "two-stage"),
    ("rotary screw", "rotary screw"),
    ("screw compressor", "rotary screw"),
    ("rotary vane", "rotary vane"),
    ("rotary", "rotary"),
    ("scroll compressor", "scroll"),
    ("scroll pump", "scroll"),
];

/// Whether a phrase begins at a piece, hyphens or not.
fn begins(pieces: &[Piece], at: usize, phrase: &str) -> Option<Range<usize>> {
    let mut last = at;
    for (nth, word) in phrase.split(' ').enumerate() {
        let from = if nth == 0 { at } else { last + 1 };
        let hyphen = usize::from(nth > 0 && pieces.get(from).is_some_and(|piece| piece.is('-')));
        last = from + hyphen;
        if pieces.get(last)?.word() != word {
            return None;
        }
    }
    Some(pieces[at].from..pieces[last].to)
}

/// Claims what words alone tell.
pub(super) fn facts(scene: &Scene, draft: &mut Draft) {
    pump(scene, draft);
    let pieces = &scene.pieces;
    for at in (0..pieces.len()).filter(|at| !pieces[*at].word().is_empty()) {
        let start = || begins(pieces, at, "code").and_then(|_| code(pieces, at));
        if let Some((letter, piece)) = start() {
            draft.claim(2, Field::Start, letter, piece);
        }
        for phrase in [
            "no stamp",
            "not stamped",
            "unstamped",
            "no code plate",
            "no asme stamp",
        ] {
            if let Some(piece) = begins(pieces, at, phrase) {
                draft.claim(3, Field::Stamp, "no stamp".into(), piece);
            }
        }
        for phrase in ["hard wired", "hardwired"] {
            if let Some(piece) = begins(pieces, at, phrase) {
                draft.claim(1, Field::Plug, "hard-wired".into(), piece);
            }
        }
        for phrase in ["three phase", "triple phase"] {
            if let Some(piece) = begins(pieces, at, phrase) {
                draft.leave(piece, electric::THREE_PHASE.into());
            }
        }
        if let Some(piece) = rolls(pieces, at) {
            draft.claim(2, Field::Wheels, "yes".into(), piece);
        }
    }
}

/// "wheels", "wheeled", "on casters", but not "no wheels" or a wheel of another thing.
fn rolls(pieces: &[Piece], at: usize) -> Option<Range<usize>> {
    let said = ["wheels", "wheeled", "wheelbarrow"].contains(&pieces[at].word());
    let before = at.checked_sub(1).map_or("", |before| pieces[before].word());
    let denied = ["no", "without", "cutoff", "grinding"].contains(&before);
    (said && !denied).then_some(pieces[at].from..pieces[at].to)
}

/// "code K", "code letter: G", "kVA code H".
fn code(pieces: &[Piece], at: usize) -> Option<(String, Range<usize>)> {
    if at > 0 && ["asme", "zip", "color", "promo", "qr"].contains(&pieces[at - 1].word()) {
        return None;
    }
    let skipped =
        |piece: &&Piece| piece.word() == "letter" || piece.is(':') || piece.is('-') || piece.word() == "is";
    let skip = pieces[at + 1..].iter().take(2).take_while(skipped).count();
    let letter = pieces.get(at + 1 + skip)?;
    let word = letter.word();
    // Letters of NEC table 430.7(B), from memory: A to V without I, O and Q.
    let valid = word.len() == 1 && ("a"..="v").contains(&word) && !["i", "o", "q"].contains(&word);
    let alone = word != "a" || letter.capital;
    (valid && alone).then(|| (word.to_ascii_uppercase(), pieces[at].from..letter.to))
}

/// What the text calls the pump, in its order.
fn pump_words(scene: &Scene) -> Vec<(&'static str, Range<usize>)> {
    let mut found = Vec::new();
    for at in (0..scene.pieces.len()).filter(|at| !scene.pieces[*at].word().is_empty()) {
        let first = scene.pieces[at].word();
        let named = PUMP
            .iter()
            .filter(|(phrase, _)| phrase.split(' ').next() == Some(first));
        let mut named = named.filter_map(|(phrase, word)| Some((*word, begins(&scene.pieces, at, phrase)?)));
        let denied = at > 0 && ["not", "non", "no"].contains(&scene.pieces[at - 1].word());
        found.extend(named.next().filter(|_| !denied));
    }
    for (index, figure) in scene.figures.iter().enumerate() {
        if figure.is(Measure::Stage) && figure.value() == 2.0 && figure.numbers.len() == 1 {
            found.push(("two-stage", scene.span(index)));
        }
    }
    quantity::order::by_key(&mut found, |(_, piece)| piece.start);
    found
}

/// Claims pump type and kind.
fn pump(scene: &Scene, draft: &mut Draft) {
    let found = pump_words(scene);
    let (Some((_, first)), Some((_, last))) = (found.first(), found.last()) else {
        return;
    };
    let span = first.start..last.end.max(first.end);
    let mut words: Vec<&str> = Vec::new();
    for (word, _) in &found {
        if !words.contains(word) {
            words.push(word);
        }
    }
    let has = |part: &str| words.iter().any(|word| word.starts_with(part));
    let kind = match (has("rotary") || has("scroll"), has("two-stage")) {
        (true, _) => Some(MachineKind::Rotary),
        (_, true) => Some(MachineKind::PistonTwoStage),
        _ => None,
    };
    if let Some(kind) = kind {
        draft.claim(2, Field::Kind, crate::word::of(kind), span.clone());
    }
    if has("oil-free") && has("oiled") {
        draft.leave(span, "both oil-free and oiled: which is it?".into());
    } else {
        draft.claim(2, Field::Pump, words.join(", "), span);
    }
}

/// "NEMA 5-15P", "L6-30", "plug 6-20": the face of a plug, where a figure is one.
pub(super) fn face(scene: &Scene, index: usize) -> Option<(String, Range<usize>)> {
    let figure = &scene.figures[index];
    let [(series, _), (amps, _)] = &figure.numbers[..] else {
        return None;
    };
    let known =
        ["1", "5", "6", "10", "14"].contains(&&**series) && ["15", "20", "30", "50"].contains(&&**amps);
    let pieces = &scene.pieces;
    let before = figure.first.checked_sub(1).map_or("", |at| pieces[at].word());
    let twist = before == "l" && pieces[figure.first - 1].to == pieces[figure.first].from;
    let said = twist
        || ["p", "r"].contains(&scene.next_word(index))
        || scene.next_word(index).starts_with("plug")
        || pieces[figure.first.saturating_sub(3)..figure.first]
            .iter()
            .any(|piece| piece.word() == "nema")
        || scene.has(index, Sense::Plug);
    if !known || figure.joint != '-' || figure.unit.is_some() || !said {
        return None;
    }
    let sign = if twist { "L" } else { "" };
    let from = figure.first - usize::from(twist);
    Some((
        format!("{sign}{series}-{amps}"),
        pieces[from].from..pieces[figure.last].to,
    ))
}
