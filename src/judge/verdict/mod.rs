//! One verdict, with the odds in it: what a machine does for each task at each place.
//!
//! Labels, tools and hands are ranges. 128 draws out of them are each worked through for three hours, the same draws for
//! every machine, so that nothing jumps and two machines differ by what differs in them. What comes out is a [`Record`]
//! for each task at each place; headline, rows, comparison, map and what to look for read that and nothing else.

mod case;
mod draw;
mod driver;
mod grading;
mod record;
mod sizing;
mod slice;
mod unknown;

pub use driver::{Driver, NAMED, linear_share};
pub use record::{
    Fared, LONG_WAIT_MIN, Record, SHORT_WAIT_MIN, SWITCH_SLACK_PA, Why, air_grade, good_from, tenths,
    waits_from,
};
pub use unknown::{Grounds, Spread, Unknown, Which, unknowns};

pub(crate) use case::Size;
pub(crate) use grading::{Before, Grading};
pub(crate) use sizing::Sizing;
pub(crate) use slice::{Budget, Paused};

use crate::assess::claim;
use crate::assess::machine::Supply;
use crate::basis::{Basis, CandidateBasis};
use crate::draws::Draws;
use crate::grade::Grade;
use case::Case;
use draw::Draw;
use physics::compressor::Claim;
use physics::run::{Fineness, Machine, Work, Worker, never_waits, run};
use quantity::Gauge;

/// What a machine does in a shop.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// Task by task, place by place, in the shop's order.
    pub records: Vec<Record>,
    /// In how many draws every task is done at every place.
    pub all_done: usize,
    /// In how many nobody waits for anything.
    pub all_unwaited: usize,
    /// Draws.
    pub draws: usize,
    /// What is not known, with its ranges.
    pub unknowns: Vec<Unknown>,
    /// What those settle of the worst record's wait, most first, those above [`NAMED`].
    pub drivers: Vec<Driver>,
    /// Why the air can't be graded yet, where it can't: the odds are then those of the likeliest machine.
    pub asks: Option<AskAir>,
}

/// Why a machine's air can't be graded.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AskAir {
    /// No flow on the label: it is a guess from amps or horsepower.
    Guessed,
    /// Volts and amps cannot make so much air at all.
    CannotBe,
    /// They hardly can.
    Unlikely,
    /// Two flows of the label contradict each other.
    Contradiction,
    /// Timed runs differ by more than a hand on a stopwatch, by this share of their mean.
    RunsDiffer(f64),
    /// Timed, it makes this many times what is printed.
    TimedOverPrint(f64),
}

impl Verdict {
    /// The record that decides: the worst grade, then the fewest draws done, then the longest wait.
    pub fn worst(&self) -> Option<&Record> {
        worst_of(&self.records)
    }

    /// The grade of the air: the worst of all tasks at all places, or that it can't be said.
    pub fn grade(&self) -> Grade {
        let worst = self.worst().map_or(Grade::Ask, |record| record.grade);
        match self.asks {
            Some(_) => worst.max(Grade::Ask),
            None => worst,
        }
    }

    /// The record of a task at a place.
    pub fn record(&self, place: usize, task: usize) -> Option<&Record> {
        let mut records = self.records.iter();
        records.find(|record| (record.place, record.task) == (place, task))
    }

    /// Share of all draws of all records that were settled without stepping through time.
    pub fn settled(&self) -> f64 {
        let of = |count: fn(&Record) -> usize| self.records.iter().map(count).sum::<usize>() as f64;
        of(|record| record.settled) / of(|record| record.draws).max(1.0)
    }
}

fn worst_of(records: &[Record]) -> Option<&Record> {
    let rank = |record: &Record| (record.grade, usize::MAX - record.done);
    records.iter().max_by(|one, other| {
        rank(one)
            .cmp(&rank(other))
            .then(one.minutes[1].total_cmp(&other.minutes[1]))
    })
}

/// A verdict on its way: draws are judged a few at a time, so that a page stays fluid.
///
/// ```
/// # use judge::{basis::Basis, verdict::Judging};
/// # use shop::Shop;
/// let basis = Basis::of(&Shop::demo());
/// let mut judging = Judging::new(&basis, &basis.candidates[0]).ok_or("no flow")?;
/// while !judging.slice() {}
/// let verdict = judging.verdict();
/// assert!(verdict.records.iter().all(|record| record.done <= verdict.draws));
/// # Ok::<(), &str>(())
/// ```
pub struct Judging {
    case: Case,
    candidate: CandidateBasis,
    unknowns: Vec<Unknown>,
    draws: Vec<Draw>,
    /// How each row fared, draw by draw.
    fared: Vec<Vec<Fared>>,
    /// Draws that are judged for all rows, and rows of the next one.
    judged: usize,
    rows_judged: usize,
}

/// How one row fares in one draw, and the steps that it took to know.
fn fare(machine: &Machine, work: Work, draw: &Draw, task: usize, weak_counts: bool) -> (Fared, usize) {
    if work.enough_pa >= machine.cut_out_pa {
        return (Fared::NEVER, 0);
    }
    let weak = is_weak(machine, &work);
    let work = if weak && weak_counts {
        borne(machine, work)
    } else {
        work
    };
    let hands = draw.hands(task);
    if never_waits(machine, &work, hands) {
        return (
            Fared {
                weak,
                ..Fared::AT_ONCE
            },
            0,
        );
    }
    let run = run(machine, &work, Worker::Spares, hands, Fineness::Coarse);
    let fared = Fared {
        minutes: run.minutes_waiting(),
        weak,
        settled: false,
    };
    (fared, run.steps)
}

/// The work as it goes with a switch that is known to start the motor too late: the tool is weak down to there whoever
/// waits, and that alone fails the job. Nobody then stops, once the motor runs, for what he worked with while it was off.
fn borne(machine: &Machine, work: Work) -> Work {
    Work {
        enough_pa: work.enough_pa.min(machine.cut_in_pa + SWITCH_SLACK_PA),
        ..work
    }
}

/// Whether the switch lets the tank fall below what the tool needs.
fn is_weak(machine: &Machine, work: &Work) -> bool {
    machine.cut_in_pa < work.enough_pa - SWITCH_SLACK_PA
}

impl Judging {
    /// Prepares the usual draws; `None` where there is no flow that can be, no place or no task.
    pub fn new(basis: &Basis, candidate: &CandidateBasis) -> Option<Self> {
        Self::with(basis, candidate, Draws::usual())
    }

    /// The same with other draws.
    pub fn with(basis: &Basis, candidate: &CandidateBasis, draws: Draws) -> Option<Self> {
        Self::of_rows(basis, candidate, draws, None)
    }

    fn of_rows(
        basis: &Basis,
        candidate: &CandidateBasis,
        draws: Draws,
        only: Option<(usize, usize)>,
    ) -> Option<Self> {
        let unknowns = unknowns(basis, candidate)?;
        let case = Case::new(basis, candidate, &unknowns, only)?;
        let rows = case.rows().count();
        (rows > 0).then(|| Self {
            case,
            candidate: candidate.clone(),
            draws: Draw::all(&draws, &unknowns),
            unknowns,
            fared: vec![Vec::new(); rows],
            judged: 0,
            rows_judged: 0,
        })
    }

    /// Different jobs: equal tasks at equal places count once.
    pub fn rows(&self) -> usize {
        self.fared.len()
    }

    /// Judges the next rows of the next draws, as many as some 50 ms allow; true once all are judged.
    pub fn slice(&mut self) -> bool {
        let mut budget = Budget::default();
        budget.refill();
        while !self.is_over() && budget.go_on().is_ok() {
            self.next(&mut budget);
        }
        self.is_over()
    }

    /// Judges the next draws, at most so many; true once all are judged.
    pub fn step(&mut self, most: usize) -> bool {
        let until = self.draws.len().min(self.judged.saturating_add(most));
        let mut budget = Budget::ENDLESS;
        while self.judged < until {
            self.next(&mut budget);
        }
        self.is_over()
    }

    fn is_over(&self) -> bool {
        self.judged == self.draws.len()
    }

    /// Only a switch that is known fails a job.
    fn weak_counts(&self) -> bool {
        self.candidate.switch_origins[0].is_given()
    }

    /// Judges the next row of the next draw.
    fn next(&mut self, budget: &mut Budget) {
        let (row, rows) = (self.rows_judged, self.fared.len());
        let case = self.draws.get(self.judged).zip(self.case.rows().nth(row));
        if let Some((draw, (place, task))) = case {
            if self.judged == 0 {
                budget.line();
            }
            let machine = self.case.machine(draw, place, Size::OWN);
            let (fared, steps) = match machine.zip(self.case.work(row, draw)) {
                Some((machine, work)) => fare(&machine, work, draw, task, self.weak_counts()),
                None => (Fared::NEVER, 0),
            };
            budget.row(steps);
            if let Some(row) = self.fared.get_mut(row) {
                row.push(fared);
            }
        }
        self.rows_judged = (row + 1) % rows.max(1);
        self.judged += usize::from(self.rows_judged == 0);
    }

    /// How a record fared in a draw, the machine and the work of that draw: for a test.
    pub fn case_of(&self, record: usize, draw: usize) -> Option<(Machine, Work, Fared)> {
        let (_, _, row) = *self.case.asked().get(record)?;
        let drawn = self.draws.get(draw)?;
        let (place, _) = self.case.rows().nth(row)?;
        Some((
            self.case.machine(drawn, place, Size::OWN)?,
            self.case.work(row, drawn)?,
            *self.fared.get(row)?.get(draw)?,
        ))
    }

    /// Whether each row is done, draw by draw, in the draws that are judged for all rows.
    fn done(&self) -> Vec<Vec<bool>> {
        let weak_counts = self.weak_counts();
        let rows = self.case.rows().zip(&self.fared);
        rows.map(|((_, task), fared)| {
            let unbroken = self.case.is_unbroken(task);
            let fared = fared.iter().take(self.judged);
            fared.map(|fared| fared.is_done(unbroken, weak_counts)).collect()
        })
        .collect()
    }

    /// What the draws say that are judged for all rows so far.
    pub fn verdict(&self) -> Verdict {
        let is_done = self.done();
        let all = |wanted: &dyn Fn(usize, usize) -> bool| {
            let rows = || 0..self.fared.len();
            (0..self.judged)
                .filter(|draw| rows().all(|row| wanted(row, *draw)))
                .count()
        };
        let done = |row: usize, draw: usize| is_done.get(row).and_then(|row| row.get(draw)) == Some(&true);
        let unwaited = |row: usize, draw: usize| {
            let fared = self.fared.get(row).and_then(|row| row.get(draw));
            fared.is_some_and(|fared| fared.minutes < SHORT_WAIT_MIN)
        };
        let records = self.records(&is_done);
        let worst = worst_of(&records).and_then(|worst| {
            let at = records.iter().position(|record| record == worst)?;
            let (_, _, row) = self.case.asked().get(at)?;
            Some(self.drivers(*row, self.case.rows().nth(*row)?.1))
        });
        Verdict {
            records,
            all_done: all(&done),
            all_unwaited: all(&|row, draw| done(row, draw) && unwaited(row, draw)),
            draws: self.judged,
            drivers: worst.unwrap_or_default(),
            unknowns: self.unknowns.clone(),
            asks: asks(&self.candidate),
        }
    }

    fn records(&self, is_done: &[Vec<bool>]) -> Vec<Record> {
        let basis = self.case.basis();
        let (mut records, mut by_row) = (Vec::new(), vec![None; is_done.len()]);
        for (place, task, row) in self.case.asked() {
            let (Some(fared), Some(done), Some(kept)) =
                (self.fared.get(*row), is_done.get(*row), by_row.get_mut(*row))
            else {
                continue;
            };
            let unread = basis.unread_air(&self.candidate, *place, *task).map(Why::NotRead);
            let beyond = (!self.case.is_open(*row)).then_some(Why::NotJudged);
            let fared = fared.get(..self.judged).unwrap_or(fared);
            let of_row = *kept.get_or_insert_with(|| Record::of((*place, *task), fared, done, beyond));
            records.push(of_row.at(*place, *task, unread));
        }
        records
    }

    /// What the unknowns settle of a row's wait: other tasks' tools have no part in it.
    fn drivers(&self, row: usize, task: usize) -> Vec<Driver> {
        let Some(fared) = self.fared.get(row) else {
            return Vec::new();
        };
        let fared = fared.iter().take(self.judged);
        let waits: Vec<f64> = fared.map(|fared| fared.minutes).collect();
        let draws = self.draws.iter().take(self.judged);
        let quantiles: Vec<Vec<f64>> = draws.map(|draw| draw.quantiles().to_vec()).collect();
        let own = |unknown: &Unknown| !matches!(unknown.which, Which::Tool(other) if other != task);
        driver::drivers(
            &waits,
            &quantiles,
            &self.unknowns.iter().map(own).collect::<Vec<_>>(),
        )
    }
}

/// The whole verdict at once; `None` as for [`Judging::new`].
pub fn verdict(basis: &Basis, candidate: &CandidateBasis) -> Option<Verdict> {
    let mut judging = Judging::new(basis, candidate)?;
    judging.step(usize::MAX);
    Some(judging.verdict())
}

/// The record of one task at one place alone; `None` as for [`Judging::new`].
pub fn record_of(basis: &Basis, candidate: &CandidateBasis, place: usize, task: usize) -> Option<Record> {
    let mut judging = Judging::of_rows(basis, candidate, Draws::usual(), Some((place, task)))?;
    judging.step(usize::MAX);
    judging.verdict().records.first().copied()
}

/// Timed runs may differ by so much, s: three errors of a hand on a stopwatch. Common practice, no source.
pub const RUNS_DIFFER_S: f64 = 3.0 * physics::measure::CLOCK_S;
/// Timed flow over what is printed beyond which one of the two is wrong. Common practice, no source.
pub const OVER_PRINT: f64 = 1.15;

/// Why the air of a machine can't be graded.
fn asks(candidate: &CandidateBasis) -> Option<AskAir> {
    if let Some(timed) = candidate.measured.and_then(|measured| measured.delivered) {
        return asks_timed(candidate, &timed);
    }
    let (supply, contradiction) = Supply::of(candidate);
    match (supply, claim(candidate).map(|(claimed, _, _)| claimed)) {
        (Supply::FromSuction(_) | Supply::FromAmps(_) | Supply::FromHorsepower(_) | Supply::Nothing, _) => {
            Some(AskAir::Guessed)
        }
        (_, Some(Claim::CannotBe)) => Some(AskAir::CannotBe),
        (_, Some(Claim::Unlikely)) => Some(AskAir::Unlikely),
        _ => contradiction.map(|_| AskAir::Contradiction),
    }
}

fn asks_timed(candidate: &CandidateBasis, timed: &physics::measure::Delivered) -> Option<AskAir> {
    let differ = timed.spread * timed.mean_s > RUNS_DIFFER_S;
    let at = Gauge::psi(90.0);
    let printed = Supply::of_label(candidate).0;
    let over = match printed {
        Supply::OneFlow(pump) | Supply::TwoFlows(pump) => {
            timed.pump.rated(at).as_m3_s() / pump.rated(at).as_m3_s()
        }
        _ => 0.0,
    };
    if differ {
        Some(AskAir::RunsDiffer(timed.spread))
    } else {
        (over > OVER_PRINT).then_some(AskAir::TimedOverPrint(over))
    }
}
