//! The machine against breaker and outlet.

use physics::circuit::MIDDLE_VOLTS;
use physics::circuit::{Code, PLUG_LOAD_SHARE, Trip, trip, wire_breaker_a};

use super::danger::lawful_motor_breaker_a;
use super::{Case, Cause, Found, Load, OnBreaker};
use crate::basis::PlaceBasis;
use crate::grade::Grade;

/// Breakers of circuits for one machine, A: NEC 240.6 to 50 A, as sold for outlets; IEC 60898.
const NEC_OWN: [f64; 5] = [15.0, 20.0, 30.0, 40.0, 50.0];
const IEC_OWN: [f64; 4] = [16.0, 20.0, 32.0, 63.0];

/// Largest outlet at 120 V for a machine of its own plug, A: 5-20.
const MOST_AT_120: f64 = 20.0;

/// The breaker that a circuit of one machine's own wants, A: 125 % of its current (NEC 430.22), the next size up; at 230 V the
/// next above its current.
pub fn own_breaker_a(code: Code, amps: f64) -> f64 {
    let (sizes, wanted): (&[f64], f64) = match code {
        Code::Nec => (&NEC_OWN, 1.25 * amps),
        Code::Iec => (&IEC_OWN, amps),
    };
    let next = sizes.iter().find(|size| **size >= wanted - 1e-9);
    next.or(sizes.last()).copied().unwrap_or(wanted)
}

/// Largest breaker behind a usual outlet of these volts, A, where no outlet is typed.
fn usual_breaker_a(code: Code, volts: f64) -> f64 {
    match code {
        Code::Nec if volts <= MIDDLE_VOLTS => MOST_AT_120,
        Code::Nec => 30.0,
        Code::Iec => 32.0,
    }
}

/// All that concerns breaker and outlet.
pub(super) fn outlet(case: &Case) -> Vec<Found> {
    let mut found: Vec<Found> = odd_breaker(case).into_iter().collect();
    let Some(load) = case.load else {
        return found;
    };
    if load.from != super::AmpsFrom::Plate && !guess_fits(case, &load) {
        found.push(guessed(case, &load));
        return found;
    }
    found.extend(larger_outlet(case, &load));
    if found.is_empty() {
        found.extend(on_breaker(case, &load));
    }
    found.extend(motor_circuit(case));
    found.extend(plug_to_fit(case));
    found
}

/// Whether a reckoned current may be what the outlet gives.
fn guess_fits(case: &Case, load: &Load) -> bool {
    load.guess[0] <= outlet_a(case).0
}

/// A guess asks, and never condemns. What rests on a flow alone is not even told: neither volts nor power are known.
fn guessed(case: &Case, load: &Load) -> Found {
    let [low, likely] = load.guess;
    let by_power = load.from == super::AmpsFrom::Power;
    let cause = if by_power && case.code() == Code::Nec {
        // Printed horsepower may be a peak: no current follows from one that the outlet cannot feed.
        Cause::CurrentUnknown { horsepower: true }
    } else if by_power || case.candidate.volts.is_given() {
        Cause::CurrentGuessed {
            low,
            likely,
            rating_a: outlet_a(case).0,
        }
    } else {
        Cause::CurrentUnknown { horsepower: false }
    };
    Found {
        grade: Grade::Ask,
        cause,
    }
}

/// What the outlet gives one machine, A, and whether that was typed.
fn outlet_a(case: &Case) -> (f64, bool) {
    outlet_of(case.place)
}

/// The same of a place.
pub(super) fn outlet_of(place: &PlaceBasis) -> (f64, bool) {
    let breaker = place.breaker_a;
    match place.wiring.face() {
        Some(face) if breaker.is_given() => (face.amps.min(breaker.value), true),
        Some(face) => (face.amps, true),
        None => (breaker.value, breaker.is_given()),
    }
}

/// A breaker that no usual outlet of these volts belongs to, where no outlet is typed.
fn odd_breaker(case: &Case) -> Option<Found> {
    let (place, breaker) = (case.place, case.place.breaker_a);
    let usual_a = usual_breaker_a(case.code(), place.volts.value);
    let odd = breaker.is_given() && breaker.value > usual_a && place.wiring.outlet.is_none();
    odd.then_some(Found {
        grade: Grade::Ask,
        cause: Cause::OddBreaker {
            breaker_a: breaker.value,
            usual_a,
        },
    })
}

/// The machine alone against the outlet: over its rating the plug does not fit, or should not.
fn larger_outlet(case: &Case, load: &Load) -> Option<Found> {
    let (outlet_a, given) = outlet_a(case);
    // A plate of 15.0 A on 15 A fits.
    if load.amps <= outlet_a + 1e-6 {
        return None;
    }
    let wants_a = own_breaker_a(case.code(), load.amps);
    let cause = Cause::LargerOutlet {
        amps: load.amps,
        outlet_a,
        wants_a,
    };
    let ask = Cause::WhichOutlet {
        amps: load.amps,
        taken_a: outlet_a,
        wants_a,
    };
    Some(case.if_given(given, Grade::Outlet, cause, ask))
}

/// Whether something is left of a breaker that holds: the machine alone takes four fifths at the most, with others nine tenths.
/// Judgement, but for the four fifths (NEC 210.23).
fn has_room(on: &OnBreaker) -> bool {
    let alone = on.amps <= PLUG_LOAD_SHARE * on.rating_a + 1e-6;
    alone && (on.other_a == 0.0 || on.total_a() <= 0.9 * on.rating_a)
}

/// All loads against the breaker, by its trip curve.
fn on_breaker(case: &Case, load: &Load) -> Option<Found> {
    let breaker = case.place.breaker_a;
    let on = OnBreaker {
        amps: load.amps,
        other_a: case.place.other_a,
        rating_a: breaker.value,
        share_on: case.share_on,
    };
    let behaves = match trip(case.code(), breaker.value, on.total_a()) {
        Ok(behaves) => behaves,
        Err(error) => return Some(super::beyond(error.to_string())),
    };
    let grade = match behaves {
        Trip::Holds => Grade::Good,
        Trip::May | Trip::Expect => Grade::Trip,
        Trip::Trips if !load.printed() => Grade::Trip,
        Trip::Trips if breaker.is_given() => Grade::Outlet,
        Trip::Trips => Grade::Ask,
    };
    let cause = match behaves {
        Trip::Holds if has_room(&on) => return None,
        Trip::Holds => Cause::FullBreaker(on),
        Trip::Trips if load.printed() => Cause::Trips(on),
        Trip::May | Trip::Expect | Trip::Trips => Cause::MayTrip {
            load: on,
            expect: behaves != Trip::May,
        },
    };
    Some(Found { grade, cause })
}

/// Outlets from here on are a dryer's or a welder's, A: a compressor comes without a plug for them. Common practice.
const NO_PLUG_A: f64 = 30.0;

fn plug_to_fit(case: &Case) -> Option<Found> {
    let face = case.place.wiring.face()?;
    (case.code() == Code::Nec && face.amps >= NO_PLUG_A && face.grounded).then_some(Found {
        grade: Grade::Good,
        cause: Cause::PlugToFit { outlet: face.name },
    })
}

/// A lawful motor circuit says why its breaker may be larger than the wire's own.
fn motor_circuit(case: &Case) -> Option<Found> {
    let most_a = lawful_motor_breaker_a(case)?;
    let place = case.place;
    // What is beyond the sums is told of the breaker.
    let Ok(wire_a) = wire_breaker_a(case.code(), place.branch.0.value, place.wiring.metal) else {
        return None;
    };
    // One that the wire may have anyway needs no excuse.
    (place.breaker_a.value > wire_a).then_some(Found {
        grade: Grade::Good,
        cause: Cause::MotorCircuit {
            breaker_a: case.place.breaker_a.value,
            most_a,
        },
    })
}
