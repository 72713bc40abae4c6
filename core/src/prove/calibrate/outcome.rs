//! What a calibration found.

use crate::document::design::Design;
use crate::document::table::Input;
use crate::prove::calibrate::channel::Channel;
use crate::prove::calibrate::correlated::Correlated;
use crate::prove::calibrate::parameter::{Parameter, Prior};
use serde::{Deserialize, Serialize};

/// Posterior over prior deviation above which the readings do not see a parameter \[-\].
const UNSEEN: f64 = 0.9;

/// A parameter that was fitted.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
pub struct Fitted {
    /// The parameter.
    pub parameter: Parameter,
    /// Its input.
    pub input: &'static Input,
    /// What was assumed before.
    pub prior: Prior,
    /// Value, SI.
    pub value: f64,
    /// Range in which it lies in 19 cases in 20, SI.
    pub stated: (f64, f64),
    /// Range in which it lies in nine cases in ten, SI, as for every assumption.
    pub likely: (f64, f64),
    /// How far the readings moved it, in prior deviations.
    pub moved: f64,
    /// Uncertainty that is left over that before \[-\].
    pub left: f64,
}

impl Fitted {
    /// Whether the readings say anything of it.
    #[must_use]
    pub fn is_seen(&self) -> bool {
        self.left < UNSEEN
    }
}

/// Two parameters that the readings cannot tell apart.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Pair {
    /// The two.
    pub parameters: [Parameter; 2],
    /// Correlation of what is left uncertain \[-\].
    pub correlation: f64,
}

/// One comparison of model and reading.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Residual {
    /// Place of the reading.
    pub reading: usize,
    /// What is compared.
    pub channel: Channel,
    /// Time in the reading, s.
    pub seconds: f64,
    /// Measured and corrected, SI.
    pub measured: f64,
    /// Model before this fit, with the values from which it started, SI.
    pub before: f64,
    /// Model after, SI.
    pub after: f64,
}

/// An answer before and after the calibration, SI.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Likely {
    /// Before this fit, with the values from which it started.
    pub before: f64,
    /// After.
    pub after: f64,
    /// Either way in about nine cases in ten, with all other assumptions in their ranges.
    pub either_way: f64,
}

/// What a condition of the design gets.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Predicted {
    /// Place of the condition.
    pub condition: usize,
    /// Mean of the heads as their probes read them.
    pub head_mean: Likely,
    /// Hottest head.
    pub head: Likely,
    /// Oil at the gauge.
    pub oil: Likely,
    /// Upper minus lower deck.
    pub baffle_drop: Likely,
}

/// How a channel errs over the whole flights of a fit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct OverFlights {
    /// What was read.
    pub channel: Channel,
    /// Moments in which it was.
    pub moments: usize,
    /// From the first to the last of each flight, together, s.
    pub seconds: f64,
    /// Its error, as the fit left it.
    pub error: Correlated,
    /// Independent readings that the moments count as \[-\].
    pub independent: f64,
}

/// What a calibration found.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Outcome {
    /// The parameters.
    pub fitted: Vec<Fitted>,
    /// Pairs that cannot be told apart.
    pub alike: Vec<Pair>,
    /// Model and readings.
    pub residuals: Vec<Residual>,
    /// The design's conditions, those that have an answer.
    pub predicted: Vec<Predicted>,
    /// How what was read over whole flights errs, channel by channel; empty without any.
    pub whole: Vec<OverFlights>,
    /// Sets of values that were tried.
    pub tried: usize,
    /// Moments of readings that could not be used.
    pub unusable: usize,
}

impl Outcome {
    /// The design with the values that were found and their ranges.
    #[must_use]
    pub fn applied(&self, design: &Design) -> Design {
        let mut next = design.clone();
        for found in &self.fitted {
            found.parameter.set(&mut next, found.input, found.value);
            let notes = found
                .parameter
                .notes(&next, found.input, found.value, found.likely);
            next.calibrated
                .retain(|old| notes.iter().all(|note| note.input != old.input));
            next.calibrated.extend(notes);
        }
        next
    }

    /// The design before the fit: with the values from which it started, whatever an earlier one left.
    #[must_use]
    pub fn begun(&self, design: &Design) -> Design {
        let mut next = design.clone();
        for found in &self.fitted {
            found
                .parameter
                .set(&mut next, found.input, found.prior.value);
        }
        next
    }

    /// Root mean square of model minus reading, before and after, SI; `None` without any.
    #[must_use]
    pub fn rms(&self, channel: Channel) -> Option<(f64, f64)> {
        let own: Vec<&Residual> = self
            .residuals
            .iter()
            .filter(|residual| residual.channel == channel)
            .collect();
        let mean = |of: &dyn Fn(&Residual) -> f64| {
            let squares: f64 = own
                .iter()
                .map(|residual| {
                    let miss = of(residual) - residual.measured;
                    miss * miss
                })
                .sum();
            (squares / own.len() as f64).sqrt()
        };
        (!own.is_empty()).then(|| (mean(&|r| r.before), mean(&|r| r.after)))
    }
}
