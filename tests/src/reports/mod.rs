//! What builders and owners report, beside what the model says of an installation assumed for each.
//!
//! `reference/reports.csv` holds the reports, `reference/reports/assumptions.json` an installation
//! for each with every assumed dimension, its range, its reason and its tag. Levels are predicted
//! with the generic engine as it is. A change is compared at the reported level: the generic head
//! and the heat into the oil are moved until the state before it comes out as reported. Bands are
//! those of nine cases in ten.

pub mod case;
pub mod exponent;
pub mod judged;
pub mod measure;
pub mod page;
pub mod report;
mod solving;
