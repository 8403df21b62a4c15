//! Delivered flow against receiver volume: where a shop's tasks are done, are done with waits, or are not.

use crate::basis::Basis;
use crate::verdict::{Record, good_from, verdict, waits_from};
use crate::window::{Search, TANKS_GAL, usual};
use quantity::{FreeAir, Gauge, M3_PER_GALLON};

/// Flows that the map spans, cfm.
pub const FLOWS_CFM: [f64; 2] = [0.2, 16.2];
/// A border is known to within this, cfm: no label is truer.
pub const CELL_CFM: f64 = 0.1;

/// What a machine does for all tasks of a shop at all its places.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Region {
    /// Every task is done in eight of ten shops.
    Good,
    /// In five of ten.
    Waits,
    /// In fewer.
    Small,
}

/// The borders for one tank of the list.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Column {
    /// Tank, m³.
    pub tank_m3: f64,
    /// Least flow with which every task is done in five of ten shops, on the rating basis at 90 psi; `None` beyond the
    /// map.
    pub waits: Option<FreeAir>,
    /// In eight of ten.
    pub good: Option<FreeAir>,
}

impl Column {
    /// The region in which a flow lies.
    pub fn region(&self, flow: FreeAir) -> Region {
        let from = |border: Option<FreeAir>| border.is_some_and(|least| flow >= least);
        match (from(self.good), from(self.waits)) {
            (true, _) => Region::Good,
            (false, true) => Region::Waits,
            (false, false) => Region::Small,
        }
    }
}

/// The map of a shop: a column for each tank of [`TANKS_GAL`], for a machine of the usual kind (one stage, 90 to
/// 120 psi).
///
/// # Validity
/// Borders are monotone: what does with some flow and tank is taken to do with more of either, in each draw. By the
/// verdict itself that can fail by a draw or two of 128.
/// # Source
/// The same draws and runs as every verdict; checked in `tests/map.rs` against verdicts.
pub fn map(basis: &Basis) -> Vec<Column> {
    let Some(mut search) = Search::new(basis).filter(|search| !search.is_empty()) else {
        return Vec::new();
    };
    let cells = ((FLOWS_CFM[1] - FLOWS_CFM[0]) / CELL_CFM).round() as usize;
    let flows: Vec<f64> = (0..=cells)
        .map(|cell| FLOWS_CFM[0] + CELL_CFM * cell as f64)
        .collect();
    let draws = search.draws();
    let mut ends = [flows.len(); 2];
    let column = |gal: f64| {
        let mut border = |which: usize, least: usize| {
            // A larger tank never asks for more.
            let (index, _) = search.least_flow(flows.get(..ends[which])?, gal, least)?;
            ends[which] = index + 1;
            flows.get(index).map(|cfm| FreeAir::cfm(*cfm))
        };
        Column {
            tank_m3: gal * M3_PER_GALLON,
            good: border(0, good_from(draws)),
            waits: border(1, waits_from(draws)),
        }
    };
    TANKS_GAL.into_iter().map(column).collect()
}

/// The record of the task and place that fare worst with one machine of the usual kind: a point of the map, judged and
/// not read off its borders. `None` where there is nothing to try.
pub fn worst_at(basis: &Basis, flow: FreeAir, tank_m3: f64) -> Option<Record> {
    let mut candidate = usual(basis);
    candidate.flows = vec![(flow, Gauge::psi(90.0))];
    candidate.tank_m3.value = tank_m3;
    verdict(basis, &candidate)?.worst().copied()
}
