//! Why: each main answer as its equation with the values put in.
//!
//! The terms are taken from the solved state itself, and each derivation carries the function
//! that recomputes its result from them, so that what is shown cannot drift from what is solved.

mod banks;
mod derivation;
mod drag;
mod heads;
mod oil;
mod outside;
mod way;

pub use crate::answer::why::derivation::{Derivation, Term};

use crate::answer::solved::Solved;
use crate::document::installation::Installation;

/// Derivations of the main answers of a solved condition, in the order of the air's way.
///
/// # Example
/// Each equation gives its answer from the terms beside it:
/// ```
/// use coolpath_core::answer::solve_condition::solve_condition;
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::answer::why::derivations;
/// use coolpath_core::document::example;
///
/// let design = example::design();
/// let solved = solve_condition(&design.installation, &design.conditions[1], None)?;
/// for derivation in derivations(&design.installation, &solved) {
///     let terms: Vec<f64> = derivation.terms.iter().map(|term| term.value).collect();
///     let again = (derivation.recompute)(&terms);
///     assert!((again - derivation.value).abs() <= 1e-6 * derivation.value.abs());
/// }
/// # Ok::<(), EvaluateError>(())
/// ```
#[must_use]
pub fn derivations(installation: &Installation, solved: &Solved) -> Vec<Derivation> {
    let mut list = along_the_way(installation, solved);
    // Behind the ram pressure.
    list.splice(1..1, way::lip(installation, solved));
    list.extend(outside::outside(installation, solved));
    list
}

fn along_the_way(installation: &Installation, solved: &Solved) -> Vec<Derivation> {
    let Some(sides) = solved.solution.state.sides else {
        return vec![
            way::ram(installation, solved),
            way::inlet_flow(solved),
            way::fin_drop(solved),
            heads::gas_conductance(solved),
            heads::gas_temperature(installation, solved),
            heads::head(solved),
            oil::oil_heat(solved),
            oil::gauge(installation, solved),
            way::jet(solved),
            drag::drag(solved),
        ];
    };
    let (bank, words) = if sides.left.head_k >= sides.right.head_k {
        (&sides.left, &banks::LEFT)
    } else {
        (&sides.right, &banks::RIGHT)
    };
    let hotter = banks::as_whole_engine(solved, bank);
    vec![
        way::ram(installation, solved),
        way::inlet_flow(solved),
        banks::across(solved, &sides),
        words.fins(way::fin_drop(&hotter)),
        heads::gas_conductance(solved),
        heads::gas_temperature(installation, solved),
        words.head(heads::head(&hotter)),
        oil::oil_heat(solved),
        oil::gauge(installation, solved),
        way::jet(solved),
        drag::drag(solved),
    ]
}
