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
    /// Where the other airs are taken.
    pub draws: Draws,
}

/// Shares of what is taken from the left half, 0 to 1; the rest comes from the right.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Draws {
    /// Blast tubes.
    pub blast: f64,
    /// Hose to the cabin.
    pub cabin: f64,
    /// Induction.
    pub induction: f64,
}

impl Default for Draws {
    /// From both halves alike.
    fn default() -> Self {
        Self {
            blast: 0.5,
            cabin: 0.5,
            induction: 0.5,
        }
    }
}

/// A share of the left half as that of a half; 0 is the left.
pub(super) fn of_half(left: f64, half: usize) -> f64 {
    if half == 0 { left } else { 1.0 - left }
}

impl Halves {
    /// Share of an inlet that feeds a half; 0 is the left.
    pub(super) fn share(&self, inlet: usize, half: usize) -> f64 {
        of_half(self.left_share[inlet], half)
    }

    /// The half that feeds the cooler; 0 is the left.
    pub(super) fn half_of_cooler(&self) -> usize {
        usize::from(!self.cooler_on_left)
    }
}
