//! Heads: the two-conductance model, and the fins' resistance to flow.
//!
//! Heat flows from the combustion gas into the head and from the head into the cooling air (and
//! into the oil):
//!
//! ```text
//! G_gas (T_g − T_h) = G_fin (T_h − T_a) + G_ho (T_h − T_oil)
//! G_fin = W c_p (1 − exp(−N)),   N = N_r (W/W_r)^(b−1)
//! ```
//!
//! # Sources
//! The form is that of Schey & Pinkel, Effect of several factors on the cooling of a radial
//! engine in flight, NACA TN 584 (1936): published; written as two conductances: derived. The
//! fins' pressure drop uses the density behind them: Bell, Morgan, Disher, Mercer, NACA TN 1092
//! (1946), published.

use crate::air::atmosphere;
use crate::language::tr;
use crate::math::fast_power::fast_power;

/// Conductance from the fins to the air, W/K, with the second law kept at any flow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FinConductance {
    reference_flow_kg_s: f64,
    reference_units: f64,
    exponent: f64,
}

/// Why no conductance could be made.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CylinderError {
    /// The air behind the fins would be as hot as the head at the known point.
    #[error("{}", tr("its air flow is too small to carry its heat"))]
    FlowTooSmall {
        /// Conductance over heat capacity flow at the known point [-]; must be below about 0.78.
        effectiveness: f64,
    },
    /// The known point has temperatures out of order (air < head < gas; oil below head).
    #[error("{}", tr("air, oil, head and gas temperature must rise in this order"))]
    TemperatureOrder {
        /// Air, K.
        air_k: f64,
        /// Head, K.
        head_k: f64,
        /// Gas, K.
        gas_k: f64,
    },
}

/// Below this exponent more air would hardly take more heat at high flow: the known point has
/// too little air for its heat.
const EXPONENT_MIN: f64 = 0.05;

impl FinConductance {
    /// Conductance curve through a known point with a slope d ln G / d ln W there.
    ///
    /// # Arguments
    /// * `conductance_w_k` - G_r, W/K, at the known point
    /// * `flow_kg_s` - W_r, kg/s
    /// * `slope` - [-], 0.60 by NACA TN 584 (through T_h − T_a ∝ W^−0.39)
    ///
    /// # Errors
    /// [`CylinderError::FlowTooSmall`] unless 0 < G_r < about 0.78 W_r c_p.
    ///
    /// # Example
    /// 200 W/K at 0.5 kg/s; one that would heat its air to the head's own temperature is refused:
    /// ```
    /// use coolpath_core::engine::heads::{CylinderError, FinConductance};
    ///
    /// let fins = FinConductance::through(200.0, 0.5, 0.6)?;
    /// assert!((fins.at(0.5) - 200.0).abs() < 1e-9);
    /// // 600 of 0.5 · 1004.7 W/K
    /// assert!(FinConductance::through(600.0, 0.5, 0.6).is_err());
    /// # Ok::<(), CylinderError>(())
    /// ```
    pub fn through(
        conductance_w_k: f64,
        flow_kg_s: f64,
        slope: f64,
    ) -> Result<Self, CylinderError> {
        let effectiveness = conductance_w_k / (flow_kg_s * atmosphere::SPECIFIC_HEAT);
        if !(effectiveness > 0.0 && effectiveness < 0.999) {
            return Err(CylinderError::FlowTooSmall { effectiveness });
        }
        // N_r = −ln(1 − G_r/(W_r c_p))
        let n = -libm::log1p(-effectiveness);
        // b = 1 − (1 − slope)(1 − e^−N)/(N e^−N)
        let exponent = 1.0 - (1.0 - slope) * libm::expm1(n) / n;
        if exponent < EXPONENT_MIN {
            return Err(CylinderError::FlowTooSmall { effectiveness });
        }
        Ok(Self {
            reference_flow_kg_s: flow_kg_s,
            reference_units: n,
            exponent,
        })
    }

    /// Conductance, W/K, at a flow, kg/s (its sign does not matter).
    ///
    /// # Example
    /// One per cent more air takes about 0.6 per cent more heat, the slope that was asked for:
    /// ```
    /// use coolpath_core::engine::heads::{CylinderError, FinConductance};
    ///
    /// let fins = FinConductance::through(200.0, 0.5, 0.6)?;
    /// assert!((fins.at(0.505) / fins.at(0.5) - 1.006).abs() < 5e-5);
    /// assert_eq!(fins.at(0.0), 0.0);
    /// # Ok::<(), CylinderError>(())
    /// ```
    #[must_use]
    pub fn at(&self, flow_kg_s: f64) -> f64 {
        let w = flow_kg_s.abs();
        if w == 0.0 {
            return 0.0;
        }
        let units =
            self.reference_units * fast_power(w / self.reference_flow_kg_s, self.exponent - 1.0);
        // G = W c_p (1 − e^−N)
        -w * atmosphere::SPECIFIC_HEAT * libm::expm1(-units)
    }
}

impl FinConductance {
    /// Slope d ln G / d ln W at a flow, kg/s [-].
    ///
    /// # Example
    /// The slope through the known point is the one given:
    /// ```
    /// use coolpath_core::engine::heads::{CylinderError, FinConductance};
    ///
    /// let fins = FinConductance::through(200.0, 0.5, 0.6)?;
    /// assert!((fins.slope_at(0.5) - 0.6).abs() < 1e-12);
    /// # Ok::<(), CylinderError>(())
    /// ```
    #[must_use]
    pub fn slope_at(&self, flow_kg_s: f64) -> f64 {
        let w = flow_kg_s.abs();
        if w == 0.0 {
            return 1.0;
        }
        let units =
            self.reference_units * fast_power(w / self.reference_flow_kg_s, self.exponent - 1.0);
        // 1 + (b − 1) N e^−N / (1 − e^−N)
        1.0 + (self.exponent - 1.0) * units / libm::expm1(units)
    }
}

/// Pressure drop across the fins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FinResistance {
    /// C in σΔp = C Wⁿ, Pa/(kg/s)ⁿ, σ of the density behind the fins.
    pub constant: f64,
    /// n [-].
    pub exponent: f64,
}

impl FinResistance {
    /// Resistance through one point: σΔp, Pa, at a flow, kg/s.
    ///
    /// # Example
    /// 1000 Pa at 1 kg/s and an exponent of 2: 4000 Pa at 2 kg/s:
    /// ```
    /// use coolpath_core::engine::heads::FinResistance;
    ///
    /// let fins = FinResistance::through(1000.0, 1.0, 2.0);
    /// assert!((fins.sigma_drop(2.0) - 4000.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn through(sigma_drop_pa: f64, flow_kg_s: f64, exponent: f64) -> Self {
        Self {
            constant: sigma_drop_pa / fast_power(flow_kg_s, exponent),
            exponent,
        }
    }

    /// Pressure drop, Pa, at a flow, kg/s, with a density behind the fins, kg/m³.
    ///
    /// # Example
    /// In air of half the standard density the drop doubles:
    /// ```
    /// use coolpath_core::air::atmosphere::DENSITY_SL;
    /// use coolpath_core::engine::heads::FinResistance;
    ///
    /// let fins = FinResistance { constant: 1000.0, exponent: 2.0 };
    /// assert!((fins.drop(1.0, 0.5 * DENSITY_SL) - 2000.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn drop(&self, flow_kg_s: f64, density_behind: f64) -> f64 {
        // Δp = C Wⁿ / σ
        self.sigma_drop(flow_kg_s) * atmosphere::DENSITY_SL / density_behind
    }

    /// σΔp, Pa, at a flow, kg/s, with σ of the density behind the fins.
    ///
    /// # Example
    /// C Wⁿ, whichever way the air goes: 1000 · 0.25:
    /// ```
    /// use coolpath_core::engine::heads::FinResistance;
    ///
    /// let fins = FinResistance { constant: 1000.0, exponent: 2.0 };
    /// assert!((fins.sigma_drop(-0.5) - 250.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn sigma_drop(&self, flow_kg_s: f64) -> f64 {
        self.constant * fast_power(flow_kg_s.abs(), self.exponent)
    }
}

/// All heat paths of the heads in one condition.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heads {
    /// Conductance gas → head, W/K.
    pub gas_w_k: f64,
    /// Effective gas temperature, K.
    pub gas_k: f64,
    /// Conductance head → oil, W/K.
    pub oil_w_k: f64,
    /// Conductance fins → air.
    pub fins: FinConductance,
}

impl Heads {
    /// Mean head temperature, K.
    ///
    /// # Example
    /// (100 · 900 + 200 · 300 + 20 · 360)/320 K:
    /// ```
    /// use coolpath_core::engine::heads::{CylinderError, FinConductance, Heads};
    ///
    /// let heads = Heads {
    ///     gas_w_k: 100.0,
    ///     gas_k: 900.0,
    ///     oil_w_k: 20.0,
    ///     fins: FinConductance::through(200.0, 0.5, 0.6)?,
    /// };
    /// assert!((heads.temperature(0.5, 300.0, 360.0) - 157_200.0 / 320.0).abs() < 1e-9);
    /// # Ok::<(), CylinderError>(())
    /// ```
    #[must_use]
    pub fn temperature(&self, flow_kg_s: f64, air_k: f64, oil_k: f64) -> f64 {
        self.temperature_with(self.fins.at(flow_kg_s), 0.0, air_k, oil_k)
    }

    /// Head temperature, K, of a cylinder whose fins have a conductance `fin_w_k`, W/K, and whose
    /// gas is `gas_shift_k` hotter than the mean.
    ///
    /// # Example
    /// Gas 30 K hotter, through 100 of 300 W/K, makes a head 10 K hotter:
    /// ```
    /// use coolpath_core::engine::heads::{CylinderError, FinConductance, Heads};
    ///
    /// let heads = Heads {
    ///     gas_w_k: 100.0,
    ///     gas_k: 900.0,
    ///     oil_w_k: 0.0,
    ///     fins: FinConductance::through(200.0, 0.5, 0.6)?,
    /// };
    /// let head = |shift_k| heads.temperature_with(200.0, shift_k, 300.0, 360.0);
    /// assert!((head(30.0) - head(0.0) - 10.0).abs() < 1e-9);
    /// # Ok::<(), CylinderError>(())
    /// ```
    #[must_use]
    pub fn temperature_with(&self, fin_w_k: f64, gas_shift_k: f64, air_k: f64, oil_k: f64) -> f64 {
        // T_h = (G_gas T_g + G_fin T_a + G_ho T_oil) / (G_gas + G_fin + G_ho)
        (self.gas_w_k * (self.gas_k + gas_shift_k) + fin_w_k * air_k + self.oil_w_k * oil_k)
            / (self.gas_w_k + fin_w_k + self.oil_w_k)
    }
}
