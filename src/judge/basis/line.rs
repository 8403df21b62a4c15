//! Air line, auxiliary receiver and limits.

use super::reader::Reader;
use super::vessel::{condition, is_none, stamp};
use super::{AuxiliaryBasis, FOOT, LimitsBasis, LineBasis, Pipe};
use quantity::Kind;
use shop::Shop;

/// m.
const INCH: f64 = 0.0254;

/// What a pipe's name says of it. Plastic made for compressed air (PE-RT, HDPE, nylon) is called by its own name.
fn pipe(text: &str) -> Option<Pipe> {
    let words = text.trim().to_lowercase();
    if words.is_empty() || is_none(text) {
        return None;
    }
    let shatters = [
        "pvc",
        "vinyl",
        "plastic plumbing",
        "schedule 40",
        "sch 40",
        "sch40",
    ];
    let steel = ["iron", "steel", "copper", "alumin"];
    let has = |any: &[&str]| any.iter().any(|word| words.contains(word));
    Some(if has(&shatters) && !has(&steel) {
        Pipe::Shatters
    } else {
        Pipe::Sound
    })
}

/// Default layout: a heavier trunk hose to the bench, a light short whip to the hand. Common practice, no source.
pub(super) fn line_basis(reader: &mut Reader, shop: &Shop) -> LineBasis {
    reader.path = "line".into();
    let line = &shop.line;
    LineBasis {
        droop: reader
            .or(
                "droop",
                Kind::Droop,
                &line.droop,
                physics::line::TYPICAL_DROOP_PA_PER_M3_S,
            )
            .value,
        trunk: (
            reader
                .above_zero_or("trunk_bore", Kind::Bore, &line.trunk_bore, 0.375 * INCH)
                .value,
            reader
                .above_zero_or("trunk_length", Kind::Length, &line.trunk_length, 25.0 * FOOT)
                .value,
        ),
        couplers: reader
            .or("couplers", Kind::Count, &line.couplers, 2.0)
            .value
            .min(20.0),
        whip: (
            reader
                .above_zero_or("whip_bore", Kind::Bore, &line.whip_bore, 0.25 * INCH)
                .value,
            reader
                .above_zero_or("whip_length", Kind::Length, &line.whip_length, 10.0 * FOOT)
                .value,
        ),
        loss_share: reader
            .above_zero_or("loss_share", Kind::Fraction, &line.loss_share, 0.1)
            .value,
        pipe: pipe(&line.pipe),
        breathed: !line.breathing.trim().is_empty() && !is_none(&line.breathing),
    }
}

pub(super) fn auxiliary_basis(reader: &mut Reader, shop: &Shop) -> Option<AuxiliaryBasis> {
    reader.path = "auxiliary".into();
    let stamp = stamp(reader, "rated", &shop.auxiliary.rated);
    let condition = condition(reader, "condition", &shop.auxiliary.condition);
    let tank_m3 = reader.above_zero("tank", Kind::Volume, &shop.auxiliary.tank)?;
    Some(AuxiliaryBasis {
        tank_m3,
        stamp,
        condition,
        stays: shop.auxiliary.stays,
    })
}

pub(super) fn limits_basis(reader: &mut Reader, shop: &Shop) -> LimitsBasis {
    reader.path = "limits".into();
    let limits = &shop.limits;
    LimitsBasis {
        lift_kg: reader.above_zero("lift", Kind::Mass, &limits.lift),
        tailgate_m: reader.above_zero_or("tailgate", Kind::Length, &limits.tailgate, 34.0 * INCH),
        budget: reader.above_zero("budget", Kind::Money, &limits.budget),
        loudest_dba: reader.get("loudest", Kind::SoundLevel, &limits.loudest),
        hours_s: reader.above_zero_or("hours", Kind::Hours, &limits.hours, 1_500.0 * 3_600.0),
        day_s: reader.above_zero_or("day", Kind::Hours, &limits.day, 4.0 * 3_600.0),
        tariff: reader.or("tariff", Kind::Tariff, &limits.tariff, 0.17),
    }
}
