//! Quantity to text: three figures, in the user's unit, as the trade writes it.

use super::factor::M_PER_IN;
use super::gauge;
use super::kind::Kind;
use super::unit::{FOOT, INCH, MM2, Unit};
use crate::Units;

/// An SI value as text that [`read`](super::read()) takes back within rounding: three figures, or more when they
/// stand before the point. A value that is not finite is written "?".
///
/// ```
/// # use quantity::{write, Kind, M3_S_PER_CFM}; use quantity::Units;
/// assert_eq!(write(Kind::Flow, 4.9 * M3_S_PER_CFM, Units::Us), "4.9 cfm");
/// assert_eq!(write(Kind::Altitude, 7_200.0 * 0.3048, Units::Us), "7,200 ft");
/// assert_eq!(write(Kind::WireArea, 2.081e-6, Units::Us), "14 AWG");
/// assert_eq!(write(Kind::Bore, 0.009_525, Units::Us), "3/8 in");
/// assert_eq!(write(Kind::Minutes, 130.0, Units::Us), "2 min 10 s");
/// ```
pub fn write(kind: Kind, value: f64, units: Units) -> String {
    if !value.is_finite() {
        return "?".to_owned();
    }
    let unit = kind.unit(units);
    match kind {
        Kind::WireArea => gauge::written(value).map_or_else(|| counted(value, &MM2), str::to_owned),
        Kind::Bore if units == Units::Us => inches(value),
        Kind::Length if units == Units::Us && value.abs() < 0.995 * FOOT.scale => counted(value, &INCH),
        Kind::Altitude => format!("{} {}", number(unit.of_si(value), 0), unit.shown),
        Kind::StationPressure if units == Units::Us => {
            format!("{} {}", trimmed(unit.of_si(value), 2), unit.shown)
        }
        Kind::Temperature | Kind::SoundLevel | Kind::LevelLoss => {
            let shown = if kind == Kind::SoundLevel {
                "dBA"
            } else {
                unit.shown
            };
            format!("{} {shown}", trimmed(unit.of_si(value), 1))
        }
        Kind::Money => money(value, unit),
        Kind::Tariff => format!(
            "{}{} /kWh",
            if units == Units::Us { "$" } else { "" },
            figure(value)
        ),
        Kind::Duration | Kind::Minutes | Kind::Hours => time(value),
        Kind::Count => trimmed(value, 0),
        _ => counted(value, unit),
    }
}

/// A number with `digits` decimals and commas between thousands. Never "-0"; "?" if it is not finite.
///
/// ```
/// # use quantity::number;
/// assert_eq!(number(7_200.4, 0), "7,200");
/// assert_eq!(number(-0.04, 1), "0.0");
/// ```
pub fn number(value: f64, digits: usize) -> String {
    let text = plain(value, digits);
    let whole = text.find('.').unwrap_or(text.len());
    let mut out = String::new();
    for (at, c) in text.char_indices() {
        let between = at > 0 && !out.ends_with('-');
        if between && at < whole && (whole - at).is_multiple_of(3) {
            out.push(',');
        }
        out.push(c);
    }
    out
}

/// A number with `digits` decimals and no commas. Never "-0"; "?" if it is not finite.
///
/// ```
/// # use quantity::plain;
/// assert_eq!(plain(-7_200.46, 1), "-7200.5");
/// ```
pub fn plain(value: f64, digits: usize) -> String {
    if !value.is_finite() {
        return "?".to_owned();
    }
    // Whole numbers only: the general formatter of floats would weigh more than this page's physics.
    let scale = 10u64.pow(digits.min(9) as u32);
    let units = (value.abs() * scale as f64).round().min(9e15) as u64;
    let mut out = String::new();
    if value < 0.0 && units > 0 {
        out.push('-');
    }
    out.push_str(&(units / scale).to_string());
    if scale > 1 {
        let part = (scale + units % scale).to_string();
        out.push('.');
        out.push_str(&part[1..]);
    }
    out
}

/// A number as one types it, without commas: to a thousandth from a thousand on, below that to nine decimals.
///
/// ```
/// # use quantity::short;
/// assert_eq!([short(0.1 + 0.2), short(4.0), short(2e6)], ["0.3", "4", "2000000"]);
/// // What is no figure is called so: only a message about it shows it.
/// assert_eq!([short(f64::NAN), short(f64::INFINITY)], ["NaN", "inf"]);
/// ```
pub fn short(value: f64) -> String {
    if value.is_nan() {
        return "NaN".into();
    }
    if value.is_infinite() {
        return if value > 0.0 { "inf" } else { "-inf" }.into();
    }
    let text = plain(value, if value.abs() < 1e3 { 9 } else { 3 });
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// At most `digits` decimals, without closing zeros.
fn trimmed(value: f64, digits: usize) -> String {
    let text = number(value, digits);
    if !text.contains('.') {
        return text;
    }
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Three figures, or all that stand before the point.
pub fn figure(value: f64) -> String {
    let size = value.abs();
    let limits = [100.0, 10.0, 1.0, 0.1, 0.01, 1e-3, 1e-4, 1e-5];
    trimmed(value, limits.iter().take_while(|limit| size < **limit).count())
}

/// A figure with its unit.
pub(super) fn counted(value: f64, unit: &Unit) -> String {
    format!("{} {}", figure(unit.of_si(value)), unit.shown)
}

/// A bore in inches: a sixteenth if it is one within 0.5 %, as hoses are sold, else a decimal.
fn inches(value: f64) -> String {
    let sixteenths = (value / M_PER_IN * 16.0).round();
    let off = value / M_PER_IN * 16.0 - sixteenths;
    if !(1.0..=32.0).contains(&sixteenths) || off.abs() > 0.005 * (sixteenths + off) {
        return counted(value, &INCH);
    }
    let (mut above, mut below) = (sixteenths as u32, 16);
    while above.is_multiple_of(2) && below > 1 {
        above /= 2;
        below /= 2;
    }
    match (above / below, above % below) {
        (whole, 0) => format!("{whole} in"),
        (0, above) => format!("{above}/{below} in"),
        (whole, above) => format!("{whole}-{above}/{below} in"),
    }
}

/// "$349", "$349.50", "-$20".
fn money(value: f64, unit: &Unit) -> String {
    let text = number(value, 2);
    let text = text.strip_suffix(".00").unwrap_or(&text);
    match text.strip_prefix('-') {
        Some(size) => format!("-{}{size}", unit.shown),
        None => format!("{}{text}", unit.shown),
    }
}

/// "3 s", "2 min 10 s", "1 h 5 min", "40 h".
fn time(value: f64) -> String {
    if value < 59.95 {
        return format!("{} s", trimmed(value, if value < 9.995 { 2 } else { 1 }));
    }
    let (size, large, small) = if value < 3_599.5 {
        (value, "min", "s")
    } else {
        (value / 60.0, "h", "min")
    };
    let steps = size.round().min(9e15) as u64;
    let large = format!("{} {large}", number((steps / 60) as f64, 0));
    match steps % 60 {
        0 => large,
        part => format!("{large} {part} {small}"),
    }
}
