//! Mixture: effective gas temperature, power at constant air flow, and the charge air that a
//! power and a mixture need.
//!
//! φ is the equivalence ratio: 1 burns all fuel with all oxygen, above 1 is rich.
//!
//! # Sources
//! Effective gas temperature: fitted to open flight logs of one six-cylinder engine (87 level
//! windows, 6 °F rms); 0.8 is extrapolated; the scale of φ is uncertain by 4 %. Relative power
//! at constant air flow: usual shape of a spark-ignition engine's mixture loop, from memory.
//! Stoichiometric fuel–air ratio 0.068: textbook value for aviation petrol.

/// Stoichiometric fuel–air ratio by mass [-].
pub const STOICHIOMETRIC: f64 = 0.068;
/// Lower heating value of aviation petrol, J/kg: 18 800 Btu/lb (worked example of
/// FAA-H-8083-32, read second-hand).
pub const HEATING_VALUE: f64 = 18_800.0 * 1_055.055_852_62 / 0.453_592_37;
/// Equivalence ratios at which the gas-temperature fit begins and ends [-].
pub const GAS_TABLE_RANGE: (f64, f64) = (0.8, 1.7);

/// Effective gas temperature, °F, at φ = 0.8, 0.9 … 1.7 with an 80 °F charge.
const GAS_DEGF: [f64; 10] = [
    910.0, 985.0, 1090.0, 1165.0, 1152.0, 1105.0, 1030.0, 975.0, 940.0, 915.0,
];
/// Brake power at constant air flow over that at best power [-], same φ.
const RELATIVE_POWER: [f64; 10] = [0.85, 0.92, 0.97, 0.995, 1.0, 0.99, 0.97, 0.94, 0.90, 0.85];

/// Linear interpolation in a table over φ = 0.8 … 1.7; held constant beyond its ends.
fn over_mixture(table: &[f64; 10], phi: f64) -> f64 {
    let (first, last) = GAS_TABLE_RANGE;
    let place = (phi.clamp(first, last) - first) * 10.0;
    let below = (libm::floor(place) as usize).min(table.len() - 2);
    let share = place - below as f64;
    table[below] * (1.0 - share) + table[below + 1] * share
}

/// Effective gas temperature, K, at an equivalence ratio [-], with the charge at 80 °F.
#[must_use]
pub fn gas_temperature(phi: f64) -> f64 {
    (over_mixture(&GAS_DEGF, phi) + 459.67) / 1.8
}

/// Brake power at constant air flow over that at best power [-].
#[must_use]
pub fn relative_power(phi: f64) -> f64 {
    over_mixture(&RELATIVE_POWER, phi)
}

/// Otto-cycle efficiency [-] at a compression ratio [-].
#[must_use]
pub fn otto_efficiency(compression_ratio: f64) -> f64 {
    // η = 1 − r^−0.3 (γ = 1.3 of the burned charge)
    1.0 - libm::pow(compression_ratio, -0.3)
}

/// Compression ratio at which the specific air consumption is stated [-].
const REFERENCE_COMPRESSION: f64 = 8.5;

/// Charge air flow, kg/s, for a brake power, W.
///
/// # Arguments
/// * `best_power_air_kg_j` - air per brake energy at best power and 8.5:1, kg/J
/// * `compression_ratio` - [-]; air consumption falls as the Otto efficiency rises
/// * `phi` - equivalence ratio [-]
#[must_use]
pub fn charge_air(
    brake_power_w: f64,
    best_power_air_kg_j: f64,
    compression_ratio: f64,
    phi: f64,
) -> f64 {
    // W_ch = a P (η₈.₅ / η_r) / e(φ)
    let efficiency = otto_efficiency(REFERENCE_COMPRESSION) / otto_efficiency(compression_ratio);
    best_power_air_kg_j * brake_power_w * efficiency / relative_power(phi)
}

/// Fuel flow, kg/s, that goes with a charge air flow, kg/s.
#[must_use]
pub fn fuel_flow(charge_air_kg_s: f64, phi: f64) -> f64 {
    // ṁ_f = 0.068 φ W_ch
    STOICHIOMETRIC * phi * charge_air_kg_s
}

/// Equivalence ratio [-] at which a power burns a fuel flow; `None` if outside 0.8…1.7.
///
/// Fuel per power, 0.068 φ / e(φ), rises over the whole range, so the answer is the only one.
#[must_use]
pub fn mixture_of_fuel_flow(
    fuel_kg_s: f64,
    brake_power_w: f64,
    best_power_air_kg_j: f64,
    compression_ratio: f64,
) -> Option<f64> {
    let miss = |phi: f64| {
        let air = charge_air(brake_power_w, best_power_air_kg_j, compression_ratio, phi);
        fuel_flow(air, phi) - fuel_kg_s
    };
    crate::math::root::bracketed_root(miss, GAS_TABLE_RANGE.0, GAS_TABLE_RANGE.1, 1e-13)
        .ok()
        .map(|root| root.x)
}
