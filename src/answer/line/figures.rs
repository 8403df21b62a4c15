//! What each part of the line leaves and loses, with its sum.

use super::{Look, part_name};
use crate::answer::sums;
use crate::assess::machine::line;
use crate::line::{Line, Part};
use crate::quantity::{Absolute, FreeAir, Kind, PA_PER_PSI, figure, number};
use crate::report::{Figure, Sum};
use crate::shop::Units;
use uom::si::f64::{MassRate, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

type Known = (&'static str, String);

/// A loss to a tenth of a psi, or to ten millibar: no hose is known better.
fn tenth(units: Units, loss_pa: f64) -> f64 {
    let step = if units == Units::Us { 0.1 * PA_PER_PSI } else { 1e3 };
    (loss_pa.max(0.0) / step).round() * step
}

impl Look<'_> {
    /// The flow through one of `whips` hoses that share the whole.
    fn flow(&self, whips: u32) -> MassRate {
        MassRate::new::<kilogram_per_second>(self.facts.work.flow_kg_s / f64::from(whips.max(1)))
    }

    /// What hose and coupler are both given: the flow, and what it leaves.
    fn air(&self, mass: MassRate, left: Absolute) -> Vec<Known> {
        let (words, air) = (self.words, &self.place.air);
        vec![
            (
                "q, flow, free air",
                words.of(Kind::Flow, FreeAir::of_mass(mass, air.density()).as_m3_s()),
            ),
            ("ρ, density of that air", words.density(air.density())),
            (
                "T, air, counted from absolute zero",
                words.of(Kind::Temperature, air.kelvin()),
            ),
            ("p₂, behind it, absolute", words.exactly(left.as_pa())),
            ("p₀, outside air, absolute", words.exactly(air.pressure().as_pa())),
        ]
    }

    fn hose(
        &self,
        bore_length: (f64, f64),
        hose: crate::line::Hose,
        mass: MassRate,
        left: Absolute,
    ) -> Option<Sum> {
        let words = self.words;
        let air = ThermodynamicTemperature::new::<kelvin>(self.place.air.kelvin());
        let friction = hose.friction(mass, air).ok()?;
        let own = [
            ("D, bore", words.of(Kind::Bore, bore_length.0)),
            ("l, length", words.of(Kind::Length, hose.length.get::<meter>())),
            ("f, friction", figure(friction)),
        ];
        sums::LINE_HOSE.with(self.air(mass, left).into_iter().chain(own))
    }

    fn couplers(&self, line: &Line, count: u32, mass: MassRate, left: Absolute) -> Option<Sum> {
        let coupler = line.coupler;
        let own = [
            ("couplers in a row", count.to_string()),
            (
                "C, sonic conductance",
                format!("{} dm³/(s bar)", figure(coupler.conductance_dm3_s_bar())),
            ),
            ("b, critical pressure ratio", number(coupler.critical_ratio(), 2)),
        ];
        sums::LINE_COUPLERS.with(self.air(mass, left).into_iter().chain(own))
    }

    fn regulator(&self, line: &Line, before: Absolute) -> Option<Sum> {
        let words = self.words;
        let tank = before.above(self.place.air.pressure());
        sums::LINE_REGULATOR.with([
            ("p₁, in the tank", words.exactly(tank.as_pa())),
            (
                "d, least drop",
                words.exactly(line.regulator.minimum_drop.get::<pascal>()),
            ),
        ])
    }

    fn sum(&self, part: Part, before: Absolute, left: Absolute) -> Option<Sum> {
        let basis = &self.basis.line;
        let line = line(basis, self.task.people);
        let (all, each) = (self.flow(1), self.flow(line.whips));
        if self.facts.work.choked == Some(part) {
            return sums::LINE_CHOKED.with(self.air(each, left));
        }
        match part {
            Part::Regulator => self.regulator(&line, before),
            Part::Trunk => self.hose(basis.trunk, line.trunk, all, left),
            Part::Couplers => self.couplers(&line, line.couplers, all, left),
            Part::Whip => self.hose(basis.whip, line.whip, each, left),
            Part::Tool => self.couplers(&line, line.whip_couplers, each, left),
            Part::Manifold => None,
        }
    }

    /// From the regulator to the tool.
    pub(super) fn figures(&self) -> Vec<Figure> {
        let Some(losses) = self.facts.work.losses else {
            return Vec::new();
        };
        let mut before = losses.tank();
        let mut figures = Vec::new();
        for (part, left) in losses.steps() {
            if self.there(part) {
                figures.push(self.leaves(part, before, left));
                before = left;
            }
        }
        figures
    }

    fn leaves(&self, part: Part, before: Absolute, left: Absolute) -> Figure {
        let words = self.words;
        let value = format!(
            "leaves {}, loses {}",
            words.pressure(self.gauge(left)),
            words.of(Kind::Pressure, tenth(words.units, before.as_pa() - left.as_pa()))
        );
        sums::figure(part_name(part), value, self.sum(part, before, left))
    }
}
