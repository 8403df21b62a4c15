//! How one candidate stands to another, figure by figure: a tie, a trade, or beaten in all that is known.

use crate::report::{Finding, Grade};
use crate::sound;
use crate::words::listed;
use judge::assess::machine::Supply;
use judge::assess::{Facts, PlaceFacts};
use judge::basis::{Basis, CandidateBasis};
use judge::power::Load;
use physics::compressor::Claim;

/// A task at a place in steps that somebody would notice: shops of ten in which it is not done, minutes of waiting in the
/// hour, twentieths of running.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Air {
    task: usize,
    undone: f64,
    minutes: f64,
    running: f64,
}

/// What is known of a candidate, rounded as it is shown, so that a tie is a tie to the reader too; lower is better.
/// `None` is not on the label, or rests on a guess.
#[derive(Clone, Debug, PartialEq)]
pub struct Known {
    air: Option<Vec<Air>>,
    circuits: Option<Vec<Grade>>,
    /// At the ears in a bare garage, dBA.
    pub sound_db: Option<f64>,
    /// The same, also where the distance at which it was stated is taken: for an order, not for a verdict.
    pub sound_shown_db: Option<f64>,
    /// kg.
    pub mass_kg: Option<f64>,
    /// In the shop's money.
    pub price: Option<f64>,
}

/// How one figure of a candidate stands to another's.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Stands {
    Unknown,
    Same,
    Better,
    Worse,
    /// Better in a part and worse in another.
    Mixed,
}

/// Each figure's name, and what one says of the candidate that is better and worse in it.
const FIGURES: [(&str, &str, &str); 5] = [
    ("air", "does more", "does less"),
    ("power", "asks less of the power", "asks more of the power"),
    ("sound", "is quieter", "is louder"),
    ("weight", "is lighter", "is heavier"),
    ("price", "costs less", "costs more"),
];
/// Said of air where it is better at some tasks and worse at others.
const MIXED: &str = "does more at some tasks and less at others";

impl Known {
    /// What may be held against others: no guess, no doubted claim, nothing taken for a blank.
    pub fn of(basis: &Basis, candidate: &CandidateBasis, facts: &Facts, circuits: &[Finding]) -> Self {
        let doubted = matches!(facts.claim, Some((Claim::CannotBe | Claim::Unlikely, _, _)));
        let stated = !matches!(
            facts.supply,
            Supply::FromSuction(_) | Supply::FromAmps(_) | Supply::FromHorsepower(_) | Supply::Nothing
        );
        let plate = |place: &PlaceFacts| place.power.load.as_ref().is_some_and(Load::printed);
        let grades = || circuits.iter().map(|finding| finding.grade);
        let read = candidate.volts.is_given() && facts.places.iter().all(plate);
        let at_given = candidate.sound.is_some_and(|(_, at)| at.is_given());
        Self {
            air: (stated && !doubted && candidate.tank_m3.is_given()).then(|| air(candidate, facts)),
            circuits: (read && grades().all(|grade| grade != Grade::Unsure)).then(|| grades().collect()),
            sound_db: sound::loudest_db(basis, candidate)
                .filter(|_| at_given)
                .map(f64::round),
            sound_shown_db: sound::loudest_db(basis, candidate).map(f64::round),
            mass_kg: candidate.mass_kg,
            price: candidate.price,
        }
    }

    /// The worst task: shops in which it is not done, then waiting, then running.
    pub fn hardest(&self) -> Option<f64> {
        let tasks = self.air.iter().flatten();
        tasks
            .map(|task| task.undone * 1_000.0 + task.minutes * 10.0 + task.running)
            .reduce(f64::max)
    }

    /// Minutes of waiting at the worst task.
    pub fn waiting(&self) -> Option<f64> {
        let tasks = self.air.iter().flatten();
        tasks.map(|task| task.minutes).reduce(f64::max)
    }

    /// The worst of its circuits.
    pub fn circuit(&self) -> Option<f64> {
        let grades = self.circuits.iter().flatten();
        grades.map(|grade| f64::from(*grade as u8)).reduce(f64::max)
    }

    fn air_against(&self, other: &Self) -> Stands {
        let (Some(one), Some(other)) = (&self.air, &other.air) else {
            return Stands::Unknown;
        };
        if one.len() != other.len() || one.iter().zip(other).any(|(a, b)| a.task != b.task) {
            return Stands::Unknown;
        }
        // How long the motor runs counts only where both do the task, how long one waits where the odds are the same.
        let figures = one.iter().zip(other).flat_map(|(one, other)| {
            let waits = if one.undone == other.undone {
                (one.minutes, other.minutes)
            } else {
                (0.0, 0.0)
            };
            let runs = if one.undone.max(other.undone) > 0.0 {
                (0.0, 0.0)
            } else {
                (one.running, other.running)
            };
            [(one.undone, other.undone), waits, runs]
        });
        stands(figures)
    }

    /// Figure by figure, in the order of [`FIGURES`].
    fn against(&self, other: &Self) -> [Stands; 5] {
        let of = |grade: &Grade| f64::from(*grade as u8);
        let circuits = match (&self.circuits, &other.circuits) {
            (Some(one), Some(other)) => stands(one.iter().map(of).zip(other.iter().map(of))),
            _ => Stands::Unknown,
        };
        let single = |one: Option<f64>, other: Option<f64>| match one.zip(other) {
            Some(pair) => stands(std::iter::once(pair)),
            None => Stands::Unknown,
        };
        [
            self.air_against(other),
            circuits,
            single(self.sound_db, other.sound_db),
            single(self.mass_kg, other.mass_kg),
            single(self.price, other.price),
        ]
    }

    /// How this one stands to another in all that is known of both.
    pub fn relation(&self, other: &Self) -> Relation {
        let found = self.against(other);
        let pairs = || FIGURES.iter().zip(found);
        let told = |wanted: Stands, word: fn(&(&'static str, &'static str, &'static str)) -> &'static str| {
            let pairs = pairs().filter(move |(_, stands)| *stands == wanted);
            pairs
                .map(|(figure, _)| word(figure).to_owned())
                .collect::<Vec<_>>()
        };
        let mut better = told(Stands::Better, |figure| figure.1);
        if found.contains(&Stands::Mixed) {
            better.insert(0, MIXED.into());
        }
        Relation {
            better,
            worse: told(Stands::Worse, |figure| figure.2),
            unknown: told(Stands::Unknown, |figure| figure.0),
        }
    }
}

fn air(candidate: &CandidateBasis, facts: &Facts) -> Vec<Air> {
    let tasks = facts.places.iter().flat_map(|place| &place.tasks);
    tasks
        .map(|task| Air {
            task: task.task,
            undone: 10.0 - task.record.done_tenths() as f64,
            minutes: task.record.minutes[1].round(),
            running: (task.run.running / candidate.duty.value * 20.0).round() / 20.0,
        })
        .collect()
}

fn stands(pairs: impl Iterator<Item = (f64, f64)>) -> Stands {
    let (mut better, mut worse) = (false, false);
    for (one, other) in pairs {
        better |= one < other;
        worse |= one > other;
    }
    match (better, worse) {
        (false, false) => Stands::Same,
        (true, false) => Stands::Better,
        (false, true) => Stands::Worse,
        (true, true) => Stands::Mixed,
    }
}

/// What one has over another, what it lacks, and what is not known of both.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Relation {
    /// "costs less".
    pub better: Vec<String>,
    /// "is louder".
    pub worse: Vec<String>,
    /// "sound".
    pub unknown: Vec<String>,
}

impl Relation {
    /// Nothing that both state tells them apart.
    pub fn tie(&self) -> bool {
        self.better.is_empty() && self.worse.is_empty() && self.unknown.len() < FIGURES.len()
    }

    /// Worse in something, better in nothing.
    pub fn beaten(&self) -> bool {
        self.better.is_empty() && !self.worse.is_empty()
    }

    /// " (not known of both: sound)".
    pub fn left_out(&self) -> String {
        match &self.unknown[..] {
            [] => String::new(),
            unknown => format!(" (not known of both: {})", listed(unknown)),
        }
    }
}
