//! The oil cooler as a heat exchanger: effectiveness and number of transfer units.
//!
//! Air and oil cross, both unmixed. The exact series is used; the common closed approximation is
//! off by 0.5 % at NTU 1 (`reference/effectiveness_ntu`).

use crate::math::fast_power::fast_power;
use crate::math::root::bracketed_root;

/// Largest number of transfer units used [-]; beyond it nothing changes.
pub const NTU_MAX: f64 = 300.0;

/// Why a cooler's rating was refused.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CoolerError {
    /// The rated heat is more than these flows could ever carry.
    #[error(
        "the rating asks for an effectiveness of {effectiveness:.3}; these flows reach {largest:.3}"
    )]
    ImpossibleRating {
        /// Effectiveness that the rating asks for [-].
        effectiveness: f64,
        /// Largest effectiveness of a crossflow cooler with these flows [-].
        largest: f64,
    },
}

/// Effectiveness [-] of a crossflow exchanger, both streams unmixed.
///
/// `ntu` [-] is clamped to 0…300, `capacity_ratio` [-] is 0…1.
#[must_use]
pub fn effectiveness(ntu: f64, capacity_ratio: f64) -> f64 {
    let ntu = ntu.clamp(0.0, NTU_MAX);
    if ntu == 0.0 {
        return 0.0;
    }
    if capacity_ratio < 1e-9 {
        return -libm::expm1(-ntu);
    }
    // ε = 1/(C NTU) Σ_m P_m(NTU) P_m(C NTU),  P_m(x) = 1 − e^(−x) Σ_{j≤m} xʲ/j!
    let x = ntu;
    let y = capacity_ratio * ntu;
    let (mut px, mut py) = (-libm::expm1(-x), -libm::expm1(-y));
    let (mut term_x, mut term_y) = (libm::exp(-x), libm::exp(-y));
    let mut sum = px * py;
    let mut m = 0.0;
    loop {
        m += 1.0;
        term_x *= x / m;
        term_y *= y / m;
        px = (px - term_x).max(0.0);
        py = (py - term_y).max(0.0);
        let add = px * py;
        sum += add;
        if add <= 1e-17 * sum || m > 900.0 {
            break;
        }
    }
    (sum / y).min(1.0)
}

/// Number of transfer units [-] that gives an effectiveness [-].
///
/// # Errors
/// [`CoolerError::ImpossibleRating`] if no number of units reaches it.
pub fn transfer_units(effectiveness_wanted: f64, capacity_ratio: f64) -> Result<f64, CoolerError> {
    let refused = || CoolerError::ImpossibleRating {
        effectiveness: effectiveness_wanted,
        largest: effectiveness(NTU_MAX, capacity_ratio),
    };
    if !(effectiveness_wanted > 0.0 && effectiveness_wanted < 1.0) {
        return Err(refused());
    }
    // Crossflow lies between parallel flow and one stream of constant temperature.
    // −ln(1 − ε) ≤ NTU ≤ −ln(1 − ε (1 + C)) / (1 + C)
    let sum = 1.0 + capacity_ratio;
    let least = -libm::log1p(-effectiveness_wanted);
    let most = -libm::log1p(-(effectiveness_wanted * sum).min(1.0)) / sum;
    let miss =
        |ln_ntu: f64| effectiveness(libm::exp(ln_ntu), capacity_ratio) - effectiveness_wanted;
    // A hair wider, since rounding must not leave the root outside.
    let (low, high) = (0.999 * least, (1.001 * most).min(NTU_MAX));
    bracketed_root(miss, libm::log(low), libm::log(high), 1e-15)
        .map(|root| libm::exp(root.x))
        .map_err(|_| refused())
}

/// Heat transfer of a cooler, from one rated point to any flows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conductance {
    /// Overall conductance at the rated point, W/K.
    pub rated_w_k: f64,
    /// Air flow at the rated point, kg/s.
    pub rated_air_kg_s: f64,
    /// Oil flow at the rated point, kg/s.
    pub rated_oil_kg_s: f64,
    /// Share of the thermal resistance on the air side at the rated point [-].
    pub air_share: f64,
}

/// A maker's rating: what a cooler gives up at stated flows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rating {
    /// Heat given up, W.
    pub heat_w: f64,
    /// Difference of the two inlet temperatures, K.
    pub inlet_difference_k: f64,
    /// Air flow, kg/s.
    pub air_kg_s: f64,
    /// Oil flow, kg/s.
    pub oil_kg_s: f64,
    /// Specific heat of the air, J/(kg·K).
    pub air_specific_heat: f64,
    /// Specific heat of the oil, J/(kg·K).
    pub oil_specific_heat: f64,
}

impl Rating {
    /// Overall conductance, W/K, that explains the rating.
    ///
    /// # Errors
    /// [`CoolerError::ImpossibleRating`] if no exchanger could give that much heat.
    pub fn overall_conductance(&self) -> Result<f64, CoolerError> {
        let air = self.air_kg_s * self.air_specific_heat;
        let oil = self.oil_kg_s * self.oil_specific_heat;
        let (smaller, larger) = if air < oil { (air, oil) } else { (oil, air) };
        // ε = Q / (C_min ΔT_in);  UA = NTU C_min
        let wanted = self.heat_w / (smaller * self.inlet_difference_k);
        Ok(transfer_units(wanted, smaller / larger)? * smaller)
    }
}

/// Exponent of the oil flow in its film resistance [-]; that of the air flow is ½ (textbook values
/// for oil in short passages and for laminar developing air flow in fins; from memory).
const OIL_EXPONENT: f64 = 0.4;

impl Conductance {
    /// Overall conductance, W/K, at an air and an oil flow, kg/s.
    #[must_use]
    pub fn at(&self, air_kg_s: f64, oil_kg_s: f64) -> f64 {
        if air_kg_s <= 0.0 || oil_kg_s <= 0.0 {
            return 0.0;
        }
        // 1/UA = [s (W/W₀)^−0.5 + (1 − s)(ṁ/ṁ₀)^−0.4] / UA₀
        let air = self.air_share * (self.rated_air_kg_s / air_kg_s).sqrt();
        let oil =
            (1.0 - self.air_share) * fast_power(oil_kg_s / self.rated_oil_kg_s, -OIL_EXPONENT);
        self.rated_w_k / (air + oil)
    }

    /// Heat from oil to air, W per kelvin of inlet temperature difference.
    #[must_use]
    pub fn heat_per_kelvin(
        &self,
        air_kg_s: f64,
        air_specific_heat: f64,
        oil_kg_s: f64,
        oil_specific_heat: f64,
    ) -> f64 {
        let air = air_kg_s * air_specific_heat;
        let oil = oil_kg_s * oil_specific_heat;
        let (smaller, larger) = if air < oil { (air, oil) } else { (oil, air) };
        if smaller <= 0.0 {
            return 0.0;
        }
        let ntu = self.at(air_kg_s, oil_kg_s) / smaller;
        smaller * effectiveness(ntu, smaller / larger)
    }
}
