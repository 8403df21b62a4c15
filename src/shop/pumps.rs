//! Pumps: what each kind that a builder is offered bears, how loud it is and how long it lives.
//!
//! One figure for all of them is true of none. Each is a range that the trade sees; a label's own figure goes before it.

use quantity::{Gauge, MachineKind, lower};

/// A kind of pump as labels and listings tell it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PumpKind {
    /// No oil, the piston on the motor's shaft: light, quick, loud.
    OilFree,
    /// No oil, slow running, sold as quiet.
    QuietOilFree,
    /// Oil, the piston on the motor's shaft.
    OiledDirect,
    /// Oil, one stage, slow, driven by a belt.
    Belt,
    /// Oil, two stages, driven by a belt.
    TwoStage,
    /// Screw, scroll or vane.
    Rotary,
}

/// What is typical of a kind of pump.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PumpTraits {
    /// Which kind.
    pub kind: PumpKind,
    /// What the trade calls it.
    pub name: &'static str,
    /// Share of time that it may run: low, usual, high.
    pub duty: [f64; 3],
    /// Level at 3 ft, dBA: low, high.
    pub level_dba: [f64; 2],
    /// Hours of running before it wants a rebuild: low, high.
    pub life_h: [f64; 2],
    /// Highest pressure at which its switch usually opens, psi.
    pub most_psi: f64,
    /// It has oil, which is stiff when cold.
    pub oiled: bool,
}

/// Distance at which [`PumpTraits::level_dba`] holds, m: 3 ft.
pub const LEVEL_AT_M: f64 = 0.9144;

/// Where the figures below come from.
pub const SOURCE: &str = "typical of such pumps; common practice, no source";

/// Every kind. Common practice, no source; the level of oil-free and belt-driven pumps and their duty as fitters tell them.
pub const PUMPS: [PumpTraits; 6] = [
    PumpTraits {
        kind: PumpKind::OilFree,
        name: "oil-free, direct drive",
        duty: [0.3, 0.5, 0.5],
        level_dba: [78.0, 90.0],
        life_h: [200.0, 1_000.0],
        most_psi: 200.0,
        oiled: false,
    },
    PumpTraits {
        kind: PumpKind::QuietOilFree,
        name: "oil-free, quiet",
        duty: [0.5, 0.5, 0.7],
        level_dba: [58.0, 72.0],
        life_h: [1_000.0, 3_000.0],
        most_psi: 150.0,
        oiled: false,
    },
    PumpTraits {
        kind: PumpKind::OiledDirect,
        name: "oiled, direct drive",
        duty: [0.5, 0.5, 0.6],
        level_dba: [78.0, 86.0],
        life_h: [500.0, 2_000.0],
        most_psi: 160.0,
        oiled: true,
    },
    PumpTraits {
        kind: PumpKind::Belt,
        name: "oiled, belt drive, one stage",
        duty: [0.6, 0.65, 0.75],
        level_dba: [75.0, 80.0],
        life_h: [2_000.0, 5_000.0],
        most_psi: 160.0,
        oiled: true,
    },
    PumpTraits {
        kind: PumpKind::TwoStage,
        name: "oiled, belt drive, two stages",
        duty: [0.6, 0.75, 1.0],
        level_dba: [76.0, 86.0],
        life_h: [5_000.0, 15_000.0],
        most_psi: 200.0,
        oiled: true,
    },
    PumpTraits {
        kind: PumpKind::Rotary,
        name: "rotary",
        duty: [0.9, 1.0, 1.0],
        level_dba: [62.0, 78.0],
        life_h: [10_000.0, 40_000.0],
        most_psi: 200.0,
        oiled: true,
    },
];

impl PumpKind {
    /// What is typical of it.
    pub fn traits(self) -> PumpTraits {
        let row = PUMPS.iter().find(|row| row.kind == self);
        row.copied().unwrap_or(PUMPS[0])
    }
}

impl PumpTraits {
    /// Highest pressure at which its switch usually opens.
    pub fn most(&self) -> Gauge {
        Gauge::psi(self.most_psi)
    }
}

/// The kind of pump that a label's words and its choice of kind tell; `None` where neither does.
///
/// ```
/// # use quantity::MachineKind; use shop::pumps::{PumpKind, pump_kind};
/// let one_stage = |words| pump_kind(words, MachineKind::PistonOneStage);
/// assert_eq!(one_stage("Oil-Free, direct drive"), Some(PumpKind::OilFree));
/// assert_eq!(one_stage("cast iron, belt drive"), Some(PumpKind::Belt));
/// assert_eq!(one_stage(""), None);
/// ```
pub fn pump_kind(words: &str, kind: MachineKind) -> Option<PumpKind> {
    let words: String = lower(words).replace(['-', '‑', '–', '_'], " ");
    let has = |any: &[&str]| any.iter().any(|word| words.contains(word));
    match kind {
        MachineKind::PistonTwoStage => return Some(PumpKind::TwoStage),
        MachineKind::Rotary => return Some(PumpKind::Rotary),
        MachineKind::PistonOneStage => {}
    }
    if has(&["rotary", "screw", "scroll", "vane"]) {
        return Some(PumpKind::Rotary);
    }
    if has(&["two stage", "2 stage", "dual stage"]) {
        return Some(PumpKind::TwoStage);
    }
    if has(&["oil free", "oilfree", "oilless", "oil less", "no oil"]) {
        let quiet = has(&["quiet", "silent", "low noise", "slow"]);
        return Some(if quiet {
            PumpKind::QuietOilFree
        } else {
            PumpKind::OilFree
        });
    }
    if has(&["belt"]) {
        return Some(PumpKind::Belt);
    }
    // A direct drive alone may be of either sort.
    has(&["oil"]).then_some(PumpKind::OiledDirect)
}
