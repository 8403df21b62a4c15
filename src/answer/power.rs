//! The circuit's verdict in words.

mod figures;

pub use figures::figures;

use super::words::Words;
use crate::report::{Finding, Grade};
use judge::assess::power::{AmpsFrom, LEAST_RUN_SHARE, LEAST_START_SHARE, PowerFacts, STALL_SHARE, gauge_of};
use judge::basis::{CandidateBasis, PlaceBasis};
use physics::circuit::PLUG_LOAD_SHARE;
use physics::compressor::OVERALL_EFFICIENCY;
use quantity::{Kind, number};

/// What an electrician is for.
pub const ELECTRICIAN: &str = "A new circuit is a licensed electrician's work, and the local code decides.";

struct Circuit<'a> {
    words: Words,
    candidate: &'a CandidateBasis,
    place: &'a PlaceBasis,
    facts: &'a PowerFacts,
}

impl Circuit<'_> {
    fn amps_source(&self) -> &'static str {
        match self.facts.amps_from {
            AmpsFrom::Plate => "by its plate",
            AmpsFrom::Flow => "by its flow at a typical efficiency; read the plate",
            AmpsFrom::Horsepower => "by the printed horsepower (NEC table 430.248); read the plate",
        }
    }

    /// "It draws 11.5 A", or what it would draw by reckoning.
    fn draws(&self) -> String {
        let amps = self.facts.amps;
        match self.facts.amps_from {
            AmpsFrom::Plate => format!("It draws {}", self.words.amps(amps)),
            _ => format!("It would draw about {}", self.words.amps(amps.round())),
        }
    }

    fn voltage(&self) -> Option<(Grade, String)> {
        if !self.facts.other_voltage {
            return None;
        }
        let (words, place) = (self.words, self.place);
        Some((
            Grade::Bad,
            format!(
                "It needs {}, and {} has {}. {ELECTRICIAN}",
                words.volts(self.candidate.volts.value),
                place.name,
                words.volts(place.volts.value)
            ),
        ))
    }

    fn breaker(&self) -> Option<(Grade, String)> {
        let (words, facts, place) = (self.words, self.facts, self.place);
        let load = facts.breaker?;
        let rating = words.amps(place.breaker_a.value);
        if load.machine_share > 1.0 {
            return Some((
                Grade::Bad,
                format!(
                    "{}, more than the whole {rating} breaker: it will trip. {ELECTRICIAN}",
                    self.draws()
                ),
            ));
        }
        if load.total_share > 1.0 {
            return Some((
                Grade::Bad,
                format!(
                    "It and the other things on its breaker draw {} of {rating}: that trips, unless they are off or on another circuit.",
                    words.amps(facts.amps + place.other_a)
                ),
            ));
        }
        (load.machine_over_amps > 0.05).then(|| {
            (
                Grade::Fair,
                format!(
                    "{} on a {rating} breaker: more than the {} that one plugged-in load may draw for long ({} of the rating), so expect trips in long runs and at warm starts.",
                    self.draws(),
                    words.amps(PLUG_LOAD_SHARE * place.breaker_a.value),
                    words.share(PLUG_LOAD_SHARE)
                ),
            )
        })
    }

    fn running(&self) -> Option<(Grade, String)> {
        let words = self.words;
        if self.facts.starved {
            return Some((
                Grade::Bad,
                "The wire and cord cannot carry its power at all: a shorter or heavier cord is needed."
                    .into(),
            ));
        }
        let running = self.facts.running?;
        (running.plate_share < LEAST_RUN_SHARE && !self.facts.other_voltage).then(|| {
            (
                Grade::Poor,
                format!(
                    "Running, the motor gets {}, {} below its plate: it overheats. {}",
                    words.volts(running.volts),
                    words.share(1.0 - running.plate_share),
                    self.cord_advice()
                ),
            )
        })
    }

    fn starting(&self) -> Option<(Grade, String)> {
        let words = self.words;
        let starting = self.facts.starting?;
        (starting.plate_share < LEAST_START_SHARE && !self.facts.other_voltage).then(|| {
            let (grade, then) = if starting.plate_share < STALL_SHARE {
                (Grade::Bad, "it hums and does not turn")
            } else {
                (
                    Grade::Poor,
                    "cold, or against a loaded pump, it may hum and not turn",
                )
            };
            let text = format!(
                "Starting, the motor gets {} and {} of its torque: {then}. {}",
                words.volts(starting.volts),
                words.share(starting.torque_share),
                self.cord_advice()
            );
            (grade, text)
        })
    }

    fn cord(&self) -> Option<(Grade, String)> {
        let share = self.facts.cord_share?;
        (share > 1.0).then(|| {
            (
                Grade::Bad,
                format!(
                    "The cord is too thin for {}: it gets hot. {}",
                    self.words.amps(self.facts.amps),
                    self.cord_advice()
                ),
            )
        })
    }

    fn cord_advice(&self) -> String {
        let words = self.words;
        match (self.place.cord, self.facts.smallest_cord) {
            (Some((_, length)), Some(Some(gauge))) => format!(
                "For this run of {} take a cord of {} or heavier.",
                words.of(Kind::Length, length),
                words.cord_enough(gauge.area_m2())
            ),
            (Some(_), Some(None)) => format!(
                "No listed cord of that length does it: use a shorter one and more air hose. {ELECTRICIAN}"
            ),
            _ => ELECTRICIAN.into(),
        }
    }

    fn generator(&self) -> Option<(Grade, String)> {
        let load = self.facts.generator?;
        let (grade, when) = match load {
            load if load.running_share > 1.0 => (Grade::Bad, "running"),
            load if load.starting_share > 1.0 => (Grade::Bad, "starting"),
            _ => return None,
        };
        Some((
            grade,
            format!(
                "The generator is too small {when}: the motor takes {} kVA running and {} kVA as it starts.",
                number(load.running_kva, 1),
                number(load.starting_kva, 1)
            ),
        ))
    }

    /// Whether the current is known well enough to condemn a circuit: from the plate, or from a flow that even the
    /// best of small machines could not make on this breaker.
    fn sure(&self) -> bool {
        let best = OVERALL_EFFICIENCY[1] / OVERALL_EFFICIENCY[2];
        match self.facts.amps_from {
            AmpsFrom::Plate => true,
            AmpsFrom::Flow => self.facts.other_voltage || best * self.facts.amps > self.place.breaker_a.value,
            AmpsFrom::Horsepower => self.facts.other_voltage,
        }
    }

    /// What is said where the current is only reckoned.
    fn unsure(&self) -> Finding {
        let words = self.words;
        let reckoned = words.amps(self.facts.amps.round());
        let text = match self.facts.amps_from {
            AmpsFrom::Horsepower => format!(
                "If the printed horsepower were true it would draw about {reckoned}; on {} of breaker that is a peak figure, or the wrong circuit. Read volts and amps on the motor's plate.",
                words.amps(self.place.breaker_a.value)
            ),
            _ => format!(
                "Reckoned from its flow it draws about {reckoned}, tight for this circuit. Read volts and amps on the motor's plate."
            ),
        };
        Finding {
            id: "circuit".into(),
            grade: Grade::Unsure,
            text,
            basis: self.basis(),
            remedies: Vec::new(),
        }
    }

    fn fine(&self) -> String {
        let (words, facts, place) = (self.words, self.facts, self.place);
        let volts = facts.running.map_or_else(String::new, |running| {
            format!(", with {} at the running motor", words.volts(running.volts))
        });
        format!(
            "{} of the {} breaker{volts}.",
            self.draws(),
            words.amps(place.breaker_a.value)
        )
    }

    fn basis(&self) -> String {
        let words = self.words;
        let cord = self.place.cord.map_or_else(
            || "no cord".into(),
            |(area, length)| {
                let gauge = gauge_of(area).map_or(area, |gauge| gauge.area_m2());
                format!(
                    "{} of {} cord",
                    words.of(Kind::Length, length),
                    words.of(Kind::WireArea, gauge)
                )
            },
        );
        format!(
            "{} {}; {} on the same breaker; {} of branch wire, {cord}; NEC 210.23(A)(1), chapter 9 table 8",
            words.amps(self.facts.amps),
            self.amps_source(),
            words.amps(self.place.other_a),
            words.of(Kind::Length, self.place.branch.1.value),
        )
    }
}

/// The circuit's verdict: the worst that is found, and what else is.
pub fn finding(
    words: Words,
    candidate: &CandidateBasis,
    place: &PlaceBasis,
    facts: Option<&PowerFacts>,
) -> Finding {
    let id = "circuit".to_owned();
    let Some(facts) = facts else {
        return Finding {
            id,
            grade: Grade::Unsure,
            text: "Nothing on the label tells the current: look for volts and amps on the motor's plate."
                .into(),
            basis: "no amps, no flow, no horsepower given".into(),
            remedies: Vec::new(),
        };
    };
    let circuit = Circuit {
        words,
        candidate,
        place,
        facts,
    };
    let mut found: Vec<(Grade, String)> = [
        circuit.voltage(),
        circuit.breaker(),
        circuit.cord(),
        circuit.starting(),
        circuit.running(),
        circuit.generator(),
    ]
    .into_iter()
    .flatten()
    .collect();
    // The worst first; the rest as they come.
    if let Some(worst) = (0..found.len()).max_by_key(|index| (found[*index].0, std::cmp::Reverse(*index))) {
        let worst = found.remove(worst);
        found.insert(0, worst);
    }
    // Where the voltage is wrong, what follows from it says nothing new.
    if circuit.facts.other_voltage {
        found.truncate(1);
    }
    let grade = found.first().map_or(Grade::Good, |(grade, _)| *grade);
    if grade > Grade::Unsure && !circuit.sure() {
        return circuit.unsure();
    }
    let text = if found.is_empty() {
        circuit.fine()
    } else {
        found
            .into_iter()
            .map(|(_, text)| text)
            .collect::<Vec<_>>()
            .join(" ")
    };
    Finding {
        id,
        grade,
        text,
        basis: circuit.basis(),
        remedies: Vec::new(),
    }
}
