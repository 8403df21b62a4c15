//! What a place's circuit could feed at the most.

use physics::circuit::{EASY_SHARE, PLUG_LOAD_SHARE, wire_breaker_a};
use physics::compressor::{OVERALL_EFFICIENCY, guessed_flow};
use quantity::{FreeAir, Gauge};
use shop::MachineKind;

use crate::basis::PlaceBasis;

/// Most current that a machine may draw at a place, A: what the outlet is made for and the wire takes, less what else is on
/// the breaker. A wire that feeds one motor alone is loaded to four fifths (NEC 430.22); a generator starts a motor easily
/// that takes a third of it.
pub fn amps_fed(place: &PlaceBasis) -> f64 {
    let (area, wiring) = (place.branch.0, &place.wiring);
    let wire_a = match wire_a(place) {
        Some(most_a) if area.is_given() && wiring.hard_wired() => PLUG_LOAD_SHARE * most_a,
        Some(most_a) if area.is_given() => most_a,
        // A wire that was not typed is as its breaker asks; one beyond the tables is told of the breaker.
        Some(_) | None => f64::INFINITY,
    };
    let breaker = place.breaker_a.value.min(wire_a);
    let outlet = place.wiring.face().map_or(breaker, |face| face.amps.min(breaker));
    let started = place
        .generator_va
        .map_or(f64::INFINITY, |va| va / EASY_SHARE / place.volts.value.max(1.0));
    outlet.min(breaker - place.other_a).min(started).max(0.0)
}

/// The largest breaker that a place's wire allows, A; none where the tables have no such wire.
#[expect(
    clippy::disallowed_methods,
    reason = "the breaker's own finding says what is beyond the tables"
)]
pub(super) fn wire_a(place: &PlaceBasis) -> Option<f64> {
    wire_breaker_a(place.wiring.code, place.branch.0.value, place.wiring.metal).ok()
}

/// Most delivered flow at 90 psi that a machine of typical efficiency makes on this circuit, and of the best.
pub fn flow_fed(place: &PlaceBasis) -> [FreeAir; 2] {
    let volt_amperes = amps_fed(place) * place.volts.value;
    let flow = |share: f64| {
        guessed_flow(
            MachineKind::PistonOneStage,
            share * volt_amperes,
            Gauge::psi(90.0),
        )
    };
    [flow(OVERALL_EFFICIENCY[1]), flow(OVERALL_EFFICIENCY[2])]
}
