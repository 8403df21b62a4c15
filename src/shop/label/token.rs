//! A text in pieces: figures, words, marks and line ends, each with its bytes.
//!
//! A camera takes O for 0 and l for 1 and loses spaces; this is where that is put right.

use super::unit;
use quantity::{bare_number, is_capital, lower};

/// What a piece is.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum What {
    /// A figure, as its field takes it, and its value.
    Number(String, f64),
    /// A word in lower case.
    Word(String),
    /// A sign, one of each sort: every dash is `-`, every bullet `;`, every times sign `x`.
    Mark(char),
    /// The end of a line; of several in a row there is one piece each.
    Line,
}

/// A piece and the bytes of the text that it stands on.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Piece {
    pub what: What,
    pub from: usize,
    pub to: usize,
    /// Whether the text has a capital first.
    pub capital: bool,
}

impl Piece {
    /// The word in it, or nothing.
    pub fn word(&self) -> &str {
        match &self.what {
            What::Word(word) => word,
            _ => "",
        }
    }

    pub fn is(&self, mark: char) -> bool {
        self.what == What::Mark(mark)
    }

    pub fn number(&self) -> Option<(&str, f64)> {
        match &self.what {
            What::Number(text, value) => Some((text, *value)),
            _ => None,
        }
    }
}

/// The pieces of a text, in one pass.
pub(super) fn pieces(text: &str) -> Vec<Piece> {
    let mut out: Vec<Piece> = Vec::new();
    let mut at = 0;
    while let Some(c) = text[at..].chars().next() {
        let from = at;
        let what = if let Some((end, figure)) = figure(text, at) {
            at = end;
            Some(figure)
        } else if c.is_alphabetic() {
            at = word_end(text, at);
            Some(What::Word(lower(&text[from..at])))
        } else if text[at..].starts_with("...") {
            // Leaders of a table: "Tank.......30 gal".
            at += text[at..].bytes().take_while(|byte| *byte == b'.').count();
            Some(What::Mark(':'))
        } else {
            at += c.len_utf8();
            match c {
                '|' if is_key(&out) => Some(What::Mark(':')),
                c => mark(c),
            }
        };
        if let Some(what) = what {
            let capital = is_capital(c);
            out.push(Piece {
                what,
                from,
                to: at,
                capital,
            });
        }
    }
    without_short_stops(out)
}

/// Whether a bar comes behind a key, "Amperage | 12.5", and not between two figures. What stands behind "@" does not
/// count.
fn is_key(pieces: &[Piece]) -> bool {
    let cell = pieces.iter().rev().take(12);
    let mut cell = cell
        .take_while(|piece| !matches!(piece.what, What::Line | What::Mark(';' | ':')))
        .peekable();
    let mut words = 0;
    while let Some(piece) = cell.next() {
        let stated = cell
            .peek()
            .is_some_and(|before| before.is('@') || before.word() == "at");
        if piece.number().is_some() && !stated {
            return false;
        }
        words += usize::from(!piece.word().is_empty());
    }
    words > 0
}

/// Words that people cut short with a stop.
const SHORT: [&str; 16] = [
    "max", "min", "approx", "wt", "disp", "displ", "reg", "orig", "cap", "vol", "press", "no", "incl",
    "excl", "ca", "nom",
];

/// Leaves out the stop of "max. 8 bar" and "20 gal. tank", which ends no sentence.
fn without_short_stops(mut pieces: Vec<Piece>) -> Vec<Piece> {
    let ends = |at: usize| {
        let before = at.checked_sub(1).map(|before| &pieces[before]);
        let word = before
            .filter(|before| before.to == pieces[at].from)
            .map_or("", Piece::word);
        let runs_on = pieces.get(at + 1).is_some_and(|next| match next.what {
            What::Word(_) => !next.capital && unit::of(word).is_some(),
            What::Mark(c) => ":)@/".contains(c),
            _ => false,
        });
        word.is_empty() || !(runs_on || SHORT.contains(&word))
    };
    let kept: Vec<bool> = (0..pieces.len())
        .map(|at| !pieces[at].is('.') || ends(at))
        .collect();
    let mut kept = kept.into_iter();
    pieces.retain(|_| kept.next().unwrap_or(true));
    pieces
}

fn mark(c: char) -> Option<What> {
    Some(match c {
        '\n' | '\u{2028}' | '\u{2029}' | '\u{b}' | '\u{c}' => What::Line,
        '\u{200b}'..='\u{200f}' | '\u{2060}' | '\u{feff}' => return None,
        '−' | '–' | '—' | '‐' | '‑' => What::Mark('-'),
        '•' | '·' | '▪' | '*' | '|' | '✓' | '►' | '●' => What::Mark(';'),
        '…' => What::Mark(':'),
        '×' => What::Mark('x'),
        '⁄' | '∕' | '\\' => What::Mark('/'),
        '″' | '“' | '”' => What::Mark('"'),
        '′' | '’' => What::Mark('\''),
        '[' | '{' => What::Mark('('),
        ']' | '}' => What::Mark(')'),
        '＠' => What::Mark('@'),
        'º' => What::Mark('°'),
        c if c.is_whitespace() || c.is_control() => return None,
        c => What::Mark(c),
    })
}

/// The end of a word: letters, and the 2 or 3 of "m3", "ft³", "mm2".
fn word_end(text: &str, from: usize) -> usize {
    let rest = &text[from..];
    let letters = rest.find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len());
    let power = rest[letters..].chars().next().filter(|c| "23²³".contains(*c));
    let measured = ["m", "cm", "mm", "ft", "in", "dm", "cu", "nm"];
    if let Some(power) = power.filter(|_| measured.contains(&rest[..letters].to_ascii_lowercase().as_str())) {
        let end = letters + power.len_utf8();
        if !rest[end..].starts_with(|c: char| c.is_alphanumeric() || c == '.') {
            return from + end;
        }
    }
    from + letters
}

/// More digits than a figure of a machine has: a number of the article or the telephone.
const DIGITS_MAX: usize = 7;

/// A figure at this place and where it ends.
fn figure(text: &str, at: usize) -> Option<(usize, What)> {
    let before = text[..at].chars().next_back().unwrap_or(' ');
    let (end, mut digits) = run(text, at, before.is_alphanumeric() || before == '.')?;
    let whole = digits.bytes().all(|b| b.is_ascii_digit());
    let long = digits.bytes().filter(u8::is_ascii_digit).count() > DIGITS_MAX;
    let end = match fraction(text, at, end, whole && (before != '/' || digits.is_empty())) {
        Some((end, part)) if !long => {
            digits = part;
            end
        }
        _ => end,
    };
    let name = || What::Word(lower(&text[at..end]));
    let value = bare_number(&digits).filter(|value| value.is_finite() && !long);
    Some((end, value.map_or_else(name, |value| What::Number(digits, value))))
}

/// Digits with their points and commas, put right where a camera took letters for them.
fn run(text: &str, from: usize, after_word: bool) -> Option<(usize, String)> {
    let bytes = text.as_bytes();
    let mut out = String::new();
    let mut at = from;
    while let Some(byte) = bytes.get(at) {
        let next = bytes.get(at + 1).copied().unwrap_or(b' ');
        let digit_next = next.is_ascii_digit();
        match byte {
            b'0'..=b'9' => out.push(char::from(*byte)),
            b'O' | b'o' if !out.is_empty() && is_nought(&text[at..]) => out.push('0'),
            b'O' if out.is_empty() && !after_word && next == b'.' => out.push('0'),
            b'l' | b'I' if digit_next && (!out.is_empty() || !after_word) => out.push('1'),
            b'.' | b',' if !out.is_empty() && (digit_next || next == b'O') => out.push(char::from(*byte)),
            b'.' if out.is_empty() && !after_word && digit_next => out.push('.'),
            // A camera sets "2 .6" apart.
            b' ' if next == b'.' && is_split(&out, &bytes[at..]) => {}
            _ => break,
        }
        at += 1;
    }
    if out.ends_with(['.', ',']) {
        out.pop();
        at -= 1;
    }
    let vulgar = out.is_empty() && text[from..].starts_with(VULGAR);
    (vulgar || out.bytes().any(|b| b.is_ascii_digit())).then_some((at, out))
}

/// Whether " .6" goes on with these digits.
fn is_split(digits: &str, rest: &[u8]) -> bool {
    !digits.is_empty() && !digits.contains(['.', ',']) && rest.get(2).is_some_and(u8::is_ascii_digit)
}

/// Whether the letter O that follows a digit is a nought: nothing follows, or a unit does. "5OZ" is an ounce.
fn is_nought(rest: &str) -> bool {
    let letters = rest
        .chars()
        .map_while(|c| c.is_alphabetic().then(|| c.to_ascii_lowercase()));
    let mut letters = letters.fuse();
    let word: String = letters.by_ref().take(8).collect();
    letters.next().is_none() && unit::of(&word).is_none() && {
        let rest = word.trim_start_matches('o');
        rest.is_empty() || unit::of(rest).is_some()
    }
}

const VULGAR: [char; 13] = ['½', '¼', '¾', '⅓', '⅔', '⅛', '⅜', '⅝', '⅞', '⅕', '⅖', '⅗', '⅘'];

/// "1/2" that begins here, or the part after a whole number: "1-1/2", "1 1/2", "1½". Only halves to thirty-seconds:
/// "120/240" is a pair.
fn fraction(text: &str, from: usize, end: usize, whole: bool) -> Option<(usize, String)> {
    let rest = &text[end..];
    if !whole {
        return None;
    }
    let digits = &text[from..end];
    if let Some(sign) = rest.chars().next().filter(|c| VULGAR.contains(c)) {
        return Some((end + sign.len_utf8(), format!("{digits}{sign}")));
    }
    if let Some(len) = below(rest, quantity::digits(digits)?) {
        return Some((end + len, text[from..end + len].into()));
    }
    let joint = rest.strip_prefix(['-', ' '])?;
    if let Some(sign) = joint.chars().next().filter(|c| VULGAR.contains(c)) {
        return Some((end + 1 + sign.len_utf8(), format!("{digits} {sign}")));
    }
    let above = joint.bytes().take_while(u8::is_ascii_digit).count();
    // "@ 90 1/2 hp" is two figures.
    if digits.len() > 1 && rest.starts_with(' ') {
        return None;
    }
    let len = below(&joint[above..], quantity::digits(&joint[..above])?)?;
    let end = end + 1 + above + len;
    Some((end, text[from..end].into()))
}

/// The length of "/8" where `above` is less than that and nothing makes it a chain.
fn below(rest: &str, above: u32) -> Option<usize> {
    let body = rest.strip_prefix(['/', '⁄'])?;
    let digits = body.bytes().take_while(u8::is_ascii_digit).count();
    let below = quantity::digits(&body[..digits])?;
    let alone = !body[digits..].starts_with(['/', '.']);
    let usual = [2, 3, 4, 8, 16, 32].contains(&below);
    (usual && alone && 0 < above && above < below).then(|| rest.len() - body.len() + digits)
}
