//! What the page is handed: sentences, figures as text, charts as coordinates. The page only places it.

use std::borrow::Cow;

use serde::{Serialize, Serializer};
use shop::change::Change;
use shop::change::Fault;
use tsify::Tsify;

/// How good or bad something is. The page gives each a mark and a word as well as a colour.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// Nothing to say against it.
    Good,
    /// A fact to know; no judgement.
    #[default]
    Note,
    /// Not enough is known to judge.
    Unsure,
    /// It works, but something suffers.
    Fair,
    /// It works only with waiting, or barely.
    Poor,
    /// It does not do.
    Bad,
}

/// The smallest change that mends a finding.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Tsify)]
pub struct Remedy {
    /// What it is, e.g. "a 12 AWG cord".
    pub label: String,
    /// What it sets.
    pub changes: Vec<Change>,
}

/// One fact that matters.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Tsify)]
pub struct Finding {
    /// Stable name, for tests and links.
    pub id: String,
    /// How it stands.
    pub grade: Grade,
    /// The fact with its figure, and what to do.
    pub text: String,
    /// What it rests on.
    pub basis: String,
    /// What would mend it.
    pub remedies: Vec<Remedy>,
}

/// How a figure comes about.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Tsify)]
pub struct Sum {
    /// A statement a line, the figure's own first; a line without "=" is a remark.
    pub equation: &'static str,
    /// What went in: "symbol, meaning" or a name alone, and the figure in the user's units.
    pub put_in: Vec<(Cow<'static, str>, String)>,
    /// Standard or handbook; "common practice, no source"; "from memory".
    pub source: &'static str,
    /// What it does not count.
    pub leaves_out: &'static str,
}

/// A name and a figure. Its sum stays here until the page asks for it: the page is told whether there is one.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Tsify)]
pub struct Figure {
    /// What it is.
    pub name: String,
    /// The figure with its unit.
    pub value: String,
    /// How it comes about.
    #[serde(serialize_with = "whether")]
    #[tsify(type = "boolean")]
    pub sum: Option<Sum>,
}

/// What the machine does for one task at one place.
#[derive(Clone, Debug, PartialEq, Serialize, Tsify)]
pub struct TaskRow {
    /// Index of the task in the shop.
    pub task: usize,
    /// Its name.
    pub name: String,
    /// How it stands.
    pub grade: Grade,
    /// The verdict in a few words: "no wait", "wait 12 min an hour".
    pub verdict: String,
    /// Somebody waits, or nothing can be said of it.
    pub waits: bool,
    /// The reason, as a sentence.
    pub sentence: String,
    /// Longest trigger, recovery, running share, starts, pressure at the tool.
    pub figures: Vec<Figure>,
}

/// What the machine does at one place.
#[derive(Clone, Debug, PartialEq, Serialize, Tsify)]
pub struct PlaceRows {
    /// The place's name.
    pub name: String,
    /// The worst grade here, tasks and circuit taken together.
    pub grade: Grade,
    /// One sentence about this place.
    pub sentence: String,
    /// The air there.
    pub air: Figure,
    /// The circuit's verdict.
    pub circuit: Finding,
    /// A row for each task that is on.
    pub tasks: Vec<TaskRow>,
}

/// One subject of the answer: findings, figures, perhaps a chart.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
pub struct Section {
    /// Stable name: `label`, `power`, `line`, `water`, ...
    pub id: String,
    /// Its heading.
    pub title: String,
    /// The worst grade in it.
    pub grade: Grade,
    /// What the choice comes down to; blank where there is nothing to compare.
    pub sentence: String,
    /// What was found.
    pub findings: Vec<Finding>,
    /// The figures behind it.
    pub figures: Vec<Figure>,
    /// A picture of it.
    pub chart: Option<Chart>,
    /// Cautions that belong here.
    pub cautions: Vec<String>,
}

/// A mark on an axis.
#[derive(Clone, Debug, PartialEq, Serialize, Tsify)]
pub struct Tick {
    /// Place along the axis, in chart units.
    pub at: f64,
    /// What it says.
    pub text: String,
}

/// An axis.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
pub struct Axis {
    /// Quantity and unit.
    pub title: String,
    /// Its marks.
    pub ticks: Vec<Tick>,
}

/// A drawn line. `style` is a class that the page knows: `pressure`, `limit`, `need`, `steady`, ...
#[derive(Clone, Debug, PartialEq, Serialize, Tsify)]
pub struct Stroke {
    /// What it shows.
    pub name: String,
    /// Class.
    pub style: String,
    /// `x,y` pairs in chart units, as an SVG `points` attribute takes them.
    pub points: String,
}

/// A shaded rectangle.
#[derive(Clone, Debug, PartialEq, Serialize, Tsify)]
pub struct Band {
    /// What it shows.
    pub name: String,
    /// Class.
    pub style: String,
    /// Left, top, width, height in chart units.
    pub rect: [f64; 4],
}

/// A word or a symbol at a point.
#[derive(Clone, Debug, PartialEq, Serialize, Tsify)]
pub struct Label {
    /// The text.
    pub text: String,
    /// Class: `above`, `below`, `point`, ...
    pub style: String,
    /// Place, in chart units.
    pub at: [f64; 2],
}

/// A picture, ready to place, and the same in words and as a table.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
pub struct Chart {
    /// Heading.
    pub title: String,
    /// The same facts in a sentence or two, for whoever cannot see it.
    pub summary: String,
    /// Size in chart units; the plot area within it is `plot`.
    pub size: [f64; 2],
    /// Left, top, width, height of the plot area.
    pub plot: [f64; 4],
    /// Horizontal axis.
    pub x: Axis,
    /// Vertical axis.
    pub y: Axis,
    /// Shaded areas, drawn first.
    pub bands: Vec<Band>,
    /// Lines.
    pub strokes: Vec<Stroke>,
    /// Words.
    pub labels: Vec<Label>,
    /// Table head.
    pub head: Vec<String>,
    /// Table rows.
    pub rows: Vec<Vec<String>>,
}

/// What a point of the map says.
#[derive(Clone, Debug, PartialEq, Serialize, Tsify)]
pub struct Reading {
    /// Where it lies, in chart units.
    pub at: [f64; 2],
    /// How it stands there.
    pub grade: Grade,
    /// Flow, tank, and what a usual machine of both does.
    pub text: String,
}

/// The first thing seen.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
pub struct Answer {
    /// Overall grade.
    pub grade: Grade,
    /// One or two words: "It will do", "Not enough".
    pub verdict: String,
    /// The sentence.
    pub sentence: String,
    /// How it stands.
    #[tsify(type = "\"good\" | \"wait\" | \"trip\" | \"ask\" | \"small\" | \"outlet\" | \"danger\"")]
    pub standing: judge::grade::Grade,
    /// How sure that is, or why; may be blank.
    pub odds: String,
    /// What to do next.
    pub next: String,
}

/// How sure the answer is: a sentence for beside it, and the subject.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
pub struct Told {
    /// One short sentence; empty where there is nothing to doubt.
    pub sentence: String,
    /// All of it.
    pub section: Section,
}

/// What to look for.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
pub struct Window {
    /// The sentence to carry into a shop.
    pub sentence: String,
    /// How it comes about.
    pub why: Vec<String>,
    /// Flow and tank.
    pub figures: Vec<Figure>,
}

/// Which task at which place the picture shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Tsify)]
pub struct View {
    /// Index into the shop's places.
    pub place: usize,
    /// Index into the shop's tasks; `None` picks the one that limits.
    pub task: Option<usize>,
}

/// The whole answer for one shop and its chosen candidate.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
pub struct Report {
    /// The part of the work that all of this rests on so far; blank where that is all of it.
    pub so_far: String,
    /// The first thing seen.
    pub answer: Answer,
    /// The air alone: for which jobs it is enough.
    pub air: Answer,
    /// The power alone: what the outlet does with it.
    pub power: Answer,
    /// Fields that could not be taken.
    pub faults: Vec<Fault>,
    /// For blank fields, the typical value that was taken. The page shows it as a placeholder.
    pub taken: Vec<Change>,
    /// The shop in one line: place, outlet, work.
    pub assumed: String,
    /// Task by task, place by place.
    pub places: Vec<PlaceRows>,
    /// The shopping window.
    pub window: Window,
    /// Tank pressure over time for the viewed task.
    pub picture: Chart,
    /// Which task and place that is.
    pub view: View,
    /// Label, power, line, water, sound, carrying, money, plan.
    pub sections: Vec<Section>,
}

/// What the candidates are sorted by, best first; what is not known comes last.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum Sort {
    /// The answer's grade, then the hardest task.
    #[default]
    Verdict,
    /// Waiting at the hardest task.
    Waiting,
    /// How seldom the draws keep up.
    Draws,
    /// The worst of the circuits.
    Power,
    /// Level at the ears.
    Sound,
    /// Mass.
    Mass,
    /// Price.
    Price,
}

shop::words!(Sort: Verdict Waiting Draws Power Sound Mass Price);

/// One candidate beside the others.
#[derive(Clone, Debug, PartialEq, Serialize, Tsify)]
pub struct CompareRow {
    /// Index of the candidate in the shop.
    pub candidate: usize,
    /// Its name, told apart from others of that name.
    pub name: String,
    /// It is the chosen one.
    pub chosen: bool,
    /// It is the one to buy.
    pub buy: bool,
    /// What the main answer says when it is chosen.
    pub answer: Answer,
    /// A figure for each column.
    pub cells: Vec<Figure>,
    /// What it takes until it works, or why it is not the one.
    pub because: String,
}

/// The candidates side by side.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Tsify)]
pub struct Comparison {
    /// What the choice comes down to; blank where there is nothing to compare.
    pub sentence: String,
    /// A row for each candidate with a figure on its label.
    pub rows: Vec<CompareRow>,
}

/// The page is told only whether there is a sum.
fn whether<S: Serializer>(sum: &Option<Sum>, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_bool(sum.is_some())
}
