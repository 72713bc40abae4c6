//! The bracketed search: oil temperature outermost, then the lower deck, then the upper deck.
//!
//! Slow and safe; used where Newton finds nothing.

use crate::math::root::{RootError, bracketed_root, fallible_root};
use crate::path::decks::{DeckError, TwoDecks, deck_pressures};
use crate::path::network::Cowl;
use crate::path::report::SolveError;
use crate::path::state::{Residual, Trial};

/// The decks at a given oil temperature.
struct AtOil<'a> {
    cowl: &'a Cowl,
    oil_k: f64,
}

/// Bracket of every branch flow, kg/s, wide enough for any engine.
const FLOW_BRACKET: (f64, f64) = (1e-14, 1e3);

impl AtOil<'_> {
    /// Flows that use up the pressures between the decks.
    fn trial(&self, upper_pa: f64, lower_pa: f64) -> Option<Trial> {
        let (from, to) = self.cowl.cooler_ends(upper_pa, lower_pa);
        let fin_sign = if upper_pa >= lower_pa { 1.0 } else { -1.0 };
        let mut trial = Trial {
            fin_kg_s: fin_sign * FLOW_BRACKET.0,
            cooler_kg_s: 0.0,
            upper_pa,
            lower_pa,
            oil_k: self.oil_k,
        };
        let tight = self.cowl.cooler.duct.is_tight();
        let cooler_sign = if from >= to { 1.0 } else { -1.0 };
        let cooler = |trial: Trial| {
            if tight || from == to {
                return Some(0.0);
            }
            log_root(cooler_sign, |flow| {
                let state = self.cowl.state(Trial {
                    cooler_kg_s: flow,
                    ..trial
                });
                cooler_sign * state.residual.cooler_pa
            })
        };
        if self.cowl.cooler_draws_from_outside(cooler_sign) {
            trial.cooler_kg_s = cooler(trial)?;
        }
        if upper_pa != lower_pa {
            trial.fin_kg_s = log_root(fin_sign, |flow| {
                let state = self.cowl.state(Trial {
                    fin_kg_s: flow,
                    ..trial
                });
                fin_sign * state.residual.fins_pa
            })?;
        }
        trial.cooler_kg_s = cooler(trial)?;
        Some(trial)
    }

    fn residual(&self, upper_pa: f64, lower_pa: f64) -> Option<Residual> {
        Some(self.cowl.state(self.trial(upper_pa, lower_pa)?).residual)
    }
}

/// Flow of a sign at which a falling function of |flow| vanishes, searched in ln |W|.
fn log_root(sign: f64, falling: impl Fn(f64) -> f64) -> Option<f64> {
    let flow = |ln: f64| sign * libm::exp(ln);
    let (low, high) = (libm::log(FLOW_BRACKET.0), libm::log(FLOW_BRACKET.1));
    match bracketed_root(|ln| falling(flow(ln)), low, high, 1e-15) {
        Ok(root) => Some(flow(root.x)),
        Err(RootError::NotBracketed { at_low, .. }) if at_low < 0.0 => Some(flow(low)),
        Err(_) => None,
    }
}

impl TwoDecks for AtOil<'_> {
    fn upper_balance(&self, upper_pa: f64, lower_pa: f64) -> f64 {
        self.residual(upper_pa, lower_pa)
            .map_or(f64::NAN, |left| left.upper_kg_s)
    }

    fn lower_balance(&self, upper_pa: f64, lower_pa: f64) -> f64 {
        self.residual(upper_pa, lower_pa)
            .map_or(f64::NAN, |left| left.lower_kg_s)
    }

    fn pressure_bounds(&self) -> (f64, f64) {
        self.cowl.pressure_bounds()
    }

    fn pressure_floor(&self) -> f64 {
        self.cowl.pressure_floor()
    }
}

/// Trial found by brackets alone: oil temperature outermost, then lower deck, then upper deck.
pub(super) fn by_brackets(cowl: &Cowl) -> Result<Trial, SolveError> {
    let at = |oil_k: f64| -> Result<Trial, SolveError> {
        let network = AtOil { cowl, oil_k };
        let unbalanced = SolveError::NotConverged {
            residual: f64::INFINITY,
            iterations: 0,
        };
        let found = deck_pressures(&network).map_err(|error| match error {
            DeckError::NoDrivingPressure { .. } => SolveError::NoDrivingPressure { span_pa: 0.0 },
            // The deck at its floor and still more is taken out than comes in.
            DeckError::Unbalanced(RootError::NotBracketed { at_low, .. })
                if at_low < 0.0 && cowl.induction_kg_s > 0.0 =>
            {
                SolveError::IntakeStarved {
                    induction_kg_s: cowl.induction_kg_s,
                }
            }
            DeckError::Unbalanced(_) => unbalanced,
        })?;
        network
            .trial(found.upper_pa, found.lower_pa)
            .ok_or(unbalanced)
    };
    let (coldest_k, hottest_k) = oil_bounds(cowl);
    let root = fallible_root(
        |oil_k| at(oil_k).map(|trial| cowl.state(trial).residual.oil_w),
        coldest_k,
        hottest_k,
        1e-10,
    )?;
    match root {
        Ok(found) => at(found.x),
        Err(RootError::NotConverged { best, .. }) => at(best),
        Err(RootError::NotBracketed { .. }) => Err(SolveError::NoOilBalance),
    }
}

/// Lowest and highest temperature that the oil could have, K: the outside air's, the gas's.
pub(super) fn oil_bounds(cowl: &Cowl) -> (f64, f64) {
    let outside_k = cowl.stream.temperature_k;
    (outside_k, cowl.heads.gas_k.max(outside_k + 1.0))
}
