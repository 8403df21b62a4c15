//! The air line in words and as a picture from tank to tool.

pub mod advice;
mod figures;

use super::chart::{Frame, points};
use super::label::beyond;
use super::words::{Words, capital};
use crate::report::{Chart, Finding, Grade, Label, Section, Stroke, Tick, View};
use judge::assess::work::bore_wanted;
use judge::assess::{Facts, TaskFacts};
use judge::basis::{Basis, CandidateBasis, PlaceBasis, TaskBasis};
use judge::line::{Weakest, weakest};
use physics::line::{Leg, Part};
use quantity::{Absolute, Gauge, Kind};
use shop::TaskKind;
use shop::change::Change;

struct Look<'a> {
    words: Words,
    basis: &'a Basis,
    candidate: &'a CandidateBasis,
    place: &'a PlaceBasis,
    task: &'a TaskBasis,
    facts: &'a TaskFacts,
}

/// What stands behind each part, as the trade calls it.
fn part_name(part: Part) -> &'static str {
    match part {
        Part::Regulator => "regulator",
        Part::Trunk => "main hose",
        Part::Couplers => "couplers",
        Part::Manifold => "bench",
        Part::Whip => "whip hose",
        Part::Tool => "tool",
    }
}

impl Look<'_> {
    fn gauge(&self, pressure: Absolute) -> Gauge {
        pressure.above(self.place.air.pressure())
    }

    fn there(&self, part: Part) -> bool {
        match part {
            Part::Manifold => false,
            Part::Couplers => self.basis.line.couplers >= 2.0,
            _ => true,
        }
    }

    /// Names and pressures from tank to tool; parts that are not there are left out.
    fn steps(&self) -> Option<Vec<(&'static str, Gauge)>> {
        let losses = self.facts.work.losses?;
        let mut steps = vec![("tank", self.gauge(losses.tank()))];
        steps.extend(
            losses
                .steps()
                .into_iter()
                .filter(|(part, _)| self.there(*part))
                .map(|(part, at)| (part_name(part), self.gauge(at))),
        );
        Some(steps)
    }

    fn named(&self) -> String {
        format!("“{}” at “{}”", self.task.name, self.place.name)
    }

    /// What the tank must have, once the regulator is set.
    fn pressure(&self) -> Finding {
        let words = self.words;
        let work = &self.facts.work;
        let (grade, text) = match (work.choked, work.full) {
            (Some(part), _) => (
                Grade::Bad,
                format!(
                    "For {} the {} chokes: use a larger bore or a shorter length.",
                    self.named(),
                    part_name(part)
                ),
            ),
            (None, None) => (
                Grade::Poor,
                format!(
                    "For {} the line does not bring {} to the running tool.",
                    self.named(),
                    words.pressure(self.task.setting)
                ),
            ),
            (None, Some(full)) => self.tank(self.gauge(full)),
        };
        super::label::finding(
            "tool-pressure",
            grade,
            text,
            "isothermal flow with friction in smooth hose (Churchill), couplers by ISO 6358, regulator with droop",
        )
    }

    fn tank(&self, needs: Gauge) -> (Grade, String) {
        let words = self.words;
        let (cut_in, cut_out) = (self.candidate.cut_in, self.candidate.cut_out);
        let needed = words.pressure(needs);
        if needs > cut_out {
            let full = words.pressure(cut_out);
            return (
                Grade::Poor,
                format!(
                    "That takes {needed} in the tank, and even a full one has {full}: the tool runs weaker than its setting."
                ),
            );
        }
        if needs > cut_in {
            let weak = self.gauge(Absolute::pa(self.facts.work.work.enough_pa.min(1e7)));
            return (
                Grade::Note,
                format!(
                    "The tool has that down to {needed} in the tank. The motor starts at {}, so it fades toward the end; below {} it is weak.",
                    words.pressure(cut_in),
                    words.pressure(weak)
                ),
            );
        }
        (
            Grade::Good,
            format!(
                "The tool has that down to {needed} in the tank, which never falls lower while the motor keeps up."
            ),
        )
    }

    fn bore(&self, leg: Leg) -> Option<Finding> {
        let words = self.words;
        let wanted = match bore_wanted(self.task, &self.basis.line, self.place, leg) {
            Ok(wanted) => wanted?,
            Err(error) => return Some(beyond("bore", "Which hose would do", &error)),
        };
        let (id, name, field, present, length) = match leg {
            Leg::Trunk => (
                "trunk",
                "main hose",
                "trunk_bore",
                self.basis.line.trunk.0,
                self.basis.line.trunk.1,
            ),
            Leg::Whip => (
                "whip",
                "whip hose",
                "whip_bore",
                self.basis.line.whip.0,
                self.basis.line.whip.1,
            ),
        };
        let text = words.bore_enough(wanted);
        Some(Finding {
            id: id.into(),
            grade: Grade::Fair,
            text: format!(
                "The {name}, {} of {}, is thin for {}. With {text} both hoses lose no more than {} of the pressure.",
                words.of(Kind::Length, length), words.of(Kind::Bore, present), self.named(), words.share(self.basis.line.loss_share)
            ),
            basis: "smallest bore sold that keeps the stated share; a heavy main hose to the bench, a light short whip to the hand: rule of thumb".into(),
            remedies: vec![crate::report::Remedy {
                label: format!("a {text} {name}"),
                changes: vec![Change { field: format!("line.{field}"), text }],
            }],
        })
    }

    fn chart(&self) -> Option<Chart> {
        let words = self.words;
        let steps = self.steps()?;
        let frame = Frame::PHONE;
        let reading = |at: Gauge| super::picture::reading(words.units, at);
        let top = steps.iter().map(|(_, at)| reading(*at)).fold(0.0, f64::max);
        let y = frame.y((0.0, top * 1.15));
        // Half a step of room at either end, for the words.
        let x = frame.x((-0.5, steps.len() as f64 - 0.5));
        let middle = |index: usize| x.at(index as f64);
        let ticks = steps.iter().enumerate().map(|(index, (name, _))| Tick {
            at: middle(index),
            // The whole names run into each other on a phone; the table has them.
            text: name.split(' ').next().unwrap_or_default().into(),
        });
        let mut chart = frame.chart(
            ("", ticks.collect()),
            (super::picture::unit(words.units), y.ticks(5.0)),
        );
        chart.strokes.push(Stroke {
            name: "pressure left behind each part".into(),
            style: "pressure".into(),
            points: points(
                steps
                    .iter()
                    .enumerate()
                    .map(|(index, (_, at))| (middle(index), y.at(reading(*at)))),
            ),
        });
        chart.strokes.push(frame.level(
            "lowest useful at the tool".into(),
            "need",
            y.at(reading(self.task.lowest)),
        ));
        for (index, (_, at)) in steps.iter().enumerate() {
            chart.labels.push(Label {
                text: super::picture::bare(words.units, *at),
                style: "point".into(),
                at: [middle(index), y.at(reading(*at))],
            });
        }
        chart.title = format!("From tank to tool: {}", self.named());
        let told: Vec<String> = steps
            .iter()
            .map(|(name, at)| format!("{name} {}", words.pressure(*at)))
            .collect();
        chart.summary = format!(
            "{}: {}. It still works down to {} at the tool.",
            capital(&self.task.name),
            told.join(", "),
            words.pressure(self.task.lowest)
        );
        chart.head = vec!["behind".into(), "pressure".into()];
        chart.rows = steps
            .iter()
            .map(|(name, at)| vec![(*name).into(), words.pressure(*at)])
            .collect();
        Some(chart)
    }
}

/// The section about the line, for the viewed task and place.
pub fn section(
    words: Words,
    basis: &Basis,
    candidate: &CandidateBasis,
    facts: &Facts,
    view: View,
) -> Option<Section> {
    let place = basis.places.get(view.place)?;
    let row = facts
        .places
        .get(view.place)?
        .tasks
        .iter()
        .find(|row| Some(basis.tasks[row.task].index) == view.task)?;
    let look = Look {
        words,
        basis,
        candidate,
        place,
        task: basis.tasks.get(row.task)?,
        facts: row,
    };
    let (weakest, refused) = match weakest(basis, candidate, view.place, row.task) {
        Ok(weakest) => (weakest, None),
        Err(error) => (None, Some(advice::refused(&error.to_string()))),
    };
    let link = weakest.and_then(|weakest| advice::link(words, look.task, &weakest));
    let limit = link.as_ref().map(|link| link.short.clone());
    let named_leg = match weakest {
        Some(Weakest::Hose(thin)) => Some(thin.leg),
        _ => None,
    };
    let mut findings: Vec<Finding> = link.map(advice::Link::finding).into_iter().collect();
    findings.extend(refused);
    findings.extend(advice::setting(words, place, look.task, row));
    findings.push(look.pressure());
    // The hose that is named as the limit is not named again.
    let legs = [Leg::Trunk, Leg::Whip]
        .into_iter()
        .filter(|leg| named_leg != Some(*leg));
    findings.extend(legs.filter_map(|leg| look.bore(leg)));
    findings.extend(advice::second_regulator(words, basis));
    findings.extend(advice::blow_off(words, basis).filter(|_| look.task.kind != TaskKind::BlowOff));
    let grade = findings
        .iter()
        .map(|finding| finding.grade)
        .max()
        .unwrap_or_default();
    let sentence = match (limit, row.work.regulator) {
        (Some(limit), _) => limit,
        (None, Some(setting)) => format!("Regulator at {} for {}.", words.pressure(setting), look.named()),
        (None, None) => format!("The line is too narrow for {}.", look.named()),
    };
    Some(Section {
        id: "line".into(),
        title: "Are hose and couplers right?".into(),
        grade,
        sentence,
        figures: look.figures(),
        chart: look.chart(),
        findings,
        cautions: vec![
            "A hose that comes loose whips: shut off and bleed before you unplug a coupler, and wire the hose to the tool (OSHA 1926.302(b)).".into(),
            "No PVC pipe for air: it shatters.".into(),
            "Blow-off: vented tip, eye protection, chip guard, never at skin (OSHA 1910.242(b)). Eyes and ears covered.".into(),
        ],
    })
}
