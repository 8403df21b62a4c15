//! Whether a place's circuit starts and carries a machine, and what flow it could feed at the most.

use crate::basis::{CandidateBasis, PlaceBasis, StartClue};
use physics::circuit::{
    self, AtMotor, Awg, BreakerUse, CircuitError, CordLimits, Feed, GeneratorUse, LongestCord, Motor, Start,
    StartingAmps, Strands, Wire,
};
use physics::compressor::{OVERALL_EFFICIENCY, Pump, RATING_PA, guessed_flow, isentropic_watts};
use quantity::{Absolute, FreeAir, Gauge};
use shop::MachineKind;

/// Voltages this close, relatively, belong to one system: 110 to 127 V is one, 208 to 250 V another.
/// Common practice, no source.
const SAME_SYSTEM: f64 = 0.18;

/// Starting voltage over the plate's below which a loaded pump may stall: see [`CordLimits`].
pub const LEAST_START_SHARE: f64 = 0.80;

/// Starting voltage over the plate's below which even an unloaded pump may not start: half the torque.
/// Common practice, no source.
pub const STALL_SHARE: f64 = 0.70;

/// Running voltage over the plate's that motors are built for: 10 % either way (NEMA MG 1, from memory).
pub const LEAST_RUN_SHARE: f64 = 0.90;

/// Where the machine's current comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AmpsFrom {
    /// The plate.
    Plate,
    /// The flow and a typical efficiency.
    Flow,
    /// Printed horsepower and NEC table 430.248.
    Horsepower,
}

/// What the circuit of a place does with a machine.
#[derive(Clone, Debug, PartialEq)]
pub struct PowerFacts {
    /// Full-load current at the machine's voltage, A.
    pub amps: f64,
    /// Where it comes from.
    pub amps_from: AmpsFrom,
    /// The motor's voltage does not fit the place's.
    pub other_voltage: bool,
    /// Breaker against load.
    pub breaker: Option<BreakerUse>,
    /// Voltage at the motor, running.
    pub running: Option<AtMotor>,
    /// The same, starting.
    pub starting: Option<AtMotor>,
    /// Starting current and how well it is known.
    pub start: Option<StartingAmps>,
    /// The supply cannot feed the running motor at all.
    pub starved: bool,
    /// Cord current over its ampacity, where there is a cord of a listed gauge.
    pub cord_share: Option<f64>,
    /// Smallest cord that would do over the cord's length; `Some(None)` if none of the listed gauges does.
    pub smallest_cord: Option<Option<Awg>>,
    /// Longest cord of the present gauge.
    pub longest_cord: Option<LongestCord>,
    /// Generator against load.
    pub generator: Option<GeneratorUse>,
}

/// Voltage of the column of NEC table 430.248 that serves a motor's.
pub fn table_volts(volts: f64) -> f64 {
    if volts > 160.0 { 230.0 } else { 115.0 }
}

/// Full-load current: from the plate, else from the flow, else from printed horsepower.
pub fn full_load_amps(candidate: &CandidateBasis, pump: Option<&Pump>) -> Option<(f64, AmpsFrom)> {
    if let Some(amps) = candidate.amps {
        return Some((amps, AmpsFrom::Plate));
    }
    let volts = candidate.volts.value;
    if let Some(pump) = pump.filter(|_| !candidate.flows.is_empty()) {
        let (at, inlet) = (Gauge::psi(90.0), Absolute::pa(RATING_PA));
        let watts = isentropic_watts(candidate.kind, pump.rated(at), at.at(inlet), inlet);
        return Some((watts / OVERALL_EFFICIENCY[1] / volts, AmpsFrom::Flow));
    }
    let horsepower = candidate.power_w? / 745.7;
    let base = table_volts(volts);
    let amps = circuit::full_load_amps(horsepower, base).ok()?;
    Some((amps * base / volts, AmpsFrom::Horsepower))
}

/// Most delivered flow at 90 psi that a plugged-in machine of typical efficiency makes on this circuit, and of
/// the best: 80 % of the breaker (NEC 210.23(A)(1), from memory) less the other loads.
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

/// Most current that a plugged-in machine may draw at a place, A.
pub fn amps_fed(place: &PlaceBasis) -> f64 {
    let share = circuit::PLUG_LOAD_SHARE * place.breaker_a.value;
    share.min(place.breaker_a.value - place.other_a).max(0.0)
}

fn wire((area_m2, length_m): (f64, f64), strands: Strands) -> Option<Wire> {
    (length_m > 0.0).then_some(Wire {
        area_m2,
        strands,
        length_m,
    })
}

/// The feed of a place, with its cord.
pub fn feed(place: &PlaceBasis) -> Feed {
    Feed {
        panel_volts: place.volts.value,
        branch: wire((place.branch.0.value, place.branch.1.value), Strands::Solid),
        cord: place.cord.and_then(|cord| wire(cord, Strands::Stranded)),
        other_amps: place.other_a,
    }
}

/// The listed gauge of a conductor area, within 2 %.
pub fn gauge_of(area_m2: f64) -> Option<Awg> {
    circuit::GAUGES
        .into_iter()
        .find(|gauge| (gauge.area_m2() / area_m2 - 1.0).abs() < 0.02)
}

fn start_of(candidate: &CandidateBasis, amps: f64) -> Result<StartingAmps, CircuitError> {
    let volts = candidate.volts.value;
    let start = match candidate.start {
        StartClue::Letter(letter) => {
            let base = table_volts(volts);
            match circuit::horsepower_at(amps * volts / base, base) {
                Ok(horsepower) => Start::Letter { letter, horsepower },
                Err(_) => Start::Unknown,
            }
        }
        StartClue::Amps(value) => Start::Amps(value),
        StartClue::Multiple(value) => Start::Multiple(value),
        StartClue::Unknown => Start::Unknown,
    };
    circuit::starting_amps(start, volts, amps)
}

/// The circuit's facts for a machine at a place; `None` where the machine's current is anybody's guess.
pub fn power_facts(
    candidate: &CandidateBasis,
    place: &PlaceBasis,
    pump: Option<&Pump>,
) -> Option<PowerFacts> {
    let (amps, amps_from) = full_load_amps(candidate, pump)?;
    let volts = candidate.volts.value;
    let other_voltage = (place.volts.value / volts - 1.0).abs() > SAME_SYSTEM;
    let start = start_of(candidate, amps).ok();
    let motor = Motor {
        volts,
        amps,
        starting_amps: start.map_or(6.0 * amps, |start| start.likely),
    };
    let feed = feed(place);
    let running = circuit::running(&feed, &motor);
    let limits = CordLimits::default();
    let cord = place.cord.filter(|(_, length)| *length > 0.0);
    let gauge = cord.and_then(|(area, _)| gauge_of(area));
    let carries = gauge.and_then(Awg::cord_ampacity_a);
    Some(PowerFacts {
        amps,
        amps_from,
        other_voltage,
        breaker: circuit::breaker_use(place.breaker_a.value, amps, place.other_a).ok(),
        starved: matches!(running, Err(CircuitError::Starved { .. })),
        running: running.ok(),
        starting: circuit::starting(&feed, &motor).ok(),
        start,
        cord_share: carries.map(|carries| amps / carries),
        smallest_cord: cord
            .and_then(|(_, length)| circuit::smallest_cord(&feed, &motor, length, &limits).ok()),
        longest_cord: gauge.and_then(|gauge| circuit::longest_cord(&feed, &motor, gauge, &limits).ok()),
        generator: place
            .generator_va
            .and_then(|va| circuit::generator_use(va / 1_000.0, None, &motor, place.other_a).ok()),
    })
}
