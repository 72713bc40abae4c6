//! The band of an answer, from its inputs' likely ranges, at first order.
//!
//! Each input with a likely range, of the installation and of the condition itself, is moved to
//! both ends of it, all else unchanged, and the condition is solved again
//! ([`spread`](crate::answer::spread)). The changes, and the model's own error as one term more,
//! are summed ([`moments`](crate::answer::moments)). Each range holds in about nine cases in ten,
//! and so does the band.
//!
//! All bands of a condition share a budget of states ([`budget`](crate::path::budget)); where it
//! does not last, there are none.

pub use crate::answer::moments::{Band, Moments};
pub use crate::answer::spread::{uncertain, uncertain_in};

use crate::answer::head_readings::{hottest_reading, mean_reading};
use crate::answer::model_error;
use crate::answer::model_error::missed;
use crate::answer::solve_condition::{solve_condition, solve_in_search};
use crate::answer::solved::condition_at;
use crate::answer::solved::{EvaluateError, Solved};
use crate::answer::spread::{Change, Doubt, Spread, spread};
use crate::document::condition::Condition;
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::document::table::Input;
use crate::math::normal::RANGE_DEVIATIONS;
use crate::path::budget::Budget;

/// Number of answers that carry a band.
const FIGURES: usize = 6;

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
    let drag = crate::path::drag::cooling_drag(
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
    fn from_slice(each: &[T]) -> Self {
        let mut figures = Self::default();
        for (slot, value) in figures.each_mut().into_iter().zip(each) {
            *slot = *value;
        }
        figures
    }
}

/// One input's share in the bands of a condition.
#[derive(Debug, Clone)]
pub struct Influence {
    /// The input.
    pub input: &'static Input,
    /// Its place in a list.
    pub place: usize,
    /// Change of each figure with the input at the low and at the high end of its range; `None`
    /// where an end has no answer.
    pub changes: [Option<Figures<f64>>; 2],
}

/// Bands of a condition and what makes them.
#[derive(Debug, Clone)]
pub struct Bands {
    /// The answers themselves.
    pub nominal: Figures<f64>,
    /// Bands, open where an end of a range has no answer.
    pub figures: Figures<Band>,
    /// Bands of what has an answer alone; the same where no end is open.
    pub answered: Figures<Band>,
    /// Where the answers lie by what has an answer; oil that a shutter holds, as with the shutter
    /// open, which is what stands against its limit.
    pub moments: Figures<Moments>,
    /// Inputs and their places that have an end without an answer, once for each such end.
    pub open: Vec<(&'static Input, usize)>,
    /// Correlation of hottest head and oil \[-\].
    pub head_oil_correlation: f64,
    /// Each input's part.
    pub influences: Vec<Influence>,
}

/// Bands of the answers of one condition of a checked design.
///
/// # Errors
/// [`EvaluateError`] if the condition itself has no answer, or the search's budget did not last.
///
/// # Example
/// A band lies about the answer of the same condition:
/// ```
/// use coolpath_core::answer::band::bands;
/// use coolpath_core::answer::evaluate::evaluate;
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::document::example;
///
/// let design = example::design();
/// let (bands, answer) = (bands(&design, 3)?, evaluate(&design, 3)?);
/// assert_eq!(bands.nominal.head_hottest, answer.head_hottest.value);
/// assert!(bands.figures.head_hottest.below > 0.0);
/// # Ok::<(), EvaluateError>(())
/// ```
pub fn bands(design: &Design, condition_place: usize) -> Result<Bands, EvaluateError> {
    bands_with(design, condition_place, |_, _| []).map(|(bands, [])| bands)
}

/// Bands of the answers and of any other quantities of a condition, each in its own unit; what is
/// no number counts as no answer. The others carry no error of the model.
///
/// # Errors
/// [`EvaluateError`] if the condition itself has no answer, or the search's budget did not last.
pub(crate) fn bands_with<const N: usize>(
    design: &Design,
    place: usize,
    others: impl Fn(&Installation, &Solved) -> [f64; N],
) -> Result<(Bands, [Band; N]), EvaluateError> {
    let condition = condition_at(design, place)?;
    let nominal = solve_condition(&design.installation, condition, None)?;
    let search = Budget::of_a_search(1).for_differences();
    let doubts: Vec<Doubt> = uncertain(design)
        .chain(uncertain_in(design, place))
        .collect();
    let quantities = |installation: &Installation, solved: &Solved| {
        let mut all = figures(installation, solved).each().to_vec();
        all.extend(others(installation, solved));
        // Stands last, see `HeldOil`.
        all.push(solved.open_gauge_k.unwrap_or_default());
        all
    };
    let found = spread(design, place, &doubts, &nominal, &quantities, &search)?;
    let base = figures(&design.installation, &nominal);
    let held = nominal.open_gauge_k.map(|open_k| {
        let mut open = found.moments(FIGURES + N);
        open.add_error(model_error::OIL_K);
        HeldOil {
            place: FIGURES + N,
            target_k: condition.oil_target.value,
            open_k,
            open,
            missed: oil_missed(&design.installation, condition, &nominal, &search),
        }
    });
    search.lasts()?;
    let extra = core::array::from_fn(|at| opened(&found, FIGURES + at));
    Ok((assembled(base, &found, held.as_ref()), extra))
}

/// Bands of any quantities of a condition that was read off instruments, by what is not known of
/// the installation: a reading has a scatter of its own, and the model's error is in both sides of
/// a correction. Where the search's budget did not last, all of them are open.
#[must_use]
pub(crate) fn bands_of<const N: usize>(
    design: &Design,
    condition: &Condition,
    nominal: &Solved,
    quantities: impl Fn(&Installation, &Solved) -> [f64; N],
) -> [Band; N] {
    let read = Design {
        conditions: vec![condition.clone()],
        ..design.clone()
    };
    let doubts: Vec<Doubt> = uncertain(design).collect();
    let quantities =
        |installation: &Installation, solved: &Solved| quantities(installation, solved).to_vec();
    let search = Budget::of_a_search(1).for_differences();
    spread(&read, 0, &doubts, nominal, &quantities, &search).map_or([Band::OPEN; N], |found| {
        core::array::from_fn(|at| opened(&found, at))
    })
}

/// Band of a quantity, open where an end of a range has no answer.
fn opened(found: &Spread, at: usize) -> Band {
    let mut band = found.moments(at).band();
    found.open(at, &mut band);
    band
}

/// What the model's miss of the oil changes where a shutter makes it good.
fn oil_missed(
    installation: &Installation,
    condition: &Condition,
    nominal: &Solved,
    search: &Budget<'_>,
) -> Change {
    let base = figures(installation, nominal);
    let ends = [-1.0, 1.0].map(|side| {
        let by = side * RANGE_DEVIATIONS * model_error::OIL_K;
        let there = missed(installation, condition, by);
        let solved = solve_in_search(installation, &there, Some(nominal), search).ok()?;
        let mut moved = figures(installation, &solved);
        moved.oil += by;
        let pairs = moved.each().into_iter().zip(base.each());
        Some(pairs.map(|(moved, base)| moved - base).collect())
    });
    Change::of_error(ends)
}

/// Oil that a shutter holds. It leaves its target only where the shutter stands at a stop, which no
/// single input may show and all together do: hot, it is what an open shutter leaves.
struct HeldOil {
    /// Place of the gauge with an open shutter among the quantities.
    place: usize,
    target_k: f64,
    /// Gauge with the shutter open.
    open_k: f64,
    /// Where that lies.
    open: Moments,
    /// What the model's miss changes.
    missed: Change,
}

impl HeldOil {
    /// Where the oil lies as seen from the limit, which stands above the target.
    fn moments(&self, nominal_k: f64) -> Moments {
        self.open.moved(self.open_k - nominal_k)
    }

    /// Band of the oil, from that of single inputs.
    fn band(&self, nominal_k: f64, single: &Band) -> Band {
        let open = self.open.band();
        let (low_k, high_k) = (self.open_k - open.below, self.open_k + open.above);
        let above = high_k.max(self.target_k) - nominal_k;
        Band {
            below: if nominal_k > self.target_k {
                nominal_k - low_k.max(self.target_k)
            } else {
                single.below
            },
            above: above.max(0.0),
        }
    }
}

/// Place of the hottest head and of the oil among the figures.
const HEAD_OIL: (usize, usize) = (1, 2);

fn assembled(nominal: Figures<f64>, found: &Spread, held: Option<&HeldOil>) -> Bands {
    let mut moments: Vec<Moments> = (0..FIGURES).map(|at| found.moments(at)).collect();
    let (head, oil) = HEAD_OIL;
    let both = found.covariance(head, held.map_or(oil, |held| held.place));
    let mut errors = Figures {
        head_mean: model_error::HEAD_MEAN_K,
        head_hottest: model_error::HEAD_K,
        oil: model_error::OIL_K,
        baffle_drop: model_error::DROP_SHARE * nominal.baffle_drop.abs(),
        ..Figures::default()
    };
    if let Some(held) = held {
        errors.oil = 0.0;
        for (at, moments) in moments.iter_mut().enumerate() {
            moments.add(&held.missed.response(at));
        }
    }
    for (moments, error) in moments.iter_mut().zip(errors.each()) {
        moments.add_error(error);
    }
    let mut answered: Vec<Band> = moments.iter().map(Moments::band).collect();
    if let Some(held) = held {
        answered[oil] = held.band(nominal.oil, &answered[oil]);
        moments[oil] = held.moments(nominal.oil);
    }
    let mut open = answered.clone();
    for (at, band) in open.iter_mut().enumerate() {
        found.open(at, band);
        if let Some(held) = held {
            held.missed.open(at, band);
        }
    }
    let product = (moments[head].variance * moments[oil].variance).sqrt();
    Bands {
        nominal,
        figures: Figures::from_slice(&open),
        answered: Figures::from_slice(&answered),
        moments: Figures::from_slice(&moments),
        open: found.open_ends(),
        head_oil_correlation: if product > 0.0 {
            (both / product).clamp(-1.0, 1.0)
        } else {
            0.0
        },
        influences: found
            .changes
            .iter()
            .filter_map(|change| {
                let (input, place) = change.input?;
                let ends = change.ends.each_ref();
                Some(Influence {
                    input,
                    place,
                    changes: ends.map(|end| Some(Figures::from_slice(end.as_ref()?))),
                })
            })
            .collect(),
    }
}
