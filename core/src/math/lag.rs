//! What follows with a lag what itself fades.

/// What is left, after a time, of what follows with a time constant what fades with another \[-\]: the solution of
/// τ₂ y' = e^{−t/τ₁} − y from rest, τ₁/(τ₁ − τ₂) (e^{−t/τ₁} − e^{−t/τ₂}).
///
/// # Arguments
/// * `fading_s` - τ₁ of what fades, s
/// * `own_s` - τ₂ of what follows, s
///
/// # Example
/// Both alike: t/τ e^{−t/τ}, which is 1/e at one time constant:
/// ```
/// use coolpath_core::math::lag::lag_of_a_lag;
///
/// assert!((lag_of_a_lag(60.0, 60.0, 60.0) - 0.367_879_44).abs() < 1e-8);
/// assert_eq!(lag_of_a_lag(0.0, 90.0, 300.0), 0.0);
/// ```
#[must_use]
pub fn lag_of_a_lag(elapsed_s: f64, fading_s: f64, own_s: f64) -> f64 {
    let own = libm::exp(-elapsed_s / own_s);
    if (fading_s / own_s - 1.0).abs() < 1e-6 {
        return elapsed_s / own_s * own;
    }
    fading_s / (fading_s - own_s) * (libm::exp(-elapsed_s / fading_s) - own)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_what_small_steps_make_of_the_equation() {
        for (fading_s, own_s) in [
            (90.0, 300.0),
            (400.0, 120.0),
            (200.0, 200.0),
            (200.0, 199.99),
        ] {
            let (mut y, step_s) = (0.0, 0.01);
            let mut at_s = 0.0;
            for _ in 0..50_000 {
                // Midpoint rule.
                let rate = |t: f64, y: f64| (libm::exp(-t / fading_s) - y) / own_s;
                let middle = y + 0.5 * step_s * rate(at_s, y);
                y += step_s * rate(at_s + 0.5 * step_s, middle);
                at_s += step_s;
            }
            let exact = lag_of_a_lag(at_s, fading_s, own_s);
            assert!((y - exact).abs() < 1e-6, "{fading_s} {own_s}: {y} {exact}");
        }
    }
}
