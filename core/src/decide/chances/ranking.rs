//! Which assumption to measure next: by how much knowing it would narrow an answer.

use crate::answer::sampling::{Drawn, Sampling};
use crate::document::table::Input;
use crate::math::order;

/// An assumption and what knowing it would do.
#[derive(Debug, Clone, Copy)]
pub struct Rank {
    /// The assumption.
    pub input: &'static Input,
    /// Its place in a list.
    pub place: usize,
    /// Share of the answer's variance that goes when it is known [-].
    pub share: f64,
    /// By how much the answer's standard deviation shrinks when it is known [-].
    pub narrowing: f64,
}

/// Groups into which the draws are sorted by an assumption's slice.
const GROUPS: usize = 20;

/// The assumptions of a condition's answer, the one most worth knowing first.
///
/// The share is the first-order index Var(E[y|x]) / Var(y), from the draws sorted by x into twenty
/// groups; what twenty groups of a quantity without any effect would show by chance is taken off.
/// Knowing x leaves √(1 − share) of the standard deviation, on average.
#[must_use]
pub fn ranking(sampling: &Sampling, place: usize, figure: fn(&Drawn) -> f64) -> Vec<Rank> {
    let Some(drawn) = sampling.drawn.get(place) else {
        return Vec::new();
    };
    let values: Vec<(usize, f64)> = drawn
        .iter()
        .enumerate()
        .filter_map(|(draw, found)| Some((draw, figure(found.as_ref().ok()?))))
        .collect();
    let count = values.len() as f64;
    let draws = drawn.len();
    if values.len() < 5 * GROUPS {
        return Vec::new();
    }
    let mean = values.iter().map(|(_, y)| y).sum::<f64>() / count;
    let variance = values
        .iter()
        .map(|(_, y)| (y - mean) * (y - mean))
        .sum::<f64>()
        / count;
    let by_chance = (GROUPS - 1) as f64 / (count - 1.0);
    let mut ranks: Vec<Rank> = sampling
        .assumptions
        .iter()
        .filter(|assumption| assumption.concerns(place))
        .map(|assumption| {
            let mut sums = [(0.0, 0.0); GROUPS];
            for (draw, y) in &values {
                let group = assumption.slices[*draw] as usize * GROUPS / draws;
                sums[group].0 += y - mean;
                sums[group].1 += 1.0;
            }
            let between: f64 = sums
                .iter()
                .filter(|(_, n)| *n > 0.0)
                .map(|(sum, n)| sum * sum / n)
                .sum::<f64>()
                / count;
            let share = if variance > 0.0 {
                ((between / variance - by_chance) / (1.0 - by_chance)).clamp(0.0, 1.0)
            } else {
                0.0
            };
            Rank {
                input: assumption.input,
                place: assumption.place,
                share,
                narrowing: 1.0 - (1.0 - share).sqrt(),
            }
        })
        .collect();
    order::by_number(&mut ranks, |rank| -rank.share);
    ranks
}
