//! Why a condition could not be prepared.

use crate::document::check::DesignError;
use crate::engine::cooler::CoolerError;
use crate::engine::heads::CylinderError;
use crate::language::tr;

/// Why a condition could not be prepared.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PrepareError {
    /// No air path can be laid out.
    #[error(transparent)]
    NoPath(#[from] DesignError),
    /// The engine's known point contradicts itself.
    #[error("{}", tr!("The engine's known point contradicts itself: {}.", .0))]
    KnownPoint(#[source] CylinderError),
    /// The cooler's rating is impossible.
    #[error(
        "{}",
        tr("The cooler's rating asks for more heat than its air and oil flow can carry.")
    )]
    Cooler(#[source] CoolerError),
    /// Power and mixture are both to follow from the one fuel flow.
    #[error(
        "{}",
        tr("The fuel flow cannot give both power and mixture: give one of them another way.")
    )]
    TwiceByFuel,
    /// The airspeed is beyond the speed of sound's neighbourhood.
    #[error("{}", tr!("Mach {:.2} is beyond this model (0.6).", .mach))]
    TooFast {
        /// Mach number [-].
        mach: f64,
    },
}
