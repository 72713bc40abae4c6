//! Where a check meets the calibration and the solver; nothing else of it knows either.

use crate::answer::band::bands_of;
use crate::answer::solve_condition::solve_condition;
use crate::answer::head_readings::hottest_reading;
use crate::answer::solved::{EvaluateError, Solved};
use crate::document::condition::Condition;
use crate::document::design::Design;
use crate::document::installation::{Installation, OilProbe};
use crate::path::report::gauge_temperature;
use crate::prove::calibrate::{
    CalibrateError, Calibration, Fitted, Likely, Outcome, Scatter, usual_choice,
};

/// Solutions between two looks at whether a calibration is done.
const STEP: usize = 10_000;

/// A prediction and the band that holds it nine times in ten, K.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Predicted {
    /// Likeliest.
    pub value: f64,
    /// Low end.
    pub low: f64,
    /// High end.
    pub high: f64,
}

/// Mean head, hottest head and oil, as their probes read them.
pub(super) type Figures = [Predicted; 3];

/// Parameters, design and predictions after a fit.
pub(super) struct AfterFit {
    /// What was found.
    pub fitted: Vec<Fitted>,
    /// The design with it.
    pub design: Design,
    /// Of each condition of the design; none where it has no answer.
    pub predicted: Vec<Option<Figures>>,
}

/// Fits the usual parameters of a design to its readings and predicts its conditions.
pub(super) fn fit(design: &Design) -> Result<AfterFit, CalibrateError> {
    let parameters = usual_choice(design);
    let mut calibration = Calibration::new(design, &parameters, Scatter::default())?;
    while calibration.advance(STEP) {}
    let outcome = calibration.outcome().ok_or(CalibrateError::NotSettled)??;
    Ok(AfterFit {
        design: outcome.applied(design),
        predicted: (0..design.conditions.len())
            .map(|place| figures(&outcome, place))
            .collect(),
        fitted: outcome.fitted,
    })
}

fn figures(outcome: &Outcome, place: usize) -> Option<Figures> {
    let found = outcome
        .predicted
        .iter()
        .find(|found| found.condition == place)?;
    let band = |likely: &Likely| Predicted {
        value: likely.after,
        low: likely.after - likely.either_way,
        high: likely.after + likely.either_way,
    };
    Some([&found.head_mean, &found.head, &found.oil].map(band))
}

/// Why a condition of a design has no answer; `None` if it has one.
pub(super) fn refusal(design: &Design, condition: &Condition) -> Option<EvaluateError> {
    solve_condition(&design.installation, condition, None).err()
}

/// A prediction with the design as it is.
pub(super) fn unfitted(design: &Design, condition: &Condition) -> Result<Figures, EvaluateError> {
    let nominal = solve_condition(&design.installation, condition, None)?;
    let values = as_read(&design.installation, &nominal);
    let bands = bands_of(design, condition, &nominal, as_read);
    Ok(core::array::from_fn(|at| Predicted {
        value: values[at],
        low: values[at] - bands[at].below,
        high: values[at] + bands[at].above,
    }))
}

fn as_read(installation: &Installation, solved: &Solved) -> [f64; 3] {
    let state = &solved.solution.state;
    let after = installation.oil.probe == OilProbe::AfterCooler;
    [
        state.head_k + installation.engine.head_reading_bias_k(),
        hottest_reading(installation, solved),
        gauge_temperature(state, after),
    ]
}
