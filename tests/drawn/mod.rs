//! Cases that are the same every time: a repeatable row of numbers.

#![allow(dead_code, reason = "each test draws in its own way")]

/// The numbers, by a 64-bit congruential generator with Knuth's MMIX constants (as in Numerical Recipes, from memory).
pub struct Stream(pub u64);

impl Stream {
    /// The next 64 bits; the high ones are the good ones.
    pub fn bits(&mut self) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        self.0
    }

    /// A number in 0..1.
    pub fn next(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A number between two.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }

    /// One of some items.
    pub fn one_of<T: Copy>(&mut self, items: &[T]) -> T {
        items[(self.next() * items.len() as f64) as usize]
    }
}
