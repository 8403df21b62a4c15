//! The units that stand beside figures on labels, also those that no field asks for.

use super::token::{Piece, What};

/// What a unit measures, as far as a label goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Measure {
    Flow,
    Pressure,
    Volume,
    Voltage,
    Current,
    Power,
    Sound,
    Share,
    Mass,
    Money,
    Length,
    Time,
    Frequency,
    Phase,
    Stage,
    /// Known, and nothing here depends on it.
    Other,
}

/// A unit: what it measures, and how a field is given it.
pub(super) type Unit = (Measure, &'static str);

/// The unit of a name in lower case without blanks or stops.
pub(super) fn of(name: &str) -> Option<Unit> {
    use Measure::*;
    Some(match name {
        "cfm" | "scfm" | "acfm" | "cuft/min" | "cubicft/min" | "cubicfeet/min" | "cubicfeet/minute"
        | "cubicfoot/minute" | "ft3/min" | "ft³/min" | "cfms" => (Flow, "cfm"),
        "l/min" | "lpm" | "nl/min" | "lt/min" | "ltr/min" | "ltrs/min" | "litre/min" | "liter/min"
        | "litres/min" | "liters/min" | "litre/minute" | "liter/minute" | "litres/minute"
        | "liters/minute" | "l/minute" | "l/mn" => (Flow, "L/min"),
        "l/s" | "l/sec" => (Flow, "L/s"),
        "m3/h" | "m³/h" | "m3/hr" | "m³/hr" | "m3/hour" | "m³/hour" | "cubicmeters/hour"
        | "cubicmetres/hour" => (Flow, "m³/h"),
        "m3/min" | "m³/min" => (Flow, "m³/min"),
        "psi"
        | "psig"
        | "psl"
        | "psis"
        | "lb/in2"
        | "lbs/in2"
        | "lb/in²"
        | "lbs/in²"
        | "poundspersquareinch"
        | "pounds/squareinch"
        | "poundsofpressure"
        | "lbsofpressure" => (Pressure, "psi"),
        "bar" | "bars" | "barg" => (Pressure, "bar"),
        "kpa" => (Pressure, "kPa"),
        "mpa" => (Pressure, "MPa"),
        "kg/cm2" | "kg/cm²" | "kgf/cm2" | "kgf/cm²" => (Pressure, "kgf/cm²"),
        "gal" | "gals" | "gallon" | "gallons" | "g" | "usgal" | "usgallon" | "usgallons" | "galion" => {
            (Volume, "gal")
        }
        "impgal" | "ukgal" | "imperialgallon" | "imperialgallons" => (Volume, "imp gal"),
        "l" | "lt" | "ltr" | "ltrs" | "lit" | "litre" | "liter" | "litres" | "liters" => (Volume, "L"),
        "v" | "volt" | "volts" | "vac" | "vdc" => (Voltage, "V"),
        "a" | "amp" | "amps" | "ampere" | "amperes" => (Current, "A"),
        "hp" | "bhp" | "horsepower" | "horse" | "horses" => (Power, "hp"),
        "kw" | "kilowatt" | "kilowatts" => (Power, "kW"),
        "w" | "watt" | "watts" => (Power, "W"),
        "ps" | "cv" => (Power, "metric hp"),
        "db" | "dba" | "db(a)" | "decibel" | "decibels" | "dbs" => (Sound, "dBA"),
        "%" | "percent" | "pct" => (Share, "%"),
        "lb" | "lbs" | "pound" | "pounds" | "#" => (Mass, "lb"),
        "kg" | "kgs" | "kilo" | "kilos" | "kilogram" | "kilograms" => (Mass, "kg"),
        "$" | "usd" | "dollar" | "dollars" | "bucks" => (Money, "$"),
        "€" | "eur" | "euro" | "euros" => (Money, "€"),
        "£" | "gbp" | "quid" => (Money, "£"),
        "ft" | "foot" | "feet" | "'" => (Length, "ft"),
        "in" | "inch" | "inches" | "\"" => (Length, "in"),
        "m" | "metre" | "metres" | "meter" | "meters" => (Length, "m"),
        "cm" => (Length, "cm"),
        "mm" => (Length, "mm"),
        "yd" | "yard" | "yards" => (Length, "yd"),
        "s" | "sec" | "secs" | "second" | "seconds" => (Time, "s"),
        "min" | "mins" | "minute" | "minutes" => (Time, "min"),
        "h" | "hr" | "hrs" | "hour" | "hours" => (Time, "h"),
        "hz" | "hertz" => (Frequency, "Hz"),
        "ph" | "phase" | "phases" | "ø" | "φ" | "~" => (Phase, "phase"),
        "stage" | "stages" => (Stage, "stage"),
        _ => return idle(name),
    })
}

/// Units of figures that no field asks for.
fn idle(name: &str) -> Option<Unit> {
    let known = [
        "rpm",
        "r/min",
        "ftlb",
        "ftlbs",
        "lbft",
        "lbsft",
        "inlb",
        "inlbs",
        "nm",
        "footpounds",
        "oz",
        "ounce",
        "ounces",
        "qt",
        "quart",
        "quarts",
        "ml",
        "cc",
        "cm3",
        "cm³",
        "awg",
        "ga",
        "gauge",
        "kva",
        "ma",
        "ah",
        "pc",
        "pcs",
        "piece",
        "pieces",
        "pack",
        "pk",
        "yr",
        "yrs",
        "year",
        "years",
        "month",
        "months",
        "day",
        "days",
        "wk",
        "week",
        "weeks",
        "°f",
        "°c",
        "°",
        "c",
        "f",
        "bpm",
        "btu",
        "cylinder",
        "cylinders",
        "cyl",
        "star",
        "stars",
        "reviews",
        "ratings",
        "mm2",
        "mm²",
        "mph",
        "micron",
        "people",
        "cubicfeet",
        "cuft",
        "ft3",
        "ft³",
        "mesh",
        "nails",
        "tires",
        "tools",
        "outlets",
        "wheels",
        "t",
        "k",
        "mpc",
        "va",
        "uf",
        "µf",
    ];
    known.contains(&name).then_some((Measure::Other, ""))
}

/// The longest name of a unit in pieces.
const PIECES_MAX: usize = 7;

/// The unit whose name begins at a piece, and how many pieces it takes. A name may break over a line only where
/// `over_line` is set.
pub(super) fn at(pieces: &[Piece], start: usize, over_line: bool) -> Option<(Unit, usize)> {
    let mut name = String::new();
    let mut best = None;
    for (count, piece) in pieces[start.min(pieces.len())..]
        .iter()
        .take(PIECES_MAX)
        .enumerate()
    {
        match &piece.what {
            What::Word(word) if word == "per" => name.push('/'),
            What::Word(word) => name.push_str(word),
            What::Mark('(' | '-') if count == 0 => {}
            What::Mark(c @ ('/' | '(' | ')' | '#' | '°' | '%' | '$' | '€' | '£' | '\'' | '"' | '~')) => {
                name.push(*c)
            }
            What::Mark('-') if touching(pieces, start + count) => {}
            What::Mark('.') if !name.is_empty() => {}
            What::Line if over_line && name.is_empty() => {}
            _ => break,
        }
        if piece.is('.') {
            continue;
        }
        if let Some(unit) = of(&name).filter(|_| stands(pieces, start, start + count, &name)) {
            best = Some((unit, count + 1));
        }
        if name.len() > NAME_MAX || best.is_none() && name.len() > 1 && !opens(&name) {
            break;
        }
    }
    best
}

/// Letters of the longest name.
const NAME_MAX: usize = 24;

/// Whether a name of several words may begin so, being none itself.
fn opens(name: &str) -> bool {
    let first = [
        "cu", "cubic", "us", "uk", "imp", "imperial", "nl", "lit", "square", "mm", "m", "r", "db(",
    ];
    first.iter().any(|first| name.starts_with(first)) || name.starts_with(['(', '°', '/'])
}

/// Whether a hyphen joins two words: "ft-lb".
fn touching(pieces: &[Piece], at: usize) -> bool {
    let ends = |at: usize| pieces.get(at).map_or((0, 0), |piece| (piece.from, piece.to));
    at > 0 && ends(at - 1).1 == ends(at).0 && ends(at).1 == ends(at + 1).0
}

/// Whether a name that is also a word of the language is meant as a unit here.
fn stands(pieces: &[Piece], start: usize, last: usize, name: &str) -> bool {
    let next = pieces.get(last + 1);
    let word_next = next.is_some_and(|next| !next.word().is_empty());
    let glued = start > 0 && pieces[start - 1].to == pieces[start].from;
    match name {
        "a" => pieces[last].capital || glued || !word_next,
        "in" => next.is_none_or(|next| next.number().is_none()),
        "w" => !next.is_some_and(|next| next.is('/')),
        "second" => next.is_none_or(|next| next.word() != "tank"),
        "g" | "t" | "k" | "c" | "f" => glued || pieces[last].capital,
        _ => true,
    }
}
