//! Sizes of wire and cord as one says them.

use crate::words::Words;
use quantity::{Kind, figure};

/// "12-gauge", "2.5 mm²".
pub fn gauge(words: Words, area_m2: f64) -> String {
    let text = words.of(Kind::WireArea, area_m2);
    match text.strip_suffix(" AWG") {
        Some(number) => format!("{number}-gauge"),
        None => text,
    }
}

/// "12 gauge", at the end of a sentence.
pub fn gauge_alone(words: Words, area_m2: f64) -> String {
    gauge(words, area_m2).replace("-gauge", " gauge")
}

/// The main hose for a long run: 3/8 in, 10 mm.
pub fn hose(words: Words) -> &'static str {
    match words.units {
        shop::Units::Us => "3/8 in hose",
        shop::Units::Metric => "10 mm hose",
    }
}

/// How far a generator stands from doors and windows.
pub fn from_doors(words: Words) -> &'static str {
    match words.units {
        shop::Units::Us => "20 ft",
        shop::Units::Metric => "6 m",
    }
}

/// "4 kVA", "3.5 kVA".
pub fn kva(kva: f64) -> String {
    format!("{} kVA", figure(kva))
}
