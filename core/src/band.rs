//! The band of an answer: first-order sum of squares over the inputs' likely ranges.
//!
//! Each input with a likely range is moved to both ends of it, all else unchanged, and the
//! condition is solved again. The band is the root of the summed squares of the two sides, kept
//! apart, so that a one-sided effect gives a one-sided band. Each range holds in about nine cases
//! in ten, and so does the band as far as the answer is linear in the inputs.

use crate::condition::Condition;
use crate::design::Design;
use crate::evaluate::{EvaluateError, Solved, hottest_reading, solved};
use crate::inputs::Input;
use crate::installation::{Installation, OilProbe};
use crate::path::solve::gauge_temperature;

/// How far an answer may lie below and above, in the answer's SI unit.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Band {
    /// Below, positive.
    pub below: f64,
    /// Above, positive.
    pub above: f64,
}

impl Band {
    fn add(&mut self, change: f64) {
        if change < 0.0 {
            self.below = libm::hypot(self.below, change);
        } else {
            self.above = libm::hypot(self.above, change);
        }
    }

    /// The wider side.
    #[must_use]
    pub fn wider(&self) -> f64 {
        self.below.max(self.above)
    }
}

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
    /// Opening of the shutter [-].
    pub opening: T,
}

impl<T> Figures<T> {
    /// The figures in a fixed order.
    fn each(self) -> [T; 7] {
        [
            self.head_mean,
            self.head_hottest,
            self.oil,
            self.baffle_drop,
            self.inlet_flow,
            self.drag,
            self.opening,
        ]
    }

    fn each_mut(&mut self) -> [&mut T; 7] {
        [
            &mut self.head_mean,
            &mut self.head_hottest,
            &mut self.oil,
            &mut self.baffle_drop,
            &mut self.inlet_flow,
            &mut self.drag,
            &mut self.opening,
        ]
    }
}

/// The figures of a solved condition.
#[must_use]
pub fn figures(installation: &Installation, solved: &Solved) -> Figures<f64> {
    let state = &solved.solution.state;
    let prepared = &solved.prepared;
    let drag = crate::drag::cooling_drag(
        &prepared.cowl,
        state,
        prepared.spillage,
        prepared.flap_drag_m2,
    );
    Figures {
        head_mean: state.head_k,
        head_hottest: hottest_reading(installation, solved),
        oil: gauge_temperature(state, installation.oil.probe == OilProbe::AfterCooler),
        baffle_drop: state.trial.upper_pa - state.trial.lower_pa,
        inlet_flow: state.inlets.iter().sum(),
        drag: drag.total_n(),
        opening: solved.opening,
    }
}

/// One input's share in the bands of a condition.
#[derive(Debug, Clone)]
pub struct Influence {
    /// The input.
    pub input: &'static Input,
    /// Its place in a list.
    pub place: usize,
    /// Change of each figure with the input at the low and at the high end of its range.
    pub changes: [Figures<f64>; 2],
}

/// Bands of a condition and what makes them.
#[derive(Debug, Clone)]
pub struct Bands {
    /// Bands.
    pub figures: Figures<Band>,
    /// Each input's part.
    pub influences: Vec<Influence>,
    /// Ends of ranges at which the condition had no solution; they are left out of the bands.
    pub unsolved: u32,
}

/// Bands of the answers of one condition of a checked design.
///
/// # Errors
/// [`EvaluateError`] if the condition itself has no answer.
pub fn bands(design: &Design, condition_place: usize) -> Result<Bands, EvaluateError> {
    let condition = crate::prepare::condition_at(&design.conditions, condition_place)
        .map_err(EvaluateError::Prepare)?;
    let nominal = solved(&design.installation, condition, None)?;
    let base = figures(&design.installation, &nominal).each();
    let mut bands = Bands {
        figures: Figures::default(),
        influences: Vec::new(),
        unsolved: 0,
    };
    let mut varied = design.clone();
    for (input, place) in design.places() {
        if input.id.starts_with("condition.") || !(input.used)(design, place) {
            continue;
        }
        let Some(value) = (input.value)(design, place) else {
            continue;
        };
        let Some((low, high)) = input.likely_about(value) else {
            continue;
        };
        if design.is_measured(input, place) {
            continue;
        }
        let mut changes = [Figures::default(); 2];
        for (end, change) in [low, high].into_iter().zip(&mut changes) {
            (input.set)(&mut varied, place, end);
            match moved(&varied.installation, condition, &nominal) {
                Some(figures) => {
                    let moved = figures.each();
                    let slots = change.each_mut().into_iter().zip(bands.figures.each_mut());
                    for ((slot, band), (now, before)) in slots.zip(moved.into_iter().zip(base)) {
                        *slot = now - before;
                        band.add(now - before);
                    }
                }
                None => bands.unsolved += 1,
            }
        }
        (input.set)(&mut varied, place, value);
        bands.influences.push(Influence {
            input,
            place,
            changes,
        });
    }
    Ok(bands)
}

fn moved(
    installation: &Installation,
    condition: &Condition,
    nominal: &Solved,
) -> Option<Figures<f64>> {
    solved(installation, condition, Some(nominal))
        .ok()
        .map(|found| figures(installation, &found))
}
