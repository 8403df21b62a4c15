//! What was found for each field, and which of several findings is taken.

use std::ops::Range;

use super::{Field, LabelReading, Left, Taken};
use crate::Units;
use quantity::would_be;

/// Something found for a field.
struct Claim {
    field: Field,
    text: String,
    piece: Range<usize>,
    note: String,
    /// How surely it is meant; of equals the first is taken.
    weight: u8,
}

/// All that was found.
pub(super) struct Draft {
    units: Units,
    claims: Vec<Claim>,
    left: Vec<Left>,
    unread: Vec<Range<usize>>,
}

/// How far two figures of one thing may differ, in two units, relative: "69 lb (31 kg)".
const SAME: f64 = 0.04;

impl Draft {
    pub fn new(units: Units) -> Self {
        Self {
            units,
            claims: Vec::new(),
            left: Vec::new(),
            unread: Vec::new(),
        }
    }

    pub fn claim(&mut self, weight: u8, field: Field, text: String, piece: Range<usize>) {
        self.noted(weight, field, text, piece, String::new());
    }

    pub fn noted(&mut self, weight: u8, field: Field, text: String, piece: Range<usize>, note: String) {
        if let Some(refusal) = self.refusal(field, &text) {
            return self.leave(piece, refusal);
        }
        self.claims.push(Claim {
            field,
            text,
            piece,
            note,
            weight,
        });
    }

    pub fn leave(&mut self, piece: Range<usize>, reason: String) {
        self.left.push(Left { piece, reason });
    }

    /// What was not understood; what touches the last such piece is one with it.
    pub fn unread(&mut self, piece: Range<usize>) {
        match self.unread.last_mut().filter(|last| piece.start <= last.end) {
            Some(last) => last.end = last.end.max(piece.end),
            None => self.unread.push(piece),
        }
    }

    /// Why the field would not take the text; "120/240 V" is taken where each part is, a word where none is a figure.
    fn refusal(&self, field: Field, text: &str) -> Option<String> {
        let row = field.row();
        let letter = field == Field::Start && text.len() == 1;
        let words = letter || field == Field::Stamp && text == "no stamp";
        if row.kind().is_none() || words {
            return None;
        }
        let refused = |text: &str| match row.read(text, self.units) {
            Ok(Some(_)) => None,
            Ok(None) => Some(format!("“{text}” is no {}", row.name)),
            Err(error) => Some(error.to_string()),
        };
        match field {
            Field::Volts | Field::Amps => text.split(['/', '-']).find_map(|part| refused(part.trim())),
            _ => refused(text),
        }
    }

    /// Whether a text is in a unit of the reader's.
    fn is_own(&self, text: &str) -> bool {
        let own: &[&str] = match self.units {
            Units::Us => &[" gal", " lb", " psi", " cfm"],
            Units::Metric => &[" L", " kg", " bar", " L/min"],
        };
        own.iter().any(|unit| text.ends_with(unit))
    }

    fn same(&self, field: Field, one: &str, other: &str) -> bool {
        let value = |text| {
            field
                .row()
                .kind()
                .and_then(|kind| would_be(kind, text, self.units))
        };
        match (value(one), value(other)) {
            (Some(one), Some(other)) => (one - other).abs() <= SAME * one.abs(),
            _ => one == other,
        }
    }

    /// The reading: for each field what is surest, and why the rest was left.
    pub fn settle(mut self) -> LabelReading {
        let mut claims = std::mem::take(&mut self.claims);
        quantity::order::by_key(&mut claims, |claim| {
            (claim.field, u8::MAX - claim.weight, claim.piece.start)
        });
        let mut taken: Vec<Taken> = Vec::new();
        for claim in claims {
            match taken.last_mut().filter(|last| last.field == claim.field) {
                Some(last) if self.same(claim.field, &last.text, &claim.text) => {
                    // "30 L / 8 gal": the reader's own unit.
                    if self.is_own(&claim.text) && !self.is_own(&last.text) {
                        (last.text, last.piece) = (claim.text, claim.piece);
                    }
                }
                Some(last) => {
                    let reason = format!(
                        "{} found twice: took {}, left {}",
                        claim.field.row().name,
                        last.text,
                        claim.text
                    );
                    self.leave(claim.piece, reason);
                }
                None => taken.push(Taken {
                    field: claim.field,
                    text: claim.text,
                    piece: claim.piece,
                    note: claim.note,
                }),
            }
        }
        quantity::order::by_key(&mut self.left, |left| (left.piece.start, left.piece.end));
        // What no house outlet has goes with the volts: whoever judges the power has to know.
        let three_phase = self
            .left
            .iter()
            .any(|left| left.reason == super::electric::THREE_PHASE);
        let volts = taken.iter_mut().filter(|taken| taken.field == Field::Volts);
        for taken in volts.filter(|_| three_phase) {
            taken.text.push_str(" 3-phase");
        }
        LabelReading {
            taken,
            left: self.left,
            unread: self.unread,
        }
    }
}
