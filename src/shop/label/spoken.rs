//! What a phone hears: "two point six c f m at ninety p s i".

use super::token::{Piece, What};
use super::unit;
use quantity::short;

/// The same pieces with letters that were spelled joined and figures that were spoken in digits.
pub(super) fn written(pieces: Vec<Piece>) -> Vec<Piece> {
    numerals(joined(pieces))
}

/// Puts one piece in the place of several wherever `found` tells what they make and how many they are.
/// It is also told the word before.
fn merged(mut pieces: Vec<Piece>, found: impl Fn(&str, &[Piece]) -> Option<(What, usize)>) -> Vec<Piece> {
    let mut kept = 0_usize;
    let mut at = 0;
    while at < pieces.len() {
        let before = kept.checked_sub(1).map_or("", |before| pieces[before].word());
        let count = match found(before, &pieces[at..]) {
            Some((what, count)) => {
                pieces[at].to = pieces[at + count - 1].to;
                pieces[at].what = what;
                count
            }
            None => 1,
        };
        pieces.swap(kept, at);
        kept += 1;
        at += count;
    }
    pieces.truncate(kept);
    pieces
}

/// Puts spelled letters together: "p s i", "P.S.I.", "h p".
fn joined(pieces: Vec<Piece>) -> Vec<Piece> {
    merged(pieces, |_, rest| {
        spelled(rest).map(|(word, count)| (What::Word(word), count))
    })
}

/// The longest known word that single letters here spell, and its pieces.
fn spelled(pieces: &[Piece]) -> Option<(String, usize)> {
    let mut word = String::new();
    let mut best = None;
    for (index, piece) in pieces.iter().take(9).enumerate() {
        let letter = piece.word();
        match &piece.what {
            _ if letter.chars().count() == 1 => word.push_str(letter),
            What::Mark('.') if !word.is_empty() => continue,
            _ => break,
        }
        let known = ["lra", "fla", "rla", "fad", "nema", "gfci"].contains(&word.as_str());
        if word.len() > 1 && (known || unit::of(&word).is_some()) {
            // The last stop of "F.L.A." ends no sentence.
            let dotted = index > 0 && pieces[index - 1].is('.');
            let stop = dotted && pieces.get(index + 1).is_some_and(|piece| piece.is('.'));
            best = Some((word.clone(), index + 1 + usize::from(stop)));
        }
    }
    best
}

const ONES: [&str; 20] = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];
const TENS: [&str; 8] = [
    "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety",
];

fn one(word: &str) -> Option<u32> {
    let word = if word == "oh" { "zero" } else { word };
    ONES.iter().position(|name| *name == word).map(|at| at as u32)
}

fn ten(word: &str) -> Option<u32> {
    TENS.iter()
        .position(|name| *name == word)
        .map(|at| 10 * (at as u32 + 2))
}

/// Puts digits for figures in words.
fn numerals(pieces: Vec<Piece>) -> Vec<Piece> {
    merged(pieces, |before, rest| {
        numeral(before, rest).map(|(text, value, count)| (What::Number(text, value), count))
    })
}

/// The figure that words spell here, in digits, and its pieces.
fn numeral(before: &str, pieces: &[Piece]) -> Option<(String, f64, usize)> {
    let (mut text, mut count) = match pieces.first()?.number() {
        Some((digits, _)) => (digits.to_owned(), 1),
        None => match whole(pieces, before == "at") {
            Some((value, count)) => (value.to_string(), count),
            None => return part(pieces).map(|(part, count)| (short(part), part, count)),
        },
    };
    let figure = pieces[0].number().is_some();
    let is_whole = text.bytes().all(|byte| byte.is_ascii_digit());
    if let Some((digits, more)) = decimals(&pieces[count..]).filter(|_| is_whole) {
        text = format!("{text}.{digits}");
        count += more;
    } else if pieces.get(count).is_some_and(|piece| piece.word() == "and")
        && let Some((part, more)) = part(&pieces[count + 1..]).filter(|_| is_whole)
    {
        text = format!("{text}{}", short(part).trim_start_matches('0'));
        count += 1 + more;
    } else if figure {
        return None;
    }
    let value = quantity::bare_number(&text)?;
    Some((text, value, count))
}

/// "point six", "point two five".
fn decimals(pieces: &[Piece]) -> Option<(String, usize)> {
    if pieces.first()?.word() != "point" {
        return None;
    }
    let mut digits = String::new();
    let mut count = 1;
    for piece in pieces[1..].iter().take(3) {
        let figure = piece
            .number()
            .filter(|_| digits.is_empty())
            .map(|(text, _)| text.to_owned());
        let spoken = one(piece.word())
            .filter(|digit| *digit < 10)
            .map(|digit| digit.to_string());
        let Some(digit) = figure.or(spoken) else { break };
        digits.push_str(&digit);
        count += 1;
    }
    let digits_only = !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit());
    digits_only.then_some((digits, count))
}

/// "half", "a half", "one quarter", "three quarters".
fn part(pieces: &[Piece]) -> Option<(f64, usize)> {
    let words: Vec<&str> = pieces.iter().take(2).map(Piece::word).collect();
    match words[..] {
        ["half", ..] => Some((0.5, 1)),
        ["quarter", ..] => Some((0.25, 1)),
        ["a" | "one", "half"] => Some((0.5, 2)),
        ["a" | "one", "quarter"] => Some((0.25, 2)),
        ["three", "quarter" | "quarters"] => Some((0.75, 2)),
        _ => None,
    }
}

/// A whole number in words: "six", "twenty-six", "one twenty", "a hundred and fifty", "twelve hundred".
///
/// "ninety one twenty" is ninety and one twenty, and `at` forty, "forty four point oh" begins the next figure: no
/// pressure is said with tenths.
fn whole(pieces: &[Piece], at: bool) -> Option<(u32, usize)> {
    if part(pieces).is_some() {
        return None;
    }
    let mut sum = Sum::default();
    let mut count = 0;
    let mut last = 0;
    for piece in pieces.iter().take(12) {
        let joint = piece.is('-') || piece.word() == "and" && sum.after_hundred();
        if joint && count == last && count > 0 {
            count += 1;
            continue;
        }
        if !sum.add(piece.word()) {
            break;
        }
        count += 1;
        last = count;
    }
    let next = pieces.get(last).map_or("", Piece::word);
    let splits = ten(next).is_some() || one(next).is_some_and(|value| value >= 10) || at && next == "point";
    let units = sum.open % 10;
    if last > 1 && splits && sum.open % 100 > 20 && units > 0 {
        let hyphen = usize::from(pieces[last - 2].is('-'));
        return Some((sum.total + sum.open - units, last - 1 - hyphen));
    }
    (last > 0).then_some((sum.total + sum.open, last))
}

/// A number as its words come in.
#[derive(Default)]
struct Sum {
    /// Whole thousands.
    total: u32,
    /// What is below a thousand so far.
    open: u32,
    begun: bool,
}

impl Sum {
    fn after_hundred(&self) -> bool {
        self.begun && self.open.is_multiple_of(100) && self.open > 0
    }

    /// Takes one word; false where the number has ended before it.
    fn add(&mut self, word: &str) -> bool {
        let fresh = !self.begun || self.open == 0 && self.total > 0;
        let free = fresh || self.after_hundred();
        if let Some(value) = one(word) {
            let unit_after_ten =
                value < 10 && value > 0 && self.open.is_multiple_of(10) && self.open % 100 >= 20;
            let run_on = (10..20).contains(&value) && (1..10).contains(&self.open);
            match (free || unit_after_ten, run_on) {
                (true, _) => self.open += value,
                (_, true) => self.open = self.open * 100 + value,
                _ => return false,
            }
        } else if let Some(value) = ten(word) {
            match (free, (1..10).contains(&self.open)) {
                (true, _) => self.open += value,
                (_, true) => self.open = self.open * 100 + value,
                _ => return false,
            }
        } else if word == "hundred" && self.open < 100 {
            self.open = self.open.max(1) * 100;
        } else if word == "thousand" && self.total == 0 && self.begun {
            self.total = self.open.max(1) * 1_000;
            self.open = 0;
        } else {
            return false;
        }
        self.begun = true;
        true
    }
}
