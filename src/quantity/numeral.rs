//! Numbers as people write them: "1,299", "1 299", "2,4", "1-1/2", "1½", ".5".

/// Fractions that have a character of their own.
const VULGAR: [(char, f64); 13] = [
    ('½', 0.5),
    ('¼', 0.25),
    ('¾', 0.75),
    ('⅓', 1.0 / 3.0),
    ('⅔', 2.0 / 3.0),
    ('⅛', 0.125),
    ('⅜', 0.375),
    ('⅝', 0.625),
    ('⅞', 0.875),
    ('⅕', 0.2),
    ('⅖', 0.4),
    ('⅗', 0.6),
    ('⅘', 0.8),
];

/// Whether a number can begin with this character.
pub(super) fn starts(c: char) -> bool {
    c.is_ascii_digit() || VULGAR.iter().any(|(sign, _)| *sign == c)
}

/// The number at the start of a text, and what follows it. White space must be plain spaces by now.
pub(super) fn split(text: &str) -> Option<(f64, &str)> {
    let (sign, body) = match text.strip_prefix(['-', '+']) {
        Some(rest) => (if text.starts_with('-') { -1.0 } else { 1.0 }, rest.trim_start()),
        None => (1.0, text),
    };
    let (size, rest) = unsigned(body)?;
    Some((sign * size, rest.trim_start()))
}

fn unsigned(text: &str) -> Option<(f64, &str)> {
    if let Some(found) = fraction(text) {
        return Some(found);
    }
    let (run, rest) = digits_and_marks(text);
    let whole = value(run)?;
    if run.bytes().all(|b| b.is_ascii_digit()) {
        let joint = rest.strip_prefix(['-', ' ']).unwrap_or(rest);
        if let Some((part, rest)) = fraction(joint).filter(|(part, _)| *part < 1.0) {
            return Some((whole + part, rest));
        }
    }
    Some((whole, rest))
}

/// "3/8" or "⅜" at the start of a text.
fn fraction(text: &str) -> Option<(f64, &str)> {
    let first = text.chars().next()?;
    if let Some((sign, part)) = VULGAR.iter().find(|(sign, _)| *sign == first) {
        return Some((*part, &text[sign.len_utf8()..]));
    }
    let (above, rest) = digits(text);
    let (below, rest) = digits(rest.trim_start().strip_prefix('/')?.trim_start());
    let (above, below) = (value(above)?, value(below)?);
    (below > 0.0).then(|| (above / below, rest))
}

fn digits(text: &str) -> (&str, &str) {
    text.split_at(text.bytes().take_while(u8::is_ascii_digit).count())
}

/// Digits with their commas and points, and with spaces where a space groups thousands.
fn digits_and_marks(text: &str) -> (&str, &str) {
    let bytes = text.as_bytes();
    let digit = |i: usize| bytes.get(i).is_some_and(u8::is_ascii_digit);
    let mut end = 0;
    let mut group_start = 0;
    loop {
        match bytes.get(end) {
            Some(b'0'..=b'9') => end += 1,
            Some(b',' | b'.') => {
                end += 1;
                group_start = usize::MAX;
            }
            Some(b' ') if group_start != usize::MAX && (1..=3).contains(&(end - group_start)) => {
                let three = (1..=3).all(|i| digit(end + i)) && !digit(end + 4);
                let over = text[end + 1..]
                    .bytes()
                    .find(|b| !b.is_ascii_digit() && *b != b' ')
                    == Some(b'/');
                if !three || over || bytes[0] == b'0' {
                    break;
                }
                group_start = end + 1;
                end += 4;
            }
            _ => break,
        }
    }
    text.split_at(end)
}

/// The value of digits with their marks.
///
/// A comma followed by exactly three digits groups thousands, unless the part before it is 0 or is grouped by
/// spaces; any other single comma is a decimal comma. With both marks, the last one is the decimal mark.
fn value(run: &str) -> Option<f64> {
    let mark = match (run.rfind(','), run.rfind('.')) {
        (Some(comma), Some(point)) => Some(comma.max(point)),
        (Some(_), None) if groups(run, ',') && !run.contains(' ') => None,
        (comma, point) => comma.or(point),
    };
    let (whole, part) = mark.map_or((run, ""), |at| (&run[..at], &run[at + 1..]));
    let group = if run[whole.len()..].starts_with(',') {
        '.'
    } else {
        ','
    };
    let other = if group == ',' { '.' } else { ',' };
    if whole.contains(other) || whole.contains(group) && !groups(whole, group) {
        return None;
    }
    let mut size = 0.0;
    let mut scale = 1.0;
    let mut count = 0;
    for digit in whole.chars().chain(part.chars()).filter_map(|c| c.to_digit(10)) {
        size = size * 10.0 + f64::from(digit);
        count += 1;
    }
    for _ in part.chars() {
        scale *= 10.0;
    }
    (count > 0).then_some(size / scale)
}

/// Whether every `mark` in the run stands before exactly three digits, after a first group that may have them.
fn groups(run: &str, mark: char) -> bool {
    let mut parts = run.split(mark);
    let first = parts.next().unwrap_or("");
    (1..=3).contains(&first.len()) && !first.starts_with('0') && parts.all(|part| part.len() == 3)
}
