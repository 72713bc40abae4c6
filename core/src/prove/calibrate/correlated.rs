//! Errors that remember: what one moment misses, the next misses in part too.
//!
//! corr(t₁, t₂) = e^{−|t₂ − t₁|/θ}
//!
//! The first-order autoregression in continuous time, so that moments need not be equally far apart.
//! It is whitened by innovations: with ρ = e^{−Δt/θ} from one moment to the next,
//!
//! e₁ = r₁/σ,   e_k = (r_k − ρ r_{k−1}) / (σ √(1 − ρ²)),   Σ e² = rᵀ C⁻¹ r
//!
//! # Sources
//! The innovations form of the Gaussian likelihood (derived: the inverse of C is tridiagonal).

use serde::{Deserialize, Serialize};

/// Least of 1 − ρ² \[-\]: two moments at one time are not the same to the last bit.
const LEAST_NEW: f64 = 1e-9;

/// An error of a deviation and a memory.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Correlated {
    /// Standard deviation in one moment, SI.
    pub deviation: f64,
    /// Time, s, after which 1/e of an error is left.
    pub memory_s: f64,
}

impl Correlated {
    /// What is left of an error after a time, s \[-\].
    ///
    /// # Example
    /// After 30 s with a memory of 60 s: e^{−½}.
    /// ```
    /// use coolpath_core::prove::calibrate::Correlated;
    ///
    /// let error = Correlated { deviation: 3.0, memory_s: 60.0 };
    /// assert!((error.left_after(30.0) - 0.606_530_66).abs() < 1e-8);
    /// ```
    #[must_use]
    pub fn left_after(&self, seconds: f64) -> f64 {
        libm::exp(-seconds / self.memory_s)
    }

    /// What is new at each time but the first: ρ from the time before, and √(1 − ρ²) \[-\].
    fn innovations<'a>(&'a self, seconds: &'a [f64]) -> impl Iterator<Item = (f64, f64)> + 'a {
        seconds.windows(2).map(|pair| {
            let left = self.left_after(pair[1] - pair[0]);
            (left, (1.0 - left * left).max(LEAST_NEW).sqrt())
        })
    }

    /// Misses as if they were independent, each of deviation 1.
    #[must_use]
    pub fn whitened(&self, seconds: &[f64], misses: &[f64]) -> Vec<f64> {
        let later = self
            .innovations(seconds)
            .zip(misses.windows(2))
            .map(|((left, new), pair)| (pair[1] - left * pair[0]) / (self.deviation * new));
        misses
            .first()
            .map(|first| first / self.deviation)
            .into_iter()
            .chain(later)
            .collect()
    }

    /// ln det C of errors at these times.
    #[must_use]
    pub(crate) fn ln_determinant(&self, seconds: &[f64]) -> f64 {
        let own = 2.0 * seconds.len() as f64 * libm::log(self.deviation);
        let new = self.innovations(seconds).map(|(_, new)| libm::log(new));
        own + 2.0 * new.sum::<f64>()
    }

    /// How many independent readings moments count as in a mean: σ² 1ᵀ C⁻¹ 1 \[-\].
    ///
    /// # Example
    /// n moments at one distance: (n − (n − 2) ρ)/(1 + ρ); of five that are left ½ of each other
    /// (5 − 1.5)/1.5.
    /// ```
    /// use coolpath_core::prove::calibrate::Correlated;
    ///
    /// let error = Correlated { deviation: 3.0, memory_s: 10.0 / 2.0_f64.ln() };
    /// let count = error.independent(&[0.0, 10.0, 20.0, 30.0, 40.0]);
    /// assert!((count - 3.5 / 1.5).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn independent(&self, seconds: &[f64]) -> f64 {
        let ones = vec![self.deviation; seconds.len()];
        let white = self.whitened(seconds, &ones);
        white.iter().map(|one| one * one).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use nalgebra::{DMatrix, DVector};

    const ERROR: Correlated = Correlated {
        deviation: 2.5,
        memory_s: 70.0,
    };
    /// Unequally far apart.
    const SECONDS: [f64; 7] = [0.0, 15.0, 30.0, 90.0, 95.0, 300.0, 1000.0];
    const MISSES: [f64; 7] = [1.0, -2.0, 0.5, 3.0, 2.0, -1.5, 4.0];

    fn covariance() -> DMatrix<f64> {
        DMatrix::from_fn(SECONDS.len(), SECONDS.len(), |one, other| {
            let apart = (SECONDS[one] - SECONDS[other]).abs();
            ERROR.deviation * ERROR.deviation * libm::exp(-apart / ERROR.memory_s)
        })
    }

    #[test]
    fn whitened_squares_are_those_of_the_whole_covariance() {
        let inverse = covariance().try_inverse().expect("regular");
        let misses = DVector::from_row_slice(&MISSES);
        let closed = (misses.transpose() * &inverse * &misses)[(0, 0)];
        let white = ERROR.whitened(&SECONDS, &MISSES);
        let squares: f64 = white.iter().map(|one| one * one).sum();
        assert!(
            (squares - closed).abs() < 1e-9 * closed,
            "{squares} and {closed}"
        );
        let ones = DVector::from_element(SECONDS.len(), ERROR.deviation);
        let closed = (ones.transpose() * inverse * &ones)[(0, 0)];
        assert!((ERROR.independent(&SECONDS) - closed).abs() < 1e-9);
    }

    #[test]
    fn the_determinant_is_that_of_the_whole_covariance() {
        let closed = libm::log(covariance().determinant());
        let found = ERROR.ln_determinant(&SECONDS);
        assert!((found - closed).abs() < 1e-9, "{found} and {closed}");
    }

    #[test]
    fn a_thousand_moments_of_a_long_memory_are_few_readings_and_of_none_a_thousand() {
        let seconds: Vec<f64> = (0..1000).map(f64::from).collect();
        let count = |memory_s: f64| {
            Correlated {
                deviation: 1.0,
                memory_s,
            }
            .independent(&seconds)
        };
        // (n − (n − 2) ρ)/(1 + ρ)
        for memory_s in [0.01, 1.0, 60.0, 1e5] {
            let left = libm::exp(-1.0 / memory_s);
            let closed = (1000.0 - 998.0 * left) / (1.0 + left);
            assert!((count(memory_s) - closed).abs() < 1e-6 * closed);
        }
        assert!((count(0.01) - 1000.0).abs() < 1e-9);
        assert!((count(60.0) - 9.3).abs() < 0.1, "{}", count(60.0));
        assert!(count(1e5) < 1.01);
    }
}
