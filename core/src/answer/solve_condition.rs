//! One condition solved, its shutter fixed or holding the oil.

use crate::answer::hold_oil::held;
use crate::answer::prepare::prepare;
use crate::answer::solved::{EvaluateError, ShutterState, Solved};
use crate::document::condition::{Condition, ShutterPolicy};
use crate::document::installation::Installation;
use crate::path::solve;

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
    let mut prepared = prepare(installation, condition).map_err(EvaluateError::Prepare)?;
    let start = neighbour.map(|near| near.solution.state.trial);
    if !installation.shutter.fitted {
        let solution = solve::solve(&prepared.cowl, start).map_err(EvaluateError::Solve)?;
        return Ok(Solved {
            prepared,
            solution,
            shutter: ShutterState::NotFitted,
            opening: 1.0,
            open_gauge_k: None,
        });
    }
    if condition.shutter == ShutterPolicy::Fixed {
        let opening = condition.shutter_opening;
        prepared.set_shutter(installation, opening);
        let solution = solve::solve(&prepared.cowl, start).map_err(EvaluateError::Solve)?;
        return Ok(Solved {
            prepared,
            solution,
            shutter: ShutterState::Fixed,
            opening,
            open_gauge_k: None,
        });
    }
    held(installation, condition, prepared, start)
}
