//! What would fix it: sets of changes to the shop, each judged with all of it on.
//!
//! A set mends what limits in power and in air together, or it is not offered. On top of a danger nothing is offered but
//! putting that right, which is its own advice.

use physics::line::STANDARD_BORES_IN;
use quantity::{Kind, M3_PER_GALLON, write};
use shop::change::Change;
use shop::edit::with;
use shop::{Shop, TaskKind};

use crate::assess::machine::Supply;
use crate::basis::Basis;
use crate::grade::Grade;
use crate::power::{self, Step};
use crate::standing::Standing;
use crate::verdict::verdict;

/// How much a fix asks of somebody, least first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Effort {
    /// Costs nothing: move a plug, move the machine, take a breath.
    Nothing,
    /// A tool, a hose, a cord or a tank: under a hundred dollars or so.
    Purchase,
    /// An electrician.
    Electrician,
    /// Another machine, or another generator.
    Machine,
}

/// What is done about the air.
#[derive(Clone, Debug, PartialEq)]
pub enum AirStep {
    /// A cordless drill for these tasks (indices into the basis).
    Cordless(Vec<usize>),
    /// An electric tool for this task.
    Electric(usize),
    /// A main hose of this bore, m.
    Hose(f64),
    /// A second tank of this volume, m³.
    SecondTank(f64),
    /// A longer pause between pulls at this task, s.
    Pause(usize, f64),
}

/// One set that mends.
#[derive(Clone, Debug, PartialEq)]
pub struct Fix {
    /// How much it asks.
    pub effort: Effort,
    /// What is done about the power, place by place.
    pub power: Vec<(usize, power::Fix)>,
    /// What is done about the air.
    pub air: Option<AirStep>,
    /// All of it, as texts of the shop's fields.
    pub changes: Vec<Change>,
    /// How the machine stands with all of it on.
    pub then: Standing,
}

/// Second tanks that are offered, gal: what one person moves. Common practice, no source.
const SECOND_GAL: [f64; 2] = [20.0, 30.0];
/// The same where volumes are metric, L.
const SECOND_L: [f64; 2] = [50.0, 100.0];
/// Longest pause that is offered, as a multiple of the present one: beyond that it is waiting by another name.
const LONGEST_PAUSE: f64 = 2.0;
/// The hose that is on the rack, in.
const RACK_BORES_IN: [f64; 2] = [0.375, 0.5];

struct Bench<'a> {
    shop: &'a Shop,
    basis: Basis,
    candidate: usize,
    before: Standing,
}

/// Every set that mends a machine (an index into the shop) in its shop, least effort first; none where nothing is to be
/// mended, or where a danger comes first.
///
/// ```
/// # use judge::fix::{AirStep, Effort, fixes}; use judge::grade::Grade; use shop::Shop;
/// let mut shop = Shop::fresh();
/// let label = &mut shop.candidates[0];
/// (label.flow, label.tank, label.amps) = ("2.5 cfm".into(), "6 gal".into(), "11 A".into());
/// let found = fixes(&shop, 0);
/// assert!(found.iter().any(|fix| matches!(fix.air, Some(AirStep::Cordless(_)))));
/// assert!(found.iter().all(|fix| fix.then.grade() <= Grade::Wait));
/// ```
pub fn fixes(shop: &Shop, candidate: usize) -> Vec<Fix> {
    let basis = Basis::of(shop);
    let before = Standing::of(&basis, candidate);
    let bench = Bench {
        shop,
        basis,
        candidate,
        before,
    };
    if before.grade() == Grade::Good || before.danger >= Grade::Ask || before.power == Grade::Danger {
        return Vec::new();
    }
    let powers = bench.powers();
    let airs = bench.airs();
    let with_first_power = airs
        .iter()
        .map(|air| (powers.first().cloned().unwrap_or_default(), air.clone()));
    let more_powers = powers
        .iter()
        .skip(1)
        .map(|power| (power.clone(), airs.first().cloned().flatten()));
    let mut fixes: Vec<Fix> = with_first_power
        .chain(more_powers)
        .filter_map(|(power, air)| bench.tried(power, air))
        .collect();
    fixes.sort_by_key(|fix| fix.effort);
    fixes
}

impl Bench<'_> {
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
        if !matches!(self.before.air, Grade::Wait | Grade::Small) {
            return vec![None];
        }
        let worst = self
            .basis
            .candidates
            .get(self.candidate)
            .and_then(|machine| verdict(&self.basis, machine));
        let Some(task) = worst.and_then(|verdict| verdict.worst().map(|record| record.task)) else {
            return vec![None];
        };
        let mut steps = Vec::new();
        // Short waits are borne where the power alone is put right.
        let borne = (self.before.air == Grade::Wait && self.before.power > Grade::Good).then_some(None);
        steps.extend(self.hoses());
        steps.extend(self.other_tools());
        steps.extend(self.pause(task));
        steps.extend(self.second_tanks());
        borne.into_iter().chain(steps.into_iter().map(Some)).collect()
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

    /// The set, if it mends: the worst grade better than before, and nothing worse than a wait left.
    fn tried(&self, power: Vec<(usize, power::Fix)>, air: Option<AirStep>) -> Option<Fix> {
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
        let Ok(shop) = with(self.shop, &changes) else {
            return None;
        };
        let then = Standing::of(&Basis::of(&shop), self.candidate);
        let mends = then.grade() <= Grade::Wait && then.grade() < self.before.grade();
        let air_better = air.is_none() || then.air < self.before.air;
        (mends && air_better).then(|| Fix {
            effort: effort(&power, air.as_ref()),
            power,
            air,
            changes,
            then,
        })
    }
}

fn effort(power: &[(usize, power::Fix)], air: Option<&AirStep>) -> Effort {
    let steps = power.iter().flat_map(|(_, fix)| &fix.steps);
    let of_power = steps.map(|step| match step {
        Step::GeneratorOutdoors | Step::GroundedOutlet | Step::MoveOthers(_) | Step::AtOutlet { .. } => {
            Effort::Nothing
        }
        Step::ShorterCord { .. } | Step::HeavierCord { .. } => Effort::Purchase,
        Step::SmallerBreaker(_) | Step::Reconnect { .. } | Step::OwnCircuit(_) => Effort::Electrician,
        Step::Generator(_) => Effort::Machine,
    });
    let of_air = air.map(|step| match step {
        AirStep::Pause(..) => Effort::Nothing,
        _ => Effort::Purchase,
    });
    of_power.chain(of_air).max().unwrap_or(Effort::Nothing)
}
