//! What a builder can tell of the air of the cylinders before any probe is read.

use serde::{Deserialize, Serialize};

/// Which side of the engine its cooling air reaches worse.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PoorerSide {
    /// Neither, or it is not known.
    #[default]
    Neither,
    /// The left, seen from the pilot's seat.
    Left,
    /// The right.
    Right,
}

impl PoorerSide {
    pub(super) fn is_neither(&self) -> bool {
        *self == Self::Neither
    }
}

/// Which end of the engine its cooling air reaches worse.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PoorerEnd {
    /// Neither, or it is not known.
    #[default]
    Neither,
    /// The front cylinders.
    Front,
    /// The rear cylinders.
    Rear,
}

impl PoorerEnd {
    pub(super) fn is_neither(&self) -> bool {
        *self == Self::Neither
    }
}

/// What stands in the way of the air between the fins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FinPassages {
    /// Nothing: looked through, flash filed off.
    #[default]
    Clear,
    /// Casting flash at the roots of the fins of one head.
    CastingFlash,
    /// Something that lies on a cylinder.
    Debris,
}

impl FinPassages {
    pub(super) fn is_clear(&self) -> bool {
        *self == Self::Clear
    }
}

/// Usual values, left out of files so that these stay readable for earlier versions.
pub(super) const POORER_SIDE_AIR: f64 = 0.92;
pub(super) const POORER_END_AIR: f64 = 0.90;
pub(super) const FLASH_AIR: f64 = 0.93;
pub(super) const DEBRIS_AIR: f64 = 0.75;

pub(super) fn is_side_air(share: &f64) -> bool {
    *share == POORER_SIDE_AIR
}

pub(super) fn is_end_air(share: &f64) -> bool {
    *share == POORER_END_AIR
}

pub(super) fn is_flash_air(share: &f64) -> bool {
    *share == FLASH_AIR
}

pub(super) fn is_debris_air(share: &f64) -> bool {
    *share == DEBRIS_AIR
}
