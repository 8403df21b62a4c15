//! Short lists put in order. The standard library's sorts are made for millions of items, and each kind of item
//! brings another 2 kB of them onto a phone.

use std::cmp::Ordering;

/// Puts items in order; those that are equal stay as they stood.
///
/// Each item goes to its place among those before it. The steps grow with the square of the count: for hundreds.
///
/// ```
/// # use bellows::order::sort;
/// let mut hoses = ["long", "thin", "wide", "bore"];
/// sort(&mut hoses, |one, other| one[..1].cmp(&other[..1]));
/// assert_eq!(hoses, ["bore", "long", "thin", "wide"]);
/// ```
pub fn sort<T>(items: &mut [T], order: impl Fn(&T, &T) -> Ordering) {
    for end in 1..items.len() {
        let place = items[..end].partition_point(|before| order(before, &items[end]).is_le());
        (place..end).rev().for_each(|at| items.swap(at, at + 1));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every list of five from three kinds of item, beside the standard library's stable sort.
    #[test]
    fn lists_are_sorted_as_by_the_standard_library() {
        for number in 0..3_u32.pow(5) {
            let kinds = (0..5).map(|place| number / 3_u32.pow(place) % 3);
            let mut items: Vec<_> = kinds.zip('a'..).collect();
            let mut sorted = items.clone();
            sorted.sort_by_key(|(kind, _)| *kind);
            sort(&mut items, |(one, _), (other, _)| one.cmp(other));
            assert_eq!(items, sorted);
        }
    }
}
