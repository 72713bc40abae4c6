//! Newton on ln W of fins and cooler, both deck pressures and the oil, its slopes carried along.

use crate::math::broyden::updated;
use crate::math::elimination::linear_solution;
use crate::path::budget::{Budget, Precision};
use crate::path::network::Cowl;
use crate::path::report::{Gauge, gauge_temperature};
use crate::path::state::{Residual, Slopes, Start, State, Trial, UNKNOWNS};

/// Residual at which a solution counts as balanced, as a share of its scale [-].
pub(super) const BALANCED: f64 = 1e-11;
/// Temperature difference that counts as one in the oil gauge's residual, K.
pub(super) const GAUGE_SCALE_K: f64 = 100.0;
/// Residual at which a search for differences rests, and counts as balanced [-].
const ROUGHLY: f64 = 1e-9;

impl Precision {
    /// Residual at which a search rests [-].
    fn enough(self) -> f64 {
        match self {
            Self::Full => BALANCED * 0.01,
            Self::Difference => ROUGHLY,
        }
    }

    /// Residual at which what Newton came to counts as balanced [-].
    pub(super) fn balanced(self) -> f64 {
        match self {
            Self::Full => BALANCED,
            Self::Difference => ROUGHLY,
        }
    }
}
const MAX_STEPS: u32 = 20;

pub(super) type Vector = [f64; UNKNOWNS];

/// Scales that make residuals and steps comparable.
#[derive(Debug, Clone, Copy)]
pub(super) struct Scale {
    /// Span of the boundary pressures, Pa.
    pub(super) pressure_pa: f64,
    /// Flow that the span would drive through the fins, kg/s.
    pub(super) flow_kg_s: f64,
    /// Heat of the oil, W.
    pub(super) heat_w: f64,
}

/// What the cooler's flow is to do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Goal {
    /// Use up the pressure across the cooler's branch.
    Pressure,
    /// Bring the oil gauge to a temperature, K.
    Gauge(Gauge),
}

/// What a search has taken so far, and what it may take.
#[derive(Debug)]
pub(super) struct Tries<'a> {
    /// Newton steps taken.
    pub(super) iterations: u32,
    /// States.
    pub(super) budget: &'a Budget<'a>,
}

impl<'a> Tries<'a> {
    pub(super) fn of(budget: &'a Budget<'a>) -> Self {
        Self {
            iterations: 0,
            budget,
        }
    }
}

pub(super) fn scaled(residual: &Residual, scale: &Scale) -> Vector {
    [
        residual.fins_pa / scale.pressure_pa,
        residual.cooler_pa / scale.pressure_pa,
        residual.upper_kg_s / scale.flow_kg_s,
        residual.lower_kg_s / scale.flow_kg_s,
        residual.oil_w / scale.heat_w,
    ]
}

/// Largest absolute component; infinite if any is not a number.
pub(super) fn largest(vector: &[f64]) -> f64 {
    vector.iter().fold(0.0, |most: f64, part| {
        if part.is_nan() {
            f64::INFINITY
        } else {
            most.max(part.abs())
        }
    })
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

/// Where Newton came to.
pub(super) struct Rest {
    pub(super) state: State,
    /// Largest residual, as a share of its scale [-].
    pub(super) residual: f64,
    /// Slopes as they were carried along.
    pub(super) slopes: Option<Slopes>,
}

/// Newton's steps from a start, until it balances or nothing comes closer.
///
/// # Arguments
/// * `scale` - of residuals and steps
/// * `tries` - steps taken so far and states that may be worked out
pub(super) fn newton(
    cowl: &Cowl,
    start: Start,
    goal: Goal,
    scale: &Scale,
    tries: &mut Tries<'_>,
) -> Rest {
    let budget = tries.budget;
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
    let Start {
        mut trial,
        mut slopes,
    } = start;
    if tight {
        trial.cooler_kg_s = 0.0;
    }
    let mut state = budget.state(cowl, trial);
    let mut residual = residual_of(&state);
    let mut size = largest(&residual);
    let enough = budget.precision().enough();
    for _ in 0..MAX_STEPS {
        if size <= enough || !size.is_finite() || budget.is_spent() {
            break;
        }
        let fresh = slopes.is_none();
        let near = |trial: Trial| budget.state_near(cowl, trial, &state);
        let matrix: Slopes = slopes
            .unwrap_or_else(|| differences(&near, &state, &residual, scale, tight, &residual_of));
        let next = linear_solution(&matrix, &residual.map(|part| -part))
            .and_then(|step| accepted(&near, &state, &step, size, scale, &residual_of));
        let Some(taken) = next else {
            if fresh {
                break;
            }
            // Slopes that were carried along have become too old.
            slopes = None;
            continue;
        };
        tries.iterations += 1;
        slopes = (taken.size < KEPT_WHILE * size).then(|| {
            let changed = core::array::from_fn(|row| taken.residual[row] - residual[row]);
            let units = [1.0, 1.0, scale.pressure_pa, scale.pressure_pa, OIL_UNIT_K];
            updated(&matrix, &taken.step, &changed, &units)
        });
        (state, residual, size) = (taken.state, taken.residual, taken.size);
    }
    Rest {
        state,
        residual: size,
        slopes,
    }
}

/// Slopes are carried along while a step leaves less than this share of the residual.
const KEPT_WHILE: f64 = 0.1;

/// Change of the oil that counts as much as the whole span of pressures, K.
const OIL_UNIT_K: f64 = 100.0;

/// Most that the oil changes in a step, K.
pub(super) const OIL_REACH_K: f64 = 120.0;

/// A step that was taken.
struct Taken {
    step: Vector,
    state: State,
    residual: Vector,
    size: f64,
}

/// The step, or the part of it that lessens the residual; `None` if no part does.
fn accepted(
    near: &impl Fn(Trial) -> State,
    state: &State,
    step: &Vector,
    size: f64,
    scale: &Scale,
    residual_of: &impl Fn(&State) -> Vector,
) -> Option<Taken> {
    // Keeps flows, pressures and oil within reach of the last point.
    let limits = [2.0, 2.0, scale.pressure_pa, scale.pressure_pa, OIL_REACH_K];
    let mut share = limited_share(step, &limits);
    for _ in 0..10 {
        let next = near(moved(&state.trial, step, share));
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
    near: &impl Fn(Trial) -> State,
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
        let shifted = residual_of(&near(moved(&state.trial, &step, 1.0)));
        for (row, line) in matrix.iter_mut().enumerate() {
            line[column] = (shifted[row] - residual[row]) / sizes[column];
        }
    }
    matrix
}

/// Share of a step that keeps each part within its limit.
pub(super) fn limited_share(step: &[f64], limits: &[f64]) -> f64 {
    step.iter()
        .zip(limits)
        .fold(1.0, |share: f64, (part, limit)| {
            share.min(limit / part.abs().max(*limit))
        })
}
