//! From the settled fit to what is told of it.

use crate::answer::model_error;
use crate::math::normal::RANGE_DEVIATIONS;
use crate::prove::calibrate::channel::Channel;
use crate::prove::calibrate::fit::{CalibrateError, Calibration};
use crate::prove::calibrate::outcome::{Fitted, Likely, Outcome, Pair, Predicted, Residual};
use crate::prove::calibrate::problem::{Known, Slopes};
use nalgebra::{DMatrix, DVector};

/// Correlation above which the readings cannot tell two parameters apart \[-\].
const ALIKE: f64 = 0.85;
/// Deviations of the uncertainty that is stated: 19 cases in 20.
const STATED_DEVIATIONS: f64 = 2.0;

impl Calibration {
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
            residuals: self.residuals_at(x, known),
            predicted: self.predicted(known, slopes, &covariance),
            whole: self.whole_flights(x, known),
            tried: self.tried,
            unusable: self.readings.iter().map(|reading| reading.unusable).sum(),
        })
    }

    fn residuals_at(&self, x: &[f64], known: &Known) -> Vec<Residual> {
        let start = self.placed(&vec![0.0; self.free.len()]);
        let before = self.series(&start, &self.begun);
        let after = self.series(&self.placed(x), &known.steady);
        let pairs = before.iter().zip(&after);
        pairs
            .flat_map(|(before, after)| {
                let models = before.model().into_iter().zip(after.model());
                let read = after.seconds.iter().zip(&after.measured);
                models
                    .zip(read)
                    .map(|((before, model), (&seconds, &measured))| Residual {
                        reading: after.reading,
                        channel: after.channel,
                        seconds,
                        measured,
                        before,
                        after: model,
                    })
                    .collect::<Vec<_>>()
            })
            .collect()
    }

    /// What the conditions get, before and after, and how sure it is.
    ///
    /// With p the fitted parameters, q the other assumptions, J their Jacobians, g the slopes of an
    /// answer and A = (JₚᵀJₚ)⁻¹ (priors included): error of p = A JₚᵀJ_q q + what A holds, so that
    ///
    /// σ² = gₚ A gₚᵀ + Σ_q (g_q − gₚ A JₚᵀJ_q)²
    ///
    /// An assumption whose error the fit makes good adds little. The model's own error stays.
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
                    let after = known.steady[self.count + at][0][place];
                    let error = match channel {
                        Channel::Oil => model_error::OIL_K,
                        Channel::BaffleDrop => model_error::DROP_SHARE * after,
                        Channel::HeadMean => model_error::HEAD_MEAN_K,
                        _ => model_error::HEAD_K,
                    };
                    let variance = of_fitted + of_others + error * error;
                    Likely {
                        before: self
                            .begun
                            .get(self.count + at)
                            .map_or(condition.first[0][place], |steady| steady[0][place]),
                        after,
                        either_way: RANGE_DEVIATIONS * variance.sqrt(),
                    }
                };
                Predicted {
                    condition: condition.place,
                    head_mean: channel(Channel::HeadMean),
                    head: channel(Channel::HeadAlone),
                    oil: channel(Channel::Oil),
                    baffle_drop: channel(Channel::BaffleDrop),
                }
            })
            .collect()
    }
}
