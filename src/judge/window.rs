//! The inverse: what to look for, from a shop alone.

use crate::basis::vessel::Vessel;
use crate::basis::{Basis, CandidateBasis, StartClue};
use crate::power::flow_fed;
use crate::verdict::{Paused, Size, Sizing, good_from};
use quantity::{FreeAir, Gauge, Known, M3_PER_GALLON, Origin};
use shop::MachineKind;

/// Receivers that shops sell, US gallons. Common practice, no source.
pub const TANKS_GAL: [f64; 12] = [2.0, 4.0, 6.0, 8.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 60.0, 80.0];

/// Flows at 90 psi that one asks for in a shop, cfm: halves, then whole ones. Common practice, no source.
pub const FLOWS_CFM: [f64; 19] = [
    1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 5.5, 6.0, 7.0, 8.0, 9.0, 10.0, 12.0, 14.0, 16.0, 18.0,
];

/// Largest tank of the list that two people still move, gal: more flow is asked for before a larger one. Common
/// practice, no source.
pub const MOVABLE_GAL: f64 = 30.0;

/// Tanks with which a flow is sold, from the largest flow on: from so many cfm on, no smaller than so many gallons. What makes
/// more than a 120 V outlet feeds stands on wheels of 20 gal at the least, 10 cfm and more on an upright of 60. Judgement.
const SOLD_WITH: [(f64, f64); 3] = [(16.0, 80.0), (10.0, 60.0), (7.0, 20.0)];

/// The other way: a tank of so many gallons is sold with no less than so many cfm. Judgement.
const SOLD_FROM: [(f64, f64); 3] = [(20.0, 3.0), (8.0, 2.0), (4.0, 1.5)];

/// The least flow with which such a tank is sold, cfm.
fn sold_from(gallons: f64) -> f64 {
    let least = SOLD_FROM.iter().find(|(from, _)| gallons >= *from);
    least.map_or(0.0, |(_, cfm)| *cfm)
}

/// The least tank of the list with which such a flow is sold.
fn sold_with(cfm: f64) -> usize {
    let least = SOLD_WITH
        .iter()
        .find(|(from, _)| cfm >= *from)
        .map_or(0.0, |(_, gallons)| *gallons);
    TANKS_GAL
        .iter()
        .position(|gallons| *gallons >= least)
        .unwrap_or_default()
}

/// What to look for: the smallest flow and tank, in sizes sold, with which the verdict itself is good for every task at
/// every place.
#[derive(Clone, Debug, PartialEq)]
pub struct Window {
    /// Least delivered flow at 90 psi on the rating basis.
    pub flow: FreeAir,
    /// Least tank with that flow, m³.
    pub tank_m3: f64,
    /// The task and the place (indices into the basis) that ask for the flow.
    pub flow_by: (usize, usize),
    /// Those that ask for the tank, where a smaller one of the list would not do.
    pub tank_by: Option<(usize, usize)>,
    /// In how many of its draws the hardest task is done with that flow and tank.
    pub done: usize,
    /// Draws.
    pub draws: usize,
    /// The next smaller tank of the list and the flow that it would take.
    pub smaller: Option<(f64, FreeAir)>,
    /// Tasks that no machine of the usual kind does through this line or switch.
    pub beyond: Vec<usize>,
    /// Places (indices into the basis) whose circuit feeds no such machine.
    pub unfed: Vec<usize>,
}

/// The machine that a window is drawn for: what a label with flow and tank alone is taken for. One stage, 90 to 120 psi,
/// duty of 70 %, typical clearance; here with 1 cfm and 1 gal. Common practice, no source.
pub fn usual(basis: &Basis) -> CandidateBasis {
    CandidateBasis {
        name: String::new(),
        kind: MachineKind::PistonOneStage,
        pump: None,
        vessel: Vessel::default(),
        suction: None,
        sound_power_db: None,
        flows: vec![(FreeAir::cfm(1.0), Gauge::psi(90.0))],
        pressure_stated: true,
        tank_m3: Known::typed(M3_PER_GALLON),
        volts: basis
            .places
            .first()
            .map_or(Known::assumed(120.0), |place| place.volts),
        amps: None,
        three_phase: false,
        connections: Vec::new(),
        unread: None,
        unread_air: None,
        power_w: None,
        peak_power_w: None,
        start: StartClue::Unknown,
        cut_in: Gauge::psi(90.0),
        cut_out: Gauge::psi(120.0),
        switch_origins: [Origin::Assumed; 2],
        duty: Known::assumed(0.7),
        sound: None,
        mass_kg: None,
        wheels: false,
        price: None,
        measured: None,
    }
}

/// Machines of the usual kind tried on every task of a shop at every place.
pub(crate) struct Search {
    sizing: Sizing,
    /// Rows of the sizing that any machine of that kind does, that which failed last first.
    rows: Vec<usize>,
    /// How many of them have failed.
    hard: usize,
    /// Tasks that none does.
    pub beyond: Vec<usize>,
}

/// Index of a flow of a list, and the row that asks for it; none where no flow of the list does.
type Found = Result<Option<(usize, Option<usize>)>, Paused>;

/// A flow and a tank of the usual machine, in the trade's units.
pub(crate) fn sized(cfm: f64, gallons: f64) -> Size {
    Size {
        flow: cfm,
        tank: gallons,
        added_m3: 0.0,
    }
}

impl Search {
    /// `None` where no task is on or no place is given.
    pub fn new(basis: &Basis) -> Option<Self> {
        Some(Self {
            sizing: Sizing::new(basis, &usual(basis), None)?,
            rows: Vec::new(),
            hard: 0,
            beyond: Vec::new(),
        })
    }

    /// Begins the next slice.
    pub fn refill(&mut self) {
        self.sizing.budget.refill();
    }

    /// Slices that were spent.
    pub fn slices(&self) -> usize {
        self.sizing.budget.slices()
    }

    /// The order in which rows are tried, to go on from after a pause.
    pub fn order(&self) -> (Vec<usize>, usize) {
        (self.rows.clone(), self.hard)
    }

    /// Goes back to such an order.
    pub fn reorder(&mut self, (rows, hard): (Vec<usize>, usize)) {
        (self.rows, self.hard) = (rows, hard);
    }

    /// Finds the rows, from the beginning: what was tried is known.
    pub fn begin(&mut self) -> Result<(), Paused> {
        (self.rows, self.hard, self.beyond) = (Vec::new(), 0, Vec::new());
        for row in 0..self.sizing.rows().count() {
            if self.sizing.has_pressure(row)? {
                self.rows.push(row);
            } else {
                self.beyond.extend(self.sizing.tasks_of(row));
            }
        }
        self.beyond.sort_unstable();
        self.beyond.dedup();
        Ok(())
    }

    /// Whether nothing is to be tried.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// How many draws there are.
    pub fn draws(&self) -> usize {
        self.sizing.draws()
    }

    /// Place and task of a row, as (task, place).
    fn named(&self, row: usize) -> Option<(usize, usize)> {
        let (place, task) = self.sizing.rows().nth(row)?;
        Some((task, place))
    }

    /// A row that is not done in so many draws, that which failed last first; of all, or of those that failed before.
    fn failing(&mut self, size: Size, least: usize, all: bool) -> Result<Option<usize>, Paused> {
        let rows = if all { self.rows.len() } else { self.hard };
        for at in 0..rows {
            let row = self.rows.get(at).copied().unwrap_or_default();
            if !self.sizing.reaches(row, size, least)? {
                // What failed is the likeliest to fail again.
                if let Some(before) = self.rows.get_mut(..=at) {
                    before.rotate_right(1);
                }
                self.hard += usize::from(at >= self.hard);
                return Ok(Some(row));
            }
        }
        Ok(None)
    }

    /// Index of the first of some flows with which nothing fails, and what fails with the one before: by halving.
    pub fn least_flow(&mut self, flows: &[f64], gallons: f64, least: usize) -> Found {
        let (index, failed) = self.halve(flows, |cfm| sized(cfm, gallons), least)?;
        Ok((index < flows.len()).then_some((index, failed)))
    }

    /// The first of a list of sizes with which nothing fails, its length where there is none: by halving among the rows that
    /// failed before, and then with all, as most rows never ask for anything.
    fn halve(
        &mut self,
        list: &[f64],
        size: impl Fn(f64) -> Size,
        least: usize,
    ) -> Result<(usize, Option<usize>), Paused> {
        let (mut low, mut failed) = (0, None);
        loop {
            let mut high = list.len();
            while let Some(middle) = list.get((low + high) / 2).filter(|_| low < high) {
                match self.failing(size(*middle), least, false)? {
                    Some(row) => (failed, low) = (Some(row), (low + high) / 2 + 1),
                    None => high = (low + high) / 2,
                }
            }
            let Some(found) = list.get(low) else {
                return Ok((low, failed));
            };
            match self.failing(size(*found), least, true)? {
                Some(row) => (failed, low) = (Some(row), low + 1),
                None => return Ok((low, failed)),
            }
        }
    }

    /// Draws in which the hardest row is done.
    fn least_done(&mut self, size: Size) -> Result<usize, Paused> {
        let mut least = self.draws();
        for row in self.rows.clone() {
            least = least.min(self.sizing.count(row, size)?);
        }
        Ok(least)
    }
}

/// The largest tank that two people move, then the larger ones: the first with which a flow of the list does.
fn first_flow(search: &mut Search, least: usize) -> Result<Option<(usize, usize, Option<usize>)>, Paused> {
    for (tank, gallons) in TANKS_GAL.into_iter().enumerate() {
        if gallons < MOVABLE_GAL {
            continue;
        }
        if let Some((flow, by)) = search.least_flow(&FLOWS_CFM, gallons, least)? {
            return Ok(Some((flow, tank, by)));
        }
    }
    Ok(None)
}

/// The search for what to look for, a slice at a time.
///
/// ```
/// # use judge::{basis::Basis, window::{Looking, window}};
/// # use shop::Shop;
/// let basis = Basis::of(&Shop::fresh());
/// let mut looking = Looking::new(&basis);
/// while !looking.step() {}
/// assert_eq!(looking.found(), window(&basis).as_ref());
/// ```
pub struct Looking {
    basis: Basis,
    search: Option<Search>,
    found: Option<Window>,
    over: bool,
}

impl Looking {
    /// Prepares it.
    pub fn new(basis: &Basis) -> Self {
        Self {
            search: Search::new(basis),
            basis: basis.clone(),
            found: None,
            over: false,
        }
    }

    /// Looks on for some 50 ms at the most; true once the search is over.
    pub fn step(&mut self) -> bool {
        if !self.over {
            let found = self.search.as_mut().map(|search| found(search, &self.basis));
            match found.transpose() {
                Ok(found) => (self.found, self.over) = (found.flatten(), true),
                Err(Paused) => return false,
            }
        }
        true
    }

    /// What was found: nothing before the search is over, nor as for [`window`].
    pub fn found(&self) -> Option<&Window> {
        self.found.as_ref()
    }
}

/// From a flow that does with a tank on (indices into the lists), the first flow that is sold with the least tank which then
/// does, that tank, and what a smaller one fails at.
fn sold_together(
    search: &mut Search,
    (flow, largest): (usize, usize),
    least: usize,
) -> Result<(usize, usize, Option<usize>), Paused> {
    let tanks = TANKS_GAL.get(..largest).unwrap_or(&TANKS_GAL);
    for (index, cfm) in FLOWS_CFM.iter().enumerate().skip(flow) {
        let (tank, by) = search.halve(tanks, |gallons| sized(*cfm, gallons), least)?;
        if TANKS_GAL
            .get(tank)
            .is_some_and(|gallons| *cfm >= sold_from(*gallons))
        {
            return Ok((index, tank, by));
        }
    }
    Ok((flow, largest, None))
}

fn found(search: &mut Search, basis: &Basis) -> Result<Option<Window>, Paused> {
    search.refill();
    search.begin()?;
    let Some(first) = search.rows.first().copied() else {
        return Ok(None);
    };
    let least = good_from(search.draws());
    let Some((flow, largest, flow_by)) = first_flow(search, least)? else {
        return Ok(None);
    };
    let (flow, enough, tank_by) = sold_together(search, (flow, largest), least)?;
    let cfm = FLOWS_CFM[flow];
    // A smaller tank that would do is not sold with so much flow.
    let tank = enough.max(sold_with(cfm));
    let tank_by = tank_by.filter(|_| tank == enough);
    let done = search.least_done(sized(cfm, TANKS_GAL[tank]))?;
    let smaller = match tank.checked_sub(1).filter(|_| tank == enough) {
        Some(smaller) => {
            let flow = search.least_flow(&FLOWS_CFM, TANKS_GAL[smaller], least)?;
            flow.map(|(flow, _)| (TANKS_GAL[smaller] * M3_PER_GALLON, FreeAir::cfm(FLOWS_CFM[flow])))
        }
        None => None,
    };
    let Some(flow_by) = search.named(flow_by.unwrap_or(search.rows.first().copied().unwrap_or(first))) else {
        return Ok(None);
    };
    let places = basis.places.iter().enumerate();
    Ok(Some(Window {
        flow: FreeAir::cfm(cfm),
        tank_m3: TANKS_GAL[tank] * M3_PER_GALLON,
        flow_by,
        tank_by: tank_by.and_then(|row| search.named(row)),
        done,
        draws: search.draws(),
        smaller,
        beyond: search.beyond.clone(),
        unfed: places
            .filter(|(_, place)| flow_fed(place)[1].as_cfm() < cfm)
            .map(|(index, _)| index)
            .collect(),
    }))
}

/// What to look for: the least flow that does with the largest tank that two people move, then the least tank that does
/// with this flow. The same draws and the same sums as [`verdict`](crate::verdict::verdict): typed back in as a machine
/// it is good.
///
/// `None` where no task is on, no place is given, or nothing on the lists does.
///
/// ```
/// # use judge::{basis::Basis, window::window};
/// # use shop::Shop;
/// let window = window(&Basis::of(&Shop::fresh())).ok_or("nothing does")?;
/// // The trade's "3 to 5 cfm at 90 psi with 20 to 30 gal" (common practice, no source).
/// assert!((3.0..=5.0).contains(&window.flow.as_cfm()));
/// # Ok::<(), &str>(())
/// ```
pub fn window(basis: &Basis) -> Option<Window> {
    let mut looking = Looking::new(basis);
    while !looking.step() {}
    looking.found
}
