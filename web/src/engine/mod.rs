//! The engine that does long work beside the page, in workers, so that the page answers meanwhile.

pub mod flight_task;
mod hand;
pub mod job;
mod pool;
pub mod protocol;
pub mod serve;
pub mod task;
