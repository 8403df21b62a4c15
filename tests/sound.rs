//! Sound against 29 CFR 1910.95, NIOSH 98-126, textbook rules and facts of the trade.

#![allow(clippy::disallowed_methods, reason = "a test asks for what was found")]
use bellows::physics::sound::{
    DISTANCE_M, LEVEL_DB, NIOSH, OSHA, Room, Stated, Voice, allowed_hours, cooling_m3_s, dose, neighbour_db,
    open_air_db, power_db, room_db, share_gone_db, sum_db, voice_needed,
};
use proptest::prelude::*;
use uom::si::{f64::MassDensity, mass_density::kilogram_per_cubic_meter};

const EIGHTY: Stated = Stated {
    level_db: 80.0,
    at_m: 1.0,
};

#[test]
fn hours_are_those_of_table_g_16() {
    // 29 CFR 1910.95 table G-16 (from memory), exact but for 1.5 h, printed for 1 h 31 min, at 102 dBA.
    for (hours, level, share) in [
        (8.0, 90.0, 1e-12),
        (6.0, 92.0, 0.02),
        (4.0, 95.0, 1e-12),
        (3.0, 97.0, 0.02),
        (2.0, 100.0, 1e-12),
        (1.5, 102.0, 0.02),
        (1.0, 105.0, 1e-12),
        (0.5, 110.0, 1e-12),
        (0.25, 115.0, 1e-12),
    ] {
        let read = allowed_hours(level, OSHA).unwrap();
        assert!((read / hours - 1.0).abs() <= share, "{level}: {read}");
    }
}

#[test]
fn hours_are_those_of_niosh() {
    // NIOSH 98-126 table 1-1 (from memory), minutes, printed to the nearest whole one.
    for (level, minutes) in [
        (82.0, 960.0),
        (85.0, 480.0),
        (86.0, 381.0),
        (88.0, 240.0),
        (91.0, 120.0),
        (94.0, 60.0),
        (100.0, 15.0),
    ] {
        let read = 60.0 * allowed_hours(level, NIOSH).unwrap();
        assert!((read - minutes).abs() <= 0.5, "{level}: {read}");
    }
}

#[test]
fn dose_counts_running_time_and_forgets_what_is_quiet() {
    // Half of eight hours at 88 dBA is 4 h of 4 h allowed (NIOSH); at 79 dBA nothing counts.
    assert_eq!(dose(88.0, 8.0, 0.5, NIOSH).unwrap(), 1.0);
    assert_eq!(dose(79.0, 8.0, 1.0, NIOSH).unwrap(), 0.0);
    // 1910.95(c): an action level of 85 dBA over 8 h is a dose of 50 % by OSHA's rule.
    assert!((dose(85.0, 8.0, 1.0, OSHA).unwrap() - 0.5).abs() < 1e-12);
}

#[test]
fn level_falls_six_decibels_a_doubling() {
    // Textbook rule, to the half decibel that it is quoted in; exactly 20 log 2 = 6.0206.
    let mut last = open_air_db(EIGHTY, 1.0).unwrap();
    assert_eq!(last, 80.0);
    for metres in [2.0, 4.0, 8.0, 16.0] {
        let level = open_air_db(EIGHTY, metres).unwrap();
        assert!((last - level - 6.0206).abs() < 1e-4);
        last = level;
    }
    let behind = neighbour_db(EIGHTY, 10.0, 25.0).unwrap();
    assert!((behind - 35.0).abs() < 1e-9);
}

#[test]
fn shares_and_sums_of_power() {
    // Half gone is 3.0 dB, 70 % gone is 5.2 dB; one figure printed behind the point.
    for (share, printed) in [(0.0, 0.0), (0.5, 3.0), (0.7, 5.2), (0.9, 10.0)] {
        assert!((share_gone_db(share).unwrap() - printed).abs() < 0.05);
    }
    // Textbook rules: alike +3 dB, 10 dB apart +0.4 dB, ten alike +10 dB.
    let sum = |levels: &[f64]| sum_db(levels).ok().flatten();
    for (read, printed) in [
        (sum(&[80.0, 80.0]), 83.0),
        (sum(&[80.0, 70.0]), 80.4),
        (sum(&[60.0; 10]), 70.0),
    ] {
        assert!(read.is_some_and(|read| (read - printed).abs() < 0.05));
    }
    assert_eq!(sum_db(&[]), Ok(None));
}

#[test]
fn a_room_gives_back_what_the_open_lets_go() {
    // Hand sum: 6 x 6 x 2.5 m has 132 m²; at 0.1, R = 14.67 m² and 4/R = 0.2727 against 0.0064 straight: 16.4 dB.
    let garage = Room::bare(6.0, 6.0, 2.5);
    let gain = room_db(EIGHTY, 5.0, garage).unwrap() - open_air_db(EIGHTY, 5.0).unwrap();
    assert!((gain - 16.4).abs() < 0.05, "{gain}");
    // Limits: near the source the room does not matter; a room that swallows all is the open.
    let near = room_db(EIGHTY, 0.1, garage).unwrap() - open_air_db(EIGHTY, 0.1).unwrap();
    assert!((0.0..0.1).contains(&near), "{near}");
    let huge = Room {
        surface_m2: 1e5,
        absorption: 0.99,
    };
    let open = room_db(EIGHTY, 5.0, huge).unwrap() - open_air_db(EIGHTY, 5.0).unwrap();
    assert!((0.0..0.01).contains(&open), "{open}");
    // Where direct and returned field are equal, r = √(Q R/16π) (Beranek, from memory), the level is 3 dB up.
    let constant = garage.constant_m2().unwrap();
    let critical = (2.0 * constant / (16.0 * std::f64::consts::PI)).sqrt();
    let up = room_db(EIGHTY, critical, garage).unwrap() - open_air_db(EIGHTY, critical).unwrap();
    assert!((up - 3.0103).abs() < 1e-3, "{up}");
    // Hemisphere of 1 m: 10 log 2π = 7.98 dB between power and level (ISO 3744).
    assert!((power_db(EIGHTY).unwrap() - 87.98).abs() < 0.01);
}

#[test]
fn voices_follow_the_arms_length_rule() {
    // NIOSH's and safety posters' rule (from memory): raising the voice at arm's length (0.9 m) hints at 75 to 85
    // dBA, shouting there at 85 and more. Common practice.
    assert!(voice_needed(60.0, 0.9).unwrap() == Voice::Normal);
    assert!(voice_needed(83.0, 0.9).unwrap() < Voice::Shout);
    assert!(voice_needed(76.0, 0.9).unwrap() > Voice::Normal);
    assert!(voice_needed(86.0, 0.9).unwrap() >= Voice::Shout);
    assert_eq!(voice_needed(105.0, 3.0).unwrap(), Voice::Beyond);
    let mut last = Voice::Normal;
    for level in 40..120 {
        let voice = voice_needed(f64::from(level), 1.0).unwrap();
        assert!(voice >= last);
        last = voice;
    }
}

#[test]
fn cooling_air_by_the_fan_makers_rule() {
    // cfm = 1.76 W/ΔT(K) and 3.16 W/ΔT(°F) at sea level: common practice, three figures.
    let air = MassDensity::new::<kilogram_per_cubic_meter>(1.2);
    let cfm = cooling_m3_s(1_000.0, air, 10.0).unwrap() / (0.3048_f64.powi(3) / 60.0);
    assert!((cfm / 176.0 - 1.0).abs() < 0.01, "{cfm}");
}

#[test]
fn a_refusal_says_what_was_read() {
    let error = open_air_db(EIGHTY, 0.0).unwrap_err();
    assert_eq!(error.to_string(), "distance is 0; use 0.1 to 5000");
    assert!(allowed_hours(f64::NAN, OSHA).is_err());
    assert!(share_gone_db(1.0).is_err());
}

proptest! {
    #[test]
    fn no_finite_input_gives_nan(
        wild in prop::num::f64::NORMAL | prop::num::f64::ZERO | prop::num::f64::SUBNORMAL,
        level in -60.0..210.0_f64, at in 0.0..10.0_f64, distance in 0.0..6_000.0_f64,
        surface in 0.0..500.0_f64, share in -0.1..1.1_f64, hours in -1.0..25.0_f64,
        pick in 0_usize..6,
    ) {
        let mut v = [level, at, distance, surface, share, hours];
        v[pick] = wild;
        let stated = Stated { level_db: v[0], at_m: v[1] };
        let room = Room { surface_m2: v[3], absorption: v[4] };
        let mut out = Vec::new();
        out.extend(open_air_db(stated, v[2]));
        out.extend(room_db(stated, v[2], room));
        out.extend(room_db(stated, v[2], Room::bare(v[3], v[1], v[5])));
        out.extend(neighbour_db(stated, v[2], v[5]));
        out.extend(share_gone_db(v[4]));
        out.extend(sum_db(&[v[0], v[5]]).ok().flatten());
        for rule in [NIOSH, OSHA] {
            out.extend(allowed_hours(v[0], rule));
            out.extend(dose(v[0], v[5], v[4], rule));
        }
        prop_assert_eq!(voice_needed(v[0], v[2]).is_ok(), LEVEL_DB.contains(&v[0]) && DISTANCE_M.contains(&v[2]));
        out.extend(cooling_m3_s(v[3], MassDensity::new::<kilogram_per_cubic_meter>(v[1]), v[5]));
        prop_assert!(out.iter().all(|value| value.is_finite()), "{v:?} {out:?}");
    }
}
