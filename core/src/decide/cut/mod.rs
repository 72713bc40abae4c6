//! An exit cut in steps: this much, a flight, stop or cut on.
//!
//! Metal that is gone is gone: an exit too large costs speed for as long as the lip stays, one too small
//! costs another cut and another flight, and one that is too small at the end a new lip. What is not known
//! is drawn; each draw needs an exit of its own, and each flight shows, within what it leaves unknown,
//! whether the exit is enough. Of all plans of up to three steps the one with the least expected regret is
//! taken.

mod needs;
mod plan;

pub use crate::decide::cut::needs::Needs;
pub use crate::decide::cut::plan::{Plan, Planning, Prices, Step, Table};
