//! American Wire Gauge: sizes that are made, and their conductor area.

use std::f64::consts::FRAC_PI_4;

use super::factor::M_PER_IN;

/// Sizes of building wire and cord, from thin to thick: gauge number and as written.
/// Source: the list of NEC (NFPA 70) chapter 9 table 8, from 18 AWG to 4/0 (from memory).
pub(super) static SIZES: [(i8, &str); 15] = [
    (18, "18 AWG"),
    (16, "16 AWG"),
    (14, "14 AWG"),
    (12, "12 AWG"),
    (10, "10 AWG"),
    (8, "8 AWG"),
    (6, "6 AWG"),
    (4, "4 AWG"),
    (3, "3 AWG"),
    (2, "2 AWG"),
    (1, "1 AWG"),
    (0, "1/0 AWG"),
    (-1, "2/0 AWG"),
    (-2, "3/0 AWG"),
    (-3, "4/0 AWG"),
];

/// Area of a solid conductor of gauge n, m².
///
/// d = 0.005 in × 92^((36 − n)/39),  A = π d²/4
///
/// n is `number`, with 1/0 as 0, 2/0 as −1 and so on.
///
/// # Source
/// ASTM B258 (from memory).
/// # Example
/// 14 AWG has 2.081 mm² (NEC chapter 9 table 8: 4,110 circular mils):
/// ```
/// assert!((quantity::gauge::area_m2(14) * 1e6 - 2.081).abs() < 5e-4);
/// ```
pub fn area_m2(number: i8) -> f64 {
    let diameter = 0.005 * M_PER_IN * 92_f64.powf(f64::from(36 - i32::from(number)) / 39.0);
    FRAC_PI_4 * diameter * diameter
}

/// The size whose area is within 1 % of `area`, m². Neighbours differ by a quarter or more, and no metric size
/// (IEC 60228) comes nearer than 3 %.
pub(super) fn written(area: f64) -> Option<&'static str> {
    let (_, text) = SIZES
        .iter()
        .find(|(number, _)| (area / area_m2(*number) - 1.0).abs() <= 0.01)?;
    Some(text)
}

/// The next thinner and the next thicker size that is made, as written.
pub(super) fn neighbours(number: f64) -> (Option<&'static str>, Option<&'static str>) {
    let thinner = SIZES.iter().rev().find(|(size, _)| f64::from(*size) > number);
    let thicker = SIZES.iter().find(|(size, _)| f64::from(*size) < number);
    (thinner.map(|(_, text)| *text), thicker.map(|(_, text)| *text))
}
