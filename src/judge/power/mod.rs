//! Whether a place's circuit starts and carries a machine, safely; what mends it; what flow it could feed.
//!
//! Danger rests on what was typed alone; printed and typed figures may condemn; what was taken for a blank only warns; what
//! could not be judged is asked about and never good.

mod cause;
mod cord;
mod danger;
mod fed;
mod fix;
mod load;
mod outlet;
mod supply;

pub use cause::{Cause, Found, OnBreaker, OnCord};
pub use cord::{cord_to_take, light_cord};
pub use fed::{amps_fed, flow_fed};
pub use fix::{Circuit, Edit, Fix, Step};
pub use load::{AmpsFrom, Fit, Load, connection, feed, full_load_amps, load, table_volts, warm_feed};
pub use outlet::own_breaker_a;

use crate::basis::{CandidateBasis, PlaceBasis};
use crate::grade::Grade;
use physics::circuit::Code;
use physics::compressor::Pump;

/// What a place's circuit does with a machine.
#[derive(Clone, Debug, PartialEq)]
pub struct PowerVerdict {
    /// The worst that was found.
    pub grade: Grade,
    /// What that is.
    pub cause: Cause,
    /// What else was found, worst first.
    pub more: Vec<Found>,
    /// What mends it, least effort first; each was tried with all of it on.
    pub fixes: Vec<Fix>,
    /// The machine on this circuit, where its current is known.
    pub load: Option<Load>,
}

impl PowerVerdict {
    /// What mends it with the least effort. `None` where it works as it is, and where what is wrong rests on a guess: the plate
    /// is read before anything is bought.
    pub fn first_fix(&self) -> Option<&Fix> {
        if matches!(
            self.cause,
            Cause::CurrentGuessed { .. } | Cause::CurrentUnknown { .. }
        ) {
            return None;
        }
        let mends = self.fixes.iter().filter(|fix| !fix.if_needed);
        mends.min_by_key(|fix| fix.effort())
    }

    /// Nothing speaks against it, but its current is a guess: it is not yet good.
    pub fn is_untold(&self) -> bool {
        self.grade == Grade::Good && self.load.is_some_and(|load| !load.printed())
    }

    /// How it is told: what rests on a guess is asked about.
    pub fn told_grade(&self) -> Grade {
        match self.is_untold() {
            true => Grade::Ask,
            false => self.grade,
        }
    }

    /// All that was found, worst first.
    pub fn all(&self) -> impl Iterator<Item = Found> + '_ {
        let first = Found {
            grade: self.grade,
            cause: self.cause.clone(),
        };
        std::iter::once(first).chain(self.more.iter().cloned())
    }
}

/// A machine at a place: what every check looks at.
pub(crate) struct Case<'a> {
    pub candidate: &'a CandidateBasis,
    pub place: &'a PlaceBasis,
    pub load: Option<Load>,
    pub share_on: Option<f64>,
}

impl Case<'_> {
    fn code(&self) -> Code {
        self.place.wiring.code
    }
    /// A machine with its own plug, not wired in.
    fn plugged(&self) -> bool {
        !self.place.wiring.hard_wired()
    }
    /// Danger and condemnation need figures that were printed or typed: `given`, else the milder cause.
    fn if_given(&self, given: bool, grade: Grade, cause: Cause, else_: Cause) -> Found {
        match given {
            true => Found { grade, cause },
            false => Found {
                grade: Grade::Ask,
                cause: else_,
            },
        }
    }
}

/// Whether a machine stays at the first place: it was said so, or it is a stationary one and this place has not its volts.
///
/// Stationary is a tank of 60 gal and more, or 200 lb without wheels. Common practice, no source.
pub fn stays_home(candidate: &CandidateBasis, place: &PlaceBasis, index: usize) -> bool {
    if let Some(comes) = place.wiring.machine_comes {
        return index > 0 && !comes;
    }
    let heavy = candidate
        .mass_kg
        .is_some_and(|mass| mass >= STATIONARY_KG && !candidate.wheels);
    let large = candidate.tank_m3.is_given() && candidate.tank_m3.value >= STATIONARY_M3;
    index > 0 && (heavy || large) && connection(candidate, place).1 == Fit::Other
}

/// 200 lb.
const STATIONARY_KG: f64 = 90.7;
/// 60 gal, less the rounding of a label.
const STATIONARY_M3: f64 = 0.22;

/// Judges the power of a machine at a place, with what would mend it. `share_on` is the share of time that it runs there, where
/// the work tells it.
pub fn verdict(
    candidate: &CandidateBasis,
    place: &PlaceBasis,
    index: usize,
    pump: Option<&Pump>,
    share_on: Option<f64>,
) -> PowerVerdict {
    if stays_home(candidate, place, index) {
        return PowerVerdict {
            grade: Grade::Good,
            cause: Cause::StaysHome,
            more: Vec::new(),
            fixes: Vec::new(),
            load: None,
        };
    }
    let found = judged(candidate, place, pump, share_on);
    let fixes = fix::fixes(candidate, place, pump, &found);
    PowerVerdict { fixes, ..found }
}

/// The same without what would mend it.
pub(crate) fn judged(
    candidate: &CandidateBasis,
    place: &PlaceBasis,
    pump: Option<&Pump>,
    share_on: Option<f64>,
) -> PowerVerdict {
    let (load, mut found) = match load(candidate, place, pump) {
        Ok(load) => (load, Vec::new()),
        Err(error) => (None, vec![beyond(error.to_string())]),
    };
    let case = Case {
        candidate,
        place,
        load,
        share_on,
    };
    let unread = place.unread.iter().chain(&candidate.unread).cloned();
    found.extend(unread.map(|field| Found {
        grade: Grade::Ask,
        cause: Cause::NotRead { field },
    }));
    found.extend(danger::dangers(&case));
    found.extend(supply::supply(&case));
    let other_volts = found.iter().any(|found| {
        matches!(
            found.cause,
            Cause::OtherVolts { .. } | Cause::RegularOutlet { .. } | Cause::ThreePhase
        )
    });
    // Where the volts are wrong, what follows from them says nothing.
    if !other_volts {
        found.extend(outlet::outlet(&case));
        found.extend(cord::cord(&case));
    }
    if load.is_none() && found.iter().all(|found| found.grade < Grade::Ask) {
        let horsepower = candidate.power_w.is_some();
        found.push(Found {
            grade: Grade::Ask,
            cause: Cause::CurrentUnknown { horsepower },
        });
    }
    ranked(found, load)
}

fn beyond(why: String) -> Found {
    Found {
        grade: Grade::Ask,
        cause: Cause::BeyondSums { why },
    }
}

/// The worst first; of equals the one found first.
fn ranked(mut found: Vec<Found>, load: Option<Load>) -> PowerVerdict {
    let full = |found: &Found| matches!(found.cause, Cause::FullBreaker(_));
    if found
        .iter()
        .all(|found| found.grade == Grade::Good && !full(found))
    {
        found.insert(
            0,
            Found {
                grade: Grade::Good,
                cause: Cause::Runs,
            },
        );
    }
    quantity::order::by_key(&mut found, |found| std::cmp::Reverse(found.grade));
    let mut found = found.into_iter();
    let worst = found.next().unwrap_or(Found {
        grade: Grade::Good,
        cause: Cause::Runs,
    });
    PowerVerdict {
        grade: worst.grade,
        cause: worst.cause,
        more: found.collect(),
        fixes: Vec::new(),
        load,
    }
}
