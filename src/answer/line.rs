//! The air line in words and as a picture from tank to tool.

mod figures;

use super::chart::{Frame, points};
use super::label::beyond;
use super::words::{Words, capital};
use crate::report::{Chart, Finding, Grade, Label, Section, Stroke, Tick, View};
use judge::assess::work::bore_wanted;
use judge::assess::{Facts, TaskFacts};
use judge::basis::{Basis, CandidateBasis, PlaceBasis, TaskBasis};
use physics::line::{Leg, Part};
use quantity::{Absolute, Gauge, Kind};
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
        Part::Trunk => "trunk hose",
        Part::Couplers => "couplers",
        Part::Manifold => "bench",
        Part::Whip => "whip",
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

    fn pressure(&self) -> Finding {
        let words = self.words;
        let work = &self.facts.work;
        let id = "tool-pressure".to_owned();
        let basis = "isothermal flow with friction in smooth hose (Churchill), couplers by ISO 6358, regulator with droop".to_owned();
        if let Some(part) = work.choked {
            return Finding {
                id,
                grade: Grade::Bad,
                text: format!(
                    "For {} the {} chokes: no pressure in the tank gets {} to the running tool. Use a larger bore or a shorter length.",
                    self.named(),
                    part_name(part),
                    words.pressure(self.task.setting)
                ),
                basis,
                remedies: Vec::new(),
            };
        }
        let (Some(setting), Some(full)) = (work.regulator, work.full) else {
            return Finding {
                id,
                grade: Grade::Poor,
                text: format!(
                    "For {} the line does not bring {} to the running tool.",
                    self.named(),
                    words.pressure(self.task.setting)
                ),
                basis,
                remedies: Vec::new(),
            };
        };
        let (cut_in, needs) = (self.candidate.cut_in, self.gauge(full));
        let (grade, then) = if needs.as_pa() > self.candidate.cut_out.as_pa() {
            (
                Grade::Poor,
                format!(
                    "even a full tank, {}, is below that: the tool runs weaker than its setting",
                    words.pressure(self.candidate.cut_out)
                ),
            )
        } else if needs.as_pa() > cut_in.as_pa() {
            (
                Grade::Note,
                format!(
                    "the switch lets it sink to {} before it starts, so the tool fades towards the end; below {} it is weak",
                    words.pressure(cut_in),
                    words.pressure(self.gauge(Absolute::pa(work.work.enough_pa.min(1e7))))
                ),
            )
        } else {
            (
                Grade::Good,
                "the tank never falls below that while the motor keeps up".to_owned(),
            )
        };
        Finding {
            id,
            grade,
            text: format!(
                "For {} set the regulator to {} with the tool at rest: it then has {} running. The tank must have {}; {then}.",
                self.named(),
                words.pressure(setting),
                words.pressure(self.task.setting),
                words.pressure(needs)
            ),
            basis,
            remedies: Vec::new(),
        }
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
                "trunk hose",
                "trunk_bore",
                self.basis.line.trunk.0,
                self.basis.line.trunk.1,
            ),
            Leg::Whip => (
                "whip",
                "whip",
                "whip_bore",
                self.basis.line.whip.0,
                self.basis.line.whip.1,
            ),
        };
        let text = words.of(Kind::Bore, wanted);
        Some(Finding {
            id: id.into(),
            grade: Grade::Fair,
            text: format!(
                "The {name}, {} of {}, is thin for {}: with {text} both hoses lose no more than {} of the regulated pressure.",
                words.of(Kind::Length, length), words.of(Kind::Bore, present), self.named(), words.share(self.basis.line.loss_share)
            ),
            basis: "smallest bore sold that keeps the stated share; a heavy trunk to the bench, a light short whip to the hand: common practice, no source".into(),
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
    let mut findings = vec![look.pressure()];
    findings.extend(look.bore(Leg::Trunk));
    findings.extend(look.bore(Leg::Whip));
    let grade = findings
        .iter()
        .map(|finding| finding.grade)
        .max()
        .unwrap_or_default();
    let sentence = match row.work.regulator {
        Some(setting) => format!("Regulator at {} for {}.", words.pressure(setting), look.named()),
        None => format!("The line is too narrow for {}.", look.named()),
    };
    Some(Section {
        id: "line".into(),
        title: "The air line".into(),
        grade,
        sentence,
        figures: look.figures(),
        chart: look.chart(),
        findings,
        cautions: vec![
            "A hose that comes loose whips: shut off and bleed before you unplug a coupler.".into(),
            "Nothing pressurised in plain PVC pipe: it shatters.".into(),
            "Blow guns stay under 30 psi at the nozzle (OSHA 1910.242(b)); eyes and ears covered.".into(),
        ],
    })
}
