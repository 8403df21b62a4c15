//! Words that say what a figure is: "displacement", "peak", "cuts out at", "tank stamped".

use super::token::{Piece, What};
use super::unit::Measure;

/// What a word beside a figure makes of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sense {
    Displacement,
    Suction,
    Delivered,
    Need,
    Max,
    CutIn,
    CutOut,
    Stamp,
    Relief,
    Regulated,
    Test,
    Pressure,
    Peak,
    Running,
    Start,
    Draw,
    Plug,
    Tank,
    Each,
    Total,
    Oil,
    SoundPower,
    Noise,
    Shipping,
    Weight,
    Former,
    Price,
    Duty,
    Timed,
    Fill,
    Volts,
}

use Sense::*;

impl Sense {
    /// What a figure without a unit measures beside this word.
    pub fn implies(self) -> Option<Measure> {
        Some(match self {
            Displacement | Suction | Delivered => Measure::Flow,
            CutIn | CutOut | Stamp | Relief | Regulated | Max | Test | Pressure => Measure::Pressure,
            Start | Draw => Measure::Current,
            Tank => Measure::Volume,
            Noise | SoundPower => Measure::Sound,
            Shipping | Weight => Measure::Mass,
            Price => Measure::Money,
            Duty => Measure::Share,
            Volts => Measure::Voltage,
            _ => return None,
        })
    }

    /// Whether the word says something of a figure with that unit.
    pub fn fits(self, measure: Measure) -> bool {
        match measure {
            Measure::Flow => matches!(self, Displacement | Suction | Delivered | Need),
            Measure::Pressure => matches!(
                self,
                Max | CutIn | CutOut | Stamp | Relief | Regulated | Test | Tank | Suction
            ),
            Measure::Power => matches!(self, Peak | Running | Max),
            Measure::Current => matches!(self, Start | Peak | Draw | Running | Plug | Max),
            Measure::Volume => matches!(self, Tank | Oil | Each | Total),
            Measure::Sound => matches!(self, SoundPower | Noise),
            Measure::Mass => matches!(self, Shipping | Weight),
            Measure::Money => matches!(self, Former | Price | Shipping),
            Measure::Share => self == Duty,
            Measure::Time => matches!(self, Timed | Fill),
            Measure::Voltage => self == Volts,
            _ => false,
        }
    }
}

/// Phrases and what they say; a star stands for any ending. Longer ones stand before those that they begin with.
const PHRASES: &[(&str, Sense)] = &[
    ("displac*", Displacement),
    ("swept", Displacement),
    ("piston disp", Displacement),
    ("suction", Suction),
    ("intake", Suction),
    ("inlet", Suction),
    ("aspir*", Suction),
    ("induct*", Suction),
    ("induced", Suction),
    ("draws in", Suction),
    ("sucks", Suction),
    ("ansaug*", Suction),
    ("saugleistung", Suction),
    ("theoretical", Suction),
    ("fad", Delivered),
    ("free air", Delivered),
    ("deliver*", Delivered),
    ("effektiv*", Delivered),
    ("liefer*", Delivered),
    ("abgabe*", Delivered),
    ("restitu*", Delivered),
    ("air output", Delivered),
    ("output", Delivered),
    ("effective", Delivered),
    ("flow", Delivered),
    ("airflow", Delivered),
    ("air flow", Delivered),
    ("need*", Need),
    ("require*", Need),
    ("consum*", Need),
    ("per shot", Need),
    ("per nail", Need),
    ("cut in", CutIn),
    ("cutin", CutIn),
    ("cuts in", CutIn),
    ("kick* in", CutIn),
    ("kick* on", CutIn),
    ("kick* back", CutIn),
    ("restart*", CutIn),
    ("turn* on", CutIn),
    ("turn* back on", CutIn),
    ("come* on", CutIn),
    ("come* back on", CutIn),
    ("switch* on", CutIn),
    ("pressure switch on", CutIn),
    ("start* again", CutIn),
    ("start pressure", CutIn),
    ("motor on", CutIn),
    ("cut out", CutOut),
    ("cutout", CutOut),
    ("cuts out", CutOut),
    ("cut off", CutOut),
    ("cuts off", CutOut),
    ("kick* out", CutOut),
    ("kick* off", CutOut),
    ("shut* off", CutOut),
    ("shutoff", CutOut),
    ("shut* down", CutOut),
    ("turn* off", CutOut),
    ("go* off", CutOut),
    ("switch* off", CutOut),
    ("stop* at", CutOut),
    ("motor off", CutOut),
    ("stamp*", Stamp),
    ("mawp", Stamp),
    ("mwp", Stamp),
    ("code plate", Stamp),
    ("design pressure", Stamp),
    ("tank rat*", Stamp),
    ("tank is rated", Stamp),
    ("tank good for", Stamp),
    ("tank plate", Stamp),
    ("receiver rat*", Stamp),
    ("relief", Relief),
    ("safety valve", Relief),
    ("pop off", Relief),
    ("popoff", Relief),
    ("pops at", Relief),
    ("test*", Test),
    ("pressure", Pressure),
    ("working", Pressure),
    ("regulat*", Regulated),
    ("adjustable", Regulated),
    ("locked rotor", Start),
    ("lra", Start),
    ("starting", Start),
    ("startup", Start),
    ("start amp*", Start),
    ("start current", Start),
    ("inrush", Start),
    ("surge", Start),
    ("peak", Peak),
    ("maximum developed", Peak),
    ("max* developed", Peak),
    ("developed", Peak),
    ("max*", Max),
    ("p max", Max),
    ("pmax", Max),
    ("working pressure", Max),
    ("operating pressure", Max),
    ("tank pressure", Max),
    ("running", Running),
    ("run", Running),
    ("rated hp", Running),
    ("rated", Running),
    ("continuous", Running),
    ("nominal", Running),
    ("fla", Draw),
    ("flc", Draw),
    ("rla", Draw),
    ("full load", Draw),
    ("amp draw", Draw),
    ("amperage", Draw),
    ("current", Draw),
    ("draw*", Draw),
    ("pulls", Draw),
    ("voltage", Volts),
    ("plug*", Plug),
    ("tank", Tank),
    ("tanks", Tank),
    ("receiver", Tank),
    ("reservoir", Tank),
    ("air vessel", Tank),
    ("vessel", Tank),
    ("each", Each),
    ("apiece", Each),
    ("total", Total),
    ("combined", Total),
    ("together", Total),
    ("oil", Oil),
    ("sump", Oil),
    ("crankcase", Oil),
    ("fuel", Oil),
    ("gasoline", Oil),
    ("schallleistung*", SoundPower),
    ("lwa", SoundPower),
    ("lw", SoundPower),
    ("sound power", SoundPower),
    ("acoustic power", SoundPower),
    ("guaranteed", SoundPower),
    ("noise", Noise),
    ("sound", Noise),
    ("lpa", Noise),
    ("decibel*", Noise),
    ("shipping", Shipping),
    ("ships", Shipping),
    ("ship", Shipping),
    ("gross", Shipping),
    ("packag*", Shipping),
    ("packed", Shipping),
    ("boxed", Shipping),
    ("carton", Shipping),
    ("weight", Weight),
    ("gewicht", Weight),
    ("weighs", Weight),
    ("weigh", Weight),
    ("wt", Weight),
    ("mass", Weight),
    ("was", Former),
    ("reg", Former),
    ("regular*", Former),
    ("list", Former),
    ("msrp", Former),
    ("rrp", Former),
    ("orig*", Former),
    ("save*", Former),
    ("saving*", Former),
    ("off", Former),
    ("month*", Former),
    ("mo", Former),
    ("payment*", Former),
    ("installment*", Former),
    ("warranty", Former),
    ("protection", Former),
    ("deposit", Former),
    ("rebate", Former),
    ("coupon", Former),
    ("ex vat", Former),
    ("excl*", Former),
    ("before", Former),
    ("liftgate", Former),
    ("fee*", Former),
    ("tax", Former),
    ("compare*", Former),
    ("price", Price),
    ("now", Price),
    ("sale", Price),
    ("only", Price),
    ("today", Price),
    ("asking", Price),
    ("cost*", Price),
    ("duty", Duty),
    ("timed", Timed),
    ("measured", Timed),
    ("clocked", Timed),
    ("stopwatch", Timed),
    ("i got", Timed),
    ("took", Timed),
    ("pump up", Fill),
    ("pumps up", Fill),
    ("fill*", Fill),
    ("recover*", Fill),
];

/// For each piece the sense of the phrase that begins there.
pub(super) fn senses(pieces: &[Piece]) -> Vec<Option<Sense>> {
    (0..pieces.len()).map(|at| sense(pieces, at)).collect()
}

fn sense(pieces: &[Piece], at: usize) -> Option<Sense> {
    let first = pieces[at].word();
    if first.is_empty() || is_off(pieces, at) {
        return None;
    }
    let fits = |phrase: &str| {
        let mut rest = pieces[at..]
            .iter()
            .filter(|piece| !piece.is('-') && !piece.is(':'));
        phrase
            .split(' ')
            .all(|word| rest.next().is_some_and(|piece| matches(word, piece.word())))
    };
    let longest = PHRASES
        .iter()
        .filter(|(phrase, _)| phrase.as_bytes()[0] == first.as_bytes()[0] && fits(phrase))
        .max_by_key(|(phrase, _)| phrase.matches(' ').count());
    longest.map(|(_, sense)| *sense)
}

fn matches(pattern: &str, word: &str) -> bool {
    match pattern.strip_suffix('*') {
        Some(stem) => word.starts_with(stem),
        None => word == pattern,
    }
}

/// Words that do not say what they usually say: the oil of "oil-free", the tank of a second tank's neighbour.
fn is_off(pieces: &[Piece], at: usize) -> bool {
    let next = pieces[at + 1..]
        .iter()
        .find(|piece| !piece.is('-'))
        .map_or("", Piece::word);
    let word = pieces[at].word();
    let oil_less = [
        "free",
        "less",
        "lubricated",
        "lubed",
        "lube",
        "bath",
        "filled",
        "splash",
        "flooded",
        "level",
    ];
    match word {
        "oil" => oil_less.contains(&next),
        "inlet" => next == "filter",
        "starting" => next == "up" || next == "in",
        "output" => next == "power",
        "running" => next == "gear",
        "run" => next != "hp" && next != "amps",
        _ => false,
    }
}

/// Whether a piece ends a thought: a line, a stop, a bullet.
pub(super) fn is_stop(piece: &Piece) -> bool {
    matches!(piece.what, What::Line | What::Mark(';' | '.' | '!' | '?'))
}
