//! Heights at which the stacks of lanes run.

use super::air::INCHES_PER_KG_S;
use super::proportions::{FINS, Frame};
use super::strands::Strands;

/// Middle of the exit's gap where the lip ends, in.
#[must_use]
pub fn exit_middle(frame: &Frame) -> f64 {
    0.5 * (frame.bottom + frame.tip.1) + 0.2
}

/// Height of the bottom of the lower stack, in.
pub fn lower_floor(frame: &Frame) -> f64 {
    match frame.core.scoop {
        Some(scoop) => (scoop.floor + frame.core.size.1).max(frame.chin) + 0.8,
        None => frame.chin + 1.0,
    }
}

/// Middle of the lower stack, in.
#[must_use]
pub fn lower_middle(frame: &Frame, strands: &Strands) -> f64 {
    lower_floor(frame) + 0.5 * strands.lower * INCHES_PER_KG_S
}

/// Middle of the upper stack over the cylinders, in.
#[must_use]
pub fn upper_middle(strands: &Strands) -> f64 {
    FINS + 0.65 + 0.5 * strands.upper * INCHES_PER_KG_S
}
