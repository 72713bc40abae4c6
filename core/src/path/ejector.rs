//! An augmentor: exhaust gas blown into a mixing tube draws cooling air along.
//!
//! Gas (p) leaves its stacks into the mouth of a tube of one width, the deck's air (s) comes in
//! round them, and both leave mixed (2). Momentum over the tube, with the pressure p₁ common to both
//! streams at its mouth and friction on its wall:
//!
//! ```text
//! p₁ + (β W_p² v_p/A_p + W_s² v_s/A_s)/A = p₂ + k (W_p + W_s)(W_p v_p + W_s v_s)/A²
//! p₁ = P − W_s² v_s/(2 C_d² A_s²),   A = A_s + A_p,   k = 1 + ½ f L/D
//! ```
//!
//! v is specific volume, β the mean square over the squared mean of the gas's pulsing flow. Mixed
//! volumes add, since W T does. For W_s this is a quadratic with one root that is not negative while the
//! deck stands above the pressure at which nothing flows.
//!
//! # Sources
//! Constant-area mixing: textbook. Pulses and wall friction from memory, with ranges. Both streams
//! count as incompressible.

use crate::air::atmosphere;

/// Stacks and mixing tube; what is drawn comes in by the annulus between them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ejector {
    /// Exhaust gas, kg/s.
    pub gas_kg_s: f64,
    /// Its specific volume, m³/kg.
    pub gas_m3_kg: f64,
    /// Area of the stacks' ends, m².
    pub stacks_m2: f64,
    /// β \[-\], 1 for a steady jet.
    pub pulses: f64,
    /// k − 1 = ½ f L/D \[-\].
    pub wall_loss: f64,
}

impl Ejector {
    /// Momentum of the gas as it leaves the stacks, N.
    fn thrust_n(&self) -> f64 {
        self.pulses * self.gas_kg_s * self.gas_kg_s * self.gas_m3_kg / self.stacks_m2
    }

    /// Pressure, Pa, by which the deck may stand below the outside before air runs backward.
    ///
    /// # Arguments
    /// * `mouth_m2` - area of the annulus
    ///
    /// # Example
    /// 0.1 kg/s of gas of 2.5 m³/kg from 0.0025 m² into a tube of 0.01 m² without friction:
    /// 0.01 · 2.5 (1/0.0025 − 1/0.01)/0.01 Pa:
    /// ```
    /// use coolpath_core::path::ejector::Ejector;
    ///
    /// let ejector = Ejector {
    ///     gas_kg_s: 0.1,
    ///     gas_m3_kg: 2.5,
    ///     stacks_m2: 0.0025,
    ///     pulses: 1.0,
    ///     wall_loss: 0.0,
    /// };
    /// assert!((ejector.suction_pa(0.0075) - 750.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn suction_pa(&self, mouth_m2: f64) -> f64 {
        let tube_m2 = mouth_m2 + self.stacks_m2;
        let mixed = (1.0 + self.wall_loss) * self.gas_kg_s * self.gas_kg_s * self.gas_m3_kg;
        (self.thrust_n() - mixed / tube_m2) / tube_m2
    }

    /// Air drawn, kg/s, where the deck's total pressure stands so far above the one at which nothing
    /// flows.
    ///
    /// # Arguments
    /// * `above_pa` - that difference, Pa, not negative
    /// * `mouth_m2` - area of the annulus
    /// * `discharge` - C_d of the mouth \[-\]
    /// * `air_m3_kg` - specific volume of the deck's air, m³/kg
    ///
    /// # Example
    /// Without gas it is a nozzle into a tube: C_d A √(2 Δp/v):
    /// ```
    /// use coolpath_core::path::ejector::Ejector;
    ///
    /// let idle = Ejector {
    ///     gas_kg_s: 0.0,
    ///     gas_m3_kg: 2.5,
    ///     stacks_m2: 1e-12,
    ///     pulses: 1.0,
    ///     wall_loss: 0.0,
    /// };
    /// let plain = 0.8 * 0.01 * (2.0_f64 * 500.0 / 0.9).sqrt();
    /// assert!((idle.drawn(500.0, 0.01, 0.8, 0.9) - plain).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn drawn(&self, above_pa: f64, mouth_m2: f64, discharge: f64, air_m3_kg: f64) -> f64 {
        let tube_m2 = mouth_m2 + self.stacks_m2;
        let k = 1.0 + self.wall_loss;
        // a W² + b W = Δp
        let mouth = 0.5 / (discharge * discharge * mouth_m2 * mouth_m2);
        let a = air_m3_kg * (mouth - 1.0 / (mouth_m2 * tube_m2) + k / (tube_m2 * tube_m2));
        let b = k * self.gas_kg_s * (self.gas_m3_kg + air_m3_kg) / (tube_m2 * tube_m2);
        // The root in the form that loses no figures where b is large.
        2.0 * above_pa / (b + (b * b + 4.0 * a * above_pa).sqrt())
    }

    /// Temperature of the mixed streams, K; that of the gas where no air is drawn.
    ///
    /// # Arguments
    /// * `drawn_kg_s`, `air_k` - air drawn, and its temperature
    /// * `outside_pa` - static pressure at which the gas has its volume, Pa absolute
    ///
    /// # Example
    /// Equal streams of 900 K and 300 K leave at 600 K:
    /// ```
    /// use coolpath_core::air::atmosphere::density;
    /// use coolpath_core::path::ejector::Ejector;
    ///
    /// let ejector = Ejector {
    ///     gas_kg_s: 0.1,
    ///     gas_m3_kg: 1.0 / density(90_000.0, 900.0),
    ///     stacks_m2: 0.0025,
    ///     pulses: 1.0,
    ///     wall_loss: 0.0,
    /// };
    /// assert!((ejector.mixed_k(0.1, 300.0, 90_000.0) - 600.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn mixed_k(&self, drawn_kg_s: f64, air_k: f64, outside_pa: f64) -> f64 {
        let gas_k = outside_pa * self.gas_m3_kg / atmosphere::GAS_CONSTANT;
        let drawn = drawn_kg_s.max(0.0);
        (self.gas_kg_s * gas_k + drawn * air_k) / (self.gas_kg_s + drawn)
    }

    /// Momentum of the mixed jet beyond what the gas alone has, N.
    ///
    /// # Arguments
    /// * `drawn_kg_s` - air drawn
    /// * `mouth_m2` - area of the annulus
    /// * `air_m3_kg` - specific volume of the deck's air
    ///
    /// # Example
    /// Equal streams of one density in a tube of four times the stacks: they leave as 0.2² · 1/0.01 N,
    /// and the gas alone had 0.1²/0.0025 N:
    /// ```
    /// use coolpath_core::path::ejector::Ejector;
    ///
    /// let ejector = Ejector {
    ///     gas_kg_s: 0.1,
    ///     gas_m3_kg: 1.0,
    ///     stacks_m2: 0.0025,
    ///     pulses: 1.0,
    ///     wall_loss: 0.0,
    /// };
    /// let gained = ejector.added_momentum_n(0.1, 0.0075, 1.0);
    /// assert!((gained - (0.2 * 0.2 / 0.01 - 4.0)).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn added_momentum_n(&self, drawn_kg_s: f64, mouth_m2: f64, air_m3_kg: f64) -> f64 {
        let tube_m2 = mouth_m2 + self.stacks_m2;
        // V₂ = (W_p v_p + W_s v_s)/A
        let speed = (self.gas_kg_s * self.gas_m3_kg + drawn_kg_s * air_m3_kg) / tube_m2;
        (self.gas_kg_s + drawn_kg_s) * speed - self.thrust_n()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const EJECTOR: Ejector = Ejector {
        gas_kg_s: 0.06,
        gas_m3_kg: 2.8,
        stacks_m2: 0.003,
        pulses: 1.2,
        wall_loss: 0.08,
    };
    const MOUTH_M2: f64 = 0.008;
    const AIR_M3_KG: f64 = 1.0;

    /// Momentum left over in the tube, Pa, from the streams one by one.
    fn left_over(deck_over_outside_pa: f64, drawn_kg_s: f64) -> f64 {
        let tube_m2 = MOUTH_M2 + EJECTOR.stacks_m2;
        let air_speed = drawn_kg_s * AIR_M3_KG / MOUTH_M2;
        let mouth_pa = deck_over_outside_pa - 0.5 * air_speed * air_speed / AIR_M3_KG / 0.81;
        let gas_speed = EJECTOR.gas_kg_s * EJECTOR.gas_m3_kg / EJECTOR.stacks_m2;
        let entering = EJECTOR.pulses * EJECTOR.gas_kg_s * gas_speed + drawn_kg_s * air_speed;
        let mass = EJECTOR.gas_kg_s + drawn_kg_s;
        let volume = (EJECTOR.gas_kg_s * EJECTOR.gas_m3_kg + drawn_kg_s * AIR_M3_KG) / mass;
        let mixed_speed = mass * volume / tube_m2;
        let wall_pa = EJECTOR.wall_loss * mixed_speed * mixed_speed / volume;
        mouth_pa + entering / tube_m2 - mass * mixed_speed / tube_m2 - wall_pa
    }

    #[test]
    fn what_is_drawn_closes_the_momentum_of_the_tube() {
        let suction_pa = EJECTOR.suction_pa(MOUTH_M2);
        assert!(suction_pa > 200.0);
        for above_pa in [1e-6, 10.0, suction_pa, 3.0 * suction_pa] {
            let drawn = EJECTOR.drawn(above_pa, MOUTH_M2, 0.9, AIR_M3_KG);
            let rest = left_over(above_pa - suction_pa, drawn);
            assert!(rest.abs() < 1e-9 * suction_pa, "{above_pa}: {drawn} {rest}");
        }
    }

    #[test]
    fn more_gas_draws_more_air_and_a_wall_takes_from_it() {
        let at = |ejector: Ejector| {
            let above = 300.0 + ejector.suction_pa(MOUTH_M2);
            ejector.drawn(above, MOUTH_M2, 0.9, AIR_M3_KG)
        };
        let more = Ejector {
            gas_kg_s: 0.09,
            ..EJECTOR
        };
        let rough = Ejector {
            wall_loss: 0.2,
            ..EJECTOR
        };
        assert!(at(more) > at(EJECTOR) && at(EJECTOR) > at(rough));
    }

    #[test]
    fn unequal_streams_mix_by_their_flows() {
        let outside_pa = 80_000.0;
        let ejector = Ejector {
            gas_m3_kg: atmosphere::GAS_CONSTANT * 900.0 / outside_pa,
            ..EJECTOR
        };
        // (0.06 · 900 + 0.18 · 300)/0.24
        assert!((ejector.mixed_k(0.18, 300.0, outside_pa) - 450.0).abs() < 1e-9);
        // Air that runs backward is not part of the jet.
        assert!((ejector.mixed_k(-0.18, 300.0, outside_pa) - 900.0).abs() < 1e-9);
    }

    #[test]
    fn the_mixed_jet_gains_what_it_has_beyond_the_pulsing_gas() {
        let ejector = Ejector {
            gas_kg_s: 0.1,
            gas_m3_kg: 2.5,
            stacks_m2: 0.0025,
            pulses: 1.2,
            wall_loss: 0.1,
        };
        // 0.25 + 0.27 m³/s leave 0.01 m² at 52 m/s; the gas alone had 1.2 · 0.1 kg/s · 100 m/s.
        let gained = ejector.added_momentum_n(0.3, 0.0075, 0.9);
        assert!((gained - (0.4 * 52.0 - 12.0)).abs() < 1e-12);
    }

    #[test]
    fn equal_densities_reach_what_jet_pumps_reach_and_no_more() {
        // Power given to what is drawn over power lost by the jet: theory of liquid jet pumps without
        // a diffuser stays below a half; real ones reach a quarter to a third (from memory).
        let mut best = 0.0_f64;
        for share in [0.15, 0.2, 0.25, 0.3, 0.4] {
            let tube_m2 = 0.01;
            let ejector = Ejector {
                gas_kg_s: 0.1,
                gas_m3_kg: 1.0,
                stacks_m2: share * tube_m2,
                pulses: 1.0,
                wall_loss: 0.05,
            };
            let mouth_m2 = tube_m2 - ejector.stacks_m2;
            let suction = ejector.suction_pa(mouth_m2);
            for step in 1..40 {
                let lifted_pa = suction * f64::from(step) / 40.0;
                let drawn = ejector.drawn(suction - lifted_pa, mouth_m2, 0.95, 1.0);
                let jet = 0.1 / ejector.stacks_m2;
                let given = drawn * lifted_pa;
                let spent = 0.1 * (0.5 * jet * jet - lifted_pa);
                best = best.max(given / spent);
            }
        }
        assert!(best > 0.15 && best < 0.5, "{best}");
    }
}
