//! From facts to words: the report that the page places.
//!
//! **In:** what `judge` found. **Out:** [`report::Report`]: sentences, figures as text, charts as coordinates; the page only
//! places them. Nothing is judged here. Begin with [`fn@report`], which says in what order things are told; each
//! subject (`power`, `water`, `money`, ...) is a module of its name, and [`words`] writes figures in the reader's units.

pub mod advice;
mod assumed;
mod auxiliary;
pub mod boxed;
mod carry;
mod chart;
pub mod cold;
mod compare;
pub mod danger;
mod day;
mod doubt;
mod jobs;
mod label;
pub mod line;
mod look_for;
mod map;
mod mend;
mod money;
pub mod paint;
mod picture;
mod power;
mod pump;
pub mod report;
mod so_far;
mod sound;
mod stages;
mod sums;
mod tasks;
mod water;
pub mod words;

use std::rc::Rc;

use crate::report::{
    Chart, Figure, Finding, Grade, PlaceRows, Reading, Report, Section, Sum, Told, View, Window,
};
pub use compare::compare;
use judge::assess::{Facts, PlaceFacts, assess};
use judge::basis::{AuxiliaryBasis, Basis, CandidateBasis, LineBasis, PlaceBasis, Refusal, TaskBasis};
use judge::verdict::Record;
use judge::window::Window as Found;
pub use power::label as fix_label;
use quantity::Kind;
use shop::Shop;
use words::{Words, listed};

/// The whole answer for a shop and its chosen candidate. Never fails: what cannot be read is a fault in the
/// report, and everything else is answered all the same.
///
/// ```
/// # use answer::report; use answer::report::{Grade, View}; use shop::Shop;
/// let mut shop = Shop::demo();
/// shop.candidates[0].tank = "twenty".into();
/// let report = report(&shop, View::default());
/// assert_eq!(report.faults[0].field, "candidates.0.tank");
/// assert!(!report.answer.sentence.is_empty());
/// ```
pub fn report(shop: &Shop, view: View) -> Report {
    let mut memory = Memory::default();
    memory.report(shop, view);
    memory.told
}

/// Remembers between keystrokes what need not be figured again. What was told is kept as well: the sums behind its figures
/// are handed over only where a reader opens them.
#[derive(Default)]
pub struct Memory {
    memo: Option<Memo>,
    map: Option<map::Drawn>,
    open: Option<Open>,
    told: Report,
    /// What is told first of a large shop, and whether that was told last.
    first: Option<Box<Memory>>,
    is_first: bool,
}

/// What hangs on places, tasks, line and second tank, of which it holds a copy: it is stale when one of them differs. What
/// hangs on a machine as well is kept beside that machine's label, and goes with it.
#[derive(Debug)]
struct Memo {
    places: Vec<PlaceBasis>,
    tasks: Vec<TaskBasis>,
    line: LineBasis,
    auxiliary: Option<AuxiliaryBasis>,
    /// What to look for, once it was asked.
    window: Option<Option<Found>>,
    /// The borders of the map, once they were asked.
    borders: Option<Borders>,
    facts: Vec<(CandidateBasis, Rc<Facts>)>,
    /// Each candidate after its cheapest fix.
    ranks: Vec<(CandidateBasis, judge::choice::Ranked)>,
}

/// The borders of a map, and whether it was broken off.
#[derive(Clone, Debug)]
struct Borders {
    columns: Vec<judge::map::Column>,
    is_cut_short: bool,
}

impl Borders {
    fn of(basis: &Basis) -> Self {
        let mut mapping = judge::map::Mapping::new(basis);
        while !mapping.step() {}
        Self {
            columns: mapping.columns().to_vec(),
            is_cut_short: mapping.is_cut_short(),
        }
    }
}

/// The last answer's case.
#[derive(Debug)]
struct Open {
    words: Words,
    basis: Basis,
    facts: Rc<Facts>,
    circuits: Vec<Finding>,
    view: View,
    /// The shop as typed, on which fixes are tried.
    shop: Shop,
    standing: judge::grade::Grade,
    look_for: String,
    /// What is said of the power at the place where it is gravest.
    power_said: String,
}

impl Memory {
    /// [`fn@report`], with the window of the last call where it still holds.
    pub fn report(&mut self, shop: &Shop, view: View) -> &Report {
        self.answer(shop, view);
        self.subjects();
        &self.told
    }

    /// The report on a part of the work, marked so, where there is so much of it that all takes seconds; none where
    /// [`Self::answer`] takes no longer.
    ///
    /// ```
    /// # use answer::Memory; use answer::report::View; use shop::Shop;
    /// let mut shop = Shop::demo();
    /// assert!(Memory::default().first(&shop, View::default()).is_none());
    /// let tasks = (1..=60).map(|nth| { let pause = format!("{nth} min"); shop::Task { pause, ..shop.tasks[0].clone() } });
    /// shop.tasks = tasks.collect();
    /// let mut memory = Memory::default();
    /// let first = memory.first(&shop, View::default()).ok_or("all at once")?;
    /// assert!(first.answer.sentence.starts_with("So far, from 6 of "));
    /// # Ok::<(), &str>(())
    /// ```
    pub fn first(&mut self, shop: &Shop, view: View) -> Option<&Report> {
        self.is_first = false;
        let basis = Basis::of(shop);
        let known = basis.candidates.get(basis.chosen).is_some_and(|candidate| {
            let facts = &self.memo(&basis).facts;
            facts.iter().any(|(kept, _)| kept == candidate)
        });
        let part = so_far::part(shop, &basis).filter(|_| !known)?;
        let first = self.first.get_or_insert_default();
        let task = view.task;
        first.answer(&part.shop, View { place: 0, task });
        part.mark(&mut first.told, &basis);
        self.is_first = true;
        Some(&first.told)
    }

    /// The report without its subjects: what a keystroke waits for.
    pub fn answer(&mut self, shop: &Shop, view: View) -> &Report {
        self.is_first = false;
        let basis = Basis::of(shop);
        let words = Words::new(&basis);
        let window = look_for::said(words, &basis, self.window(&basis).as_ref());
        let (report, open) = match basis.candidates.get(basis.chosen) {
            Some(candidate) => {
                let facts = self.facts(&basis, candidate);
                let found = self.window(&basis);
                let advice = advice::advice(words, &basis, candidate, &facts, found.as_ref());
                let (report, open) = with_candidate(words, &basis, candidate, facts, window, view);
                let report = Report {
                    answer: advice.answer,
                    air: advice.air,
                    power: advice.power,
                    ..report
                };
                (report, Some(open))
            }
            None => (without_candidate(window), None),
        };
        self.told = Report {
            faults: basis.faults.iter().map(Refusal::fault).collect(),
            taken: basis.taken.clone(),
            assumed: assumed::line(words, &basis),
            ..report
        };
        let standing = self.told.answer.standing;
        let look_for = advice::look_for(words, &basis, self.window(&basis).as_ref());
        let power_said = self.told.power.sentence.clone();
        self.open = open.map(|(facts, circuits, view)| Open {
            words,
            basis,
            facts,
            circuits,
            view,
            shop: shop.clone(),
            standing,
            look_for,
            power_said,
        });
        &self.told
    }

    /// The subjects of the last [`Self::answer`], what would mend it first.
    pub fn subjects(&mut self) -> &[Section] {
        self.told.sections = self.open.as_ref().and_then(Open::sections).unwrap_or_default();
        &self.told.sections
    }

    /// The sum behind a figure of what was told last, by its place in a list: `window`, `air.` with the place's index,
    /// `row` for the viewed task, else a subject's id.
    ///
    /// ```
    /// # use answer::Memory; use answer::report::View; use shop::Shop;
    /// let mut memory = Memory::default();
    /// memory.report(&Shop::demo(), View::default());
    /// assert!(memory.sum("label", 0).is_some_and(|sum| sum.equation.starts_with("q = ")));
    /// assert!(memory.sum("label", 99).is_none());
    /// ```
    pub fn sum(&self, list: &str, index: usize) -> Option<&Sum> {
        let first = self.first.as_ref().filter(|_| self.is_first);
        let told = first.map_or(&self.told, |first| &first.told);
        let figures: &[Figure] = match list.split_once('.') {
            Some(("air", place)) => {
                std::slice::from_ref(&told.places.get(quantity::digits(place)? as usize)?.air)
            }
            _ if list == "window" => &told.window.figures,
            _ if list == "row" => {
                let rows = &told.places.get(told.view.place)?.tasks;
                &rows.iter().find(|row| Some(row.task) == told.view.task)?.figures
            }
            _ => &told.sections.iter().find(|section| section.id == list)?.figures,
        };
        figures.get(index)?.sum.as_ref()
    }

    /// What the odds of the chosen machine rest on.
    pub fn doubt(&mut self, shop: &Shop) -> Told {
        let basis = Basis::of(shop);
        let words = Words::new(&basis);
        match basis.candidates.get(basis.chosen) {
            Some(candidate) => {
                let facts = self.facts(&basis, candidate);
                doubt::told(words, &basis, &facts)
            }
            None => doubt::nothing(),
        }
    }

    /// The map of flow against tank, with the shop's candidates on it: for whoever opens it.
    pub fn map(&mut self, shop: &Shop) -> Section {
        let basis = Basis::of(shop);
        let borders = self
            .memo(&basis)
            .borders
            .get_or_insert_with(|| Borders::of(&basis))
            .clone();
        let drawn = map::Drawn {
            words: Words::new(&basis),
            columns: borders.columns,
            window: self.window(&basis),
            worst: self.worst_of_each(&basis),
            basis,
        };
        let mut section = self.map.insert(drawn).section();
        if borders.is_cut_short {
            section
                .cautions
                .push("The map is not whole: so many different jobs would take minutes to map.".into());
        }
        section
    }

    /// The worst record of each candidate, where its flow is known.
    fn worst_of_each(&mut self, basis: &Basis) -> Vec<Option<Record>> {
        let worst = |candidate: &CandidateBasis| {
            let facts = self.facts(basis, candidate);
            facts.verdict.as_ref()?.worst().copied()
        };
        basis.candidates.iter().map(worst).collect()
    }

    /// What the last [`Self::map`] says at a point in chart units: the candidate or the window near it, or else the
    /// flow and tank there.
    pub fn pick_on_map(&self, at: [f64; 2]) -> Option<Reading> {
        self.map.as_ref()?.pick(at)
    }

    /// What it says so many tanks to the right of a point and so many steps of flow above it.
    pub fn step_on_map(&self, at: [f64; 2], right: i32, up: i32) -> Option<Reading> {
        self.map.as_ref()?.step(at, right, up)
    }

    /// What is remembered where it still holds, else a new start.
    fn memo(&mut self, basis: &Basis) -> &mut Memo {
        let holds = |memo: &Memo| {
            basis.asks_for(&memo.places, &memo.tasks, &memo.line) && memo.auxiliary == basis.auxiliary
        };
        let kept = self.memo.take().filter(holds);
        let memo = self.memo.insert(kept.unwrap_or_else(|| Memo {
            places: basis.places.clone(),
            tasks: basis.tasks.clone(),
            line: basis.line,
            auxiliary: basis.auxiliary,
            window: None,
            borders: None,
            facts: Vec::new(),
            ranks: Vec::new(),
        }));
        // What is no longer on the list is let go.
        memo.facts.retain(|(kept, _)| basis.candidates.contains(kept));
        memo.ranks.retain(|(kept, _)| basis.candidates.contains(kept));
        memo
    }

    /// A candidate after its cheapest fix, as kept where nothing that it rests on has changed.
    fn rank(&mut self, shop: &Shop, basis: &Basis, candidate: usize) -> Option<judge::choice::Ranked> {
        let label = basis.candidates.get(candidate)?;
        let memo = self.memo(basis);
        if let Some((_, kept)) = memo.ranks.iter().find(|(kept, _)| kept == label) {
            return Some(judge::choice::Ranked {
                candidate,
                ..kept.clone()
            });
        }
        let verdict = self.facts(basis, label).verdict.clone();
        let ranked = judge::choice::Ranked::with(shop, candidate, verdict);
        self.memo(basis).ranks.push((label.clone(), ranked.clone()));
        Some(ranked)
    }

    /// The facts of a candidate, as kept where nothing that they rest on has changed.
    fn facts(&mut self, basis: &Basis, candidate: &CandidateBasis) -> Rc<Facts> {
        let memo = self.memo(basis);
        if let Some((_, facts)) = memo.facts.iter().find(|(kept, _)| kept == candidate) {
            return Rc::clone(facts);
        }
        let facts = Rc::new(assess(basis, candidate));
        memo.facts.push((candidate.clone(), Rc::clone(&facts)));
        facts
    }

    fn window(&mut self, basis: &Basis) -> Option<Found> {
        let memo = self.memo(basis);
        memo.window
            .get_or_insert_with(|| judge::window::window(basis))
            .clone()
    }
}

fn without_candidate(window: Window) -> Report {
    let answer = crate::report::Answer {
        grade: Grade::Note,
        verdict: "What to look for".into(),
        sentence: window.sentence.clone(),
        ..crate::report::Answer::default()
    };
    Report {
        answer,
        window,
        ..Report::default()
    }
}

/// Facts, circuits, and the view that is shown: what the subjects are made of.
type Grounds = (Rc<Facts>, Vec<Finding>, View);

/// The circuit's finding for each place.
fn circuits_of(words: Words, basis: &Basis, facts: &Facts) -> Vec<Finding> {
    let tellings = power::tellings(words, basis, facts);
    tellings.map(|(telling, _)| telling.finding()).collect()
}

fn with_candidate(
    words: Words,
    basis: &Basis,
    candidate: &CandidateBasis,
    facts: Rc<Facts>,
    window: Window,
    view: View,
) -> (Report, Grounds) {
    let circuits = circuits_of(words, basis, &facts);
    let worst = facts.verdict.as_ref().and_then(|verdict| verdict.worst());
    let worst = worst.map(|record| (record.place, record.task));
    let view = settled(view, basis, &facts, worst);
    let report = Report {
        places: place_rows(words, basis, candidate, &facts, &circuits),
        picture: picture_of(words, basis, candidate, &facts, view).unwrap_or_default(),
        view,
        window,
        ..Report::default()
    };
    (report, (facts, circuits, view))
}

impl Open {
    fn sections(&self) -> Option<Vec<Section>> {
        let Self {
            words,
            basis,
            facts,
            circuits,
            view,
            shop,
            standing,
            look_for,
            power_said,
        } = self;
        let (words, view) = (*words, *view);
        let candidate = basis.candidates.get(basis.chosen)?;
        let mut sections = Vec::new();
        let danger = danger::section(words, basis, candidate);
        sections.extend(danger);
        let mut search = judge::fix::Search::new(shop, basis.chosen, facts.verdict.clone());
        while !search.step() {}
        let tried = (search.fixes(), search.untried());
        sections.extend(mend::section(words, basis, *standing, &tried, look_for));
        sections.push(stages::section(words, basis, candidate, facts));
        sections.push(label::section(words, candidate, facts));
        sections.push(power_section(
            words,
            basis,
            candidate,
            facts,
            (circuits, power_said),
        ));
        sections.extend(line::section(words, basis, candidate, facts, view));
        sections.extend(auxiliary::section(words, basis, candidate, facts, view));
        sections.extend(paint::section(words, basis, candidate, facts));
        sections.push(water::section(words, basis, candidate, facts));
        sections.extend(cold::section(words, basis, candidate));
        sections.push(sound::section(words, basis, candidate, facts));
        sections.push(carry::section(words, basis, candidate, facts));
        sections.push(money::section(words, basis, candidate, facts));
        Some(sections)
    }
}

/// The view asked for, or the one that limits.
fn settled(view: View, basis: &Basis, facts: &Facts, worst: Option<(usize, usize)>) -> View {
    let has = |place: usize, task: usize| {
        facts
            .places
            .get(place)
            .is_some_and(|found| found.tasks.iter().any(|row| basis.tasks[row.task].index == task))
    };
    match (view.task, worst) {
        (Some(task), _) if has(view.place, task) => view,
        (_, Some((place, task))) => View {
            place,
            task: Some(basis.tasks[task].index),
        },
        _ => View::default(),
    }
}

fn picture_of(
    words: Words,
    basis: &Basis,
    candidate: &CandidateBasis,
    facts: &Facts,
    view: View,
) -> Option<Chart> {
    let found = facts.places.get(view.place)?;
    let place = basis.places.get(view.place)?;
    let row = found
        .tasks
        .iter()
        .find(|row| Some(basis.tasks[row.task].index) == view.task)?;
    let task = basis.tasks.get(row.task)?;
    let machine = found.machine.as_ref()?;
    Some(
        picture::Scene {
            words,
            candidate,
            place,
            task,
            machine,
            facts: row,
        }
        .chart(),
    )
}

fn place_rows(
    words: Words,
    basis: &Basis,
    candidate: &CandidateBasis,
    facts: &Facts,
    circuits: &[Finding],
) -> Vec<PlaceRows> {
    let asks = facts.verdict.as_ref().and_then(|verdict| verdict.asks);
    let places = basis.places.iter().zip(&facts.places).zip(circuits);
    places
        .map(|((place, found), circuit)| {
            rows_of(words, (basis, candidate), place, (found, asks.is_some()), circuit)
        })
        .collect()
}

fn rows_of(
    words: Words,
    (basis, candidate): (&Basis, &CandidateBasis),
    place: &PlaceBasis,
    (found, is_asked): (&PlaceFacts, bool),
    circuit: &Finding,
) -> PlaceRows {
    let tasks: Vec<_> = found
        .machine
        .iter()
        .flat_map(|machine| {
            found.tasks.iter().map(move |facts| {
                tasks::TaskContext {
                    words,
                    basis,
                    candidate,
                    place,
                    machine,
                    facts,
                    is_asked,
                }
                .row()
            })
        })
        .collect();
    let beyond = found
        .beyond
        .iter()
        .map(|(task, error)| tasks::beyond(basis, *task, error));
    let tasks: Vec<_> = tasks.into_iter().chain(beyond).collect();
    let grade = tasks
        .iter()
        .map(|row| row.grade)
        .chain([circuit.grade])
        .max()
        .unwrap_or_default();
    let lagging: Vec<String> = tasks
        .iter()
        .filter(|row| row.grade > Grade::Fair)
        .map(|row| row.name.clone())
        .collect();
    let sentence = match (tasks.is_empty(), lagging.is_empty()) {
        (true, _) if found.stays_home() => "It stays home and does not come here.".into(),
        (true, _) => "No flow to reckon with yet.".into(),
        _ if is_asked && tasks.iter().any(|row| row.grade == Grade::Unsure) => {
            "The flow is a guess or in doubt, and so are these.".into()
        }
        _ if tasks.iter().any(|row| row.grade == Grade::Unsure) => {
            "Not every job here can be judged yet: put right what its row names.".into()
        }
        (_, true) if circuit.grade == Grade::Bad => "Every job would be done here, if the power did.".into(),
        (_, true) => "Every job is done here.".into(),
        (_, false) => format!("Expect to wait here: {}.", listed(&lagging)),
    };
    PlaceRows {
        name: place.name.clone(),
        grade,
        sentence,
        air: air_of(words, place),
        circuit: circuit.clone(),
        tasks,
    }
}

fn air_of(words: Words, place: &PlaceBasis) -> Figure {
    let air = &place.air;
    let pressure = air.pressure().as_pa();
    let humidity = words.share(air.relative_humidity());
    let value = format!(
        "{} absolute, {}, {humidity} humid",
        words.of(Kind::StationPressure, pressure),
        words.of(Kind::Temperature, air.kelvin())
    );
    let mut put_in = sums::PutIn::new(words);
    let rule = match place.altitude_m {
        Some(altitude_m) => {
            put_in.of("z, altitude", Kind::Altitude, altitude_m);
            &sums::AIR
        }
        None => {
            put_in.of("p, barometer", Kind::StationPressure, pressure);
            &sums::AIR_READ
        }
    };
    put_in
        .of("temperature", Kind::Temperature, air.kelvin())
        .text("humidity", humidity);
    sums::figure("air", value, rule.with(&mut put_in))
}

fn power_section(
    words: Words,
    basis: &Basis,
    candidate: &CandidateBasis,
    facts: &Facts,
    (circuits, said): (&[Finding], &str),
) -> Section {
    let places = || basis.places.iter().zip(&facts.places);
    let findings: Vec<Finding> = basis
        .places
        .iter()
        .zip(circuits)
        .map(|(place, finding)| Finding {
            text: format!("{}: {}", place.name, finding.text),
            ..finding.clone()
        })
        .collect();
    let grade = circuits
        .iter()
        .map(|finding| finding.grade)
        .max()
        .unwrap_or_default();
    Section {
        id: "power".into(),
        title: "Will the outlet run it?".into(),
        grade,
        sentence: match grade {
            Grade::Good | Grade::Fair if places().count() == 1 => places()
                .find_map(|(place, found)| power::in_short(words, place, &found.power))
                .unwrap_or_else(|| said.into()),
            _ if !said.is_empty() => said.into(),
            Grade::Good | Grade::Note => "Every circuit carries it.".into(),
            Grade::Unsure => "The label does not tell the current.".into(),
            _ => {
                let thin = basis
                    .places
                    .iter()
                    .zip(circuits)
                    .filter(|(_, circuit)| circuit.grade > Grade::Unsure);
                let thin: Vec<String> = thin.map(|(place, _)| format!("“{}”", place.name)).collect();
                format!("The power is the weak point at {}.", listed(&thin))
            }
        },
        findings,
        figures: places()
            .flat_map(|(place, found)| power::figures(words, candidate, place, &found.power))
            .collect(),
        cautions: power::CAUTIONS.map(Into::into).into(),
        ..Section::default()
    }
}
