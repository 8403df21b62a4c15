//! Which unknown a verdict hangs on.

/// An unknown that settles less of the doubt than this is not named: chance alone gives as much.
pub const NAMED: f64 = 0.05;

/// An unknown and how much of the doubt goes, on average, once it is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Driver {
    /// Index into the verdict's unknowns.
    pub unknown: usize,
    /// Share of the variance.
    pub share: f64,
}

/// Share of the variance of some values that a straight line in one unknown explains: r² = Sxy² / (Sxx Syy).
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | x, y | quantile of the unknown; value | 1, any | `quantiles`, `values` |
/// | Sxy, Sxx, Syy | sums of products of deviations from the means | | |
///
/// # Validity
/// Three values or more, otherwise zero. More flow never waits longer, nor does a thirstier tool wait less: each unknown
/// works one way, and a straight line catches most of it. By chance alone it is 1/n.
/// # Source
/// Coefficient of determination of a simple regression; as a first-order sensitivity: Saltelli et al., *Global
/// Sensitivity Analysis: The Primer* (2008), section 1.2 (from memory).
/// # Example
/// ```
/// # use judge::verdict::linear_share;
/// let x = [0.1, 0.3, 0.5, 0.7, 0.9];
/// assert!((linear_share(&x.map(|x| 4.0 - 3.0 * x), &x) - 1.0).abs() < 1e-9);
/// assert_eq!(linear_share(&[1.0; 5], &x), 0.0);
/// ```
pub fn linear_share(values: &[f64], quantiles: &[f64]) -> f64 {
    let n = values.len().min(quantiles.len());
    if n < 3 {
        return 0.0;
    }
    let mean = |of: &[f64]| of.iter().take(n).sum::<f64>() / n as f64;
    let (x0, y0) = (mean(quantiles), mean(values));
    let pairs = quantiles.iter().zip(values);
    let [mut xx, mut xy, mut yy] = [0.0; 3];
    for (x, y) in pairs {
        let (dx, dy) = (x - x0, y - y0);
        xx += dx * dx;
        xy += dx * dy;
        yy += dy * dy;
    }
    if yy > 1e-9 * n as f64 && xx > 0.0 {
        (xy * xy / (xx * yy)).min(1.0)
    } else {
        0.0
    }
}

/// What each unknown settles of these values, most first; `quantiles` by draw, `asked` by unknown.
pub(super) fn drivers(values: &[f64], quantiles: &[Vec<f64>], asked: &[bool]) -> Vec<Driver> {
    let share = |unknown: usize| {
        let draws = quantiles.iter();
        let of_one: Vec<f64> = draws.filter_map(|draw| draw.get(unknown).copied()).collect();
        linear_share(values, &of_one)
    };
    let asked = asked.iter().enumerate().filter(|(_, asked)| **asked);
    let mut drivers: Vec<Driver> = asked
        .map(|(unknown, _)| Driver {
            unknown,
            share: share(unknown),
        })
        .filter(|driver| driver.share >= NAMED)
        .collect();
    quantity::order::by(&mut drivers, |one, other| other.share.total_cmp(&one.share));
    drivers
}
