//! An upper deck that is split in a left and a right half over the two banks.
//!
//! ```text
//!   inlets left ─► left half ──► fins of the left bank ──┐
//!                      │ opening across                  ├─► lower deck
//!   inlets right ─► right half ► fins of the right bank ─┘
//! ```
//!
//! Each bank has half of the fins, of the heads' heat and of all leaks: it behaves as the whole engine does
//! at twice its own flow. The oil cooler takes its air from one half, blast tubes, cabin hose and induction
//! from one or from both alike. What joins the halves is an orifice:
//! Δp = w|w| / (2 ρ (C_d A)²). The network of one deck, solved before, is where Newton begins; a large
//! opening leads back to it. Air must run down through the fins of both banks, and forward through a
//! cooler that takes it from the deck; where it does not, no answer is given.

use crate::math::elimination::linear_solution;
use crate::path::banks::{Point, Split, UNKNOWNS, Vector, Worked};
use crate::path::budget::Budget;
use crate::path::network::Cowl;
use crate::path::newton::{BALANCED, Goal, OIL_REACH_K, Scale, limited_share};
use crate::path::report::{Method, Report, Solution, SolveError};
use crate::path::split_deck::Halves;

const MAX_STEPS: u32 = 40;
/// Residual that is still accepted where rounding stops the last steps [-].
const ACCEPTED: f64 = 1e-9;

/// Solves the network with its upper deck split.
///
/// # Arguments
/// * `whole` - the solution with one deck
///
/// # Errors
/// [`SolveError::HalvesReversed`] where air runs upward or backward; [`SolveError::NotConverged`];
/// [`SolveError::GaveUp`].
pub(super) fn solve_halves(
    cowl: &Cowl,
    halves: &Halves,
    whole: &Solution,
    goal: Goal,
    scale: &Scale,
    budget: &Budget<'_>,
) -> Result<Solution, SolveError> {
    let split = Split {
        cowl,
        halves: *halves,
        goal,
        scale,
        budget,
        tight: cowl.cooler.duct.is_tight() && goal == Goal::Pressure,
    };
    let trial = whole.state.trial;
    if trial.fin_kg_s <= 0.0 || !(split.tight || split.cooler_is_forward(trial.cooler_kg_s)) {
        return Err(SolveError::HalvesReversed);
    }
    let mut point = Point::of(&trial);
    if split.tight {
        point.cooler_kg_s = 0.0;
    }
    let mut found = split.balanced(point);
    if found.worked.size > ACCEPTED {
        found = split.narrowed(point);
    }
    budget.lasts()?;
    let residual = found.worked.size;
    let iterations = whole.report.iterations + found.steps;
    if residual > ACCEPTED {
        return Err(if found.point.is_about_to_reverse() {
            SolveError::HalvesReversed
        } else {
            SolveError::NotConverged {
                residual,
                iterations,
            }
        });
    }
    Ok(Solution {
        state: found.worked.state,
        report: Report {
            method: Method::Halves,
            iterations,
            residual,
        },
        slopes: whole.slopes,
    })
}

/// Where Newton came to.
struct Found {
    point: Point,
    worked: Worked,
    steps: u32,
}

impl Split<'_> {
    /// Newton's steps from a start, until it balances or nothing comes closer.
    fn balanced(&self, start: Point) -> Found {
        let mut found = Found {
            point: start,
            worked: self.worked(&start),
            steps: 0,
        };
        for _ in 0..MAX_STEPS {
            if found.worked.size <= BALANCED * 0.1 || self.budget.is_spent() {
                break;
            }
            let residual = &found.worked.residual;
            let slopes = self.slopes(&found.point, residual);
            let Some(step) = linear_solution(&slopes, &residual.map(|part| -part)) else {
                break;
            };
            let Some((point, worked)) = self.accepted(&found.point, &step, found.worked.size)
            else {
                break;
            };
            found = Found {
                point,
                worked,
                steps: found.steps + 1,
            };
        }
        found
    }

    /// From an opening so wide that the halves are nearly one deck to the one that is asked for.
    fn narrowed(&self, start: Point) -> Found {
        /// Share of the way, in logarithms, of the first step and of the shortest.
        const STEP: (f64, f64) = (1.0 / 12.0, 1.0 / 800.0);
        // As wide as carries the whole flow at a hundredth of the span.
        let span = 0.01 * self.scale.pressure_pa;
        let wide = self.scale.flow_kg_s / libm::sqrt(2.0 * self.cowl.stream.density * span);
        let asked = self.halves.across_m2.max(1e-6 * wide);
        let ratio = (wide / asked).max(1.0);
        let at = |left: f64| {
            let mut split = *self;
            if left > 0.0 {
                split.halves.across_m2 = asked * libm::pow(ratio, left);
            }
            split
        };
        let mut last = at(1.0).balanced(start);
        let (mut left, mut step) = (1.0, STEP.0);
        while last.worked.size <= ACCEPTED && left > 0.0 && !self.budget.is_spent() {
            let next_left = if left - step < 0.5 * STEP.1 {
                0.0
            } else {
                left - step
            };
            let next = at(next_left).balanced(last.point);
            if next.worked.size <= ACCEPTED {
                (last, left) = (next, next_left);
                step = (1.5 * step).min(STEP.0);
            } else if step > STEP.1 {
                step *= 0.5;
            } else {
                // The nearest that was balanced tells why.
                return Found {
                    worked: next.worked,
                    ..last
                };
            }
        }
        last
    }

    fn slopes(&self, point: &Point, residual: &Vector) -> [Vector; UNKNOWNS] {
        const DIFFERENCE: f64 = 1e-6;
        let pressure = DIFFERENCE * self.scale.pressure_pa;
        let flow = DIFFERENCE * self.scale.flow_kg_s;
        let sizes = [
            DIFFERENCE, DIFFERENCE, pressure, pressure, DIFFERENCE, pressure, 1e-4, flow,
        ];
        let mut matrix = [[0.0; UNKNOWNS]; UNKNOWNS];
        for (column, size) in sizes.into_iter().enumerate() {
            if column == 4 && self.tight {
                matrix[4][4] = 1.0;
                continue;
            }
            let mut step = [0.0; UNKNOWNS];
            step[column] = size;
            let shifted = self.worked(&point.moved(&step, 1.0)).residual;
            for (row, line) in matrix.iter_mut().enumerate() {
                line[column] = (shifted[row] - residual[row]) / size;
            }
        }
        matrix
    }

    /// The step, or the part of it that lessens the residual; `None` if no part does.
    fn accepted(&self, point: &Point, step: &Vector, size: f64) -> Option<(Point, Worked)> {
        let span = self.scale.pressure_pa;
        let limits = [2.0, 2.0, span, span, 2.0, span, OIL_REACH_K, f64::INFINITY];
        let mut share = limited_share(step, &limits);
        for _ in 0..12 {
            let next = point.moved(step, share);
            let worked = self.worked(&next);
            if worked.size < size {
                return Some((next, worked));
            }
            share *= 0.4;
        }
        None
    }
}
