//! Mixture: effective gas temperature, power at constant air flow, and fuel for an air flow.
//!
//! φ is the equivalence ratio: 1 burns all fuel with all oxygen, above 1 is rich.
//!
//! # Sources
//! Effective gas temperature: fitted to open flight logs of one six-cylinder engine (87 level
//! windows, 6 °F rms) between φ 0.8 and 1.7; beyond that the last slope is carried on, which no
//! measurement backs. The scale of φ is uncertain by 4 %. At full rich it reads about 10 °F high
//! against the same logs. Relative power at constant air flow: derived from the same engine's
//! airspeed cubed at φ 0.88–0.96 and 1.26–1.65, between and beyond interpolated and extrapolated,
//! ±0.03. Stoichiometric fuel–air ratio 0.068: textbook value for aviation petrol.

/// Stoichiometric fuel–air ratio by mass [-].
pub const STOICHIOMETRIC: f64 = 0.068;
/// Lower heating value of aviation petrol, J/kg: 18 800 Btu/lb (worked example of
/// FAA-H-8083-32, read second-hand).
pub const HEATING_VALUE: f64 = 18_800.0 * 1_055.055_852_62 / 0.453_592_37;
/// Equivalence ratios between which the gas temperature was fitted to measurements [-].
pub const GAS_TABLE_RANGE: (f64, f64) = (0.8, 1.7);
/// Equivalence ratios between which a mixture burns at all; tables are held beyond [-].
pub const FLAMMABLE: (f64, f64) = (0.5, 2.5);
/// Charge temperature of the gas-temperature curve, K (80 °F).
pub const TABLE_CHARGE_K: f64 = (80.0 + 459.67) / 1.8;

/// Effective gas temperature, °F, over φ with an 80 °F charge.
const GAS_DEGF: [(f64, f64); 10] = [
    (0.8, 910.0),
    (0.9, 985.0),
    (1.0, 1090.0),
    (1.1, 1165.0),
    (1.2, 1152.0),
    (1.3, 1105.0),
    (1.4, 1030.0),
    (1.5, 975.0),
    (1.6, 940.0),
    (1.7, 915.0),
];
/// Brake power at constant air flow over that at best power [-], over φ.
const RELATIVE_POWER: [(f64, f64); 17] = [
    (0.80, 0.72),
    (0.85, 0.78),
    (0.90, 0.84),
    (0.95, 0.875),
    (1.00, 0.925),
    (1.05, 0.955),
    (1.10, 0.98),
    (1.15, 0.99),
    (1.20, 1.0),
    (1.25, 1.0),
    (1.30, 0.998),
    (1.40, 0.988),
    (1.50, 0.974),
    (1.60, 0.955),
    (1.70, 0.93),
    (1.85, 0.88),
    (2.00, 0.82),
];

/// Linear interpolation in a table; beyond its ends the last slope is carried on.
pub(crate) fn interpolated(table: &[(f64, f64)], x: f64) -> f64 {
    let above = table
        .iter()
        .position(|&(at, _)| at > x)
        .unwrap_or(table.len() - 1)
        .max(1);
    let ((x0, y0), (x1, y1)) = (table[above - 1], table[above]);
    y0 + (y1 - y0) * (x - x0) / (x1 - x0)
}

/// Effective gas temperature, K, at an equivalence ratio [-], with the charge at 80 °F.
///
/// # Example
/// ```
/// use coolpath_core::engine::mixture::gas_temperature;
/// // 1152 °F near best power, 940 °F at a full-rich mixture of 1.6
/// assert!((gas_temperature(1.2) * 1.8 - 459.67 - 1152.0).abs() < 1e-9);
/// assert!((gas_temperature(1.6) * 1.8 - 459.67 - 940.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn gas_temperature(phi: f64) -> f64 {
    let (least, most) = FLAMMABLE;
    (interpolated(&GAS_DEGF, phi.clamp(least, most)) + 459.67) / 1.8
}

/// Change of the effective gas temperature with the equivalence ratio, K.
///
/// # Example
/// From φ 1.2 to 1.3 the curve falls from 1152 to 1105 °F:
/// ```
/// use coolpath_core::engine::mixture::gas_slope;
///
/// assert!((gas_slope(1.25) + 470.0 / 1.8).abs() < 1e-9);
/// ```
#[must_use]
pub fn gas_slope(phi: f64) -> f64 {
    const BY: f64 = 0.05;
    (gas_temperature(phi + BY) - gas_temperature(phi - BY)) / (2.0 * BY)
}

/// Brake power at constant air flow over that at best power [-].
///
/// # Example
/// ```
/// use coolpath_core::engine::mixture::relative_power;
/// assert!((relative_power(1.6) - 0.955).abs() < 1e-12);
/// ```
#[must_use]
pub fn relative_power(phi: f64) -> f64 {
    let (least, most) = FLAMMABLE;
    interpolated(&RELATIVE_POWER, phi.clamp(least, most)).max(0.05)
}

/// Otto-cycle efficiency [-] at a compression ratio [-].
///
/// # Example
/// ```
/// use coolpath_core::engine::mixture::otto_efficiency;
/// assert!((otto_efficiency(8.5) - 0.4738).abs() < 1e-4);
/// ```
#[must_use]
pub fn otto_efficiency(compression_ratio: f64) -> f64 {
    // η = 1 − r^−0.3 (γ = 1.3 of the burned charge)
    1.0 - libm::pow(compression_ratio, -0.3)
}

/// Fuel flow, kg/s, that goes with a charge air flow, kg/s.
///
/// # Example
/// 0.068 · 1.25 · 0.1 kg/s:
/// ```
/// use coolpath_core::engine::mixture::fuel_flow;
///
/// assert!((fuel_flow(0.1, 1.25) - 0.0085).abs() < 1e-15);
/// ```
#[must_use]
pub fn fuel_flow(charge_air_kg_s: f64, phi: f64) -> f64 {
    // ṁ_f = 0.068 φ W_ch
    STOICHIOMETRIC * phi * charge_air_kg_s
}

/// Equivalence ratio [-] of a fuel flow, kg/s, in a charge air flow, kg/s.
///
/// # Example
/// 8.5 g/s of fuel in 0.1 kg/s of air, over 0.068:
/// ```
/// use coolpath_core::engine::mixture::equivalence_ratio;
///
/// assert!((equivalence_ratio(0.0085, 0.1) - 1.25).abs() < 1e-12);
/// ```
#[must_use]
pub fn equivalence_ratio(fuel_kg_s: f64, charge_air_kg_s: f64) -> f64 {
    // φ = ṁ_f / (0.068 W_ch)
    fuel_kg_s / (STOICHIOMETRIC * charge_air_kg_s)
}
