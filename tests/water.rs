//! Water against CoolProp's humid air and `psychrolib`.

#![allow(clippy::disallowed_methods, reason = "a test asks for what was found")]
#![allow(clippy::unwrap_used, reason = "a helper of a test may fail loudly too")]

use bellows::physics::air::{Air, ZERO_CELSIUS};
use bellows::physics::water::{
    DESICCANT_C, Dryer, ISO_8573_WATER_C, REFRIGERATED_C, at_tool, carried_kg_m3, condensate_kg_h,
    condensate_kg_m3, condensate_per_fill_kg, hours_to_collect, paint_air, pressure_dew_point_kelvin,
    rested_ratio,
};
use bellows::quantity::{Absolute, FreeAir, Gauge};
use proptest::prelude::*;

fn sea_level(celsius: f64, humidity: f64) -> Air {
    Air::new(Absolute::pa(101_325.0), celsius + ZERO_CELSIUS, humidity).unwrap()
}

#[test]
fn condensate_agrees_with_coolprop_and_psychrolib() {
    let mut counts = [0; 2];
    for line in include_str!("fixtures/humid_air.csv").lines() {
        let Some(row) = line.strip_prefix("condensate,") else {
            continue;
        };
        let v: Vec<f64> = row.split(',').map(|f| f.parse().unwrap()).collect();
        let inlet = Air::new(Absolute::pa(v[2]), v[0] + ZERO_CELSIUS, v[1]).unwrap();
        let tank = Absolute::pa(v[2] + v[3]);
        let read = 1e3 * condensate_kg_m3(&inlet, tank, v[4] + ZERO_CELSIUS).unwrap();
        let carried = 1e3 * carried_kg_m3(&inlet, tank, v[4] + ZERO_CELSIUS).unwrap();
        let taken_in = read + carried;
        // Two enhancement factors lie 0.1 % apart in what the tank holds, 0.05 % in what comes in. Where little drops
        // that is much of little: so 1 % of the drop, or 0.15 % of what was taken in.
        let right = v[5].max(0.0);
        let allowed = (0.01 * right).max(0.0015 * taken_in);
        assert!((read - right).abs() < allowed, "{line}: {read}");
        // psychrolib leaves the factor out: up to 0.5 % of what comes in and 3.6 % of what the tank holds.
        let allowed = 0.006 * taken_in + 0.04 * carried;
        assert!((read - v[6].max(0.0)).abs() < allowed, "{line}: {read}");
        counts[usize::from(read > 0.0)] += 1;
    }
    assert!(counts[0] >= 10 && counts[1] >= 40, "{counts:?}");
}

#[test]
fn the_two_published_figures_hold() {
    // `psychrolib` 2.5 and CoolProp, 120 psig, sea level: three and two figures printed.
    for (celsius, humidity, grams, within) in [(30.0, 0.8, 21.1, 0.05), (20.0, 0.5, 6.8, 0.05)] {
        let inlet = sea_level(celsius, humidity);
        let tank = Gauge::psi(120.0).at(inlet.pressure());
        let read = 1e3 * condensate_kg_m3(&inlet, tank, inlet.kelvin()).unwrap();
        assert!((read - grams).abs() < within, "{read} against {grams}");
    }
}

#[test]
fn many_fills_drop_what_the_flow_drops() {
    // Balance: a fill from 90 to 120 psig, with the vapour of the air below it already settled, takes in
    // (m_b − m_a)/ρ_d of free air. It drops what that air drops, but for the settled vapour's own squeezing:
    // saturated air holds the same vapour per volume at any pressure, so that part is the enhancement factor's 1 %.
    let inlet = sea_level(30.0, 0.8);
    let (low, high) = (90.0, 120.0);
    let at = |psi| Gauge::psi(psi).at(inlet.pressure());
    let fill = condensate_per_fill_kg(&inlet, 0.1, at(low), at(high), 303.15).unwrap();
    let dry = |psi| Air::saturated(at(psi), 303.15).unwrap().dry_kg_m3() * 0.1;
    let free_m3 = (dry(high) - dry(low)) / inlet.dry_kg_m3();
    // All of the water of the new air drops: 24.3 g/m³ at 30 °C and 80 % (30.4 g/m³ saturated, steam table).
    let per_m3 = fill / free_m3;
    assert!((per_m3 / 0.0243 - 1.0).abs() < 0.02, "{per_m3}");
}

#[test]
fn dry_air_drops_nothing_and_damp_air_fills_a_small_bottle_in_a_day() {
    let dry = sea_level(20.0, 0.05);
    let tank = Gauge::psi(120.0).at(dry.pressure());
    assert_eq!(condensate_kg_m3(&dry, tank, 293.15).unwrap(), 0.0);
    assert_eq!(hours_to_collect(0.25, 0.0).unwrap(), None);
    // Common practice, no source: a home compressor in a humid summer gives a cup or two of water a day.
    let damp = sea_level(30.0, 0.8);
    let per_m3 = condensate_kg_m3(&damp, tank, 303.15).unwrap();
    let hourly = condensate_kg_h(per_m3, FreeAir::cfm(4.0), 0.5).unwrap();
    let hours = hours_to_collect(0.25, hourly).unwrap().unwrap();
    assert!((2.0..8.0).contains(&hours), "{hours}");
}

#[test]
fn hot_air_rains_in_the_hose_and_cool_air_does_not() {
    let inlet = sea_level(25.0, 0.7);
    let at = |psi| Gauge::psi(psi).at(inlet.pressure());
    let cool = at_tool(&inlet, at(120.0), 298.15, at(90.0), 298.15).unwrap();
    assert!(cool.liquid_kg_m3 == 0.0 && cool.humidity < 0.8);
    let hot = at_tool(&inlet, at(120.0), 323.15, at(90.0), 298.15).unwrap();
    assert!(hot.liquid_kg_m3 > 0.0 && hot.humidity == 1.0);
    // Water is neither made nor lost: dropped in tank and hose, and carried on.
    let dropped = condensate_kg_m3(&inlet, at(120.0), 323.15).unwrap();
    let onward = carried_kg_m3(&inlet, at(90.0), 298.15).unwrap();
    let all = inlet.dry_kg_m3() * inlet.humidity_ratio();
    assert!((dropped + hot.liquid_kg_m3 + onward - all).abs() < 1e-12);
}

#[test]
fn pressure_dew_point_of_expanded_air_agrees_with_coolprop() {
    // CoolProp 8.0.0, HAPropsSI: saturated at the first pair, expanded to 101 325 Pa, dew or frost point in °C.
    // 0.1 % of the vapour's pressure is 0.015 K. Charts that say -23 °C in the first row count over supercooled
    // water, not over ice.
    for (celsius, pa, expanded) in [
        (3.0, 801_325.0, -20.525),
        (10.0, 801_325.0, -15.432),
        (25.0, 929_000.0, -6.471),
        (40.0, 929_000.0, 4.169),
    ] {
        let inlet = sea_level(45.0, 1.0);
        let tank = Absolute::pa(pa);
        let dew = |line| {
            let kelvin = celsius + ZERO_CELSIUS;
            pressure_dew_point_kelvin(&inlet, tank, kelvin, line).unwrap() - ZERO_CELSIUS
        };
        let open = dew(Absolute::pa(101_325.0));
        assert!((open - expanded).abs() < 0.03, "{open} against {expanded}");
        assert!((dew(tank) - celsius).abs() < 1e-6);
    }
}

#[test]
fn painting_wants_a_dryer_and_the_classes_agree() {
    assert_eq!(ISO_8573_WATER_C[3], REFRIGERATED_C);
    assert_eq!(ISO_8573_WATER_C[1], DESICCANT_C);
    let dryer = |dew, coldest| {
        paint_air(dew + ZERO_CELSIUS, coldest + ZERO_CELSIUS)
            .unwrap()
            .dryer
    };
    assert_eq!(dryer(20.0, 20.0), Dryer::Refrigerated);
    assert_eq!(dryer(20.0, 12.0), Dryer::Desiccant);
    assert_eq!(dryer(-5.0, 20.0), Dryer::None);
    assert_eq!(dryer(-35.0, -35.0), Dryer::Beyond);
    let error = paint_air(f64::NAN, 290.0).unwrap_err();
    assert_eq!(error.to_string(), "dew point is NaN; use 173.15 to 473.15");
}

proptest! {
    #[test]
    fn no_finite_input_gives_nan(
        wild in prop::num::f64::NORMAL | prop::num::f64::ZERO | prop::num::f64::SUBNORMAL,
        pa in 20e3..120e3_f64, kelvin in 220.0..320.0_f64, humidity in 0.0..1.0_f64,
        tank in 50e3..2e6_f64, hot in 230.0..380.0_f64, line in 50e3..2e6_f64, cold in 230.0..380.0_f64,
        pick in 0_usize..8,
    ) {
        let mut v = [pa, kelvin, humidity, tank, hot, line, cold, 0.1];
        v[pick] = wild;
        let Ok(inlet) = Air::new(Absolute::pa(v[0]), v[1], v[2]) else { return Ok(()) };
        let (tank, line) = (Absolute::pa(v[3]), Absolute::pa(v[5]));
        let mut out = Vec::new();
        out.extend(rested_ratio(&inlet, tank, v[4]));
        out.extend(condensate_kg_m3(&inlet, tank, v[4]));
        out.extend(condensate_per_fill_kg(&inlet, v[7], inlet.pressure(), tank, v[4]));
        out.extend(at_tool(&inlet, tank, v[4], line, v[6]).map(|tool| tool.humidity));
        out.extend(pressure_dew_point_kelvin(&inlet, tank, v[4], line));
        out.extend(paint_air(v[4], v[6]).map(|paint| paint.needed_kelvin));
        out.extend(condensate_kg_h(v[7], FreeAir::m3_s(v[7]), v[2]));
        out.extend(hours_to_collect(v[7], v[2]).ok().flatten());
        prop_assert!(out.iter().all(|value| value.is_finite() && *value >= 0.0), "{v:?} {out:?}");
    }
}
