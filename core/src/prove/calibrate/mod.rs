//! Calibration: a few parameters fitted to readings, each pulled to its prior.
//!
//! The sum of squares of (model − measured)/σ over all readings and of the parameters' own
//! deviations from their priors is made least (Levenberg and Marquardt, by the
//! `levenberg-marquardt` library). A stretch of flight is followed with first-order lags; its many
//! moments are not as many independent readings, so they weigh as one more every
//! [`INDEPENDENT_S`]. Of a whole flight every moment counts, with errors that remember
//! ([`Correlated`]); how long they do is found with the fit.
//!
//! The work is cut into steps: a solver run that needs values which were not computed yet stops,
//! they are computed some solutions at a time, and the run is repeated from its start with all that
//! is known. The result is the same as of one long run.

pub(crate) mod channel;
mod choice;
mod correlated;
pub(crate) mod course;
mod cylinders;
mod finding;
mod fit;
pub(crate) mod observed;
mod outcome;
mod parameter;
mod problem;
mod rounds;
pub(crate) mod scatter;
mod series;
mod solving;
mod tuning;

pub use crate::prove::calibrate::channel::Channel;
pub use crate::prove::calibrate::choice::usual_choice;
pub use crate::prove::calibrate::correlated::Correlated;
pub use crate::prove::calibrate::cylinders::with_cylinders;
pub use crate::prove::calibrate::fit::{CalibrateError, Calibration};
pub use crate::prove::calibrate::outcome::{
    Fitted, Likely, Outcome, OverFlights, Pair, Predicted, Residual,
};
pub use crate::prove::calibrate::parameter::{Parameter, Prior};
pub use crate::prove::calibrate::scatter::{INDEPENDENT_S, Scatter};
