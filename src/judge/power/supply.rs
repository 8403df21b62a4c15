//! Volts and generators: whether what the place has is what the machine wants.

use physics::circuit::{Code, EASY_SHARE, GeneratorUse, LEAST_SHARE, MIDDLE_VOLTS, generator_use};

use super::outlet::own_breaker_a;
use super::{Case, Cause, Fit, Found, Load, connection};
use crate::basis::wiring::Gfci;
use crate::grade::Grade;

/// Generators are sold in such steps, kVA. Common practice, no source.
const KVA_STEP: f64 = 0.5;

/// All that concerns volts, generator and interrupter.
pub(super) fn supply(case: &Case) -> Vec<Found> {
    let gfci = case.place.wiring.gfci == Some(Gfci::Trips);
    let interrupter = gfci.then_some(Found {
        grade: Grade::Ask,
        cause: Cause::InterrupterTrips,
    });
    [
        three_phase(case),
        volts(case),
        wired_for(case),
        generator(case),
        interrupter,
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// A motor for three phases at a place with one: every outlet with a face has one, and so has a house. Common practice.
fn three_phase(case: &Case) -> Option<Found> {
    let place = case.place;
    if place.wiring.three_phase {
        return None;
    }
    let told = place.wiring.face().is_some() || place.volts.is_given() && !place.wiring.hard_wired();
    let found = case.if_given(told, Grade::Outlet, Cause::ThreePhase, Cause::ThreePhase);
    case.candidate.three_phase.then_some(found)
}

fn volts(case: &Case) -> Option<Found> {
    let (connection, fit) = connection(case.candidate, case.place);
    let has = case.place.volts;
    let plate = connection.volts[0];
    let other = Cause::OtherVolts {
        needs: plate,
        has: has.value,
        wants_a: case
            .load
            .filter(Load::printed)
            .map(|load| own_breaker_a(case.code(), load.amps)),
    };
    // Volts that a silent plate or a blank place was given condemn nothing.
    let given = has.is_given() && case.candidate.volts.is_given();
    let regular = case.code() == Code::Nec && given && plate <= MIDDLE_VOLTS && has.value > MIDDLE_VOLTS;
    match fit {
        Fit::Fits => None,
        Fit::Other if regular && case.place.generator_va.is_none() => Some(Found {
            grade: Grade::Trip,
            cause: Cause::RegularOutlet { needs: plate },
        }),
        Fit::Off => Some(Found {
            grade: Grade::Ask,
            cause: Cause::VoltsOff {
                has: has.value,
                plate,
            },
        }),
        Fit::Other => Some(case.if_given(given, Grade::Outlet, other.clone(), other)),
    }
}

/// A dual-voltage machine is shipped for the lower volts, as a rule: at the higher ones it has to be reconnected first.
fn wired_for(case: &Case) -> Option<Found> {
    let lowest = case.candidate.connections.iter().map(|one| one.volts[0]);
    let shipped = lowest.fold(f64::MAX, f64::min);
    let (connection, fit) = connection(case.candidate, case.place);
    let higher = fit != Fit::Other && connection.volts[0] > shipped;
    higher.then_some(Found {
        grade: Grade::Ask,
        cause: Cause::WiredFor {
            volts: case.place.volts.value,
            shipped,
        },
    })
}

/// The least size sold from which a generator starts such a load easily, kVA.
pub(super) fn generator_wanted(running_kva: f64) -> f64 {
    ((EASY_SHARE * running_kva / KVA_STEP) - 1e-6).ceil() * KVA_STEP
}

fn generator(case: &Case) -> Option<Found> {
    let load = case.load?;
    let rated_kva = case.place.generator_va? / 1_000.0;
    match generator_use(rated_kva, &load.motor(), case.place.other_a) {
        Ok(used) => of_generator(rated_kva, &load, &used),
        Err(error) => Some(super::beyond(error.to_string())),
    }
}

fn of_generator(rated_kva: f64, load: &Load, used: &GeneratorUse) -> Option<Found> {
    let (running_kva, wants_kva) = (used.running_kva, generator_wanted(used.running_kva));
    let stalls = used.rating_share < LEAST_SHARE || load.start_given && used.starting_share > 1.0;
    if stalls && load.printed() {
        return Some(Found {
            grade: Grade::Outlet,
            cause: Cause::GeneratorStalls {
                rated_kva,
                running_kva,
                wants_kva,
            },
        });
    }
    (stalls || used.rating_share < EASY_SHARE).then_some(Found {
        grade: Grade::Trip,
        cause: Cause::GeneratorThin {
            rated_kva,
            running_kva,
            wants_kva,
        },
    })
}
