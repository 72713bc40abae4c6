//! Which assumption to measure next, and how.

mod measuring;
mod ranking;

pub use crate::decide::chances::measuring::how_to_measure;
pub use crate::decide::chances::ranking::{Rank, ranking};
