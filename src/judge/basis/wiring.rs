//! How a place is wired, as far as words tell it: the outlet's face, the wire's metal, an adapter, a generator's stand.

use physics::circuit::MIDDLE_VOLTS;
use physics::circuit::{Code, Metal};
use quantity::{Kind, would_be};
use shop::{Place, Units};

use super::reader::Reader;

/// The face of an outlet, and what it promises.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Face {
    /// What it is called.
    pub name: &'static str,
    /// Nominal volts.
    pub volts: f64,
    /// Rating, A.
    pub amps: f64,
    /// Largest breaker that may stand behind it, A.
    pub breaker_a: f64,
    /// It has an equipment ground.
    pub grounded: bool,
    /// By whose rules it is made.
    pub code: Code,
}

const fn nema(name: &'static str, volts: f64, amps: f64, breaker_a: f64) -> Face {
    Face {
        name,
        volts,
        amps,
        breaker_a,
        grounded: true,
        code: Code::Nec,
    }
}

const fn ungrounded(name: &'static str, amps: f64) -> Face {
    Face {
        grounded: false,
        ..nema(name, 240.0, amps, amps)
    }
}

const fn iec(name: &'static str, amps: f64, breaker_a: f64) -> Face {
    Face {
        code: Code::Iec,
        ..nema(name, 230.0, amps, breaker_a)
    }
}

/// Faces and the words for them, lower case, without spaces, "nema" and "outlet".
///
/// NEMA WD 6 (volts, amps, ground); the breaker behind a face by NEC table 210.21(B)(3) (from memory): 15 A faces on 15 or
/// 20 A, others on their own. CEE 7/4 to 16 A; BS 1363 in a ring of 32 A, its plug fused at 13 A (common practice).
const FACES: [(&[&str], Face); 18] = [
    (&["5-15", "5-15r", "515"], nema("5-15", 120.0, 15.0, 20.0)),
    (&["5-20", "5-20r", "520"], nema("5-20", 120.0, 20.0, 20.0)),
    (&["l5-30", "l5-30r"], nema("L5-30", 120.0, 30.0, 30.0)),
    (&["tt-30", "tt-30r"], nema("TT-30", 120.0, 30.0, 30.0)),
    (&["6-15", "6-15r"], nema("6-15", 240.0, 15.0, 20.0)),
    (&["6-20", "6-20r"], nema("6-20", 240.0, 20.0, 20.0)),
    (&["l6-20", "l6-20r"], nema("L6-20", 240.0, 20.0, 20.0)),
    (&["6-30", "6-30r"], nema("6-30", 240.0, 30.0, 30.0)),
    (&["l6-30", "l6-30r"], nema("L6-30", 240.0, 30.0, 30.0)),
    (&["6-50", "6-50r", "welder"], nema("6-50", 240.0, 50.0, 50.0)),
    (&["14-30", "14-30r"], nema("14-30", 240.0, 30.0, 30.0)),
    (&["14-50", "14-50r"], nema("14-50", 240.0, 50.0, 50.0)),
    (&["10-30", "10-30r"], ungrounded("10-30", 30.0)),
    (&["10-50", "10-50r"], ungrounded("10-50", 50.0)),
    (
        &["schuko", "cee7/4", "cee7/3", "typef", "cee7/5", "typee"],
        iec("Schuko", 16.0, 20.0),
    ),
    (
        &["bs1363", "uk", "13a", "uk13a", "13auk", "typeg"],
        iec("BS 1363", 13.0, 32.0),
    ),
    (
        &["cee16", "blue16", "blue16a", "16ablue"],
        iec("CEE 16 A", 16.0, 20.0),
    ),
    (
        &["cee32", "blue32", "blue32a", "32ablue"],
        iec("CEE 32 A", 32.0, 32.0),
    ),
];

/// How the machine is joined to the circuit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outlet {
    /// By plug and cord into this face.
    Face(Face),
    /// An electrician wired it in, on a circuit of its own.
    HardWired,
}

/// What stands between plug and outlet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Adapter {
    /// It leaves the ground off.
    TwoProng,
    /// It joins a plug to an outlet that it was not made for.
    Other,
}

/// Where a generator stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stands {
    /// Outdoors, away from doors and windows.
    Outdoors,
    /// Under a roof or within walls.
    Indoors,
    /// Near an opening.
    ByTheDoor,
}

/// The ground-fault interrupter in a circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gfci {
    /// There is none.
    None,
    /// There is one.
    Fitted,
    /// It trips when the machine starts.
    Trips,
}

/// What is known of a place's wiring beside its figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wiring {
    /// By whose rules it is wired.
    pub code: Code,
    /// The outlet, if it was typed.
    pub outlet: Option<Outlet>,
    /// It has three phases: said with its volts, "208 V 3 phase".
    pub three_phase: bool,
    /// Metal of the branch wire.
    pub metal: Metal,
    /// Adapter, if any.
    pub adapter: Option<Adapter>,
    /// Where the generator stands, if it was typed.
    pub generator_stands: Option<Stands>,
    /// Interrupter, if it was typed.
    pub gfci: Option<Gfci>,
    /// A spare circuit: volts, and breaker in A.
    pub spare: Option<(f64, Option<f64>)>,
    /// Distance from the outlet for which no cord was bought yet, m.
    pub cord_planned_m: Option<f64>,
    /// Whether the machine comes here, if it was typed.
    pub machine_comes: Option<bool>,
    /// The gauge of the cord was typed.
    pub cord_gauge_given: bool,
    /// The length of the cord was typed.
    pub cord_length_given: bool,
}

impl Wiring {
    /// The face of the outlet, where one was typed.
    pub fn face(&self) -> Option<Face> {
        match self.outlet {
            Some(Outlet::Face(face)) => Some(face),
            _ => None,
        }
    }
    /// An electrician wired the machine in.
    pub fn hard_wired(&self) -> bool {
        self.outlet == Some(Outlet::HardWired)
    }
}

/// Letters, figures and hyphens in lower case, as the lists above have them.
fn plain(text: &str) -> String {
    text.to_ascii_lowercase()
        .replace(['–', '‑', '‐'], "-")
        .chars()
        .filter(|c| c.is_ascii_alphanumeric() || "-/".contains(*c))
        .collect()
}

fn holds_any(text: &str, words: &[&str]) -> bool {
    words.iter().any(|word| text.contains(word))
}

/// The face that a text names. An old dryer or range outlet of three slots has no ground; slots untold, it is asked for.
fn face(text: &str) -> Option<Face> {
    let mut sought = plain(text);
    for word in ["nema", "outlet", "receptacle", "socket", "plug"] {
        sought = sought.replace(word, "");
    }
    let named = face_named;
    let slots = |words: [&str; 4]| holds_any(&sought, &words);
    let three = slots(["3prong", "3-prong", "threeprong", "3slot"]);
    let four = slots(["4prong", "4-prong", "fourprong", "4slot"]);
    match (sought.contains("dryer"), sought.contains("range")) {
        (true, _) if three => return named("10-30"),
        (true, _) if four => return named("14-30"),
        (_, true) if three => return named("10-50"),
        (_, true) if four => return named("14-50"),
        _ => {}
    }
    let exact = FACES.iter().find(|(names, _)| names.contains(&sought.as_str()));
    // "10-30 dryer", "range 14-50": the number decides, the longest first, as L6-30 holds 6-30.
    let within = || {
        let mut faces: Vec<Face> = FACES.iter().map(|(_, face)| *face).collect();
        quantity::order::by_key(&mut faces, |face| std::cmp::Reverse(face.name.len()));
        faces.into_iter().find(|face| sought.contains(&plain(face.name)))
    };
    exact.map(|(_, face)| *face).or_else(within)
}

const OUTLETS: &str =
    "5-15, 5-20, 6-15, 6-20, 6-30, 14-30, 14-50, 10-30, L5-30, L6-30, hard-wired, Schuko or BS 1363";

fn outlet(reader: &mut Reader, text: &str, volts: f64) -> Option<Outlet> {
    let sought = plain(text);
    if sought.is_empty() {
        return None;
    }
    if holds_any(&sought, &["hardwire", "hard-wire", "wiredin", "direct"]) {
        return Some(Outlet::HardWired);
    }
    let rated = |names: [&str; 2]| face(names[usize::from(volts > MIDDLE_VOLTS)]);
    let found = match sought.trim_end_matches("outlet") {
        "15a" | "15amp" | "15" => rated(["5-15", "6-15"]),
        "20a" | "20amp" | "20" => rated(["5-20", "6-20"]),
        _ => face(text),
    };
    if found.is_none() {
        reader.refuse(
            "outlet",
            format!("“{}” is no outlet known here: use {OUTLETS}", text.trim()),
        );
    }
    found.map(Outlet::Face)
}

fn metal(reader: &mut Reader, text: &str) -> Metal {
    let sought = plain(text);
    if sought.is_empty()
        || sought.starts_with("cu")
        || sought.starts_with("copper") && !sought.contains("clad")
    {
        return Metal::Copper;
    }
    if sought.starts_with("al") || sought.contains("clad") {
        return Metal::Aluminum;
    }
    reader.refuse(
        "wire_metal",
        format!("“{}” is no metal known here: use copper or aluminum", text.trim()),
    );
    Metal::Copper
}

fn yes_or_no(reader: &mut Reader, name: &str, text: &str) -> Option<bool> {
    match plain(text).as_str() {
        "" => None,
        "yes" | "y" | "true" | "goes" | "comes" => Some(true),
        "no" | "n" | "none" | "false" | "stays" => Some(false),
        _ => {
            reader.refuse(name, format!("“{}”: say yes or no", text.trim()));
            None
        }
    }
}

fn adapter(text: &str) -> Option<Adapter> {
    let sought = plain(text);
    if matches!(sought.as_str(), "" | "no" | "none" | "n" | "-") {
        return None;
    }
    let two = [
        "two",
        "2-",
        "2p",
        "2prong",
        "3to2",
        "3-to-2",
        "cheater",
        "ungrounded",
        "lifter",
    ];
    Some(if holds_any(&sought, &two) || sought == "2" {
        Adapter::TwoProng
    } else {
        Adapter::Other
    })
}

/// Near enough to a door that fumes come in, m: 20 ft. Source: the usual warning on generators (common practice).
const FROM_DOORS_M: f64 = 6.0;

fn stands(reader: &mut Reader, text: &str) -> Option<Stands> {
    let sought = plain(text);
    if sought.is_empty() {
        return None;
    }
    let out = [
        "outdoor", "outside", "yard", "lawn", "driveway", "patio", "openair",
    ];
    let within = [
        "indoor", "inside", "garage", "hangar", "shop", "shed", "basement", "carport", "barn", "house",
        "room", "porch",
    ];
    let near = ["door", "window", "vent", "intake", "overhang"];
    let rest = sought.replace("outdoor", "").replace("indoor", "inside");
    let metres = text
        .split([',', ';'])
        .find_map(|part| distance_m(reader.units, part));
    let far = metres.is_some_and(|metres| metres >= FROM_DOORS_M);
    let away = holds_any(&rest, &["away", "from"]) && metres.is_none();
    if holds_any(&sought, &out) {
        let close = !far && !away && (metres.is_some() || holds_any(&rest, &near));
        return Some(if close {
            Stands::ByTheDoor
        } else {
            Stands::Outdoors
        });
    }
    if holds_any(&rest, &within) {
        return Some(Stands::Indoors);
    }
    if far || holds_any(&rest, &near) {
        return Some(if far { Stands::Outdoors } else { Stands::ByTheDoor });
    }
    reader.refuse(
        "generator_stands",
        format!("“{}”: say “outdoors, 20 ft from doors” or “indoors”", text.trim()),
    );
    None
}

/// The length that a part of a text begins with, m: "20 ft from doors".
fn distance_m(units: Units, part: &str) -> Option<f64> {
    let from = part.find(|c: char| c.is_ascii_digit())?;
    let words: Vec<&str> = part[from..].split_whitespace().take(2).collect();
    would_be(Kind::Length, &words.join(" "), units)
}

fn gfci(reader: &mut Reader, text: &str) -> Option<Gfci> {
    let sought = plain(text);
    if sought.contains("trip") {
        return Some(Gfci::Trips);
    }
    if holds_any(&sought, &["gfci", "gfi", "rcd"]) {
        return Some(Gfci::Fitted);
    }
    Some(if yes_or_no(reader, "gfci", text)? {
        Gfci::Fitted
    } else {
        Gfci::None
    })
}

/// By whose rules a place is wired: the outlet's, where one is told; else those of the units, but that 120 V is
/// American everywhere. Common practice, no source.
fn code(units: Units, volts: f64, outlet: Option<Outlet>) -> Code {
    match outlet {
        Some(Outlet::Face(face)) => face.code,
        _ if units == Units::Metric && volts > MIDDLE_VOLTS => Code::Iec,
        _ => Code::Nec,
    }
}

pub(super) fn wiring(reader: &mut Reader, place: &Place, volts: f64) -> Wiring {
    let outlet = outlet(reader, &place.outlet, volts);
    let spare_volts = reader.get("spare_volts", &place.spare_volts);
    let spare_breaker = reader.get("spare_breaker", &place.spare_breaker);
    Wiring {
        code: code(reader.units, volts, outlet),
        outlet,
        three_phase: false,
        metal: metal(reader, &place.wire_metal),
        adapter: adapter(&place.adapter),
        generator_stands: stands(reader, &place.generator_stands),
        gfci: gfci(reader, &place.gfci),
        spare: spare_volts.map(|volts| (volts, spare_breaker)),
        cord_planned_m: reader.get("cord_planned", &place.cord_planned),
        machine_comes: yes_or_no(reader, "machine_comes", &place.machine_comes),
        cord_gauge_given: !place.cord_gauge.trim().is_empty(),
        cord_length_given: !place.cord_length.trim().is_empty(),
    }
}

/// The face of this name.
pub fn face_named(name: &str) -> Option<Face> {
    FACES.iter().map(|(_, face)| *face).find(|face| face.name == name)
}
