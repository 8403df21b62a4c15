//! The picture of tank pressure over time for one task at one place.

use super::chart::{Frame, points};
use super::tasks::verdict;
use super::words::{Words, capital};
use crate::report::{Band, Chart, Label};
use judge::assess::TaskFacts;
use judge::basis::{CandidateBasis, PlaceBasis, TaskBasis};
use physics::run::{Machine, Step, Worker, observe_run};
use quantity::{Absolute, Gauge, Kind, PA_PER_PSI, number};
use shop::Units;

/// Steps no longer than this are drawn, as a share of the picture's width.
const FINENESS: f64 = 1.0 / 240.0;

/// The user's unit of pressure.
pub fn unit(units: Units) -> &'static str {
    match units {
        Units::Us => "psi",
        Units::Metric => "bar",
    }
}

/// A pressure as a bare number in that unit, for a label in a picture.
pub fn bare(units: Units, pressure: Gauge) -> String {
    number(reading(units, pressure), if units == Units::Us { 0 } else { 1 })
}

/// Pressure in the user's unit.
pub fn reading(units: Units, pressure: Gauge) -> f64 {
    match units {
        Units::Us => pressure.as_psi(),
        Units::Metric => pressure.as_pa() / 1e5,
    }
}

/// Time that shows one or two rounds: two spells with their pauses, between 4 and 40 minutes.
fn shown_seconds(task: &TaskBasis) -> f64 {
    (2.0 * (task.rhythm.spell_s + task.rhythm.pause_s)).clamp(240.0, 2_400.0)
}

/// Times between which the worker waited.
fn waits(steps: &[Step]) -> Vec<(f64, f64)> {
    let mut found: Vec<(f64, f64)> = Vec::new();
    let mut before = 0.0;
    for step in steps {
        if step.waiting {
            match found.last_mut() {
                Some(last) if (last.1 - before).abs() < 1e-9 => last.1 = step.seconds,
                _ => found.push((before, step.seconds)),
            }
        }
        before = step.seconds;
    }
    found
}

/// What the picture shows.
pub struct Scene<'a> {
    /// Units.
    pub words: Words,
    /// The machine's label.
    pub candidate: &'a CandidateBasis,
    /// The place.
    pub place: &'a PlaceBasis,
    /// The task.
    pub task: &'a TaskBasis,
    /// The machine there.
    pub machine: &'a Machine,
    /// What it does.
    pub facts: &'a TaskFacts,
}

impl Scene<'_> {
    fn steps(&self, seconds: f64) -> Vec<Step> {
        let mut steps = Vec::new();
        let work = &self.facts.work.work;
        observe_run(
            self.machine,
            work,
            Worker::Spares,
            seconds,
            seconds * FINENESS,
            &mut |step| {
                if step.seconds <= seconds {
                    steps.push(step);
                }
            },
        );
        steps
    }

    fn gauge(&self, pa: f64) -> Gauge {
        Absolute::pa(pa).above(self.place.air.pressure())
    }

    /// The lines across: cut-out, cut-in, what the tool needs.
    fn levels(&self) -> Vec<(String, &'static str, Gauge)> {
        let mut levels = vec![
            ("cut-out".to_owned(), "limit", self.candidate.cut_out),
            ("cut-in".to_owned(), "limit", self.candidate.cut_in),
        ];
        if self.facts.work.work.enough_pa.is_finite() {
            levels.push((
                "tool goes weak".to_owned(),
                "need",
                self.gauge(self.facts.work.work.enough_pa),
            ));
        }
        levels
    }

    fn summary(&self, steps: &[Step], seconds: f64) -> String {
        let words = self.words;
        let low = steps
            .iter()
            .map(|step| step.pressure_pa)
            .fold(f64::INFINITY, f64::min);
        let waited: f64 = waits(steps).iter().map(|(from, to)| to - from).sum();
        let waiting = if waited > 1.0 {
            format!(" Of the time drawn, {} is waiting.", words.time(waited))
        } else {
            String::new()
        };
        format!(
            "{} at “{}”, from a full tank over {}: the tank swings between {} and {}. In the long run, over machines, hands and days: {}.{waiting}",
            capital(&self.task.name),
            self.place.name,
            words.time(seconds),
            words.pressure(self.gauge(if low.is_finite() {
                low
            } else {
                self.machine.cut_out_pa
            })),
            words.pressure(self.candidate.cut_out),
            verdict(&self.facts.record),
        )
    }

    /// The chart.
    pub fn chart(&self) -> Chart {
        let words = self.words;
        let seconds = shown_seconds(self.task);
        let steps = self.steps(seconds);
        let frame = Frame::PHONE;
        let show = |pa: f64| reading(words.units, self.gauge(pa));
        let top = reading(words.units, self.candidate.cut_out);
        let lowest = steps
            .iter()
            .map(|step| show(step.pressure_pa))
            .fold(f64::INFINITY, f64::min);
        let needed = self
            .levels()
            .iter()
            .map(|level| reading(words.units, level.2))
            .fold(top, f64::min);
        let floor = (lowest.min(needed) * 0.85).max(0.0);
        let (x, y) = (frame.x((0.0, seconds / 60.0)), frame.y((floor, top * 1.06)));
        let mut chart = frame.chart(("minutes", x.ticks(6.0)), (unit(words.units), y.ticks(6.0)));
        let start = (x.at(0.0), y.at(top));
        let line = points(
            std::iter::once(start).chain(
                steps
                    .iter()
                    .map(|step| (x.at(step.seconds / 60.0), y.at(show(step.pressure_pa)))),
            ),
        );
        for (name, style, level) in self.levels() {
            let at = y.at(reading(words.units, level));
            let text = format!("{name} {}", words.pressure(level));
            chart.strokes.push(frame.level(text.clone(), style, at));
            chart.labels.push(Label {
                text,
                style: style.into(),
                at: [frame.plot[0] + frame.plot[2], at - 3.0],
            });
        }
        chart.strokes.push(crate::report::Stroke {
            name: "tank pressure".into(),
            style: "pressure".into(),
            points: line,
        });
        for (from, to) in waits(&steps) {
            let (left, right) = (x.at(from / 60.0), x.at(to / 60.0));
            let rect = [left, frame.plot[1], (right - left).max(0.5), frame.plot[3]];
            chart.bands.push(Band {
                name: "waiting".into(),
                style: "waiting".into(),
                rect,
            });
        }
        chart.title = format!("Tank pressure: {}, “{}”", self.task.name, self.place.name);
        chart.summary = self.summary(&steps, seconds);
        chart.head = vec!["time".into(), "tank".into(), "motor".into(), "worker".into()];
        chart.rows = self.rows(&steps, seconds);
        chart
    }

    /// A dozen moments of the run, as a table.
    fn rows(&self, steps: &[Step], seconds: f64) -> Vec<Vec<String>> {
        let moment = |index: usize| {
            let time = seconds * index as f64 / 12.0;
            let step = steps.iter().find(|step| step.seconds >= time).or(steps.last())?;
            let worker = match (step.waiting, step.trigger) {
                (true, _) => "waits",
                (false, true) => "on the trigger",
                (false, false) => "off the trigger",
            };
            Some(vec![
                self.words.time(time),
                self.words.of(
                    Kind::Pressure,
                    (self.gauge(step.pressure_pa).as_pa() / PA_PER_PSI).round() * PA_PER_PSI,
                ),
                if step.running { "runs" } else { "off" }.into(),
                worker.into(),
            ])
        };
        (1..=12).filter_map(moment).collect()
    }
}
