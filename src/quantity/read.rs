//! Text to quantity: what a label says or a person types, in either unit system.

use std::fmt;

use super::around;
use super::gauge::{self, SIZES};
use super::kind::Kind;
use super::numeral;
use super::unit::{self, CURRENCY, Measure, Unit};
use super::write::{counted, figure};
use crate::Units;
use crate::field::{FIGURE_MAX, table};

/// Why a text is not the quantity that its field asks for. `Display` is the sentence to show beside the field.
#[derive(Clone, Debug, PartialEq)]
pub enum ReadError {
    /// There is no figure in it, or more than one.
    NotANumber {
        /// The text.
        read: String,
        /// What would do.
        example: &'static str,
    },
    /// The unit is known but measures something else.
    WrongUnit {
        /// The unit as typed.
        unit: String,
        /// What it measures.
        measures: &'static str,
        /// What the field asks for.
        wanted: &'static str,
        /// What would do.
        example: &'static str,
    },
    /// The unit is not known.
    UnknownUnit {
        /// The unit as typed.
        unit: String,
        /// The known unit that was probably meant.
        near: Option<&'static str>,
        /// What would do.
        example: &'static str,
    },
    /// The figure is absurd for the field.
    OutOfRange {
        /// The text.
        read: String,
        /// Its value, SI.
        value: f64,
        /// What the field is called, or what its kind of unit measures.
        wanted: String,
        /// What the field allows, in the unit typed.
        bounds: String,
    },
    /// No wire of that gauge is made.
    NoSuchGauge {
        /// The text.
        read: String,
        /// The next thinner size.
        thinner: Option<&'static str>,
        /// The next thicker size.
        thicker: Option<&'static str>,
    },
    /// A field that counts things got a part of one.
    NotWhole {
        /// The text.
        read: String,
    },
    /// It is a flow, but none that is delivered.
    OtherFlow {
        /// The text.
        read: String,
        /// "displacement" or "suction".
        what: &'static str,
        /// What would do.
        example: &'static str,
    },
    /// The text is too long for a figure.
    TooLong {
        /// Its length, characters.
        length: usize,
        /// What is read.
        most: usize,
    },
    /// The text is longer than what is kept of it.
    Cut {
        /// Its length, characters.
        length: usize,
        /// What is kept.
        most: usize,
    },
    /// The field holds no figure: a name, a choice, a tick.
    NoFigure {
        /// What a reader calls it.
        field: &'static str,
    },
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotANumber { read, example } => {
                write!(
                    f,
                    "\"{read}\" is not one figure with a unit: write for instance \"{example}\""
                )
            }
            Self::WrongUnit {
                unit,
                measures,
                wanted,
                example,
            } => {
                write!(
                    f,
                    "\"{unit}\" is {measures}, but this field wants {wanted}, such as \"{example}\""
                )
            }
            Self::UnknownUnit {
                unit,
                near: Some(near),
                ..
            } => {
                write!(f, "\"{unit}\" is no unit that is known here: is it {near}?")
            }
            Self::UnknownUnit { unit, example, .. } => {
                write!(
                    f,
                    "\"{unit}\" is no unit that is known here: write for instance \"{example}\""
                )
            }
            Self::OutOfRange {
                read, wanted, bounds, ..
            } => {
                write!(f, "\"{read}\" is out of range for {wanted}: use {bounds}")
            }
            Self::NoSuchGauge {
                read,
                thinner: Some(thinner),
                thicker: Some(thicker),
            } => {
                write!(
                    f,
                    "no wire of size \"{read}\" is made: use {thinner} or, thicker, {thicker}"
                )
            }
            Self::NoSuchGauge { read, .. } => {
                write!(
                    f,
                    "no wire of size \"{read}\" is in the table: use 18 AWG (thin) to 4/0 AWG (thick)"
                )
            }
            Self::NotWhole { read } => {
                write!(f, "\"{read}\" is not a whole number: write for instance \"2\"")
            }
            Self::OtherFlow { read, what, example } => {
                write!(
                    f,
                    "\"{read}\" is {what}, not what it delivers: look for a flow at a pressure, such as \"{example}\""
                )
            }
            Self::TooLong { length, most } => {
                write!(f, "{length} characters are too many here: use at most {most}")
            }
            Self::Cut { length, most } => {
                write!(
                    f,
                    "{length} characters are too many here: only the first {most} are kept"
                )
            }
            Self::NoFigure { field } => write!(f, "the {field} is no figure"),
        }
    }
}

impl std::error::Error for ReadError {}

/// The quantity that a text states, SI; `None` if it is blank, "?", "-", "n/a" or "unknown".
///
/// A bare number takes the unit of `units`. Case and spaces do not matter. Numbers may be "1,299", "1 299", "1.5",
/// "1-1/2", "3/8", "1½", ".5" or "2,4": a comma followed by exactly three digits groups thousands (unless only a 0
/// stands before it), any other single comma is a decimal comma. Words that change nothing of the figure may stand around
/// it ([`super::around`]), and tanks may be several: "2 x 2.3 gal".
///
/// # Errors
/// [`ReadError`], which says what was read and what would do. A value that is returned is finite and within
/// [`Kind::range`].
///
/// # Example
/// NIST SP 811 (2008), appendix B: one cubic foot per minute is 4.719 474 E-04 m³/s (from memory).
/// ```
/// # use quantity::{read, Kind}; use quantity::Units;
/// let flow = read(Kind::Flow, "2.4 cfm", Units::Metric)?;
/// assert!((flow.unwrap() / (2.4 * 4.719_474e-4) - 1.0).abs() < 1e-6);
/// assert_eq!(read(Kind::Flow, "unknown", Units::Us)?, None);
/// let refused = read(Kind::Volume, "20 psi", Units::Us).unwrap_err();
/// assert_eq!(refused.to_string(), "\"psi\" is a pressure, but this field wants a tank's volume, such as \"20 gal\"");
/// # Ok::<(), quantity::ReadError>(())
/// ```
pub fn read(kind: Kind, text: &str, units: Units) -> Result<Option<f64>, ReadError> {
    Asked::of(kind).read(text, units)
}

/// The quantity that a piece of text would be, were it of this kind: for whoever tries which kind fits, as a reader of whole
/// labels does. That it is not so is an answer, not a fault.
///
/// ```
/// # use quantity::{Kind, Units, would_be};
/// assert_eq!(would_be(Kind::Voltage, "120 V", Units::Us), Some(120.0));
/// assert_eq!(would_be(Kind::Voltage, "15 A", Units::Us), None);
/// ```
#[expect(
    clippy::disallowed_methods,
    reason = "that the text is of another kind is what was asked"
)]
pub fn would_be(kind: Kind, text: &str, units: Units) -> Option<f64> {
    read(kind, text, units).ok().flatten()
}

/// A whole number of digits alone.
///
/// ```
/// # use quantity::digits;
/// assert_eq!((digits("16"), digits("1.5"), digits(""), digits("99999999999")), (Some(16), None, None, None));
/// ```
pub fn digits(text: &str) -> Option<u32> {
    let digit = |sum: Option<u32>, c: char| sum?.checked_mul(10)?.checked_add(c.to_digit(10)?);
    text.chars().next()?;
    text.chars().fold(Some(0), digit)
}

/// What one text is asked for: a kind of figure and its limits.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Asked {
    pub kind: Kind,
    /// SI.
    pub low: f64,
    /// SI.
    pub high: f64,
    /// What the reader calls the field, where it is one.
    pub field: Option<&'static str>,
}

impl Asked {
    /// All that a kind may be.
    fn of(kind: Kind) -> Self {
        let [low, high] = kind.limits();
        Self {
            kind,
            low,
            high,
            field: None,
        }
    }

    /// As [`read`], within these limits.
    pub fn read(self, text: &str, units: Units) -> Result<Option<f64>, ReadError> {
        let text = tidy(text)?;
        if is_blank(&text) {
            return Ok(None);
        }
        let entry = Entry {
            asked: self,
            text: &text,
            units,
        };
        entry
            .value()
            .or_else(|error| entry.without_words(error))
            .map(Some)
    }

    /// What it is called in a refusal.
    fn words(self) -> String {
        let named = self.field.map(|field| format!("the {field}"));
        named.unwrap_or_else(|| self.kind.words().to_owned())
    }
}

/// A number that stands alone, without a unit.
///
/// ```
/// # use quantity::bare_number;
/// assert_eq!((bare_number(" 6.5 "), bare_number("6 A")), (Some(6.5), None));
/// ```
pub fn bare_number(text: &str) -> Option<f64> {
    let (number, rest) = numeral::split(text.trim())?;
    rest.is_empty().then_some(number)
}

/// A flow and the pressure at which it is stated: "5.1 CFM @ 90 PSI", "144 L/min at 6.2 bar".
///
/// # Errors
/// [`ReadError`] of either part.
///
/// # Example
/// ```
/// # use quantity::{read_flow_at, M3_S_PER_CFM, PA_PER_PSI}; use quantity::Units;
/// let (flow, pressure) = read_flow_at("5.1 CFM @ 90 PSI", Units::Us)?.unwrap();
/// assert_eq!((flow, pressure), (5.1 * M3_S_PER_CFM, Some(90.0 * PA_PER_PSI)));
/// # Ok::<(), quantity::ReadError>(())
/// ```
pub fn read_flow_at(text: &str, units: Units) -> Result<Option<(f64, Option<f64>)>, ReadError> {
    let text = tidy(text)?;
    let lower = text.to_ascii_lowercase();
    let cut = lower
        .find('@')
        .map(|at| (at, 1))
        .or_else(|| lower.find(" at ").map(|at| (at, 4)));
    let Some((at, width)) = cut else {
        return Ok(table::FLOW.read(&text, units)?.map(|flow| (flow, None)));
    };
    let flow = table::FLOW.read(&text[..at], units)?;
    let pressure = text[at + width..].trim();
    if pressure.to_ascii_lowercase().contains("max") {
        // The most that the tank gets is not the pressure of a flow.
        return Err(ReadError::NotANumber {
            read: pressure.to_owned(),
            example: Kind::Pressure.example(units),
        });
    }
    let pressure = table::FLOW_AT.read(pressure, units)?;
    match (flow, pressure) {
        (Some(flow), pressure) => Ok(Some((flow, pressure))),
        (None, None) => Ok(None),
        (None, Some(_)) => Err(ReadError::NotANumber {
            read: text,
            example: Kind::Flow.example(units),
        }),
    }
}

/// One kind of space, dash and fraction bar; no character without width.
fn tidy(text: &str) -> Result<String, ReadError> {
    let length = text.trim().chars().count();
    if length > FIGURE_MAX {
        return Err(ReadError::TooLong {
            length,
            most: FIGURE_MAX,
        });
    }
    let one = |c: char| match c {
        '\u{200b}'..='\u{200f}' | '\u{2060}' | '\u{feff}' => None,
        '−' | '–' | '‐' | '‑' => Some('-'),
        '⁄' | '∕' => Some('/'),
        c if c.is_whitespace() => Some(' '),
        c => Some(c),
    };
    Ok(text.chars().filter_map(one).collect::<String>().trim().to_owned())
}

fn is_blank(text: &str) -> bool {
    ["", "?", "-", "—", "n/a", "na", "unknown", "none"].contains(&text.to_ascii_lowercase().as_str())
}

/// One text in one field.
#[derive(Clone, Copy)]
struct Entry<'a> {
    asked: Asked,
    text: &'a str,
    units: Units,
}

impl<'a> Entry<'a> {
    fn value(self) -> Result<f64, ReadError> {
        if self.asked.kind == Kind::WireArea {
            return self.wire();
        }
        if self.asked.kind.accepts() == [Measure::Time] && self.text.contains(':') {
            return self.clock();
        }
        let body = self.without_currency()?;
        let (number, rest) = numeral::split(body).ok_or_else(|| self.not_a_number())?;
        if self.is_sum(rest) {
            return self.sum(number, rest);
        }
        if let Some((each, rest)) = self.each(number, rest) {
            let unit = self.unit(rest, each)?;
            return self.checked(unit.to_si(number * each), unit);
        }
        let unit = self.unit(rest, number)?;
        self.checked(unit.to_si(self.whole_money(number, body)), unit)
    }

    /// The value of the figure alone, where words stand around it that change nothing of it.
    fn without_words(self, error: ReadError) -> Result<f64, ReadError> {
        if let Some(what) = around::other_flow(self.text).filter(|_| self.asked.kind == Kind::Flow) {
            return Err(ReadError::OtherFlow {
                read: self.text.to_owned(),
                what,
                example: self.example(),
            });
        }
        let bare = around::bare(self.asked.kind, self.text);
        Entry { text: &bare, ..self }.value().map_err(|_| error)
    }

    /// "2 x 2.3 gal": the size of each of a few tanks, and its unit.
    fn each(self, count: f64, rest: &'a str) -> Option<(f64, &'a str)> {
        let few = self.asked.kind == Kind::Volume && [2.0, 3.0, 4.0].contains(&count);
        let each = rest.strip_prefix(['x', 'X', '×']).filter(|_| few)?;
        numeral::split(each.trim_start()).filter(|(each, _)| *each > 0.0)
    }

    /// "1.299 €" is a thousand and more: nobody prints tenths of a cent.
    fn whole_money(self, number: f64, body: &str) -> f64 {
        let part = body
            .split_once('.')
            .map(|(_, part)| part.trim_end_matches(|c: char| !c.is_ascii_digit()));
        let thousands = !body.contains(',')
            && part.is_some_and(|part| part.len() == 3 && part.bytes().all(|byte| byte.is_ascii_digit()));
        if self.asked.kind == Kind::Money && thousands {
            (number * 1_000.0).round()
        } else {
            number
        }
    }

    /// The text after a leading sign for money, which only fields about money may have.
    fn without_currency(self) -> Result<&'a str, ReadError> {
        let body = self
            .text
            .strip_prefix("US")
            .filter(|rest| rest.starts_with('$'))
            .unwrap_or(self.text);
        match body.strip_prefix(CURRENCY) {
            Some(rest) if matches!(self.asked.kind, Kind::Money | Kind::Tariff) => Ok(rest.trim_start()),
            Some(rest) => Err(self.wrong_unit(&body[..body.len() - rest.len()], Measure::Money)),
            None => Ok(self.text),
        }
    }

    /// Whether lengths or times are added: "12 ft 6 in", "2 min 10 s".
    fn is_sum(self, rest: &str) -> bool {
        let adds = matches!(
            self.asked.kind,
            Kind::Length | Kind::Duration | Kind::Minutes | Kind::Hours
        );
        adds && rest.contains(numeral::starts)
            && unit::find(&unit::plain(rest), self.asked.kind.accepts()).is_none()
    }

    /// The sum of parts whose units fall from one to the next.
    fn sum(self, mut number: f64, mut rest: &str) -> Result<f64, ReadError> {
        let mut total = 0.0;
        let mut largest: Option<&Unit> = None;
        let mut last_scale = f64::INFINITY;
        loop {
            let (name, more) = rest.split_at(rest.find(numeral::starts).unwrap_or(rest.len()));
            if name.trim().is_empty() || number < 0.0 {
                return Err(self.not_a_number());
            }
            let unit = self.unit(name, number)?;
            if unit.scale >= last_scale {
                return Err(self.not_a_number());
            }
            last_scale = unit.scale;
            total += unit.to_si(number);
            let first = *largest.get_or_insert(unit);
            if more.is_empty() {
                return self.checked(total, first);
            }
            (number, rest) = numeral::split(more).ok_or_else(|| self.not_a_number())?;
        }
    }

    /// "1:30": minutes and seconds, or hours and minutes where a bare number is hours; "1:02:03" has all three.
    fn clock(self) -> Result<f64, ReadError> {
        let mut total = 0.0;
        let mut parts = 0;
        for (i, part) in self.text.split(':').enumerate() {
            let digits = (1..=4).contains(&part.len()) && part.bytes().all(|b| b.is_ascii_digit());
            let step = numeral::split(part).filter(|(step, _)| digits && (i == 0 || *step < 60.0));
            total = total * 60.0 + step.ok_or_else(|| self.not_a_number())?.0;
            parts += 1;
        }
        let unit = match (parts, self.asked.kind) {
            (2, Kind::Hours) => &unit::MINUTE,
            (2 | 3, _) => &unit::SECOND,
            _ => return Err(self.not_a_number()),
        };
        self.checked(unit.to_si(total), unit)
    }

    /// "14 AWG", "#14", "12/3", "1/0", "2.5 mm²".
    fn wire(self) -> Result<f64, ReadError> {
        let lower = self.text.to_ascii_lowercase();
        let marked = ["awg", "#", "no."]
            .iter()
            .find_map(|mark| lower.strip_prefix(mark));
        let body = marked.unwrap_or(&lower).trim_start();
        let by_gauge = marked.is_some() || self.units == Units::Us;
        if let Some(number) = cable(body, by_gauge) {
            return self.wire_of(number);
        }
        let (number, rest) = numeral::split(body).ok_or_else(|| self.not_a_number())?;
        if by_gauge && rest.is_empty() {
            return self.wire_of(number);
        }
        let unit = self.unit(rest, number)?;
        match unit.measure {
            Measure::WireGauge => self.wire_of(number),
            _ => self.checked(unit.to_si(number), unit),
        }
    }

    /// The area of a gauge that is made.
    fn wire_of(self, number: f64) -> Result<f64, ReadError> {
        if let Some((size, _)) = SIZES.iter().find(|(size, _)| f64::from(*size) == number) {
            return self.checked(gauge::area_m2(*size), &unit::MM2);
        }
        let (thinner, thicker) = gauge::neighbours(number);
        Err(ReadError::NoSuchGauge {
            read: self.text.to_owned(),
            thinner,
            thicker,
        })
    }

    /// The unit that a text names, or the unit of a bare number.
    fn unit(self, text: &str, number: f64) -> Result<&'static Unit, ReadError> {
        let name = unit::plain(text);
        let datum = self.asked.kind == Kind::Altitude && ["msl", "asl", "amsl"].contains(&&*name);
        if name.is_empty() || datum || name == "°" && self.asked.kind == Kind::Temperature {
            return Ok(match self.asked.kind {
                Kind::Fraction if number <= 1.0 => &unit::ONE,
                kind => kind.unit(self.units),
            });
        }
        let accepted = self.asked.kind.accepts();
        match unit::find(&name, accepted) {
            Some(unit) if accepted.contains(&unit.measure) => Ok(unit),
            Some(unit) => Err(self.wrong_unit(text.trim(), unit.measure)),
            None if text.contains(numeral::starts) => Err(self.not_a_number()),
            None => Err(ReadError::UnknownUnit {
                unit: text.trim().to_owned(),
                near: unit::nearest(&name, accepted),
                example: self.example(),
            }),
        }
    }

    /// The value, if the field may hold it. What rounding put just outside a bound is the bound.
    fn checked(self, value: f64, unit: &Unit) -> Result<f64, ReadError> {
        if self.asked.kind == Kind::Count && value.fract() != 0.0 {
            return Err(ReadError::NotWhole {
                read: self.text.to_owned(),
            });
        }
        let inside = value.max(self.asked.low).min(self.asked.high);
        if (value - inside).abs() <= SLACK * inside.abs() {
            return Ok(inside + 0.0);
        }
        Err(ReadError::OutOfRange {
            read: self.text.to_owned(),
            value,
            wanted: self.asked.words(),
            bounds: bounds(self.asked, unit),
        })
    }

    fn example(self) -> &'static str {
        self.asked.kind.example(self.units)
    }

    fn not_a_number(self) -> ReadError {
        ReadError::NotANumber {
            read: self.text.to_owned(),
            example: self.example(),
        }
    }

    fn wrong_unit(self, unit: &str, measure: Measure) -> ReadError {
        ReadError::WrongUnit {
            unit: unit.to_owned(),
            measures: measure.words(),
            wanted: self.asked.kind.words(),
            example: self.example(),
        }
    }
}

/// Rounding of a conversion there and back, relative: some units in the last place of a double.
const SLACK: f64 = 1e-12;

/// The gauge number in "12/3" (12 AWG, three conductors; common practice, no source), "1/0", "00".
fn cable(text: &str, zeros: bool) -> Option<f64> {
    let body = ["awg", "gauge", "ga"]
        .iter()
        .find_map(|unit| text.strip_suffix(unit))
        .unwrap_or(text)
        .trim_end();
    if !body.is_empty()
        && body.bytes().all(|b| b == b'0')
        && (zeros || body.len() > 1 || body.len() < text.len())
    {
        return Some(1.0 - body.len() as f64);
    }
    let (size, cores) = body.split_once(['/', '-'])?;
    let size = f64::from(digits(size)?);
    match cores {
        "0" => Some(1.0 - size),
        "2" | "3" | "4" | "5" => Some(size),
        _ => None,
    }
}

/// What a field allows, in a unit, rounded inwards so that both bounds are allowed.
fn bounds(asked: Asked, unit: &Unit) -> String {
    if asked.kind.accepts() == [Measure::Time] {
        let low = crate::write(Kind::Duration, asked.low, Units::Us);
        let low = if asked.low == 0.0 { "0" } else { &low };
        return format!("{low} to {}", counted(asked.high, &unit::HOUR));
    }
    let low = figure(inward(asked.low, unit, 1.0));
    let high = figure(inward(asked.high, unit, -1.0));
    match unit.measure {
        Measure::Money => format!("{0}{low} to {0}{high}", unit.shown),
        _ => format!("{low} to {high} {}", unit.shown).trim_end().to_owned(),
    }
}

/// A bound in a unit, to three figures, not outside the bound.
fn inward(bound: f64, unit: &Unit, direction: f64) -> f64 {
    let exact = unit.of_si(bound);
    if exact == 0.0 {
        return 0.0;
    }
    let step = 10_f64.powf(exact.abs().log10().floor() - 2.0);
    let round = (exact / step).round() * step;
    let outside = (unit.to_si(round) - bound) * direction < -SLACK * bound.abs();
    if outside { round + step * direction } else { round }
}
