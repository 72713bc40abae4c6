//! How far a temperature still rises once nothing more is changed.

/// What a first-order lag still has before it, K.
///
/// T_∞ − T = τ dT/dt      (τ dT/dt + T = T_∞)
///
/// # Arguments
/// * `rate_k_s` - how fast it rises, K/s
/// * `lag_s` - its time constant, s
///
/// # Example
/// Rising 0.2 K/s with a time constant of 100 s: 20 K are still to come.
/// ```
/// use coolpath_core::prove::overshoot::still_to_come;
///
/// assert!((still_to_come(0.2, 100.0) - 20.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn still_to_come(rate_k_s: f64, lag_s: f64) -> f64 {
    rate_k_s * lag_s
}
