//! Sorting. The library's sort is compiled anew for each kind of thing and each order, some three kilobytes of
//! program; here it is compiled for numbers alone.

use std::cmp::Ordering;

/// Sorts numbers, least first; a NaN stands at an end, by its sign.
///
/// ```
/// let mut numbers = [3.0, -1.5, 2.0];
/// coolpath_core::math::order::ascending(&mut numbers);
/// assert_eq!(numbers, [-1.5, 2.0, 3.0]);
/// ```
pub fn ascending(numbers: &mut [f64]) {
    numbers.sort_unstable_by(f64::total_cmp);
}

/// Sorts things by a number that each has, least first; those with the same keep their order.
///
/// ```
/// let mut things = vec![("b", 2.0), ("a", 2.0), ("c", -7.0)];
/// coolpath_core::math::order::by_number(&mut things, |thing| thing.1);
/// assert_eq!(things, [("c", -7.0), ("b", 2.0), ("a", 2.0)]);
/// ```
pub fn by_number<T>(things: &mut Vec<T>, number: impl Fn(&T) -> f64) {
    let order = order(things.iter().map(number).collect());
    let mut waiting: Vec<Option<T>> = things.drain(..).map(Some).collect();
    things.extend(order.into_iter().filter_map(|at| waiting[at].take()));
}

/// Places of numbers in the order in which they are to stand.
fn order(numbers: Vec<f64>) -> Vec<usize> {
    let mut numbered: Vec<(f64, usize)> = numbers.into_iter().zip(0..).collect();
    let earlier = |a: &(f64, usize), b: &(f64, usize)| match a.0.total_cmp(&b.0) {
        Ordering::Equal => a.1.cmp(&b.1),
        unlike => unlike,
    };
    numbered.sort_unstable_by(earlier);
    numbered.into_iter().map(|(_, at)| at).collect()
}
