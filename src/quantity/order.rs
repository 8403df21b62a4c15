//! Short lists in order. The library's sort serves millions and brings 3 kB of machine code for each kind of list.

use std::cmp::Ordering;

/// Puts a short list in order; equals keep theirs. It takes some n²/4 steps for n entries: for hundreds at most.
///
/// Insertion sort; Knuth, The Art of Computer Programming, volume 3, section 5.2.1 (from memory).
///
/// ```
/// # use quantity::order;
/// let mut hoses = [(0.375_f64, "whip"), (0.25, "air brush"), (0.375, "trunk")];
/// order::by(&mut hoses, |one, other| one.0.total_cmp(&other.0));
/// assert_eq!(hoses.map(|hose| hose.1), ["air brush", "whip", "trunk"]);
/// ```
pub fn by<T>(list: &mut [T], mut order: impl FnMut(&T, &T) -> Ordering) {
    for end in 1..list.len() {
        let mut at = end;
        while at > 0 && order(&list[at - 1], &list[at]).is_gt() {
            list.swap(at - 1, at);
            at -= 1;
        }
    }
}

/// The same by what `key` says of each entry.
///
/// ```
/// # use quantity::order;
/// let mut gauges = [16, 10, 14, 12];
/// order::by_key(&mut gauges, |gauge| std::cmp::Reverse(*gauge));
/// assert_eq!(gauges, [16, 14, 12, 10]);
/// ```
pub fn by_key<T, K: Ord>(list: &mut [T], mut key: impl FnMut(&T) -> K) {
    by(list, |one, other| key(one).cmp(&key(other)));
}
