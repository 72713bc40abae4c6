//! The solver: Newton on flows and pressures, with two fallbacks.
//!
//! Newton works on ln |W| of the fins and the cooler, both deck pressures and the oil
//! temperature; in flows the slopes stay finite where Δp vanishes. It is tried with the fins
//! forward, then backward. Where it fails, the network is relaxed branch by branch
//! (`path::relaxed`), which nearly always comes to rest where Newton can end; else the oil's
//! temperature is bracketed and the network relaxed at each (`path::brackets`). What is returned
//! balances, or an error names what did not. The states that a search works out are counted, and it
//! gives up by name where they are too many (`path::budget`).

use crate::path::brackets::{by_brackets, oil_bounds};
use crate::path::budget::Budget;
use crate::path::halves::solve_halves;
use crate::path::network::Cowl;
use crate::path::newton::{Goal, Rest, Scale, Tries, largest, newton, scaled};
use crate::path::relaxed::{Oil, relaxed};
use crate::path::report::{Gauge, Method, Report, Solution, SolveError};
use crate::path::starts::starts;
use crate::path::state::{Start, State, Trial};

/// Smallest difference of boundary pressures that counts, Pa.
const SPAN_MIN_PA: f64 = 1e-3;
/// Residual that is still accepted where rounding stops the last steps [-].
const ACCEPTED: f64 = 1e-9;

/// Solves the network, from a neighbouring solution if there is one.
///
/// # Errors
/// [`SolveError`] by name; never an unbalanced state.
///
/// # Example
/// A balanced network: no pressure is left across the fins:
/// ```
/// use coolpath_core::answer::prepare::prepare;
/// use coolpath_core::document::example;
/// use coolpath_core::path::solve::solve;
///
/// let design = example::design();
/// let cowl = prepare(&design.installation, &design.conditions[1])?.cowl;
/// let state = solve(&cowl, None)?.state;
/// let across = state.trial.upper_pa - state.trial.lower_pa;
/// assert!((state.fins.drop_pa - across).abs() < 1e-6 * across);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn solve(cowl: &Cowl, start: Option<Start>) -> Result<Solution, SolveError> {
    solve_within(cowl, start, &Budget::of_a_condition())
}

/// As [`solve`], with the states that a budget still holds.
///
/// # Errors
/// As [`solve`]; [`SolveError::GaveUp`] once nothing is left.
pub fn solve_within(
    cowl: &Cowl,
    start: Option<Start>,
    budget: &Budget<'_>,
) -> Result<Solution, SolveError> {
    let scale = scale(cowl)?;
    let mut tries = Tries::of(budget);
    let found = searched(cowl, start, &scale, &mut tries);
    // What is wrong once nothing is left is not known.
    let whole = found.or_else(|error| budget.lasts().and(Err(error)))?;
    match &cowl.halves {
        None => Ok(whole),
        Some(halves) => solve_halves(cowl, halves, &whole, Goal::Pressure, &scale, budget),
    }
}

fn searched(
    cowl: &Cowl,
    start: Option<Start>,
    scale: &Scale,
    tries: &mut Tries<'_>,
) -> Result<Solution, SolveError> {
    let starts = start.into_iter().chain(starts(cowl).map(Start::from));
    if let Some(solution) = by_newton(cowl, starts, Goal::Pressure, scale, tries) {
        return Ok(solution);
    }
    if let Some(solution) = from_rest(cowl, RELAXED_OILS_K[0], scale, tries) {
        return Ok(solution);
    }
    refuse_without_balance(cowl, scale, tries.budget)?;
    if let Some(solution) = from_rest(cowl, RELAXED_OILS_K[1], scale, tries) {
        return Ok(solution);
    }
    let bracketed = by_brackets(cowl, scale, tries.budget)?;
    let rest = polished(cowl, bracketed, scale, tries);
    if rest.residual <= ACCEPTED {
        return Ok(solution(rest, Method::Bracketed, tries));
    }
    Err(SolveError::NotConverged {
        residual: rest.residual,
        iterations: tries.iterations,
    })
}

/// Finds the state in which the oil gauge shows a temperature, whatever pressure that leaves for
/// the shutter: `residual.cooler_pa` of the state is what the shutter must use up beyond its
/// present loss. `None` if Newton finds no such state, or nothing is left of the budget.
///
/// # Errors
/// [`SolveError::NoDrivingPressure`].
pub(crate) fn solve_for_gauge(
    cowl: &Cowl,
    gauge: Gauge,
    start: Start,
    budget: &Budget<'_>,
) -> Result<Option<Solution>, SolveError> {
    let scale = scale(cowl)?;
    let goal = Goal::Gauge(gauge);
    let whole = by_newton(cowl, [start], goal, &scale, &mut Tries::of(budget));
    Ok(match (&cowl.halves, whole) {
        (Some(halves), Some(whole)) => {
            solve_halves(cowl, halves, &whole, goal, &scale, budget).ok()
        }
        (_, whole) => whole,
    })
}

/// Solution from a network that has been relaxed, beginning with an oil temperature, K.
fn from_rest(cowl: &Cowl, oil_k: f64, scale: &Scale, tries: &mut Tries<'_>) -> Option<Solution> {
    let relaxed = relaxed(cowl, Oil::Free(oil_k), scale, tries.budget);
    let rest = polished(cowl, relaxed.trial, scale, tries);
    let holds = rest.residual <= ACCEPTED && is_consistent(cowl, &rest.state);
    holds.then(|| solution(rest, Method::Relaxed, tries))
}

/// Refuses a network whose intake starves, or whose oil gains heat, or loses it, at both ends of
/// what its temperature could be.
fn refuse_without_balance(
    cowl: &Cowl,
    scale: &Scale,
    budget: &Budget<'_>,
) -> Result<(), SolveError> {
    let (coldest_k, hottest_k) = oil_bounds(cowl);
    let ends = [coldest_k, hottest_k].map(|oil_k| relaxed(cowl, Oil::Held(oil_k), scale, budget));
    if ends.iter().any(|rest| rest.starved) {
        return Err(SolveError::IntakeStarved {
            induction_kg_s: cowl.induction_kg_s + cowl.lower_induction_kg_s,
        });
    }
    let gains = ends.map(|rest| budget.state(cowl, rest.trial).residual.oil_w > 0.0);
    if ends.iter().all(|rest| rest.at_rest) && gains[0] == gains[1] {
        return Err(SolveError::NoOilBalance);
    }
    Ok(())
}

/// A trial near a solution as it is, or what Newton makes of it, whichever is better balanced.
fn polished(cowl: &Cowl, trial: Trial, scale: &Scale, tries: &mut Tries<'_>) -> Rest {
    let rough = tries.budget.state(cowl, trial);
    let rough_residual = largest(&scaled(&rough.residual, scale));
    let rest = newton(cowl, trial.into(), Goal::Pressure, scale, tries);
    if rest.residual <= rough_residual && is_consistent(cowl, &rest.state) {
        rest
    } else {
        Rest {
            state: rough,
            residual: rough_residual,
            slopes: None,
        }
    }
}

fn solution(rest: Rest, method: Method, tries: &Tries<'_>) -> Solution {
    Solution {
        state: rest.state,
        report: Report {
            method,
            iterations: tries.iterations,
            residual: rest.residual,
        },
        slopes: rest.slopes,
    }
}

fn by_newton(
    cowl: &Cowl,
    starts: impl IntoIterator<Item = Start>,
    goal: Goal,
    scale: &Scale,
    tries: &mut Tries<'_>,
) -> Option<Solution> {
    let balanced = tries.budget.precision().balanced();
    for start in starts {
        let rest = newton(cowl, start, goal, scale, tries);
        if rest.residual <= balanced && is_consistent(cowl, &rest.state) {
            return Some(solution(rest, Method::Newton, tries));
        }
    }
    None
}

fn scale(cowl: &Cowl) -> Result<Scale, SolveError> {
    let (low, high) = cowl.pressure_bounds();
    let span_pa = high - low;
    if span_pa.is_nan() || span_pa <= SPAN_MIN_PA {
        return Err(SolveError::NoDrivingPressure { span_pa });
    }
    // Flow that the whole span would drive through the fins at the outside density.
    let through_fins = libm::pow(
        span_pa * cowl.stream.density / (cowl.fins.constant * crate::air::atmosphere::DENSITY_SL),
        1.0 / cowl.fins.exponent,
    );
    let oil = cowl.oil.friction_heat_w + cowl.heads.oil_w_k * 100.0 + cowl.oil.sump_w_k * 10.0;
    Ok(Scale {
        pressure_pa: span_pa,
        flow_kg_s: through_fins
            .max(cowl.induction_kg_s)
            .max(cowl.lower_induction_kg_s),
        heat_w: oil.max(1.0),
    })
}

/// Oil temperatures from which the network is relaxed, K.
const RELAXED_OILS_K: [f64; 2] = [370.0, 450.0];

/// The streams run the way their pressures say.
fn is_consistent(cowl: &Cowl, state: &State) -> bool {
    let trial = &state.trial;
    let (from, to) = cowl.cooler_ends(trial.upper_pa, trial.lower_pa);
    let agree = |flow: f64, drop: f64| flow * drop >= 0.0;
    let (gas_k, outside_k) = (cowl.heads.gas_k, cowl.stream.temperature_k);
    agree(trial.fin_kg_s, trial.upper_pa - trial.lower_pa)
        && (cowl.cooler.duct.is_tight() || agree(trial.cooler_kg_s, from - to))
        && trial.oil_k > 0.5 * outside_k
        && trial.oil_k < 2.0 * gas_k
        && state.lower_k > 0.0
}
