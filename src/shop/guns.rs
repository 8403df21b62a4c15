//! Spray guns by kind: what each takes while it sprays.

use quantity::lower;

use crate::TaskKind;

/// A kind of spray gun.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GunKind {
    /// Small: parts, edges, primer.
    TouchUp,
    /// Reduced pressure ("LVLP"): less air for a smaller fan.
    LowVolume,
    /// High volume, low pressure: at most 10 psi at the air cap.
    Hvlp,
    /// Conventional.
    Conventional,
}

/// What a kind of gun takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gun {
    /// Which kind.
    pub kind: GunKind,
    /// What the trade calls it.
    pub name: &'static str,
    /// Free air while it sprays, cfm: low, usual, high.
    pub flow: [f64; 3],
}

/// How far the pressure at a gun may sink while it sprays, psi: beyond that the fan and the atomizing change in the coat.
/// Painters allow 2 or 3. Common practice, no source.
pub const FADE_PSI: f64 = 3.0;

/// Every kind. Flows while sprayed by makers' catalogs (typical, from memory).
pub const GUNS: [Gun; 4] = [
    Gun {
        kind: GunKind::TouchUp,
        name: "touch-up gun",
        flow: [2.0, 4.0, 6.0],
    },
    Gun {
        kind: GunKind::LowVolume,
        name: "LVLP gun",
        flow: [7.0, 8.5, 10.0],
    },
    Gun {
        kind: GunKind::Hvlp,
        name: "HVLP gun",
        flow: [9.0, 14.0, 20.0],
    },
    Gun {
        kind: GunKind::Conventional,
        name: "conventional gun",
        flow: [7.0, 9.5, 12.0],
    },
];

impl GunKind {
    /// What it takes.
    pub fn gun(self) -> Gun {
        let row = GUNS.iter().find(|row| row.kind == self);
        row.copied().unwrap_or(GUNS[0])
    }

    /// The gun that words name; `None` where they name none.
    ///
    /// ```
    /// # use shop::guns::GunKind;
    /// assert_eq!(GunKind::named("HVLP, 1.3 mm tip"), Some(GunKind::Hvlp));
    /// assert_eq!(GunKind::named(""), None);
    /// // A turbine gun brings its own air.
    /// assert_eq!(GunKind::named("turbine HVLP"), None);
    /// ```
    pub fn named(words: &str) -> Option<Self> {
        let words = lower(words);
        let has = |any: &[&str]| any.iter().any(|word| words.contains(word));
        if has(&["turbine"]) {
            None
        } else if has(&["touch", "mini", "detail", "jamb"]) {
            Some(Self::TouchUp)
        } else if has(&["lvlp", "reduced", "low volume"]) {
            Some(Self::LowVolume)
        } else if has(&["hvlp", "high volume"]) {
            Some(Self::Hvlp)
        } else {
            has(&["conventional", "suction feed", "siphon"]).then_some(Self::Conventional)
        }
    }
}

/// Whether a task sprays.
pub fn sprays(kind: TaskKind) -> bool {
    matches!(kind, TaskKind::PrimerGun | TaskKind::PaintGun)
}
