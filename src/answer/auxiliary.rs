//! The auxiliary receiver in words: what it adds, what it must be.

use super::label::finding;
use super::sums::{self, PutIn};
use super::tasks::delivered_mid_band;
use super::words::Words;
use crate::report::{Figure, Finding, Grade, Remedy, Section, Sum, View};
use judge::assess::Facts;
use judge::assess::machine::machine;
use judge::basis::{AuxiliaryBasis, Basis, CandidateBasis};
use judge::window::TANKS_GAL;
use physics::run::{Fineness, Hands, Worker, longest_trigger_s, recovery_s, run};
use quantity::{Kind, M3_PER_GALLON, number};
use shop::change::Change;

/// A fill from empty is sought for so long, s.
const FILL_S: f64 = 4.0 * quantity::S_PER_H;

const CAUTION: &str =
    "Only a tank with a stamp, its own relief valve and a drain, and no rust inside: look with a light.";

/// One store on trial: longest trigger, starts an hour, fill from empty.
struct Store {
    volume_m3: f64,
    trigger_s: Option<f64>,
    starts_per_hour: f64,
    fill_s: Option<f64>,
}

struct Look<'a> {
    words: Words,
    basis: &'a Basis,
    candidate: &'a CandidateBasis,
    facts: &'a Facts,
    view: View,
}

impl Look<'_> {
    fn store(&self, volume_m3: f64) -> Option<Store> {
        let place = self.basis.places.get(self.view.place)?;
        let found = self.facts.places.get(self.view.place)?;
        let row = found
            .tasks
            .iter()
            .find(|row| Some(self.basis.tasks[row.task].index) == self.view.task)?;
        let machine = machine(self.candidate, &self.facts.supply.likely()?, volume_m3, place);
        let run = run(
            &machine,
            &row.work.work,
            Worker::Spares,
            Hands::typical(),
            Fineness::Fine,
        );
        Some(Store {
            volume_m3,
            trigger_s: longest_trigger_s(&machine, &row.work.work),
            starts_per_hour: run.starts_per_hour,
            fill_s: recovery_s(&machine, place.air.pressure().as_pa(), FILL_S),
        })
    }

    /// How both runs come about.
    fn sum(&self, with: &Store, without: &Store) -> Option<Sum> {
        let candidate = self.candidate;
        let mut put_in = PutIn::new(self.words);
        put_in
            .of("V, the tank alone", Kind::Volume, without.volume_m3)
            .of("V, both", Kind::Volume, with.volume_m3)
            .pressure("motor stops at", candidate.cut_out.as_pa())
            .pressure("motor starts at", candidate.cut_in.as_pa());
        let machine = self.facts.places.get(self.view.place)?.machine.as_ref()?;
        let (made, at) = delivered_mid_band(machine, self.basis.places.get(self.view.place)?);
        put_in
            .flow("in, while the motor runs, free air", made)
            .pressure("that flow is made at", at.as_pa())
            .of("Tᵢ, air as it comes in", Kind::Temperature, machine.in_kelvin)
            .of("T₀, room and walls", Kind::Temperature, machine.receiver.wall_k);
        let task = self
            .basis
            .tasks
            .iter()
            .find(|task| Some(task.index) == self.view.task)?;
        put_in.text("flow, rhythm and pressure of", format!("“{}”", task.name));
        sums::STORE.with(&mut put_in)
    }

    fn told(&self, what: &str, with: &Store, without: &Store) -> Vec<Figure> {
        let words = self.words;
        let time = |seconds: Option<f64>, none: &str| seconds.map_or_else(|| none.into(), |s| words.time(s));
        let figure = |name: &str, before: String, after: String| {
            let value = format!("{before} alone, {after} with {what}");
            sums::figure(name, value, self.sum(with, without))
        };
        vec![
            figure(
                "longest trigger from full",
                time(without.trigger_s, "for good"),
                time(with.trigger_s, "for good"),
            ),
            figure(
                "starts an hour",
                number(without.starts_per_hour, 0),
                number(with.starts_per_hour, 0),
            ),
            figure(
                "fill from empty",
                time(without.fill_s, "over 4 h"),
                time(with.fill_s, "over 4 h"),
            ),
        ]
    }

    /// The stamp against the switch; what is dangerous about it is said among the dangers.
    fn rating(&self, tank: &AuxiliaryBasis) -> Finding {
        let cut_out = self.words.pressure(self.candidate.cut_out);
        let (grade, text) = match (tank.may_join(self.candidate.cut_out), tank.stamp.pressure()) {
            (false, _) => (
                Grade::Bad,
                format!(
                    "Keep this tank off the compressor, which goes to {cut_out}. It is in none of these figures."
                ),
            ),
            (true, Some(stamp)) => (
                Grade::Good,
                format!(
                    "Stamped for {}, it bears the switch’s {cut_out}. Its relief valve must open at or below its stamp.",
                    self.words.pressure(stamp)
                ),
            ),
            (true, None) => (
                Grade::Unsure,
                format!(
                    "Assuming a tank stamped for {cut_out} or more, with its own relief valve: read its stamp before you plumb it in."
                ),
            ),
        };
        finding(
            "auxiliary-rating",
            grade,
            text,
            "tanks carry a stamp, a gauge, a relief valve and a drain (OSHA 1910.169)",
        )
    }

    fn joining(&self, stays: bool) -> Finding {
        let first = self
            .basis
            .places
            .first()
            .map_or("home", |place| place.name.as_str());
        let text = if stays {
            format!(
                "It stays at “{first}”: a shut-off valve and a coupler let the machine leave, and a check valve keeps its air in meanwhile. Bleed it before you open the joint."
            )
        } else {
            "It travels along: a shut-off valve on the joint, and both tanks bled before they are moved."
                .to_owned()
        };
        Finding {
            id: "auxiliary-joint".into(),
            grade: Grade::Note,
            text,
            basis: "common practice, no source".into(),
            remedies: Vec::new(),
        }
    }

    /// A tank that must not be joined: no figure of what it would do.
    fn kept_off(&self, tank: &AuxiliaryBasis) -> Section {
        let rating = self.rating(tank);
        Section {
            id: "auxiliary".into(),
            title: "Would a second tank help?".into(),
            grade: rating.grade,
            sentence: "Leave the second tank off.".into(),
            findings: vec![rating],
            cautions: vec![CAUTION.into()],
            ..Section::default()
        }
    }

    fn section(&self) -> Option<Section> {
        let words = self.words;
        let own = self.candidate.tank_m3.value;
        let set = self.basis.auxiliary;
        if let Some(tank) = set.filter(|tank| !tank.may_join(self.candidate.cut_out)) {
            return Some(self.kept_off(&tank));
        }
        // As large as its own, in a size that is sold.
        let sold = TANKS_GAL.map(|gallons| gallons * M3_PER_GALLON);
        let as_large = sold.into_iter().find(|size| *size >= 0.99 * own);
        let usual = as_large.or(sold.last().copied()).unwrap_or(own);
        let tried = set.map_or(usual, |tank| tank.tank_m3);
        let what = format!("{} teed in", words.volume_enough(tried));
        let (with, without) = (self.store(own + tried)?, self.store(own)?);
        let mut findings = Vec::new();
        if let Some(tank) = set {
            findings.push(self.rating(&tank));
            findings.push(self.joining(tank.stays));
        } else {
            let text = words.volume_enough(tried);
            findings.push(Finding {
                id: "auxiliary-none".into(),
                grade: Grade::Note,
                text: format!("There is none. A second tank of {text} stores that much more. It makes no air: for the same work the motor runs as long as before."),
                basis: "same run of tank and tool with the larger store".into(),
                remedies: vec![Remedy {
                    label: format!("an auxiliary receiver of {text}"),
                    changes: vec![Change { field: "auxiliary.tank".into(), text }],
                }],
            });
        }
        Some(Section {
            id: "auxiliary".into(),
            title: "Would a second tank help?".into(),
            grade: findings
                .iter()
                .map(|finding| finding.grade)
                .max()
                .unwrap_or_default(),
            sentence: if set.is_some() {
                format!("With {what} the store is {} in all.", words.volume(own + tried))
            } else {
                "A second tank lengthens the spell, not the day.".into()
            },
            figures: self.told(&what, &with, &without),
            findings,
            cautions: vec![CAUTION.into()],
            ..Section::default()
        })
    }
}

/// The section, for the viewed task and place.
pub fn section(
    words: Words,
    basis: &Basis,
    candidate: &CandidateBasis,
    facts: &Facts,
    view: View,
) -> Option<Section> {
    Look {
        words,
        basis,
        candidate,
        facts,
        view,
    }
    .section()
}
