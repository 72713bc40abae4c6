//! Where the opening of a shutter that holds the oil may lie.
//!
//! The opening ends at its stops, and a butterfly does next to nothing near shut, so that it follows no
//! input straight: single inputs moved to their ends say little of it. It is drawn, like the chances, with
//! the same draws at every outside temperature.

use crate::answer::sampling::{DEFAULT_SEED, Sampling, percentiles};
use crate::answer::solved::{EvaluateError, condition_at};
use crate::document::design::Design;

/// Draws of an opening: in the example's cruise at seven temperatures an end lies within 0.05 of where 2,000
/// put it, at one of them 0.10.
const DRAWS: usize = 80;

/// Ends of the opening in the first condition of a design whose shutter holds its oil: nine draws in ten lie
/// between them, 0 closed to 1 open \[-\].
///
/// # Errors
/// [`EvaluateError`] if the design is refused, has no condition, or no draw has an answer.
pub(crate) fn opening_ends(design: &Design) -> Result<(f64, f64), EvaluateError> {
    condition_at(design, 0)?;
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
    match refused {
        Some(error) if openings.is_empty() => Err(error),
        _ => {
            let found = percentiles(openings.into_iter());
            Ok((found.p05, found.p95))
        }
    }
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
