//! The first three lines: the sentence, the odds, what to do next.
//!
//! Danger, power and air each say their piece as a [`Ground`]; the headline is the gravest of them, and names it. Nothing is
//! judged here: the grades are those of `judge`.

mod air;
mod ask;
mod ground;

use crate::danger::Warning;
use crate::power::{self, Said, Telling};
use crate::report::Answer;
use crate::words::Words;
pub use ground::Ground;
use judge::assess::{Facts, PlaceFacts, STARTS_MOST};
use judge::basis::{Basis, CandidateBasis};
use judge::grade::Grade;
use judge::paint::Coat;
use judge::power::{Cause, stays_home};
use judge::verdict::{Record, Verdict};
use judge::window::Window;
use quantity::number;
use std::cmp::Reverse;

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
    /// What the rest of a breaker's load does beside the machine.
    pub beside: Option<String>,
    /// That the outlet runs it, where one was told: a reader who told of it hears that it was not for nothing.
    pub fine: Option<String>,
    /// Where a generator belongs, if nobody said where it stands.
    pub outdoors: Option<String>,
    /// What the painter breathes, where it holds a coat.
    pub breathing: Option<String>,
    /// Whether it holds its coats.
    pub coats: &'a [Coat],
    /// What to look for.
    pub window: Option<&'a Window>,
}

impl<'a> Case<'a> {
    /// The gravest ground, with the air's clause where another one leads.
    fn ground(&self) -> Ground {
        let air = self.air();
        let Some(warning) = self.gravest_other() else {
            return self.with_musts(air);
        };
        let ground = if warning.grade == Grade::Danger {
            return warning.into();
        } else if warning.id == "line" && warning.grade >= air.grade {
            Ground {
                odds: air.odds,
                ..Ground::from(warning)
            }
        } else if warning.grade > air.grade {
            self.with_air(warning, &air)
        } else if air.grade <= Grade::Wait {
            Ground {
                more: self.minded(warning),
                ..air
            }
        } else {
            let mut air = air;
            air.also.extend(self.beside.clone().or(self.fine.clone()));
            air
        };
        self.with_musts(ground)
    }

    /// What else is to be minded, the gravest first: what has no room stands with its side.
    fn minded(&self, gravest: &Warning) -> Vec<String> {
        let others = self.warnings.iter().chain(self.power);
        let mut minded: Vec<String> = Vec::new();
        for warning in std::iter::once(gravest).chain(others) {
            if !warning.first.is_empty() && !minded.contains(&warning.first) {
                minded.push(warning.first.clone());
            }
        }
        minded
    }

    /// The air as it is told beside the power: the hose, where that is the limit.
    fn air_alone(&self) -> Ground {
        let air = self.air();
        let line = self.warnings.iter().find(|warning| warning.id == "line");
        match line.filter(|line| line.grade >= air.grade) {
            Some(line) => Ground {
                odds: air.odds,
                ..Ground::from(line)
            },
            None => air,
        }
    }

    /// With what could hurt somebody: where the air leads, or nothing is against it, what the painter breathes as well.
    fn with_musts(&self, ground: Ground) -> Ground {
        let breathes = self.breathing.clone();
        let sprays = ground.grade <= Grade::Wait || ground.grade == Grade::Small;
        let (must, more) = match sprays {
            true => (breathes, None),
            false => (None, breathes),
        };
        Ground {
            must: self.outdoors.iter().cloned().chain(must).collect(),
            more: more.into_iter().chain(ground.more).collect(),
            ..ground
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
        let power = self
            .power
            .iter()
            .find(|power| power.grade == Grade::Good && !power.first.is_empty());
        let more = power.filter(|_| warning.id != "power");
        Ground {
            also: vec![self.air_clause(air.grade)],
            more: more.map(|power| power.first.clone()).into_iter().collect(),
            ..Ground::from(warning)
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
    warnings.extend(wear(candidate, facts));
    warnings.extend(cares(words, basis, candidate));
    let coats = judge::paint::coats(basis, candidate, facts);
    warnings.extend(said_of_coats(words, basis, &coats));
    warnings.extend(crate::water::humid(basis).then(|| {
        let first = "Drain it every day; trap at the bench end.";
        care("drain", Grade::Good, ["", "", first].map(String::from))
    }));
    warnings.extend(limit_of_line(words, basis, candidate, facts));
    quantity::order::by_key(&mut warnings, |warning| Reverse(warning.grade));
    let outdoors = outdoors(words, basis, facts);
    let case = Case {
        words,
        basis,
        candidate,
        facts,
        verdict: facts.verdict.as_ref(),
        warnings: &warnings,
        power: &power,
        beside: beside(words, basis, facts),
        fine: fine(basis, facts),
        outdoors: outdoors.clone(),
        breathing: breathing(&coats),
        coats: &coats,
        window,
    };
    let told = power.iter().zip(&facts.places).rev();
    let told = told.map(|(warning, found)| Ground {
        grade: found.power.told_grade(),
        must: outdoors.clone().into_iter().collect(),
        ..Ground::from(warning)
    });
    let gravest = told.max_by_key(|ground| ground.grade).unwrap_or_default();
    Advice {
        answer: case.ground().into(),
        air: case.air_alone().into(),
        power: gravest.into(),
    }
}

/// The power at each place, as a warning: the worst that was found there, with the first advice on anything so grave.
fn power_of(words: Words, basis: &Basis, facts: &Facts) -> Vec<Warning> {
    let warning = |(telling, found): (Telling, &PlaceFacts)| {
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
    power::tellings(words, basis, facts).map(warning).collect()
}

/// What the rest of a breaker's load does beside the machine, at the first place where it does.
fn beside(words: Words, basis: &Basis, facts: &Facts) -> Option<String> {
    let mut tellings = power::tellings(words, basis, facts);
    tellings.find_map(|(telling, _)| power::aside(&telling))
}

/// That the only outlet runs it, where its breaker was told and the plate's amps are printed.
fn fine(basis: &Basis, facts: &Facts) -> Option<String> {
    let ([place], [found]) = (&basis.places[..], &facts.places[..]) else {
        return None;
    };
    let told = place.breaker_a.is_given() && !found.power.is_untold();
    (told && found.power.grade == Grade::Good).then(|| "Your outlet runs it.".into())
}

/// Where a generator belongs, if nobody said where one stands.
fn outdoors(words: Words, basis: &Basis, facts: &Facts) -> Option<String> {
    let mut comes = power::tellings(words, basis, facts).filter(|(_, found)| !found.stays_home());
    comes.find_map(|(telling, _)| telling.outdoors())
}

/// What the painter breathes, where this machine holds a coat.
fn breathing(coats: &[Coat]) -> Option<String> {
    let held = coats.iter().find(|coat| coat.grade < Grade::Small)?;
    Some(crate::paint::breathing_in_short(held).into())
}

/// A motor that starts more often than such a motor stands: the tank is small for the pump.
///
/// Said where nobody waits: a machine that is short of air has worse to be told.
fn wear(candidate: &CandidateBasis, facts: &Facts) -> Option<Warning> {
    let places = facts.places.iter().enumerate();
    let worn = places.filter(|(place, _)| facts.starts_too_often(candidate, *place));
    let starts = worn.map(|(_, found)| found.most_starts()).reduce(f64::max)?;
    Some(Warning {
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

/// "a 20 gal", "an 80 gal".
fn with_article(figure: &str) -> String {
    let article = if figure.starts_with('8') { "an" } else { "a" };
    format!("{article} {figure}")
}

/// "4 cfm or more on a 20 gal tank".
pub fn look_for(words: Words, basis: &Basis, window: Option<&Window>) -> String {
    let usual = judge::window::usual(basis).cut_out;
    let beside = match basis.auxiliary {
        Some(tank) if tank.may_join(usual) => " beside the second one",
        _ => "",
    };
    window.map_or_else(
        || "a two-stage shop compressor".into(),
        |window| {
            format!(
                "{} or more on {} tank{beside}",
                words.flow_enough(window.flow),
                with_article(&words.volume_enough(window.tank_m3))
            )
        },
    )
}

/// A shut box and the cold, where either makes it run badly.
fn cares(words: Words, basis: &Basis, candidate: &CandidateBasis) -> Vec<Warning> {
    let mut found = Vec::new();
    let places = basis.places.iter().enumerate();
    for (_, place) in places.filter(|(index, place)| !stays_home(candidate, place, *index)) {
        match judge::boxed::boxed(candidate, place) {
            Ok(Some(boxed)) => found.push(care("box", boxed.grade, crate::boxed::said(words, &boxed))),
            Ok(None) => {}
            Err(error) => {
                let said = [
                    "Can’t say yet whether it stays cool in that box.".into(),
                    format!("What the box does can’t be said yet: {error}."),
                    "Check the figures of motor, box and fan.".into(),
                ];
                found.push(care("box", Grade::Ask, said));
            }
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
fn said_of_coats(words: Words, basis: &Basis, coats: &[Coat]) -> Vec<Warning> {
    let said = coats.iter().map(|coat| {
        let said = crate::paint::painting(words, basis, coat);
        let first = crate::paint::first_in_short(coat);
        care("paint", coat.grade, [said.short, said.long, first])
    });
    said.collect()
}

/// The hose, or the pressure that a tool needs, where that limits and not the machine.
fn limit_of_line(words: Words, basis: &Basis, candidate: &CandidateBasis, facts: &Facts) -> Option<Warning> {
    let link = crate::line::advice::limit(words, basis, candidate, facts)?;
    let worst = facts.verdict.as_ref()?.worst()?;
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
