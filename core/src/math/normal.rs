//! The normal distribution: its quantiles, and how far the ends of a likely range lie out.

use crate::math::root::bracketed_root;

/// Standard deviations from the middle to an end of a likely range, which is its 5th or 95th
/// percentile.
pub const RANGE_DEVIATIONS: f64 = 1.644_853_626_951_472_7;

/// Number of standard deviations below which a normal variable lies with a chance.
///
/// Φ(z) = ½ erfc(−z/√2), inverted.
///
/// # Arguments
/// * `chance` - from 0.0005 to 0.9995; beyond that the nearest of these is taken
#[must_use]
pub fn normal_quantile(chance: f64) -> f64 {
    let chance = chance.clamp(0.0005, 0.9995);
    let miss = |z: f64| 0.5 * libm::erfc(-z / core::f64::consts::SQRT_2) - chance;
    bracketed_root(miss, -5.0, 5.0, 1e-12).map_or(0.0, |root| root.x)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_are_those_of_the_normal_table() {
        // Textbook table of the normal distribution, from memory.
        for (chance, z) in [(0.5, 0.0), (0.9, 1.2816), (0.95, 1.6449), (0.975, 1.9600)] {
            assert!((normal_quantile(chance) - z).abs() < 5e-5, "{chance}");
        }
        assert!(normal_quantile(2.0).is_finite());
    }
}
