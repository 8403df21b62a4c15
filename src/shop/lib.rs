//! The data model: everything about one builder's air, as typed.
//!
//! **In:** a form, a file, a link. **Out:** a [`Shop`], or a refusal that says what is wrong with the file or link. A shop
//! keeps the *text* of every field, so that what was typed stays as typed, a field in error loses nothing, and a blank
//! field says "unknown": the judge then takes what is typical and says so. Nothing is figured here. Begin with [`Shop`];
//! [`catalogue`] knows what is typical of each task, [`label`] reads a whole label into a machine, [`mod@file`] and
//! [`link`] carry a shop.

pub use quantity::{MachineKind, Units};
use serde::Serialize;
use tsify::Tsify;

pub mod bundle;
pub mod catalogue;
pub mod change;
pub mod edit;
pub mod file;
pub mod guns;
pub mod label;
pub mod link;
pub mod part;
pub mod pumps;
pub mod qr;
pub mod questions;
pub mod record;
pub mod word;

/// Version of the schema that this build writes; it reads this one and older ones.
pub const SCHEMA: u32 = 1;

/// Text as typed into a field; blank means unknown.
#[tsify::declare]
pub type Typed = String;

/// One builder's air: places, tasks, air line, limits, candidates.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
#[serde(default)]
pub struct Shop {
    /// Schema version, [`SCHEMA`].
    pub version: u32,
    /// The profile's name.
    pub name: Typed,
    /// Units of the answer.
    pub units: Units,
    /// Where the work happens.
    pub places: Vec<Place>,
    /// What is done with the air.
    pub tasks: Vec<Task>,
    /// Regulator, hoses, couplers, whips.
    pub line: Line,
    /// A second tank teed in.
    pub auxiliary: Auxiliary,
    /// What the builder can carry, pay and bear.
    pub limits: Limits,
    /// Compressors under consideration, each as its label states it.
    pub candidates: Vec<Candidate>,
    /// Index of the candidate that the answer is about.
    pub chosen: usize,
}

/// Where the work happens: its air, its power, who is near.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
#[serde(default)]
pub struct Place {
    /// What the builder calls it.
    pub name: Typed,
    /// Above sea level, e.g. "4,900 ft".
    pub altitude: Typed,
    /// Barometer at the place, absolute, not reduced to sea level; overrides the altitude.
    pub station_pressure: Typed,
    /// Air temperature.
    pub temperature: Typed,
    /// Relative humidity.
    pub humidity: Typed,
    /// Voltage at the panel.
    pub volts: Typed,
    /// Rating of the branch's breaker.
    pub breaker: Typed,
    /// Current that other things on the same breaker draw.
    pub other_load: Typed,
    /// What that is: "freezer".
    pub other_name: Typed,
    /// Branch wire, panel to outlet.
    pub branch_gauge: Typed,
    /// Length of that wire, one way.
    pub branch_length: Typed,
    /// Extension cord; blank is no cord.
    pub cord_gauge: Typed,
    /// Length of that cord.
    pub cord_length: Typed,
    /// Rating of a generator or inverter that feeds the outlet, in kVA; blank is the grid.
    pub generator: Typed,
    /// Face of the outlet: "5-15", "5-20", "6-20", "14-50", "10-30", "hard-wired", "Schuko", "BS 1363"; blank is what
    /// the breaker and the volts suggest.
    pub outlet: Typed,
    /// Metal of the branch wire: "copper", "aluminum"; blank is copper.
    pub wire_metal: Typed,
    /// An adapter between plug and outlet: "two-prong", "to 14-50"; blank is none.
    pub adapter: Typed,
    /// Where the generator stands: "outdoors, 20 ft from doors", "in the garage".
    pub generator_stands: Typed,
    /// A GFCI in the circuit: "yes", "no", "trips at start".
    pub gfci: Typed,
    /// Volts of a spare circuit that could be had at this place: "240 V".
    pub spare_volts: Typed,
    /// That circuit's breaker.
    pub spare_breaker: Typed,
    /// Distance from the outlet to where the compressor would stand, with no cord bought yet.
    pub cord_planned: Typed,
    /// Whether the machine comes to this place: "yes", "no"; blank leaves a stationary one at the first place.
    pub machine_comes: Typed,
    /// Distance from compressor to the builder's ears.
    pub listener: Typed,
    /// Distance from compressor to the nearest neighbour.
    pub neighbour: Typed,
    /// Level that walls take away on the way to the neighbour, dB.
    pub wall_loss: Typed,
    /// The compressor's inlet is ducted outdoors.
    pub inlet_ducted: bool,
    /// The compressor stands in a sound box.
    pub boxed: bool,
    /// That box's length, width and height: "4 x 3 x 3 ft".
    pub box_size: Typed,
    /// Air that a fan moves through it: "200 cfm"; blank is no fan.
    pub box_fan: Typed,
    /// Airplanes in the building: "fueled", "never fueled", "none".
    pub airplane: Typed,
    /// Where the compressor stands: "on the floor", "18 in up, 5 ft from the airplane", "outside".
    pub compressor_stands: Typed,
}

/// What a task is; fixes what is typical for blank fields. The catalogue is in `task`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum TaskKind {
    /// Any other air tool: every figure is the builder's own.
    #[default]
    Other,
    /// Drilling to size.
    Drill,
    /// Deburring and countersinking.
    Deburr,
    /// Driving rivets with gun and bucking bar.
    RivetGun,
    /// A run of back-riveting.
    BackRivet,
    /// Squeezing rivets; air by the stroke.
    Squeezer,
    /// Blowing chips off.
    BlowOff,
    /// Cutting and grinding.
    DieGrinder,
    /// Orbital sanding.
    Sander,
    /// Priming parts with a small gun.
    PrimerGun,
    /// Painting with a full-size gun.
    PaintGun,
    /// Pulling blind rivets with a pneumatic puller; air by the stroke.
    RivetPuller,
    /// Setting and taking out clecos with a pneumatic tool; air by the stroke.
    ClecoTool,
}

impl TaskKind {
    /// Whether its tool takes a volume a stroke rather than a flow while the trigger is held.
    pub fn by_stroke(self) -> bool {
        matches!(self, Self::Squeezer | Self::RivetPuller | Self::ClecoTool)
    }
}

/// A tool used in a rhythm.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
#[serde(default)]
pub struct Task {
    /// What it is.
    pub kind: TaskKind,
    /// The builder's own name for it; blank takes the kind's.
    pub name: Typed,
    /// Whether it is part of this build.
    pub on: bool,
    /// Free air while the trigger is held, at the setting; for a tool that works by the stroke, free air a stroke.
    pub flow: Typed,
    /// Pressure that the regulator is set to at the tool, running.
    pub setting: Typed,
    /// Lowest pressure at the tool that still does the work.
    pub lowest: Typed,
    /// Seconds on the trigger; for a tool that works by the stroke, how long one takes.
    pub trigger_on: Typed,
    /// Seconds off it.
    pub trigger_off: Typed,
    /// How long that rhythm lasts.
    pub spell: Typed,
    /// How long the pause after it lasts.
    pub pause: Typed,
    /// How many do this at once, each with a gun of his own: the bucker takes no air.
    pub people: Typed,
    /// Whether it goes on at the same time as the other tasks of which that is said: one drills, one rivets.
    pub together: bool,
    /// What kind of gun sprays: "touch-up", "LVLP", "HVLP", "conventional".
    pub gun: Typed,
    /// What it sprays: "two-part urethane", "chromate primer", "waterborne".
    pub paint: Typed,
    /// Where it is sprayed: "booth", "outdoors", "beside the compressor".
    pub sprayed: Typed,
}

/// One compressor as its label states it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
#[serde(default)]
pub struct Candidate {
    /// Make and model, or any name.
    pub name: Typed,
    /// What compresses the air.
    pub kind: MachineKind,
    /// Delivered flow on the label.
    pub flow: Typed,
    /// Pressure at which that flow is stated; blank is 90 psi.
    pub at: Typed,
    /// A second delivered flow.
    pub flow2: Typed,
    /// Pressure of the second flow; blank is 40 psi.
    pub at2: Typed,
    /// Receiver volume.
    pub tank: Typed,
    /// Voltage on the motor plate.
    pub volts: Typed,
    /// Full-load current on the motor plate.
    pub amps: Typed,
    /// Horsepower printed on it.
    pub power: Typed,
    /// Starting current: a code letter ("H"), amps ("60 A") or a multiple ("6x").
    pub start: Typed,
    /// Pressure at which the switch starts the motor.
    pub cut_in: Typed,
    /// Pressure at which the switch stops it.
    pub cut_out: Typed,
    /// Share of time that the machine may run.
    pub duty: Typed,
    /// Level on the label, dBA.
    pub sound: Typed,
    /// Distance at which that level was taken.
    pub sound_at: Typed,
    /// Mass.
    pub weight: Typed,
    /// Whether it rolls.
    pub wheels: bool,
    /// Price.
    pub price: Typed,
    /// Measured time to pump from one gauge reading to another.
    pub pump_up: Typed,
    /// Gauge reading at the start of that time.
    pub pump_from: Typed,
    /// Gauge reading at its end.
    pub pump_to: Typed,
    /// Measured time of a leak-down.
    pub leak_time: Typed,
    /// Gauge reading at its start.
    pub leak_from: Typed,
    /// Gauge reading at its end.
    pub leak_to: Typed,
    /// Air that the pump takes in by its label, "180 L/min"; more than it delivers.
    pub suction: Typed,
    /// Peak horsepower on the label, "5 hp"; more than the motor ever does.
    pub peak_power: Typed,
    /// What kind of pump it is, in words: "oil-free, direct drive".
    pub pump: Typed,
    /// The plug on its cord: "15 A", "5-15", "hard-wired".
    pub plug: Typed,
    /// Pressure stamped on the tank, "150 psi", or "no stamp".
    pub stamp: Typed,
    /// Pressure at which the relief valve opens.
    pub relief: Typed,
    /// Sound power level on the label, "97 dB"; not a level at a distance.
    pub sound_power: Typed,
}

/// From the tank's outlet to the tool.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
#[serde(default)]
pub struct Line {
    /// Fall of the regulated pressure at the stated flow, psi per cfm of free air.
    pub droop: Typed,
    /// Bore of the hose from compressor to bench.
    pub trunk_bore: Typed,
    /// Its length.
    pub trunk_length: Typed,
    /// Quick couplers in the way, each a plug in a socket.
    pub couplers: Typed,
    /// Bore of the light hose in the hand.
    pub whip_bore: Typed,
    /// Its length.
    pub whip_length: Typed,
    /// Share of the regulated pressure that the hoses may lose.
    pub loss_share: Typed,
    /// What a fixed air line is made of: "copper", "aluminum", "black iron", "PEX", "PVC"; blank is hose alone.
    pub pipe: Typed,
    /// What somebody breathes from this line: "paint hood"; blank is nothing.
    pub breathing: Typed,
}

/// A second receiver teed in.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
#[serde(default)]
pub struct Auxiliary {
    /// Its volume; blank is none.
    pub tank: Typed,
    /// Pressure stamped on it, "150 psi", or "no stamp".
    pub rated: Typed,
    /// How old and sound it is: "new", "used", "rusty inside"; blank is new.
    pub condition: Typed,
    /// It stays at the first place when the machine travels.
    pub stays: bool,
}

/// What the builder can carry, pay and bear.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
#[serde(default)]
pub struct Limits {
    /// Mass that one person will lift.
    pub lift: Typed,
    /// Height of the tailgate.
    pub tailgate: Typed,
    /// Money for the whole set.
    pub budget: Typed,
    /// Loudest level at the builder's ears, dBA.
    pub loudest: Typed,
    /// Working hours over the whole build.
    pub hours: Typed,
    /// Working hours in a day.
    pub day: Typed,
    /// Price of a kilowatt hour.
    pub tariff: Typed,
}

/// Texts of a place, in the order altitude, temperature, humidity, breaker, other load, branch gauge and length.
fn place(
    name: &str,
    [
        altitude,
        temperature,
        humidity,
        breaker,
        other_load,
        gauge,
        length,
    ]: [&str; 7],
) -> Place {
    Place {
        name: name.into(),
        altitude: altitude.into(),
        temperature: temperature.into(),
        humidity: humidity.into(),
        volts: "120 V".into(),
        breaker: breaker.into(),
        other_load: other_load.into(),
        branch_gauge: gauge.into(),
        branch_length: length.into(),
        ..Place::default()
    }
}

impl Shop {
    /// What a first visit opens: one garage of which nothing is known yet, the usual tasks, one candidate still blank.
    ///
    /// ```
    /// # use shop::Shop;
    /// let shop = Shop::fresh();
    /// assert_eq!((shop.places.len(), shop.candidates.len()), (1, 1));
    /// assert!(shop.candidates[0].flow.is_empty() && shop.places[0].breaker.is_empty());
    /// ```
    pub fn fresh() -> Self {
        let kinds = catalogue::CATALOGUE.map(|entry| (entry.kind, entry.usual));
        Self {
            version: SCHEMA,
            name: "My shop".into(),
            places: vec![Place {
                name: "Garage".into(),
                ..Place::default()
            }],
            tasks: kinds
                .map(|(kind, on)| Task {
                    kind,
                    on,
                    ..Task::default()
                })
                .into(),
            candidates: vec![Candidate::default()],
            ..Self::default()
        }
    }

    /// The same where other units are usual: its mains and wires are assumed to be those of such a place.
    pub fn fresh_in(units: Units) -> Self {
        Self {
            units,
            ..Self::fresh()
        }
    }

    /// The invented example: a garage, a hangar, and three machines to choose from.
    pub fn demo() -> Self {
        let label =
            |name: &str, [flow, tank, volts, amps, power, sound, weight, price]: [&str; 8]| Candidate {
                name: name.into(),
                flow: flow.into(),
                at: "90 psi".into(),
                tank: tank.into(),
                volts: volts.into(),
                amps: amps.into(),
                power: power.into(),
                cut_in: "90 psi".into(),
                cut_out: "120 psi".into(),
                sound: sound.into(),
                sound_at: "3 ft".into(),
                weight: weight.into(),
                price: price.into(),
                wheels: true,
                ..Candidate::default()
            };
        Self {
            name: "Example shop".into(),
            places: vec![
                Place {
                    listener: "12 ft".into(),
                    neighbour: "60 ft".into(),
                    ..place(
                        "Garage",
                        ["600 ft", "75 F", "55 %", "15 A", "1.5 A", "14 AWG", "40 ft"],
                    )
                },
                Place {
                    cord_gauge: "14 AWG".into(),
                    cord_length: "50 ft".into(),
                    listener: "15 ft".into(),
                    neighbour: "100 ft".into(),
                    ..place(
                        "Hangar",
                        ["4,900 ft", "90 F", "35 %", "20 A", "1 A", "12 AWG", "60 ft"],
                    )
                },
            ],
            candidates: vec![
                label(
                    "Upright, 20 gal",
                    [
                        "4.2 cfm", "20 gal", "120 V", "11.5 A", "1.5 hp", "78 dBA", "125 lb", "$420",
                    ],
                ),
                label(
                    "Hand carry, 6 gal",
                    [
                        "2.5 cfm", "6 gal", "120 V", "10.5 A", "1.2 hp", "81 dBA", "33 lb", "$155",
                    ],
                ),
                label(
                    "Stationary, 60 gal",
                    [
                        "11.2 cfm", "60 gal", "240 V", "15 A", "3 hp", "84 dBA", "290 lb", "$980",
                    ],
                ),
            ],
            ..Self::fresh()
        }
    }
}
