//! The last resort: the oil's temperature bracketed, the network relaxed at each.
//!
//! With the oil held a network comes to rest where it would swing with it for ever.

use crate::math::root::{RootError, bracketed_root};
use crate::path::budget::Budget;
use crate::path::network::Cowl;
use crate::path::newton::Scale;
use crate::path::relaxed::{Oil, relaxed};
use crate::path::report::SolveError;
use crate::path::state::Trial;

/// Precision of the oil's temperature, K.
const TOLERANCE_K: f64 = 1e-10;
/// Heat of the oil, as a share of its scale, from which its sign counts although the streams have
/// not come to rest [-].
const CLEAR: f64 = 0.1;

/// Trial at which the oil gains no heat and loses none.
///
/// # Errors
/// [`SolveError::NoOilBalance`] if it gains heat at both ends of what its temperature could be, or
/// loses it at both; [`SolveError::NotConverged`] if that cannot be told.
pub(super) fn by_brackets(
    cowl: &Cowl,
    scale: &Scale,
    budget: &Budget<'_>,
) -> Result<Trial, SolveError> {
    let at = |oil_k: f64| relaxed(cowl, Oil::HeldInAnyAir(oil_k), scale, budget);
    let gained = |oil_k: f64| {
        let rest = at(oil_k);
        let gained_w = budget.state(cowl, rest.trial).residual.oil_w;
        if rest.at_rest || gained_w.abs() > CLEAR * scale.heat_w {
            gained_w
        } else {
            f64::NAN
        }
    };
    let (coldest_k, hottest_k) = oil_bounds(cowl);
    let unknown = SolveError::NotConverged {
        residual: f64::INFINITY,
        iterations: 0,
    };
    match bracketed_root(gained, coldest_k, hottest_k, TOLERANCE_K) {
        Ok(found) => Ok(at(found.x).trial),
        Err(RootError::NotBracketed {
            at_low, at_high, ..
        }) if !(at_low.is_nan() || at_high.is_nan()) => Err(SolveError::NoOilBalance),
        Err(_) => Err(unknown),
    }
}

/// Lowest and highest temperature that the oil could have, K: the outside air's, the gas's.
pub(super) fn oil_bounds(cowl: &Cowl) -> (f64, f64) {
    let outside_k = cowl.stream.temperature_k;
    (outside_k, cowl.heads.gas_k.max(outside_k + 1.0))
}
