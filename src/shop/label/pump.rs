//! "pump-up 0 to 120 timed 6 min 30 s": what somebody timed, and what a maker only prints.

use std::ops::Range;

use super::Field;
use super::draft::Draft;
use super::figure::Figure;
use super::scene::Scene;
use super::sense::Sense;
use super::token::What;
use super::unit::Measure;

/// A time in seconds' parts: its text, the figures it takes, its bytes.
struct Time {
    text: String,
    first: usize,
    last: usize,
}

/// Figures a timing reaches over, before and behind its time.
const REACH: usize = 3;

/// Claims a timed pump-up; leaves printed ones. Gives the figures that are spent.
pub(super) fn pump_up(scene: &Scene, draft: &mut Draft) -> Vec<bool> {
    let mut spent = vec![false; scene.figures.len()];
    let mut index = 0;
    while index < scene.figures.len() {
        let Some(time) = time(scene, index) else {
            index += 1;
            continue;
        };
        index = time.last + 1;
        let span = scene.span(time.first).start..scene.span(time.last).end;
        let line = line(scene, &time);
        let has = |sense: Sense| scene.senses[line.clone()].contains(&Some(sense));
        if has(Sense::Timed) {
            spent[time.first..=time.last].fill(true);
            draft.claim(3, Field::PumpUp, time.text.clone(), span);
            if let Some(range) = range(scene, &time, &line) {
                spent[range] = true;
                readings(scene, draft, range);
            } else if let Some(full) = from_empty(scene, &line) {
                spent[full] = true;
                draft.claim(3, Field::PumpFrom, "0 psi".into(), scene.span(full));
                draft.claim(3, Field::PumpTo, scene.figures[full].part(0), scene.span(full));
            }
        } else if has(Sense::Fill) {
            spent[time.first..=time.last].fill(true);
            if let Some(range) = range(scene, &time, &line) {
                spent[range] = true;
            }
            draft.leave(
                span,
                format!("{} is the maker's: time it yourself with the gauge", time.text),
            );
        }
    }
    spent
}

/// The time that begins with a figure: "6 min 30 s", "6 min 30", "6:30" behind "timed", "48 s".
fn time(scene: &Scene, index: usize) -> Option<Time> {
    let figure = &scene.figures[index];
    let next = scene.figures.get(index + 1);
    let single = |figure: &Figure| figure.numbers.len() == 1;
    if let Some(next) = next.filter(|_| figure.unit.is_none() && is_clock(scene, figure)) {
        let text = format!("{} min {} s", figure.part(0), next.part(0));
        return single(next).then_some(Time {
            text,
            first: index,
            last: index + 1,
        });
    }
    let unit = figure.unit.filter(|(measure, _)| *measure == Measure::Time)?.1;
    if !single(figure) || unit == "h" {
        return None;
    }
    let more = next.filter(|next| {
        let smaller = next.unit.is_none_or(|unit| unit == (Measure::Time, "s"));
        unit == "min"
            && smaller
            && scene.follows(index + 1)
            && single(next)
            && next.value() < 60.0
            && next.joint == ' '
    });
    let text = more.map_or(figure.text(), |next| {
        format!("{} {} s", figure.text(), next.numbers[0].0)
    });
    Some(Time {
        text,
        first: index,
        last: index + usize::from(more.is_some()),
    })
}

/// Whether a colon without blanks follows: "6:30".
fn is_clock(scene: &Scene, figure: &Figure) -> bool {
    let at = figure.last;
    let Some([minutes, colon, seconds]) = scene.pieces.get(at..at + 3) else {
        return false;
    };
    colon.is(':')
        && seconds.number().is_some_and(|(_, value)| value < 60.0)
        && minutes.to == colon.from
        && colon.to == seconds.from
}

/// The pieces of the line, or as much of it as is near.
fn line(scene: &Scene, time: &Time) -> Range<usize> {
    let ends = |at: &usize| scene.pieces[*at].what == What::Line || scene.pieces[*at].is(';');
    let (first, last) = (scene.figures[time.first].first, scene.figures[time.last].last);
    let from = (0..first)
        .rev()
        .take(16)
        .find(ends)
        .map_or(first.saturating_sub(16), |at| at + 1);
    let end = (last + 1).min(scene.pieces.len());
    let to = (end..scene.pieces.len())
        .take(16)
        .find(ends)
        .unwrap_or((end + 16).min(scene.pieces.len()));
    from..to
}

/// The gauge readings beside a time: the nearest range of pressure on its line.
fn range(scene: &Scene, time: &Time, line: &Range<usize>) -> Option<usize> {
    let fits = |index: &usize| {
        let figure = &scene.figures[*index];
        let pressure = figure
            .unit
            .is_none_or(|(measure, _)| measure == Measure::Pressure);
        figure.numbers.len() == 2 && figure.joint == '-' && pressure && line.contains(&figure.first)
    };
    let before = (time.first.saturating_sub(REACH)..time.first).rev().find(fits);
    before.or_else(|| (time.last + 1..scene.figures.len()).take(REACH).find(fits))
}

/// The reading of "from empty to 135 psi".
fn from_empty(scene: &Scene, line: &Range<usize>) -> Option<usize> {
    let empty = line
        .clone()
        .find(|at| ["empty", "flat"].contains(&scene.pieces[*at].word()))?;
    let full = scene.figures.partition_point(|figure| figure.first < empty);
    let figure = scene.figures.get(full)?;
    (figure.is(Measure::Pressure) && figure.first <= empty + 2 && figure.numbers.len() == 1).then_some(full)
}

fn readings(scene: &Scene, draft: &mut Draft, index: usize) {
    let mut figure = scene.figures[index].clone();
    let high = figure.numbers.last().map_or(0.0, |(_, value)| *value);
    figure.unit = figure.unit.or(Some((
        Measure::Pressure,
        if high <= 16.0 { "bar" } else { "psi" },
    )));
    draft.claim(3, Field::PumpFrom, figure.part(0), scene.span(index));
    draft.claim(3, Field::PumpTo, figure.part(1), scene.span(index));
}
