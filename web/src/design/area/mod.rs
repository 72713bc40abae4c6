//! Adding up an opening's area from strips and circles.

pub mod panel;
pub mod rows;
