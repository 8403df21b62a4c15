//! Stratified draws, the same on every machine.

/// Where the shuffles start: the first digits of the golden ratio's fraction, as good as any.
const SEED: u64 = 0x9e37_79b9_7f4a_7c15;

/// Steele, Lea and Flood, "Fast splittable pseudorandom number generators" (2014): SplitMix64. Whole numbers only, so
/// that a browser and a native build draw alike.
fn next(state: &mut u64) -> u64 {
    *state = state.wrapping_add(SEED);
    let mut mixed = *state;
    mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    mixed ^ (mixed >> 31)
}

/// The strata of one unknown in the order in which they are drawn: each of `0..count` once.
///
/// `stream` names the unknown, so that one more unknown leaves the draws of the others as they were, and two machines
/// are judged on the same days by the same hands.
///
/// # Source
/// McKay, Beckman, Conover, "A comparison of three methods for selecting values of input variables in the analysis
/// of output from a computer code" (1979): Latin hypercube, here with the middle of each stratum. Shuffled after
/// Fisher and Yates.
pub fn shuffled(count: u16, stream: u64) -> Vec<u16> {
    let mut state = stream.wrapping_mul(0xd134_2543_de82_ef95) ^ SEED;
    let mut strata: Vec<u16> = (0..count).collect();
    for last in (1..strata.len()).rev() {
        let other = ((next(&mut state) >> 32) * (last as u64 + 1)) >> 32;
        strata.swap(last, other as usize);
    }
    strata
}
