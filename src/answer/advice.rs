//! The first three lines: the sentence, the odds, what to do next.
//!
//! Danger, power and air each say their piece as a [`Ground`]; the headline is the gravest of them, and names it. Nothing is
//! judged here: the grades are those of `judge`.

mod air;
mod ask;

use crate::danger::Warning;
use crate::power::{self, Said, Telling};
use crate::report::Answer;
use crate::words::Words;
use judge::assess::{Facts, PlaceFacts, STARTS_MOST};
use judge::basis::{Basis, CandidateBasis};
use judge::grade::Grade;
use judge::power::{Cause, stays_home};
use judge::verdict::{Record, Verdict};
use judge::window::Window;
use quantity::number;
use std::cmp::Reverse;

/// What one side says, and how grave that is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ground {
    /// How grave.
    pub grade: Grade,
    /// The sentence, or two.
    pub sentence: String,
    /// How sure, or why: a sentence; may be blank.
    pub odds: String,
    /// What to do next.
    pub next: String,
}

impl From<&Warning> for Ground {
    fn from(warning: &Warning) -> Self {
        Self {
            grade: warning.grade,
            sentence: warning.short.clone(),
            odds: String::new(),
            next: warning.first.clone(),
        }
    }
}

/// What is to be done where nothing is.
const AS_IS: &str = "Works as is.";

/// What to do about the air, and what else to mind; where nothing is to be done about the air, that alone.
fn after(air: &Ground, more: &str) -> String {
    match (air.grade, more) {
        (_, "") => air.next.clone(),
        (Grade::Good, more) if air.next == AS_IS => more.into(),
        (_, more) => format!("{} {more}", air.next),
    }
}

/// First lines stay under so many words: they are read in an aisle. Judgement.
const ROOM_WORDS: usize = 40;

/// Whether a ground stays short with this to do next.
fn fits(ground: &Ground, next: &str) -> bool {
    let words = |text: &str| text.split_whitespace().count();
    words(&ground.sentence) + words(&ground.odds) + words(next) < ROOM_WORDS
}

/// A ground as the page is told it.
impl From<Ground> for Answer {
    fn from(ground: Ground) -> Self {
        Self {
            grade: mark(ground.grade),
            verdict: verdict(ground.grade).into(),
            sentence: ground.sentence,
            standing: ground.grade,
            odds: ground.odds,
            next: ground.next,
        }
    }
}

/// The mark that the page sets beside a grade.
pub fn mark(grade: Grade) -> crate::report::Grade {
    power::page_grade(grade)
}

/// A grade in a word or two.
pub fn verdict(grade: Grade) -> &'static str {
    match grade {
        Grade::Good => "Does the job",
        Grade::Wait => "Works, with waits",
        Grade::Trip => "Mind the power",
        Grade::Ask => "Can’t say yet",
        Grade::Small => "Too small",
        Grade::Outlet => "Not on this outlet",
        Grade::Danger => "Danger",
    }
}

/// What the headline is made of.
pub struct Case<'a> {
    /// Units.
    pub words: Words,
    /// The shop.
    pub basis: &'a Basis,
    /// The machine's label.
    pub candidate: &'a CandidateBasis,
    /// Its facts.
    pub facts: &'a Facts,
    /// Its air; `None` where there is no flow that can be, no place or no task.
    pub verdict: Option<&'a Verdict>,
    /// Dangers and cares, the gravest first.
    pub warnings: &'a [Warning],
    /// Its power at each place.
    pub power: &'a [Warning],
    /// What to look for.
    pub window: Option<&'a Window>,
}

impl<'a> Case<'a> {
    /// The gravest ground, with the air's clause where another one leads.
    fn ground(&self) -> Ground {
        let air = self.air();
        match self.gravest_other() {
            Some(warning) if warning.grade == Grade::Danger => warning.into(),
            Some(warning) if warning.id == "line" && warning.grade >= air.grade => Ground {
                odds: air.odds,
                ..Ground::from(warning)
            },
            Some(warning) if warning.grade > air.grade => self.with_air(warning, &air),
            Some(warning) if air.grade <= Grade::Wait => {
                let short = Ground {
                    next: self.next_in_short(&air),
                    ..air.clone()
                };
                let ways = [after(&air, &warning.first), after(&short, &warning.first)];
                let next = ways.into_iter().find(|next| fits(&air, next));
                // What a full breaker wants stands with the power, too.
                let or_else = match (warning.id, warning.grade) {
                    ("power", Grade::Good) => short.next.clone(),
                    _ => after(&short, &warning.first),
                };
                Ground {
                    next: next.unwrap_or(or_else),
                    ..air
                }
            }
            _ => air,
        }
    }

    /// The gravest that is not air: a danger or a care before power of the same grade.
    fn gravest_other(&self) -> Option<&'a Warning> {
        let all = self.warnings.iter().chain(self.power);
        all.rev()
            .max_by_key(|warning| (warning.grade, !warning.first.is_empty()))
    }

    /// Another side leads: its fact goes first, the air's clause behind it; what a full breaker wants is said with a care.
    fn with_air(&self, warning: &Warning, air: &Ground) -> Ground {
        let ground = Ground::from(warning);
        let clause = self.air_clause(air.grade);
        let power = self
            .power
            .iter()
            .find(|power| power.grade == Grade::Good && !power.first.is_empty());
        let more = power
            .filter(|_| warning.id != "power")
            .map_or("", |power| &power.first);
        let led = Ground {
            sentence: format!("{} {clause}", ground.sentence).trim_end().to_owned(),
            ..ground
        };
        let next = format!("{} {more}", led.next).trim_end().to_owned();
        // What has no room here stands with the power.
        match fits(&led, &next) {
            true => Ground { next, ..led },
            false => led,
        }
    }

    /// The record that decides, if any.
    pub fn worst(&self) -> Option<&'a Record> {
        self.verdict.and_then(Verdict::worst)
    }
}

/// What is said first, and of air and power apart.
pub struct Advice {
    /// The headline: the gravest of all sides.
    pub answer: Answer,
    /// The air alone.
    pub air: Answer,
    /// The power alone, at the place where it is gravest.
    pub power: Answer,
}

/// The advice on a machine in a shop.
pub fn advice(
    words: Words,
    basis: &Basis,
    candidate: &CandidateBasis,
    facts: &Facts,
    window: Option<&Window>,
) -> Advice {
    let power = power_of(words, basis, facts);
    let mut warnings = crate::danger::everywhere(words, basis, candidate);
    warnings.extend(wear(facts));
    warnings.extend(cares(words, basis, candidate));
    warnings.extend(coats(words, basis, candidate, facts));
    warnings.extend(limit_of_line(words, basis, candidate, facts));
    quantity::order::by_key(&mut warnings, |warning| Reverse(warning.grade));
    let case = Case {
        words,
        basis,
        candidate,
        facts,
        verdict: facts.verdict.as_ref(),
        warnings: &warnings,
        power: &power,
        window,
    };
    let gravest = power.iter().rev().max_by_key(|warning| warning.grade);
    Advice {
        answer: case.ground().into(),
        air: case.air().into(),
        power: gravest.map(Ground::from).unwrap_or_default().into(),
    }
}

/// The power at each place, as a warning: the worst that was found there, with the first advice on anything so grave.
fn power_of(words: Words, basis: &Basis, facts: &Facts) -> Vec<Warning> {
    let places = basis.places.iter().zip(&facts.places);
    let warning = |(place, found): (_, &PlaceFacts)| {
        let telling = Telling {
            words,
            place,
            alone: basis.places.len() == 1,
            verdict: &found.power,
        };
        let as_grave = found.power.all().filter(|one| one.grade == found.power.grade);
        let said: Vec<Said> = as_grave.map(|one| power::long(&telling, &one)).collect();
        let first_of = |of: fn(&Said) -> &String| {
            said.iter()
                .map(of)
                .find(|text| !text.is_empty())
                .cloned()
                .unwrap_or_default()
        };
        let kinder = found
            .power
            .all()
            .find(|one| matches!(one.cause, Cause::KinderCord(_)));
        let kinder = kinder.map(|one| power::long(&telling, &one).advice);
        let first = first_of(|said| &said.advice);
        let first = match kinder {
            Some(kinder) if !first.contains(&kinder) => format!("{first} {kinder}").trim().to_owned(),
            _ => first,
        };
        Warning {
            grade: found.power.grade,
            id: "power",
            long: said.first().map(Said::whole).unwrap_or_default(),
            short: first_of(|said| &said.fact),
            first,
            source: "",
        }
    };
    places.map(warning).collect()
}

/// A motor that starts more often than such a motor stands: the tank is small for the pump.
///
/// Said where nobody waits: a machine that is short of air has worse to be told.
fn wear(facts: &Facts) -> Option<Warning> {
    let worst = facts.verdict.as_ref()?.worst()?;
    if worst.grade != Grade::Good {
        return None;
    }
    let tasks = facts.places.iter().flat_map(|place| &place.tasks);
    let starts = tasks.map(|task| task.run.starts_per_hour).fold(0.0, f64::max);
    (starts > STARTS_MOST).then(|| Warning {
        grade: Grade::Trip,
        id: "starts",
        short: format!(
            "Its motor starts too often on so small a tank: {} times an hour.",
            number(starts, 0)
        ),
        long: format!(
            "A small motor stands about {} starts an hour.",
            number(STARTS_MOST, 0)
        ),
        first: "Add a second tank, or an unloader for constant run.".into(),
        source: "rule of thumb",
    })
}

/// "4 cfm or more on a 20 gal tank".
pub fn look_for(words: Words, window: Option<&Window>) -> String {
    window.map_or_else(
        || "a two-stage shop compressor".into(),
        |window| {
            format!(
                "{} or more on a {} tank",
                words.flow_enough(window.flow),
                words.volume_enough(window.tank_m3)
            )
        },
    )
}

/// A shut box and the cold, where either makes it run badly.
fn cares(words: Words, basis: &Basis, candidate: &CandidateBasis) -> Vec<Warning> {
    let mut found = Vec::new();
    let places = basis.places.iter().enumerate();
    for (_, place) in places.filter(|(index, place)| !stays_home(candidate, place, *index)) {
        // A box beyond the sums is told among the subjects.
        if let Ok(Some(boxed)) = judge::boxed::boxed(candidate, place) {
            let [short, long, first] = crate::boxed::said(words, &boxed);
            found.push(care("box", boxed.grade, [short, long, first]));
        }
        if let Some(cold) = judge::cold::cold(candidate, place) {
            let [short, long] = crate::cold::said(words, place, &cold);
            let first = crate::cold::first_in_short(&cold).into();
            found.push(care("cold", cold.grade, [short, long, first]));
        }
    }
    found
}

/// What spraying asks for: another machine where the gun fades, clean and dry air where it does not.
fn coats(words: Words, basis: &Basis, candidate: &CandidateBasis, facts: &Facts) -> Vec<Warning> {
    let coats = judge::paint::coats(basis, candidate, facts);
    let said = coats.iter().map(|coat| {
        let said = crate::paint::painting(words, basis, coat);
        let first = crate::paint::first_in_short(words, coat);
        care("paint", coat.grade, [said.short, said.long, first])
    });
    said.collect()
}

/// The hose, or the pressure that a tool needs, where that limits and not the machine.
fn limit_of_line(words: Words, basis: &Basis, candidate: &CandidateBasis, facts: &Facts) -> Option<Warning> {
    let worst = facts
        .verdict
        .as_ref()?
        .worst()
        .filter(|record| record.grade > Grade::Good)?;
    // A line that the sums refuse is told at its field.
    let Ok(Some(weakest)) = judge::line::weakest(basis, candidate, worst.place, worst.task) else {
        return None;
    };
    let link = crate::line::advice::link(words, basis.tasks.get(worst.task)?, &weakest)?;
    Some(care("line", worst.grade, [link.short, link.long, link.first]))
}

fn care(id: &'static str, grade: Grade, [short, long, first]: [String; 3]) -> Warning {
    Warning {
        grade,
        id,
        short,
        long,
        first,
        source: "",
    }
}
