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
#[must_use]
pub fn geopotential_altitude(geometric_m: f64) -> f64 {
    // H = r₀ Z / (r₀ + Z)
    EARTH_RADIUS_M * geometric_m / (EARTH_RADIUS_M + geometric_m)
}

/// Standard temperature, K, at a geopotential (pressure) altitude, m, up to 20 km.
#[must_use]
pub fn standard_temperature(altitude_m: f64) -> f64 {
    // T = T₀ − L H, constant above the tropopause
    TEMPERATURE_SL - LAPSE_RATE * altitude_m.min(TROPOPAUSE_M)
}

/// Standard pressure, Pa, at a geopotential (pressure) altitude, m, up to 20 km.
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
#[must_use]
pub fn hot_day_temperature(altitude_m: f64) -> f64 {
    let kelvin_at_100_degf = (100.0 + 459.67) / 1.8;
    let kelvin_per_metre = 3.6 / 1.8 / 304.8;
    kelvin_at_100_degf - kelvin_per_metre * altitude_m
}

/// Density, kg/m³, from pressure, Pa, and temperature, K.
#[must_use]
pub fn density(pressure_pa: f64, temperature_k: f64) -> f64 {
    // ρ = p / (R T)
    pressure_pa / (GAS_CONSTANT * temperature_k)
}

/// Dynamic viscosity, Pa·s, at a temperature, K (Sutherland).
#[must_use]
pub fn viscosity(temperature_k: f64) -> f64 {
    // μ = β T^1.5 / (T + S)
    1.458e-6 * temperature_k * temperature_k.sqrt() / (temperature_k + 110.4)
}

/// Thermal conductivity, W/(m·K), at a temperature, K.
#[must_use]
pub fn conductivity(temperature_k: f64) -> f64 {
    // k = 2.64638e-3 T^1.5 / (T + 245.4 · 10^(−12/T))
    2.646_38e-3 * temperature_k * temperature_k.sqrt()
        / (temperature_k + 245.4 * libm::pow(10.0, -12.0 / temperature_k))
}

/// Speed of sound, m/s, at a temperature, K.
#[must_use]
pub fn speed_of_sound(temperature_k: f64) -> f64 {
    // a = √(γ R T)
    (GAMMA * GAS_CONSTANT * temperature_k).sqrt()
}
