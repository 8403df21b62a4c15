//! How a machine stands in a shop: danger, power and air graded apart.

use crate::assess::machine::Supply;
use crate::basis::{Basis, CandidateBasis, PlaceBasis};
use crate::boxed::boxed;
use crate::care::cares;
use crate::cold::cold;
use crate::danger::{dangers, worst};
use crate::grade::Grade;
use crate::power::{judged, stays_home};
use crate::verdict::{Verdict, verdict};

/// The grades of all sides, each the worst over the places.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Standing {
    /// What could hurt somebody, or must be asked first, beside the power.
    pub danger: Grade,
    /// The power.
    pub power: Grade,
    /// The air.
    pub air: Grade,
    /// Whether a usual gun holds through its coats; good where nothing is sprayed.
    pub coat: Grade,
    /// Whether the motor starts more often than such a motor stands, where the air is enough.
    pub starts: Grade,
    /// What a box and the cold do to it: no fix of power or air is for that.
    pub around: Grade,
}

impl Standing {
    /// Of a machine (an index into the basis).
    ///
    /// ```
    /// # use judge::basis::Basis; use judge::grade::Grade; use judge::standing::Standing; use shop::Shop;
    /// let mut shop = Shop::fresh();
    /// (shop.candidates[0].flow, shop.candidates[0].amps) = ("2 cfm".into(), "9 A".into());
    /// let standing = Standing::of(&Basis::of(&shop), 0);
    /// assert_eq!((standing.power, standing.grade()), (Grade::Good, Grade::Small));
    /// ```
    pub fn of(basis: &Basis, candidate: usize) -> Self {
        let machine = basis.candidates.get(candidate);
        let verdict = machine.and_then(|machine| verdict(basis, machine));
        Self::with(basis, candidate, verdict.as_ref())
    }

    /// [`Self::of`], where the verdict was [judged](crate::verdict::Judging) before; `None` as there.
    pub fn with(basis: &Basis, candidate: usize, verdict: Option<&Verdict>) -> Self {
        let air = verdict.map_or(Grade::Ask, Verdict::grade);
        let machine = basis.candidates.get(candidate);
        let cared = machine.map(|machine| cares(basis, machine, air));
        let (coat, starts) = cared.unwrap_or((Grade::Good, Grade::Good));
        Self {
            air,
            coat,
            starts,
            ..Self::beside_air(basis, candidate)
        }
    }

    /// Danger and power; the air not yet judged.
    pub(crate) fn beside_air(basis: &Basis, candidate: usize) -> Self {
        let Some(machine) = basis.candidates.get(candidate) else {
            return Self {
                danger: Grade::Good,
                power: Grade::Ask,
                air: Grade::Ask,
                coat: Grade::Good,
                starts: Grade::Good,
                around: Grade::Good,
            };
        };
        let pump = Supply::of(machine).0.likely();
        let places = || basis.places.iter().enumerate();
        let power = places().map(|(index, place)| match stays_home(machine, place, index) {
            true => Grade::Good,
            false => judged(machine, place, pump.as_ref(), None).grade,
        });
        Self {
            danger: places()
                .map(|(index, _)| worst(&dangers(basis, machine, index)))
                .max()
                .unwrap_or_default(),
            power: power.max().unwrap_or_default(),
            air: Grade::Ask,
            coat: Grade::Good,
            starts: Grade::Good,
            around: places()
                .filter(|(index, place)| !stays_home(machine, place, *index))
                .map(|(_, place)| around(machine, place))
                .max()
                .unwrap_or(Grade::Good),
        }
    }

    /// The worst of what a fix has to mend.
    pub fn core(&self) -> Grade {
        self.danger.max(self.power).max(self.air).max(self.coat)
    }

    /// The worst of all.
    pub fn grade(&self) -> Grade {
        self.core().max(self.starts).max(self.around)
    }
}

/// A box and the cold at a place. Of a box that the sums refuse nothing can be said yet.
fn around(machine: &CandidateBasis, place: &PlaceBasis) -> Grade {
    let in_box = match boxed(machine, place) {
        Ok(found) => found.map_or(Grade::Good, |found| found.grade),
        Err(_) => Grade::Ask,
    };
    let cold = cold(machine, place).map_or(Grade::Good, |found| found.grade);
    in_box.max(cold)
}
