//! How sure the verdict is, told: counts of draws, and what would settle it.

use super::chart::{Frame, points};
use super::words::{Words, capital};
use crate::report::{Axis, Chart, Figure, Finding, Grade, Label, Section, Stroke, Told};
use judge::basis::Basis;
use judge::doubt::{About, Class, DRAWS, Doubt, Found, Grounds, Row, Shares, Spread, Unknown, Which};
use quantity::{FreeAir, Gauge, Kind, number};
use shop::Shop;

/// Machines whose draws are kept, so that going back to one costs nothing.
const KEPT: usize = 6;
/// Rows drawn; the table has all.
const DRAWN: usize = 8;
/// Height of a row, in chart units: a line of words and its bar.
const ROW: f64 = 38.0;
/// An unknown that settles so much settles it by itself.
const DECIDES: f64 = 0.5;

/// The draws of the machines that were looked at last.
#[derive(Default)]
pub struct Draws {
    basis: Option<Basis>,
    /// The last asked for comes first.
    kept: Vec<Doubt>,
}

impl Draws {
    /// Takes up the chosen machine of a shop; false where there is nothing to draw.
    pub fn start(&mut self, shop: &Shop) -> bool {
        let basis = Basis::of(shop);
        let held = self
            .kept
            .iter()
            .position(|doubt| doubt.holds(&basis, basis.chosen));
        let found = match held {
            Some(index) => Some(self.kept.remove(index)),
            None => Doubt::new(&basis, basis.chosen, DRAWS),
        };
        let begun = found.is_some();
        self.kept.truncate(KEPT - 1);
        if let Some(doubt) = found {
            self.kept.insert(0, doubt);
        }
        self.basis = begun.then_some(basis);
        begun
    }

    /// Judges at most so many draws of what was started; true once all are judged.
    pub fn step(&mut self, most: usize) -> bool {
        match (&self.basis, self.kept.first_mut()) {
            (Some(_), Some(doubt)) => doubt.step(most),
            _ => true,
        }
    }

    /// What the draws say, in words; nothing sure before all are judged.
    pub fn told(&self) -> Told {
        let told = |basis: &Basis, doubt: &Doubt| {
            let teller = Teller {
                words: Words::new(basis),
                basis,
                doubt,
                found: doubt.found(),
            };
            Told {
                sentence: teller.sentence(),
                section: teller.section(),
            }
        };
        match (&self.basis, self.kept.first()) {
            (Some(basis), Some(doubt)) if doubt.done() > 0 => told(basis, doubt),
            _ => nothing(),
        }
    }
}

fn nothing() -> Told {
    Told {
        sentence: String::new(),
        section: Section {
            id: "doubt".into(),
            title: "How sure".into(),
            sentence: "No flow that can be believed, no place or no task: there is no verdict to doubt yet."
                .into(),
            ..Section::default()
        },
    }
}

/// A share in tenths, as one would say it.
pub(super) fn tenths(hits: usize, draws: usize) -> String {
    let share = hits as f64 / draws.max(1) as f64;
    if share < 0.05 {
        "in fewer than 1 of 20".into()
    } else if share > 0.95 {
        "in more than 19 of 20".into()
    } else {
        format!("in {} of 10", number((share * 10.0).round().clamp(1.0, 9.0), 0))
    }
}

fn count(figure: usize) -> String {
    number(figure as f64, 0)
}

struct Teller<'a> {
    words: Words,
    basis: &'a Basis,
    doubt: &'a Doubt,
    found: Found,
}

impl Teller<'_> {
    fn task(&self, task: usize) -> &str {
        self.basis.tasks.get(task).map_or("", |task| &task.name)
    }

    fn place(&self, place: usize) -> &str {
        self.basis.places.get(place).map_or("", |place| &place.name)
    }

    fn unknown(&self, index: usize) -> Option<&Unknown> {
        self.doubt.unknowns().get(index)
    }

    /// What the draws say of everything together.
    fn verdict(&self) -> String {
        let Shares {
            keeps,
            waits,
            will_not,
        } = self.found.whole;
        let all = self.found.whole.draws();
        const CASES: &str = "Machines, tools, days and hands differ";
        // What happens in fewer than one of a hundred is not worth a word here; the counts below have it.
        let fails = if will_not * 100 > all {
            format!(", and a task is beyond it {}", tenths(will_not, all))
        } else {
            String::new()
        };
        match (keeps, waits, will_not) {
            (keeps, _, _) if keeps == all => {
                format!("Its air keeps up in every one of {} draws.", count(all))
            }
            (0, waits, _) if waits == all => {
                format!("Somebody waits for air in every one of {} draws.", count(all))
            }
            (0, 0, _) => format!("Its air will not do in any of {} draws.", count(all)),
            (0, _, will_not) => format!(
                "{CASES}: somebody always waits, and a task is beyond it {}.",
                tenths(will_not, all)
            ),
            (keeps, waits, _) => format!(
                "{CASES}: nobody waits for air {}, somebody does {}{fails}.",
                tenths(keeps, all),
                tenths(waits, all)
            ),
        }
    }

    /// For beside the headline.
    fn sentence(&self) -> String {
        let first = self.found.drivers.first();
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
            (Which::Flow, Grounds::FromAmps | Grounds::FromHorsepower) => {
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
                let likely = self.doubt.pump().map_or(0.0, |pump| pump.rated(at).as_m3_s());
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
        let whole = self.found.whole;
        let (class, what) = if whole.keeps > 0 {
            (Class::Keeps, "it keeps up with everything")
        } else {
            (Class::WillNot, "there is a task that it will not do")
        };
        let (_, [low, high]) = whole.share(class);
        let per_cent = |share: f64, up: bool| {
            let share = share * 100.0;
            number(if up { share.ceil() } else { share.floor() }, 0)
        };
        Finding {
            id: "counted".into(),
            grade: Grade::Note,
            text: format!(
                "In {} of {} draws {what}; in {} somebody waits, in {} a task is beyond it. Drawing again, one would find {} to {} of 100.",
                count(whole.of(class)),
                count(whole.draws()),
                count(whole.waits),
                count(whole.will_not),
                per_cent(low, false),
                per_cent(high, true)
            ),
            basis: "each draw is one machine, one day, one pair of hands and one set of tools from the ranges below, judged task by task at every place".into(),
            ..Finding::default()
        }
    }

    fn settles(&self) -> Vec<Finding> {
        let about = match self.found.about {
            Some(About::Wait) => "how long one waits",
            _ => "this doubt",
        };
        let drivers = self.found.drivers.iter().take(4);
        let mut findings: Vec<Finding> = drivers
            .filter_map(|driver| {
                let unknown = self.unknown(driver.unknown)?;
                Some(Finding {
                    id: "settles".into(),
                    grade: Grade::Note,
                    text: format!(
                        "Knowing {} would take away about {} of {about}: {}.",
                        self.name(unknown.which),
                        self.words.share((driver.share * 20.0).round() / 20.0),
                        self.action(unknown)
                    ),
                    basis: format!("{}: {}", self.range(unknown), self.grounds(unknown)),
                    ..Finding::default()
                })
            })
            .collect();
        let together: f64 = self.found.drivers.iter().map(|driver| driver.share).sum();
        if self.found.about.is_some() && together < DECIDES {
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
        let whole = self.found.whole;
        let most = whole.keeps.max(whole.waits).max(whole.will_not);
        let mut findings = vec![self.counted()];
        findings.extend(self.settles());
        findings.push(Finding {
            id: "left-out".into(),
            grade: Grade::Note,
            text: "Not in these ranges: a worn or damaged machine, a wrong label beyond them, volts that sag, a line other than the one typed. The power is judged apart. So not even every draw is a promise.".into(),
            ..Finding::default()
        });
        let figures = self.doubt.unknowns().iter().map(|unknown| Figure {
            name: match unknown.which {
                Which::Tool(task) => format!("“{}” takes", self.task(task)),
                which => capital(&self.name(which)),
            },
            value: self.range(unknown),
            ..Figure::default()
        });
        Section {
            id: "doubt".into(),
            title: "How sure".into(),
            grade: if most * 20 >= whole.draws() * 19 {
                Grade::Note
            } else {
                Grade::Unsure
            },
            sentence: self.verdict(),
            findings,
            figures: figures.collect(),
            chart: self.chart(),
            ..Section::default()
        }
    }

    /// Rows in doubt, the hardest first.
    fn doubtful(&self) -> Vec<&Row> {
        let sure = |row: &&Row| row.shares.keeps < row.shares.draws();
        let mut rows: Vec<&Row> = self.found.rows.iter().filter(sure).collect();
        let rank = |row: &&Row| (row.shares.keeps, usize::MAX - row.shares.will_not);
        rows.sort_by_key(rank);
        rows
    }

    fn title(&self, row: &Row) -> String {
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
        let draws = self.found.whole.draws();
        let across = frame.x((0.0, draws as f64));
        let mut chart = frame.chart(("", Vec::new()), ("", Vec::new()));
        for (index, row) in drawn.iter().enumerate() {
            let foot = ROW * (index as f64 + 1.0) - 7.0;
            chart.labels.push(Label {
                text: format!("{}: {}", self.title(row), told(row.shares)),
                style: "above".into(),
                at: [4.0, foot - 8.0],
            });
            let mut from = 0;
            for (name, style, class) in BARS {
                let to = from + row.shares.of(class);
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
        chart.summary = match (drawn.is_empty(), rows.len() < self.found.rows.len()) {
            (true, _) => return None,
            (_, true) => {
                "Drawn are the tasks that somebody waits for in some draw; the others keep up in all.".into()
            }
            _ => "The hardest first.".into(),
        };
        chart.head = ["task", "place", "keeps up", "waits", "will not", "hangs on"]
            .map(String::from)
            .into();
        chart.rows = self.found.rows.iter().map(|row| self.cells(row)).collect();
        Some(chart)
    }

    fn cells(&self, row: &Row) -> Vec<String> {
        let driver = row.driver.and_then(|driver| self.unknown(driver.unknown));
        vec![
            self.task(row.task).to_owned(),
            self.place(row.place).to_owned(),
            count(row.shares.keeps),
            count(row.shares.waits),
            count(row.shares.will_not),
            driver.map_or_else(String::new, |unknown| self.name(unknown.which)),
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

/// Name, style and class of each part of a bar.
const BARS: [(&str, &str, Class); 3] = [
    ("keeps up", "bar keeps", Class::Keeps),
    ("waits", "bar waits", Class::Waits),
    ("will not do", "bar not", Class::WillNot),
];

/// "keeps up 520", or what comes next where it never does.
fn told(shares: Shares) -> String {
    let first = BARS.iter().find(|(_, _, class)| shares.of(*class) > 0);
    first.map_or_else(String::new, |(name, _, class)| {
        format!("{name} {}", count(shares.of(*class)))
    })
}
