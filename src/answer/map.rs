//! The map of flow against tank, drawn and told.

use super::chart::{Frame, Scale};
use super::tasks::{grade, verdict};
use super::words::{Words, listed};
use super::{carry, sound};
use crate::report::{Band, Chart, Finding, Grade, Label, Reading, Section, Tick};
use judge::assess::machine::Supply;
use judge::basis::{Basis, CandidateBasis};
use judge::map::{Column, FLOWS_CFM, Own, Region, along, own, worst_at};
use judge::power::flow_fed;
use judge::verdict::Record;
use judge::window::{MOVABLE_GAL, Window};
use quantity::{FreeAir, Gauge, Kind, M3_PER_GALLON, number};
use shop::Units;

/// A map as it was drawn: it is read at points afterwards.
#[derive(Debug)]
pub struct Drawn {
    /// Units.
    pub words: Words,
    /// The shop.
    pub basis: Basis,
    /// The borders.
    pub columns: Vec<Column>,
    /// What to look for.
    pub window: Option<Window>,
    /// The worst record of each candidate, where it has one.
    pub worst: Vec<Option<Record>>,
}

/// A machine on the map.
struct Point {
    /// Index of the candidate; `None` is the window.
    candidate: Option<usize>,
    flow: FreeAir,
    tank_m3: f64,
}

/// [`MOVABLE_GAL`] and a little, m³.
const MOVABLE_M3: f64 = MOVABLE_GAL * M3_PER_GALLON * 1.001;
/// A point is picked from within so many chart units: half a finger.
const REACH: f64 = 14.0;

/// That a machine's own verdict is not what is drawn at its point.
fn elsewhere(own: Option<Own>) -> &'static str {
    match own {
        Some(own) if own.contradicts() => {
            " A usual machine of that flow and tank would stand elsewhere: this one has its own switch, label or tank."
        }
        _ => "",
    }
}

fn told(region: Region) -> &'static str {
    match region {
        Region::Good => "does the job",
        Region::Waits => "expect to wait",
        Region::Small => "too small",
    }
}

impl Drawn {
    /// A flow in the user's unit.
    fn reading(&self, flow: FreeAir) -> f64 {
        match self.words.units {
            Units::Us => flow.as_cfm(),
            Units::Metric => flow.as_m3_s() * 60_000.0,
        }
    }

    /// The candidates that have both flow and tank.
    fn candidates(&self) -> Vec<Point> {
        let known = self.basis.candidates.iter().enumerate();
        known
            .filter(|(_, candidate)| candidate.tank_m3.is_given())
            .filter_map(|(index, candidate)| {
                let (supply, _) = Supply::of(candidate);
                let pump = supply.likely().filter(|_| supply.range().is_none())?;
                Some(Point {
                    candidate: Some(index),
                    flow: pump.rated(Gauge::psi(90.0)),
                    tank_m3: candidate.tank_m3.value,
                })
            })
            .collect()
    }

    fn points(&self) -> Vec<Point> {
        let window = self.window.as_ref().map(|window| Point {
            candidate: None,
            flow: window.flow,
            tank_m3: window.tank_m3,
        });
        self.candidates().into_iter().chain(window).collect()
    }

    /// Top of the map: what matters with some room above.
    fn top(&self) -> FreeAir {
        let window = self.window.as_ref().map_or(0.0, |window| window.flow.as_cfm());
        let most = self
            .candidates()
            .iter()
            .map(|point| point.flow.as_cfm())
            .fold(window, f64::max);
        FreeAir::cfm((1.3 * most).clamp(4.0, FLOWS_CFM[1]))
    }

    /// That the tightest circuit does not feed so much, where it does not.
    fn beyond_fed(&self, flow: FreeAir) -> String {
        let beyond = self.fed().filter(|(most, _)| flow > *most);
        beyond.map_or_else(String::new, |(most, name)| {
            format!(" “{name}” feeds no more than {}.", self.words.flow(most))
        })
    }

    fn scales(&self) -> [Scale; 2] {
        let frame = Frame::PHONE;
        [
            frame.x((0.0, self.columns.len() as f64)),
            frame.y((0.0, self.reading(self.top()))),
        ]
    }

    /// The circuit that feeds least: the most that it feeds, and its place.
    fn fed(&self) -> Option<(FreeAir, &str)> {
        let places = self.basis.places.iter();
        places
            .map(|place| (flow_fed(place)[1], place.name.as_str()))
            .min_by(|a, b| a.0.as_m3_s().total_cmp(&b.0.as_m3_s()))
    }

    fn chart(&self) -> Chart {
        let words = self.words;
        let frame = Frame::PHONE;
        let [x, y] = self.scales();
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
            let (waits, good) = (place(column.waits), place(column.good));
            for (name, style, from, to) in [
                (Region::Small, "waiting", floor, waits),
                (Region::Waits, "fair", waits, good),
                (Region::Good, "does", good, ceiling),
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
        if let Some((flow, name)) = self.fed() {
            let at = place(Some(flow));
            let text = format!("most that “{name}” feeds {}", self.words.flow(flow));
            chart.labels.push(Label {
                text: format!("“{name}” feeds {}", self.words.flow(flow)),
                style: "limit".into(),
                at: [frame.plot[0] + frame.plot[2], at + 11.0],
            });
            chart.strokes.push(frame.level(text, "limit", at));
        }
        if let Some(movable) = self.columns.iter().position(|column| column.tank_m3 > MOVABLE_M3) {
            let at = x.at(movable as f64);
            chart.labels.push(Label {
                text: "two move it".into(),
                style: "need".into(),
                at: [at, floor - 5.0],
            });
            let text = format!(
                "largest tank that two people still move {}",
                words.volume(MOVABLE_GAL * M3_PER_GALLON)
            );
            chart.strokes.push(frame.upright(text, "need", at));
        }
        chart.labels.extend(region_words(&chart.bands));
        for point in self.points() {
            chart.labels.push(Label {
                text: point
                    .candidate
                    .map_or_else(|| "look for".into(), |index| number(index as f64 + 1.0, 0)),
                style: "point".into(),
                at: [x.at(along(point.tank_m3)), place(Some(point.flow))],
            });
        }
        chart.title = "Flow against tank".into();
        chart.summary = format!(
            "{} It is drawn for a usual machine of one stage; of a machine on it, its own verdict counts.",
            self.summary()
        );
        chart.head = vec![
            "tank".into(),
            "with waits from".into(),
            "does the job from".into(),
        ];
        let written =
            |flow: Option<FreeAir>| flow.map_or_else(|| "none on this map".into(), |flow| words.flow(flow));
        let row = |column: &Column| {
            vec![
                words.volume(column.tank_m3),
                written(column.waits),
                written(column.good),
            ]
        };
        chart.rows = self.columns.iter().map(row).collect();
        chart
    }

    /// The least flow for a small tank, a usual one and a large one; tanks that ask for the same flow go by the smallest.
    fn summary(&self) -> String {
        let words = self.words;
        let mut said: Vec<(String, String)> = Vec::new();
        for gal in [6.0, 20.0, 60.0] {
            let column = self
                .columns
                .iter()
                .find(|column| (column.tank_m3 / M3_PER_GALLON - gal).abs() < 0.1);
            let Some(least) = column.and_then(|column| column.good) else {
                continue;
            };
            let flow = words.flow_enough(least);
            match said.last_mut() {
                Some((known, tank)) if *known == flow => tank.push_str(" or more"),
                _ => said.push((flow, words.volume(gal * M3_PER_GALLON))),
            }
        }
        if said.is_empty() {
            return "No usual machine does all of these jobs.".into();
        }
        let said: Vec<String> = said
            .into_iter()
            .map(|(flow, tank)| format!("{flow} with {tank}"))
            .collect();
        format!(
            "All of these jobs are done, in 8 of 10 shops or more, from {}.",
            listed(&said)
        )
    }

    /// What sound, weight and money say of a candidate, as they hang on the machine and not on flow and tank.
    fn limits(&self, candidate: &CandidateBasis) -> String {
        let (words, limits) = (self.words, &self.basis.limits);
        let over = |value: Option<f64>, limit: Option<f64>| {
            let (value, limit) = value.zip(limit)?;
            (value > limit).then_some(limit)
        };
        let loud = over(sound::loudest_db(&self.basis, candidate), limits.loudest_dba)
            .map(|limit| format!("louder indoors than {}", words.of(Kind::SoundLevel, limit)));
        let dear = over(candidate.price, limits.budget)
            .map(|limit| format!("over the budget of {}", words.of(Kind::Money, limit)));
        let heavy = carry::stays(&self.basis, candidate).then(|| "heavier than two people lift".to_owned());
        let beyond: Vec<String> = [loud, dear, heavy].into_iter().flatten().collect();
        if beyond.is_empty() {
            return String::new();
        }
        format!(" It is {}.", listed(&beyond))
    }

    /// A machine's own verdict against what is drawn at its point.
    fn own(&self, point: &Point) -> Option<Own> {
        let record = (*self.worst.get(point.candidate?)?)?;
        own(&self.columns, &record, point.flow, point.tank_m3)
    }

    fn findings(&self) -> Vec<Finding> {
        let words = self.words;
        let finding = |point: Point| {
            let index = point.candidate?;
            let candidate = &self.basis.candidates[index];
            let own = self.own(&point);
            let column = self.columns.get(along(point.tank_m3) as usize)?;
            let region = own.map_or(column.region(point.flow), |own| own.region);
            let fed = self.beyond_fed(point.flow);
            let other = elsewhere(own);
            Some(Finding {
                id: format!("point-{}", index + 1),
                grade: match region {
                    Region::Good if fed.is_empty() => Grade::Good,
                    Region::Good => Grade::Fair,
                    Region::Waits => Grade::Poor,
                    Region::Small => Grade::Bad,
                },
                text: format!(
                    "{}: {}, {} on {}: {}.{other}{fed}{}",
                    index + 1,
                    candidate.name,
                    words.flow(point.flow),
                    words.volume(point.tank_m3),
                    told(region),
                    self.limits(candidate)
                ),
                basis: String::new(),
                remedies: Vec::new(),
            })
        };
        self.candidates().into_iter().filter_map(finding).collect()
    }

    /// The section with the map.
    pub fn section(&self) -> Section {
        let chart = (!self.columns.is_empty()).then(|| self.chart());
        Section {
            id: "map".into(),
            title: "The map: flow against tank".into(),
            grade: Grade::Note,
            sentence: self.summary(),
            findings: self.findings(),
            chart,
            ..Section::default()
        }
    }

    /// What the map says at a point: of the machine near it, or of the flow and tank there.
    pub fn pick(&self, at: [f64; 2]) -> Option<Reading> {
        let [x, y] = self.scales();
        let apart = |point: &Point| {
            let [across, up] = [x.at(along(point.tank_m3)), y.at(self.reading(point.flow))];
            (across - at[0]).hypot(up - at[1])
        };
        let near = self
            .points()
            .into_iter()
            .min_by(|one, other| apart(one).total_cmp(&apart(other)));
        match near.filter(|point| apart(point) < REACH) {
            Some(point) => self.read(&point),
            None => self.step(at, 0, 0),
        }
    }

    /// What the map says at the tank of the list and the round flow so many steps from a point.
    pub fn step(&self, at: [f64; 2], right: i32, up: i32) -> Option<Reading> {
        let [x, y] = self.scales();
        let last = self.columns.len().checked_sub(1)? as f64;
        let column = (x.value(at[0]).floor() + f64::from(right)).max(0.0).min(last);
        let (step, unit) = match self.words.units {
            Units::Us => (0.1, FreeAir::cfm(1.0)),
            Units::Metric => (5.0, FreeAir::m3_s(1.0 / 60_000.0)),
        };
        let most = (self.reading(self.top()) / step).floor();
        let steps = ((y.value(at[1]) / step).round() + f64::from(up))
            .max(1.0)
            .min(most.max(1.0));
        self.read(&Point {
            candidate: None,
            flow: FreeAir::m3_s(steps * step * unit.as_m3_s()),
            tank_m3: self.columns.get(column as usize)?.tank_m3,
        })
    }

    fn read(&self, point: &Point) -> Option<Reading> {
        let words = self.words;
        let [x, y] = self.scales();
        let record = match point.candidate.and_then(|index| *self.worst.get(index)?) {
            // A machine has its own switch and label.
            Some(record) => record,
            None => worst_at(&self.basis, point.flow, point.tank_m3)?,
        };
        let does = format!(
            "“{}” at “{}”: {}, done in {} of 10 shops",
            self.basis.tasks[record.task].name,
            self.basis.places[record.place].name,
            verdict(&record),
            record.done_tenths()
        );
        let who = point.candidate.map_or_else(String::new, |index| {
            format!("{}: ", self.basis.candidates[index].name)
        });
        let mut text = format!(
            "{who}{} on {}: {does}.",
            words.flow(point.flow),
            words.volume(point.tank_m3)
        );
        text.push_str(&self.beyond_fed(point.flow));
        match point.candidate {
            Some(index) => {
                text.push_str(elsewhere(self.own(point)));
                text.push_str(&self.limits(&self.basis.candidates[index]));
            }
            None if point.tank_m3 > MOVABLE_M3 => text.push_str(" Two people do not move such a tank."),
            None => {}
        }
        Some(Reading {
            at: [x.at(along(point.tank_m3)), y.at(self.reading(point.flow))],
            grade: grade(&record),
            text,
        })
    }
}

/// A word in the midst of the taller columns of each region.
fn region_words(bands: &[Band]) -> Vec<Label> {
    let mut named: Vec<&str> = Vec::new();
    for band in bands {
        if !named.contains(&band.name.as_str()) {
            named.push(&band.name);
        }
    }
    let label = |name: &str| {
        let of_name = || bands.iter().filter(|band| band.name == name);
        let tallest = of_name().map(|band| band.rect[3]).fold(0.0, f64::max);
        let tall: Vec<&Band> = of_name().filter(|band| band.rect[3] > 0.6 * tallest).collect();
        let [left, top, width, height] = tall[tall.len() / 2].rect;
        Label {
            text: name.into(),
            style: "middle".into(),
            at: [left + 0.5 * width, top + 0.4 * height],
        }
    };
    named.into_iter().map(label).collect()
}
