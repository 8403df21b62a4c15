//! The circuit's verdict in words.

mod figures;
mod fixes;
mod say;
mod sizes;

pub use figures::figures;
pub use fixes::{fix_clause, label};
pub use say::{Said, aside, in_short, long, short};

use super::words::Words;
use crate::report::{Finding, Grade};
use judge::assess::{Facts, PlaceFacts};
use judge::basis::{Basis, PlaceBasis};
use judge::grade;
use judge::power::{AmpsFrom, PowerVerdict};
use quantity::{Kind, lower};

/// What an electrician is for.
pub const ELECTRICIAN: &str = "A new circuit is a licensed electrician's work, and the local code decides.";

/// What holds for every cord and outlet.
pub const CAUTIONS: [&str; 3] = [
    "One three-wire grounded cord, uncoiled, never two joined, and a plug that fits the outlet as it is. A cord or plug that gets warm is overloaded: stop and unplug.",
    "Garage outlets need GFCI protection (NEC 210.8(A), 2020), hangar outlets for hand tools too (513.12). If it trips, find out why; never work without it.",
    ELECTRICIAN,
];

/// The page's grade for a grade.
pub fn page_grade(grade: grade::Grade) -> Grade {
    match grade {
        grade::Grade::Good => Grade::Good,
        grade::Grade::Wait | grade::Grade::Trip => Grade::Fair,
        grade::Grade::Ask => Grade::Unsure,
        grade::Grade::Small => Grade::Poor,
        grade::Grade::Outlet | grade::Grade::Danger => Grade::Bad,
    }
}

/// A verdict at a place, and the words to tell it in.
#[derive(Clone, Copy)]
pub struct Telling<'a> {
    /// The reader's units.
    pub words: Words,
    /// The place.
    pub place: &'a PlaceBasis,
    /// It is the shop's only place, and needs no name.
    pub alone: bool,
    /// What its circuit does.
    pub verdict: &'a PowerVerdict,
}

/// A telling for each place, with what was found there.
pub fn tellings<'a>(
    words: Words,
    basis: &'a Basis,
    facts: &'a Facts,
) -> impl DoubleEndedIterator<Item = (Telling<'a>, &'a PlaceFacts)> {
    let alone = basis.places.len() == 1;
    let places = basis.places.iter().zip(&facts.places);
    places.map(move |(place, found)| {
        let telling = Telling {
            words,
            place,
            alone,
            verdict: &found.power,
        };
        (telling, found)
    })
}

impl Telling<'_> {
    /// "Your outlet", "Your garage outlet", "The outlet at “Shed 2”".
    fn outlet(&self) -> String {
        let name = self.place.name.as_str();
        let plain = !name.is_empty() && name.chars().all(char::is_alphabetic);
        match (self.alone, plain) {
            (true, _) => "Your outlet".into(),
            (false, true) => format!("Your {} outlet", lower(name)),
            (false, false) => format!("The outlet at “{name}”"),
        }
    }

    /// What the figures rest on, and which of them were taken for a blank.
    fn basis(&self) -> String {
        let (words, place) = (self.words, self.place);
        let assumed = |given: bool| if given { "" } else { " (assumed)" };
        let current = self.verdict.load.map(|load| {
            let from = match load.from {
                AmpsFrom::Plate => "from the label",
                AmpsFrom::Flow => "guessed from its flow",
                AmpsFrom::Power => "guessed from its power",
            };
            match load.printed() {
                true => format!("{} {from}", words.amps(rounded(load.amps))),
                // A guess prints no figure of its own.
                false => format!("current {from}"),
            }
        });
        let wire = format!(
            "{} of {} wire{}",
            words.of(Kind::Length, place.branch.1.value),
            sizes::gauge(words, place.branch.0.value),
            match (place.branch.0.is_given(), place.branch.1.is_given()) {
                (true, true) => "",
                (true, false) => " (length assumed)",
                (false, true) => " (gauge assumed)",
                (false, false) => " (assumed)",
            }
        );
        let cord = place.cord.map_or_else(
            || "no cord".into(),
            |(area, length)| {
                format!(
                    "{} of {} cord{}",
                    words.of(Kind::Length, length),
                    sizes::gauge(words, area),
                    assumed(place.wiring.cord_gauge_given && place.wiring.cord_length_given)
                )
            },
        );
        let breaker = format!(
            "{} breaker{}",
            words.amps(place.breaker_a.value),
            assumed(place.breaker_a.is_given())
        );
        let others = format!("{} of other loads", words.amps(place.other_a));
        let volts = format!(
            "{}{}",
            words.volts(place.volts.value),
            assumed(place.volts.is_given())
        );
        let parts: Vec<String> = current
            .into_iter()
            .chain([volts, breaker, others, wire, cord])
            .collect();
        parts.join("; ")
    }

    /// The machine's current was printed.
    fn printed(&self) -> bool {
        self.verdict.load.is_some_and(|load| load.printed())
    }

    /// Where a generator belongs, if nobody said where this one stands.
    pub fn outdoors(&self) -> Option<String> {
        let asked = self.place.generator_va.is_some() && self.place.wiring.generator_stands.is_none();
        asked.then(|| say::outdoors(self))
    }

    /// The finding: the worst first, then what else was found.
    pub fn finding(&self) -> Finding {
        let found = self.verdict.all().map(|found| long(self, &found).whole());
        let texts: Vec<String> = found.chain(self.outdoors()).collect();
        Finding {
            id: "circuit".into(),
            grade: page_grade(self.verdict.told_grade()),
            text: texts.join(" "),
            basis: self.basis(),
            remedies: Vec::new(),
        }
    }
}

/// A current as one says it: a guess to a whole ampere, a printed one as it is.
fn rounded(amps: f64) -> f64 {
    (amps * 10.0).round() / 10.0
}
