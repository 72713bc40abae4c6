//! Brake power from what the panel shows: engine speed and manifold pressure, or fuel flow.
//!
//! # Sources
//! Power from manifold pressure: a straight line in manifold pressure that vanishes at 4 inHg
//! (friction and residual gas) and gives rated power at 28.8 inHg and rated speed, proportional to
//! engine speed, one per cent less per 10 °F of warmer air (as √T): from memory, common shape of
//! an operator's chart without its altitude correction; about ±8 %. 24 inHg at 2400 of 2700 rpm
//! gives 72 %, 22 inHg 65 %. The engine's own chart is better.

use crate::air::atmosphere::TEMPERATURE_SL;
use crate::engine::mixture;
use crate::units::si::inhg;

/// Manifold pressure at rated power, Pa.
const RATED_MANIFOLD_PA: f64 = inhg(28.8);
/// Manifold pressure at which the line reaches no power, Pa.
const NO_POWER_PA: f64 = inhg(4.0);

/// Share of rated power [-] at best-power mixture, from manifold pressure and speed.
///
/// P/P_r = (n/n_r) (p_m − p₀)/(p_m,r − p₀) √(T₀/T)
///
/// # Arguments
/// * `manifold_pa` - manifold pressure, Pa
/// * `speed_ratio` - engine speed over rated speed [-]
/// * `air_k` - temperature of the air that the engine takes in, K
#[must_use]
pub fn share_at_best_power(manifold_pa: f64, speed_ratio: f64, air_k: f64) -> f64 {
    let filling = (manifold_pa - NO_POWER_PA) / (RATED_MANIFOLD_PA - NO_POWER_PA);
    speed_ratio * filling.max(0.0) * (TEMPERATURE_SL / air_k).sqrt()
}

/// Brake power, W, that a fuel flow gives at an equivalence ratio: the inverse of the charge air
/// and the fuel that a power needs.
///
/// # Arguments
/// * `fuel_kg_s` - fuel flow, kg/s
/// * `best_power_air_kg_j` - air per brake energy at best power and 8.5:1, kg/J
/// * `compression_ratio` - [-]
/// * `phi` - equivalence ratio [-]
#[must_use]
pub fn of_fuel_flow(
    fuel_kg_s: f64,
    best_power_air_kg_j: f64,
    compression_ratio: f64,
    phi: f64,
) -> f64 {
    let per_watt = mixture::fuel_flow(
        mixture::charge_air(1.0, best_power_air_kg_j, compression_ratio, phi),
        phi,
    );
    fuel_kg_s / per_watt
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rated_point_gives_rated_power_and_common_cruise_settings_their_usual_share() {
        let at = |inches, rpm| share_at_best_power(inhg(inches), rpm / 2700.0, TEMPERATURE_SL);
        assert!((at(28.8, 2700.0) - 1.0).abs() < 1e-12);
        // Common practice for engines of this speed: about 75 and 65 %.
        assert!((at(24.0, 2450.0) - 0.75).abs() < 0.03);
        assert!((at(22.0, 2400.0) - 0.65).abs() < 0.03);
        assert!(at(2.0, 1000.0).abs() < 1e-12);
        let warm = share_at_best_power(inhg(24.0), 0.9, TEMPERATURE_SL + 10.0 / 1.8);
        let cool = share_at_best_power(inhg(24.0), 0.9, TEMPERATURE_SL);
        assert!((warm / cool - 0.99).abs() < 0.001);
    }

    #[test]
    fn power_of_a_fuel_flow_is_the_inverse_of_the_fuel_flow_of_a_power() {
        for phi in [0.8, 1.0, 1.15, 1.5] {
            let air = 1.7e-6;
            let fuel = mixture::fuel_flow(mixture::charge_air(90e3, air, 8.5, phi), phi);
            assert!((of_fuel_flow(fuel, air, 8.5, phi) - 90e3).abs() < 1e-6);
        }
    }
}
