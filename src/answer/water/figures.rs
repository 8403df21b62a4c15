//! The water of a place in figures, each with its sum.

use super::{Dropped, Tank, WATER_KG_M3, amount};
use crate::day::{self, Running};
use crate::report::{Figure, Sum};
use crate::sums::{self, PutIn};
use physics::air::Air;
use physics::water::Fill;
use quantity::{Kind, figure};
use uom::si::f64::MassDensity;
use uom::si::mass_density::kilogram_per_cubic_meter;

fn ratio(kg_kg: f64) -> String {
    format!("{} g/kg", figure(kg_kg * 1e3))
}

/// Water an hour to three figures, for whoever does the sum again.
fn hourly(kg: f64) -> String {
    format!("{} mL/h", figure(kg * 1e6 / WATER_KG_M3))
}

const FULL: &str = "Wₑ, in the full tank, saturated";
const FULL_AT: &str = "full at";
const WATER: &str = "ρ, water";

impl Tank<'_> {
    fn density(&self, kg_m3: f64) -> String {
        self.words
            .density(MassDensity::new::<kilogram_per_cubic_meter>(kg_m3))
    }

    fn fill_sum(&self, fill: Fill) -> Option<Sum> {
        let ([ratio_before, ratio_after], [before, after]) = (fill.tank_ratios, fill.dry_kg);
        let mut put_in = PutIn::new(self.words);
        put_in
            .text("W, water in the air taken in", ratio(fill.ratio))
            .text("Wₐ, in the empty tank", ratio(ratio_before))
            .text(FULL, ratio(ratio_after))
            .of("mₐ, dry air in the empty tank", Kind::Mass, before)
            .of("mₑ, dry air in the full tank", Kind::Mass, after)
            .text(WATER, self.density(WATER_KG_M3))
            .pressure(FULL_AT, self.candidate.cut_out.as_pa())
            .of("tank with what is teed in", Kind::Volume, self.volume_m3);
        sums::FILL.with(&mut put_in)
    }

    fn hour_sum(&self, air: &Air, fill: Fill, running: Running) -> Option<Sum> {
        let mut put_in = PutIn::new(self.words);
        put_in
            .text("d, dry air in the air taken in", self.density(air.dry_kg_m3()))
            .text("W, water in it", ratio(air.humidity_ratio()))
            .text(FULL, ratio(fill.tank_ratios[1]))
            .flow("q, free air while running", self.flow()?)
            .percent("s, share of time that it runs", running.mean)
            .text(WATER, self.density(WATER_KG_M3))
            .of("air", Kind::Temperature, air.kelvin())
            .percent("its humidity", air.relative_humidity())
            .pressure(FULL_AT, self.candidate.cut_out.as_pa());
        sums::HOURLY.with(&mut put_in)
    }

    fn day_sum(&self, hour_kg: f64, hours: f64) -> Option<Sum> {
        let mut put_in = PutIn::new(self.words);
        put_in
            .of("h, hours of work a day", Kind::Hours, hours * quantity::S_PER_H)
            .text("u, what drops", hourly(hour_kg));
        sums::DAILY.with(&mut put_in)
    }

    fn mean_sum(&self) -> Option<Sum> {
        let rows = &self.found.tasks;
        let mut put_in = PutIn::new(self.words);
        put_in.text("n, tasks", rows.len().to_string());
        for row in rows {
            let share = self.words.percent(row.run.running.clamp(0.0, 1.0));
            put_in.named(&self.basis.tasks[row.task].name, share);
        }
        sums::MEAN_SHARE.with(&mut put_in)
    }

    pub(super) fn figures(&self, dropped: Dropped) -> Vec<Figure> {
        let words = self.words;
        let named = |what: &str, value: String, sum| {
            sums::figure(&format!("{}: {what}", self.place.name), value, sum)
        };
        let mut figures = vec![named(
            "water in a fill from empty",
            amount(words, dropped.fill.dropped_kg()),
            self.fill_sum(dropped.fill),
        )];
        let Some(running) = self.running else {
            return figures;
        };
        if let Some(hour_kg) = dropped.hour_kg {
            let hours = day::hours(self.basis);
            let hour_sum = self.hour_sum(&self.place.air, dropped.fill, running);
            figures.push(named("water in an hour", amount(words, hour_kg), hour_sum));
            figures.push(named(
                "water in a day",
                amount(words, hour_kg * hours),
                self.day_sum(hour_kg, hours),
            ));
            figures.push(named(
                "mean running share",
                words.share(running.mean),
                self.mean_sum(),
            ));
        }
        if let Some((air, dropped)) = self.dropped_in_summer()
            && let Some(hour_kg) = dropped.hour_kg
        {
            let sum = self.hour_sum(&air, dropped.fill, running);
            figures.push(named(
                "in an hour of a humid summer day",
                amount(words, hour_kg),
                sum,
            ));
        }
        figures
    }
}
