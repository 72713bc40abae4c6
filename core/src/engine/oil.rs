//! Oil as a fluid: viscosity, density, specific heat.
//!
//! # Sources
//! ASTM D341 two-point viscosity; Cragoe's relations for specific heat and conductivity
//! (`reference/oil`, library). The viscosities that define each grade are typical values from
//! memory; a maker's data sheet is better.

use crate::language::tr;

/// Kinematic viscosity of an oil from two known points (ASTM D341).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Viscosity {
    a: f64,
    b: f64,
}

/// Why two viscosities do not define an oil.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ViscosityError {
    /// The viscosity at 100 °C must be above 1 cSt and below that at 40 °C.
    #[error(
        "{}",
        tr!(
            "viscosity must fall from 40 to 100 °C and stay above 1 cSt: {} and {} cSt",
            .at_40_cst, .at_100_cst
        )
    )]
    Order {
        /// At 40 °C, cSt.
        at_40_cst: f64,
        /// At 100 °C, cSt.
        at_100_cst: f64,
    },
}

const K_40_C: f64 = 313.15;
const K_100_C: f64 = 373.15;

impl Viscosity {
    /// Oil with viscosities, cSt (mm²/s), at 40 and 100 °C.
    ///
    /// # Errors
    /// [`ViscosityError::Order`] if they are not in order.
    ///
    /// # Example
    /// The constants of an oil of 215 and 19.6 cSt (`reference/oil`, library):
    /// ```
    /// use coolpath_core::engine::oil::{Viscosity, ViscosityError};
    ///
    /// let (a, b) = Viscosity::from_two_points(215.0, 19.6)?.constants();
    /// assert!((a - 8.61717).abs() < 5e-6);
    /// assert!((b - 3.30526).abs() < 5e-6);
    /// assert!(Viscosity::from_two_points(19.6, 215.0).is_err());
    /// # Ok::<(), ViscosityError>(())
    /// ```
    pub fn from_two_points(at_40_cst: f64, at_100_cst: f64) -> Result<Self, ViscosityError> {
        if !(at_100_cst > 1.0 && at_40_cst > at_100_cst && at_40_cst.is_finite()) {
            return Err(ViscosityError::Order {
                at_40_cst,
                at_100_cst,
            });
        }
        let (z40, z100) = (double_log(at_40_cst), double_log(at_100_cst));
        let b = (z40 - z100) / (libm::log10(K_100_C) - libm::log10(K_40_C));
        Ok(Self {
            a: z40 + b * libm::log10(K_40_C),
            b,
        })
    }

    /// Kinematic viscosity, m²/s, at a temperature, K.
    ///
    /// Extrapolates below 0 °C, where real oils thicken faster: read it there as a lower bound.
    ///
    /// # Example
    /// 798.678 cSt at 20 °C (`reference/oil`, library):
    /// ```
    /// use coolpath_core::engine::oil::{Viscosity, ViscosityError};
    ///
    /// let oil = Viscosity::from_two_points(215.0, 19.6)?;
    /// assert!((oil.kinematic(293.15) - 798.678e-6).abs() < 5e-9);
    /// # Ok::<(), ViscosityError>(())
    /// ```
    #[must_use]
    pub fn kinematic(&self, temperature_k: f64) -> f64 {
        // log₁₀ log₁₀ (ν + 0.7) = A − B log₁₀ T
        let z = self.a - self.b * libm::log10(temperature_k);
        let exponent = libm::pow(10.0, z).min(12.0);
        (libm::pow(10.0, exponent) - 0.7) * 1e-6
    }

    /// Dynamic viscosity, Pa·s, at a temperature, K.
    ///
    /// # Example
    /// 19.6 mm²/s · 832.3425 kg/m³ at 100 °C:
    /// ```
    /// use coolpath_core::engine::oil::{Viscosity, ViscosityError};
    ///
    /// let oil = Viscosity::from_two_points(215.0, 19.6)?;
    /// assert!((oil.dynamic(373.15) - 19.6e-6 * 832.3425).abs() < 1e-9);
    /// # Ok::<(), ViscosityError>(())
    /// ```
    #[must_use]
    pub fn dynamic(&self, temperature_k: f64) -> f64 {
        self.kinematic(temperature_k) * density(temperature_k)
    }

    /// The constants A and B of ASTM D341 [-].
    #[must_use]
    pub fn constants(&self) -> (f64, f64) {
        (self.a, self.b)
    }
}

fn double_log(viscosity_cst: f64) -> f64 {
    libm::log10(libm::log10(viscosity_cst + 0.7))
}

/// Specific gravity at 15 °C [-] (typical mineral oil, from memory).
const SPECIFIC_GRAVITY: f64 = 0.885;
/// Thermal expansion, 1/K (typical mineral oil, from memory).
const EXPANSION_PER_K: f64 = 0.0007;
const K_15_C: f64 = 288.15;
const K_0_C: f64 = 273.15;

/// Density, kg/m³, at a temperature, K.
///
/// # Example
/// 885 · (1 − 0.0007 · 85) kg/m³ at 100 °C:
/// ```
/// use coolpath_core::engine::oil::density;
///
/// assert!((density(373.15) - 832.3425).abs() < 1e-9);
/// ```
#[must_use]
pub fn density(temperature_k: f64) -> f64 {
    1000.0 * SPECIFIC_GRAVITY * (1.0 - EXPANSION_PER_K * (temperature_k - K_15_C))
}

/// Specific heat, J/(kg·K), at a temperature, K (Cragoe).
///
/// # Example
/// 1935.09 J/(kg·K) at 40 °C (`reference/oil`, library):
/// ```
/// use coolpath_core::engine::oil::specific_heat;
///
/// assert!((specific_heat(313.15) - 1935.09).abs() < 0.01);
/// ```
#[must_use]
pub fn specific_heat(temperature_k: f64) -> f64 {
    // c = (0.388 + 0.00045 T_F) / √sg Btu/(lb·°F)
    let degf = (temperature_k - K_0_C) * 1.8 + 32.0;
    4186.8 * (0.388 + 0.000_45 * degf) / SPECIFIC_GRAVITY.sqrt()
}

/// Share of the oil's friction heat that stays without load [-].
const UNLOADED: f64 = 0.7;

/// Friction and piston heat of the oil, W, at a speed and a load.
///
/// Q = Q_r (n/n_r)² (0.7 + 0.3 P/P_r): sheared films grow with the square of the speed, and load adds
/// little (from memory; ±30 % off the rated point).
///
/// # Arguments
/// * `rated_w` - Q_r at rated power and speed, W
/// * `speed_share` - engine speed over rated speed [-]
/// * `load` - power over rated power [-]
///
/// # Example
/// ```
/// use coolpath_core::engine::oil::friction_heat;
///
/// assert!((friction_heat(2000.0, 1.0, 1.0) - 2000.0).abs() < 1e-9);
/// assert!((friction_heat(2000.0, 0.5, 0.0) - 350.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn friction_heat(rated_w: f64, speed_share: f64, load: f64) -> f64 {
    rated_w * speed_share * speed_share * (UNLOADED + (1.0 - UNLOADED) * load)
}
