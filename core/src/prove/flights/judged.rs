//! What was read beside what was predicted, and how that sums up.

use crate::answer::solved::EvaluateError;
use crate::document::quantity::Quantity;
use crate::document::reading::{Lacking, Moment, Values};
use crate::language::tr;
use crate::prove::calibrate::{Fitted, OverFlights};
use crate::prove::flights::figure::Figure;
use crate::prove::flights::fit::Predicted;
use serde::{Deserialize, Serialize};

/// Share of windows whose bands hold all main figures if each holds nine times in ten and none has
/// to do with another, 0.9³ \[-\]: fewer means that the bands do not hold.
const LEAST_HELD: f64 = 0.729;

/// A measured value beside the predicted one and its band of nine in ten: temperatures in K,
/// pressures in Pa.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ReadAndPredicted {
    /// Measured and corrected.
    pub measured: f64,
    /// Predicted.
    pub predicted: f64,
    /// Low end of the band.
    pub low: f64,
    /// High end of the band.
    pub high: f64,
}

impl ReadAndPredicted {
    pub(super) fn new(measured: f64, predicted: Predicted) -> Self {
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

    /// Predicted minus measured, K or Pa.
    ///
    /// # Example
    /// Predicted 372 K, read 370 K, and the band from 366 to 378 K holds it:
    /// ```
    /// use coolpath_core::prove::flights::ReadAndPredicted;
    ///
    /// let oil = ReadAndPredicted { measured: 370.0, predicted: 372.0, low: 366.0, high: 378.0 };
    /// assert_eq!(oil.miss(), 2.0);
    /// assert!(oil.is_inside());
    /// ```
    #[must_use]
    pub fn miss(&self) -> f64 {
        self.predicted - self.measured
    }
}

/// One figure of a window.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub(super) struct Entry {
    pub figure: Figure,
    pub compared: ReadAndPredicted,
    /// Predicted before the fit; none without one, or where the model then had no answer.
    pub before: Option<f64>,
}

/// A window with an answer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Judged {
    /// Its place among the windows that were asked for.
    pub place: usize,
    /// From when after the window's start, s: a stretch that is not steady is judged piece by piece.
    pub from_s: f64,
    /// What stood on the instruments, each correction added, without the temperatures of the engine.
    pub condition: Values,
    pub(super) entries: Vec<Entry>,
}

impl Judged {
    fn entry(&self, figure: Figure) -> Option<&Entry> {
        self.entries.iter().find(|entry| entry.figure == figure)
    }

    /// A figure that was read in the window.
    #[must_use]
    pub fn get(&self, figure: Figure) -> Option<ReadAndPredicted> {
        self.entry(figure).map(|entry| entry.compared)
    }

    /// What the model said of a figure before the fit, K or Pa: with the values from which the fit
    /// starts.
    #[must_use]
    pub fn before(&self, figure: Figure) -> Option<f64> {
        self.entry(figure)?.before
    }

    /// Whether the bands hold every main figure that was read.
    #[must_use]
    pub fn is_held(&self) -> bool {
        let mut read = Figure::MAIN
            .into_iter()
            .filter_map(|figure| self.get(figure));
        read.all(|one| one.is_inside())
    }
}

/// Why a window has no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error, Serialize, Deserialize)]
#[non_exhaustive]
pub enum Reason {
    /// It is not complete.
    #[error(transparent)]
    Lacking(#[from] Lacking),
    /// The model refuses it.
    #[error(transparent)]
    NoAnswer(#[from] EvaluateError),
    /// Nothing was read in it.
    #[error("{}", tr("nothing was read"))]
    Empty,
}

/// A window without an answer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Refused {
    /// Its place among the windows that were asked for.
    pub place: usize,
    /// Why.
    pub reason: Reason,
}

/// What a check found.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Checked {
    /// The fitted parameters; empty without a fit.
    pub fitted: Vec<Fitted>,
    /// How what was read over whole flights of the fit errs; empty without any.
    pub whole: Vec<OverFlights>,
    /// Windows with an answer, in their order.
    pub judged: Vec<Judged>,
    /// Windows without one, in their order.
    pub refused: Vec<Refused>,
    /// Readings of the fit that could not be used, by their place, and why.
    pub unused: Vec<Refused>,
}

impl Checked {
    /// Windows whose bands held every main figure, and all that were judged.
    #[must_use]
    pub fn held(&self) -> (usize, usize) {
        let held = self.judged.iter().filter(|judged| judged.is_held());
        (held.count(), self.judged.len())
    }

    /// Whether as many windows held as bands of nine in ten must hold.
    #[must_use]
    pub fn holds(&self) -> bool {
        let (held, all) = self.held();
        held as f64 >= LEAST_HELD * all as f64
    }
}

/// How predictions compare with readings, K or Pa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Summary {
    /// Windows in which it was read.
    pub count: usize,
    /// Mean of predicted minus measured.
    pub bias: f64,
    /// Root mean square of it.
    pub rms: f64,
    /// The same before the fit; none without one.
    pub rms_before: Option<f64>,
    /// Share of the windows whose band holds what was measured \[-\].
    pub inside_share: f64,
}

impl Summary {
    /// Windows whose band holds what was measured.
    #[must_use]
    pub fn inside(&self) -> usize {
        libm::round(self.inside_share * self.count as f64) as usize
    }
}

/// How the predictions of some windows compare; `None` where it was read in none.
pub fn summary<'a>(
    judged: impl IntoIterator<Item = &'a Judged>,
    figure: Figure,
) -> Option<Summary> {
    let found: Vec<Entry> = judged
        .into_iter()
        .filter_map(|one| one.entry(figure).copied())
        .collect();
    let count = found.len() as f64;
    let mean = |of: &dyn Fn(&Entry) -> f64| found.iter().map(of).sum::<f64>() / count;
    let before: Option<Vec<f64>> = found
        .iter()
        .map(|entry| Some(entry.before? - entry.compared.measured))
        .collect();
    let rms_before =
        before.map(|misses| libm::sqrt(misses.iter().map(|miss| miss * miss).sum::<f64>() / count));
    (!found.is_empty()).then(|| Summary {
        count: found.len(),
        bias: mean(&|one| one.compared.miss()),
        rms: mean(&|one| one.compared.miss() * one.compared.miss()).sqrt(),
        rms_before,
        inside_share: mean(&|one| f64::from(u8::from(one.compared.is_inside()))),
    })
}

/// What stood on the instruments in a moment, without the engine's temperatures.
pub(super) fn shown(moment: &Moment) -> Values {
    let mut condition = moment.values.clone();
    condition.retain(|quantity, _| {
        !(quantity.is_head() || quantity.is_egt() || *quantity == Quantity::Oil)
    });
    condition
}
