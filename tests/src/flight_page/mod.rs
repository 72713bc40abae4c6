//! How well a design fitted on some flights predicts others, as a page of text.
//!
//! The data are those of `reference/flights`; every number comes from the functions behind
//! `coolpath check`. Bias is predicted minus measured; °F.

pub mod data;
pub mod mixture;
pub mod page;
pub mod predicted;
pub mod rows;
