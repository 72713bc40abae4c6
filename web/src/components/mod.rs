//! The page's parts.

pub mod answers;
pub mod area_helper;
pub mod cautions;
pub mod choice_field;
pub mod decide;
pub mod entries;
pub mod figure_view;
pub mod first_use;
pub mod flight_test;
pub mod gauges;
pub mod group_fields;
mod hear;
pub mod number_field;
pub mod paper;
pub mod pause;
pub mod sections;
pub mod share;
pub mod shelf;
pub mod toolbar;
