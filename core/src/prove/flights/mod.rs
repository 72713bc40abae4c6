//! A design checked on flights: fitted on some, and what it then says of others.
//!
//! A [`Window`] is a piece of flight in which little changed: it has means of what was read. Windows
//! come from a log ([`windows_of`]) or from a table of them ([`WindowTable`]). [`check`] fits the
//! design's usual parameters to some readings, exactly as a calibration does, and predicts all other
//! windows with a band each; [`predict`] does so without a fit. Bias is predicted minus measured.

mod check;
mod course;
mod figure;
mod fit;
mod judged;
mod marked;
mod own;
mod table;
mod window;

pub use crate::prove::flights::check::{Checking, check, predict};
pub use crate::prove::flights::figure::Figure;
pub use crate::prove::flights::judged::{
    Checked, Judged, ReadAndPredicted, Reason, Refused, Summary, summary,
};
pub use crate::prove::flights::marked::{sick_in, with_sick_readings};
pub use crate::prove::flights::own::{Source, check_only_windows, fitted_on, sources};
pub use crate::prove::flights::table::{TableError, WindowTable};
pub use crate::prove::flights::window::{FlightPhase, Window, windows_of};
