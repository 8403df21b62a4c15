//! Which words belong to which figure: "cut-in 95, cut-out 125", "95 cut-in, 125 cut-out".

use std::ops::Range;

use super::figure::Figure;
use super::sense::{Sense, is_stop};
use super::token::{Piece, What};
use super::unit::{self, Measure, Unit};

/// Pieces before and behind a figure that may speak of it. Both are short.
#[derive(Clone, Debug, Default)]
pub(super) struct Context {
    pub before: Range<usize>,
    pub after: Range<usize>,
}

/// Pieces that a figure's words reach over, before it and behind.
const BEFORE_MAX: usize = 12;
const AFTER_MAX: usize = 8;

/// The context of each figure.
pub(super) fn contexts(pieces: &[Piece], senses: &[Option<Sense>], figures: &[Figure]) -> Vec<Context> {
    let mut out = vec![Context::default(); figures.len()];
    for next in 0..=figures.len() {
        let start = next
            .checked_sub(1)
            .map_or(0, |previous| figures[previous].last + 1);
        let end = figures.get(next).map_or(pieces.len(), |figure| figure.first);
        let cut = cut(pieces, start..end, next > 0, next < figures.len());
        let (mut left, mut right) = (start..cut.left.max(start), cut.right.min(end)..end);
        right.end = right.end.min(cut.right_end).max(right.start);
        if cut.shared && next > 0 && next < figures.len() {
            let (one, other) = (&figures[next - 1], &figures[next]);
            if let Some(split) = rivals(pieces, senses, one, &out[next - 1], other) {
                left.end = left.end.min(split).max(left.start);
                right.start = right.start.max(split).min(right.end);
            }
        }
        if let Some(context) = next.checked_sub(1).and_then(|previous| out.get_mut(previous)) {
            left.end = left.end.min(left.start + AFTER_MAX);
            context.after = left;
        }
        if let Some(context) = out.get_mut(next) {
            right.start = right.start.max(right.end.saturating_sub(BEFORE_MAX));
            context.before = right;
        }
    }
    out
}

/// Of two neighbors that measure the same, or may, where the words between are parted.
fn rivals(
    pieces: &[Piece],
    senses: &[Option<Sense>],
    one: &Figure,
    context: &Context,
    other: &Figure,
) -> Option<usize> {
    let gap = one.last + 1..other.first;
    if one.is(Measure::Money) && other.is(Measure::Money) {
        // "$149 was $199", but "$50 off $199".
        let next = pieces.get(gap.start).map_or("", Piece::word);
        let behind = ["off", "per", "a", "monthly"].contains(&next);
        return Some(if behind { gap.end } else { gap.start });
    }
    if one.measure().is_some() && other.measure().is_some() && one.measure() != other.measure() {
        return None;
    }
    // "14 A LRA 75": a current with its unit, and the start's name right before a bare number.
    let starts = senses[gap.clone()].last() == Some(&Some(Sense::Start));
    if starts && one.is(Measure::Current) && one.unit.is_some() && other.unit.is_none() {
        return Some(gap.start);
    }
    let told = context
        .before
        .clone()
        .chain(one.first..one.last + 1)
        .any(|at| match senses[at] {
            Some(sense) => one
                .measure()
                .or(sense.implies())
                .is_some_and(|measure| sense.fits(measure)),
            None => one.unit.is_none() && at < one.first && unit_word(pieces, at).is_some(),
        });
    if told {
        return Some(gap.start);
    }
    // Words that cannot be of the first are of the second.
    let foreign = |at: &usize| match (one.measure(), senses[*at]) {
        (Some(measure), Some(sense)) => !sense.fits(measure),
        (Some(_), None) => unit_word(pieces, *at).is_some(),
        (None, _) => false,
    };
    Some(gap.clone().take(BEFORE_MAX).find(foreign).unwrap_or(gap.end))
}

/// Where a gap is cut: the first figure has the words up to `left`, the second those from `right` to `right_end`.
struct Cut {
    left: usize,
    right: usize,
    right_end: usize,
    /// Nothing but words between: both may have them.
    shared: bool,
}

fn cut(pieces: &[Piece], gap: Range<usize>, has_left: bool, has_right: bool) -> Cut {
    let find = |wanted: &dyn Fn(&Piece) -> bool| {
        let first = pieces[gap.clone()].iter().take(3 * AFTER_MAX).position(wanted);
        let last = pieces[gap.clone()]
            .iter()
            .rev()
            .take(3 * BEFORE_MAX)
            .position(wanted);
        (first.map(|at| gap.start + at), last.map(|at| gap.end - at))
    };
    let plain = |left, right| Cut {
        left,
        right,
        right_end: gap.end,
        shared: false,
    };
    if pieces[gap.clone()].iter().any(|piece| piece.what == What::Line) {
        return over_lines(pieces, &gap, has_left);
    }
    if let (Some(first), Some(last)) = find(&is_stop) {
        return plain(first, last);
    }
    let colon = find(&|piece| piece.is(':') || piece.is('='));
    // "Suction / delivered: 240/150" is one key.
    let ends_key = |piece: &Piece| {
        matches!(piece.what, What::Mark(',' | ')' | ';' | '+' | '&'))
            || ["and", "with", "plus"].contains(&piece.word())
    };
    let soft = |piece: &Piece| {
        matches!(piece.what, What::Mark(',' | '/' | '+' | '-' | '&'))
            || ["and", "with", "plus"].contains(&piece.word())
    };
    // What a colon or a bracket holds together is not cut within.
    if let (Some(colon), _) = colon {
        let before = &pieces[gap.start..colon];
        let key = before.iter().rposition(ends_key);
        let key = key.map(|at| gap.start + at + 1).filter(|at| *at < colon);
        return key.map_or(
            Cut {
                shared: has_left && has_right,
                ..plain(colon, gap.start)
            },
            |key| plain(key - 1, key),
        );
    }
    if let Some(close) = closing(pieces, &gap) {
        return plain(close, close);
    }
    match find(&|piece| matches!(piece.what, What::Mark(',' | '/' | '+' | '&'))) {
        (Some(first), Some(last)) if last == gap.end && first + 1 < last => {
            // "Tank volume, gal, 20": the last cell before a figure is its key.
            let key = pieces[first + 1..last - 1]
                .iter()
                .rposition(|piece| piece.is(','));
            plain(first, key.map_or(first, |key| first + 1 + key) + 1)
        }
        (Some(first), Some(last)) => plain(first, last),
        _ => match find(&|piece| soft(piece) || piece.is('(')) {
            // A hyphen within a word, "cut-in", cuts nothing.
            (Some(first), Some(last)) if !is_joint(pieces, first) => plain(first, last),
            _ => Cut {
                shared: true,
                ..plain(gap.end, gap.start)
            },
        },
    }
}

/// Whether a hyphen stands between two words without blanks.
fn is_joint(pieces: &[Piece], at: usize) -> bool {
    let touches = |one: usize| {
        pieces
            .get(one)
            .zip(pieces.get(one + 1))
            .is_some_and(|(one, two)| one.to == two.from)
    };
    pieces[at].is('-') && at > 0 && touches(at - 1) && touches(at)
}

/// The bracket that ends what is said of the figure before: "8.1 cfm (displacement) 5.6". One that opens later, as in
/// "Tank (gal) 20", belongs to the words before it.
fn closing(pieces: &[Piece], gap: &Range<usize>) -> Option<usize> {
    let span = &pieces[gap.clone()];
    let close = span.iter().take(AFTER_MAX).position(|piece| piece.is(')'))?;
    let open = span[..close].iter().position(|piece| piece.is('('));
    open.is_none_or(|open| open == 0).then_some(gap.start + close + 1)
}

/// Words on the figure's own line; where there are none, the line above it is its caption.
fn over_lines(pieces: &[Piece], gap: &Range<usize>, has_left: bool) -> Cut {
    let line = |at: &usize| pieces[*at].what == What::Line;
    // What stands on the line of a figure before is that figure's.
    let first = if has_left {
        gap.clone().find(line).unwrap_or(gap.end)
    } else {
        gap.start
    };
    let left = gap
        .clone()
        .take(AFTER_MAX)
        .find(|at| is_stop(&pieces[*at]))
        .unwrap_or(first);
    let own = gap.clone().rev().find(line).map_or(gap.start, |at| at + 1);
    let says = |range: Range<usize>| pieces[range].iter().any(|piece| !piece.word().is_empty());
    if says(own..gap.end) {
        let start = (own..gap.end)
            .rev()
            .find(|at| is_stop(&pieces[*at]))
            .map_or(own, |at| at + 1);
        return Cut {
            left,
            right: start,
            right_end: gap.end,
            shared: false,
        };
    }
    let above_end = (first..own).rev().find(|at| !line(at)).map_or(own, |at| at + 1);
    let above = (first..above_end).rev().find(line).map_or(first, |at| at + 1);
    Cut {
        left,
        right: above.min(above_end),
        right_end: above_end,
        shared: false,
    }
}

/// What a figure without a unit measures: the nearest unit or sense before it, or else behind it.
pub(super) fn key(
    pieces: &[Piece],
    senses: &[Option<Sense>],
    context: &Context,
) -> Option<(Option<Unit>, Option<Measure>)> {
    let named = context.before.clone().rev().find_map(|at| unit_word(pieces, at));
    if let Some(unit) = named {
        return Some((Some(unit), Some(unit.0)));
    }
    let before = context
        .before
        .clone()
        .rev()
        .find_map(|at| senses[at].and_then(Sense::implies));
    let after = || {
        context
            .after
            .clone()
            .find_map(|at| senses[at].and_then(Sense::implies))
    };
    // The "2" of "2 tanks" is a count.
    let after = || after().filter(|measure| *measure != Measure::Volume);
    before.or_else(after).map(|measure| (None, Some(measure)))
}

/// A unit that stands as a key: "SCFM: 2.6", "HP 2", "Weight (lbs) 69". Not words that are also something else.
pub(super) fn unit_word(pieces: &[Piece], at: usize) -> Option<Unit> {
    let word = pieces[at].word();
    let bracket = at > 0 && pieces[at - 1].is('(') || pieces.get(at + 1).is_some_and(|piece| piece.is(':'));
    let idle = [
        "in", "a", "m", "s", "second", "g", "l", "c", "f", "k", "t", "min", "h", "w", "v", "horse", "pound",
    ];
    let (unit, count) = unit::at(pieces, at, false).filter(|_| !word.is_empty())?;
    let plate =
        ["v", "a", "w"].contains(&word) && pieces.get(at + 1).is_some_and(|next| next.number().is_some());
    let as_key = pieces[at].capital && (bracket || plate) || bracket && word == "l";
    let known = match idle.contains(&word) && !as_key {
        true => unit.0 == Measure::Flow && count > 1,
        false => unit.0 != Measure::Other,
    };
    known.then_some(unit)
}
