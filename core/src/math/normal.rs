//! The normal distribution: its chances and quantiles, two variables together, and how far the
//! ends of a likely range lie out.

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
///
/// # Example
/// 1.95996 at 0.975 and 1.64485 at 0.95, from any table of the normal distribution:
/// ```
/// use coolpath_core::math::normal::normal_quantile;
///
/// assert!((normal_quantile(0.975) - 1.959_96).abs() < 5e-6);
/// assert!((normal_quantile(0.95) - 1.644_85).abs() < 5e-6);
/// ```
#[must_use]
pub fn normal_quantile(chance: f64) -> f64 {
    let chance = chance.clamp(0.0005, 0.9995);
    let miss = |z: f64| normal_chance(z) - chance;
    bracketed_root(miss, -5.0, 5.0, 1e-12).map_or(0.0, |root| root.x)
}

/// Chance that a normal variable of mean 0 and deviation 1 lies below a number.
///
/// Φ(z) = ½ erfc(−z/√2)
///
/// # Example
/// 0.84134 lie below one deviation, from any table of the normal distribution:
/// ```
/// use coolpath_core::math::normal::normal_chance;
///
/// assert!((normal_chance(1.0) - 0.841_345).abs() < 5e-7);
/// assert_eq!(normal_chance(0.0), 0.5);
/// ```
#[must_use]
pub fn normal_chance(z: f64) -> f64 {
    0.5 * libm::erfc(-z / core::f64::consts::SQRT_2)
}

/// Gauss–Legendre nodes and weights on −1…1, the positive half of ten (from memory; a test
/// integrates every power that they must hold exactly).
const LEGENDRE: [(f64, f64); 5] = [
    (0.148_874_338_981_631_2, 0.295_524_224_714_752_9),
    (0.433_395_394_129_247_2, 0.269_266_719_309_996_3),
    (0.679_409_568_299_024_4, 0.219_086_362_515_982),
    (0.865_063_366_688_984_5, 0.149_451_349_150_580_6),
    (0.973_906_528_517_171_7, 0.066_671_344_308_688_1),
];
/// Pieces into which the path of integration is cut [-].
const PIECES: u32 = 6;
/// Correlation beyond which two variables are taken as one [-].
const AS_ONE: f64 = 1.0 - 1e-9;

/// Integral of a function from `low` to `high` by fixed nodes.
fn integral(f: impl Fn(f64) -> f64, low: f64, high: f64) -> f64 {
    let half = 0.5 * (high - low) / f64::from(PIECES);
    let mut sum = 0.0;
    for piece in 0..PIECES {
        let middle = low + half * f64::from(2 * piece + 1);
        for (node, weight) in LEGENDRE {
            sum += weight * (f(middle - half * node) + f(middle + half * node));
        }
    }
    half * sum
}

/// Chance that two normal variables of mean 0 and deviation 1 both lie below their numbers.
///
/// Φ₂(h, k, ρ) = Φ(h) Φ(k) + ∫₀^ρ φ₂(h, k, r) dr, with r = sin θ:
///
/// φ₂ dr = exp(−(h² + k² − 2 h k sin θ) / (2 cos² θ)) dθ / 2π
///
/// # Arguments
/// * `rho` - their correlation [-]; at ±1 the limit is taken
///
/// # Sources
/// R. L. Plackett, A Reduction Formula for Normal Multivariate Integrals, Biometrika 41, 1954 (from
/// memory).
///
/// # Example
/// Both above or below their means, with W. F. Sheppard's quadrant ¼ + asin ρ / 2π:
/// ```
/// use coolpath_core::math::normal::joint_chance;
///
/// assert!((joint_chance(0.0, 0.0, 0.5) - 1.0 / 3.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn joint_chance(h: f64, k: f64, rho: f64) -> f64 {
    let (below_h, below_k) = (normal_chance(h), normal_chance(k));
    if rho >= AS_ONE {
        return below_h.min(below_k);
    }
    if rho <= -AS_ONE {
        return (below_h + below_k - 1.0).max(0.0);
    }
    // Beyond nine deviations nothing is left to integrate, and infinities would.
    let (h, k) = (h.clamp(-9.0, 9.0), k.clamp(-9.0, 9.0));
    let density = |theta: f64| {
        let (sine, cosine) = (libm::sin(theta), libm::cos(theta));
        libm::exp(-(h * h + k * k - 2.0 * h * k * sine) / (2.0 * cosine * cosine))
    };
    let more = integral(density, 0.0, libm::asin(rho)) / core::f64::consts::TAU;
    (below_h * below_k + more).clamp(0.0, below_h.min(below_k))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nodes_integrate_every_power_up_to_nineteen() {
        for power in 0..=19 {
            let found = integral(|x| libm::pow(x, f64::from(power)), 0.0, 1.0);
            let exact = 1.0 / f64::from(power + 1);
            assert!((found - exact).abs() < 1e-14, "{power}: {found}");
        }
        // One piece alone must hold it too: across −6…6 each piece is as wide as the nodes' own.
        let found = integral(|x| libm::pow(x, 18.0), -6.0, 6.0);
        let exact = 2.0 * libm::pow(6.0, 19.0) / 19.0;
        assert!((found / exact - 1.0).abs() < 1e-12);
    }

    #[test]
    fn without_correlation_chances_multiply() {
        for (h, k) in [(0.3, -1.2), (2.0, 0.0), (-0.7, -0.7), (9.5, 1.0)] {
            let product = normal_chance(h) * normal_chance(k);
            assert!((joint_chance(h, k, 0.0) - product).abs() < 1e-15);
        }
    }

    #[test]
    fn the_quadrant_is_sheppards() {
        for rho in [-0.999, -0.8, -0.3, 0.1, 0.5, 0.9, 0.999_9] {
            let exact = 0.25 + libm::asin(rho) / core::f64::consts::TAU;
            assert!((joint_chance(0.0, 0.0, rho) - exact).abs() < 1e-13, "{rho}");
        }
    }

    #[test]
    fn one_variable_alone_is_left_at_full_correlation() {
        for (h, k) in [(0.5, 1.5), (-1.0, 0.2), (1.0, 1.0)] {
            let least = normal_chance(h).min(normal_chance(k));
            assert_eq!(joint_chance(h, k, 1.0), least);
            // Just below, by √(1 − ρ²) at most.
            assert!((joint_chance(h, k, 1.0 - 1e-7) - least).abs() < 2e-4);
            let apart = (normal_chance(h) + normal_chance(k) - 1.0).max(0.0);
            assert!((joint_chance(h, k, -1.0 + 1e-7) - apart).abs() < 2e-4);
        }
    }

    #[test]
    fn both_below_and_one_below_the_other_above_make_up_the_first() {
        for rho in [-0.95, -0.4, 0.2, 0.7, 0.98] {
            for (h, k) in [(0.5, 1.5), (-1.0, 0.2), (2.5, -2.0)] {
                let sum = joint_chance(h, k, rho) + joint_chance(h, -k, -rho);
                assert!(
                    (sum - normal_chance(h)).abs() < 1e-9,
                    "{h} {k} {rho}: {sum}"
                );
            }
        }
        assert!((joint_chance(f64::INFINITY, 0.4, 0.6) - normal_chance(0.4)).abs() < 1e-12);
    }

    #[test]
    fn quantiles_are_those_of_the_normal_table() {
        // Textbook table of the normal distribution, from memory.
        for (chance, z) in [(0.5, 0.0), (0.9, 1.2816), (0.95, 1.6449), (0.975, 1.9600)] {
            assert!((normal_quantile(chance) - z).abs() < 5e-5, "{chance}");
        }
        assert!(normal_quantile(2.0).is_finite());
    }
}
