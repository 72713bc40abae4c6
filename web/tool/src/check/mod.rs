//! `coolpath check`: a design fitted on some flights and compared with others, as one JSON object.

pub mod args;
mod input;
mod json;

use crate::check::args::CheckArgs;
use crate::check::input::{Flights, InputError};
use coolpath_core::prove::calibrate::CalibrateError;
use coolpath_core::prove::flights;
use serde_json::Value;

/// Why a check has no result.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum CheckError {
    /// A file is at fault.
    #[error(transparent)]
    Input(#[from] InputError),
    /// No window to fit on was found.
    #[error(
        "nothing to fit on: no steady stretch in {0}; --window 60 takes shorter pieces, --climbs \
         whole climbs and descents, --no-fit predicts without a fit"
    )]
    NothingToFit(String),
    /// No window to predict was found.
    #[error("nothing to predict: no steady stretch in {0}; --window 60 takes shorter pieces")]
    NothingToPredict(String),
    /// The fit failed.
    #[error("the fit failed: {0}")]
    Fit(#[from] CalibrateError),
}

/// Carries a check out.
///
/// # Errors
/// [`CheckError`] with the file and, where one is known, the line.
pub fn run(args: &CheckArgs) -> Result<Value, CheckError> {
    let design = input::design(&args.design)?;
    let found = Flights::read(args)?;
    if found.on.is_empty() {
        return Err(CheckError::NothingToPredict(found.read_for_on()));
    }
    let windows: Vec<flights::Window> = found.on.iter().map(|own| own.window.clone()).collect();
    let checked = if args.no_fit {
        flights::predict(&design, &windows)
    } else {
        if found.fit.is_empty() {
            return Err(CheckError::NothingToFit(found.read_for_fit()));
        }
        let readings: Vec<_> = found.fit.iter().map(|own| own.reading.clone()).collect();
        flights::check(&design, &readings, &windows)?
    };
    Ok(json::object(&checked, &found))
}
