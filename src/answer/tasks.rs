//! A task's verdict in words.

use super::sums::{self, PutIn};
use super::words::{Words, capital, minutes_in_hour};
use crate::report::{Figure, Grade, Sum, TaskRow};
use judge::assess::{Outcome, STARTS_MOST, TaskFacts, Why};
use judge::basis::{Basis, CandidateBasis, PlaceBasis, TaskBasis};
use physics::line::{Part, REFERENCE_DENSITY};
use physics::run::Machine;
use quantity::{Absolute, FreeAir, Gauge, Kind, number};
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
    let middle = machine.mid_band_pa();
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
            let known = if duty.is_given() {
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

    /// A tank pressure as its gauge shows it, Pa.
    fn gauge(&self, pressure_pa: f64) -> f64 {
        Absolute::pa(pressure_pa).above(self.place.air.pressure()).as_pa()
    }

    /// What every run of the tank goes by.
    fn tank(&self) -> PutIn {
        let machine = self.machine;
        let (made, at) = delivered_mid_band(machine, self.place);
        let mut put_in = PutIn::new(self.words);
        put_in
            .of(
                "V, tank with what is teed in",
                Kind::Volume,
                machine.receiver.volume_m3,
            )
            .pressure("motor stops at", self.gauge(machine.cut_out_pa))
            .pressure("motor starts at", self.gauge(machine.cut_in_pa))
            .flow("in, while the motor runs, free air", made)
            .pressure("that flow is made at (less above, more below)", at.as_pa())
            .of("Tᵢ, air as it comes in", Kind::Temperature, machine.in_kelvin)
            .of("T₀, room and walls", Kind::Temperature, machine.receiver.wall_k)
            .pressure("outside air, absolute", self.place.air.pressure().as_pa());
        if machine.leak_kg_s_pa > 0.0 {
            let leak = free_air(machine.leak_kg_s_pa * machine.cut_out_pa, self.place);
            put_in.flow("leak of the full tank", leak);
        }
        put_in
    }

    /// The same, and what the tool takes and needs.
    fn tank_and_tool(&self) -> PutIn {
        let asked = free_air(self.facts.work.asked_kg_s, self.place);
        let enough = self.facts.work.work.enough_pa;
        let mut put_in = self.tank();
        put_in.flow("out, on the trigger at its setting, free air", asked);
        // Where the line never brings the pressure there is none to name.
        if enough.is_finite() {
            put_in.pressure("tool goes weak below, in the tank", self.gauge(enough));
        }
        put_in
    }

    /// How it settles: the same in its rhythm.
    fn long_run(&self) -> Option<Sum> {
        let words = self.words;
        let rhythm = self.task().rhythm;
        let pair = |one: f64, other: f64| {
            format!(
                "{} and {}",
                words.of(Kind::Duration, one),
                words.of(Kind::Duration, other)
            )
        };
        let mut put_in = self.tank_and_tool();
        put_in
            .text("trigger on and off", pair(rhythm.on_s, rhythm.off_s))
            .text("spell and pause", pair(rhythm.spell_s, rhythm.pause_s));
        sums::LONG_RUN.with(&mut put_in)
    }

    fn back_to_full(&self) -> Option<Sum> {
        let from = self.facts.work.work.enough_pa.min(self.machine.cut_out_pa);
        let mut put_in = self.tank();
        put_in.pressure("from, the tank as the tool goes weak", self.gauge(from));
        sums::BACK_TO_FULL.with(&mut put_in)
    }

    fn regulator(&self) -> Option<Sum> {
        let losses = self.facts.work.losses?;
        let flow = FreeAir::m3_s(self.facts.work.flow_kg_s / REFERENCE_DENSITY);
        let mut put_in = PutIn::new(self.words);
        put_in
            .pressure("p, at the running tool", self.task().setting.as_pa())
            .pressure(
                "l, lost in hoses and couplers",
                losses.after(Part::Regulator).as_pa() - losses.tool().as_pa(),
            )
            .of("s, droop", Kind::Droop, self.basis.line.droop)
            .flow("q, flow at 20 °C and 1 bar", flow);
        sums::REGULATOR.with(&mut put_in)
    }

    fn figures(&self) -> Vec<Figure> {
        let (words, facts) = (self.words, self.facts);
        let time = |seconds: Option<f64>, none: &str| seconds.map_or_else(|| none.into(), |s| words.time(s));
        let mut figures = vec![
            sums::figure(
                "longest trigger from full",
                time(facts.trigger_s, "for good"),
                sums::TRIGGER.with(&mut self.tank_and_tool()),
            ),
            sums::figure(
                "back to full",
                time(facts.recovery_s, "never"),
                self.back_to_full(),
            ),
            sums::figure(
                "motor runs",
                format!(
                    "{} of the time, rated {}",
                    words.share(facts.waits.running),
                    words.share(self.candidate.duty.value)
                ),
                self.long_run(),
            ),
            sums::figure(
                "starts",
                format!("{} an hour", number(facts.waits.starts_per_hour, 0)),
                self.long_run(),
            ),
        ];
        if facts.works_on.weak > 0.005 {
            figures.push(sums::figure(
                "if you work on",
                format!(
                    "the tool is weak for {} of the trigger time",
                    words.share(facts.works_on.weak)
                ),
                self.long_run(),
            ));
        }
        if let Some(setting) = facts.work.regulator {
            figures.push(sums::figure(
                "set the regulator to",
                format!(
                    "{} for {} at the running tool",
                    words.pressure(setting),
                    words.pressure(self.task().setting)
                ),
                self.regulator(),
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
