//! The shutter: today's opening, and a card for any day.

pub mod panel;
pub mod today;
pub mod words;
