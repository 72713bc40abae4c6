//! Predictions beside what was read, window by window.

use crate::document::design::Design;
use crate::document::reading::{Moment, Reading};
use crate::math::order;
use crate::prove::calibrate::{CalibrateError, Calibration};
use crate::prove::flights::course::Stretch;
use crate::prove::flights::figure::Figure;
use crate::prove::flights::fit;
use crate::prove::flights::fit::Figures;
use crate::prove::flights::judged::{
    Checked, Entry, Judged, ReadAndPredicted, Reason, Refused, shown,
};
use crate::prove::flights::marked::{with_sick_marked, with_sick_readings};
use crate::prove::flights::window::Window;

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
        let mut whole = with_sick_readings(&whole);
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

    /// How far its fit is, as [`Calibration::progress`] tells it.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        self.calibration.progress()
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
        let whole = &self.whole;
        let after = fit::after(&self.calibration, whole)?;
        let predicted: Vec<Result<Figures, Reason>> = whole
            .conditions
            .iter()
            .zip(after.predicted)
            .map(|(condition, figures)| {
                // Where the fitted design has no answer, the calibration keeps the one from before.
                let refusal = fit::refusal(whole, condition)
                    .or_else(|| fit::refusal(&after.design, condition));
                match refusal {
                    Some(error) => Err(Reason::NoAnswer(error)),
                    None => figures.ok_or(Reason::Empty),
                }
            })
            .collect();
        let models = Models {
            after: &after.design,
            before: Some(&after.before),
            whole,
        };
        let (judged, refused) = judged(self.asked, self.refused, &predicted, &models);
        Ok(Checked {
            fitted: after.fitted,
            whole: after.whole,
            judged,
            refused,
            unused: self.unused,
        })
    }
}

/// Predicts windows with a design as it is.
#[must_use]
pub fn predict(design: &Design, windows: &[Window]) -> Checked {
    let mut whole = design.clone();
    let windows = &with_sick_marked(design, windows);
    let (asked, refused) = asked(&mut whole, windows);
    let predicted: Vec<Result<Figures, Reason>> = whole
        .conditions
        .iter()
        .map(|condition| Ok(fit::unfitted(&whole, condition)?))
        .collect();
    let models = Models {
        after: &whole,
        before: None,
        whole: &whole,
    };
    let (judged, refused) = judged(asked, refused, &predicted, &models);
    Checked {
        fitted: Vec::new(),
        whole: Vec::new(),
        judged,
        refused,
        unused: Vec::new(),
    }
}

/// The designs that windows are judged by.
struct Models<'a> {
    after: &'a Design,
    before: Option<&'a Design>,
    /// Holds the conditions that were asked for.
    whole: &'a Design,
}

/// A window that can be asked for.
enum Asked {
    /// One moment, and the place of its condition.
    Steady {
        place: usize,
        moment: Moment,
        condition: usize,
    },
    /// Many, and the place of the condition of its first piece.
    Moving { stretch: Stretch, first: usize },
}

/// Puts the windows' conditions in place of the design's own; what is incomplete is refused.
fn asked(design: &mut Design, windows: &[Window]) -> (Vec<Asked>, Vec<Refused>) {
    let (mut asked, mut refused, mut conditions) = (Vec::new(), Vec::new(), Vec::new());
    for (place, window) in windows.iter().enumerate() {
        match moments(design, place, window) {
            Err(reason) => refused.push(Refused { place, reason }),
            Ok(stretch) if window.reading.is_steady() => {
                let moment = stretch.moments.into_iter().next().unwrap_or_default();
                asked.push(Asked::Steady {
                    place,
                    moment,
                    condition: conditions.len(),
                });
                conditions.extend(stretch.conditions);
            }
            Ok(stretch) => {
                let first = conditions.len();
                let middles = stretch.pieces().into_iter();
                conditions.extend(
                    middles.map(|rows| stretch.conditions[(rows.start + rows.end) / 2].clone()),
                );
                asked.push(Asked::Moving { stretch, first });
            }
        }
    }
    design.conditions = conditions;
    (asked, refused)
}

/// A window's moments as conditions; of a whole flight those that have an answer, since some second of
/// an hour always lacks one.
fn moments(design: &Design, place: usize, window: &Window) -> Result<Stretch, Reason> {
    let engine = &design.installation.engine;
    let whole = window.reading.whole;
    let (mut moments, mut conditions) = (Vec::new(), Vec::new());
    for moment in window.reading.corrected(&design.instruments) {
        let condition = window.reading.condition_of(&moment, engine);
        if whole
            && !condition
                .as_ref()
                .is_ok_and(|one| fit::refusal(design, one).is_none())
        {
            continue;
        }
        conditions.push(condition?);
        moments.push(moment);
    }
    if moments.is_empty() {
        return Err(Reason::Empty);
    }
    Ok(Stretch {
        place,
        conditions,
        moments,
    })
}

fn judged(
    asked: Vec<Asked>,
    mut refused: Vec<Refused>,
    predicted: &[Result<Figures, Reason>],
    models: &Models<'_>,
) -> (Vec<Judged>, Vec<Refused>) {
    let mut judged = Vec::with_capacity(asked.len());
    for one in asked {
        match one {
            Asked::Steady {
                place,
                moment,
                condition,
            } => match predicted.get(condition) {
                Some(Ok(figures)) => {
                    let before = models.before.and_then(|design| {
                        let condition = models.whole.conditions.get(condition)?;
                        Some(fit::read(design, condition).ok()?.figures)
                    });
                    judged.push(steady(place, &moment, figures, before.as_deref()));
                }
                Some(Err(reason)) => refused.push(Refused {
                    place,
                    reason: reason.clone(),
                }),
                None => refused.push(Refused {
                    place,
                    reason: Reason::Empty,
                }),
            },
            Asked::Moving { stretch, first } => {
                let bands: Vec<Option<Figures>> = predicted[first..]
                    .iter()
                    .take(stretch.pieces().len())
                    .map(|found| found.as_ref().ok().cloned())
                    .collect();
                match stretch.judged(models.after, models.before, &bands) {
                    Ok(pieces) => judged.extend(pieces),
                    Err(reason) => refused.push(Refused {
                        place: stretch.place,
                        reason,
                    }),
                }
            }
        }
    }
    order::by_number(&mut refused, |one| one.place as f64);
    (judged, refused)
}

fn steady(
    place: usize,
    moment: &Moment,
    figures: &Figures,
    before: Option<&[(Figure, f64)]>,
) -> Judged {
    let entries = Figure::all().filter_map(|figure| {
        let measured = figure.measured(moment)?;
        let old = before.and_then(|before| before.iter().find(|(other, _)| *other == figure));
        Some(Entry {
            figure,
            compared: ReadAndPredicted::new(measured, figures.get(figure)?),
            before: old.map(|(_, value)| *value),
        })
    });
    Judged {
        place,
        from_s: 0.0,
        condition: shown(moment),
        entries: entries.collect(),
    }
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
