//! What exits hold in the draws, from small to large, in steps.

use crate::answer::band::figures;
use crate::answer::model_error::{HEAD_COMMON_K, HEAD_K};
use crate::answer::pieces::Pieces;
use crate::answer::sampling::Sampling;
use crate::answer::solve_condition::solve_condition;
use crate::answer::solved::{EvaluateError, Solved};
use crate::decide::cut::plan::Table;
use crate::decide::next::Observed;
use crate::decide::next::test_day::{Miss, cooler};
use crate::decide::size::{cruise_drag_n, cruise_speed_of};
use crate::document::condition::{Condition, Phase};
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::document::installation::areas::{exit_m2, exit_reach_m2, inlets_m2, resized};
use crate::document::limits::LimitChoice;
use core::ops::Range;

/// Areas that are solved; between them margins lie straight.
const AREAS: usize = 7;
/// Smallest and largest area over the size that is planned for \[-\].
const REACH: (f64, f64) = (0.6, 1.15);

/// Draws under way.
pub struct Needs {
    sized: Design,
    inlets_m2: f64,
    sampling: Sampling,
    /// What the model misses in each condition, for each draw.
    misses: Vec<Vec<Miss>>,
    done: usize,
    table: Table,
}

impl Needs {
    /// Draws for exits about the one of a sized design.
    ///
    /// # Arguments
    /// * `sized` - the design with the size that is planned for
    /// * `cut_m2` - net area of the exit as it is cut today, m²; a plan does not go below it where it is
    ///   smaller than the size
    ///
    /// # Errors
    /// [`EvaluateError`] if the design is refused, or its level conditions have no answer.
    ///
    /// # Example
    /// Larger exits hold more:
    /// ```
    /// use coolpath_core::answer::pieces::Pieces;
    /// use coolpath_core::answer::solved::EvaluateError;
    /// use coolpath_core::decide::cut::Needs;
    /// use coolpath_core::document::example;
    /// use coolpath_core::document::installation::areas::exit_m2;
    ///
    /// let design = example::design();
    /// let mut needs = Needs::new(&design, exit_m2(&design.installation), 20, 7)?;
    /// while needs.advance(5) {}
    /// let table = needs.table();
    /// let last = table.areas_m2.len() - 1;
    /// for margins in &table.margins_k {
    ///     assert!(margins[last] >= margins[0]);
    /// }
    /// # Ok::<(), EvaluateError>(())
    /// ```
    pub fn new(
        sized: &Design,
        cut_m2: f64,
        draws: usize,
        seed: u64,
    ) -> Result<Self, EvaluateError> {
        let mut sized = sized.clone();
        for condition in &mut sized.conditions {
            *condition = condition.with_shutter_open();
        }
        let installation = &sized.installation;
        let (own, inlets_m2) = (exit_m2(installation), inlets_m2(installation));
        let reach = exit_reach_m2(installation);
        let least = if cut_m2 < own {
            (REACH.0 * own).max(cut_m2)
        } else {
            REACH.0 * own
        };
        let (least, most) = (least.max(reach.0), (REACH.1 * own).min(reach.1));
        let areas_m2: Vec<f64> = (0..AREAS)
            .map(|at| least + (most - least) * at as f64 / (AREAS - 1) as f64)
            .collect();
        let costs_m_s = areas_m2
            .iter()
            .map(|area| {
                let drag = cruise_drag_n(&sized, &resized(installation, inlets_m2, *area))?;
                Ok(cruise_speed_of(&sized, drag).unwrap_or(0.0))
            })
            .collect::<Result<Vec<f64>, EvaluateError>>()?;
        let table = Table {
            costs_m_s,
            areas_m2,
            margins_k: Vec::new(),
            relief_k: relief_k(&sized),
            reading_k: reading_k(),
        };
        let sampling = Sampling::new(&sized, draws, seed)?;
        let mut random = fastrand::Rng::with_seed(seed.wrapping_add(1));
        let mut misses = || {
            let common = sampling.deviations(&mut random);
            let conditions = sized.conditions.iter();
            conditions
                .map(|_| Miss::of(common, sampling.deviations(&mut random)))
                .collect()
        };
        Ok(Self {
            misses: (0..sampling.draws()).map(|_| misses()).collect(),
            inlets_m2,
            sampling,
            sized,
            done: 0,
            table,
        })
    }

    /// What the draws made so far say.
    #[must_use]
    pub fn table(&self) -> &Table {
        &self.table
    }

    /// Least margin of all conditions at each area, K; `None` where the assumptions contradict each other.
    fn margins(&self, varied: &Design, misses: &[Miss]) -> Option<Vec<f64>> {
        let mut least = vec![f64::INFINITY; self.table.areas_m2.len()];
        for (place, (condition, miss)) in varied.conditions.iter().zip(misses).enumerate() {
            let mut near = self.sampling.nominal(place).copied();
            for (area, least) in self.table.areas_m2.iter().zip(&mut least) {
                let sized = resized(&varied.installation, self.inlets_m2, *area);
                match margin(&sized, condition, miss, near.as_ref()) {
                    Ok((margin, solved)) => {
                        *least = least.min(margin);
                        near = Some(solved);
                    }
                    // Without air no limit holds.
                    Err(EvaluateError::Solve(_)) => *least = f64::NEG_INFINITY,
                    Err(_) => return None,
                }
            }
        }
        Some(least)
    }
}

/// Each draw is a piece: its margins over the areas, no numbers where its assumptions contradict each other.
impl Pieces for Needs {
    fn progress(&self) -> (usize, usize) {
        (self.done, self.misses.len())
    }

    fn numbers(&self, draws: Range<usize>) -> Vec<f64> {
        let mut varied = self.sized.clone();
        let mut numbers = Vec::new();
        for draw in draws {
            self.sampling.vary(draw, &mut varied);
            let margins = self.margins(&varied, &self.misses[draw]);
            numbers.extend(margins.unwrap_or_else(|| vec![f64::NAN; self.table.areas_m2.len()]));
        }
        numbers
    }

    fn take(&mut self, numbers: &[f64]) {
        for margins in numbers.chunks_exact(self.table.areas_m2.len()) {
            if margins.iter().all(|margin| !margin.is_nan()) {
                self.table.margins_k.push(margins.to_vec());
            }
            self.done += 1;
        }
    }
}

/// The lesser margin of head and oil in a condition, K, and its solution.
fn margin(
    installation: &Installation,
    condition: &Condition,
    miss: &Miss,
    near: Option<&Solved>,
) -> Result<(f64, Solved), EvaluateError> {
    let solved = solve_condition(installation, condition, near)?;
    let figures = figures(installation, &solved);
    let limits = installation
        .engine
        .limits(condition.phase, LimitChoice::Lowest);
    let head = limits.head.kelvin - figures.head_hottest - miss.hottest_k();
    let oil = limits.oil.kelvin - figures.oil - miss.oil_k;
    Ok((head.min(oil), solved))
}

/// By how much more margin the climbs have on a cooler day, by the best estimate, K.
fn relief_k(design: &Design) -> f64 {
    let none = Miss::of([0.0; 4], [0.0; 4]);
    let installation = &design.installation;
    design
        .conditions
        .iter()
        .filter(|condition| condition.phase == Phase::Climb)
        .filter_map(|condition| {
            let (hot, _) = margin(installation, condition, &none, None).ok()?;
            let (cool, _) = margin(installation, &cooler(condition), &none, None).ok()?;
            Some(cool - hot)
        })
        .reduce(f64::min)
        .unwrap_or(0.0)
}

/// What a flight leaves unknown of the margin on the hot day, one standard deviation, K: what the model
/// misses of its own in the flight and on the hot day, and the probes.
fn reading_k() -> f64 {
    // √(2 (s² − c²) + mean² + excess²)
    let own = 2.0 * (HEAD_K * HEAD_K - HEAD_COMMON_K * HEAD_COMMON_K);
    let probes = [Observed::ClimbMean, Observed::ClimbExcess]
        .map(|reading| reading.instrument().deviation(0.0))
        .map(|deviation| deviation * deviation);
    (own + probes[0] + probes[1]).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decide::cut::plan::{Planning, Prices};
    use crate::document::example;
    use crate::units::quantity::kelvin;

    /// The example with limits that an exit can hold.
    fn design() -> Design {
        let mut design = example::design();
        let engine = &mut design.installation.engine;
        engine.head_limit = kelvin(engine.head_limit.value + 50.0);
        engine.oil_limit = kelvin(engine.oil_limit.value + 40.0);
        design
    }

    fn table(design: &Design, cut_m2: f64) -> Table {
        let mut needs = Needs::new(design, cut_m2, 100, 3).expect("the example");
        while needs.advance(30) {}
        assert_eq!(needs.progress(), (100, 100));
        needs.table().clone()
    }

    #[test]
    fn the_example_has_a_plan_between_what_is_cut_and_what_is_planned_for() {
        let design = design();
        let own = exit_m2(&design.installation);
        let cut_m2 = 0.8 * own;
        let table = table(&design, cut_m2);
        assert!((table.areas_m2[0] / cut_m2 - 1.0).abs() < 1e-9);
        assert!(table.costs_m_s.windows(2).all(|pair| pair[0] < pair[1]));
        // A day 30 °F cooler gives the heads about as much, 16.7 K.
        assert!((8.0..22.0).contains(&table.relief_k), "{}", table.relief_k);
        let mut planning = Planning::new(table.refined(4), Prices::default());
        while planning.advance() {}
        let plan = planning.plan().expect("a plan");
        println!("{plan:?}");
        let sum: f64 = plan.steps.iter().map(|step| step.ends).sum();
        assert!((sum - 1.0).abs() < 1e-9);
        assert!(plan.regret_h <= plan.single.1 + 1e-12);
    }

    #[test]
    fn an_exit_that_is_cut_too_large_already_does_not_bound_the_plan() {
        let design = design();
        let own = exit_m2(&design.installation);
        let table = table(&design, 2.0 * own);
        assert!((table.areas_m2[0] / (REACH.0 * own) - 1.0).abs() < 1e-9);
    }
}
