//! What the model misses even with every input right: an error of its own.
//!
//! Standard deviations of what a calibrated model missed in steady windows of flights that were not
//! used for its fit. All of one engine, so another may do better or worse (derived). It is added to
//! every band, to sampling and to allowances, before and after calibration, and does not shrink with
//! anything measured. It cancels where two installations, or two days, of the same engine are
//! compared: the same model misses by the same amount in both.

use crate::document::condition::{Condition, ShutterPolicy};
use crate::document::installation::Installation;
use crate::units::quantity::kelvin;
use crate::units::si::deltaf;

/// Hottest head, and each head, K (derived).
pub const HEAD_K: f64 = deltaf(9.0);
/// Mean of the heads, K (derived).
pub const HEAD_MEAN_K: f64 = deltaf(7.0);
/// Oil at the gauge, K (derived: windows of flights that were not fitted miss it by 9.5 °F, of which 5 °F
/// are common to all; `reference/flights/flight_table.md`).
pub const OIL_K: f64 = deltaf(9.0);
/// Pressure across the baffles, share of itself [-] (derived).
pub const DROP_SHARE: f64 = 0.08;

/// Part of the hottest head's, and of each head's, that is the same in all conditions of one aircraft, so
/// that a reading in one of them tells it of all, K (derived: flights that were not fitted miss the hottest
/// head by −1.5, −6.7 and −11.3 °F on their own mean, which scatters by 5 °F about theirs;
/// `reference/flights/flight_table.md`).
pub const HEAD_COMMON_K: f64 = deltaf(5.0);
/// The same part of the oil's, K (derived: see [`OIL_K`]).
pub const OIL_COMMON_K: f64 = deltaf(5.0);
/// The same part of the pressure's, share of the pressure [-] (from memory: half of its variance).
pub const DROP_COMMON_SHARE: f64 = 0.057;

/// Whether a pilot makes good what the model misses of the oil, by the shutter.
fn is_held(installation: &Installation, condition: &Condition) -> bool {
    installation.shutter.fitted && condition.shutter == ShutterPolicy::HoldOil
}

/// The condition in the model's terms when its oil stands so much, K, below what the gauge shows.
///
/// A shutter that holds the gauge at its target holds the model's oil below it: the miss goes into
/// the opening as long as there is opening left.
#[must_use]
pub(crate) fn missed(installation: &Installation, condition: &Condition, oil_k: f64) -> Condition {
    let mut there = condition.clone();
    if is_held(installation, condition) {
        there.oil_target = kelvin(condition.oil_target.value - oil_k);
    }
    there
}
