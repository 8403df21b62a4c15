//! Whose figure it is: listings name hoses, nailers and circuits beside the machine.

use super::sense::is_stop;
use super::token::{Piece, What};
use super::unit::{self, Measure};

/// Things beside the machine, and what they are called.
const THINGS: &[(&str, &str)] = &[
    ("second tank", "second tank"),
    ("auxiliary tank", "second tank"),
    ("aux tank", "second tank"),
    ("spare tank", "second tank"),
    ("extra tank", "second tank"),
    ("additional tank", "second tank"),
    ("portable tank", "second tank"),
    ("paint tank", "paint pot"),
    ("pressure pot", "paint pot"),
    ("hose", "hose"),
    ("hoses", "hose"),
    ("nailer", "nailer"),
    ("nailers", "nailer"),
    ("nail gun", "nailer"),
    ("nail guns", "nailer"),
    ("stapler", "stapler"),
    ("staplers", "stapler"),
    ("inflator", "inflator"),
    ("inflation", "inflator"),
    ("air chuck", "air chuck"),
    ("tire chuck", "air chuck"),
    ("chuck", "air chuck"),
    ("tire", "tire"),
    ("tires", "tire"),
    ("tyre", "tire"),
    ("tyres", "tire"),
    ("spray gun", "spray gun"),
    ("paint gun", "spray gun"),
    ("hvlp", "spray gun"),
    ("sprayer", "spray gun"),
    ("airbrush", "airbrush"),
    ("rivet gun", "rivet gun"),
    ("blow gun", "blow gun"),
    ("blowgun", "blow gun"),
    ("nozzle", "blow gun"),
    ("duster", "blow gun"),
    ("impact wrench", "impact wrench"),
    ("impact", "impact wrench"),
    ("wrench", "wrench"),
    ("ratchet", "ratchet"),
    ("sander", "sander"),
    ("grinder", "grinder"),
    ("drill", "drill"),
    ("hammer", "hammer"),
    ("chisel", "hammer"),
    ("gun", "gun"),
    ("coupler", "coupler"),
    ("couplers", "coupler"),
    ("fitting", "fitting"),
    ("fittings", "fitting"),
    ("filter", "filter"),
    ("dryer", "dryer"),
    ("lubricator", "lubricator"),
    ("regulator", "regulator"),
    ("battery", "battery"),
    ("batteries", "battery"),
    ("charger", "charger"),
    ("cord", "cord"),
    ("breaker", "circuit"),
    ("circuit", "circuit"),
    ("fuse", "circuit"),
    ("outlet", "outlet"),
    ("receptacle", "outlet"),
    ("generator", "generator"),
    ("engine", "engine"),
    ("tool", "tool"),
    ("tools", "tool"),
    ("accessories", "accessory"),
    ("accessory", "accessory"),
];

/// Things that have pressures and flows of their own.
const TOOLS: &[&str] = &[
    "nailer",
    "stapler",
    "inflator",
    "spray gun",
    "airbrush",
    "rivet gun",
    "impact wrench",
    "wrench",
    "ratchet",
    "sander",
    "grinder",
    "drill",
    "hammer",
    "gun",
];

/// Words for the machine itself: what follows them is its own.
const MACHINE: &[&str] = &[
    "compressor",
    "compressors",
    "tank",
    "receiver",
    "motor",
    "pump",
    "pancake",
    "machine",
    "unit",
    "delivers",
];

/// Words that end what a thing owns within a line.
const ENDS: &[&str] = &["with", "and", "plus", "includes", "including", "w"];

/// The thing whose name begins at a piece.
fn thing(pieces: &[Piece], at: usize) -> Option<&'static str> {
    named(pieces, at).map(|(thing, _)| thing)
}

/// The same and the words of its name.
fn named(pieces: &[Piece], at: usize) -> Option<(&'static str, usize)> {
    let first = pieces.get(at).map(Piece::word).filter(|word| !word.is_empty())?;
    let second = pieces.get(at + 1).map_or("", Piece::word);
    let mut found = THINGS.iter().filter(|(name, _)| match name.strip_prefix(first) {
        Some("") => true,
        Some(rest) => rest.strip_prefix(' ') == Some(second),
        None => false,
    });
    let (name, called) = found.next()?;
    // "hose outlet" is where the machine's hose goes; "tool-free", "gun metal" name no thing either.
    let words = name.split(' ').count();
    let next = pieces.get(at + words).map_or("", Piece::word);
    (!["free", "metal", "box", "cabinet", "less"].contains(&next)).then_some((*called, words))
}

fn is_machine(pieces: &[Piece], at: usize) -> bool {
    MACHINE.contains(&pieces[at].word())
}

/// For each piece the thing that was named before it and still owns what follows.
pub(super) fn owners(pieces: &[Piece]) -> Vec<Option<&'static str>> {
    let mut out = Vec::with_capacity(pieces.len());
    let mut state = State::default();
    for at in 0..pieces.len() {
        state.step(pieces, at);
        out.push(state.clause.or(state.tool).or(state.line).or(state.section));
    }
    out
}

#[derive(Default)]
struct State {
    /// Until a comma.
    clause: Option<&'static str>,
    /// A tool named before its figures, until another thing is named: "brad nailer 60-100 psi, 1.2 cfm".
    tool: Option<&'static str>,
    /// Until the line ends or the machine is named.
    line: Option<&'static str>,
    /// Until a blank line or the machine is named.
    section: Option<&'static str>,
    /// Up to which piece the words of a name run: the tank of a second tank is not the machine's.
    skip: usize,
}

impl State {
    fn step(&mut self, pieces: &[Piece], at: usize) {
        let piece = &pieces[at];
        if at == 0 || pieces[at - 1].what == What::Line {
            self.section = heading(pieces, at).or(self.section);
        }
        if is_stop(piece) {
            (self.clause, self.tool, self.line) = (None, None, None);
            let blank =
                piece.what == What::Line && pieces.get(at + 1).is_some_and(|next| next.what == What::Line);
            self.section = self.section.filter(|_| !blank);
        } else if piece.is(',') || piece.number().is_some() {
            self.tool = self.clause.filter(|thing| TOOLS.contains(thing)).or(self.tool);
            self.clause = self.clause.filter(|_| !piece.is(','));
        } else if piece.is('+') || ENDS.contains(&piece.word()) {
            self.clause = None;
        } else if at >= self.skip {
            self.name(pieces, at);
        }
    }

    /// Takes a word that may name a thing, or the machine.
    fn name(&mut self, pieces: &[Piece], at: usize) {
        if unit::of(pieces[at].word()).is_some_and(|(measure, _)| measure == Measure::Volume) {
            self.tool = None;
        } else if let Some((thing, words)) = named(pieces, at) {
            self.skip = at + words;
            self.clause = Some(thing).filter(|_| !is_mention(pieces, at));
            self.tool = None;
            self.line = Some(thing).filter(|_| leads(pieces, at)).or(self.line);
        } else if is_machine(pieces, at) {
            *self = Self::default();
        }
    }
}

/// Whether a thing is only named as what the machine is good for: "for nailers", "runs a brad nailer".
fn is_mention(pieces: &[Piece], at: usize) -> bool {
    let good = [
        "for", "run", "runs", "running", "power", "powers", "drive", "drives", "operate", "operates", "suits",
    ];
    let before = pieces[..at]
        .iter()
        .rev()
        .take(3)
        .take_while(|piece| !is_stop(piece));
    before.into_iter().any(|piece| good.contains(&piece.word()))
        && !pieces[at + 1..].iter().take(2).any(|piece| piece.is(':'))
}

/// Whether a thing stands first in its line, or before a colon: the rest of the line is about it.
fn leads(pieces: &[Piece], at: usize) -> bool {
    let colon = pieces[at + 1..].iter().take(2).any(|piece| piece.is(':'));
    let before = pieces[..at]
        .iter()
        .rev()
        .take(3)
        .take_while(|piece| !is_stop(piece));
    let words = before.clone().count();
    let figures = before.filter(|piece| piece.number().is_some()).count();
    colon || words < 3 && figures == 0
}

/// A heading: a line of up to four words, the last of them a thing, or "included", "accessories".
fn heading(pieces: &[Piece], at: usize) -> Option<&'static str> {
    let line: Vec<usize> = (at..pieces.len())
        .take(6)
        .take_while(|at| pieces[*at].what != What::Line)
        .filter(|at| !pieces[*at].is(':'))
        .collect();
    let ends = line.last().is_some_and(|last| {
        pieces[last + 1..]
            .iter()
            .find(|piece| !piece.is(':'))
            .is_none_or(|next| next.what == What::Line)
    });
    let named = line.iter().find_map(|at| thing(pieces, *at));
    let other = ["for", "with", "to", "and", "runs", "powers", "of"];
    let plain = !line
        .iter()
        .any(|at| is_machine(pieces, *at) || other.contains(&pieces[*at].word()));
    let kit = line.len() <= 3
        && line
            .iter()
            .any(|at| ["included", "includes", "accessories"].contains(&pieces[*at].word()));
    match named {
        Some(thing) if ends && plain && line.len() <= 4 => Some(thing),
        None if ends && plain && kit => Some("accessory"),
        _ => None,
    }
}

/// The thing named right behind a figure: "25 ft hose", "15 A circuit", "300 psi rated hose".
pub(super) fn behind(pieces: &[Piece], last: usize) -> Option<Option<&'static str>> {
    for at in last + 1..pieces.len().min(last + 4) {
        if is_machine(pieces, at) {
            return Some(None);
        }
        if let Some(thing) = thing(pieces, at) {
            return Some(Some(thing));
        }
        let word = pieces[at].word();
        let hyphen = pieces[at].is('-');
        if !hyphen
            && (word.is_empty() || ["for", "to", "and", "with", "at", "runs", "of", "on"].contains(&word))
        {
            return None;
        }
    }
    None
}
