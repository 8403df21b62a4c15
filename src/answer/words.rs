//! Figures in the user's units, and small turns of phrase.

use judge::basis::Basis;
use quantity::{FreeAir, Gauge, Kind, M3_S_PER_CFM, PA_PER_PSI, figure, number, write};
use shop::Units;
use uom::si::f64::MassDensity;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// Pounds in a cubic foot that a kilogram in a cubic metre is: 0.028 316 846 592 / 0.453 592 37, exact.
const KG_M3_IN_LB_FT3: f64 = 0.062_427_960_576;

/// Sizes of flexible cord, mm².
const IEC_60228_MM2: [f64; 10] = [0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0];

/// Writes figures in one system of units.
#[derive(Clone, Copy, Debug)]
pub struct Words {
    /// The system.
    pub units: Units,
    /// The sign of the money that the shop's prices are typed in.
    pub currency: Option<char>,
}

impl Words {
    /// In a shop's units and its money.
    pub fn new(basis: &Basis) -> Self {
        Self {
            units: basis.units,
            currency: basis.currency,
        }
    }
    /// A figure of any kind.
    pub fn of(self, kind: Kind, value: f64) -> String {
        let text = write(kind, self.rounded(kind, value), self.units);
        match (kind, self.currency) {
            (Kind::Money | Kind::Tariff, Some(sign)) => format!("{sign}{}", text.trim_start_matches('$')),
            _ => text,
        }
    }
    /// Feet and inches made metric keep no more figures than one measures by: a tenth of a metre, a centimetre below
    /// one metre. A bore keeps its own: the loss goes with its fifth power.
    fn rounded(self, kind: Kind, value: f64) -> f64 {
        let step = match (kind, self.units) {
            (Kind::Length, Units::Metric) if value >= 1.0 => 0.1,
            (Kind::Length, Units::Metric) if value >= 0.1 => 0.01,
            _ => return value,
        };
        (value / step).round() * step
    }
    /// A free-air flow.
    pub fn flow(self, flow: FreeAir) -> String {
        let step = self.flow_step();
        self.of(Kind::Flow, (flow.as_m3_s() / step).round() * step)
    }
    /// A flow that is enough: in the same steps, upwards.
    pub fn flow_enough(self, flow: FreeAir) -> String {
        let step = self.flow_step();
        self.of(Kind::Flow, (flow.as_m3_s() / step - 1e-6).ceil() * step)
    }
    /// Tenths of a cfm, fives of litres a minute, m³/s: no label is truer than that.
    fn flow_step(self) -> f64 {
        match self.units {
            Units::Us => 0.1 * M3_S_PER_CFM,
            Units::Metric => 5.0 / 60_000.0,
        }
    }
    /// A gauge pressure.
    pub fn pressure(self, pressure: Gauge) -> String {
        let step = if self.units == Units::Us { PA_PER_PSI } else { 1e4 };
        self.of(Kind::Pressure, (pressure.as_pa() / step).round() * step)
    }
    /// A density.
    pub fn density(self, density: MassDensity) -> String {
        let kg_m3 = density.get::<kilogram_per_cubic_meter>();
        match self.units {
            Units::Us => format!("{} lb/ft³", figure(kg_m3 * KG_M3_IN_LB_FT3)),
            Units::Metric => format!("{} kg/m³", figure(kg_m3)),
        }
    }
    /// A share as per cent, to three figures.
    pub fn percent(self, share: f64) -> String {
        format!("{} %", figure(share * 100.0))
    }
    /// A volume; litres by whole ones, from ten on.
    pub fn volume(self, volume_m3: f64) -> String {
        let litres = volume_m3 * 1e3;
        let whole = self.units == Units::Metric && litres >= 10.0;
        self.of(Kind::Volume, if whole { litres.round() / 1e3 } else { volume_m3 })
    }
    /// A volume that is enough: gallons as they are, liters of the next tank that is sold. Common practice, no source.
    pub fn volume_enough(self, volume_m3: f64) -> String {
        const SOLD_L: [f64; 8] = [6.0, 24.0, 50.0, 100.0, 150.0, 200.0, 270.0, 500.0];
        let next = SOLD_L
            .into_iter()
            .map(|litres| litres * 1e-3)
            .find(|size| *size >= 0.98 * volume_m3);
        match (self.units, next) {
            (Units::Metric, Some(size)) => self.volume(size),
            _ => self.volume(volume_m3),
        }
    }
    /// A hose that is enough: the next bore on the rack, 1/4, 3/8, 1/2 in, or 6, 8, 10, 13 mm. Common practice, no source.
    pub fn bore_enough(self, bore_m: f64) -> String {
        const INCHES: [f64; 5] = [0.25, 0.375, 0.5, 0.75, 1.0];
        const MILLIMETRES: [f64; 7] = [6.0, 8.0, 10.0, 13.0, 16.0, 19.0, 25.0];
        let (rack, unit_m): (&[f64], f64) = match self.units {
            Units::Us => (&INCHES, quantity::M_PER_IN),
            Units::Metric => (&MILLIMETRES, 1e-3),
        };
        let next = rack
            .iter()
            .map(|size| size * unit_m)
            .find(|size| *size >= 0.99 * bore_m);
        self.of(Kind::Bore, next.unwrap_or(bore_m))
    }
    /// A cord that is enough: a listed gauge, or the next size of IEC 60228 (from memory) where areas are metric.
    pub fn cord_enough(self, area_m2: f64) -> String {
        let next = IEC_60228_MM2.into_iter().find(|mm2| mm2 * 1e-6 >= 0.99 * area_m2);
        match (self.units, next) {
            (Units::Metric, Some(mm2)) => self.of(Kind::WireArea, mm2 * 1e-6),
            _ => self.of(Kind::WireArea, area_m2),
        }
    }
    /// A current.
    pub fn amps(self, amps: f64) -> String {
        self.of(Kind::Current, amps)
    }
    /// A voltage, to a whole volt.
    pub fn volts(self, volts: f64) -> String {
        self.of(Kind::Voltage, volts.round())
    }
    /// A stretch of time, rounded as one would say it.
    pub fn time(self, seconds: f64) -> String {
        let rounded = match seconds {
            s if s < 10.0 => (s * 10.0).round() / 10.0,
            s if s < 90.0 => s.round(),
            s if s < 600.0 => (s / 10.0).round() * 10.0,
            s => (s / 60.0).round() * 60.0,
        };
        self.of(Kind::Duration, rounded)
    }
    /// A difference of temperatures.
    pub fn warmer(self, kelvin: f64) -> String {
        match self.units {
            Units::Us => format!("{} °F", number(kelvin * 1.8, 0)),
            Units::Metric => format!("{} °C", number(kelvin, 0)),
        }
    }
    /// A share as per cent.
    pub fn share(self, share: f64) -> String {
        self.of(Kind::Fraction, (share * 100.0).round() / 100.0)
    }
    /// A share that is beyond a limit: to a tenth of a per cent where both would be rounded alike.
    pub fn share_beyond(self, share: f64, limit: f64) -> String {
        if self.share(share) == self.share(limit) {
            format!("{} %", number(share * 100.0, 1))
        } else {
            self.share(share)
        }
    }
}

/// Minutes of the hour that a share of time is.
pub fn minutes_in_hour(share: f64) -> String {
    number((share * 60.0).round().max(1.0), 0)
}

/// "a", "a and b", "a, b and c".
pub fn listed(items: &[String]) -> String {
    match items {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// Its first letter small, for the middle of a sentence.
pub fn mid_sentence(text: &str) -> String {
    let rest = text.char_indices().nth(1).map_or(text.len(), |(at, _)| at);
    quantity::lower(&text[..rest]) + &text[rest..]
}

/// The text with its first letter in upper case.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => std::iter::once(first.to_ascii_uppercase())
            .chain(letters)
            .collect(),
        None => String::new(),
    }
}
