//! How the heads' answer to more pressure depends on two exponents: report R01.

use super::case::{Cases, ChangeCase};
use super::judged::at_the_level;
use super::measure::Measure;
use super::solving::reach;
use coolpath_core::units::si::{degf, deltaf};

/// One pair of exponents and what it gives.
#[derive(Debug, Clone, Copy)]
pub struct Trial {
    /// Slope of ln conductance over ln flow at the known point [-].
    pub conductance_slope: f64,
    /// Exponent of flow in the fins' pressure drop [-].
    pub drop_exponent: f64,
    /// Change of the mean head, °F.
    pub change: f64,
    /// Slope of ln (head − air) over ln Δp between the two states [-].
    pub head_slope: f64,
    /// The same of the fins' conductance [-].
    pub conductance_over_drop: f64,
}

/// The report's change with a pair of exponents, at the reported level and pressures.
fn trial(case: &ChangeCase, conductance_slope: f64, drop_exponent: f64) -> Option<Trial> {
    let mut design = case.design.clone();
    design.installation.reference.conductance_slope = conductance_slope;
    design.installation.reference.drop_exponent = drop_exponent;
    let (mut later, first) = at_the_level(case, &design)?;
    let before = later.clone();
    let own = case.matches.first()?;
    let second = reach(&mut later, &[own.goal_after()?])?;
    let heads = [
        Measure::HeadMean.of(&before, &first)?,
        Measure::HeadMean.of(&later, &second)?,
    ];
    let states = [&first, &second].map(|solved| &solved.solution.state);
    let ln_drop = (own.after?.0 / own.before?).ln();
    let excess = [0, 1].map(|at| heads[at] - states[at].fins.in_k);
    Some(Trial {
        conductance_slope,
        drop_exponent,
        change: (heads[1] - heads[0]) / deltaf(1.0),
        head_slope: (excess[1] / excess[0]).ln() / ln_drop,
        conductance_over_drop: (states[1].terms.fin_w_k / states[0].terms.fin_w_k).ln() / ln_drop,
    })
}

/// What the report's change depends on, and the exponent that would give it.
#[derive(Debug, Clone)]
pub struct Finding {
    /// Pairs of exponents.
    pub trials: Vec<Trial>,
    /// The conductance's slope that gives the reported change at the default drop exponent; `None`
    /// within what is permitted.
    pub fitting: Option<Trial>,
    /// The change at other levels before it, °F: level of the hottest head and change.
    pub by_level: Vec<(f64, f64)>,
}

/// Report R01's change over both exponents.
///
/// # Panics
/// If the assumptions have no such change.
#[must_use]
pub fn finding(reported: f64) -> Finding {
    let cases = Cases::read();
    let found = cases
        .changes
        .iter()
        .find(|case| case.reports.iter().any(|id| id == "R01a"));
    let Some(case) = found else {
        panic!("no change R01a");
    };
    let default = case.design.installation.reference.clone();
    let mut trials = Vec::new();
    for drop in [default.drop_exponent, 2.0] {
        for slope in [0.40, 0.50, default.conductance_slope, 0.70] {
            trials.extend(trial(case, slope, drop));
        }
    }
    let (mut low, mut high) = (0.36, 0.88);
    let change = |slope: f64| trial(case, slope, default.drop_exponent).map(|one| one.change);
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        // A steeper conductance cools more.
        match change(middle) {
            Some(found) if found < reported => high = middle,
            Some(_) => low = middle,
            None => break,
        }
    }
    let fitting = trial(case, 0.5 * (low + high), default.drop_exponent)
        .filter(|one| (one.change - reported).abs() < 0.5);
    let by_level = [410.0, 425.0, 440.0, 460.0]
        .into_iter()
        .filter_map(|level| {
            let mut other = case.clone();
            other.level = vec![(Measure::HeadHottest, degf(level))];
            let own = trial(&other, default.conductance_slope, default.drop_exponent)?;
            Some((level, own.change))
        })
        .collect();
    Finding {
        trials,
        fitting,
        by_level,
    }
}
