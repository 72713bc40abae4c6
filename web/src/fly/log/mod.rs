//! Engine-monitor logs.

mod aside;
pub mod columns;
pub mod job;
pub mod memory;
pub mod panel;
pub mod stretches;
