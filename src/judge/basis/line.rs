//! Air line, auxiliary receiver and limits.

use super::reader::Reader;
use super::vessel::{condition, is_none, stamp};
use super::{AuxiliaryBasis, LimitsBasis, LineBasis, Pipe};
use physics::line::TYPICAL_DROOP_PA_PER_M3_S;
use quantity::{M_PER_FT, M_PER_IN, S_PER_H, lower};
use shop::part::Part;
use shop::{Shop, Units};

/// What a pipe's name says of it; a name that is not known says nothing. Plastic made for compressed air (PE-RT, HDPE, nylon) is called by its own name.
fn pipe(text: &str) -> Option<Pipe> {
    let words = lower(text.trim());
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
    let steel = [
        "iron",
        "steel",
        "copper",
        "alumin",
        "galvani",
        "brass",
        "stainless",
    ];
    // Hose, and plastic that is made for compressed air.
    let listed = [
        "hose",
        "rubber",
        "nylon",
        "polyamide",
        "pe-rt",
        "pert",
        "hdpe",
        "pex",
        "multilayer",
        "composite",
    ];
    let has = |any: &[&str]| any.iter().any(|word| words.contains(word));
    Some(if has(&shatters) && !has(&steel) {
        Pipe::Shatters
    } else if has(&steel) || has(&listed) {
        Pipe::Sound
    } else {
        Pipe::Unknown
    })
}

/// Default layout: a heavier trunk hose to the bench, a light short whip to the hand. Common practice, no source.
pub(super) fn line_basis(reader: &mut Reader, shop: &Shop) -> LineBasis {
    reader.part = Part::Line;
    let line = &shop.line;
    // As hoses are sold: 25 and 10 ft of 3/8 and 1/4 in, 10 and 3 m of 10 and 6 mm.
    let [trunk_bore, trunk_length, whip_bore, whip_length] = match shop.units {
        Units::Us => [
            0.375 * M_PER_IN,
            25.0 * M_PER_FT,
            0.25 * M_PER_IN,
            10.0 * M_PER_FT,
        ],
        Units::Metric => [0.010, 10.0, 0.006, 3.0],
    };
    let basis = LineBasis {
        unread_air: None,
        droop: reader.or("droop", &line.droop, TYPICAL_DROOP_PA_PER_M3_S).value,
        trunk: (
            reader.or("trunk_bore", &line.trunk_bore, trunk_bore).value,
            reader.or("trunk_length", &line.trunk_length, trunk_length).value,
        ),
        couplers: reader.or("couplers", &line.couplers, 2.0).value,
        whip: (
            reader.or("whip_bore", &line.whip_bore, whip_bore).value,
            reader.or("whip_length", &line.whip_length, whip_length).value,
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
