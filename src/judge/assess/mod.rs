//! One shop to verdicts: what a candidate does for each task at each place, in figures.
//!
//! No sentence is made here; the room `answer` does that.

pub mod machine;
pub mod remedy;
pub mod work;

use crate::basis::{Basis, CandidateBasis, PlaceBasis, TaskBasis};
use crate::grade::Grade;
use crate::power::{self, PowerVerdict};
use crate::verdict::{Record, Verdict, verdict};
use machine::{Supply, machine, store_m3};
use physics::compressor::{Claim, Pump, PumpError, RATING_PA, isentropic_watts, judge_claim};
use physics::line::LineError;
use physics::run::{Fineness, Hands, Machine, Run, Worker, longest_trigger_s, recovery_s, run};
use quantity::Absolute;
use work::{TaskWork, beside_kg_s, task_work};

/// Starts an hour that a small single-phase motor bears. Common practice, no source.
pub const STARTS_MOST: f64 = 20.0;
/// Recovery is sought for so long, s.
const RECOVERY_S: f64 = 7_200.0;

/// A task on a machine at a place.
#[derive(Clone, Debug)]
pub struct TaskFacts {
    /// Index into [`Basis::tasks`].
    pub task: usize,
    /// The odds.
    pub record: Record,
    /// The task as the tank sees it.
    pub work: TaskWork,
    /// Longest trigger from full, s; `None` is for good.
    pub trigger_s: Option<f64>,
    /// From lowest useful pressure back to cut-out, s.
    pub recovery_s: Option<f64>,
    /// Three hours with the likely figures and middling hands: the picture, how long the motor runs, how often it starts.
    pub run: Run,
    /// The same where the worker works on with a weak tool.
    pub works_on: Run,
}

impl TaskFacts {
    /// Whether the motor runs longer than it is rated for.
    pub fn is_over_duty(&self, candidate: &CandidateBasis) -> bool {
        self.run.running > candidate.duty.value
    }

    /// Whether it starts more often than such a motor bears.
    pub fn starts_often(&self) -> bool {
        self.run.starts_per_hour > STARTS_MOST
    }

    /// Whether the work draws more, in the long run, than the machine makes in the middle of its switch's band.
    pub fn is_short_of_flow(&self, machine: &Machine, task: &TaskBasis) -> bool {
        let asked = self.work.asked_kg_s * task.rhythm.long_share();
        asked > 0.97 * machine.delivery.at(machine.mid_band_pa())
    }
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
    /// Tasks that are on whose line is beyond the sums, each with why.
    pub beyond: Vec<(usize, LineError)>,
}

impl PlaceFacts {
    /// Starts an hour of the job at which it starts most often.
    pub fn most_starts(&self) -> f64 {
        let tasks = self.tasks.iter().map(|task| task.run.starts_per_hour);
        tasks.fold(0.0, f64::max)
    }

    /// Whether the machine stays at the first place and does not come here.
    pub fn stays_home(&self) -> bool {
        self.power.cause == power::Cause::StaysHome
    }
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
    /// What it does for each task at each place; `None` where its flow is unknown.
    pub verdict: Option<Verdict>,
    /// Place by place.
    pub places: Vec<PlaceFacts>,
}

impl Facts {
    /// Whether the motor starts too often at a place (an index into the basis). A machine that is short of air has worse to be
    /// told, and a tank that was taken for a blank tells nothing.
    pub fn starts_too_often(&self, candidate: &CandidateBasis, place: usize) -> bool {
        let told = self.verdict.as_ref().filter(|_| candidate.tank_m3.is_given());
        told.is_some_and(|verdict| verdict.grade() == Grade::Good)
            && self
                .places
                .get(place)
                .is_some_and(|found| found.most_starts() > STARTS_MOST)
    }
}

/// Judges a candidate in a shop.
pub fn assess(basis: &Basis, candidate: &CandidateBasis) -> Facts {
    assess_with(basis, candidate, verdict(basis, candidate))
}

/// [`assess`], where the verdict was [judged](crate::verdict::Judging) before.
pub fn assess_with(basis: &Basis, candidate: &CandidateBasis, verdict: Option<Verdict>) -> Facts {
    let (supply, contradiction) = Supply::of(candidate);
    let judged = verdict.as_ref();
    let places = basis
        .places
        .iter()
        .enumerate()
        .map(|(index, place)| place_facts(basis, candidate, (&supply, judged), index, place))
        .collect();
    Facts {
        verdict,
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
    // Three phases carry the square root of three as much.
    let phases = if candidate.three_phase {
        3.0_f64.sqrt()
    } else {
        1.0
    };
    let volt_amperes = phases * candidate.volts.value * candidate.amps?;
    let watts =
        |(flow, at): &(_, quantity::Gauge)| isentropic_watts(candidate.kind, *flow, at.at(inlet), inlet);
    let most = candidate.flows.iter().map(watts).fold(0.0, f64::max);
    (most > 0.0).then(|| (judge_claim(most, volt_amperes), most, volt_amperes))
}

fn place_facts(
    basis: &Basis,
    candidate: &CandidateBasis,
    (supply, verdict): (&Supply, Option<&Verdict>),
    index: usize,
    place: &PlaceBasis,
) -> PlaceFacts {
    let pump = supply.likely();
    let store = store_m3(candidate, basis.auxiliary.as_ref(), index);
    let at_place = |pump: &Pump| machine(candidate, pump, store, place);
    let likely = pump.as_ref().map(at_place);
    let on = basis.tasks.iter().enumerate().filter(|(_, task)| task.on);
    let (mut tasks, mut beyond) = (Vec::new(), Vec::new());
    for (task, asked) in on {
        let record = verdict.and_then(|verdict| verdict.record(index, task));
        if let Some((machine, record)) = likely.as_ref().zip(record) {
            match task_facts(basis, machine, place, (asked, *record)) {
                Ok(facts) => tasks.push(facts),
                Err(error) => beyond.push((task, error)),
            }
        }
    }
    let share_on = tasks.iter().map(|task| task.run.running).reduce(f64::max);
    PlaceFacts {
        tasks,
        beyond,
        power: power::verdict(candidate, place, index, pump.as_ref(), share_on),
        machine: likely,
    }
}

fn task_facts(
    basis: &Basis,
    machine: &Machine,
    place: &PlaceBasis,
    (task, record): (&TaskBasis, Record),
) -> Result<TaskFacts, LineError> {
    let mut work = task_work(task, &basis.line, place, machine.cut_out_pa)?;
    work.work.beside_kg_s = beside_kg_s(&basis.tasks, record.task, place);
    let of = |worker: Worker| run(machine, &work.work, worker, Hands::typical(), Fineness::Fine);
    let reachable = work.work.enough_pa < machine.cut_out_pa;
    let works_on = of(Worker::WorksOn);
    let run = if reachable { of(Worker::Spares) } else { works_on };
    Ok(TaskFacts {
        task: record.task,
        record,
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
        run,
        works_on,
        work,
    })
}
