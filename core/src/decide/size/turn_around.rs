//! A hot turn-around: an engine that was stopped hot stands and soaks, runs on the ground, takes off and
//! climbs, followed minute by minute ([`minutes`](crate::answer::minutes)) instead of in steady flight.
//!
//! Its conditions are those of the design, in the hot day's air where their own is cooler, at the same
//! power, mixture and indicated airspeed. Each leg draws head and oil toward its steady answer without
//! passing it, so that both are highest at an end of a leg: only ends are judged. While the engine stands
//! nothing is judged, since its limits are for one that runs.

use crate::answer::band::figures;
use crate::answer::minutes::{Leg, Pull, Warmth, soaked};
use crate::answer::prepare::prepare;
use crate::answer::solve_condition::solve_in_search;
use crate::answer::solved::Solved;
use crate::decide::size::judge::{Judge, Warm};
use crate::decide::size::request::{Demand, Margin, SizeError, shutter_open};
use crate::document::condition::{AirKind, Condition, Phase};
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::path::budget::Budget;

/// A turn-around.
#[derive(Debug, Clone, PartialEq)]
pub struct TurnAround {
    /// Ground runs and climbs with their times, in order.
    legs: Vec<Leg>,
    /// Where the engine was stopped; `None` for the steady answer of the first leg.
    start: Option<Warmth>,
    /// How long it stood, s.
    soak_s: f64,
}

impl TurnAround {
    /// The turn-around in a flight: its first ground runs and climbs up to the first leg that is
    /// neither; `None` without any.
    ///
    /// # Arguments
    /// * `start` - head and oil when the engine is stopped; `None` for the steady answer of the first leg
    /// * `soak_s` - how long it stands, s
    ///
    /// # Example
    /// The example's cruise is no part of it:
    /// ```
    /// use coolpath_core::answer::minutes::Leg;
    /// use coolpath_core::decide::size::TurnAround;
    /// use coolpath_core::document::example;
    ///
    /// let design = example::design();
    /// let legs = [0, 1, 2, 3].map(|condition| Leg { condition, seconds: 300.0 });
    /// let of = |legs: &[Leg]| TurnAround::new(&design, legs, None, 1800.0);
    /// assert_eq!(of(&legs), of(&legs[..3]));
    /// assert_eq!(of(&legs[3..]), None);
    /// ```
    #[must_use]
    pub fn new(design: &Design, legs: &[Leg], start: Option<Warmth>, soak_s: f64) -> Option<Self> {
        let belongs = |leg: &&Leg| {
            let condition = design.conditions.get(leg.condition);
            condition.is_some_and(|it| matches!(it.phase, Phase::Ground | Phase::Climb))
        };
        let legs: Vec<Leg> = legs
            .iter()
            .skip_while(|leg| !belongs(leg))
            .take_while(belongs)
            .copied()
            .collect();
        (!legs.is_empty()).then_some(Self {
            legs,
            start,
            soak_s,
        })
    }

    /// The conditions of its legs in the hot day's air, the shutter open.
    pub(super) fn hot_conditions(&self, design: &Design) -> Vec<Condition> {
        let conditions = self.legs.iter().filter_map(|leg| {
            let own = shutter_open(design.conditions.get(leg.condition)?);
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
}

/// The least margin of a demand's turn-around at a design's sizes, its allowances taken off.
///
/// # Errors
/// [`SizeError::Evaluate`] if a leg has no answer; [`SizeError::Bounds`] if none is asked about.
pub fn turn_around_margin(design: &Design, demand: &Demand) -> Result<Margin, SizeError> {
    let search = Budget::of_a_search(design.conditions.len());
    let judge = Judge::new(design, demand, &search);
    let mut warm = vec![None; design.conditions.len()];
    judge.turn_around(&design.installation, &mut warm)
}

impl Judge<'_> {
    /// The least margin along the turn-around.
    pub(super) fn turn_around(
        &self,
        installation: &Installation,
        warm: &mut Warm,
    ) -> Result<Margin, SizeError> {
        let asked = self.demand.turn_around.as_ref().ok_or(SizeError::Bounds)?;
        let on_ground = |leg: &usize| self.hot[*leg].phase == Phase::Ground;
        let ground_legs = (0..self.hot.len()).take_while(on_ground);
        let take_off_s: f64 = ground_legs.map(|leg| asked.legs[leg].seconds).sum();
        let mut now = None;
        let mut since_start_s = 0.0;
        let mut least: Option<Margin> = None;
        for (leg, condition) in asked.legs.iter().zip(&self.hot) {
            let near = warm.get(leg.condition).and_then(Option::as_ref);
            let found = solve_in_search(installation, condition, near, self.search)
                .map_err(SizeError::Evaluate)?;
            let ends = steady(installation, &found);
            let began = now.unwrap_or_else(|| {
                let stopped = asked.start.unwrap_or(ends);
                let stood = soaked(installation, &found, stopped, asked.soak_s, asked.soak_s);
                stood.last().map_or(stopped, |moment| moment.warmth)
            });
            let ended = Pull::toward(ends, installation, &found).after(began, leg.seconds);
            for (at_s, warmth) in [(0.0, began), (leg.seconds, ended)] {
                let margin = Margin {
                    after_take_off_s: Some(since_start_s + at_s - take_off_s),
                    ..self.of_warmth(installation, leg.condition, condition.phase, warmth)
                };
                if least.is_none_or(|so_far| margin.scaled < so_far.scaled) {
                    least = Some(margin);
                }
            }
            since_start_s += leg.seconds;
            now = Some(ended);
        }
        least.ok_or(SizeError::Bounds)
    }
}

fn steady(installation: &Installation, found: &Solved) -> Warmth {
    let figures = figures(installation, found);
    Warmth {
        head_k: figures.head_hottest,
        oil_k: figures.oil,
    }
}
