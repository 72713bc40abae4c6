//! What a pair of openings gives: the points of a map of sizes, and one that is tried by hand.

use crate::answer::band::figures;
use crate::answer::solve_condition::solve_in_search;
use crate::decide::size::judge::{Warm, cruise_drag_within};
use crate::document::condition::Condition;
use crate::document::design::Design;
use crate::document::installation::areas::resized;
use crate::document::limits::LimitChoice;
use crate::path::budget::Budget;
use serde::{Deserialize, Serialize};

/// A temperature that is nearest to its limit, or farthest over it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Nearest {
    /// Place of the condition.
    pub condition: usize,
    /// The temperature, K.
    pub kelvin: f64,
    /// So far under its limit, K; negative over it.
    pub margin_k: f64,
}

/// What a pair of openings gives in all conditions, the shutter open.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Spot {
    /// Hottest head of all conditions, K.
    pub hottest_k: f64,
    /// The head that is nearest to its limit; conditions may have different ones.
    pub head: Nearest,
    /// The oil that is nearest to its limit.
    pub oil: Nearest,
    /// Mean cooling drag of the level conditions as they are flown, N; `None` where one has no answer.
    pub cruise_drag_n: Option<f64>,
}

impl Spot {
    /// Whether both limits hold in every condition by the best estimate, to the hundredth of a kelvin.
    #[must_use]
    pub fn holds(&self) -> bool {
        // A size that was sought lies on a limit to the last digits.
        const SLACK_K: f64 = 0.01;
        self.head.margin_k >= -SLACK_K && self.oil.margin_k >= -SLACK_K
    }
}

/// What openings give at one inlet area over a list of exit areas, m²; `None` where a condition has no
/// answer, and once the search's budget is spent.
///
/// # Example
/// The example's climb is over its limit, which more of both openings mends, at the price of drag:
/// ```
/// use coolpath_core::decide::size::spots;
/// use coolpath_core::document::example;
/// use coolpath_core::document::installation::areas::{exit_m2, inlets_m2};
///
/// let design = example::design();
/// let (inlets, exit) = (inlets_m2(&design.installation), exit_m2(&design.installation));
/// let small = spots(&design, inlets, &[exit])[0].expect("an answer");
/// let large = spots(&design, 2.0 * inlets, &[1.5 * exit])[0].expect("an answer");
/// assert!(!small.holds() && large.holds());
/// assert!(large.cruise_drag_n > small.cruise_drag_n);
/// ```
#[must_use]
pub fn spots(design: &Design, inlets_m2: f64, exits_m2: &[f64]) -> Vec<Option<Spot>> {
    let conditions: Vec<Condition> = design
        .conditions
        .iter()
        .map(Condition::with_shutter_open)
        .collect();
    let mut warm: Warm = vec![None; conditions.len()];
    let search = Budget::of_a_search(conditions.len());
    exits_m2
        .iter()
        .map(|&exit_m2| {
            spot(
                design,
                &conditions,
                (inlets_m2, exit_m2),
                &mut warm,
                &search,
            )
        })
        .collect()
}

fn spot(
    design: &Design,
    open: &[Condition],
    (inlets_m2, exit_m2): (f64, f64),
    warm: &mut Warm,
    search: &Budget<'_>,
) -> Option<Spot> {
    let sized = resized(&design.installation, inlets_m2, exit_m2);
    let mut hottest_k = f64::NEG_INFINITY;
    let (mut head, mut oil): (Option<Nearest>, Option<Nearest>) = (None, None);
    for (place, (condition, warm)) in open.iter().zip(warm).enumerate() {
        let found = solve_in_search(&sized, condition, warm.as_ref(), search).ok()?;
        let figures = figures(&sized, &found);
        *warm = Some(found);
        hottest_k = hottest_k.max(figures.head_hottest);
        let limits = sized.engine.limits(condition.phase, LimitChoice::default());
        let nearer = |so_far: Option<Nearest>, kelvin: f64, limit_k: f64| {
            let here = Nearest {
                condition: place,
                kelvin,
                margin_k: limit_k - kelvin,
            };
            so_far
                .filter(|nearest| nearest.margin_k <= here.margin_k)
                .or(Some(here))
        };
        head = nearer(head, figures.head_hottest, limits.head.kelvin);
        oil = nearer(oil, figures.oil, limits.oil.kelvin);
    }
    Some(Spot {
        hottest_k,
        head: head?,
        oil: oil?,
        cruise_drag_n: cruise_drag_within(design, &sized, search).ok(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::evaluate::evaluate;
    use crate::decide::size::cruise_drag_n;
    use crate::document::example;
    use crate::document::installation::areas::{exit_m2, inlets_m2};

    #[test]
    fn a_spot_is_what_each_condition_says_by_itself() {
        let mut design = example::design();
        for condition in &mut design.conditions {
            *condition = condition.with_shutter_open();
        }
        let (inlets, exit) = (0.03, 0.045);
        let spot = spots(&design, inlets, &[exit])[0].expect("an answer");
        let mut sized = design.clone();
        sized.installation = resized(&design.installation, inlets, exit);
        let answers: Vec<_> = (0..design.conditions.len())
            .map(|place| evaluate(&sized, place).expect("an answer"))
            .collect();
        let hottest = answers
            .iter()
            .map(|answer| answer.head_hottest.value)
            .fold(f64::NEG_INFINITY, f64::max);
        assert!((spot.hottest_k - hottest).abs() < 1e-3);
        let least = answers
            .iter()
            .map(|answer| answer.oil_margin.value)
            .fold(f64::INFINITY, f64::min);
        assert!((spot.oil.margin_k - least).abs() < 1e-3, "{spot:?} {least}");
        let drag = cruise_drag_n(&design, &sized.installation).expect("an answer");
        assert!((spot.cruise_drag_n.expect("a drag") - drag).abs() < 1e-6);
        assert_eq!(
            spots(
                &design,
                inlets_m2(&sized.installation),
                &[exit_m2(&sized.installation)]
            )[0]
            .map(|spot| spot.head.condition),
            Some(spot.head.condition)
        );
    }
}
