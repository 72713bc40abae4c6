//! What a limit is lowered by, so that it is held with a chosen chance.

use crate::answer::band::bands;
use crate::answer::solved::condition_at;
use crate::decide::size::request::{Allowance, SizeError};
use crate::document::design::Design;
use crate::math::normal::normal_quantile;

/// Chance below the upper end of an input's likely range: nine cases in ten lie inside it.
const CHANCE_OF_RANGE: f64 = 0.95;

/// Allowance of one condition at the sizes that stand in the design.
///
/// The upper band of head and oil (first order, ranges as ±1.645 standard deviations) is brought
/// to the chosen chance, the model's own error with it. The chance holds for each limit in each
/// condition by itself.
///
/// # Arguments
/// * `chance` - that a limit is held, from 0.5 to 0.999
///
/// # Errors
/// [`SizeError::Evaluate`] if the condition has no answer; [`SizeError::OpenRange`] if an end of a
/// range has none, so that no size can be promised.
pub fn allowance(design: &Design, place: usize, chance: f64) -> Result<Allowance, SizeError> {
    let condition = condition_at(design, place).map_err(SizeError::Evaluate)?;
    let mut judged = design.clone();
    judged.conditions[place] = condition.with_shutter_open();
    let bands = bands(&judged, place).map_err(SizeError::Evaluate)?;
    let (head, oil) = (bands.figures.head_hottest, bands.figures.oil);
    if let Some((input, _)) = bands.open.first()
        && (head.above.is_infinite() || oil.above.is_infinite())
    {
        return Err(SizeError::OpenRange {
            condition: condition.name.clone(),
            input: input.label.into(),
        });
    }
    let share = normal_quantile(chance.max(0.5)) / normal_quantile(CHANCE_OF_RANGE);
    Ok(Allowance {
        head_k: share * head.above,
        oil_k: share * oil.above,
    })
}
