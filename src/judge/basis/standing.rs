//! Where the compressor stands: airplanes near it, its height and distance, its box.

use super::reader::Reader;
use quantity::{FreeAir, Kind, lower, would_be};
use shop::{Place, Units};

/// Airplanes in the building.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Airplane {
    /// One that has or had fuel in it.
    Fueled,
    /// Only one that never had.
    NeverFueled,
    /// None.
    None,
}

/// Where the machine stands, as far as words tell it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spot {
    /// On the floor of that building.
    Floor,
    /// Above it, or away from airplanes: the figures tell how far.
    Raised,
    /// Outside, or in another room.
    Outside,
}

/// How a machine stands at a place.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Standing {
    /// Airplanes in the building, if typed.
    pub airplane: Option<Airplane>,
    /// Where, if typed.
    pub spot: Option<Spot>,
    /// Height of its motor above the floor, m.
    pub up_m: Option<f64>,
    /// Distance from tanks and engine, m.
    pub away_m: Option<f64>,
    /// Length, width and height of its box, m.
    pub box_m: Option<[f64; 3]>,
    /// Air that a fan moves through the box.
    pub fan: Option<FreeAir>,
    /// The place is called a hangar.
    pub hangar: bool,
}

fn has(text: &str, words: &[&str]) -> bool {
    words.iter().any(|word| text.contains(word))
}

fn airplane(reader: &mut Reader, text: &str) -> Option<Airplane> {
    let words = lower(text.trim());
    if words.is_empty() {
        return None;
    }
    if has(
        &words,
        &[
            "never",
            "unfuel",
            "no fuel",
            "not fuel",
            "dry",
            "under construction",
            "kit",
        ],
    ) {
        return Some(Airplane::NeverFueled);
    }
    if super::vessel::is_none(text) || has(&words, &["no airplane", "no aircraft", "empty"]) {
        return Some(Airplane::None);
    }
    if has(
        &words,
        &[
            "fuel", "yes", "flying", "flies", "airplane", "aircraft", "avgas", "gas",
        ],
    ) {
        return Some(Airplane::Fueled);
    }
    reader.refuse(
        "airplane",
        format!("“{}”: say fueled, never fueled, or none", text.trim()),
    );
    None
}

/// Lengths in a text with the words that follow each: "18 in up, 5 ft from the airplane".
fn lengths(text: &str, units: Units) -> Vec<(f64, String)> {
    let mut found = Vec::new();
    for part in text.split([',', ';']).flat_map(|part| part.split(" and ")) {
        let Some(from) = part.find(|c: char| c.is_ascii_digit()) else {
            continue;
        };
        let words: Vec<&str> = part[from..].split_whitespace().collect();
        for count in [2, 1] {
            let figure = words.get(..count).unwrap_or(&words).join(" ");
            if let Some(metres) = would_be(Kind::Length, &figure, units) {
                let rest = words.get(count..).unwrap_or(&[]).join(" ");
                found.push((metres, format!("{} {rest}", &part[..from])));
                break;
            }
        }
    }
    found
}

fn spot(reader: &mut Reader, text: &str) -> (Option<Spot>, Option<f64>, Option<f64>) {
    let words = lower(text.trim());
    if words.is_empty() {
        return (None, None, None);
    }
    let (mut up, mut away) = (None, None);
    for (metres, about) in lengths(&words, reader.units) {
        if has(
            &about,
            &[
                "up", "above", "high", "off", "raised", "over", "bench", "shelf", "cart", "stand",
            ],
        ) {
            up = Some(metres);
        } else {
            away = Some(metres);
        }
    }
    let spot = if has(
        &words,
        &[
            "outside",
            "outdoor",
            "another room",
            "other room",
            "next room",
            "adjoining",
            "shed",
            "lean-to",
            "through the wall",
        ],
    ) {
        Some(Spot::Outside)
    } else if up.is_some() || has(&words, &["cart", "bench", "shelf", "raised", "above"]) {
        Some(Spot::Raised)
    } else if has(&words, &["floor", "ground", "slab", "concrete"]) || away.is_some() {
        Some(Spot::Floor)
    } else {
        None
    };
    if spot.is_none() {
        let message = format!(
            "“{}”: say on the floor, how high up and how far away, or outside",
            text.trim()
        );
        reader.refuse("compressor_stands", message);
    }
    (spot, up, away)
}

/// Least and most that a box's edge may measure, m: it holds a compressor and stands in a shop. Judgement.
const EDGE_M: std::ops::RangeInclusive<f64> = 0.2..=10.0;

/// Three edges: "4 x 3 x 3 ft", "48x36x36 in", "1.2 m by 0.9 m by 0.9 m".
fn box_size(reader: &mut Reader, text: &str) -> Option<[f64; 3]> {
    let words = lower(text.trim())
        .replace('×', "x")
        .replace(" by ", "x")
        .replace('*', "x");
    if words.is_empty() {
        return None;
    }
    let parts: Vec<&str> = words.split('x').map(str::trim).collect();
    let unit: String = words.chars().rev().take_while(|c| !c.is_ascii_digit()).collect();
    let unit: String = unit.chars().rev().collect();
    let edge = |part: &&str| {
        let bare = part.ends_with(|c: char| c.is_ascii_digit());
        let figure = if bare {
            format!("{part} {}", unit.trim())
        } else {
            (*part).to_owned()
        };
        would_be(Kind::Length, &figure, reader.units).filter(|metres| EDGE_M.contains(metres))
    };
    let edges: Option<Vec<f64>> = parts.iter().map(edge).collect();
    if let Some([length, width, height]) = edges.as_deref() {
        return Some([*length, *width, *height]);
    }
    let example = if reader.units == Units::Us {
        "4 x 3 x 3 ft"
    } else {
        "1.2 x 0.9 x 0.9 m"
    };
    reader.refuse(
        "box_size",
        format!(
            "“{}” is no box: give length, width and height, e.g. {example}",
            text.trim()
        ),
    );
    None
}

pub(super) fn standing(reader: &mut Reader, place: &Place) -> Standing {
    let (spot, up_m, away_m) = spot(reader, &place.compressor_stands);
    Standing {
        airplane: airplane(reader, &place.airplane),
        spot,
        up_m,
        away_m,
        box_m: box_size(reader, &place.box_size),
        fan: reader.get("box_fan", &place.box_fan).map(FreeAir::m3_s),
        hangar: lower(&place.name).contains("hangar"),
    }
}
