//! The rows. Limits that are a kind's own are told by the kind; where a row allows less, the reason stands beside it.

use super::{Bears, Field, Holds, List, Section};
use crate::factor::{M_PER_FT, M3_PER_FT3, M3_S_PER_CFM, PA_PER_PSI, S_PER_H};
use crate::{Kind, Origin};

const PSI: f64 = PA_PER_PSI;
const CFM: f64 = M3_S_PER_CFM;

const fn words(key: &'static str, name: &'static str) -> Field {
    row(key, name, Holds::Words, Bears::Beside)
}

/// Words that the circuit is judged by.
const fn wiring(key: &'static str, name: &'static str) -> Field {
    row(key, name, Holds::Words, Bears::Power)
}

/// Words that say whether somebody could be hurt.
const fn safety(key: &'static str, name: &'static str) -> Field {
    row(key, name, Holds::Words, Bears::Safety)
}

/// What a tank is stamped for, or where its valve opens: what bears less holds no air for a tool.
const fn stamped(key: &'static str, name: &'static str) -> Field {
    let [low, high] = [5.0 * PSI, 500.0 * PSI];
    let kind = Kind::Pressure;
    row(key, name, Holds::Figure { kind, low, high }, Bears::Safety)
}

const fn choice(key: &'static str, name: &'static str, bears: Bears) -> Field {
    row(key, name, Holds::Choice, bears)
}

const fn tick(key: &'static str, name: &'static str, bears: Bears) -> Field {
    row(key, name, Holds::Tick, bears)
}

const fn row(key: &'static str, name: &'static str, holds: Holds, bears: Bears) -> Field {
    Field {
        key,
        name,
        holds,
        bears,
    }
}

/// A figure that the work's air is judged by.
const fn air(key: &'static str, name: &'static str, kind: Kind) -> Field {
    row(key, name, whole(kind), Bears::Air)
}

/// A figure that the circuit is judged by.
const fn power(key: &'static str, name: &'static str, kind: Kind) -> Field {
    row(key, name, whole(kind), Bears::Power)
}

/// Any other figure.
const fn beside(key: &'static str, name: &'static str, kind: Kind) -> Field {
    row(key, name, whole(kind), Bears::Beside)
}

const fn whole(kind: Kind) -> Holds {
    let [low, high] = kind.limits();
    Holds::Figure { kind, low, high }
}

impl Field {
    /// The same, where its figure may be less than its kind may.
    const fn within(self, low: f64, high: f64) -> Self {
        let holds = match self.holds {
            Holds::Figure { kind, .. } => Holds::Figure { kind, low, high },
            other => other,
        };
        Self { holds, ..self }
    }

    /// No tank of a one- or two-stage machine is stamped for more than 250 psi (common practice, no source), and the sums
    /// of water in compressed air end at 20 atmospheres. 17.3 bar is a little more.
    const fn of_a_tank(self, low: f64) -> Self {
        self.within(low, 251.0 * PSI)
    }

    /// No air tool of a workshop is made for more, nor is its hose (common practice, no source).
    const fn of_a_tool(self, low: f64) -> Self {
        self.within(low, 200.0 * PSI)
    }

    /// Ears and meters are not nearer: within a hand's breadth no level follows the distance.
    const fn of_sound(self) -> Self {
        self.within(0.1, 1_000.0)
    }

    /// What is shorter than a finger is no hose but a fitting, and no cord.
    const fn of_a_hose(self) -> Self {
        self.within(0.1 * M_PER_FT, 1_000.0)
    }

    /// A tenth of a second is the least that a clock shows.
    const fn of_a_clock(self) -> Self {
        self.within(0.1, 24.0 * S_PER_H)
    }
}

/// Delivered flow on a label.
pub(crate) const FLOW: Field = air("flow", "flow", Kind::Flow);
/// The pressure beside it. No small machine states its flow above 300 psi (common practice, no source).
pub(crate) const FLOW_AT: Field =
    air("at", "pressure of the flow", Kind::Pressure).within(1.0 * PSI, 300.0 * PSI);
/// What a tool takes that works by the stroke, a squeezer for one, where others have a flow: a cylinder from the size of
/// a fingertip to that of a bucket.
pub const STROKE: Field =
    air("flow", "air that a stroke takes", Kind::StrokeVolume).within(0.001 * M3_PER_FT3, 1.0 * M3_PER_FT3);
/// How long that takes. A stroke of more than a minute is a stuck one.
pub const STROKE_TIME: Field = air("trigger_on", "time of a stroke", Kind::Duration).within(0.1, 60.0);

static SHOP_FIELDS: [Field; 3] = [
    words("name", "name of the shop"),
    choice("units", "units", Bears::Beside),
    choice("chosen", "chosen machine", Bears::Beside),
];

static PLACE_FIELDS: [Field; 32] = [
    words("name", "name of the place"),
    air("altitude", "altitude", Kind::Altitude),
    air("station_pressure", "barometer", Kind::StationPressure),
    // -30 to 55 °C: nobody works in a shop that is colder or hotter.
    air("temperature", "air temperature", Kind::Temperature).within(243.15, 328.15),
    air("humidity", "humidity", Kind::Fraction),
    power("volts", "volts at the panel", Kind::Voltage),
    // A breaker that opens below 1 A feeds no motor.
    power("breaker", "breaker", Kind::Current).within(1.0, 400.0),
    power("other_load", "other load on the breaker", Kind::Current),
    words("other_name", "what else is on the breaker"),
    power("branch_gauge", "wire in the wall", Kind::WireArea),
    power("branch_length", "length of the wire in the wall", Kind::Length),
    power("cord_gauge", "cord's gauge", Kind::WireArea),
    power("cord_length", "cord's length", Kind::Length),
    power("generator", "generator", Kind::ApparentPower),
    wiring("outlet", "outlet"),
    wiring("wire_metal", "metal of the wire"),
    wiring("adapter", "adapter"),
    wiring("generator_stands", "generator's stand"),
    wiring("gfci", "GFCI"),
    power("spare_volts", "volts of the spare circuit", Kind::Voltage),
    power("spare_breaker", "breaker of the spare circuit", Kind::Current).within(1.0, 400.0),
    power("cord_planned", "distance from the outlet", Kind::Length).of_a_hose(),
    wiring("machine_comes", "machine's coming along"),
    beside("listener", "distance to your ears", Kind::Length).of_sound(),
    beside("neighbour", "distance to the neighbor", Kind::Length).of_sound(),
    beside("wall_loss", "loss through the walls", Kind::LevelLoss),
    tick("inlet_ducted", "ducted inlet", Bears::Beside),
    tick("boxed", "sound box", Bears::Beside),
    words("box_size", "size of the sound box"),
    beside("box_fan", "fan of the sound box", Kind::Flow).within(1.0 * CFM, 500.0 * CFM),
    safety("airplane", "airplane in the building"),
    safety("compressor_stands", "place of the compressor"),
];

static TASK_FIELDS: [Field; 15] = [
    choice("kind", "kind of work", Bears::Air),
    words("name", "name of the work"),
    tick("on", "work's part in the build", Bears::Air),
    tick("together", "work beside other work", Bears::Air),
    // No tool held in a hand takes more; a blast pot does (common practice, no source).
    air("flow", "tool's air", Kind::Flow).within(0.05 * CFM, 200.0 * CFM),
    air("setting", "pressure at the tool", Kind::Pressure).of_a_tool(2.0 * PSI),
    // A quarter of the least setting: some tools work on at less than half.
    air("lowest", "lowest useful pressure", Kind::Pressure).of_a_tool(0.5 * PSI),
    // A pull of less than a tenth of a second is none.
    air("trigger_on", "time on the trigger", Kind::Duration).within(0.1, 24.0 * S_PER_H),
    air("trigger_off", "time off the trigger", Kind::Duration),
    air("spell", "stretch of work", Kind::Minutes).of_a_clock(),
    air("pause", "pause after it", Kind::Minutes),
    // Each gun has a whip of its own at the bench, and no bench holds more.
    air("people", "number of guns running at once", Kind::Count).within(1.0, 20.0),
    row("gun", "kind of spray gun", Holds::Words, Bears::Air),
    safety("paint", "paint"),
    safety("sprayed", "place where you spray"),
];

static LINE_FIELDS: [Field; 9] = [
    // Beyond 10 psi for each cfm a regulator is a plug.
    air("droop", "pressure drop at the regulator", Kind::Droop).within(0.0, 10.0 * PSI / CFM),
    air("trunk_bore", "bore of the main hose", Kind::Bore),
    air("trunk_length", "length of the main hose", Kind::Length).of_a_hose(),
    // Twenty leave nothing of any flow worth the name.
    air("couplers", "number of quick couplers", Kind::Count).within(0.0, 20.0),
    air("whip_bore", "bore of the whip hose", Kind::Bore),
    air("whip_length", "length of the whip hose", Kind::Length).of_a_hose(),
    // Nothing is lost in no hose at all.
    beside(
        "loss_share",
        "share of the pressure that hoses may lose",
        Kind::Fraction,
    )
    .within(0.01, 1.0),
    safety("pipe", "pipe"),
    safety("breathing", "air that is breathed"),
];

static AUXILIARY_FIELDS: [Field; 4] = [
    air("tank", "second tank", Kind::Volume),
    stamped("rated", "second tank's stamp"),
    safety("condition", "second tank's condition"),
    tick("stays", "second tank's stay at home", Bears::Air),
];

static LIMIT_FIELDS: [Field; 7] = [
    beside("lift", "weight that one person lifts", Kind::Mass),
    // Higher is a loading dock's roof; what is above the shoulders is told apart from what can be lifted.
    beside("tailgate", "height of the tailgate", Kind::Length).within(0.1, 3.0),
    // For nothing there is nothing to buy.
    beside("budget", "budget", Kind::Money).within(1.0, 1_000_000.0),
    beside("loudest", "loudest level at your ears", Kind::SoundLevel),
    // Work takes some minutes at least, and a day has no more than its hours.
    beside("hours", "hours of the whole build", Kind::Hours).within(0.1 * S_PER_H, 20_000.0 * S_PER_H),
    beside("day", "hours in a day", Kind::Hours).within(0.1 * S_PER_H, 24.0 * S_PER_H),
    beside("tariff", "price of power", Kind::Tariff),
];

static CANDIDATE_FIELDS: [Field; 32] = [
    words("name", "name of the machine"),
    choice("kind", "pump type", Bears::Air),
    FLOW,
    FLOW_AT,
    Field {
        key: "flow2",
        name: "second flow",
        ..FLOW
    },
    Field {
        key: "at2",
        name: "pressure of the second flow",
        ..FLOW_AT
    },
    air("tank", "tank", Kind::Volume),
    power("volts", "motor's volts", Kind::Voltage),
    // A single-phase motor of 10 hp takes 50 A at 230 V (NEC table 430.248, from memory).
    power("amps", "motor's amps", Kind::Current).within(0.1, 100.0),
    power("power", "motor's power", Kind::Power),
    // The least motor's current, running.
    power("start", "starting current", Kind::Current).within(0.1, 400.0),
    // A usual band of 30 psi above it still ends within a tank's limit.
    air("cut_in", "cut-in", Kind::Pressure).within(5.0 * PSI, 221.4 * PSI),
    // So that the usual cut-in below it is within its own row.
    air("cut_out", "cut-out", Kind::Pressure).of_a_tank(10.0 * PSI),
    // What may run for less than 3 minutes in the hour is for tires.
    air("duty", "duty cycle", Kind::Fraction).within(0.05, 1.0),
    beside("sound", "sound level", Kind::SoundLevel),
    beside("sound_at", "distance of the sound level", Kind::Length).of_sound(),
    beside("weight", "weight", Kind::Mass),
    tick("wheels", "wheels", Bears::Beside),
    beside("price", "price", Kind::Money),
    air("pump_up", "pump-up time", Kind::Duration).of_a_clock(),
    air("pump_from", "gauge at the start of the pump-up", Kind::Pressure).of_a_tank(0.0),
    air("pump_to", "gauge at the end of the pump-up", Kind::Pressure).of_a_tank(0.0),
    air("leak_time", "leak-down time", Kind::Duration).of_a_clock(),
    air("leak_from", "gauge at the start of the leak-down", Kind::Pressure).of_a_tank(0.0),
    air("leak_to", "gauge at the end of the leak-down", Kind::Pressure).of_a_tank(0.0),
    beside("suction", "air that the pump takes in", Kind::Flow),
    beside("peak_power", "peak power", Kind::Power),
    words("pump", "kind of pump"),
    words("plug", "plug on its cord"),
    stamped("stamp", "tank stamp"),
    stamped("relief", "relief valve"),
    beside("sound_power", "sound power", Kind::SoundLevel),
];

const fn list(one: &'static str, many: &'static str, most: usize) -> Option<List> {
    Some(List { one, many, most })
}

const fn part(path: &'static str, list: Option<List>, origin: Origin, fields: &'static [Field]) -> Section {
    Section {
        path,
        list,
        origin,
        blank: Origin::Assumed,
        fields,
    }
}

/// The shop itself.
pub static SHOP: Section = part("", None, Origin::Typed, &SHOP_FIELDS);
/// Where the work happens.
pub static PLACES: Section = part(
    "places",
    list("place", "places", 12),
    Origin::Typed,
    &PLACE_FIELDS,
);
/// What is done with the air.
pub static TASKS: Section = Section {
    blank: Origin::Catalogue,
    ..part("tasks", list("task", "tasks", 60), Origin::Typed, &TASK_FIELDS)
};
/// From regulator to tool.
pub static LINE: Section = part("line", None, Origin::Typed, &LINE_FIELDS);
/// The second tank.
pub static AUXILIARY: Section = part("auxiliary", None, Origin::Printed, &AUXILIARY_FIELDS);
/// What the builder can carry, pay and bear.
pub static LIMITS: Section = part("limits", None, Origin::Typed, &LIMIT_FIELDS);
/// The machines.
pub static CANDIDATES: Section = part(
    "candidates",
    list("machine", "machines", 60),
    Origin::Printed,
    &CANDIDATE_FIELDS,
);

/// The whole table, in the order of a shop.
pub static SECTIONS: [&Section; 7] = [&SHOP, &PLACES, &TASKS, &LINE, &AUXILIARY, &LIMITS, &CANDIDATES];
