//! Water: what drops out in the tank, what goes on to the tool, what painting asks for.
//!
//! Compressing air squeezes its water out: at 120 psig a cubic metre of free air fits into a ninth of the room,
//! and room at one temperature holds about the same vapour whatever else is in it.

use crate::air::{Air, AirError, WATER_TO_AIR, ZERO_CELSIUS, dew_point_kelvin};
use quantity::range::{OutOfRange, within};
use quantity::{Absolute, FreeAir, S_PER_H};
use std::fmt;
use std::ops::RangeInclusive;

/// Tank volumes accepted, m³.
pub const TANK_M3: RangeInclusive<f64> = 0.0..=20.0;
/// Free-air flows accepted, m³/s.
pub const FLOW_M3_S: RangeInclusive<f64> = 0.0..=5.0;
/// Amounts of water accepted, kg.
pub const WATER_KG: RangeInclusive<f64> = 0.0..=1_000.0;

/// Highest pressure dew point of air of water classes 1 to 6, °C. Source: ISO 8573-1 (from memory).
pub const ISO_8573_WATER_C: [f64; 6] = [-70.0, -40.0, -20.0, 3.0, 7.0, 10.0];

/// Pressure dew point that a refrigerated dryer reaches, °C: any lower and it would freeze.
/// ISO 8573-1 class 4 (from memory); common practice.
pub const REFRIGERATED_C: f64 = 3.0;

/// Pressure dew point that a desiccant dryer reaches, °C. ISO 8573-1 class 2 (from memory); common practice.
pub const DESICCANT_C: f64 = -40.0;

/// How far the pressure dew point must lie below the coldest air of the line for painting, K: a gun's expanding
/// air and a hose on a cold floor must not fog. Common practice, no source.
pub const PAINT_MARGIN_K: f64 = 10.0;

/// What the sums cannot answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WaterError {
    /// The air itself is out of range.
    Air(AirError),
    /// A figure outside what is accepted.
    OutOfRange(OutOfRange),
}

impl fmt::Display for WaterError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Air(error) => error.fmt(f),
            Self::OutOfRange(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for WaterError {}

impl From<OutOfRange> for WaterError {
    fn from(error: OutOfRange) -> Self {
        Self::OutOfRange(error)
    }
}

impl From<AirError> for WaterError {
    fn from(error: AirError) -> Self {
        Self::Air(error)
    }
}

/// Humidity ratio of air that has rested in a tank: its own, or what the tank's state can hold if that is less.
///
/// W₂ = min(W₁, W_s(p, T))
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | W₁ | humidity ratio of the air taken in | kg/kg | `inlet` |
/// | p, T | pressure and temperature in the tank | Pa, K | `tank`, `kelvin` |
///
/// # Errors
/// [`WaterError::Air`] if the tank's state is outside [`Air`]'s.
pub fn rested_ratio(inlet: &Air, tank: Absolute, kelvin: f64) -> Result<f64, WaterError> {
    let holds = Air::saturated(tank, kelvin)?.humidity_ratio();
    Ok(inlet.humidity_ratio().min(holds))
}

/// Water that one cubic metre of free air drops in the tank, kg/m³.
///
/// w = ρ_d (W₁ − W₂)
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | ρ_d | dry air in a cubic metre taken in | kg/m³ | `inlet` |
/// | W₁, W₂ | humidity ratio taken in; left by [`rested_ratio`] | kg/kg | `inlet`, `tank`, `kelvin` |
/// | w | water dropped | kg/m³ | result |
///
/// # Validity
/// Air that rests until it has the tank's temperature; a small tank that runs hot passes more on.
/// # Errors
/// [`WaterError::Air`] if the tank's state is outside [`Air`]'s.
/// # Source
/// Balance of water; saturation as in [`Air`].
/// # Example
/// 30 °C and 80 % at sea level, pressed to 120 psig and cooled to 30 °C: 21.1 g (`psychrolib` 2.5, CoolProp):
/// ```
/// # use physics::air::Air; use quantity::{Absolute, Gauge}; use physics::water::condensate_kg_m3;
/// let inlet = Air::new(Absolute::pa(101_325.0), 303.15, 0.8)?;
/// let tank = Gauge::psi(120.0).at(inlet.pressure());
/// assert!((condensate_kg_m3(&inlet, tank, 303.15)? - 0.0211).abs() < 1e-4);
/// # Ok::<(), physics::water::WaterError>(())
/// ```
pub fn condensate_kg_m3(inlet: &Air, tank: Absolute, kelvin: f64) -> Result<f64, WaterError> {
    let left = rested_ratio(inlet, tank, kelvin)?;
    Ok(inlet.dry_kg_m3() * (inlet.humidity_ratio() - left))
}

/// Vapour that leaves the tank with one cubic metre of free air, kg/m³: what was taken in less what dropped.
///
/// # Errors
/// As [`condensate_kg_m3`].
pub fn carried_kg_m3(inlet: &Air, tank: Absolute, kelvin: f64) -> Result<f64, WaterError> {
    Ok(inlet.dry_kg_m3() * rested_ratio(inlet, tank, kelvin)?)
}

/// Water dropped in an hour, kg/h: w Q s x 3,600.
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | w | water dropped by a cubic metre of free air | kg/m³ | `dropped_kg_m3` |
/// | Q | free air delivered while running | m³/s | `flow` |
/// | s | share of time that the machine runs | 1 | `running_share` |
///
/// # Errors
/// [`WaterError::OutOfRange`] outside [`WATER_KG`], [`FLOW_M3_S`] or 0 to 1.
/// # Example
/// 10 cfm half the time is 8.5 m³ an hour; at 21.1 g each 179 g (hand sum):
/// ```
/// # use quantity::FreeAir; use physics::water::condensate_kg_h;
/// assert!((condensate_kg_h(0.0211, FreeAir::cfm(10.0), 0.5)? - 0.179).abs() < 1e-3);
/// # Ok::<(), physics::water::WaterError>(())
/// ```
pub fn condensate_kg_h(dropped_kg_m3: f64, flow: FreeAir, running_share: f64) -> Result<f64, WaterError> {
    within("water per volume", dropped_kg_m3, WATER_KG)?;
    within("flow", flow.as_m3_s(), FLOW_M3_S)?;
    within("running share", running_share, 0.0..=1.0)?;
    Ok(dropped_kg_m3 * flow.as_m3_s() * running_share * S_PER_H)
}

/// Water dropped in one fill of the tank, kg.
///
/// w = W_a m_a + W₁ (m_b − m_a) − W_b m_b, at least 0,  m = V ρ_d(p, T)
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | W₁ | humidity ratio taken in | kg/kg | `inlet` |
/// | a, b | states before and after, at tank temperature T | Pa, K | `from`, `to`, `kelvin` |
/// | m, W_a, W_b | dry air in the tank; its humidity ratio by [`rested_ratio`] | kg, kg/kg | |
/// | V | tank volume | m³ | `tank_m3` |
///
/// # Errors
/// [`WaterError::OutOfRange`] outside [`TANK_M3`] or if `to` is below `from`; [`WaterError::Air`].
/// # Source
/// Balance of water over the fill.
/// # Example
/// 0.0757 m³ (20 gal) from empty to 120 psig ends with 9.44 times the dry air it began with, 0.714 m³ of free air
/// at 30 °C and 80 %. That brought 24.3 g/m³, 17.4 g; saturated at 30 °C the tank keeps 30.4 g/m³ (steam table)
/// x 1.03, 2.4 g: 15.0 g drop (hand sum).
/// ```
/// # use physics::air::Air; use quantity::{Absolute, Gauge}; use physics::water::condensate_per_fill_kg;
/// let inlet = Air::new(Absolute::pa(101_325.0), 303.15, 0.8)?;
/// let full = Gauge::psi(120.0).at(inlet.pressure());
/// let water = condensate_per_fill_kg(&inlet, 0.0757, inlet.pressure(), full, 303.15)?;
/// assert!((water - 0.0150).abs() < 3e-4, "{water}");
/// # Ok::<(), physics::water::WaterError>(())
/// ```
pub fn condensate_per_fill_kg(
    inlet: &Air,
    tank_m3: f64,
    from: Absolute,
    to: Absolute,
    kelvin: f64,
) -> Result<f64, WaterError> {
    Ok(fill(inlet, tank_m3, from, to, kelvin)?.dropped_kg())
}

/// What the balance of one fill rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fill {
    /// Humidity ratio taken in, kg/kg.
    pub ratio: f64,
    /// Humidity ratio in the tank before and after, kg/kg.
    pub tank_ratios: [f64; 2],
    /// Dry air in it before and after, kg.
    pub dry_kg: [f64; 2],
}

impl Fill {
    /// [`condensate_per_fill_kg`].
    pub fn dropped_kg(&self) -> f64 {
        let ([ratio_before, ratio_after], [before, after]) = (self.tank_ratios, self.dry_kg);
        (ratio_before * before + self.ratio * (after - before) - ratio_after * after).max(0.0)
    }
}

/// The figures of [`condensate_per_fill_kg`].
///
/// # Errors
/// As there.
pub fn fill(
    inlet: &Air,
    tank_m3: f64,
    from: Absolute,
    to: Absolute,
    kelvin: f64,
) -> Result<Fill, WaterError> {
    within("tank volume", tank_m3, TANK_M3)?;
    within("pressure before", from.as_pa(), 0.0..=to.as_pa())?;
    let ratio_and_dry = |pressure: Absolute| -> Result<(f64, f64), WaterError> {
        let ratio = rested_ratio(inlet, pressure, kelvin)?;
        let saturated = Air::saturated(pressure, kelvin)?;
        let humidity = vapour_share(ratio, &saturated);
        Ok((ratio, tank_m3 * Air::new(pressure, kelvin, humidity)?.dry_kg_m3()))
    };
    let (before, after) = (ratio_and_dry(from)?, ratio_and_dry(to)?);
    Ok(Fill {
        ratio: inlet.humidity_ratio(),
        tank_ratios: [before.0, after.0],
        dry_kg: [before.1, after.1],
    })
}

/// Vapour pressure of a humidity ratio over that of saturation at the same state, at most 1.
fn vapour_share(ratio: f64, saturated: &Air) -> f64 {
    let vapour_pa = vapour_pa(ratio, saturated.pressure());
    (vapour_pa / saturated.vapour_pressure().as_pa()).min(1.0)
}

/// Vapour pressure of a humidity ratio: p_w = p W/(0.621 945 + W).
fn vapour_pa(ratio: f64, pressure: Absolute) -> f64 {
    pressure.as_pa() * ratio / (WATER_TO_AIR + ratio)
}

/// Hours until a rate has collected an amount; `None` if nothing drops.
///
/// # Errors
/// [`WaterError::OutOfRange`] outside [`WATER_KG`].
/// # Example
/// ```
/// # use physics::water::hours_to_collect;
/// assert_eq!(hours_to_collect(0.25, 0.125)?, Some(2.0));
/// assert_eq!(hours_to_collect(0.25, 0.0)?, None);
/// # Ok::<(), physics::water::WaterError>(())
/// ```
pub fn hours_to_collect(amount_kg: f64, rate_kg_h: f64) -> Result<Option<f64>, WaterError> {
    within("amount of water", amount_kg, WATER_KG)?;
    within("water per hour", rate_kg_h, WATER_KG)?;
    let hours = amount_kg / rate_kg_h;
    Ok(hours.is_finite().then_some(hours))
}

/// What reaches the tool.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtTool {
    /// Relative humidity there, a share of 0 to 1.
    pub humidity: f64,
    /// Water that has dropped out between tank and tool, kg per cubic metre of free air.
    pub liquid_kg_m3: f64,
}

/// The tank's air at the pressure and temperature of a point further down the line.
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | | air taken in | | `inlet` |
/// | p₂, T₂ | tank | Pa, K | `tank`, `tank_kelvin` |
/// | p₃, T₃ | line or tool | Pa, K | `line`, `line_kelvin` |
///
/// Air leaves the tank with [`rested_ratio`]. Expanded at one temperature it only gets drier; hot air that
/// leaves a warm tank and cools in the hose drops the rest there.
/// # Errors
/// [`WaterError::Air`].
/// # Source
/// Balance of water.
/// # Example
/// Saturated at 120 psig, 20 °C, then regulated to 40 psig at 20 °C: about 54.7/134.7 = 41 % (hand sum, ideal):
/// ```
/// # use physics::air::Air; use quantity::{Absolute, Gauge}; use physics::water::at_tool;
/// let inlet = Air::new(Absolute::pa(101_325.0), 293.15, 0.8)?;
/// let at = |psi| Gauge::psi(psi).at(inlet.pressure());
/// let tool = at_tool(&inlet, at(120.0), 293.15, at(40.0), 293.15)?;
/// assert!((tool.humidity - 0.41).abs() < 0.01 && tool.liquid_kg_m3 == 0.0);
/// # Ok::<(), physics::water::WaterError>(())
/// ```
pub fn at_tool(
    inlet: &Air,
    tank: Absolute,
    tank_kelvin: f64,
    line: Absolute,
    line_kelvin: f64,
) -> Result<AtTool, WaterError> {
    let ratio = rested_ratio(inlet, tank, tank_kelvin)?;
    let saturated = Air::saturated(line, line_kelvin)?;
    let beyond = (ratio - saturated.humidity_ratio()).max(0.0);
    Ok(AtTool {
        humidity: vapour_share(ratio, &saturated),
        liquid_kg_m3: inlet.dry_kg_m3() * beyond,
    })
}

/// Temperature to which the tank's air may cool at a line pressure before it drops water, K: its pressure dew point.
///
/// # Errors
/// [`WaterError::Air`], also for air so dry that its dew point is below -100 °C.
/// # Example
/// Saturated air has its dew point at its own temperature:
/// ```
/// # use physics::air::Air; use quantity::{Absolute, Gauge}; use physics::water::pressure_dew_point_kelvin;
/// let inlet = Air::new(Absolute::pa(101_325.0), 293.15, 0.8)?;
/// let tank = Gauge::psi(120.0).at(inlet.pressure());
/// assert!((pressure_dew_point_kelvin(&inlet, tank, 293.15, tank)? - 293.15).abs() < 1e-6);
/// # Ok::<(), physics::water::WaterError>(())
/// ```
pub fn pressure_dew_point_kelvin(
    inlet: &Air,
    tank: Absolute,
    tank_kelvin: f64,
    line: Absolute,
) -> Result<f64, WaterError> {
    let ratio = rested_ratio(inlet, tank, tank_kelvin)?;
    Ok(dew_point_kelvin(Absolute::pa(vapour_pa(ratio, line)), line)?)
}

/// What dries the air enough.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dryer {
    /// None: the air is dry enough as it leaves the tank.
    None,
    /// A refrigerated dryer, [`REFRIGERATED_C`].
    Refrigerated,
    /// A desiccant dryer, [`DESICCANT_C`].
    Desiccant,
    /// None of these: warm the line instead.
    Beyond,
}

/// What painting asks of the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PaintAir {
    /// Pressure dew point needed at the line, K.
    pub needed_kelvin: f64,
    /// What reaches it.
    pub dryer: Dryer,
}

/// The pressure dew point and the dryer that painting asks for.
///
/// Needed: T_c − 10 K, the coldest that the line's air gets less [`PAINT_MARGIN_K`].
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | T_d | pressure dew point as the air leaves the tank | K | `dew_kelvin` |
/// | T_c | coldest air in the line | K | `coldest_kelvin` |
///
/// # Errors
/// [`WaterError::OutOfRange`] outside the ranges of [`air`](crate::air).
/// # Source
/// Common practice; dryers by ISO 8573-1 class (from memory).
/// # Example
/// ```
/// # use physics::water::{paint_air, Dryer};
/// assert_eq!(paint_air(293.15, 293.15)?.dryer, Dryer::Refrigerated);
/// assert_eq!(paint_air(278.15, 278.15)?.dryer, Dryer::Desiccant);
/// # Ok::<(), physics::water::WaterError>(())
/// ```
pub fn paint_air(dew_kelvin: f64, coldest_kelvin: f64) -> Result<PaintAir, WaterError> {
    within("dew point", dew_kelvin, crate::air::SATURATION_KELVIN)?;
    within("temperature", coldest_kelvin, crate::air::KELVIN)?;
    let needed_kelvin = coldest_kelvin - PAINT_MARGIN_K;
    let dryer = if dew_kelvin <= needed_kelvin {
        Dryer::None
    } else if REFRIGERATED_C + ZERO_CELSIUS <= needed_kelvin {
        Dryer::Refrigerated
    } else if DESICCANT_C + ZERO_CELSIUS <= needed_kelvin {
        Dryer::Desiccant
    } else {
        Dryer::Beyond
    };
    Ok(PaintAir { needed_kelvin, dryer })
}
