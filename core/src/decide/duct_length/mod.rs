//! How long the widening duct behind an inlet must be, or how much wider the inlet without one.
//!
//! A duct recovers C_p of the dynamic pressure in the opening,
//!
//! C_p = 1 − 1/AR² − f K_cone(AR, θ)
//!
//! with the cone that has the same areas and length ([`conical_diffuser`](crate::path::loss::conical_diffuser)).
//! The relation has no friction along the wall: at a fixed area ratio a longer duct is never worse, and
//! towards a very long one C_p tends to the ideal 1 − 1/AR². So the length to build is the one beyond which
//! another inch is worth too little, not the one that recovers most.
//!
//! Each length is solved with two area ratios: the design's own, and the one that recovers most at that
//! length ([`best_area_ratio`]). Such lines of best recovery were measured (G. Sovran and E. D. Klomp,
//! Experimentally Determined Optimum Geometries for Rectilinear Diffusers, 1967; not read). The one point
//! read of them (`reference/dixon_turbomachinery`, F01) is a cone 4.66 radii long, which opens to 2.13
//! times the area and recovers 0.60. The model's own line passes it at 2.25 and 0.67 with the default f of
//! 1.5, at 1.97 and 0.61 with 2.5; it is not bent to the point. Where a real wide duct stalls, the relation
//! only goes on losing steadily: a duct on its line asks for clean flow into it.
//!
//! All inlets that stand as the asked one does, with a widening duct or without, get the same duct.

mod fitted;
mod lengths;
mod search;

pub use crate::decide::duct_length::fitted::{alike, best_area_ratio, recovery, with_duct};
pub use crate::decide::duct_length::lengths::{
    Answered, Duct, DuctError, Lengths, Level, Row, WORTH_AN_INCH_K, Wider, at_likely_losses,
    paying,
};
pub use crate::decide::duct_length::search::DuctLengths;
