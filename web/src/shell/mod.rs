//! The page as a whole: its frame, its views, what is kept and shared.

pub mod app;
pub mod first_use;
pub mod header;
pub mod live;
pub mod route;
pub mod shelf;
pub mod toolbar;
pub mod undo_words;
pub mod verdict_bar;
