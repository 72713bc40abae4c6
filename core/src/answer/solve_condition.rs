//! One condition solved, its shutter fixed or holding the oil.

use crate::answer::hold_oil::held;
use crate::answer::prepare::prepare;
use crate::answer::solved::{EvaluateError, Near, ShutterState, Solved};
use crate::document::condition::{Condition, ShutterPolicy};
use crate::document::installation::Installation;
use crate::path::budget::Budget;
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
/// [`SolveError::GaveUp`](crate::path::report::SolveError::GaveUp) once nothing is left.
pub fn solve_condition_within(
    installation: &Installation,
    condition: &Condition,
    neighbour: Option<&Solved>,
    budget: &Budget<'_>,
) -> Result<Solved, EvaluateError> {
    let mut prepared = prepare(installation, condition).map_err(EvaluateError::Prepare)?;
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
