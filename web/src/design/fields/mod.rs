//! Fields of the form, made from the table of inputs.

pub mod choice_field;
pub mod entries;
pub mod group_fields;
pub mod guesses;
pub mod names;
pub mod number_field;
