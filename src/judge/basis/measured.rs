//! What was timed at the machine: from text to a delivery curve and a leak.

use super::CandidateBasis;
use super::reader::Reader;
use crate::assess::machine::plug_amps;
use physics::air::Air;
use physics::compressor::{Claim, Pump, RATING_PA, isentropic_watts, judge_claim};
use physics::measure::{self, Delivered, Leak, MeasureError, Measured, Timed};
use quantity::{Absolute, Gauge, Kind, write};
use shop::Candidate;

/// Times of several runs, apart by ";" or by "/" between blanks: a comma may be a decimal one, "1/2" a fraction.
fn times(reader: &mut Reader, name: &str, text: &str) -> Option<Vec<f64>> {
    let parts = text.split(';').flat_map(|part| part.split(" / "));
    let parts = parts.map(str::trim).filter(|part| !part.is_empty());
    let mut seconds = Vec::new();
    for part in parts {
        match reader.row(name).read(part, reader.units) {
            Ok(time) => seconds.extend(time),
            Err(error) => {
                reader.refuse(name, error);
                return None;
            }
        }
    }
    (!seconds.is_empty()).then_some(seconds)
}

/// The curve whose size a pump-up finds: the shape that the label's two flows give, or what is typical of the kind.
fn curve(candidate: &CandidateBasis) -> Pump {
    let usual = Pump::usual(candidate.kind);
    match candidate.flows[..] {
        // Two flows that contradict each other have no shape; that they do is told of the label.
        [one, other] => Pump::of_two_flows(candidate.kind, one, other).unwrap_or(usual),
        _ => usual,
    }
}

/// A job at the machine: its fields, and where its fault belongs.
struct Job {
    time: &'static str,
    from: &'static str,
    to: &'static str,
}

const PUMP_UP: Job = Job {
    time: "pump_up",
    from: "pump_from",
    to: "pump_to",
};
const LEAK_DOWN: Job = Job {
    time: "leak_time",
    from: "leak_from",
    to: "leak_to",
};

impl Job {
    /// Times and both readings, where there is a time; readings left blank are taken from `usual`, which may be none.
    fn read(
        &self,
        reader: &mut Reader,
        [time, from, to]: [&str; 3],
        usual: [Option<Gauge>; 2],
    ) -> Option<(Vec<f64>, [Gauge; 2])> {
        let seconds = times(reader, self.time, time);
        let read =
            [(self.from, from), (self.to, to)].map(|(name, text)| (name, text, reader.get(name, text)));
        let seconds = seconds?;
        let mut readings = [Gauge::pa(0.0); 2];
        for ((reading, (name, text, value)), usual) in readings.iter_mut().zip(read).zip(usual) {
            *reading = match (value, usual) {
                (Some(value), _) => Gauge::pa(value),
                (None, Some(usual)) => Gauge::pa(reader.take(name, usual.as_pa()).value),
                (None, None) => {
                    if text.trim().is_empty() {
                        reader.refuse(name, "what did the gauge read when the clock stopped?");
                    }
                    return None;
                }
            };
        }
        Some((seconds, readings))
    }

    /// What came of the job; an error is put beside its field.
    fn found<T>(&self, reader: &mut Reader, found: Result<T, MeasureError>) -> Option<T> {
        match found {
            Ok(found) => Some(found),
            Err(error) => {
                self.blame(reader, error);
                None
            }
        }
    }

    /// Puts the error beside the field that has to be mended. One sentence about the tank will do for both jobs.
    fn blame(&self, reader: &mut Reader, error: MeasureError) {
        let name = match error {
            MeasureError::UnknownTank => "tank",
            MeasureError::Swapped(..)
            | MeasureError::TooClose(_)
            | MeasureError::Unreachable(_)
            | MeasureError::NotChoked(_) => self.to,
            _ => self.time,
        };
        if !reader.refused(name) {
            reader.refuse(name, error);
        }
    }
}

/// Whether volts times amps, or all that a plug of that voltage gives, can pump so much at all.
fn believable(reader: &mut Reader, basis: &CandidateBasis, pump: &Pump) -> bool {
    let (inlet, at) = (Absolute::pa(RATING_PA), Gauge::psi(90.0));
    let flow = pump.rated(at);
    let amps = basis.amps.unwrap_or_else(|| plug_amps(basis.volts.value));
    let least = isentropic_watts(basis.kind, flow, at.at(inlet), inlet);
    if judge_claim(least, basis.volts.value * amps) != Claim::CannotBe {
        return true;
    }
    let message = format!(
        "that would be {} at {}, more than {} at {} can pump: look again at clock, gauge, tank and plate",
        write(Kind::Flow, flow.as_m3_s(), reader.units),
        write(Kind::Pressure, at.as_pa(), reader.units),
        write(Kind::Current, amps, reader.units),
        write(Kind::Voltage, basis.volts.value, reader.units)
    );
    reader.refuse(PUMP_UP.time, message);
    false
}

fn timed(volume_m3: f64, seconds: &[f64], [from, to]: [Gauge; 2]) -> Timed<'_> {
    Timed {
        volume_m3,
        from,
        to,
        seconds,
    }
}

/// Reads what was timed at the machine, in the air of the first place. A pump-up whose readings are blank is taken to
/// go from cut-in to cut-out, a leak-down to begin at cut-out.
pub(super) fn measured(
    reader: &mut Reader,
    texts: &Candidate,
    basis: &CandidateBasis,
    air: &Air,
) -> Option<Measured> {
    let volume_m3 = if basis.tank_m3.is_given() {
        basis.tank_m3.value
    } else {
        0.0
    };
    let fields = [&*texts.leak_time, &texts.leak_from, &texts.leak_to];
    let job = LEAK_DOWN.read(reader, fields, [Some(basis.cut_out), None]);
    let leak: Option<Leak> = job.and_then(|(seconds, readings)| {
        let leak = measure::leak(timed(volume_m3, &seconds, readings), air);
        LEAK_DOWN.found(reader, leak)
    });
    let per_pa = leak.map_or(0.0, |leak| leak.kg_s_pa);
    let fields = [&*texts.pump_up, &texts.pump_from, &texts.pump_to];
    let job = PUMP_UP.read(reader, fields, [Some(basis.cut_in), Some(basis.cut_out)]);
    let delivered: Option<Delivered> = job.and_then(|(seconds, readings)| {
        let timed = timed(volume_m3, &seconds, readings);
        PUMP_UP.found(reader, measure::delivered(timed, air, curve(basis), per_pa))
    });
    let delivered = delivered.filter(|found| believable(reader, basis, &found.pump));
    (delivered.is_some() || leak.is_some()).then_some(Measured {
        air: *air,
        delivered,
        leak,
    })
}
