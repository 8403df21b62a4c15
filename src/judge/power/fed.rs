//! What a place's circuit could feed at the most.

use physics::compressor::{OVERALL_EFFICIENCY, guessed_flow};
use quantity::{FreeAir, Gauge};
use shop::MachineKind;

use crate::basis::PlaceBasis;

/// Most current that a plugged-in machine may draw at a place, A: what the outlet is made for, less what else is on the
/// breaker.
pub fn amps_fed(place: &PlaceBasis) -> f64 {
    let breaker = place.breaker_a.value;
    let outlet = place.wiring.face().map_or(breaker, |face| face.amps.min(breaker));
    outlet.min(breaker - place.other_a).max(0.0)
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
