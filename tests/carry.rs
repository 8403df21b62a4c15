//! Carrying against the NIOSH applications manual (1994), the inclined plane and facts of the trade.

#![allow(clippy::disallowed_methods, reason = "a test asks for what was found")]
use bellows::physics::carry::{
    Carry, HANDS_M, Lift, Load, MASS_KG, PUSH_N, carry, one_person_kg, ramp_push_n, shortest_ramp_m,
    two_people_kg,
};
use proptest::prelude::*;

/// The limit of a lift over the load constant.
fn share(reach_m: f64, from_m: f64, to_m: f64) -> f64 {
    let lift = Lift {
        reach_m,
        from_m,
        to_m,
    };
    one_person_kg(lift).map_or(f64::NAN, |kg| kg / 23.0)
}

#[test]
fn multipliers_are_those_of_the_manuals_tables() {
    // NIOSH 94-110 tables 1 to 3, metric columns (from memory), two figures printed.
    for (reach, printed) in [
        (0.25, 1.0),
        (0.30, 0.83),
        (0.40, 0.63),
        (0.50, 0.50),
        (0.60, 0.42),
    ] {
        assert!((share(reach, 0.75, 0.75) - printed).abs() < 0.0051, "H {reach}");
    }
    for (height, printed) in [(0.0, 0.78), (0.30, 0.87), (0.50, 0.93), (1.0, 0.93), (1.50, 0.78)] {
        assert!(
            (share(0.25, height, height) - printed).abs() < 0.0051,
            "V {height}"
        );
    }
    // Distance about knuckle height: both ends equally far from it, so the vertical multiplier is known.
    for (rise, printed) in [(0.25, 1.0), (0.40, 0.93), (0.55, 0.90), (1.0, 0.87), (1.5, 0.85)] {
        let vertical = 1.0 - 0.3 * rise / 2.0;
        let read = share(0.25, 0.75 - rise / 2.0, 0.75 + rise / 2.0) / vertical;
        assert!((read - printed).abs() < 0.0051, "D {rise}: {read}");
    }
}

#[test]
fn a_worked_lift_by_the_manual() {
    // NIOSH 94-110, example 1, loading punch-press stock, end of the lift (from memory): H 23 in, V 63 in, D 48 in:
    // 51 lb x 0.44 x 0.75 x 0.86 = 14.5 lb. The metric form is lower: 10 in for 25 cm 1.6 %, 51 lb for 23 kg 0.6 %,
    // the vertical multiplier 1 %; the example rounds its multipliers to two figures, 1.2 %. In all 4.4 %.
    let inch = 0.0254;
    let lift = Lift {
        reach_m: 23.0 * inch,
        from_m: 15.0 * inch,
        to_m: 63.0 * inch,
    };
    let pounds = one_person_kg(lift).unwrap() / 0.453_592_37;
    assert!((0.95..=1.0).contains(&(pounds / 14.5)), "{pounds}");
}

#[test]
fn two_lift_more_than_one_and_less_than_twice() {
    let lift = Lift::onto(0.8);
    let (one, two) = (one_person_kg(lift).unwrap(), two_people_kg(lift).unwrap());
    // HSE L23: two thirds of the sum (from memory).
    assert!((two / one - 4.0 / 3.0).abs() < 1e-12);
    assert!(one < 23.0);
}

#[test]
fn a_ramp_is_the_inclined_plane() {
    // Statics: without a slope only rolling is left, 3 % of 588 N; straight up it is the weight.
    assert!((ramp_push_n(60.0, 0.0, 2.0).unwrap() - 0.03 * 588.4).abs() < 0.01);
    assert!((ramp_push_n(60.0, 1.0, 1.0).unwrap() - 588.4).abs() < 0.01);
    for kilograms in 20..=500 {
        for centimetres in [10, 60, 90] {
            let (mass, height) = (f64::from(kilograms), f64::from(centimetres) / 100.0);
            match shortest_ramp_m(mass, height).unwrap() {
                Some(length) if length <= 50.0 => {
                    let push = ramp_push_n(mass, height, length).unwrap();
                    let slope = (height / length).asin().to_degrees();
                    // No ramp above 20 degrees (judgement); where the slope decides, the push is easier.
                    assert!(slope <= 20.0 + 1e-9, "{mass} kg: {slope} degrees");
                    assert!(push <= PUSH_N + 1e-6, "{mass} kg: {push}");
                    assert!(
                        push > PUSH_N - 1e-6 || slope > 20.0 - 1e-9,
                        "{mass} kg: {push}, {slope}"
                    );
                }
                Some(length) => assert!(ramp_push_n(mass, height, 50.0).unwrap() > PUSH_N, "{length}"),
                None => assert!(0.03 * mass * 9.806 >= PUSH_N * 0.999),
            }
        }
    }
}

#[test]
fn the_way_into_the_car_follows_mass_and_wheels() {
    // Hand sums, 0.6 m: 23 kg x 0.625 x 0.895 x 0.895 = 11.5 kg alone, 15.3 kg for two. 170 N push 55 kg up 0.6 m
    // over 2.1 m, 120 kg over 5.2 m; folding ramps end at 10 ft, 3.05 m. Common practice, no source: wheels go up a plank, a big upright stays.
    let way = |mass_kg, wheels| {
        carry(Load {
            mass_kg,
            tailgate_m: 0.6,
            wheels,
            own_limit_kg: None,
        })
        .unwrap()
    };
    assert_eq!(way(10.0, false), Carry::Alone);
    assert_eq!(way(14.0, false), Carry::Two);
    assert_eq!(way(55.0, true), Carry::Ramp);
    assert_eq!(way(55.0, false), Carry::Stays);
    assert_eq!(way(120.0, true), Carry::Stays);
    // The builder's own figure counts before the advice.
    let own = Load {
        mass_kg: 30.0,
        tailgate_m: 0.6,
        wheels: false,
        own_limit_kg: Some(30.0),
    };
    assert_eq!(carry(own).unwrap(), Carry::Alone);
}

#[test]
fn a_refusal_says_what_was_read() {
    let error = ramp_push_n(60.0, 1.0, 0.5).unwrap_err();
    assert_eq!(error.to_string(), "length of the ramp is 0.5; use 1 to 50");
}

proptest! {
    #[test]
    fn no_finite_input_gives_nan(
        wild in prop::num::f64::NORMAL | prop::num::f64::ZERO | prop::num::f64::SUBNORMAL,
        mass in -1.0..2_500.0_f64, height in -0.1..2.0_f64, ramp in 0.0..60.0_f64,
        reach in -0.1..0.7_f64, to in -0.1..2.0_f64, pick in 0_usize..5, wheels in any::<bool>(),
    ) {
        let mut v = [mass, height, ramp, reach, to];
        v[pick] = wild;
        let lift = Lift { reach_m: v[3], from_m: v[1], to_m: v[4] };
        let mut out = Vec::new();
        out.extend(one_person_kg(lift));
        out.extend(two_people_kg(Lift::onto(v[1])));
        out.extend(ramp_push_n(v[0], v[1], v[2]));
        out.extend(shortest_ramp_m(v[0], v[1]).ok().flatten());
        let load = Load { mass_kg: v[0], tailgate_m: v[1], wheels, own_limit_kg: Some(v[2]) };
        for load in [load, Load { own_limit_kg: None, ..load }] {
            prop_assert!(carry(load).is_err() || (MASS_KG.contains(&v[0]) && HANDS_M.contains(&v[1])));
        }
        prop_assert!(out.iter().all(|value| value.is_finite() && *value >= 0.0), "{v:?} {out:?}");
    }
}
