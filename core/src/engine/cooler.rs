//! The oil cooler as a heat exchanger: effectiveness and number of transfer units.
//!
//! Air and oil cross, both unmixed. The exact series is used; the common closed approximation is
//! off by 0.5 % at NTU 1 (`reference/effectiveness_ntu`).

use crate::language::tr;
use crate::math::fast_power::fast_power;
use crate::math::root::bracketed_root;

/// Largest number of transfer units used [-]; beyond it nothing changes.
pub const NTU_MAX: f64 = 300.0;

/// Ratio of heat capacity flows below which the larger one keeps its temperature [-].
const NO_RATIO: f64 = 1e-9;

/// Why a cooler's rating was refused.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CoolerError {
    /// The rated heat is more than these flows could ever carry.
    #[error(
        "{}",
        tr!(
            "the rating asks for an effectiveness of {:.3}; these flows reach {:.3}",
            .effectiveness, .largest
        )
    )]
    ImpossibleRating {
        /// Effectiveness that the rating asks for [-].
        effectiveness: f64,
        /// Largest effectiveness of a crossflow cooler with these flows [-].
        largest: f64,
    },
}

/// The double series of a crossflow exchanger and its slopes.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Series {
    /// S(x, y) = Σ_m P_m(x) P_m(y), P_m(x) = 1 − e^(−x) Σ_{j≤m} xʲ/j!
    sum: f64,
    /// ∂S/∂x
    over_x: f64,
    /// ∂S/∂y
    over_y: f64,
}

impl Series {
    fn of(x: f64, y: f64) -> Self {
        // P_m′(x) = e^(−x) xᵐ/m!, the term that the next P lacks
        let ((mut px, mut term_x), (mut py, mut term_y)) = (start(x), start(y));
        let mut series = Self {
            sum: px * py,
            over_x: term_x * py,
            over_y: term_y * px,
        };
        let mut m = 0.0;
        loop {
            m += 1.0;
            term_x *= x / m;
            term_y *= y / m;
            px = (px - term_x).max(0.0);
            py = (py - term_y).max(0.0);
            let add = px * py;
            series.sum += add;
            series.over_x += term_x * py;
            series.over_y += term_y * px;
            if add <= 1e-17 * series.sum || m > 900.0 {
                return series;
            }
        }
    }
}

/// 1 − e^(−x) and e^(−x), each to its last bits.
fn start(x: f64) -> (f64, f64) {
    let rest = libm::exp(-x);
    if rest < 0.5 {
        (1.0 - rest, rest)
    } else {
        (-libm::expm1(-x), rest)
    }
}

/// Effectiveness [-] of a crossflow exchanger, both streams unmixed.
///
/// `ntu` [-] is clamped to 0…300, `capacity_ratio` [-] is 0…1.
///
/// # Example
/// 1 − 1/e where one stream keeps its temperature; 0.54749 at a ratio of ½
/// (`reference/crossflow_examples`, K01a, library):
/// ```
/// use coolpath_core::engine::cooler::effectiveness;
///
/// assert!((effectiveness(1.0, 0.0) - 0.632_121).abs() < 5e-7);
/// assert!((effectiveness(1.0, 0.5) - 0.547_49).abs() < 5e-6);
/// ```
#[must_use]
pub fn effectiveness(ntu: f64, capacity_ratio: f64) -> f64 {
    let ntu = ntu.clamp(0.0, NTU_MAX);
    if ntu == 0.0 {
        return 0.0;
    }
    if capacity_ratio < NO_RATIO {
        return -libm::expm1(-ntu);
    }
    // ε = S(NTU, C NTU) / (C NTU)
    let y = capacity_ratio * ntu;
    (Series::of(ntu, y).sum / y).min(1.0)
}

/// Number of transfer units [-] that gives an effectiveness [-].
///
/// # Errors
/// [`CoolerError::ImpossibleRating`] if no number of units reaches it.
///
/// # Example
/// One unit reaches 0.54749 at a ratio of ½ (`reference/crossflow_examples`, K01a, library):
/// ```
/// use coolpath_core::engine::cooler::{CoolerError, transfer_units};
///
/// assert!((transfer_units(0.547_49, 0.5)? - 1.0).abs() < 5e-5);
/// assert!(transfer_units(1.2, 0.5).is_err());
/// # Ok::<(), CoolerError>(())
/// ```
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
    /// Exponent of the air flow in its film's conductance [-].
    pub air_exponent: f64,
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
    ///
    /// # Example
    /// One unit of 1000 W/K: 27 374.5 W at 50 K are 0.54749 of what the air could carry
    /// (`reference/crossflow_examples`, K01a, library):
    /// ```
    /// use coolpath_core::engine::cooler::{CoolerError, Rating};
    ///
    /// let rating = Rating {
    ///     heat_w: 27_374.5,
    ///     inlet_difference_k: 50.0,
    ///     air_kg_s: 1.0,
    ///     oil_kg_s: 1.0,
    ///     air_specific_heat: 1000.0,
    ///     oil_specific_heat: 2000.0,
    /// };
    /// assert!((rating.overall_conductance()? - 1000.0).abs() < 0.05);
    /// # Ok::<(), CoolerError>(())
    /// ```
    pub fn overall_conductance(&self) -> Result<f64, CoolerError> {
        let air = self.air_kg_s * self.air_specific_heat;
        let oil = self.oil_kg_s * self.oil_specific_heat;
        let (smaller, larger) = if air < oil { (air, oil) } else { (oil, air) };
        // ε = Q / (C_min ΔT_in);  UA = NTU C_min
        let wanted = self.heat_w / (smaller * self.inlet_difference_k);
        Ok(transfer_units(wanted, smaller / larger)? * smaller)
    }
}

/// Exponent of the oil flow in its film resistance [-] (textbook value for oil in short passages; from
/// memory).
const OIL_EXPONENT: f64 = 0.4;

/// Exponent of the air flow where no fins are known [-] (textbook value for laminar developing flow; from
/// memory).
pub const AIR_EXPONENT: f64 = 0.5;

impl Conductance {
    /// Overall conductance, W/K, at an air and an oil flow, kg/s.
    ///
    /// # Example
    /// A quarter of the air doubles the air's half of the resistance: 900/(½ · 2 + ½) W/K:
    /// ```
    /// use coolpath_core::engine::cooler::Conductance;
    ///
    /// let cooler = Conductance {
    ///     rated_w_k: 900.0,
    ///     rated_air_kg_s: 1.0,
    ///     rated_oil_kg_s: 0.5,
    ///     air_share: 0.5,
    ///     air_exponent: 0.5,
    /// };
    /// assert!((cooler.at(1.0, 0.5) - 900.0).abs() < 1e-9);
    /// assert!((cooler.at(0.25, 0.5) - 600.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn at(&self, air_kg_s: f64, oil_kg_s: f64) -> f64 {
        if air_kg_s <= 0.0 || oil_kg_s <= 0.0 {
            return 0.0;
        }
        // 1/UA = [s (W/W₀)^−m + (1 − s)(ṁ/ṁ₀)^−0.4] / UA₀,  m = ½ where no fins are known
        self.rated_w_k / (self.air_side(air_kg_s) + self.oil_side(oil_kg_s))
    }

    /// Resistance of the air's film over the whole at the rated point [-], at a flow, kg/s.
    fn air_side(&self, air_kg_s: f64) -> f64 {
        let ratio = self.rated_air_kg_s / air_kg_s;
        if self.air_exponent == AIR_EXPONENT {
            return self.air_share * ratio.sqrt();
        }
        self.air_share * fast_power(ratio, self.air_exponent)
    }

    /// Resistance of the oil's film over the whole at the rated point [-], at a flow, kg/s.
    fn oil_side(&self, oil_kg_s: f64) -> f64 {
        (1.0 - self.air_share) * fast_power(oil_kg_s / self.rated_oil_kg_s, -OIL_EXPONENT)
    }

    /// Heat from oil to air, W per kelvin of inlet temperature difference, and its logarithmic slope
    /// over the oil's flow [-].
    ///
    /// # Example
    /// 1000 W/K between streams of 1000 and 2000 W/K: 0.54749 of the smaller
    /// (`reference/crossflow_examples`, K01a, library):
    /// ```
    /// use coolpath_core::engine::cooler::{Conductance, Stream};
    ///
    /// let cooler = Conductance {
    ///     rated_w_k: 1000.0,
    ///     rated_air_kg_s: 1.0,
    ///     rated_oil_kg_s: 1.0,
    ///     air_share: 0.8,
    ///     air_exponent: 0.5,
    /// };
    /// let air = Stream { flow_kg_s: 1.0, specific_heat: 1000.0 };
    /// let oil = Stream { flow_kg_s: 1.0, specific_heat: 2000.0 };
    /// let (heat_w_k, _) = cooler.heat_per_kelvin(air, oil);
    /// assert!((heat_w_k - 547.49).abs() < 0.005);
    /// ```
    #[must_use]
    pub fn heat_per_kelvin(&self, air: Stream, oil: Stream) -> (f64, f64) {
        if air.flow_kg_s <= 0.0 || oil.flow_kg_s <= 0.0 {
            return (0.0, 0.0);
        }
        let (air_w_k, oil_w_k) = (air.capacity(), oil.capacity());
        let (air_side, oil_side) = (self.air_side(air.flow_kg_s), self.oil_side(oil.flow_kg_s));
        let whole = self.rated_w_k / (air_side + oil_side);
        let (smaller, larger) = if air_w_k < oil_w_k {
            (air_w_k, oil_w_k)
        } else {
            (oil_w_k, air_w_k)
        };
        let limited = whole.min(NTU_MAX * smaller);
        // d ln UA / d ln ṁ = 0.4 R_oil / R
        let growth = if limited < whole {
            0.0
        } else {
            OIL_EXPONENT * oil_side / (air_side + oil_side)
        };
        if smaller < NO_RATIO * larger {
            // H = C (1 − e^(−UA/C))
            let units = limited / smaller;
            let heat = -smaller * libm::expm1(-units);
            let by_units = units * libm::exp(-units) * smaller / heat;
            let own = if oil_w_k <= air_w_k { 1.0 } else { 0.0 };
            return (heat, own + by_units * (growth - own));
        }
        // H = C_air C_oil / UA · S(UA/C_air, UA/C_oil)
        let (x, y) = (limited / air_w_k, limited / oil_w_k);
        let series = Series::of(x, y);
        let heat = (air_w_k * oil_w_k / limited * series.sum).min(smaller);
        // d ln H / d ln ṁ = 1 − g + (x S_x g + y S_y (g − 1)) / S,  g = d ln UA / d ln ṁ
        let bent = x * series.over_x * growth + y * series.over_y * (growth - 1.0);
        (heat, 1.0 - growth + bent / series.sum)
    }
}

/// A stream through a cooler.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stream {
    /// Flow, kg/s.
    pub flow_kg_s: f64,
    /// Specific heat, J/(kg·K).
    pub specific_heat: f64,
}

impl Stream {
    /// Heat capacity flow, W/K.
    pub(crate) fn capacity(self) -> f64 {
        self.flow_kg_s * self.specific_heat
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heat_and_its_slope_follow_effectiveness_and_a_difference() {
        let cooler = Conductance {
            rated_w_k: 180.0,
            rated_air_kg_s: 0.2,
            rated_oil_kg_s: 0.3,
            air_share: 0.45,
            air_exponent: 0.5,
        };
        for air_kg_s in [1e-7, 0.002, 0.05, 0.3, 4.0] {
            for oil_kg_s in [1e-9, 1e-3, 0.02, 0.11, 0.4] {
                let air = Stream {
                    flow_kg_s: air_kg_s,
                    specific_heat: 1005.0,
                };
                let heat_at = |oil_kg_s: f64| {
                    let oil = Stream {
                        flow_kg_s: oil_kg_s,
                        specific_heat: 2200.0,
                    };
                    cooler.heat_per_kelvin(air, oil)
                };
                let (heat, slope) = heat_at(oil_kg_s);
                let (a, b) = (air_kg_s * 1005.0, oil_kg_s * 2200.0);
                let (smaller, larger) = (a.min(b), a.max(b));
                let units = cooler.at(air_kg_s, oil_kg_s) / smaller;
                let expected = smaller * effectiveness(units, smaller / larger);
                assert!((heat - expected).abs() < 1e-12 * expected);
                let by = 1e-4;
                let (less, more) = (
                    heat_at(oil_kg_s * (1.0 - by)),
                    heat_at(oil_kg_s * (1.0 + by)),
                );
                let difference = (more.0 - less.0) / (2.0 * by * heat);
                assert!(
                    (slope - difference).abs() < 1e-6,
                    "{air_kg_s} {oil_kg_s}: {slope} {difference}"
                );
            }
        }
    }
}
