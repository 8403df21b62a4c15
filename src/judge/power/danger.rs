//! What could hurt somebody. Each rests on what was typed, never on what was taken for a blank.

use physics::circuit::{CircuitError, Code, motor_breaker_a, wire_breaker_a};

use super::outlet::own_breaker_a;
use super::{Case, Cause, Fit, Found, Load, connection};
use crate::basis::wiring::{Adapter, Stands};
use crate::grade::Grade;

/// Share of a breaker below which a machine's plug and cord are small beside it: half. Judgement, no source.
const SMALL_SHARE: f64 = 0.5;

/// Breakers from here on belong to ranges and welders, A.
const LARGE_A: f64 = 40.0;

/// Every danger, gravest first: what poisons, what shocks, what burns.
pub(super) fn dangers(case: &Case) -> Vec<Found> {
    let causes = [
        carbon_monoxide(case),
        no_ground(case),
        wrong_adapter(case),
        breaker_over_outlet(case),
        large_breaker(case),
    ];
    let danger = |cause| Found {
        grade: Grade::Danger,
        cause,
    };
    let mut found: Vec<Found> = causes.into_iter().flatten().map(danger).collect();
    match breaker_over_wire(case) {
        Ok(cause) => found.extend(cause.map(danger)),
        Err(error) => found.push(super::beyond(error.to_string())),
    }
    found
}

fn carbon_monoxide(case: &Case) -> Option<Cause> {
    let stands = case.place.wiring.generator_stands?;
    (stands != Stands::Outdoors).then_some(Cause::CarbonMonoxide { stands })
}

fn no_ground(case: &Case) -> Option<Cause> {
    let wiring = &case.place.wiring;
    if wiring.adapter == Some(Adapter::TwoProng) {
        return Some(Cause::NoGround { outlet: None });
    }
    let face = wiring.face().filter(|face| !face.grounded && goes_in(case))?;
    Some(Cause::NoGround {
        outlet: Some(face.name),
    })
}

fn wrong_adapter(case: &Case) -> Option<Cause> {
    (case.place.wiring.adapter == Some(Adapter::Other)).then_some(Cause::WrongAdapter)
}

/// The breaker against the wire in the wall. A circuit that an electrician wired for this motor alone may have a larger one.
fn breaker_over_wire(case: &Case) -> Result<Option<Cause>, CircuitError> {
    let place = case.place;
    let (area, breaker) = (place.branch.0, place.breaker_a);
    if !area.is_given() || !breaker.is_given() || place.generator_va.is_some() {
        return Ok(None);
    }
    let metal = place.wiring.metal;
    let ring = place.wiring.face().is_some_and(|face| face.name == "BS 1363");
    let most_a = wire_breaker_a(case.code(), area.value, metal)?;
    // A ring feeds its outlets from both ends: 2.5 mm² behind 32 A is lawful (BS 7671, from memory).
    let most_a = if ring && area.value >= RING_M2 {
        most_a.max(RING_A)
    } else {
        most_a
    };
    let over = Cause::BreakerOverWire {
        breaker_a: breaker.value,
        area_m2: area.value,
        metal,
        most_a,
    };
    Ok((breaker.value > most_a && lawful_motor_breaker_a(case).is_none()).then_some(over))
}

const RING_M2: f64 = 2.4e-6;
const RING_A: f64 = 32.0;

/// NEC 240.4(G): wired in, the wire carries the motor, the breaker is not beyond article 430's.
/// Gives the largest breaker that such a circuit may have, A.
#[expect(
    clippy::disallowed_methods,
    reason = "what is beyond the sums is told of the breaker, and is no lawful circuit"
)]
pub(super) fn lawful_motor_breaker_a(case: &Case) -> Option<f64> {
    let (place, load) = (case.place, case.load.filter(Load::printed)?);
    let most = motor_breaker_a(place.branch.0.value, place.wiring.metal, load.amps);
    let most_a = most.ok().flatten()?;
    let lawful = case.code() == Code::Nec && place.wiring.hard_wired() && place.breaker_a.value <= most_a;
    lawful.then_some(most_a)
}

fn breaker_over_outlet(case: &Case) -> Option<Cause> {
    let face = case.place.wiring.face()?;
    let breaker = case.place.breaker_a;
    (breaker.is_given() && breaker.value > face.breaker_a).then_some(Cause::BreakerOverOutlet {
        breaker_a: breaker.value,
        outlet: face.name,
        outlet_a: face.amps,
    })
}

/// Whether its plug may go into that outlet at all: one for other volts takes no plug of this machine, unless an adapter is told.
fn goes_in(case: &Case) -> bool {
    let given = case.place.volts.is_given() && case.candidate.volts.is_given();
    let other = given && connection(case.candidate, case.place).1 == Fit::Other;
    !other || case.place.wiring.adapter.is_some()
}

/// A 50 A breaker does not guard a cord and plug of 15 A. Behind an untyped outlet it takes a typed cord to tell.
fn large_breaker(case: &Case) -> Option<Cause> {
    let (place, load) = (case.place, case.load?);
    let large_face = place.wiring.face().is_some_and(|face| face.amps >= 30.0);
    let typed_cord = super::load::cord_of(place).is_some() && place.wiring.cord_gauge_given;
    let large = place.breaker_a.is_given() && place.breaker_a.value >= LARGE_A && typed_cord;
    let breaker_a = match place.wiring.face() {
        Some(face) => place.breaker_a.value.max(face.amps),
        None => place.breaker_a.value,
    };
    let small = load.printed() && load.amps < SMALL_SHARE * breaker_a;
    (case.plugged() && goes_in(case) && small && (large_face || large)).then(|| Cause::LargeBreaker {
        breaker_a,
        amps: load.amps,
        wants_a: own_breaker_a(case.code(), load.amps),
    })
}
