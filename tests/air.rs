//! Air against the US Standard Atmosphere 1976, ASHRAE by `psychrolib`, and CoolProp's humid air.

#![allow(clippy::disallowed_methods, reason = "a test asks for what was found")]
use bellows::physics::air::{
    Air, AirError, RATING, ZERO_CELSIUS, dew_point_kelvin, saturation_pressure_pa, standard_kelvin,
    standard_pressure, viscosity,
};
use bellows::quantity::Absolute;
use proptest::prelude::*;
use uom::si::mass_density::{kilogram_per_cubic_meter, pound_per_cubic_foot};

fn near(read: f64, printed: f64, share: f64, what: &str) {
    let off = read / printed - 1.0;
    assert!(
        off.abs() <= share,
        "{what}: {read} against {printed}, off by {off:.5}"
    );
}

#[test]
fn pressure_and_temperature_are_the_standard_atmospheres() {
    // US 1976 against geometric feet, psia, by `fluids` 1.3.1 (10,000 ft from memory, four figures); five printed.
    for (feet, psia, share) in [
        (0.0, 14.696, 5e-5),
        (2_500.0, 13.416, 5e-5),
        (5_000.0, 12.228, 5e-5),
        (7_200.0, 11.255, 5e-5),
        (10_000.0, 10.11, 5e-4),
    ] {
        let read = standard_pressure(feet * 0.3048).unwrap().as_psi();
        near(read, psia, share, "psia");
    }
    // US 1976 table I, geometric metres: Pa, K (from memory); five and six figures printed.
    for (metres, pa, kelvin) in [
        (0.0, 101_325.0, 288.150),
        (2_000.0, 79_501.0, 275.154),
        (4_000.0, 61_660.0, 262.166),
    ] {
        near(standard_pressure(metres).unwrap().as_pa(), pa, 1e-5, "Pa");
        near(standard_kelvin(metres).unwrap(), kelvin, 4e-6, "K");
    }
}

/// Rows of a kind, CoolProp 8.0.0's humid air (ASHRAE RP-1485); `humid_air.py` beside the file made it.
fn coolprop(kind: &str) -> Vec<Vec<f64>> {
    let rows: Vec<Vec<f64>> = include_str!("fixtures/humid_air.csv")
        .lines()
        .filter_map(|line| line.strip_prefix(kind)?.strip_prefix(','))
        .map(|row| row.split(',').filter_map(|f| f.parse().ok()).collect())
        .collect();
    assert!(rows.len() > 100 && rows.iter().all(|row| row.len() == 7));
    rows
}

#[test]
fn density_and_water_agree_with_coolprop_over_every_place() {
    // Real gas against ideal gas with an enhancement factor: the compressibility of air near 1 atm is within
    // 0.1 % of one; 0.2 % leaves room for the vapour's. Two fits of the enhancement lie 0.05 % apart, in 0.4 %.
    // Sutherland's law is for dry air and claims about 1 %.
    for row in coolprop("place") {
        let (kelvin, share, pa) = (row[0] + ZERO_CELSIUS, row[1], row[2]);
        let air = Air::new(Absolute::pa(pa), kelvin, share).unwrap();
        let density = air.density().get::<kilogram_per_cubic_meter>();
        near(density, row[3], 2e-3, "density");
        near(air.humidity_ratio() + 1e-12, row[4] + 1e-12, 1e-3, "ratio");
        if share > 0.0 {
            // 0.05 % of the vapour's pressure is 0.01 K.
            let dew = air.dew_point_kelvin().unwrap();
            assert!((dew - row[5]).abs() < 0.02, "{dew} against {}", row[5]);
        }
        if share == 0.0 {
            near(viscosity(kelvin).unwrap(), row[6], 0.01, "viscosity");
        }
    }
}

#[test]
fn a_full_tank_holds_what_coolprop_says() {
    // The enhancement factor is 2 to 7 % here; two fits of it lie 0.4 % apart at 13 bar and -30 °C.
    for row in coolprop("tank") {
        let (kelvin, share, pa) = (row[0] + ZERO_CELSIUS, row[1], row[2]);
        let air = Air::new(Absolute::pa(pa), kelvin, share).unwrap();
        near(air.humidity_ratio(), row[4], 4e-3, "ratio");
        // 0.4 % of the vapour's pressure is 0.05 K.
        let dew = air.dew_point_kelvin().unwrap();
        assert!((dew - row[5]).abs() < 0.06, "{dew} against {}", row[5]);
        // Ideal gas: the compressibility of air at 13 bar is 0.987 at -30 °C, and 0.993 or nearer to one from 0 °C up.
        let density = air.density().get::<kilogram_per_cubic_meter>();
        let share = if row[0] < 0.0 { 0.014 } else { 0.008 };
        near(density, row[3], share, "density");
    }
}

#[test]
fn saturation_and_humidity_agree_with_psychrolib() {
    let mut rows = [0; 3];
    for line in include_str!("fixtures/psychrometrics.csv").lines().skip(1) {
        let (kind, figures) = line.split_once(',').unwrap();
        let figures: Vec<f64> = figures.split(',').map(|f| f.parse().unwrap()).collect();
        let kelvin = figures[0] + ZERO_CELSIUS;
        match kind {
            // The same formula: only the eight printed figures differ. Between 0 and 0.01 °C both take ice.
            "saturation" => {
                let read = saturation_pressure_pa(kelvin).unwrap();
                near(read, figures[1], 1e-7, line);
                rows[0] += 1;
            }
            // psychrolib leaves out the enhancement factor: 0.3 to 0.6 % at a place, up to 4.2 % in a tank.
            "ratio" => {
                let air = Air::new(Absolute::pa(figures[2]), kelvin, figures[1]).unwrap();
                let over = air.humidity_ratio() / figures[3] - 1.0;
                let band = if figures[2] > 2e5 {
                    0.02..=0.042
                } else {
                    0.002..=0.006
                };
                assert!(band.contains(&over), "{line}: {over}");
                rows[1] += 1;
            }
            // psychrolib's dew point knows no pressure; the enhancement factor hardly varies along the way.
            "dew" => {
                let air = Air::new(Absolute::pa(101_325.0), kelvin, figures[1]).unwrap();
                let dew = air.dew_point_kelvin().unwrap() - ZERO_CELSIUS;
                assert!((dew - figures[2]).abs() < 0.02, "{line}: {dew}");
                rows[2] += 1;
            }
            _ => panic!("unknown row {line}"),
        }
    }
    assert!(rows.iter().all(|count| *count > 10), "{rows:?}");
}

#[test]
fn dew_point_comes_back_over_the_whole_range() {
    for tenths in -500..=700 {
        let kelvin = f64::from(tenths) / 10.0 + ZERO_CELSIUS;
        for pa in [101_325.0, 929e3] {
            let air = Air::saturated(Absolute::pa(pa), kelvin).unwrap();
            let back = air.dew_point_kelvin().unwrap();
            assert!((back - kelvin).abs() < 2e-2, "{kelvin} K came back as {back} K");
        }
    }
}

#[test]
fn rating_air_is_the_usual_seventy_five_thousandths() {
    // US Navy Diving Manual, chapter 8: 70 °F, 14.7 psia, 36 % RH, 0.075 lb/ft³; three figures.
    let read = RATING.density().get::<pound_per_cubic_foot>();
    near(read, 0.075, 0.005, "rating density");
}

#[test]
fn a_refusal_says_what_was_read() {
    let error = standard_pressure(40_000.0).unwrap_err();
    assert_eq!(error.to_string(), "altitude is 40000; use -500 to 6000");
    assert!(standard_pressure(f64::NAN).is_err());
    let steam = Air::saturated(Absolute::pa(50e3), 370.0).unwrap_err();
    assert!(matches!(steam, AirError::Steam { .. }));
}

proptest! {
    #[test]
    fn no_finite_input_gives_nan(
        wild in prop::num::f64::NORMAL | prop::num::f64::ZERO | prop::num::f64::SUBNORMAL,
        pa in 0.0..3e6_f64, kelvin in 150.0..500.0_f64, humidity in -0.1..1.1_f64,
        pick in 0_usize..4,
    ) {
        let mut v = [pa, kelvin, humidity, 1_000.0];
        v[pick] = wild;
        let mut out = Vec::new();
        if let Ok(air) = Air::new(Absolute::pa(v[0]), v[1], v[2]) {
            out.extend([air.humidity_ratio(), air.dry_kg_m3(), air.vapour_pressure().as_pa()]);
            out.push(air.density().get::<kilogram_per_cubic_meter>());
            out.extend(air.dew_point_kelvin());
        }
        out.extend(dew_point_kelvin(Absolute::pa(v[3]), Absolute::pa(v[0])));
        out.extend(standard_pressure(v[3]).map(Absolute::as_pa));
        out.extend(saturation_pressure_pa(v[1]));
        out.extend(viscosity(v[1]));
        prop_assert!(out.iter().all(|value| value.is_finite()), "{v:?} {out:?}");
        prop_assert!(out.iter().all(|value| *value >= 0.0), "{v:?} {out:?}");
    }
}
