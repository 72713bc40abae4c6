//! Predictions beside what was read, window by window.

use crate::answer::solved::EvaluateError;
use crate::document::design::Design;
use crate::document::quantity::Quantity;
use crate::document::reading::{Lacking, Moment, Reading, Values};
use crate::prove::calibrate::{CalibrateError, Calibration, Fitted};
use crate::prove::flights::fit;
use crate::prove::flights::fit::{Figures, Predicted};
use crate::prove::flights::window::{FlightPhase, Window};
use crate::prove::sick::{blocked_nozzle, not_firing};

/// What is compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// Mean of the heads that were read.
    HeadMean,
    /// Hottest of them.
    HeadHottest,
    /// Oil at the gauge.
    Oil,
}

impl Figure {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::HeadMean, Self::HeadHottest, Self::Oil];

    /// Its name in tables.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::HeadMean => "head_mean",
            Self::HeadHottest => "head_hottest",
            Self::Oil => "oil",
        }
    }

    fn measured(self, moment: &Moment) -> Option<f64> {
        match self {
            Self::HeadMean => moment.head_mean(),
            Self::HeadHottest => moment.head_hottest(),
            Self::Oil => moment.get(Quantity::Oil),
        }
    }
}

/// A measured temperature beside the predicted one and its band of nine in ten, K.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compared {
    /// Measured and corrected.
    pub measured: f64,
    /// Predicted.
    pub predicted: f64,
    /// Low end of the band.
    pub low: f64,
    /// High end of the band.
    pub high: f64,
}

impl Compared {
    fn new(measured: f64, predicted: Predicted) -> Self {
        Self {
            measured,
            predicted: predicted.value,
            low: predicted.low,
            high: predicted.high,
        }
    }

    /// Whether the band holds what was measured.
    #[must_use]
    pub fn is_inside(&self) -> bool {
        (self.low..=self.high).contains(&self.measured)
    }

    /// Predicted minus measured, K.
    ///
    /// # Example
    /// Predicted 372 K, read 370 K, and the band from 366 to 378 K holds it:
    /// ```
    /// use coolpath_core::prove::flights::Compared;
    ///
    /// let oil = Compared { measured: 370.0, predicted: 372.0, low: 366.0, high: 378.0 };
    /// assert_eq!(oil.miss(), 2.0);
    /// assert!(oil.is_inside());
    /// ```
    #[must_use]
    pub fn miss(&self) -> f64 {
        self.predicted - self.measured
    }
}

/// A window with an answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged {
    /// Its place among the windows that were asked for.
    pub place: usize,
    /// What stood on the instruments, each correction added, without the temperatures of the engine.
    pub condition: Values,
    compared: [Option<Compared>; 3],
}

impl Judged {
    /// A temperature that was read in the window.
    #[must_use]
    pub fn get(&self, figure: Figure) -> Option<Compared> {
        self.compared[figure as usize]
    }
}

/// Why a window has no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Reason {
    /// It is not complete.
    #[error(transparent)]
    Lacking(#[from] Lacking),
    /// The model refuses it.
    #[error(transparent)]
    NoAnswer(#[from] EvaluateError),
    /// Nothing was read in it.
    #[error("nothing was read")]
    Empty,
}

/// A window without an answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Refused {
    /// Its place among the windows that were asked for.
    pub place: usize,
    /// Why.
    pub reason: Reason,
}

/// What a check found.
#[derive(Debug, Clone)]
pub struct Checked {
    /// The fitted parameters; empty without a fit.
    pub fitted: Vec<Fitted>,
    /// Windows with an answer, in their order.
    pub judged: Vec<Judged>,
    /// Windows without one, in their order.
    pub refused: Vec<Refused>,
    /// Readings of the fit that could not be used, by their place, and why.
    pub unused: Vec<Refused>,
}

/// How predictions compare with readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Summary {
    /// Windows in which it was read.
    pub count: usize,
    /// Mean of predicted minus measured, K.
    pub bias: f64,
    /// Root mean square of it, K.
    pub rms: f64,
    /// Share of the windows whose band holds what was measured \[-\].
    pub inside_share: f64,
}

/// How the predictions of some windows compare; `None` where it was read in none.
pub fn summary<'a>(
    judged: impl IntoIterator<Item = &'a Judged>,
    figure: Figure,
) -> Option<Summary> {
    let found: Vec<Compared> = judged
        .into_iter()
        .filter_map(|one| one.get(figure))
        .collect();
    let count = found.len() as f64;
    let mean = |of: &dyn Fn(&Compared) -> f64| found.iter().map(of).sum::<f64>() / count;
    (!found.is_empty()).then(|| Summary {
        count: found.len(),
        bias: mean(&Compared::miss),
        rms: mean(&|one| one.miss() * one.miss()).sqrt(),
        inside_share: mean(&|one| f64::from(u8::from(one.is_inside()))),
    })
}

/// Fits a design's usual parameters to readings, beside those it holds itself, and predicts
/// windows with them.
///
/// # Errors
/// [`CalibrateError`] if nothing can be fitted.
pub fn check(
    design: &Design,
    fit_on: &[Reading],
    windows: &[Window],
) -> Result<Checked, CalibrateError> {
    let mut checking = Checking::new(design, fit_on, windows)?;
    while checking.advance(STEP) {}
    checking.outcome()
}

/// Solutions between two looks at whether a check is done.
const STEP: usize = 10_000;

/// A [`check`] in steps.
pub struct Checking {
    whole: Design,
    asked: Vec<Asked>,
    refused: Vec<Refused>,
    unused: Vec<Refused>,
    calibration: Calibration,
}

impl Checking {
    /// Not begun.
    ///
    /// # Errors
    /// [`CalibrateError`] if nothing can be fitted.
    pub fn new(
        design: &Design,
        fit_on: &[Reading],
        windows: &[Window],
    ) -> Result<Self, CalibrateError> {
        let mut whole = design.clone();
        whole.readings.extend_from_slice(fit_on);
        let windows = &with_sick_marked(design, windows);
        let (asked, refused) = asked(&mut whole, windows);
        Ok(Self {
            calibration: fit::begun(&whole)?,
            unused: unused(design, fit_on),
            whole,
            asked,
            refused,
        })
    }

    /// Takes some solutions more; false when it is done.
    pub fn advance(&mut self, solutions: usize) -> bool {
        self.calibration.advance(solutions)
    }

    /// What it found.
    ///
    /// # Errors
    /// [`CalibrateError`] if the fit did not settle.
    pub fn outcome(self) -> Result<Checked, CalibrateError> {
        let Self {
            whole, mut refused, ..
        } = self;
        let after = fit::after(&self.calibration, &whole)?;
        let mut judged = Vec::with_capacity(self.asked.len());
        let conditions = self.asked.into_iter().zip(&whole.conditions);
        for ((asked, condition), figures) in conditions.zip(&after.predicted) {
            // Where the fitted design has no answer, the calibration keeps the one from before.
            let refusal =
                fit::refusal(&whole, condition).or_else(|| fit::refusal(&after.design, condition));
            match (refusal, figures) {
                (None, Some(figures)) => judged.push(asked.judged(figures)),
                (refusal, _) => refused.push(Refused {
                    place: asked.place,
                    reason: refusal.map_or(Reason::Empty, Reason::NoAnswer),
                }),
            }
        }
        refused.sort_by_key(|one| one.place);
        Ok(Checked {
            fitted: after.fitted,
            judged,
            refused,
            unused: self.unused,
        })
    }
}

/// The steady readings of a design that no fit sees, as windows, in their order.
#[must_use]
pub fn check_only_windows(design: &Design) -> Vec<Window> {
    let own = design.readings.iter();
    own.filter(|reading| reading.check_only && !reading.left_out && reading.is_steady())
        .map(|reading| Window {
            flight: reading.set.clone(),
            start_s: 0.0,
            phase: FlightPhase::Level,
            note: String::new(),
            reading: reading.clone(),
        })
        .collect()
}

/// Predicts windows with a design as it is.
#[must_use]
pub fn predict(design: &Design, windows: &[Window]) -> Checked {
    let mut whole = design.clone();
    let windows = &with_sick_marked(design, windows);
    let (asked, mut refused) = asked(&mut whole, windows);
    let mut judged = Vec::with_capacity(asked.len());
    for (asked, condition) in asked.into_iter().zip(&whole.conditions) {
        match fit::unfitted(&whole, condition) {
            Ok(figures) => judged.push(asked.judged(&figures)),
            Err(error) => refused.push(Refused {
                place: asked.place,
                reason: error.into(),
            }),
        }
    }
    refused.sort_by_key(|one| one.place);
    Checked {
        fitted: Vec::new(),
        judged,
        refused,
        unused: Vec::new(),
    }
}

/// The windows with a cylinder marked that burned less than the others: moment by moment where it did
/// not fire, flight by flight where a nozzle passed too little.
fn with_sick_marked(design: &Design, windows: &[Window]) -> Vec<Window> {
    let mut marked = windows.to_vec();
    let engine = &design.installation.engine;
    for window in &mut marked {
        if window.reading.sick.is_none() {
            window.reading.sick = window.moment().and_then(not_firing);
        }
    }
    let mut flights: Vec<String> = marked.iter().map(|window| window.flight.clone()).collect();
    flights.sort();
    flights.dedup();
    for flight in flights {
        let own: Vec<&Window> = marked
            .iter()
            .filter(|window| window.flight == flight && window.reading.sick.is_none())
            .collect();
        let pairs: Vec<(&Moment, f64)> = own
            .iter()
            .filter_map(|window| {
                let moment = window.moment()?;
                let condition = moment.condition(engine, window.reading.mixture).ok()?;
                let phi = fit::mixture(&design.installation, &condition)?;
                Some((moment, phi / engine.peak_egt))
            })
            .collect();
        let (moments, ratios): (Vec<&Moment>, Vec<f64>) = pairs.into_iter().unzip();
        let Some(sick) = blocked_nozzle(&moments, &ratios) else {
            continue;
        };
        for window in &mut marked {
            if window.flight == flight && window.reading.sick.is_none() {
                window.reading.sick = Some(sick);
            }
        }
    }
    marked
}

/// A window that can be asked for.
struct Asked {
    place: usize,
    moment: Moment,
}

/// Puts the windows' conditions in place of the design's own; what is incomplete is refused.
fn asked(design: &mut Design, windows: &[Window]) -> (Vec<Asked>, Vec<Refused>) {
    let engine = &design.installation.engine;
    let (mut asked, mut refused, mut conditions) = (Vec::new(), Vec::new(), Vec::new());
    for (place, window) in windows.iter().enumerate() {
        let found = window
            .reading
            .corrected(&design.instruments)
            .into_iter()
            .next()
            .ok_or(Reason::Empty)
            .and_then(|moment| Ok((window.reading.condition_of(&moment, engine)?, moment)));
        match found {
            Ok((condition, moment)) => {
                conditions.push(condition);
                asked.push(Asked { place, moment });
            }
            Err(reason) => refused.push(Refused { place, reason }),
        }
    }
    design.conditions = conditions;
    (asked, refused)
}

/// Readings with a moment that the fit cannot use: the first such moment tells why.
fn unused(design: &Design, fit_on: &[Reading]) -> Vec<Refused> {
    let engine = &design.installation.engine;
    let reason = |reading: &Reading| {
        let moments = reading.corrected(&design.instruments);
        moments
            .iter()
            .find_map(|moment| match moment.condition(engine, reading.mixture) {
                Err(lacking) => Some(Reason::Lacking(lacking)),
                Ok(condition) => fit::refusal(design, &condition).map(Reason::NoAnswer),
            })
    };
    fit_on
        .iter()
        .enumerate()
        .filter_map(|(place, reading)| {
            Some(Refused {
                place,
                reason: reason(reading)?,
            })
        })
        .collect()
}

impl Asked {
    fn judged(self, figures: &Figures) -> Judged {
        let compared = Figure::ALL.map(|figure| {
            let measured = figure.measured(&self.moment)?;
            Some(Compared::new(measured, figures[figure as usize]))
        });
        let mut condition = self.moment.values;
        condition.retain(|quantity, _| {
            !(quantity.is_head() || quantity.is_egt() || *quantity == Quantity::Oil)
        });
        Judged {
            place: self.place,
            condition,
            compared,
        }
    }
}
