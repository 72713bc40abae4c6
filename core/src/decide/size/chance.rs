//! Chances of a size: that both limits hold, and what each limit needs by itself for it.

use crate::answer::band::bands;
use crate::answer::evaluate::evaluate;
use crate::answer::verdict::{DEFAULT_CHANCE, judge};
use crate::document::design::Design;
use crate::math::normal::{normal_chance, normal_quantile};

/// Deviations beyond the wanted ones that are aimed at, so that rounding and the next spread do not undo it.
const BEYOND: f64 = 0.03;
/// Deviations of both limits together that one more deviation of each gives: a larger opening has narrower
/// bands too (derived: 1.7 to 2.8 in sizes of some invented designs). The first round takes the most that
/// was seen, so as not to pass beyond; later ones take less, so as to arrive.
const GAINS: [f64; 3] = [2.4, 1.7, 1.0];

/// Chance for each limit by itself with which both together should reach the wanted one, after both
/// together had another chance with what each had.
///
/// Two limits that both bind share the risk; one that binds alone has all of it. What both together lack, in
/// deviations of a normal variable, is added to each.
///
/// # Arguments
/// * `round` - rounds before this one
pub(super) fn chance_of_each(wanted: f64, each: f64, found: f64, round: usize) -> f64 {
    if found >= wanted {
        return each;
    }
    // What is next to impossible is taken for one in a thousand, or the step would have no end.
    let lacks = normal_quantile(wanted) + BEYOND - normal_quantile(found.max(0.001));
    let gain = GAINS[round.min(GAINS.len() - 1)];
    normal_chance(normal_quantile(each) + lacks / gain)
}

/// Chance that both limits hold in a condition, from the bands; none without an answer.
#[must_use]
pub fn chance_inside(design: &Design, place: usize) -> f64 {
    let (Ok(answer), Ok(spread)) = (evaluate(design, place), bands(design, place)) else {
        return 0.0;
    };
    let installation = &design.installation;
    judge(installation, &answer, Some(&spread), None, DEFAULT_CHANCE)
        .chance_inside
        .map_or(0.0, |chance| chance.share)
}

/// Least chance over the conditions that both limits hold, from the bands.
#[must_use]
pub fn least_chance(design: &Design) -> f64 {
    (0..design.conditions.len())
        .map(|place| chance_inside(design, place))
        .fold(1.0, f64::min)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_both_lack_is_added_to_each_and_what_suffices_stays() {
        assert_eq!(chance_of_each(0.9, 0.9, 0.93, 0), 0.9);
        let each = chance_of_each(0.9, 0.9, 0.8, 0);
        let by = normal_quantile(each) - normal_quantile(0.9);
        let lacks = normal_quantile(0.9) - normal_quantile(0.8);
        assert!((by - (lacks + BEYOND) / GAINS[0]).abs() < 1e-6, "{each}");
        // What was tightened once is tightened from there, and the impossible comes to an end.
        assert!(chance_of_each(0.9, each, 0.88, 1) > each);
        assert!(chance_of_each(0.9, 0.9, 0.0, 9) < 1.0);
    }
}
