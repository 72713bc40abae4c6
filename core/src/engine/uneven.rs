//! Cylinders that are known to get unlike air: a side, an end or one cylinder that is worse off.
//!
//! What a builder sees before any probe is read: one side of the cowl is fed worse, the front heads sit
//! behind the inlets' ramps, casting flash was left between the fins, something lies on a cylinder. Each
//! takes air from known places; what else differs between cylinders stays as it is.

use crate::math::normal::normal_chance;

/// Cylinders of the largest engine.
pub const MOST: usize = 8;

/// What is told of the air of the cylinders, each as a share of what the better ones get [-].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pattern {
    /// Of the poorer side over the other.
    pub side: f64,
    /// Of the poorest row over the row at the other end.
    pub end: f64,
    /// What one cylinder of the poorest place keeps of its air.
    pub one: f64,
}

/// Air of each cylinder over the mean's [-], the poorest first, for one to eight cylinders.
///
/// Cylinders lie in rows of two from the poorer end to the better; in between the air rises evenly.
///
/// # Example
/// Four cylinders with a side at 0.8 of the other: 0.8/0.9 and 1/0.9 of the mean:
/// ```
/// use coolpath_core::engine::uneven::{Pattern, air_shares};
///
/// let pattern = Pattern { side: 0.8, end: 1.0, one: 1.0 };
/// let shares = air_shares(&pattern, 4);
/// let expected = [0.8 / 0.9, 1.0 / 0.9, 0.8 / 0.9, 1.0 / 0.9];
/// assert!(shares.iter().zip(expected).all(|(a, b)| (a - b).abs() < 1e-12));
/// ```
#[must_use]
pub fn air_shares(pattern: &Pattern, cylinders: u8) -> Vec<f64> {
    let count = usize::from(cylinders).clamp(1, MOST);
    let rows = count.div_ceil(2);
    let mut shares: Vec<f64> = (0..count)
        .map(|place| {
            let side = if place % 2 == 0 { pattern.side } else { 1.0 };
            let along = if rows > 1 {
                (place / 2) as f64 / (rows - 1) as f64
            } else {
                0.0
            };
            let end = pattern.end + (1.0 - pattern.end) * along;
            let one = if place == 0 { pattern.one } else { 1.0 };
            side * end * one
        })
        .collect();
    let mean = shares.iter().sum::<f64>() / count as f64;
    for share in &mut shares {
        *share /= mean;
    }
    shares
}

/// Mean and standard deviation of the largest of normal numbers with unlike means and one deviation.
///
/// E\[max\] = top − ∫ Π Φ((x − mᵢ)/σ) dx from below all of them up to a top above all of them, and
/// E\[max²\] = top² − 2 ∫ x Π Φ dx (by parts), by trapezoids of a fifth of σ.
///
/// # Arguments
/// * `means` - one or more, any unit
/// * `sigma` - of each, same unit; zero gives the largest mean
///
/// # Example
/// Of two like numbers the larger lies σ/√π above their mean on average, with a variance of
/// σ² (1 − 1/π):
/// ```
/// use coolpath_core::engine::uneven::largest;
///
/// let (mean, deviation) = largest(&[3.0, 3.0], 2.0);
/// let pi = std::f64::consts::PI;
/// assert!((mean - (3.0 + 2.0 / pi.sqrt())).abs() < 1e-6);
/// assert!((deviation - 2.0 * (1.0 - 1.0 / pi).sqrt()).abs() < 1e-6);
/// ```
#[must_use]
pub fn largest(means: &[f64], sigma: f64) -> (f64, f64) {
    /// Deviations beyond the outermost mean at which nothing is left.
    const TAIL: f64 = 6.5;
    const STEP: f64 = 0.2;
    let top_mean = means.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if sigma <= 0.0 {
        return (top_mean, 0.0);
    }
    // About the largest mean in units of σ; nothing lies below what the largest mean alone can reach.
    let at: Vec<f64> = means.iter().map(|mean| (mean - top_mean) / sigma).collect();
    let steps = (2.0 * TAIL / STEP) as u32;
    let (mut area, mut moment) = (0.0, 0.0);
    for step in 0..=steps {
        let x = -TAIL + STEP * f64::from(step);
        // The trapezoid's ends weigh nothing below, half above, where the product is one.
        let weight = if step == steps { 0.5 } else { 1.0 };
        let below: f64 = at.iter().map(|mean| normal_chance(x - mean)).product();
        area += weight * STEP * below;
        moment += weight * STEP * x * below;
    }
    let mean = TAIL - area;
    // x Π Φ ends with the slope 1, for which the trapezoids take h²/12 too much.
    let square = TAIL * TAIL - 2.0 * (moment - STEP * STEP / 12.0);
    (
        top_mean + sigma * mean,
        sigma * libm::sqrt((square - mean * mean).max(0.0)),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::cylinders::{Slopes, Spreads, excess_k};
    use crate::math::normal::normal_quantile;

    #[test]
    fn cylinders_told_to_be_alike_stand_where_the_tables_have_them() {
        let slopes = Slopes {
            air_k: 0.0,
            fuel_k: 0.0,
        };
        let spreads = Spreads {
            air: 0.0,
            fuel: 0.0,
            probe_k: 7.0,
        };
        for count in [1_u8, 2, 4, 6, 8] {
            let means = vec![450.0; usize::from(count)];
            let (mean, deviation) = largest(&means, 7.0);
            let table = excess_k(&slopes, &spreads, count, 0.0);
            // Four digits of the tables.
            assert!((mean - 450.0 - table).abs() < 7.0 * 1e-4, "{count}: {mean}");
            let least = 7.0 / f64::from(count).sqrt();
            let own = (deviation * deviation - least * least).max(0.0).sqrt();
            let wide = excess_k(&slopes, &spreads, count, 1.0) - table;
            assert!((own - wide).abs() < 7.0 * 1e-3, "{count}: {own} {wide}");
        }
    }

    #[test]
    fn one_far_above_the_rest_is_the_largest_alone() {
        let (mean, deviation) = largest(&[500.0, 400.0, 390.0, 405.0], 5.0);
        assert!((mean - 500.0).abs() < 1e-6, "{mean}");
        assert!((deviation - 5.0).abs() < 1e-6, "{deviation}");
        assert_eq!(largest(&[380.0, 410.0, 370.0], 0.0), (410.0, 0.0));
    }

    #[test]
    fn unlike_means_give_what_sampling_gives() {
        let means = [10.0, 4.0, 7.0, 0.0, 9.0, 3.0];
        let mut random = fastrand::Rng::with_seed(11);
        let mut normal = || normal_quantile(random.f64());
        let tries = 40_000;
        let (mut sum, mut squares) = (0.0, 0.0);
        for _ in 0..tries {
            let most = means
                .iter()
                .map(|mean| mean + 5.0 * normal())
                .fold(f64::MIN, f64::max);
            sum += most;
            squares += most * most;
        }
        let mean = sum / f64::from(tries);
        let deviation = (squares / f64::from(tries) - mean * mean).sqrt();
        let found = largest(&means, 5.0);
        assert!((found.0 - mean).abs() < 0.1, "{found:?} {mean}");
        assert!((found.1 - deviation).abs() < 0.1, "{found:?} {deviation}");
    }

    #[test]
    fn the_poorest_place_takes_all_that_is_told() {
        let pattern = Pattern {
            side: 0.9,
            end: 0.8,
            one: 0.7,
        };
        let shares = air_shares(&pattern, 6);
        let mean = (0.9 * 0.8 * 0.7 + 0.8 + 0.9 * 0.9 + 0.9 + 0.9 + 1.0) / 6.0;
        assert!((shares[0] * mean - 0.9 * 0.8 * 0.7).abs() < 1e-12);
        assert!((shares[3] * mean - 0.9).abs() < 1e-12);
        assert!((shares.iter().sum::<f64>() - 6.0).abs() < 1e-12);
        assert!((air_shares(&pattern, 1)[0] - 1.0).abs() < 1e-12);
    }
}
