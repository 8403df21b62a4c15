//! The plan in order: this place now, the next one later, another voltage perhaps.

use super::jobs::{doing, when};
use super::power::tellings;
use super::words::{Words, listed, mid_sentence};
use crate::report::{Finding, Grade, Section};
use judge::assess::{Facts, TaskFacts};
use judge::basis::{Basis, CandidateBasis, PlaceBasis};
use judge::danger::dangers;
use judge::grade::Grade as Air;
use judge::paint::Coat;
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
    candidate: &'a CandidateBasis,
    facts: &'a Facts,
    coats: Vec<Coat>,
}

/// What stands in the way at a place, in clauses, and how grave the worst of it is.
struct Wants {
    clauses: Vec<String>,
    /// Its current is a guess that suits the outlet.
    untold: bool,
    grade: Air,
}

impl Wants {
    fn or_as_is(&self) -> String {
        let clauses = self.clauses.join("; ");
        match (self.clauses.is_empty(), self.untold) {
            (true, true) => "works as is if the amps on the motor’s plate suit the outlet".into(),
            (true, false) => "works as is".into(),
            (false, true) => format!("{clauses}; read the amps on the motor’s plate"),
            (false, false) => clauses,
        }
    }
}

impl Plan<'_> {
    /// Danger first, then the power, then the air: what the headline says of the whole shop, place by place.
    fn wants(&self, index: usize, place: &PlaceBasis) -> Wants {
        let power = &self.facts.places[index].power;
        if self.facts.places[index].stays_home() {
            return Wants {
                clauses: vec!["it does not come here; a small machine of its own does".into()],
                untold: false,
                grade: Air::Good,
            };
        }
        let danger = judge::danger::worst(&dangers(self.basis, self.candidate, index));
        let (air, air_grade) = self.air(index);
        let starts = self.facts.starts_too_often(self.candidate, index);
        let tank = starts.then(|| "add a second tank, as its motor starts too often".into());
        let around = self.around(place);
        let cold = around.as_ref().map_or(Air::Good, |(grade, _)| *grade);
        let clauses = [
            Self::safe_first(danger),
            self.power(index),
            air,
            tank,
            around.map(|(_, clause)| clause),
        ];
        let starts = if starts { Air::Trip } else { Air::Good };
        let grades = [danger, power.told_grade(), air_grade, starts, cold];
        Wants {
            clauses: clauses.into_iter().flatten().collect(),
            untold: power.is_untold(),
            grade: grades.into_iter().max().unwrap_or_default(),
        }
    }

    /// What to do about the line, where that alone is the limit at this place.
    fn limit(&self, index: usize) -> Option<String> {
        let worst = self.facts.verdict.as_ref()?.worst()?;
        let link = crate::line::advice::limit(self.words, self.basis, self.candidate, self.facts)?;
        (worst.place == index).then(|| mid_sentence(link.first.trim_end_matches('.')))
    }

    /// What box and cold want there.
    fn around(&self, place: &PlaceBasis) -> Option<(Air, String)> {
        // A box that the sums refuse is told at its field.
        let boxed = match judge::boxed::boxed(self.candidate, place) {
            Ok(found) => found.filter(|found| found.grade > Air::Good),
            Err(_) => None,
        };
        let cold = judge::cold::cold(self.candidate, place).filter(|found| found.grade > Air::Good);
        match (boxed, cold) {
            (Some(boxed), _) => Some((boxed.grade, "cut openings in the box and fit a fan".into())),
            (None, Some(cold)) => Some((cold.grade, "put thin oil in for the cold".into())),
            (None, None) => None,
        }
    }

    /// A danger or an open question beside the power comes before all else.
    fn safe_first(danger: Air) -> Option<String> {
        match danger {
            Air::Danger => Some("not before the danger is put right".into()),
            Air::Ask => Some("first settle what is asked above".into()),
            _ => None,
        }
    }

    /// What mends the power, least effort first, or what is to be settled about it.
    fn power(&self, index: usize) -> Option<String> {
        let power = &self.facts.places[index].power;
        if let Some(fix) = power.first_fix() {
            return Some(super::power::fix_clause(self.words, fix));
        }
        let (telling, _) = tellings(self.words, self.basis, self.facts).nth(index)?;
        let short = super::power::short(&telling, &power.cause);
        (power.grade > Air::Wait).then(|| format!("settle its power: {short}"))
    }

    /// For which jobs the air is too small or makes one wait, or that nothing can be said of it.
    fn air(&self, index: usize) -> (Option<String>, Air) {
        let rows = &self.facts.places[index].tasks;
        let grade = |row: &TaskFacts| {
            let coats = self
                .coats
                .iter()
                .filter(|coat| (coat.place, coat.task) == (index, row.task));
            coats.map(|coat| coat.grade).fold(row.record.grade, Air::max)
        };
        let worst = rows.iter().map(grade).max();
        let asked = self
            .facts
            .verdict
            .as_ref()
            .is_none_or(|verdict| verdict.asks.is_some());
        if asked || worst == Some(Air::Ask) {
            return (Some("settle its air first".into()), Air::Ask);
        }
        let that = |wanted: Air| {
            let jobs = rows.iter().filter(|row| grade(row) == wanted);
            jobs.map(|row| &self.basis.tasks[row.task]).collect::<Vec<_>>()
        };
        if let Some(first) = self.limit(index) {
            return (Some(first), worst.unwrap_or_default());
        }
        let small: Vec<String> = that(Air::Small).into_iter().map(doing).collect();
        let (coated, waiting): (Vec<_>, Vec<_>) =
            that(Air::Wait).into_iter().partition(|task| task.spray.is_some());
        let waits: Vec<String> = waiting.into_iter().map(when).collect();
        let coats: Vec<String> = coated.into_iter().map(doing).collect();
        let clauses = [
            (!small.is_empty()).then(|| format!("too small for {}", listed(&small))),
            (!waits.is_empty()).then(|| format!("expect to wait {}", listed(&waits))),
            (!coats.is_empty()).then(|| format!("no thirsty gun for {}", listed(&coats))),
        ];
        let clauses: Vec<String> = clauses.into_iter().flatten().collect();
        let text = (!clauses.is_empty()).then(|| clauses.join("; "));
        (text, worst.unwrap_or_default())
    }

    fn place(&self, index: usize, place: &PlaceBasis) -> Finding {
        let when = if index == 0 { "Now" } else { "Later" };
        let wants = self.wants(index, place);
        let stays = self.basis.auxiliary.is_some_and(|tank| tank.stays && index > 0);
        let left = if stays {
            " The second tank stays behind."
        } else {
            ""
        };
        let hangar = self.hangar(place);
        Finding {
            id: format!("stage-{index}"),
            grade: crate::advice::mark(wants.grade),
            text: format!("{when}, at “{}”: {}.{left}{hangar}", place.name, wants.or_as_is()),
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
        let each =
            places.map(|(index, place)| format!("{}: {}", place.name, self.wants(index, place).or_as_is()));
        each.map(|text| format!("{text}. "))
            .collect::<String>()
            .trim_end()
            .into()
    }

    /// What a larger circuit would carry, where the air is short and the place's circuit is what limits the machine.
    fn larger(&self) -> Option<Finding> {
        let words = self.words;
        let place = self.basis.places.first()?;
        let wants = self.wants(0, place);
        let short = matches!(wants.grade, Air::Wait | Air::Small);
        if !short || place.volts.value > MIDDLE_VOLTS || place.generator_va.is_some() {
            return None;
        }
        let (volts, breaker_a) = LARGER;
        let watts = volts * breaker_a * physics::circuit::PLUG_LOAD_SHARE;
        let fed = |share: f64| guessed_flow(MachineKind::PistonOneStage, share * watts, Gauge::psi(90.0));
        let present = flow_fed(place);
        Some(Finding {
            id: "stage-larger".into(),
            grade: Grade::Note,
            text: format!(
                "A larger machine wants {} on a {} breaker: that feeds {} to {}, against {} to {} on {} at {}.",
                words.volts(volts),
                words.amps(breaker_a),
                words.flow(fed(OVERALL_EFFICIENCY[1])),
                words.flow(fed(OVERALL_EFFICIENCY[2])),
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
        let several = self
            .basis
            .places
            .iter()
            .filter(|place| place.cord.is_some())
            .count()
            > 1;
        let cord = if several {
            ", and the heaviest cord that any place asks for"
        } else {
            ""
        };
        Finding {
            id: "stage-once".into(),
            grade: Grade::Note,
            text: format!(
                "Buy once, use everywhere: {} of {} main hose (rubber or hybrid, no coil hose), a {} whip hose of {}, quick couplers all of one style, a regulator with gauge and a water trap for the bench end{cord}.",
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
pub fn section(words: Words, basis: &Basis, candidate: &CandidateBasis, facts: &Facts) -> Section {
    let plan = Plan {
        words,
        basis,
        candidate,
        facts,
        coats: judge::paint::coats(basis, candidate, facts),
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
        title: "What do I do first?".into(),
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
