//! Solvers with a bracket and a fixed number of steps.

/// Steps after which a search stops whatever it has.
const MOST_STEPS: u32 = 100;

/// Steps after which only halving is tried, so that the rest of [`MOST_STEPS`] surely closes the bracket.
const CLEVER_STEPS: u32 = 40;

/// Share of the bracket's upper end to which a root is found.
const CLOSE: f64 = 1e-11;

/// The root of a function that is below zero at `low` and not below it at `high`.
///
/// Inverse quadratic interpolation where it is safe, halving elsewhere.
/// Source: Chandrupatla, Advances in Engineering Software 28 (3), 1997 (from memory).
pub(super) fn rising(low: f64, high: f64, mut f: impl FnMut(f64) -> f64) -> f64 {
    let (mut a, mut fa) = (high, f(high));
    let (mut b, mut fb) = (low, f(low));
    let mut t = 0.5;
    for step in 0..MOST_STEPS {
        let x = a + t * (b - a);
        let fx = f(x);
        let (c, fc);
        if (fx < 0.0) == (fa < 0.0) {
            (c, fc) = (a, fa);
        } else {
            (c, fc) = (b, fb);
            (b, fb) = (a, fa);
        }
        (a, fa) = (x, fx);
        let nearest = CLOSE * high / (b - a).abs();
        if fa == 0.0 || nearest.is_nan() || nearest > 0.5 {
            break;
        }
        let place = (a - b) / (c - b);
        let value = (fa - fb) / (fc - fb);
        let safe = value * value < place && (1.0 - value) * (1.0 - value) < 1.0 - place;
        t = if safe && step < CLEVER_STEPS {
            fa / (fb - fa) * (fc / (fb - fc)) + (c - a) / (b - a) * (fa / (fc - fa)) * (fb / (fc - fb))
        } else {
            0.5
        };
        t = t.max(nearest).min(1.0 - nearest);
    }
    a
}

/// The largest value from `low` to `high` for which `holds`, where it holds up to a limit; `low` if never.
pub(super) fn largest(low: f64, high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    let (mut good, mut bad) = (low, high);
    for _ in 0..60 {
        let middle = 0.5 * (good + bad);
        if holds(middle) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    good
}
