//! A flow against tank pressure.

/// The lesser of two numbers, the second where one is none: one instruction, where [`f64::min`] calls a function to order
/// what is no number.
#[inline]
pub(super) fn lesser(one: f64, other: f64) -> f64 {
    if one < other { one } else { other }
}

/// The greater of them, likewise.
#[inline]
pub(super) fn greater(one: f64, other: f64) -> f64 {
    if one > other { one } else { other }
}

/// A mass flow against absolute tank pressure, linear between equal steps.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    first_pa: f64,
    per_pa: f64,
    values: [f64; Curve::STEPS + 1],
}

impl Curve {
    /// Steps between the first and the last pressure.
    pub const STEPS: usize = 40;

    /// Tabulates `flow` from `first_pa` to `last_pa`.
    pub fn of(first_pa: f64, last_pa: f64, flow: impl Fn(f64) -> f64) -> Self {
        let step = (last_pa - first_pa).max(1.0) / Self::STEPS as f64;
        Self {
            first_pa,
            per_pa: 1.0 / step,
            values: std::array::from_fn(|i| flow(first_pa + step * i as f64)),
        }
    }

    /// The flow at `pressure_pa`; beyond the table's ends its end values.
    #[inline]
    pub fn at(&self, pressure_pa: f64) -> f64 {
        let place = lesser(
            greater((pressure_pa - self.first_pa) * self.per_pa, 0.0),
            Self::STEPS as f64,
        );
        let index = (place as u32 as usize).min(Self::STEPS - 1);
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
            values: self.values.map(|value| value * flow),
        }
    }

    /// `share` of the way from this curve to another over the same pressures, every flow then multiplied by `flow`.
    pub fn towards(&self, other: &Self, share: f64, flow: f64) -> Self {
        let mut values = self.values;
        for (here, there) in values.iter_mut().zip(&other.values) {
            *here = flow * (*here + (there - *here) * share);
        }
        Self { values, ..*self }
    }
}
