//! What a limit is lowered by, so that it is held with a chosen chance.

use crate::answer::band::{bands_of, figures};
use crate::answer::evaluate::solved;
use crate::decide::size::{SizeError, shutter_open};
use crate::document::design::Design;
use crate::math::root::bracketed_root;

/// What one condition's limits are lowered by.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Allowance {
    /// Hottest head, K.
    pub head_k: f64,
    /// Oil at the gauge, K.
    pub oil_k: f64,
}

/// Chance below the upper end of an input's likely range: nine cases in ten lie inside it.
const CHANCE_OF_RANGE: f64 = 0.95;

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

/// Allowance of one condition at the sizes that stand in the design.
///
/// The upper band of head and oil (first order, ranges as ±1.645 standard deviations) is brought
/// to the chosen chance. The chance holds for each limit in each condition by itself.
///
/// # Arguments
/// * `chance` - that a limit is held, from 0.5 to 0.999
///
/// # Errors
/// [`SizeError::Evaluate`] if the condition has no answer.
pub fn allowance(design: &Design, place: usize, chance: f64) -> Result<Allowance, SizeError> {
    let condition =
        crate::answer::prepare::condition_at(&design.conditions, place).map_err(|error| {
            SizeError::Evaluate(crate::answer::evaluate::EvaluateError::Prepare(error))
        })?;
    let condition = shutter_open(condition);
    let nominal = solved(&design.installation, &condition, None).map_err(SizeError::Evaluate)?;
    let [head, oil] = bands_of(design, &condition, &nominal, |installation, solved| {
        let figures = figures(installation, solved);
        [figures.head_hottest, figures.oil]
    });
    let share = normal_quantile(chance.max(0.5)) / normal_quantile(CHANCE_OF_RANGE);
    Ok(Allowance {
        head_k: share * head.above,
        oil_k: share * oil.above,
    })
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
