//! The page as a whole: its frame, its views, what is kept and shared.

pub mod about;
pub mod app;
pub mod arrive;
pub mod bring_back;
pub mod desk;
pub mod early;
pub mod first_use;
pub mod foot;
pub mod header;
pub mod keeping;
pub mod later;
pub mod live;
pub mod questions;
pub mod room;
pub mod route;
pub mod shelf;
pub mod toolbar;
pub mod two_windows;
pub mod units;
pub mod verdict_bar;
