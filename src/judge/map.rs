//! Delivered flow against receiver volume: where a shop's tasks are done, are done with waits, or are not.

use crate::basis::{Basis, CandidateBasis};
use crate::grade::Grade;
use crate::verdict::{Paused, Record, good_from, verdict, waits_from};
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

/// Where a tank lies along the list, in columns: the middle of a column is its index and a half.
///
/// ```
/// # use judge::map::along; use quantity::M3_PER_GALLON;
/// let at = [2.0, 20.0, 22.5].map(|gallons| along(gallons * M3_PER_GALLON));
/// assert!((at[0] - 0.5).abs() < 1e-9 && (at[1] - 6.5).abs() < 1e-9 && (at[2] - 7.0).abs() < 1e-9);
/// ```
pub fn along(tank_m3: f64) -> f64 {
    let gal = tank_m3 / M3_PER_GALLON;
    let after = TANKS_GAL.iter().position(|listed| *listed >= gal);
    match after {
        Some(0) => 0.5 * gal / TANKS_GAL[0],
        Some(index) => {
            let (low, high) = (TANKS_GAL[index - 1], TANKS_GAL[index]);
            index as f64 - 0.5 + (gal - low) / (high - low)
        }
        None => TANKS_GAL.len() as f64 - 0.25,
    }
}

/// A machine's own verdict against what the map shows at its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Own {
    /// By its own worst record.
    pub region: Region,
    /// By the map's borders, where it is drawn.
    pub drawn: Region,
    /// By how many draws its record lies beyond the region that is drawn; none where both are the same.
    pub apart: usize,
}

impl Own {
    /// More than one draw apart: the map has to say so.
    pub fn contradicts(&self) -> bool {
        self.apart > 1
    }
}

/// Of a machine with that flow and tank, by its worst record; `None` where the map has no column there.
///
/// ```
/// # use judge::{basis::Basis, map::{map, own, worst_at}}; use quantity::FreeAir; use shop::Shop;
/// let basis = Basis::of(&Shop::fresh());
/// let (flow, tank_m3) = (FreeAir::cfm(1.0), 0.0757);
/// let record = worst_at(&basis, flow, tank_m3).ok_or("no job")?;
/// let own = own(&map(&basis), &record, flow, tank_m3).ok_or("no column")?;
/// assert!(own.region == own.drawn && !own.contradicts());
/// # Ok::<(), &str>(())
/// ```
pub fn own(columns: &[Column], record: &Record, flow: FreeAir, tank_m3: f64) -> Option<Own> {
    let drawn = columns.get(along(tank_m3) as usize)?.region(flow);
    let region = match record.grade {
        Grade::Good => Region::Good,
        Grade::Wait => Region::Waits,
        _ => Region::Small,
    };
    let (done, good, waits) = (record.done, good_from(record.draws), waits_from(record.draws));
    // Draws that are missing for the region, or one for each that is beyond the last that still belongs to it.
    let apart = match drawn {
        _ if drawn == region => 0,
        _ if !matches!(record.grade, Grade::Good | Grade::Wait | Grade::Small) => record.draws,
        Region::Good => good.saturating_sub(done),
        Region::Waits if region == Region::Good => done + 1 - good.min(done),
        Region::Waits => waits.saturating_sub(done),
        Region::Small => done + 1 - waits.min(done),
    };
    Some(Own { region, drawn, apart })
}

/// A map on its way, a slice at a time.
///
/// ```
/// # use judge::{basis::Basis, map::{Mapping, map}};
/// # use shop::Shop;
/// let basis = Basis::of(&Shop::fresh());
/// let mut mapping = Mapping::new(&basis);
/// while !mapping.step() {}
/// assert_eq!(mapping.columns(), map(&basis));
/// assert!(!mapping.is_cut_short());
/// ```
pub struct Mapping {
    search: Option<Search>,
    flows: Vec<f64>,
    /// How much of the flows is left for the next border: what is good, what waits.
    ends: [usize; 2],
    columns: Vec<Column>,
    /// The order in which rows are tried for the next column, once they are known.
    order: Option<(Vec<usize>, usize)>,
}

/// A map is broken off after so many slices: some seconds on a desktop. Only shops with hundreds of different tasks and
/// places get there.
const MOST_SLICES: usize = 200;

impl Mapping {
    /// Prepares it.
    pub fn new(basis: &Basis) -> Self {
        let cells = ((FLOWS_CFM[1] - FLOWS_CFM[0]) / CELL_CFM).round() as usize;
        let flow = |cell: usize| FLOWS_CFM[0] + CELL_CFM * cell as f64;
        Self {
            search: Search::new(basis),
            flows: (0..=cells).map(flow).collect(),
            ends: [cells + 1; 2],
            columns: Vec::new(),
            order: None,
        }
    }

    /// Maps on for some 50 ms at the most; true once the map is whole, or was broken off.
    pub fn step(&mut self) -> bool {
        let Some(search) = &mut self.search else {
            return true;
        };
        search.refill();
        let over = match self.order.take() {
            Some(order) => {
                search.reorder(order);
                Ok(())
            }
            None => search.begin(),
        };
        if over.is_err() {
            return false;
        }
        let mut order = search.order();
        while let Some(gallons) = TANKS_GAL.get(self.columns.len()).filter(|_| !search.is_empty()) {
            match column(search, &self.flows, self.ends, *gallons) {
                Ok((column, ends)) => {
                    self.columns.push(column);
                    self.ends = ends;
                    order = search.order();
                }
                Err(Paused) => {
                    self.order = Some(order);
                    return search.slices() >= MOST_SLICES;
                }
            }
        }
        true
    }

    /// The columns that are there, smallest tank first.
    pub fn columns(&self) -> &[Column] {
        &self.columns
    }

    /// Whether columns are missing: [`Self::step`] is not over, or the map was broken off.
    pub fn is_cut_short(&self) -> bool {
        let tries = self.search.as_ref().is_some_and(|search| !search.is_empty());
        tries && self.columns.len() < TANKS_GAL.len()
    }
}

/// The borders for a tank, and how much of the flows is left for the next: a larger tank never asks for more.
fn column(
    search: &mut Search,
    flows: &[f64],
    mut ends: [usize; 2],
    gallons: f64,
) -> Result<(Column, [usize; 2]), Paused> {
    let draws = search.draws();
    let mut borders = [None; 2];
    for ((end, border), least) in ends
        .iter_mut()
        .zip(&mut borders)
        .zip([good_from(draws), waits_from(draws)])
    {
        let asked = flows.get(..*end).unwrap_or(flows);
        if let Some((index, _)) = search.least_flow(asked, gallons, least)? {
            *end = index + 1;
            *border = flows.get(index).map(|cfm| FreeAir::cfm(*cfm));
        }
    }
    let [good, waits] = borders;
    let tank_m3 = gallons * M3_PER_GALLON;
    Ok((Column { tank_m3, waits, good }, ends))
}

/// The map of a shop: a column for each tank of [`TANKS_GAL`], for a machine of the usual kind (one stage, 90 to
/// 120 psi).
///
/// # Validity
/// Borders are monotone: what does with some flow and tank is taken to do with more of either, in each draw. By the
/// verdict itself that can fail by a draw or two of 128. It is whole however long it takes: [`Mapping`] may be broken off.
/// # Source
/// The same draws and runs as every verdict; checked in `tests/map.rs` against verdicts.
pub fn map(basis: &Basis) -> Vec<Column> {
    let mut mapping = Mapping::new(basis);
    while !mapping.step() || mapping.is_cut_short() {}
    mapping.columns
}

/// The record of the task and place that fare worst with one machine of the usual kind: a point of the map, judged and
/// not read off its borders. `None` where there is nothing to try.
pub fn worst_at(basis: &Basis, flow: FreeAir, tank_m3: f64) -> Option<Record> {
    verdict(basis, &machine_at(basis, flow, tank_m3))?
        .worst()
        .copied()
}

/// The machine of the usual kind at a point of the map, for whoever [judges](crate::verdict::Judging) it a slice at a time.
///
/// ```
/// # use judge::{basis::Basis, map::{machine_at, worst_at}, verdict::Judging};
/// # use quantity::FreeAir; use shop::Shop;
/// let basis = Basis::of(&Shop::fresh());
/// let (flow, tank_m3) = (FreeAir::cfm(5.0), 0.08);
/// let mut judging = Judging::new(&basis, &machine_at(&basis, flow, tank_m3)).ok_or("no task")?;
/// while !judging.slice() {}
/// assert_eq!(judging.verdict().worst().copied(), worst_at(&basis, flow, tank_m3));
/// # Ok::<(), &str>(())
/// ```
pub fn machine_at(basis: &Basis, flow: FreeAir, tank_m3: f64) -> CandidateBasis {
    let mut machine = usual(basis);
    machine.flows = vec![(flow, Gauge::psi(90.0))];
    machine.tank_m3.value = tank_m3;
    machine
}
