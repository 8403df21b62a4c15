//! Cord and wire: what they carry, what they lose, and whether the motor starts behind them.

use physics::circuit::{CircuitError, Code, CordAdvice, CordSize, DROP_SHARE, advised_cord, cord_drop_share};

use super::load::cord_of;
use super::{Case, Cause, Found, Load, OnCord};
use crate::basis::PlaceBasis;
use crate::grade::Grade;

/// Share of the volts that a cord loses up to which it still works well, though a heavier one is kinder: the printed
/// table of least gauges lies near 4 %. Common practice.
const KIND_SHARE: f64 = 0.045;

/// Share from which a cord alone leaves too few volts: motors stand 10 % (NEMA MG 1, from memory), of which the house takes 3 %
/// (informational note to NEC 210.19, from memory).
const MOST_SHARE: f64 = 0.07;

/// Share that wire and cord together may lose before the running motor gets too few volts: see [`MOST_SHARE`].
const LOST_SHARE: f64 = 0.10;

/// Starting volts over the plate's below which a loaded pump may stall. Common practice, no source.
pub const LEAST_START_SHARE: f64 = 0.80;

/// Starting volts over the plate's below which even an unloaded pump may not start: half the torque.
/// Common practice, no source.
pub const STALL_SHARE: f64 = 0.70;

/// The cord to take for a current over a length; none where that is beyond the sums.
///
/// ```
/// # use judge::power::cord_to_take; use physics::circuit::Code;
/// assert!(cord_to_take(Code::Nec, 12.0, 120.0, 15.24).is_some());
/// assert!(cord_to_take(Code::Nec, 0.0, 120.0, 15.24).is_none()); // no current is left on that circuit
/// ```
#[expect(
    clippy::disallowed_methods,
    reason = "what is beyond the sums is told by the place's own findings, and has no advice"
)]
pub fn cord_to_take(code: Code, amps: f64, volts: f64, length_m: f64) -> Option<CordAdvice> {
    advised_cord(code, amps, volts, length_m).ok()
}

/// The cord for a current at a place, where the one there is overloaded by it or light for its length; `None` where that one
/// does, and where none is there or none is sold.
///
/// ```
/// # use judge::{basis::Basis, power::light_cord}; use shop::Shop;
/// let mut shop = Shop::fresh();
/// let place = &mut shop.places[0];
/// (place.cord_gauge, place.cord_length) = ("16 AWG".into(), "100 ft".into());
/// let place = &Basis::of(&shop).places[0];
/// assert!(light_cord(place, 5.0, 120.0).is_none() && light_cord(place, 15.0, 120.0).is_some());
/// ```
pub fn light_cord(place: &PlaceBasis, amps: f64, volts: f64) -> Option<CordSize> {
    let (area_m2, length_m) = cord_of(place)?;
    let code = place.wiring.code;
    let advice = cord_to_take(code, amps, volts, length_m)?;
    let overloaded = amps > CordSize::of(code, area_m2).carries_a + 1e-6;
    let drop_share = cord_drop_share(amps, volts, area_m2, length_m);
    let light = drop_share.is_ok_and(|share| overloaded || share > KIND_SHARE);
    advice.size.filter(|_| light)
}

/// All that concerns cord and wire.
pub(super) fn cord(case: &Case) -> Vec<Found> {
    let Some(load) = case.load else {
        return Vec::new();
    };
    let mut found: Vec<Found> = Vec::new();
    match on_cord(case, &load) {
        Ok(Some(on)) => found.extend(of_cord(case, &load, &on)),
        Ok(None) => {}
        Err(error) => found.push(super::beyond(error.to_string())),
    }
    let condemned = found.iter().any(|found| found.grade >= Grade::Ask);
    if !condemned {
        found.extend(low_volts(case, &load));
        found.extend(hard_start(case, &load));
    }
    found.extend(planned(case, &load));
    found.extend(reel(case));
    found
}

/// The cord in use against the machine; `None` without a cord.
fn on_cord(case: &Case, load: &Load) -> Result<Option<OnCord>, CircuitError> {
    let Some((area_m2, length_m)) = cord_of(case.place) else {
        return Ok(None);
    };
    let (code, volts) = (case.code(), load.volts);
    let advice = advised_cord(code, load.amps, volts, length_m)?;
    Ok(Some(OnCord {
        amps: load.amps,
        cord: CordSize::of(code, area_m2),
        length_m,
        drop_share: cord_drop_share(load.amps, volts, area_m2, length_m)?,
        wants: advice.size,
        rather_hose: advice.rather_hose,
    }))
}

fn of_cord(case: &Case, load: &Load, on: &OnCord) -> Option<Found> {
    let wiring = &case.place.wiring;
    let gauge_given = wiring.cord_gauge_given;
    let guessed = !load.printed() && (load.amps > on.cord.carries_a + 1e-6 || on.drop_share > MOST_SHARE);
    if guessed {
        // A guessed current warns, whatever the cord.
        return Some(Found {
            grade: Grade::Trip,
            cause: Cause::CordLight(*on),
        });
    }
    if load.amps > on.cord.carries_a + 1e-6 {
        let cause = Cause::CordOverloaded(*on);
        return Some(case.if_given(gauge_given, Grade::Danger, cause, Cause::WhichCord(*on)));
    }
    if on.drop_share > MOST_SHARE {
        let given = gauge_given && wiring.cord_length_given;
        let cause = Cause::CordTooLong(*on);
        return Some(case.if_given(given, Grade::Outlet, cause, Cause::WhichCord(*on)));
    }
    let light = on.drop_share > DROP_SHARE && (on.drop_share > KIND_SHARE || on.rather_hose);
    let (grade, cause) = match on.drop_share {
        share if share <= DROP_SHARE => return None,
        _ if light => (Grade::Trip, Cause::CordLight(*on)),
        _ => (Grade::Good, Cause::KinderCord(*on)),
    };
    Some(Found { grade, cause })
}

/// Wire and cord together leave the running motor too few volts.
fn low_volts(case: &Case, load: &Load) -> Option<Found> {
    let lost_share = load.running.map_or(1.0, |at| at.drop_share);
    if lost_share <= LOST_SHARE {
        return None;
    }
    let place = case.place;
    let by_cord = cord_of(place).is_some();
    let wire_given = place.branch.0.is_given() && place.branch.1.is_given();
    let cord_given = place.wiring.cord_gauge_given && place.wiring.cord_length_given;
    let given = load.printed() && if by_cord { cord_given } else { wire_given };
    Some(Found {
        grade: if given { Grade::Outlet } else { Grade::Trip },
        cause: Cause::LowVolts {
            volts: load.running.map(|at| at.volts),
            lost_share,
            by_cord,
        },
    })
}

/// Low volts at the motor while it starts: by a printed start they may condemn, by a taken one they warn.
fn hard_start(case: &Case, load: &Load) -> Option<Found> {
    // A generator's own softness counts there, not the wire's.
    let at = load.starting.filter(|_| case.place.generator_va.is_none())?;
    let (volts, plate_share) = (at.volts, at.plate_share);
    if plate_share >= LEAST_START_SHARE {
        return None;
    }
    let told = load.start_given && load.printed();
    if told && plate_share < STALL_SHARE {
        return Some(Found {
            grade: Grade::Outlet,
            cause: Cause::Stalls { volts, plate_share },
        });
    }
    Some(Found {
        grade: Grade::Trip,
        cause: Cause::HardStart {
            volts,
            plate_share,
            guessed: !told,
        },
    })
}

/// A run for which no cord was bought yet.
fn planned(case: &Case, load: &Load) -> Option<Found> {
    let length_m = case.place.wiring.cord_planned_m?;
    let advice = match advised_cord(case.code(), load.amps, load.volts, length_m) {
        Ok(advice) => advice,
        Err(error) => return Some(super::beyond(error.to_string())),
    };
    let (grade, cause) = match advice.size {
        Some(size) if !advice.rather_hose => (Grade::Good, Cause::CordToBuy { length_m, size }),
        wants => (Grade::Trip, Cause::HoseNotCord { length_m, wants }),
    };
    Some(Found { grade, cause })
}

/// At 230 V cords come on reels, and a wound one carries a third.
fn reel(case: &Case) -> Option<Found> {
    let place = case.place;
    let told = cord_of(place).is_some() || place.wiring.cord_planned_m.is_some();
    let fused = place.wiring.face().is_some_and(|face| face.name == "BS 1363");
    (case.code() == Code::Iec && (told || fused)).then_some(Found {
        grade: Grade::Good,
        cause: Cause::Reel,
    })
}
