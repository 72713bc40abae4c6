//! Help for the climb: which airspeed, which power, and what enriching is worth.
//!
//! Each search has a budget of states ([`budget`](crate::path::budget)).

use crate::answer::band::figures;
use crate::answer::solve_condition::solve_in_search;
use crate::answer::solved::EvaluateError;
use crate::decide::power::{at_share, with_mixture_as_ratio, with_power_as_share};
use crate::document::condition::{Condition, Mixture, SpeedKind};
use crate::document::installation::Installation;
use crate::math::root::fallible_root;
use crate::path::budget::Budget;
use crate::units::quantity::metre_per_s;
use crate::units::si::knot;

/// Where something holds a head temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Holding {
    /// From this value on: indicated airspeed, m/s, or share of rated power [-].
    From(f64),
    /// Over the whole range that was looked at.
    Everywhere,
    /// Nowhere in the range that was looked at.
    Nowhere,
}

const KNOT: f64 = knot(1.0);
/// Range of airspeeds that is looked at, m/s.
pub const SPEEDS_M_S: (f64, f64) = (40.0 * KNOT, 200.0 * KNOT);
/// Range of power that is looked at, share of rated power [-].
pub const POWERS: (f64, f64) = (0.1, 1.05);
const STEPS: u32 = 20;

fn head_k(
    installation: &Installation,
    condition: &Condition,
    search: &Budget<'_>,
) -> Result<f64, EvaluateError> {
    let found = solve_in_search(installation, condition, None, search)?;
    Ok(figures(installation, &found).head_hottest)
}

/// A condition with another indicated airspeed.
fn at_speed(condition: &Condition, speed_m_s: f64) -> Condition {
    Condition {
        speed: SpeedKind::Indicated,
        airspeed: metre_per_s(speed_m_s),
        ..condition.clone()
    }
}

/// Slowest indicated airspeed from which on the hottest head stays at or below a temperature, K.
///
/// The range is walked from fast to slow, so that a second crossing at low speed (the propeller
/// cools too) does not hide the one that matters.
///
/// # Errors
/// [`EvaluateError`] if the condition has no answer at some speed, or the search's budget did not last.
///
/// # Example
/// At the airspeed that it names, the hottest head stands at the temperature asked for:
/// ```
/// use coolpath_core::answer::evaluate::evaluate;
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::decide::climb::{Holding, slowest_airspeed};
/// use coolpath_core::document::condition::SpeedKind;
/// use coolpath_core::document::example;
/// use coolpath_core::units::quantity::metre_per_s;
///
/// let mut design = example::design();
/// // A little cooler than this climb: it takes a little more speed.
/// let wanted_k = evaluate(&design, 2)?.head_hottest.value - 2.0;
/// let found = slowest_airspeed(&design.installation, &design.conditions[2], wanted_k)?;
/// let Holding::From(speed) = found else { panic!("{found:?}") };
/// design.conditions[2].speed = SpeedKind::Indicated;
/// design.conditions[2].airspeed = metre_per_s(speed);
/// assert!((evaluate(&design, 2)?.head_hottest.value - wanted_k).abs() < 0.01);
/// # Ok::<(), EvaluateError>(())
/// ```
pub fn slowest_airspeed(
    installation: &Installation,
    condition: &Condition,
    limit_k: f64,
) -> Result<Holding, EvaluateError> {
    let search = Budget::of_a_search(1);
    let miss = |speed: f64| -> Result<f64, EvaluateError> {
        Ok(head_k(installation, &at_speed(condition, speed), &search)? - limit_k)
    };
    walk(miss, SPEEDS_M_S.1, SPEEDS_M_S.0)
}

/// Largest share of rated power at which the hottest head stays at or below a temperature, K, at
/// the condition's own airspeed and mixture; one by fuel flow keeps its ratio.
///
/// # Errors
/// [`EvaluateError`] if the condition has no answer at some power, or the search's budget did not last.
pub fn largest_power(
    installation: &Installation,
    condition: &Condition,
    limit_k: f64,
) -> Result<Holding, EvaluateError> {
    let condition = with_mixture_as_ratio(installation, condition)?;
    let search = Budget::of_a_search(1);
    let miss = |share: f64| -> Result<f64, EvaluateError> {
        let there = at_share(&condition, share);
        Ok(head_k(installation, &there, &search)? - limit_k)
    };
    walk(miss, POWERS.0, POWERS.1)
}

/// Walks from an end where the temperature holds until it does not, and finds where.
fn walk(
    miss: impl Fn(f64) -> Result<f64, EvaluateError>,
    from: f64,
    to: f64,
) -> Result<Holding, EvaluateError> {
    if miss(from)? > 0.0 {
        return Ok(Holding::Nowhere);
    }
    let mut held = from;
    for step in 1..=STEPS {
        let next = from + (to - from) * f64::from(step) / f64::from(STEPS);
        if miss(next)? > 0.0 {
            let tolerance = 1e-6 * (to - from).abs();
            let root = fallible_root(miss, held.min(next), held.max(next), tolerance)?;
            return Ok(Holding::From(root.map_or(held, |root| root.x)));
        }
        held = next;
    }
    Ok(Holding::Everywhere)
}

/// Hottest head, K, with each mixture that has a name, the power as it is: where the fuel flow gives it, the
/// share that it gives with the condition's own mixture.
///
/// # Errors
/// [`EvaluateError`] if the condition has no answer with one of them, or the search's budget did not last.
///
/// # Example
/// Full rich burns cooler than best power, at the same power:
/// ```
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::decide::climb::mixtures;
/// use coolpath_core::document::condition::Mixture;
/// use coolpath_core::document::example;
///
/// let design = example::design();
/// let [rich, best, ..] = mixtures(&design.installation, &design.conditions[1])?;
/// assert_eq!((rich.0, best.0), (Mixture::FullRich, Mixture::BestPower));
/// assert!(rich.1 < best.1);
/// # Ok::<(), EvaluateError>(())
/// ```
pub fn mixtures(
    installation: &Installation,
    condition: &Condition,
) -> Result<[(Mixture, f64); 4], EvaluateError> {
    let condition = with_power_as_share(installation, condition)?;
    let search = Budget::of_a_search(1);
    let at = |mixture: Mixture| -> Result<(Mixture, f64), EvaluateError> {
        let varied = Condition {
            mixture,
            ..condition.clone()
        };
        Ok((mixture, head_k(installation, &varied, &search)?))
    };
    Ok([
        at(Mixture::FullRich)?,
        at(Mixture::BestPower)?,
        at(Mixture::PeakEgt)?,
        at(Mixture::LeanOfPeak)?,
    ])
}
