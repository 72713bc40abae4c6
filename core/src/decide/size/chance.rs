//! Chances of a size: that both limits hold, and what each limit needs by itself for it.

use crate::answer::band::bands;
use crate::answer::evaluate::evaluate;
use crate::answer::verdict::{DEFAULT_CHANCE, judge};
use crate::document::design::Design;

/// Share of the permitted risk that is aimed at, so that rounding and the next spread do not undo it [-].
const AIMED_RISK: f64 = 0.97;

/// Chance for each limit by itself with which both together should reach the wanted one, after both
/// together had another chance with what each had.
///
/// Two limits that both bind share the risk; one that binds alone has all of it. What either may miss
/// shrinks as the risk found is too large.
pub(super) fn chance_of_each(wanted: f64, each: f64, found: f64) -> f64 {
    let (permitted, risk) = (1.0 - wanted, 1.0 - found);
    if risk <= permitted {
        return each;
    }
    1.0 - (1.0 - each) * AIMED_RISK * permitted / risk
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
    fn a_risk_that_is_too_large_is_shared_and_one_that_is_not_stays() {
        assert_eq!(chance_of_each(0.9, 0.9, 0.93), 0.9);
        // Twice the risk that is permitted: each may miss half as often, and a little less.
        let each = chance_of_each(0.9, 0.9, 0.8);
        assert!((each - (1.0 - 0.05 * AIMED_RISK)).abs() < 1e-12, "{each}");
        // What was tightened once is tightened from there.
        assert!(chance_of_each(0.9, each, 0.88) > each);
    }
}
