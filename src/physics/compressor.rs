//! What a compressor delivers, and what its label may claim.
//!
//! A reciprocating machine delivers less the higher it pumps: the air left in the clearance expands before
//! fresh air can enter. One or two flows on the label fix that curve; physics bounds what they may be.

use std::fmt;

use quantity::MachineKind;
use quantity::{Absolute, FreeAir, Gauge, PA_PER_PSI, plain};

/// Inlet pressure at which labels state their flow: 14.7 psia, one usual US inlet basis
/// (70 °F, 14.7 psia, 36 % RH, 0.075 lb/ft³). Source: US Navy Diving Manual, chapter 8.
pub const RATING_PA: f64 = 14.7 * PA_PER_PSI;

/// How much warmer than the room the air comes into the tank, K: it has cooled in the pump's fins and pipe.
/// Common practice, no source; 0 to 80 K changes a verdict's times by a few per cent.
pub const INTO_TANK_K: f64 = 40.0;

/// Exponent of the air that expands from the clearance. Polytropic, between 1 (isothermal) and 1.4.
/// Source: with a clearance of 0.07 it reproduces FM 5-434 (2000), table 9-1, within 2.5 points.
const RE_EXPANSION: f64 = 1.25;

/// Ratio of the specific heats of dry air.
pub const GAMMA: f64 = 1.4;

/// Falls of efficiency that a machine may show, as the clearance c in [`Pump`]. Below 0 flow would rise with
/// pressure; above 0.18 a one-stage machine would deliver next to nothing at 120 psi. Common practice, no source.
pub const CLEARANCE: std::ops::RangeInclusive<f64> = 0.0..=0.18;

/// Delivered flow per unit of isentropic power, label volts x amps to air: what small machines reach.
/// Low, typical, high. Common practice, no source.
pub const OVERALL_EFFICIENCY: [f64; 3] = [0.22, 0.32, 0.44];

/// The same from printed horsepower, which may be a peak that no plug supplies. Common practice, no source.
pub const HORSEPOWER_EFFICIENCY: [f64; 3] = [0.20, 0.45, 0.65];

/// The delivery curve of one compressor: η(r) = 1 − c g(r), free air = D η.
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | r | absolute discharge over absolute inlet pressure | 1 | from the pressures |
/// | c | clearance as a share of displacement (one stage); fitted, it takes in leaks and heating | 1 | field |
/// | D | displacement | m³/s | field |
/// | g | r^(1/n) − 1 one stage; r^(1/2n) − 1 two stages; r − 1 rotary | 1 | by kind |
/// | n | exponent of re-expansion, 1.25 | 1 | constant |
///
/// With one stage this is η = 1 + c − c r^(1/n), the textbook form. Two stages with cooling between share the
/// ratio evenly, so each sees √r. A rotary machine only leaks back, in proportion to the pressure across it.
///
/// # Validity
/// Inlet at the place's air, discharge above it, valves and rings in order.
/// # Source
/// Clearance relation: any text on reciprocating compressors (from memory); checked against FM 5-434.
/// # Example
/// At 5,000 ft a one-stage machine keeps about 92.5 % of its sea-level free air at 100 psi (FM 5-434, table 9-1):
/// ```
/// # use physics::compressor::Pump; use quantity::{Absolute, FreeAir, Gauge}; use quantity::MachineKind;
/// let pump = Pump::of_one_flow(MachineKind::PistonOneStage, FreeAir::cfm(5.0), Gauge::psi(100.0))?;
/// let at = |site: Absolute| pump.delivered(Gauge::psi(100.0).at(site), site).as_cfm();
/// let share = at(Absolute::psi(12.228)) / at(Absolute::psi(14.696));
/// assert!((share - 0.925).abs() < 0.025);
/// # Ok::<(), physics::compressor::PumpError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pump {
    kind: MachineKind,
    displacement_m3_s: f64,
    clearance: f64,
}

/// Why label figures make no delivery curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PumpError {
    /// Flow or pressure is not above zero, or is not a number.
    OutOfRange,
    /// Both flows are stated at the same pressure.
    SamePressure,
    /// More flow at the higher pressure: no machine does that.
    Rising,
    /// The flow falls faster than any machine in order shows; the clearance it would need.
    Steep(f64),
}

impl fmt::Display for PumpError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OutOfRange => write!(f, "flow and pressure must be above zero"),
            Self::SamePressure => write!(f, "two flows at one pressure fix no curve: give two pressures"),
            Self::Rising => write!(f, "flow rises with pressure: no compressor does that"),
            Self::Steep(clearance) => write!(
                f,
                "flow falls so fast that the clearance would be {} %: no compressor in order does that",
                plain(clearance * 100.0, 0)
            ),
        }
    }
}

impl std::error::Error for PumpError {}

/// Clearance taken where the label has one flow only. Common practice, no source; the one-stage value
/// reproduces FM 5-434, table 9-1.
pub fn typical_clearance(kind: MachineKind) -> f64 {
    match kind {
        MachineKind::PistonOneStage | MachineKind::PistonTwoStage => 0.07,
        MachineKind::Rotary => 0.008,
    }
}

/// Exponent of the pressure ratio in g of [`Pump`].
fn exponent(kind: MachineKind) -> f64 {
    match kind {
        MachineKind::PistonOneStage => 1.0 / RE_EXPANSION,
        MachineKind::PistonTwoStage => 0.5 / RE_EXPANSION,
        MachineKind::Rotary => 1.0,
    }
}

/// g in [`Pump`]: how the loss grows with the pressure ratio.
fn loss_shape(kind: MachineKind, ratio: f64) -> f64 {
    ratio.powf(exponent(kind)) - 1.0
}

/// Pressure ratio of a gauge pressure stated on the rating basis; refuses what is not above zero or absurd.
fn rated_ratio(flow: FreeAir, at: Gauge) -> Result<f64, PumpError> {
    let sane = flow.as_m3_s() > 0.0 && flow.as_m3_s() < 10.0 && at.as_pa() > 0.0 && at.as_pa() < 1e8;
    if sane {
        Ok(1.0 + at.as_pa() / RATING_PA)
    } else {
        Err(PumpError::OutOfRange)
    }
}

impl Pump {
    /// From one flow on the label, with a clearance that is typical of the kind.
    ///
    /// # Errors
    /// [`PumpError::OutOfRange`] if flow or pressure is not above zero.
    pub fn of_one_flow(kind: MachineKind, flow: FreeAir, at: Gauge) -> Result<Self, PumpError> {
        Ok(Self::at_ratio(kind, flow, rated_ratio(flow, at)?))
    }

    /// The usual shape of a kind: a machine of 1 cfm at 90 psi, to be scaled.
    ///
    /// ```
    /// # use physics::compressor::Pump; use quantity::{Gauge, MachineKind};
    /// let usual = Pump::usual(MachineKind::PistonOneStage);
    /// assert!((usual.rated(Gauge::psi(90.0)).as_cfm() - 1.0).abs() < 1e-12);
    /// ```
    pub fn usual(kind: MachineKind) -> Self {
        Self::at_ratio(kind, FreeAir::cfm(1.0), 1.0 + 90.0 * PA_PER_PSI / RATING_PA)
    }

    fn at_ratio(kind: MachineKind, flow: FreeAir, ratio: f64) -> Self {
        // A machine made for high pressure has less clearance: what is typical must still deliver at its rating.
        let clearance = typical_clearance(kind).min(0.5 / loss_shape(kind, ratio));
        let efficiency = 1.0 - clearance * loss_shape(kind, ratio);
        Self {
            kind,
            displacement_m3_s: flow.as_m3_s() / efficiency,
            clearance,
        }
    }

    /// From two flows at two pressures: D and c solve q₁ = D (1 − c g₁), q₂ = D (1 − c g₂), so
    /// c = (q₁ − q₂) / (q₁ g₂ − q₂ g₁).
    ///
    /// # Errors
    /// [`PumpError::Rising`] and [`PumpError::Steep`] for curves that no machine shows,
    /// [`PumpError::SamePressure`], [`PumpError::OutOfRange`].
    /// # Example
    /// ```
    /// # use physics::compressor::{Pump, PumpError}; use quantity::{FreeAir, Gauge}; use quantity::MachineKind;
    /// let two = |low, high| Pump::of_two_flows(MachineKind::PistonOneStage,
    ///     (FreeAir::cfm(low), Gauge::psi(40.0)), (FreeAir::cfm(high), Gauge::psi(90.0)));
    /// assert!(two(6.2, 5.1).is_ok());
    /// assert_eq!(two(5.1, 6.2), Err(PumpError::Rising));
    /// ```
    pub fn of_two_flows(
        kind: MachineKind,
        one: (FreeAir, Gauge),
        other: (FreeAir, Gauge),
    ) -> Result<Self, PumpError> {
        let (low, high) = if one.1 <= other.1 {
            (one, other)
        } else {
            (other, one)
        };
        let g_low = loss_shape(kind, rated_ratio(low.0, low.1)?);
        let g_high = loss_shape(kind, rated_ratio(high.0, high.1)?);
        if g_high - g_low < 1e-3 * g_high {
            return Err(PumpError::SamePressure);
        }
        let (q_low, q_high) = (low.0.as_m3_s(), high.0.as_m3_s());
        if q_high > q_low {
            return Err(PumpError::Rising);
        }
        let clearance = (q_low - q_high) / (q_low * g_high - q_high * g_low);
        if !CLEARANCE.contains(&clearance) {
            return Err(PumpError::Steep(clearance));
        }
        Ok(Self {
            kind,
            displacement_m3_s: q_low / (1.0 - clearance * g_low),
            clearance,
        })
    }

    /// Free air, counted at the inlet's air, delivered into `discharge` from `inlet`. Never below zero.
    pub fn delivered(&self, discharge: Absolute, inlet: Absolute) -> FreeAir {
        let ratio = (discharge.as_pa() / inlet.as_pa()).max(1.0);
        let efficiency = 1.0 - self.clearance * loss_shape(self.kind, ratio);
        FreeAir::m3_s(self.displacement_m3_s * efficiency.max(0.0))
    }

    /// Free air delivered at a gauge pressure on the rating basis: the figure that a label would print.
    pub fn rated(&self, at: Gauge) -> FreeAir {
        let inlet = Absolute::pa(RATING_PA);
        self.delivered(at.at(inlet), inlet)
    }

    /// The displacement D.
    pub fn displacement(&self) -> FreeAir {
        FreeAir::m3_s(self.displacement_m3_s)
    }

    /// Exponent of the pressure ratio in the loss: g = r^e − 1.
    pub fn exponent(&self) -> f64 {
        exponent(self.kind)
    }

    /// The fitted or typical clearance c.
    pub fn clearance(&self) -> f64 {
        self.clearance
    }

    /// The same displacement with `factor` times the clearance, as far as it then still delivers at 90 psi.
    pub fn curved(&self, factor: f64) -> Self {
        let most = 0.8 / loss_shape(self.kind, 1.0 + 90.0 * PA_PER_PSI / RATING_PA);
        Self {
            clearance: (self.clearance * factor).min(most.max(self.clearance)),
            ..*self
        }
    }

    /// A machine of the same shape that delivers `factor` times as much.
    pub fn scaled(&self, factor: f64) -> Self {
        Self {
            displacement_m3_s: self.displacement_m3_s * factor,
            ..*self
        }
    }
}

/// Least power that compresses a free-air flow without loss of heat:
/// P = s γ/(γ − 1) p₁ q [ (p₂/p₁)^((γ − 1)/(s γ)) − 1 ].
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | q | free air | m³/s | `flow` |
/// | p₁, p₂ | inlet, discharge, absolute | Pa | `inlet`, `discharge` |
/// | s | stages, with full cooling between them and an even split: 1, or 2 for [`MachineKind::PistonTwoStage`] | 1 | `kind` |
/// | γ | ratio of specific heats, 1.4 | 1 | constant |
///
/// # Validity
/// Ideal gas; discharge not below inlet (below it the result is 0).
/// # Source
/// Isentropic compression of an ideal gas; Machinery's Handbook 31, tables 36 and 37 print its results.
/// # Example
/// One cfm to 100 psi takes 0.180 hp in one stage (table 36: mean effective pressure 41.28 psi):
/// ```
/// # use physics::compressor::isentropic_watts; use quantity::{Absolute, FreeAir, Gauge}; use quantity::MachineKind;
/// let site = Absolute::psi(14.7);
/// let watts = isentropic_watts(MachineKind::PistonOneStage, FreeAir::cfm(1.0), Gauge::psi(100.0).at(site), site);
/// assert!((watts / 745.7 - 0.180).abs() < 0.002);
/// ```
pub fn isentropic_watts(kind: MachineKind, flow: FreeAir, discharge: Absolute, inlet: Absolute) -> f64 {
    let stages = if kind == MachineKind::PistonTwoStage {
        2.0
    } else {
        1.0
    };
    let ratio = (discharge.as_pa() / inlet.as_pa()).max(1.0);
    let head = stages * GAMMA / (GAMMA - 1.0) * (ratio.powf((GAMMA - 1.0) / (stages * GAMMA)) - 1.0);
    inlet.as_pa() * flow.as_m3_s() * head
}

/// Delivered flow on the rating basis that isentropic compression to `at` makes of `watts`: with a share of volts
/// times amps ([`OVERALL_EFFICIENCY`]) or of printed horsepower ([`HORSEPOWER_EFFICIENCY`]), a guess for a label that
/// names no flow.
///
/// ```
/// # use physics::compressor::{OVERALL_EFFICIENCY, guessed_flow}; use quantity::Gauge; use quantity::MachineKind;
/// // 12 A at 120 V: small machines are seen with 2 to 5 cfm at 90 psi (common practice, no source).
/// let flows = OVERALL_EFFICIENCY.map(|share| guessed_flow(MachineKind::PistonOneStage, share * 1_440.0, Gauge::psi(90.0)));
/// assert!(flows[0].as_cfm() > 2.0 && flows[2].as_cfm() < 5.2);
/// ```
pub fn guessed_flow(kind: MachineKind, watts: f64, at: Gauge) -> FreeAir {
    let inlet = Absolute::pa(RATING_PA);
    let watts_per_cfm = isentropic_watts(kind, FreeAir::cfm(1.0), at.at(inlet), inlet).max(1.0);
    FreeAir::cfm(watts / watts_per_cfm)
}

/// How a claimed flow stands to the power that the plate admits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Claim {
    /// Even a perfect machine would need more power than volts times amps.
    CannotBe,
    /// More than any small machine in order is known to reach.
    Unlikely,
    /// What such machines do.
    Typical,
    /// Much less than the power should give: a weak machine, or a plate that overstates amps.
    Weak,
}

/// Judges a claimed flow by its share of the plate's volts times amps that isentropic compression needs.
/// Above 1 it cannot be; above 0.6 it is unlikely (motor, belt, friction and heating each take their part:
/// common practice, no source); below 0.12 it is weak.
pub fn judge_claim(isentropic_watts: f64, volt_amperes: f64) -> Claim {
    match isentropic_watts / volt_amperes {
        share if share > 1.0 => Claim::CannotBe,
        share if share > 0.6 => Claim::Unlikely,
        share if share < 0.12 => Claim::Weak,
        _ => Claim::Typical,
    }
}
