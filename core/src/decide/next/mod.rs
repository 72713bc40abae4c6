//! What to measure next: observations that a builder can make, and how far each would narrow an answer.
//!
//! An assumption by itself cannot be measured; a head in a climb, a pressure at a tap or an answer to a
//! letter can. The assumptions are drawn from their ranges; in each draw the answer and every candidate's
//! readings follow, the model's own error and the instrument's added. How the answer follows from the
//! readings over the draws (a linear regression) tells what is left unknown once they are taken.

mod candidate;
mod observing;
mod reading;
pub(crate) mod test_day;
mod worth;

pub use crate::decide::next::candidate::{Candidate, Stage};
pub use crate::decide::next::observing::Observing;
pub use crate::decide::next::reading::{Instrument, Observed};
pub use crate::decide::next::test_day::COOLER_K;
pub use crate::decide::next::worth::{Worth, worths};
