//! What the solver returns: a balanced state with a report, or an error by name.

use crate::engine::oil;
use crate::language::tr;
use crate::path::state::{Slopes, Start, State};

/// How a solution was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// Newton alone.
    Newton,
    /// Newton from a relaxed start.
    Relaxed,
    /// The oil bracketed, polished by Newton.
    Bracketed,
    /// Newton on both halves of a split deck, from the network of one.
    Halves,
}

/// The solver's report.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Report {
    /// How it was found.
    pub method: Method,
    /// Newton steps taken.
    pub iterations: u32,
    /// Largest residual, each as a share of its scale [-].
    pub residual: f64,
}

/// A balanced state and how it was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Solution {
    /// The state.
    pub state: State,
    /// The report.
    pub report: Report,
    /// The balances' slopes by the unknowns, as the search left them.
    pub(super) slopes: Option<Slopes>,
}

impl Solution {
    /// Where the search for a solution nearby, of the same goal, begins.
    #[must_use]
    pub fn start(&self) -> Start {
        Start {
            trial: self.state.trial,
            slopes: self.slopes,
        }
    }
}

/// Why a network has no solution.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum SolveError {
    /// The openings cannot feed what the engine's intake takes from a deck.
    #[error(
        "{}",
        tr(
            "The openings cannot feed the engine's intake from inside the cowl: it would pull its deck far below the outside pressure."
        )
    )]
    IntakeStarved {
        /// What the intake takes, kg/s.
        induction_kg_s: f64,
    },
    /// All boundaries stand at the same pressure: nothing moves the air.
    #[error(
        "{}",
        tr("No driving pressure: with no airspeed and no propeller nothing moves the air.")
    )]
    NoDrivingPressure {
        /// Difference of the boundary pressures, Pa.
        span_pa: f64,
    },
    /// The balances could not be closed.
    #[error(
        "{}",
        tr!(
            "The solver did not close the balances (residual {} after {} steps). Nothing is shown rather than a doubtful number.",
            format_args!("{:.1e}", .residual), .iterations
        )
    )]
    NotConverged {
        /// Largest residual, as a share of its scale [-].
        residual: f64,
        /// Newton steps taken.
        iterations: u32,
    },
    /// The balances were not closed within the states that may be worked out.
    #[error(
        "{}",
        tr!(
            "The solver gave up: after {} tries the balances were not closed. Nothing is shown rather than a doubtful number.",
            .states
        )
    )]
    GaveUp {
        /// States worked out.
        states: u32,
    },
    /// In one of two halves air runs the other way, for which no balance is worked out.
    #[error(
        "{}",
        tr(
            "With the upper deck in two halves no answer is worked out where air runs upward through a bank or backward through the cooler; take one deck to see how the air stands."
        )
    )]
    HalvesReversed,
    /// Open the oil is too cool and closed too hot, or the other way, and yet no position between was
    /// found.
    #[error(
        "{}",
        tr(
            "No position of the shutter was found at which the oil is at its target. Nothing is shown rather than a doubtful number."
        )
    )]
    NoShutterPosition,
    /// The oil has no steady temperature between the outside air and the combustion gas.
    #[error(
        "{}",
        tr("The oil has no steady temperature: its heat has nowhere to go.")
    )]
    NoOilBalance,
}

/// Temperature that the oil gauge is to show.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gauge {
    /// Temperature, K.
    pub target_k: f64,
    /// The probe sits behind the cooler.
    pub after_cooler: bool,
}

/// Temperature at the oil gauge, K, of a state.
#[must_use]
pub fn gauge_temperature(state: &State, after_cooler: bool) -> f64 {
    if !after_cooler || state.terms.pump_kg_s <= 0.0 {
        return state.trial.oil_k;
    }
    // All oil mixes behind the cooler: T = T_oil − Q / (ṁ c)
    let capacity = state.terms.pump_kg_s * oil::specific_heat(state.trial.oil_k);
    state.trial.oil_k - state.cooler.heat_w / capacity
}
