//! One channel of one reading beside the model: what it misses, weighed by how it errs.

use crate::document::installation::Lags;
use crate::prove::calibrate::channel::{CHANNELS, Channel};
use crate::prove::calibrate::correlated::Correlated;
use crate::prove::calibrate::course::{Course, moved};
use crate::prove::calibrate::observed::{Observed, SLOWNESS, Steady};
use crate::prove::calibrate::scatter::{INDEPENDENT_S, Scatter};

/// How what a channel misses in the moments of one reading is distributed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Noise {
    /// Independent, of one deviation, SI, each moment counting as so many readings \[-\].
    Thinned { deviation: f64, weight: f64 },
    /// Each moment remembers the one before.
    Correlated(Correlated),
}

/// How each channel errs.
#[derive(Debug, Clone, Copy)]
pub(super) struct Errors {
    scatter: Scatter,
    /// Over a whole flight, by [`Channel`].
    pub over_a_flight: [Correlated; CHANNELS],
}

impl Errors {
    /// Before a flight has said how its errors are correlated: two memories are as long as what
    /// counts as one more independent reading, since the mean of a long flight of T seconds counts
    /// T/2θ readings.
    pub fn assumed(scatter: Scatter) -> Self {
        Self {
            scatter,
            over_a_flight: Channel::ALL.map(|channel| Correlated {
                deviation: scatter.of(channel),
                memory_s: 0.5 * INDEPENDENT_S,
            }),
        }
    }

    fn of(&self, reading: &Observed, channel: Channel) -> Noise {
        if reading.whole {
            Noise::Correlated(self.over_a_flight[channel as usize])
        } else {
            Noise::Thinned {
                deviation: self.scatter.of(channel),
                weight: reading.weight(channel),
            }
        }
    }
}

/// One channel of one reading, in the moments in which it was measured.
#[derive(Debug, Clone)]
pub(super) struct Series {
    /// Place of the reading in the design.
    pub reading: usize,
    /// What is compared.
    pub channel: Channel,
    /// Times, s.
    pub seconds: Vec<f64>,
    /// Measured, SI.
    pub measured: Vec<f64>,
    /// What the model says, begun in steady state, SI.
    forced: Vec<f64>,
    /// What is left of a difference at the start; none where nothing lags.
    fading: Option<Vec<f64>>,
    noise: Noise,
}

impl Series {
    /// Every channel that a reading measured.
    pub fn of_reading<'a>(
        reading: &'a Observed,
        steady: &'a [Steady],
        lags: &'a Lags,
        errors: &'a Errors,
    ) -> impl Iterator<Item = Self> + 'a {
        let slowness: Vec<f64> = steady.iter().map(|values| values[SLOWNESS]).collect();
        Channel::ALL.into_iter().filter_map(move |channel| {
            let measured = &reading.measured[channel as usize];
            if measured.iter().all(Option::is_none) {
                return None;
            }
            let own: Vec<f64> = steady
                .iter()
                .map(|values| values[channel as usize])
                .collect();
            let lags_s = channel
                .lags_s(lags, &slowness)
                .filter(|_| reading.seconds.len() > 1);
            let (forced, fading) = match lags_s {
                Some(lags_s) => {
                    let course = Course {
                        seconds: &reading.seconds,
                        steady: &own,
                        lags_s: &lags_s,
                    };
                    (course.forced(), Some(course.fading()))
                }
                None => (own, None),
            };
            let kept = |values: &[f64]| -> Vec<f64> {
                let pairs = values.iter().zip(measured);
                pairs
                    .filter(|(_, measured)| measured.is_some())
                    .map(|(value, _)| *value)
                    .collect()
            };
            Some(Self {
                reading: reading.place,
                channel,
                seconds: kept(&reading.seconds),
                measured: measured.iter().copied().flatten().collect(),
                forced: kept(&forced),
                fading: fading.map(|fading| kept(&fading)),
                noise: errors.of(reading, channel),
            })
        })
    }

    /// The same with another noise.
    pub fn with(self, noise: Correlated) -> Self {
        Self {
            noise: Noise::Correlated(noise),
            ..self
        }
    }

    /// Whether its errors remember.
    pub fn is_correlated(&self) -> bool {
        matches!(self.noise, Noise::Correlated(_))
    }

    fn whitened(&self, misses: &[f64]) -> Vec<f64> {
        match &self.noise {
            Noise::Thinned { deviation, weight } => {
                let by = weight.sqrt() / deviation;
                misses.iter().map(|miss| by * miss).collect()
            }
            Noise::Correlated(noise) => noise.whitened(&self.seconds, misses),
        }
    }

    /// Model minus measured, begun in steady state, SI.
    fn misses(&self) -> Vec<f64> {
        let pairs = self.forced.iter().zip(&self.measured);
        pairs.map(|(forced, measured)| forced - measured).collect()
    }

    /// Whitened fading and its square; none where nothing lags.
    fn start_row(&self) -> Option<(Vec<f64>, f64)> {
        let row = self.whitened(self.fading.as_ref()?);
        let square: f64 = row.iter().map(|one| one * one).sum();
        (square > 0.0).then_some((row, square))
    }

    /// Difference at the start, K, that fits what was measured best, since what came before is
    /// unknown: the least of |m + a f|² in whitened numbers.
    fn start(white: &[f64], row: &(Vec<f64>, f64)) -> f64 {
        let together: f64 = white.iter().zip(&row.0).map(|(m, f)| m * f).sum();
        -together / row.1
    }

    /// Model minus measured as independent numbers of deviation 1.
    pub fn residuals(&self) -> Vec<f64> {
        let white = self.whitened(&self.misses());
        match self.start_row() {
            None => white,
            Some(row) => {
                let start = Self::start(&white, &row);
                moved(white, &row.0, start)
            }
        }
    }

    /// What the model says, with the start that fits best, SI.
    pub fn model(&self) -> Vec<f64> {
        match (&self.fading, self.start_row()) {
            (Some(fading), Some(row)) => {
                let start = Self::start(&self.whitened(&self.misses()), &row);
                moved(self.forced.clone(), fading, start)
            }
            _ => self.forced.clone(),
        }
    }

    /// −2 ln of what the noise alone makes of its likelihood, with the start found from the same
    /// moments: ln det C + ln(fᵀ C⁻¹ f); and how many moments are left beside the start. Nothing where
    /// nothing remembers.
    pub fn penalty(&self) -> (f64, f64) {
        let Noise::Correlated(noise) = &self.noise else {
            return (0.0, 0.0);
        };
        let (own, count) = (
            noise.ln_determinant(&self.seconds),
            self.seconds.len() as f64,
        );
        match self.start_row() {
            Some(row) => (own + libm::log(row.1), count - 1.0),
            None => (own, count),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Heads after a step, begun 60 K below it.
    fn after_a_step(lag_s: f64, noise: Noise) -> Series {
        let seconds: Vec<f64> = (0..40).map(|at| 15.0 * f64::from(at)).collect();
        let measured = seconds
            .iter()
            .map(|t| 480.0 - 60.0 * libm::exp(-t / 100.0))
            .collect();
        let fading = seconds.iter().map(|t| libm::exp(-t / lag_s)).collect();
        Series {
            reading: 0,
            channel: Channel::HeadMean,
            forced: vec![480.0; seconds.len()],
            fading: Some(fading),
            seconds,
            measured,
            noise,
        }
    }

    #[test]
    fn the_start_is_found_whatever_the_noise_and_a_wrong_time_constant_shows() {
        for noise in [
            Noise::Thinned {
                deviation: 3.0,
                weight: 0.2,
            },
            Noise::Correlated(Correlated {
                deviation: 3.0,
                memory_s: 60.0,
            }),
        ] {
            let right = after_a_step(100.0, noise);
            for (model, measured) in right.model().iter().zip(&right.measured) {
                assert!((model - measured).abs() < 1e-9, "{model} and {measured}");
            }
            assert!(right.residuals().iter().all(|one| one.abs() < 1e-9));
            let wrong = after_a_step(50.0, noise);
            assert!((wrong.model()[10] - wrong.measured[10]).abs() > 1.0);
        }
    }

    #[test]
    fn the_start_takes_the_noise_into_account() {
        let noise = Correlated {
            deviation: 3.0,
            memory_s: 60.0,
        };
        let mut series = after_a_step(100.0, Noise::Correlated(noise));
        // One spike: the start is moved so that no other start has smaller squares.
        series.measured[1] += 20.0;
        let squares = |series: &Series, by: f64| -> f64 {
            let fading = series.fading.as_ref().expect("it lags");
            let start = series.model()[0] - series.forced[0] + by;
            let misses = moved(series.misses(), fading, start);
            let white = noise.whitened(&series.seconds, &misses);
            white.iter().map(|one| one * one).sum()
        };
        let least = squares(&series, 0.0);
        assert!(squares(&series, 0.5) > least && squares(&series, -0.5) > least);
        let own: f64 = series.residuals().iter().map(|one| one * one).sum();
        assert!((own - least).abs() < 1e-9);
    }
}
