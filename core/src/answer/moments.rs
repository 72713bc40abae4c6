//! From what each input changes to where an answer lies: moments summed, and their quantiles.
//!
//! An input is a normal variable x of deviation 1 whose range ends at ±1.645; what it changes is
//! taken straight between the points that were solved, y(x). Inputs are independent, so that the
//! first three cumulants of their changes add up; the band's ends are the 5th and 95th percentile
//! after E. A. Cornish and R. A. Fisher:
//!
//! q = m + s (z + (z² − 1) γ / 6)
//!
//! The plain root of summed squares misses what many one-sided ranges do together: each pulls the
//! middle to its longer side. It bounds the shorter side, so that what nothing lowers is not lowered.
//!
//! # Sources
//! E. A. Cornish, R. A. Fisher, Moments and Cumulants in the Specification of Distributions, Revue
//! de l'Institut International de Statistique 5, 1938 (from memory).

use crate::math::normal::{RANGE_DEVIATIONS, normal_quantile};
use std::sync::LazyLock;

/// How far an answer may lie below and above, in the answer's SI unit; a side is infinite where an
/// end of a range has no answer.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Band {
    /// Below, positive.
    pub below: f64,
    /// Above, positive.
    pub above: f64,
}

impl Band {
    /// Open on both sides.
    pub(crate) const OPEN: Self = Self {
        below: f64::INFINITY,
        above: f64::INFINITY,
    };

    pub(crate) fn add(&mut self, change: f64) {
        if change < 0.0 {
            self.below = libm::hypot(self.below, change);
        } else {
            self.above = libm::hypot(self.above, change);
        }
    }

    /// Ends of the band about a value, within what is possible.
    ///
    /// # Example
    /// From 400 − 10 to 400 + 20, but no more than 415:
    /// ```
    /// use coolpath_core::answer::band::Band;
    ///
    /// let band = Band { below: 10.0, above: 20.0 };
    /// assert_eq!(band.ends(400.0, 0.0, 415.0), (390.0, 415.0));
    /// assert_eq!(band.wider(), 20.0);
    /// ```
    #[must_use]
    pub fn ends(&self, value: f64, least: f64, most: f64) -> (f64, f64) {
        (
            (value - self.below).max(least),
            (value + self.above).min(most),
        )
    }

    /// Whether a side is open: an end of a range has no answer.
    #[must_use]
    pub fn is_open(&self) -> bool {
        self.below.is_infinite() || self.above.is_infinite()
    }

    /// The wider side.
    #[must_use]
    pub fn wider(&self) -> f64 {
        self.below.max(self.above)
    }
}

/// Slices of equal chance in which an input is taken.
const SLICES: usize = 40;
/// Largest skewness for which the expansion still rises [-].
const MOST_SKEWED: f64 = 1.5;

/// Middles of the slices, of variance one.
static DEVIATES: LazyLock<[f64; SLICES]> = LazyLock::new(|| {
    let middles: [f64; SLICES] =
        core::array::from_fn(|at| normal_quantile((at as f64 + 0.5) / SLICES as f64));
    let squares: f64 = middles.iter().map(|z| z * z).sum();
    let scale = (SLICES as f64 / squares).sqrt();
    middles.map(|z| scale * z)
});

/// What an input changes at the ends of its range and halfway to them, the low side first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Response {
    /// At the ends.
    pub(crate) ends: [f64; 2],
    /// Halfway.
    pub(crate) halfway: [f64; 2],
}

impl Response {
    /// Both sides straight from the value to the end.
    fn is_straight(&self) -> bool {
        self.halfway == self.ends.map(|end| 0.5 * end)
    }

    /// Means of the change, its square and its cube.
    fn means(&self) -> [f64; 3] {
        if self.is_straight() {
            // Two half-normals: E|x| = √(2/π), E|x|³ = 2 √(2/π), each side half of the time.
            let [low, high] = self.ends.map(|end| end / RANGE_DEVIATIONS);
            let half = 0.5 * (core::f64::consts::FRAC_2_PI).sqrt();
            return [
                half * (low + high),
                0.5 * (low * low + high * high),
                2.0 * half * (low * low * low + high * high * high),
            ];
        }
        let mut sums = [0.0; 3];
        for &x in DEVIATES.iter() {
            let y = self.at(x);
            sums[0] += y;
            sums[1] += y * y;
            sums[2] += y * y * y;
        }
        sums.map(|sum| sum / SLICES as f64)
    }

    /// Change where the input lies so many deviations from its value.
    fn at(&self, x: f64) -> f64 {
        let side = usize::from(x > 0.0);
        let (halfway, end) = (self.halfway[side], self.ends[side]);
        // Share of the way to the end.
        let share = x.abs() / RANGE_DEVIATIONS;
        if share < 0.5 {
            2.0 * share * halfway
        } else {
            halfway + (2.0 * share - 1.0) * (end - halfway)
        }
    }
}

/// Covariance of what one input changes in two quantities.
pub(crate) fn covariance(one: &Response, other: &Response) -> f64 {
    if one.is_straight() && other.is_straight() {
        let products: f64 = one.ends.iter().zip(other.ends).map(|(a, b)| a * b).sum();
        let both = 0.5 * products / (RANGE_DEVIATIONS * RANGE_DEVIATIONS);
        return both - one.means()[0] * other.means()[0];
    }
    let (mut a, mut b, mut ab) = (0.0, 0.0, 0.0);
    for &x in DEVIATES.iter() {
        let (y, z) = (one.at(x), other.at(x));
        a += y;
        b += z;
        ab += y * z;
    }
    let count = SLICES as f64;
    ab / count - a * b / (count * count)
}

/// Where a quantity lies about its nominal answer.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Moments {
    /// Mean less nominal.
    pub mean: f64,
    /// Variance.
    pub variance: f64,
    /// Third cumulant.
    pub third: f64,
    /// Roots of the summed squares of the falls and rises.
    squares: Band,
}

impl Moments {
    /// Adds an input's part.
    pub(crate) fn add(&mut self, response: &Response) {
        let [mean, square, cube] = response.means();
        self.mean += mean;
        self.variance += square - mean * mean;
        self.third += cube - 3.0 * mean * square + 2.0 * mean * mean * mean;
        let all = response.ends.into_iter().chain(response.halfway);
        let (fall, rise) = all.fold((0.0_f64, 0.0_f64), |(fall, rise), change| {
            (fall.min(change), rise.max(change))
        });
        self.squares.add(fall);
        self.squares.add(rise);
    }

    /// Adds a normal error of its own.
    pub(crate) fn add_error(&mut self, deviation: f64) {
        self.variance += deviation * deviation;
        for side in [-RANGE_DEVIATIONS, RANGE_DEVIATIONS] {
            self.squares.add(side * deviation);
        }
    }

    /// The same, seen from a nominal answer that lies so much lower.
    pub(crate) fn moved(self, by: f64) -> Self {
        Self {
            mean: self.mean + by,
            ..self
        }
    }

    fn skewness_sixth(&self) -> f64 {
        let deviation = self.variance.max(0.0).sqrt();
        if deviation > 0.0 {
            let skewness = self.third / (deviation * deviation * deviation);
            skewness.clamp(-MOST_SKEWED, MOST_SKEWED) / 6.0
        } else {
            0.0
        }
    }

    /// The band: from the 5th to the 95th percentile.
    #[must_use]
    pub fn band(&self) -> Band {
        let deviation = self.variance.max(0.0).sqrt();
        let bend = self.skewness_sixth() * (RANGE_DEVIATIONS * RANGE_DEVIATIONS - 1.0);
        let at = |z: f64| self.mean + deviation * (z + bend);
        let mut band = Band {
            below: (-at(-RANGE_DEVIATIONS)).max(0.0),
            above: at(RANGE_DEVIATIONS).max(0.0),
        };
        if self.mean >= 0.0 {
            band.below = band.below.min(self.squares.below);
        } else {
            band.above = band.above.min(self.squares.above);
        }
        band
    }

    /// Deviations of a normal variable that stand for a place so far above the nominal answer.
    #[must_use]
    pub fn deviations(&self, above: f64) -> f64 {
        let deviation = self.variance.max(0.0).sqrt();
        let off = above - self.mean;
        if deviation <= 0.0 {
            return if off >= 0.0 {
                f64::INFINITY
            } else {
                f64::NEG_INFINITY
            };
        }
        // w = z + g (z² − 1), the branch through zero
        let (w, g) = (off / deviation, self.skewness_sixth());
        if g.abs() < 1e-9 {
            return w;
        }
        let root = 1.0 + 4.0 * g * (w + g);
        if root < 0.0 {
            return if g > 0.0 {
                f64::NEG_INFINITY
            } else {
                f64::INFINITY
            };
        }
        (root.sqrt() - 1.0) / (2.0 * g)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn straight(low: f64, high: f64) -> Response {
        Response {
            ends: [low, high],
            halfway: [0.5 * low, 0.5 * high],
        }
    }

    fn of(responses: &[Response]) -> Moments {
        let mut moments = Moments::default();
        responses.iter().for_each(|response| moments.add(response));
        moments
    }

    #[test]
    fn straight_inputs_give_the_root_of_summed_squares() {
        let band = of(&[straight(-3.0, 3.0), straight(4.0, -4.0)]).band();
        assert!((band.below - 5.0).abs() < 1e-9 && (band.above - 5.0).abs() < 1e-9);
        assert!((of(&[straight(-3.0, 3.0)]).deviations(3.0) - RANGE_DEVIATIONS).abs() < 1e-9);
    }

    #[test]
    fn one_input_that_only_rises_never_lowers() {
        let band = of(&[straight(0.0, 10.0)]).band();
        assert_eq!(band.below, 0.0);
        assert!((band.above - 10.0).abs() < 1.0, "{band:?}");
    }

    #[test]
    fn many_longer_rises_lift_the_middle() {
        // Twenty inputs, each −1 and +3: the middle rises by about 0.4 · 2 / 1.645 for each.
        let moments = of(&[straight(-1.0, 3.0); 20]);
        let lift = 20.0 * 0.3989 * 2.0 / RANGE_DEVIATIONS;
        assert!((moments.mean / lift - 1.0).abs() < 0.02, "{moments:?}");
        let band = moments.band();
        let plain = 3.0 * 20.0_f64.sqrt();
        assert!(band.above > 1.3 * plain && band.below < 0.5, "{band:?}");
        // The middle of the variable is its even chance, nearly.
        assert!(moments.deviations(moments.mean).abs() < 0.1);
    }

    #[test]
    fn slices_and_closed_forms_agree() {
        let exact = straight(-1.0, 3.0);
        let sliced = Response {
            halfway: [-0.5 + 1e-12, 1.5],
            ..exact
        };
        let (a, b) = (exact.means(), sliced.means());
        for (a, b) in a.into_iter().zip(b) {
            assert!((a / b - 1.0).abs() < 0.05, "{a} and {b}");
        }
        let other = straight(-2.0, 0.5);
        let (a, b) = (covariance(&exact, &other), covariance(&sliced, &other));
        assert!((a / b - 1.0).abs() < 0.05, "{a} and {b}");
    }

    #[test]
    fn a_peak_between_the_ends_counts() {
        let peaked = Response {
            ends: [-1.0, -1.0],
            halfway: [4.0, 4.0],
        };
        let band = of(&[peaked]).band();
        assert!(band.above > 2.5, "{band:?}");
    }

    #[test]
    fn places_and_quantiles_are_each_others_inverse() {
        let moments = of(&[straight(-1.0, 3.0), straight(-2.0, 2.5), straight(0.5, 4.0)]);
        let band = moments.band();
        let z = moments.deviations(band.above);
        assert!((z - RANGE_DEVIATIONS).abs() < 1e-9, "{z}");
    }
}
