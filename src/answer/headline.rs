//! The first sentence: what an old hand would say.

use super::tasks::{TaskContext, grade as task_grade, verdict};
use super::words::{Words, capital, listed, minutes_in_hour};
use crate::power::{self, Telling};
use crate::report::{Answer, Finding, Grade, Window};
use judge::assess::machine::Supply;
use judge::assess::{Facts, Outcome, TaskFacts, Why};
use judge::basis::{Basis, CandidateBasis};
use physics::compressor::Claim;
use quantity::{Gauge, number};

/// Waiting that nobody would call doing, share of time: a quarter hour in the hour. Common practice, no source.
const TIRESOME: f64 = 0.25;

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

    /// The task and place that limit: the worst outcome, then the longest running.
    pub fn worst(&self) -> Option<(usize, &'a TaskFacts)> {
        let weight = |task: &TaskFacts| task.outcome.severity() * 10.0 + task.waits.running;
        self.all()
            .max_by(|(_, one), (_, other)| weight(one).total_cmp(&weight(other)))
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
        })
    }

    /// Names of the tasks whose worst outcome at any place is as wanted.
    fn names_of(&self, wanted: impl Fn(f64) -> bool) -> Vec<String> {
        let mut worst: Vec<(usize, f64)> = Vec::new();
        for (_, task) in self.all() {
            let severity = task.outcome.severity();
            match worst.iter_mut().find(|(index, _)| *index == task.task) {
                Some(found) => found.1 = found.1.max(severity),
                None => worst.push((task.task, severity)),
            }
        }
        let wanted = worst.into_iter().filter(|(_, severity)| wanted(*severity));
        wanted
            .map(|(index, _)| self.basis.tasks[index].name.clone())
            .collect()
    }

    /// What it keeps up with everywhere, as the end of a sentence; nothing where there is none.
    fn rest(&self) -> String {
        let rest = self.names_of(|severity| severity < 2.0);
        let others = self.names_of(|severity| severity >= 2.0).len();
        let worst = self.worst().map_or(0.0, |(_, task)| task.outcome.severity());
        match (rest.len(), others) {
            (0, _) => String::new(),
            (1..=3, _) => format!("; it keeps up with {}", listed(&rest)),
            (_, 1) => "; it keeps up with all else".into(),
            (_, _) if worst < 4.0 => match &self.names_of(|severity| severity >= 2.0 && severity < worst)[..]
            {
                slower @ ([_] | [_, _]) => {
                    let make = if slower.len() == 1 { "makes" } else { "make" };
                    format!("; {} {make} you wait too, all else keeps up", listed(slower))
                }
                _ => format!("; it keeps up with {} of the other tasks", rest.len()),
            },
            (kept, _) => format!("; it keeps up with {kept} of the other tasks"),
        }
    }

    /// The one thing that limits a task, as a sentence; nothing where nothing does.
    pub fn limit(&self, place: usize, task: &TaskFacts) -> String {
        let asked = task.work.asked_kg_s * self.basis.tasks[task.task].rhythm.long_share();
        let made = self.facts.places[place]
            .machine
            .as_ref()
            .map_or(0.0, |machine| machine.delivery.at(machine.mid_band_pa()));
        let part = match task.outcome {
            Outcome::KeepsUp => return String::new(),
            Outcome::WillNot(Why::Line) => "The line",
            Outcome::WillNot(Why::CutOut) => "Its switch",
            Outcome::RunsHard if task.waits.running > self.candidate.duty.value => "Its flow",
            Outcome::Waits(_) | Outcome::WillNot(_) if asked > 0.97 * made => "Its flow",
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
        let air = match self.worst().map_or(0.0, |(_, task)| task.outcome.severity()) {
            severity if severity < 2.0 => "its air would be enough",
            severity if severity < 4.0 => "its air would do, with waits",
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
        let reason = match task.outcome {
            Outcome::WillNot(Why::Line | Why::CutOut) => context.sentence(),
            _ => format!("{}: {}.", capital(&self.task_name(task)), context.flows()),
        };
        vec![reason]
    }

    fn guessed(&self) -> Option<Answer> {
        let [low, high] = self.facts.supply.range()?;
        let (place, task) = self.worst()?;
        let [at_low, at_high] = task.range?;
        let words = self.words;
        let at = words.pressure(Gauge::psi(90.0));
        let flows = format!(
            "{} to {}",
            words.flow(low.rated(Gauge::psi(90.0))),
            words.flow(high.rated(Gauge::psi(90.0)))
        );
        let from = match self.facts.supply {
            Supply::FromAmps(_) => "its amps",
            _ => "its horsepower",
        };
        let name = self.task_name(task);
        let (grade, verdict_words, ends) = if verdict(at_low) == verdict(at_high) {
            (
                task_grade(at_low),
                "Likely the same either way".to_owned(),
                format!("either way “{name}” {}", verdict(at_low)),
            )
        } else {
            (
                Grade::Unsure,
                "Cannot say yet".to_owned(),
                format!(
                    "at the low end “{name}” means {}, at the high end {}",
                    verdict(at_low),
                    verdict(at_high)
                ),
            )
        };
        Some(Answer {
            grade: grade.max(Grade::Unsure),
            verdict: verdict_words,
            sentence: format!(
                "No flow is given, and {from} may mean anything from {flows} at {at}: {ends}{}.",
                self.at(place)
            ),
            reasons: vec![format!(
                "Find the flow at {at} on the plate or the sheet, then it is one number."
            )],
        })
    }

    fn judged(&self) -> Option<Answer> {
        let (place, task) = self.worst()?;
        let words = self.words;
        let name = self.task_name(task);
        let rest = self.rest();
        let running = words.share(task.waits.running);
        let (verdict, sentence) = match task.outcome {
            Outcome::KeepsUp => (
                "It will do",
                format!(
                    "It keeps up with everything; the hardest, “{name}”, runs it {running} of the time{}.",
                    self.at(place)
                ),
            ),
            Outcome::RunsHard if task.waits.running > self.candidate.duty.value => (
                "It will do, running hard",
                format!(
                    "It never stops you, but “{name}” runs it {} of the time{}: more than a duty of {}.",
                    words.share_beyond(task.waits.running, self.candidate.duty.value),
                    self.at(place),
                    words.share(self.candidate.duty.value)
                ),
            ),
            Outcome::RunsHard => (
                "It will do, starting often",
                format!(
                    "It never stops you, but “{name}” starts it {} times an hour{}: its tank is small for that.",
                    number(task.waits.starts_per_hour, 0),
                    self.at(place)
                ),
            ),
            Outcome::Waits(share) => (
                if share > TIRESOME {
                    "Too slow for the hardest"
                } else {
                    "It will do, with waits"
                },
                format!(
                    "“{}” stops you {} minutes in the hour{}{}.",
                    capital(&name),
                    minutes_in_hour(share),
                    self.at(place),
                    rest
                ),
            ),
            Outcome::WillNot(_) => {
                let lost = self.names_of(|severity| severity >= 4.0);
                let lost = if lost.len() > 3 {
                    format!("{} of the tasks", lost.len())
                } else {
                    listed(&lost)
                };
                ("It will not do", format!("It is not up to {lost}{rest}."))
            }
        };
        let sentence = format!("{sentence}{}", self.limit(place, task));
        let grade = task_grade(task.outcome);
        let mut reasons = self.worst_reason();
        if task.outcome != Outcome::KeepsUp {
            reasons.push(self.window.sentence.clone());
        }
        let Some((at, circuit)) = self.thin_power(grade) else {
            return Some(Answer {
                grade,
                verdict: verdict.into(),
                sentence,
                reasons,
            });
        };
        reasons.insert(0, format!("Power at “{}”: {}", self.place_name(at), circuit.text));
        let thin = match circuit.grade {
            Grade::Unsure => format!("the power at “{}” is not settled", self.place_name(at)),
            _ => format!("power is thin at “{}”", self.place_name(at)),
        };
        let sentence = if task.outcome.severity() < 2.0 {
            format!("Its air is enough, but {thin}: {}.", self.power_short(at))
        } else {
            format!("{sentence} And {thin}.")
        };
        let verdict = match (task.outcome.severity() < 2.0, circuit.grade) {
            (false, _) => verdict,
            (true, Grade::Unsure) => "Can't say yet: settle the power",
            (true, Grade::Fair) => "It will do; mind the power",
            (true, _) => "Mend the power first",
        };
        Some(Answer {
            grade: circuit.grade,
            verdict: verdict.into(),
            sentence,
            reasons,
        })
    }

    /// The same answer with a caveat, where the claimed flow is unlikely.
    fn doubted(&self, answer: Answer) -> Answer {
        if !self
            .facts
            .claim
            .is_some_and(|(claim, _, _)| claim == Claim::Unlikely)
        {
            return answer;
        }
        Answer {
            grade: answer.grade.max(Grade::Unsure),
            sentence: format!(
                "If its label is true, which is unlikely for its amps: {}",
                answer.sentence
            ),
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
            .or_else(|| self.guessed())
            .or_else(|| self.judged().map(|answer| self.doubted(answer)))
            .unwrap_or_else(|| self.silent())
    }
}
