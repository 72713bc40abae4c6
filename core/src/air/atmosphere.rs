//! Air: the standard atmosphere by pressure altitude, and the properties of dry air.
//!
//! # Sources
//! US Standard Atmosphere 1976 (`reference/`): constants, lapse rate, Sutherland viscosity,
//! conductivity. Air is dry; at 35 °C and 80 % humidity its density is overstated by about 2 %.

/// Specific gas constant of dry air, J/(kg·K): 8314.32 / 28.9644 (US Standard Atmosphere 1976).
pub const GAS_CONSTANT: f64 = 8314.32 / 28.9644;
/// Ratio of specific heats [-].
pub const GAMMA: f64 = 1.4;
/// Specific heat at constant pressure, J/(kg·K): 3.5 R for γ = 1.4.
pub const SPECIFIC_HEAT: f64 = 3.5 * GAS_CONSTANT;
/// Sea-level standard pressure, Pa.
pub const PRESSURE_SL: f64 = 101_325.0;
/// Sea-level standard temperature, K.
pub const TEMPERATURE_SL: f64 = 288.15;
/// Sea-level standard density, kg/m³: the reference of σ.
pub const DENSITY_SL: f64 = PRESSURE_SL / (GAS_CONSTANT * TEMPERATURE_SL);
/// Standard gravity, m/s².
pub const GRAVITY: f64 = 9.806_65;
/// Lapse rate of the troposphere, K/m.
pub const LAPSE_RATE: f64 = 0.0065;
/// Geopotential altitude of the tropopause, m.
pub const TROPOPAUSE_M: f64 = 11_000.0;
/// Effective earth radius of the geopotential conversion, m.
pub const EARTH_RADIUS_M: f64 = 6_356_766.0;

/// Geopotential altitude, m, of a geometric altitude, m.
///
/// # Example
/// The tropopause stands at 11 019 m by the tape (US Standard Atmosphere 1976):
/// ```
/// use coolpath_core::air::atmosphere::geopotential_altitude;
///
/// assert!((geopotential_altitude(11_019.0) - 11_000.0).abs() < 0.5);
/// ```
#[must_use]
pub fn geopotential_altitude(geometric_m: f64) -> f64 {
    // H = r₀ Z / (r₀ + Z)
    EARTH_RADIUS_M * geometric_m / (EARTH_RADIUS_M + geometric_m)
}

/// Standard temperature, K, at a geopotential (pressure) altitude, m, up to 20 km.
///
/// # Example
/// 288.15 K − 6.5 K at 1000 m, and 216.65 K above the tropopause:
/// ```
/// use coolpath_core::air::atmosphere::standard_temperature;
///
/// assert!((standard_temperature(1000.0) - 281.65).abs() < 1e-9);
/// assert!((standard_temperature(15_000.0) - 216.65).abs() < 1e-9);
/// ```
#[must_use]
pub fn standard_temperature(altitude_m: f64) -> f64 {
    // T = T₀ − L H, constant above the tropopause
    TEMPERATURE_SL - LAPSE_RATE * altitude_m.min(TROPOPAUSE_M)
}

/// Standard pressure, Pa, at a geopotential (pressure) altitude, m, up to 20 km.
///
/// # Example
/// 226.32 hPa at the tropopause (US Standard Atmosphere 1976), 84 307 Pa at 5000 ft
/// (`reference/atmosphere`):
/// ```
/// use coolpath_core::air::atmosphere::standard_pressure;
///
/// assert!((standard_pressure(11_000.0) - 22_632.0).abs() < 0.5);
/// assert!((standard_pressure(1524.0) - 84_307.275).abs() < 0.01);
/// ```
#[must_use]
pub fn standard_pressure(altitude_m: f64) -> f64 {
    let below_m = altitude_m.min(TROPOPAUSE_M);
    // p = p₀ (T / T₀)^(g / (L R))
    let exponent = GRAVITY / (LAPSE_RATE * GAS_CONSTANT);
    let p = PRESSURE_SL * libm::pow(standard_temperature(below_m) / TEMPERATURE_SL, exponent);
    if altitude_m <= TROPOPAUSE_M {
        return p;
    }
    // p = p₁₁ exp(−g (H − H₁₁) / (R T₁₁))
    let t = standard_temperature(TROPOPAUSE_M);
    p * libm::exp(-GRAVITY * (altitude_m - TROPOPAUSE_M) / (GAS_CONSTANT * t))
}

/// Pressure altitude, m, of an altitude read with an altimeter set to `setting_pa`.
///
/// The instrument adds the standard altitude of its setting.
///
/// # Example
/// On a setting of 898.746 hPa, the standard pressure at 1000 m, sea level reads as 1000 m:
/// ```
/// use coolpath_core::air::atmosphere::pressure_altitude;
///
/// assert!((pressure_altitude(0.0, 89_874.6) - 1000.0).abs() < 0.1);
/// ```
#[must_use]
pub fn pressure_altitude(indicated_m: f64, setting_pa: f64) -> f64 {
    // H(p) = (T₀ / L) (1 − (p / p₀)^(L R / g))
    let exponent = LAPSE_RATE * GAS_CONSTANT / GRAVITY;
    let setting_altitude_m =
        TEMPERATURE_SL / LAPSE_RATE * (1.0 - libm::pow(setting_pa / PRESSURE_SL, exponent));
    indicated_m + setting_altitude_m
}

/// Hot-day ambient temperature, K, at a pressure altitude, m.
///
/// 100 °F at sea level less 3.6 °F per 1000 ft (former 14 CFR 23.1043(b); 27.1043).
///
/// # Example
/// 82 °F at 5000 ft: 100 °F less five times 3.6 °F:
/// ```
/// use coolpath_core::air::atmosphere::hot_day_temperature;
/// use coolpath_core::units::si::{degf, foot};
///
/// assert!((hot_day_temperature(foot(5000.0)) - degf(82.0)).abs() < 1e-9);
/// ```
#[must_use]
pub fn hot_day_temperature(altitude_m: f64) -> f64 {
    let kelvin_at_100_degf = (100.0 + 459.67) / 1.8;
    let kelvin_per_metre = 3.6 / 1.8 / 304.8;
    kelvin_at_100_degf - kelvin_per_metre * altitude_m
}

/// Density, kg/m³, from pressure, Pa, and temperature, K.
///
/// # Example
/// 1.2250 kg/m³ at sea level on a standard day (US Standard Atmosphere 1976):
/// ```
/// use coolpath_core::air::atmosphere::density;
///
/// assert!((density(101_325.0, 288.15) - 1.225).abs() < 5e-5);
/// ```
#[must_use]
pub fn density(pressure_pa: f64, temperature_k: f64) -> f64 {
    // ρ = p / (R T)
    pressure_pa / (GAS_CONSTANT * temperature_k)
}

/// Dynamic viscosity, Pa·s, at a temperature, K (Sutherland).
///
/// # Example
/// 1.7894e-5 Pa·s at 288.15 K (US Standard Atmosphere 1976):
/// ```
/// use coolpath_core::air::atmosphere::viscosity;
///
/// assert!((viscosity(288.15) - 1.7894e-5).abs() < 5e-10);
/// ```
#[must_use]
pub fn viscosity(temperature_k: f64) -> f64 {
    // μ = β T^1.5 / (T + S)
    1.458e-6 * temperature_k * temperature_k.sqrt() / (temperature_k + 110.4)
}

/// Thermal conductivity, W/(m·K), at a temperature, K.
///
/// # Example
/// 2.5326e-2 W/(m·K) at 288.15 K (US Standard Atmosphere 1976):
/// ```
/// use coolpath_core::air::atmosphere::conductivity;
///
/// assert!((conductivity(288.15) - 2.5326e-2).abs() < 5e-7);
/// ```
#[must_use]
pub fn conductivity(temperature_k: f64) -> f64 {
    // k = 2.64638e-3 T^1.5 / (T + 245.4 · 10^(−12/T))
    2.646_38e-3 * temperature_k * temperature_k.sqrt()
        / (temperature_k + 245.4 * libm::pow(10.0, -12.0 / temperature_k))
}

/// Speed of sound, m/s, at a temperature, K.
///
/// # Example
/// 340.294 m/s at 288.15 K (US Standard Atmosphere 1976):
/// ```
/// use coolpath_core::air::atmosphere::speed_of_sound;
///
/// assert!((speed_of_sound(288.15) - 340.294).abs() < 5e-4);
/// ```
#[must_use]
pub fn speed_of_sound(temperature_k: f64) -> f64 {
    // a = √(γ R T)
    (GAMMA * GAS_CONSTANT * temperature_k).sqrt()
}
