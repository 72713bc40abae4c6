//! A solved condition, or why there is none.

use crate::answer::prepare::{PrepareError, Prepared};
use crate::document::check::DesignError;
use crate::document::condition::Condition;
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::language::tr;
use crate::path::report::{Solution, SolveError, gauge_temperature};
use crate::path::state::Start;
use serde::{Deserialize, Serialize};
use uom::si::f64::TemperatureInterval;

/// Why a condition has no answer.
///
/// It is written as its sentence, and read as [`EvaluateError::Told`] with that.
#[derive(Debug, Clone, PartialEq, thiserror::Error, Serialize, Deserialize)]
#[serde(into = "String", from = "String")]
#[non_exhaustive]
pub enum EvaluateError {
    /// The design itself is refused.
    #[error(transparent)]
    Design(#[from] DesignError),
    /// There is no condition at this place.
    #[error("{}", tr("There is no such condition."))]
    NoSuchCondition {
        /// The place asked for.
        place: usize,
        /// How many conditions the design has.
        count: usize,
    },
    /// It could not be prepared.
    #[error(transparent)]
    Prepare(#[from] PrepareError),
    /// The network has no solution.
    #[error(transparent)]
    Solve(#[from] SolveError),
    /// What somebody else was told of one, in a sentence.
    #[error("{0}")]
    Told(String),
}

impl From<String> for EvaluateError {
    fn from(sentence: String) -> Self {
        Self::Told(sentence)
    }
}

impl From<EvaluateError> for String {
    fn from(error: EvaluateError) -> Self {
        error.to_string()
    }
}

/// The condition at a place of a design's list.
///
/// # Errors
/// [`EvaluateError::NoSuchCondition`] past its end.
pub(crate) fn condition_at(design: &Design, place: usize) -> Result<&Condition, EvaluateError> {
    design
        .conditions
        .get(place)
        .ok_or(EvaluateError::NoSuchCondition {
            place,
            count: design.conditions.len(),
        })
}

/// What the shutter does in a condition.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum ShutterState {
    /// None is fitted.
    NotFitted,
    /// It stands where it was put.
    Fixed,
    /// It holds the target.
    Holds,
    /// Fully open is not enough.
    OpenTooHot {
        /// Gauge above the target.
        excess: TemperatureInterval,
    },
    /// Closed is still too cold.
    ClosedTooCold {
        /// Gauge below the target.
        shortfall: TemperatureInterval,
    },
}

/// A solved condition before it is put into words.
#[derive(Debug, Clone, Copy)]
pub struct Solved {
    /// The prepared numbers, with the shutter where it stands.
    pub prepared: Prepared,
    /// The solution.
    pub solution: Solution,
    /// What the shutter does.
    pub shutter: ShutterState,
    /// Opening of the shutter [-].
    pub opening: f64,
    /// What the oil gauge would show with a shutter that holds oil fully open instead, K; `None`
    /// where none holds any.
    pub open_gauge_k: Option<f64>,
    /// Where searches nearby begin, of a shutter that holds oil.
    pub(crate) near: Near,
}

impl Solved {
    /// Oil as the installation's own gauge shows it, K.
    #[must_use]
    pub fn oil_gauge_k(&self, installation: &Installation) -> f64 {
        gauge_temperature(
            &self.solution.state,
            installation.oil.probe.is_after_cooler(),
        )
    }
}

/// Where searches near a condition begin whose shutter holds oil.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Near {
    /// With the shutter open.
    pub(crate) open: Option<Start>,
    /// With the gauge at its target, whatever pressure that leaves for the shutter.
    pub(crate) at_target: Option<Start>,
}
