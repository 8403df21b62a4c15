//! The figures of one draw: the day, the hands and the tools as they would be.

use super::unknown::{HANDS, Unknown, Which};
use crate::basis::{Basis, CandidateBasis, TaskBasis};
use crate::draws::Draws;
use physics::air::Air;
use physics::measure::{Leak, Measured};
use physics::run::{Hands, Rhythm};
use quantity::{Absolute, FreeAir, Gauge, PA_PER_PSI};
use std::rc::Rc;

/// The figures of one draw.
pub(crate) struct Draw {
    unknowns: Rc<[Unknown]>,
    /// Quantile of each.
    at: Vec<f64>,
    hands_at: f64,
}

impl Draw {
    /// All draws, one after the other.
    pub fn all(draws: &Draws, unknowns: &[Unknown]) -> Vec<Self> {
        let unknowns: Rc<[Unknown]> = unknowns.into();
        let quantile = |index: usize, unknown: &Unknown| {
            let (dimension, stream) = unknown.which.dimension();
            draws.quantile(index, dimension, stream)
        };
        let one = |index: usize| Self {
            unknowns: Rc::clone(&unknowns),
            at: unknowns.iter().map(|unknown| quantile(index, unknown)).collect(),
            hands_at: draws.quantile(index, HANDS, 0),
        };
        (0..draws.count()).map(one).collect()
    }

    /// Where it lies in each range.
    pub fn quantiles(&self) -> &[f64] {
        &self.at
    }

    /// The hands at a task: the same builder does not fall into the same row at each.
    pub fn hands(&self, task: usize) -> Hands {
        Hands::at((self.hands_at + 0.618_034 * task as f64).fract())
    }

    /// The figure of an unknown; of a list the one at `index`.
    pub fn of(&self, which: Which, index: usize) -> Option<f64> {
        let found = self.unknowns.iter().zip(&self.at);
        let (unknown, at) = found.into_iter().find(|(unknown, _)| unknown.which == which)?;
        Some(unknown.spreads.get(index)?.at(*at))
    }

    pub fn factor(&self, which: Which, index: usize) -> f64 {
        self.of(which, index).unwrap_or(1.0)
    }

    pub fn rhythm(&self, task: usize, rhythm: Rhythm) -> Rhythm {
        Rhythm {
            on_s: rhythm.on_s * self.factor(Which::Trigger, task),
            off_s: rhythm.off_s,
            spell_s: rhythm.spell_s * self.factor(Which::Spell, task),
            pause_s: rhythm.pause_s * self.factor(Which::Pause, task),
        }
    }

    /// The lowest useful pressure, never above the setting.
    pub fn lowest(&self, index: usize, task: &TaskBasis) -> Gauge {
        let shift = self.of(Which::Lowest, index).unwrap_or(0.0);
        let least = task.lowest.as_pa().min(PA_PER_PSI);
        let pressure = (task.lowest.as_pa() + shift).max(least);
        Gauge::pa(pressure.min(task.setting.as_pa()))
    }

    pub fn flow(&self, index: usize, task: &TaskBasis) -> FreeAir {
        FreeAir::m3_s(task.flow.as_m3_s() * self.factor(Which::Tool(index), 0))
    }

    fn task(&self, index: usize, task: &TaskBasis) -> TaskBasis {
        TaskBasis {
            lowest: self.lowest(index, task),
            rhythm: self.rhythm(index, task.rhythm),
            flow: self.flow(index, task),
            ..task.clone()
        }
    }

    /// The whole shop as it would be, every figure typed.
    pub fn shop(&self, basis: &Basis) -> Basis {
        let mut drawn = basis.clone();
        for (index, task) in drawn.tasks.iter_mut().enumerate() {
            *task = self.task(index, task);
        }
        for (index, place) in drawn.places.iter_mut().enumerate() {
            let pressure = self.of(Which::Weather, index).map(Absolute::pa);
            let kelvin = self.of(Which::Heat, index);
            let air = Air::new(
                pressure.unwrap_or(place.air.pressure()),
                kelvin.unwrap_or(place.air.kelvin()),
                place.air.relative_humidity(),
            );
            place.air = air.unwrap_or(place.air);
        }
        drawn
    }

    /// The machine as it would be.
    pub fn candidate(&self, candidate: &CandidateBasis) -> CandidateBasis {
        let mut drawn = candidate.clone();
        drawn.tank_m3.value = self.of(Which::Tank, 0).unwrap_or(drawn.tank_m3.value);
        drawn.cut_in = self.of(Which::CutIn, 0).map_or(drawn.cut_in, Gauge::pa);
        drawn.cut_out = self.of(Which::CutOut, 0).map_or(drawn.cut_out, Gauge::pa);
        let leak = self.of(Which::Leak, 0).map(|kg_s_pa| Leak {
            kg_s_pa,
            error_kg_s_pa: 0.0,
        });
        drawn.measured = Some(Measured {
            air: candidate
                .measured
                .map_or(physics::air::RATING, |measured| measured.air),
            delivered: candidate.measured.and_then(|measured| measured.delivered),
            leak,
        });
        drawn
    }
}
