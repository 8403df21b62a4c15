//! From text to quantities: what each field means, and what was taken for the blank ones.
//!
//! A field that cannot be read makes a [`Fault`] and counts as blank, so that every other answer still stands.
//! What is taken for a blank field is noted by path, so that the page can show it.

mod measured;
mod plate;

use std::ops::RangeInclusive;

use crate::air::{Air, HUMIDITY, RATING, ZERO_CELSIUS, standard_pressure};
use crate::measure::Measured;
use crate::quantity::{
    Absolute, CURRENCY, FreeAir, Gauge, Kind, M3_PER_GALLON, PA_PER_PSI, bare_number, read, read_flow_at,
    write,
};
use crate::report::{Change, Fault};
use crate::shop::{Candidate, MachineKind, Place, Shop, Task, TaskKind, Units};
use crate::task::typical;
use plate::bare;

/// Air temperatures at which somebody works in a shop, K: -30 to 55 °C.
const WORKING_KELVIN: RangeInclusive<f64> = 243.15..=328.15;

/// A figure, and whether the shop gave it or it was taken as typical.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    /// SI.
    pub value: f64,
    /// Typed, not taken.
    pub given: bool,
}

/// A place in quantities.
#[derive(Clone, Debug, PartialEq)]
pub struct PlaceBasis {
    /// Its name.
    pub name: String,
    /// Its air.
    pub air: Air,
    /// Altitude, m, where the pressure follows from it; `None` where a barometer was read.
    pub altitude_m: Option<f64>,
    /// Voltage at the panel.
    pub volts: Figure,
    /// Breaker rating, A.
    pub breaker_a: Figure,
    /// Other loads on the breaker, A.
    pub other_a: f64,
    /// Branch wire: area m², length m.
    pub branch: (Figure, Figure),
    /// Cord: area m², length m.
    pub cord: Option<(f64, f64)>,
    /// Generator rating, VA.
    pub generator_va: Option<f64>,
    /// Distance to the builder's ears, m.
    pub listener_m: Figure,
    /// Distance to the neighbour, m.
    pub neighbour_m: Option<f64>,
    /// Level that walls take, dB.
    pub wall_loss_db: Figure,
    /// Inlet ducted outdoors.
    pub inlet_ducted: bool,
    /// In a box.
    pub boxed: bool,
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
    pub rhythm: crate::run::Rhythm,
    /// How many at once.
    pub people: f64,
    /// Where the figures come from.
    pub source: &'static str,
}

/// A candidate in quantities.
#[derive(Clone, Debug, PartialEq)]
pub struct CandidateBasis {
    /// Its name, or "this machine".
    pub name: String,
    /// What compresses the air.
    pub kind: MachineKind,
    /// Flows with their pressures, as many as the label has.
    pub flows: Vec<(FreeAir, Gauge)>,
    /// Whether the pressure of the first flow was stated.
    pub pressure_stated: bool,
    /// Tank, m³.
    pub tank_m3: Figure,
    /// Motor voltage.
    pub volts: Figure,
    /// Full-load current, A.
    pub amps: Option<f64>,
    /// Printed horsepower, W.
    pub power_w: Option<f64>,
    /// Starting current.
    pub start: StartClue,
    /// Cut-in.
    pub cut_in: Gauge,
    /// Cut-out.
    pub cut_out: Gauge,
    /// Share of time that it may run.
    pub duty: Figure,
    /// Level, dBA, at a distance, m.
    pub sound: Option<(f64, Figure)>,
    /// Mass, kg.
    pub mass_kg: Option<f64>,
    /// It rolls.
    pub wheels: bool,
    /// Price.
    pub price: Option<f64>,
    /// What was timed at it, in the first place's air.
    pub measured: Option<Measured>,
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
}

/// What the builder can carry, pay and bear, in quantities.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LimitsBasis {
    /// Mass one person lifts, kg.
    pub lift_kg: Option<f64>,
    /// Tailgate height, m.
    pub tailgate_m: Figure,
    /// Money for the whole set.
    pub budget: Option<f64>,
    /// Loudest level at the ears, dBA.
    pub loudest_dba: Option<f64>,
    /// Hours over the build, s.
    pub hours_s: Figure,
    /// Hours a day, s.
    pub day_s: Figure,
    /// Money a kilowatt hour.
    pub tariff: Figure,
}

/// The auxiliary receiver.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AuxiliaryBasis {
    /// Volume, m³.
    pub tank_m3: f64,
    /// Rated pressure.
    pub rated: Option<Gauge>,
    /// Stays at the first place.
    pub stays: bool,
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
    /// Limits.
    pub limits: LimitsBasis,
    /// Fields that could not be taken.
    pub faults: Vec<Fault>,
    /// Typical values taken for blank fields.
    pub taken: Vec<Change>,
}

struct Reader {
    units: Units,
    path: String,
    faults: Vec<Fault>,
    taken: Vec<Change>,
}

impl Reader {
    fn field(&self, name: &str) -> String {
        format!("{}.{name}", self.path)
    }
    fn fault(&mut self, name: &str, message: impl Into<String>) {
        let field = self.field(name);
        self.faults.push(Fault {
            field,
            message: message.into(),
        });
    }
    /// What a field says; nothing where it is blank or cannot be read.
    fn get(&mut self, name: &str, kind: Kind, text: &str) -> Option<f64> {
        match read(kind, text, self.units) {
            Ok(value) => value,
            Err(error) => {
                self.fault(name, error.to_string());
                None
            }
        }
    }
    /// The same where zero makes no sense.
    fn above_zero(&mut self, name: &str, kind: Kind, text: &str) -> Option<f64> {
        let value = self.get(name, kind, text)?;
        if value > 0.0 {
            return Some(value);
        }
        self.fault(
            name,
            format!(
                "“{}” must be above zero, e.g. {}",
                text.trim(),
                kind.example(self.units)
            ),
        );
        None
    }
    fn take(&mut self, name: &str, kind: Kind, typical: f64) -> Figure {
        self.taken.push(Change {
            field: self.field(name),
            text: write(kind, typical, self.units),
        });
        Figure {
            value: typical,
            given: false,
        }
    }
    /// What a field says, or what is typical.
    fn or(&mut self, name: &str, kind: Kind, text: &str, typical: f64) -> Figure {
        match self.get(name, kind, text) {
            Some(value) => Figure { value, given: true },
            None => self.take(name, kind, typical),
        }
    }
    fn above_zero_or(&mut self, name: &str, kind: Kind, text: &str, typical: f64) -> Figure {
        match self.above_zero(name, kind, text) {
            Some(value) => Figure { value, given: true },
            None => self.take(name, kind, typical),
        }
    }
    fn within(&mut self, name: &str, kind: Kind, text: &str, range: &RangeInclusive<f64>) -> Option<f64> {
        let value = self.get(name, kind, text)?;
        if range.contains(&value) {
            return Some(value);
        }
        let (low, high) = (
            write(kind, *range.start(), self.units),
            write(kind, *range.end(), self.units),
        );
        self.fault(
            name,
            format!("“{}” is out of range here: use {low} to {high}", text.trim()),
        );
        None
    }
}

const FOOT: f64 = 0.3048;
const INCH: f64 = 0.0254;
/// 14 AWG, m²: what a 15 A branch is wired with. Source: NEC 240.4(D), from memory.
const AWG_14_M2: f64 = 2.081e-6;

impl Basis {
    /// Reads a whole shop. Never fails: what cannot be read is a [`Fault`] and counts as blank.
    ///
    /// ```
    /// # use bellows::{basis::Basis, shop::Shop};
    /// let mut shop = Shop::demo();
    /// shop.candidates[0].tank = "20 psi".into();
    /// let basis = Basis::of(&shop);
    /// assert_eq!(basis.faults[0].field, "candidates.0.tank");
    /// assert!(!basis.candidates[0].tank_m3.given);
    /// ```
    pub fn of(shop: &Shop) -> Self {
        let mut reader = Reader {
            units: shop.units,
            path: String::new(),
            faults: Vec::new(),
            taken: Vec::new(),
        };
        let places = each(&mut reader, "places", &shop.places, |reader, _, place| {
            place_basis(reader, place)
        });
        let tasks = each(&mut reader, "tasks", &shop.tasks, task_basis);
        // A plate that is silent is taken to suit the first place.
        let usual_volts = places
            .first()
            .map_or_else(|| mains(shop.units), |place| place.volts.value);
        let candidates = each(
            &mut reader,
            "candidates",
            &shop.candidates,
            |reader, _, candidate| {
                let basis = candidate_basis(reader, candidate, usual_volts);
                let air = places.first().map_or(RATING, |place| place.air);
                let measured = measured::measured(reader, candidate, &basis, &air);
                CandidateBasis { measured, ..basis }
            },
        );
        let line = line_basis(&mut reader, shop);
        let auxiliary = auxiliary_basis(&mut reader, shop);
        let limits = limits_basis(&mut reader, shop);
        Self {
            units: shop.units,
            currency: currency(shop),
            places,
            tasks,
            chosen: shop.chosen.min(candidates.len().saturating_sub(1)),
            candidates,
            line,
            auxiliary,
            limits,
            faults: reader.faults,
            taken: reader.taken,
        }
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
    list: &str,
    items: &[T],
    read_one: impl Fn(&mut Reader, usize, &T) -> U,
) -> Vec<U> {
    let mut basis = Vec::with_capacity(items.len());
    for (index, item) in items.iter().enumerate() {
        reader.path = format!("{list}.{index}");
        basis.push(read_one(reader, index, item));
    }
    basis
}

fn place_air(reader: &mut Reader, place: &Place) -> (Air, Option<f64>) {
    let altitude_m = reader.or("altitude", Kind::Altitude, &place.altitude, 0.0).value;
    let kelvin = reader.within(
        "temperature",
        Kind::Temperature,
        &place.temperature,
        &WORKING_KELVIN,
    );
    let kelvin = kelvin.unwrap_or_else(|| {
        reader
            .take("temperature", Kind::Temperature, ZERO_CELSIUS + 20.0)
            .value
    });
    let humidity = reader.within("humidity", Kind::Fraction, &place.humidity, &HUMIDITY);
    let humidity = humidity.unwrap_or_else(|| reader.take("humidity", Kind::Fraction, 0.5).value);
    let stated = reader.get("station_pressure", Kind::StationPressure, &place.station_pressure);
    let pressure = stated
        .map(Absolute::pa)
        .or_else(|| standard_pressure(altitude_m).ok());
    let air = pressure.and_then(|pressure| Air::new(pressure, kelvin, humidity).ok());
    // Both ranges lie within what `air` takes, so its own refusal never decides here.
    (air.unwrap_or(RATING), stated.is_none().then_some(altitude_m))
}

/// Mains voltage of small machines where these units are used. Common practice, no source.
fn mains(units: Units) -> f64 {
    match units {
        Units::Us => 120.0,
        Units::Metric => 230.0,
    }
}

fn place_basis(reader: &mut Reader, place: &Place) -> PlaceBasis {
    let (air, altitude_m) = place_air(reader, place);
    let breaker_a = reader.above_zero_or("breaker", Kind::Current, &bare(&place.breaker), 15.0);
    let gauge = reader.or("branch_gauge", Kind::WireArea, &place.branch_gauge, AWG_14_M2);
    let length = reader.or("branch_length", Kind::Length, &place.branch_length, 40.0 * FOOT);
    let cord_gauge = reader.get("cord_gauge", Kind::WireArea, &place.cord_gauge);
    let cord_length = reader.get("cord_length", Kind::Length, &place.cord_length);
    let cord = match (cord_gauge, cord_length) {
        (None, None) => None,
        (Some(area), Some(length)) => Some((area, length)),
        (Some(area), None) => Some((area, reader.take("cord_length", Kind::Length, 50.0 * FOOT).value)),
        (None, Some(length)) if length > 0.0 => {
            // The cord that lies about: 16 AWG. Common practice, no source.
            Some((reader.take("cord_gauge", Kind::WireArea, 1.309e-6).value, length))
        }
        (None, Some(_)) => None,
    };
    let name = place.name.trim();
    PlaceBasis {
        name: if name.is_empty() {
            "this place".into()
        } else {
            name.into()
        },
        air,
        altitude_m,
        volts: reader.above_zero_or("volts", Kind::Voltage, &place.volts, mains(reader.units)),
        breaker_a,
        other_a: reader
            .or("other_load", Kind::Current, &place.other_load, 0.0)
            .value,
        branch: (gauge, length),
        cord,
        generator_va: reader.above_zero("generator", Kind::ApparentPower, &place.generator),
        listener_m: reader.above_zero_or("listener", Kind::Length, &place.listener, 10.0 * FOOT),
        neighbour_m: reader.above_zero("neighbour", Kind::Length, &place.neighbour),
        wall_loss_db: reader.or("wall_loss", Kind::LevelLoss, &place.wall_loss, 15.0),
        inlet_ducted: place.inlet_ducted,
        boxed: place.boxed,
    }
}

fn task_flow(reader: &mut Reader, task: &Task, on_s: f64) -> (FreeAir, [FreeAir; 2]) {
    let usual = typical(task.kind);
    let stroke = task.kind == TaskKind::Squeezer;
    let kind = if stroke { Kind::StrokeVolume } else { Kind::Flow };
    let per = if stroke { on_s } else { 1.0 };
    let flows = usual.amounts_si().map(|amount| FreeAir::m3_s(amount / per));
    match reader.above_zero("flow", kind, &task.flow) {
        Some(amount) => {
            let flow = FreeAir::m3_s(amount / per);
            (
                flow,
                [0.9, 1.1].map(|share| FreeAir::m3_s(flow.as_m3_s() * share)),
            )
        }
        None => {
            reader.take("flow", kind, usual.amounts_si()[1]);
            (flows[1], [flows[0], flows[2]])
        }
    }
}

fn task_basis(reader: &mut Reader, index: usize, task: &Task) -> TaskBasis {
    let usual = typical(task.kind);
    let on_s = reader
        .above_zero_or("trigger_on", Kind::Duration, &task.trigger_on, usual.trigger_s[0])
        .value;
    let off_s = reader
        .or(
            "trigger_off",
            Kind::Duration,
            &task.trigger_off,
            usual.trigger_s[1],
        )
        .value;
    let spell_s = reader
        .above_zero_or("spell", Kind::Minutes, &task.spell, usual.spell_min[0] * 60.0)
        .value;
    let pause_s = reader
        .or("pause", Kind::Minutes, &task.pause, usual.spell_min[1] * 60.0)
        .value;
    let (flow, flow_range) = task_flow(reader, task, on_s);
    let setting = reader.above_zero_or("setting", Kind::Pressure, &task.setting, usual.setting().as_pa());
    // A typed setting without a lowest keeps the typical share of it.
    let share = usual.lowest().as_pa() / usual.setting().as_pa();
    let mut lowest = reader.above_zero_or("lowest", Kind::Pressure, &task.lowest, setting.value * share);
    if lowest.value > setting.value {
        reader.fault(
            "lowest",
            "the lowest useful pressure is above the setting: it must be the lower of the two",
        );
        lowest = reader.take("lowest", Kind::Pressure, setting.value * share);
    }
    let people = reader
        .or("people", Kind::Count, &task.people, 1.0)
        .value
        .clamp(1.0, 20.0);
    let name = task.name.trim();
    TaskBasis {
        index,
        kind: task.kind,
        name: if name.is_empty() {
            usual.name.into()
        } else {
            name.into()
        },
        on: task.on,
        flow,
        flow_range,
        setting: Gauge::pa(setting.value),
        lowest: Gauge::pa(lowest.value),
        rhythm: crate::run::Rhythm {
            on_s,
            off_s,
            spell_s,
            pause_s,
        },
        people,
        source: usual.source,
    }
}

/// Flows of the label: "5.1 cfm @ 90 psi" in one field, or flow and pressure in two.
fn label_flow(
    reader: &mut Reader,
    names: [&str; 2],
    texts: [&str; 2],
    typical_at_psi: f64,
) -> Option<(FreeAir, Gauge, bool)> {
    if plate::two_figures(texts[0]) {
        let message = format!(
            "“{}” is two figures: write the one of this pressure here, the other under “More from the plate”",
            texts[0].trim()
        );
        reader.fault(names[0], message);
        return None;
    }
    let (flow, inline_at) = match read_flow_at(&plate::figure_first(texts[0].trim()), reader.units) {
        Ok(Some((flow, at))) => (Some(flow), at),
        Ok(None) => (None, None),
        Err(error) => {
            reader.fault(names[0], error.to_string());
            (None, None)
        }
    };
    let at = flow_pressure(reader, names[1], texts[1]).or(inline_at);
    let flow = flow?;
    if flow <= 0.0 {
        reader.fault(
            names[0],
            "a flow must be above zero: leave it blank if the label is silent",
        );
        return None;
    }
    let stated = at.is_some();
    let at = at.unwrap_or_else(|| {
        reader
            .take(names[1], Kind::Pressure, typical_at_psi * PA_PER_PSI)
            .value
    });
    Some((FreeAir::m3_s(flow), Gauge::pa(at), stated))
}

/// No small machine states its flow above this, Pa: two stages end near 175 psi (common practice, no source).
const FLOW_AT_MOST_PA: f64 = 300.0 * PA_PER_PSI;

/// The pressure at which a flow is stated. The tank's limit is what a hurried eye finds first.
fn flow_pressure(reader: &mut Reader, name: &str, text: &str) -> Option<f64> {
    let shown = text.trim();
    if plate::two_figures(shown) {
        reader.fault(
            name,
            format!("“{shown}” is two figures: which of them stands beside this flow?"),
        );
        return None;
    }
    if shown.to_ascii_lowercase().contains("max") {
        reader.fault(
            name,
            format!("“{shown}” is the most that the tank gets: what pressure stands beside the flow?"),
        );
        return None;
    }
    let at = reader.above_zero(name, Kind::Pressure, &bare(text))?;
    if at > FLOW_AT_MOST_PA {
        let most = write(Kind::Pressure, FLOW_AT_MOST_PA, reader.units);
        reader.fault(
            name,
            format!("“{shown}” is too high for the pressure of a flow: use up to {most}"),
        );
        return None;
    }
    Some(at)
}

/// Cut-in and cut-out. The switch usually opens near 120 psi, 175 in two-stage machines, and closes 30 psi lower:
/// common practice, no source.
fn switch(reader: &mut Reader, candidate: &Candidate) -> (Gauge, Gauge) {
    let usual_out = if candidate.kind == MachineKind::PistonTwoStage {
        175.0
    } else {
        120.0
    } * PA_PER_PSI;
    let band = 30.0 * PA_PER_PSI;
    let out = reader.above_zero("cut_out", Kind::Pressure, &candidate.cut_out);
    let cut_in = reader.above_zero("cut_in", Kind::Pressure, &candidate.cut_in);
    let (cut_in, out) = match (cut_in, out) {
        (Some(low), Some(high)) if low < high => return (Gauge::pa(low), Gauge::pa(high)),
        (Some(low), Some(high)) => {
            let (low, out) = (
                write(Kind::Pressure, low, reader.units),
                write(Kind::Pressure, high, reader.units),
            );
            reader.fault("cut_in", format!("cut-in {low} is not below cut-out {out}: the switch could never open; are the two swapped?"));
            (None, Some(high))
        }
        other => other,
    };
    let out = match (out, cut_in) {
        (Some(high), _) => high,
        (None, Some(low)) => {
            reader
                .take("cut_out", Kind::Pressure, (low + band).max(usual_out))
                .value
        }
        (None, None) => reader.take("cut_out", Kind::Pressure, usual_out).value,
    };
    let low = match cut_in {
        Some(low) => low,
        None => {
            reader
                .take("cut_in", Kind::Pressure, (out - band).max(0.6 * out))
                .value
        }
    };
    (Gauge::pa(low), Gauge::pa(out))
}

fn start_clue(reader: &mut Reader, text: &str) -> StartClue {
    let text = text.trim();
    let mut letters = text.chars();
    match (letters.next(), letters.next()) {
        (None, _) => return StartClue::Unknown,
        (Some('?' | '-'), None) => return StartClue::Unknown,
        (Some(letter), None) if letter.is_ascii_alphabetic() => {
            return StartClue::Letter(letter.to_ascii_uppercase());
        }
        _ => {}
    }
    if let Some(number) = text.strip_suffix(['x', 'X', '×']) {
        let multiple = bare_number(number).filter(|multiple| (1.0..=20.0).contains(multiple));
        if let Some(multiple) = multiple {
            return StartClue::Multiple(multiple);
        }
        reader.fault(
            "start",
            format!("“{text}” is no multiple of the running current: use 1x to 20x, e.g. 6x"),
        );
        return StartClue::Unknown;
    }
    match reader.above_zero("start", Kind::Current, text) {
        Some(amps) => StartClue::Amps(amps),
        None => StartClue::Unknown,
    }
}

fn candidate_basis(reader: &mut Reader, candidate: &Candidate, usual_volts: f64) -> CandidateBasis {
    let first = label_flow(reader, ["flow", "at"], [&candidate.flow, &candidate.at], 90.0);
    let second = label_flow(reader, ["flow2", "at2"], [&candidate.flow2, &candidate.at2], 40.0);
    let (cut_in, cut_out) = switch(reader, candidate);
    let sound_at = reader.above_zero_or("sound_at", Kind::Length, &candidate.sound_at, 1.0);
    let sound = reader.get("sound", Kind::SoundLevel, &bare(&candidate.sound));
    let duty = reader.within("duty", Kind::Fraction, &bare(&candidate.duty), &(0.05..=1.0));
    let duty = match duty {
        Some(value) => Figure { value, given: true },
        // Small single-phase machines are rated for 50 to 75 %: common practice, no source.
        None => reader.take(
            "duty",
            Kind::Fraction,
            if candidate.kind == MachineKind::Rotary {
                1.0
            } else {
                0.7
            },
        ),
    };
    let (volts, amps) = plate::pair(reader, &candidate.volts, &candidate.amps, usual_volts);
    let name = candidate.name.trim();
    CandidateBasis {
        name: if name.is_empty() {
            "this machine".into()
        } else {
            name.into()
        },
        kind: candidate.kind,
        flows: [first, second]
            .into_iter()
            .flatten()
            .map(|(flow, at, _)| (flow, at))
            .collect(),
        pressure_stated: first.or(second).is_some_and(|(_, _, stated)| stated),
        // What a portable machine of unknown tank is taken to have: common practice, no source.
        tank_m3: reader.above_zero_or("tank", Kind::Volume, &bare(&candidate.tank), 6.0 * M3_PER_GALLON),
        volts: reader.above_zero_or("volts", Kind::Voltage, &volts, usual_volts),
        amps: reader.above_zero("amps", Kind::Current, &amps),
        power_w: reader.above_zero("power", Kind::Power, &bare(&candidate.power)),
        start: start_clue(reader, &candidate.start),
        cut_in,
        cut_out,
        duty,
        sound: sound.map(|level| (level, sound_at)),
        mass_kg: reader.above_zero("weight", Kind::Mass, &bare(&candidate.weight)),
        wheels: candidate.wheels,
        price: reader.get("price", Kind::Money, &candidate.price),
        measured: None,
    }
}

/// Default layout: a heavier trunk hose to the bench, a light short whip to the hand. Common practice, no source.
fn line_basis(reader: &mut Reader, shop: &Shop) -> LineBasis {
    reader.path = "line".into();
    let line = &shop.line;
    LineBasis {
        droop: reader
            .or(
                "droop",
                Kind::Droop,
                &line.droop,
                crate::line::TYPICAL_DROOP_PA_PER_M3_S,
            )
            .value,
        trunk: (
            reader
                .above_zero_or("trunk_bore", Kind::Bore, &line.trunk_bore, 0.375 * INCH)
                .value,
            reader
                .above_zero_or("trunk_length", Kind::Length, &line.trunk_length, 25.0 * FOOT)
                .value,
        ),
        couplers: reader
            .or("couplers", Kind::Count, &line.couplers, 2.0)
            .value
            .min(20.0),
        whip: (
            reader
                .above_zero_or("whip_bore", Kind::Bore, &line.whip_bore, 0.25 * INCH)
                .value,
            reader
                .above_zero_or("whip_length", Kind::Length, &line.whip_length, 10.0 * FOOT)
                .value,
        ),
        loss_share: reader
            .above_zero_or("loss_share", Kind::Fraction, &line.loss_share, 0.1)
            .value,
    }
}

fn auxiliary_basis(reader: &mut Reader, shop: &Shop) -> Option<AuxiliaryBasis> {
    reader.path = "auxiliary".into();
    let rated = reader
        .above_zero("rated", Kind::Pressure, &shop.auxiliary.rated)
        .map(Gauge::pa);
    let tank_m3 = reader.above_zero("tank", Kind::Volume, &shop.auxiliary.tank)?;
    Some(AuxiliaryBasis {
        tank_m3,
        rated,
        stays: shop.auxiliary.stays,
    })
}

fn limits_basis(reader: &mut Reader, shop: &Shop) -> LimitsBasis {
    reader.path = "limits".into();
    let limits = &shop.limits;
    LimitsBasis {
        lift_kg: reader.above_zero("lift", Kind::Mass, &limits.lift),
        tailgate_m: reader.above_zero_or("tailgate", Kind::Length, &limits.tailgate, 34.0 * INCH),
        budget: reader.above_zero("budget", Kind::Money, &limits.budget),
        loudest_dba: reader.get("loudest", Kind::SoundLevel, &limits.loudest),
        hours_s: reader.above_zero_or("hours", Kind::Hours, &limits.hours, 1_500.0 * 3_600.0),
        day_s: reader.above_zero_or("day", Kind::Hours, &limits.day, 4.0 * 3_600.0),
        tariff: reader.or("tariff", Kind::Tariff, &limits.tariff, 0.17),
    }
}
