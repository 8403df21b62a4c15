//! The code for a phone's camera, read back by another library (`rqrr`) from the path that the page draws.

// Helpers outside of a test function are not excused by `.clippy.toml`; a broken path is to stop the test.
#![allow(clippy::unwrap_used)]

use bellows::shop::Shop;
use bellows::shop::link;
use bellows::shop::qr::{Code, MODULE_MM, QUIET, code};

/// Pixels a module.
const SCALE: usize = 4;

/// "M4 4h7v1h-7z..." as rows of dark modules.
fn modules(code: &Code) -> Vec<Vec<bool>> {
    let side = code.side as usize;
    let mut rows = vec![vec![false; side]; side];
    for run in code.path.split_terminator('z') {
        let (start, shape) = run.strip_prefix('M').unwrap().split_once('h').unwrap();
        let (x, y) = start.split_once(' ').unwrap();
        let (x, y): (usize, usize) = (x.parse().unwrap(), y.parse().unwrap());
        let (wide, back) = shape.split_once("v1h-").unwrap();
        assert_eq!(wide, back, "the rectangle does not close");
        rows[y][x..x + wide.parse::<usize>().unwrap()].fill(true);
    }
    rows
}

fn scanned(code: &Code) -> String {
    let rows = modules(code);
    let pixels = rows.len() * SCALE;
    let mut picture = rqrr::PreparedImage::prepare_from_greyscale(pixels, pixels, |x, y| {
        if rows[y / SCALE][x / SCALE] { 0 } else { 255 }
    });
    let grids = picture.detect_grids();
    assert_eq!(grids.len(), 1, "no single code is found");
    grids[0].decode().unwrap().1
}

#[test]
fn another_reader_finds_the_link() {
    for shop in [Shop::fresh(), Shop::demo()] {
        let address = format!("https://example.org/tools/bellows/#{}", link::write(&shop));
        assert_eq!(scanned(&code(&address)), address);
        let from_disk = code(&format!("file:///tmp/bellows.html#{}", link::write(&shop)));
        assert_eq!(link::read(&scanned(&from_disk)), Ok(shop));
    }
}

/// ISO/IEC 18004 (2015), table 7, byte mode at level L (from memory): the most bytes of a version. One byte more
/// takes the next version, whose side is four modules longer.
#[test]
fn the_smallest_version_that_holds_the_text_is_taken() {
    for (version, bytes) in [(1, 17), (10, 271), (20, 858), (29, 1_628), (30, 1_732)] {
        let text = |length: usize| format!("file:x#{}", "b".repeat(length));
        let side = 17 + 4 * version + 2 * QUIET;
        assert_eq!(code(&text(bytes)).side, side);
        assert_eq!(scanned(&code(&text(bytes))), "b".repeat(bytes));
        let next = code(&text(bytes + 1));
        if version < 30 {
            assert_eq!(next.side, side + 4);
        } else {
            assert_eq!((next.side, next.path.as_str()), (0, ""));
            assert!(next.note.contains("1733 characters"), "{}", next.note);
        }
    }
}

/// ISO/IEC 18004, clause 6.3.8 (from memory): four clear modules on each side.
#[test]
fn the_edge_is_clear() {
    let code = code(&format!("https://example.org/#{}", link::write(&Shop::demo())));
    let rows = modules(&code);
    let edge = |at: usize| at < 4 || at >= rows.len() - 4;
    for (y, row) in rows.iter().enumerate() {
        for (x, &dark) in row.iter().enumerate() {
            assert!(!dark || !(edge(x) || edge(y)), "{x}, {y} is dark");
        }
    }
    assert!(
        rows[4][4] && rows[4][10] && rows[10][4],
        "a finder pattern stands at the corner"
    );
    assert_eq!(code.side_mm, f64::from(code.side) * MODULE_MM);
}

#[test]
fn an_address_that_leads_no_phone_anywhere_is_left_out_and_said() {
    for (base, reached) in [
        ("https://example.org/bellows/", true),
        ("http://192.168.1.20:8000/", true),
        ("http://127.example.org/", true),
        ("http://user@example.org/", true),
        ("file:///home/someone/bellows.html", false),
        ("http://127.0.0.1:8000/", false),
        ("http://localhost/", false),
        ("http://localhost:8000", false),
        ("http://[::1]:8000/", false),
        ("https://", false),
        ("blob:null/4a", false),
        ("", false),
    ] {
        let code = code(&format!("{base}#b1.AAAA"));
        assert_eq!(code.text == format!("{base}#b1.AAAA"), reached, "{base}");
        assert_eq!(code.text == "b1.AAAA", !reached, "{base}");
        assert_eq!(code.note.contains("Open a link"), !reached, "{base}");
    }
}
