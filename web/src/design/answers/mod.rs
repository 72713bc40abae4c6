//! The answers: what the air does in each condition.

pub mod cautions;
pub mod condition_view;
pub mod details;
pub mod headline;
pub mod reference_lines;
pub mod summary;
pub mod why;

use coolpath_core::answer::band::Bands;
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::answer::solved::EvaluateError;
use std::rc::Rc;

/// Answer of one condition, or why there is none.
pub type Outcome = Result<Rc<Answer>, EvaluateError>;

/// Bands of the conditions, as far as they have been computed for the present design.
pub type BandSet = Vec<Option<Rc<Bands>>>;
