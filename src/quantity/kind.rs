//! What a field asks for: its unit when none is typed, its limits, an example.

use std::ops::RangeInclusive;

use super::factor::{KG_PER_LB, M_PER_IN, M3_PER_FT3, M3_S_PER_CFM, PA_PER_PSI, S_PER_H, W_PER_HP};
use super::unit::{self, Measure, Unit};
use crate::Units;

/// What a field asks for. The comment names the SI unit of the value and how people type it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Free-air flow, m³/s: "5.1 cfm", "144 L/min", "8.6 m³/h".
    Flow,
    /// Free air a stroke, m³: "0.05 ft3", "1.5 L".
    StrokeVolume,
    /// Gauge pressure, Pa: "90 psi", "6.2 bar", "620 kPa".
    Pressure,
    /// Absolute pressure of the outside air, Pa: "24.9 inHg", "12.2 psia", "843 hPa".
    StationPressure,
    /// Volume, m³: "20 gal", "75 L".
    Volume,
    /// Voltage, V: "120 V".
    Voltage,
    /// Current, A: "15 A".
    Current,
    /// Power, W: "1-1/2 hp", "1.1 kW".
    Power,
    /// Apparent power, VA: "3 kVA", "3000 W"; a bare number is kVA.
    ApparentPower,
    /// Length, m: "50 ft", "12 ft 6 in", "15 m".
    Length,
    /// Bore of a hose, m: "3/8 in", "10 mm".
    Bore,
    /// Conductor area, m²: "14 AWG", "#14", "12/3", "1/0", "2.5 mm²".
    WireArea,
    /// Height above the sea, m: "4,900 ft", "1500 m", "-50 ft".
    Altitude,
    /// Temperature, K: "90 °F", "32 C".
    Temperature,
    /// A share of one: "50 %", "0.5"; a bare number above 1 is per cent.
    Fraction,
    /// Mass, kg: "120 lb", "55 kg".
    Mass,
    /// Money, whichever currency: "$349", "1,299", "€300".
    Money,
    /// Time, s: "3 s", "2 min 10 s", "1:30"; a bare number is seconds.
    Duration,
    /// Time, s; a bare number is minutes.
    Minutes,
    /// Time, s; a bare number is hours, and "1:30" is an hour and a half.
    Hours,
    /// Level of sound, dB: "78 dBA".
    SoundLevel,
    /// Difference of two levels, dB: "10 dB".
    LevelLoss,
    /// Money a kilowatt hour: "$0.17", "17 cents", "0.17 /kWh".
    Tariff,
    /// Fall of pressure with flow, Pa s/m³: "1 psi/cfm", "0.15 bar per 100 L/min".
    Droop,
    /// A whole number.
    Count,
}

impl Kind {
    /// Every kind, for tables and tests.
    pub const ALL: [Self; 25] = [
        Self::Flow,
        Self::StrokeVolume,
        Self::Pressure,
        Self::StationPressure,
        Self::Volume,
        Self::Voltage,
        Self::Current,
        Self::Power,
        Self::ApparentPower,
        Self::Length,
        Self::Bore,
        Self::WireArea,
        Self::Altitude,
        Self::Temperature,
        Self::Fraction,
        Self::Mass,
        Self::Money,
        Self::Duration,
        Self::Minutes,
        Self::Hours,
        Self::SoundLevel,
        Self::LevelLoss,
        Self::Tariff,
        Self::Droop,
        Self::Count,
    ];

    /// The values that this kind of figure may have, SI. A field may allow less: [`crate::field`].
    pub fn range(self) -> RangeInclusive<f64> {
        let [low, high] = self.limits();
        low..=high
    }

    /// The ends of [`Self::range`].
    pub(crate) const fn limits(self) -> [f64; 2] {
        match self {
            // From an airbrush to a factory's screw machine.
            Self::Flow => [0.05 * M3_S_PER_CFM, 500.0 * M3_S_PER_CFM],
            Self::StrokeVolume => [0.001 * M3_PER_FT3, 5.0 * M3_PER_FT3],
            // An empty tank counts, a diving cylinder does not.
            Self::Pressure => [0.0, 500.0 * PA_PER_PSI],
            // 15.4 to 32.5 inHg. The low end is above 15.4 as inches and the high end is 15.95 as psi, so that a bare
            // "14.7", meant as psia, is refused instead of being taken for inches of mercury.
            Self::StationPressure => [52_000.0, 110_000.0],
            // 0.5 to 500 gal, and as litres write them: 1.89 and 1,893 L.
            Self::Volume => [1.89e-3, 1.893],
            // From a car's battery to a three-phase shop.
            Self::Voltage => [6.0, 700.0],
            // Nothing, for other loads, to a whole house.
            Self::Current => [0.0, 400.0],
            Self::Power => [0.02 * W_PER_HP, 50.0 * W_PER_HP],
            Self::ApparentPower => [100.0, 100_000.0],
            // No run at all, to a neighbor a kilometre away.
            Self::Length => [0.0, 1_000.0],
            Self::Bore => [0.002, 2.0 * M_PER_IN],
            // 18 AWG is 0.82 mm², 4/0 AWG 107 mm².
            Self::WireArea => [0.5e-6, 120e-6],
            // From below the lowest shore to 5,000 m.
            Self::Altitude => [-500.0, 5_000.0],
            // -40 to 60 °C, -40 to 140 °F.
            Self::Temperature => [233.15, 333.15],
            Self::Fraction => [0.0, 1.0],
            Self::Mass => [KG_PER_LB, 2_000.0 * KG_PER_LB],
            Self::Money => [0.0, 1_000_000.0],
            // Up to a day.
            Self::Duration | Self::Minutes => [0.0, 24.0 * S_PER_H],
            // Up to the hours of a whole build.
            Self::Hours => [0.0, 20_000.0 * S_PER_H],
            // From a quiet bedroom to the threshold of pain.
            Self::SoundLevel => [20.0, 140.0],
            Self::LevelLoss => [0.0, 80.0],
            // So that a bare "17", meant as cents, is refused.
            Self::Tariff => [0.0, 5.0],
            Self::Droop => [0.0, 20.0 * PA_PER_PSI / M3_S_PER_CFM],
            Self::Count => [0.0, 100.0],
        }
    }

    /// A figure of this kind as a label or a person states it, for placeholders and errors.
    pub fn example(self, units: Units) -> &'static str {
        let (us, metric) = match self {
            Self::Flow => ("5.1 cfm", "144 L/min"),
            Self::StrokeVolume => ("0.05 ft³", "1.5 L"),
            Self::Pressure => ("90 psi", "6.2 bar"),
            Self::StationPressure => ("24.9 inHg", "843 hPa"),
            Self::Volume => ("20 gal", "75 L"),
            Self::Voltage => ("120 V", "230 V"),
            Self::Current => ("15 A", "10 A"),
            Self::Power => ("1-1/2 hp", "1.1 kW"),
            Self::ApparentPower => ("3 kVA", "3 kVA"),
            Self::Length => ("50 ft", "15 m"),
            Self::Bore => ("3/8 in", "10 mm"),
            Self::WireArea => ("14 AWG", "2.5 mm²"),
            Self::Altitude => ("4,900 ft", "1500 m"),
            Self::Temperature => ("90 °F", "32 °C"),
            Self::Fraction => ("50 %", "50 %"),
            Self::Mass => ("120 lb", "55 kg"),
            Self::Money => ("$349", "349"),
            Self::Duration => ("3 s", "3 s"),
            Self::Minutes => ("2 min", "2 min"),
            Self::Hours => ("8 h", "8 h"),
            Self::SoundLevel => ("78 dBA", "78 dBA"),
            Self::LevelLoss => ("10 dB", "10 dB"),
            Self::Tariff => ("$0.17", "0.17 /kWh"),
            Self::Droop => ("1 psi/cfm", "0.15 bar per 100 L/min"),
            Self::Count => ("2", "2"),
        };
        match units {
            Units::Us => us,
            Units::Metric => metric,
        }
    }

    /// What it is called in a sentence.
    pub(super) fn words(self) -> &'static str {
        match self {
            Self::Flow => "a flow of free air",
            Self::StrokeVolume => "air by the stroke",
            Self::Pressure => "a gauge pressure",
            Self::StationPressure => "the outside air's pressure, counted from vacuum",
            Self::Volume => "a tank's volume",
            Self::Voltage => "a voltage",
            Self::Current => "a current",
            Self::Power => "a motor's power",
            Self::ApparentPower => "a generator's rating",
            Self::Length => "a length",
            Self::Bore => "a hose's bore",
            Self::WireArea => "a wire size",
            Self::Altitude => "an altitude",
            Self::Temperature => "a temperature",
            Self::Fraction => "a share",
            Self::Mass => "a weight",
            Self::Money => "an amount of money",
            Self::Duration | Self::Minutes | Self::Hours => "a time",
            Self::SoundLevel => "a level of sound",
            Self::LevelLoss => "a loss of level",
            Self::Tariff => "a price of energy",
            Self::Droop => "a regulator's droop",
            Self::Count => "a number of things",
        }
    }

    /// What the units that it accepts measure.
    pub(super) fn accepts(self) -> &'static [Measure] {
        match self {
            Self::Flow => &[Measure::Flow],
            Self::StrokeVolume | Self::Volume => &[Measure::Volume],
            Self::Pressure => &[Measure::Pressure, Measure::GaugePressure],
            Self::StationPressure => &[Measure::Pressure, Measure::AbsolutePressure],
            Self::Voltage => &[Measure::Voltage],
            Self::Current => &[Measure::Current],
            Self::Power => &[Measure::Power],
            Self::ApparentPower => &[Measure::ApparentPower, Measure::Power],
            Self::Length | Self::Bore => &[Measure::Length],
            Self::WireArea => &[Measure::Area, Measure::WireGauge],
            Self::Altitude => &[Measure::Length, Measure::Elevation],
            Self::Temperature => &[Measure::Temperature],
            Self::Fraction => &[Measure::Share],
            Self::Mass => &[Measure::Mass],
            Self::Money => &[Measure::Money],
            Self::Duration | Self::Minutes | Self::Hours => &[Measure::Time],
            Self::SoundLevel | Self::LevelLoss => &[Measure::Level],
            Self::Tariff => &[Measure::Tariff],
            Self::Droop => &[Measure::Droop],
            Self::Count => &[Measure::Number],
        }
    }

    /// The unit of a bare number, which is also the unit of an answer.
    pub(super) fn unit(self, units: Units) -> &'static Unit {
        let (us, metric) = match self {
            Self::Flow => (&unit::CFM, &unit::L_MIN),
            Self::StrokeVolume => (&unit::FT3, &unit::LITRE),
            Self::Pressure => (&unit::PSI, &unit::BAR),
            Self::StationPressure => (&unit::IN_HG, &unit::HPA),
            Self::Volume => (&unit::GAL, &unit::LITRE),
            Self::Voltage => (&unit::VOLT, &unit::VOLT),
            Self::Current => (&unit::AMP, &unit::AMP),
            Self::Power => (&unit::HP, &unit::KW),
            Self::ApparentPower => (&unit::KVA, &unit::KVA),
            Self::Length | Self::Altitude => (&unit::FOOT, &unit::METRE),
            Self::Bore => (&unit::INCH, &unit::MM),
            Self::WireArea => (&unit::MM2, &unit::MM2),
            Self::Temperature => (&unit::FAHRENHEIT, &unit::CELSIUS),
            Self::Fraction => (&unit::PERCENT, &unit::PERCENT),
            Self::Mass => (&unit::LB, &unit::KG),
            Self::Money => (&unit::MONEY, &unit::ONE),
            Self::Duration => (&unit::SECOND, &unit::SECOND),
            Self::Minutes => (&unit::MINUTE, &unit::MINUTE),
            Self::Hours => (&unit::HOUR, &unit::HOUR),
            Self::SoundLevel | Self::LevelLoss => (&unit::DECIBEL, &unit::DECIBEL),
            Self::Tariff => (&unit::PER_KWH, &unit::PER_KWH),
            Self::Droop => (&unit::PSI_CFM, &unit::BAR_100L),
            Self::Count => (&unit::ONE, &unit::ONE),
        };
        match units {
            Units::Us => us,
            Units::Metric => metric,
        }
    }
}
