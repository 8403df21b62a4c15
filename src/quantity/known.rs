//! A value with where it comes from.

/// Where a figure comes from: it decides what the figure may prove. What was assumed warns and never condemns.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Origin {
    /// On the machine's label or plate.
    Printed,
    /// The builder's own figure about the place, the work or the line.
    Typed,
    /// Taken with a clock at the machine: it outranks the label.
    Timed,
    /// Usual of such a machine, place or line: the field is blank, or what stands in it was refused.
    #[default]
    Assumed,
    /// Usual of a tool, from the catalogue of tasks.
    Catalogue,
}

impl Origin {
    /// Whether the builder gave it, from whatever source: it is not a guess of ours.
    ///
    /// ```
    /// # use quantity::Origin;
    /// assert!(Origin::Printed.is_given() && Origin::Timed.is_given());
    /// assert!(!Origin::Assumed.is_given() && !Origin::Catalogue.is_given());
    /// ```
    pub fn is_given(self) -> bool {
        matches!(self, Self::Printed | Self::Typed | Self::Timed)
    }
}

/// A value, SI, and where it comes from.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Known<T = f64> {
    /// The value.
    pub value: T,
    /// Where it comes from.
    pub origin: Origin,
}

impl<T> Known<T> {
    /// What is usual, as nothing better was given.
    pub fn assumed(value: T) -> Self {
        Self {
            value,
            origin: Origin::Assumed,
        }
    }

    /// What the builder says.
    pub fn typed(value: T) -> Self {
        Self {
            value,
            origin: Origin::Typed,
        }
    }

    /// Whether the builder gave it: [`Origin::is_given`].
    pub fn is_given(&self) -> bool {
        self.origin.is_given()
    }

    /// The same origin for what follows from the value.
    ///
    /// ```
    /// # use quantity::{Gauge, Known};
    /// let cut_in = Known::assumed(90.0).map(Gauge::psi);
    /// assert!(!cut_in.is_given() && cut_in.value == Gauge::psi(90.0));
    /// ```
    pub fn map<U>(self, of: impl FnOnce(T) -> U) -> Known<U> {
        Known {
            value: of(self.value),
            origin: self.origin,
        }
    }
}
