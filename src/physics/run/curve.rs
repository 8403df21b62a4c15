//! A flow against tank pressure.

/// A mass flow against absolute tank pressure, linear between equal steps.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    first_pa: f64,
    per_pa: f64,
    values: Vec<f64>,
}

impl Curve {
    /// Steps between the first and the last pressure.
    pub const STEPS: usize = 40;

    /// Tabulates `flow` from `first_pa` to `last_pa`.
    pub fn of(first_pa: f64, last_pa: f64, flow: impl Fn(f64) -> f64) -> Self {
        let step = (last_pa - first_pa).max(1.0) / Self::STEPS as f64;
        let values = (0..=Self::STEPS)
            .map(|i| flow(first_pa + step * i as f64))
            .collect();
        Self {
            first_pa,
            per_pa: 1.0 / step,
            values,
        }
    }

    /// The flow at `pressure_pa`; beyond the table's ends its end values.
    #[inline]
    pub fn at(&self, pressure_pa: f64) -> f64 {
        let place = ((pressure_pa - self.first_pa) * self.per_pa).clamp(0.0, Self::STEPS as f64);
        let index = (place as usize).min(Self::STEPS - 1);
        let share = place - index as f64;
        match self.values.get(index..index + 2) {
            Some([low, high]) => low + (high - low) * share,
            _ => 0.0,
        }
    }

    /// The same curve with every pressure multiplied by `pressure` and every flow by `flow`.
    pub fn stretched(&self, pressure: f64, flow: f64) -> Self {
        Self {
            first_pa: self.first_pa * pressure,
            per_pa: self.per_pa / pressure,
            values: self.values.iter().map(|value| value * flow).collect(),
        }
    }

    /// `share` of the way from this curve to another over the same pressures, every flow then multiplied by `flow`.
    pub fn towards(&self, other: &Self, share: f64, flow: f64) -> Self {
        let pairs = self.values.iter().zip(&other.values);
        Self {
            values: pairs
                .map(|(here, there)| flow * (here + (there - here) * share))
                .collect(),
            ..*self
        }
    }
}
