//! One shop to verdicts: what a candidate does for each task at each place, in figures.
//!
//! No sentence is made here; the room `answer` does that.

pub mod machine;
pub mod remedy;
pub mod work;

use crate::basis::{Basis, CandidateBasis, PlaceBasis, TaskBasis};
use crate::power::{self, PowerVerdict};
use machine::{Supply, machine, store_m3};
use physics::compressor::{Claim, Pump, PumpError, RATING_PA, isentropic_watts, judge_claim};
use physics::run::{LongRun, Machine, Worker, long_run, longest_trigger_s, recovery_s};
use quantity::Absolute;
use work::{TaskWork, task_work};

/// Waiting that nobody minds, share of time: a minute in the hour.
pub const WAIT_NOTICED: f64 = 1.0 / 60.0;
/// Waiting that makes a task hopeless: half of all time. Common practice, no source.
pub const WAIT_MOST: f64 = 0.5;
/// Starts an hour that a small single-phase motor bears. Common practice, no source.
pub const STARTS_MOST: f64 = 20.0;
/// Recovery is sought for so long, s.
const RECOVERY_S: f64 = 7_200.0;

/// What a machine does for a task.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outcome {
    /// No wait, motor within its duty.
    KeepsUp,
    /// No wait, but the motor runs beyond its duty or starts too often.
    RunsHard,
    /// Waits for this share of the time.
    Waits(f64),
    /// Not to be done with it.
    WillNot(Why),
}

/// Why a machine will not do a task.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// The line does not pass the lowest useful pressure, whatever the tank has.
    Line,
    /// The switch opens below the pressure that the tool needs.
    CutOut,
    /// The machine never gets the tank back to cut-out.
    Stalls,
    /// Not one pull of the trigger is done from a full tank.
    OnePull,
    /// More waiting than working.
    Waiting,
}

impl Outcome {
    /// Order from best to worst, to find what limits.
    pub fn severity(&self) -> f64 {
        match self {
            Self::KeepsUp => 0.0,
            Self::RunsHard => 1.0,
            Self::Waits(share) => 2.0 + share,
            Self::WillNot(_) => 4.0,
        }
    }
}

/// A task on a machine at a place.
#[derive(Clone, Debug)]
pub struct TaskFacts {
    /// Index into [`Basis::tasks`].
    pub task: usize,
    /// The verdict.
    pub outcome: Outcome,
    /// The task as the tank sees it.
    pub work: TaskWork,
    /// Longest trigger from full, s; `None` is for good.
    pub trigger_s: Option<f64>,
    /// From lowest useful pressure back to cut-out, s.
    pub recovery_s: Option<f64>,
    /// The worker waits.
    pub waits: LongRun,
    /// The worker works on with a weak tool.
    pub works_on: LongRun,
    /// Verdicts at the low and the high end of a guessed flow.
    pub range: Option<[Outcome; 2]>,
}

/// A machine at a place.
#[derive(Clone, Debug)]
pub struct PlaceFacts {
    /// The machine as run there; `None` where its flow is unknown.
    pub machine: Option<Machine>,
    /// Its circuit.
    pub power: PowerVerdict,
    /// Its tasks, in the shop's order, those that are on.
    pub tasks: Vec<TaskFacts>,
}

/// All facts about one candidate in one shop.
#[derive(Clone, Debug)]
pub struct Facts {
    /// What the flow rests on.
    pub supply: Supply,
    /// Two flows that contradict each other.
    pub contradiction: Option<PumpError>,
    /// The claim against the plate: verdict, isentropic watts, volt-amperes; none where the flow was measured.
    pub claim: Option<(Claim, f64, f64)>,
    /// Place by place.
    pub places: Vec<PlaceFacts>,
}

/// Judges a candidate in a shop.
pub fn assess(basis: &Basis, candidate: &CandidateBasis) -> Facts {
    let (supply, contradiction) = Supply::of(candidate);
    let places = basis
        .places
        .iter()
        .enumerate()
        .map(|(index, place)| place_facts(basis, candidate, &supply, index, place))
        .collect();
    Facts {
        contradiction,
        // What was measured makes the claim idle.
        claim: match supply {
            Supply::Measured(_) => None,
            _ => claim(candidate),
        },
        supply,
        places,
    }
}

/// The first flow of the label against volts times amps.
pub fn claim(candidate: &CandidateBasis) -> Option<(Claim, f64, f64)> {
    let inlet = Absolute::pa(RATING_PA);
    let volt_amperes = candidate.volts.value * candidate.amps?;
    let watts =
        |(flow, at): &(_, quantity::Gauge)| isentropic_watts(candidate.kind, *flow, at.at(inlet), inlet);
    let most = candidate.flows.iter().map(watts).fold(0.0, f64::max);
    (most > 0.0).then(|| (judge_claim(most, volt_amperes), most, volt_amperes))
}

fn place_facts(
    basis: &Basis,
    candidate: &CandidateBasis,
    supply: &Supply,
    index: usize,
    place: &PlaceBasis,
) -> PlaceFacts {
    let pump = supply.likely();
    let store = store_m3(candidate, basis.auxiliary.as_ref(), index);
    let at_place = |pump: &Pump| machine(candidate, pump, store, place);
    let likely = pump.as_ref().map(at_place);
    let range = supply.range().map(|pumps| pumps.map(|pump| at_place(&pump)));
    let on = basis.tasks.iter().enumerate().filter(|(_, task)| task.on);
    let tasks = on.filter_map(|(index, task)| {
        let machine = likely.as_ref()?;
        task_facts(basis, candidate, machine, range.as_ref(), place, index, task)
    });
    let tasks: Vec<TaskFacts> = tasks.collect();
    let share_on = tasks.iter().map(|task| task.waits.running).reduce(f64::max);
    PlaceFacts {
        tasks,
        power: power::verdict(candidate, place, index, pump.as_ref(), share_on),
        machine: likely,
    }
}

fn task_facts(
    basis: &Basis,
    candidate: &CandidateBasis,
    machine: &Machine,
    range: Option<&[Machine; 2]>,
    place: &PlaceBasis,
    index: usize,
    task: &TaskBasis,
) -> Option<TaskFacts> {
    let work = task_work(task, &basis.line, place, machine.cut_out_pa).ok()?;
    let verdict = |machine: &Machine| judge(machine, &work, candidate.duty.value);
    let (outcome, waits) = verdict(machine);
    let works_on = if waits.waiting > 0.0 {
        long_run(machine, &work.work, Worker::WorksOn)
    } else {
        waits
    };
    let reachable = work.work.enough_pa < machine.cut_out_pa;
    Some(TaskFacts {
        task: index,
        outcome,
        trigger_s: if reachable {
            longest_trigger_s(machine, &work.work)
        } else {
            Some(0.0)
        },
        recovery_s: if reachable {
            recovery_s(machine, work.work.enough_pa, RECOVERY_S)
        } else {
            None
        },
        waits,
        works_on,
        range: range.map(|machines| [verdict(&machines[0]).0, verdict(&machines[1]).0]),
        work,
    })
}

/// The verdict for a machine and a task, and the long run with a worker who waits.
pub fn judge(machine: &Machine, task: &TaskWork, duty: f64) -> (Outcome, LongRun) {
    let work = &task.work;
    if work.enough_pa >= machine.cut_out_pa {
        let why = if work.enough_pa.is_finite() {
            Why::CutOut
        } else {
            Why::Line
        };
        return (Outcome::WillNot(why), long_run(machine, work, Worker::WorksOn));
    }
    let waits = long_run(machine, work, Worker::Patient);
    let outcome = if waits.hopeless {
        Outcome::WillNot(Why::Stalls)
    } else if longest_trigger_s(machine, work)
        .is_some_and(|seconds| seconds < 0.5 * work.rhythm.on_s.min(10.0))
    {
        Outcome::WillNot(Why::OnePull)
    } else if waits.waiting > WAIT_MOST {
        Outcome::WillNot(Why::Waiting)
    } else if waits.waiting > WAIT_NOTICED {
        Outcome::Waits(waits.waiting)
    } else if waits.running > duty || waits.starts_per_hour > STARTS_MOST {
        Outcome::RunsHard
    } else {
        Outcome::KeepsUp
    };
    (outcome, waits)
}
