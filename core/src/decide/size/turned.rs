//! A hot turn-around: an engine that was stopped hot stands and soaks, runs on the ground, takes off and
//! climbs, followed minute by minute ([`minutes`](crate::answer::minutes)) instead of in steady flight.
//!
//! Its conditions are those of the design, in the hot day's air where their own is cooler, at the same
//! power, mixture and indicated airspeed. Each leg draws head and oil toward its steady answer without
//! passing it, so that both are highest at an end of a leg: only ends are judged. While the engine stands
//! nothing is judged, since its limits are for one that runs.

use crate::answer::band::figures;
use crate::answer::minutes::{Pull, Warmth, soaked};
use crate::answer::solve_condition::solve_in_search;
use crate::answer::solved::Solved;
use crate::decide::size::judge::{Judge, Warm};
use crate::decide::size::request::{Demand, Margin, SizeError};
use crate::document::condition::Phase;
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::path::budget::Budget;

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
