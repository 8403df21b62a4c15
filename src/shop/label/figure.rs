//! Figures: numbers with their unit, alone, in pairs ("120/240 V"), in ranges ("90-120 psi"), as products ("2 x 2 gal").

use super::sense::Sense;
use super::token::{Piece, What};
use super::unit::{self, Measure, Unit};
use super::{context, pressure};

/// One or several numbers under one unit.
#[derive(Clone, Debug)]
pub(super) struct Figure {
    /// Texts and values, in the order of the text.
    pub numbers: Vec<(String, f64)>,
    /// What stands between them: `/`, `-` or `x`; a blank where there is one.
    pub joint: char,
    /// The unit beside it, or what its words tell.
    pub unit: Option<Unit>,
    /// The first and the last piece, with signs and units.
    pub first: usize,
    /// See `first`.
    pub last: usize,
    /// Whether a plate's "230-3-60" says three phases.
    pub three_phase: bool,
}

impl Figure {
    pub fn measure(&self) -> Option<Measure> {
        self.unit.map(|(measure, _)| measure)
    }

    pub fn is(&self, measure: Measure) -> bool {
        self.measure() == Some(measure)
    }

    pub fn value(&self) -> f64 {
        self.numbers.first().map_or(0.0, |(_, value)| *value)
    }

    /// Takes "120-1-60", "230/50/3": volts, phases and hertz in some order, for the voltage that comes first.
    pub fn of_plate(mut self) -> Self {
        let values: Vec<f64> = self.numbers.iter().map(|(_, value)| *value).collect();
        let idle = matches!(
            self.measure(),
            None | Some(Measure::Phase | Measure::Frequency | Measure::Voltage)
        );
        let [volts, ref rest @ ..] = values[..] else {
            return self;
        };
        let hertz = rest.iter().any(|value| *value == 50.0 || *value == 60.0);
        let known = rest.iter().all(|value| [1.0, 3.0, 50.0, 60.0].contains(value));
        if idle && hertz && known && (100.0..=480.0).contains(&volts) {
            self.three_phase = rest.contains(&3.0);
            self.numbers.truncate(1);
            self.joint = ' ';
            self.unit = Some((Measure::Voltage, "V"));
        }
        self
    }

    /// As a field takes it: "2.6 cfm", "120/240 V", "$129".
    pub fn text(&self) -> String {
        let numbers: Vec<&str> = self.numbers.iter().map(|(text, _)| &**text).collect();
        with_unit(&numbers.join(&self.joint.to_string()), self.unit)
    }

    /// One of its numbers as a field takes it.
    pub fn part(&self, index: usize) -> String {
        let number = self.numbers.get(index).map_or("", |(text, _)| text);
        with_unit(number, self.unit)
    }
}

/// A number and its unit: money has its sign first.
pub(super) fn with_unit(number: &str, unit: Option<Unit>) -> String {
    match unit {
        Some((Measure::Money, sign)) => format!("{sign}{}", whole_money(number)),
        Some((_, shown)) => format!("{number} {shown}"),
        None => number.into(),
    }
}

/// "1.299" is a thousand and more where it is money: nobody prints tenths of a cent.
fn whole_money(number: &str) -> String {
    match number.split_once('.') {
        Some((thousands, rest)) if rest.len() == 3 && !thousands.contains(',') => {
            format!("{thousands}{rest}")
        }
        _ => number.into(),
    }
}

/// Numbers that one figure holds at most: "120/208/240 V".
const NUMBERS_MAX: usize = 4;

/// All figures, in the order of the text.
pub(super) fn figures(pieces: &[Piece], senses: &[Option<Sense>]) -> Vec<Figure> {
    let mut out: Vec<Figure> = Vec::new();
    let mut at = 0;
    let mut free = Free::default();
    while at < pieces.len() {
        let found = figure(pieces, senses, at, free);
        at = found.as_ref().map_or(at, |figure| figure.last) + 1;
        if let Some(figure) = found {
            free.from = at;
            if pieces[figure.first..figure.last]
                .iter()
                .any(|piece| piece.what == What::Line)
            {
                free.caption = at;
            }
            out.push(figure.of_plate());
        }
    }
    out
}

/// From where on pieces belong to no figure yet.
#[derive(Clone, Copy, Default)]
struct Free {
    from: usize,
    /// The end of the last unit that was taken from the line below its number.
    caption: usize,
}

/// The figure whose first number is this piece. What stands before `free` belongs to others.
fn figure(pieces: &[Piece], senses: &[Option<Sense>], at: usize, free: Free) -> Option<Figure> {
    let free_from = free.from;
    pieces[at].number()?;
    let over_line = alone(pieces, at) && !captioned(pieces, senses, at, free);
    let sign = at
        .checked_sub(1)
        .filter(|sign| *sign >= free_from)
        .and_then(|sign| money(&pieces[sign]));
    let mut figure = Figure {
        numbers: Vec::new(),
        joint: ' ',
        unit: sign,
        first: at - usize::from(sign.is_some()),
        last: at,
        three_phase: false,
    };
    let mut number_at = at;
    while let Some((text, value)) = pieces.get(number_at).and_then(Piece::number) {
        figure.numbers.push((text.to_owned(), value));
        figure.last = number_at;
        let beside = beside(pieces, number_at, over_line);
        if let Some((unit, count)) = beside.filter(|found| !is_next_key(pieces, &figure, *found, free_from)) {
            figure.unit = figure.unit.or(Some(unit));
            figure.last = number_at + count;
        }
        match next(pieces, &figure) {
            Some((joint, next)) if figure.numbers.len() < NUMBERS_MAX => {
                figure.joint = joint;
                number_at = next;
            }
            _ => break,
        }
    }
    Some(figure)
}

/// The unit beside a number, one word between allowed: "3.7 running HP", "150 max psi".
fn beside(pieces: &[Piece], number: usize, over_line: bool) -> Option<(Unit, usize)> {
    let between = [
        "running",
        "peak",
        "max",
        "maximum",
        "rated",
        "total",
        "continuous",
        "full",
        "us",
    ];
    let skip = pieces
        .get(number + 1)
        .is_some_and(|piece| between.contains(&piece.word()));
    let direct = unit::at(pieces, number + 1, over_line);
    direct.or_else(|| {
        let (unit, count) = unit::at(pieces, number + 2, false).filter(|_| skip)?;
        Some((unit, count + 1))
    })
}

/// Whether what follows a number is the key of the next: "VOLTS 230 AMPS 15", where the number has its own before it.
fn is_next_key(pieces: &[Piece], figure: &Figure, (unit, count): (Unit, usize), free_from: usize) -> bool {
    let own = figure.first.checked_sub(1).filter(|own| *own >= free_from);
    let own = own.and_then(|own| context::unit_word(pieces, own));
    let number = pieces
        .get(figure.last + count + 1)
        .is_some_and(|piece| piece.number().is_some());
    number && own.is_some_and(|own| own.0 != unit.0)
}

/// A sign or word for money before its figure.
fn money(piece: &Piece) -> Option<Unit> {
    let name = match &piece.what {
        What::Mark(sign) => sign.to_string(),
        What::Word(word) => word.clone(),
        _ => return None,
    };
    unit::of(&name).filter(|(measure, _)| *measure == Measure::Money)
}

/// The next number of the same figure, and what joins it.
fn next(pieces: &[Piece], figure: &Figure) -> Option<(char, usize)> {
    let between = pieces.get(figure.last + 1)?;
    let joint = match &between.what {
        What::Mark(c @ ('/' | '-' | 'x')) => *c,
        What::Word(word) if word == "x" || word == "by" => 'x',
        What::Word(word) if word == "to" => '-',
        _ => return None,
    };
    let mut number = figure.last + 2;
    // "$100 - $120", and a sign of its own in a range.
    if pieces.get(number).is_some_and(|piece| money(piece).is_some()) && figure.is(Measure::Money) {
        number += 1;
    }
    pieces.get(number)?.number()?;
    let (own, count) =
        unit::at(pieces, number + 1, false).map_or((None, 0), |(unit, count)| (Some(unit), count));
    let joins = match (figure.unit, own) {
        // "1.5 HP / 3 HP peak" are two figures; "120 V / 240 V" is one of a motor for both.
        (Some((measure, one)), Some((_, other))) => one == other && (joint != '/' || shares(measure, joint)),
        (Some((measure, _)), None) => shares(measure, joint),
        _ => true,
    };
    let same = figure.joint == ' ' || figure.joint == joint;
    // "4.0 @ 90 / 5.2 @ 40": what has its own pressure is a figure of its own.
    let own_pressure = is_at(pieces, number + count + 1) && joint != 'x';
    (joins && same && !own_pressure).then_some((joint, number))
}

/// Whether a number without a unit may follow one with it: "15 A/7.5", "2 gal x 2".
fn shares(measure: Measure, joint: char) -> bool {
    match joint {
        '/' => matches!(measure, Measure::Voltage | Measure::Current),
        'x' => matches!(measure, Measure::Volume | Measure::Length),
        _ => measure == Measure::Money,
    }
}

/// Whether "@ 90" or "at 90" stands here.
pub(super) fn is_at(pieces: &[Piece], at: usize) -> bool {
    let sign = pieces.get(at).is_some_and(pressure::is_sign);
    sign && pieces.get(at + 1).is_some_and(|piece| piece.number().is_some())
}

fn is_end(piece: Option<&Piece>) -> bool {
    piece.is_none_or(|piece| piece.what == What::Line)
}

/// Whether a line holds this number and nothing else.
fn alone(pieces: &[Piece], at: usize) -> bool {
    is_end(at.checked_sub(1).and_then(|before| pieces.get(before))) && is_end(pieces.get(at + 1))
}

/// Whether the line above says what the number is: a key over its figure, not a figure over its caption.
fn captioned(pieces: &[Piece], senses: &[Option<Sense>], at: usize, free: Free) -> bool {
    let is_line = |at: &usize| pieces[*at].what == What::Line;
    let Some(last) = (0..at).rev().find(|at| !is_line(at)) else {
        return false;
    };
    let start = (0..last)
        .rev()
        .take(CAPTION_MAX)
        .find(is_line)
        .map_or(0, |line| line + 1);
    // "SCFM @ 90 PSI" heads the flow, though its pressure is a figure too.
    let heads = start >= free.caption && (start + 1..last).any(|at| is_at(pieces, at));
    let says = |at: usize| senses[at].is_some() || unit::of(pieces[at].word()).is_some();
    heads || start >= free.from && (start..last + 1).any(says)
}

/// Pieces that a caption has at most.
const CAPTION_MAX: usize = 12;
