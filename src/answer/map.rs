//! The map of flow against tank, drawn and told.

use super::chart::Frame;
use super::words::Words;
use crate::assess::machine::Supply;
use crate::assess::power::flow_fed;
use crate::basis::Basis;
use crate::map::{Column, FLOWS_CFM, Region};
use crate::quantity::{FreeAir, Gauge, M3_PER_GALLON, number};
use crate::report::{Band, Chart, Finding, Grade, Label, Section, Tick};
use crate::shop::Units;
use crate::window::{TANKS_GAL, Window};

struct Plot<'a> {
    words: Words,
    basis: &'a Basis,
    columns: &'a [Column],
    window: Option<&'a Window>,
}

fn told(region: Region) -> &'static str {
    match region {
        Region::KeepsUp => "keeps up",
        Region::RunsHard => "keeps up but runs hard",
        Region::Waits => "waits",
    }
}

/// Where a tank lies along the list, in columns: the middle of a column is its index and a half.
fn along(tank_m3: f64) -> f64 {
    let gal = tank_m3 / M3_PER_GALLON;
    let after = TANKS_GAL.iter().position(|listed| *listed >= gal);
    match after {
        Some(0) => 0.5 * gal / TANKS_GAL[0],
        Some(index) => {
            let (low, high) = (TANKS_GAL[index - 1], TANKS_GAL[index]);
            index as f64 - 0.5 + (gal - low) / (high - low)
        }
        None => TANKS_GAL.len() as f64 - 0.25,
    }
}

/// The column whose tank is not above this one: the cautious side.
fn column_of(columns: &[Column], tank_m3: f64) -> Option<&Column> {
    columns
        .iter()
        .rev()
        .find(|column| column.tank_m3 <= tank_m3 * 1.001)
        .or(columns.first())
}

impl Plot<'_> {
    /// A flow in the user's unit.
    fn reading(&self, flow: FreeAir) -> f64 {
        match self.words.units {
            Units::Us => flow.as_cfm(),
            Units::Metric => flow.as_m3_s() * 60_000.0,
        }
    }

    /// Name, flow and tank of the candidates that have both.
    fn candidates(&self) -> Vec<(String, FreeAir, f64)> {
        let known = self
            .basis
            .candidates
            .iter()
            .filter(|candidate| candidate.tank_m3.given);
        known
            .filter_map(|candidate| {
                let (supply, _) = Supply::of(candidate);
                let pump = supply.likely().filter(|_| supply.range().is_none())?;
                Some((
                    candidate.name.clone(),
                    pump.rated(Gauge::psi(90.0)),
                    candidate.tank_m3.value,
                ))
            })
            .collect()
    }

    /// Top of the map: what matters with some room above.
    fn top(&self) -> FreeAir {
        let window = self.window.map_or(0.0, |window| window.flow.as_cfm());
        let most = self
            .candidates()
            .iter()
            .map(|(_, flow, _)| flow.as_cfm())
            .fold(window, f64::max);
        FreeAir::cfm((1.3 * most).clamp(4.0, FLOWS_CFM[1]))
    }

    fn chart(&self) -> Chart {
        let words = self.words;
        let frame = Frame::PHONE;
        let top = self.top();
        let x = frame.x((0.0, self.columns.len() as f64));
        let y = frame.y((0.0, self.reading(top)));
        let place = |flow: Option<FreeAir>| y.at(flow.map_or(f64::MAX, |flow| self.reading(flow)));
        let ticks = self.columns.iter().enumerate().map(|(index, column)| Tick {
            at: x.at(index as f64 + 0.5),
            text: number(
                match words.units {
                    Units::Us => column.tank_m3 / M3_PER_GALLON,
                    Units::Metric => column.tank_m3 * 1e3,
                },
                0,
            ),
        });
        let (tank, flow) = match words.units {
            Units::Us => ("tank, gal", "cfm at 90 psi"),
            Units::Metric => ("tank, L", "L/min at 6.2 bar"),
        };
        let mut chart = frame.chart((tank, ticks.collect()), (flow, y.ticks(6.0)));
        // What is beyond the map lies on its upper edge.
        let (floor, ceiling) = (y.at(0.0), y.at(f64::MAX));
        for (index, column) in self.columns.iter().enumerate() {
            let (left, right) = (x.at(index as f64), x.at(index as f64 + 1.0));
            let waits = place(column.no_waits);
            let hard = place(column.keeps_up.map(|[least, _]| least));
            let often = place(column.keeps_up.map(|[_, most]| most));
            for (name, style, from, to) in [
                (Region::Waits, "waiting", floor, waits),
                (Region::RunsHard, "fair", waits, hard),
                (Region::KeepsUp, "does", hard, often),
                (Region::RunsHard, "fair", often, ceiling),
            ] {
                if from - to > 0.05 {
                    let rect = [left, to, right - left, from - to];
                    chart.bands.push(Band {
                        name: told(name).into(),
                        style: style.into(),
                        rect,
                    });
                }
            }
        }
        if let Some(fed) = self
            .basis
            .places
            .iter()
            .map(|place| (flow_fed(place)[1], &place.name))
            .min_by(|a, b| a.0.as_m3_s().total_cmp(&b.0.as_m3_s()))
        {
            let at = place(Some(fed.0));
            let text = format!("most that “{}” feeds {}", fed.1, words.flow(fed.0));
            chart.labels.push(Label {
                text: text.clone(),
                style: "limit".into(),
                at: [frame.plot[0] + frame.plot[2], at + 11.0],
            });
            chart.strokes.push(frame.level(text, "limit", at));
        }
        if let Some(window) = self.window {
            let at = [x.at(along(window.tank_m3)), place(Some(window.flow))];
            chart.labels.push(Label {
                text: "look for".into(),
                style: "point".into(),
                at,
            });
        }
        for (index, (_, flow, tank)) in self.candidates().into_iter().enumerate() {
            let at = [x.at(along(tank)), place(Some(flow))];
            chart.labels.push(Label {
                text: number(index as f64 + 1.0, 0),
                style: "point".into(),
                at,
            });
        }
        chart.title = "Flow against tank".into();
        chart.summary = self.summary();
        chart.head = vec![
            "tank".into(),
            "no waits from".into(),
            "keeps up from".into(),
            "to".into(),
        ];
        let written =
            |flow: Option<FreeAir>| flow.map_or_else(|| "none on this map".into(), |flow| words.flow(flow));
        let row = |column: &Column| {
            let [least, most] = [0, 1].map(|end| column.keeps_up.map(|flows| flows[end]));
            vec![
                words.volume(column.tank_m3),
                written(column.no_waits),
                written(least),
                written(most),
            ]
        };
        chart.rows = self.columns.iter().map(row).collect();
        chart
    }

    fn summary(&self) -> String {
        let words = self.words;
        let said: Vec<String> = self
            .columns
            .iter()
            .filter(|column| {
                [6.0, 20.0, 60.0]
                    .iter()
                    .any(|gal| (column.tank_m3 / M3_PER_GALLON - gal).abs() < 0.1)
            })
            .filter_map(|column| {
                Some(format!(
                    "{} with {}",
                    words.flow(column.keeps_up?[0]),
                    words.volume(column.tank_m3)
                ))
            })
            .collect();
        if said.is_empty() {
            return "No usual machine keeps up with all of these tasks.".into();
        }
        format!(
            "All tasks keep up at all places from {}.",
            super::words::listed(&said)
        )
    }

    fn findings(&self) -> Vec<Finding> {
        let words = self.words;
        let finding = |(index, (name, flow, tank)): (usize, (String, FreeAir, f64))| {
            let region = column_of(self.columns, tank)?.region(flow);
            Some(Finding {
                id: format!("point-{}", index + 1),
                grade: match region {
                    Region::KeepsUp => Grade::Good,
                    Region::RunsHard => Grade::Fair,
                    Region::Waits => Grade::Poor,
                },
                text: format!(
                    "{}: {name}, {} on {}: {}.",
                    index + 1,
                    words.flow(flow),
                    words.volume(tank),
                    told(region)
                ),
                basis: "read off the map at the next smaller tank of the list; its own verdict counts".into(),
                remedies: Vec::new(),
            })
        };
        self.candidates()
            .into_iter()
            .enumerate()
            .filter_map(finding)
            .collect()
    }
}

/// The section with the map.
pub fn section(words: Words, basis: &Basis, columns: &[Column], window: Option<&Window>) -> Section {
    let plot = Plot {
        words,
        basis,
        columns,
        window,
    };
    let chart = (!columns.is_empty()).then(|| plot.chart());
    Section {
        id: "map".into(),
        title: "The map: flow against tank".into(),
        grade: Grade::Note,
        sentence: plot.summary(),
        findings: plot.findings(),
        chart,
        ..Section::default()
    }
}
