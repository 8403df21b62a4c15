//! How a machine stands in a shop: danger, power and air graded apart.

use crate::assess::machine::Supply;
use crate::basis::Basis;
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
        Self {
            air: verdict.map_or(Grade::Ask, Verdict::grade),
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
        }
    }

    /// The worst of them.
    pub fn grade(&self) -> Grade {
        self.danger.max(self.power).max(self.air)
    }
}
