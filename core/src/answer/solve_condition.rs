//! One condition solved, its shutter fixed or holding the oil.

use crate::answer::hold_oil::held;
use crate::answer::prepare::{Prepared, prepare, prepare_breathing};
use crate::answer::solved::{EvaluateError, Near, ShutterState, Solved};
use crate::document::condition::{Condition, ShutterPolicy};
use crate::document::installation::Installation;
use crate::path::budget::Budget;
use crate::path::report::SolveError;
use crate::path::solve::solve_within;

/// Solves one condition without checking ranges, from a neighbouring solution if there is one.
///
/// # Errors
/// [`EvaluateError`] by name.
///
/// # Example
/// The oil gives up what it takes, to a ten-millionth:
/// ```
/// use coolpath_core::answer::solve_condition::solve_condition;
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::document::example;
///
/// let design = example::design();
/// let solved = solve_condition(&design.installation, &design.conditions[1], None)?;
/// let state = &solved.solution.state;
/// let given_up = state.cooler.heat_w + state.sump_heat_w;
/// assert!((given_up - state.oil_heat_w).abs() < 1e-7 * state.oil_heat_w);
/// # Ok::<(), EvaluateError>(())
/// ```
pub fn solve_condition(
    installation: &Installation,
    condition: &Condition,
    neighbour: Option<&Solved>,
) -> Result<Solved, EvaluateError> {
    let budget = Budget::of_a_condition();
    solve_condition_within(installation, condition, neighbour, &budget)
}

/// As [`solve_condition`], closed to a billionth: for what is one among many draws.
///
/// # Errors
/// As [`solve_condition`].
pub(crate) fn solve_draw(
    installation: &Installation,
    condition: &Condition,
    neighbour: Option<&Solved>,
) -> Result<Solved, EvaluateError> {
    let budget = Budget::of_a_condition().for_differences();
    solve_condition_within(installation, condition, neighbour, &budget)
}

/// As [`solve_condition`], one among the many of a search, whose budget it spends too.
///
/// # Errors
/// As [`solve_condition`]; also once nothing is left of the search's budget.
pub fn solve_in_search(
    installation: &Installation,
    condition: &Condition,
    neighbour: Option<&Solved>,
    search: &Budget<'_>,
) -> Result<Solved, EvaluateError> {
    let budget = Budget::of_a_condition_in(search);
    solve_condition_within(installation, condition, neighbour, &budget)
}

/// As [`solve_condition`], with the states that a budget still holds.
///
/// # Errors
/// As [`solve_condition`];
/// [`SolveError::GaveUp`] once nothing is left.
pub fn solve_condition_within(
    installation: &Installation,
    condition: &Condition,
    neighbour: Option<&Solved>,
    budget: &Budget<'_>,
) -> Result<Solved, EvaluateError> {
    let decks = &installation.decks;
    if decks.draws_from_lower_deck(condition.warm_induction) {
        return breathing_below(installation, condition, neighbour, budget);
    }
    let prepared = prepare(installation, condition).map_err(EvaluateError::Prepare)?;
    solve_prepared(installation, condition, prepared, neighbour, budget)
}

/// Rounds of the charge's temperature, and how closely it must meet the lower deck's, share of itself [-].
const MOST_ROUNDS: u32 = 40;
const CHARGE_TOLERANCE: f64 = 1e-9;

/// An engine that breathes from the lower deck, whose air is as warm as the heads make it that this charge
/// heats: the charge at which both are equal, by the secant rule.
fn breathing_below(
    installation: &Installation,
    condition: &Condition,
    neighbour: Option<&Solved>,
    budget: &Budget<'_>,
) -> Result<Solved, EvaluateError> {
    let mut charge_k = neighbour.map(|near| near.prepared.charge_k);
    let mut near = neighbour.copied();
    let mut before: Option<(f64, f64)> = None;
    let mut residual = f64::INFINITY;
    for _ in 0..MOST_ROUNDS {
        let prepared =
            prepare_breathing(installation, condition, charge_k).map_err(EvaluateError::Prepare)?;
        let found = solve_prepared(installation, condition, prepared, near.as_ref(), budget)?;
        let tried_k = prepared.charge_k;
        let off_k = found.solution.state.lower_k - tried_k;
        residual = off_k.abs() / tried_k;
        if residual <= CHARGE_TOLERANCE {
            return Ok(found);
        }
        // The deck follows its charge by less than it moves: between none of it and nine tenths.
        let follows = before.map_or(0.0, |(charge_k, off_before_k)| {
            1.0 + (off_k - off_before_k) / (tried_k - charge_k)
        });
        let follows = if follows.is_finite() {
            follows.clamp(-2.0, 0.9)
        } else {
            0.0
        };
        before = Some((tried_k, off_k));
        charge_k = Some((tried_k + off_k / (1.0 - follows)).clamp(CHARGE_K.0, CHARGE_K.1));
        near = Some(found);
    }
    Err(EvaluateError::Solve(SolveError::NotConverged {
        residual,
        iterations: MOST_ROUNDS,
    }))
}

/// Charges that are tried, K.
const CHARGE_K: (f64, f64) = (150.0, 1500.0);

/// Solves a condition that is prepared.
fn solve_prepared(
    installation: &Installation,
    condition: &Condition,
    mut prepared: Prepared,
    neighbour: Option<&Solved>,
    budget: &Budget<'_>,
) -> Result<Solved, EvaluateError> {
    let start = neighbour.map(|near| near.solution.start());
    if !installation.shutter.fitted {
        let solution = solve_within(&prepared.cowl, start, budget).map_err(EvaluateError::Solve)?;
        return Ok(Solved {
            prepared,
            solution,
            shutter: ShutterState::NotFitted,
            opening: 1.0,
            open_gauge_k: None,
            near: Near::default(),
        });
    }
    if condition.shutter == ShutterPolicy::Fixed {
        let opening = condition.shutter_opening;
        prepared.set_shutter(installation, opening);
        let solution = solve_within(&prepared.cowl, start, budget).map_err(EvaluateError::Solve)?;
        return Ok(Solved {
            prepared,
            solution,
            shutter: ShutterState::Fixed,
            opening,
            open_gauge_k: None,
            near: Near::default(),
        });
    }
    held(installation, condition, prepared, neighbour, budget)
}
