//! Airspeeds: calibrated, true and equivalent, joined by impact pressure.
//!
//! All relations are the subsonic isentropic ones of the airspeed indicator's calibration
//! (closed form; checked in `reference/airspeed`). Valid below Mach 1.

use crate::air::atmosphere;

/// Impact pressure, Pa, of a calibrated airspeed, m/s.
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
#[must_use]
pub fn calibrated_airspeed(impact_pressure_pa: f64) -> f64 {
    atmosphere::speed_of_sound(atmosphere::TEMPERATURE_SL)
        * mach(impact_pressure_pa, atmosphere::PRESSURE_SL)
}

/// Mach number [-] from impact pressure, Pa, and static pressure, Pa.
#[must_use]
pub fn mach(impact_pressure_pa: f64, static_pressure_pa: f64) -> f64 {
    // M = √(5 [(qc/p + 1)^(2/7) − 1])
    let exponent = 2.0 / 7.0;
    (5.0 * libm::expm1(exponent * libm::log1p(impact_pressure_pa / static_pressure_pa))).sqrt()
}

/// Impact pressure, Pa, at a Mach number [-] and static pressure, Pa.
#[must_use]
pub fn compressed_rise(mach: f64, static_pressure_pa: f64) -> f64 {
    // qc = p [(1 + 0.2 M²)^3.5 − 1]
    static_pressure_pa * libm::expm1(3.5 * libm::log1p(0.2 * mach * mach))
}

/// Equivalent airspeed, m/s, from true airspeed, m/s, and density, kg/m³.
#[must_use]
pub fn equivalent_airspeed(true_m_s: f64, density_kg_m3: f64) -> f64 {
    // EAS = TAS √(ρ / ρ_sl)
    true_m_s * (density_kg_m3 / atmosphere::DENSITY_SL).sqrt()
}

/// Total temperature, K, at a Mach number [-] and static temperature, K.
#[must_use]
pub fn total_temperature(mach: f64, temperature_k: f64) -> f64 {
    // T_t = T (1 + 0.2 M²)
    temperature_k * (1.0 + 0.2 * mach * mach)
}
