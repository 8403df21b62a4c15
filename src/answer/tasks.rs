//! A task's verdict in words.

use super::words::{Words, capital, minutes_in_hour};
use crate::assess::{Outcome, STARTS_MOST, TaskFacts, Why};
use crate::basis::{Basis, CandidateBasis, PlaceBasis, TaskBasis};
use crate::quantity::{Absolute, FreeAir, Gauge, number};
use crate::report::{Figure, Grade, TaskRow};
use crate::run::Machine;
use uom::si::f64::MassRate;
use uom::si::mass_rate::kilogram_per_second;

/// The grade of an outcome.
pub fn grade(outcome: Outcome) -> Grade {
    match outcome {
        Outcome::KeepsUp => Grade::Good,
        Outcome::RunsHard => Grade::Fair,
        Outcome::Waits(_) => Grade::Poor,
        Outcome::WillNot(_) => Grade::Bad,
    }
}

/// The verdict in a few words.
pub fn verdict(outcome: Outcome) -> String {
    match outcome {
        Outcome::KeepsUp => "keeps up".into(),
        Outcome::RunsHard => "keeps up but runs hard".into(),
        Outcome::Waits(share) => format!("wait {} min in the hour", minutes_in_hour(share)),
        Outcome::WillNot(_) => "will not do it".into(),
    }
}

/// A mass flow as free air at a place.
fn free_air(kg_s: f64, place: &PlaceBasis) -> FreeAir {
    FreeAir::of_mass(MassRate::new::<kilogram_per_second>(kg_s), place.air.density())
}

/// What the machine delivers in the middle of the switch's band, as free air at the place.
pub fn delivered_mid_band(machine: &Machine, place: &PlaceBasis) -> (FreeAir, Gauge) {
    let middle = 0.5 * (machine.cut_in_pa + machine.cut_out_pa);
    (
        free_air(machine.delivery.at(middle), place),
        Absolute::pa(middle).above(place.air.pressure()),
    )
}

/// What the task draws while the spell lasts, as free air at the place.
pub fn spell_average(facts: &TaskFacts, task: &TaskBasis, place: &PlaceBasis) -> FreeAir {
    free_air(facts.work.asked_kg_s * task.rhythm.spell_share(), place)
}

/// What the task draws on the average of spells and pauses, as free air at the place.
fn long_average(facts: &TaskFacts, task: &TaskBasis, place: &PlaceBasis) -> FreeAir {
    free_air(facts.work.asked_kg_s * task.rhythm.long_share(), place)
}

/// Everything that a task's words need.
pub struct TaskContext<'a> {
    /// Units.
    pub words: Words,
    /// The shop.
    pub basis: &'a Basis,
    /// The machine's label.
    pub candidate: &'a CandidateBasis,
    /// The place.
    pub place: &'a PlaceBasis,
    /// The machine as run there.
    pub machine: &'a Machine,
    /// The facts.
    pub facts: &'a TaskFacts,
}

impl TaskContext<'_> {
    fn task(&self) -> &TaskBasis {
        &self.basis.tasks[self.facts.task]
    }

    /// Flow asked against flow made, as a clause.
    pub fn flows(&self) -> String {
        let asked = spell_average(self.facts, self.task(), self.place);
        let long = long_average(self.facts, self.task(), self.place);
        let (made, at) = delivered_mid_band(self.machine, self.place);
        let words = self.words;
        format!(
            "the work takes {} over a spell and {} in the long run, the machine makes {} at {}",
            words.flow(asked),
            words.flow(long),
            words.flow(made),
            words.pressure(at)
        )
    }

    fn keeps_up(&self) -> String {
        let words = self.words;
        let running = words.share(self.facts.waits.running);
        match self.facts.trigger_s {
            None => format!("The trigger may be held for good; the motor runs {running} of the time."),
            Some(seconds) => format!(
                "A full tank holds the trigger for {}; in this rhythm the motor runs {running} of the time.",
                words.time(seconds)
            ),
        }
    }

    fn runs_hard(&self) -> String {
        let (words, run) = (self.words, &self.facts.waits);
        let duty = self.candidate.duty;
        if run.running > duty.value {
            let known = if duty.given {
                "its duty rating is"
            } else {
                "such machines are usually rated for"
            };
            return format!(
                "It never stops you, but the motor runs {} of the time; {known} {}.",
                words.share(run.running),
                words.share(duty.value)
            );
        }
        format!(
            "It never stops you, but the motor starts {} times an hour; more than {} wear a small motor. A larger tank mends that.",
            number(run.starts_per_hour, 0),
            number(STARTS_MOST, 0)
        )
    }

    fn waits(&self, share: f64) -> String {
        let words = self.words;
        let recovery = self.facts.recovery_s.map_or_else(
            || "it never gets the tank full again".into(),
            |seconds| format!("filling it up again takes {}", words.time(seconds)),
        );
        let held = self.facts.trigger_s.map_or_else(String::new, |seconds| {
            format!(
                "A full tank holds the trigger for {}, and {recovery}. ",
                words.time(seconds)
            )
        });
        format!(
            "{}{}, so you wait {} minutes in the hour.",
            held,
            capital(&self.flows()),
            minutes_in_hour(share)
        )
    }

    fn will_not(&self, why: Why) -> String {
        let words = self.words;
        let task = self.task();
        match why {
            Why::Line => format!(
                "The line does not bring {} to the tool, whatever the tank has: use a larger bore or a shorter hose.",
                words.pressure(task.lowest)
            ),
            Why::CutOut => format!(
                "The tool needs at least {}, with the line's loss more than the tank has at cut-out, {}.",
                words.pressure(task.lowest),
                words.pressure(self.candidate.cut_out)
            ),
            Why::Stalls => format!(
                "The machine does not get its tank back to cut-out, {}: {}.",
                words.pressure(self.candidate.cut_out),
                self.flows()
            ),
            Why::OnePull => format!(
                "A full tank does not last for one pull of the trigger ({} of {}): {}.",
                words.time(self.facts.trigger_s.unwrap_or(0.0)),
                words.time(task.rhythm.on_s),
                self.flows()
            ),
            Why::Waiting => format!(
                "You would wait {} minutes in the hour: {}.",
                minutes_in_hour(self.facts.waits.waiting),
                self.flows()
            ),
        }
    }

    /// The verdict's reason.
    pub fn sentence(&self) -> String {
        match self.facts.outcome {
            Outcome::KeepsUp => self.keeps_up(),
            Outcome::RunsHard => self.runs_hard(),
            Outcome::Waits(share) => self.waits(share),
            Outcome::WillNot(why) => self.will_not(why),
        }
    }

    fn figures(&self) -> Vec<Figure> {
        let (words, facts) = (self.words, self.facts);
        let figure = |name: &str, value: String| Figure {
            name: name.into(),
            value,
            sum: None,
        };
        let mut figures = vec![
            figure(
                "longest trigger from full",
                facts
                    .trigger_s
                    .map_or_else(|| "for good".into(), |seconds| words.time(seconds)),
            ),
            figure(
                "back to full",
                facts
                    .recovery_s
                    .map_or_else(|| "never".into(), |seconds| words.time(seconds)),
            ),
            figure(
                "motor runs",
                format!(
                    "{} of the time, rated {}",
                    words.share(facts.waits.running),
                    words.share(self.candidate.duty.value)
                ),
            ),
            figure(
                "starts",
                format!("{} an hour", number(facts.waits.starts_per_hour, 0)),
            ),
        ];
        if facts.works_on.weak > 0.005 {
            figures.push(figure(
                "if you work on",
                format!(
                    "the tool is weak for {} of the trigger time",
                    words.share(facts.works_on.weak)
                ),
            ));
        }
        if let Some(setting) = facts.work.regulator {
            figures.push(figure(
                "set the regulator to",
                format!(
                    "{} for {} at the running tool",
                    words.pressure(setting),
                    words.pressure(self.task().setting)
                ),
            ));
        }
        figures
    }

    /// The row for this task.
    pub fn row(&self) -> TaskRow {
        let task = self.task();
        let (grade, verdict) = match self.facts.range {
            Some([low, high]) if verdict(low) != verdict(high) => (
                Grade::Unsure,
                format!("between “{}” and “{}”", verdict(low), verdict(high)),
            ),
            _ => (grade(self.facts.outcome), verdict(self.facts.outcome)),
        };
        TaskRow {
            task: task.index,
            name: task.name.clone(),
            grade,
            verdict,
            sentence: self.sentence(),
            figures: self.figures(),
        }
    }
}
