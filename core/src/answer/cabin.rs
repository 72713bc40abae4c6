//! Cabin air: how warm it arrives.

use crate::air::atmosphere;
use crate::answer::prepare::Prepared;
use crate::document::installation::Installation;
use crate::path::state::State;

/// Air that goes to the cabin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CabinAir {
    /// Flow, kg/s.
    pub flow_kg_s: f64,
    /// Where it leaves the muff, or the upper deck without one, K.
    pub air_k: f64,
    /// Heat that the exhaust gives it, W.
    pub heat_w: f64,
}

/// Air to the cabin in a state; `None` where none is taken, or cabin air runs into the cowl instead.
///
/// T_c = T_u + ε (T_g − T_u), ε from memory: a muff is short beside what its gas could give, so that the gas
/// counts as unchanged. What the muff keeps from the lower deck is left out.
///
/// # Example
/// A fifth of the way from the deck's air to the gas:
/// ```
/// use coolpath_core::answer::cabin::cabin_air;
/// use coolpath_core::answer::solve_condition::solve_condition;
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::document::example;
///
/// let mut design = example::design();
/// design.installation.decks.cabin_air = true;
/// design.installation.decks.cabin_muff = true;
/// design.installation.decks.muff_effectiveness = 0.2;
/// let solved = solve_condition(&design.installation, &design.conditions[3], None)?;
/// let (prepared, state) = (&solved.prepared, &solved.solution.state);
/// let cabin = cabin_air(&design.installation, prepared, state);
/// let by_hand = 0.8 * state.upper_k + 0.2 * prepared.exhaust_k;
/// assert!(cabin.is_some_and(|cabin| (cabin.air_k - by_hand).abs() < 1e-9));
/// # Ok::<(), EvaluateError>(())
/// ```
#[must_use]
pub fn cabin_air(
    installation: &Installation,
    prepared: &Prepared,
    state: &State,
) -> Option<CabinAir> {
    let decks = &installation.decks;
    let flow_kg_s = state.cabin_kg_s;
    if !decks.cabin_air || flow_kg_s <= 0.0 {
        return None;
    }
    let rise_k = if decks.cabin_muff {
        decks.muff_effectiveness * (prepared.exhaust_k - state.upper_k)
    } else {
        0.0
    };
    Some(CabinAir {
        flow_kg_s,
        air_k: state.upper_k + rise_k,
        heat_w: flow_kg_s * atmosphere::SPECIFIC_HEAT * rise_k,
    })
}
