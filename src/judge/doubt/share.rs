//! What counts of draws say: with which error, and which unknown they hang on.

/// Normal quantile of a two-sided 95 % interval.
const Z95: f64 = 1.959_964;
/// Groups of neighbouring strata whose means are compared.
const BINS: usize = 10;

/// Bounds within which the true share lies in 19 of 20 cases, for `hits` of `draws`:
///
/// (p + z²/2n ± z √(p (1 − p)/n + z²/4n²)) / (1 + z²/n)
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | p, n | share that was hit; draws | 1 | `hits` / `draws`, `draws` |
/// | z | normal quantile of 97.5 % | 1 | 1.96 |
///
/// # Validity
/// Independent draws, at least one. Stratified draws scatter less, so that these bounds are then on the safe side
/// (at worst by a factor n/(n − 1) of the variance: Owen, 1997, from memory).
/// # Source
/// Wilson, "Probable inference, the law of succession, and statistical inference" (1927).
/// # Example
/// None of ten leaves up to 27.8 % (z²/(n + z²), published with the interval; three figures):
/// ```
/// # use judge::doubt::wilson;
/// let [low, high] = wilson(0, 10);
/// assert!(low.abs() < 1e-12 && (high - 0.278).abs() < 0.0005);
/// ```
pub fn wilson(hits: usize, draws: usize) -> [f64; 2] {
    let n = draws.max(1) as f64;
    let p = (hits as f64 / n).min(1.0);
    let z2 = Z95 * Z95 / n;
    let half = Z95 * (p * (1.0 - p) / n + z2 / (4.0 * n)).sqrt();
    [-half, half].map(|half| ((p + 0.5 * z2 + half) / (1.0 + z2)).clamp(0.0, 1.0))
}

/// Share of the variance of `values` that would go, on average, if this unknown were known: the first-order index
///
/// S = V(E(Y | X)) / V(Y),
///
/// by the means over ten groups of neighbouring strata, less what chance alone puts between such means:
/// S = (SSB − (b − 1) SSW/(n − b)) / SST.
///
/// | symbol | meaning | unit | argument |
/// |---|---|---|---|
/// | Y, X | what is asked; the unknown | any | `values`, by its `strata` |
/// | SSB, SSW, SST | squares between groups, within them, in all | | |
/// | b, n | groups; draws | 1 | 10, length of `values` |
///
/// # Validity
/// More than ten draws, otherwise zero. First order only: what two unknowns do together belongs to neither, so the
/// shares of all may add up to less than one. Its own error is about 2/√n.
/// # Source
/// Saltelli et al., *Global Sensitivity Analysis: The Primer* (2008), section 4.4 (from memory); the correction is
/// Kelley's epsilon squared (1935, from memory).
pub fn variance_share(values: &[f64], strata: &[u16]) -> f64 {
    let n = values.len().min(strata.len());
    if n <= BINS {
        return 0.0;
    }
    let mut groups = [(0.0, 0.0); BINS];
    for (value, stratum) in values.iter().zip(strata) {
        let group = usize::from(*stratum) * BINS / strata.len();
        if let Some((sum, count)) = groups.get_mut(group) {
            *sum += value;
            *count += 1.0;
        }
    }
    let values = values.iter().take(n);
    let mean = values.clone().sum::<f64>() / n as f64;
    let total: f64 = values.map(|value| (value - mean) * (value - mean)).sum();
    let full = groups.iter().filter(|(_, count)| *count > 0.0);
    let between: f64 = full
        .map(|(sum, count)| count * (sum / count - mean) * (sum / count - mean))
        .sum();
    let chance = (BINS - 1) as f64 * (total - between) / (n - BINS) as f64;
    if total > 1e-12 * n as f64 {
        ((between - chance) / total).clamp(0.0, 1.0)
    } else {
        0.0
    }
}
