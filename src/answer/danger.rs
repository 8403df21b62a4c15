//! Dangers in words: what it is in a line, why, and what to do first.

use judge::basis::{Basis, CandidateBasis};
use judge::danger::{Cause, Danger, Tank, dangers};
use judge::grade::Grade;
use quantity::{Gauge, Kind};
use shop::Units;
use shop::pumps::PumpKind;

use super::words::Words;
use crate::report::{Finding, Section};

/// A danger or a question, in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Warning {
    /// How grave.
    pub grade: Grade,
    /// Stable name.
    pub id: &'static str,
    /// A line for the headline.
    pub short: String,
    /// The whole of it: the fact, what it does, what to do now.
    pub long: String,
    /// What puts it right, first of all.
    pub first: String,
    /// What it rests on.
    pub source: &'static str,
}

/// The warnings of a machine at a place, the gravest first.
pub fn warnings(words: Words, basis: &Basis, candidate: &CandidateBasis, place: usize) -> Vec<Warning> {
    let found = dangers(basis, candidate, place);
    found.iter().map(|danger| warning(words, basis, danger)).collect()
}

/// Those of every place, each said once.
pub fn everywhere(words: Words, basis: &Basis, candidate: &CandidateBasis) -> Vec<Warning> {
    let mut all: Vec<Warning> = Vec::new();
    for place in 0..basis.places.len().max(1) {
        for warning in warnings(words, basis, candidate, place) {
            if !all.contains(&warning) {
                all.push(warning);
            }
        }
    }
    quantity::order::by_key(&mut all, |warning| std::cmp::Reverse(warning.grade));
    all
}

const TANKS: &str = "OSHA 1910.169 and the stamp on the tank (ASME Section VIII)";
const HANGARS: &str = "NEC 513.1 and 513.3; NFPA 409";

/// One danger in words.
pub fn warning(words: Words, basis: &Basis, danger: &Danger) -> Warning {
    let said = Said { words, basis };
    let (id, [short, long, first], source) = match &danger.cause {
        Cause::BreathedAir => said.breathed(),
        Cause::Shatters => said.shatters(),
        Cause::WhichPipe => said.which_pipe(),
        Cause::SprayBesideMotor { task } => said.sprayed(*task),
        Cause::HangarFloor { up_m, away_m } => said.hangar(*up_m, *away_m),
        Cause::StandsWhere => said.stands_where(),
        Cause::NotRead { field } => said.not_read(field),
        tank => said.tank(tank),
    };
    Warning {
        grade: danger.grade,
        id,
        short,
        long,
        first,
        source,
    }
}

type Sentences = (&'static str, [String; 3], &'static str);

struct Said<'a> {
    words: Words,
    basis: &'a Basis,
}

impl Said<'_> {
    fn psi(&self, pressure: Gauge) -> String {
        self.words.pressure(pressure)
    }

    /// 18 in and 5 ft as the reader measures.
    fn clear_of(&self) -> &'static str {
        match self.words.units {
            Units::Us => "18 in up and 5 ft from fuel tanks and engine",
            Units::Metric => "45 cm up and 1.5 m from fuel tanks and engine",
        }
    }

    fn breathed(&self) -> Sentences {
        (
            "breathing",
            [
                "Never breathe this compressor’s air. It is not breathing air.".into(),
                "This compressor does not make breathing air. It can carry oil mist, carbon monoxide and solvent, and no shop filter takes them all out. Take the hood off this line now.".into(),
                "Get a separate source of breathing air for the hood: a breathing-air pump outside the fumes, or bottled air.".into(),
            ],
            "OSHA 1910.134(i): supplied air must be grade D, and watched",
        )
    }

    fn shatters(&self) -> Sentences {
        (
            "pvc",
            [
                "PVC pipe shatters under air pressure. Shut it off and bleed it.".into(),
                "PVC shatters under air pressure and throws sharp pieces across the shop, often years after it went in. Shut the compressor off, bleed the line, and do not use it again.".into(),
                "Replace the PVC with copper, aluminum or steel pipe, or run hose.".into(),
            ],
            "OSHA hazard bulletin on PVC pipe in compressed-air lines, 1988",
        )
    }

    fn which_pipe(&self) -> Sentences {
        (
            "pipe",
            [
                "Can’t say yet whether that pipe holds air.".into(),
                "Not every pipe is made for compressed air: some plastics shatter, and plumbing pipe is rated for water.".into(),
                "Read what is printed on the pipe. Copper, aluminum, steel and air hose are fine; PVC never is.".into(),
            ],
            "judgement; the maker’s rating for compressed air decides",
        )
    }

    fn sprayed(&self, task: usize) -> Sentences {
        let what = self
            .basis
            .tasks
            .get(task)
            .map_or("Spraying", |task| task.name.as_str());
        (
            "spray",
            [
                "Don’t spray beside the compressor: its motor and switch spark.".into(),
                format!("“{what}” is done beside the compressor. Its motor and switch spark, and paint vapor catches fire. Stop spraying there."),
                "Move the compressor outside the spray area and run hose through the wall. Put out pilot lights and heaters, and exhaust the fumes.".into(),
            ],
            "NFPA 33; OSHA 1910.107",
        )
    }

    fn hangar(&self, up_m: Option<f64>, away_m: Option<f64>) -> Sentences {
        let length = |metres: f64| self.words.of(Kind::Length, metres);
        let stands = match (up_m, away_m) {
            (Some(up), Some(away)) => format!(" Yours is {} up and {} away.", length(up), length(away)),
            (Some(up), None) => format!(" Yours is {} up.", length(up)),
            (None, Some(away)) => format!(" Yours is {} away.", length(away)),
            (None, None) => String::new(),
        };
        let clear = self.clear_of();
        (
            "hangar",
            [
                format!("Not on that floor: fuel vapor. Outside, or {clear}."),
                format!("Fuel vapor lies low in a hangar with a fueled airplane, and a motor’s spark can light it. Put the compressor outside, or {clear}; cord joints too.{stands}"),
                "Put the compressor outside and run the hose through the wall. Ask the airport what it allows.".into(),
            ],
            HANGARS,
        )
    }

    fn stands_where(&self) -> Sentences {
        let clear = self.clear_of();
        (
            "hangar-where",
            [
                "Where does the compressor stand? There is a fueled airplane.".into(),
                format!(
                    "With a fueled airplane in the building the compressor belongs outside, or {clear}, and so does every cord joint. Say where yours stands. An airframe that was never fueled, alone in its building, is the exception."
                ),
                "Put it outside with the hose through the wall, and ask the airport.".into(),
            ],
            HANGARS,
        )
    }

    fn not_read(&self, field: &str) -> Sentences {
        let name = quantity::field::find(field).map_or("field", |row| row.name);
        (
            "not-read",
            [
                format!("Can’t say it is safe yet: check the {name}."),
                format!("What you typed for the {name} can’t be read, so whether it is safe can’t be said."),
                format!("Type the {name} again."),
            ],
            "what could not be read is not judged",
        )
    }

    fn tank(&self, cause: &Cause) -> Sentences {
        match cause {
            Cause::NoStamp(tank) => self.no_stamp(*tank),
            Cause::UnsoundTank => self.unsound(),
            Cause::ReliefBlocked => self.relief_blocked(),
            Cause::ReliefOverStamp { relief, stamp } => self.relief_over(*relief, *stamp),
            Cause::ReliefUnderSwitch { relief, cut_out } => self.relief_under(*relief, *cut_out),
            Cause::SecondRelief { relief, stamp } => self.second_relief(*relief, *stamp),
            Cause::SwitchOverSecond {
                cut_out,
                stamp,
                wants,
            } => self.over_second(*cut_out, *stamp, *wants),
            Cause::SwitchUntold { tank, stamp, taken } => self.switch_untold(*tank, *stamp, *taken),
            Cause::SwitchOverPump { cut_out, usual, pump } => self.over_pump(*cut_out, *usual, *pump),
            Cause::SwitchOverStamp {
                cut_out,
                stamp,
                switch_to,
            } => self.over_stamp(*cut_out, *stamp, *switch_to),
            _ => self.used(),
        }
    }

    fn over_stamp(&self, cut_out: Gauge, stamp: Gauge, switch_to: Gauge) -> Sentences {
        let (cut_out, stamp, to) = (self.psi(cut_out), self.psi(stamp), self.psi(switch_to));
        (
            "switch-over-stamp",
            [
                format!(
                    "The switch is above the tank’s stamp: {cut_out} on {stamp}. Unplug it, bleed it, do not run it."
                ),
                format!(
                    "The switch lets the tank go to {cut_out}, and it is stamped for {stamp}. A tank that bursts kills. Unplug it, bleed the tank, and do not run it."
                ),
                format!("Have the switch set to {to} or less, and fit a relief valve of {stamp} or less."),
            ],
            TANKS,
        )
    }

    fn over_second(&self, cut_out: Gauge, stamp: Gauge, wants: Gauge) -> Sentences {
        let (cut_out, stamp, wants) = (self.psi(cut_out), self.psi(stamp), self.psi(wants));
        (
            "second-tank-stamp",
            [
                format!("The second tank is stamped {stamp}. It is not for {cut_out}: keep it off."),
                format!(
                    "The compressor goes to {cut_out} and the second tank is stamped for {stamp}. Never join the two. These figures leave it out."
                ),
                format!("Get a tank stamped {wants} or more, with its own relief valve, or leave it off."),
            ],
            TANKS,
        )
    }

    fn no_stamp(&self, tank: Tank) -> Sentences {
        let (id, which) = match tank {
            Tank::Own => ("no-stamp", "This tank"),
            Tank::Second => ("second-tank-no-stamp", "The second tank"),
        };
        let left = match tank {
            Tank::Own => "Unplug it, bleed it, and do not run it.",
            Tank::Second => "Keep it off the compressor. These figures leave it out.",
        };
        (
            id,
            [
                format!("No stamp, no air. {which} has none."),
                format!(
                    "{which} has no stamp, so nobody knows what it holds, and a tank that bursts kills. {left}"
                ),
                "Get a tank that is stamped, dry inside, and has a relief valve at or below its stamp."
                    .into(),
            ],
            TANKS,
        )
    }

    fn unsound(&self) -> Sentences {
        (
            "second-tank-unsound",
            [
                "Scrap that second tank. Rust, dents and welds make it burst.".into(),
                "A tank that is rusty inside, dented, welded or weeping can burst at a pressure it once held. Keep it off the compressor. These figures leave it out.".into(),
                "Get a tank that is stamped, dry inside, and has a relief valve at or below its stamp.".into(),
            ],
            TANKS,
        )
    }

    fn used(&self) -> Sentences {
        (
            "second-tank-used",
            [
                "What is that used tank stamped for? Until you know, it stays off.".into(),
                "A used tank counts only with a stamp at or above the switch, a dry inside without rust, and its own relief valve. Until you have looked, these figures leave it out.".into(),
                "Read the stamp, and look inside with a light. No stamp, no air.".into(),
            ],
            TANKS,
        )
    }

    fn relief_blocked(&self) -> Sentences {
        (
            "relief-blocked",
            [
                "The relief valve doesn’t work. Do not run it.".into(),
                "Without a working relief valve a stuck switch bursts the tank. Unplug it, bleed the tank, and do not run it.".into(),
                "Fit a new relief valve that opens at or below the tank’s stamp, with no valve or plug before it.".into(),
            ],
            TANKS,
        )
    }

    fn relief_over(&self, relief: Gauge, stamp: Gauge) -> Sentences {
        let (relief, stamp) = (self.psi(relief), self.psi(stamp));
        (
            "relief-over-stamp",
            [
                format!(
                    "The relief valve is above the stamp: {relief} on a tank stamped {stamp}. Do not run it."
                ),
                format!(
                    "The relief valve opens at {relief} and the tank is stamped for {stamp}. With a stuck switch nothing stops it in time. Unplug it, bleed the tank, and do not run it."
                ),
                format!("Fit a relief valve that opens at {stamp} or less."),
            ],
            TANKS,
        )
    }

    fn relief_under(&self, relief: Gauge, cut_out: Gauge) -> Sentences {
        let (relief, cut_out) = (self.psi(relief), self.psi(cut_out));
        (
            "relief-under-switch",
            [
                format!(
                    "The relief valve ({relief}) opens before the switch ({cut_out}). Which figure is right?"
                ),
                format!(
                    "The relief valve would blow at {relief} before the switch opens at {cut_out}. One of the two is misread, or the switch is set too high."
                ),
                "Read both again. Lower the switch; never fit a bigger relief valve than the tank’s stamp."
                    .into(),
            ],
            TANKS,
        )
    }

    fn second_relief(&self, relief: Gauge, stamp: Gauge) -> Sentences {
        let (relief, stamp) = (self.psi(relief), self.psi(stamp));
        (
            "second-tank-relief",
            [
                format!("Does the second tank have its own relief valve, {stamp} or less?"),
                format!(
                    "The compressor’s relief valve opens at {relief}, above the second tank’s stamp of {stamp}. That tank needs its own."
                ),
                format!("Fit a relief valve of {stamp} or less on the second tank, with no valve before it."),
            ],
            TANKS,
        )
    }

    fn switch_untold(&self, tank: Tank, stamp: Gauge, taken: Gauge) -> Sentences {
        let which = if tank == Tank::Own {
            "The tank"
        } else {
            "The second tank"
        };
        let (stamp, taken) = (self.psi(stamp), self.psi(taken));
        (
            "switch-untold",
            [
                format!("{which} is stamped {stamp}. What is the compressor’s max pressure?"),
                format!(
                    "{which} is stamped {stamp}, and such compressors usually go to {taken}. Until you know, don’t run it on that tank."
                ),
                format!("Read the max pressure on the label. It must not be above {stamp}."),
            ],
            TANKS,
        )
    }

    fn over_pump(&self, cut_out: Gauge, usual: Gauge, pump: Option<PumpKind>) -> Sentences {
        let (cut_out, usual) = (self.psi(cut_out), self.psi(usual));
        let kind = pump.map_or("one-stage", |pump| pump.traits().name);
        (
            "switch-over-pump",
            [
                format!(
                    "{cut_out} is more than such a pump reaches. Check the max pressure and the tank’s stamp."
                ),
                format!(
                    "A pump of this kind ({kind}) usually stops at {usual} or below. Read the label again, and what the tank is stamped for. A higher switch is no gain."
                ),
                "Read the tank’s stamp and type it.".into(),
            ],
            "typical of such pumps; common practice",
        )
    }
}

/// The section about dangers; `None` where there is none.
pub fn section(words: Words, basis: &Basis, candidate: &CandidateBasis) -> Option<Section> {
    let all = everywhere(words, basis, candidate);
    let first = all.first()?;
    let sentence = first.short.clone();
    let grade = grade(first.grade);
    let findings = all.into_iter().map(|warning| Finding {
        id: warning.id.into(),
        grade: self::grade(warning.grade),
        text: format!("{} {}", warning.long, warning.first),
        basis: warning.source.into(),
        remedies: Vec::new(),
    });
    Some(Section {
        id: "danger".into(),
        title: "Is it safe?".into(),
        grade,
        sentence,
        findings: findings.collect(),
        ..Section::default()
    })
}

/// A danger is the worst that a page shows; a question is unsure.
fn grade(grade: Grade) -> crate::report::Grade {
    if grade == Grade::Danger {
        crate::report::Grade::Bad
    } else {
        crate::report::Grade::Unsure
    }
}
