//! Wire: what a gauge number means, what its metal resists.

use super::CircuitError;
use quantity::range::within;
use std::ops::RangeInclusive;

/// Square metres in one circular mil: π/4 x (0.001 in)².
pub const M2_PER_CIRCULAR_MIL: f64 = std::f64::consts::FRAC_PI_4 * 0.000_025_4 * 0.000_025_4;

/// Resistivity of the aluminum of branch wire over copper's: NEC chapter 9 table 8, 12 AWG, 3.18 against 1.93 ohm per
/// 1,000 ft (from memory).
const ALUMINUM_OVER_COPPER: f64 = 1.65;

/// Resistivity of annealed copper at 20 °C, ohm m: 1/58 ohm mm²/m.
/// Source: IEC 60028, the international standard of resistance for copper (from memory).
pub const COPPER_OHM_M_20C: f64 = 1e-6 / 58.0;

/// Rise of that resistivity with temperature, 1/K, counted from its value at 20 °C.
/// Counted from 75 °C it is 0.003 23, the figure in the note to NEC chapter 9 table 8 (both from memory).
pub const COPPER_RISE_20C: f64 = 0.003_93;

/// What the lay of the strands adds to the copper's length, and so to its resistance.
/// Source: NEC chapter 9 table 8, stranded against solid rows, 1.02 (from memory).
pub const STRANDING: f64 = 1.02;

/// Temperature at which codes state resistance, °C; a wire that runs cooler drops less.
pub const RATED_C: f64 = 75.0;

/// Insulation of common cords and cables, °C: 60 °C (from memory).
pub const INSULATION_C: f64 = 60.0;

/// Wire gauges accepted.
pub const GAUGE_NUMBER: RangeInclusive<u8> = 0..=30;
/// Copper areas accepted, m²: from 0.05 to 200 mm².
pub const AREA_M2: RangeInclusive<f64> = 0.05e-6..=200e-6;
/// Wire temperatures accepted, °C.
pub const WIRE_C: RangeInclusive<f64> = -60.0..=150.0;
/// Resistances per length of one conductor accepted, ohm/m.
pub const OHM_PER_M: RangeInclusive<f64> = 1e-6..=10.0;
/// Lengths accepted, one way, m.
pub const LENGTH_M: RangeInclusive<f64> = 0.0..=2_000.0;

/// American wire gauge: a higher number is a thinner wire.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Awg(pub(super) u8);

impl Awg {
    /// The gauge with this number.
    ///
    /// # Errors
    /// [`CircuitError::OutOfRange`] outside [`GAUGE_NUMBER`].
    pub fn new(number: u8) -> Result<Self, CircuitError> {
        let [low, high] = [GAUGE_NUMBER.start(), GAUGE_NUMBER.end()].map(|end| f64::from(*end));
        within("wire gauge", f64::from(number), low..=high)?;
        Ok(Self(number))
    }

    /// The number that names the gauge.
    pub fn number(self) -> u8 {
        self.0
    }

    /// Copper area, m².
    ///
    /// d = 0.005 in x 92^((36 − n)/39), A = π d²/4
    ///
    /// | symbol | meaning | unit | argument |
    /// |---|---|---|---|
    /// | n | gauge number | 1 | `self` |
    /// | d | diameter of the solid wire | in | |
    /// | A | area | m² | result |
    ///
    /// # Source
    /// ASTM B258 (equation from memory).
    /// # Example
    /// 14 AWG has 4,110 circular mils (NEC chapter 9 table 8, rounded to ten):
    /// ```
    /// # use physics::circuit::{Awg, M2_PER_CIRCULAR_MIL};
    /// let mils = Awg::new(14)?.area_m2() / M2_PER_CIRCULAR_MIL;
    /// assert!((mils - 4_110.0).abs() < 5.0);
    /// # Ok::<(), physics::circuit::CircuitError>(())
    /// ```
    pub fn area_m2(self) -> f64 {
        quantity::gauge::area_m2(self.0 as i8)
    }
}

/// Temperature of a conductor that carries a current, °C: as I², from the place's own.
///
/// t = t₀ + (t_r − 30 °C) (I/I_z)²
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | t₀ | temperature of the place | °C | `place_celsius` |
/// | I/I_z | current over ampacity | 1 | `load_share` |
/// | t_r | rating of the insulation, at which ampacities are stated for 30 °C about: [`INSULATION_C`] | °C | |
///
/// # Source
/// Heat of I² R against a loss in step with the rise (any text); NEC tables 310.16 and 400.5(A)(1) are for 30 °C
/// (from memory).
/// # Example
/// At its ampacity in a room of 30 °C it is as warm as its insulation stands:
/// ```
/// # use physics::circuit::{conductor_celsius, INSULATION_C};
/// assert_eq!(conductor_celsius(30.0, 1.0), INSULATION_C);
/// ```
pub fn conductor_celsius(place_celsius: f64, load_share: f64) -> f64 {
    let hot = place_celsius + (INSULATION_C - 30.0) * load_share * load_share;
    hot.max(*WIRE_C.start()).min(*WIRE_C.end())
}

/// How a conductor is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Strands {
    /// One wire: house wiring to 10 AWG mostly.
    Solid,
    /// Many wires: every cord.
    Stranded,
}

/// What a conductor is made of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Metal {
    /// Copper: every cord, most houses.
    #[default]
    Copper,
    /// Aluminum, copper-clad or not: some houses wired about 1965 to 1975.
    Aluminum,
}

impl Metal {
    fn over_copper(self) -> f64 {
        match self {
            Self::Copper => 1.0,
            Self::Aluminum => ALUMINUM_OVER_COPPER,
        }
    }

    /// Area of the copper that carries as much: of aluminum, one size thinner (two gauge numbers).
    ///
    /// # Source
    /// NEC 240.4(D): aluminum of 12 AWG has copper's breaker of 14 AWG (from memory).
    pub fn as_copper_m2(self, area_m2: f64) -> f64 {
        match self {
            Self::Copper => area_m2,
            Self::Aluminum => area_m2 / 92_f64.powf(4.0 / 39.0),
        }
    }
}

/// A two-wire run: both conductors of one area, one length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wire {
    /// Copper area of one conductor, m².
    pub area_m2: f64,
    /// How the conductors are made.
    pub strands: Strands,
    /// What they are made of.
    pub metal: Metal,
    /// Length one way, m.
    pub length_m: f64,
}

impl Wire {
    /// A stranded cord of a gauge.
    pub fn cord(gauge: Awg, length_m: f64) -> Self {
        Self {
            area_m2: gauge.area_m2(),
            strands: Strands::Stranded,
            metal: Metal::Copper,
            length_m,
        }
    }

    /// Branch wire in the wall: solid to 10 AWG, stranded from 8 AWG on.
    pub fn branch(gauge: Awg, length_m: f64) -> Self {
        let strands = if gauge.number() < 10 {
            Strands::Stranded
        } else {
            Strands::Solid
        };
        Self {
            area_m2: gauge.area_m2(),
            strands,
            metal: Metal::Copper,
            length_m,
        }
    }

    /// Resistance of the run out and back at a temperature, ohm: 2 R′ L.
    ///
    /// # Errors
    /// As [`ohm_per_m`], and [`CircuitError::OutOfRange`] outside [`LENGTH_M`].
    pub fn loop_ohm(&self, celsius: f64) -> Result<f64, CircuitError> {
        within("length", self.length_m, LENGTH_M)?;
        let copper = ohm_per_m(self.area_m2, self.strands, celsius)?;
        Ok(2.0 * self.length_m * copper * self.metal.over_copper())
    }
}

/// Resistance of one metre of one copper conductor to direct current.
///
/// R′ = k ρ₂₀ (1 + α (t − 20 °C)) / A
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | A | copper area | m² | `area_m2` |
/// | k | lay of the strands, 1 or [`STRANDING`] | 1 | `strands` |
/// | t | temperature of the copper | °C | `celsius` |
/// | ρ₂₀, α | [`COPPER_OHM_M_20C`], [`COPPER_RISE_20C`] | ohm m, 1/K | |
/// | R′ | resistance per length | ohm/m | result |
///
/// # Validity
/// Direct current; at 60 Hz the reactance of a cord to 6 AWG adds less than 2 % in quadrature.
/// # Errors
/// [`CircuitError::OutOfRange`] outside [`AREA_M2`] or [`WIRE_C`].
/// # Source
/// IEC 60028 for the copper; NEC chapter 9 table 8 for the lay of the strands (from memory).
/// # Example
/// 14 AWG solid, 75 °C: 3.07 ohm per 1,000 ft (NEC chapter 9 table 8, uncoated copper):
/// ```
/// # use physics::circuit::{ohm_per_m, Awg, Strands};
/// let per_1000_ft = ohm_per_m(Awg::new(14)?.area_m2(), Strands::Solid, 75.0)? * 304.8;
/// assert!((per_1000_ft - 3.07).abs() < 0.01);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn ohm_per_m(area_m2: f64, strands: Strands, celsius: f64) -> Result<f64, CircuitError> {
    within("conductor area", area_m2, AREA_M2)?;
    within("wire temperature", celsius, WIRE_C)?;
    let lay = match strands {
        Strands::Solid => 1.0,
        Strands::Stranded => STRANDING,
    };
    Ok(lay * COPPER_OHM_M_20C * (1.0 + COPPER_RISE_20C * (celsius - 20.0)) / area_m2)
}

/// Voltage lost out and back in a run that carries a current.
///
/// V = 2 I R′ L
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | I | current | A | `amps` |
/// | R′ | resistance of one conductor per length | ohm/m | `ohm_per_m` |
/// | L | length one way | m | `length_m` |
/// | V | loss | V | result |
///
/// # Errors
/// [`CircuitError::OutOfRange`] if a figure is negative or absurd.
/// # Source
/// Ohm's law; both conductors carry the current.
/// # Example
/// 15 A over 50 ft of 16 AWG cord, 5.0 ohm per 1,000 ft, loses 7.5 V (hand sum):
/// ```
/// # use physics::circuit::drop_volts;
/// assert!((drop_volts(15.0, 5.0 / 304.8, 15.24)? - 7.5).abs() < 1e-9);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn drop_volts(amps: f64, ohm_per_m: f64, length_m: f64) -> Result<f64, CircuitError> {
    within("current", amps, 0.0..=*super::AMPS.end())?;
    within("resistance per metre", ohm_per_m, OHM_PER_M)?;
    within("length", length_m, LENGTH_M)?;
    Ok(2.0 * amps * ohm_per_m * length_m)
}

/// Length, one way, at which a run loses just `drop_volts`: [`drop_volts`] solved for L, m.
///
/// # Errors
/// [`CircuitError::OutOfRange`] if the current or the resistance is not above zero, or if the drop is negative.
pub fn length_for_drop_m(drop_volts: f64, amps: f64, ohm_per_m: f64) -> Result<f64, CircuitError> {
    within("voltage drop", drop_volts, 0.0..=1_000.0)?;
    within("current", amps, super::AMPS)?;
    within("resistance per metre", ohm_per_m, OHM_PER_M)?;
    Ok(drop_volts / (2.0 * amps * ohm_per_m))
}
