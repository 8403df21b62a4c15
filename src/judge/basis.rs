//! From text to quantities: what each field means, and what was taken for the blank ones.
//!
//! A field that cannot be read makes a [`Refusal`]: what is usual stands in its place, so that every other answer still
//! stands, and what hangs on the field is not judged.
//! What is taken for a blank field is noted by path, so that the page can show it.

mod label;
mod line;
mod measured;
pub mod place;
mod plate;
mod reader;
pub mod spray;
pub mod standing;
mod task;
pub mod vessel;
pub mod wiring;

use physics::air::{Air, RATING};
use physics::measure::Measured;
use quantity::{CURRENCY, FreeAir, Gauge, Known, Origin};
use reader::Reader;
pub use reader::{Refusal, Unread};
use shop::change::Change;
use shop::part::Part;
use shop::pumps::PumpKind;
use shop::{MachineKind, Shop, TaskKind, Units};

/// A place in quantities.
#[derive(Clone, Debug, PartialEq)]
pub struct PlaceBasis {
    /// Its name.
    pub name: String,
    /// A refused field that the air is judged by.
    pub unread_air: Option<Unread>,
    /// Its air.
    pub air: Air,
    /// Altitude, m, where the pressure follows from it; `None` where a barometer was read.
    pub altitude_m: Option<f64>,
    /// Where its pressure, by altitude or barometer, and its temperature come from.
    pub air_origins: [Origin; 2],
    /// Voltage at the panel.
    pub volts: Known,
    /// Breaker rating, A.
    pub breaker_a: Known,
    /// Other loads on the breaker, A.
    pub other_a: f64,
    /// What they are, as the reader calls them; may be blank.
    pub other_name: String,
    /// Branch wire: area m², length m.
    pub branch: (Known, Known),
    /// Cord: area m², length m.
    pub cord: Option<(f64, f64)>,
    /// Path of the first of the power's fields that could not be read.
    pub unread: Option<String>,
    /// How it is wired, as far as words tell it.
    pub wiring: wiring::Wiring,
    /// Generator rating, VA.
    pub generator_va: Option<f64>,
    /// Distance to the builder's ears, m.
    pub listener_m: Known,
    /// Distance to the neighbour, m.
    pub neighbour_m: Option<f64>,
    /// Level that walls take, dB.
    pub wall_loss_db: Known,
    /// Inlet ducted outdoors.
    pub inlet_ducted: bool,
    /// In a box.
    pub boxed: bool,
    /// How the machine stands there.
    pub standing: standing::Standing,
}

/// A task in quantities.
#[derive(Clone, Debug, PartialEq)]
pub struct TaskBasis {
    /// Index in the shop.
    pub index: usize,
    /// What it is.
    pub kind: TaskKind,
    /// What it is called.
    pub name: String,
    /// A refused field that the task is judged by.
    pub unread_air: Option<Unread>,
    /// Part of the build.
    pub on: bool,
    /// Free air on the trigger, on the rating basis.
    pub flow: FreeAir,
    /// Low and high of that flow: the trade's range, or a tenth either way of a typed figure.
    pub flow_range: [FreeAir; 2],
    /// Setting.
    pub setting: Gauge,
    /// Lowest useful pressure.
    pub lowest: Gauge,
    /// Seconds on, off; spell, pause.
    pub rhythm: physics::run::Rhythm,
    /// How many at once.
    pub people: f64,
    /// It goes on at the same time as the other tasks that are so.
    pub together: bool,
    /// Where all that comes from.
    pub origins: TaskOrigins,
    /// Where the figures come from.
    pub source: &'static str,
    /// The most that its maker allows with the tool at rest; `None` for a gun that is set while it sprays.
    pub rest_most: Option<Gauge>,
    /// What it sprays; `None` for all that does not spray.
    pub spray: Option<spray::Spray>,
}

/// Where the figures of a task come from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct TaskOrigins {
    /// What the tool takes.
    pub flow: Origin,
    /// Seconds on the trigger.
    pub trigger: Origin,
    /// Length of a spell.
    pub spell: Origin,
    /// The pause after it.
    pub pause: Origin,
    /// The setting.
    pub setting: Origin,
    /// The lowest useful pressure.
    pub lowest: Origin,
}

/// A candidate in quantities.
#[derive(Clone, Debug, PartialEq)]
pub struct CandidateBasis {
    /// Its name, or "this machine".
    pub name: String,
    /// A refused field that every task is judged by.
    pub unread_air: Option<Unread>,
    /// What compresses the air.
    pub kind: MachineKind,
    /// The kind of pump, where label or words tell it.
    pub pump: Option<PumpKind>,
    /// The tank's stamp and relief valve.
    pub vessel: vessel::Vessel,
    /// Sound power level, dB, where that is printed.
    pub sound_power_db: Option<f64>,
    /// Air that the pump takes in, where a label prints that: more than it delivers.
    pub suction: Option<FreeAir>,
    /// Flows with their pressures, as many as the label has.
    pub flows: Vec<(FreeAir, Gauge)>,
    /// Whether the pressure of the first flow was stated.
    pub pressure_stated: bool,
    /// Tank, m³.
    pub tank_m3: Known,
    /// Motor voltage.
    pub volts: Known,
    /// Full-load current, A.
    pub amps: Option<f64>,
    /// Path of the first of the power's fields that could not be read.
    pub unread: Option<String>,
    /// The ways in which the motor can be connected, as the plate lists them; none where it is silent on volts.
    pub connections: Vec<Connection>,
    /// Its motor wants three phases, which a house does not have.
    pub three_phase: bool,
    /// Printed horsepower, W.
    pub power_w: Option<f64>,
    /// Peak horsepower, W: what no motor does for longer than a moment.
    pub peak_power_w: Option<f64>,
    /// Starting current.
    pub start: StartClue,
    /// Cut-in.
    pub cut_in: Gauge,
    /// Cut-out.
    pub cut_out: Gauge,
    /// Where cut-in and cut-out come from.
    pub switch_origins: [Origin; 2],
    /// Share of time that it may run.
    pub duty: Known,
    /// Level, dBA, at a distance, m.
    pub sound: Option<(f64, Known)>,
    /// Mass, kg.
    pub mass_kg: Option<f64>,
    /// It rolls.
    pub wheels: bool,
    /// Price.
    pub price: Option<f64>,
    /// What was timed at it, in the first place's air.
    pub measured: Option<Measured>,
}

/// One way to connect a motor: the volts that the plate allows, and the current at them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Connection {
    /// Least and most of the plate's volts for it: "208-230" is one connection.
    pub volts: [f64; 2],
    /// Full-load current, A.
    pub amps: Option<f64>,
}

/// What is known of the starting current.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StartClue {
    /// Nothing.
    Unknown,
    /// Code letter on the plate.
    Letter(char),
    /// Amps.
    Amps(f64),
    /// Multiple of the full-load current.
    Multiple(f64),
}

/// The line in quantities.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LineBasis {
    /// A refused field that every task is judged by.
    pub unread_air: Option<Unread>,
    /// Droop of the regulator, Pa per m³/s.
    pub droop: f64,
    /// Trunk: bore m, length m.
    pub trunk: (f64, f64),
    /// Couplers.
    pub couplers: f64,
    /// Whip: bore m, length m.
    pub whip: (f64, f64),
    /// Share of the regulated pressure that the hoses may lose.
    pub loss_share: f64,
    /// What a fixed line is made of, if typed.
    pub pipe: Option<Pipe>,
    /// Somebody breathes from it, as typed.
    pub breathed: bool,
}

/// What a fixed air line is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pipe {
    /// Copper, aluminum, steel, or plastic listed for compressed air.
    Sound,
    /// PVC or CPVC: it shatters.
    Shatters,
    /// Nothing that is known to hold compressed air, nor known to shatter.
    Unknown,
}

/// What the builder can carry, pay and bear, in quantities.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LimitsBasis {
    /// Mass one person lifts, kg.
    pub lift_kg: Option<f64>,
    /// Tailgate height, m.
    pub tailgate_m: Known,
    /// Money for the whole set.
    pub budget: Option<f64>,
    /// Loudest level at the ears, dBA.
    pub loudest_dba: Option<f64>,
    /// Hours over the build, s.
    pub hours_s: Known,
    /// Hours a day, s.
    pub day_s: Known,
    /// Money a kilowatt hour.
    pub tariff: Known,
}

/// The auxiliary receiver.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AuxiliaryBasis {
    /// Volume, m³.
    pub tank_m3: f64,
    /// Its stamp.
    pub stamp: vessel::Stamp,
    /// Its state.
    pub condition: vessel::Condition,
    /// Stays at the first place.
    pub stays: bool,
}

impl AuxiliaryBasis {
    /// Whether it may be joined to a machine whose switch opens at `cut_out`: only then does its volume count. A new tank
    /// whose stamp is blank is taken to be stamped for it; nothing is taken for granted of a used one.
    pub fn may_join(&self, cut_out: Gauge) -> bool {
        let stamped = match self.stamp {
            vessel::Stamp::At(most) => most.as_pa() >= cut_out.as_pa(),
            vessel::Stamp::Untold => self.condition == vessel::Condition::New,
            vessel::Stamp::Missing => false,
        };
        stamped && self.condition != vessel::Condition::Unsound
    }
}

/// A shop in quantities.
#[derive(Clone, Debug, PartialEq)]
pub struct Basis {
    /// Units of the answer.
    pub units: Units,
    /// The sign of the money that prices, budget or tariff are typed in, where one has a sign.
    pub currency: Option<char>,
    /// Places.
    pub places: Vec<PlaceBasis>,
    /// Tasks.
    pub tasks: Vec<TaskBasis>,
    /// Candidates.
    pub candidates: Vec<CandidateBasis>,
    /// The chosen candidate's index, within range.
    pub chosen: usize,
    /// Line.
    pub line: LineBasis,
    /// Auxiliary receiver.
    pub auxiliary: Option<AuxiliaryBasis>,
    /// The second tank's refused field that the air is judged by.
    pub unread_auxiliary: Option<Unread>,
    /// Limits.
    pub limits: LimitsBasis,
    /// Fields whose text was not taken.
    pub faults: Vec<Refusal>,
    /// Typical values taken for blank fields.
    pub taken: Vec<Change>,
}

impl Basis {
    /// Reads a whole shop. Never fails: what cannot be read is a [`Refusal`], and what is usual stands in its place.
    ///
    /// ```
    /// # use judge::basis::Basis; use shop::Shop;
    /// let mut shop = Shop::demo();
    /// shop.candidates[0].tank = "20 psi".into();
    /// let basis = Basis::of(&shop);
    /// assert_eq!(basis.faults[0].path(), "candidates.0.tank");
    /// assert!(!basis.candidates[0].tank_m3.is_given());
    /// ```
    pub fn of(shop: &Shop) -> Self {
        let mut reader = Reader {
            units: shop.units,
            part: Part::Shop,
            refusals: Vec::new(),
            taken: Vec::new(),
        };
        reader.words("name", &shop.name);
        let places = each(&mut reader, Part::Place, &shop.places, |reader, _, place| {
            place::place_basis(reader, place)
        });
        let tasks = each(&mut reader, Part::Task, &shop.tasks, task::task_basis);
        // A plate that is silent is taken to suit the first place.
        let usual_volts = places
            .first()
            .map_or_else(|| place::mains(shop.units), |place| place.volts.value);
        let candidates = each(
            &mut reader,
            Part::Candidate,
            &shop.candidates,
            |reader, _, candidate| {
                let basis = label::candidate_basis(reader, candidate, usual_volts);
                let air = places.first().map_or(RATING, |place| place.air);
                let measured = measured::measured(reader, candidate, &basis, &air);
                CandidateBasis {
                    measured,
                    unread_air: reader.unread_air(),
                    ..basis
                }
            },
        );
        let line = line::line_basis(&mut reader, shop);
        let auxiliary = line::auxiliary_basis(&mut reader, shop);
        let unread_auxiliary = reader.unread_air();
        let limits = line::limits_basis(&mut reader, shop);
        Self {
            units: shop.units,
            currency: currency(shop),
            places,
            tasks,
            chosen: shop.chosen.min(candidates.len().saturating_sub(1)),
            candidates,
            line,
            auxiliary,
            unread_auxiliary,
            limits,
            faults: reader.refusals,
            taken: reader.taken,
        }
    }

    /// The refused field that keeps a task at a place on a machine from being judged: neither good nor bad.
    pub fn unread_air(&self, candidate: &CandidateBasis, place: usize, task: usize) -> Option<Unread> {
        let place = self.places.get(place).and_then(|place| place.unread_air);
        let task = self.tasks.get(task).and_then(|task| task.unread_air);
        let line = self.line.unread_air.or(self.unread_auxiliary);
        candidate.unread_air.or(place).or(task).or(line)
    }

    /// The refusal of a field.
    pub fn refusal(&self, unread: Unread) -> Option<&Refusal> {
        let of = |refusal: &&Refusal| refusal.part == unread.part && refusal.field.key == unread.key;
        self.faults.iter().find(of)
    }

    /// Whether a machine has the same to serve as where these were kept: window, map, facts and draws hang on them.
    pub fn asks_for(&self, places: &[PlaceBasis], tasks: &[TaskBasis], line: &LineBasis) -> bool {
        self.places == places && self.tasks == tasks && self.line == *line
    }
}

fn currency(shop: &Shop) -> Option<char> {
    let prices = shop.candidates.iter().map(|candidate| &candidate.price);
    let texts = prices.chain([&shop.limits.budget, &shop.limits.tariff]);
    texts
        .flat_map(|text| text.chars())
        .find(|sign| CURRENCY.contains(sign))
}

fn each<T, U>(
    reader: &mut Reader,
    part: impl Fn(usize) -> Part,
    items: &[T],
    read_one: impl Fn(&mut Reader, usize, &T) -> U,
) -> Vec<U> {
    let mut basis = Vec::with_capacity(items.len());
    for (index, item) in items.iter().enumerate() {
        reader.part = part(index);
        basis.push(read_one(reader, index, item));
    }
    basis
}
