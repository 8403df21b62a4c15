//! Money: electricity over the build, the whole set against a budget.
//!
//! Sums of money have no currency: prices and tariffs are in the builder's own.

use quantity::range::{OutOfRange, within};
use quantity::{FreeAir, S_PER_H};
use std::ops::RangeInclusive;

/// Joules in a kilowatt hour, exact.
pub const J_PER_KWH: f64 = 3.6e6;

/// Prices and budgets accepted.
pub const PRICE: RangeInclusive<f64> = 0.0..=1e6;
/// Tariffs accepted, money per kilowatt hour.
pub const TARIFF: RangeInclusive<f64> = 0.0..=100.0;
/// Powers accepted, W.
pub const WATTS: RangeInclusive<f64> = 0.0..=100_000.0;
/// Hours over a build accepted.
pub const HOURS: RangeInclusive<f64> = 0.0..=100_000.0;
/// Pieces of one kind, or metres of it, accepted.
pub const COUNT: RangeInclusive<f64> = 0.0..=1_000.0;

/// Energy that the motor takes over the build, kWh.
///
/// E = P h s
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | P | electrical power while running | W | `watts` |
/// | h | working hours over the build | h | `hours` |
/// | s | share of them in which it runs | 1 | `running_share` |
/// | E | energy | kWh | result |
///
/// # Errors
/// [`OutOfRange`] outside [`WATTS`], [`HOURS`] or 0 to 1.
/// # Example
/// 1,500 W for 100 hours, 40 % of the time: 60 kWh (hand sum):
/// ```
/// # use physics::cost::energy_kwh;
/// assert!((energy_kwh(1_500.0, 100.0, 0.4)? - 60.0).abs() < 1e-9);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn energy_kwh(watts: f64, hours: f64, running_share: f64) -> Result<f64, OutOfRange> {
    within("power", watts, WATTS)?;
    within("working hours", hours, HOURS)?;
    within("running share", running_share, 0.0..=1.0)?;
    Ok(watts * hours * S_PER_H * running_share / J_PER_KWH)
}

/// Money for the electricity of the build: [`energy_kwh`] times the tariff.
///
/// # Errors
/// As [`energy_kwh`], and outside [`TARIFF`].
/// # Example
/// 60 kWh at 0.15 cost 9 (hand sum):
/// ```
/// # use physics::cost::electricity;
/// assert!((electricity(1_500.0, 100.0, 0.4, 0.15)? - 9.0).abs() < 1e-9);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn electricity(watts: f64, hours: f64, running_share: f64, tariff: f64) -> Result<f64, OutOfRange> {
    within("tariff", tariff, TARIFF)?;
    Ok(energy_kwh(watts, hours, running_share)? * tariff)
}

/// Money for each cfm of delivered flow: what two machines on a shelf can be compared by.
///
/// # Errors
/// [`OutOfRange`] outside [`PRICE`], or a flow outside 0.01 to 10,000 cfm.
/// # Example
/// ```
/// # use physics::cost::price_per_cfm; use quantity::{FreeAir, S_PER_H};
/// assert!((price_per_cfm(300.0, FreeAir::cfm(5.0))? - 60.0).abs() < 1e-9);
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn price_per_cfm(price: f64, delivered: FreeAir) -> Result<f64, OutOfRange> {
    within("price", price, PRICE)?;
    within("delivered flow", delivered.as_cfm(), 0.01..=10_000.0)?;
    Ok(price / delivered.as_cfm())
}

/// Money between two ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Money {
    /// Least.
    pub low: f64,
    /// Most.
    pub high: f64,
}

impl Money {
    /// One sum, known.
    pub fn exactly(sum: f64) -> Self {
        Self { low: sum, high: sum }
    }
}

/// What goes with a compressor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extra {
    /// Trunk hose, by the metre.
    TrunkHose,
    /// Light whip, by the metre.
    Whip,
    /// A quick coupler, plug and socket.
    Coupler,
    /// A regulator with a gauge.
    Regulator,
    /// A drain that one can reach: valve and elbow.
    Drain,
    /// A cord of 12 AWG, by the metre.
    Cord12,
    /// A cord of 10 AWG, by the metre.
    Cord10,
    /// An auxiliary receiver with a code plate, by the ten litres.
    Receiver10L,
    /// A water trap for the bench end.
    Trap,
    /// A circuit for one machine by an electrician, its GFCI breaker included.
    Circuit,
    /// An electrician's visit to reconnect a motor on a circuit that is there.
    Visit,
    /// A coalescing filter and a desiccant dryer for the bench end, and a hose for paint alone.
    PaintAir,
}

impl Extra {
    /// Usual price of one, US dollars about 2025. Typical range; common practice, no source: the builder's own
    /// prices are better.
    pub fn typical(self) -> Money {
        let (low, high) = match self {
            Self::TrunkHose => (1.5, 5.0),
            Self::Whip => (2.0, 7.0),
            Self::Coupler => (4.0, 15.0),
            Self::Regulator => (20.0, 60.0),
            Self::Drain => (8.0, 30.0),
            Self::Cord12 => (3.0, 7.0),
            Self::Cord10 => (5.0, 11.0),
            Self::Receiver10L => (25.0, 60.0),
            Self::Trap => (15.0, 50.0),
            Self::Circuit => (300.0, 1_000.0),
            Self::Visit => (100.0, 250.0),
            Self::PaintAir => (120.0, 400.0),
        };
        Money { low, high }
    }
}

/// Money for the set: the machine, and each extra times how many of it.
///
/// # Errors
/// [`OutOfRange`] outside [`PRICE`] or [`COUNT`].
/// # Example
/// 300, four couplers at 4 to 15: 316 to 360 (hand sum):
/// ```
/// # use physics::cost::{set_total, Extra, Money};
/// let total = set_total(300.0, &[(Extra::Coupler, 4.0)])?;
/// assert_eq!(total, Money { low: 316.0, high: 360.0 });
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn set_total(price: f64, extras: &[(Extra, f64)]) -> Result<Money, OutOfRange> {
    within("price", price, PRICE)?;
    let mut total = Money::exactly(price);
    for (extra, count) in extras {
        within("count", *count, COUNT)?;
        let each = extra.typical();
        total.low += count * each.low;
        total.high += count * each.high;
    }
    Ok(total)
}

/// How a sum stands against a budget.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Budget {
    /// Even the most is within it; so much is left at least.
    Within(f64),
    /// The least is within it, the most is not.
    Maybe,
    /// Even the least is over; by so much at least.
    Over(f64),
}

/// A sum against a budget.
///
/// # Errors
/// [`OutOfRange`] if the budget is outside [`PRICE`], or the sum's ends outside 0 to 10,000,000 or in
/// the wrong order.
/// # Example
/// ```
/// # use physics::cost::{against, Budget, Money};
/// let total = Money { low: 316.0, high: 360.0 };
/// assert_eq!(against(total, 400.0)?, Budget::Within(40.0));
/// assert_eq!(against(total, 350.0)?, Budget::Maybe);
/// assert_eq!(against(total, 300.0)?, Budget::Over(16.0));
/// # Ok::<(), quantity::range::OutOfRange>(())
/// ```
pub fn against(total: Money, budget: f64) -> Result<Budget, OutOfRange> {
    within("budget", budget, PRICE)?;
    within("sum", total.high, 0.0..=1e7)?;
    within("sum", total.low, 0.0..=total.high)?;
    Ok(if total.high <= budget {
        Budget::Within(budget - total.high)
    } else if total.low <= budget {
        Budget::Maybe
    } else {
        Budget::Over(total.low - budget)
    })
}
