//! Pieces that every panel uses.

pub mod controls;
pub mod dialog;
pub mod format;
pub mod later;
pub mod page;
pub mod panel_field;
pub mod part;
pub mod refused;
pub mod shared;
pub mod short_tasks;
pub mod shutter_words;
pub mod soon;
pub mod svg_text;
pub mod table_text;
pub mod unfolding;
pub mod verdict;
