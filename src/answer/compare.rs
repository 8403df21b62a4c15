//! All candidates of a shop side by side, and which of them another one beats in everything known.

mod against;

use std::cmp::Ordering;

use super::headline::Case;
use super::words::{Words, capital, listed};
use super::{Memory, carry, circuits_of, look_for, money, sound, tasks};
use crate::report::{Beside, CompareRow, Comparison, Figure, Finding, Grade, Sort, Window};
use against::{Known, Relation};
use judge::assess::Facts;
use judge::basis::{Basis, CandidateBasis};
use judge::grade::Grade as Air;
use judge::verdict::tenths;
use quantity::Kind;
use shop::{Candidate, Shop};

const UNSTATED: &str = "not on the label";
/// So many ties and defeats stand beside a machine; the rest is counted.
const BESIDE: usize = 2;
/// So many beaten machines are named in the sentence.
const NAMED: usize = 2;

/// One candidate on its way to a row.
struct Seen {
    known: Known,
    /// Share of the draws in which some work is not done.
    fails: Option<f64>,
    row: CompareRow,
}

impl Seen {
    /// The name in quotation marks.
    fn quoted(&self) -> String {
        format!("“{}”", self.row.name)
    }
}

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

/// The name as typed, or the number with the tank or the flow; the number as well where another has the same name.
fn name(words: Words, basis: &Basis, shop: &Shop, index: usize) -> String {
    let (label, read) = (&shop.candidates[index], &basis.candidates[index]);
    let own = label.name.trim();
    if own.is_empty() {
        let tank = read.tank_m3.is_given().then(|| words.volume(read.tank_m3.value));
        let flow = read.flows.first().map(|(flow, _)| words.flow(*flow));
        let figures = [typed_figure(&label.tank, tank), typed_figure(&label.flow, flow)];
        let figure = figures.into_iter().find(|figure| !figure.is_empty());
        let figure = figure.map_or_else(String::new, |figure| format!(", {figure}"));
        return format!("No. {}{figure}", index + 1);
    }
    let others = shop.candidates.iter();
    match others.filter(|other| other.name.trim() == own).count() {
        1 => own.into(),
        _ => format!("{own} (No. {})", index + 1),
    }
}

/// The hardest task, by how much it is or is not done, and what limits.
fn air(case: &Case) -> String {
    let Some((place, task)) = case.worst() else {
        return "no flow to go by".into();
    };
    let words = case.words;
    let guess = if case.facts.supply.range().is_some() {
        "by a guessed flow, "
    } else {
        ""
    };
    let named = format!("“{}”{}", case.basis.tasks[task.task].name, case.at(place));
    let text = match task.record.grade {
        Air::Good => format!(
            "{guess}{named}: {}, the motor runs {} of the time, for a duty of {}.",
            tasks::verdict(&task.record),
            words.share(task.run.running),
            words.share(case.candidate.duty.value)
        ),
        _ => format!("{guess}{named}: {}.", tasks::verdict(&task.record)),
    };
    format!("{}{}", capital(&text), case.limit(place, task))
}

/// What each place's circuit does with it; once where all say the same.
fn power(case: &Case) -> String {
    let (basis, circuits) = (case.basis, case.circuits);
    let said = |(place, finding): (usize, &Finding)| match finding.grade {
        Grade::Good => "carries it".to_owned(),
        _ => case.power_short(place),
    };
    let texts: Vec<String> = circuits.iter().enumerate().map(said).collect();
    match &texts[..] {
        [] => UNSTATED.into(),
        [first, rest @ ..] if rest.iter().all(|text| text == first) => match circuits[0].grade {
            Grade::Good => "Every circuit carries it".into(),
            _ => capital(first),
        },
        _ => {
            let named = basis.places.iter().zip(&texts);
            let named: Vec<String> = named
                .map(|(place, text)| format!("{}: {text}", place.name))
                .collect();
            named.join(". ")
        }
    }
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

fn carrying(words: Words, basis: &Basis, candidate: &CandidateBasis) -> Option<String> {
    let mass = words.of(Kind::Mass, candidate.mass_kg?);
    let way = carry::way(basis, candidate)?;
    Some(format!("{mass}: {way}"))
}

/// In how many shops of ten all work is done.
fn sure(facts: &Facts) -> String {
    let Some(verdict) = &facts.verdict else {
        return "no flow to go by".into();
    };
    let done = tenths(verdict.all_done, verdict.draws);
    format!("Out of 10 shops like yours, {done} get all of this done without long waits")
}

fn cells(case: &Case) -> Vec<Figure> {
    let Case {
        words,
        basis,
        candidate,
        facts,
        ..
    } = *case;
    let or_unstated = |text: Option<String>| text.unwrap_or_else(|| UNSTATED.into());
    let price = candidate.price.map(|price| words.of(Kind::Money, price));
    let cells = [
        ("Air", air(case)),
        ("How sure", sure(facts)),
        ("Power", power(case)),
        ("Carrying", or_unstated(carrying(words, basis, candidate))),
        (
            "At the ears, indoors",
            or_unstated(at_the_ears(words, basis, candidate)),
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
    words: Words,
    basis: &Basis,
    window: &Window,
    name: String,
    index: usize,
    facts: &Facts,
) -> Option<Seen> {
    let candidate = basis.candidates.get(index)?;
    let circuits = circuits_of(words, basis, facts);
    let case = Case {
        words,
        basis,
        candidate,
        facts,
        circuits: &circuits,
        window,
    };
    Some(Seen {
        fails: facts.verdict.as_ref().map(|verdict| {
            let undone = verdict.draws - verdict.all_done;
            undone as f64 / verdict.draws.max(1) as f64
        }),
        known: Known::of(basis, candidate, facts, &circuits),
        row: CompareRow {
            candidate: index,
            name,
            chosen: index == basis.chosen,
            answer: case.answer(),
            cells: cells(&case),
            beside: Vec::new(),
        },
    })
}

/// What is said beside a candidate about another one that ties with it or beats it.
fn beside(one: &Seen, other: &Seen) -> Option<Beside> {
    let relation = one.known.relation(&other.known);
    let text = if relation.tie() {
        format!("A tie with {}{}.", other.quoted(), relation.left_out())
    } else if relation.beaten() && other.row.answer.grade <= one.row.answer.grade {
        format!(
            "It {} than {} and is better in nothing{}.",
            listed(&relation.worse),
            other.quoted(),
            relation.left_out()
        )
    } else {
        return None;
    };
    Some(Beside {
        than: other.row.candidate,
        beaten: !relation.tie(),
        text,
    })
}

/// Defeats before ties, at most [`BESIDE`] of both; the last says how many more there are.
fn shortened(found: Vec<Beside>) -> Vec<Beside> {
    let more = found.len().saturating_sub(BESIDE);
    let (beaten, ties): (Vec<Beside>, Vec<Beside>) = found.into_iter().partition(|beside| beside.beaten);
    let mut kept: Vec<Beside> = beaten.into_iter().chain(ties).take(BESIDE).collect();
    if let Some(last) = kept.last_mut().filter(|_| more > 0) {
        last.text.push_str(&format!(" And so with {more} more."));
    }
    kept
}

fn last_if_unknown(one: Option<f64>, other: Option<f64>) -> Ordering {
    match (one, other) {
        (Some(one), Some(other)) => one.total_cmp(&other),
        (one, other) => one.is_none().cmp(&other.is_none()),
    }
}

fn by_verdict(one: &Seen, other: &Seen) -> Ordering {
    let grades = one.row.answer.grade.cmp(&other.row.answer.grade);
    grades.then(last_if_unknown(one.known.hardest(), other.known.hardest()))
}

fn does_not_run(seen: &Seen) -> bool {
    seen.known.circuit() >= Some(f64::from(Grade::Bad as u8))
}

fn standing(sort: Sort, one: &Seen, other: &Seen) -> Ordering {
    let by = |figure: fn(&Known) -> Option<f64>| last_if_unknown(figure(&one.known), figure(&other.known));
    let first = match sort {
        Sort::Verdict => Ordering::Equal,
        // Who can't be plugged in makes nobody wait less.
        Sort::Waiting => does_not_run(one)
            .cmp(&does_not_run(other))
            .then(by(Known::waiting)),
        Sort::Draws => last_if_unknown(one.fails, other.fails),
        Sort::Power => by(Known::circuit),
        Sort::Sound => by(|known| known.sound_shown_db),
        Sort::Mass => by(|known| known.mass_kg),
        Sort::Price => by(|known| known.price),
    };
    let ties = first.then_with(|| by_verdict(one, other));
    ties.then(one.row.candidate.cmp(&other.row.candidate))
}

/// What the next one by verdict has over the first and what it lacks: the trade between them.
fn trade(first: &Seen, next: &Seen) -> Option<String> {
    let Relation { better, worse, .. } = next.known.relation(&first.known);
    match (better.is_empty(), worse.is_empty()) {
        (false, false) => Some(format!(
            " {} {}, but {}.",
            next.quoted(),
            listed(&better),
            listed(&worse)
        )),
        (false, true) => Some(format!(
            " {} {}, and is worse in nothing that is known of both.",
            next.quoted(),
            listed(&better)
        )),
        _ => None,
    }
}

fn is_beaten(seen: &Seen) -> bool {
    seen.row.beside.iter().any(|beside| beside.beaten)
}

/// "“B” costs more and does less than “A”: leave it."
fn beaten_text(all: &[&Seen]) -> String {
    let beaten: Vec<&&Seen> = all.iter().filter(|seen| is_beaten(seen)).collect();
    let named = beaten.iter().take(NAMED).filter_map(|seen| {
        let by = seen.row.beside.iter().find(|beside| beside.beaten)?;
        let other = all.iter().find(|other| other.row.candidate == by.than)?;
        let Relation { worse, unknown, .. } = seen.known.relation(&other.known);
        let known = if unknown.is_empty() {
            ""
        } else {
            " that both state"
        };
        Some(format!(
            " {} {} than {} and is better in nothing{known}: leave it.",
            seen.quoted(),
            listed(&worse),
            other.quoted()
        ))
    });
    let text: String = named.collect();
    match beaten.len().saturating_sub(NAMED) {
        0 => text,
        1 => format!("{text} One more is beaten too."),
        more => format!("{text} {more} more are beaten too."),
    }
}

/// Indices into `all`, best first.
fn ranked(all: &[Seen], sort: Sort) -> Vec<usize> {
    let mut ranked: Vec<usize> = (0..all.len()).collect();
    ranked.sort_by(|one, other| standing(sort, &all[*one], &all[*other]));
    ranked
}

fn sentence(all: &[Seen]) -> String {
    let ranked: Vec<&Seen> = ranked(all, Sort::Verdict)
        .into_iter()
        .map(|index| &all[index])
        .collect();
    let [first, rest @ ..] = &ranked[..] else {
        return String::new();
    };
    let level = rest
        .iter()
        .take_while(|seen| by_verdict(first, seen) == Ordering::Equal);
    let level: Vec<String> = std::iter::once(first)
        .chain(level)
        .map(|seen| seen.quoted())
        .collect();
    let head = match (first.row.answer.grade, level.len()) {
        (Grade::Bad, 1) => format!("None will do as it is; {} comes nearest.", first.quoted()),
        (Grade::Bad, _) => format!("None will do as it is; {} come equally near.", listed(&level)),
        (_, 1) => format!("{} comes first by its verdict.", first.quoted()),
        _ => format!("{} are level by verdict.", listed(&level)),
    };
    let next = rest.iter().find(|seen| !is_beaten(seen));
    let trade = next.and_then(|next| trade(first, next)).unwrap_or_default();
    format!("{head}{trade}{}", beaten_text(&ranked))
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

impl Memory {
    /// [`compare`], with window and facts of the last call where they still hold. Fewer than two labels make no
    /// comparison: it comes back empty.
    pub fn compare(&mut self, shop: &Shop, sort: Sort) -> Comparison {
        let typed = all_typed(shop);
        if typed.len() < 2 {
            return Comparison::default();
        }
        let basis = Basis::of(shop);
        let words = Words::new(&basis);
        let found = self.window(&basis);
        let window = look_for::said(words, &basis, found.as_ref());
        let mut all: Vec<Seen> = typed
            .into_iter()
            .filter_map(|index| {
                let candidate = basis.candidates.get(index)?;
                let facts = self.facts(&basis, candidate);
                seen(
                    words,
                    &basis,
                    &window,
                    name(words, &basis, shop, index),
                    index,
                    &facts,
                )
            })
            .collect();
        for one in 0..all.len() {
            let others = (0..all.len()).filter(|other| *other != one);
            let found: Vec<Beside> = others
                .filter_map(|other| beside(&all[one], &all[other]))
                .collect();
            all[one].row.beside = shortened(found);
        }
        let sentence = sentence(&all);
        let order = ranked(&all, sort);
        let mut rows: Vec<Option<CompareRow>> = all.into_iter().map(|seen| Some(seen.row)).collect();
        Comparison {
            sentence,
            rows: order.into_iter().filter_map(|index| rows[index].take()).collect(),
        }
    }
}
