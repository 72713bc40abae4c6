//! Airspeeds: calibrated, true and equivalent, joined by impact pressure.
//!
//! All relations are the subsonic isentropic ones of the airspeed indicator's calibration
//! (closed form; checked in `reference/airspeed`). Valid below Mach 1.

use crate::air::atmosphere;

/// Impact pressure, Pa, of a calibrated airspeed, m/s.
///
/// # Example
/// 100 kt (`reference/airspeed`, B01); ½ρV² (1 + M²/4) = 1621.0 · 1.00571 by hand:
/// ```
/// use coolpath_core::air::airspeed::impact_pressure;
/// use coolpath_core::units::si::knot;
///
/// assert!((impact_pressure(knot(100.0)) - 1630.28).abs() < 0.05);
/// ```
#[must_use]
pub fn impact_pressure(calibrated_m_s: f64) -> f64 {
    // qc = p_sl [(1 + 0.2 (CAS / a_sl)²)^3.5 − 1]
    compressed_rise(
        calibrated_m_s / atmosphere::speed_of_sound(atmosphere::TEMPERATURE_SL),
        atmosphere::PRESSURE_SL,
    )
}

/// Calibrated airspeed, m/s, that has an impact pressure, Pa.
///
/// This is also what an airspeed indicator plumbed across two pressure taps reads.
///
/// # Example
/// An indicator across the baffles at 6 inH₂O (`reference/airspeed`, B04c):
/// ```
/// use coolpath_core::air::airspeed::calibrated_airspeed;
/// use coolpath_core::units::si::{inh2o, knot};
///
/// assert!((calibrated_airspeed(inh2o(6.0)) - knot(95.77)).abs() < knot(0.02));
/// ```
#[must_use]
pub fn calibrated_airspeed(impact_pressure_pa: f64) -> f64 {
    atmosphere::speed_of_sound(atmosphere::TEMPERATURE_SL)
        * mach(impact_pressure_pa, atmosphere::PRESSURE_SL)
}

/// Mach number [-] from impact pressure, Pa, and static pressure, Pa.
///
/// # Example
/// At Mach 1 the impact pressure is 1.2^3.5 − 1 = 0.892929 of the static one, as in any table of
/// isentropic flow:
/// ```
/// use coolpath_core::air::airspeed::mach;
///
/// assert!((mach(89_292.9, 100_000.0) - 1.0).abs() < 1e-6);
/// ```
#[must_use]
pub fn mach(impact_pressure_pa: f64, static_pressure_pa: f64) -> f64 {
    // M = √(5 [(qc/p + 1)^(2/7) − 1])
    let exponent = 2.0 / 7.0;
    (5.0 * libm::expm1(exponent * libm::log1p(impact_pressure_pa / static_pressure_pa))).sqrt()
}

/// Impact pressure, Pa, at a Mach number [-] and static pressure, Pa.
///
/// # Example
/// 1.05^3.5 − 1 = 0.186212 at Mach 0.5, by hand from M² = 0.25:
/// ```
/// use coolpath_core::air::airspeed::compressed_rise;
///
/// assert!((compressed_rise(0.5, 100_000.0) - 18_621.2).abs() < 0.1);
/// ```
#[must_use]
pub fn compressed_rise(mach: f64, static_pressure_pa: f64) -> f64 {
    // qc = p [(1 + 0.2 M²)^3.5 − 1]
    static_pressure_pa * libm::expm1(3.5 * libm::log1p(0.2 * mach * mach))
}

/// Equivalent airspeed, m/s, from true airspeed, m/s, and density, kg/m³.
///
/// # Example
/// In air of a quarter of the standard density, half the true airspeed:
/// ```
/// use coolpath_core::air::airspeed::equivalent_airspeed;
/// use coolpath_core::air::atmosphere::DENSITY_SL;
///
/// assert!((equivalent_airspeed(100.0, 0.25 * DENSITY_SL) - 50.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn equivalent_airspeed(true_m_s: f64, density_kg_m3: f64) -> f64 {
    // EAS = TAS √(ρ / ρ_sl)
    true_m_s * (density_kg_m3 / atmosphere::DENSITY_SL).sqrt()
}

/// Total temperature, K, at a Mach number [-] and static temperature, K.
///
/// # Example
/// 300 K · (1 + 0.2 · 0.25) = 315 K:
/// ```
/// use coolpath_core::air::airspeed::total_temperature;
///
/// assert!((total_temperature(0.5, 300.0) - 315.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn total_temperature(mach: f64, temperature_k: f64) -> f64 {
    // T_t = T (1 + 0.2 M²)
    temperature_k * (1.0 + 0.2 * mach * mach)
}
