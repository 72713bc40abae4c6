//! Breathing: the charge air that an engine takes in, from manifold pressure and speed.
//!
//! ```text
//! W = a P_r (p_m/p_m,r) (n/n_r) (T_r/T₀)^x        air first, then fuel, then power
//! P_best = P_r (n/n_r) (p_m − p_f)/(p_m,r − p_f) √(T_r/T₀)
//! ```
//!
//! A share of power without a manifold pressure is turned into one by the second line, so that a
//! share and a pressure noted in the same flight give the same air. Air never follows from power
//! over relative power, which runs away at rich mixtures. Manifold pressure already holds the ram.
//!
//! # Sources
//! Rated manifold pressure 28.8 inHg and no power at 4 inHg (friction and residual gas): from memory,
//! common shape of an operator's chart; about ±8 %. 24 inHg at 2400 of 2700 rpm gives 72 %. The
//! exponent of temperature is an input: 0.5 is usual practice, the open logs of one six fit
//! 1.1 ± 0.1. Air per rated power: derived from the same logs and a trainer's.

use crate::air::atmosphere::{DENSITY_SL, TEMPERATURE_SL};
use crate::engine::mixture::otto_efficiency;
use crate::units::si::inhg;

/// Manifold pressure at rated power, Pa.
pub const RATED_MANIFOLD_PA: f64 = inhg(28.8);
/// Manifold pressure at which the line of power reaches none, Pa.
const NO_POWER_PA: f64 = inhg(4.0);
/// Compression ratio at which the air consumption is stated [-].
const REFERENCE_COMPRESSION: f64 = 8.5;

/// Air of an engine without supercharger at rated power over what its cylinders sweep at sea level [-], between which
/// rated power, speed, displacement and air consumption fit together (common practice, widened for what is known of
/// the air consumption).
pub const FILLING: (f64, f64) = (0.75, 1.20);

/// Air at sea level, kg/s, that the cylinders of a four-stroke sweep.
///
/// # Arguments
/// * `displacement_m3` - of all cylinders, m³
/// * `rpm` - engine speed, 1/min
///
/// # Example
/// 5.9 L at 2700 rpm, filled at every other turn with air of 1.225 kg/m³, a number of four digits:
/// ```
/// use coolpath_core::engine::breathing::swept_air;
///
/// let swept_m3_s = 0.0059 * 22.5;
/// assert!((swept_air(0.0059, 2700.0) / swept_m3_s - 1.225).abs() < 0.0005);
/// ```
#[must_use]
pub fn swept_air(displacement_m3: f64, rpm: f64) -> f64 {
    // W = ρ₀ V/2 n/60
    DENSITY_SL * displacement_m3 / 2.0 * rpm / 60.0
}

/// How an engine breathes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Breathing {
    /// Rated power, W.
    pub rated_w: f64,
    /// Air per brake energy at best power and 8.5:1, kg/J.
    pub air_kg_j: f64,
    /// Compression ratio [-]; air consumption falls as the Otto efficiency rises.
    pub compression_ratio: f64,
    /// Exponent of temperature in the charge air [-].
    pub temperature_exponent: f64,
}

impl Breathing {
    /// Charge air at rated power on a standard day at sea level, kg/s.
    ///
    /// # Example
    /// ```
    /// use coolpath_core::engine::breathing::Breathing;
    /// use coolpath_core::units::si::{hp, lb_hp_h, lb_s};
    /// let engine = Breathing {
    ///     rated_w: hp(180.0),
    ///     air_kg_j: lb_hp_h(6.2),
    ///     compression_ratio: 8.5,
    ///     temperature_exponent: 0.8,
    /// };
    /// assert!((engine.rated_air() - lb_s(180.0 * 6.2 / 3600.0)).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn rated_air(&self) -> f64 {
        // W_r = a P_r η₈.₅/η_r
        self.air_kg_j * self.rated_w * otto_efficiency(REFERENCE_COMPRESSION)
            / otto_efficiency(self.compression_ratio)
    }

    /// Charge air, kg/s.
    ///
    /// # Arguments
    /// * `manifold_pa` - manifold pressure, Pa
    /// * `speed_ratio` - engine speed over rated speed [-]
    /// * `air_k` - total temperature of the outside air, K
    ///
    /// # Example
    /// The rated air with the rated pressure and speed on a standard day; half of it with half the
    /// pressure, and half again in air four times as hot, by its square root:
    /// ```
    /// use coolpath_core::engine::breathing::{Breathing, RATED_MANIFOLD_PA};
    ///
    /// let engine = Breathing {
    ///     rated_w: 100e3,
    ///     air_kg_j: 1e-6,
    ///     compression_ratio: 8.5,
    ///     temperature_exponent: 0.5,
    /// };
    /// assert!((engine.charge_air(RATED_MANIFOLD_PA, 1.0, 288.15) - 0.1).abs() < 1e-12);
    /// assert!((engine.charge_air(0.5 * RATED_MANIFOLD_PA, 1.0, 288.15) - 0.05).abs() < 1e-12);
    /// assert!((engine.charge_air(0.5 * RATED_MANIFOLD_PA, 1.0, 4.0 * 288.15) - 0.025).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn charge_air(&self, manifold_pa: f64, speed_ratio: f64, air_k: f64) -> f64 {
        // W = W_r (p_m/p_m,r) (n/n_r) (T_r/T₀)^x
        self.rated_air()
            * (manifold_pa / RATED_MANIFOLD_PA)
            * speed_ratio
            * libm::pow(TEMPERATURE_SL / air_k, self.temperature_exponent)
    }

    /// Manifold pressure, Pa, that gives a charge air flow, kg/s.
    ///
    /// # Example
    /// 0.09 of 0.1 kg/s at the rated speed takes 0.9 of the rated pressure:
    /// ```
    /// use coolpath_core::engine::breathing::{Breathing, RATED_MANIFOLD_PA};
    ///
    /// let engine = Breathing {
    ///     rated_w: 100e3,
    ///     air_kg_j: 1e-6,
    ///     compression_ratio: 8.5,
    ///     temperature_exponent: 1.0,
    /// };
    /// let pressure = engine.manifold_of_air(0.09, 1.0, 288.15);
    /// assert!((pressure - 0.9 * RATED_MANIFOLD_PA).abs() < 1e-6);
    /// ```
    #[must_use]
    pub fn manifold_of_air(&self, charge_kg_s: f64, speed_ratio: f64, air_k: f64) -> f64 {
        let at_rated = self.charge_air(RATED_MANIFOLD_PA, speed_ratio, air_k);
        RATED_MANIFOLD_PA * charge_kg_s / at_rated
    }
}

/// Share of rated power [-] at best-power mixture, from manifold pressure and speed.
///
/// # Arguments
/// * `manifold_pa` - manifold pressure, Pa
/// * `speed_ratio` - engine speed over rated speed [-]
/// * `air_k` - total temperature of the outside air, K
///
/// # Example
/// ```
/// use coolpath_core::engine::breathing::share_at_best_power;
/// use coolpath_core::units::si::inhg;
/// assert!((share_at_best_power(inhg(24.0), 2400.0 / 2700.0, 288.15) - 0.717).abs() < 1e-3);
/// ```
#[must_use]
pub fn share_at_best_power(manifold_pa: f64, speed_ratio: f64, air_k: f64) -> f64 {
    let filling = (manifold_pa - NO_POWER_PA) / (RATED_MANIFOLD_PA - NO_POWER_PA);
    speed_ratio * filling.max(0.0) * (TEMPERATURE_SL / air_k).sqrt()
}

/// Manifold pressure, Pa, at which an engine gives a share of its rated power at best-power
/// mixture: the inverse of [`share_at_best_power`].
///
/// # Example
/// Half the power at the rated speed: midway between 4 inHg, which give none, and 28.8 inHg:
/// ```
/// use coolpath_core::engine::breathing::manifold_of_share;
/// use coolpath_core::units::si::inhg;
///
/// assert!((manifold_of_share(0.5, 1.0, 288.15) - inhg(16.4)).abs() < 1e-6);
/// ```
#[must_use]
pub fn manifold_of_share(share: f64, speed_ratio: f64, air_k: f64) -> f64 {
    let filling = share / (speed_ratio * (TEMPERATURE_SL / air_k).sqrt());
    NO_POWER_PA + filling * (RATED_MANIFOLD_PA - NO_POWER_PA)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::{hp, lb_hp_h};

    const SIX: Breathing = Breathing {
        rated_w: hp(310.0),
        air_kg_j: lb_hp_h(6.2),
        compression_ratio: 8.5,
        temperature_exponent: 0.8,
    };

    #[test]
    fn rated_point_gives_rated_power_and_common_cruise_settings_their_usual_share() {
        let at = |inches, rpm| share_at_best_power(inhg(inches), rpm / 2700.0, TEMPERATURE_SL);
        assert!((at(28.8, 2700.0) - 1.0).abs() < 1e-12);
        // Common practice for engines of this speed: about 75 and 65 %.
        assert!((at(24.0, 2450.0) - 0.75).abs() < 0.03);
        assert!((at(22.0, 2400.0) - 0.65).abs() < 0.03);
        assert!(at(2.0, 1000.0).abs() < 1e-12);
    }

    #[test]
    fn a_share_and_a_manifold_pressure_of_the_same_flight_give_the_same_air() {
        for (inches, speed, air_k) in [(28.0, 1.0, 310.0), (22.5, 0.85, 280.0), (9.0, 0.4, 300.0)] {
            let share = share_at_best_power(inhg(inches), speed, air_k);
            let back = manifold_of_share(share, speed, air_k);
            assert!((back - inhg(inches)).abs() < 1e-6);
            let air = SIX.charge_air(back, speed, air_k);
            assert!((SIX.manifold_of_air(air, speed, air_k) - back).abs() < 1e-6);
        }
    }

    #[test]
    fn an_idling_engine_takes_more_air_than_its_share_of_power() {
        // About 0.11 of the rated air at 1000 rpm (derived from open logs).
        let idle = SIX.charge_air(
            manifold_of_share(0.05, 1000.0 / 2700.0, TEMPERATURE_SL),
            1000.0 / 2700.0,
            TEMPERATURE_SL,
        );
        let share = idle / SIX.rated_air();
        assert!((0.08..0.14).contains(&share), "{share}");
    }
}
