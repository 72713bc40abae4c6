//! What the probes of an aircraft would read in a solved condition, for readings and logs that are invented.

use coolpath_core::answer::band::figures;
use coolpath_core::answer::solved::Solved;
use coolpath_core::document::installation::Installation;

/// What is read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Probes {
    /// Mean of the heads, K.
    pub mean: f64,
    /// Hottest head above it, K.
    pub above: f64,
    /// Oil at the gauge, K.
    pub oil: f64,
    /// Δp across the baffles, Pa.
    pub drop: f64,
}

impl Probes {
    /// Of an installation's own probes, with what they read above the metal.
    #[must_use]
    pub fn of(installation: &Installation, solved: &Solved) -> Self {
        let read = figures(installation, solved);
        Self {
            mean: read.head_mean,
            above: read.head_hottest - read.head_mean,
            oil: read.oil,
            drop: read.baffle_drop,
        }
    }

    /// Hottest head, K.
    #[must_use]
    pub fn hottest(&self) -> f64 {
        self.mean + self.above
    }
}
