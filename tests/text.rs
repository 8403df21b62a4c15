//! Text to quantity and back: what labels say, refused input, round trips, conversion factors.

use std::{fs, path::Path};

use bellows::quantity::{
    Kind, M3_PER_GALLON, M3_S_PER_CFM, PA_PER_PSI, ReadError, number, read, read_flow_at, write,
};
use bellows::shop::Units;
use proptest::prelude::*;

/// Cases a property is tried with: seconds, not minutes.
const CASES: u32 = 2_000;
const BOTH: [Units; 2] = [Units::Us, Units::Metric];

fn si(kind: Kind, text: &str, units: Units) -> f64 {
    match read(kind, text, units) {
        Ok(Some(value)) => value,
        other => panic!("{kind:?} {text:?} gave {other:?}"),
    }
}

fn same(kind: Kind, one: &str, other: &str) {
    for units in BOTH {
        let (a, b) = (si(kind, one, units), si(kind, other, units));
        assert!(
            (a - b).abs() <= 1e-12 * b.abs(),
            "{one:?} is {a}, {other:?} is {b}"
        );
    }
}

/// Conversion factors of NIST SP 811 (2008), appendix B.8, seven figures as printed; exact ones in bold there.
/// All from memory. Half a unit of the seventh figure is at most 5e-7 of the value.
#[test]
fn factors_agree_with_nist_sp_811() {
    let printed = [
        (Kind::Flow, "1 ft3/min", 4.719_474e-4),
        (Kind::Flow, "100 L/min", 1.666_667e-3),
        (Kind::Volume, "1 gal", 3.785_412e-3),
        (Kind::Volume, "1 imp gal", 4.546_09e-3),
        (Kind::Volume, "1 ft3", 2.831_685e-2),
        (Kind::StrokeVolume, "10 in3", 1.638_706e-4),
        (Kind::Pressure, "1 psi", 6.894_757e3),
        (Kind::Pressure, "1 kgf/cm2", 9.806_65e4),
        (Kind::Pressure, "1 bar", 1e5),
        (Kind::StationPressure, "20 inHg", 20.0 * 3.386_389e3),
        (Kind::StationPressure, "700 mmHg", 700.0 * 1.333_224e2),
        (Kind::Power, "1 hp", 7.456_999e2),
        (Kind::Power, "1 metric hp", 7.354_988e2),
        (Kind::Length, "1 ft", 0.304_8),
        (Kind::Length, "1 in", 0.025_4),
        (Kind::Length, "1 yd", 0.914_4),
        (Kind::Mass, "1 lb", 0.453_592_4),
        (Kind::Duration, "1 h", 3_600.0),
        (Kind::Temperature, "50 °F", (50.0 + 459.67) / 1.8),
    ];
    for (kind, text, value) in printed {
        let off = si(kind, text, Units::Us) / value - 1.0;
        assert!(off.abs() < 5e-7, "{text} is off by {off:e}");
    }
}

/// NEC (NFPA 70) chapter 9 table 8, area of conductors in circular mils as printed (from memory). The table squares a
/// diameter given to a tenth of a mil and prints tens, or hundreds from 100,000: half of each is allowed.
#[test]
fn wire_areas_agree_with_the_table_of_conductors() {
    let circular_mil = std::f64::consts::FRAC_PI_4 * 25.4e-6_f64.powi(2);
    let printed = [
        ("18", 1_620.0),
        ("16", 2_580.0),
        ("14", 4_110.0),
        ("12", 6_530.0),
        ("10", 10_380.0),
        ("8", 16_510.0),
        ("6", 26_240.0),
        ("4", 41_740.0),
        ("2", 66_360.0),
        ("1/0", 105_600.0),
        ("4/0", 211_600.0),
    ];
    for (text, mils) in printed {
        let off = si(Kind::WireArea, text, Units::Us) / (mils * circular_mil) - 1.0;
        let printed_to = if mils < 1e5 { 10.0 } else { 100.0 };
        let allowed = 0.1 / f64::sqrt(mils) + 0.5 * printed_to / mils;
        assert!(off.abs() < allowed, "{text} AWG is off by {off:e}");
    }
}

#[test]
fn reads_what_labels_say() {
    let ft3 = 0.3048_f64.powi(3);
    let hp = 745.699_871_582;
    let cases = [
        (Kind::Bore, "3/8 in", 0.009_525),
        (Kind::Bore, "3/8\"", 0.009_525),
        (Kind::Bore, "3/8”", 0.009_525),
        (Kind::Bore, "10 mm", 0.010),
        (Kind::Bore, "1/4", 0.006_35),
        (Kind::Power, "1-1/2 hp", 1.5 * hp),
        (Kind::Power, "1.5HP", 1.5 * hp),
        (Kind::Power, "1½ HP", 1.5 * hp),
        (Kind::Power, "½ horsepower", 0.5 * hp),
        (Kind::Power, "1.1 kW", 1_100.0),
        (Kind::Power, "750 watts", 750.0),
        (Kind::Flow, "2.4 cfm", 2.4 * M3_S_PER_CFM),
        (Kind::Flow, "5,1 SCFM", 5.1 * M3_S_PER_CFM),
        (Kind::Flow, "5.1 cubic feet per minute", 5.1 * M3_S_PER_CFM),
        (Kind::Flow, "5.1", 5.1 * M3_S_PER_CFM),
        (Kind::Flow, "68 L/min", 0.068 / 60.0),
        (Kind::Flow, "68 lpm", 0.068 / 60.0),
        (Kind::Flow, "68 l/m", 0.068 / 60.0),
        (Kind::Flow, "68 litres per minute", 0.068 / 60.0),
        (Kind::Flow, "8.64 m³/h", 0.002_4),
        (Kind::Flow, "0,144 m3/min", 0.002_4),
        (Kind::StrokeVolume, "0.05 cu ft", 0.05 * ft3),
        (Kind::StrokeVolume, "0.05", 0.05 * ft3),
        (Kind::StrokeVolume, "1.5 L", 0.001_5),
        (Kind::Pressure, "90 PSIG", 90.0 * PA_PER_PSI),
        (Kind::Pressure, "8.3 bar", 830_000.0),
        (Kind::Pressure, "620 kPa", 620_000.0),
        (Kind::Pressure, "0.62 MPa", 620_000.0),
        (Kind::StationPressure, "12.2 psia", 12.2 * PA_PER_PSI),
        (Kind::StationPressure, "843 hPa", 84_300.0),
        (Kind::StationPressure, "843 mbar", 84_300.0),
        (Kind::StationPressure, "24.9", 24.9 * 3_386.388_640),
        (Kind::Volume, "20 gal", 20.0 * M3_PER_GALLON),
        (Kind::Volume, "20 Gallons", 20.0 * M3_PER_GALLON),
        (Kind::Volume, "20 gal.", 20.0 * M3_PER_GALLON),
        (Kind::Volume, "75 L", 0.075),
        (Kind::Volume, "75 litres", 0.075),
        (Kind::Voltage, "120 VAC", 120.0),
        (Kind::Current, "15A", 15.0),
        (Kind::Current, "15 amps", 15.0),
        (Kind::ApparentPower, "3 kVA", 3_000.0),
        (Kind::ApparentPower, "3", 3_000.0),
        (Kind::ApparentPower, "3000 VA", 3_000.0),
        (Kind::ApparentPower, "3,000 W", 3_000.0),
        (Kind::Length, "50'", 15.24),
        (Kind::Length, "12 ft 6 in", 3.81),
        (Kind::Length, "12′ 6″", 3.81),
        (Kind::Length, "12'6\"", 3.81),
        (Kind::Length, "12' 6-1/2\"", 3.8227),
        (Kind::Length, "15 m", 15.0),
        (Kind::Altitude, "4,900 ft", 1_493.52),
        (Kind::Altitude, "4900 ft MSL", 1_493.52),
        (Kind::Altitude, "4 900 ft", 1_493.52),
        (Kind::Altitude, "4\u{202f}900 ft", 1_493.52),
        (Kind::Altitude, "−50 ft", -15.24),
        (Kind::Altitude, "1500 m", 1_500.0),
        (Kind::Temperature, "90 F", 305.372_222),
        (Kind::Temperature, "90 °F", 305.372_222),
        (Kind::Temperature, "90°", 305.372_222),
        (Kind::Temperature, "90", 305.372_222),
        (Kind::Temperature, "32 deg C", 305.15),
        (Kind::Temperature, "-5 °C", 268.15),
        (Kind::Temperature, "0", 255.372_222),
        (Kind::Fraction, "50 %", 0.5),
        (Kind::Fraction, "50%", 0.5),
        (Kind::Fraction, "50 per cent", 0.5),
        (Kind::Fraction, "50", 0.5),
        (Kind::Fraction, "0.5", 0.5),
        (Kind::Fraction, ".5", 0.5),
        (Kind::Fraction, "1", 1.0),
        (Kind::Fraction, "1 %", 0.01),
        (Kind::Mass, "120 lbs", 54.431_084_4),
        (Kind::Mass, "55 kg", 55.0),
        (Kind::Money, "$349", 349.0),
        (Kind::Money, "349.00", 349.0),
        (Kind::Money, "349,00 €", 349.0),
        (Kind::Money, "1,299", 1_299.0),
        (Kind::Money, "$1,299.99", 1_299.99),
        (Kind::Money, "1.299,99 €", 1_299.99),
        (Kind::Money, "€300", 300.0),
        (Kind::Duration, "3 s", 3.0),
        (Kind::Duration, "3", 3.0),
        (Kind::Duration, "2 min 10 s", 130.0),
        (Kind::Duration, "2m10s", 130.0),
        (Kind::Duration, "1:30", 90.0),
        (Kind::Duration, "1:02:03", 3_723.0),
        (Kind::Minutes, "2", 120.0),
        (Kind::Minutes, "1.5 h", 5_400.0),
        (Kind::Hours, "8", 28_800.0),
        (Kind::Hours, "1:30", 5_400.0),
        (Kind::SoundLevel, "78 dBA", 78.0),
        (Kind::SoundLevel, "78 dB(A)", 78.0),
        (Kind::LevelLoss, "10", 10.0),
        (Kind::Tariff, "$0.17", 0.17),
        (Kind::Tariff, "$0.17/kWh", 0.17),
        (Kind::Tariff, "0.17 $/kWh", 0.17),
        (Kind::Tariff, "0.17 /kWh", 0.17),
        (Kind::Tariff, "17 c/kWh", 0.17),
        (Kind::Tariff, "17 cents", 0.17),
        (Kind::Tariff, "17¢", 0.17),
        (Kind::Tariff, "17 cents per kWh", 0.17),
        (Kind::Droop, "1 psi/cfm", PA_PER_PSI / M3_S_PER_CFM),
        (Kind::Droop, "1 psi per cfm", PA_PER_PSI / M3_S_PER_CFM),
        (Kind::Droop, "1", PA_PER_PSI / M3_S_PER_CFM),
        (Kind::Droop, "0.15 bar per 100 L/min", 9e6),
        (Kind::Count, "2", 2.0),
        (Kind::Count, "0", 0.0),
    ];
    for (kind, text, value) in cases {
        let got = si(kind, text, Units::Us);
        assert!(
            (got - value).abs() <= 1e-8 * value.abs(),
            "{kind:?} {text:?} is {got}, not {value}"
        );
    }
}

/// As an adviser types at a counter, or copies off a carton (common practice, no source).
#[test]
fn reads_what_is_typed_at_a_counter() {
    let cases = [
        (Kind::Volume, "20G", "20 gal"),
        (Kind::Volume, "2 x 2.3 gal", "4.6 gal"),
        (Kind::Volume, "2x2 gal", "4 gal"),
        (Kind::Volume, "15-gallon tank", "15 gal"),
        (Kind::Volume, "7-1/2-gallon pancake", "7.5 gal"),
        (Kind::Mass, "118#", "118 lb"),
        (Kind::Mass, "approx. 90 lb", "90 lb"),
        (Kind::Flow, "4 cfm FAD", "4 cfm"),
        (Kind::Flow, "FAD 4 cfm", "4 cfm"),
        (Kind::Flow, "delivers 4 scfm", "4 cfm"),
        (Kind::Altitude, "5000 MSL", "5,000 ft"),
        (Kind::Altitude, "5,000' MSL", "5,000 ft"),
        (Kind::Current, "FLA 12", "12 A"),
        (Kind::Power, "2,2 kW", "2.2 kW"),
        (Kind::Power, "1 1/2 hp running", "1.5 hp"),
        (Kind::Voltage, "120 V AC", "120 V"),
        (Kind::Fraction, "70% duty cycle", "70 %"),
        (Kind::Money, "1.299 €", "1,299"),
        (Kind::Money, "$1,299", "1,299"),
        (Kind::Length, "about 50 ft", "50 ft"),
    ];
    for (kind, typed, plain) in cases {
        let (one, other) = (si(kind, typed, Units::Us), si(kind, plain, Units::Us));
        assert!(
            (one - other).abs() <= 1e-12 * other,
            "{typed:?} is {one}, {plain:?} is {other}"
        );
    }
    assert!((si(Kind::Altitude, "1500 MSL", Units::Metric) - 1_500.0).abs() < 1e-9);
    assert!((si(Kind::Money, "1.29", Units::Us) - 1.29).abs() < 1e-12);
}

#[test]
fn a_bare_number_takes_the_metric_unit() {
    let cases = [
        (Kind::Flow, "144", 0.002_4),
        (Kind::StrokeVolume, "1,5", 0.001_5),
        (Kind::Pressure, "6,2", 620_000.0),
        (Kind::StationPressure, "843", 84_300.0),
        (Kind::Volume, "75", 0.075),
        (Kind::Power, "1,1", 1_100.0),
        (Kind::Length, "15", 15.0),
        (Kind::Bore, "10", 0.01),
        (Kind::WireArea, "2,5", 2.5e-6),
        (Kind::Altitude, "-5", -5.0),
        (Kind::Temperature, "-5", 268.15),
        (Kind::Mass, "55", 55.0),
        (Kind::Droop, "0,15", 9e6),
    ];
    for (kind, text, value) in cases {
        let got = si(kind, text, Units::Metric);
        assert!(
            (got - value).abs() <= 1e-12 * f64::abs(value),
            "{kind:?} {text:?} is {got}, not {value}"
        );
    }
}

#[test]
fn wire_sizes_have_many_spellings() {
    for text in [
        "14 ga", "#14", "14 gauge", "AWG 14", "14/3", "14-2", "14awg", "14/2 AWG",
    ] {
        same(Kind::WireArea, text, "14 AWG");
    }
    same(Kind::WireArea, "00", "2/0 AWG");
    same(Kind::WireArea, "#1/0", "1/0 AWG");
    same(Kind::WireArea, "2.5 mm²", "2.5 sq mm");
    assert_eq!(
        si(Kind::WireArea, "12", Units::Us),
        si(Kind::WireArea, "12 AWG", Units::Us)
    );
}

#[test]
fn blank_is_unknown() {
    for kind in Kind::ALL {
        for text in ["", "  ", "?", "unknown", "N/A", "-", "\u{a0}", "—"] {
            assert_eq!(read(kind, text, Units::Us), Ok(None), "{kind:?} {text:?}");
        }
    }
}

#[test]
fn a_flow_carries_its_pressure() {
    let flow = 5.1 * M3_S_PER_CFM;
    let at = Some(90.0 * PA_PER_PSI);
    for text in [
        "5.1 CFM @ 90 PSI",
        "5.1 cfm at 90 psi",
        "5.1@90",
        "5.1 SCFM AT 90",
    ] {
        assert_eq!(read_flow_at(text, Units::Us), Ok(Some((flow, at))), "{text:?}");
    }
    assert_eq!(read_flow_at("5.1 cfm", Units::Us), Ok(Some((flow, None))));
    assert_eq!(read_flow_at("5.1 cfm @", Units::Us), Ok(Some((flow, None))));
    assert_eq!(read_flow_at(" ", Units::Us), Ok(None));
    assert!(matches!(
        read_flow_at("@ 90 psi", Units::Us),
        Err(ReadError::NotANumber { .. })
    ));
    // The most that the tank gets is not the pressure of a flow.
    assert!(matches!(
        read_flow_at("5.1 cfm @ 150 psi max", Units::Us),
        Err(ReadError::NotANumber { .. })
    ));
    assert!(matches!(
        read_flow_at("5.1 cfm @ 20 gal", Units::Us),
        Err(ReadError::WrongUnit { .. })
    ));
    assert!(matches!(
        read_flow_at("5.1 cfm @ 90 @ 40", Units::Us),
        Err(ReadError::NotANumber { .. })
    ));
}

#[test]
fn writes_as_the_trade_does() {
    let us = [
        (Kind::Flow, 4.9 * M3_S_PER_CFM, "4.9 cfm"),
        (Kind::Flow, 144.0 * M3_S_PER_CFM, "144 cfm"),
        (Kind::StrokeVolume, 0.05 * 0.3048_f64.powi(3), "0.05 ft³"),
        (Kind::Pressure, 90.0 * PA_PER_PSI, "90 psi"),
        (Kind::StationPressure, 84_320.0, "24.9 inHg"),
        (Kind::Volume, 20.0 * M3_PER_GALLON, "20 gal"),
        (Kind::Voltage, 120.0, "120 V"),
        (Kind::Current, 14.53, "14.5 A"),
        (Kind::Power, 1_118.5, "1.5 hp"),
        (Kind::ApparentPower, 3_000.0, "3 kVA"),
        (Kind::Length, 15.24, "50 ft"),
        (Kind::Length, 0.1524, "6 in"),
        (Kind::Bore, 0.009_525, "3/8 in"),
        (Kind::Bore, 0.0381, "1-1/2 in"),
        (Kind::Bore, 0.0254, "1 in"),
        (Kind::Bore, 0.010, "0.394 in"),
        (Kind::WireArea, 2.081e-6, "14 AWG"),
        (Kind::WireArea, 53.49e-6, "1/0 AWG"),
        (Kind::WireArea, 2.5e-6, "2.5 mm²"),
        (Kind::Altitude, 2_194.56, "7,200 ft"),
        (Kind::Temperature, 305.372_2, "90 °F"),
        (Kind::Temperature, 255.372_2, "0 °F"),
        (Kind::Fraction, 0.5, "50 %"),
        (Kind::Fraction, 1.0 / 3.0, "33.3 %"),
        (Kind::Mass, 54.431, "120 lb"),
        (Kind::Money, 349.0, "$349"),
        (Kind::Money, 1_299.5, "$1,299.50"),
        (Kind::Money, -20.0, "-$20"),
        (Kind::Duration, 3.0, "3 s"),
        (Kind::Duration, 0.75, "0.75 s"),
        (Kind::Duration, 60.0, "1 min"),
        (Kind::Duration, 59.99, "1 min"),
        (Kind::Minutes, 130.0, "2 min 10 s"),
        (Kind::Minutes, 3_599.9, "1 h"),
        (Kind::Hours, 3_900.0, "1 h 5 min"),
        (Kind::Hours, 7.2e6, "2,000 h"),
        (Kind::SoundLevel, 78.04, "78 dBA"),
        (Kind::LevelLoss, 3.01, "3 dB"),
        (Kind::Tariff, 0.17, "$0.17 /kWh"),
        (Kind::Droop, PA_PER_PSI / M3_S_PER_CFM, "1 psi/cfm"),
        (Kind::Count, 2.0, "2"),
    ];
    for (kind, value, text) in us {
        assert_eq!(write(kind, value, Units::Us), text);
    }
    let metric = [
        (Kind::Flow, 0.002_4, "144 L/min"),
        (Kind::Pressure, 620_000.0, "6.2 bar"),
        (Kind::StationPressure, 84_300.0, "843 hPa"),
        (Kind::Volume, 0.075, "75 L"),
        (Kind::Power, 1_100.0, "1.1 kW"),
        (Kind::Length, 0.5, "0.5 m"),
        (Kind::Bore, 0.010, "10 mm"),
        (Kind::WireArea, 2.081e-6, "14 AWG"),
        (Kind::Altitude, 1_500.0, "1,500 m"),
        (Kind::Altitude, -0.2, "0 m"),
        (Kind::Temperature, 273.15, "0 °C"),
        (Kind::Mass, 55.0, "55 kg"),
        (Kind::Money, 349.0, "349"),
        (Kind::Tariff, 0.17, "0.17 /kWh"),
        (Kind::Droop, 9e6, "0.15 bar per 100 L/min"),
    ];
    for (kind, value, text) in metric {
        assert_eq!(write(kind, value, Units::Metric), text);
    }
}

#[test]
fn numbers_have_commas_and_no_negative_zero() {
    assert_eq!(number(1_234_567.891, 1), "1,234,567.9");
    assert_eq!(number(999.6, 0), "1,000");
    assert_eq!(number(-1_500.0, 0), "-1,500");
    assert_eq!(number(-0.4, 0), "0");
    assert_eq!(number(-0.0, 2), "0.00");
    assert_eq!(number(f64::NAN, 1), "?");
    for kind in Kind::ALL {
        assert_eq!(write(kind, f64::INFINITY, Units::Us), "?");
    }
}

#[test]
fn examples_are_read() {
    for kind in Kind::ALL {
        for units in BOTH {
            let value = si(kind, kind.example(units), units);
            assert!(kind.range().contains(&value));
        }
    }
}

/// The bounds that a refusal states are allowed themselves, in every unit that was tried.
#[test]
fn stated_bounds_are_allowed() {
    let tried = [
        (Kind::Flow, vec!["cfm", "L/min", "L/s", "m3/h", "m3/min", "m3/s"]),
        (Kind::StrokeVolume, vec!["ft3", "L", "in3", "mL", "gal"]),
        (Kind::Pressure, vec!["psi", "bar", "kPa", "MPa", "Pa", "kgf/cm2"]),
        (Kind::StationPressure, vec!["inHg", "psia", "hPa", "mmHg", "bar"]),
        (Kind::Volume, vec!["gal", "L", "ft3", "imp gal", "m3"]),
        (Kind::Power, vec!["hp", "kW", "W", "metric hp"]),
        (Kind::Length, vec!["ft", "m", "in"]),
        (Kind::Bore, vec!["in", "mm"]),
        (Kind::Altitude, vec!["ft", "m"]),
        (Kind::Temperature, vec!["F", "C", "K"]),
        (Kind::Fraction, vec!["%", ""]),
        (Kind::Mass, vec!["lb", "kg"]),
        (Kind::Money, vec!["", "$"]),
        (Kind::Hours, vec!["h", "min"]),
        (Kind::Droop, vec!["psi/cfm", "bar per 100 L/min"]),
        (Kind::WireArea, vec!["mm2"]),
        (Kind::Count, vec![""]),
    ];
    for (kind, units) in tried {
        for unit in units {
            let Err(ReadError::OutOfRange { bounds, .. }) = read(kind, &format!("-9,000 {unit}"), Units::Us)
            else {
                panic!("{kind:?} took -9,000 {unit}");
            };
            let (low, high) = bounds.split_once(" to ").unwrap();
            let (_, typed) = high.split_once(' ').unwrap_or((high, ""));
            for text in [format!("{low} {typed}"), high.to_owned()] {
                assert!(
                    matches!(read(kind, &text, Units::Us), Ok(Some(_))),
                    "{kind:?}: {text:?} of {bounds:?}"
                );
            }
        }
    }
}

/// Each line of `tests/refused/text/<reason>.txt`: kind | units | text | the sentence that the user reads.
#[test]
fn refused_text_is_told_what_would_do() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/refused/text");
    let mut lines = 0;
    for file in fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        let reason = path.file_stem().unwrap().to_str().unwrap().to_owned();
        for line in fs::read_to_string(&path).unwrap().lines() {
            let fields: Vec<&str> = line.split(" | ").collect();
            let [kind, units, text, sentence] = fields[..] else {
                panic!("{reason}: {line}")
            };
            let kind = Kind::ALL.into_iter().find(|k| format!("{k:?}") == kind).unwrap();
            let units = if units == "us" { Units::Us } else { Units::Metric };
            let error = read(kind, text, units).expect_err(line);
            assert_eq!(error.to_string(), sentence, "{line}");
            assert_eq!(name(&error), reason, "{line}");
            lines += 1;
        }
    }
    assert!(lines >= 40, "only {lines} refusals were checked");
}

fn name(error: &ReadError) -> &'static str {
    match error {
        ReadError::NotANumber { .. } => "not_a_number",
        ReadError::WrongUnit { .. } => "wrong_unit",
        ReadError::UnknownUnit { .. } => "unknown_unit",
        ReadError::OutOfRange { .. } => "out_of_range",
        ReadError::NoSuchGauge { .. } => "no_such_gauge",
        ReadError::NotWhole { .. } => "not_whole",
        ReadError::OtherFlow { .. } => "other_flow",
        ReadError::TooLong { .. } => "too_long",
        ReadError::Cut { .. } => "cut",
        ReadError::NoFigure { .. } => "no_figure",
    }
}

fn kinds() -> impl Strategy<Value = Kind> {
    prop::sample::select(&Kind::ALL[..])
}

fn unit_systems() -> impl Strategy<Value = Units> {
    prop::sample::select(&BOTH[..])
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(CASES) })]

    /// Whatever is typed: no panic, and a value is finite and within its range.
    #[test]
    fn any_text_is_read_or_refused(kind in kinds(), units in unit_systems(), text in "\\PC{0,70}") {
        if let Ok(Some(value)) = read(kind, &text, units) {
            prop_assert!(kind.range().contains(&value));
        }
    }

    /// The same for text made of the pieces that the reader knows, which gets further than noise does.
    #[test]
    fn pieces_of_quantities_are_read_or_refused(
        kind in kinds(),
        units in unit_systems(),
        pieces in prop::collection::vec(prop::sample::select(vec![
            "0", "1", "12", "299", "000", "9999999", "-", "+", ".", ",", " ", "/", "½", "⅜", ":", "@", " at ", "#", "$", "€",
            "%", "ft", "in", "'", "\"", "psi", "cfm", "L/min", "m", "min", "s", "h", "gal", "awg", "mm2", "°", "F", "C",
            "per", "100", "kWh", "c", "hp", "²", "³", "é", "\u{200b}", "\u{a0}",
        ]), 0..8),
    ) {
        let text = pieces.concat();
        if let Ok(Some(value)) = read(kind, &text, units) {
            prop_assert!(kind.range().contains(&value), "{text:?} gave {value}");
        } else if let Err(error) = read(kind, &text, units) {
            prop_assert!(!error.to_string().is_empty());
        }
        if let Ok(Some((flow, pressure))) = read_flow_at(&text, units) {
            prop_assert!(Kind::Flow.range().contains(&flow));
            prop_assert!(pressure.is_none_or(|p| Kind::Pressure.range().contains(&p)));
        }
    }

    /// What is written is read again. Three figures are written, so the worst case is half of the third figure of
    /// a 1: 0.5 %; wire within 1 % of a gauge is written as that gauge. Some kinds stop at a decimal: half of it.
    #[test]
    fn what_is_written_is_read(kind in kinds(), units in unit_systems(), place in 0.001..0.999_f64, even in any::<bool>()) {
        let (low, high) = (*kind.range().start(), *kind.range().end());
        let value = if even || low <= 0.0 { low + place * (high - low) } else { low * (high / low).powf(place) };
        let value = if kind == Kind::Count { value.round() } else { value };
        let text = write(kind, value, units);
        let back = read(kind, &text, units);
        let Ok(Some(back)) = back else { panic!("{kind:?} {value} was written {text:?}, read {back:?}") };
        let allowed = if kind == Kind::WireArea { 0.0101 } else { 0.005_01 };
        let step = match kind {
            Kind::Altitude => 0.5,
            Kind::Temperature | Kind::SoundLevel | Kind::LevelLoss => 0.051,
            Kind::Money | Kind::Tariff => 0.005,
            Kind::Duration | Kind::Minutes | Kind::Hours if value > 3_599.0 => 30.0,
            Kind::Duration | Kind::Minutes | Kind::Hours if value > 59.9 => 0.5,
            Kind::Duration | Kind::Minutes | Kind::Hours => 0.005,
            _ => 0.0,
        };
        prop_assert!((back - value).abs() <= (allowed * value.abs()).max(step), "{kind:?} {value} was written {text:?}");
    }
}
