//! The sets that are tried on a machine, and what each changes.

use physics::line::STANDARD_BORES_IN;
use quantity::{Kind, M3_PER_GALLON, write};
use shop::change::Change;
use shop::edit::with;
use shop::{Shop, TaskKind};

use super::{AirStep, Effort, Fix};
use crate::assess::machine::Supply;
use crate::basis::Basis;
use crate::care::Caring;
use crate::grade::Grade;
use crate::power;
use crate::standing::Standing;
use crate::verdict::{Before, Budget, Grading, Verdict};

/// What is done about the power, place by place, and about the air.
pub(super) type Set = (Vec<(usize, power::Fix)>, Option<AirStep>);

/// Second tanks that are offered, gal: what one person moves. Common practice, no source.
const SECOND_GAL: [f64; 2] = [20.0, 30.0];
/// The same where volumes are metric, L.
const SECOND_L: [f64; 2] = [50.0, 100.0];
/// Longest pause that is offered, as a multiple of the present one: beyond that it is waiting by another name.
const LONGEST_PAUSE: f64 = 2.0;
/// The hose that is on the rack, in.
const RACK_BORES_IN: [f64; 2] = [0.375, 0.5];

/// The machine in its shop as it is.
pub(super) struct Bench {
    pub shop: Shop,
    pub basis: Basis,
    pub candidate: usize,
    pub verdict: Option<Verdict>,
    pub before: Standing,
}

/// A set whose power mends, its air still to be graded.
pub(super) struct Trial {
    pub fix: Fix,
    pub grading: Grading,
    /// What is judged last, once the air is known to do.
    caring: Option<Caring>,
    /// The shop with all of the set on.
    basis: Basis,
}

impl Bench {
    /// All sets, the first to be tried last.
    pub fn sets(&self) -> Vec<Set> {
        let (powers, airs) = (self.powers(), self.airs());
        let first = powers.first().cloned().unwrap_or_default();
        let with_first_power = airs.iter().map(|air| (first.clone(), air.clone()));
        let first_air = airs.first().cloned().flatten();
        let more_powers = powers
            .iter()
            .skip(1)
            .map(|power| (power.clone(), first_air.clone()));
        let mut sets: Vec<Set> = with_first_power.chain(more_powers).collect();
        sets.reverse();
        sets
    }

    /// What may be done about the power: a fix for each place that wants one; one empty set where none does.
    fn powers(&self) -> Vec<Vec<(usize, power::Fix)>> {
        let Some(machine) = self.basis.candidates.get(self.candidate) else {
            return Vec::new();
        };
        let pump = Supply::of(machine).0.likely();
        let mut by_place = Vec::new();
        for (index, place) in self.basis.places.iter().enumerate() {
            let found = power::verdict(machine, place, index, pump.as_ref(), None);
            if found.grade > Grade::Good && !found.fixes.is_empty() {
                by_place.push((index, found.fixes));
            }
        }
        let most = by_place.iter().map(|(_, fixes)| fixes.len()).max().unwrap_or(0);
        if most == 0 {
            return vec![Vec::new()];
        }
        (0..most)
            .map(|nth| {
                let nth_of = |(place, fixes): &(usize, Vec<power::Fix>)| {
                    let fix = fixes.get(nth).or(fixes.last())?;
                    Some((*place, fix.clone()))
                };
                by_place.iter().filter_map(nth_of).collect()
            })
            .collect()
    }

    /// What may be done about the air; nothing, where it is enough or can't be said.
    fn airs(&self) -> Vec<Option<AirStep>> {
        if self.before.starts > Grade::Good && self.before.air == Grade::Good {
            return self.for_starts();
        }
        let short = |grade: Grade| matches!(grade, Grade::Wait | Grade::Small);
        let fades = self.before.air == Grade::Good && short(self.before.coat);
        if !(short(self.before.air) || fades) {
            return vec![None];
        }
        let worst = self.verdict.as_ref().and_then(Verdict::worst);
        let Some(task) = worst.map(|record| record.task) else {
            return vec![None];
        };
        let mut steps = Vec::new();
        // Short waits are borne where the power alone is put right.
        let waits = self.before.air.max(self.before.coat) == Grade::Wait;
        let borne = (waits && self.before.power > Grade::Good).then_some(None);
        steps.extend(self.hoses());
        steps.extend(self.other_tools());
        steps.extend(self.pause(task));
        steps.extend(self.second_tanks());
        borne.into_iter().chain(steps.into_iter().map(Some)).collect()
    }

    /// What a motor wants that starts too often, and the power alone where no tank is enough.
    fn for_starts(&self) -> Vec<Option<AirStep>> {
        let tanks = self.second_tanks().into_iter().map(Some);
        let alone = (self.before.power > Grade::Good).then_some(None);
        tanks.chain(alone).collect()
    }

    fn hoses(&self) -> Vec<AirStep> {
        let present = self.basis.line.trunk.0;
        let wider = RACK_BORES_IN
            .into_iter()
            .filter(|bore| STANDARD_BORES_IN.contains(bore));
        let wider = wider
            .map(|bore| bore * 0.0254)
            .filter(|bore| *bore > 1.05 * present);
        wider.map(AirStep::Hose).collect()
    }

    /// Drilling and deburring go cordless together; grinder and sander run on a cord.
    fn other_tools(&self) -> Vec<AirStep> {
        let on = || self.basis.tasks.iter().enumerate().filter(|(_, task)| task.on);
        let holes = on().filter(|(_, task)| matches!(task.kind, TaskKind::Drill | TaskKind::Deburr));
        let holes: Vec<usize> = holes.map(|(index, _)| index).collect();
        let cordless = (!holes.is_empty()).then_some(AirStep::Cordless(holes));
        let electric = on().filter(|(_, task)| matches!(task.kind, TaskKind::DieGrinder | TaskKind::Sander));
        cordless
            .into_iter()
            .chain(electric.map(|(index, _)| AirStep::Electric(index)))
            .collect()
    }

    /// A pause between pulls up to [`LONGEST_PAUSE`] times the present one; never in the middle of a coat.
    fn pause(&self, task: usize) -> Option<AirStep> {
        let of = self.basis.tasks.get(task)?;
        let sprays = matches!(of.kind, TaskKind::PrimerGun | TaskKind::PaintGun);
        let longer = (LONGEST_PAUSE * of.rhythm.off_s).round();
        (!sprays && longer > of.rhythm.off_s).then_some(AirStep::Pause(task, longer))
    }

    fn second_tanks(&self) -> Vec<AirStep> {
        if self.basis.auxiliary.is_some() {
            return Vec::new();
        }
        let volumes = match self.basis.units {
            quantity::Units::Us => SECOND_GAL.map(|gal| gal * M3_PER_GALLON),
            quantity::Units::Metric => SECOND_L.map(|litres| litres / 1e3),
        };
        volumes.map(AirStep::SecondTank).into()
    }

    fn changes_of(&self, step: &AirStep) -> Vec<Change> {
        let units = self.basis.units;
        let change = |field: String, text: String| Change { field, text };
        let off = |task: &usize| {
            let index = self.basis.tasks.get(*task).map_or(*task, |task| task.index);
            change(format!("tasks.{index}.on"), "false".into())
        };
        match step {
            AirStep::Cordless(tasks) => tasks.iter().map(off).collect(),
            AirStep::Electric(task) => vec![off(task)],
            AirStep::Hose(bore) => vec![change("line.trunk_bore".into(), write(Kind::Bore, *bore, units))],
            AirStep::SecondTank(volume) => vec![
                change("auxiliary.tank".into(), write(Kind::Volume, *volume, units)),
                change("auxiliary.rated".into(), self.stamp()),
            ],
            AirStep::Pause(task, seconds) => {
                let index = self.basis.tasks.get(*task).map_or(*task, |task| task.index);
                vec![change(
                    format!("tasks.{index}.trigger_off"),
                    write(Kind::Duration, *seconds, units),
                )]
            }
        }
    }

    /// A stamp that does for this machine's switch: 150 psi, or the next that is sold.
    fn stamp(&self) -> String {
        let machine = self.basis.candidates.get(self.candidate);
        let cut_out = machine.map_or(0.0, |machine| machine.cut_out.as_psi());
        let stamp = [150.0, 165.0, 175.0, 200.0]
            .into_iter()
            .find(|psi| *psi >= 1.05 * cut_out);
        write(
            Kind::Pressure,
            stamp.unwrap_or(200.0) * quantity::PA_PER_PSI,
            self.basis.units,
        )
    }

    /// The set, where its power leaves something to mend: the worst grade must come out better than before, and nothing
    /// worse than a wait left.
    pub fn trial(&self, power: Vec<(usize, power::Fix)>, air: Option<AirStep>) -> Option<Trial> {
        let of_power = power
            .iter()
            .flat_map(|(place, fix)| fix.changes(&self.basis, self.candidate, *place));
        let mut changes: Vec<Change> = of_power.collect();
        changes.extend(air.iter().flat_map(|step| self.changes_of(step)));
        // What a field would not take is no fix.
        let taken = changes.iter().all(|change| change.is_taken(self.shop.units));
        if changes.is_empty() || !taken {
            return None;
        }
        // A path of our own that no shop has would be a defect; the set is then not offered.
        let Ok(shop) = with(&self.shop, &changes) else {
            return None;
        };
        let basis = Basis::of(&shop);
        let (machine, was) = (
            basis.candidates.get(self.candidate)?,
            self.basis.candidates.get(self.candidate)?,
        );
        let then = Standing::beside_air(&basis, self.candidate);
        let most = self.worst_air(air.is_some())?;
        let sides = then.danger.max(then.power);
        if sides > Grade::Wait || sides >= self.before.grade() {
            return None;
        }
        let before = Before {
            basis: &self.basis,
            candidate: was,
            verdict: self.verdict.as_ref(),
        };
        Some(Trial {
            grading: Grading::new(&basis, machine, before, most),
            caring: None,
            fix: Fix {
                effort: effort(&power, air.as_ref()),
                power,
                air,
                changes,
                then,
            },
            basis,
        })
    }

    /// Whether a machine that stands so is mended: the gravest is better and a wait at the most, or where only the starts were
    /// wrong, they are right. Starts that are left are told.
    pub fn mends(&self, then: &Standing) -> bool {
        let (was, is) = (self.before.core(), then.core());
        let starts = self.before.starts > Grade::Good && then.starts == Grade::Good;
        is <= Grade::Wait && (is < was || is == was && starts)
    }

    /// The worst grade of the air with which a set mends: a wait at the most, and better than before; `None` where there is
    /// none. Where only the starts are wrong the air stays as it is.
    fn worst_air(&self, changes_air: bool) -> Option<Grade> {
        let before = self.before;
        if before.core() == Grade::Good {
            return Some(Grade::Good);
        }
        let only_coat = before.air < before.coat;
        let mends = |grade: &Grade| {
            *grade < before.core()
                && (!changes_air || only_coat || before.starts > Grade::Good || *grade < before.air)
        };
        [Grade::Wait, Grade::Good].into_iter().find(mends)
    }
}

impl Trial {
    /// Judges on until the budget is spent; true once the set is graded, or known not to mend.
    pub fn step(&mut self, candidate: usize, budget: &mut Budget) -> bool {
        if !self.grading.step(budget) {
            return false;
        }
        let (Some(air), Some(machine)) = (self.grading.grade(), self.basis.candidates.get(candidate)) else {
            return true;
        };
        self.fix.then.air = air;
        let new = || Caring::new(&self.basis, machine, air);
        let caring = self.caring.get_or_insert_with(new);
        let is_over = caring.step(&self.basis, machine, budget);
        (self.fix.then.coat, self.fix.then.starts) = caring.found();
        is_over
    }
}

fn effort(power: &[(usize, power::Fix)], air: Option<&AirStep>) -> Effort {
    let of_power = power.iter().map(|(_, fix)| fix.effort());
    let of_air = air.map(|step| match step {
        AirStep::Pause(..) => Effort::Nothing,
        _ => Effort::Purchase,
    });
    of_power.chain(of_air).max().unwrap_or(Effort::Nothing)
}
