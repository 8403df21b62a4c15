//! Words that labels and people put around a figure: "15-gallon tank", "4 cfm FAD", "approx. 90 lb".
//!
//! Only words that change nothing of the figure are left out, each for its own kind: "FLA 12" is 12 A where a motor's
//! draw is asked for, but "LRA 60" is another figure and stays as it is, to be refused.

use super::{Kind, digits};

/// Words that stand beside figures of every kind.
const ANY: &str = "approx approximately about at rated rating nominal up to";

/// Words that stand beside figures of one kind and change nothing of it.
fn words(kind: Kind) -> &'static str {
    match kind {
        Kind::Flow => "free air fad delivered delivers delivery max maximum",
        Kind::Pressure => "max maximum working operating",
        Kind::Volume => "asme tank receiver pancake upright vertical horizontal twin",
        Kind::Voltage => "volts ac single phase mains",
        Kind::Current => "fla flc rla running run draw draws full load max maximum motor",
        Kind::Power => "peak max maximum running run motor developed continuous",
        Kind::Fraction => "duty cycle continuous max maximum",
        Kind::Mass => "net weight weighs",
        Kind::Length => "long away",
        Kind::SoundLevel => "max maximum noise sound level",
        _ => "",
    }
}

/// The figure and its unit alone: "2.5 HP PEAK" is 2.5 HP, "15-gallon tank" is 15 gallon, "@90" is 90.
///
/// ```
/// # use quantity::{Kind, around::bare};
/// assert_eq!(bare(Kind::Volume, "15-gallon tank"), "15 gallon");
/// assert_eq!(bare(Kind::Current, "FLA: 12 A"), "12 A");
/// assert_ne!(bare(Kind::Current, "LRA 60 A"), "60 A", "left for the reader to refuse");
/// ```
pub fn bare(kind: Kind, text: &str) -> String {
    let figure = text.trim().trim_start_matches(['@', '<', '≤', '~', '≈']);
    let known: Vec<&str> = ANY.split(' ').chain(words(kind).split(' ')).collect();
    let text = figure_first(&without(figure, &known));
    // A hyphen before a letter joins a figure to its unit; before a figure it is a mixed number or a sign.
    let bytes = text.as_bytes();
    let joins = |at: usize| {
        bytes[at] == b'-'
            && at
                .checked_sub(1)
                .is_some_and(|before| bytes[before].is_ascii_digit())
            && bytes.get(at + 1).is_some_and(u8::is_ascii_alphabetic)
    };
    match (0..bytes.len()).find(|at| joins(*at)) {
        Some(at) => format!("{} {}", &text[..at], &text[at + 1..]),
        None => text,
    }
}

/// A text without some words. Words alone are no figure: they stay, and whoever reads them says so.
///
/// ```
/// # use quantity::around::without;
/// assert_eq!(without("20 A breaker", &["breaker"]), "20 A");
/// assert_eq!(without("breaker", &["breaker"]), "breaker");
/// ```
pub fn without(text: &str, words: &[&str]) -> String {
    let kept = |word: &&str| {
        let plain = word.trim_matches(['(', ')', '.', ',', ':']).to_ascii_lowercase();
        !plain.is_empty() && !words.contains(&&*plain)
    };
    let kept: Vec<&str> = text.split_whitespace().filter(kept).collect();
    if kept.is_empty() {
        text.into()
    } else {
        kept.join(" ")
    }
}

/// "SCFM: 5" is 5 SCFM: tables print the unit first.
///
/// ```
/// # use quantity::around::figure_first;
/// assert_eq!(figure_first("CFM: 5.1 @ 90 psi"), "5.1 CFM  @ 90 psi");
/// ```
pub fn figure_first(text: &str) -> String {
    match text.split_once([' ', ':']) {
        Some((unit, figure))
            if unit.bytes().all(|letter| letter.is_ascii_alphabetic())
                && figure.trim_start().starts_with(|c: char| c.is_ascii_digit()) =>
        {
            let figure = figure.trim();
            // Before what stands behind an "@", as that is another figure.
            match figure.split_once(['@', ' ']) {
                Some((first, _)) => format!("{first} {unit} {}", &figure[first.len()..]),
                None => format!("{figure} {unit}"),
            }
        }
        _ => text.into(),
    }
}

/// Whether a text has two figures apart by a bar, "7.3/6.1". Halves to thirty-seconds are one: "4-1/4", "1/2".
///
/// ```
/// # use quantity::around::two_figures;
/// assert!(two_figures("7.3/6.1 cfm") && !two_figures("4-1/4 cfm"));
/// ```
pub fn two_figures(text: &str) -> bool {
    let digit = |c: char| c.is_ascii_digit();
    let Some((one, other)) = text
        .split_once('/')
        .filter(|(one, other)| one.ends_with(digit) && other.starts_with(digit))
    else {
        return false;
    };
    let above = one.trim_end_matches(digit).len();
    let below = other.len() - other.trim_start_matches(digit).len();
    let part = digits(&one[above..]).zip(digits(&other[..below]));
    let whole = !one[..above].ends_with(['.', ',']) && !other[below..].starts_with(['.', ',']);
    !part.is_some_and(|(above, below)| whole && above < below && [2, 3, 4, 8, 16, 32].contains(&below))
}

/// A flow that is none that the machine delivers, by the word beside it: displacement, suction.
pub(super) fn other_flow(text: &str) -> Option<&'static str> {
    let lower = text.to_ascii_lowercase();
    let has = |stems: &[&str]| stems.iter().any(|stem| lower.contains(stem));
    if has(&["displac", "disp.", "swept"]) {
        return Some("displacement");
    }
    has(&["suction", "intake", "inlet"]).then_some("suction")
}
