//! Air line, auxiliary receiver and limits.

use super::reader::Reader;
use super::vessel::{condition, is_none, stamp};
use super::{AuxiliaryBasis, LimitsBasis, LineBasis, Pipe};
use physics::line::TYPICAL_DROOP_PA_PER_M3_S;
use quantity::{M_PER_FT, M_PER_IN, S_PER_H};
use shop::Shop;
use shop::part::Part;

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
    reader.part = Part::Line;
    let line = &shop.line;
    let basis = LineBasis {
        unread_air: None,
        droop: reader.or("droop", &line.droop, TYPICAL_DROOP_PA_PER_M3_S).value,
        trunk: (
            reader.or("trunk_bore", &line.trunk_bore, 0.375 * M_PER_IN).value,
            reader
                .or("trunk_length", &line.trunk_length, 25.0 * M_PER_FT)
                .value,
        ),
        couplers: reader.or("couplers", &line.couplers, 2.0).value,
        whip: (
            reader.or("whip_bore", &line.whip_bore, 0.25 * M_PER_IN).value,
            reader.or("whip_length", &line.whip_length, 10.0 * M_PER_FT).value,
        ),
        loss_share: reader.or("loss_share", &line.loss_share, 0.1).value,
        pipe: pipe(&line.pipe),
        breathed: !line.breathing.trim().is_empty() && !is_none(&line.breathing),
    };
    LineBasis {
        unread_air: reader.unread_air(),
        ..basis
    }
}

pub(super) fn auxiliary_basis(reader: &mut Reader, shop: &Shop) -> Option<AuxiliaryBasis> {
    reader.part = Part::Auxiliary;
    let stamp = stamp(reader, "rated", &shop.auxiliary.rated);
    let condition = condition(reader, "condition", &shop.auxiliary.condition);
    let tank_m3 = reader.get("tank", &shop.auxiliary.tank)?;
    Some(AuxiliaryBasis {
        tank_m3,
        stamp,
        condition,
        stays: shop.auxiliary.stays,
    })
}

pub(super) fn limits_basis(reader: &mut Reader, shop: &Shop) -> LimitsBasis {
    reader.part = Part::Limits;
    let limits = &shop.limits;
    LimitsBasis {
        lift_kg: reader.get("lift", &limits.lift),
        tailgate_m: reader.or("tailgate", &limits.tailgate, 34.0 * M_PER_IN),
        budget: reader.get("budget", &limits.budget),
        loudest_dba: reader.get("loudest", &limits.loudest),
        hours_s: reader.or("hours", &limits.hours, 1_500.0 * S_PER_H),
        day_s: reader.or("day", &limits.day, 4.0 * S_PER_H),
        tariff: reader.or("tariff", &limits.tariff, 0.17),
    }
}
