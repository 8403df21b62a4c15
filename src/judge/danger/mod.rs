//! What could hurt somebody, beside the power, and what must be asked before anything else is said.
//!
//! A danger rests on what was typed alone. Nothing is weighed against it: no fix stands on top of one but putting it right, and
//! what would be gained by it (a second tank's volume, a higher switch) is in no figure.

mod air;
mod place;
mod tank;

use quantity::Gauge;
use shop::pumps::PumpKind;

use crate::basis::{Basis, CandidateBasis};
use crate::grade::Grade;

/// One danger, or one question that must be answered first.
#[derive(Clone, Debug, PartialEq)]
pub struct Danger {
    /// [`Grade::Danger`], or [`Grade::Ask`] for a question.
    pub grade: Grade,
    /// What it is, with its figures.
    pub cause: Cause,
}

/// Which of two tanks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tank {
    /// The machine's.
    Own,
    /// The second one.
    Second,
}

/// What is found. Pressures are the gauge's.
#[derive(Clone, Debug, PartialEq)]
pub enum Cause {
    /// Somebody breathes this machine's air.
    BreathedAir,
    /// The switch opens above what the machine's tank is stamped for.
    SwitchOverStamp {
        /// Where it opens.
        cut_out: Gauge,
        /// The stamp.
        stamp: Gauge,
        /// Where it should open at most, a tenth below the stamp.
        switch_to: Gauge,
    },
    /// The switch opens above what the second tank is stamped for.
    SwitchOverSecond {
        /// Where it opens.
        cut_out: Gauge,
        /// The second tank's stamp.
        stamp: Gauge,
        /// Stamp of a tank that does, as sold.
        wants: Gauge,
    },
    /// A tank has no stamp.
    NoStamp(Tank),
    /// The second tank is rusty, dented, welded or weeps.
    UnsoundTank,
    /// The relief valve opens above the stamp.
    ReliefOverStamp {
        /// Where it opens.
        relief: Gauge,
        /// The stamp.
        stamp: Gauge,
    },
    /// The relief valve is blocked or missing.
    ReliefBlocked,
    /// The air line is pressurized PVC.
    Shatters,
    /// The air line is of a pipe that is not known to hold compressed air.
    WhichPipe,
    /// Spraying beside the motor and its switch.
    SprayBesideMotor {
        /// The task's index into the basis.
        task: usize,
    },
    /// The motor stands too low or too near in a building with a fueled airplane.
    HangarFloor {
        /// Its height above the floor, m, if typed.
        up_m: Option<f64>,
        /// Its distance from tanks and engine, m, if typed.
        away_m: Option<f64>,
    },

    /// A field that a danger rests on could not be read.
    NotRead {
        /// Its path.
        field: String,
    },
    /// Where the machine stands beside a fueled airplane was not said.
    StandsWhere,
    /// The stamp is below what was taken for the blank switch.
    SwitchUntold {
        /// Which tank.
        tank: Tank,
        /// Its stamp.
        stamp: Gauge,
        /// What was taken.
        taken: Gauge,
    },
    /// The switch opens above what such pumps reach, and no stamp was typed that bears it out.
    SwitchOverPump {
        /// Where it opens.
        cut_out: Gauge,
        /// The most that is usual for such a pump.
        usual: Gauge,
        /// The kind of pump, if known.
        pump: Option<PumpKind>,
    },
    /// The relief valve opens below the switch.
    ReliefUnderSwitch {
        /// Where it opens.
        relief: Gauge,
        /// Where the switch opens.
        cut_out: Gauge,
    },
    /// A used second tank whose stamp was not typed.
    UsedTank,
    /// The machine's relief valve opens above the second tank's stamp: has that one a valve of its own?
    SecondRelief {
        /// The machine's valve.
        relief: Gauge,
        /// The second tank's stamp.
        stamp: Gauge,
    },
}

/// Every danger and question of a machine at a place (an index into the basis), the gravest first.
///
/// ```
/// # use judge::basis::Basis; use judge::danger::{Cause, dangers}; use judge::grade::Grade; use shop::Shop;
/// let mut shop = Shop::demo();
/// shop.candidates[0].cut_out = "175 psi".into();
/// shop.candidates[0].stamp = "125 psi".into();
/// let basis = Basis::of(&shop);
/// let found = dangers(&basis, &basis.candidates[0], 0);
/// assert_eq!(found[0].grade, Grade::Danger);
/// assert!(matches!(found[0].cause, Cause::SwitchOverStamp { .. }));
/// ```
pub fn dangers(basis: &Basis, candidate: &CandidateBasis, place: usize) -> Vec<Danger> {
    let case = Case {
        basis,
        candidate,
        place,
    };
    let mut found = Vec::new();
    found.extend(air::breathed(&case));
    found.extend(tank::own(&case));
    found.extend(tank::second(&case));
    found.extend(air::shatters(&case));
    found.extend(air::which_pipe(&case));
    found.extend(place::sprayed(&case));
    found.extend(place::hangar(&case));
    found.extend(not_read(&case));
    // The sort keeps the order of equals: above all what is breathed, then what bursts, then what burns.
    quantity::order::by_key(&mut found, |danger| std::cmp::Reverse(danger.grade));
    found
}

/// The worst of them; [`Grade::Good`] where there is none.
pub fn worst(found: &[Danger]) -> Grade {
    found
        .iter()
        .map(|danger| danger.grade)
        .max()
        .unwrap_or(Grade::Good)
}

struct Case<'a> {
    basis: &'a Basis,
    candidate: &'a CandidateBasis,
    place: usize,
}

fn danger(cause: Cause) -> Danger {
    Danger {
        grade: Grade::Danger,
        cause,
    }
}

fn ask(cause: Cause) -> Danger {
    Danger {
        grade: Grade::Ask,
        cause,
    }
}

/// Fields that a danger rests on: of the machine, of the place, of the rest.
const OF_MACHINE: [&str; 3] = ["cut_out", "stamp", "relief"];
const OF_PLACE: [&str; 2] = ["airplane", "compressor_stands"];
const OF_SECOND: [&str; 2] = ["auxiliary.rated", "auxiliary.condition"];

/// What was refused is neither good nor bad: it is asked about.
fn not_read(case: &Case) -> Vec<Danger> {
    let machine = case
        .basis
        .candidates
        .iter()
        .position(|one| std::ptr::eq(one, case.candidate));
    let machine = machine.unwrap_or(case.basis.chosen);
    let of_machine = OF_MACHINE.map(|name| format!("candidates.{machine}.{name}"));
    let of_place = OF_PLACE.map(|name| format!("places.{}.{name}", case.place));
    let of_second = OF_SECOND.map(str::to_owned);
    let of_tasks = case.basis.tasks.iter().filter(|task| task.on);
    let of_tasks = of_tasks.map(|task| format!("tasks.{}.sprayed", task.index));
    let fields = of_machine
        .into_iter()
        .chain(of_place)
        .chain(of_second)
        .chain(of_tasks);
    fields
        .filter(|field| case.basis.faults.iter().any(|fault| fault.path() == *field))
        .map(|field| ask(Cause::NotRead { field }))
        .collect()
}
