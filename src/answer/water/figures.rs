//! The water of a place in figures, each with its sum.

use super::{Dropped, Tank, WATER_KG_M3, amount};
use crate::air::Air;
use crate::answer::day::{self, Running};
use crate::answer::sums;
use crate::quantity::{Kind, figure};
use crate::report::{Figure, Sum};
use crate::water::{fill, rested_ratio};
use uom::si::f64::MassDensity;
use uom::si::mass_density::kilogram_per_cubic_meter;

fn ratio(kg_kg: f64) -> String {
    format!("{} g/kg", figure(kg_kg * 1e3))
}

/// Water an hour to three figures, for whoever does the sum again.
fn hourly(kg: f64) -> String {
    format!("{} mL/h", figure(kg * 1e6 / WATER_KG_M3))
}

impl Tank<'_> {
    fn density(&self, kg_m3: f64) -> String {
        self.words
            .density(MassDensity::new::<kilogram_per_cubic_meter>(kg_m3))
    }

    fn fill_sum(&self) -> Option<Sum> {
        let (words, air) = (self.words, &self.place.air);
        let fill = fill(air, self.volume_m3, air.pressure(), self.full(air), air.kelvin()).ok()?;
        let ([ratio_before, ratio_after], [before, after]) = (fill.tank_ratios, fill.dry_kg);
        sums::FILL.with([
            ("W, water in the air taken in", ratio(fill.ratio)),
            ("Wₐ, in the empty tank", ratio(ratio_before)),
            ("Wₑ, in the full tank, saturated", ratio(ratio_after)),
            ("mₐ, dry air in the empty tank", words.of(Kind::Mass, before)),
            ("mₑ, dry air in the full tank", words.of(Kind::Mass, after)),
            ("ρ, water", self.density(WATER_KG_M3)),
            ("full at", words.exactly(self.candidate.cut_out.as_pa())),
            ("tank with what is teed in", words.volume(self.volume_m3)),
        ])
    }

    fn hour_sum(&self, air: &Air, running: Running) -> Option<Sum> {
        let (words, flow) = (self.words, self.flow()?);
        let left = rested_ratio(air, self.full(air), air.kelvin()).ok()?;
        sums::HOURLY.with([
            ("d, dry air in the air taken in", self.density(air.dry_kg_m3())),
            ("W, water in it", ratio(air.humidity_ratio())),
            ("Wₑ, in the full tank, saturated", ratio(left)),
            ("q, free air while running", words.of(Kind::Flow, flow.as_m3_s())),
            ("s, share of time that it runs", words.percent(running.mean)),
            ("ρ, water", self.density(WATER_KG_M3)),
            ("air", words.of(Kind::Temperature, air.kelvin())),
            ("its humidity", words.share(air.relative_humidity())),
            ("full at", words.exactly(self.candidate.cut_out.as_pa())),
        ])
    }

    fn mean_sum(&self) -> Option<Sum> {
        let rows = &self.found.tasks;
        let share = |row: &crate::assess::TaskFacts| self.words.percent(row.waits.running.clamp(0.0, 1.0));
        let shares = rows
            .iter()
            .map(|row| (self.basis.tasks[row.task].name.clone().into(), share(row)));
        sums::MEAN_SHARE.with_named(
            [("n, tasks".into(), rows.len().to_string())]
                .into_iter()
                .chain(shares),
        )
    }

    pub(super) fn figures(&self, dropped: Dropped) -> Vec<Figure> {
        let words = self.words;
        let named =
            |what: &str, value: String, sum| sums::figure(format!("{}: {what}", self.place.name), value, sum);
        let mut figures = vec![named(
            "water in a fill from empty",
            amount(words, dropped.fill_kg),
            self.fill_sum(),
        )];
        let Some(running) = self.running else {
            return figures;
        };
        if let Some(hour_kg) = dropped.hour_kg {
            let hours = day::hours(self.basis);
            let day_sum = sums::DAILY.with([
                ("h, hours of work a day", words.of(Kind::Hours, hours * 3_600.0)),
                ("u, what drops", hourly(hour_kg)),
            ]);
            let hour_sum = self.hour_sum(&self.place.air, running);
            figures.push(named("water in an hour", amount(words, hour_kg), hour_sum));
            figures.push(named("water in a day", amount(words, hour_kg * hours), day_sum));
            figures.push(named(
                "mean running share",
                words.share(running.mean),
                self.mean_sum(),
            ));
        }
        let summer = self
            .summer()
            .and_then(|air| Some((air, self.dropped(&air).ok()?.hour_kg?)));
        if let Some((air, hour_kg)) = summer {
            let sum = self.hour_sum(&air, running);
            figures.push(named(
                "in an hour of a humid summer day",
                amount(words, hour_kg),
                sum,
            ));
        }
        figures
    }
}
