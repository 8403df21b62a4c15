//! Money against unit identities and hand sums.

use bellows::physics::cost::{
    Budget, Extra, J_PER_KWH, Money, against, electricity, energy_kwh, price_per_cfm, set_total,
};
use bellows::quantity::FreeAir;
use proptest::prelude::*;

const EXTRAS: [Extra; 10] = [
    Extra::TrunkHose,
    Extra::Whip,
    Extra::Coupler,
    Extra::Regulator,
    Extra::Drain,
    Extra::Cord12,
    Extra::Cord10,
    Extra::Receiver10L,
    Extra::Trap,
    Extra::PaintAir,
];

#[test]
fn a_kilowatt_hour_is_3_6_megajoules() {
    // SI: 1 kW x 3 600 s; exact but for rounding.
    assert_eq!(J_PER_KWH, 1_000.0 * 3_600.0);
    assert!((energy_kwh(1_000.0, 1.0, 1.0).unwrap() - 1.0).abs() < 1e-12);
    // One metric horsepower hour, 735.498 75 W, is 0.7355 kWh (definition).
    assert!((energy_kwh(735.498_75, 2.0, 0.5).unwrap() - 0.735_498_75).abs() < 1e-12);
}

#[test]
fn a_build_by_hand() {
    // 15 A at 120 V is 1.8 kW; 1,500 h of work, running a fifth: 300 h, 540 kWh, at 0.17 91.80.
    let money = electricity(1_800.0, 1_500.0, 0.2, 0.17).unwrap();
    assert!((money - 91.8).abs() < 1e-9);
    // Flow and price: 28.316 85 L/min is 1 cfm.
    let each = price_per_cfm(120.0, FreeAir::m3_s(0.028_316_846_592 / 60.0)).unwrap();
    assert!((each - 120.0).abs() < 1e-9);
}

#[test]
fn a_set_adds_up_and_meets_the_budget() {
    // 15 m of trunk, 3 m of whip, 4 couplers, a drain, by the table's own ends: 22.5 + 6 + 16 + 8 and
    // 75 + 21 + 60 + 30 on top of 250.
    let set = [
        (Extra::TrunkHose, 15.0),
        (Extra::Whip, 3.0),
        (Extra::Coupler, 4.0),
        (Extra::Drain, 1.0),
    ];
    let total = set_total(250.0, &set).unwrap();
    assert_eq!((total.low, total.high), (302.5, 436.0));
    assert_eq!(against(total, 436.0).unwrap(), Budget::Within(0.0));
    assert_eq!(against(total, 302.5).unwrap(), Budget::Maybe);
    assert_eq!(against(total, 302.0).unwrap(), Budget::Over(0.5));
}

#[test]
fn thicker_cord_costs_more() {
    // Common practice, no source: more copper, more money; every range has two ends.
    let (ten, twelve) = (Extra::Cord10.typical(), Extra::Cord12.typical());
    assert!(ten.low > twelve.low && ten.high > twelve.high);
    for extra in EXTRAS {
        let Money { low, high } = extra.typical();
        assert!(0.0 < low && low < high, "{extra:?}");
    }
}

#[test]
fn a_refusal_says_what_was_read() {
    let error = electricity(1_800.0, 10.0, 1.5, 0.17).unwrap_err();
    assert_eq!(error.to_string(), "running share is 1.5; use 0 to 1");
    let turned = Money { low: 2.0, high: 1.0 };
    assert!(against(turned, 10.0).is_err());
    assert!(price_per_cfm(100.0, FreeAir::cfm(0.0)).is_err());
}

proptest! {
    #[test]
    fn no_finite_input_gives_nan(
        wild in prop::num::f64::NORMAL | prop::num::f64::ZERO | prop::num::f64::SUBNORMAL,
        watts in -1.0..1e5_f64, hours in -1.0..1e4_f64, share in -0.1..1.1_f64, price in -1.0..1e6_f64,
        pick in 0_usize..4,
    ) {
        let mut v = [watts, hours, share, price];
        v[pick] = wild;
        let mut out = Vec::new();
        out.extend(electricity(v[0], v[1], v[2], v[3]));
        out.extend(price_per_cfm(v[3], FreeAir::cfm(v[1])));
        for extra in EXTRAS {
            if let Ok(total) = set_total(v[3], &[(extra, v[1])]) {
                out.extend([total.low, total.high]);
                prop_assert!(total.low <= total.high);
                out.extend(match against(total, v[0]) {
                    Ok(Budget::Within(rest) | Budget::Over(rest)) => Some(rest),
                    _ => None,
                });
            }
        }
        prop_assert!(out.iter().all(|value| value.is_finite() && *value >= 0.0), "{v:?} {out:?}");
    }
}
