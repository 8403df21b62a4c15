//! The motor as its plate states it: full-load current, horsepower, starting current.

use super::{AMPS, CircuitError, VOLTS};
use quantity::range::within;
use std::ops::RangeInclusive;

/// Horsepower accepted.
pub const HORSEPOWER: RangeInclusive<f64> = 0.01..=50.0;

/// Starting current over full-load current when the plate is silent: 6, between 4 and 8.
/// Common practice, no source.
pub const TYPICAL_MULTIPLE: [f64; 3] = [4.0, 6.0, 8.0];

/// Multiples of full-load current accepted as a starting current.
pub const MULTIPLE: RangeInclusive<f64> = 1.0..=20.0;

/// Horsepower, and full-load current of a single-phase motor at 115 V, A; at 230 V it is half.
/// Source: NEC table 430.248 (430-148 in 1999); rows below 1/3 hp from memory.
const FULL_LOAD_115V: [(f64, f64); 12] = [
    (1.0 / 6.0, 4.4),
    (0.25, 5.8),
    (1.0 / 3.0, 7.2),
    (0.5, 9.8),
    (0.75, 13.8),
    (1.0, 16.0),
    (1.5, 20.0),
    (2.0, 24.0),
    (3.0, 34.0),
    (5.0, 56.0),
    (7.5, 80.0),
    (10.0, 100.0),
];

/// Code letter, and the least locked-rotor kVA per horsepower that it stands for. A row ends where the next begins.
/// Source: NEC table 430.7(B) (from memory).
const CODE_LETTERS: [(char, f64); 19] = [
    ('A', 0.0),
    ('B', 3.15),
    ('C', 3.55),
    ('D', 4.0),
    ('E', 4.5),
    ('F', 5.0),
    ('G', 5.6),
    ('H', 6.3),
    ('J', 7.1),
    ('K', 8.0),
    ('L', 9.0),
    ('M', 10.0),
    ('N', 11.2),
    ('P', 12.5),
    ('R', 14.0),
    ('S', 16.0),
    ('T', 18.0),
    ('U', 20.0),
    ('V', 22.4),
];

/// Ratio of one row's start to the row before, in the preferred-number series that the letters follow; it
/// closes row V, which the table leaves open.
const LETTER_STEP: f64 = 1.12;

/// A motor as its plate states it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Motor {
    /// Voltage on the plate, V.
    pub volts: f64,
    /// Full-load current on the plate, A.
    pub amps: f64,
    /// Locked-rotor current at the plate's voltage, A.
    pub starting_amps: f64,
}

impl Motor {
    /// Apparent power at full load, VA.
    pub fn running_va(&self) -> f64 {
        self.volts * self.amps
    }
    /// Apparent power with the rotor locked, VA.
    pub fn starting_va(&self) -> f64 {
        self.volts * self.starting_amps
    }
    /// Impedance with the rotor locked, ohm.
    pub fn starting_ohm(&self) -> f64 {
        self.volts / self.starting_amps
    }
    pub(super) fn check(&self) -> Result<(), CircuitError> {
        within("motor voltage", self.volts, VOLTS)?;
        within("full-load current", self.amps, AMPS)?;
        Ok(within("starting current", self.starting_amps, AMPS)?)
    }
}

/// What is known of the starting current.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Start {
    /// Code letter on the plate; needs the motor's horsepower.
    Letter {
        /// The letter.
        letter: char,
        /// Horsepower of the motor, not of an advertisement: see [`horsepower_at`].
        horsepower: f64,
    },
    /// Locked-rotor current, A.
    Amps(f64),
    /// Multiple of full-load current.
    Multiple(f64),
    /// Nothing: [`TYPICAL_MULTIPLE`].
    Unknown,
}

/// Starting current with the width of what is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StartingAmps {
    /// Least, A.
    pub low: f64,
    /// To reckon with, A.
    pub likely: f64,
    /// Most, A.
    pub high: f64,
}

/// Locked-rotor kVA per horsepower that a code letter stands for, as the row's start and the next row's start.
///
/// Row V has no end in the table; it is closed one step above.
/// # Errors
/// [`CircuitError::NoSuchLetter`]: I, O, Q, W to Z are not in the table.
/// # Source
/// NEC table 430.7(B) (from memory).
/// # Example
/// ```
/// # use physics::circuit::code_letter_kva_per_hp;
/// assert_eq!(code_letter_kva_per_hp('H')?, 6.3..=7.1); // printed as 6.3 to 7.09
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn code_letter_kva_per_hp(letter: char) -> Result<RangeInclusive<f64>, CircuitError> {
    let sought = letter.to_ascii_uppercase();
    let mut rows = CODE_LETTERS.iter().skip_while(|(row, _)| *row != sought);
    let (_, low) = rows.next().ok_or(CircuitError::NoSuchLetter { letter })?;
    let high = rows.next().map_or(low * LETTER_STEP, |(_, next)| *next);
    Ok(*low..=high)
}

/// Locked-rotor current from what the plate says of it.
///
/// I = 1,000 k P / V for a code letter, m I₁ for a multiple
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | k | locked-rotor kVA per horsepower | kVA/hp | `start` |
/// | P | horsepower | hp | `start` |
/// | V | plate voltage | V | `volts` |
/// | I₁ | full-load current | A | `full_load_amps` |
/// | m | multiple | 1 | `start` |
/// | I | starting current | A | result |
///
/// # Errors
/// [`CircuitError::OutOfRange`] for a figure outside [`VOLTS`], [`AMPS`], [`MULTIPLE`] or [`HORSEPOWER`];
/// [`CircuitError::NoSuchLetter`].
/// # Source
/// NEC 430.7(B); the typical multiple is common practice.
/// # Example
/// A 2 hp motor of letter G at 115 V: 5.6 x 2,000 / 115 = 97 A at least (hand sum).
/// ```
/// # use physics::circuit::{starting_amps, Start};
/// let start = Start::Letter { letter: 'G', horsepower: 2.0 };
/// assert!((starting_amps(start, 115.0, 24.0)?.low - 97.4).abs() < 0.1);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn starting_amps(start: Start, volts: f64, full_load_amps: f64) -> Result<StartingAmps, CircuitError> {
    within("motor voltage", volts, VOLTS)?;
    within("full-load current", full_load_amps, AMPS)?;
    let [low, likely, high] = match start {
        Start::Letter { letter, horsepower } => {
            within("horsepower", horsepower, HORSEPOWER)?;
            let row = code_letter_kva_per_hp(letter)?;
            let middle = 0.5 * (row.start() + row.end());
            [*row.start(), middle, *row.end()].map(|kva| 1_000.0 * kva * horsepower / volts)
        }
        Start::Amps(amps) => {
            within("starting current", amps, AMPS)?;
            [amps; 3]
        }
        Start::Multiple(multiple) => {
            within("starting multiple", multiple, MULTIPLE)?;
            [multiple * full_load_amps; 3]
        }
        Start::Unknown => TYPICAL_MULTIPLE.map(|multiple| multiple * full_load_amps),
    };
    Ok(StartingAmps { low, likely, high })
}

/// Full-load current of a single-phase motor, A, between the table's rows in a straight line.
///
/// The table serves systems of 110 to 120 and 220 to 240 V as it stands; at another voltage the current is
/// taken as inverse to it, which gives the table's 208 V column within 1 %.
/// # Errors
/// [`CircuitError::OutOfRange`] outside the table's 1/6 to 10 hp, or outside [`VOLTS`].
/// # Source
/// NEC table 430.248.
/// # Example
/// ```
/// # use physics::circuit::full_load_amps;
/// assert_eq!(full_load_amps(1.5, 115.0)?, 20.0);
/// assert_eq!(full_load_amps(5.0, 240.0)?, 28.0);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn full_load_amps(horsepower: f64, volts: f64) -> Result<f64, CircuitError> {
    let scale = table_volts(volts)?;
    let amps = between(FULL_LOAD_115V, "horsepower", horsepower)?;
    Ok(amps * 115.0 / scale)
}

/// Horsepower that goes with a full-load current: [`full_load_amps`] read backwards.
///
/// This is the horsepower that a circuit can feed for good, whatever the tank is painted with.
/// # Errors
/// [`CircuitError::OutOfRange`] outside the table, 4.4 to 100 A at 115 V, or outside [`VOLTS`].
/// # Source
/// NEC table 430.248.
/// # Example
/// ```
/// # use physics::circuit::horsepower_at;
/// assert!((horsepower_at(14.0, 120.0)? - 0.77).abs() < 0.01); // the table has 3/4 hp at 13.8 A
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn horsepower_at(full_load_amps: f64, volts: f64) -> Result<f64, CircuitError> {
    let scale = table_volts(volts)?;
    let turned = FULL_LOAD_115V.map(|(horsepower, amps)| (amps, horsepower));
    between(turned, "full-load current", full_load_amps * scale / 115.0)
}

/// Current that carries the same power at another voltage, A.
///
/// I₂ = I₁ V₁ / V₂
/// # Errors
/// [`CircuitError::OutOfRange`] outside [`AMPS`] or [`VOLTS`].
/// # Example
/// ```
/// # use physics::circuit::same_power_amps;
/// assert_eq!(same_power_amps(14.0, 120.0, 240.0)?, 7.0);
/// # Ok::<(), physics::circuit::CircuitError>(())
/// ```
pub fn same_power_amps(amps: f64, volts: f64, other_volts: f64) -> Result<f64, CircuitError> {
    within("current", amps, AMPS)?;
    within("voltage", volts, VOLTS)?;
    within("voltage", other_volts, VOLTS)?;
    Ok(amps * volts / other_volts)
}

/// The table column's voltage for a system's.
fn table_volts(volts: f64) -> Result<f64, CircuitError> {
    within("motor voltage", volts, VOLTS)?;
    Ok(match volts {
        110.0..=125.0 => 115.0,
        220.0..=250.0 => 230.0,
        other => other,
    })
}

/// Straight line between the rows of a rising table.
fn between(table: [(f64, f64); 12], what: &'static str, sought: f64) -> Result<f64, CircuitError> {
    within(what, sought, table[0].0..=table[11].0)?;
    let row = table.windows(2).find(|row| sought <= row[1].0);
    Ok(row.map_or(table[11].1, |row| {
        let (x, y) = row[0];
        y + (row[1].1 - y) * (sought - x) / (row[1].0 - x)
    }))
}
