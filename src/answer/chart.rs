//! Charts as coordinates: scales, ticks, lines.

use crate::report::{Axis, Chart, Stroke, Tick};
use quantity::number;

/// A scale from a quantity in the user's unit to chart units.
#[derive(Clone, Copy, Debug)]
pub struct Scale {
    low: f64,
    high: f64,
    from: f64,
    to: f64,
}

impl Scale {
    /// Values from `low` to `high` go from `from` to `to`.
    pub fn new((low, high): (f64, f64), (from, to): (f64, f64)) -> Self {
        let high = if high > low { high } else { low + 1.0 };
        Self { low, high, from, to }
    }
    /// Where a value lies; beyond the ends, at the ends.
    pub fn at(&self, value: f64) -> f64 {
        let share = ((value - self.low) / (self.high - self.low)).clamp(0.0, 1.0);
        let place = self.from + (self.to - self.from) * share;
        (place * 10.0).round() / 10.0
    }
    /// The value that lies at a place; beyond the ends, the end's; the lowest where the place is no number.
    pub fn value(&self, at: f64) -> f64 {
        let share = ((at - self.from) / (self.to - self.from)).clamp(0.0, 1.0);
        let share = if share.is_nan() { 0.0 } else { share };
        self.low + (self.high - self.low) * share
    }
    /// Ticks at round values, at most about `most` of them.
    pub fn ticks(&self, most: f64) -> Vec<Tick> {
        let step = round_step((self.high - self.low) / most);
        let first = (self.low / step).ceil();
        let count = ((self.high / step).floor() - first).clamp(0.0, 40.0) as usize;
        let digits = if step < 0.95 { 1 } else { 0 };
        (0..=count)
            .map(|index| (first + index as f64) * step)
            .map(|value| Tick {
                at: self.at(value),
                text: number(value, digits),
            })
            .collect()
    }
}

/// The next of 1, 2, 5 times a power of ten.
fn round_step(least: f64) -> f64 {
    let power = 10f64.powf(least.max(1e-9).log10().floor());
    let times = [1.0, 2.0, 5.0]
        .into_iter()
        .find(|times| times * power >= least * 0.999)
        .unwrap_or(10.0);
    times * power
}

/// Frame of a chart, in chart units.
pub struct Frame {
    /// Width and height.
    pub size: [f64; 2],
    /// Left, top, width, height of the plot.
    pub plot: [f64; 4],
}

impl Frame {
    /// A frame that suits a phone held upright: the text is readable without zooming.
    pub const PHONE: Self = Self {
        size: [360.0, 230.0],
        plot: [40.0, 12.0, 312.0, 180.0],
    };

    /// Horizontal scale.
    pub fn x(&self, range: (f64, f64)) -> Scale {
        Scale::new(range, (self.plot[0], self.plot[0] + self.plot[2]))
    }
    /// Vertical scale, upwards.
    pub fn y(&self, range: (f64, f64)) -> Scale {
        Scale::new(range, (self.plot[1] + self.plot[3], self.plot[1]))
    }
    /// An empty chart with axes.
    pub fn chart(&self, x: (&str, Vec<Tick>), y: (&str, Vec<Tick>)) -> Chart {
        Chart {
            size: self.size,
            plot: self.plot,
            x: Axis {
                title: x.0.into(),
                ticks: x.1,
            },
            y: Axis {
                title: y.0.into(),
                ticks: y.1,
            },
            ..Chart::default()
        }
    }
    /// An upright line across the plot.
    pub fn upright(&self, name: String, style: &str, at: f64) -> Stroke {
        let ends = [(at, self.plot[1]), (at, self.plot[1] + self.plot[3])];
        Stroke {
            name,
            style: style.into(),
            points: points(ends.into_iter()),
        }
    }
    /// A level line across the plot.
    pub fn level(&self, name: String, style: &str, at: f64) -> Stroke {
        let ends = [(self.plot[0], at), (self.plot[0] + self.plot[2], at)];
        Stroke {
            name,
            style: style.into(),
            points: points(ends.into_iter()),
        }
    }
}

/// A coordinate to a tenth, as SVG takes it.
fn tenths(value: f64) -> String {
    number(value.clamp(0.0, 999.0), 1)
}

/// Points as an SVG `points` attribute takes them.
pub fn points(pairs: impl Iterator<Item = (f64, f64)>) -> String {
    let mut text = String::new();
    for (x, y) in pairs {
        if !text.is_empty() {
            text.push(' ');
        }
        text.push_str(&tenths(x));
        text.push(',');
        text.push_str(&tenths(y));
    }
    text
}
