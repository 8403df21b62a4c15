//! Delivered flow against receiver volume: where a shop's tasks keep up, run hard, or wait.

use crate::basis::Basis;
use crate::window::{Failing, Search, TANKS_GAL, search};
use quantity::{FreeAir, M3_PER_GALLON};

/// Flows that the map spans, cfm.
pub const FLOWS_CFM: [f64; 2] = [0.2, 16.2];
/// Flows tried for the first and the last that keep up: a narrower band than one step can be missed.
const STEPS: usize = 9;
/// A border is known to within this, cfm: no label is truer.
pub const CELL_CFM: f64 = 0.1;

/// What a machine does for all tasks of a shop at all its places.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Region {
    /// No waits, and the motor within its duty.
    KeepsUp,
    /// No waits, but the motor runs beyond its duty or starts too often.
    RunsHard,
    /// Somebody waits, or more.
    Waits,
}

/// The borders for one tank of the list.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Column {
    /// Tank, m³.
    pub tank_m3: f64,
    /// Least flow with no waits, on the rating basis at 90 psi; `None` beyond the map.
    pub no_waits: Option<FreeAir>,
    /// Least and most flow with which everything keeps up: below, the motor runs beyond its duty; above, it fills
    /// the tank so fast that it starts too often. `None` where no flow of the map does.
    pub keeps_up: Option<[FreeAir; 2]>,
}

impl Column {
    /// The region in which a flow lies.
    pub fn region(&self, flow: FreeAir) -> Region {
        let within = self
            .keeps_up
            .is_some_and(|[least, most]| (least..=most).contains(&flow));
        if within {
            Region::KeepsUp
        } else if self.no_waits.is_some_and(|least| flow >= least) {
            Region::RunsHard
        } else {
            Region::Waits
        }
    }
}

/// The nearest flow of whole cells.
fn to_cell(cfm: f64) -> f64 {
    (cfm / CELL_CFM).round() * CELL_CFM
}

/// Halves between a flow that does (in the sense of `does`) and one that does not; returns the last that does.
fn edge(mut doing: f64, mut failing: f64, does: impl Fn(f64) -> bool) -> FreeAir {
    while (doing - failing).abs() > 1.5 * CELL_CFM {
        let middle = to_cell(0.5 * (doing + failing));
        if does(middle) {
            doing = middle
        } else {
            failing = middle
        }
    }
    FreeAir::cfm(doing)
}

/// Least and most flow with which everything keeps up, sought from `from_cfm` up in [`STEPS`] equal ratios.
fn keeps_up(search: &Search, tank_m3: f64, from_cfm: f64, decided: &mut usize) -> Option<[FreeAir; 2]> {
    let does = |cfm: f64| search.fails_at(FreeAir::cfm(cfm), tank_m3, 1.0).is_none();
    let ratio = (FLOWS_CFM[1] / from_cfm).powf(1.0 / STEPS as f64);
    let flow = |step: usize| to_cell(from_cfm * ratio.powi(step as i32));
    let first = (0..=STEPS).find(|step| does(flow(*step)))?;
    let least = if first == 0 {
        FreeAir::cfm(from_cfm)
    } else {
        edge(flow(first), flow(first - 1), does)
    };
    // Starts do not rise evenly with flow: each trial is followed step by step as far as another lets it.
    let mut most = FLOWS_CFM[1];
    for trial in search.beginning_with(*decided) {
        let does = |cfm: f64| !search.fails_one(trial, FreeAir::cfm(cfm), tank_m3, 1.0);
        let mut steps = (first + 1..=STEPS).take_while(|step| flow(*step) < most + 0.5 * CELL_CFM);
        if let Some(beyond) = steps.find(|step| !does(flow(*step))) {
            most = most.min(edge(flow(beyond - 1), flow(beyond), does).as_cfm());
            *decided = trial;
        }
    }
    Some([least, FreeAir::cfm(most)])
}

/// The least flow with no waits. The trial that decided at the last tank is tried first; most of the others then need
/// one run each, as they pass where it has put the border.
fn no_waits(search: &Search, tank_m3: f64, decided: &mut usize) -> Option<FreeAir> {
    let [mut border, most] = FLOWS_CFM;
    for trial in search.beginning_with(*decided) {
        let does = |cfm: f64| !search.fails_one(trial, FreeAir::cfm(cfm), tank_m3, 2.0);
        if does(border) {
            continue;
        }
        if !does(most) {
            return None;
        }
        border = edge(most, border, does).as_cfm();
        *decided = trial;
    }
    Some(FreeAir::cfm(border))
}

/// The map of a shop: a column for each tank of [`TANKS_GAL`], for a machine of the usual kind (one stage, 90 to
/// 120 psi, duty of 70 %).
///
/// # Validity
/// More flow is taken never to wait longer. With a wide switch band that can fail by a step, as a spell may begin
/// with the motor off just above cut-in.
/// # Source
/// The same runs of tank and tool as every verdict; checked in `tests/map.rs` against direct verdicts.
pub fn map(basis: &Basis) -> Vec<Column> {
    let Some((search, _)) = search(basis).filter(|(search, _)| !search.is_empty()) else {
        return Vec::new();
    };
    let mut decided = [0; 2];
    let column = |gal: f64| {
        let tank_m3 = gal * M3_PER_GALLON;
        let [slowest, busiest] = &mut decided;
        let no_waits = no_waits(&search, tank_m3, slowest);
        let keeps_up = no_waits.and_then(|flow| keeps_up(&search, tank_m3, flow.as_cfm(), busiest));
        Column {
            tank_m3,
            no_waits,
            keeps_up,
        }
    };
    TANKS_GAL.into_iter().map(column).collect()
}

/// The task and place that fare worst with one machine of the usual kind: a point of the map, reckoned and not read
/// off its borders. `None` where there is nothing to try.
pub fn worst_at(basis: &Basis, flow: FreeAir, tank_m3: f64) -> Option<Failing> {
    search(basis)?.0.worst(flow, tank_m3)
}
