//! The shutter: today's opening, and a card for any day.

pub mod panel;
pub mod pocket;
pub mod pocket_words;
pub mod points;
pub mod today;
pub mod words;
