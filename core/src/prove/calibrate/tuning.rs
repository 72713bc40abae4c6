//! How errors over a whole flight are correlated, found from what the fit left.
//!
//! About the fitted values x̂ the model is straight, so that what was read is normal with covariance
//! C + J Jᵀ (x has deviation 1 before). How likely a deviation and a memory of a channel are, whatever x
//! and the start of each lag:
//!
//! −2 ln p = ln det C + ln(fᵀC⁻¹f) + ln det A + rᵀC⁻¹r + x̂ᵀx̂ − bᵀA⁻¹b,
//! A = 1 + JᵀC⁻¹J, b = x̂ + JᵀC⁻¹r
//!
//! So what the fit itself took out of the residuals does not make them look small or forgetful. Both
//! have a prior, since an hour shows few memories. The fit is then repeated with what was found.

use crate::math::normal::RANGE_DEVIATIONS;
use crate::prove::calibrate::channel::{CHANNELS, Channel};
use crate::prove::calibrate::correlated::Correlated;
use crate::prove::calibrate::problem::STEP;
use crate::prove::calibrate::series::{Errors, Series};
use nalgebra::{DMatrix, DVector};

/// Range about the assumed deviation, as a factor either way: nine cases in ten (from memory).
const DEVIATION_RANGE: f64 = 1.8;
/// The same about the assumed memory (from memory).
const MEMORY_RANGE: f64 = 3.0;
/// Shortest and longest memory, s (from memory: an instrument's own, and half of an hour).
const MEMORY_S: (f64, f64) = (2.0, 1800.0);
/// First and last step of the search, in their logarithms.
const STEPS: (f64, f64) = (0.4, 0.1);
/// Points on either side of the likeliest that are weighed, and their steps in both logarithms.
const AROUND: i32 = 3;
/// See [`AROUND`].
const AROUND_STEPS: (f64, f64) = (0.15, 0.3);

/// A search under way: one channel at a time.
pub(super) struct Tuning {
    /// The fitted values.
    pub x: Vec<f64>,
    /// Everything read beside the model.
    pub series: Vec<Series>,
    /// The same with each parameter a step farther.
    pub moved: Vec<Vec<Series>>,
    /// How channels err, as far as it was found.
    pub errors: Errors,
    /// Place of the channel that comes next.
    pub channel: usize,
}

/// The normal equations of some series.
#[derive(Clone)]
struct Normal {
    matrix: DMatrix<f64>,
    right: DVector<f64>,
    square: f64,
    penalty: f64,
    /// Moments less the starts found from them.
    free: f64,
}

impl Normal {
    /// Of nothing.
    fn empty(parameters: usize) -> Self {
        Self {
            matrix: DMatrix::zeros(parameters, parameters),
            right: DVector::zeros(parameters),
            square: 0.0,
            penalty: 0.0,
            free: 0.0,
        }
    }

    /// Of the priors alone.
    fn of_priors(x: &[f64]) -> Self {
        let right = DVector::from_column_slice(x);
        Self {
            matrix: DMatrix::identity(x.len(), x.len()),
            square: right.norm_squared(),
            right,
            penalty: 0.0,
            free: 0.0,
        }
    }

    fn add(&mut self, own: &Series, moved: &[Series]) {
        let residuals = DVector::from_vec(own.residuals());
        let columns: Vec<DVector<f64>> = moved
            .iter()
            .map(|moved| (DVector::from_vec(moved.residuals()) - &residuals) / STEP)
            .collect();
        let slopes = DMatrix::from_columns(&columns);
        self.matrix += slopes.tr_mul(&slopes);
        self.right += slopes.tr_mul(&residuals);
        self.square += residuals.norm_squared();
        let (penalty, free) = own.penalty();
        self.penalty += penalty;
        self.free += free;
    }

    /// These, and others whose deviation is not 1 but another.
    fn with(&self, others: &Self, deviation: f64) -> Self {
        let by = 1.0 / (deviation * deviation);
        Self {
            matrix: &self.matrix + &others.matrix * by,
            right: &self.right + &others.right * by,
            square: self.square + others.square * by,
            penalty: self.penalty + others.penalty + 2.0 * others.free * libm::log(deviation),
            free: self.free + others.free,
        }
    }

    /// −2 ln of how likely it is.
    fn score(&self) -> f64 {
        let Some(factor) = self.matrix.clone().cholesky() else {
            return f64::INFINITY;
        };
        let diagonal = factor.l_dirty().diagonal();
        let determinant: f64 = diagonal.iter().map(|own| 2.0 * libm::log(*own)).sum();
        let gained = self.right.dot(&factor.solve(&self.right));
        self.penalty + determinant + self.square - gained
    }
}

impl Tuning {
    /// The next channel that some flight measured; false when there is none left.
    pub fn advance(&mut self, assumed: &Errors) -> bool {
        let channel = Channel::ALL[self.channel];
        let concerned = |series: &Series| series.is_correlated() && series.channel == channel;
        if self.series.iter().any(concerned) {
            let mut rest = Normal::of_priors(&self.x);
            let mut own = Vec::new();
            for (at, series) in self.series.iter().enumerate() {
                let moved: Vec<Series> = self.moved.iter().map(|all| all[at].clone()).collect();
                if concerned(series) {
                    own.push((series.clone(), moved));
                } else {
                    rest.add(series, &moved);
                }
            }
            let begun = self.errors.over_a_flight[self.channel];
            // What a deviation does is plain; only another memory is worked out.
            let mut known: Vec<(f64, Normal)> = Vec::new();
            let found = likely(begun, assumed.over_a_flight[self.channel], |error| {
                let memory_s = error.memory_s;
                let place = known.iter().position(|(other, _)| *other == memory_s);
                let place = place.unwrap_or_else(|| {
                    known.push((memory_s, of_memory(&own, self.x.len(), memory_s)));
                    known.len() - 1
                });
                rest.with(&known[place].1, error.deviation).score()
            });
            self.errors.over_a_flight[self.channel] = found;
            let all = self.moved.iter_mut().chain([&mut self.series]);
            for series in all.flatten().filter(|series| concerned(series)) {
                *series = series.clone().with(found);
            }
        }
        self.channel += 1;
        self.channel < CHANNELS
    }
}

/// The normal equations of series, each with its neighbours, whose errors have deviation 1 and a memory.
fn of_memory(own: &[(Series, Vec<Series>)], parameters: usize, memory_s: f64) -> Normal {
    let error = Correlated {
        deviation: 1.0,
        memory_s,
    };
    let mut all = Normal::empty(parameters);
    for (series, moved) in own {
        let moved: Vec<Series> = moved.iter().map(|own| own.clone().with(error)).collect();
        all.add(&series.clone().with(error), &moved);
    }
    all
}

/// What is likely of an error: the middle of its variance, and of what a mean of many moments keeps of
/// it, 2 σ² θ, over all deviations and memories near the likeliest.
///
/// The likeliest alone would tell too little scatter: an hour shows few memories.
fn likely(
    begun: Correlated,
    assumed: Correlated,
    mut score: impl FnMut(Correlated) -> f64,
) -> Correlated {
    let apart = |value: f64, usual: f64, range: f64| {
        let off = RANGE_DEVIATIONS * libm::log(value / usual) / libm::log(range);
        off * off
    };
    let mut whole = |error: Correlated| {
        score(error)
            + apart(error.deviation, assumed.deviation, DEVIATION_RANGE)
            + apart(error.memory_s, assumed.memory_s, MEMORY_RANGE)
    };
    let (least, best) = likeliest(begun, &mut whole);
    let (mut all, mut variance, mut kept) = (0.0, 0.0, 0.0);
    for one in -AROUND..=AROUND {
        for other in -AROUND..=AROUND {
            let error = best.times(
                libm::exp(AROUND_STEPS.0 * f64::from(one)),
                libm::exp(AROUND_STEPS.1 * f64::from(other)),
            );
            let weight = libm::exp(-0.5 * (whole(error) - least));
            let own = error.deviation * error.deviation;
            all += weight;
            variance += weight * own;
            kept += weight * own * error.memory_s;
        }
    }
    Correlated {
        deviation: (variance / all).sqrt(),
        memory_s: kept / variance,
    }
}

/// The error with the least score, by a search along both logarithms.
fn likeliest(begun: Correlated, mut score: impl FnMut(Correlated) -> f64) -> (f64, Correlated) {
    let mut best = (score(begun), begun);
    let (mut step, last) = STEPS;
    while step >= last {
        let by = libm::exp(step);
        let tried = [
            (by, 1.0),
            (1.0 / by, 1.0),
            (1.0, by * by),
            (1.0, 1.0 / (by * by)),
        ];
        let next = tried
            .into_iter()
            .map(|(deviation, memory)| best.1.times(deviation, memory))
            .map(|error| (score(error), error))
            .min_by(|one, other| one.0.total_cmp(&other.0));
        match next {
            Some(next) if next.0 < best.0 => best = next,
            _ => step *= 0.5,
        }
    }
    best
}

impl Correlated {
    /// Another one, its deviation and its memory so many times as much, the memory within its bounds.
    fn times(self, deviation: f64, memory: f64) -> Self {
        Self {
            deviation: self.deviation * deviation,
            memory_s: (self.memory_s * memory).clamp(MEMORY_S.0, MEMORY_S.1),
        }
    }
}
