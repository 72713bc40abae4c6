//! Propeller: momentum theory at every speed, from rest to cruise.
//!
//! T (V + v) = η P with T = 2 ρ A v (V + v): one root, finite at rest. The rise in total
//! pressure through the disc is T/A; a share of it reaches the inlets. Before the disc the static
//! pressure falls as the air speeds up; a share of that stands at the exit of a pusher.
//!
//! # Sources
//! Momentum theory: textbook. The profile efficiency and the share that reaches the inlets are
//! from memory, with ranges in the table of inputs.

/// What the propeller does to the air that passes it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slipstream {
    /// Induced velocity at the disc, m/s.
    pub induced_m_s: f64,
    /// Rise in total pressure through the disc, T/A, Pa.
    pub pressure_rise_pa: f64,
    /// Fall of the static pressure right before the disc, Pa.
    pub suction_pa: f64,
    /// Thrust, N.
    pub thrust_n: f64,
}

/// Slipstream of a propeller.
///
/// # Arguments
/// * `shaft_power_w` - power into the propeller, W, not negative
/// * `profile_efficiency` - η [-], the share of the power not lost to blade drag
/// * `diameter_m` - m, positive
/// * `speed_m_s` - true airspeed, m/s, not negative
/// * `density_kg_m3` - kg/m³, positive
///
/// # Example
/// Chosen so that all is whole: A = π m², ρ = 1 kg/m³, V = 40 m/s and v = 10 m/s need
/// ηP = 2 ρ A v (V + v)² = 50 000 π W, and give T/A = 2 ρ v (V + v) = 1000 Pa:
/// ```
/// use coolpath_core::air::propeller::slipstream;
/// use core::f64::consts::PI;
///
/// let wash = slipstream(50_000.0 * PI / 0.8, 0.8, 2.0, 40.0, 1.0);
/// assert!((wash.induced_m_s - 10.0).abs() < 1e-9);
/// assert!((wash.pressure_rise_pa - 1000.0).abs() < 1e-6);
/// // The air before the disc was sped up from 40 to 50 m/s: ½ (2500 − 1600) Pa.
/// assert!((wash.suction_pa - 450.0).abs() < 1e-6);
/// assert!((wash.thrust_n - 1000.0 * PI).abs() < 1e-6);
/// ```
#[must_use]
pub fn slipstream(
    shaft_power_w: f64,
    profile_efficiency: f64,
    diameter_m: f64,
    speed_m_s: f64,
    density_kg_m3: f64,
) -> Slipstream {
    let area_m2 = core::f64::consts::FRAC_PI_4 * diameter_m * diameter_m;
    // v (V + v)² = η P / (2 ρ A)
    let loading = profile_efficiency * shaft_power_w / (2.0 * density_kg_m3 * area_m2);
    let at_rest = libm::cbrt(loading);
    // The left side is convex and rising, so Newton from above falls onto the root.
    let mut v = at_rest;
    for _ in 0..60 {
        let through = speed_m_s + v;
        let slope = through * through + 2.0 * v * through;
        if slope == 0.0 {
            break;
        }
        let next = v - (v * through * through - loading) / slope;
        if next >= v {
            break;
        }
        v = next.max(0.0);
    }
    let pressure_rise_pa = 2.0 * density_kg_m3 * v * (speed_m_s + v);
    Slipstream {
        induced_m_s: v,
        pressure_rise_pa,
        // p₀ − p = ½ ρ ((V + v)² − V²), Bernoulli up to the disc
        suction_pa: 0.5 * density_kg_m3 * v * (2.0 * speed_m_s + v),
        thrust_n: pressure_rise_pa * area_m2,
    }
}
