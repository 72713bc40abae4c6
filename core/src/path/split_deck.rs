//! How an upper deck is split in two halves.

use crate::path::openings::MAX_OPENINGS;

/// How the upper deck is split.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Halves {
    /// Opening between the halves, C_d A, m².
    pub across_m2: f64,
    /// Share of each inlet that feeds the left half, 0 to 1.
    pub left_share: [f64; MAX_OPENINGS],
    /// The cooler takes its air from the left half.
    pub cooler_on_left: bool,
}

impl Halves {
    /// Share of an inlet that feeds a half; 0 is the left.
    pub(super) fn share(&self, inlet: usize, half: usize) -> f64 {
        let left = self.left_share[inlet];
        if half == 0 { left } else { 1.0 - left }
    }

    /// The half that feeds the cooler; 0 is the left.
    pub(super) fn half_of_cooler(&self) -> usize {
        usize::from(!self.cooler_on_left)
    }
}
