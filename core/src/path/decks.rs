//! Two decks joined by branches: the bracketed solver for their pressures.
//!
//! At a trial pressure of the lower deck the upper deck's pressure follows from its own balance;
//! then the lower deck's balance falls steadily with its pressure. Nothing here knows what the
//! branches are, so the same solver serves the engine bay and a plain network.

use crate::root::{RootError, bracketed_root};

/// What the solver asks of a network with an upper and a lower deck.
pub trait TwoDecks {
    /// Net mass flow into the upper deck, kg/s, at both deck pressures, Pa; falls as
    /// `upper_pa` rises.
    fn upper_balance(&self, upper_pa: f64, lower_pa: f64) -> f64;
    /// Net mass flow into the lower deck, kg/s, at both deck pressures, Pa.
    fn lower_balance(&self, upper_pa: f64, lower_pa: f64) -> f64;
    /// Lowest and highest pressure that stands at the boundaries, Pa.
    fn pressure_bounds(&self) -> (f64, f64);
    /// Pressure below which no deck can be, Pa.
    fn pressure_floor(&self) -> f64;
}

/// Pressures of both decks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeckPressures {
    /// Upper deck, Pa.
    pub upper_pa: f64,
    /// Lower deck, Pa.
    pub lower_pa: f64,
    /// Evaluations of the balances.
    pub evaluations: u32,
}

/// Why no pressures were found.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum DeckError {
    /// All boundaries stand at the same pressure.
    NoDrivingPressure {
        /// That pressure, Pa gauge.
        pressure_pa: f64,
    },
    /// A balance has no root between the boundary pressures.
    Unbalanced(RootError),
}

/// Room beyond the boundary pressures, as a share of their difference: fixed draws can pull a
/// deck below every boundary.
const MARGIN: f64 = 3.0;

/// Finds the deck pressures at which both balances vanish.
///
/// # Errors
/// [`DeckError::NoDrivingPressure`] if the boundary pressures coincide;
/// [`DeckError::Unbalanced`] if no root lies near them.
pub fn deck_pressures(network: &impl TwoDecks) -> Result<DeckPressures, DeckError> {
    let (lowest, highest) = network.pressure_bounds();
    let span = highest - lowest;
    if span.is_nan() || span <= 1e-6 {
        return Err(DeckError::NoDrivingPressure {
            pressure_pa: lowest,
        });
    }
    let floor = (lowest - MARGIN * span).max(network.pressure_floor());
    let tolerance = span * 1e-15;
    let mut evaluations = 0;
    let mut failure = None;
    let upper_at = |lower_pa: f64, evaluations: &mut u32| {
        let root = bracketed_root(
            |upper_pa| network.upper_balance(upper_pa, lower_pa),
            floor,
            highest + 1e-9 * span,
            tolerance,
        );
        if let Ok(found) = &root {
            *evaluations += found.evaluations;
        }
        root.map(|found| found.x)
    };
    let lower = bracketed_root(
        |lower_pa| match upper_at(lower_pa, &mut evaluations) {
            Ok(upper_pa) => network.lower_balance(upper_pa, lower_pa),
            Err(error) => {
                failure = Some(error);
                f64::NAN
            }
        },
        floor,
        highest + 1e-9 * span,
        tolerance,
    );
    if let Some(error) = failure {
        return Err(DeckError::Unbalanced(error));
    }
    let lower_pa = lower.map_err(DeckError::Unbalanced)?.x;
    let upper_pa = upper_at(lower_pa, &mut evaluations).map_err(DeckError::Unbalanced)?;
    Ok(DeckPressures {
        upper_pa,
        lower_pa,
        evaluations,
    })
}
