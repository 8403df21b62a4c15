//! Circuit against NEC (NFPA 70) tables, hand sums and facts of the trade.

#![allow(clippy::disallowed_methods, reason = "a test asks for what was found")]
#![allow(clippy::approx_constant, reason = "3.14 here is a printed figure of a table")]
#![allow(clippy::unwrap_used, reason = "helpers of tests: a refusal is a failed test")]
use bellows::physics::circuit::{
    Awg, BREAKER_AMPS, CircuitError, Code, CordSize, DROP_SHARE, Feed, M2_PER_CIRCULAR_MIL, Metal, Motor,
    Start, Strands, Trip, Wire, advised_cord, code_letter_kva_per_hp, conductor_celsius, cord_drop_share,
    drop_volts, full_load_amps, generator_use, horsepower_at, length_for_drop_m, longest_cord_m,
    motor_breaker_a, ohm_per_m, running, same_power_amps, starting, starting_amps, trip, warming_amps,
    wire_breaker_a,
};
use proptest::prelude::*;

const FOOT: f64 = 0.3048;

fn near(read: f64, printed: f64, share: f64, what: &str) {
    let off = read / printed - 1.0;
    assert!(
        off.abs() <= share,
        "{what}: {read} against {printed}, off by {off:.4}"
    );
}

fn bare(panel_volts: f64) -> Feed {
    Feed {
        panel_volts,
        branch: None,
        cord: None,
        other_amps: 0.0,
        celsius: 75.0,
    }
}

fn motor(volts: f64, amps: f64) -> Motor {
    Motor {
        volts,
        amps,
        starting_amps: 6.0 * amps,
    }
}

/// NEC chapter 9 table 8, uncoated copper, 75 °C: gauge, circular mils, ohm per 1,000 ft solid and stranded.
/// Solid 14 to 8 read; the others from memory.
const TABLE_8: [(u8, f64, Option<f64>, f64); 7] = [
    (18, 1_620.0, Some(7.77), 7.95),
    (16, 2_580.0, Some(4.89), 4.99),
    (14, 4_110.0, Some(3.07), 3.14),
    (12, 6_530.0, Some(1.93), 1.98),
    (10, 10_380.0, Some(1.21), 1.24),
    (8, 16_510.0, Some(0.764), 0.778),
    (6, 26_240.0, None, 0.491),
];

#[test]
fn resistance_and_area_follow_nec_chapter_9_table_8() {
    for (number, mils, solid, stranded) in TABLE_8 {
        let area = Awg::new(number).unwrap().area_m2();
        // The table rounds areas to ten circular mils: 0.3 % of the smallest.
        near(area / M2_PER_CIRCULAR_MIL, mils, 3e-3, "area");
        let per_1000_ft = |strands| ohm_per_m(area, strands, 75.0).unwrap() * 304.8;
        // Three figures printed, so half a unit in the third of 1.21 is 0.4 %; lay of the strands is rounded to 2 %.
        if let Some(solid) = solid {
            near(per_1000_ft(Strands::Solid), solid, 5e-3, "solid");
        }
        near(per_1000_ft(Strands::Stranded), stranded, 6e-3, "stranded");
    }
}

#[test]
fn resistance_rises_with_temperature_as_the_tables_note_says() {
    // NEC chapter 9 table 8, note 2: R2 = R1 (1 + 0.003 23 (T2 − 75)) (from memory); three figures printed.
    let at = |celsius| ohm_per_m(2e-6, Strands::Solid, celsius).unwrap();
    near(at(25.0) / at(75.0), 1.0 - 50.0 * 0.003_23, 1e-3, "25 °C");
    near(at(90.0) / at(75.0), 1.0 + 15.0 * 0.003_23, 1e-3, "90 °C");
}

#[test]
fn iec_conductors_stay_under_their_greatest_resistance() {
    // IEC 60228, class 5, plain copper, ohm/km at 20 °C, greatest allowed (from memory). The standard leaves the
    // maker up to 10 % of area and lay, so a conductor of the full area lies that much below, never above.
    for (mm2, most) in [(1.0, 19.5), (1.5, 13.3), (2.5, 7.98), (4.0, 4.95)] {
        let read = ohm_per_m(mm2 * 1e-6, Strands::Stranded, 20.0).unwrap() * 1e3;
        assert!(
            (0.88..=1.0).contains(&(read / most)),
            "{mm2} mm²: {read} against {most}"
        );
    }
}

#[test]
fn drop_agrees_with_the_electricians_formula() {
    // VD = 2 K I L / CM, K = 12.9 ohm cmil/ft for copper: common practice, no source. K has three figures.
    for (gauge, mils, amps, feet) in [
        (12, 6_530.0, 16.0, 100.0),
        (10, 10_380.0, 24.0, 150.0),
        (14, 4_110.0, 12.0, 50.0),
    ] {
        let per_metre = ohm_per_m(Awg::new(gauge).unwrap().area_m2(), Strands::Stranded, 75.0).unwrap();
        let read = drop_volts(amps, per_metre, feet * FOOT).unwrap();
        near(read, 2.0 * 12.9 * amps * feet / mils, 6e-3, "drop");
        let back = length_for_drop_m(read, amps, per_metre).unwrap();
        near(back, feet * FOOT, 1e-12, "the length back");
    }
}

#[test]
fn full_load_currents_are_those_of_nec_table_430_248() {
    // Read, but for the first two rows (from memory); the table is exact.
    for (hp, at_115, at_230) in [
        (1.0 / 6.0, 4.4, 2.2),
        (0.25, 5.8, 2.9),
        (1.0 / 3.0, 7.2, 3.6),
        (0.5, 9.8, 4.9),
        (0.75, 13.8, 6.9),
        (1.0, 16.0, 8.0),
        (1.5, 20.0, 10.0),
        (2.0, 24.0, 12.0),
        (3.0, 34.0, 17.0),
        (5.0, 56.0, 28.0),
        (7.5, 80.0, 40.0),
        (10.0, 100.0, 50.0),
    ] {
        near(full_load_amps(hp, 115.0).unwrap(), at_115, 1e-12, "115 V");
        near(full_load_amps(hp, 230.0).unwrap(), at_230, 1e-12, "230 V");
        near(horsepower_at(at_115, 120.0).unwrap(), hp, 1e-12, "back");
    }
    // The table's 208 V column (from memory), two figures printed: 8.8, 13.2, 18.7.
    for (hp, at_208) in [(1.0, 8.8), (2.0, 13.2), (3.0, 18.7)] {
        near(full_load_amps(hp, 208.0).unwrap(), at_208, 1e-2, "208 V");
    }
}

#[test]
fn code_letters_are_those_of_nec_table_430_7_b() {
    // G to M from the reference list, the others from memory. Printed ends stop 0.01 before the next row.
    for (letter, low, high) in [
        ('A', 0.0, 3.14),
        ('B', 3.15, 3.54),
        ('C', 3.55, 3.99),
        ('D', 4.0, 4.49),
        ('E', 4.5, 4.99),
        ('F', 5.0, 5.59),
        ('G', 5.6, 6.29),
        ('H', 6.3, 7.09),
        ('J', 7.1, 7.99),
        ('K', 8.0, 8.99),
        ('L', 9.0, 9.99),
        ('M', 10.0, 11.19),
        ('N', 11.2, 12.49),
        ('P', 12.5, 13.99),
        ('R', 14.0, 15.99),
        ('S', 16.0, 17.99),
        ('T', 18.0, 19.99),
        ('U', 20.0, 22.39),
    ] {
        let row = code_letter_kva_per_hp(letter).unwrap();
        assert_eq!(*row.start(), low, "{letter}");
        assert!((row.end() - high - 0.01).abs() < 1e-9, "{letter}");
        assert_eq!(row, code_letter_kva_per_hp(letter.to_ascii_lowercase()).unwrap());
    }
    assert_eq!(*code_letter_kva_per_hp('V').unwrap().start(), 22.4);
    for letter in ['I', 'O', 'Q', 'W', 'Z', '6', ' '] {
        let error = code_letter_kva_per_hp(letter).unwrap_err();
        assert_eq!(error, CircuitError::NoSuchLetter { letter });
    }
}

#[test]
fn typical_starting_multiple_lies_among_the_usual_code_letters() {
    // Common practice, no source: capacitor-start motors of 1 to 2 hp wear letters G to L.
    for hp in [1.0, 1.5, 2.0] {
        let amps = full_load_amps(hp, 115.0).unwrap();
        let typical = starting_amps(Start::Unknown, 115.0, amps).unwrap();
        let letter = |letter| {
            let start = Start::Letter {
                letter,
                horsepower: hp,
            };
            starting_amps(start, 115.0, amps).unwrap().likely
        };
        assert!(letter('F') < typical.high && typical.low < letter('L'));
        assert!(typical.low < typical.likely && typical.likely < typical.high);
    }
}

#[test]
fn two_hundred_and_forty_volts_halve_the_current() {
    // Common practice, no source: a plate of 14 A at 120 V says 7 to 7.5 A at 240 V.
    let amps = same_power_amps(14.0, 120.0, 240.0).unwrap();
    assert!((7.0..=7.5).contains(&amps));
    // Half the current against twice the voltage: a quarter of the drop share (Ohm's law).
    let cord = Some(Wire::cord(Awg::new(12).unwrap(), 30.0));
    let share = |volts: f64, amps: f64| {
        let feed = Feed { cord, ..bare(volts) };
        running(&feed, &motor(volts, amps)).unwrap().drop_share
    };
    // The running current rises a little with the drop, by about its 4 %.
    near(share(240.0, 7.0) * 4.0, share(120.0, 14.0), 0.05, "drop");
}

#[test]
fn branch_and_other_loads_take_their_share() {
    // Hand sum: 100 ft of 12 AWG solid at 1.93 ohm per 1,000 ft is 0.386 ohm; 5 A of other load takes 1.93 V
    // before the motor's own 10 A (at 120 V) drop 3.9 to 4.1 V, of which 0.85 are in step with the voltage.
    let feed = Feed {
        branch: Some(Wire::branch(Awg::new(12).unwrap(), 100.0 * FOOT)),
        other_amps: 5.0,
        ..bare(120.0)
    };
    let at = running(&feed, &motor(120.0, 10.0)).unwrap();
    let drop = 120.0 - at.volts;
    assert!(
        (1.93 + 0.85 * 3.9..1.93 + 0.85 * 4.1 + 0.03).contains(&drop),
        "{drop}"
    );
    near(at.volts * at.amps, 1_200.0, 1e-12, "constant power");
    near(at.drop_share, drop / 120.0, 1e-9, "share");
}

#[test]
fn a_starved_motor_says_what_the_wire_passes() {
    let feed = Feed {
        cord: Some(Wire::cord(Awg::new(18).unwrap(), 300.0)),
        ..bare(120.0)
    };
    let error = running(&feed, &motor(120.0, 15.0)).unwrap_err();
    // 120² / (2 x 600 m x 25.95 mohm/m x (1 + 0.85)) = 250 VA (hand sum, 7.91 ohm per 1,000 ft; NEC prints 7.95).
    assert_eq!(
        error.to_string(),
        "the wire passes at most 250 VA, not 1800 VA: use thicker or shorter wire"
    );
    let error = running(&bare(5.0), &motor(120.0, 15.0)).unwrap_err();
    assert_eq!(error.to_string(), "panel voltage is 5; use 6 to 700");
}

/// NEC table 400.5(A)(1), two current-carrying conductors (from memory); IEC 60799 in the last rows (from memory).
#[test]
fn cords_carry_what_their_tables_say() {
    for (number, amps) in [(18, 10.0), (16, 13.0), (14, 18.0), (12, 25.0), (10, 30.0)] {
        let area = Awg::new(number).unwrap().area_m2();
        assert_eq!(CordSize::of(Code::Nec, area).carries_a, amps);
    }
    // Between two sizes it carries what the thinner one does; below the list less than its thinnest.
    assert_eq!(
        CordSize::of(Code::Nec, Awg::new(13).unwrap().area_m2()).carries_a,
        18.0
    );
    assert!(CordSize::of(Code::Nec, Awg::new(20).unwrap().area_m2()).carries_a < 10.0);
    for (mm2, amps) in [(1.0, 10.0), (1.5, 16.0), (2.5, 25.0)] {
        assert_eq!(CordSize::of(Code::Iec, mm2 * 1e-6).carries_a, amps);
    }
}

/// A row of a printed table: most amps at 120 V; feet and gauge.
type Row = (f64, &'static [(f64, u8)]);

/// "Minimum gauge", printed in tool manuals (read).
const LEAST_GAUGE: [Row; 4] = [
    (6.0, &[(25.0, 18), (50.0, 16), (100.0, 16), (150.0, 14)]),
    (10.0, &[(25.0, 18), (50.0, 16), (100.0, 14), (150.0, 12)]),
    (12.0, &[(25.0, 16), (50.0, 16), (100.0, 14), (150.0, 12)]),
    (16.0, &[(25.0, 14), (50.0, 12)]),
];
/// "Drop of five volts at 150 % of the rated amperes", printed in tool manuals (read); empty cells are left out, "16 or 18" is
/// 16.
const FIVE_VOLTS: [Row; 4] = [
    (
        7.0,
        &[(25.0, 18), (50.0, 16), (75.0, 14), (100.0, 12), (150.0, 12)],
    ),
    (12.0, &[(25.0, 16), (50.0, 14), (75.0, 12), (100.0, 10)]),
    (16.0, &[(25.0, 14), (50.0, 12), (75.0, 10)]),
    (20.0, &[(25.0, 12), (50.0, 10)]),
];

fn gauge_of(size: CordSize) -> u8 {
    let off = |number: &u8| (Awg::new(*number).unwrap().area_m2() - size.area_m2).abs();
    (0..=20_u8)
        .step_by(2)
        .min_by(|one, other| off(one).total_cmp(&off(other)))
        .unwrap()
}

#[test]
fn advised_cords_agree_with_both_printed_tables_within_one_gauge() {
    let mut seen = 0;
    for (amps, cells) in LEAST_GAUGE.iter().chain(&FIVE_VOLTS) {
        for (feet, printed) in *cells {
            let advice = advised_cord(Code::Nec, *amps, 120.0, feet * FOOT).unwrap();
            let found = gauge_of(advice.size.unwrap());
            assert!(
                found.abs_diff(*printed) <= 2,
                "{amps} A over {feet} ft: {found}, printed {printed}"
            );
            assert!(
                !advice.rather_hose,
                "{amps} A over {feet} ft has a gauge in print"
            );
            seen += 1;
        }
    }
    assert_eq!(seen, 28);
}

#[test]
fn what_the_printed_table_does_not_recommend_is_not_a_cord() {
    // "Minimum gauge", to 16 A at 100 ft and beyond: "not recommended" (read).
    for feet in [100.0, 150.0] {
        assert!(
            advised_cord(Code::Nec, 16.0, 120.0, feet * FOOT)
                .unwrap()
                .rather_hose
        );
    }
}

#[test]
fn longest_cord_comes_back_as_its_own_drop() {
    for tenths in 40..=250 {
        let amps = f64::from(tenths) / 10.0;
        for size in CordSize::sold(Code::Nec) {
            let longest = longest_cord_m(size, amps, 120.0).unwrap();
            if amps > size.carries_a {
                assert_eq!(longest, 0.0);
                continue;
            }
            // A closed form: only rounding is left.
            let share = cord_drop_share(amps, 120.0, size.area_m2, longest).unwrap();
            near(share, DROP_SHARE, 1e-12, "share");
        }
    }
}

#[test]
fn a_long_thin_cord_starves_the_start_and_a_thick_one_does_not() {
    // Common practice, no source: 12 A machines hum and stand still on 100 ft of 16 AWG, and run on 50 ft of 12 AWG.
    let on = |gauge, feet: f64| {
        let feed = Feed {
            cord: Some(Wire::cord(Awg::new(gauge).unwrap(), feet * FOOT)),
            branch: Some(Wire::branch(Awg::new(14).unwrap(), 40.0 * FOOT)),
            celsius: 20.0,
            ..bare(120.0)
        };
        starting(&feed, &motor(120.0, 12.0)).unwrap().plate_share
    };
    assert!(on(16, 100.0) < 0.7, "{}", on(16, 100.0));
    assert!(on(12, 50.0) > 0.8, "{}", on(12, 50.0));
}

#[test]
fn drops_add_as_vectors_and_lie_below_the_sum_of_their_sizes() {
    // Hand sum: 2.0 ohm at power factor 0.7 is 1.4 + j1.428; behind 1 ohm |2.4 + j1.428| = 2.793, so 120 x 2/2.793 = 85.9 V,
    // where the sizes alone would leave 80 V.
    let one_ohm = Wire {
        area_m2: 1.7586e-6,
        strands: Strands::Stranded,
        metal: Metal::Copper,
        length_m: 50.0,
    };
    let feed = Feed {
        cord: Some(one_ohm),
        celsius: 20.0,
        ..bare(120.0)
    };
    let at = starting(&feed, &motor(120.0, 10.0)).unwrap();
    near(at.volts, 85.93, 2e-3, "volts");
    // And the phasors of the running motor close: (V + R I c)² + (R I s)² = V₀².
    let run = running(&feed, &motor(120.0, 10.0)).unwrap();
    let (drop, c) = (run.amps * one_ohm.loop_ohm(20.0).unwrap(), 0.85_f64);
    let closed = (run.volts + drop * c).hypot(drop * (1.0 - c * c).sqrt());
    near(closed, 120.0, 1e-12, "panel");
}

#[test]
fn copper_is_cold_at_a_cold_start_and_warm_at_full_load() {
    // NEC tables 310.16 and 400.5(A)(1) state ampacities for 30 °C about (from memory).
    near(conductor_celsius(30.0, 1.0), 60.0, 1e-12, "full");
    near(conductor_celsius(4.0, 0.0), 4.0, 1e-12, "idle");
    near(conductor_celsius(20.0, 0.5), 27.5, 1e-12, "half");
}

#[test]
fn breakers_hold_and_trip_as_their_standards_say() {
    // UL 489: holds 100 %, trips at 135 % within the hour; 120 % between is judgement. IEC 60898: 113 and 145 %.
    let nec = |load| trip(Code::Nec, 20.0, load).unwrap();
    assert_eq!([nec(20.0), nec(20.1)], [Trip::Holds, Trip::May]);
    assert_eq!(
        [nec(24.0), nec(24.1), nec(27.0), nec(27.1)],
        [Trip::May, Trip::Expect, Trip::Expect, Trip::Trips]
    );
    let iec = |load| trip(Code::Iec, 16.0, load).unwrap();
    assert_eq!(
        [iec(18.0), iec(18.2), iec(23.3)],
        [Trip::Holds, Trip::May, Trip::Trips]
    );
    // Mean of I²: 18 A a third of the time beside 3 A all the time warm like 10.7 A (hand sum).
    near(
        warming_amps(15.0, 3.0, 1.0 / 3.0).unwrap(),
        (324.0_f64 / 3.0 + 9.0 * 2.0 / 3.0).sqrt(),
        1e-12,
        "mean",
    );
}

#[test]
fn a_breaker_guards_its_wire_by_nec_240_4_d() {
    // Copper read; aluminum and thin wire from memory.
    let most = |gauge, metal| wire_breaker_a(Code::Nec, Awg::new(gauge).unwrap().area_m2(), metal).unwrap();
    for (gauge, copper, aluminum) in [(14, 15.0, 0.0), (12, 20.0, 15.0), (10, 30.0, 25.0)] {
        assert_eq!(most(gauge, Metal::Copper), copper);
        assert_eq!(most(gauge, Metal::Aluminum), aluminum);
    }
    assert_eq!([most(18, Metal::Copper), most(16, Metal::Copper)], [7.0, 10.0]);
    // IEC 60364-5-52, clipped to a surface, down to a standard rating (from memory).
    for (mm2, amps) in [(1.5, 16.0), (2.5, 25.0), (4.0, 32.0)] {
        assert_eq!(
            wire_breaker_a(Code::Iec, mm2 * 1e-6, Metal::Copper).unwrap(),
            amps
        );
    }
}

#[test]
fn a_motor_of_its_own_circuit_may_have_a_larger_breaker() {
    // NEC 430.22: 125 % of 15 A is 18.75 A, which 12 AWG carries; 430.52: 250 % is 37.5 A, next rating 40 A (240.6).
    let most =
        |gauge, amps| motor_breaker_a(Awg::new(gauge).unwrap().area_m2(), Metal::Copper, amps).unwrap();
    assert_eq!(most(12, 15.0), Some(40.0));
    assert_eq!(most(14, 8.0), Some(20.0));
    // 125 % of 22 A is 27.5 A: more than 12 AWG at 75 °C, 25 A.
    assert_eq!(most(12, 22.0), None);
}

#[test]
fn generators_by_hand() {
    // 12 A at 120 V are 1.44 kVA: 3.5 kVA are 2.43 times that. 60 A locked are 7.2 kVA, 3.53 at 0.7 of the volts.
    let machine = Motor {
        volts: 120.0,
        amps: 12.0,
        starting_amps: 60.0,
    };
    let used = generator_use(3.5, &machine, 0.0).unwrap();
    near(used.rating_share, 2.4306, 1e-4, "running");
    near(used.starting_kva, 3.528, 1e-9, "starting");
    near(used.starting_share, 3.528 / 4.375, 1e-9, "surge");
}

/// Any finite number, half of them in the range that people type.
fn any_finite() -> impl Strategy<Value = f64> {
    prop_oneof![
        -10.0..300.0_f64,
        prop::num::f64::NORMAL | prop::num::f64::ZERO | prop::num::f64::SUBNORMAL
    ]
}

proptest! {
    #[test]
    fn no_finite_input_gives_nan(
        v in prop::collection::vec(any_finite(), 10),
        number in 0_u8..=255,
        letter in any::<char>(),
    ) {
        let mut out = Vec::new();
        let branch = Wire {
            area_m2: v[0] * 1e-6,
            strands: Strands::Solid,
            metal: Metal::Aluminum,
            length_m: v[1],
        };
        let cord = Awg::new(number).ok().map(|gauge| Wire::cord(gauge, v[2]));
        let feed = Feed { panel_volts: v[3], branch: Some(branch), cord, other_amps: v[4], celsius: v[8] };
        let machine = Motor { volts: v[5], amps: v[6], starting_amps: v[7] };
        for at in [running(&feed, &machine), starting(&feed, &machine)].into_iter().flatten() {
            out.extend([at.volts, at.amps, at.drop_share, at.plate_share, at.torque_share]);
        }
        for code in [Code::Nec, Code::Iec] {
            let size = CordSize::of(code, v[0] * 1e-6);
            out.extend(longest_cord_m(size, v[6], v[5]));
            out.extend(advised_cord(code, v[6], v[5], v[2]).map(|advice| advice.size.map_or(0.0, |s| s.area_m2)));
            out.extend(wire_breaker_a(code, v[0] * 1e-6, Metal::Copper));
            prop_assert!(trip(code, v[0], v[6]).is_err() || BREAKER_AMPS.contains(&v[0]));
        }
        out.extend(motor_breaker_a(v[0] * 1e-6, Metal::Aluminum, v[6]).map(|most| most.unwrap_or(0.0)));
        out.extend(warming_amps(v[6], v[4], v[8]));
        out.push(conductor_celsius(v[8], v[9]));
        for start in [
            Start::Unknown,
            Start::Amps(v[0]),
            Start::Multiple(v[1]),
            Start::Letter { letter, horsepower: v[2] },
        ] {
            out.extend(starting_amps(start, v[5], v[6]).map(|amps| amps.likely));
        }
        out.extend(full_load_amps(v[0], v[5]));
        out.extend(horsepower_at(v[6], v[5]));
        out.extend(same_power_amps(v[6], v[5], v[3]));
        out.extend(length_for_drop_m(v[0], v[6], v[8]));
        out.extend(drop_volts(v[0], v[1], v[2]));
        out.extend(ohm_per_m(v[0], Strands::Stranded, v[1]));
        out.extend(generator_use(v[0], &machine, v[4]).map(|used| used.starting_share));
        prop_assert!(out.iter().all(|value| value.is_finite()), "{out:?}");
    }
}
