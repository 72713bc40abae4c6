//! The page's frame: state in the middle, header, first use, designs that are kept.

pub mod app;
pub mod first_use;
pub mod shelf;
pub mod toolbar;
