//! Draws: the same 128 points for every machine, every place and every key.

/// Draws that a verdict rests on.
pub const DRAWS: usize = 128;

/// Primitive polynomials and first direction numbers of a Sobol' sequence: degree s, coefficients a, numbers m₁ … mₛ.
/// Source: Joe and Kuo, "Constructing Sobol sequences with better two-dimensional projections", SIAM J. Sci. Comput.
/// 30 (2008), table new-joe-kuo-6 (from memory); `tests/draws.rs` holds them against SciPy's.
const POLYNOMIALS: [(usize, u32, [u32; 6]); 13] = [
    (0, 0, [1, 0, 0, 0, 0, 0]),
    (1, 0, [1, 0, 0, 0, 0, 0]),
    (2, 1, [1, 3, 0, 0, 0, 0]),
    (3, 1, [1, 3, 1, 0, 0, 0]),
    (3, 2, [1, 1, 1, 0, 0, 0]),
    (4, 1, [1, 1, 3, 3, 0, 0]),
    (4, 4, [1, 3, 5, 13, 0, 0]),
    (5, 2, [1, 1, 5, 5, 17, 0]),
    (5, 4, [1, 1, 5, 5, 5, 0]),
    (5, 7, [1, 1, 7, 11, 19, 0]),
    (5, 11, [1, 1, 5, 1, 1, 0]),
    (5, 13, [1, 1, 1, 3, 11, 0]),
    (5, 14, [1, 3, 5, 5, 31, 0]),
];

/// Dimensions that a draw has.
pub const DIMENSIONS: usize = POLYNOMIALS.len();

/// Direction numbers of a dimension, 32 bits each: v_k = a₁ v_(k−1) ⊕ … ⊕ v_(k−s) ⊕ v_(k−s) / 2ˢ.
fn directions(dimension: usize) -> [u32; 32] {
    let (degree, coefficients, first) = POLYNOMIALS[dimension % DIMENSIONS];
    let mut v = [0_u32; 32];
    for k in 0..32 {
        v[k] = if degree == 0 {
            1 << (31 - k)
        } else if k < degree {
            first[k] << (31 - k)
        } else {
            let mut next = v[k - degree] ^ (v[k - degree] >> degree);
            for back in 1..degree {
                if (coefficients >> (degree - 1 - back)) & 1 == 1 {
                    next ^= v[k - back];
                }
            }
            next
        };
    }
    v
}

/// Steele, Lea and Flood, "Fast splittable pseudorandom number generators" (2014): the mixing of SplitMix64, here to
/// shift a dimension. Whole numbers only, so that a browser and a native build draw alike.
fn mixed(of: u64) -> u32 {
    let mut z = of.wrapping_add(1).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    ((z ^ (z >> 31)) >> 32) as u32
}

/// Points of a Sobol' sequence, each dimension shifted by a fixed pattern of bits, in the middle of their strata.
///
/// Of 128 points each dimension alone has one in every 128th, and pairs fill squares evenly, so that the odds of a
/// verdict are nearer to those of ten thousand draws than 128 plain random ones would be.
///
/// ```
/// # use judge::draws::{DRAWS, Draws};
/// let draws = Draws::usual();
/// let below = (0..DRAWS).filter(|draw| draws.quantile(*draw, 3, 0) < 0.25).count();
/// assert_eq!(below, DRAWS / 4);
/// ```
/// # Source
/// Sobol' (1967); digital shift after Owen. Checked against SciPy.
#[derive(Clone, Debug, PartialEq)]
pub struct Draws {
    directions: Vec<[u32; 32]>,
    bits: u32,
    shift: u64,
}

impl Draws {
    /// The 128 of every verdict.
    pub fn usual() -> Self {
        Self::of(DRAWS.trailing_zeros(), 0)
    }

    /// Two to the power of `bits`, shifted by another pattern: for a test of how much 128 leave open.
    pub fn of(bits: u32, shift: u64) -> Self {
        Self {
            directions: (0..DIMENSIONS).map(directions).collect(),
            bits: bits.min(16),
            shift,
        }
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        1 << self.bits
    }

    /// The unshifted coordinate of a point, 32 bits.
    pub fn plain(&self, draw: usize, dimension: usize) -> u32 {
        let Some(directions) = self.directions.get(dimension % DIMENSIONS) else {
            return 0;
        };
        let bits = directions.iter().enumerate();
        bits.filter(|(bit, _)| (draw >> bit) & 1 == 1)
            .fold(0, |sum, (_, direction)| sum ^ direction)
    }

    /// Where a draw lies in a dimension, between 0 and 1. `stream` tells quantities apart that share a dimension, as the
    /// tools of several tasks do.
    pub fn quantile(&self, draw: usize, dimension: usize, stream: u64) -> f64 {
        let shift = mixed((self.shift << 32) ^ (stream << 8) ^ dimension as u64);
        let stratum = (self.plain(draw, dimension) ^ shift) >> (32 - self.bits);
        (f64::from(stratum) + 0.5) / self.count() as f64
    }
}
