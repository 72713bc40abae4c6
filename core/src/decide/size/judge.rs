//! A design's conditions judged at many sizes.

use crate::answer::band::figures;
use crate::answer::evaluate::Limit;
use crate::answer::minutes::Warmth;
use crate::answer::prepare::prepare;
use crate::answer::solve_condition::{solve_condition, solve_in_search};
use crate::answer::solved::{EvaluateError, Solved};
use crate::decide::size::request::{Demand, Margin, SizeError, Wanted};
use crate::decide::size::turn_around::TurnAround;
use crate::document::condition::{AirKind, Condition, Phase};
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::path::budget::Budget;

const SCALE_K: f64 = 10.0;
const SCALE_PA: f64 = 100.0;

/// Solutions of all conditions from an earlier size, to start from.
pub(crate) type Warm = Vec<Option<Solved>>;

/// A design's conditions, ready to be judged at many sizes.
pub(crate) struct Judge<'a> {
    conditions: Vec<Condition>,
    pub(super) demand: &'a Demand,
    /// The turn-around's, one for each leg.
    pub(super) hot: Vec<Condition>,
    /// Places of the conditions that count; one beyond them is the turn-around.
    pub(crate) places: Vec<usize>,
    /// States of the search that asks.
    pub(crate) search: &'a Budget<'a>,
}

impl<'a> Judge<'a> {
    pub(crate) fn new(design: &Design, demand: &'a Demand, search: &'a Budget<'a>) -> Self {
        let turn_around = demand.turn_around.as_ref();
        let cases = design.conditions.len() + usize::from(turn_around.is_some());
        Self {
            conditions: design
                .conditions
                .iter()
                .map(Condition::with_shutter_open)
                .collect(),
            hot: turn_around.map_or_else(Vec::new, |it| hot_conditions(it, design)),
            demand,
            places: (0..cases).collect(),
            search,
        }
    }

    /// The place of a margin's case among those that are judged.
    pub(crate) fn place_of(&self, margin: &Margin) -> usize {
        match margin.after_take_off_s {
            Some(_) => self.conditions.len(),
            None => margin.condition,
        }
    }

    /// The least margin of one condition.
    pub(crate) fn margin(
        &self,
        installation: &Installation,
        place: usize,
        warm: &mut Warm,
    ) -> Result<Margin, SizeError> {
        let Some(condition) = self.conditions.get(place) else {
            return self.turn_around(installation, warm);
        };
        let near = warm[place].as_ref();
        let found = solve_in_search(installation, condition, near, self.search)
            .map_err(SizeError::Evaluate)?;
        warm[place] = Some(found);
        let figures = figures(installation, &found);
        let warmth = Warmth {
            head_k: figures.head_hottest,
            oil_k: figures.oil,
        };
        let mut least = self.of_warmth(installation, place, condition.phase, warmth);
        if self.demand.least_drop_pa > 0.0 && condition.phase != Phase::Ground {
            let by = figures.baffle_drop - self.demand.least_drop_pa;
            if by / SCALE_PA < least.scaled {
                least = Margin {
                    condition: place,
                    wanted: Wanted::Drop,
                    by,
                    scaled: by / SCALE_PA,
                    after_take_off_s: None,
                };
            }
        }
        Ok(least)
    }

    /// How far temperatures of a condition lie inside its limits, the lesser of both.
    pub(super) fn of_warmth(
        &self,
        installation: &Installation,
        place: usize,
        phase: Phase,
        warmth: Warmth,
    ) -> Margin {
        let allowance = self
            .demand
            .allowances
            .get(place)
            .copied()
            .unwrap_or_default();
        let limits = installation.engine.limits(phase, self.demand.limits);
        let kelvin = |limit, by: f64| Margin {
            condition: place,
            wanted: Wanted::Limit(limit),
            by,
            scaled: by / SCALE_K,
            after_take_off_s: None,
        };
        let head = limits.head.kelvin - warmth.head_k - allowance.head_k;
        let oil = limits.oil.kelvin - warmth.oil_k - allowance.oil_k;
        if head <= oil {
            kelvin(Limit::Head, head)
        } else {
            kelvin(Limit::Oil, oil)
        }
    }

    /// The least margin of all conditions that count.
    pub(crate) fn worst(
        &self,
        installation: &Installation,
        warm: &mut Warm,
    ) -> Result<Margin, SizeError> {
        let mut worst: Option<Margin> = None;
        for &place in &self.places {
            let margin = self.margin(installation, place, warm)?;
            if worst.is_none_or(|so_far| margin.scaled < so_far.scaled) {
                worst = Some(margin);
            }
        }
        worst.ok_or(SizeError::Bounds)
    }
}

/// The conditions of a turn-around's legs in the hot day's air, the shutter open.
fn hot_conditions(turn_around: &TurnAround, design: &Design) -> Vec<Condition> {
    let conditions = turn_around.legs.iter().filter_map(|leg| {
        let own = design.conditions.get(leg.condition)?.with_shutter_open();
        let hot = Condition {
            air: AirKind::HotDay,
            ..own.clone()
        };
        let air_k = |condition| {
            let prepared = prepare(&design.installation, condition);
            prepared.map(|prepared| prepared.cowl.stream.temperature_k)
        };
        let is_cooler = matches!((air_k(&own), air_k(&hot)), (Ok(own), Ok(hot)) if own < hot);
        Some(if is_cooler { hot } else { own })
    });
    conditions.collect()
}

/// Mean cooling drag of the level conditions, N, as the builder flies them; of all conditions
/// with airspeed if none is level.
///
/// # Errors
/// [`EvaluateError`] if one of them has no answer.
///
/// # Example
/// The mean of the example's two level conditions:
/// ```
/// use coolpath_core::answer::evaluate::evaluate;
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::decide::size::cruise_drag_n;
/// use coolpath_core::document::example;
///
/// let design = example::design();
/// let by_hand = 0.5 * (evaluate(&design, 3)?.drag.value + evaluate(&design, 4)?.drag.value);
/// assert!((cruise_drag_n(&design, &design.installation)? - by_hand).abs() < 1e-6);
/// # Ok::<(), EvaluateError>(())
/// ```
pub fn cruise_drag_n(design: &Design, installation: &Installation) -> Result<f64, EvaluateError> {
    let search = Budget::of_a_search(design.conditions.len());
    cruise_drag_within(design, installation, &search)
}

/// The same within a search.
pub(crate) fn cruise_drag_within(
    design: &Design,
    installation: &Installation,
    search: &Budget<'_>,
) -> Result<f64, EvaluateError> {
    let level = |condition: &&Condition| condition.phase == Phase::Cruise;
    let mut chosen: Vec<&Condition> = design.conditions.iter().filter(level).collect();
    if chosen.is_empty() {
        chosen = design
            .conditions
            .iter()
            .filter(|condition| condition.airspeed.value > 0.0)
            .collect();
    }
    let mut sum = 0.0;
    for condition in &chosen {
        let found = solve_in_search(installation, condition, None, search)?;
        sum += figures(installation, &found).drag;
    }
    Ok(sum / chosen.len().max(1) as f64)
}

/// Speed, m/s, that a change of mean cruise drag, N, is worth in the first level condition.
#[must_use]
pub fn cruise_speed_of(design: &Design, drag_n: f64) -> Option<f64> {
    let condition = &design.conditions[design.first_level()?];
    let found = solve_condition(&design.installation, condition, None).ok()?;
    found.prepared.speed_cost(&design.installation, drag_n)
}
