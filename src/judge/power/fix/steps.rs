//! Every step that may help a circuit, least effort first.

use physics::circuit::MIDDLE_VOLTS;
use physics::circuit::{Code, CordSize};
use quantity::gauge::area_m2;

use super::super::cord::cord_to_take;
use super::super::fed;
use super::super::load::{Load, cord_of};
use super::super::outlet::own_breaker_a;
use super::super::supply::generator_wanted;
use super::super::{Cause, Fit, connection};
use super::{Bench, Circuit, Step};
use crate::basis::place::wire_for;
use crate::basis::wiring::Stands;

/// Shortest cord sold, m: 25 ft. A run that is no longer is not made shorter.
const SHORT_CORD_M: f64 = 7.62;
/// The metric one, m.
const SHORT_REEL_M: f64 = 10.0;
/// From here on a run is long: the compressor goes to the outlet first, m (100 ft).
const LONG_RUN_M: f64 = 30.0;

/// Branch wire as sold, AWG.
const NEC_WIRES: [i8; 6] = [14, 12, 10, 8, 6, 4];
/// The same, m².
const IEC_WIRES_M2: [f64; 4] = [2.5e-6, 4e-6, 6e-6, 10e-6];

impl Bench<'_> {
    fn code(&self) -> Code {
        self.place.wiring.code
    }

    fn amps(&self) -> Option<f64> {
        self.found.load.map(|load| load.amps)
    }

    /// Every step that may help, least effort first.
    pub(super) fn steps(&self) -> Vec<Step> {
        let mut steps = self.put_right();
        let reconnect = self.reconnect();
        let spare = self.place.wiring.spare.is_some();
        // A spare circuit that was told of is as near as another outlet.
        if spare {
            steps.extend(reconnect.clone());
        }
        if self.place.other_a > 0.0 {
            steps.push(Step::MoveOthers {
                amps: self.place.other_a,
                what: self.place.other_name.clone(),
            });
        }
        steps.extend(self.cords());
        if !spare {
            steps.extend(reconnect);
        }
        steps.extend(self.own_circuits());
        steps.extend(self.generator());
        steps
    }

    /// What puts a danger right.
    fn put_right(&self) -> Vec<Step> {
        let wiring = &self.place.wiring;
        let mut steps = Vec::new();
        if wiring
            .generator_stands
            .is_some_and(|stands| stands != Stands::Outdoors)
        {
            steps.push(Step::GeneratorOutdoors);
        }
        if wiring.adapter.is_some() {
            steps.push(Step::GroundedOutlet);
        }
        if matches!(self.found.cause, Cause::RegularOutlet { .. }) {
            steps.push(Step::RegularOutlet);
        }
        steps.extend(self.smaller_breaker().map(Step::SmallerBreaker));
        steps
    }

    /// The largest breaker sold that wire and outlet allow, where the present one is larger.
    fn smaller_breaker(&self) -> Option<f64> {
        let place = self.place;
        let wire_a = fed::wire_a(place)?;
        // A blank wire may be the thinnest that outlets have: 14 AWG, 1.5 mm².
        let thinnest_a = match self.code() {
            Code::Nec => 15.0,
            Code::Iec => 16.0,
        };
        let wire_a = if place.branch.0.is_given() {
            wire_a
        } else {
            thinnest_a
        };
        let outlet_a = place.wiring.face().map_or(f64::MAX, |face| face.breaker_a);
        let sizes = match self.code() {
            Code::Nec => [15.0, 20.0, 25.0, 30.0],
            Code::Iec => [10.0, 16.0, 20.0, 32.0],
        };
        let most = sizes.into_iter().rfind(|size| *size <= wire_a.min(outlet_a))?;
        (self.place.breaker_a.is_given() && most < place.breaker_a.value).then_some(most)
    }

    /// Compressor at the outlet, a shorter cord, a heavier one: for a long run the hose comes first.
    fn cords(&self) -> Vec<Step> {
        let planned = self.place.wiring.cord_planned_m;
        let Some(length_m) = cord_of(self.place).map(|(_, length)| length).or(planned) else {
            return Vec::new();
        };
        let at_outlet = Step::AtOutlet { hose_m: length_m };
        let shorter = self.shorter_cord(length_m);
        let wanted = |(amps, load): (f64, Load)| cord_to_take(self.code(), amps, load.volts, length_m);
        let advice = self.amps().zip(self.found.load).and_then(wanted);
        let heavier = advice
            .and_then(|advice| advice.size)
            .map(|size| Step::HeavierCord { size, length_m });
        let overloaded = matches!(self.found.cause, Cause::CordOverloaded(_));
        let long = length_m >= LONG_RUN_M || advice.is_some_and(|advice| advice.rather_hose);
        let order = match (long, overloaded) {
            (true, _) => [Some(at_outlet), heavier, shorter],
            (false, true) => [heavier, Some(at_outlet), shorter],
            (false, false) => [shorter, Some(at_outlet), heavier],
        };
        order.into_iter().flatten().collect()
    }

    /// The shortest cord sold, no thinner than the present one, the rest in hose.
    fn shorter_cord(&self, length_m: f64) -> Option<Step> {
        let (code, load) = (self.code(), self.found.load?);
        let short_m = match code {
            Code::Nec => SHORT_CORD_M,
            Code::Iec => SHORT_REEL_M,
        };
        let advice = cord_to_take(code, load.amps, load.volts, short_m)?;
        let wants = advice.size?;
        let size = match cord_of(self.place) {
            Some((area, _)) if area > wants.area_m2 => CordSize::of(code, area),
            _ => wants,
        };
        (length_m > 1.2 * short_m).then_some(Step::ShorterCord {
            size,
            length_m: short_m,
            hose_m: length_m - short_m,
        })
    }

    /// The motor's other connection, where it has one.
    fn reconnect(&self) -> Option<Step> {
        let (present, fit) = connection(self.candidate, self.place);
        let mut ways = self.candidate.connections.iter();
        if self.candidate.connections.len() < 2 {
            return None;
        }
        let lowest = self.candidate.connections.iter().map(|one| one.volts[0]);
        let shipped = lowest.fold(f64::MAX, f64::min);
        if fit != Fit::Other && present.volts[0] > shipped {
            let volts = self.place.volts.value.max(present.volts[0]).min(present.volts[1]);
            return Some(Step::Reconnect {
                volts,
                amps: present.amps?,
                circuit: None,
            });
        }
        let other = ways.find(|one| one.volts[0] > 1.3 * present.volts[0])?;
        let (volts, amps) = (other.volts[1], other.amps?);
        let circuit = Circuit {
            by_plate: false,
            ..self.circuit(volts, amps)
        };
        Some(Step::Reconnect {
            volts,
            amps,
            circuit: Some(circuit),
        })
    }

    /// A circuit for so many amps at some volts: the spare one, where it does.
    fn circuit(&self, volts: f64, amps: f64) -> Circuit {
        let code = self.code();
        let least = if code == Code::Nec { 20.0 } else { 16.0 };
        let wants = own_breaker_a(code, amps).max(least);
        let spare = self.place.wiring.spare.filter(|(spare_volts, breaker)| {
            (spare_volts / volts - 1.0).abs() <= 0.1
                && breaker.is_some_and(|breaker| breaker >= wants && breaker <= 1.5 * wants)
        });
        let (volts, breaker_a) = match spare {
            Some((volts, Some(breaker))) => (volts, breaker),
            _ => (volts, wants),
        };
        Circuit {
            volts,
            breaker_a,
            wire_m2: wire_for(code, breaker_a),
            outlet: outlet_for(code, volts, amps, breaker_a),
            spare: spare.is_some(),
            by_plate: !self.found.load.is_some_and(|load| load.printed()),
        }
    }

    /// A circuit of its own, of the machine's volts; with heavier wire too, for a long way to the panel.
    pub(super) fn own_circuits(&self) -> Vec<Step> {
        let (connection, fit) = connection(self.candidate, self.place);
        let (Some(amps), false) = (self.amps(), self.place.generator_va.is_some()) else {
            return Vec::new();
        };
        let volts = match fit {
            Fit::Other => connection.volts[1],
            _ => self.place.volts.value,
        };
        let small = volts <= MIDDLE_VOLTS && own_breaker_a(self.code(), amps) > 20.0;
        if small && self.code() == Code::Nec {
            return Vec::new();
        }
        let circuit = self.circuit(volts, amps);
        let wires = match self.code() {
            Code::Nec => NEC_WIRES.map(area_m2).to_vec(),
            Code::Iec => IEC_WIRES_M2.to_vec(),
        };
        let heavy_enough = wires.iter().filter(|area| **area >= 0.99 * circuit.wire_m2);
        let with = |wire_m2: &f64| {
            Step::OwnCircuit(Circuit {
                wire_m2: *wire_m2,
                ..circuit
            })
        };
        heavy_enough.take(3).map(with).collect()
    }

    fn generator(&self) -> Option<Step> {
        self.place.generator_va?;
        let load = self.found.load?;
        let running_kva = (load.volts * load.amps + load.volts * self.place.other_a) / 1_000.0;
        Some(Step::Generator(generator_wanted(running_kva)))
    }
}

/// The outlet of a circuit for one machine.
fn outlet_for(code: Code, volts: f64, amps: f64, breaker_a: f64) -> &'static str {
    match (code, volts > MIDDLE_VOLTS, breaker_a) {
        (Code::Iec, _, breaker) if breaker <= 20.0 => "CEE 16 A",
        (Code::Iec, _, _) => "CEE 32 A",
        (Code::Nec, false, _) => "5-20",
        (Code::Nec, true, breaker) if breaker <= 20.0 && amps <= 12.0 => "6-15",
        (Code::Nec, true, breaker) if breaker <= 20.0 => "6-20",
        (Code::Nec, true, breaker) if breaker <= 30.0 => "6-30",
        (Code::Nec, true, _) => "6-50",
    }
}
