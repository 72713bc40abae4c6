//! Two decks joined by branches: the solver for their pressures.
//!
//! Newton on both pressures first, its slopes carried along by Broyden's rule; where that fails,
//! brackets: at a trial pressure of the lower deck the upper deck's pressure follows from its own
//! balance; then the lower deck's balance falls steadily with its pressure. Nothing here knows what the
//! branches are, so the same solver serves the engine bay and a plain network.

use crate::math::broyden::updated;
use crate::math::root::{RootError, bracketed_root, fallible_root};

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
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum DeckError {
    /// All boundaries stand at the same pressure.
    #[error("all boundaries stand at {pressure_pa} Pa")]
    NoDrivingPressure {
        /// That pressure, Pa gauge.
        pressure_pa: f64,
    },
    /// A balance has no root between the boundary pressures.
    #[error("a deck has no balance between the boundary pressures")]
    Unbalanced(#[source] RootError),
}

/// Room beyond the boundary pressures, as a share of their difference: fixed draws can pull a
/// deck below every boundary.
const MARGIN: f64 = 3.0;

/// Finds the deck pressures at which both balances vanish.
///
/// # Errors
/// [`DeckError::NoDrivingPressure`] if the boundary pressures coincide;
/// [`DeckError::Unbalanced`] if no root lies near them.
///
/// # Example
/// Three equal resistances, linear in the flow, from 900 Pa to none share it by thirds:
/// ```
/// use coolpath_core::path::decks::{DeckError, TwoDecks, deck_pressures};
///
/// struct Thirds;
/// impl TwoDecks for Thirds {
///     fn upper_balance(&self, upper_pa: f64, lower_pa: f64) -> f64 {
///         (900.0 - upper_pa) - (upper_pa - lower_pa)
///     }
///     fn lower_balance(&self, upper_pa: f64, lower_pa: f64) -> f64 {
///         (upper_pa - lower_pa) - lower_pa
///     }
///     fn pressure_bounds(&self) -> (f64, f64) {
///         (0.0, 900.0)
///     }
///     fn pressure_floor(&self) -> f64 {
///         -90_000.0
///     }
/// }
/// let decks = deck_pressures(&Thirds)?;
/// assert!((decks.upper_pa - 600.0).abs() < 1e-6);
/// assert!((decks.lower_pa - 300.0).abs() < 1e-6);
/// # Ok::<(), DeckError>(())
/// ```
pub fn deck_pressures(network: &impl TwoDecks) -> Result<DeckPressures, DeckError> {
    let (lowest, highest) = network.pressure_bounds();
    let span = highest - lowest;
    if span.is_nan() || span <= 1e-6 {
        return Err(DeckError::NoDrivingPressure {
            pressure_pa: lowest,
        });
    }
    if let Some(found) = by_newton(network, lowest, span) {
        return Ok(found);
    }
    let floor = (lowest - MARGIN * span).max(network.pressure_floor());
    let tolerance = span * 1e-15;
    let mut evaluations = 0;
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
    let lower_pa = fallible_root(
        |lower_pa| {
            let upper_pa = upper_at(lower_pa, &mut evaluations)?;
            Ok(network.lower_balance(upper_pa, lower_pa))
        },
        floor,
        highest + 1e-9 * span,
        tolerance,
    )
    .and_then(|root| root)
    .map_err(DeckError::Unbalanced)?
    .x;
    let upper_pa = upper_at(lower_pa, &mut evaluations).map_err(DeckError::Unbalanced)?;
    Ok(DeckPressures {
        upper_pa,
        lower_pa,
        evaluations,
    })
}

/// Where Newton starts: deck pressures as shares of the boundaries' span (from memory: usual).
const START: [f64; 2] = [0.7, 0.25];
/// Step of a difference, and step that counts as none, as shares of the span.
const DIFFERENCE: f64 = 1e-7;
const NO_STEP: f64 = 1e-14;
const MAX_STEPS: u32 = 30;

/// Newton on both pressures; `None` where it does not come closer at every step.
fn by_newton(network: &impl TwoDecks, lowest: f64, span: f64) -> Option<DeckPressures> {
    let mut evaluations = 0;
    let mut balances = |[upper_pa, lower_pa]: [f64; 2]| {
        evaluations += 1;
        [
            network.upper_balance(upper_pa, lower_pa),
            network.lower_balance(upper_pa, lower_pa),
        ]
    };
    let largest = |[a, b]: [f64; 2]| a.abs().max(b.abs());
    let mut place = START.map(|share| lowest + share * span);
    let mut off = balances(place);
    let mut slopes: Option<[[f64; 2]; 2]> = None;
    for _ in 0..MAX_STEPS {
        let fresh = slopes.is_none();
        let [[a, b], [c, d]] = slopes.unwrap_or_else(|| {
            let by = DIFFERENCE * span;
            let upper = balances([place[0] + by, place[1]]);
            let lower = balances([place[0], place[1] + by]);
            [0, 1].map(|row| [(upper[row] - off[row]) / by, (lower[row] - off[row]) / by])
        });
        let determinant = a * d - b * c;
        let step = [
            (b * off[1] - d * off[0]) / determinant,
            (c * off[0] - a * off[1]) / determinant,
        ];
        let length = largest(step);
        if !length.is_finite() || length > 2.0 * span {
            return None;
        }
        let next = [place[0] + step[0], place[1] + step[1]];
        let left = balances(next);
        let closer = largest(left) < largest(off);
        if length <= NO_STEP * span || (fresh && !closer && length <= 1e-11 * span) {
            let [upper_pa, lower_pa] = if closer { next } else { place };
            return Some(DeckPressures {
                upper_pa,
                lower_pa,
                evaluations,
            });
        }
        if !closer {
            if fresh {
                return None;
            }
            slopes = None;
            continue;
        }
        let changed = [left[0] - off[0], left[1] - off[1]];
        slopes = Some(updated(&[[a, b], [c, d]], &step, &changed, &[1.0; 2]));
        (place, off) = (next, left);
    }
    None
}
