//! Exhaust gas temperature: how far below its peak it stands at a mixture.
//!
//! # Sources
//! Derived from open flight logs of one injected six, all cylinders of its healthy flights fall on
//! one curve within 11.7 °F rms; peak at φ 1.045 on the axis of the gas-temperature curve
//! (1.02–1.07). Below 0.87 of the peak's mixture extrapolated. A real
//! peak is rounded over ±0.03, which this curve is not. It fixes only the product of air consumption and the peak's mixture.

use crate::engine::mixture::interpolated;
use crate::math::root::bracketed_root;
use crate::units::si::deltaf;

/// °F below the peak over φ/φ_peak.
const BELOW_PEAK_DEGF: [(f64, f64); 13] = [
    (0.85, -72.0),
    (0.90, -47.0),
    (0.95, -23.0),
    (1.00, 0.0),
    (1.05, -37.0),
    (1.10, -73.0),
    (1.15, -107.0),
    (1.20, -138.0),
    (1.30, -193.0),
    (1.40, -242.0),
    (1.50, -284.0),
    (1.60, -322.0),
    (1.70, -355.0),
];
/// Change of EGT per share of rated speed, K (2.8 °F per per cent; derived as above).
pub const PER_SPEED_K: f64 = deltaf(280.0);
/// Change of EGT per share of rated manifold pressure, K (1.8 °F per per cent; derived as above).
pub const PER_MANIFOLD_K: f64 = deltaf(180.0);
/// Standard deviation of readings about the curve, K (12 °F; derived as above).
pub const SCATTER_K: f64 = deltaf(12.0);

/// Mixtures over the peak's between which an EGT is turned back into a mixture [-].
const INVERSE_RANGE: (f64, f64) = (0.6, 2.2);

/// EGT minus its peak, K (zero or below), at a mixture over the peak's [-].
///
/// # Example
/// ```
/// use coolpath_core::engine::egt::below_peak;
/// assert!(below_peak(1.0).abs() < 1e-6);
/// assert!((below_peak(1.2) * 1.8 + 138.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn below_peak(ratio: f64) -> f64 {
    deltaf(interpolated(&BELOW_PEAK_DEGF, ratio))
}

/// Mixture over the peak's [-] at which EGT stands so far below its peak, K.
///
/// # Arguments
/// * `below_k` - peak minus EGT, K, zero or above
/// * `rich` - on the rich side
///
/// # Example
/// 138 °F below the peak are 1.2 times its mixture when rich; lean, 23 °F below are 0.95 (this file's
/// table, derived from open flight logs):
/// ```
/// use coolpath_core::engine::egt::ratio_below_peak;
/// use coolpath_core::units::si::deltaf;
///
/// assert!((ratio_below_peak(deltaf(138.0), true) - 1.2).abs() < 1e-9);
/// assert!((ratio_below_peak(deltaf(23.0), false) - 0.95).abs() < 1e-9);
/// ```
#[must_use]
pub fn ratio_below_peak(below_k: f64, rich: bool) -> f64 {
    let (least, most) = INVERSE_RANGE;
    let end = if rich { most } else { least };
    let miss = |ratio: f64| below_peak(ratio) + below_k.max(0.0);
    if below_k <= 0.0 {
        return 1.0;
    }
    bracketed_root(miss, 1.0_f64.min(end), 1.0_f64.max(end), 1e-10).map_or(end, |root| root.x)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_curve_has_its_peak_at_one_and_falls_on_both_sides() {
        for step in 1..400 {
            let x = 0.6 + f64::from(step) * 0.004;
            let (a, b) = (below_peak(x), below_peak(x + 0.004));
            if x + 0.004 <= 1.0 - 1e-3 {
                assert!(b > a, "{x}");
            } else if x >= 1.0 + 1e-3 {
                assert!(b < a, "{x}");
            }
        }
    }

    #[test]
    fn degrees_from_peak_and_mixture_are_each_others_inverse() {
        for degf in [5.0, 50.0, 125.0, 250.0] {
            for rich in [true, false] {
                let below_k = deltaf(if rich { degf } else { degf.min(120.0) });
                let ratio = ratio_below_peak(below_k, rich);
                assert!((below_peak(ratio) + below_k).abs() < 1e-6, "{degf}");
                assert_eq!(ratio > 1.0, rich);
            }
        }
    }

    #[test]
    fn named_settings_lie_where_practice_has_them() {
        let phi = |degf: f64, rich| 1.045 * ratio_below_peak(deltaf(degf), rich);
        // 125 °F rich of peak is best power (P12), hottest heads lie 50 °F rich (P11).
        assert!(
            (phi(125.0, true) - 1.22).abs() < 0.03,
            "{}",
            phi(125.0, true)
        );
        assert!((phi(50.0, true) - 1.11).abs() < 0.03, "{}", phi(50.0, true));
    }
}
