//! Where the opening of a shutter that holds the oil may lie.
//!
//! The opening ends at its stops, and a butterfly does next to nothing near shut, so that it follows no
//! input straight: single inputs moved to their ends say little of it. It is drawn, like the chances, with
//! the same draws at every outside temperature.

use crate::answer::sampling::{DEFAULT_SEED, Sampling};
use crate::answer::solved::EvaluateError;
use crate::document::design::Design;

/// Draws of an opening; with 80 of them an end lies within some 4 % of where 2,000 put it.
const DRAWS: usize = 80;
/// Share of the draws beyond each end, as everywhere.
const BEYOND: f64 = 0.05;

/// Ends of the opening in the first condition of a design whose shutter holds its oil: nine draws in ten lie
/// between them, 0 closed to 1 open \[-\].
///
/// # Errors
/// [`EvaluateError`] if the design is refused, or no draw has an answer.
pub(crate) fn opening_ends(design: &Design) -> Result<(f64, f64), EvaluateError> {
    let sampling = Sampling::new(design, DRAWS, DEFAULT_SEED)?;
    let mut varied = design.clone();
    let mut openings = Vec::with_capacity(DRAWS);
    // A condition that no draw has an answer for has this one's reason.
    let mut refused = None;
    for draw in 0..sampling.draws() {
        sampling.vary(draw, &mut varied);
        match sampling.solved(draw, 0, &varied) {
            Ok(solved) => openings.push(solved.opening),
            Err(error) => refused = Some(error),
        }
    }
    openings.sort_by(f64::total_cmp);
    let at = |share: f64| {
        let last = openings.len().checked_sub(1)?;
        openings
            .get((share * last as f64).round() as usize)
            .copied()
    };
    at(BEYOND).zip(at(1.0 - BEYOND)).ok_or_else(|| {
        let count = design.conditions.len();
        refused.unwrap_or(EvaluateError::NoSuchCondition { place: 0, count })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::condition::{AirKind, ShutterPolicy};
    use crate::document::example;
    use crate::units::quantity::kelvin;

    fn ends(oat_k: f64) -> (f64, f64) {
        let mut cruise = example::design().conditions[3].clone();
        cruise.air = AirKind::Oat;
        cruise.oat = kelvin(oat_k);
        cruise.shutter = ShutterPolicy::HoldOil;
        opening_ends(&example::design().with_only(cruise)).expect("draws")
    }

    #[test]
    fn both_ends_rise_with_the_outside_air_also_where_the_shutter_comes_to_a_stop() {
        let along: Vec<(f64, f64)> = (0..15)
            .map(|step| ends(235.0 + 5.0 * f64::from(step)))
            .collect();
        for pair in along.windows(2) {
            let (cold, warm) = (pair[0], pair[1]);
            assert!(
                cold.0 <= warm.0 + 1e-9 && cold.1 <= warm.1 + 1e-9,
                "{cold:?} {warm:?}"
            );
        }
        let (first, last) = (along[0], along[14]);
        assert!(
            first.0 == 0.0 && first.1 > 0.2 && first.1 < 0.9,
            "{first:?}"
        );
        assert!(last.0 > 0.3 && last.1 == 1.0, "{last:?}");
    }
}
