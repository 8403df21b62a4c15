//! What the draws say of one task at one place.

use crate::basis::Unread;
use crate::grade::Grade;
use quantity::PA_PER_PSI;

/// Waiting in an hour of a job up to which the job is done, minutes. Common practice, no source.
pub const LONG_WAIT_MIN: f64 = 5.0;
/// Waiting that nobody minds, minutes in the hour. Common practice, no source.
pub const SHORT_WAIT_MIN: f64 = 2.0;
/// So far below what the tool needs may the switch start the motor, Pa: a tool that dips so little is still of use, as
/// nobody knows its lowest useful pressure better. Common practice, no source.
pub const SWITCH_SLACK_PA: f64 = 5.0 * PA_PER_PSI;
/// Waiting in the middle of what must not be broken, minutes in the hour: less than anybody could see.
pub(super) const UNBROKEN_MIN: f64 = 0.02;
/// Tenths of the draws in which a job must be done to be called so, and to be called done with waits.
const GOOD_TENTHS: usize = 8;
const WAIT_TENTHS: usize = 5;

/// How a task fares in one draw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fared {
    /// Minutes of waiting in an hour of the job.
    pub minutes: f64,
    /// The switch lets the tank fall below what the tool needs before it starts the motor.
    pub weak: bool,
    /// Known without stepping through time.
    pub settled: bool,
}

impl Fared {
    /// Nobody waits.
    pub const AT_ONCE: Self = Self {
        minutes: 0.0,
        weak: false,
        settled: true,
    };
    /// The tool never gets its pressure.
    pub const NEVER: Self = Self {
        minutes: 60.0,
        weak: true,
        settled: true,
    };

    /// Whether the job is done: not with a stop in the middle of what must be `unbroken`, nor, where the switch is known,
    /// with a tool that is weak while the motor is off.
    pub fn is_done(&self, unbroken: bool, weak_counts: bool) -> bool {
        let most = if unbroken { UNBROKEN_MIN } else { LONG_WAIT_MIN };
        self.minutes < most && !(weak_counts && self.weak)
    }
}

/// Why a job can't be done, whoever does it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// A field that it is judged by was refused: it is neither good nor bad.
    NotRead(Unread),
    /// The line's figures are beyond what can be reckoned: nothing was judged.
    NotJudged,
    /// The switch starts the motor too late: the tool is weak before.
    Switch,
    /// The line does not pass the lowest useful pressure, or the switch opens below what the tool needs.
    NoPressure,
}

/// A task at a place: the odds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Record {
    /// Index into [`Basis::places`](crate::basis::Basis::places).
    pub place: usize,
    /// Index into [`Basis::tasks`](crate::basis::Basis::tasks).
    pub task: usize,
    /// Minutes of waiting in an hour of that job: nine in ten wait longer, the middle, one in ten waits longer.
    pub minutes: [f64; 3],
    /// Draws judged.
    pub draws: usize,
    /// Of those, the job is done: under [`LONG_WAIT_MIN`].
    pub done: usize,
    /// Of those, nobody waits to speak of: under [`SHORT_WAIT_MIN`].
    pub unwaited: usize,
    /// Of those, known without stepping through time.
    pub settled: usize,
    /// Why it can't be done at all.
    pub why: Option<Why>,
    /// What that is worth.
    pub grade: Grade,
}

/// How many of ten, rounded as the reader is told.
///
/// ```
/// # use judge::verdict::tenths;
/// assert_eq!([tenths(97, 128), tenths(95, 128), tenths(0, 0)], [8, 7, 0]);
/// ```
pub fn tenths(count: usize, draws: usize) -> usize {
    (20 * count + draws) / (2 * draws.max(1))
}

/// The grade of a job that is done in so many of the draws: eight of ten is good, five of ten means waits.
///
/// ```
/// # use judge::{grade::Grade, verdict::air_grade};
/// let grades = [120, 80, 20].map(|done| air_grade(done, 128));
/// assert_eq!(grades, [Grade::Good, Grade::Wait, Grade::Small]);
/// ```
pub fn air_grade(done: usize, draws: usize) -> Grade {
    match tenths(done, draws) {
        tenths if tenths >= GOOD_TENTHS => Grade::Good,
        tenths if tenths >= WAIT_TENTHS => Grade::Wait,
        _ => Grade::Small,
    }
}

fn least_count(tenths: usize, draws: usize) -> usize {
    ((2 * tenths * draws).saturating_sub(draws)).div_ceil(20)
}

/// Draws in which a job must be done at the least to be graded good.
///
/// ```
/// # use judge::{grade::Grade, verdict::{air_grade, good_from}};
/// let least = good_from(128);
/// assert_eq!((air_grade(least, 128), air_grade(least - 1, 128)), (Grade::Good, Grade::Wait));
/// ```
pub fn good_from(draws: usize) -> usize {
    least_count(GOOD_TENTHS, draws)
}

/// The same for work with waits.
pub fn waits_from(draws: usize) -> usize {
    least_count(WAIT_TENTHS, draws)
}

/// The value below which a share of sorted values lies.
fn at_share(sorted: &[f64], share: f64) -> f64 {
    let last = sorted.len().saturating_sub(1);
    let index = (share * sorted.len() as f64) as usize;
    sorted.get(index.min(last)).copied().unwrap_or(0.0)
}

impl Record {
    /// From how it fared in each draw, and whether it is done there; `not_judged` where it could not be.
    pub(super) fn of(
        (place, task): (usize, usize),
        fared: &[Fared],
        done: &[bool],
        not_judged: Option<Why>,
    ) -> Self {
        let mut minutes: Vec<f64> = fared.iter().map(|fared| fared.minutes).collect();
        quantity::order::by(&mut minutes, f64::total_cmp);
        let count = |wanted: &dyn Fn(&Fared) -> bool| fared.iter().filter(|fared| wanted(fared)).count();
        let never = count(&|fared| *fared == Fared::NEVER);
        let is_done = done.iter().filter(|done| **done).count();
        let waits_less = count(&|fared| fared.minutes < LONG_WAIT_MIN);
        let why = if not_judged.is_some() {
            not_judged
        } else if 2 * never > fared.len() {
            Some(Why::NoPressure)
        } else {
            // Who would hardly wait, but is not done.
            (2 * (waits_less - is_done.min(waits_less)) > fared.len()).then_some(Why::Switch)
        };
        Self {
            place,
            task,
            minutes: [0.1, 0.5, 0.9].map(|share| at_share(&minutes, share)),
            draws: fared.len(),
            done: is_done,
            unwaited: count(&|fared| fared.minutes < SHORT_WAIT_MIN),
            settled: count(&|fared| fared.settled),
            why,
            grade: match why {
                Some(Why::NotJudged | Why::NotRead(_)) => Grade::Ask,
                _ => air_grade(is_done, fared.len()),
            },
        }
    }

    /// The same record at another place or for an equal task, whose fields may have been refused: it is then neither good
    /// nor bad.
    pub(super) fn at(self, place: usize, task: usize, not_read: Option<Why>) -> Self {
        Self {
            place,
            task,
            why: not_read.or(self.why),
            grade: match not_read {
                Some(_) => Grade::Ask,
                None => self.grade,
            },
            ..self
        }
    }

    /// In how many of ten shops the job is done, as the reader is told.
    pub fn done_tenths(&self) -> usize {
        tenths(self.done, self.draws)
    }

    /// In how many of ten nobody waits to speak of.
    pub fn unwaited_tenths(&self) -> usize {
        tenths(self.unwaited, self.draws)
    }
}
