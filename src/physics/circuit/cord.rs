//! Flexible cords: what a size carries, and which size a length asks for.

use super::{AMPS, Awg, CircuitError, Code, LENGTH_M, Strands, VOLTS, ohm_per_m};
use quantity::range::within;

/// Most of the nominal voltage that a cord alone may lose while the machine runs, with copper at 20 °C.
///
/// With it and the ampacity the gauge follows that tool manuals print, within one size in every cell that they fill.
/// Common practice, checked against both printed tables.
pub const DROP_SHARE: f64 = 0.035;

/// Temperature at which that share is reckoned, °C.
const COLD_C: f64 = 20.0;

/// What a cord that is bought for a motor should carry, over the motor's current: 125 %, as NEC 430.22 asks of a motor's
/// wire. A cord that is there already is judged by its bare ampacity.
const MOTOR_MARGIN: f64 = 1.25;

/// Current above which a manual says "not recommended" rather than a gauge heavier than [`HEAVIEST`], A.
const SMALL_LOAD_A: f64 = 12.0;
/// That gauge.
const HEAVIEST: Awg = Awg(12);

/// A size of flexible cord, and what it carries.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CordSize {
    /// Copper area of one conductor, m².
    pub area_m2: f64,
    /// Current that it carries, A: two conductors, not coiled or bundled, 30 °C about it.
    pub carries_a: f64,
}

/// Cords by gauge, A. Source: NEC table 400.5(A)(1), two current-carrying conductors (from memory).
const NEC_CORDS: [(u8, f64); 7] = [
    (18, 10.0),
    (16, 13.0),
    (14, 18.0),
    (12, 25.0),
    (10, 30.0),
    (8, 40.0),
    (6, 55.0),
];

/// Cords by area in mm², A. Source: IEC 60799 and the makers' tables for H07RN-F cords, not coiled (from memory).
const IEC_CORDS: [(f64, f64); 5] = [(0.75, 6.0), (1.0, 10.0), (1.5, 16.0), (2.5, 25.0), (4.0, 32.0)];

/// Gauges of cords on the rack, thinnest first.
const NEC_SOLD: [u8; 4] = [16, 14, 12, 10];
/// Areas of cords on the rack, mm², thinnest first.
const IEC_SOLD: [f64; 2] = [1.5, 2.5];

impl CordSize {
    /// The largest listed size that a conductor of this area holds. Below the list it carries the less the thinner.
    ///
    /// # Source
    /// NEC table 400.5(A)(1); IEC 60799 (both from memory).
    /// # Example
    /// ```
    /// # use physics::circuit::{Awg, Code, CordSize};
    /// assert_eq!(CordSize::of(Code::Nec, Awg::new(16)?.area_m2()).carries_a, 13.0);
    /// assert_eq!(CordSize::of(Code::Iec, 1.5e-6).carries_a, 16.0);
    /// # Ok::<(), physics::circuit::CircuitError>(())
    /// ```
    pub fn of(code: Code, area_m2: f64) -> Self {
        let holds = |size: &Self| area_m2 >= 0.98 * size.area_m2;
        let listed = Self::listed(code);
        let size = listed.iter().rfind(|size| holds(size));
        let thinnest = listed[0];
        let carries_a = size.map_or(thinnest.carries_a * area_m2 / thinnest.area_m2, |size| {
            size.carries_a
        });
        Self { area_m2, carries_a }
    }

    /// Every size of the code's table, thinnest first.
    pub fn listed(code: Code) -> Vec<Self> {
        match code {
            Code::Nec => NEC_CORDS
                .map(|(number, carries_a)| Self {
                    area_m2: Awg(number).area_m2(),
                    carries_a,
                })
                .into(),
            Code::Iec => IEC_CORDS
                .map(|(mm2, carries_a)| Self {
                    area_m2: mm2 * 1e-6,
                    carries_a,
                })
                .into(),
        }
    }

    /// Sizes that a store has on its rack, thinnest first: 16, 14, 12, 10 AWG; 1.5 and 2.5 mm². Common practice, no source.
    pub fn sold(code: Code) -> Vec<Self> {
        match code {
            Code::Nec => NEC_SOLD
                .map(|number| Self::of(code, Awg(number).area_m2()))
                .into(),
            Code::Iec => IEC_SOLD.map(|mm2| Self::of(code, mm2 * 1e-6)).into(),
        }
    }
}

/// Share of the nominal voltage that a cord loses while the machine runs, copper at 20 °C.
///
/// s = 2 I R′ L/V
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | I | current of the machine | A | `amps` |
/// | R′ | resistance of one stranded conductor per length | ohm/m | `area_m2` |
/// | L | length one way | m | `length_m` |
/// | V | nominal voltage | V | `volts` |
///
/// # Errors
/// [`CircuitError::OutOfRange`].
/// # Source
/// Ohm's law.
/// # Example
/// 12 A on 100 ft of 16 AWG, 4.10 ohm per 1,000 ft at 20 °C: 9.8 V, 8.2 % of 120 V (hand sum).
/// ```
/// # use physics::circuit::{cord_drop_share, Awg};
/// let share = cord_drop_share(12.0, 120.0, Awg::new(16)?.area_m2(), 30.48)?;
/// assert!((share - 0.082).abs() < 0.001);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn cord_drop_share(amps: f64, volts: f64, area_m2: f64, length_m: f64) -> Result<f64, CircuitError> {
    within("full-load current", amps, AMPS)?;
    within("voltage", volts, VOLTS)?;
    within("length", length_m, LENGTH_M)?;
    Ok(2.0 * amps * length_m * ohm_per_m(area_m2, Strands::Stranded, COLD_C)? / volts)
}

/// Longest cord of a size that carries the machine and loses at most [`DROP_SHARE`], m; 0 where it may not carry it.
///
/// [`cord_drop_share`] solved for L.
/// # Errors
/// [`CircuitError::OutOfRange`].
/// # Example
/// 12 A at 120 V on 12 AWG, 1.62 ohm per 1,000 ft at 20 °C: 108 ft (hand sum).
/// ```
/// # use physics::circuit::{longest_cord_m, Awg, Code, CordSize};
/// let size = CordSize::of(Code::Nec, Awg::new(12)?.area_m2());
/// assert!((longest_cord_m(size, 12.0, 120.0)? / 0.3048 - 108.0).abs() < 1.0);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn longest_cord_m(size: CordSize, amps: f64, volts: f64) -> Result<f64, CircuitError> {
    let share_per_m = cord_drop_share(amps, volts, size.area_m2, 1.0)?;
    if amps > size.carries_a {
        return Ok(0.0);
    }
    Ok((DROP_SHARE / share_per_m).min(*LENGTH_M.end()))
}

/// Which cord a length asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CordAdvice {
    /// The thinnest size on the rack that does; `None` if none does.
    pub size: Option<CordSize>,
    /// So long a run of so much current belongs in air hose, with the compressor at the outlet: "not on a cord".
    pub rather_hose: bool,
}

/// The thinnest cord on the rack for a machine over a length, and whether a cord is the right thing at all.
///
/// A size does where it carries 125 % of the current and loses at most [`DROP_SHARE`]. Above 12 A, what would take more than
/// 12 AWG (or the heaviest on the rack) is no job for a cord.
/// # Validity
/// One cord, uncoiled, single phase.
/// # Errors
/// [`CircuitError::OutOfRange`].
/// # Source
/// Two tables printed in tool manuals: within one gauge in every cell that they fill, and "not recommended" where they
/// say so; NEC table 400.5(A)(1), 430.22 (from memory).
/// # Example
/// 15 A: 12 AWG does for 50 ft; 100 ft is a run for the hose.
/// ```
/// # use physics::circuit::{advised_cord, Awg, Code};
/// let near = advised_cord(Code::Nec, 15.0, 120.0, 15.24)?;
/// assert!(!near.rather_hose && near.size.is_some_and(|size| size.carries_a <= 25.0));
/// assert!(advised_cord(Code::Nec, 15.0, 120.0, 30.48)?.rather_hose);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn advised_cord(code: Code, amps: f64, volts: f64, length_m: f64) -> Result<CordAdvice, CircuitError> {
    within("length", length_m, LENGTH_M)?;
    let mut size = None;
    for sold in CordSize::sold(code) {
        let longest = longest_cord_m(sold, amps, volts)?;
        let carries = MOTOR_MARGIN * amps <= sold.carries_a + 1e-9;
        if size.is_none() && carries && length_m <= longest {
            size = Some(sold);
        }
    }
    let heavy = size.is_none_or(|size| size.area_m2 > 1.02 * HEAVIEST.area_m2());
    Ok(CordAdvice {
        size,
        rather_hose: heavy && (amps > SMALL_LOAD_A || size.is_none()),
    })
}
