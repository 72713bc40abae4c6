//! What flights say: logs, calibration, hot day, before and after.

pub mod before_after;
pub mod calibrate;
pub mod doubts;
pub mod flights;
pub mod hot_day;
pub mod log;
pub mod overshoot;
pub mod sick;
pub(crate) mod sick_since;
