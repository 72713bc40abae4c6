//! What a limit is lowered by, so that it is held with a chosen chance.

use crate::answer::band::{bands_of, figures};
use crate::answer::solve_condition::solve_condition;
use crate::answer::solved::condition_at;
use crate::decide::size::request::{Allowance, SizeError, shutter_open};
use crate::document::design::Design;
use crate::math::normal::normal_quantile;

/// Chance below the upper end of an input's likely range: nine cases in ten lie inside it.
const CHANCE_OF_RANGE: f64 = 0.95;

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
    let condition = condition_at(design, place).map_err(SizeError::Evaluate)?;
    let condition = shutter_open(condition);
    let nominal =
        solve_condition(&design.installation, &condition, None).map_err(SizeError::Evaluate)?;
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
