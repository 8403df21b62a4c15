//! The first sentence: what an old hand would say.

use super::tasks::{TaskContext, not_read, odds};
use super::words::{Words, capital, listed};
use crate::power::{self, Telling};
use crate::report::{Answer, Finding, Grade, Window};
use judge::assess::machine::Supply;
use judge::assess::{Facts, TaskFacts};
use judge::basis::{Basis, CandidateBasis};
use judge::grade::Grade as Air;
use judge::verdict::{AskAir, Why};
use physics::compressor::Claim;
use quantity::{Gauge, number};

/// What the headline is made of.
pub struct Case<'a> {
    /// Units.
    pub words: Words,
    /// The shop.
    pub basis: &'a Basis,
    /// The machine's label.
    pub candidate: &'a CandidateBasis,
    /// The facts.
    pub facts: &'a Facts,
    /// The circuit's finding for each place.
    pub circuits: &'a [Finding],
    /// What to look for.
    pub window: &'a Window,
}

impl<'a> Case<'a> {
    fn all(&self) -> impl Iterator<Item = (usize, &'a TaskFacts)> {
        let places = self.facts.places.iter().enumerate();
        places.flat_map(|(place, facts)| facts.tasks.iter().map(move |task| (place, task)))
    }

    /// The task and place that limit: those of the verdict's worst record; of equals the one that runs longest.
    pub fn worst(&self) -> Option<(usize, &'a TaskFacts)> {
        let rank = |task: &TaskFacts| (task.record.grade, usize::MAX - task.record.done);
        let weight = |task: &TaskFacts| task.record.minutes[1] + task.run.running;
        self.all().max_by(|(_, one), (_, other)| {
            rank(one)
                .cmp(&rank(other))
                .then(weight(one).total_cmp(&weight(other)))
        })
    }

    /// Why the air can't be graded, where it can't.
    fn asks(&self) -> Option<AskAir> {
        self.facts.verdict.as_ref()?.asks
    }

    fn task_name(&self, task: &TaskFacts) -> String {
        self.basis.tasks[task.task].name.clone()
    }

    fn power_at(&self, place: usize) -> Telling<'_> {
        Telling {
            words: self.words,
            place: &self.basis.places[place],
            alone: self.basis.places.len() == 1,
            verdict: &self.facts.places[place].power,
        }
    }

    /// A place's power in a clause, without a stop.
    pub fn power_short(&self, place: usize) -> String {
        let telling = self.power_at(place);
        power::short(&telling, &telling.verdict.cause)
    }

    /// What could hurt somebody goes before all else, with nothing but what puts it right.
    fn dangerous(&self) -> Option<Answer> {
        let places = 0..self.facts.places.len();
        let mut dangers =
            places.filter(|at| self.facts.places[*at].power.grade == judge::grade::Grade::Danger);
        let at = dangers.next()?;
        let telling = self.power_at(at);
        let first = telling.verdict.all().next()?;
        Some(Answer {
            grade: Grade::Bad,
            verdict: format!("Danger{}: put this right first", self.at(at)),
            sentence: power::long(&telling, &first),
            reasons: telling
                .verdict
                .all()
                .skip(1)
                .filter(|found| found.grade == judge::grade::Grade::Danger)
                .map(|found| power::long(&telling, &found))
                .collect(),
        })
    }

    fn place_name(&self, place: usize) -> String {
        self.basis.places[place].name.clone()
    }

    /// "in the Hangar", where there is more than one place to tell apart.
    pub fn at(&self, place: usize) -> String {
        if self.basis.places.len() > 1 {
            format!(" at “{}”", self.place_name(place))
        } else {
            String::new()
        }
    }

    fn context(&self, place: usize, task: &'a TaskFacts) -> Option<TaskContext<'a>> {
        Some(TaskContext {
            words: self.words,
            basis: self.basis,
            candidate: self.candidate,
            place: &self.basis.places[place],
            machine: self.facts.places[place].machine.as_ref()?,
            facts: task,
            is_asked: self.asks().is_some(),
        })
    }

    /// Names of the tasks whose worst grade at any place is as wanted.
    fn names_of(&self, wanted: impl Fn(Air) -> bool) -> Vec<String> {
        let mut worst: Vec<(usize, Air)> = Vec::new();
        for (_, task) in self.all() {
            let grade = task.record.grade;
            match worst.iter_mut().find(|(index, _)| *index == task.task) {
                Some(found) => found.1 = found.1.max(grade),
                None => worst.push((task.task, grade)),
            }
        }
        let wanted = worst.into_iter().filter(|(_, grade)| wanted(*grade));
        wanted
            .map(|(index, _)| self.basis.tasks[index].name.clone())
            .collect()
    }

    /// What it is good for, as a sentence; nothing where there is none.
    fn rest(&self) -> String {
        let good = self.names_of(|grade| grade == Air::Good);
        match good.len() {
            0 => String::new(),
            1..=3 => format!(" Fine for {}.", listed(&good)),
            _ => " Fine for the rest.".into(),
        }
    }

    /// The one thing that limits a task, as a sentence; nothing where nothing does.
    pub fn limit(&self, place: usize, task: &TaskFacts) -> String {
        let machine = self.facts.places[place].machine.as_ref();
        let is_short =
            machine.is_some_and(|machine| task.is_short_of_flow(machine, &self.basis.tasks[task.task]));
        let part = match (task.record.why, task.record.grade) {
            (Some(Why::NotRead(_)), _) => return String::new(),
            (Some(_), _) if task.work.work.enough_pa.is_finite() => "Its switch",
            (Some(_), _) => "The line",
            (None, Air::Good) if task.is_over_duty(self.candidate) => "Its flow",
            (None, Air::Good) if !task.starts_often() => return String::new(),
            (None, _) if is_short => "Its flow",
            _ if !self.candidate.tank_m3.is_given() => {
                let taken = self.words.volume(self.candidate.tank_m3.value);
                return format!(" No tank is given: {taken} was taken.");
            }
            _ => "Its tank",
        };
        format!(" {part} is the limit.")
    }

    /// The place whose circuit is worst, with its finding, where that is no better than `grade`.
    fn thin_power(&self, grade: Grade) -> Option<(usize, &Finding)> {
        let worst = self
            .circuits
            .iter()
            .enumerate()
            .max_by_key(|(_, finding)| finding.grade)?;
        (worst.1.grade >= grade.max(Grade::Unsure)).then_some(worst)
    }

    fn silent(&self) -> Answer {
        Answer {
            grade: Grade::Note,
            verdict: "What to look for".into(),
            sentence: self.window.sentence.clone(),
            reasons: vec!["Type what a label says and read here whether that machine will do.".into()],
        }
    }

    fn empty(&self) -> Answer {
        let lacking = if self.basis.places.is_empty() {
            "no place"
        } else {
            "no task"
        };
        Answer {
            grade: Grade::Unsure,
            verdict: "Nothing to judge".into(),
            sentence: format!("This shop has {lacking}: add one below, and the answer appears here."),
            reasons: Vec::new(),
        }
    }

    fn incredible(&self) -> Option<Answer> {
        let (claim, _, _) = self.facts.claim?;
        (claim == Claim::CannotBe).then(|| Answer {
            grade: Grade::Bad,
            verdict: "Do not believe this label".into(),
            sentence: format!(
                "{} cannot make that much air from {}: no verdict can rest on it.",
                capital(&self.candidate.name),
                self.candidate.amps.map_or_else(String::new, |amps| format!(
                    "{} at {}",
                    self.words.amps(amps),
                    self.words.volts(self.candidate.volts.value)
                ))
            ),
            reasons: vec![self.window.sentence.clone()],
        })
    }

    /// A circuit that does not do, told with what the other places say.
    fn unfed(&self) -> Option<Answer> {
        let bad: Vec<usize> = (0..self.circuits.len())
            .filter(|at| self.circuits[*at].grade == Grade::Bad)
            .collect();
        let first = *bad.first()?;
        let names: Vec<String> = bad
            .iter()
            .map(|at| format!("“{}”", self.place_name(*at)))
            .collect();
        let air = match self.worst().map_or(Air::Ask, |(_, task)| task.record.grade) {
            Air::Good => "its air would be enough",
            Air::Wait => "its air would do, with waits",
            _ => "its air would not be enough either",
        };
        Some(Answer {
            grade: Grade::Bad,
            verdict: if bad.len() == self.circuits.len() {
                "Not on this power".into()
            } else {
                "Not everywhere".into()
            },
            sentence: format!(
                "The power at {} does not run it; {air}: {}.",
                listed(&names),
                self.power_short(first)
            ),
            reasons: std::iter::once(self.circuits[first].text.clone())
                .chain(self.worst_reason())
                .collect(),
        })
    }

    fn worst_reason(&self) -> Vec<String> {
        let Some((place, task)) = self.worst() else {
            return Vec::new();
        };
        let Some(context) = self.context(place, task) else {
            return Vec::new();
        };
        let reason = match task.record.why {
            Some(Why::NotRead(_)) => return Vec::new(),
            Some(_) => context.sentence(),
            None => format!("{}: {}.", capital(&self.task_name(task)), context.flows()),
        };
        vec![reason]
    }

    /// The odds of what limits, as a sentence.
    fn odds(&self, task: &TaskFacts) -> String {
        format!(
            "“{}”: {}",
            capital(&self.task_name(task)),
            odds(&task.record).replacen("In ", "in ", 1)
        )
    }

    /// A figure of the machine that was refused leaves all of its air open.
    fn unread(&self) -> Option<Answer> {
        let unread = self.candidate.unread_air?;
        Some(Answer {
            grade: Grade::Unsure,
            verdict: "Can’t say yet".into(),
            sentence: not_read(self.basis, unread),
            reasons: vec![self.window.sentence.clone()],
        })
    }

    fn guessed(&self) -> Option<Answer> {
        let [low, high] = self.facts.supply.range()?;
        let (place, task) = self.worst()?;
        let words = self.words;
        let at = words.pressure(Gauge::psi(90.0));
        let flows = format!(
            "{} to {}",
            words.flow(low.rated(Gauge::psi(90.0))),
            words.flow(high.rated(Gauge::psi(90.0)))
        );
        let from = match self.facts.supply {
            Supply::FromSuction(_) => "the air that it takes in",
            Supply::FromAmps(_) => "its amps",
            _ => "its horsepower",
        };
        Some(Answer {
            grade: Grade::Unsure,
            verdict: "Can’t say yet".into(),
            sentence: format!(
                "No flow is given, and {from} may mean anything from {flows} at {at}. {}{}",
                self.odds(task),
                self.at(place)
            ),
            reasons: vec![format!(
                "Find the flow at {at} on the plate or the sheet, then it is one number."
            )],
        })
    }

    /// Grade, verdict and sentence of the air, by what limits.
    fn air(&self, place: usize, task: &TaskFacts) -> (Grade, String, String) {
        let name = self.task_name(task);
        let strain = self
            .context(place, task)
            .map_or_else(String::new, |context| context.strain());
        let strained = task.is_over_duty(self.candidate) || task.starts_often();
        let (at, odds, rest) = (self.at(place), self.odds(task), self.rest());
        match (task.record.why, task.record.grade) {
            (None, Air::Good) if strained => (
                Grade::Fair,
                "Does the job, running hard".into(),
                format!("{odds}{at}{strain}"),
            ),
            (None, Air::Good) => (Grade::Good, "Does the job".into(), format!("{odds}{at}{strain}")),
            (None, Air::Wait) => (
                Grade::Poor,
                format!("Works, expect to wait: {name}"),
                format!("{odds}{at}{rest}"),
            ),
            (None, _) => (
                Grade::Bad,
                format!("Too small for {name}"),
                format!("{odds}{at}{rest}"),
            ),
            (Some(Why::NotRead(unread)), _) => (
                Grade::Unsure,
                "Can’t say yet".into(),
                not_read(self.basis, unread),
            ),
            (Some(Why::NotJudged), _) => (
                Grade::Unsure,
                "Can’t say yet".into(),
                format!("The air line’s figures are out of range, so “{name}” can’t be judged{at}."),
            ),
            (Some(Why::NoPressure | Why::Switch), _) => (
                Grade::Bad,
                format!("Never enough pressure for {name}"),
                format!("“{name}” never gets its pressure{at}.{rest}"),
            ),
        }
    }

    fn judged(&self) -> Option<Answer> {
        let (place, task) = self.worst()?;
        let (grade, verdict, sentence) = self.air(place, task);
        let sentence = format!("{sentence}{}", self.limit(place, task));
        let enough = task.record.grade == Air::Good;
        let mut reasons = self.worst_reason();
        if grade != Grade::Good {
            reasons.push(self.window.sentence.clone());
        }
        let Some((at, circuit)) = self.thin_power(grade) else {
            return Some(Answer {
                grade,
                verdict,
                sentence,
                reasons,
            });
        };
        reasons.insert(0, format!("Power at “{}”: {}", self.place_name(at), circuit.text));
        let thin = match circuit.grade {
            Grade::Unsure => format!("the power at “{}” is not settled", self.place_name(at)),
            _ => format!("power is thin at “{}”", self.place_name(at)),
        };
        let sentence = if enough {
            format!("Its air is enough, but {thin}: {}.", self.power_short(at))
        } else {
            format!("{sentence} And {thin}.")
        };
        let verdict = match (enough, circuit.grade) {
            (false, _) => verdict,
            (true, Grade::Unsure) => "Can’t say yet: settle the power".into(),
            (true, Grade::Fair) => "Does the job; mind the power".into(),
            (true, _) => "Fix the power first".into(),
        };
        Some(Answer {
            grade: circuit.grade,
            verdict,
            sentence,
            reasons,
        })
    }

    /// The same answer with a caveat, where the claimed flow is unlikely.
    fn doubted(&self, answer: Answer) -> Answer {
        let caveat = match self.asks() {
            Some(AskAir::Unlikely) => "If its label is true, which is unlikely for its amps:".to_owned(),
            Some(AskAir::Contradiction) => "If the lower of its two flows is true:".into(),
            Some(AskAir::RunsDiffer(_)) => {
                "The timed runs differ by more than a hand on a stopwatch: time it again. By their mean:"
                    .into()
            }
            Some(AskAir::TimedOverPrint(times)) => format!(
                "Timed, it makes {} times what is printed: look again at clock, gauge and tank. If that is true:",
                number(times, 1)
            ),
            Some(AskAir::Guessed | AskAir::CannotBe) | None => return answer,
        };
        Answer {
            grade: answer.grade.max(Grade::Unsure),
            sentence: format!("{caveat} {}", answer.sentence),
            ..answer
        }
    }

    /// The answer, dangers and open questions before all else.
    pub fn answer(&self) -> Answer {
        let warnings = crate::danger::everywhere(self.words, self.basis, self.candidate);
        let power = self.dangerous();
        match (warnings.first(), power) {
            (Some(first), power) if first.grade == judge::grade::Grade::Danger => Answer {
                grade: Grade::Bad,
                verdict: "Danger".into(),
                sentence: first.short.clone(),
                reasons: [first.long.clone(), first.first.clone()]
                    .into_iter()
                    .chain(power.map(|power| power.sentence))
                    .collect(),
            },
            (Some(first), Some(power)) => Answer {
                reasons: power.reasons.into_iter().chain([first.long.clone()]).collect(),
                ..power
            },
            (None, Some(power)) => power,
            (Some(first), None) => {
                let answer = self.undisturbed();
                let reasons = std::iter::once(first.long.clone()).chain(answer.reasons);
                Answer {
                    grade: answer.grade.max(Grade::Unsure),
                    verdict: answer.verdict,
                    sentence: format!("{} {}", first.short, answer.sentence),
                    reasons: reasons.collect(),
                }
            }
            (None, None) => self.undisturbed(),
        }
    }

    /// The answer where nothing is dangerous.
    fn undisturbed(&self) -> Answer {
        if self.basis.places.is_empty() || !self.basis.tasks.iter().any(|task| task.on) {
            return self.empty();
        }
        self.incredible()
            .or_else(|| {
                if self.facts.supply == Supply::Nothing {
                    None
                } else {
                    self.unfed()
                }
            })
            .or_else(|| self.unread())
            .or_else(|| self.guessed())
            .or_else(|| self.judged().map(|answer| self.doubted(answer)))
            .unwrap_or_else(|| self.silent())
    }
}
