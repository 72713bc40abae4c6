//! The answers that carry a band.

use crate::answer::head_readings::{hottest_reading, mean_reading};
use crate::answer::solved::Solved;
use crate::document::installation::Installation;
use crate::path::drag::cooling_drag;

/// Number of answers that carry a band.
pub(super) const FIGURES: usize = 6;

/// Answers that carry a band.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Figures<T> {
    /// Mean head, K.
    pub head_mean: T,
    /// Hottest head as its probe reads it, K.
    pub head_hottest: T,
    /// Oil at the gauge, K.
    pub oil: T,
    /// Upper minus lower deck, Pa.
    pub baffle_drop: T,
    /// Air through the inlets, kg/s.
    pub inlet_flow: T,
    /// Cooling drag, N.
    pub drag: T,
}

impl<T> Figures<T> {
    /// The figures in a fixed order.
    pub(crate) fn each(self) -> [T; FIGURES] {
        [
            self.head_mean,
            self.head_hottest,
            self.oil,
            self.baffle_drop,
            self.inlet_flow,
            self.drag,
        ]
    }

    fn each_mut(&mut self) -> [&mut T; FIGURES] {
        [
            &mut self.head_mean,
            &mut self.head_hottest,
            &mut self.oil,
            &mut self.baffle_drop,
            &mut self.inlet_flow,
            &mut self.drag,
        ]
    }
}

/// The figures of a solved condition.
#[must_use]
pub fn figures(installation: &Installation, solved: &Solved) -> Figures<f64> {
    let state = &solved.solution.state;
    let prepared = &solved.prepared;
    let drag = cooling_drag(
        &prepared.cowl,
        state,
        prepared.spillage,
        prepared.flap_drag_m2,
    );
    Figures {
        head_mean: mean_reading(installation, solved),
        head_hottest: hottest_reading(installation, solved),
        oil: solved.oil_gauge_k(installation),
        baffle_drop: state.trial.upper_pa - state.trial.lower_pa,
        inlet_flow: state.inlets.iter().sum(),
        drag: drag.total_n(),
    }
}

impl<T: Copy + Default> Figures<T> {
    pub(super) fn from_slice(each: &[T]) -> Self {
        let mut figures = Self::default();
        for (slot, value) in figures.each_mut().into_iter().zip(each) {
            *slot = *value;
        }
        figures
    }
}
