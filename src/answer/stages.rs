//! The plan in order: this place now, the next one later, another voltage perhaps.

use super::power::Telling;
use super::words::{Words, listed};
use crate::report::{Finding, Grade, Section};
use judge::assess::Facts;
use judge::basis::{Basis, PlaceBasis};
use judge::grade::Grade as Air;
use judge::power::{amps_fed, flow_fed};
use physics::circuit::MIDDLE_VOLTS;
use physics::compressor::{OVERALL_EFFICIENCY, guessed_flow};
use quantity::{Gauge, Kind};
use shop::{MachineKind, Units};

/// Voltage and breaker of the larger circuit that a garage can be given: 240 V, 20 A. Common practice, no source.
const LARGER: (f64, f64) = (240.0, 20.0);

struct Plan<'a> {
    words: Words,
    basis: &'a Basis,
    facts: &'a Facts,
    circuits: &'a [Finding],
}

impl Plan<'_> {
    /// What stands in the way at a place, in a clause each.
    fn wants(&self, index: usize, place: &PlaceBasis) -> Vec<String> {
        let words = self.words;
        let mut wants = Vec::new();
        let found = &self.facts.places[index];
        if let Some(fix) = found.power.fixes.iter().find(|fix| !fix.if_needed) {
            wants.push(super::power::fix_clause(words, fix));
        } else if found.power.grade > judge::grade::Grade::Wait {
            let telling = Telling {
                words,
                place,
                alone: self.basis.places.len() == 1,
                verdict: &found.power,
            };
            wants.push(format!(
                "settle its power: {}",
                super::power::short(&telling, &found.power.cause)
            ));
        }
        let waits: Vec<String> = found
            .tasks
            .iter()
            .filter(|task| task.record.grade != Air::Good)
            .map(|task| self.basis.tasks[task.task].name.clone())
            .collect();
        if !waits.is_empty() {
            wants.push(format!("expect to wait at {}", listed(&waits)));
        }
        wants
    }

    fn place(&self, index: usize, place: &PlaceBasis) -> Finding {
        let when = if index == 0 { "Now" } else { "Later" };
        let wants = self.wants(index, place);
        let stays = self.basis.auxiliary.is_some_and(|tank| tank.stays && index > 0);
        let left = if stays {
            " The auxiliary receiver stays behind."
        } else {
            ""
        };
        let hangar = self.hangar(place);
        let text = if wants.is_empty() {
            format!("{when}, at “{}”: works as is.{left}{hangar}", place.name)
        } else {
            format!("{when}, at “{}”: {}.{left}{hangar}", place.name, listed(&wants))
        };
        let worst = self.facts.places[index]
            .tasks
            .iter()
            .map(|task| super::tasks::grade(&task.record))
            .max();
        let grade = worst.unwrap_or(Grade::Note).max(self.circuits[index].grade);
        Finding {
            id: format!("stage-{index}"),
            grade,
            text,
            basis: "verdicts of this place".into(),
            remedies: Vec::new(),
        }
    }

    /// Where it may stand in a hangar of which nobody said what airplanes are in it.
    fn hangar(&self, place: &PlaceBasis) -> &'static str {
        let standing = place.standing;
        match (standing.hangar, standing.airplane, self.words.units) {
            (true, None, Units::Us) => {
                " Where a fueled airplane stands, put it outside with the hose through the wall, or 18 in up and 5 ft from tanks and engine, and ask the airport. An airframe that was never fueled, alone there, is the exception."
            }
            (true, None, Units::Metric) => {
                " Where a fueled airplane stands, put it outside with the hose through the wall, or 45 cm up and 1.5 m from tanks and engine, and ask the airport. An airframe that was never fueled, alone there, is the exception."
            }
            _ => "",
        }
    }

    /// What each place takes, in a line.
    fn sentence(&self) -> String {
        let places = self.basis.places.iter().enumerate();
        let each = places.map(|(index, place)| {
            let wants = self.wants(index, place);
            let wants = if wants.is_empty() {
                "works as is".to_owned()
            } else {
                listed(&wants)
            };
            format!("{}: {wants}", place.name)
        });
        each.map(|text| format!("{text}. "))
            .collect::<String>()
            .trim_end()
            .into()
    }

    /// What a larger circuit would carry, and whether that is needed at all.
    fn larger(&self) -> Option<Finding> {
        let words = self.words;
        let place = self.basis.places.first()?;
        if place.volts.value > MIDDLE_VOLTS {
            return None;
        }
        let (volts, breaker_a) = LARGER;
        let watts = volts * breaker_a * physics::circuit::PLUG_LOAD_SHARE;
        let fed = |share: f64| guessed_flow(MachineKind::PistonOneStage, share * watts, Gauge::psi(90.0));
        let present = flow_fed(place);
        let needed = self
            .facts
            .places
            .iter()
            .flat_map(|found| &found.tasks)
            .any(|task| task.record.grade != Air::Good);
        let verdict = if needed {
            "that would end the waiting"
        } else {
            "nothing in this list of tasks asks for it"
        };
        Some(Finding {
            id: "stage-larger".into(),
            grade: Grade::Note,
            text: format!(
                "Perhaps, {} on a {} breaker: it feeds about {} to {} at {}, against {} to {} on the present {} at {}; {verdict}. A licensed electrician and the local code decide.",
                words.volts(volts),
                words.amps(breaker_a),
                words.flow(fed(OVERALL_EFFICIENCY[1])),
                words.flow(fed(OVERALL_EFFICIENCY[2])),
                words.pressure(Gauge::psi(90.0)),
                words.flow(present[0]),
                words.flow(present[1]),
                words.amps(amps_fed(place)),
                words.volts(place.volts.value)
            ),
            basis: "80 % of the breaker at a typical and at a good efficiency; common practice, no source"
                .into(),
            remedies: Vec::new(),
        })
    }

    fn once(&self) -> Finding {
        let words = self.words;
        let line = &self.basis.line;
        Finding {
            id: "stage-once".into(),
            grade: Grade::Note,
            text: format!(
                "Buy once, use everywhere: {} of {} main hose (rubber or hybrid, no coil hose), a {} whip hose of {}, quick couplers all of one style, a regulator with gauge, a water trap for the bench end, and the heaviest cord that any place asks for.",
                words.of(Kind::Length, line.trunk.1),
                words.of(Kind::Bore, line.trunk.0),
                words.of(Kind::Bore, line.whip.0),
                words.of(Kind::Length, line.whip.1)
            ),
            basis: "a heavy main hose to the bench, a light short whip to the hand: rule of thumb".into(),
            remedies: Vec::new(),
        }
    }
}

/// The section.
pub fn section(words: Words, basis: &Basis, facts: &Facts, circuits: &[Finding]) -> Section {
    let plan = Plan {
        words,
        basis,
        facts,
        circuits,
    };
    let mut findings: Vec<Finding> = basis
        .places
        .iter()
        .enumerate()
        .map(|(index, place)| plan.place(index, place))
        .collect();
    findings.push(plan.once());
    findings.extend(plan.larger());
    Section {
        id: "plan".into(),
        title: "The plan, in order".into(),
        grade: findings
            .iter()
            .map(|finding| finding.grade)
            .max()
            .unwrap_or_default(),
        sentence: plan.sentence(),
        findings,
        ..Section::default()
    }
}
