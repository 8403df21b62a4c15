//! What a clock and the tank's gauge tell: the flow that a pump-up shows, and the leak that a leak-down shows.
//!
//! Both are read off the tank, so both are as good as its volume and its gauge. A pump-up heats the air: the gauge
//! then runs ahead of the mass, and the handbook's formula finds more flow than there is.

use std::fmt;
use std::ops::RangeInclusive;

use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::mass_rate::kilogram_per_second;

use crate::air::Air;
use crate::compressor::{INTO_TANK_K, Pump};
use crate::receiver::{CV, Flows, R_DRY_AIR, Receiver, Walls};
use quantity::{Absolute, FreeAir, Gauge, PA_PER_PSI, plain};

/// Flows that a clock at a shop's compressor may find, cfm. Common practice, no source: a tyre inflator to a 100 hp screw.
pub const FLOW_CFM: RangeInclusive<f64> = 0.05..=500.0;
/// Error of a gauge reading, Pa: 2 % of a full scale of 160 psi. Common practice, no source; gauges of grade B
/// (ASME B40.100, from memory) are held to 3, 2 and 3 % over the three parts of their scale.
pub const GAUGE_PA: f64 = 0.02 * 160.0 * PA_PER_PSI;
/// Error of a hand on a stopwatch, s. Common practice, no source.
pub const CLOCK_S: f64 = 0.5;
/// Error of a tank's stated volume. Common practice, no source.
pub const VOLUME_SHARE: f64 = 0.03;
/// Readings must lie so far apart, Pa: three errors of the gauge.
const LEAST_SPAN_PA: f64 = 10.0 * PA_PER_PSI;
/// How much warmer than the room the tank's air may be when the clock starts, K. Common practice, no source.
const START_WARM_K: f64 = 10.0;
/// The air that comes in may be so much warmer or cooler than [`INTO_TANK_K`] says, K. Common practice, no source.
const IN_KELVIN_ERROR: f64 = 25.0;
/// The law for the walls is known to a coefficient of 0.13 +- 0.025 (Incropera, from memory).
const WALL_SHARE: f64 = 0.2;
/// The clearance behind the curve's shape may be half as large again. Common practice, no source.
const CURVE_SHARE: f64 = 0.5;
/// Outside over inside pressure, absolute, up to which a leak is choked: (2 / (γ + 1))^(γ / (γ − 1)), γ = 1.4.
const CHOKED: f64 = 0.528;

/// Why times and readings make no measurement.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MeasureError {
    /// The volume of the tank is not known.
    UnknownTank,
    /// A time is not above zero, or is no number.
    NoTime,
    /// The end reading, Pa, is on the wrong side of the start reading, Pa.
    Swapped(f64, f64),
    /// The readings are so many pascals apart.
    TooClose(f64),
    /// The time would take this flow, m³/s: more than any machine here.
    TooFast(f64),
    /// The time would take this flow, m³/s: less than any machine here.
    TooSlow(f64),
    /// A pump of that curve never reaches the end reading, Pa.
    Unreachable(f64),
    /// A leak is not choked down to the end reading: stop at this one or above, Pa.
    NotChoked(f64),
}

/// A pressure in both unit systems.
struct Both(f64);

impl fmt::Display for Both {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [psi, bar] = [plain(self.0 / PA_PER_PSI, 0), plain(self.0 / 1e5, 1)];
        write!(f, "{psi} psi ({bar} bar)")
    }
}

impl fmt::Display for MeasureError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let cfm = |flow: f64, digits| plain(FreeAir::m3_s(flow).as_cfm(), digits);
        let litres = |flow: f64, digits| plain(flow * 60_000.0, digits);
        match *self {
            Self::UnknownTank => write!(
                f,
                "the times say nothing without the tank’s volume: read it off the code plate"
            ),
            Self::NoTime => write!(f, "a time must be above zero, e.g. 182 s"),
            Self::Swapped(from, to) => write!(
                f,
                "from {} to {} goes the wrong way: are the two readings swapped?",
                Both(from),
                Both(to)
            ),
            Self::TooClose(span) => write!(
                f,
                "the readings are {} apart, hardly more than a gauge’s error: take them at least {} apart",
                Both(span),
                Both(LEAST_SPAN_PA)
            ),
            Self::TooFast(flow) => write!(
                f,
                "that would be {} cfm ({} L/min): no shop’s machine does that; is the time in minutes, the tank in another unit?",
                cfm(flow, 0),
                litres(flow, 0)
            ),
            Self::TooSlow(flow) => write!(
                f,
                "that would be {} cfm ({} L/min): less than a tyre pump; is the time in another unit, the outlet open?",
                cfm(flow, 3),
                litres(flow, 1)
            ),
            Self::Unreachable(to) => write!(
                f,
                "a pump with the flows on this label never reaches {}: check the second flow and the reading",
                Both(to)
            ),
            Self::NotChoked(least) => write!(
                f,
                "a leak slows down at low pressure: stop the clock at {} or above",
                Both(least)
            ),
        }
    }
}

impl std::error::Error for MeasureError {}

/// Times of one job at the machine: the gauge goes from one reading to another, once or more.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Timed<'a> {
    /// Volume of the tank, m³.
    pub volume_m3: f64,
    /// Reading when the clock starts.
    pub from: Gauge,
    /// Reading when it stops.
    pub to: Gauge,
    /// Seconds of each run.
    pub seconds: &'a [f64],
}

/// What a pump-up shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Delivered {
    /// The delivery curve that takes the measured time.
    pub pump: Pump,
    /// Uncertainty of its flow, as a share.
    pub share: f64,
    /// The curve that takes this time if the air kept the room's temperature, as the handbook formula has it.
    pub isothermal: Pump,
    /// Runs averaged.
    pub runs: usize,
    /// Half of what lies between the longest and the shortest run, as a share of the mean.
    pub spread: f64,
    /// Mean time of a run, s.
    pub mean_s: f64,
}

/// What a leak-down shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leak {
    /// Mass lost for each pascal of absolute pressure, kg/(s Pa).
    pub kg_s_pa: f64,
    /// Uncertainty of that, kg/(s Pa).
    pub error_kg_s_pa: f64,
}

/// What was measured at a machine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// The air in which it was measured.
    pub air: Air,
    /// By pump-up.
    pub delivered: Option<Delivered>,
    /// By leak-down.
    pub leak: Option<Leak>,
}

impl Timed<'_> {
    fn mean_s(&self) -> f64 {
        self.seconds.iter().sum::<f64>() / self.seconds.len() as f64
    }

    fn half_spread_s(&self) -> f64 {
        let longest = self.seconds.iter().copied().fold(f64::MIN, f64::max);
        let shortest = self.seconds.iter().copied().fold(f64::MAX, f64::min);
        0.5 * (longest - shortest)
    }

    fn sane(&self) -> Result<(), MeasureError> {
        if !(1e-4..100.0).contains(&self.volume_m3) {
            return Err(MeasureError::UnknownTank);
        }
        if self.seconds.is_empty() || !self.seconds.iter().all(|time| (1e-3..1e8).contains(time)) {
            return Err(MeasureError::NoTime);
        }
        let (from, to) = (self.from.as_pa(), self.to.as_pa());
        let swapped = !(0.0..1e8).contains(&from) || !(0.0..1e8).contains(&to);
        if swapped {
            Err(MeasureError::Swapped(from, to))
        } else {
            Ok(())
        }
    }
}

/// A pump-up with everything that it depends on, so that each can be changed alone.
#[derive(Clone, Copy)]
struct Trial {
    receiver: Receiver,
    inlet: Absolute,
    density_kg_m3: f64,
    pump: Pump,
    from_pa: f64,
    to_pa: f64,
    seconds: f64,
    start_kelvin: f64,
    in_kelvin: f64,
    leak_kg_s_pa: f64,
}

impl Trial {
    /// Whether the tank is at the end reading before the time is over, with a flow `factor` times as large.
    fn arrives(&self, factor: f64) -> bool {
        let flows = |pressure: f64| Flows {
            in_kg_s: factor
                * self.density_kg_m3
                * self.pump.delivered(Absolute::pa(pressure), self.inlet).as_m3_s(),
            in_kelvin: self.in_kelvin,
            out_kg_s: self.leak_kg_s_pa * pressure,
        };
        let mut state = self.receiver.state(self.from_pa, self.start_kelvin);
        let mut left = self.seconds;
        while left > 0.0 && self.receiver.pressure_pa(state) < self.to_pa {
            // Half the walls' time constant keeps the midpoint rule honest; no more than 2,000 steps in all.
            let conductance = self.receiver.wall_conductance(state).max(1e-9);
            let by_walls = 0.5 * state.mass_kg * CV / conductance;
            let step = by_walls
                .min(self.seconds / 100.0)
                .max(self.seconds / 2_000.0)
                .min(left);
            state = self.receiver.step(state, step, flows);
            left -= step;
        }
        self.receiver.pressure_pa(state) >= self.to_pa
    }

    /// The factor of flow with which it takes just the time, between `low` and `high`, to a ten-millionth.
    fn factor(&self, mut low: f64, mut high: f64) -> Option<f64> {
        if !self.arrives(high) {
            return None;
        }
        for _ in 0..28 {
            let middle = (low * high).sqrt();
            if self.arrives(middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        Some(high)
    }

    fn rated_m3_s(&self, factor: f64) -> f64 {
        factor * self.pump.rated(Gauge::psi(90.0)).as_m3_s()
    }

    /// The same with one thing changed at a time, by what it is not known to.
    fn doubts(&self, half_spread_s: f64) -> [Self; 10] {
        // A drained tank has the outside air's pressure, whatever its gauge says.
        let from_error = if self.from_pa > self.inlet.as_pa() {
            GAUGE_PA
        } else {
            0.0
        };
        let larger = Receiver::cylinder(
            self.receiver.volume_m3 * (1.0 + VOLUME_SHARE),
            self.receiver.wall_k,
        );
        let walls = Receiver {
            area_m2: self.receiver.area_m2 * (1.0 + WALL_SHARE),
            ..self.receiver
        };
        [
            Self {
                from_pa: self.from_pa + from_error,
                ..*self
            },
            Self {
                to_pa: self.to_pa + GAUGE_PA,
                ..*self
            },
            Self {
                seconds: self.seconds + CLOCK_S,
                ..*self
            },
            Self {
                seconds: self.seconds + half_spread_s,
                ..*self
            },
            Self {
                receiver: larger,
                ..*self
            },
            Self {
                receiver: walls,
                ..*self
            },
            Self {
                start_kelvin: self.start_kelvin + START_WARM_K,
                ..*self
            },
            Self {
                in_kelvin: self.in_kelvin + IN_KELVIN_ERROR,
                ..*self
            },
            Self {
                in_kelvin: self.in_kelvin - IN_KELVIN_ERROR,
                ..*self
            },
            Self {
                pump: self.pump.curved(1.0 + CURVE_SHARE),
                ..*self
            },
        ]
    }

    /// Root of the squares of what each doubt changes, as a share. The two of the inlet count once, as their mean square.
    fn share(&self, factor: f64, half_spread_s: f64) -> f64 {
        let flow = self.rated_m3_s(factor);
        let squares = self.doubts(half_spread_s).map(|doubt| {
            // A factor of three covers every doubt; one that it does not cover counts as a whole.
            let other = doubt
                .factor(factor / 3.0, factor * 3.0)
                .map(|other| doubt.rated_m3_s(other));
            let change = other.map_or(1.0, |other| other / flow - 1.0);
            let weight = if doubt.in_kelvin == self.in_kelvin {
                1.0
            } else {
                0.5
            };
            weight * change * change
        });
        squares.iter().sum::<f64>().sqrt()
    }
}

/// Delivered flow from a timed pump-up with nothing drawn: the pump of the shape `curve` with which mass and energy
/// of the air in the tank ([`Receiver::rates`]) need just the measured time.
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | V, p₁, p₂, t | volume; readings; times, of which the mean counts | m³, Pa, s | `timed` |
/// | p, T, ρ | outside air, which is the inlet's | Pa, K, kg/m³ | `air` |
/// | η(r) | shape of the delivery curve; its size is found | 1 | `curve` |
/// | G | leak at each pascal, which the pump has to make up for; 0 if unknown | kg/(s Pa) | `leak_kg_s_pa` |
///
/// The air comes in [`INTO_TANK_K`] warmer than the room; the walls take heat by natural convection. The flow is found by
/// 28 halvings. The uncertainty is the root of the squares of what each doubt changes alone: [`GAUGE_PA`] at either
/// reading (none where the tank was drained), [`CLOCK_S`], half the spread of the runs, [`VOLUME_SHARE`], air still 10 K
/// warm at the start, air 25 K warmer or cooler coming in, a fifth more exchange with the walls, half as much clearance
/// again.
///
/// # Validity
/// Tank at the room's temperature when the clock starts, outlet shut; nothing teed in.
/// # Errors
/// [`MeasureError`]: readings swapped or under 10 psi apart, no time, no tank, a flow outside [`FLOW_CFM`], a curve that
/// never gets there.
/// # Source
/// First law for an open system; DOE compressed-air sourcebook, capacity by timed pump-up (isothermal; from memory).
/// # Example
/// 20 gal from 0 to 120 psi in 300 s: the handbook's V Δp / (t p) is 2.674 ft³ x 120 / 14.696 / 5 min = 4.37 cfm on the
/// average of the way, and the heat takes some of that away:
/// ```
/// # use physics::air::RATING; use physics::compressor::Pump; use physics::measure::{Timed, delivered}; use quantity::MachineKind;
/// # use quantity::{FreeAir, Gauge, M3_PER_GALLON};
/// let curve = Pump::of_one_flow(MachineKind::Rotary, FreeAir::cfm(1.0), Gauge::psi(90.0))?;
/// let timed = Timed { volume_m3: 20.0 * M3_PER_GALLON, from: Gauge::psi(0.0), to: Gauge::psi(120.0), seconds: &[300.0] };
/// let found = delivered(timed, &RATING, curve, 0.0)?;
/// let [real, cool] = [found.pump, found.isothermal].map(|pump| pump.rated(Gauge::psi(60.0)).as_cfm());
/// assert!((cool / 4.37 - 1.0).abs() < 0.02 && (0.85..0.99).contains(&(real / cool)));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn delivered(timed: Timed, air: &Air, curve: Pump, leak_kg_s_pa: f64) -> Result<Delivered, MeasureError> {
    timed.sane()?;
    let span = timed.to.as_pa() - timed.from.as_pa();
    if span <= 0.0 {
        return Err(MeasureError::Swapped(timed.from.as_pa(), timed.to.as_pa()));
    }
    if span < LEAST_SPAN_PA {
        return Err(MeasureError::TooClose(span));
    }
    let (inlet, seconds) = (air.pressure(), timed.mean_s());
    let handbook = timed.volume_m3 * span / (seconds * inlet.as_pa());
    within(handbook)?;
    let trial = Trial {
        receiver: Receiver::cylinder(timed.volume_m3, air.kelvin()),
        inlet,
        density_kg_m3: air.density().get::<kilogram_per_cubic_meter>(),
        pump: curve,
        from_pa: timed.from.at(inlet).as_pa(),
        to_pa: timed.to.at(inlet).as_pa(),
        seconds,
        start_kelvin: air.kelvin(),
        in_kelvin: air.kelvin() + INTO_TANK_K,
        leak_kg_s_pa,
    };
    let cool = Trial {
        receiver: trial.receiver.with_walls(Walls::Isothermal),
        ..trial
    };
    let unreachable = MeasureError::Unreachable(timed.to.as_pa());
    // From a fiftieth of the handbook's flow to fifty times it: the curve's shape and a leak lie well within.
    let unit = handbook / trial.rated_m3_s(1.0).max(1e-12);
    let factor = |trial: &Trial| trial.factor(unit / 50.0, unit * 50.0).ok_or(unreachable);
    let (found, isothermal) = (factor(&trial)?, factor(&cool)?);
    Ok(Delivered {
        pump: curve.scaled(found),
        share: trial.share(found, timed.half_spread_s()),
        isothermal: curve.scaled(isothermal),
        runs: timed.seconds.len(),
        spread: timed.half_spread_s() / seconds,
        mean_s: seconds,
    })
}

fn within(flow_m3_s: f64) -> Result<(), MeasureError> {
    let cfm = FreeAir::m3_s(flow_m3_s).as_cfm();
    if FLOW_CFM.contains(&cfm) {
        Ok(())
    } else if cfm > *FLOW_CFM.end() {
        Err(MeasureError::TooFast(flow_m3_s))
    } else {
        Err(MeasureError::TooSlow(flow_m3_s))
    }
}

/// The leak from a timed leak-down, motor off and nothing drawn: choked, it is proportional to absolute pressure, so
/// p = p₁ e^(−t/τ) and G = V / (R T τ) = V ln(p₁/p₂) / (R T t).
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | V, p₁, p₂, t | volume; absolute readings; times, of which the mean counts | m³, Pa, s | `timed` |
/// | T | the room's air, which the tank's has come to | K | `air` |
/// | R | [`R_DRY_AIR`] | J/(kg K) | constant |
///
/// The uncertainty is the root of the squares of what gauge, clock or spread, and volume change alone. Equal readings
/// are a leak of nothing to within that.
///
/// # Validity
/// Tank cooled to the room; p₂ above 1.89 times the outside air, so that the leak is choked throughout.
/// # Errors
/// [`MeasureError`]: a rise, no time, no tank, an end reading too low, more than the upper end of [`FLOW_CFM`].
/// # Source
/// Choked flow of an ideal gas; the DOE compressed-air sourcebook has V (p₁ − p₂) / (t p) x 1.25 (from memory).
/// # Example
/// 20 gal from 120 to 60 psi in an hour, DOE: 2.674 ft³ x 60 / (60 min x 14.7) x 1.25 = 0.227 cfm at full pressure:
/// ```
/// # use physics::air::RATING; use physics::measure::{Timed, leak}; use quantity::{Gauge, M3_PER_GALLON};
/// let timed = Timed { volume_m3: 20.0 * M3_PER_GALLON, from: Gauge::psi(120.0), to: Gauge::psi(60.0), seconds: &[3_600.0] };
/// let flow = leak(timed, &RATING)?.free_air(Gauge::psi(120.0), &RATING).as_cfm();
/// assert!((flow / 0.227 - 1.0).abs() < 0.08);
/// # Ok::<(), physics::measure::MeasureError>(())
/// ```
pub fn leak(timed: Timed, air: &Air) -> Result<Leak, MeasureError> {
    timed.sane()?;
    let inlet = air.pressure();
    let [from, to] = [timed.from, timed.to].map(|reading| reading.at(inlet).as_pa());
    if to > from {
        return Err(MeasureError::Swapped(timed.from.as_pa(), timed.to.as_pa()));
    }
    let least = inlet.as_pa() / CHOKED;
    if to < least {
        return Err(MeasureError::NotChoked(Absolute::pa(least).above(inlet).as_pa()));
    }
    let seconds = timed.mean_s();
    let per_pa = |from: f64, to: f64, seconds: f64| {
        timed.volume_m3 * (from / to).ln() / (R_DRY_AIR * air.kelvin() * seconds)
    };
    let kg_s_pa = per_pa(from, to, seconds);
    let changes = [
        per_pa(from + GAUGE_PA, to, seconds) - kg_s_pa,
        per_pa(from, to - GAUGE_PA, seconds) - kg_s_pa,
        kg_s_pa * CLOCK_S.max(timed.half_spread_s()) / seconds,
        kg_s_pa * VOLUME_SHARE,
    ];
    let found = Leak {
        kg_s_pa,
        error_kg_s_pa: changes.iter().map(|change| change * change).sum::<f64>().sqrt(),
    };
    let flow = found.free_air(timed.from, air);
    if flow.as_cfm() > *FLOW_CFM.end() {
        return Err(MeasureError::TooFast(flow.as_m3_s()));
    }
    Ok(found)
}

impl Leak {
    /// Free air lost at a gauge pressure, in the air of a place.
    pub fn free_air(&self, at: Gauge, air: &Air) -> FreeAir {
        self.flow(self.kg_s_pa, at, air)
    }

    /// The uncertainty of that.
    pub fn error(&self, at: Gauge, air: &Air) -> FreeAir {
        self.flow(self.error_kg_s_pa, at, air)
    }

    fn flow(&self, kg_s_pa: f64, at: Gauge, air: &Air) -> FreeAir {
        let mass = kg_s_pa * at.at(air.pressure()).as_pa();
        FreeAir::of_mass(
            uom::si::f64::MassRate::new::<kilogram_per_second>(mass),
            air.density(),
        )
    }

    /// Seconds in which the leak takes a tank from one absolute pressure to a lower one; infinite without a leak.
    pub fn fall_s(&self, receiver: &Receiver, from_pa: f64, to_pa: f64) -> f64 {
        receiver.volume_m3 * (from_pa / to_pa).ln() / (R_DRY_AIR * receiver.wall_k * self.kg_s_pa)
    }
}
