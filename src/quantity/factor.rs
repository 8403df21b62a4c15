//! Sizes of the units that the trade counts in, each once.
//!
//! Exact by definition: the international yard and pound (1959), the US gallon of 231 in³, standard gravity. Checked in
//! `tests/text.rs` against NIST SP 811 (2008), appendix B.

/// Metres in an inch.
pub const M_PER_IN: f64 = 0.0254;
/// Metres in a foot.
pub const M_PER_FT: f64 = 0.3048;
/// Cubic metres in a cubic foot.
pub const M3_PER_FT3: f64 = M_PER_FT * M_PER_FT * M_PER_FT;
/// Cubic metres in a US gallon: 231 in³.
pub const M3_PER_GALLON: f64 = 0.003_785_411_784;
/// Cubic metres per second in a cubic foot per minute.
pub const M3_S_PER_CFM: f64 = 0.028_316_846_592 / 60.0;
/// Kilograms in a pound.
pub const KG_PER_LB: f64 = 0.453_592_37;
/// Standard gravity, m/s².
pub const STANDARD_GRAVITY: f64 = 9.806_65;
/// Pascal in a pound-force per square inch: 0.453 592 37 kg x 9.806 65 m/s² / (0.0254 m)².
pub const PA_PER_PSI: f64 = 6_894.757_293_168;
/// Watts in a horsepower of 550 ft lbf/s.
pub const W_PER_HP: f64 = 550.0 * M_PER_FT * KG_PER_LB * STANDARD_GRAVITY;
/// Kelvin at 0 °C.
pub const K_AT_0_C: f64 = 273.15;
/// Seconds in a minute.
pub const S_PER_MIN: f64 = 60.0;
/// Seconds in an hour.
pub const S_PER_H: f64 = 3_600.0;
