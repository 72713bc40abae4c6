//! What is asked of a size: bounds, demands, and why none was found.

use crate::answer::evaluate::Limit;
use crate::answer::solved::EvaluateError;
use crate::decide::size::turn_around::TurnAround;
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::document::installation::areas::{exit_m2, inlets_m2};
use crate::document::limits::LimitChoice;
use crate::language::tr;
use crate::path::report::SolveError;
use crate::units::si::inch2;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// What one condition's limits are lowered by.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Allowance {
    /// Hottest head, K.
    pub head_k: f64,
    /// Oil at the gauge, K.
    pub oil_k: f64,
}

/// How far the openings may be changed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Bounds {
    /// Area of all inlets together, m²; equal ends lock it.
    pub inlets_m2: (f64, f64),
    /// Net area of the first exit, flap closed, m²; equal ends lock it.
    pub exit_m2: (f64, f64),
}

/// Inlet velocity over airspeed that is sought unless another is asked for \[-\] (from memory).
pub const USUAL_VELOCITY_RATIO: f64 = 0.45;

impl Bounds {
    /// Bounds unless others are asked for: half to two and a half times all inlets, two fifths to two and
    /// a half times the exit. A choice of ours, wide enough for what is still the same cowl; no source.
    ///
    /// # Example
    /// ```
    /// use coolpath_core::decide::size::Bounds;
    /// use coolpath_core::document::example;
    /// use coolpath_core::document::installation::areas::exit_m2;
    ///
    /// let installation = example::design().installation;
    /// let (least, most) = Bounds::usual(&installation).exit_m2;
    /// let own = exit_m2(&installation);
    /// assert!((least / own - 0.4).abs() < 1e-12 && (most / own - 2.5).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn usual(installation: &Installation) -> Self {
        let (inlets, exit) = (inlets_m2(installation), exit_m2(installation));
        Self {
            inlets_m2: (0.5 * inlets, 2.5 * inlets),
            exit_m2: (0.4 * exit, 2.5 * exit),
        }
    }
}

/// What must hold.
#[derive(Debug, Clone, PartialEq)]
pub struct Demand {
    /// What each condition's limits are lowered by, in the order of the conditions.
    pub allowances: Vec<Allowance>,
    /// Least pressure across the baffles in every condition with airspeed, Pa; zero asks nothing.
    pub least_drop_pa: f64,
    /// Which limits are to be held.
    pub limits: LimitChoice,
    /// A turn-around whose every moment must hold them too.
    pub turn_around: Option<TurnAround>,
}

impl Demand {
    /// Limits as they stand, without any allowance.
    #[must_use]
    pub fn nominal(design: &Design) -> Self {
        Self {
            allowances: vec![Allowance::default(); design.conditions.len()],
            least_drop_pa: 0.0,
            limits: LimitChoice::default(),
            turn_around: None,
        }
    }
}

/// Which demand is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Wanted {
    /// A temperature limit.
    Limit(Limit),
    /// The least pressure across the baffles.
    Drop,
}

/// How far a condition lies inside a demand.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Margin {
    /// The condition's place.
    pub condition: usize,
    /// The demand.
    pub wanted: Wanted,
    /// Inside it by so much, K or Pa; negative outside.
    pub by: f64,
    /// The same over a scale that makes demands comparable [-]: 10 K, or 100 Pa.
    pub scaled: f64,
    /// In the turn-around: so long after take-off, s, negative before it; `None` in steady flight.
    pub after_take_off_s: Option<f64>,
}

/// Why no size was found.
#[derive(Debug, Clone, PartialEq, thiserror::Error, Serialize, Deserialize)]
#[non_exhaustive]
pub enum SizeError {
    /// A condition has no answer.
    #[error("{0}")]
    Evaluate(#[source] EvaluateError),
    /// Not even the best permitted sizes hold a limit.
    #[error("{}", tr("No size within your bounds holds every limit."))]
    OutOfReach {
        /// What is missed most.
        shortfall: Margin,
        /// Inlet area of the best permitted sizes, m².
        inlets_m2: f64,
        /// Exit area of the best permitted sizes, m².
        exit_m2: f64,
    },
    /// The condition that was named does not move, or does not exist.
    #[error(
        "{}",
        tr("A velocity ratio needs a condition with airspeed: at rest there is none.")
    )]
    NoAirspeed {
        /// Its place.
        condition: usize,
    },
    /// No inlet within the bounds has this velocity ratio.
    #[error(
        "{}",
        tr!(
            "Within your bounds the inlet velocity ratio lies between {:.2} and {:.2}.",
            .largest, .smallest
        )
    )]
    RatioOutOfReach {
        /// Ratio with the smallest inlets [-].
        smallest: f64,
        /// Ratio with the largest inlets [-].
        largest: f64,
    },
    /// No opening within the bounds has permitted dimensions.
    #[error(
        "{}",
        tr!(
            "Within your bounds no {} has dimensions that this program permits: with its present \
             shape {:.0} to {:.0} in² (net) would.",
            tr(.what), reach_m2.0 / inch2(1.0), reach_m2.1 / inch2(1.0)
        )
    )]
    Unbuildable {
        /// Which opening.
        what: Cow<'static, str>,
        /// Areas that its dimensions permit, m².
        reach_m2: (f64, f64),
    },
    /// An end of an assumption's range has no answer in a condition.
    #[error(
        "{}",
        tr!(
            "At an end of what is likely for “{}” the condition “{}” has no answer, so \
             that no size can be promised: measure it, or narrow it.",
            tr(.input), .condition
        )
    )]
    OpenRange {
        /// Name of the condition.
        condition: String,
        /// What the assumption is called.
        input: Cow<'static, str>,
    },
    /// Bounds are not positive or out of order.
    #[error("{}", tr("Bounds must be areas above zero, the smaller one first."))]
    Bounds,
}

pub(crate) fn gave_up(error: SolveError) -> SizeError {
    SizeError::Evaluate(EvaluateError::Solve(error))
}
