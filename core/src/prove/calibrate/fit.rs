//! The fit itself, in steps.

use crate::answer::band::uncertain;
use crate::document::design::Design;
use crate::document::table::Input;
use crate::language::tr;
use crate::math::normal::RANGE_DEVIATIONS;
use crate::prove::calibrate::observed::{Observed, Steady, conditions, observed};
use crate::prove::calibrate::parameter::{Parameter, Prior};
use crate::prove::calibrate::problem::{Known, Problem, STEP, Slopes, stepped};
use crate::prove::calibrate::scatter::Scatter;
use crate::prove::calibrate::series::{Errors, Series};
use crate::prove::calibrate::solving::Solving;
use crate::prove::calibrate::tuning::Tuning;
use core::cell::RefCell;
use levenberg_marquardt::LevenbergMarquardt;
use nalgebra::{DMatrix, DVector};

/// Most values of the parameters that are tried.
const MOST_TRIED: usize = 200;

/// Why nothing can be calibrated.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum CalibrateError {
    /// No reading can be compared with the model.
    NoReadings,
    /// No parameter was chosen, or the design has none of them.
    NoParameters,
    /// The fit did not settle.
    NotSettled,
}

impl core::fmt::Display for CalibrateError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::NoReadings => {
                tr(
                    "No reading is complete: each needs altitude, OAT, airspeed, power, and a head, oil \
                     or pressure.",
                )
            }
            Self::NoParameters => tr("Choose at least one value to be found."),
            Self::NotSettled => {
                tr("The fit did not settle. Choose fewer values, or leave doubtful readings out.")
            }
        })
    }
}

impl core::error::Error for CalibrateError {}

pub(super) struct Free {
    pub parameter: Parameter,
    pub input: &'static Input,
    pub prior: Prior,
}

/// An assumption that is not fitted, and what one deviation of it changes.
pub(super) struct Considered {
    pub input: &'static Input,
    pub place: usize,
    pub range: (f64, f64),
    pub residuals: DVector<f64>,
    pub conditions: Vec<Steady>,
}

/// What is computed: one set of values, or its neighbours for the derivatives.
struct Pending {
    x: Vec<f64>,
    /// 0 for the values themselves, then one for each parameter.
    variant: usize,
    last_variant: usize,
    solving: Solving,
    moved: Vec<Vec<Vec<Steady>>>,
}

/// An assumption at one end of its range, and what its other end gave.
struct Considering {
    solving: Solving,
    low: Option<(DVector<f64>, Vec<Steady>)>,
}

/// A calibration under way.
pub struct Calibration {
    pub(super) design: Design,
    pub(super) free: Vec<Free>,
    pub(super) readings: Vec<Observed>,
    pub(super) errors: Errors,
    /// How channels err before a flight has said more.
    pub(super) assumed: Errors,
    /// Readings among `readings`; the design's own conditions follow them.
    pub(super) count: usize,
    pub(super) known: Vec<Known>,
    /// Values from which the solver starts.
    pub(super) from: Vec<f64>,
    /// What the model says at the values from which the whole fit starts.
    pub(super) begun: Vec<Vec<Steady>>,
    pub(super) tried: usize,
    pub(super) tuning: Option<Tuning>,
    pub(super) rounds: usize,
    pending: Option<Pending>,
    pub(super) settled: Option<Result<Vec<f64>, CalibrateError>>,
    /// Assumptions beside the fitted ones, and how many of them were tried at both ends.
    pub(super) others: Vec<Considered>,
    pub(super) considered: usize,
    considering: Option<Considering>,
}

impl core::fmt::Debug for Calibration {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.debug_struct("Calibration")
            .field("tried", &self.tried)
            .finish_non_exhaustive()
    }
}

impl Calibration {
    /// A calibration of a design's parameters with its readings.
    ///
    /// # Errors
    /// [`CalibrateError`] if there is nothing to fit.
    pub fn new(
        design: &Design,
        parameters: &[Parameter],
        scatter: Scatter,
    ) -> Result<Self, CalibrateError> {
        let free: Vec<Free> = parameters
            .iter()
            .filter_map(|parameter| {
                Some(Free {
                    parameter: *parameter,
                    input: parameter.input(design)?,
                    prior: parameter.prior(design)?,
                })
            })
            .collect();
        if free.is_empty() {
            return Err(CalibrateError::NoParameters);
        }
        let mut readings = observed(design);
        readings.retain(|found| design.fits(found.place));
        let count = readings.len();
        let compared = readings
            .iter()
            .flat_map(|reading| reading.measured.iter().flatten())
            .flatten()
            .count();
        if compared == 0 {
            return Err(CalibrateError::NoReadings);
        }
        readings.extend(conditions(design));
        let fits = |id: &str| free.iter().any(|free| free.input.id == id);
        let others = uncertain(design)
            .filter(|(input, ..)| !fits(input.id))
            .map(|(input, place, _, range)| Considered {
                input,
                place,
                range,
                residuals: DVector::zeros(0),
                conditions: Vec::new(),
            })
            .collect();
        Ok(Self {
            design: design.clone(),
            from: vec![0.0; free.len()],
            free,
            readings,
            errors: Errors::assumed(scatter),
            assumed: Errors::assumed(scatter),
            count,
            known: Vec::new(),
            begun: Vec::new(),
            tried: 0,
            tuning: None,
            rounds: 0,
            pending: None,
            settled: None,
            others,
            considered: 0,
            considering: None,
        })
    }

    /// While it fits, sets of values that were tried, and 0, for nobody knows of how many; then assumptions
    /// that were considered, and assumptions in all.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        match self.settled {
            None => (self.tried, 0),
            Some(_) => (self.considered, self.others.len()),
        }
    }

    /// Makes about so many solutions; false when all is done.
    pub fn advance(&mut self, solutions: usize) -> bool {
        let mut left = solutions;
        while self.settled.is_none() {
            if self.tuning.is_some() {
                self.tune();
                return true;
            }
            if self.pending.is_none() {
                self.replay();
                continue;
            }
            if left == 0 {
                return true;
            }
            left = self.work(left);
        }
        let Some(Ok(x)) = self.settled.clone() else {
            return false;
        };
        while self.considered < self.others.len() {
            if left == 0 {
                return true;
            }
            left = self.consider(&x, left);
        }
        false
    }

    /// Moves an assumption to one end of its range, then to the other.
    fn consider(&mut self, x: &[f64], left: usize) -> usize {
        let mut work = self.considering.take().unwrap_or_else(|| Considering {
            solving: self.at_end(x, |range| range.0),
            low: None,
        });
        let left = work.solving.advance(&self.readings, left);
        if !work.solving.is_done(&self.readings) {
            self.considering = Some(work);
            return left;
        }
        let Solving { design, steady, .. } = work.solving;
        let residuals = self.residuals(&design, &[], &steady);
        let conditions: Vec<Steady> = steady[self.count..].iter().map(|own| own[0]).collect();
        let Some((low, low_conditions)) = work.low else {
            self.considering = Some(Considering {
                solving: self.at_end(x, |range| range.1),
                low: Some((residuals, conditions)),
            });
            return left;
        };
        let deviations = 2.0 * RANGE_DEVIATIONS;
        let other = &mut self.others[self.considered];
        other.residuals = (residuals - low) / deviations;
        other.conditions = low_conditions
            .iter()
            .zip(&conditions)
            .map(|(low, high)| core::array::from_fn(|at| (high[at] - low[at]) / deviations))
            .collect();
        self.considered += 1;
        left
    }

    /// The design at a set of values with the next assumption at an end of its range.
    fn at_end(&self, x: &[f64], end: fn((f64, f64)) -> f64) -> Solving {
        let other = &self.others[self.considered];
        let mut design = self.placed(x);
        other.input.set(&mut design, other.place, end(other.range));
        Solving::new(design, self.readings.len())
    }

    /// Runs the solver with what is known; notes what is missing, or the end.
    fn replay(&mut self) {
        let missing = RefCell::new(None);
        let problem = Problem {
            x: DVector::from_column_slice(&self.from),
            known: &self.known,
            missing: &missing,
        };
        let (problem, report) = LevenbergMarquardt::new()
            .with_ftol(1e-8)
            .with_xtol(1e-6)
            .with_gtol(1e-10)
            .minimize(problem);
        let x: Vec<f64> = problem.x.iter().copied().collect();
        let settled = report.termination.was_successful();
        let missing = missing.into_inner();
        match missing {
            Some(_) if self.known.len() >= MOST_TRIED => {
                self.settled = Some(Err(CalibrateError::NotSettled));
            }
            Some((x, wants_jacobian)) => self.begin(x, wants_jacobian),
            None if settled => self.settle(x),
            None => self.settled = Some(Err(CalibrateError::NotSettled)),
        }
    }

    /// The end of a run: the derivatives there are wanted for the uncertainties.
    fn settle(&mut self, x: Vec<f64>) {
        let found = self.known.iter().find(|known| known.x == x);
        match found {
            Some(known) if known.slopes.is_some() => match self.tuned_at(&x) {
                None => self.settled = Some(Ok(x)),
                tuning => self.tuning = tuning,
            },
            Some(_) => self.begin(x, true),
            None => self.begin(x, false),
        }
    }

    fn begin(&mut self, x: Vec<f64>, wants_jacobian: bool) {
        let (variant, last_variant) = if wants_jacobian {
            (1, self.free.len())
        } else {
            (0, 0)
        };
        let mut pending = Pending {
            solving: Solving::new(self.design.clone(), 0),
            moved: Vec::new(),
            x,
            variant,
            last_variant,
        };
        self.vary(&mut pending);
        self.pending = Some(pending);
    }

    /// Puts the values of a variant into a design to be solved.
    fn vary(&self, pending: &mut Pending) {
        let design = self.placed(&self.varied(pending));
        pending.solving = Solving::new(design, self.readings.len());
        // A time constant moves no steady answer: those of the values themselves stand.
        let lag = pending
            .variant
            .checked_sub(1)
            .is_some_and(|at| self.free[at].parameter.is_lag());
        let known = self.known.iter().find(|known| known.x == pending.x);
        if let (true, Some(known)) = (lag, known) {
            pending.solving.steady.clone_from(&known.steady);
            pending.solving.at = (self.readings.len(), 0);
        }
    }

    fn varied(&self, pending: &Pending) -> Vec<f64> {
        match pending.variant.checked_sub(1) {
            Some(at) => stepped(&pending.x, at),
            None => pending.x.clone(),
        }
    }

    /// Computes some of what is missing; gives back how many solutions are left.
    fn work(&mut self, left: usize) -> usize {
        let Some(mut pending) = self.pending.take() else {
            return left;
        };
        let left = pending.solving.advance(&self.readings, left);
        let done = pending.solving.is_done(&self.readings) && self.finish_variant(&mut pending);
        if !done {
            self.pending = Some(pending);
        }
        left
    }

    /// Takes a finished variant in; true when all that was missing is there.
    fn finish_variant(&mut self, pending: &mut Pending) -> bool {
        let steady = core::mem::take(&mut pending.solving.steady);
        if pending.variant == 0 {
            if self.begun.is_empty() {
                self.begun.clone_from(&steady);
            }
            self.tried += 1;
            self.known.push(Known {
                residuals: self.residuals(&pending.solving.design, &pending.x, &steady),
                x: pending.x.clone(),
                steady,
                slopes: None,
            });
            return true;
        }
        pending.moved.push(steady);
        if pending.variant < pending.last_variant {
            pending.variant += 1;
            self.vary(pending);
            return false;
        }
        if let Some(place) = self.known.iter().position(|known| known.x == pending.x) {
            let moved = core::mem::take(&mut pending.moved);
            self.known[place].slopes = Some(self.slopes(&self.known[place], moved));
        }
        true
    }

    /// How everything changes about a set of values, from what the model says a step beside it.
    pub(super) fn slopes(&self, known: &Known, moved: Vec<Vec<Vec<Steady>>>) -> Slopes {
        let columns: Vec<DVector<f64>> = moved
            .iter()
            .enumerate()
            .map(|(at, steady)| {
                let x = stepped(&known.x, at);
                (self.residuals(&self.placed(&x), &x, steady) - &known.residuals) / STEP
            })
            .collect();
        let own = &known.steady[self.count..];
        let conditions = moved
            .iter()
            .map(|steady| {
                let pairs = steady[self.count..].iter().zip(own);
                pairs
                    .map(|(moved, own)| {
                        core::array::from_fn(|at| (moved[0][at] - own[0][at]) / STEP)
                    })
                    .collect()
            })
            .collect();
        Slopes {
            jacobian: DMatrix::from_columns(&columns),
            conditions,
            moved,
        }
    }

    /// Residuals of the readings, then of the priors.
    pub(super) fn residuals(
        &self,
        design: &Design,
        x: &[f64],
        steady: &[Vec<Steady>],
    ) -> DVector<f64> {
        let series = self.series(design, steady);
        let mut list: Vec<f64> = series.iter().flat_map(Series::residuals).collect();
        list.extend_from_slice(x);
        DVector::from_vec(list)
    }

    /// Every channel of every reading beside what the model says of it, with the lags of a design.
    pub(super) fn series(&self, design: &Design, steady: &[Vec<Steady>]) -> Vec<Series> {
        let lags = &design.installation.lags;
        let pairs = self.readings.iter().zip(steady);
        pairs
            .flat_map(|(reading, steady)| Series::of_reading(reading, steady, lags, &self.errors))
            .collect()
    }

    /// The design with the parameters at a set of values.
    pub(super) fn placed(&self, x: &[f64]) -> Design {
        let mut design = self.design.clone();
        for (free, x) in self.free.iter().zip(x) {
            free.parameter
                .set(&mut design, free.input, free.prior.at(*x));
        }
        design
    }
}
