//! Cylinders one by one: how far the hottest stands above the mean.
//!
//! All cylinders see the same two decks. Cylinder i takes the share a_i of the mean air, burns
//! φ (1 + δ_i) with the same charge air, and its probe reads off by an offset. Before the cylinders of
//! an engine are known, none can be named: what is known is the spread of each, and so how far the
//! largest of N readings lies above their mean on average.
//!
//! # Sources
//! Mean and standard deviation of the largest of N normal numbers: published tables of order
//! statistics (from memory, checked by sampling in the tests).

use crate::engine::heads::Heads;
use crate::engine::mixture::{gas_slope, gas_temperature};

/// Mean of the largest of N standard normal numbers, N = 1 … 8 [-].
const LARGEST: [f64; 8] = [0.0, 0.5642, 0.8463, 1.0294, 1.1630, 1.2672, 1.3522, 1.4236];
/// Standard deviation of the largest of N standard normal numbers [-].
const LARGEST_SPREAD: [f64; 8] = [1.0, 0.8256, 0.7480, 0.7012, 0.6690, 0.6449, 0.6260, 0.6107];

/// How much cylinders differ: one standard deviation each.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spreads {
    /// Of a cylinder's air over the mean's [-].
    pub air: f64,
    /// Of a cylinder's mixture over the mean's [-].
    pub fuel: f64,
    /// Of what a probe reads off, K.
    pub probe_k: f64,
}

/// What a head does when its air or its fuel changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slopes {
    /// K per unit of ln air.
    pub air_k: f64,
    /// K per unit of ln mixture at constant charge air.
    pub fuel_k: f64,
}

/// How the head answers to its own air and fuel in a state.
///
/// # Arguments
/// * `flow_kg_s` - air through all fins, kg/s
/// * `phi` - equivalence ratio [-]
/// * `air_k`, `head_k` - air before the fins and mean head, K
///
/// # Example
/// Fins of 200 and gas of 100 W/K: 0.6 · 200 · (300 − 450)/300 = −60 K. Between φ 1.2 and 1.3 the gas
/// falls from 1152 to 1105 °F, 470 °F a unit: 100 · 1.25 · (−470/1.8)/300 K:
/// ```
/// use coolpath_core::engine::cylinders::slopes;
/// use coolpath_core::engine::heads::{CylinderError, FinConductance, Heads};
///
/// let heads = Heads {
///     gas_w_k: 100.0,
///     gas_k: 900.0,
///     oil_w_k: 0.0,
///     fins: FinConductance::through(200.0, 0.5, 0.6)?,
/// };
/// let found = slopes(&heads, 0.5, 1.25, 300.0, 450.0);
/// assert!((found.air_k + 60.0).abs() < 1e-9);
/// assert!((found.fuel_k + 100.0 * 1.25 * 470.0 / 1.8 / 300.0).abs() < 1e-9);
/// # Ok::<(), CylinderError>(())
/// ```
#[must_use]
pub fn slopes(heads: &Heads, flow_kg_s: f64, phi: f64, air_k: f64, head_k: f64) -> Slopes {
    let fin = heads.fins.at(flow_kg_s);
    let sum = heads.gas_w_k + fin + heads.oil_w_k;
    Slopes {
        // dT/d ln W = (d ln G/d ln W) G_fin (T_a − T_h) / ΣG
        air_k: heads.fins.slope_at(flow_kg_s) * fin * (air_k - head_k) / sum,
        // dT/d ln φ = G_gas φ T_g'(φ) / ΣG
        fuel_k: heads.gas_w_k * phi * gas_slope(phi) / sum,
    }
}

/// Hottest reading above the mean of the readings, K, of cylinders that are not known one by one.
///
/// # Arguments
/// * `deviation` - how many standard deviations more uneven than the average engine [-]
///
/// # Example
/// 3 K from the air and 4 K from the fuel are 5 K together; the largest of four normal numbers lies
/// 1.0294 deviations above their mean (tables of order statistics):
/// ```
/// use coolpath_core::engine::cylinders::{Slopes, Spreads, excess_k};
///
/// let slopes = Slopes { air_k: -60.0, fuel_k: -40.0 };
/// let spreads = Spreads { air: 0.05, fuel: 0.1, probe_k: 0.0 };
/// assert!((excess_k(&slopes, &spreads, 4, 0.0) - 5.0 * 1.0294).abs() < 1e-9);
/// ```
#[must_use]
pub fn excess_k(slopes: &Slopes, spreads: &Spreads, cylinders: u8, deviation: f64) -> f64 {
    let place = usize::from(cylinders.clamp(1, 8)) - 1;
    let sigma = deviation_k(slopes, spreads);
    // Largest minus mean: var = var(largest) − 1/N
    let count = place as f64 + 1.0;
    let own = LARGEST_SPREAD[place] * LARGEST_SPREAD[place] - 1.0 / count;
    (sigma * (LARGEST[place] + deviation * libm::sqrt(own.max(0.0)))).max(0.0)
}

/// Standard deviation of one reading about the mean's, K, of cylinders that are not known one by one.
///
/// # Example
/// 3 K from the air, 4 K from the fuel and 12 K of the probe are 13 K together:
/// ```
/// use coolpath_core::engine::cylinders::{Slopes, Spreads, deviation_k};
///
/// let slopes = Slopes { air_k: -60.0, fuel_k: -40.0 };
/// let spreads = Spreads { air: 0.05, fuel: 0.1, probe_k: 12.0 };
/// assert!((deviation_k(&slopes, &spreads) - 13.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn deviation_k(slopes: &Slopes, spreads: &Spreads) -> f64 {
    // σ² = (s_a σ_a)² + (s_φ σ_φ)² + σ_probe²
    libm::sqrt(
        (slopes.air_k * spreads.air) * (slopes.air_k * spreads.air)
            + (slopes.fuel_k * spreads.fuel) * (slopes.fuel_k * spreads.fuel)
            + spreads.probe_k * spreads.probe_k,
    )
}

/// One cylinder as it was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OneCylinder {
    /// Its air over the mean's [-].
    pub air: f64,
    /// Its mixture over the mean's, less one [-].
    pub fuel: f64,
    /// What its probe reads above the head, K.
    pub probe_k: f64,
}

/// Temperature, K, of one cylinder's head, without its probe's offset.
///
/// # Arguments
/// * `flow_kg_s` - air through all fins, kg/s
/// * `phi` - mean equivalence ratio [-]
/// * `air_k`, `oil_k` - air before the fins and hot oil, K
///
/// # Example
/// From φ 1.2 to 1.3 the gas falls by 47 °F; of 100 in 300 W/K a third of that comes through:
/// ```
/// use coolpath_core::engine::cylinders::{OneCylinder, head_of};
/// use coolpath_core::engine::heads::{CylinderError, FinConductance, Heads};
///
/// let heads = Heads {
///     gas_w_k: 100.0,
///     gas_k: 900.0,
///     oil_w_k: 0.0,
///     fins: FinConductance::through(200.0, 0.5, 0.6)?,
/// };
/// let mean = OneCylinder { air: 1.0, fuel: 0.0, probe_k: 0.0 };
/// let rich = OneCylinder { fuel: 0.1 / 1.2, ..mean };
/// let head = |own: &OneCylinder| head_of(&heads, own, 0.5, 1.2, 300.0, 360.0);
/// // (100 · 900 + 200 · 300)/300
/// assert!((head(&mean) - 500.0).abs() < 1e-9);
/// assert!((head(&mean) - head(&rich) - 47.0 / 1.8 / 3.0).abs() < 1e-9);
/// # Ok::<(), CylinderError>(())
/// ```
#[must_use]
pub fn head_of(
    heads: &Heads,
    own: &OneCylinder,
    flow_kg_s: f64,
    phi: f64,
    air_k: f64,
    oil_k: f64,
) -> f64 {
    let fin = heads.fins.at(own.air * flow_kg_s);
    let shift = gas_temperature(phi * (1.0 + own.fuel)) - gas_temperature(phi);
    heads.temperature_with(fin, shift, air_k, oil_k)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::normal::normal_quantile;

    #[test]
    fn the_largest_of_n_lies_where_sampling_has_it() {
        let mut random = fastrand::Rng::with_seed(4);
        let mut normal = || normal_quantile(random.f64());
        let slopes = Slopes {
            air_k: 0.0,
            fuel_k: 0.0,
        };
        let spreads = Spreads {
            air: 0.0,
            fuel: 0.0,
            probe_k: 1.0,
        };
        for count in [2_u8, 4, 6, 8] {
            let (mut sum, mut squares) = (0.0, 0.0);
            let tries = 20_000;
            for _ in 0..tries {
                let all: Vec<f64> = (0..count).map(|_| normal()).collect();
                let mean = all.iter().sum::<f64>() / f64::from(count);
                let most = all.iter().fold(f64::MIN, |a, &b| a.max(b)) - mean;
                sum += most;
                squares += most * most;
            }
            let mean = sum / f64::from(tries);
            let spread = (squares / f64::from(tries) - mean * mean).sqrt();
            let expected = excess_k(&slopes, &spreads, count, 0.0);
            assert!((mean - expected).abs() < 0.02, "{count}: {mean} {expected}");
            let wide = excess_k(&slopes, &spreads, count, 1.0) - expected;
            assert!((spread - wide).abs() < 0.02, "{count}: {spread} {wide}");
        }
    }
}
