//! A condition said in other words, so that its power may change without its mixture, or its mixture without
//! its power.
//!
//! Where a fuel flow gives the power, another mixture would change the power with it; where it gives the
//! mixture, another power would change the mixture.

use crate::answer::prepare::{Prepared, prepare};
use crate::answer::solve_condition::solve_condition;
use crate::answer::solved::EvaluateError;
use crate::document::condition::{Condition, Mixture, PowerKind};
use crate::document::installation::Installation;

/// What the engine breathes and burns in a condition; a charge from the lower deck as warm as that deck.
fn own(installation: &Installation, condition: &Condition) -> Result<Prepared, EvaluateError> {
    let decks = &installation.decks;
    if decks.draws_from_lower_deck(condition.warm_induction) {
        return Ok(solve_condition(installation, condition, None)?.prepared);
    }
    prepare(installation, condition).map_err(EvaluateError::Prepare)
}

/// The condition with a mixture that the fuel flow gave as the ratio that it is.
pub(crate) fn with_mixture_as_ratio(
    installation: &Installation,
    condition: &Condition,
) -> Result<Condition, EvaluateError> {
    if condition.mixture != Mixture::FuelFlow {
        return Ok(condition.clone());
    }
    Ok(at_ratio(condition, own(installation, condition)?.phi))
}

/// The condition with a mixture that the fuel flow gave at an equivalence ratio [-]; a named one stays.
fn at_ratio(condition: &Condition, phi: f64) -> Condition {
    let mut kept = condition.clone();
    if kept.mixture == Mixture::FuelFlow {
        (kept.mixture, kept.phi) = (Mixture::Ratio, phi);
    }
    kept
}

/// The condition with a power that the fuel flow gave as the share that it is.
pub(crate) fn with_power_as_share(
    installation: &Installation,
    condition: &Condition,
) -> Result<Condition, EvaluateError> {
    if condition.power != PowerKind::FuelFlow {
        return Ok(condition.clone());
    }
    Ok(at_share(condition, own(installation, condition)?.share))
}

/// The condition with another share of rated power [-], its mixture named or a ratio.
pub(crate) fn at_share(condition: &Condition, share: f64) -> Condition {
    Condition {
        power: PowerKind::Share,
        power_share: share,
        ..condition.clone()
    }
}

/// The condition with a part of its power [-] and its own mixture.
///
/// The part is one of the share at best power: brake power holds what the mixture takes already.
pub(crate) fn at_part_of_power(
    installation: &Installation,
    condition: &Condition,
    part: f64,
) -> Result<Condition, EvaluateError> {
    let own = own(installation, condition)?;
    Ok(at_share(&at_ratio(condition, own.phi), part * own.share))
}
