//! Engine-monitor logs.

pub mod columns;
pub mod job;
pub mod memory;
pub mod panel;
pub mod stretches;
