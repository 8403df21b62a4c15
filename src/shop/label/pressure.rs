//! Which pressure belongs to which flow: "2.6 @ 90", "SCFM @ 40/90 PSI: 3.4/2.6", "at 90 psi it delivers 5.0".

use super::figure::Figure;
use super::sense::Sense;
use super::token::{Piece, What};
use super::unit::{self, Measure, Unit};

/// For each figure the index of the pressure at which it is stated, and for each pressure that it is one.
pub(super) struct Stated {
    /// By flow.
    pub at: Vec<Option<usize>>,
    /// By pressure.
    pub used: Vec<bool>,
}

/// psi and bar at which flows are stated at all; a bare number below the second is bar. Common practice, no source.
const PSI: std::ops::RangeInclusive<f64> = 20.0..=200.0;
const BAR: std::ops::RangeInclusive<f64> = 1.0..=16.0;

/// Finds every pressure of a flow. Figures that have no unit of their own get one where this tells it.
pub(super) fn stated(pieces: &[Piece], senses: &[Option<Sense>], figures: &mut [Figure]) -> Stated {
    let mut stated = Stated {
        at: vec![None; figures.len()],
        used: vec![false; figures.len()],
    };
    for index in 0..figures.len() {
        let Some(unit) = pressure_unit(pieces, figures, index) else {
            continue;
        };
        let flow = before(pieces, figures, index, &stated).or_else(|| behind(pieces, senses, figures, index));
        let Some(flow) = flow.filter(|flow| stated.at[*flow].is_none()) else {
            continue;
        };
        let value = figures[flow].value();
        let own = figures[flow].unit.or_else(|| header(pieces, figures, index));
        figures[flow].unit = own.or(Some(flow_unit(value, unit)));
        figures[index].unit = Some(unit);
        stated.at[flow] = Some(index);
        stated.used[index] = true;
    }
    stated
}

/// The unit of a figure that may be the pressure of a flow: behind "@" or "at", or right behind a flow and low.
fn pressure_unit(pieces: &[Piece], figures: &[Figure], index: usize) -> Option<Unit> {
    let figure = &figures[index];
    if is_most(pieces, figure) || figure.joint == '-' {
        return None;
    }
    let unit = match figure.unit {
        Some(unit @ (Measure::Pressure, _)) => unit,
        None if PSI.contains(&figure.value()) => (Measure::Pressure, "psi"),
        None if BAR.contains(&figure.value()) => (Measure::Pressure, "bar"),
        _ => return None,
    };
    let low = match unit.1 {
        "psi" => (30.0..=100.0).contains(&figure.value()),
        "bar" => (2.0..=7.0).contains(&figure.value()),
        _ => false,
    };
    let said = figure.first > 0 && is_sign(&pieces[figure.first - 1]);
    let follows = figure.unit.is_some() && low && index > 0 && {
        let gap = &pieces[figures[index - 1].last + 1..figure.first];
        figures[index - 1].is(Measure::Flow)
            && gap.len() <= 1
            && gap.iter().all(|piece| piece.is('/') || piece.is('('))
    };
    (said || follows).then_some(unit)
}

/// "@" or "at".
pub(super) fn is_sign(piece: &Piece) -> bool {
    piece.is('@') || ["at", "bei"].contains(&piece.word())
}

/// Whether "max" stands beside it: the most that the tank gets is not the pressure of a flow.
fn is_most(pieces: &[Piece], figure: &Figure) -> bool {
    let word = pieces.get(figure.last + 1).map_or("", Piece::word);
    word.starts_with("max")
}

/// Words that may stand between a flow and its "@".
const BETWEEN: [&str; 17] = [
    "free",
    "air",
    "delivered",
    "delivery",
    "fad",
    "flow",
    "rated",
    "rating",
    "output",
    "of",
    "scfm",
    "cfm",
    "measured",
    "actual",
    "effective",
    "delivers",
    "tested",
];

/// The flow before "@": "2.6 SCFM free air @ 90".
fn before(pieces: &[Piece], figures: &[Figure], index: usize, stated: &Stated) -> Option<usize> {
    let flow = index.checked_sub(1)?;
    let figure = &figures[flow];
    let gap = &pieces[figure.last + 1..figures[index].first];
    if gap.len() > 8 || stated.at[flow].is_some() || stated.used[flow] {
        return None;
    }
    let bare = figure.unit.is_none() && gap.first().is_none_or(is_sign);
    let open = |piece: &Piece| match &piece.what {
        What::Word(word) => BETWEEN.contains(&&**word) || is_sign(piece),
        What::Mark(c) => "@(/)".contains(*c),
        What::Line => true,
        What::Number(..) => false,
    };
    // "5.6 cfm, @ 90 psi": only the sign reaches over a comma.
    let comma = gap.len() == 2 && gap[0].is(',') && gap[1].is('@');
    ((figure.is(Measure::Flow) || bare) && (comma || gap.iter().all(open))).then_some(flow)
}

/// The flow behind a pressure: "SCFM @ 90 PSI: 2.6", "at 90 psi it delivers 5.0 cfm".
fn behind(pieces: &[Piece], senses: &[Option<Sense>], figures: &[Figure], index: usize) -> Option<usize> {
    let flow = figures.get(index + 1)?;
    let gap = &pieces[figures[index].last + 1..flow.first];
    let words = [
        "it",
        "is",
        "delivers",
        "delivered",
        "delivery",
        "makes",
        "puts",
        "out",
        "scfm",
        "cfm",
        "air",
        "of",
        "about",
        "flow",
    ];
    let open = |piece: &Piece| match &piece.what {
        What::Word(word) => words.contains(&&**word),
        What::Mark(c) => ":=()-;".contains(*c) && !piece.is(';'),
        What::Line => true,
        What::Number(..) => false,
    };
    let close = gap.len() <= 8 && gap.iter().all(open);
    let said = flow.is(Measure::Flow)
        || flow.unit.is_none()
            && (header(pieces, figures, index).is_some() || speaks_of_flow(senses, figures, index));
    (close && said).then_some(index + 1)
}

/// The unit of flow that heads a pressure: "SCFM @ 90 PSI", or follows it: "air delivery @ 90 psi (SCFM)".
fn header(pieces: &[Piece], figures: &[Figure], index: usize) -> Option<Unit> {
    let start = index
        .checked_sub(1)
        .map_or(0, |previous| figures[previous].last + 1);
    let head = (start.max(figures[index].first.saturating_sub(6))..figures[index].first).rev();
    let end = figures.get(index + 1).map_or(pieces.len(), |next| next.first);
    let tail = figures[index].last + 1..end.min(figures[index].last + 7);
    head.chain(tail).find_map(|at| {
        unit::at(pieces, at, false)
            .map(|(unit, _)| unit)
            .filter(|(measure, _)| *measure == Measure::Flow)
    })
}

/// Whether the words before a pressure speak of air delivered.
fn speaks_of_flow(senses: &[Option<Sense>], figures: &[Figure], index: usize) -> bool {
    let start = index
        .checked_sub(1)
        .map_or(0, |previous| figures[previous].last + 1);
    let from = start.max(figures[index].first.saturating_sub(6));
    senses[from..figures[index].first]
        .iter()
        .flatten()
        .any(|sense| *sense == Sense::Delivered)
}

/// The unit of a bare flow beside a pressure: small figures are cfm, also beside bar.
fn flow_unit(value: f64, pressure: Unit) -> Unit {
    let metric = pressure.1 != "psi" && value > 30.0;
    (Measure::Flow, if metric { "L/min" } else { "cfm" })
}
