//! The machine as a load on a place's circuit: its current there, and the volts that arrive.

use physics::circuit::MIDDLE_VOLTS;
use physics::circuit::{
    self, AtMotor, CircuitError, Code, CordSize, Feed, Metal, Motor, Start, StartingAmps, Strands, Wire,
    conductor_celsius, wire_breaker_a,
};
use physics::compressor::{OVERALL_EFFICIENCY, Pump, RATING_PA, isentropic_watts};
use quantity::{Absolute, Gauge, W_PER_HP};

use crate::basis::{CandidateBasis, Connection, PlaceBasis, StartClue};

/// Voltages this close, relatively, belong to one system: 110 to 127 V is one, 208 to 250 V another.
/// Common practice, no source.
const SAME_SYSTEM: f64 = 0.18;

/// Volts that a motor stands either way of its plate: 10 % (NEMA MG 1, from memory).
const PLATE_BAND: f64 = 0.10;

/// Power that a motor draws for each watt printed on a European plate, volt-amperes: it prints what it takes, at a power
/// factor near 0.85 (common practice, no source).
const IEC_VA_PER_WATT: f64 = 1.0 / 0.85;

/// Where the machine's current comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AmpsFrom {
    /// The plate.
    Plate,
    /// The flow and a typical efficiency.
    Flow,
    /// Printed power: NEC table 430.248, or the watts of a European plate.
    Power,
}

/// How the volts of a place suit the machine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fit {
    /// Within a tenth of the plate.
    Fits,
    /// The same system, but more than a tenth off.
    Off,
    /// Another system.
    Other,
}

/// The machine on a place's circuit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    /// Volts of the connection that suits the place best.
    pub volts: f64,
    /// How they suit it.
    pub fit: Fit,
    /// Full-load current there, to judge by, A.
    pub amps: f64,
    /// Low and likely, where the current is a guess; else twice the same.
    pub guess: [f64; 2],
    /// Where it comes from.
    pub from: AmpsFrom,
    /// Volts or power of the machine were told: a guess has something to rest on.
    pub told: bool,
    /// Starting current.
    pub start: StartingAmps,
    /// The starting current was told, not taken.
    pub start_given: bool,
    /// At the motor while it runs; `None` if the wire starves it.
    pub running: Option<AtMotor>,
    /// At the motor while it starts.
    pub starting: Option<AtMotor>,
}

impl Load {
    /// The motor, for the sums.
    pub fn motor(&self) -> Motor {
        Motor {
            volts: self.volts,
            amps: self.amps,
            starting_amps: self.start.likely,
        }
    }
    /// The current was printed, not reckoned.
    pub fn printed(&self) -> bool {
        self.from == AmpsFrom::Plate
    }
}

/// Voltage of the column of NEC table 430.248 that serves a motor's.
pub fn table_volts(volts: f64) -> f64 {
    if volts > MIDDLE_VOLTS { 230.0 } else { 115.0 }
}

/// The connection of a machine that suits a place best, and how it suits. A plate that is silent on volts counts with what
/// was taken for it.
pub fn connection(candidate: &CandidateBasis, place: &PlaceBasis) -> (Connection, Fit) {
    let taken = Connection {
        volts: [candidate.volts.value; 2],
        amps: candidate.amps,
    };
    let supply = place.volts.value;
    let off = |one: &Connection| match supply {
        volts if volts < one.volts[0] => 1.0 - volts / one.volts[0],
        volts => (volts / one.volts[1] - 1.0).max(0.0),
    };
    let best = candidate
        .connections
        .iter()
        .copied()
        .min_by(|one, other| off(one).total_cmp(&off(other)))
        .unwrap_or(taken);
    let fit = match off(&best) {
        share if share <= PLATE_BAND => Fit::Fits,
        share if share <= SAME_SYSTEM => Fit::Off,
        _ => Fit::Other,
    };
    (best, fit)
}

/// Volts of a connection that belong to a supply: the plate's nearest.
fn nearest(connection: &Connection, supply: f64) -> f64 {
    supply.max(connection.volts[0]).min(connection.volts[1])
}

/// Full-load current at some volts, low and likely: from the plate, else from the flow, else from printed power.
fn current(
    candidate: &CandidateBasis,
    pump: Option<&Pump>,
    code: Code,
    connection: &Connection,
    volts: f64,
) -> Option<([f64; 2], AmpsFrom)> {
    if let Some(amps) = connection.amps.or(candidate.amps) {
        return Some(([amps; 2], AmpsFrom::Plate));
    }
    if let Some(pump) = pump.filter(|_| !candidate.flows.is_empty()) {
        let (at, inlet) = (Gauge::psi(90.0), Absolute::pa(RATING_PA));
        let watts = isentropic_watts(candidate.kind, pump.rated(at), at.at(inlet), inlet);
        let [_, typical, best] = OVERALL_EFFICIENCY;
        return Some(([watts / best / volts, watts / typical / volts], AmpsFrom::Flow));
    }
    let watts = candidate.power_w?;
    if code == Code::Iec {
        let amps = watts * IEC_VA_PER_WATT / volts;
        return Some(([amps; 2], AmpsFrom::Power));
    }
    let base = table_volts(volts);
    // Power that the table has not leaves the current unknown: it is asked for.
    let Ok(amps) = circuit::full_load_amps(watts / W_PER_HP, base) else {
        return None;
    };
    Some(([amps * base / volts; 2], AmpsFrom::Power))
}

/// Full-load current of a machine at its own volts, to judge by, and where it comes from.
pub fn full_load_amps(candidate: &CandidateBasis, pump: Option<&Pump>) -> Option<(f64, AmpsFrom)> {
    let volts = candidate.volts.value;
    let own = Connection {
        volts: [volts; 2],
        amps: candidate.amps,
    };
    let ([_, likely], from) = current(candidate, pump, Code::Nec, &own, volts)?;
    Some((likely, from))
}

/// Starting current, and whether it was told. A code letter goes with the printed horsepower, where the plate's volts and
/// amps admit that much; else with the horsepower that NEC table 430.248 gives the current.
fn start(candidate: &CandidateBasis, volts: f64, amps: f64) -> Result<(StartingAmps, bool), CircuitError> {
    let base = table_volts(volts);
    let printed = candidate
        .power_w
        .filter(|watts| *watts <= volts * amps)
        .map(|watts| watts / W_PER_HP);
    // The plate tells its start at its own volts; on another connection the volt-amperes are the same.
    let own = candidate.volts.value / volts;
    let told = match candidate.start {
        StartClue::Letter(letter) => {
            let horsepower = match printed {
                Some(horsepower) => horsepower,
                None => circuit::horsepower_at(amps * volts / base, base)?,
            };
            Start::Letter { letter, horsepower }
        }
        StartClue::Amps(value) => Start::Amps(value * own),
        StartClue::Multiple(value) => Start::Multiple(value),
        StartClue::Unknown => Start::Unknown,
    };
    let given = told != Start::Unknown;
    circuit::starting_amps(told, volts, amps).map(|start| (start, given))
}

fn wire((area_m2, length_m): (f64, f64), strands: Strands, metal: Metal) -> Option<Wire> {
    (length_m > 0.0).then_some(Wire {
        area_m2,
        strands,
        metal,
        length_m,
    })
}

/// The feed of a place, with its cord, cold. A generator's outlet has no wire in a wall.
pub fn feed(place: &PlaceBasis) -> Feed {
    let (area, length) = (place.branch.0.value, place.branch.1.value);
    let branch = wire((area, length), Strands::Solid, place.wiring.metal);
    Feed {
        panel_volts: place.volts.value,
        branch: branch.filter(|_| place.generator_va.is_none()),
        cord: cord_of(place).and_then(|cord| wire(cord, Strands::Stranded, Metal::Copper)),
        other_amps: place.other_a,
        celsius: place_celsius(place),
    }
}

/// The cord in use: none where the machine is wired in.
pub fn cord_of(place: &PlaceBasis) -> Option<(f64, f64)> {
    place
        .cord
        .filter(|(_, length)| *length > 0.0 && !place.wiring.hard_wired())
}

fn place_celsius(place: &PlaceBasis) -> f64 {
    place.air.kelvin() - physics::air::ZERO_CELSIUS
}

/// The same, warm from running: the more loaded of cord and branch wire sets the temperature of both.
pub fn warm_feed(place: &PlaceBasis, amps: f64) -> Feed {
    let code = place.wiring.code;
    let branch = wire_breaker_a(code, place.branch.0.value, place.wiring.metal).unwrap_or(0.0);
    let in_cord = cord_of(place).map_or(0.0, |(area, _)| amps / CordSize::of(code, area).carries_a);
    let in_branch = if branch > 0.0 {
        (amps + place.other_a) / branch
    } else {
        1.0
    };
    Feed {
        celsius: conductor_celsius(place_celsius(place), in_cord.max(in_branch)),
        ..feed(place)
    }
}

/// The machine on a place's circuit; `None` where its current is anybody's guess.
///
/// A machine whose current is not printed is taken to suit the outlet where it may: no more than the breaker's rating, if
/// the best of such machines draws less.
/// # Errors
/// What the sums refuse.
pub fn load(
    candidate: &CandidateBasis,
    place: &PlaceBasis,
    pump: Option<&Pump>,
) -> Result<Option<Load>, CircuitError> {
    let (connection, fit) = connection(candidate, place);
    let volts = nearest(&connection, place.volts.value);
    let Some((guess, from)) = current(candidate, pump, place.wiring.code, &connection, volts) else {
        return Ok(None);
    };
    let [low, likely] = guess;
    let amps = likely.min(super::outlet::outlet_of(place).0).max(low);
    let amps = if from == AmpsFrom::Flow { amps } else { likely };
    let (start, start_given) = start(candidate, volts, amps)?;
    let load = Load {
        volts,
        fit,
        amps,
        guess,
        from,
        told: candidate.volts.is_given() || candidate.power_w.is_some(),
        start,
        start_given,
        running: None,
        starting: None,
    };
    let motor = load.motor();
    let running = match circuit::running(&warm_feed(place, amps), &motor) {
        Ok(at) => Some(at),
        Err(CircuitError::Starved { .. }) => None,
        Err(error) => return Err(error),
    };
    let starting = circuit::starting(&feed(place), &motor);
    Ok(Some(Load {
        running,
        starting: match starting {
            Ok(at) => Some(at),
            Err(CircuitError::Starved { .. }) => None,
            Err(error) => return Err(error),
        },
        ..load
    }))
}
