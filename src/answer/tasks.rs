//! A task's verdict in words.

use super::sums::{self, PutIn};
use super::words::{Words, capital, minutes_in_hour};
use crate::report::{Figure, Grade, Sum, TaskRow};
use judge::assess::{STARTS_MOST, TaskFacts};
use judge::basis::{Basis, CandidateBasis, PlaceBasis, TaskBasis, Unread};
use judge::grade::Grade as Air;
use judge::verdict::{Record, SHORT_WAIT_MIN, Why};
use physics::line::{LineError, Part, REFERENCE_DENSITY};
use physics::run::Machine;
use quantity::{Absolute, FreeAir, Gauge, Kind, number};
use uom::si::f64::MassRate;
use uom::si::mass_rate::kilogram_per_second;

/// The grade of a record, as the page shows it.
pub fn grade(record: &Record) -> Grade {
    match record.grade {
        Air::Good => Grade::Good,
        Air::Wait => Grade::Poor,
        Air::Small => Grade::Bad,
        _ => Grade::Unsure,
    }
}

/// Whether somebody waits, or nothing can be said of it.
fn waits(record: &Record) -> bool {
    record.why.is_some() || record.grade != Air::Good || record.minutes[1] >= SHORT_WAIT_MIN
}

/// The verdict in a few words.
pub fn verdict(record: &Record) -> String {
    let minutes = minutes_in_hour(record.minutes[1] / 60.0);
    match (record.why, record.grade) {
        (Some(Why::NotJudged | Why::NotRead(_)), _) => "can’t say yet".into(),
        (Some(Why::NoPressure), _) => "never gets its pressure".into(),
        (Some(Why::Switch), _) => "weak before the motor starts".into(),
        _ if !waits(record) => "no wait".into(),
        (None, Air::Good) => format!("short waits, {minutes} min an hour"),
        (None, _) => format!("wait {minutes} min an hour"),
    }
}

/// What has to be put right before it can be judged: what was read in which field, and what would do.
pub fn not_read(basis: &Basis, unread: Unread) -> String {
    let told = basis.refusal(unread).map(|refusal| refusal.message.clone());
    let told = told.unwrap_or_else(|| format!("the {} can’t be read", unread.name()));
    let told = capital(told.trim_end_matches('.'));
    format!("{told}.")
}

/// The row of a task whose line is beyond the sums.
pub fn beyond(basis: &Basis, task: usize, error: &LineError) -> TaskRow {
    let task = basis.tasks.get(task);
    TaskRow {
        task: task.map_or(0, |task| task.index),
        name: task.map_or_else(String::new, |task| task.name.clone()),
        grade: Grade::Unsure,
        verdict: "can’t say yet".into(),
        waits: true,
        sentence: format!("It can’t be judged: {error}."),
        figures: Vec::new(),
    }
}

/// In how many of ten shops like the reader's it does the job.
pub fn odds(record: &Record) -> String {
    format!(
        "In {} of 10 shops like yours you'd wait less than 5 minutes an hour.",
        record.done_tenths()
    )
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
    /// The flow is a guess, or a doubted one.
    pub is_asked: bool,
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

    fn holds(&self) -> String {
        match self.facts.trigger_s {
            None => "You can hold the trigger as long as you like.".into(),
            Some(seconds) => format!("Trigger time on a full tank: {}.", self.words.time(seconds)),
        }
    }

    /// What the motor bears badly, where there is such a thing.
    pub fn strain(&self) -> String {
        let (words, run, duty) = (self.words, &self.facts.run, self.candidate.duty);
        if self.facts.is_over_duty(self.candidate) {
            let rated = if duty.is_given() {
                "it is rated for"
            } else {
                "most of its kind are rated for"
            };
            return format!(
                " The motor runs {} of the time; {rated} {}.",
                words.share_beyond(run.running, duty.value),
                words.share(duty.value)
            );
        }
        if self.facts.starts_often() {
            return format!(
                " The motor starts {} times an hour; more than {} wear it out: the tank is small for it. A second tank, or constant run with an unloader, mends that.",
                number(run.starts_per_hour, 0),
                number(STARTS_MOST, 0)
            );
        }
        format!(" The motor runs {} of the time.", words.share(run.running))
    }

    fn waits(&self) -> String {
        let words = self.words;
        let [least, _, most] = self
            .facts
            .record
            .minutes
            .map(|minutes| minutes_in_hour(minutes / 60.0));
        let recovery = self.facts.recovery_s.map_or_else(
            || "It never gets the tank full again.".into(),
            |seconds| format!("Back to full takes {}.", words.time(seconds)),
        );
        format!(
            "You'd wait {least} to {most} minutes out of every hour. {} {recovery} {}.",
            self.holds(),
            capital(&self.flows())
        )
    }

    fn no_pressure(&self) -> String {
        let words = self.words;
        let task = self.task();
        if self.facts.record.why == Some(Why::Switch) {
            format!(
                "The motor starts at {}, and the tool is weak before that. Have the switch set higher, within what the tank is stamped for.",
                words.pressure(self.candidate.cut_in)
            )
        } else if self.facts.work.work.enough_pa.is_finite() {
            format!(
                "The tool needs at least {}. With the loss in the line that is more than the tank has at cut-out, {}.",
                words.pressure(task.lowest),
                words.pressure(self.candidate.cut_out)
            )
        } else {
            format!(
                "The line does not bring {} to the tool, whatever the tank has: use a larger bore or a shorter hose.",
                words.pressure(task.lowest)
            )
        }
    }

    /// The verdict's reason.
    pub fn sentence(&self) -> String {
        let record = &self.facts.record;
        match (record.why, record.grade) {
            (Some(Why::NotRead(unread)), _) => not_read(self.basis, unread),
            (Some(_), _) => self.no_pressure(),
            (None, Air::Good) if record.minutes[2] < SHORT_WAIT_MIN => {
                format!("{}{}", self.holds(), self.strain())
            }
            (None, Air::Good) => format!("{} {}{}", odds(record), self.holds(), self.strain()),
            (None, _) => format!("{} {}", odds(record), self.waits()),
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
            .pressure("p, at the running tool", self.gauge(losses.tool().as_pa()))
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
                    words.share(facts.run.running),
                    words.share(self.candidate.duty.value)
                ),
                self.long_run(),
            ),
            sums::figure(
                "starts",
                format!("{} an hour", number(facts.run.starts_per_hour, 0)),
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
        if let Some((setting, losses)) = facts.work.regulator.zip(facts.work.losses) {
            let running = losses.tool().above(self.place.air.pressure());
            figures.push(sums::figure(
                "set the regulator to",
                format!(
                    "{} for {} at the running tool",
                    words.pressure(setting),
                    words.pressure(running)
                ),
                self.regulator(),
            ));
        }
        figures
    }

    /// The row for this task.
    pub fn row(&self) -> TaskRow {
        let task = self.task();
        let record = &self.facts.record;
        let strained = self.facts.is_over_duty(self.candidate) || self.facts.starts_often();
        // A guessed flow has no grade, whatever its odds.
        let grade = match grade(record) {
            _ if self.is_asked => Grade::Unsure,
            Grade::Good if strained => Grade::Fair,
            grade => grade,
        };
        TaskRow {
            task: task.index,
            name: task.name.clone(),
            grade,
            verdict: verdict(record),
            waits: self.is_asked || waits(record),
            sentence: self.sentence(),
            figures: self.figures(),
        }
    }
}
