//! A text laid out for choosing: pieces, figures, and what is known of each.

use std::ops::Range;

use super::context::{self, Context};
use super::figure::{self, Figure};
use super::owner;
use super::pressure::{self, Stated};
use super::sense::{self, Sense};
use super::token::{self, Piece, What};
use super::unit::Measure;
use super::{spoken, unit::Unit};
use crate::Units;

/// All that is known before anything is chosen.
pub(super) struct Scene {
    pub units: Units,
    pub pieces: Vec<Piece>,
    pub senses: Vec<Option<Sense>>,
    pub figures: Vec<Figure>,
    pub contexts: Vec<Context>,
    pub stated: Stated,
    owners: Vec<Option<&'static str>>,
}

impl Scene {
    pub fn of(text: &str, units: Units) -> Self {
        let pieces = spoken::written(token::pieces(text));
        let senses = sense::senses(&pieces);
        let mut figures = figure::figures(&pieces, &senses);
        let contexts = context::contexts(&pieces, &senses, &figures);
        for (figure, context) in figures.iter_mut().zip(&contexts) {
            if figure.unit.is_none() {
                figure.unit = told(&pieces, &senses, context, figure, units);
            }
        }
        let stated = pressure::stated(&pieces, &senses, &mut figures);
        let owners = owner::owners(&pieces);
        Self {
            units,
            pieces,
            senses,
            figures,
            contexts,
            stated,
            owners,
        }
    }

    /// The bytes of a figure.
    pub fn span(&self, index: usize) -> Range<usize> {
        let figure = &self.figures[index];
        self.pieces[figure.first].from..self.pieces[figure.last].to
    }

    /// The nearest sense before a figure that says something of its kind, or else the nearest behind it.
    pub fn sense(&self, index: usize) -> Option<Sense> {
        self.sense_before(index).or_else(|| self.sense_after(index))
    }

    pub fn sense_before(&self, index: usize) -> Option<Sense> {
        let range = self.contexts[index].before.clone();
        range.rev().find_map(|at| self.fitting(index, at))
    }

    pub fn sense_after(&self, index: usize) -> Option<Sense> {
        let inner = self.figures[index].first..self.figures[index].last + 1;
        let range = inner.chain(self.contexts[index].after.clone());
        range.into_iter().find_map(|at| self.fitting(index, at))
    }

    fn fitting(&self, index: usize, at: usize) -> Option<Sense> {
        let measure = self.figures[index].measure()?;
        self.senses[at].filter(|sense| sense.fits(measure))
    }

    /// Whether a sense stands anywhere beside a figure.
    pub fn has(&self, index: usize, sense: Sense) -> bool {
        let Context { before, after } = self.contexts[index].clone();
        let inner = self.figures[index].first..self.figures[index].last + 1;
        before
            .chain(inner)
            .chain(after)
            .any(|at| self.senses[at] == Some(sense))
    }

    /// The thing that a figure belongs to, where that is not the machine.
    pub fn owner(&self, index: usize) -> Option<&'static str> {
        let figure = &self.figures[index];
        match owner::behind(&self.pieces, figure.last) {
            Some(named) => named,
            None => self.owners[figure.first],
        }
    }

    /// Whether "@" or "at" stands right before a figure.
    pub fn is_at(&self, index: usize) -> bool {
        let before = self.figures[index].first.checked_sub(1);
        before.is_some_and(|at| pressure::is_sign(&self.pieces[at]))
    }

    /// Whether nothing but marks stands between a figure and the one before it.
    pub fn follows(&self, index: usize) -> bool {
        let Some(previous) = index.checked_sub(1) else {
            return false;
        };
        let gap = self.figures[previous].last + 1..self.figures[index].first;
        gap.len() <= 2
            && self.pieces[gap]
                .iter()
                .all(|piece| piece.word().is_empty() && piece.what != What::Line)
    }

    /// The word right before a figure.
    pub fn previous_word(&self, index: usize) -> &str {
        let before = self.figures[index].first.checked_sub(1);
        before.map_or("", |at| self.pieces[at].word())
    }

    /// The words right behind a figure.
    pub fn next_word(&self, index: usize) -> &str {
        self.pieces
            .get(self.figures[index].last + 1)
            .map_or("", Piece::word)
    }
}

/// The unit of a figure that has none beside it.
fn told(
    pieces: &[Piece],
    senses: &[Option<Sense>],
    context: &Context,
    figure: &Figure,
    units: Units,
) -> Option<Unit> {
    let (unit, measure) = context::key(pieces, senses, context)?;
    // "CFM @ 90": what stands behind the sign is a pressure, whatever stands before it.
    let at = figure
        .first
        .checked_sub(1)
        .is_some_and(|at| pressure::is_sign(&pieces[at]));
    if at && measure != Some(Measure::Pressure) {
        return None;
    }
    unit.or_else(|| usual(measure?, figure.value(), units))
}

/// The unit that a bare figure has, by its size where the sizes lie far apart.
fn usual(measure: Measure, value: f64, units: Units) -> Option<Unit> {
    let us = units == Units::Us;
    let shown = match measure {
        Measure::Flow if value < 40.0 => "cfm",
        Measure::Flow => "L/min",
        Measure::Pressure if value <= 16.0 => "bar",
        Measure::Pressure => "psi",
        // "tank 150" beside cut-out and relief valve is its stamp.
        Measure::Volume if us && value >= 100.0 => return Some((Measure::Pressure, "psi")),
        Measure::Volume if us => "gal",
        Measure::Volume => "L",
        Measure::Mass if us => "lb",
        Measure::Mass => "kg",
        Measure::Money if us => "$",
        Measure::Money => return None,
        Measure::Current => "A",
        Measure::Voltage => "V",
        Measure::Sound => "dBA",
        Measure::Share => "%",
        _ => return None,
    };
    Some((measure, shown))
}
