//! Circuit against NEC (NFPA 70) tables, hand sums and facts of the trade.

#![allow(clippy::approx_constant, reason = "3.14 here is a printed figure of a table")]
use bellows::physics::circuit::{
    Awg, CircuitError, CordBound, CordLimits, Feed, GAUGES, M2_PER_CIRCULAR_MIL, Motor, Start, Strands, Wire,
    breaker_use, code_letter_kva_per_hp, drop_volts, full_load_amps, generator_use, horsepower_at,
    length_for_drop_m, longest_cord, ohm_per_m, running, same_power_amps, smallest_cord, starting,
    starting_amps,
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
fn cords_carry_what_nec_table_400_5_says() {
    // NEC table 400.5(A)(1), two current-carrying conductors (from memory); exact.
    for (number, amps) in [(18, 10.0), (16, 13.0), (14, 18.0), (12, 25.0), (10, 30.0)] {
        assert_eq!(Awg::new(number).unwrap().cord_ampacity_a(), Some(amps));
    }
    assert_eq!(Awg::new(13).unwrap().cord_ampacity_a(), None);
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
fn a_thin_long_cord_stalls_a_full_machine_and_a_thick_one_runs_a_small_one() {
    // Common practice, no source: 15 A machines stall on 100 ft of 16 AWG; 8.5 A machines run on 100 ft of 12 AWG.
    let on = |gauge, amps| {
        let feed = Feed {
            cord: Some(Wire::cord(Awg::new(gauge).unwrap(), 100.0 * FOOT)),
            ..bare(120.0)
        };
        starting(&feed, &motor(120.0, amps)).unwrap()
    };
    let limits = CordLimits::default();
    let stalled = on(16, 15.0);
    assert!(stalled.plate_share < 0.65 && stalled.torque_share < 0.4);
    let runs = on(12, 8.5);
    assert!(runs.plate_share > limits.start_share, "{runs:?}");
    let feed = bare(120.0);
    let least = smallest_cord(&feed, &motor(120.0, 15.0), 100.0 * FOOT, &limits).unwrap();
    assert!(least.is_some_and(|gauge| gauge.number() < 12), "{least:?}");
}

#[test]
fn branch_and_other_loads_take_their_share() {
    // Hand sum: 100 ft of 12 AWG solid at 1.93 ohm per 1,000 ft is 0.386 ohm; 5 A of other load takes 1.93 V
    // before the motor's own 10 A (at 120 V) take 3.9 to 4.1 V more.
    let feed = Feed {
        branch: Some(Wire::branch(Awg::new(12).unwrap(), 100.0 * FOOT)),
        other_amps: 5.0,
        ..bare(120.0)
    };
    let at = running(&feed, &motor(120.0, 10.0)).unwrap();
    let drop = 120.0 - at.volts;
    assert!((5.83..6.03).contains(&drop), "{drop}");
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
    // 120² / (4 x 600 m x 26.0 mohm/m) = 231 W (hand sum, 7.95 ohm per 1,000 ft).
    assert_eq!(
        error.to_string(),
        "the wire passes at most 231 VA, not 1800 VA: use thicker or shorter wire"
    );
    let error = running(&bare(12.0), &motor(120.0, 15.0)).unwrap_err();
    assert_eq!(error.to_string(), "panel voltage is 12; use 50 to 600");
}

#[test]
fn breaker_and_generator_by_hand() {
    // NEC 210.23(A)(1): 80 % of 15 A is 12 A; 15 A is 3 A over for a plugged load; with 4 A more, 4 A over in all.
    let used = breaker_use(15.0, 15.0, 4.0).unwrap();
    near(used.machine_over_amps, 3.0, 1e-9, "machine");
    near(used.total_over_amps, 4.0, 1e-9, "total");
    // A 2 kVA generator runs 12 A at 120 V but 6 x 12 A is 8.64 kVA, 3.5 times a surge of 1.25 x 2 kVA.
    let used = generator_use(2.0, None, &motor(120.0, 12.0), 0.0).unwrap();
    near(used.running_share, 0.72, 1e-9, "running");
    near(used.starting_share, 3.456, 1e-9, "starting");
}

#[test]
fn longest_cord_comes_back_as_its_own_bound() {
    let limits = CordLimits::default();
    let feed = Feed {
        branch: Some(Wire::branch(Awg::new(12).unwrap(), 10.0)),
        ..bare(120.0)
    };
    let mut seen = [false; 3];
    for tenths in 40..=180 {
        for multiple in [2.0, 6.0] {
            for gauge in GAUGES {
                let amps = f64::from(tenths) / 10.0;
                let machine = Motor {
                    volts: 115.0,
                    amps,
                    starting_amps: multiple * amps,
                };
                let longest = longest_cord(&feed, &machine, gauge, &limits).unwrap();
                if longest.length_m == 0.0 {
                    continue;
                }
                let with = Feed {
                    cord: Some(Wire::cord(gauge, longest.length_m)),
                    ..feed
                };
                let run = running(&with, &machine).unwrap();
                let start = starting(&with, &machine).unwrap();
                let amps_allowed = gauge.cord_ampacity_a().unwrap();
                let slack = [
                    amps_allowed - run.amps,
                    limits.drop_share - run.drop_share,
                    start.plate_share - limits.start_share,
                ];
                // Closed forms: only rounding is left.
                assert!(slack.iter().all(|slack| *slack > -1e-9), "{slack:?}");
                let index = match longest.bound {
                    CordBound::Ampacity => 0,
                    CordBound::RunningDrop => 1,
                    CordBound::StartingVolts => 2,
                };
                assert!(slack[index].abs() < 1e-9, "{longest:?} {slack:?}");
                seen[index] = true;
            }
        }
    }
    assert_eq!(seen, [true; 3], "each bound must have been met");
}

#[test]
fn smallest_cord_is_the_first_that_is_long_enough() {
    let limits = CordLimits::default();
    let (feed, machine) = (bare(120.0), motor(120.0, 12.0));
    for metres in 1..=150 {
        let length = f64::from(metres);
        let reach = |gauge| longest_cord(&feed, &machine, gauge, &limits).unwrap().length_m;
        match smallest_cord(&feed, &machine, length, &limits).unwrap() {
            None => assert!(GAUGES.iter().all(|gauge| reach(*gauge) < length)),
            Some(least) => {
                assert!(reach(least) >= length);
                let thinner = GAUGES.iter().filter(|g| g.number() > least.number());
                assert!(thinner.into_iter().all(|gauge| reach(*gauge) < length));
            }
        }
    }
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
        let branch = Wire { area_m2: v[0] * 1e-6, strands: Strands::Solid, length_m: v[1] };
        let cord = Awg::new(number).ok().map(|gauge| Wire::cord(gauge, v[2]));
        let feed = Feed { panel_volts: v[3], branch: Some(branch), cord, other_amps: v[4] };
        let machine = Motor { volts: v[5], amps: v[6], starting_amps: v[7] };
        let limits = CordLimits { drop_share: v[8] / 300.0, start_share: v[9] / 300.0 };
        for at in [running(&feed, &machine), starting(&feed, &machine)].into_iter().flatten() {
            out.extend([at.volts, at.amps, at.drop_share, at.plate_share, at.torque_share]);
        }
        for gauge in GAUGES {
            out.extend(longest_cord(&feed, &machine, gauge, &limits).map(|cord| cord.length_m));
        }
        let _ = smallest_cord(&feed, &machine, v[2], &limits);
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
        out.extend(breaker_use(v[0], v[6], v[4]).map(|used| used.total_over_amps));
        out.extend(generator_use(v[0], Some(v[1]), &machine, v[4]).map(|used| used.starting_share));
        prop_assert!(out.iter().all(|value| value.is_finite()), "{out:?}");
    }
}
