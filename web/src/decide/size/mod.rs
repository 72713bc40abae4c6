//! Sizing inlets, exit and flap.

mod map;
mod openings_words;
pub mod panel;
pub mod request;
pub mod result;
mod trial;
