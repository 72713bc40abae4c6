//! The band of an answer: first-order sum of squares over the inputs' likely ranges.
//!
//! Each input with a likely range is moved to both ends of it, all else unchanged, and the
//! condition is solved again. The band is the root of the summed squares of the two sides, kept
//! apart, so that a one-sided effect gives a one-sided band. Each range holds in about nine cases
//! in ten, and so does the band as far as the answer is linear in the inputs.

use crate::answer::head_readings::{hottest_reading, mean_reading};
use crate::answer::solve_condition::solve_condition;
use crate::answer::solved::condition_at;
use crate::answer::solved::{EvaluateError, Solved};
use crate::document::condition::Condition;
use crate::document::design::Design;
use crate::document::installation::{Installation, OilProbe};
use crate::document::table::Input;
use crate::path::report::gauge_temperature;

/// How far an answer may lie below and above, in the answer's SI unit.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Band {
    /// Below, positive.
    pub below: f64,
    /// Above, positive.
    pub above: f64,
}

impl Band {
    pub(crate) fn add(&mut self, change: f64) {
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
    let drag = crate::path::drag::cooling_drag(
        &prepared.cowl,
        state,
        prepared.spillage,
        prepared.flap_drag_m2,
    );
    Figures {
        head_mean: mean_reading(installation, solved),
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
    let condition = condition_at(design, condition_place)?;
    let nominal = solve_condition(&design.installation, condition, None)?;
    let changes = changes(design, condition, &nominal, |installation, solved| {
        figures(installation, solved).each()
    });
    let mut bands = Bands {
        figures: Figures::default(),
        influences: Vec::with_capacity(changes.len()),
        unsolved: 0,
    };
    for change in changes {
        let mut ends = [Figures::default(); 2];
        for (end, slots) in change.ends.into_iter().zip(&mut ends) {
            let Some(moved) = end else {
                bands.unsolved += 1;
                continue;
            };
            let each = slots.each_mut().into_iter().zip(bands.figures.each_mut());
            for ((slot, band), by) in each.zip(moved) {
                *slot = by;
                band.add(by);
            }
        }
        bands.influences.push(Influence {
            input: change.input,
            place: change.place,
            changes: ends,
        });
    }
    Ok(bands)
}

/// Bands of any quantities of a condition, each in its own unit.
#[must_use]
pub fn bands_of<const N: usize>(
    design: &Design,
    condition: &Condition,
    nominal: &Solved,
    quantities: impl Fn(&Installation, &Solved) -> [f64; N],
) -> [Band; N] {
    let mut bands = [Band::default(); N];
    for change in changes(design, condition, nominal, quantities) {
        for moved in change.ends.into_iter().flatten() {
            for (band, by) in bands.iter_mut().zip(moved) {
                band.add(by);
            }
        }
    }
    bands
}

/// What moving one input to both ends of its range changes; `None` where nothing solves.
struct Change<const N: usize> {
    input: &'static Input,
    place: usize,
    ends: [Option<[f64; N]>; 2],
}

/// Moves each uncertain input of a design to both ends of its range in turn.
fn changes<const N: usize>(
    design: &Design,
    condition: &Condition,
    nominal: &Solved,
    quantities: impl Fn(&Installation, &Solved) -> [f64; N],
) -> Vec<Change<N>> {
    let base = quantities(&design.installation, nominal);
    let mut varied = design.clone();
    let mut found = Vec::new();
    for (input, place, value, range) in uncertain(design) {
        let ends = [range.0, range.1].map(|end| {
            input.set(&mut varied, place, end);
            let solved = solve_condition(&varied.installation, condition, Some(nominal)).ok()?;
            let moved = quantities(&varied.installation, &solved);
            Some(core::array::from_fn(|at| moved[at] - base[at]))
        });
        input.set(&mut varied, place, value);
        found.push(Change { input, place, ends });
    }
    found
}

/// Inputs of the installation that play a part, carry a range and are not marked as measured:
/// the input, its place, its value and its range, SI.
pub fn uncertain(
    design: &Design,
) -> impl Iterator<Item = (&'static Input, usize, f64, (f64, f64))> + '_ {
    design.places().filter_map(|(input, place)| {
        // Time constants move no steady answer.
        if input.id.starts_with("condition.")
            || input.id.starts_with("lags.")
            || !input.used(design, place)
        {
            return None;
        }
        let value = input.value(design, place)?;
        let range = design.likely(input, place)?;
        Some((input, place, value, range))
    })
}
