//! The answers: what the air does in each condition.

pub mod cautions;
pub mod condition_view;
pub mod details;
pub mod headline;
pub mod reference_lines;
pub mod summary;
pub mod summary_sheet;
pub mod why;
