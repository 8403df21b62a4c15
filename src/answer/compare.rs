//! All candidates of a shop side by side, each after its cheapest fix, and which of them to buy.

use std::cmp::Ordering;

use super::words::{Words, capital};
use super::{Memory, advice, carry, jobs, mend, money, power, sound};
use crate::report::{CompareRow, Comparison, Figure, Sort};
use judge::assess::Facts;
use judge::basis::{Basis, CandidateBasis};
use judge::choice::{Ranked, Takes, ordered};
use judge::grade::Grade;
use judge::power::{Cause, Found};
use judge::standing::Standing;
use judge::verdict::{Judging, Record};
use quantity::Kind;
use shop::{Candidate, Shop};

const UNSTATED: &str = "not on the label";
/// So many of the others are named in the sentence.
const NAMED: usize = 3;

/// Whether anything but the name is typed.
fn typed(candidate: &Candidate) -> bool {
    let name = candidate.name.clone();
    *candidate
        != Candidate {
            name,
            ..Candidate::default()
        }
}

fn all_typed(shop: &Shop) -> Vec<usize> {
    let indices = 0..shop.candidates.len();
    indices.filter(|index| typed(&shop.candidates[*index])).collect()
}

/// A figure as typed, with its unit where only a number is; blank where it could not be read.
fn typed_figure(text: &str, written: Option<String>) -> String {
    match written {
        Some(written) if text.bytes().all(|byte| !byte.is_ascii_alphabetic()) => written,
        Some(_) => text.trim().into(),
        None => String::new(),
    }
}

/// What a machine goes by where nobody named it: its tank, as one asks for it in a store, and its flow; as far as they are typed.
fn by_figures(words: Words, basis: &Basis, shop: &Shop, index: usize) -> Vec<String> {
    let (label, read) = (&shop.candidates[index], &basis.candidates[index]);
    let tank = read.tank_m3.is_given().then(|| words.volume(read.tank_m3.value));
    let flow = read.flows.first().map(|(flow, _)| words.flow(*flow));
    let figures = [typed_figure(&label.tank, tank), typed_figure(&label.flow, flow)];
    figures.into_iter().filter(|figure| !figure.is_empty()).collect()
}

/// The name as typed, else the tank or the flow, else both, as far as it takes to tell it from the others; the number where nothing
/// else does.
fn name(words: Words, basis: &Basis, shop: &Shop, index: usize) -> String {
    let of = |index: usize, figures: usize| match shop.candidates[index].name.trim() {
        "" => {
            let mut all = by_figures(words, basis, shop, index);
            all.truncate(figures);
            all.join(" with ")
        }
        own => own.into(),
    };
    let alone = |figures: usize| {
        let own = of(index, figures);
        (0..shop.candidates.len()).all(|other| other == index || of(other, figures) != own)
    };
    match [1, 2].into_iter().find(|figures| alone(*figures)) {
        Some(figures) if !of(index, figures).is_empty() => of(index, figures),
        None if !of(index, 2).is_empty() => format!("{} (No. {})", of(index, 2), index + 1),
        _ => format!("No. {}", index + 1),
    }
}

/// The same in the middle of a sentence: "the 20 gal", “Shed”.
fn called(shop: &Shop, row: &CompareRow) -> String {
    let is_named = !shop.candidates[row.candidate].name.trim().is_empty();
    match (is_named, row.name.starts_with("No. ")) {
        (true, _) => format!("“{}”", row.name),
        (false, true) => row.name.clone(),
        (false, false) => format!("the {}", row.name),
    }
}

/// Whether a cordless drill for the holes is all that a machine lacks: nothing else makes anybody wait.
fn only_drills(basis: &Basis, facts: &Facts) -> bool {
    let lacks = |record: &Record| record.grade > Grade::Good;
    let drills = |record: &Record| {
        let task = &basis.tasks[record.task];
        jobs::makes_holes(task)
    };
    let records = || facts.verdict.iter().flat_map(|verdict| &verdict.records);
    records().filter(|record| lacks(record)).all(drills) && !records().all(lacks)
}

fn at_the_ears(words: Words, basis: &Basis, candidate: &CandidateBasis) -> Option<String> {
    let level = words.of(Kind::SoundLevel, sound::loudest_db(basis, candidate)?.round());
    Some(match candidate.sound {
        Some((_, at)) if !at.is_given() => {
            format!("{level}, if stated at {}", words.of(Kind::Length, at.value))
        }
        _ => level,
    })
}

/// The level that the label states, with its distance where that stands there.
fn as_printed(words: Words, candidate: &CandidateBasis) -> Option<String> {
    let (level, at) = candidate.sound?;
    let level = words.of(Kind::SoundLevel, level);
    Some(match at.is_given() {
        true => format!("{level} at {}", words.of(Kind::Length, at.value)),
        false => level,
    })
}

fn carrying(words: Words, basis: &Basis, candidate: &CandidateBasis) -> Option<String> {
    let mass = words.of(Kind::Mass, candidate.mass_kg?);
    let way = carry::way(basis, candidate)?;
    Some(format!("{mass}: {way}"))
}

/// Why a machine is the one to buy, or is not.
struct Because {
    /// A clause behind its name.
    clause: String,
    /// A cordless drill is all that it lacks.
    cordless: bool,
}

/// One candidate on its way to a row.
struct Seen {
    because: Because,
    ranked: Ranked,
    /// Its place in the order in which to buy.
    rank: usize,
    worst: Option<Record>,
    sound_db: Option<f64>,
    mass_kg: Option<f64>,
    price: Option<f64>,
    row: CompareRow,
}

/// What a comparison goes by.
struct Bench<'a> {
    words: Words,
    basis: &'a Basis,
    shop: &'a Shop,
    look_for: String,
}

impl Bench<'_> {
    fn fix_label(&self, ranked: &Ranked) -> Option<String> {
        ranked
            .fix
            .as_ref()
            .map(|fix| mend::label(self.words, self.basis, fix))
    }

    /// What a machine takes until it works, or why it is not the one: in a clause behind its name.
    fn because(&self, ranked: &Ranked, facts: &Facts) -> Because {
        let Ranked { standing, takes, .. } = ranked;
        let clause = match takes {
            Takes::Never => "could hurt somebody as it is".into(),
            Takes::Unknown => "can't be judged yet".into(),
            Takes::Electrician => "needs an electrician first".into(),
            Takes::TooMuch if standing.power == Grade::Outlet => "can't run on your outlet".into(),
            Takes::OtherTools | Takes::TooMuch => return self.too_small(ranked, facts),
            Takes::Little if standing.air.max(standing.coat) == Grade::Small => {
                return self.too_small(ranked, facts);
            }
            Takes::Little if ranked.fix.is_some() => match keeps_up(self.basis, facts) {
                Some(_) if ranked.standing.power > Grade::Good => "keeps up, but fix its power first".into(),
                Some(_) => "keeps up once it is put right".into(),
                None => "works once it is put right".into(),
            },
            Takes::Little => as_it_is(self.basis, standing, facts),
        };
        Because {
            clause,
            cordless: false,
        }
    }

    /// "is too small for drilling", by the job that decides: a coat that fades, else the worst by its odds.
    fn too_small(&self, ranked: &Ranked, facts: &Facts) -> Because {
        let machine = self.basis.candidates.get(ranked.candidate);
        let coats = machine.map_or_else(Vec::new, |machine| {
            judge::paint::coats(self.basis, machine, facts)
        });
        let fades = coats
            .iter()
            .find(|coat| coat.grade == Grade::Small)
            .map(|coat| coat.task);
        let worst = facts.verdict.as_ref().and_then(|verdict| verdict.worst());
        let by_odds = worst
            .filter(|worst| worst.grade == Grade::Small)
            .map(|worst| worst.task);
        let task = by_odds.or(fades).or(worst.map(|worst| worst.task));
        let task = task.and_then(|task| self.basis.tasks.get(task));
        let sprays_well = coats.iter().all(|coat| coat.grade == Grade::Good);
        let cordless = sprays_well && only_drills(self.basis, facts);
        let clause = match task {
            _ if cordless => "is too small unless you drill cordless".into(),
            Some(task) => format!("is too small for {}", jobs::doing(task)),
            None => "is too small".into(),
        };
        Because { clause, cordless }
    }

    fn cells(&self, candidate: &CandidateBasis, facts: &Facts, ranked: &Ranked) -> Vec<Figure> {
        let words = self.words;
        let said = advice::advice(words, self.basis, candidate, facts, None);
        let or_unstated = |text: Option<String>| text.unwrap_or_else(|| UNSTATED.into());
        let takes = match (self.fix_label(ranked), ranked.standing.grade()) {
            (Some(label), _) => label,
            (None, Grade::Good) if !untold(facts) => "Works as is".into(),
            (None, Grade::Good | Grade::Wait | Grade::Trip) => {
                capital(&as_it_is(self.basis, &ranked.standing, facts))
            }
            (None, Grade::Ask) => "Find what the label leaves out".into(),
            (None, _) => format!("Another machine: {}", self.look_for),
        };
        let price = candidate.price.map(|price| words.of(Kind::Money, price));
        let cells = [
            ("Air", said.air.sentence),
            ("Power", said.power.sentence),
            ("To make it work", takes),
            ("Weight", or_unstated(carrying(words, self.basis, candidate))),
            ("Noise, as printed", or_unstated(as_printed(words, candidate))),
            (
                "Noise indoors",
                or_unstated(at_the_ears(words, self.basis, candidate)),
            ),
            ("Price", or_unstated(price)),
            (
                "Price for flow",
                or_unstated(money::each_flow(words, candidate, facts)),
            ),
        ];
        let figure = |(name, value): (&str, String)| Figure {
            name: name.into(),
            value,
            sum: None,
        };
        cells.map(figure).into()
    }

    fn seen(
        &self,
        rank: usize,
        ranked: Ranked,
        facts: &Facts,
        answer: crate::report::Answer,
    ) -> Option<Seen> {
        let index = ranked.candidate;
        let candidate = self.basis.candidates.get(index)?;
        let because = self.because(&ranked, facts);
        Some(Seen {
            rank,
            worst: facts
                .verdict
                .as_ref()
                .and_then(|verdict| verdict.worst())
                .copied(),
            sound_db: sound::loudest_db(self.basis, candidate),
            mass_kg: candidate.mass_kg,
            price: candidate.price,
            row: CompareRow {
                candidate: index,
                name: name(self.words, self.basis, self.shop, index),
                chosen: index == self.basis.chosen,
                buy: rank == 0 && ranked.takes < Takes::Unknown,
                answer,
                because: capital(&format!("{}.", because.clause)),
                cells: self.cells(candidate, facts, &ranked),
            },
            because,
            ranked,
        })
    }

    /// The cord that is still to be bought for it: "For 50 ft use a 14-gauge cord."
    fn cord(&self, facts: &Facts) -> Option<String> {
        let to_buy = |found: &Found| matches!(found.cause, Cause::CordToBuy { .. });
        power::tellings(self.words, self.basis, facts).find_map(|(telling, found)| {
            let cord = found.power.all().find(to_buy)?;
            Some(power::long(&telling, &cord).advice)
        })
    }

    /// "Buy the 20 gal. The 6 gal is too small for drilling; the 60 gal needs an electrician first."
    fn sentence(&self, all: &[Seen], facts: &[std::rc::Rc<Facts>]) -> String {
        let Some((first, rest)) = all.split_first() else {
            return String::new();
        };
        let clause = |seen: &Seen| {
            let Because { clause, cordless } = &seen.because;
            let cheaper = first.price.zip(seen.price).filter(|(one, other)| other < one);
            let saves = match cheaper {
                Some((one, other)) if *cordless => {
                    format!(" ({} less)", self.words.of(Kind::Money, one - other))
                }
                _ => String::new(),
            };
            format!("{} {clause}{saves}", called(self.shop, &seen.row))
        };
        let mut buy = format!("Buy {}", called(self.shop, &first.row));
        if let Some(keeps) = keeps_up(self.basis, &facts[first.rank]) {
            buy = format!("{buy}: it {keeps}");
        }
        let head = match first.ranked.takes {
            Takes::Little | Takes::Electrician | Takes::OtherTools => match self.fix_label(&first.ranked) {
                Some(label) => format!("{buy}. {label}."),
                None => match self.cord(&facts[first.rank]) {
                    Some(cord) => format!("{buy}. {cord}"),
                    None => format!("{buy}."),
                },
            },
            Takes::Unknown => format!("None can be judged yet. Look for {}.", self.look_for),
            Takes::TooMuch | Takes::Never => format!("Buy none of these. Look for {}.", self.look_for),
        };
        let others: Vec<String> = rest
            .iter()
            .take(NAMED)
            .map(|seen| match seen.ranked.takes {
                Takes::Little if first.ranked.takes == Takes::Little && seen.ranked.fix.is_none() => {
                    format!("{} {}", called(self.shop, &seen.row), beside(first, seen))
                }
                _ => clause(seen),
            })
            .collect();
        let more = match rest.len().saturating_sub(NAMED) {
            0 => String::new(),
            more => format!(" The other {more} come after."),
        };
        match others.is_empty() {
            true => head,
            false => format!("{head} {}.{more}", capital(&others.join("; "))),
        }
    }
}

/// "keeps up with drilling", by the job that asks the most; nothing where any job waits.
fn keeps_up(basis: &Basis, facts: &Facts) -> Option<String> {
    let worst = facts.verdict.as_ref()?.worst()?;
    let keeps = worst.grade == Grade::Good && facts.verdict.as_ref()?.asks.is_none();
    let task = basis.tasks.get(worst.task).filter(|_| keeps)?;
    Some(format!("keeps up with {}", jobs::doing(task)))
}

/// How a machine that works as well stands beside the one to buy.
fn beside(first: &Seen, other: &Seen) -> &'static str {
    let dearer = matches!((first.price, other.price), (Some(one), Some(other)) if other > one);
    match (other.ranked.then().grade() > first.ranked.then().grade(), dearer) {
        (true, _) => "makes you wait more",
        (false, true) => "does it too, and costs more",
        (false, false) => "does it too",
    }
}

/// Its current is a guess somewhere.
fn untold(facts: &Facts) -> bool {
    facts.places.iter().any(|place| place.power.is_untold())
}

/// How a machine stands that nothing is done about, in a clause.
fn as_it_is(basis: &Basis, standing: &Standing, facts: &Facts) -> String {
    let worst = facts.verdict.as_ref().and_then(|verdict| verdict.worst());
    let task = worst.and_then(|record| basis.tasks.get(record.task));
    let waits = task.map_or_else(String::new, |task| format!(" {}", jobs::when(task)));
    match standing.grade() {
        Grade::Good if untold(facts) => "has air enough, if the amps on its plate suit the outlet".into(),
        Grade::Good => "does the job as it is".into(),
        Grade::Trip if standing.starts > Grade::Good => "works, but its motor starts too often".into(),
        Grade::Trip if standing.power < Grade::Trip => "works, but mind the box or the cold".into(),
        Grade::Trip => "works, but may trip or start badly".into(),
        _ => format!("works, with waits{waits}"),
    }
}

fn last_if_unknown(one: Option<f64>, other: Option<f64>) -> Ordering {
    match (one, other) {
        (Some(one), Some(other)) => one.total_cmp(&other),
        (one, other) => one.is_none().cmp(&other.is_none()),
    }
}

/// By what the reader asks for, machines that do not run last; among equals in the order in which to buy.
fn standing(sort: Sort, one: &Seen, other: &Seen) -> Ordering {
    let runs = |seen: &Seen| seen.ranked.standing.power.max(seen.ranked.standing.danger) < Grade::Outlet;
    let by = |figure: fn(&Seen) -> Option<f64>| {
        runs(other)
            .cmp(&runs(one))
            .then(last_if_unknown(figure(one), figure(other)))
    };
    let first = match sort {
        Sort::Verdict => Ordering::Equal,
        Sort::Waiting => by(|seen| seen.worst.map(|record| record.minutes[1])),
        Sort::Draws => by(|seen| seen.worst.map(|record| -(record.done as f64))),
        Sort::Power => one.ranked.standing.power.cmp(&other.ranked.standing.power),
        Sort::Sound => by(|seen| seen.sound_db),
        Sort::Mass => by(|seen| seen.mass_kg),
        Sort::Price => by(|seen| seen.price),
    };
    first.then(one.rank.cmp(&other.rank))
}

/// The candidates with a figure typed, side by side. See [`Memory::compare`] where answers follow each other.
///
/// ```
/// # use answer::compare; use answer::report::Sort; use shop::Shop;
/// let comparison = compare(&Shop::demo(), Sort::Price);
/// assert_eq!(comparison.rows.len(), 3);
/// assert!(!comparison.sentence.is_empty());
/// ```
pub fn compare(shop: &Shop, sort: Sort) -> Comparison {
    Memory::default().compare(shop, sort)
}

/// A machine is not ranked beside others where so many different jobs would have to be judged for all of them together: some
/// ten seconds on a desktop.
const MOST_JOBS: usize = 600;

/// What is missing in a comparison, as sentences: before what is said of the others, and behind it.
fn broken_off(left_out: usize, untried: bool) -> [String; 2] {
    let machines = match left_out {
        0 => String::new(),
        1 => "One machine was not compared: so many different jobs would take minutes. ".into(),
        more => format!("{more} machines were not compared: so many different jobs would take minutes. "),
    };
    let fixes = match untried {
        true => " Not every fix was tried: so many different jobs would take minutes.",
        false => "",
    };
    [machines, fixes.into()]
}

impl Memory {
    /// Whether a machine is left out of a comparison: it is not the chosen one, nothing is known of it yet, and too many jobs
    /// were judged for the others.
    fn is_too_much(&mut self, basis: &Basis, index: usize) -> bool {
        let Some(candidate) = basis.candidates.get(index).filter(|_| index != basis.chosen) else {
            return false;
        };
        let ranks = &self.memo(basis).ranks;
        if ranks.iter().any(|(kept, _)| kept == candidate) {
            return false;
        }
        let jobs = Judging::new(basis, candidate).map_or(0, |judging| judging.rows());
        jobs * (ranks.len() + 1) > MOST_JOBS
    }

    /// [`compare`], with window and facts of the last call where they still hold. One label makes no comparison: while the next
    /// is blank, there is a row for it and a sentence that asks for more.
    pub fn compare(&mut self, shop: &Shop, sort: Sort) -> Comparison {
        let typed = all_typed(shop);
        if typed.is_empty() || shop.candidates.len() < 2 {
            return Comparison::default();
        }
        let basis = Basis::of(shop);
        let words = Words::new(&basis);
        let found = self.window(&basis);
        let look_for = advice::look_for(words, &basis, found.as_ref());
        let bench = Bench {
            words,
            basis: &basis,
            shop,
            look_for,
        };
        let mut left_out = 0;
        let mut ranks = Vec::new();
        for index in typed {
            if self.is_too_much(&basis, index) {
                left_out += 1;
            } else {
                ranks.extend(self.rank(shop, &basis, index));
            }
        }
        let order = ordered(&basis, ranks);
        let facts: Vec<_> = order
            .iter()
            .map(|ranked| self.facts(&basis, &basis.candidates[ranked.candidate]))
            .collect();
        let seen = order
            .into_iter()
            .zip(&facts)
            .enumerate()
            .filter_map(|(rank, (ranked, facts))| {
                let candidate = basis.candidates.get(ranked.candidate)?;
                let answer = advice::advice(words, &basis, candidate, facts, found.as_ref()).answer;
                bench.seen(rank, ranked, facts, answer)
            });
        let mut all: Vec<Seen> = seen.collect();
        let untried = all.iter().any(|seen| seen.ranked.untried > 0);
        let sentence = match all.len() {
            0 => String::new(),
            1 if left_out == 0 => "Now the next label.".into(),
            _ => bench.sentence(&all, &facts),
        };
        let [machines, fixes] = broken_off(left_out, untried);
        let sentence = format!("{machines}{sentence}{fixes}");
        quantity::order::by(&mut all, |one, other| standing(sort, one, other));
        Comparison {
            sentence,
            rows: all.into_iter().map(|seen| seen.row).collect(),
        }
    }
}
