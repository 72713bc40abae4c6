//! Helpers that know no design: areas, photographs, gauges.

pub mod area;
pub mod gauge;
pub mod photo;
