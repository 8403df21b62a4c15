//! How sure the verdict is, told: counts of draws, and what would settle it.

use super::chart::{Frame, points};
use super::words::{Words, capital};
use crate::report::{Axis, Chart, Figure, Finding, Grade, Label, Section, Stroke, Told};
use judge::assess::Facts;
use judge::basis::Basis;
use judge::verdict::{Grounds, Record, Spread, Unknown, Verdict, Which, tenths};
use quantity::{FreeAir, Gauge, Kind, number};

/// Rows drawn; the table has all.
const DRAWN: usize = 8;
/// Height of a row, in chart units: a line of words and its bar.
const ROW: f64 = 38.0;
/// An unknown that settles so much settles it by itself.
const DECIDES: f64 = 0.5;

/// What the odds of the chosen machine rest on, in words.
pub fn told(words: Words, basis: &Basis, facts: &Facts) -> Told {
    let Some(verdict) = &facts.verdict else {
        return nothing();
    };
    let teller = Teller {
        words,
        basis,
        facts,
        verdict,
    };
    Told {
        sentence: teller.sentence(),
        section: teller.section(),
    }
}

pub fn nothing() -> Told {
    Told {
        sentence: String::new(),
        section: Section {
            id: "doubt".into(),
            title: "How sure is this?".into(),
            sentence: "No flow that can be believed, no place or no task: there is no verdict to doubt yet."
                .into(),
            ..Section::default()
        },
    }
}

fn count(figure: usize) -> String {
    number(figure as f64, 0)
}

struct Teller<'a> {
    words: Words,
    basis: &'a Basis,
    facts: &'a Facts,
    verdict: &'a Verdict,
}

impl Teller<'_> {
    fn task(&self, task: usize) -> &str {
        self.basis.tasks.get(task).map_or("", |task| &task.name)
    }

    fn place(&self, place: usize) -> &str {
        self.basis.places.get(place).map_or("", |place| &place.name)
    }

    fn unknown(&self, index: usize) -> Option<&Unknown> {
        self.verdict.unknowns.get(index)
    }

    /// What the draws say of everything together.
    fn verdict(&self) -> String {
        let of_ten = |count: usize| tenths(count, self.verdict.draws);
        let (done, unwaited) = (of_ten(self.verdict.all_done), of_ten(self.verdict.all_unwaited));
        match (done, unwaited) {
            (10, 10) => "Out of 10 shops like yours, none waits on air.".into(),
            (done, unwaited) if done == unwaited => format!(
                "Out of 10 shops like yours, {done} never wait to speak of and {} wait too long for some job.",
                10 - done
            ),
            (done, unwaited) => format!(
                "Out of 10 shops like yours, {unwaited} never wait to speak of, {} wait some, and {} wait too long for some job.",
                done - unwaited,
                10 - done
            ),
        }
    }

    /// For beside the headline.
    fn sentence(&self) -> String {
        let first = self.verdict.drivers.first();
        let Some((unknown, share)) =
            first.and_then(|first| Some((self.unknown(first.unknown)?, first.share)))
        else {
            return self.verdict();
        };
        let decides = if share >= DECIDES {
            format!("{} decides", capital(&self.name(unknown.which)))
        } else {
            "To know more".into()
        };
        format!("{} {decides}: {}.", self.verdict(), self.action(unknown))
    }

    /// What an unknown is called in the middle of a sentence.
    fn name(&self, which: Which) -> String {
        match which {
            Which::Flow => "the machine’s flow".into(),
            Which::Tank => "its tank".into(),
            Which::CutIn => "its cut-in".into(),
            Which::CutOut => "its cut-out".into(),
            Which::Leak => "what leaks".into(),
            Which::Weather => "altitude and weather".into(),
            Which::Heat => "the day’s heat".into(),
            Which::Trigger => "your seconds on the trigger".into(),
            Which::Spell => "how long you work at a stretch".into(),
            Which::Pause => "your pauses".into(),
            Which::Lowest => "the pressure that your tools need".into(),
            Which::Tool(task) => format!("what “{}” takes", self.task(task)),
        }
    }

    /// What to do to know it.
    fn action(&self, unknown: &Unknown) -> String {
        match (unknown.which, unknown.grounds) {
            (Which::Flow, Grounds::Measured) => "time more pump-ups, with a better gauge".into(),
            (Which::Flow, Grounds::FromSuction | Grounds::FromAmps | Grounds::FromHorsepower) => {
                "find it on the plate, or time a pump-up".into()
            }
            (Which::Flow, _) => "time a pump-up with the clock below its plate".into(),
            (Which::Tank, _) => "read its volume off the code plate".into(),
            (Which::CutIn, _) => "read the gauge as the motor starts".into(),
            (Which::CutOut, _) => "read the gauge as the motor stops".into(),
            (Which::Leak, _) => "time a leak-down".into(),
            (Which::Weather, Grounds::Typical) => "type the altitude".into(),
            (Which::Weather, _) => "keep a margin for it".into(),
            (Which::Heat, Grounds::Typical) => "type how warm it gets there".into(),
            (Which::Heat, _) => "keep a margin for hot days".into(),
            (Which::Trigger, _) => "time your own pulls of the trigger".into(),
            (Which::Spell, _) => "time a few stretches of work".into(),
            (Which::Pause, _) => "time a few of your pauses".into(),
            (Which::Lowest, _) => "turn the regulator down until the tool is too weak and read it".into(),
            (Which::Tool(task), Grounds::Given) => {
                format!("time “{}” on a full tank with the motor off", self.task(task))
            }
            (Which::Tool(task), _) => format!("read off the tool’s sheet what “{}” takes", self.task(task)),
        }
    }

    /// What its range rests on.
    fn grounds(&self, unknown: &Unknown) -> &'static str {
        const PRACTICE: &str = "common practice, no source";
        match (unknown.which, unknown.grounds) {
            (_, Grounds::Measured) => "what was timed, and how far clock, gauge and tank may be off",
            (_, Grounds::OneFlow) => {
                "one flow and no test named: labels promise up to a fifth too much; common practice, no source"
            }
            (_, Grounds::TwoFlows) => "two flows that agree; common practice, no source",
            (_, Grounds::Contradiction) => {
                "two flows that contradict each other: the lower promise, and less; common practice, no source"
            }
            (_, Grounds::Unlikely) => "a flow that is unlikely for its amps; common practice, no source",
            (_, Grounds::FromSuction) => "a guess from what the pump takes in",
            (_, Grounds::FromAmps) => "a guess from amps",
            (_, Grounds::FromHorsepower) => "a guess from horsepower",
            (Which::CutIn | Which::CutOut, Grounds::Given) => "the error of a small gauge; from memory",
            (Which::Weather, Grounds::Given) => "15 hPa either way on most days; from memory",
            (Which::Tool(task), _) => self.basis.tasks.get(task).map_or(PRACTICE, |task| task.source),
            _ => PRACTICE,
        }
    }

    /// The range in the user's units.
    fn range(&self, unknown: &Unknown) -> String {
        let words = self.words;
        let Some(spread) = self.widest(unknown) else {
            return String::new();
        };
        let ends = |write: &dyn Fn(f64) -> String| format!("{} to {}", write(spread.low), write(spread.high));
        let factor = |value: f64| number(value, 2);
        match unknown.which {
            Which::Flow => {
                let at = Gauge::psi(90.0);
                let pump = self.facts.supply.likely();
                let likely = pump.map_or(0.0, |pump| pump.rated(at).as_m3_s());
                let flow = |value: f64| words.flow(FreeAir::m3_s(value * likely));
                format!("{} at {}", ends(&flow), words.pressure(at))
            }
            Which::Tank => ends(&|value| words.volume(value)),
            Which::CutIn | Which::CutOut => ends(&|value| words.pressure(Gauge::pa(value))),
            Which::Leak => ends(&|value| self.leak(value)),
            Which::Weather => ends(&|value| words.of(Kind::StationPressure, value)),
            Which::Heat => ends(&|value| words.of(Kind::Temperature, (value * 10.0).round() / 10.0)),
            Which::Trigger | Which::Spell | Which::Pause => format!("{} times", ends(&factor)),
            Which::Lowest => {
                let pressure = words.pressure(Gauge::pa(spread.high));
                format!("up to {pressure} more or less")
            }
            Which::Tool(task) => {
                let Some(task) = self.basis.tasks.get(task) else {
                    return String::new();
                };
                if task.kind.by_stroke() {
                    format!("{} times", ends(&factor))
                } else {
                    ends(&|value| words.flow(FreeAir::m3_s(value * task.flow.as_m3_s())))
                }
            }
        }
    }

    /// A leak as free air with the tank full.
    fn leak(&self, kg_s_pa: f64) -> String {
        let candidate = self.basis.candidates.get(self.basis.chosen);
        let place = self.basis.places.first();
        let flow = candidate.zip(place).map_or(0.0, |(candidate, place)| {
            let full_pa = candidate.cut_out.at(place.air.pressure()).as_pa();
            kg_s_pa * full_pa / place.air.density().value
        });
        self.words.of(Kind::Flow, flow)
    }

    /// Of a range for each place or task the widest that counts.
    fn widest(&self, unknown: &Unknown) -> Option<Spread> {
        let by_task = matches!(
            unknown.which,
            Which::Trigger | Which::Spell | Which::Pause | Which::Lowest
        );
        let counts = |index: &usize| !by_task || self.basis.tasks.get(*index).is_some_and(|task| task.on);
        let spreads = unknown.spreads.iter().enumerate();
        let wide = |spread: &Spread| spread.high - spread.low;
        spreads
            .filter(|(index, _)| counts(index))
            .map(|(_, spread)| *spread)
            .max_by(|one, other| wide(one).total_cmp(&wide(other)))
    }

    fn counted(&self) -> Finding {
        let verdict = self.verdict;
        Finding {
            id: "counted".into(),
            grade: Grade::Note,
            text: format!(
                "Of {} tries every job is done in {}, with less than 5 minutes of waiting in the hour; in {} nobody waits to speak of, less than 2.",
                count(verdict.draws),
                count(verdict.all_done),
                count(verdict.all_unwaited)
            ),
            basis: "each try is one machine, one day, one pair of hands and one set of tools from the ranges below, three hours at each task at every place".into(),
            ..Finding::default()
        }
    }

    fn settles(&self) -> Vec<Finding> {
        let worst = self.verdict.worst().map_or("", |record| self.task(record.task));
        let drivers = self.verdict.drivers.iter().take(4);
        let mut findings: Vec<Finding> = drivers
            .filter_map(|driver| {
                let unknown = self.unknown(driver.unknown)?;
                Some(Finding {
                    id: "settles".into(),
                    grade: Grade::Note,
                    text: format!(
                        "Knowing {} would take away about {} of the doubt about {}: {}.",
                        self.name(unknown.which),
                        self.words.share((driver.share * 20.0).round() / 20.0),
                        worst,
                        self.action(unknown)
                    ),
                    basis: format!("{}: {}", self.range(unknown), self.grounds(unknown)),
                    ..Finding::default()
                })
            })
            .collect();
        let together: f64 = self.verdict.drivers.iter().map(|driver| driver.share).sum();
        if !findings.is_empty() && together < DECIDES {
            findings.push(Finding {
                id: "together".into(),
                grade: Grade::Note,
                text: "No single figure settles it: the unknowns act together.".into(),
                ..Finding::default()
            });
        }
        findings
    }

    fn section(&self) -> Section {
        let (done, draws) = (self.verdict.all_done, self.verdict.draws);
        let is_sure = done.max(draws - done) * 20 >= draws * 19;
        let mut findings = vec![self.counted()];
        findings.extend(self.settles());
        findings.push(Finding {
            id: "left-out".into(),
            grade: Grade::Note,
            text: "Not in these ranges: a worn or damaged machine, a wrong label beyond them, volts that sag, a line other than the one typed. The power is judged apart. So not even every draw is a promise.".into(),
            ..Finding::default()
        });
        let figures = self.verdict.unknowns.iter().map(|unknown| Figure {
            name: match unknown.which {
                Which::Tool(task) => format!("“{}” takes", self.task(task)),
                which => capital(&self.name(which)),
            },
            value: self.range(unknown),
            ..Figure::default()
        });
        Section {
            id: "doubt".into(),
            title: "How sure is this?".into(),
            grade: if is_sure { Grade::Note } else { Grade::Unsure },
            sentence: self.verdict(),
            findings,
            figures: figures.collect(),
            chart: self.chart(),
            ..Section::default()
        }
    }

    /// Rows in doubt, the hardest first.
    fn doubtful(&self) -> Vec<&Record> {
        let in_doubt = |row: &&Record| parts(row)[0] < row.draws;
        let mut rows: Vec<&Record> = self.verdict.records.iter().filter(in_doubt).collect();
        quantity::order::by_key(&mut rows, |row| (row.done, row.unwaited));
        rows
    }

    fn title(&self, row: &Record) -> String {
        let task = cut(self.task(row.task), 26);
        if self.basis.places.len() > 1 {
            format!("{task}, {}", cut(self.place(row.place), 10))
        } else {
            task
        }
    }

    fn chart(&self) -> Option<Chart> {
        let rows = self.doubtful();
        let drawn = rows.get(..rows.len().min(DRAWN))?;
        let height = ROW * drawn.len() as f64 + 6.0;
        let frame = Frame {
            size: [360.0, height],
            plot: [0.0, 0.0, 360.0, height],
        };
        let draws = self.verdict.draws;
        let across = frame.x((0.0, draws as f64));
        let mut chart = frame.chart(("", Vec::new()), ("", Vec::new()));
        for (index, row) in drawn.iter().enumerate() {
            let foot = ROW * (index as f64 + 1.0) - 7.0;
            chart.labels.push(Label {
                text: format!("{}: {}", self.title(row), first_part(row)),
                style: "above".into(),
                at: [4.0, foot - 8.0],
            });
            let mut from = 0;
            for ((name, style), part) in BARS.into_iter().zip(parts(row)) {
                let to = from + part;
                if to > from {
                    let ends = [from, to].map(|edge| (across.at(edge as f64), foot));
                    chart.strokes.push(Stroke {
                        name: name.into(),
                        style: style.into(),
                        points: points(ends.into_iter()),
                    });
                }
                from = to;
            }
        }
        chart.y = Axis::default();
        chart.title = format!("Of {} draws, task by task", count(draws));
        chart.summary = match (drawn.is_empty(), rows.len() < self.verdict.records.len()) {
            (true, _) => return None,
            (_, true) => {
                "Drawn are the tasks that somebody waits for in some try; nobody waits for the others.".into()
            }
            _ => "The hardest first.".into(),
        };
        chart.head = [
            "task",
            "place",
            "no wait",
            "short waits",
            "too long",
            "wait in the hour",
        ]
        .map(String::from)
        .into();
        chart.rows = self.verdict.records.iter().map(|row| self.cells(row)).collect();
        Some(chart)
    }

    fn cells(&self, row: &Record) -> Vec<String> {
        let [none, short, long] = parts(row).map(count);
        let [least, _, most] = row.minutes.map(|minutes| number(minutes.round(), 0));
        vec![
            self.task(row.task).to_owned(),
            self.place(row.place).to_owned(),
            none,
            short,
            long,
            if least == most {
                format!("{least} min")
            } else {
                format!("{least} to {most} min")
            },
        ]
    }
}

/// A name that fits above its bar.
fn cut(name: &str, most: usize) -> String {
    if name.chars().count() <= most {
        return name.to_owned();
    }
    let kept: String = name.chars().take(most - 1).collect();
    format!("{}…", kept.trim_end())
}

/// Name and style of each part of a bar.
const BARS: [(&str, &str); 3] = [
    ("no wait", "bar keeps"),
    ("short waits", "bar waits"),
    ("too long", "bar not"),
];

/// Draws in which nobody waits to speak of, in which the waits are borne, and in which they are too long.
fn parts(row: &Record) -> [usize; 3] {
    let none = row.unwaited.min(row.done);
    [none, row.done - none, row.draws - row.done]
}

/// "no wait 52", or what comes next where there is none of that.
fn first_part(row: &Record) -> String {
    let mut named = BARS.into_iter().zip(parts(row));
    named
        .find(|(_, part)| *part > 0)
        .map_or_else(String::new, |((name, _), part)| format!("{name} {}", count(part)))
}
