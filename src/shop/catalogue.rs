//! Tasks: what is typical of each tool and its rhythm in building a metal airframe.
//!
//! Each figure is a typical value with the range that it is seen in. A tool fades before it fails, so a task has
//! a setting and a lowest useful pressure; judged at the setting alone every machine would be condemned, as many
//! switches cut in near it.

use crate::TaskKind;
use crate::guns::FADE_PSI;
use quantity::{Gauge, M3_PER_FT3, M3_S_PER_CFM, PA_PER_PSI};

/// What is typical of one kind of task. Flow in cfm, stroke in ft³, pressure in psi: the trade's own figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Typical {
    /// Which task.
    pub kind: TaskKind,
    /// What the trade calls it.
    pub name: &'static str,
    /// Free air on the trigger, cfm, at the setting: low, typical, high. Per stroke, ft³, for a tool that works by the stroke.
    pub flow: [f64; 3],
    /// Pressure at the tool, running, psi.
    pub setting_psi: f64,
    /// Lowest pressure at the tool that still does the work, psi.
    pub lowest_psi: f64,
    /// Seconds on the trigger, seconds off.
    pub trigger_s: [f64; 2],
    /// Minutes of a spell, minutes of the pause after it.
    pub spell_min: [f64; 2],
    /// Whether the build of an airframe has it: no sanding, no spraying, no die grinder.
    pub usual: bool,
    /// A pull lasts until its air is through, not for so many seconds: what is cut or formed takes so much work.
    pub by_air: bool,
    /// A stop in the middle spoils it.
    pub unbroken: bool,
    /// Where these figures come from.
    pub source: &'static str,
}

/// Air drills and rivet guns: what kit builders and tool counters reckon with.
const TRADE: &str = "common practice, no source";
/// Reckoned from the tool's size.
const BORE: &str = "3 in cylinder, 1.5 in stroke, filled to 90 psi: 0.04 to 0.08 ft3 of free air; common practice for the rhythm";
/// Reckoned from the tool's size.
const PULLER: &str = "2.5 to 3.5 in cylinder, 1 to 1.5 in stroke, filled to 90 psi: 0.02 to 0.08 ft3 of free air; common practice for the rhythm";
/// Reckoned from the tool's size.
const CLECO: &str = "1.25 to 1.5 in cylinder, 0.75 to 1.5 in stroke, filled to 90 psi: 0.003 to 0.012 ft3 of free air; common practice for the rhythm";
/// Riveting wants less pressure than drilling: set on scrap, 25 to 60 psi by gun.
const RIVETS: &str =
    "builders set a rivet gun near 40 psi, 25 to 60 by gun, and not at 90; common practice, no source";
/// Nozzle flow: DOE compressed-air tip sheet 3 has 5.7 cfm through 1/16 in at 90 psi; by area 8.9 through 5/64 and 12.9 through 3/32.
const NOZZLE: &str = "round holes of 1/16 to 3/32 in at 90 psi, DOE tip sheet 3, as in a vented tip; common practice for the rhythm";
/// Small guns.
const PRIMER: &str =
    "touch-up and small guns by makers' catalogs; within 3 psi while it sprays; common practice, no source";
/// Full-size guns.
const PAINT: &str = "HVLP guns by makers' catalogs, at most 10 psi at the air cap; within 3 psi while it sprays; common practice, no source";

/// The catalogue, in the order in which an airframe meets them.
pub const CATALOGUE: [Typical; 12] = [
    Typical {
        kind: TaskKind::Drill,
        name: "drill to size",
        flow: [8.0, 11.5, 14.0],
        setting_psi: 90.0,
        lowest_psi: 70.0,
        trigger_s: [4.0, 4.0],
        spell_min: [3.0, 4.0],
        usual: true,
        by_air: true,
        unbroken: false,
        source: TRADE,
    },
    Typical {
        kind: TaskKind::Deburr,
        name: "deburr and countersink",
        flow: [5.0, 8.0, 11.5],
        setting_psi: 90.0,
        lowest_psi: 60.0,
        trigger_s: [2.0, 4.0],
        spell_min: [4.0, 2.0],
        usual: true,
        by_air: true,
        unbroken: false,
        source: TRADE,
    },
    Typical {
        kind: TaskKind::RivetGun,
        name: "rivet gun and bucking bar",
        flow: [3.0, 5.0, 8.0],
        setting_psi: 40.0,
        lowest_psi: 30.0,
        trigger_s: [1.5, 13.5],
        spell_min: [10.0, 5.0],
        usual: true,
        by_air: true,
        unbroken: false,
        source: RIVETS,
    },
    Typical {
        kind: TaskKind::BackRivet,
        name: "back-riveting run",
        flow: [3.0, 5.0, 8.0],
        setting_psi: 40.0,
        lowest_psi: 30.0,
        trigger_s: [2.0, 4.0],
        spell_min: [5.0, 5.0],
        usual: true,
        by_air: true,
        unbroken: false,
        source: RIVETS,
    },
    Typical {
        kind: TaskKind::Squeezer,
        name: "squeezer",
        flow: [0.04, 0.06, 0.08],
        setting_psi: 90.0,
        lowest_psi: 75.0,
        trigger_s: [1.0, 5.0],
        spell_min: [10.0, 5.0],
        usual: true,
        by_air: false,
        unbroken: false,
        source: BORE,
    },
    Typical {
        kind: TaskKind::BlowOff,
        name: "blow-off",
        flow: [6.0, 9.0, 13.0],
        setting_psi: 90.0,
        lowest_psi: 40.0,
        trigger_s: [3.0, 12.0],
        spell_min: [2.0, 10.0],
        usual: true,
        by_air: false,
        unbroken: false,
        source: NOZZLE,
    },
    Typical {
        kind: TaskKind::DieGrinder,
        name: "die grinder",
        flow: [12.0, 16.0, 25.0],
        setting_psi: 90.0,
        lowest_psi: 65.0,
        // A grinder is held along an edge or round a cutout, not pulsed like a drill.
        trigger_s: [20.0, 10.0],
        spell_min: [3.0, 6.0],
        usual: false,
        by_air: true,
        unbroken: false,
        source: TRADE,
    },
    Typical {
        kind: TaskKind::Sander,
        name: "orbital sander",
        flow: [8.0, 11.0, 17.0],
        setting_psi: 90.0,
        lowest_psi: 60.0,
        trigger_s: [10.0, 10.0],
        spell_min: [2.0, 8.0],
        usual: false,
        by_air: true,
        unbroken: false,
        source: TRADE,
    },
    Typical {
        kind: TaskKind::PrimerGun,
        name: "primer gun",
        flow: [3.0, 5.0, 8.0],
        setting_psi: 35.0,
        lowest_psi: 35.0 - FADE_PSI,
        trigger_s: [8.0, 4.0],
        spell_min: [3.0, 10.0],
        usual: false,
        by_air: false,
        unbroken: false,
        source: PRIMER,
    },
    Typical {
        kind: TaskKind::PaintGun,
        name: "full paint gun",
        flow: [9.0, 14.0, 20.0],
        setting_psi: 30.0,
        lowest_psi: 30.0 - FADE_PSI,
        trigger_s: [20.0, 5.0],
        spell_min: [15.0, 15.0],
        usual: false,
        by_air: false,
        unbroken: true,
        source: PAINT,
    },
    Typical {
        kind: TaskKind::RivetPuller,
        name: "rivet puller",
        flow: [0.02, 0.04, 0.08],
        setting_psi: 90.0,
        lowest_psi: 75.0,
        trigger_s: [1.0, 5.0],
        spell_min: [10.0, 5.0],
        usual: false,
        by_air: false,
        unbroken: false,
        source: PULLER,
    },
    Typical {
        kind: TaskKind::ClecoTool,
        name: "cleco tool",
        flow: [0.003, 0.006, 0.012],
        setting_psi: 90.0,
        lowest_psi: 60.0,
        trigger_s: [1.0, 2.0],
        spell_min: [5.0, 10.0],
        usual: false,
        by_air: false,
        unbroken: false,
        source: CLECO,
    },
];

/// What an unnamed air tool is taken for: a middling tool, half on and half off.
pub const OTHER: Typical = Typical {
    kind: TaskKind::Other,
    name: "another air tool",
    flow: [2.0, 6.0, 20.0],
    setting_psi: 90.0,
    lowest_psi: 65.0,
    trigger_s: [5.0, 10.0],
    spell_min: [5.0, 5.0],
    usual: false,
    by_air: true,
    unbroken: false,
    source: TRADE,
};

/// What is typical of `kind`.
pub fn typical(kind: TaskKind) -> Typical {
    CATALOGUE
        .into_iter()
        .find(|entry| entry.kind == kind)
        .unwrap_or(OTHER)
}

impl Typical {
    /// Free air on the trigger, m³/s, or a stroke, m³: low, typical, high.
    ///
    /// ```
    /// # use quantity::FreeAir; use shop::TaskKind; use shop::catalogue::typical;
    /// let drill = typical(TaskKind::Drill).amounts_si().map(|flow| FreeAir::m3_s(flow).as_cfm());
    /// assert!(drill[0] <= 11.0 && drill[2] >= 12.0); // an air drill takes 11 to 12 cfm: common practice, no source
    /// ```
    pub fn amounts_si(&self) -> [f64; 3] {
        let unit = if self.kind.by_stroke() {
            M3_PER_FT3
        } else {
            M3_S_PER_CFM
        };
        self.flow.map(|amount| amount * unit)
    }
    /// The setting.
    pub fn setting(&self) -> Gauge {
        Gauge::pa(self.setting_psi * PA_PER_PSI)
    }
    /// The lowest useful pressure.
    pub fn lowest(&self) -> Gauge {
        Gauge::pa(self.lowest_psi * PA_PER_PSI)
    }
}
