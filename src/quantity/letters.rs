//! Small letters for comparing what was typed: the standard library's tables of every script weigh 12 kB gzipped.

/// A letter in its small form: Latin, Greek and Cyrillic, in which labels and notes are written; others as they are.
///
/// Source: the Unicode Standard, blocks U+0000 to U+017F, U+0384 to U+03CE and U+0400 to U+045F (from memory).
fn small(c: char) -> char {
    let code = u32::from(c);
    let lower = match code {
        // A, Latin-1 without the times sign, Greek (which has no letter at U+03A2), Cyrillic.
        0x41..=0x5A | 0xC0..=0xD6 | 0xD8..=0xDE | 0x391..=0x3A1 | 0x3A3..=0x3AB | 0x410..=0x42F => {
            code + 0x20
        }
        0x400..=0x40F => code + 0x50,
        // Pairs, the capital first: at even codes, then at odd ones.
        0x100..=0x12F | 0x132..=0x137 | 0x14A..=0x177 => code | 1,
        0x139..=0x148 | 0x179..=0x17E => code + (code & 1),
        0x178 => 0xFF,
        0x386 => 0x3AC,
        0x388..=0x38A => code + 37,
        0x38C => 0x3CC,
        0x38E | 0x38F => code + 63,
        0x1E9E => 0xDF,
        _ => code,
    };
    char::from_u32(lower).unwrap_or(c)
}

/// Whether a letter has a small form that is another.
///
/// ```
/// # use quantity::is_capital;
/// assert!(is_capital('Ä') && !is_capital('ß') && !is_capital('7'));
/// ```
pub fn is_capital(c: char) -> bool {
    small(c) != c
}

/// A text in small letters.
///
/// ```
/// # use quantity::lower;
/// assert_eq!(lower("Kessel Ø 35 MIT RÄDERN"), "kessel ø 35 mit rädern");
/// ```
pub fn lower(text: &str) -> String {
    text.chars().map(small).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The standard library knows all scripts; the dotted I of Turkish becomes two characters there.
    #[test]
    fn small_letters_are_those_of_the_standard_library() {
        let blocks = [0..=0x17F, 0x384..=0x3CE, 0x400..=0x45F, 0x1E9E..=0x1E9E];
        for c in blocks.into_iter().flatten().filter_map(char::from_u32) {
            let whole: String = c.to_lowercase().collect();
            if c != 'İ' {
                assert_eq!(small(c).to_string(), whole, "U+{:04X}", u32::from(c));
            }
        }
    }
}
