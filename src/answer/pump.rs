//! The kind of pump in words: how long it may run, how long it lives, how loud it is.

use super::label::finding;
use super::words::{Words, capital};
use crate::report::{Finding, Grade};
use judge::basis::CandidateBasis;
use quantity::{Kind, number};
use shop::pumps::{PumpKind, SOURCE};

/// What a kind of pump is good for, in a few words.
fn character(kind: PumpKind) -> &'static str {
    match kind {
        PumpKind::OilFree => "Light and needs no oil; loud and worn out first.",
        PumpKind::QuietOilFree => "Quiet and needs no oil; less air for its price.",
        PumpKind::OiledDirect => "Check the oil and keep it level; loud.",
        PumpKind::Belt => {
            "Quieter and lasting; check oil and belt, and buy one with parts to be had: it sells again."
        }
        PumpKind::TwoStage => "For long hours and high pressure; heavy, and it wants its own circuit.",
        PumpKind::Rotary => "Made to run all day; dear, and short runs leave water in its oil.",
    }
}

/// The kind of pump, where label or words tell it.
pub(super) fn kind(words: Words, candidate: &CandidateBasis) -> Option<Finding> {
    let kind = candidate.pump?;
    let traits = kind.traits();
    let [low, _, high] = traits.duty.map(|share| number(100.0 * share, 0));
    let run = if low == high {
        format!("{high} %")
    } else {
        format!("{low} to {high} %")
    };
    let [from, to] = traits.life_h;
    let [soft, loud] = traits.level_dba;
    let text = format!(
        "{}: may run {run} of the time, lasts {} to {} hours of running, {} to {} near it. {}",
        capital(traits.name),
        number(from, 0),
        number(to, 0),
        number(soft, 0),
        words.of(Kind::SoundLevel, loud),
        character(kind)
    );
    Some(finding("pump", Grade::Note, text, SOURCE))
}
