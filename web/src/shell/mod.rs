//! The page's frame: state in the middle, header, first use, designs that are kept.

pub mod app;
pub mod bring_back;
pub mod first_use;
pub mod keeping;
pub mod shelf;
pub mod toolbar;
pub mod two_windows;
