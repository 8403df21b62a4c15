//! What a task sprays, with which gun, and where.

use super::reader::Reader;
use quantity::lower;
use shop::Task;
use shop::TaskKind;
use shop::guns::{Gun, GunKind, sprays};

/// Where it is sprayed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SprayedAt {
    /// In the same air as the compressor's motor and switch.
    BesideCompressor,
    /// In a booth or another room.
    Apart,
    /// In the open.
    Outdoors,
}

/// A spraying task as typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spray {
    /// The gun.
    pub gun: Gun,
    /// Its kind was typed.
    pub gun_given: bool,
    /// The paint hardens by isocyanate, if typed.
    pub isocyanate: Option<bool>,
    /// It holds chromate, if typed.
    pub chromate: Option<bool>,
    /// Where, if typed.
    pub at: Option<SprayedAt>,
}

fn has(text: &str, words: &[&str]) -> bool {
    words.iter().any(|word| text.contains(word))
}

fn sprayed_at(reader: &mut Reader, text: &str) -> Option<SprayedAt> {
    let words = lower(text.trim());
    if words.is_empty() {
        return None;
    }
    if has(
        &words,
        &[
            "beside",
            "next to",
            "near the",
            "same room",
            "by the compressor",
            "with the compressor",
            "at the compressor",
        ],
    ) {
        return Some(SprayedAt::BesideCompressor);
    }
    if has(&words, &["outdoor", "outside", "open air", "driveway", "yard"]) {
        return Some(SprayedAt::Outdoors);
    }
    if has(
        &words,
        &[
            "booth",
            "other room",
            "another room",
            "apart",
            "away",
            "tent",
            "separate",
        ],
    ) {
        return Some(SprayedAt::Apart);
    }
    let message = format!(
        "“{}”: say booth, outdoors, another room, or beside the compressor",
        text.trim()
    );
    reader.refuse("sprayed", message);
    None
}

/// The spraying of a task; `None` for a task that does not spray. A gun not told is a small one for primer and HVLP for paint.
pub(super) fn spray(reader: &mut Reader, task: &Task) -> Option<Spray> {
    if !sprays(task.kind) {
        return None;
    }
    let named = GunKind::named(&task.gun).or(GunKind::named(&task.name));
    if named.is_none() && !task.gun.trim().is_empty() {
        let message = match lower(&task.gun).contains("turbine") {
            true => "a turbine gun brings its own air: take this work off the list".into(),
            false => format!(
                "“{}” is no gun known here: use touch-up, LVLP, HVLP or conventional",
                task.gun.trim()
            ),
        };
        reader.refuse("gun", message);
    }
    let usual = if task.kind == TaskKind::PrimerGun {
        GunKind::TouchUp
    } else {
        GunKind::Hvlp
    };
    let paint = lower(task.paint.trim());
    let told = |holds: bool| (!paint.is_empty()).then_some(holds);
    let urethane = [
        "isocyanate",
        "urethane",
        "2k",
        "two-part",
        "two part",
        "2-part",
        "catalyzed",
        "hardener",
        "activator",
    ];
    Some(Spray {
        gun: named.unwrap_or(usual).gun(),
        gun_given: named.is_some(),
        isocyanate: told(has(&paint, &urethane)),
        chromate: told(has(&paint, &["chromate", "chrome", "chromium", "strontium"])),
        at: sprayed_at(reader, &task.sprayed),
    })
}
