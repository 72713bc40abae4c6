//! The fins of a cooler's core, and what is usual of them.

use crate::units::si::inch;
use serde::{Deserialize, Serialize};
use uom::si::f64::Length;

/// Kind of fins in a core.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FinKind {
    /// Offset every so often along the air.
    #[default]
    Offset,
    /// Plain through the whole depth.
    Plain,
}

impl FinKind {
    pub(super) fn is_offset(&self) -> bool {
        *self == Self::Offset
    }
}

pub(super) const TUBE: f64 = inch(0.12);
pub(super) const FIN_PITCH: f64 = inch(1.0) / 18.0;
pub(super) const FIN_THICKNESS: f64 = inch(0.006);
pub(super) const STRIP: f64 = inch(0.125);
pub(super) const OIL_FILM: f64 = 1200.0;

pub(super) fn is_usual_tube(tube: &Length) -> bool {
    tube.value == TUBE
}

pub(super) fn is_usual_fin_pitch(pitch: &Length) -> bool {
    pitch.value == FIN_PITCH
}

pub(super) fn is_usual_fin_thickness(thickness: &Length) -> bool {
    thickness.value == FIN_THICKNESS
}

pub(super) fn is_usual_strip(strip: &Length) -> bool {
    strip.value == STRIP
}

pub(super) fn is_usual_oil_film(film: &f64) -> bool {
    *film == OIL_FILM
}

pub(super) fn is_one(factor: &f64) -> bool {
    *factor == 1.0
}
