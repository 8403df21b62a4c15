//! The air of a place: pressure from altitude, density and water from temperature and humidity.

use crate::receiver::R_DRY_AIR;
use quantity::range::{OutOfRange, within};
use quantity::{Absolute, K_AT_0_C, PA_PER_PSI, STANDARD_GRAVITY, plain};
use std::fmt;
use std::ops::RangeInclusive;
use uom::si::f64::MassDensity;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// Altitudes that a place may have, m.
pub const ALTITUDE_M: RangeInclusive<f64> = -500.0..=6_000.0;
/// Pressures of moist air accepted, Pa absolute: the enhancement factor holds up to 20 atm.
pub const PRESSURE_PA: RangeInclusive<f64> = 20_000.0..=2_000_000.0;
/// Temperatures of moist air accepted, K: -60 to 100 °C.
pub const KELVIN: RangeInclusive<f64> = 213.15..=373.15;
/// Relative humidities accepted, as a share.
pub const HUMIDITY: RangeInclusive<f64> = 0.0..=1.0;
/// Temperatures at which the saturation formulae hold, K: -100 to 200 °C.
pub const SATURATION_KELVIN: RangeInclusive<f64> = 173.15..=473.15;

/// Most that vapour may take of the pressure: beyond it the air is mostly steam.
pub const MOST_VAPOUR: f64 = 0.5;

/// 0 °C in kelvin, exact.
pub const ZERO_CELSIUS: f64 = K_AT_0_C;

/// Temperature of water's triple point, K: ice below, water above. Exact until 2019, within 0.1 mK since.
pub const TRIPLE_POINT: f64 = 273.16;

/// Mass of a mole of water over that of dry air: 18.015 268 / 28.966.
/// Source: ASHRAE Fundamentals, Psychrometrics (from memory).
pub const WATER_TO_AIR: f64 = 0.621_945;

/// The state at which labels are taken to count: 70 °F, 14.7 psia, 36 % relative humidity, 0.075 lb/ft³.
/// Source: a usual US inlet basis (US Navy Diving Manual, chapter 8). ISO 1217 counts at 20 °C, 1 bar, dry.
pub const RATING: Air = Air {
    pressure_pa: 14.7 * PA_PER_PSI,
    kelvin: ZERO_CELSIUS + (70.0 - 32.0) / 1.8,
    humidity: 0.36,
};

/// What the sums cannot answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AirError {
    /// A figure outside what is accepted.
    OutOfRange(OutOfRange),
    /// So much vapour that the mixture is steam rather than air.
    Steam {
        /// Pressure of the vapour, Pa.
        vapour_pa: f64,
        /// Pressure of the whole, Pa.
        pressure_pa: f64,
    },
}

impl fmt::Display for AirError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OutOfRange(error) => error.fmt(f),
            Self::Steam {
                vapour_pa,
                pressure_pa,
            } => write!(
                f,
                "vapour of {} Pa is over half of {} Pa: use less heat or humidity",
                plain(*vapour_pa, 0),
                plain(*pressure_pa, 0)
            ),
        }
    }
}

impl std::error::Error for AirError {}

impl From<OutOfRange> for AirError {
    fn from(error: OutOfRange) -> Self {
        Self::OutOfRange(error)
    }
}

// US Standard Atmosphere 1976, defining constants (from memory).
/// Pressure at sea level, Pa.
const BASE_PA: f64 = 101_325.0;
/// Temperature at sea level, K.
const BASE_KELVIN: f64 = 288.15;
/// Fall of temperature with geopotential height, K/m.
const LAPSE_K_M: f64 = 0.006_5;
/// g₀ M₀/R*: gravity times molar mass over the gas constant, K/m.
const COLUMN_K_M: f64 = STANDARD_GRAVITY * 0.028_964_4 / 8.314_32;
/// Radius of the Earth that turns geometric into geopotential height, m.
const EARTH_M: f64 = 6_356_766.0;

/// Geopotential height of a geometric altitude: H = r z/(r + z), m.
fn geopotential_m(altitude_m: f64) -> f64 {
    EARTH_M * altitude_m / (EARTH_M + altitude_m)
}

/// Temperature of the standard atmosphere, K.
///
/// T = 288.15 K − L H,  H = r z/(r + z)
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | z | geometric altitude | m | `altitude_m` |
/// | H | geopotential height | m | |
/// | L, r | 0.0065, 6 356 766 | K/m, m | |
/// | T | temperature | K | result |
///
/// # Errors
/// [`AirError::OutOfRange`] outside [`ALTITUDE_M`].
/// # Source
/// US Standard Atmosphere 1976 (ISO 2533 is the same here).
/// # Example
/// 2,000 m: 275.154 K (table I):
/// ```
/// # use physics::air::standard_kelvin;
/// assert!((standard_kelvin(2_000.0)? - 275.154).abs() < 1e-3);
/// # Ok::<(), physics::air::AirError>(())
/// ```
pub fn standard_kelvin(altitude_m: f64) -> Result<f64, AirError> {
    within("altitude", altitude_m, ALTITUDE_M)?;
    Ok(BASE_KELVIN - LAPSE_K_M * geopotential_m(altitude_m))
}

/// Pressure of the standard atmosphere.
///
/// p = 101 325 Pa (T/288.15 K)^(g M/(R* L))
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | T | standard temperature at geometric altitude z | K, m | `altitude_m` |
/// | g M/(R* L) | 5.255 88 | 1 | |
/// | p | pressure | Pa | result |
///
/// # Validity
/// The troposphere. Weather moves the true pressure by 2 or 3 %; a barometer beats this.
/// # Errors
/// [`AirError::OutOfRange`] outside [`ALTITUDE_M`].
/// # Source
/// US Standard Atmosphere 1976, equation 33a (from memory).
/// # Example
/// 5,000 ft: 12.228 psia (`fluids` 1.3.1):
/// ```
/// # use physics::air::standard_pressure;
/// assert!((standard_pressure(5_000.0 * 0.3048)?.as_psi() - 12.228).abs() < 1e-3);
/// # Ok::<(), physics::air::AirError>(())
/// ```
pub fn standard_pressure(altitude_m: f64) -> Result<Absolute, AirError> {
    let ratio = standard_kelvin(altitude_m)? / BASE_KELVIN;
    Ok(Absolute::pa(BASE_PA * ratio.powf(COLUMN_K_M / LAPSE_K_M)))
}

/// Dynamic viscosity of air, Pa s.
///
/// μ = β T^1.5/(T + S)
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | T | temperature | K | `kelvin` |
/// | β, S | 1.458e-6, 110.4 | kg/(s m √K), K | |
///
/// # Validity
/// Dry air, within about 1 %. Saturated air is thinner: by 1 % at 25 °C, by 5 % at 45 °C.
/// # Errors
/// [`OutOfRange`] outside [`SATURATION_KELVIN`].
/// # Source
/// US Standard Atmosphere 1976, equation 51, Sutherland's law (from memory).
/// # Example
/// 15 °C: 1.7894e-5 Pa s (table III):
/// ```
/// # use physics::air::viscosity;
/// assert!((viscosity(288.15)? - 1.7894e-5).abs() < 1e-9);
/// # Ok::<(), physics::air::AirError>(())
/// ```
pub fn viscosity(kelvin: f64) -> Result<f64, OutOfRange> {
    within("temperature", kelvin, SATURATION_KELVIN)?;
    Ok(1.458e-6 * kelvin * kelvin.sqrt() / (kelvin + 110.4))
}

/// Value of c₀ + c₁ x + c₂ x² + …
fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

/// Pressure of water vapour in balance with water, or with ice below the triple point, Pa.
///
/// ln p = c₋₁/T + c₀ + c₁ T + c₂ T² + … + k ln T
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | T | temperature | K | `kelvin` |
/// | p | saturation pressure of pure water | Pa | result |
///
/// # Errors
/// [`AirError::OutOfRange`] outside [`SATURATION_KELVIN`].
/// # Source
/// Hyland and Wexler (1983), as ASHRAE Fundamentals 2017, chapter 1, equations 5 and 6 (coefficients from memory).
/// # Example
/// 25 °C: 3,169.2 Pa (ASHRAE Fundamentals, chapter 1, table 3, from memory):
/// ```
/// # use physics::air::saturation_pressure_pa;
/// assert!((saturation_pressure_pa(298.15)? - 3_169.2).abs() < 0.5);
/// # Ok::<(), physics::air::AirError>(())
/// ```
pub fn saturation_pressure_pa(kelvin: f64) -> Result<f64, AirError> {
    within("temperature", kelvin, SATURATION_KELVIN)?;
    Ok(saturation(kelvin))
}

fn saturation(kelvin: f64) -> f64 {
    const ICE: [f64; 6] = [
        6.392_524_7,
        -9.677_843e-3,
        6.221_570_1e-7,
        2.074_782_5e-9,
        -9.484_024e-13,
        0.0,
    ];
    const WATER: [f64; 6] = [
        1.391_499_3,
        -4.864_023_9e-2,
        4.176_476_8e-5,
        -1.445_209_3e-8,
        0.0,
        0.0,
    ];
    let (inverse, plain, log) = if kelvin < TRIPLE_POINT {
        (-5_674.535_9, ICE, 4.163_501_9)
    } else {
        (-5_800.220_6, WATER, 6.545_967_3)
    };
    (inverse / kelvin + polynomial(&plain, kelvin) + log * kelvin.ln()).exp()
}

/// Saturation pressure of the vapour in air over that of pure water.
///
/// f = exp(α (1 − e/p) + β (p/e − 1)),  α, ln β: cubics in °C
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | e | saturation pressure of pure water at the temperature | Pa, K | `kelvin` |
/// | p | pressure of the moist air | Pa | `pressure_pa` |
///
/// It is 1.004 in the open air and near 1.03 in a full tank, where it decides how much water stays in the air.
/// # Source
/// Greenspan, *J. Res. NBS* 80A (1976) 41, to 20 atm (coefficients from memory).
fn enhancement(kelvin: f64, pressure_pa: f64) -> f64 {
    const WATER: [[f64; 4]; 2] = [
        [3.536_24e-4, 2.932_28e-5, 2.614_74e-7, 8.575_38e-9],
        [-10.758_8, 6.325_29e-2, -2.535_91e-4, 6.337_84e-7],
    ];
    const ICE: [[f64; 4]; 2] = [
        [3.644_49e-4, 2.936_31e-5, 4.886_35e-7, 4.365_43e-9],
        [-10.727_1, 7.619_89e-2, -1.747_71e-4, 2.467_21e-6],
    ];
    let [alpha, beta] = if kelvin < TRIPLE_POINT { ICE } else { WATER };
    let celsius = kelvin - ZERO_CELSIUS;
    let share = saturation(kelvin) / pressure_pa;
    (polynomial(&alpha, celsius) * (1.0 - share) + polynomial(&beta, celsius).exp() * (1.0 / share - 1.0))
        .exp()
}

/// Air with water vapour in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    pressure_pa: f64,
    kelvin: f64,
    humidity: f64,
}

impl Air {
    /// Air of a pressure, a temperature (K) and a relative humidity (share of saturation, over ice below 0.01 °C).
    ///
    /// # Errors
    /// [`AirError::OutOfRange`] outside [`PRESSURE_PA`], [`KELVIN`], [`HUMIDITY`]; [`AirError::Steam`] if vapour
    /// takes more than [`MOST_VAPOUR`] of the pressure.
    pub fn new(pressure: Absolute, kelvin: f64, humidity: f64) -> Result<Self, AirError> {
        let pressure_pa = pressure.as_pa();
        within("pressure", pressure_pa, PRESSURE_PA)?;
        within("temperature", kelvin, KELVIN)?;
        within("relative humidity", humidity, HUMIDITY)?;
        let air = Self {
            pressure_pa,
            kelvin,
            humidity,
        };
        let vapour_pa = air.vapour_pa();
        if saturation(kelvin) > pressure_pa || vapour_pa > MOST_VAPOUR * pressure_pa {
            return Err(AirError::Steam {
                vapour_pa: saturation(kelvin).max(vapour_pa),
                pressure_pa,
            });
        }
        Ok(air)
    }

    /// Air of a pressure and a temperature that holds as much vapour as it can.
    ///
    /// # Errors
    /// As [`Air::new`].
    pub fn saturated(pressure: Absolute, kelvin: f64) -> Result<Self, AirError> {
        Self::new(pressure, kelvin, 1.0)
    }

    /// Pressure of the whole.
    pub fn pressure(&self) -> Absolute {
        Absolute::pa(self.pressure_pa)
    }
    /// Temperature, K.
    pub fn kelvin(&self) -> f64 {
        self.kelvin
    }
    /// Relative humidity, a share.
    pub fn relative_humidity(&self) -> f64 {
        self.humidity
    }

    fn vapour_pa(&self) -> f64 {
        self.humidity * enhancement(self.kelvin, self.pressure_pa) * saturation(self.kelvin)
    }

    /// Pressure of the vapour in it: φ f e(T), e by [`saturation_pressure_pa`], f by Greenspan's enhancement.
    pub fn vapour_pressure(&self) -> Absolute {
        Absolute::pa(self.vapour_pa())
    }

    /// Mass of water over mass of dry air: W = 0.621 945 p_w/(p − p_w).
    ///
    /// # Source
    /// ASHRAE Fundamentals 2017, chapter 1, equation 20 (from memory).
    /// # Example
    /// Saturated at 20 °C and 101.325 kPa: 0.014 758 (ASHRAE Fundamentals, chapter 1, table 2, from memory):
    /// ```
    /// # use physics::air::Air; use quantity::Absolute;
    /// let air = Air::saturated(Absolute::pa(101_325.0), 293.15)?;
    /// assert!((air.humidity_ratio() / 0.014_758 - 1.0).abs() < 1e-3);
    /// # Ok::<(), physics::air::AirError>(())
    /// ```
    pub fn humidity_ratio(&self) -> f64 {
        let vapour = self.vapour_pa();
        WATER_TO_AIR * vapour / (self.pressure_pa - vapour)
    }

    /// Mass of dry air in a cubic metre, kg/m³: (p − p_w)/(R T).
    pub fn dry_kg_m3(&self) -> f64 {
        (self.pressure_pa - self.vapour_pa()) / (R_DRY_AIR * self.kelvin)
    }

    /// Mass of a cubic metre of the moist air: ρ = (p − p_w)/(R T) + 0.621 945 p_w/(R T).
    ///
    /// Moist air is lighter than dry air: at 45 °C and 100 % by 3 %.
    /// # Validity
    /// Ideal gases: within 0.1 % in the open air; at 13 bar within 0.8 % from 0 °C up, 1.4 % at -30 °C.
    /// # Example
    /// The rating state weighs 0.075 lb/ft³ (US Navy Diving Manual, chapter 8), three figures printed:
    /// ```
    /// # use physics::air::RATING;
    /// # use uom::si::mass_density::pound_per_cubic_foot;
    /// assert!((RATING.density().get::<pound_per_cubic_foot>() - 0.075).abs() < 0.0005);
    /// ```
    pub fn density(&self) -> MassDensity {
        let moist = self.dry_kg_m3() * (1.0 + self.humidity_ratio());
        MassDensity::new::<kilogram_per_cubic_meter>(moist)
    }

    /// Temperature at which this air, cooled at its pressure, first drops water or ice, K.
    ///
    /// # Errors
    /// As [`dew_point_kelvin`]: perfectly dry air has none.
    pub fn dew_point_kelvin(&self) -> Result<f64, AirError> {
        dew_point_kelvin(self.vapour_pressure(), self.pressure())
    }
}

/// Temperature at which vapour of one pressure is just saturated in air of another, K: f(T, p) e(T) = p_w.
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | p_w | pressure of the vapour | Pa | `vapour` |
/// | p | pressure of the moist air | Pa | `pressure` |
/// | T | dew point; frost point below 0.01 °C | K | result |
///
/// Found by 60 halvings between -100 and 100 °C.
/// # Errors
/// [`AirError::OutOfRange`] outside [`PRESSURE_PA`], or if no temperature in that span saturates;
/// [`AirError::Steam`] as [`Air::new`].
/// # Example
/// 20 °C and 50 % has its dew point at 9.3 °C (any psychrometric chart):
/// ```
/// # use physics::air::Air; use quantity::Absolute;
/// let air = Air::new(Absolute::pa(101_325.0), 293.15, 0.5)?;
/// assert!((air.dew_point_kelvin()? - 273.15 - 9.3).abs() < 0.1);
/// # Ok::<(), physics::air::AirError>(())
/// ```
pub fn dew_point_kelvin(vapour: Absolute, pressure: Absolute) -> Result<f64, AirError> {
    let (vapour_pa, pressure_pa) = (vapour.as_pa(), pressure.as_pa());
    within("pressure", pressure_pa, PRESSURE_PA)?;
    let (mut low, mut high) = (*SATURATION_KELVIN.start(), *KELVIN.end());
    // Never steam, so that the enhancement stays what it was fitted for.
    let most = saturation(high).min(MOST_VAPOUR * pressure_pa);
    let least = enhancement(low, pressure_pa) * saturation(low);
    if vapour_pa > MOST_VAPOUR * pressure_pa {
        return Err(AirError::Steam {
            vapour_pa,
            pressure_pa,
        });
    }
    within("vapour pressure", vapour_pa, least..=most)?;
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if enhancement(middle, pressure_pa) * saturation(middle) < vapour_pa {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(0.5 * (low + high))
}
