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

pub use crate::answer::figures::{Figures, figures};
pub use crate::answer::moments::{Band, Moments};
pub use crate::answer::spread::{uncertain, uncertain_in};

use crate::answer::figures::FIGURES;
use crate::answer::model_error;
use crate::answer::oil_band;
use crate::answer::oil_band::{Gauge, HeldOil, NEVER_COLD_K, oil_missed};
use crate::answer::solve_condition::solve_condition;
use crate::answer::solved::condition_at;
use crate::answer::solved::{EvaluateError, Solved};
use crate::answer::spread::{Doubt, Spread, spread};
use crate::document::condition::Condition;
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::document::table::Input;
use crate::path::budget::Budget;

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
    /// Where the oil lies as seen from its least temperature; oil that a shutter holds, as with the
    /// shutter shut, and `None` where that would be far too hot.
    pub cold_oil: Option<Moments>,
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
    let shut = oil_band::shut(&design.installation, &nominal, None, &search).filter(|shut| {
        shut.gauge_k(&design.installation) < condition.oil_target.value + NEVER_COLD_K
    });
    let quantities = |installation: &Installation, solved: &Solved| {
        let mut all = figures(installation, solved).each().to_vec();
        all.extend(others(installation, solved));
        // Stand last, see `HeldOil`.
        all.push(solved.open_gauge_k.unwrap_or_default());
        if let Some(near) = &shut {
            let there = oil_band::shut(installation, solved, Some(near), &search);
            // What has no answer there changes nothing of it.
            let gauge_k = there.map(|there| there.gauge_k(installation));
            all.push(gauge_k.unwrap_or(near.gauge_k(&design.installation)));
        }
        all
    };
    let found = spread(design, place, &doubts, &nominal, &quantities, &search)?;
    let base = figures(&design.installation, &nominal);
    let gauge = |at: usize, kelvin: f64| {
        let mut moments = found.moments(at);
        moments.add_error(model_error::OIL_K);
        Gauge {
            place: at,
            kelvin,
            moments,
        }
    };
    let held = nominal.open_gauge_k.map(|open_k| HeldOil {
        target_k: condition.oil_target.value,
        open: gauge(FIGURES + N, open_k),
        shut: shut
            .as_ref()
            .map(|shut| gauge(FIGURES + N + 1, shut.gauge_k(&design.installation))),
        missed: oil_missed(&design.installation, condition, &nominal, &search),
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

/// Place of the hottest head and of the oil among the figures.
const HEAD_OIL: (usize, usize) = (1, 2);

fn assembled(nominal: Figures<f64>, found: &Spread, held: Option<&HeldOil>) -> Bands {
    let mut moments: Vec<Moments> = (0..FIGURES).map(|at| found.moments(at)).collect();
    let (head, oil) = HEAD_OIL;
    let both = found.covariance(head, held.map_or(oil, |held| held.open.place));
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
    let mut cold_oil = Some(moments[oil]);
    if let Some(held) = held {
        answered[oil] = held.band(nominal.oil, &answered[oil]);
        moments[oil] = held.open.seen_from(nominal.oil);
        cold_oil = held.shut.as_ref().map(|shut| shut.seen_from(nominal.oil));
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
        cold_oil,
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
