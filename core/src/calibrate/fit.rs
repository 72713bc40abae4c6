//! The fit itself, in steps, and what it found.

use super::observed::{CHANNELS, Channel, Course, Observed, Steady, conditions, observed, steady};
use super::parameter::{Parameter, Prior, RANGE_DEVIATIONS};
use super::{INDEPENDENT_S, Scatter};
use crate::band::uncertain;
use crate::design::Design;
use crate::inputs::Input;
use core::cell::RefCell;
use levenberg_marquardt::{LeastSquaresProblem, LevenbergMarquardt};
use nalgebra::storage::Owned;
use nalgebra::{DMatrix, DVector, Dyn};

/// Step of a derivative, in prior deviations.
const STEP: f64 = 1e-3;
/// Most values of the parameters that are tried.
const MOST_TRIED: usize = 200;
/// Posterior over prior deviation above which the readings do not see a parameter \[-\].
const UNSEEN: f64 = 0.9;
/// Correlation above which the readings cannot tell two parameters apart \[-\].
const ALIKE: f64 = 0.85;
/// Deviations of the uncertainty that is stated: 19 cases in 20.
const STATED_DEVIATIONS: f64 = 2.0;

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
                "No reading is complete: each needs altitude, OAT, airspeed, power, and a head, oil \
                 or pressure."
            }
            Self::NoParameters => "Choose at least one value to be found.",
            Self::NotSettled => {
                "The fit did not settle. Choose fewer values, or leave doubtful readings out."
            }
        })
    }
}

impl core::error::Error for CalibrateError {}

struct Free {
    parameter: Parameter,
    input: &'static Input,
    prior: Prior,
}

/// What is known at one set of values.
struct Known {
    x: Vec<f64>,
    steady: Vec<Vec<Steady>>,
    residuals: DVector<f64>,
    slopes: Option<Slopes>,
}

/// How residuals and conditions change with each parameter, per prior deviation.
struct Slopes {
    /// Of the residuals.
    jacobian: DMatrix<f64>,
    /// Of the conditions, parameter by parameter.
    conditions: Vec<Vec<Steady>>,
}

/// An assumption that is not fitted, and what one deviation of it changes.
struct Considered {
    input: &'static Input,
    place: usize,
    range: (f64, f64),
    residuals: DVector<f64>,
    conditions: Vec<Steady>,
}

/// Solutions under way: of one set of values, or of its neighbours for the derivatives.
struct Pending {
    x: Vec<f64>,
    /// 0 for the values themselves, then one for each parameter.
    variant: usize,
    last_variant: usize,
    design: Design,
    steady: Vec<Vec<Steady>>,
    at: (usize, usize),
    columns: Vec<DVector<f64>>,
    conditions: Vec<Vec<Steady>>,
}

/// A calibration under way.
pub struct Calibration {
    design: Design,
    free: Vec<Free>,
    readings: Vec<Observed>,
    scatter: Scatter,
    /// Model values of the readings at the start: they stand in where a trial has no answer.
    first: Vec<Vec<Steady>>,
    /// Readings among `readings`; the design's own conditions follow them.
    count: usize,
    known: Vec<Known>,
    pending: Option<Pending>,
    settled: Option<Result<Vec<f64>, CalibrateError>>,
    /// Assumptions beside the fitted ones, and how many of them were tried at both ends.
    others: Vec<Considered>,
    considered: usize,
}

impl core::fmt::Debug for Calibration {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.debug_struct("Calibration")
            .field("tried", &self.known.len())
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
        let first = readings
            .iter()
            .map(|reading| {
                reading
                    .conditions
                    .iter()
                    .zip(&reading.near)
                    .map(|(condition, near)| {
                        steady(&design.installation, condition, near.as_ref())
                            .map_or([0.0; CHANNELS], |(steady, _)| steady)
                    })
                    .collect()
            })
            .collect();
        Ok(Self {
            design: design.clone(),
            free,
            readings,
            scatter,
            first,
            count,
            known: Vec::new(),
            pending: None,
            settled: None,
            others,
            considered: 0,
        })
    }

    /// Sets of values that were tried, assumptions that were considered, and assumptions in all.
    #[must_use]
    pub fn progress(&self) -> (usize, usize, usize) {
        (self.known.len(), self.considered, self.others.len())
    }

    /// Makes about so many solutions; false when all is done.
    pub fn advance(&mut self, solutions: usize) -> bool {
        let mut left = solutions;
        while self.settled.is_none() {
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
        let each = 2 * self
            .readings
            .iter()
            .map(|reading| reading.conditions.len())
            .sum::<usize>();
        while self.considered < self.others.len() {
            if left == 0 {
                return true;
            }
            self.consider(&x);
            left = left.saturating_sub(each);
        }
        false
    }

    /// Moves one assumption to both ends of its range.
    fn consider(&mut self, x: &[f64]) {
        let mut design = self.placed(x);
        let (input, place, range) = {
            let other = &self.others[self.considered];
            (other.input, other.place, other.range)
        };
        let mut at_end = |end: f64| {
            (input.set)(&mut design, place, end);
            let steady = self.solved(&design);
            (self.residuals(&design, &[], &steady), steady)
        };
        let (low, high) = (at_end(range.0), at_end(range.1));
        let deviations = 2.0 * RANGE_DEVIATIONS;
        let conditions = low.1[self.count..]
            .iter()
            .zip(&high.1[self.count..])
            .map(|(low, high)| core::array::from_fn(|at| (high[0][at] - low[0][at]) / deviations))
            .collect();
        let other = &mut self.others[self.considered];
        other.residuals = (high.0 - low.0) / deviations;
        other.conditions = conditions;
        self.considered += 1;
    }

    /// Runs the solver with what is known; notes what is missing, or the end.
    fn replay(&mut self) {
        let missing = RefCell::new(None);
        let problem = Problem {
            x: DVector::zeros(self.free.len()),
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
            Some(known) if known.slopes.is_some() => self.settled = Some(Ok(x)),
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
            design: self.design.clone(),
            steady: Vec::new(),
            at: (0, 0),
            columns: Vec::new(),
            conditions: Vec::new(),
            x,
            variant,
            last_variant,
        };
        self.vary(&mut pending);
        self.pending = Some(pending);
    }

    /// Puts the values of a variant into its design.
    fn vary(&self, pending: &mut Pending) {
        for (at, free) in self.free.iter().enumerate() {
            let x = self.varied(pending, at);
            free.parameter
                .set(&mut pending.design, free.input, free.prior.at(x));
        }
        pending.steady = vec![Vec::new(); self.readings.len()];
        pending.at = (0, 0);
        // A time constant moves no steady answer: those of the values themselves stand.
        let lag = pending
            .variant
            .checked_sub(1)
            .is_some_and(|at| self.free[at].parameter.is_lag());
        let known = self.known.iter().find(|known| known.x == pending.x);
        if let (true, Some(known)) = (lag, known) {
            pending.steady.clone_from(&known.steady);
            pending.at = (self.readings.len(), 0);
        }
    }

    fn varied(&self, pending: &Pending, at: usize) -> f64 {
        pending.x[at] + if pending.variant == at + 1 { STEP } else { 0.0 }
    }

    /// Computes some of what is missing; gives back how many solutions are left.
    fn work(&mut self, mut left: usize) -> usize {
        let Some(mut pending) = self.pending.take() else {
            return left;
        };
        while left > 0 {
            let (place, moment) = pending.at;
            let Some(reading) = self.readings.get(place) else {
                if self.finish_variant(&mut pending) {
                    return left;
                }
                continue;
            };
            let Some(condition) = reading.conditions.get(moment) else {
                pending.at = (place + 1, 0);
                continue;
            };
            let near = reading.near[moment].as_ref();
            let found = steady(&pending.design.installation, condition, near);
            left -= 1;
            let values = match found {
                Some((values, _)) => values,
                None => self.first[place][moment],
            };
            pending.steady[place].push(values);
            pending.at = (place, moment + 1);
        }
        self.pending = Some(pending);
        left
    }

    /// Takes a finished variant in; true when all that was missing is there.
    fn finish_variant(&mut self, pending: &mut Pending) -> bool {
        let x: Vec<f64> = (0..self.free.len())
            .map(|at| self.varied(pending, at))
            .collect();
        let residuals = self.residuals(&pending.design, &x, &pending.steady);
        if pending.variant == 0 {
            self.known.push(Known {
                x,
                steady: core::mem::take(&mut pending.steady),
                residuals,
                slopes: None,
            });
            return true;
        }
        pending.columns.push(residuals);
        pending.conditions.push(
            pending.steady[self.count..]
                .iter()
                .map(|own| own[0])
                .collect(),
        );
        if pending.variant < pending.last_variant {
            pending.variant += 1;
            self.vary(pending);
            return false;
        }
        let count = self.count;
        if let Some(known) = self.known.iter_mut().find(|known| known.x == pending.x) {
            let columns: Vec<DVector<f64>> = pending
                .columns
                .iter()
                .map(|column| (column - &known.residuals) / STEP)
                .collect();
            let conditions = pending
                .conditions
                .iter()
                .map(|moved| {
                    moved
                        .iter()
                        .zip(&known.steady[count..])
                        .map(|(moved, own)| {
                            core::array::from_fn(|at| (moved[at] - own[0][at]) / STEP)
                        })
                        .collect()
                })
                .collect();
            known.slopes = Some(Slopes {
                jacobian: DMatrix::from_columns(&columns),
                conditions,
            });
        }
        true
    }

    /// Residuals of the readings, then of the priors.
    fn residuals(&self, design: &Design, x: &[f64], steady: &[Vec<Steady>]) -> DVector<f64> {
        let mut list = Vec::new();
        self.compare(design, steady, |_, weight, channel, _, measured, model| {
            list.push(weight * (model - measured) / self.scatter.of(channel));
        });
        list.extend_from_slice(x);
        DVector::from_vec(list)
    }

    /// Calls back with reading, weight, channel, time, measured and model value, SI.
    fn compare(
        &self,
        design: &Design,
        steady: &[Vec<Steady>],
        mut each: impl FnMut(usize, f64, Channel, f64, f64, f64),
    ) {
        let lags = &design.installation.lags;
        for (reading, steady) in self.readings.iter().zip(steady) {
            for (at, channel) in Channel::ALL.into_iter().enumerate() {
                let measured = &reading.measured[at];
                let count = measured.iter().flatten().count();
                if count == 0 {
                    continue;
                }
                let own: Vec<f64> = steady.iter().map(|values| values[at]).collect();
                let model = if reading.seconds.len() < 2 || channel.is_pressure() {
                    own
                } else {
                    let lag_s = if channel == Channel::Oil {
                        lags.oil
                    } else {
                        lags.heads
                    };
                    Course {
                        seconds: &reading.seconds,
                        measured,
                        steady: &own,
                    }
                    .lagged(lag_s)
                };
                let duration = reading.seconds.last().unwrap_or(&0.0) - reading.seconds[0];
                // n moments of a stretch weigh as 1 + duration/120 s independent ones.
                let independent = 1.0 + duration / INDEPENDENT_S;
                let weight = (independent / count as f64).min(1.0).sqrt();
                for ((time, measured), model) in reading.seconds.iter().zip(measured).zip(model) {
                    if let Some(measured) = measured {
                        each(reading.place, weight, channel, *time, *measured, model);
                    }
                }
            }
        }
    }

    /// What was found; `None` while the work is under way.
    #[must_use]
    pub fn outcome(&self) -> Option<Result<Outcome, CalibrateError>> {
        match self.settled.as_ref()? {
            Err(error) => Some(Err(*error)),
            Ok(_) if self.considered < self.others.len() => None,
            Ok(x) => Some(self.found(x).ok_or(CalibrateError::NotSettled)),
        }
    }

    /// The parameters as soon as the fit has settled, before the other assumptions were considered.
    #[must_use]
    pub fn fitted(&self) -> Option<Vec<Fitted>> {
        let x = self.settled.as_ref()?.as_ref().ok()?;
        let known = self.known.iter().find(|known| known.x == *x)?;
        let jacobian = &known.slopes.as_ref()?.jacobian;
        Some(self.fitted_at(x, &(jacobian.transpose() * jacobian).try_inverse()?))
    }

    fn fitted_at(&self, x: &[f64], covariance: &DMatrix<f64>) -> Vec<Fitted> {
        self.free
            .iter()
            .enumerate()
            .map(|(at, free)| {
                let deviation = covariance[(at, at)].max(0.0).sqrt();
                let within = |deviations: f64| {
                    let by = deviations * deviation;
                    (free.prior.at(x[at] - by), free.prior.at(x[at] + by))
                };
                Fitted {
                    parameter: free.parameter,
                    input: free.input,
                    prior: free.prior,
                    value: free.prior.at(x[at]),
                    stated: within(STATED_DEVIATIONS),
                    likely: within(RANGE_DEVIATIONS),
                    moved: x[at],
                    left: deviation,
                }
            })
            .collect()
    }

    fn found(&self, x: &[f64]) -> Option<Outcome> {
        let known = self.known.iter().find(|known| known.x == x)?;
        let slopes = known.slopes.as_ref()?;
        let jacobian = &slopes.jacobian;
        let covariance = (jacobian.transpose() * jacobian).try_inverse()?;
        let deviation = |at: usize| covariance[(at, at)].max(0.0).sqrt();
        let mut alike = Vec::new();
        for one in 0..self.free.len() {
            for other in 0..one {
                let correlation = covariance[(one, other)] / (deviation(one) * deviation(other));
                if correlation.abs() > ALIKE {
                    alike.push(Pair {
                        parameters: [self.free[other].parameter, self.free[one].parameter],
                        correlation,
                    });
                }
            }
        }
        Some(Outcome {
            fitted: self.fitted_at(x, &covariance),
            alike,
            residuals: self.compared(x, known),
            predicted: self.predicted(known, slopes, &covariance),
            tried: self.known.len(),
            unusable: self.readings.iter().map(|reading| reading.unusable).sum(),
        })
    }

    fn compared(&self, x: &[f64], known: &Known) -> Vec<Residual> {
        let mut residuals = Vec::new();
        let each = |reading, _: f64, channel, seconds, measured, model| {
            residuals.push(Residual {
                reading,
                channel,
                seconds,
                measured,
                before: f64::NAN,
                after: model,
            });
        };
        self.compare(&self.placed(x), &known.steady, each);
        let mut place = 0;
        self.compare(&self.design, &self.first, |_, _, _, _, _, model| {
            residuals[place].before = model;
            place += 1;
        });
        residuals
    }

    /// What the conditions get, before and after, and how sure it is.
    ///
    /// With p the fitted parameters, q the other assumptions, J their Jacobians, g the slopes of an
    /// answer and A = (JₚᵀJₚ)⁻¹ (priors included): error of p = A JₚᵀJ_q q + what A holds, so that
    ///
    /// σ² = gₚ A gₚᵀ + Σ_q (g_q − gₚ A JₚᵀJ_q)²
    ///
    /// An assumption whose error the fit makes good adds little.
    fn predicted(
        &self,
        known: &Known,
        slopes: &Slopes,
        covariance: &DMatrix<f64>,
    ) -> Vec<Predicted> {
        let rows = slopes.jacobian.nrows() - self.free.len();
        let data = slopes.jacobian.rows(0, rows);
        // A JₚᵀJ_q, one column for each other assumption.
        let absorbed: Vec<DVector<f64>> = self
            .others
            .iter()
            .map(|other| covariance * (data.transpose() * &other.residuals))
            .collect();
        let own = &self.readings[self.count..];
        own.iter()
            .enumerate()
            .map(|(at, condition)| {
                let channel = |channel: Channel| {
                    let place = channel as usize;
                    let slope = DVector::from_iterator(
                        self.free.len(),
                        slopes.conditions.iter().map(|moved| moved[at][place]),
                    );
                    let of_fitted = (slope.transpose() * covariance * &slope)[(0, 0)];
                    let of_others: f64 = self
                        .others
                        .iter()
                        .zip(&absorbed)
                        .map(|(other, absorbed)| {
                            let rest = other.conditions[at][place] - slope.dot(absorbed);
                            rest * rest
                        })
                        .sum();
                    Likely {
                        before: self.first[self.count + at][0][place],
                        after: known.steady[self.count + at][0][place],
                        either_way: RANGE_DEVIATIONS * (of_fitted + of_others).sqrt(),
                    }
                };
                Predicted {
                    condition: condition.place,
                    head: channel(Channel::HeadAlone),
                    oil: channel(Channel::Oil),
                    baffle_drop: channel(Channel::BaffleDrop),
                }
            })
            .collect()
    }

    /// The design with the parameters at a set of values.
    fn placed(&self, x: &[f64]) -> Design {
        let mut design = self.design.clone();
        for (free, x) in self.free.iter().zip(x) {
            free.parameter
                .set(&mut design, free.input, free.prior.at(*x));
        }
        design
    }

    /// Model values of all readings and conditions.
    fn solved(&self, design: &Design) -> Vec<Vec<Steady>> {
        self.readings
            .iter()
            .zip(&self.first)
            .map(|(reading, first)| {
                reading
                    .conditions
                    .iter()
                    .zip(&reading.near)
                    .zip(first)
                    .map(|((condition, near), first)| {
                        steady(&design.installation, condition, near.as_ref())
                            .map_or(*first, |(values, _)| values)
                    })
                    .collect()
            })
            .collect()
    }
}

/// The least-squares problem as far as its values are known.
struct Problem<'a> {
    x: DVector<f64>,
    known: &'a [Known],
    /// The first set of values that was asked for in vain, and whether its derivatives were.
    missing: &'a RefCell<Option<(Vec<f64>, bool)>>,
}

impl Problem<'_> {
    fn find(&self, wants_jacobian: bool) -> Option<&Known> {
        let found = self
            .known
            .iter()
            .find(|known| known.x.as_slice() == self.x.as_slice());
        match found {
            Some(known) if !wants_jacobian || known.slopes.is_some() => Some(known),
            _ => {
                let x = self.x.iter().copied().collect();
                self.missing
                    .borrow_mut()
                    .get_or_insert((x, wants_jacobian && found.is_some()));
                None
            }
        }
    }
}

impl LeastSquaresProblem<f64, Dyn, Dyn> for Problem<'_> {
    type ResidualStorage = Owned<f64, Dyn>;
    type JacobianStorage = Owned<f64, Dyn, Dyn>;
    type ParameterStorage = Owned<f64, Dyn>;

    fn set_params(&mut self, x: &DVector<f64>) {
        self.x.copy_from(x);
    }

    fn params(&self) -> DVector<f64> {
        self.x.clone()
    }

    fn residuals(&self) -> Option<DVector<f64>> {
        self.find(false).map(|known| known.residuals.clone())
    }

    fn jacobian(&self) -> Option<DMatrix<f64>> {
        let known = self.find(true)?;
        Some(known.slopes.as_ref()?.jacobian.clone())
    }
}

/// A parameter that was fitted.
#[derive(Debug, Clone, Copy)]
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
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pair {
    /// The two.
    pub parameters: [Parameter; 2],
    /// Correlation of what is left uncertain \[-\].
    pub correlation: f64,
}

/// One comparison of model and reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Residual {
    /// Place of the reading.
    pub reading: usize,
    /// What is compared.
    pub channel: Channel,
    /// Time in the reading, s.
    pub seconds: f64,
    /// Measured and corrected, SI.
    pub measured: f64,
    /// Model before, SI.
    pub before: f64,
    /// Model after, SI.
    pub after: f64,
}

/// An answer before and after the calibration, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Likely {
    /// Before.
    pub before: f64,
    /// After.
    pub after: f64,
    /// Either way in about nine cases in ten, with all other assumptions in their ranges.
    pub either_way: f64,
}

/// What a condition of the design gets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Predicted {
    /// Place of the condition.
    pub condition: usize,
    /// Hottest head.
    pub head: Likely,
    /// Oil at the gauge.
    pub oil: Likely,
    /// Upper minus lower deck.
    pub baffle_drop: Likely,
}

/// What a calibration found.
#[derive(Debug, Clone)]
pub struct Outcome {
    /// The parameters.
    pub fitted: Vec<Fitted>,
    /// Pairs that cannot be told apart.
    pub alike: Vec<Pair>,
    /// Model and readings.
    pub residuals: Vec<Residual>,
    /// The design's conditions, those that have an answer.
    pub predicted: Vec<Predicted>,
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
