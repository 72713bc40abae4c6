//! Paper and helpers for the shop.

pub mod cut;
pub mod gauges;
pub mod photo;
pub mod view;
