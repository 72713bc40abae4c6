//! Bringing quantities to where they were reported, by one input each.

use super::case::Match;
use super::measure::{Measure, solved};
use coolpath_core::answer::solved::Solved;
use coolpath_core::document::design::Design;
use coolpath_core::document::table::Input;

/// A quantity to be brought to a value, SI, by an input.
#[derive(Debug, Clone, Copy)]
pub(super) struct Goal {
    pub figure: Measure,
    pub to: f64,
    pub by: &'static Input,
}

impl Match {
    /// What brings it to where it stood before the change; `None` where that was not reported.
    pub(super) fn goal_before(&self) -> Option<Goal> {
        let to = self.before?;
        Some(self.goal(to))
    }

    /// What brings it to where it stood after the change; `None` where that was not reported.
    pub(super) fn goal_after(&self) -> Option<Goal> {
        let (to, _) = self.after?;
        Some(self.goal(to))
    }

    fn goal(&self, to: f64) -> Goal {
        Goal {
            figure: self.figure,
            to,
            by: self.by,
        }
    }
}

/// What is left of a miss, of a hundredth of a degree or a pascal's tenth.
const CLOSE: f64 = 5e-3;
const SWEEPS: u32 = 40;
const STEPS: u32 = 40;

/// Moves the inputs in turn until all goals are met; the solved condition, `None` if they cannot be.
pub(super) fn reach(design: &mut Design, goals: &[Goal]) -> Option<Solved> {
    let mut near = solved(design, None);
    for _ in 0..SWEEPS {
        for goal in goals {
            near = Some(reach_one(design, goal, near)?);
        }
        let now = near.or_else(|| solved(design, None))?;
        if goals
            .iter()
            .all(|goal| miss(design, goal, &now).is_some_and(|miss| miss.abs() < 4.0 * CLOSE))
        {
            return Some(now);
        }
    }
    None
}

fn miss(design: &Design, goal: &Goal, at: &Solved) -> Option<f64> {
    Some(goal.figure.of(design, at)? - goal.to)
}

/// Secant within what is permitted, halved where the condition has no answer.
fn reach_one(design: &mut Design, goal: &Goal, near: Option<Solved>) -> Option<Solved> {
    let (least, most) = goal.by.permitted;
    let mut at = goal.by.value(design, 0)?;
    let mut state = near.or_else(|| solved(design, None))?;
    let mut off = miss(design, goal, &state)?;
    let mut step = 1e-3 * (most - least);
    if at + step > most {
        step = -step;
    }
    for _ in 0..STEPS {
        if off.abs() < CLOSE {
            return Some(state);
        }
        let (there, found) = ahead(design, goal, at, &mut step, &state)?;
        let next = miss(design, goal, &found)?;
        let slope = (next - off) / (there - at);
        (at, off, state) = (there, next, found);
        if slope == 0.0 || !slope.is_finite() {
            return None;
        }
        let reach = 0.3 * (most - least);
        step = (-off / slope).clamp(-reach, reach);
        step = (at + step).clamp(least, most) - at;
        if step == 0.0 {
            break;
        }
    }
    (off.abs() < CLOSE).then_some(state)
}

/// The next point that has an answer, with the step halved until one has.
fn ahead(
    design: &mut Design,
    goal: &Goal,
    at: f64,
    step: &mut f64,
    near: &Solved,
) -> Option<(f64, Solved)> {
    for _ in 0..20 {
        goal.by.set(design, 0, at + *step);
        if let Some(found) = solved(design, Some(near)) {
            return Some((at + *step, found));
        }
        *step *= 0.5;
    }
    None
}
