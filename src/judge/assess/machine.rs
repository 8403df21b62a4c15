//! From a candidate and a place to a machine that can be run.

use physics::circuit::MIDDLE_VOLTS;
use uom::si::mass_rate::kilogram_per_second;

use crate::basis::{AuxiliaryBasis, CandidateBasis, LineBasis, PlaceBasis};
use physics::compressor::{
    HORSEPOWER_EFFICIENCY, INTO_TANK_K, OVERALL_EFFICIENCY, Pump, PumpError, guessed_flow,
};
use physics::receiver::Receiver;
use physics::run::{Curve, Machine};
use quantity::{Absolute, FreeAir, Gauge};

/// Most current that a plugged-in machine draws at 120 V and at 240 V, A: 80 % of 20 and of 50 A (NEC 210.23,
/// from memory).
const PLUG_A: [f64; 2] = [16.0, 40.0];

/// The one for a machine of that voltage.
pub fn plug_amps(volts: f64) -> f64 {
    if volts < MIDDLE_VOLTS {
        PLUG_A[0]
    } else {
        PLUG_A[1]
    }
}

/// Share of the air taken in that small one-stage pumps deliver at 90 psi: low, likely, high. European labels print what is
/// taken in, "180 L/min", of which 95 to 125 are delivered. Common practice, no source.
pub const DELIVERED_OF_SUCTION: [f64; 3] = [0.53, 0.61, 0.69];

/// What the delivered flow rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Supply {
    /// A pump-up, timed at the machine: it outranks the label.
    Measured(Pump),
    /// Two flows of the label.
    TwoFlows(Pump),
    /// One flow of the label.
    OneFlow(Pump),
    /// No delivered flow, but what the pump takes in: low, likely and high of what of that is delivered.
    FromSuction([Pump; 3]),
    /// No flow: low, likely and high of a guess from volts times amps.
    FromAmps([Pump; 3]),
    /// No flow and no amps: the same from printed horsepower.
    FromHorsepower([Pump; 3]),
    /// Nothing to go by.
    Nothing,
}

impl Supply {
    /// From what was measured, else from the label. A contradiction between two flows of the label is told apart.
    pub fn of(candidate: &CandidateBasis) -> (Self, Option<PumpError>) {
        let (label, contradiction) = Self::of_label(candidate);
        let measured = candidate.measured.and_then(|measured| measured.delivered);
        (
            measured.map_or(label, |found| Self::Measured(found.pump)),
            contradiction,
        )
    }

    /// From the label alone; of two flows that contradict each other the lower promise is kept.
    pub fn of_label(candidate: &CandidateBasis) -> (Self, Option<PumpError>) {
        match candidate.flows[..] {
            [one, other] => match Pump::of_two_flows(candidate.kind, one, other) {
                Ok(pump) => (Self::TwoFlows(pump), None),
                Err(error) => {
                    let (flow, at) = lower_promise(candidate, one, other);
                    (Self::one(candidate, flow, at), Some(error))
                }
            },
            [(flow, at)] => (Self::one(candidate, flow, at), None),
            _ => (Self::guess(candidate), None),
        }
    }

    fn one(candidate: &CandidateBasis, flow: FreeAir, at: Gauge) -> Self {
        Pump::of_one_flow(candidate.kind, flow, at).map_or(Self::Nothing, Self::OneFlow)
    }

    /// From volts and amps, else from printed horsepower: low, likely and high.
    pub fn guess(candidate: &CandidateBasis) -> Self {
        let usual = Pump::usual(candidate.kind);
        let flow = |watts: f64| guessed_flow(candidate.kind, watts, Gauge::psi(90.0));
        let pumps = |watts: [f64; 3]| watts.map(|watts| usual.scaled(flow(watts).as_cfm()));
        if let Some(suction) = candidate.suction {
            return Self::FromSuction(
                DELIVERED_OF_SUCTION.map(|share| usual.scaled(share * suction.as_cfm())),
            );
        }
        let volts = candidate.volts.value;
        let of_amps = |amps: f64| OVERALL_EFFICIENCY.map(|share| share * amps * volts);
        let by_amps = candidate.amps.map(|amps| pumps(of_amps(amps)));
        // Printed horsepower may be a peak: what no plug of that voltage supplies is cut off.
        let plug = of_amps(plug_amps(volts));
        let by_power = || {
            let watts = candidate.power_w?;
            Some(pumps(std::array::from_fn(|i| {
                (HORSEPOWER_EFFICIENCY[i] * watts).min(plug[i])
            })))
        };
        match by_amps {
            Some(pumps) => Self::FromAmps(pumps),
            None => by_power().map_or(Self::Nothing, Self::FromHorsepower),
        }
    }

    /// The delivery curve to reckon with.
    pub fn likely(&self) -> Option<Pump> {
        match self {
            Self::Measured(pump) | Self::TwoFlows(pump) | Self::OneFlow(pump) => Some(*pump),
            Self::FromSuction(pumps) | Self::FromAmps(pumps) | Self::FromHorsepower(pumps) => Some(pumps[1]),
            Self::Nothing => None,
        }
    }

    /// Low and high, where the flow is a guess.
    pub fn range(&self) -> Option<[Pump; 2]> {
        match self {
            Self::FromSuction([low, _, high])
            | Self::FromAmps([low, _, high])
            | Self::FromHorsepower([low, _, high]) => Some([*low, *high]),
            _ => None,
        }
    }
}

/// Of two flows that contradict each other, the one that promises less at 90 psi.
fn lower_promise(
    candidate: &CandidateBasis,
    one: (FreeAir, Gauge),
    other: (FreeAir, Gauge),
) -> (FreeAir, Gauge) {
    let promise = |(flow, at)| {
        Pump::of_one_flow(candidate.kind, flow, at)
            .map_or(f64::MAX, |pump| pump.rated(Gauge::psi(90.0)).as_m3_s())
    };
    if promise(one) <= promise(other) {
        one
    } else {
        other
    }
}

/// Volume of trunk hose and whip, m³: the regulator stands between, so it does not count as store.
/// What counts is the tank and, where it has come along and may be joined, the auxiliary receiver.
pub fn store_m3(candidate: &CandidateBasis, auxiliary: Option<&AuxiliaryBasis>, place: usize) -> f64 {
    let extra = auxiliary
        .filter(|tank| (place == 0 || !tank.stays) && tank.may_join(candidate.cut_out))
        .map_or(0.0, |tank| tank.tank_m3);
    candidate.tank_m3.value + extra
}

/// The machine at a place: its delivery in that air, its switch, its store.
pub fn machine(candidate: &CandidateBasis, pump: &Pump, store_m3: f64, place: &PlaceBasis) -> Machine {
    let inlet = place.air.pressure();
    let density = place.air.density();
    let cut_out_pa = candidate.cut_out.at(inlet).as_pa();
    let mass = |pressure: f64| {
        pump.delivered(Absolute::pa(pressure), inlet)
            .mass(density)
            .get::<kilogram_per_second>()
    };
    Machine {
        receiver: Receiver::cylinder(store_m3, place.air.kelvin()),
        delivery: Curve::of(inlet.as_pa(), cut_out_pa * 1.02, mass),
        in_kelvin: place.air.kelvin() + INTO_TANK_K,
        cut_in_pa: candidate.cut_in.at(inlet).as_pa(),
        cut_out_pa,
        leak_kg_s_pa: candidate
            .measured
            .and_then(|measured| measured.leak)
            .map_or(0.0, |leak| leak.kg_s_pa),
    }
}

/// The line, with a whip for each person.
pub fn line(basis: &LineBasis, people: f64) -> physics::line::Line {
    use physics::line::{Body, Hose, Line, Regulator};
    use uom::si::f64::Length;
    use uom::si::length::meter;
    let hose =
        |(bore, length): (f64, f64)| Hose::smooth(Length::new::<meter>(length), Length::new::<meter>(bore));
    let couplers = basis.couplers as u32;
    Line {
        regulator: Regulator {
            droop_pa_per_m3_s: basis.droop,
            ..Regulator::typical(Gauge::psi(90.0))
        },
        trunk: hose(basis.trunk),
        coupler: Body::Quarter.typical(),
        // One coupler joins the tool to its whip; the others are on the way to the bench.
        couplers: couplers.saturating_sub(1),
        manifold: None,
        whip: hose(basis.whip),
        whips: people as u32,
        whip_couplers: couplers.min(1),
    }
}
