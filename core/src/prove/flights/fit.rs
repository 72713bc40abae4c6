//! Where a check meets the calibration and the solver; nothing else of it knows either.

use crate::answer::band;
use crate::answer::band::bands_of;
use crate::answer::head_readings::{each_reading, hottest_reading};
use crate::answer::minutes::slowness;
use crate::answer::model_error::{DROP_SHARE, HEAD_K, HEAD_MEAN_K, OIL_K};
use crate::answer::solve_condition::solve_condition;
use crate::answer::solved::{EvaluateError, Solved};
use crate::document::condition::Condition;
use crate::document::design::Design;
use crate::document::installation::{CylinderData, Installation};
use crate::document::quantity::Quantity;
use crate::math::normal::RANGE_DEVIATIONS;
use crate::prove::calibrate::{
    CalibrateError, Calibration, Fitted, Likely, Outcome, OverFlights, Scatter, usual_choice,
    with_cylinders,
};
use crate::prove::flights::figure::Figure;

/// A prediction and the band that holds it nine times in ten, K or Pa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Predicted {
    /// Likeliest.
    pub value: f64,
    /// Low end.
    pub low: f64,
    /// High end.
    pub high: f64,
}

/// What is predicted of a condition, figure by figure; a head only where each is known by itself.
#[derive(Debug, Clone, Default)]
pub(super) struct Figures(Vec<(Figure, Predicted)>);

impl Figures {
    /// What is predicted of a figure.
    pub fn get(&self, figure: Figure) -> Option<Predicted> {
        let found = self.0.iter().find(|(other, _)| *other == figure)?;
        Some(found.1)
    }
}

/// Parameters, design and predictions after a fit.
pub(super) struct AfterFit {
    /// What was found.
    pub fitted: Vec<Fitted>,
    /// How what was read over whole flights errs.
    pub whole: Vec<OverFlights>,
    /// The design with it.
    pub design: Design,
    /// The design with the values from which the fit started.
    pub before: Design,
    /// Of each condition of the design; none where it has no answer.
    pub predicted: Vec<Option<Figures>>,
}

/// A fit of the usual parameters of a design to its readings, not begun.
pub(super) fn begun(design: &Design) -> Result<Calibration, CalibrateError> {
    Calibration::new(design, &usual_choice(design), Scatter::default())
}

/// What a fit that is done found, and what it predicts of the conditions of its design.
pub(super) fn after(
    calibration: &Calibration,
    design: &Design,
) -> Result<AfterFit, CalibrateError> {
    let outcome = calibration.outcome().ok_or(CalibrateError::NotSettled)??;
    let after = with_cylinders(&outcome.applied(design));
    Ok(AfterFit {
        predicted: (0..design.conditions.len())
            .map(|place| figures(&outcome, &after, place))
            .collect(),
        before: outcome.begun(design),
        design: after,
        whole: outcome.whole,
        fitted: outcome.fitted,
    })
}

fn figures(outcome: &Outcome, after: &Design, place: usize) -> Option<Figures> {
    let found = outcome
        .predicted
        .iter()
        .find(|found| found.condition == place)?;
    let condition = after.conditions.get(place)?;
    let solved = solve_condition(&after.installation, condition, None).ok()?;
    let about = |value: f64, reach: f64| Predicted {
        value,
        low: value - reach,
        high: value + reach,
    };
    // What a calibration predicts holds the model's own error already.
    let band = |likely: &Likely| about(likely.after, likely.either_way);
    // A head by itself is missed by more than the mean of all.
    let head_band = |value: f64| {
        let more_k2 = HEAD_K * HEAD_K - HEAD_MEAN_K * HEAD_MEAN_K;
        let more = RANGE_DEVIATIONS * more_k2.sqrt();
        about(value, libm::hypot(found.head_mean.either_way, more))
    };
    let each = after.installation.engine.cylinder_data == CylinderData::Each;
    // The cylinders' own readings tell the hottest; what is unsure of it is what is of the mean.
    let hottest = if each {
        head_band(hottest_reading(&after.installation, &solved))
    } else {
        band(&found.head)
    };
    let mut all = vec![
        (Figure::HeadMean, band(&found.head_mean)),
        (Figure::HeadHottest, hottest),
        (Figure::Oil, band(&found.oil)),
        (Figure::BaffleDrop, band(&found.baffle_drop)),
    ];
    let heads = each_reading(&after.installation, &solved);
    all.extend(
        heads
            .into_iter()
            .enumerate()
            .map(|(place, head_k)| (Figure::Head(place), head_band(head_k))),
    );
    Some(Figures(all))
}

/// Why a condition of a design has no answer; `None` if it has one.
pub(super) fn refusal(design: &Design, condition: &Condition) -> Option<EvaluateError> {
    solve_condition(&design.installation, condition, None).err()
}

/// Equivalence ratio of a condition [-]; `None` if it has no answer.
pub(super) fn mixture(installation: &Installation, condition: &Condition) -> Option<f64> {
    solve_condition(installation, condition, None)
        .ok()
        .map(|solved| solved.prepared.phi)
}

/// A prediction with the design as it is.
pub(super) fn unfitted(design: &Design, condition: &Condition) -> Result<Figures, EvaluateError> {
    let nominal = solve_condition(&design.installation, condition, None)?;
    let values = as_read(&design.installation, &nominal);
    let bands = bands_of(design, condition, &nominal, as_read);
    let known = known(&design.installation);
    let all = Figure::all().zip(values).zip(bands).take(known);
    Ok(Figures(
        all.map(|((figure, value), band)| {
            let model = RANGE_DEVIATIONS * model_error_of(figure, value);
            let predicted = Predicted {
                value,
                low: value - libm::hypot(band.below, model),
                high: value + libm::hypot(band.above, model),
            };
            (figure, predicted)
        })
        .collect(),
    ))
}

/// What the model itself is off, one standard deviation, K or Pa.
fn model_error_of(figure: Figure, value: f64) -> f64 {
    match figure {
        Figure::HeadMean => HEAD_MEAN_K,
        Figure::HeadHottest | Figure::Head(_) => HEAD_K,
        Figure::Oil => OIL_K,
        Figure::BaffleDrop => DROP_SHARE * value.abs(),
    }
}

/// What the probes would read in a condition, figure by figure; and the heads' time constant over
/// that in cruise \[-\].
pub(super) struct Read {
    /// What they would read.
    pub figures: Vec<(Figure, f64)>,
    /// How much slower the heads are than in cruise \[-\].
    pub slowness: f64,
}

/// What the probes would read in a condition.
pub(super) fn read(design: &Design, condition: &Condition) -> Result<Read, EvaluateError> {
    let installation = &design.installation;
    let solved = solve_condition(installation, condition, None)?;
    let values = Figure::all().zip(as_read(installation, &solved));
    Ok(Read {
        figures: values.take(known(installation)).collect(),
        slowness: slowness(&solved),
    })
}

/// Figures that are not single heads.
const COMMON: usize = Figure::MAIN.len() + 1;
/// All figures.
const ALL: usize = COMMON + Quantity::HEADS.len();

/// How many figures, of all in their order, a design predicts.
fn known(installation: &Installation) -> usize {
    let engine = &installation.engine;
    match engine.cylinder_data {
        CylinderData::Each => COMMON + usize::from(engine.cylinders).min(Quantity::HEADS.len()),
        _ => COMMON,
    }
}

/// All figures; heads that are not known by themselves are 0.
fn as_read(installation: &Installation, solved: &Solved) -> [f64; ALL] {
    let read = band::figures(installation, solved);
    let common = [
        read.head_mean,
        read.head_hottest,
        read.oil,
        read.baffle_drop,
    ];
    let heads = each_reading(installation, solved);
    core::array::from_fn(|at| match at.checked_sub(COMMON) {
        None => common[at],
        Some(head) => heads.get(head).copied().unwrap_or(0.0),
    })
}
