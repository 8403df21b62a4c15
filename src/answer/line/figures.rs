//! What each part of the line leaves and loses, with its sum.

use super::{Look, part_name};
use crate::report::{Figure, Sum};
use crate::sums::{self, PutIn};
use judge::assess::machine::line;
use physics::line::{Hose, Line, Part};
use quantity::{Absolute, FreeAir, Kind, PA_PER_PSI, figure};
use shop::Units;
use uom::si::f64::{MassRate, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

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
    fn air(&self, mass: MassRate, left: Absolute) -> PutIn {
        let air = &self.place.air;
        let mut put_in = PutIn::new(self.words);
        put_in
            .flow("q, flow, free air", FreeAir::of_mass(mass, air.density()))
            .text("ρ, density of that air", self.words.density(air.density()))
            .of(
                "T, air, counted from absolute zero",
                Kind::Temperature,
                air.kelvin(),
            )
            .pressure("p₂, behind it, absolute", left.as_pa())
            .pressure("p₀, outside air, absolute", air.pressure().as_pa());
        put_in
    }

    fn hose(&self, bore_m: f64, hose: Hose, mass: MassRate, left: Absolute) -> Option<Sum> {
        let air = ThermodynamicTemperature::new::<kelvin>(self.place.air.kelvin());
        let mut put_in = self.air(mass, left);
        put_in
            .of("D, bore", Kind::Bore, bore_m)
            .of("l, length", Kind::Length, hose.length.get::<meter>());
        match hose.friction(mass, air) {
            Ok(friction) => put_in.number("f, friction", friction),
            Err(error) => put_in.text("f, friction", error.to_string()),
        };
        sums::LINE_HOSE.with(&mut put_in)
    }

    fn couplers(&self, line: &Line, count: u32, mass: MassRate, left: Absolute) -> Option<Sum> {
        let coupler = line.coupler;
        let conductance = format!("{} dm³/(s bar)", figure(coupler.conductance_dm3_s_bar()));
        let mut put_in = self.air(mass, left);
        put_in
            .text("couplers in a row", count.to_string())
            .text("C, sonic conductance", conductance)
            .number("b, critical pressure ratio", coupler.critical_ratio());
        sums::LINE_COUPLERS.with(&mut put_in)
    }

    fn regulator(&self, line: &Line, before: Absolute) -> Option<Sum> {
        let mut put_in = PutIn::new(self.words);
        put_in
            .pressure("p₁, in the tank", self.gauge(before).as_pa())
            .pressure("d, least drop", line.regulator.minimum_drop.get::<pascal>());
        sums::LINE_REGULATOR.with(&mut put_in)
    }

    fn sum(&self, part: Part, before: Absolute, left: Absolute) -> Option<Sum> {
        let basis = &self.basis.line;
        let line = line(basis, self.task.people);
        let (all, each) = (self.flow(1), self.flow(line.whips));
        if self.facts.work.choked == Some(part) {
            return sums::LINE_CHOKED.with(&mut self.air(each, left));
        }
        match part {
            Part::Regulator => self.regulator(&line, before),
            Part::Trunk => self.hose(basis.trunk.0, line.trunk, all, left),
            Part::Couplers => self.couplers(&line, line.couplers, all, left),
            Part::Whip => self.hose(basis.whip.0, line.whip, each, left),
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
