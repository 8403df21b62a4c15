//! The units that people write, what each measures, and its size in SI.
//!
//! Checked in `tests/text.rs` against NIST SP 811 (2008), appendix B.

use super::factor::{
    K_AT_0_C, KG_PER_LB, M_PER_FT, M_PER_IN, M3_PER_FT3, M3_PER_GALLON, M3_S_PER_CFM, PA_PER_PSI, S_PER_H,
    S_PER_MIN, STANDARD_GRAVITY, W_PER_HP,
};

/// What a unit measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Measure {
    Flow,
    Volume,
    /// Pressure whose zero the unit leaves open: psi, bar, kPa.
    Pressure,
    GaugePressure,
    AbsolutePressure,
    Voltage,
    Current,
    Power,
    ApparentPower,
    Length,
    /// Height with its datum named: "ft MSL".
    Elevation,
    Area,
    WireGauge,
    Temperature,
    Share,
    Mass,
    Money,
    Time,
    Level,
    Tariff,
    Droop,
    Number,
}

impl Measure {
    /// What it is called in a sentence.
    pub(super) fn words(self) -> &'static str {
        match self {
            Self::Flow => "a flow",
            Self::Volume => "a volume",
            Self::Pressure => "a pressure",
            Self::GaugePressure => "a pressure counted from the outside air",
            Self::AbsolutePressure => "a pressure counted from vacuum",
            Self::Voltage => "a voltage",
            Self::Current => "a current",
            Self::Power => "a power",
            Self::ApparentPower => "an apparent power",
            Self::Length => "a length",
            Self::Elevation => "a height above the sea",
            Self::Area => "an area",
            Self::WireGauge => "a wire size",
            Self::Temperature => "a temperature",
            Self::Share => "a share",
            Self::Mass => "a mass",
            Self::Money => "money",
            Self::Time => "a time",
            Self::Level => "a level of sound",
            Self::Tariff => "a price of energy",
            Self::Droop => "a fall of pressure with flow",
            Self::Number => "a number of things",
        }
    }
}

/// One unit: SI value = number x `scale` + `zero`.
#[derive(Debug)]
pub(super) struct Unit {
    /// As written in answers.
    pub(super) shown: &'static str,
    /// As typed, in the form that [`plain`] gives.
    pub(super) names: &'static [&'static str],
    pub(super) measure: Measure,
    pub(super) scale: f64,
    pub(super) zero: f64,
}

impl Unit {
    /// `number` of this unit in SI.
    pub(super) fn to_si(&self, number: f64) -> f64 {
        number * self.scale + self.zero
    }
    /// An SI value counted in this unit.
    pub(super) fn of_si(&self, value: f64) -> f64 {
        (value - self.zero) / self.scale
    }
}

const M3_PER_IN3: f64 = M_PER_IN * M_PER_IN * M_PER_IN;
/// Watts in a metric horsepower of 75 m kgf/s, exact.
const W_PER_METRIC_HP: f64 = 75.0 * STANDARD_GRAVITY;
/// Pascal in a millimetre of mercury: 13 595.1 kg/m³ x 9.806 65 m/s² x 1 mm, the conventional value.
const PA_PER_MMHG: f64 = 133.322_387_415;

macro_rules! units {
    ($($id:ident: $measure:ident $shown:literal [$($name:literal)*] $scale:expr $(, $zero:expr)?;)*) => {
        $(pub(super) static $id: Unit = Unit {
            shown: $shown,
            names: &[$($name),*],
            measure: Measure::$measure,
            scale: $scale,
            zero: 0.0 $(+ $zero)?,
        };)*
        /// Every unit that is recognised. Where a name occurs twice, the field decides.
        static UNITS: &[&Unit] = &[$(&$id),*];
    };
}

units! {
    CFM: Flow "cfm" ["cfm" "scfm" "cuft/min" "ft3/min" "cuft/m" "ft3/m"] M3_S_PER_CFM;
    L_MIN: Flow "L/min" ["l/min" "lpm" "l/m" "lt/min" "ltr/min" "dm3/min"] 0.001 / S_PER_MIN;
    L_S: Flow "L/s" ["l/s" "lps" "dm3/s"] 0.001;
    M3_MIN: Flow "m³/min" ["m3/min" "cum/min"] 1.0 / S_PER_MIN;
    M3_H: Flow "m³/h" ["m3/h" "cum/h" "cmh"] 1.0 / S_PER_H;
    M3_S: Flow "m³/s" ["m3/s"] 1.0;
    GAL: Volume "gal" ["gal" "g" "usgal" "gallonus"] M3_PER_GALLON;
    IMP_GAL: Volume "imp gal" ["impgal" "ukgal" "imperialgal"] 0.004_546_09;
    LITRE: Volume "L" ["l" "lt" "ltr" "dm3"] 0.001;
    ML: Volume "mL" ["ml" "cc" "cm3" "ccm"] 1e-6;
    FT3: Volume "ft³" ["ft3" "cuft" "cf"] M3_PER_FT3;
    IN3: Volume "in³" ["in3" "cuin" "ci"] M3_PER_IN3;
    M3: Volume "m³" ["m3" "cum"] 1.0;
    PSI: Pressure "psi" ["psi" "lb/in2" "lb/sqin" "lbf/in2"] PA_PER_PSI;
    BAR: Pressure "bar" ["bar"] 1e5;
    KPA: Pressure "kPa" ["kpa"] 1e3;
    MPA: Pressure "MPa" ["mpa"] 1e6;
    PA: Pressure "Pa" ["pa" "pascal"] 1.0;
    KGF_CM2: Pressure "kgf/cm²" ["kgf/cm2" "kg/cm2" "kp/cm2"] 98_066.5;
    PSIG: GaugePressure "psig" ["psig" "psi(g)"] PA_PER_PSI;
    BARG: GaugePressure "bar(g)" ["barg" "bar(g)"] 1e5;
    PSIA: AbsolutePressure "psia" ["psia" "psi(a)"] PA_PER_PSI;
    BARA: AbsolutePressure "bar(a)" ["bara" "bar(a)"] 1e5;
    HPA: AbsolutePressure "hPa" ["hpa"] 100.0;
    MBAR: AbsolutePressure "mbar" ["mbar" "mb" "millibar"] 100.0;
    IN_HG: AbsolutePressure "inHg" ["inhg" "\"hg"] 25.4 * PA_PER_MMHG;
    MM_HG: AbsolutePressure "mmHg" ["mmhg" "torr"] PA_PER_MMHG;
    VOLT: Voltage "V" ["v" "vac" "vdc"] 1.0;
    KV: Voltage "kV" ["kv"] 1e3;
    AMP: Current "A" ["a"] 1.0;
    HP: Power "hp" ["hp" "bhp"] W_PER_HP;
    METRIC_HP: Power "metric hp" ["metrichp" "hp(m)" "ps" "cv"] W_PER_METRIC_HP;
    WATT: Power "W" ["w"] 1.0;
    KW: Power "kW" ["kw"] 1e3;
    VA: ApparentPower "VA" ["va"] 1.0;
    KVA: ApparentPower "kVA" ["kva"] 1e3;
    FOOT: Length "ft" ["ft" "'"] M_PER_FT;
    INCH: Length "in" ["in" "\"" "''"] M_PER_IN;
    YARD: Length "yd" ["yd"] 3.0 * M_PER_FT;
    METRE: Length "m" ["m"] 1.0;
    CM: Length "cm" ["cm"] 0.01;
    MM: Length "mm" ["mm"] 0.001;
    FT_MSL: Elevation "ft" ["ftmsl" "ftasl" "ftamsl" "'msl" "'asl" "'amsl"] M_PER_FT;
    M_MSL: Elevation "m" ["mmsl" "masl" "mamsl"] 1.0;
    MM2: Area "mm²" ["mm2" "sqmm" "qmm"] 1e-6;
    AWG: WireGauge "AWG" ["awg" "ga" "gauge"] 1.0;
    FAHRENHEIT: Temperature "°F" ["°f" "f"] 5.0 / 9.0, K_AT_0_C - 32.0 * 5.0 / 9.0;
    CELSIUS: Temperature "°C" ["°c" "c"] 1.0, K_AT_0_C;
    KELVIN: Temperature "K" ["k"] 1.0;
    PERCENT: Share "%" ["%" "/cent"] 0.01;
    LB: Mass "lb" ["lb" "#"] KG_PER_LB;
    GRAM: Mass "g" ["g"] 0.001;
    KG: Mass "kg" ["kg"] 1.0;
    MONEY: Money "$" ["$"] 1.0;
    SECOND: Time "s" ["s"] 1.0;
    MINUTE: Time "min" ["min" "m"] S_PER_MIN;
    HOUR: Time "h" ["h"] S_PER_H;
    DAY: Time "d" ["d"] 24.0 * S_PER_H;
    DECIBEL: Level "dB" ["db" "dba" "db(a)"] 1.0;
    PER_KWH: Tariff "/kWh" ["$/kwh" "/kwh" "$" "$kwh"] 1.0;
    CENT_KWH: Tariff "cents/kWh" ["cent/kwh" "c/kwh" "ct/kwh" "p/kwh" "cent" "c" "ct"] 0.01;
    PSI_CFM: Droop "psi/cfm" ["psi/cfm" "psi/scfm"] PA_PER_PSI / M3_S_PER_CFM;
    BAR_100L: Droop "bar per 100 L/min" ["bar/100l/min" "bar/100lpm" "bar/(100l/min)"] 1e5 / (0.1 / S_PER_MIN);
    PEOPLE: Number "people" ["people" "person" "x"] 1.0;
}

/// A bare number, where the field has no unit.
pub(super) static ONE: Unit = Unit {
    shown: "",
    names: &[],
    measure: Measure::Number,
    scale: 1.0,
    zero: 0.0,
};

/// Longer words for what the table has in short.
const WORDS: &[(&str, &[&str])] = &[
    ("/", &["per"]),
    ("cu", &["cubic"]),
    ("sq", &["square"]),
    ("ft", &["foot", "feet"]),
    ("in", &["inch", "inches", "ins"]),
    ("yd", &["yard", "yards", "yds"]),
    ("m", &["metre", "metres", "meter", "meters"]),
    ("mm", &["millimetre", "millimetres", "millimeter", "millimeters"]),
    ("cm", &["centimetre", "centimetres", "centimeter", "centimeters"]),
    ("l", &["litre", "litres", "liter", "liters", "ltrs"]),
    ("gal", &["gallon", "gallons", "gals"]),
    ("s", &["second", "seconds", "sec", "secs"]),
    ("min", &["minute", "minutes", "mins"]),
    ("h", &["hour", "hours", "hr", "hrs"]),
    ("d", &["day", "days"]),
    ("v", &["volt", "volts"]),
    ("a", &["amp", "amps", "ampere", "amperes"]),
    ("w", &["watt", "watts"]),
    ("kw", &["kilowatt", "kilowatts"]),
    ("hp", &["horsepower"]),
    ("lb", &["lbs", "pound", "pounds"]),
    ("kg", &["kgs", "kilo", "kilos", "kilogram", "kilograms"]),
    ("°", &["deg", "degree", "degrees"]),
    ("f", &["fahrenheit"]),
    ("c", &["celsius", "centigrade"]),
    ("%", &["percent", "pct"]),
    (
        "$",
        &[
            "usd", "dollar", "dollars", "eur", "euro", "euros", "gbp", "cad", "aud",
        ],
    ),
    ("cent", &["cents"]),
    ("db", &["decibel", "decibels"]),
];

/// Signs that stand for money, whichever currency: the figure counts, the sign does not.
pub const CURRENCY: [char; 4] = ['$', '€', '£', '¥'];

/// A unit as typed, in the table's form: lower case, short words, no space, no stop, figures for ² and ³.
pub(super) fn plain(text: &str) -> String {
    let mut out = String::new();
    let mut word = String::new();
    for c in text.chars() {
        if c.is_alphabetic() && !matches!(c, 'º') {
            word.push(c.to_ascii_lowercase());
            continue;
        }
        out.push_str(short(&word));
        word.clear();
        match c {
            '³' => out.push('3'),
            '²' => out.push('2'),
            '°' | 'º' => out.push('°'),
            '℃' => out.push_str("°c"),
            '℉' => out.push_str("°f"),
            '¢' => out.push_str("cent"),
            '″' | '“' | '”' => out.push('"'),
            '′' | '’' => out.push('\''),
            ' ' | '.' | '^' => {}
            c if CURRENCY.contains(&c) => out.push('$'),
            c => out.push(c),
        }
    }
    out.push_str(short(&word));
    out
}

fn short(word: &str) -> &str {
    WORDS
        .iter()
        .find(|(_, long)| long.contains(&word))
        .map_or(word, |(short, _)| short)
}

/// A unit by its plain name: first among what the field accepts, then among all.
pub(super) fn find(name: &str, accepted: &[Measure]) -> Option<&'static Unit> {
    let named = |unit: &&&Unit| unit.names.contains(&name);
    let fits = UNITS
        .iter()
        .find(|unit| accepted.contains(&unit.measure) && named(unit));
    fits.or_else(|| UNITS.iter().find(named)).copied()
}

/// The accepted unit whose name is nearest to a misspelt one, if it is near enough to be meant.
pub(super) fn nearest(name: &str, accepted: &[Measure]) -> Option<&'static str> {
    let typed: Vec<char> = name.chars().collect();
    let allowed = if typed.len() <= 3 { 1 } else { 2 };
    let mut best = None;
    for unit in UNITS.iter().filter(|unit| accepted.contains(&unit.measure)) {
        for other in unit.names {
            let other: Vec<char> = other.chars().collect();
            let off = distance(&typed, &other);
            let near = off <= allowed && off < typed.len().min(other.len());
            if near && best.is_none_or(|(least, _)| off < least) {
                best = Some((off, unit.shown));
            }
        }
    }
    best.map(|(_, shown)| shown)
}

/// Edits (a letter put in, left out, changed, or two neighbours swapped) from one word to another.
fn distance(a: &[char], b: &[char]) -> usize {
    let mut before: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=b.len()).collect();
    for i in 1..=a.len() {
        let mut row = vec![i];
        for j in 1..=b.len() {
            let changed = last[j - 1] + usize::from(a[i - 1] != b[j - 1]);
            let mut least = changed.min(last[j] + 1).min(row[j - 1] + 1);
            if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                least = least.min(before[j - 2] + 1);
            }
            row.push(least);
        }
        before = last;
        last = row;
    }
    last[b.len()]
}
