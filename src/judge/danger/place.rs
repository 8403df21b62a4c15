//! What may burn: fumes beside a motor that sparks.

use super::{Case, Cause, Danger, ask, danger};
use crate::basis::spray::SprayedAt;
use crate::basis::standing::{Airplane, Spot, Standing};
use crate::power::stays_home;

/// Above this a hangar is no longer classified, m: 450 mm, 18 in. Source: NEC 513.3(B).
pub const ABOVE_FLOOR_M: f64 = 0.45;
/// So far from tanks and engines it is not either, m: 1.5 m, 5 ft. Source: NEC 513.3(C).
pub const FROM_TANKS_M: f64 = 1.5;

/// Spraying where the motor and its switch spark. NFPA 33: no source of ignition where vapor may hang (from memory).
pub(super) fn sprayed(case: &Case) -> Vec<Danger> {
    let tasks = case.basis.tasks.iter().enumerate().filter(|(_, task)| task.on);
    let beside = tasks.filter(|(_, task)| {
        task.spray
            .is_some_and(|spray| spray.at == Some(SprayedAt::BesideCompressor))
    });
    beside
        .map(|(task, _)| danger(Cause::SprayBesideMotor { task }))
        .collect()
}

/// A hangar with a fueled airplane. One that was never fueled, alone in its building, is outside NEC 513.1.
pub(super) fn hangar(case: &Case) -> Option<Danger> {
    let place = case.basis.places.get(case.place)?;
    // Where the machine does not come it lights nothing.
    if stays_home(case.candidate, place, case.place) {
        return None;
    }
    let standing = place.standing;
    if standing.airplane != Some(Airplane::Fueled) {
        return None;
    }
    match standing.spot {
        None => Some(ask(Cause::StandsWhere)),
        Some(Spot::Outside) => None,
        Some(Spot::Floor | Spot::Raised) => low_or_near(&standing),
    }
}

fn low_or_near(standing: &Standing) -> Option<Danger> {
    let Standing {
        spot, up_m, away_m, ..
    } = *standing;
    let low = match up_m {
        Some(up) => up < ABOVE_FLOOR_M,
        None => spot == Some(Spot::Floor),
    };
    let near = away_m.is_some_and(|away| away < FROM_TANKS_M);
    if low || near {
        return Some(danger(Cause::HangarFloor { up_m, away_m }));
    }
    (up_m.is_none() || away_m.is_none()).then(|| ask(Cause::StandsWhere))
}
