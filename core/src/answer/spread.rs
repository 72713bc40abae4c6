//! Moving each uncertain input to the ends of its range, and what that does to any quantities.
//!
//! # Rule
//! Three points make an input's response: both ends and the value itself. They are enough where it
//! is nearly straight. It is taken as bent where both ends move a quantity the same way, or where
//! the straight line between them passes the nominal answer by more than a fifth of the band; then
//! the two points halfway to the ends are solved too, so that a peak between them counts in full. An
//! end without an answer opens the band on the side to which the halfway point moves the quantity,
//! or else on the side that the other end leaves, and on both where neither moves it.

use crate::answer::moments::{Band, Moments, Response, covariance};
use crate::answer::solve_condition::solve_in_search;
use crate::answer::solved::Solved;
use crate::document::condition::Condition;
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::document::table::Input;
use crate::path::budget::Budget;
use crate::path::report::SolveError;

/// Share of a band by which a response may leave the straight line before it is looked at [-].
const BENT: f64 = 0.2;

/// An input that is not known exactly: the input, its place, its value and its range, SI.
pub type Doubt = (&'static Input, usize, f64, (f64, f64));

/// Inputs of the installation that play a part, carry a range and are not marked as measured:
/// the input, its place, its value and its range, SI.
pub fn uncertain(design: &Design) -> impl Iterator<Item = Doubt> + '_ {
    doubts(design, |id, _| {
        // Time constants move no steady answer; a condition's ranges are its own.
        !id.starts_with("condition.") && !id.starts_with("lags.")
    })
}

/// The same of one condition: how well power, airspeed and air are known there.
pub fn uncertain_in(design: &Design, condition: usize) -> impl Iterator<Item = Doubt> + '_ {
    doubts(design, move |id, place| {
        id.starts_with("condition.") && place == condition
    })
    // At rest the airspeed is known.
    .filter(|(input, _, value, _)| input.id != "condition.airspeed_m_s" || *value > 0.0)
}

fn doubts<'a>(
    design: &'a Design,
    wanted: impl Fn(&str, usize) -> bool + 'a,
) -> impl Iterator<Item = Doubt> + 'a {
    design.places().filter_map(move |(input, place)| {
        if !wanted(input.id, place) || !input.used(design, place) {
            return None;
        }
        let value = input.value(design, place)?;
        let range = design.likely(input, place)?;
        Some((input, place, value, range))
    })
}

/// What moving one input changes in each quantity; `None` where nothing solves.
#[derive(Debug, Clone)]
pub(crate) struct Change {
    /// The input and its place; `None` for the model's own error.
    pub(crate) input: Option<(&'static Input, usize)>,
    /// How far the ends lie from the value.
    reach: [f64; 2],
    /// At the low and at the high end.
    pub(crate) ends: [Option<Vec<f64>>; 2],
    /// Halfway to them, where that was solved.
    halfway: [Option<Vec<f64>>; 2],
}

impl Change {
    /// What an error of the model changes, from its changes at both ends.
    pub(crate) fn of_error(ends: [Option<Vec<f64>>; 2]) -> Self {
        Self {
            input: None,
            reach: [1.0; 2],
            ends,
            halfway: [None, None],
        }
    }

    /// What it changes in a quantity. Of an end without an answer, twice the change halfway stands
    /// for it, or the other end's, straight on.
    pub(crate) fn response(&self, at: usize) -> Response {
        let of = |moved: &Option<Vec<f64>>| moved.as_ref().map(|moved| moved[at]);
        let ends = self.ends.each_ref().map(of);
        let halfway = self.halfway.each_ref().map(of);
        let end = |side: usize, other: usize| {
            ends[side]
                .or(halfway[side].map(|half| 2.0 * half))
                .unwrap_or(ends[other].map_or(0.0, |other| -other))
        };
        let filled = [end(0, 1), end(1, 0)];
        Response {
            ends: filled,
            halfway: [0, 1].map(|side| halfway[side].unwrap_or(0.5 * filled[side])),
        }
    }

    /// Opens a band where an end has no answer.
    pub(crate) fn open(&self, at: usize, band: &mut Band) {
        for (end, (other, halfway)) in [(0, 1), (1, 0)].map(|(end, other)| {
            let change = |moved: &Option<Vec<f64>>| moved.as_ref().map_or(0.0, |moved| moved[at]);
            (end, (change(&self.ends[other]), change(&self.halfway[end])))
        }) {
            if self.ends[end].is_some() {
                continue;
            }
            let toward = if halfway == 0.0 { -other } else { halfway };
            if toward <= 0.0 {
                band.below = f64::INFINITY;
            }
            if toward >= 0.0 {
                band.above = f64::INFINITY;
            }
        }
    }

    /// Whether a quantity's response is bent by more than a share of its band.
    fn is_bent(&self, at: usize, band: &Band) -> bool {
        let [Some(low), Some(high)] = self.ends.each_ref().map(Option::as_ref) else {
            return true;
        };
        let (low, high) = (low[at], high[at]);
        let (down, up) = (self.reach[0], self.reach[1]);
        // The straight line between the ends, at the value itself.
        let missed = (low * up + high * down) / (down + up);
        let tolerated = BENT * band.wider();
        let same_side = low * high > 0.0 && down > 0.0 && up > 0.0;
        (same_side && low.abs().max(high.abs()) > tolerated) || missed.abs() > tolerated
    }
}

/// Each input's changes in any quantities of a condition.
#[derive(Debug, Clone)]
pub(crate) struct Spread {
    pub(crate) changes: Vec<Change>,
}

impl Spread {
    /// Where a quantity lies, by what has an answer.
    pub(crate) fn moments(&self, at: usize) -> Moments {
        let mut moments = Moments::default();
        for change in &self.changes {
            moments.add(&change.response(at));
        }
        moments
    }

    /// Opens a band where an end of a range has no answer.
    pub(crate) fn open(&self, at: usize, band: &mut Band) {
        for change in &self.changes {
            change.open(at, band);
        }
    }

    /// The input of each end that has no answer.
    pub(crate) fn open_ends(&self) -> Vec<(&'static Input, usize)> {
        self.changes
            .iter()
            .flat_map(|change| {
                let missing = change.ends.iter().filter(|end| end.is_none()).count();
                core::iter::repeat_n(change.input, missing).flatten()
            })
            .collect()
    }

    /// Covariance of two quantities.
    pub(crate) fn covariance(&self, one: usize, other: usize) -> f64 {
        self.changes
            .iter()
            .map(|change| covariance(&change.response(one), &change.response(other)))
            .sum()
    }
}

/// Quantities of a solved condition, each in its own unit.
pub(crate) type Quantities<'a> = &'a dyn Fn(&Installation, &Solved) -> Vec<f64>;

/// Moves each input to the ends of its range in turn, and halfway where its response is bent.
///
/// # Errors
/// [`SolveError::GaveUp`] once nothing is left of the search's budget: ends that were not tried are
/// not ends without an answer.
pub(crate) fn spread(
    design: &Design,
    place: usize,
    doubts: &[Doubt],
    nominal: &Solved,
    quantities: Quantities<'_>,
    search: &Budget<'_>,
) -> Result<Spread, SolveError> {
    let base = quantities(&design.installation, nominal);
    let mut varied = design.clone();
    let mut moved = |(input, at, value, _): &Doubt, to: f64| -> Option<Vec<f64>> {
        input.set(&mut varied, *at, to);
        let condition: &Condition = varied.conditions.get(place)?;
        let solved = solve_in_search(&varied.installation, condition, Some(nominal), search).ok();
        let found = solved.map(|solved| quantities(&varied.installation, &solved));
        input.set(&mut varied, *at, *value);
        let changes: Vec<f64> = found?.iter().zip(&base).map(|(a, b)| a - b).collect();
        changes
            .iter()
            .all(|change| change.is_finite())
            .then_some(changes)
    };
    let mut found = Spread {
        changes: doubts
            .iter()
            .map(|doubt| {
                let (input, at, value, (low, high)) = *doubt;
                Change {
                    input: Some((input, at)),
                    reach: [value - low, high - value],
                    ends: [moved(doubt, low), moved(doubt, high)],
                    halfway: [None, None],
                }
            })
            .collect(),
    };
    let bands: Vec<Band> = (0..base.len()).map(|at| found.moments(at).band()).collect();
    for (change, doubt) in found.changes.iter_mut().zip(doubts) {
        let is_bent = |(at, band): (usize, &Band)| change.is_bent(at, band);
        if bands.iter().enumerate().any(is_bent) {
            let (_, _, value, (low, high)) = *doubt;
            change.halfway = [low, high].map(|end| moved(doubt, 0.5 * (value + end)));
        }
    }
    search.lasts().map(|()| found)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::solve_condition::solve_condition;
    use crate::document::example;

    #[test]
    fn ends_that_were_not_tried_are_not_taken_for_ends_without_an_answer() {
        let design = example::design();
        let nominal =
            solve_condition(&design.installation, &design.conditions[1], None).expect("solved");
        let doubts: Vec<Doubt> = uncertain(&design).collect();
        let oil: Quantities<'_> = &|_, solved| vec![solved.solution.state.trial.oil_k];
        let within = |search: &Budget<'_>| spread(&design, 1, &doubts, &nominal, oil, search);
        let search = Budget::of_a_search(1);
        let found = within(&search).expect("it lasts");
        assert!(found.open_ends().is_empty());
        // An ordinary design takes a small part of what a search may.
        let spent = search.spent();
        assert!(
            spent > 500 && spent < crate::path::budget::SEARCH_STATES / 10,
            "{spent}"
        );
        let states = spent / 2;
        let stopped = within(&Budget::of(states)).expect_err("it does not last");
        assert!(matches!(stopped, SolveError::GaveUp { .. }), "{stopped}");
    }
}
