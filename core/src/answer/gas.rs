//! What an installation's engine breathes, and how hot its gas is.

use crate::document::installation::{Engine, Installation};
use crate::engine::breathing::{Breathing, RATED_MANIFOLD_PA};
use crate::engine::egt;
use crate::engine::mixture::{self, TABLE_CHARGE_K};

/// Mixture at which the level of the gas temperature is stated [-].
pub(crate) const LEVEL_PHI: f64 = 1.2;

/// How an engine breathes.
#[must_use]
pub fn breathing(engine: &Engine) -> Breathing {
    Breathing {
        rated_w: engine.rated_power.value,
        air_kg_j: engine.air_consumption,
        compression_ratio: engine.compression_ratio,
        temperature_exponent: engine.charge_exponent,
    }
}

/// Effective gas temperature, K, at a mixture and a charge temperature, K, of a settled engine at its
/// maker's ignition advance.
#[must_use]
pub(crate) fn settled_gas_temperature(installation: &Installation, phi: f64, charge_k: f64) -> f64 {
    let level_k =
        installation.reference.gas_temperature.value - mixture::gas_temperature(LEVEL_PHI);
    // T_g = T_g(φ) + level + c (T_ch − 80 °F)
    mixture::gas_temperature(phi)
        + level_k
        + installation.engine.charge_effect * (charge_k - TABLE_CHARGE_K)
}

/// The same of this engine, K: its own advance and rings added.
///
/// # Example
/// The level of the input at a mixture of 1.2 and a charge of 80 °F; break-in adds its own shift:
/// ```
/// use coolpath_core::answer::gas::gas_temperature;
/// use coolpath_core::document::installation::Installation;
/// use coolpath_core::units::si::degf;
///
/// let mut installation = Installation::default();
/// let level = installation.reference.gas_temperature.value;
/// assert!((gas_temperature(&installation, 1.2, degf(80.0)) - level).abs() < 1e-9);
/// installation.engine.break_in = true;
/// let shift = installation.engine.break_in_shift.value;
/// assert!((gas_temperature(&installation, 1.2, degf(80.0)) - level - shift).abs() < 1e-9);
/// ```
#[must_use]
pub fn gas_temperature(installation: &Installation, phi: f64, charge_k: f64) -> f64 {
    let engine = &installation.engine;
    let break_in = if engine.break_in {
        engine.break_in_shift.value
    } else {
        0.0
    };
    settled_gas_temperature(installation, phi, charge_k)
        + engine.ignition_advance * engine.advance_effect
        + break_in
}

/// Mean exhaust temperature at the probes, K, at an engine speed, 1/min, a mixture and a manifold pressure,
/// Pa.
pub(crate) fn exhaust_temperature(engine: &Engine, rpm: f64, phi: f64, manifold_pa: f64) -> f64 {
    engine.egt_peak.value
        + egt::below_peak(phi / engine.peak_egt)
        + egt::PER_SPEED_K * (rpm / engine.rated_rpm - 1.0)
        + egt::PER_MANIFOLD_K * (manifold_pa / RATED_MANIFOLD_PA - 1.0)
}
