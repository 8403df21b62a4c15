//! The link as a code for a phone's camera, drawn without asking anybody.
//!
//! ISO/IEC 18004 (2015), byte mode, the lowest level of error correction that it has (L, about 7 %), raised where the
//! symbol does not grow by it: a printed sheet is clean, and fewer modules are larger ones.

use std::net::Ipv4Addr;

use qrcodegen::{DataTooLong, Mask, QrCode, QrCodeEcc, QrSegment, Version};

use serde::Serialize;
use tsify::Tsify;

/// Clear modules on each side: ISO/IEC 18004, clause 6.3.8 (from memory).
pub const QUIET: u32 = 4;
/// Width of a module on paper, mm. Phone cameras read 0.4 mm at a hand's breadth (common practice, no source).
pub const MODULE_MM: f64 = 0.4;
/// The largest version used: 137 modules, with the quiet zone 58 mm on the sheet. It holds 1,732 characters
/// (ISO/IEC 18004, table 7, version 30-L; from memory).
pub const VERSION_MAX: u8 = 30;

/// What a code holds, how it is drawn, and what to say beside it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
pub struct Code {
    /// What the camera reads: the whole address, or the shop alone where the address leads no phone anywhere.
    pub text: String,
    /// What to do with it, or why there is none.
    pub note: String,
    /// Modules from edge to edge with the quiet zone; nought if the text is too long.
    pub side: u32,
    /// The edge on paper, mm.
    pub side_mm: f64,
    /// The dark modules as one SVG path, a module a unit.
    pub path: String,
}

/// The code for a page's whole address.
///
/// # Example
/// ```
/// # use shop::qr::code;
/// let hosted = code("https://example.org/bellows/#b1.AAAA");
/// assert_eq!(hosted.text, "https://example.org/bellows/#b1.AAAA");
/// let from_disk = code("file:///home/me/bellows.html#b1.AAAA");
/// assert_eq!(from_disk.text, "b1.AAAA"); // no phone reaches this machine's disk
/// assert_eq!((from_disk.side, from_disk.side_mm), (21 + 8, 29.0 * 0.4)); // version 1 has 21 modules
/// ```
pub fn code(address: &str) -> Code {
    let (base, fragment) = address.split_once('#').unwrap_or((address, ""));
    let reached = reaches_a_phone(base);
    let text = if reached { address } else { fragment };
    let symbol = match symbol(text) {
        Ok(symbol) => symbol,
        Err(_) => return too_long(text),
    };
    let side = symbol.size().unsigned_abs() + 2 * QUIET;
    Code {
        text: text.into(),
        note: if reached {
            "Point a phone’s camera here: it opens this shop.".into()
        } else {
            "This page has no address that a phone can reach, so the code holds the shop alone: scan it, copy its text, and paste that into Bellows on the phone, under “Open a link”.".into()
        },
        side,
        side_mm: f64::from(side) * MODULE_MM,
        path: path(&symbol),
    }
}

fn too_long(text: &str) -> Code {
    Code {
        text: text.into(),
        note: format!(
            "The link has {} characters, too many for a code that a phone reads: send it as text or as a file.",
            text.chars().count()
        ),
        ..Code::default()
    }
}

/// Whether another machine gets anywhere by this address: not from a disk, nor from this machine itself.
fn reaches_a_phone(base: &str) -> bool {
    let Some(rest) = base
        .strip_prefix("https://")
        .or_else(|| base.strip_prefix("http://"))
    else {
        return false;
    };
    let host = rest.split('/').next().unwrap_or(rest);
    let name = host.rsplit_once(':').map_or(host, |(name, _)| name);
    let own =
        matches!(name, "localhost" | "[::1]") || name.parse::<Ipv4Addr>().is_ok_and(|ip| ip.is_loopback());
    !name.is_empty() && !own
}

fn symbol(text: &str) -> Result<QrCode, DataTooLong> {
    let segment = QrSegment::make_bytes(text.as_bytes());
    QrCode::encode_segments_advanced(
        &[segment],
        QrCodeEcc::Low,
        Version::MIN,
        Version::new(VERSION_MAX),
        None::<Mask>,
        true,
    )
}

/// Each run of dark modules in a row as a flat rectangle.
fn path(symbol: &QrCode) -> String {
    let size = symbol.size();
    let quiet = QUIET.cast_signed();
    let mut path = String::new();
    for y in 0..size {
        let mut x = 0;
        while x < size {
            let run = (x..size).take_while(|&x| symbol.get_module(x, y)).count();
            if run > 0 {
                path.push_str(&format!("M{} {}h{run}v1h-{run}z", x + quiet, y + quiet));
            }
            x += i32::try_from(run).unwrap_or(0) + 1;
        }
    }
    path
}
