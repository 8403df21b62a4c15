//! A shop as a URL fragment, for a bookmark, a message or a QR code.
//!
//! `b1.` + base64url without padding of (deflate of the shop's compact JSON, then the CRC-32 of that, big-endian).
//! Every character is a letter, a digit, `-`, `_` or `.`, so that no program along the way changes it. The check sum
//! tells a link that was cut short or altered from one that a newer Bellows wrote.

use std::fmt;

use base64::{Engine, engine::general_purpose::URL_SAFE_NO_PAD};
use miniz_oxide::{deflate::compress_to_vec, inflate::decompress_to_vec_with_limit};

use crate::file::{self, FILE_MAX, FileError};
use crate::{SCHEMA, Shop};

/// Longest link that is read, characters after the page's address.
pub const LINK_MAX: usize = 8_000;

/// The form of link that this build writes: the figure between `b` and the stop.
const FORM: u32 = 1;
/// Bytes of the check sum.
const SUM: usize = 4;
/// Deflate's slowest and smallest level.
const SMALLEST: u8 = 10;

/// Why a text is no link to a shop. `Display` is the sentence to show.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LinkError {
    /// It does not begin as Bellows' links do.
    NotALink,
    /// Longer than [`LINK_MAX`].
    TooLong {
        /// Its length, characters.
        length: usize,
    },
    /// Cut short, or a character was changed.
    Damaged,
    /// Written by a newer Bellows.
    Newer {
        /// Its form or schema.
        version: u64,
    },
    /// It unpacks to more than [`FILE_MAX`] bytes.
    TooBig,
    /// Whole, but the shop in it is refused.
    Content(FileError),
}

impl fmt::Display for LinkError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotALink => write!(
                f,
                "this is no link to a shop: copy the whole address, with all after its # sign"
            ),
            Self::TooLong { length } => write!(
                f,
                "this link has {length} characters, more than the {LINK_MAX} that Bellows takes: ask for the shop as a file"
            ),
            Self::Damaged => write!(
                f,
                "this link is incomplete or was altered on its way: ask for it again"
            ),
            Self::Newer { version } => write!(
                f,
                "this link comes from a newer Bellows (version {version}, this one reads up to {SCHEMA}): load the newer page and open it there"
            ),
            Self::TooBig => write!(f, "this link unpacks to more than a shop can hold: do not use it"),
            Self::Content(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for LinkError {}

/// A shop as the text after a URL's `#`. Past [`LINK_MAX`] characters it is not read again: export a file instead.
pub fn write(shop: &Shop) -> String {
    let mut bytes = compress_to_vec(file::tree(shop).to_string().as_bytes(), SMALLEST);
    let sum = crc_32(&bytes);
    bytes.extend(sum.to_be_bytes());
    format!("b{FORM}.{}", URL_SAFE_NO_PAD.encode(bytes))
}

/// The shop in a fragment, a fragment with its `#`, or a whole address. White space, the punctuation of a sentence
/// round it and percent signs that a program put in are forgiven.
///
/// # Errors
/// [`LinkError`], which says what is wrong and what would do.
///
/// # Example
/// ```
/// # use shop::link::{self, LinkError}; use shop::{SCHEMA, Shop};
/// let shop = Shop { version: SCHEMA, name: "Hangar 7".into(), ..Shop::default() };
/// let fragment = link::write(&shop);
/// assert_eq!(link::read(&format!("https://example.org/#{fragment}."))?, shop);
/// assert_eq!(link::read(&fragment[..fragment.len() - 1]), Err(LinkError::Damaged));
/// # Ok::<(), LinkError>(())
/// ```
pub fn read(fragment: &str) -> Result<Shop, LinkError> {
    let text = bare(fragment)?;
    let bytes = URL_SAFE_NO_PAD
        .decode(body(&text)?)
        .map_err(|_| LinkError::Damaged)?;
    let (packed, sum) = bytes
        .split_at_checked(bytes.len().wrapping_sub(SUM))
        .ok_or(LinkError::Damaged)?;
    if crc_32(packed).to_be_bytes() != sum {
        return Err(LinkError::Damaged);
    }
    let json = decompress_to_vec_with_limit(packed, FILE_MAX).map_err(|error| match error.status {
        miniz_oxide::inflate::TINFLStatus::HasMoreOutput => LinkError::TooBig,
        _ => LinkError::Damaged,
    })?;
    let json = String::from_utf8(json).map_err(|_| LinkError::Damaged)?;
    file::from_json(&json).map_err(|error| match error {
        FileError::Newer { version } => LinkError::Newer { version },
        FileError::TooBig { .. } => LinkError::TooBig,
        error => LinkError::Content(error),
    })
}

/// The check sum of ISO 3309 and ITU-T V.42, bit by bit: a link is short, and the tables of a fast sum weigh 16 kB.
fn crc_32(bytes: &[u8]) -> u32 {
    const REVERSED: u32 = 0xEDB8_8320;
    let shifted = |sum: u32| (sum >> 1) ^ if sum & 1 == 1 { REVERSED } else { 0 };
    let sums = bytes.iter().fold(u32::MAX, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| shifted(sum))
    });
    !sums
}

/// The fragment alone: after the last `#`, without white space, percent signs and closing punctuation.
fn bare(text: &str) -> Result<String, LinkError> {
    // An address and its escapes may be some longer than the link in it; a stranger's text may be of any length.
    let length = text.chars().count();
    if length > 4 * LINK_MAX {
        return Err(LinkError::TooLong { length });
    }
    let text: String = text.chars().filter(|c| !c.is_whitespace()).collect();
    let text = unescaped(&text).unwrap_or(text);
    let fragment = text.rsplit('#').next().unwrap_or(&text);
    let fragment = fragment.trim_matches(|c: char| !(c.is_ascii_alphanumeric() || matches!(c, '-' | '_')));
    match fragment.len() {
        length if length > LINK_MAX => Err(LinkError::TooLong { length }),
        _ => Ok(fragment.to_owned()),
    }
}

/// What stands after `b1.`.
fn body(link: &str) -> Result<&str, LinkError> {
    let (form, body) = link
        .strip_prefix('b')
        .and_then(|rest| rest.split_once('.'))
        .ok_or(LinkError::NotALink)?;
    let digits = (1..=3).contains(&form.len()) && form.bytes().all(|b| b.is_ascii_digit());
    match form.parse::<u32>() {
        Ok(FORM) if form.len() == 1 => Ok(body),
        Ok(form) if digits && form > FORM => Err(LinkError::Newer {
            version: u64::from(form),
        }),
        _ => Err(LinkError::NotALink),
    }
}

/// The byte that two hexadecimal digits stand for.
fn byte(code: &str) -> Option<u8> {
    let mut digits = code.chars().map(|c| c.to_digit(16));
    let (high, low) = (digits.next()??, digits.next()??);
    digits.next().is_none().then_some((16 * high + low) as u8)
}

/// "%23" as "#", and so on; none if an escape is broken, as in text that has none.
fn unescaped(text: &str) -> Option<String> {
    let mut parts = text.split('%');
    let mut bytes = parts.next()?.as_bytes().to_vec();
    for part in parts {
        let (code, rest) = part.split_at_checked(2)?;
        bytes.push(byte(code)?);
        bytes.extend(rest.as_bytes());
    }
    Some(String::from_utf8_lossy(&bytes).into_owned())
}
