//! What the label says of sound: a level, sound power, or nothing.

use super::{NEAREST_M, level};
use crate::label::{beyond, finding};
use crate::report::{Finding, Grade};
use crate::words::Words;
use judge::basis::CandidateBasis;
use physics::sound::level_of_power_db;
use quantity::range::OutOfRange;
use quantity::{Kind, number};
use shop::pumps::{LEVEL_AT_M, PumpKind, SOURCE};

/// What no label says: a range for the kind of pump, or what to look for.
pub(super) fn unstated(words: Words, candidate: &CandidateBasis) -> Option<Finding> {
    if let Some((stated, at)) = candidate.sound {
        return (!at.is_given()).then(|| no_distance(words, stated, at.value));
    }
    if candidate.sound_power_db.is_some() {
        return None;
    }
    let level = |db: f64| level(words, db);
    let at = words.of(Kind::Length, LEVEL_AT_M);
    let (text, basis) = match candidate.pump {
        Some(pump) => {
            let traits = pump.traits();
            let [low, high] = traits.level_dba;
            let text = format!(
                "No dBA on the label. A pump of this kind ({}) is likely {} to {} at {at}. Cover your ears near it; your rivet gun is louder. Door shut and daytime for the neighbors; duct the inlet outdoors, or look for a quiet kind.",
                traits.name,
                number(low, 0),
                level(high)
            );
            (text, SOURCE)
        }
        None => {
            let [loud, belt] = [PumpKind::OilFree, PumpKind::Belt].map(|kind| kind.traits().level_dba);
            let text = format!(
                "No dBA on the label. At {at} oil-free direct drive is likely {} to {}, oiled belt drive {} to {}. Look for dBA together with its distance.",
                number(loud[0], 0),
                level(loud[1]),
                number(belt[0], 0),
                level(belt[1])
            );
            (text, SOURCE)
        }
    };
    Some(finding("level", Grade::Unsure, text, basis))
}

fn no_distance(words: Words, stated: f64, at_m: f64) -> Finding {
    finding(
        "level",
        Grade::Unsure,
        format!(
            "{} without a distance: assuming {}. Every doubling of the true distance would make the machine 6 dB louder than these figures. Look for the distance in the manual.",
            words.of(Kind::SoundLevel, stated),
            words.of(Kind::Length, at_m)
        ),
        "distance by ISO 9613-2",
    )
}

/// Level and distance as stated; from printed sound power the level at 1 m over a hard floor.
pub(super) fn stated(candidate: &CandidateBasis) -> Option<Result<(f64, f64), OutOfRange>> {
    if let Some((level_db, at)) = candidate.sound {
        return Some(Ok((level_db, at.value.max(NEAREST_M))));
    }
    let power_db = candidate.sound_power_db?;
    Some(level_of_power_db(power_db, 1.0).map(|level_db| (level_db, 1.0)))
}

/// How printed sound power becomes a level.
pub(super) fn of_power(words: Words, candidate: &CandidateBasis) -> Option<Finding> {
    let power = candidate.sound_power_db.filter(|_| candidate.sound.is_none())?;
    let near = match level_of_power_db(power, 1.0) {
        Ok(near) => near,
        Err(error) => return Some(beyond("sound-power", "The sound power", &error)),
    };
    Some(finding(
        "sound-power",
        Grade::Note,
        format!(
            "The label prints sound power, {} dB: that is about {} at {}, not at your ears.",
            number(power, 0),
            level(words, near),
            words.of(Kind::Length, 1.0)
        ),
        "Lp = LwA − 8 − 20 log r over a hard floor, ISO 3744",
    ))
}
