//! The highest place of a function of one variable that is cheap to work out.

/// Steps of the first look over the range.
const LOOK: u32 = 70;
/// Share of an interval that the golden section keeps [-].
pub(crate) const GOLDEN: f64 = 0.618_033_988_749_894_9;

/// Where `f` is highest between `low` and `high`, to an absolute tolerance.
///
/// A look over the range finds the neighbourhood, a golden section between the neighbours of its best
/// the place: of several summits the highest is found unless it is narrower than a seventieth of the range.
/// The returned place is the best of all that were tried, so that a range whose end is best returns it.
///
/// # Arguments
/// * `low`, `high` - the range, `low` not above `high`
/// * `tolerance` - width of the last interval
///
/// # Example
/// 3 x − x² is highest at 1.5:
/// ```
/// use coolpath_core::math::highest::highest;
///
/// let found = highest(|x| 3.0 * x - x * x, 0.0, 10.0, 1e-6);
/// assert!((found - 1.5).abs() < 1e-6);
/// assert_eq!(highest(|x| x, 0.0, 10.0, 1e-6), 10.0);
/// ```
#[must_use]
pub fn highest(f: impl Fn(f64) -> f64, low: f64, high: f64, tolerance: f64) -> f64 {
    let place = |step: u32| low + (high - low) * f64::from(step) / f64::from(LOOK);
    let mut best = (low, f(low));
    let mut at = 0;
    for step in 1..=LOOK {
        let there = (place(step), f(place(step)));
        if there.1 > best.1 {
            (best, at) = (there, step);
        }
    }
    let (mut from, mut to) = (place(at.saturating_sub(1)), place((at + 1).min(LOOK)));
    let tried = |x: f64| (x, f(x));
    let (mut left, mut right) = (
        tried(to - GOLDEN * (to - from)),
        tried(from + GOLDEN * (to - from)),
    );
    // Near rounding the two points meet, and nothing would narrow any more.
    while to - from > tolerance.max(4.0 * f64::EPSILON * to.abs()) {
        if left.1 > right.1 {
            (to, right) = (right.0, left);
            left = tried(to - GOLDEN * (to - from));
        } else {
            (from, left) = (left.0, right);
            right = tried(from + GOLDEN * (to - from));
        }
    }
    for there in [left, right] {
        if there.1 > best.1 {
            best = there;
        }
    }
    best.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_higher_of_two_summits_is_found() {
        // −(x − 2)² + 1 beside −(x − 7)² + 2
        let two = |x: f64| (1.0 - (x - 2.0) * (x - 2.0)).max(2.0 - (x - 7.0) * (x - 7.0));
        assert!((highest(two, 0.0, 10.0, 1e-7) - 7.0).abs() < 1e-6);
    }

    #[test]
    fn ends_and_an_empty_range_are_places_too() {
        assert_eq!(highest(|x| -x, 1.0, 8.0, 1e-6), 1.0);
        assert_eq!(highest(|x| x * x, 3.0, 3.0, 1e-6), 3.0);
    }
}
