//! The air line: which link is the weakest, and how many regulators the work wants.

use physics::line::{Leg, LineError, Part};
use quantity::{Gauge, PA_PER_PSI};

use crate::assess::work::{TaskWork, task_work};
use crate::basis::{Basis, CandidateBasis, LineBasis, PlaceBasis, TaskBasis};
use crate::grade::Grade;
use crate::verdict::record_of;

/// What ends a task's air first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Weakest {
    /// A hose: it leaves the tool weak before the switch even starts the motor.
    Hose(Thin),
    /// The tool asks for more pressure than the switch keeps in the tank, whatever the hose.
    ToolPressure {
        /// What the tank needs through the present line; `None` where no pressure is enough.
        needs: Option<Gauge>,
        /// Where the switch starts the motor.
        cut_in: Gauge,
    },
    /// Neither: flow and tank decide.
    Machine,
}

/// A hose that is too thin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thin {
    /// Which.
    pub leg: Leg,
    /// Its bore and length, m.
    pub bore_m: f64,
    /// Its length, m.
    pub length_m: f64,
    /// What it loses while the tool runs, Pa.
    pub lost_pa: f64,
    /// The bore on the rack that does, m.
    pub wants_m: f64,
    /// What that one would lose, Pa.
    pub then_lost_pa: f64,
    /// With that hose and nothing else the job is done.
    pub alone: bool,
}

/// Inch, m.
const INCH: f64 = 0.0254;
/// Hoses for air tools on the rack, m: 3/8 and 1/2 in. 1/4 in is for a short whip. Common practice, no source.
const RACK_M: [f64; 2] = [0.375 * INCH, 0.5 * INCH];

/// The line with one hose of another bore.
fn with(line: &LineBasis, leg: Leg, bore_m: f64) -> LineBasis {
    let mut changed = *line;
    match leg {
        Leg::Trunk => changed.trunk.0 = bore_m,
        Leg::Whip => changed.whip.0 = bore_m,
    }
    changed
}

/// Bore and length of a hose.
fn hose(line: &LineBasis, leg: Leg) -> (f64, f64) {
    match leg {
        Leg::Trunk => line.trunk,
        Leg::Whip => line.whip,
    }
}

struct Bench<'a> {
    task: &'a TaskBasis,
    place: &'a PlaceBasis,
    candidate: &'a CandidateBasis,
}

impl Bench<'_> {
    fn work(&self, line: &LineBasis) -> Result<TaskWork, LineError> {
        let top_pa = self.candidate.cut_out.at(self.place.air.pressure()).as_pa();
        task_work(self.task, line, self.place, top_pa)
    }

    /// The tool goes weak before the switch starts the motor.
    fn starves(&self, work: &TaskWork) -> bool {
        work.work.enough_pa > self.candidate.cut_in.at(self.place.air.pressure()).as_pa()
    }

    /// The hose from the rack that does where this one does not.
    fn thin(&self, line: &LineBasis, work: &TaskWork, leg: Leg) -> Result<Option<Thin>, LineError> {
        let (bore_m, length_m) = hose(line, leg);
        for wants_m in RACK_M.into_iter().filter(|rack| *rack > 1.02 * bore_m) {
            let then = self.work(&with(line, leg, wants_m))?;
            if !self.starves(&then) {
                return Ok(lost_pa(work, leg)
                    .zip(lost_pa(&then, leg))
                    .map(|(lost_pa, then_lost_pa)| Thin {
                        leg,
                        bore_m,
                        length_m,
                        lost_pa,
                        wants_m,
                        then_lost_pa,
                        alone: false,
                    }));
            }
        }
        Ok(None)
    }
}

/// What a hose loses while the tool runs, Pa.
fn lost_pa(work: &TaskWork, leg: Leg) -> Option<f64> {
    let losses = work.losses?;
    let (before, behind) = match leg {
        Leg::Trunk => (Part::Regulator, Part::Trunk),
        Leg::Whip => (Part::Manifold, Part::Whip),
    };
    Some(losses.after(before).as_pa() - losses.after(behind).as_pa())
}

/// The weakest link of a task at a place (indices into the basis); `None` where there is no such task or place.
///
/// A hose is named where the tool goes weak through it before the switch starts the motor, and through one from the rack it
/// would not: then more flow or more tank would be money thrown away.
///
/// # Errors
/// [`LineError`] where the line's figures are out of range.
/// # Example
/// ```
/// # use judge::basis::Basis; use judge::line::{Weakest, weakest}; use shop::Shop;
/// let mut shop = Shop::fresh();
/// shop.line.trunk_bore = "1/4 in".into();
/// shop.line.trunk_length = "100 ft".into();
/// let basis = Basis::of(&shop);
/// let found = weakest(&basis, &basis.candidates[0], 0, 0)?;
/// assert!(matches!(found, Some(Weakest::Hose(_))));
/// # Ok::<(), physics::line::LineError>(())
/// ```
pub fn weakest(
    basis: &Basis,
    candidate: &CandidateBasis,
    place: usize,
    task: usize,
) -> Result<Option<Weakest>, LineError> {
    let at = (place, task);
    let (Some(task), Some(place)) = (basis.tasks.get(task), basis.places.get(place)) else {
        return Ok(None);
    };
    let bench = Bench {
        task,
        place,
        candidate,
    };
    let line = &basis.line;
    let work = bench.work(line)?;
    if !bench.starves(&work) {
        return Ok(Some(Weakest::Machine));
    }
    for leg in [Leg::Trunk, Leg::Whip] {
        if let Some(thin) = bench.thin(line, &work, leg)? {
            let mut mended = basis.clone();
            mended.line = with(line, leg, thin.wants_m);
            let then = record_of(&mended, candidate, at.0, at.1);
            let alone = then.is_some_and(|record| record.grade == Grade::Good);
            return Ok(Some(Weakest::Hose(Thin { alone, ..thin })));
        }
    }
    let needs_pa = work.work.enough_pa;
    let outside = place.air.pressure().as_pa();
    Ok(Some(Weakest::ToolPressure {
        needs: needs_pa.is_finite().then(|| Gauge::pa(needs_pa - outside)),
        cut_in: candidate.cut_in,
    }))
}

/// Settings that far apart want a regulator each, Pa: 20 psi. Judgement.
const APART_PA: f64 = 20.0 * PA_PER_PSI;

/// Highest and lowest setting of the hand tools of a shop, where they are too far apart for one regulator: a drill's 90 and a
/// rivet gun's 40 psi.
pub fn two_settings(basis: &Basis) -> Option<[Gauge; 2]> {
    let tools = basis
        .tasks
        .iter()
        .filter(|task| task.on && task.rest_most.is_some());
    let settings: Vec<f64> = tools.map(|task| task.setting.as_pa()).collect();
    let highest = settings.iter().copied().reduce(f64::max)?;
    let lowest = settings.iter().copied().reduce(f64::min)?;
    (highest - lowest > APART_PA).then_some([highest, lowest].map(Gauge::pa))
}
