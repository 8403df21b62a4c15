//! What is judged beside danger, power and odds: a gun that holds through a coat, a motor that starts too often.
//!
//! The headline says both, so a fix has to mend them as well, or to say that they are left.

use physics::receiver::R_DRY_AIR;
use physics::run::{Fineness, Hands, Machine, Worker, run};

use crate::assess::STARTS_MOST;
use crate::assess::machine::{Supply, machine, store_m3};
use crate::assess::work::{beside_kg_s, task_work};
use crate::basis::{Basis, CandidateBasis, PlaceBasis};
use crate::grade::Grade;
use crate::paint::holds;
use crate::power::stays_home;
use crate::verdict::Budget;
use quantity::order;

/// Both, row by row, a few at a time.
pub(crate) struct Caring {
    /// Machine of each place that it comes to, by the place's index.
    machines: Vec<(usize, Machine)>,
    /// Rows that are still to be judged, (place, task), the next one last.
    rows: Vec<(usize, usize)>,
    starts_count: bool,
    coat: Grade,
    starts: Grade,
}

/// Steps of a run as this module counts them: three hours of one job.
const RUN_STEPS: usize = 5_000;

/// Starts an hour that no work exceeds: as many as where it takes half of what the pump makes. Half as many again, as the
/// tank's warmth shortens the cycle. Judgement.
fn most_starts(machine: &Machine) -> f64 {
    let receiver = &machine.receiver;
    let band_kg =
        (machine.cut_out_pa - machine.cut_in_pa) * receiver.volume_m3 / (R_DRY_AIR * receiver.wall_k);
    1.5 * 3_600.0 * machine.delivery.at(machine.cut_in_pa) / (4.0 * band_kg.max(1e-9))
}

impl Caring {
    /// Of a machine whose air has this grade: of one that is short of air, or whose tank nobody told, the
    /// starts are not told.
    pub fn new(basis: &Basis, candidate: &CandidateBasis, air: Grade) -> Self {
        let pump = Supply::of(candidate).0.likely();
        let places = basis.places.iter().enumerate();
        let comes = places.filter(|(index, place)| *index == 0 || !stays_home(candidate, place, *index));
        let machines: Vec<(usize, Machine)> = comes
            .filter_map(|(index, place)| {
                let store = store_m3(candidate, basis.auxiliary.as_ref(), index);
                Some((index, machine(candidate, pump.as_ref()?, store, place)))
            })
            .collect();
        let starts_count = air == Grade::Good && candidate.tank_m3.is_given();
        let mut rows: Vec<(usize, usize)> = Vec::new();
        for (place, machine) in &machines {
            let may_start = starts_count && most_starts(machine) > STARTS_MOST;
            let tasks = basis.tasks.iter().enumerate().filter(|(_, task)| task.on);
            let asked = tasks.filter(|(_, task)| may_start || task.spray.is_some());
            rows.extend(asked.map(|(task, _)| (*place, task)));
        }
        // Coats first: they are the graver.
        order::by_key(&mut rows, |(_, task)| {
            basis.tasks.get(*task).is_some_and(|task| task.spray.is_some())
        });
        Self {
            machines,
            rows,
            starts_count,
            coat: Grade::Good,
            starts: Grade::Good,
        }
    }

    /// Judges on until the budget is spent; true once both are known.
    pub fn step(&mut self, basis: &Basis, candidate: &CandidateBasis, budget: &mut Budget) -> bool {
        while let Some((place, task)) = self.rows.last().copied() {
            if budget.go_on().is_err() {
                return false;
            }
            self.rows.pop();
            let machine = self.machines.iter().find(|(index, _)| *index == place);
            let at = basis.places.get(place).zip(machine);
            if let Some((place, (_, machine))) = at {
                let found = self.row(basis, candidate, (place, task), machine);
                budget.row(RUN_STEPS);
                (self.coat, self.starts) = (self.coat.max(found.0), self.starts.max(found.1));
            }
        }
        true
    }

    /// A row's coat and starts. A line that the sums refuse is told at its field, and grades nothing here.
    fn row(
        &self,
        basis: &Basis,
        candidate: &CandidateBasis,
        (place, task): (&PlaceBasis, usize),
        machine: &Machine,
    ) -> (Grade, Grade) {
        let Some(asked) = basis.tasks.get(task) else {
            return (Grade::Good, Grade::Good);
        };
        let Ok(mut of) = task_work(asked, &basis.line, place, machine.cut_out_pa) else {
            return (Grade::Good, Grade::Good);
        };
        of.work.beside_kg_s = beside_kg_s(&basis.tasks, task, place);
        let fades = asked.spray.is_some() && !holds(candidate, place, machine, &of.work);
        let worker = match of.work.enough_pa < machine.cut_out_pa {
            true => Worker::Spares,
            false => Worker::WorksOn,
        };
        let often = self.starts_count && {
            let found = run(machine, &of.work, worker, Hands::typical(), Fineness::Fine);
            found.starts_per_hour > STARTS_MOST
        };
        let grade = |wrong: bool, grade: Grade| if wrong { grade } else { Grade::Good };
        (grade(fades, Grade::Small), grade(often, Grade::Trip))
    }

    /// What was found: the coat's grade and that of the starts.
    pub fn found(&self) -> (Grade, Grade) {
        (self.coat, self.starts)
    }
}

/// Both at once.
pub(crate) fn cares(basis: &Basis, candidate: &CandidateBasis, air: Grade) -> (Grade, Grade) {
    let mut caring = Caring::new(basis, candidate, air);
    let mut budget = Budget::ENDLESS;
    while !caring.step(basis, candidate, &mut budget) {}
    caring.found()
}
