//! The solver: Newton on flows and pressures, with two fallbacks.
//!
//! Newton works on ln |W| of the fins and the cooler, both deck pressures and the oil
//! temperature; in flows the slopes stay finite where Δp vanishes. It is tried with the fins
//! forward, then backward. Where it fails, the network is relaxed branch by branch
//! (`path::relaxed`), which nearly always comes to rest where Newton can end; else the pressures are
//! bracketed deck by deck inside a bracket of the oil temperature (`path::decks`). What is returned
//! balances, or an error names what did not.

use crate::engine::oil;
use crate::math::broyden::updated;
use crate::path::brackets::{by_brackets, oil_bounds};
use crate::path::network::Cowl;
use crate::path::relaxed::relaxed;
use crate::path::starts::starts;
use crate::path::state::{Residual, State, Trial};

/// How a solution was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Method {
    /// Newton alone.
    Newton,
    /// Newton from a relaxed start.
    Relaxed,
    /// Brackets, polished by Newton.
    Bracketed,
}

/// The solver's report.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Report {
    /// How it was found.
    pub method: Method,
    /// Newton steps taken.
    pub iterations: u32,
    /// Largest residual, each as a share of its scale [-].
    pub residual: f64,
}

/// A balanced state and how it was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Solution {
    /// The state.
    pub state: State,
    /// The report.
    pub report: Report,
}

/// Why a network has no solution.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum SolveError {
    /// The openings cannot feed what the engine's intake takes from the upper deck.
    IntakeStarved {
        /// What the intake takes, kg/s.
        induction_kg_s: f64,
    },
    /// All boundaries stand at the same pressure: nothing moves the air.
    NoDrivingPressure {
        /// Difference of the boundary pressures, Pa.
        span_pa: f64,
    },
    /// The balances could not be closed.
    NotConverged {
        /// Largest residual, as a share of its scale [-].
        residual: f64,
        /// Newton steps taken.
        iterations: u32,
    },
    /// The oil has no steady temperature between the outside air and the combustion gas.
    NoOilBalance,
}

/// Smallest difference of boundary pressures that counts, Pa.
const SPAN_MIN_PA: f64 = 1e-3;
/// Residual at which a solution counts as balanced, as a share of its scale [-].
const BALANCED: f64 = 1e-11;
/// Residual that is still accepted where rounding stops the last steps [-].
const ACCEPTED: f64 = 1e-9;
/// Temperature difference that counts as one in the oil gauge's residual, K.
const GAUGE_SCALE_K: f64 = 100.0;
const MAX_STEPS: u32 = 20;
const UNKNOWNS: usize = 5;

type Vector = [f64; UNKNOWNS];

/// Scales that make residuals and steps comparable.
#[derive(Debug, Clone, Copy)]
struct Scale {
    pressure_pa: f64,
    flow_kg_s: f64,
    heat_w: f64,
}

/// What the cooler's flow is to do.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Goal {
    /// Use up the pressure across the cooler's branch.
    Pressure,
    /// Bring the oil gauge to a temperature, K.
    Gauge(Gauge),
}

/// Temperature that the oil gauge is to show.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gauge {
    /// Temperature, K.
    pub target_k: f64,
    /// The probe sits behind the cooler.
    pub after_cooler: bool,
}

/// Temperature at the oil gauge, K, of a state.
#[must_use]
pub fn gauge_temperature(state: &State, after_cooler: bool) -> f64 {
    if !after_cooler || state.terms.pump_kg_s <= 0.0 {
        return state.trial.oil_k;
    }
    // All oil mixes behind the cooler: T = T_oil − Q / (ṁ c)
    let capacity = state.terms.pump_kg_s * oil::specific_heat(state.trial.oil_k);
    state.trial.oil_k - state.cooler.heat_w / capacity
}

/// Solves the network, from a neighbouring solution if there is one.
///
/// # Errors
/// [`SolveError`] by name; never an unbalanced state.
pub fn solve(cowl: &Cowl, start: Option<Trial>) -> Result<Solution, SolveError> {
    let scale = scale(cowl)?;
    let mut iterations = 0;
    let starts = start.into_iter().chain(starts(cowl));
    if let Some(solution) = by_newton(cowl, starts, Goal::Pressure, &scale, &mut iterations) {
        return Ok(solution);
    }
    if let Some(solution) = from_rest(cowl, RELAXED_OILS_K[0], &scale, &mut iterations) {
        return Ok(solution);
    }
    refuse_without_balance(cowl, &scale)?;
    if let Some(solution) = from_rest(cowl, RELAXED_OILS_K[1], &scale, &mut iterations) {
        return Ok(solution);
    }
    let bracketed = by_brackets(cowl)?;
    let (state, residual) = polished(cowl, bracketed, &scale, &mut iterations);
    if residual <= ACCEPTED {
        let report = Report {
            method: Method::Bracketed,
            iterations,
            residual,
        };
        return Ok(Solution { state, report });
    }
    Err(SolveError::NotConverged {
        residual,
        iterations,
    })
}

/// Finds the state in which the oil gauge shows a temperature, whatever pressure that leaves for
/// the shutter: `residual.cooler_pa` of the state is what the shutter must use up beyond its
/// present loss. `None` if Newton finds no such state.
///
/// # Errors
/// [`SolveError::NoDrivingPressure`].
pub fn solve_for_gauge(
    cowl: &Cowl,
    gauge: Gauge,
    start: Trial,
) -> Result<Option<Solution>, SolveError> {
    let scale = scale(cowl)?;
    let mut iterations = 0;
    Ok(by_newton(
        cowl,
        [start],
        Goal::Gauge(gauge),
        &scale,
        &mut iterations,
    ))
}

/// Solution from a network that has been relaxed, beginning with an oil temperature, K.
fn from_rest(cowl: &Cowl, oil_k: f64, scale: &Scale, iterations: &mut u32) -> Option<Solution> {
    let rest = relaxed(cowl, oil_k, true, scale.flow_kg_s, scale.pressure_pa);
    let (state, residual) = polished(cowl, rest.trial, scale, iterations);
    let report = Report {
        method: Method::Relaxed,
        iterations: *iterations,
        residual,
    };
    let holds = residual <= ACCEPTED && is_consistent(cowl, &state);
    holds.then_some(Solution { state, report })
}

/// Refuses a network whose intake starves, or whose oil gains heat, or loses it, at both ends of
/// what its temperature could be.
fn refuse_without_balance(cowl: &Cowl, scale: &Scale) -> Result<(), SolveError> {
    let (coldest_k, hottest_k) = oil_bounds(cowl);
    let ends = [coldest_k, hottest_k]
        .map(|oil_k| relaxed(cowl, oil_k, false, scale.flow_kg_s, scale.pressure_pa));
    if ends.iter().any(|rest| rest.starved) {
        return Err(SolveError::IntakeStarved {
            induction_kg_s: cowl.induction_kg_s,
        });
    }
    let gains = ends.map(|rest| cowl.state(rest.trial).residual.oil_w > 0.0);
    if ends.iter().all(|rest| rest.at_rest) && gains[0] == gains[1] {
        return Err(SolveError::NoOilBalance);
    }
    Ok(())
}

/// A trial near a solution as it is, or what Newton makes of it, whichever is better balanced.
fn polished(cowl: &Cowl, trial: Trial, scale: &Scale, iterations: &mut u32) -> (State, f64) {
    let rough = cowl.state(trial);
    let rough_residual = largest(&scaled(&rough.residual, scale));
    let (state, residual) = newton(cowl, trial, Goal::Pressure, scale, iterations);
    if residual <= rough_residual && is_consistent(cowl, &state) {
        (state, residual)
    } else {
        (rough, rough_residual)
    }
}

fn by_newton(
    cowl: &Cowl,
    starts: impl IntoIterator<Item = Trial>,
    goal: Goal,
    scale: &Scale,
    iterations: &mut u32,
) -> Option<Solution> {
    for trial in starts {
        let (state, residual) = newton(cowl, trial, goal, scale, iterations);
        if residual <= BALANCED && is_consistent(cowl, &state) {
            let report = Report {
                method: Method::Newton,
                iterations: *iterations,
                residual,
            };
            return Some(Solution { state, report });
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
        flow_kg_s: through_fins.max(cowl.induction_kg_s),
        heat_w: oil.max(1.0),
    })
}

/// Oil temperatures from which the network is relaxed, K.
const RELAXED_OILS_K: [f64; 2] = [370.0, 450.0];

fn scaled(residual: &Residual, scale: &Scale) -> Vector {
    [
        residual.fins_pa / scale.pressure_pa,
        residual.cooler_pa / scale.pressure_pa,
        residual.upper_kg_s / scale.flow_kg_s,
        residual.lower_kg_s / scale.flow_kg_s,
        residual.oil_w / scale.heat_w,
    ]
}

/// Largest absolute component; infinite if any is not a number.
fn largest(vector: &Vector) -> f64 {
    vector.iter().fold(0.0, |most: f64, part| {
        if part.is_nan() {
            f64::INFINITY
        } else {
            most.max(part.abs())
        }
    })
}

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

/// A trial moved by a step in ln W, ln W, Pa, Pa, K.
fn moved(trial: &Trial, step: &Vector, share: f64) -> Trial {
    Trial {
        fin_kg_s: trial.fin_kg_s * libm::exp(share * step[0]),
        cooler_kg_s: trial.cooler_kg_s * libm::exp(share * step[1]),
        upper_pa: trial.upper_pa + share * step[2],
        lower_pa: trial.lower_pa + share * step[3],
        oil_k: trial.oil_k + share * step[4],
    }
}

fn newton(
    cowl: &Cowl,
    start: Trial,
    goal: Goal,
    scale: &Scale,
    iterations: &mut u32,
) -> (State, f64) {
    let tight = cowl.cooler.duct.is_tight() && goal == Goal::Pressure;
    let residual_of = |state: &State| {
        let mut vector = scaled(&state.residual, scale);
        match goal {
            Goal::Pressure if tight => vector[1] = 0.0,
            Goal::Pressure => {}
            Goal::Gauge(gauge) => {
                let shown = gauge_temperature(state, gauge.after_cooler);
                vector[1] = (shown - gauge.target_k) / GAUGE_SCALE_K;
            }
        }
        vector
    };
    let start = if tight {
        Trial {
            cooler_kg_s: 0.0,
            ..start
        }
    } else {
        start
    };
    let mut state = cowl.state(start);
    let mut residual = residual_of(&state);
    let mut size = largest(&residual);
    let mut slopes = None;
    for _ in 0..MAX_STEPS {
        if size <= BALANCED * 0.01 || !size.is_finite() {
            break;
        }
        let fresh = slopes.is_none();
        let matrix: Slopes = slopes
            .unwrap_or_else(|| differences(cowl, &state, &residual, scale, tight, &residual_of));
        let next = linear_solution(&matrix, &residual)
            .and_then(|step| accepted(cowl, &state, &step, size, scale, &residual_of));
        let Some(taken) = next else {
            if fresh {
                break;
            }
            // Slopes that were carried along have become too old.
            slopes = None;
            continue;
        };
        *iterations += 1;
        slopes = (taken.size < KEPT_WHILE * size).then(|| {
            let changed = core::array::from_fn(|row| taken.residual[row] - residual[row]);
            let units = [1.0, 1.0, scale.pressure_pa, scale.pressure_pa, OIL_UNIT_K];
            updated(&matrix, &taken.step, &changed, &units)
        });
        (state, residual, size) = (taken.state, taken.residual, taken.size);
    }
    (state, size)
}

/// Slopes of the residuals, row by row.
type Slopes = [Vector; UNKNOWNS];

/// Slopes are carried along while a step leaves less than this share of the residual.
const KEPT_WHILE: f64 = 0.1;

/// Change of the oil that counts as much as the whole span of pressures, K.
const OIL_UNIT_K: f64 = 100.0;

/// A step that was taken.
struct Taken {
    step: Vector,
    state: State,
    residual: Vector,
    size: f64,
}

/// The step, or the part of it that lessens the residual; `None` if no part does.
fn accepted(
    cowl: &Cowl,
    state: &State,
    step: &Vector,
    size: f64,
    scale: &Scale,
    residual_of: &impl Fn(&State) -> Vector,
) -> Option<Taken> {
    let mut share = limited_share(step, scale);
    for _ in 0..10 {
        let next = cowl.state_near(moved(&state.trial, step, share), state);
        let residual = residual_of(&next);
        let next_size = largest(&residual);
        if next_size < size {
            return Some(Taken {
                step: step.map(|part| share * part),
                state: next,
                residual,
                size: next_size,
            });
        }
        share *= 0.4;
    }
    None
}

/// Steps of the differences: small against the curvature, large against rounding.
const DIFFERENCE: f64 = 1e-6;

fn differences(
    cowl: &Cowl,
    state: &State,
    residual: &Vector,
    scale: &Scale,
    tight: bool,
    residual_of: &impl Fn(&State) -> Vector,
) -> Slopes {
    let sizes = [
        DIFFERENCE,
        DIFFERENCE,
        DIFFERENCE * scale.pressure_pa,
        DIFFERENCE * scale.pressure_pa,
        1e-4,
    ];
    let mut matrix = [[0.0; UNKNOWNS]; UNKNOWNS];
    for column in 0..UNKNOWNS {
        if column == 1 && tight {
            matrix[1][1] = 1.0;
            continue;
        }
        let mut step = [0.0; UNKNOWNS];
        step[column] = sizes[column];
        let shifted = residual_of(&cowl.state_near(moved(&state.trial, &step, 1.0), state));
        for (row, line) in matrix.iter_mut().enumerate() {
            line[column] = (shifted[row] - residual[row]) / sizes[column];
        }
    }
    matrix
}

/// The step that the slopes say takes the residual to zero, by elimination with row pivots; `None`
/// if they are singular.
fn linear_solution(slopes: &Slopes, residual: &Vector) -> Option<Vector> {
    let mut matrix = [[0.0; UNKNOWNS + 1]; UNKNOWNS];
    for (line, (own, part)) in matrix.iter_mut().zip(slopes.iter().zip(residual)) {
        line[..UNKNOWNS].copy_from_slice(own);
        line[UNKNOWNS] = -part;
    }
    for column in 0..UNKNOWNS {
        let pivot = (column..UNKNOWNS)
            .max_by(|&a, &b| matrix[a][column].abs().total_cmp(&matrix[b][column].abs()))?;
        matrix.swap(column, pivot);
        let lead = matrix[column];
        if lead[column] == 0.0 || lead[column].is_nan() {
            return None;
        }
        for line in matrix.iter_mut().skip(column + 1) {
            let factor = line[column] / lead[column];
            for (part, above) in line.iter_mut().zip(lead).skip(column) {
                *part -= factor * above;
            }
        }
    }
    let mut solution = [0.0; UNKNOWNS];
    for row in (0..UNKNOWNS).rev() {
        let known: f64 = (row + 1..UNKNOWNS)
            .map(|column| matrix[row][column] * solution[column])
            .sum();
        solution[row] = (matrix[row][UNKNOWNS] - known) / matrix[row][row];
    }
    solution
        .iter()
        .all(|part| part.is_finite())
        .then_some(solution)
}

/// Share of a step that keeps flows, pressures and oil within reach of the last point.
fn limited_share(step: &Vector, scale: &Scale) -> f64 {
    let limits = [2.0, 2.0, scale.pressure_pa, scale.pressure_pa, 120.0];
    step.iter()
        .zip(limits)
        .fold(1.0, |share: f64, (part, limit)| {
            share.min(limit / part.abs().max(limit))
        })
}
