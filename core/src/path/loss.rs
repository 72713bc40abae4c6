//! Loss coefficients of ducts, openings and diffusers.
//!
//! A coefficient K gives Δp = K ½ ρ V² on the velocity its function names. Handbooks differ; the
//! spread between them (`reference/losses`) is the honest uncertainty of each.

/// Loss coefficient [-] of a flush entrance with a rounded edge, on the velocity inside.
///
/// `radius_ratio` is edge radius over hydraulic diameter [-]; 0 is a sharp edge (0.5).
/// Handbooks give 0.44–0.57 at 0 and 0.03–0.20 at 0.1.
///
/// # Sources
/// Correlation as coded in the library `fluids` (`entrance_rounded`, method Swamee): library.
///
/// # Example
/// 0.5 at a sharp edge, 0.15284 at a tenth of the diameter (`reference/losses`, library):
/// ```
/// use coolpath_core::path::loss::rounded_entrance;
///
/// assert_eq!(rounded_entrance(0.0), 0.5);
/// assert!((rounded_entrance(0.1) - 0.152_837_59).abs() < 5e-9);
/// ```
#[must_use]
pub fn rounded_entrance(radius_ratio: f64) -> f64 {
    // K = 0.5 / (1 + 36 (r/D)^1.2)
    0.5 / (1.0 + 36.0 * libm::pow(radius_ratio.max(0.0), 1.2))
}

/// Loss coefficient [-] of a conical diffuser on its entry velocity, without the dump at its end.
///
/// `area_ratio` is exit over entry area (≥ 1) [-], `full_angle_deg` the included angle, degrees.
/// This is the loss with a thin, clean inflow: a chart point measured with a thick boundary layer
/// (`reference/diffuser`, F01) loses 2.5 times as much, so the product multiplies it by a factor
/// that is an input.
///
/// # Sources
/// Crane TP-410 form as coded in the library `fluids` (`diffuser_conical`): library.
///
/// # Example
/// 0.050165 for 1.5 times the area at 20°, 1/9 at 45° (`reference/losses`, library):
/// ```
/// use coolpath_core::path::loss::conical_diffuser;
///
/// assert!((conical_diffuser(1.5, 20.0) - 0.050_165_029).abs() < 5e-9);
/// assert!((conical_diffuser(1.5, 45.0) - 1.0 / 9.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn conical_diffuser(area_ratio: f64, full_angle_deg: f64) -> f64 {
    // K = 2.6 sin(θ/2) (1 − 1/AR)² up to 45°, then (1 − 1/AR)²
    let dump = sudden_expansion(1.0 / area_ratio);
    if full_angle_deg >= 45.0 {
        return dump;
    }
    2.6 * libm::sin((0.5 * full_angle_deg).to_radians()) * dump
}

/// Included angle, degrees, of the cone with the same areas and length as a diffuser.
///
/// # Example
/// From 1 to 2 m of diameter over half a metre: tan(θ/2) = ½/½, and θ is 90°:
/// ```
/// use coolpath_core::path::loss::equivalent_cone_angle;
///
/// let entry_area_m2 = core::f64::consts::FRAC_PI_4;
/// assert!((equivalent_cone_angle(entry_area_m2, 4.0, 0.5) - 90.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn equivalent_cone_angle(entry_area_m2: f64, area_ratio: f64, length_m: f64) -> f64 {
    let entry_diameter_m = (entry_area_m2 / core::f64::consts::FRAC_PI_4).sqrt();
    let widening_m = entry_diameter_m * (area_ratio.sqrt() - 1.0);
    // tan(θ/2) = (D₂ − D₁) / (2 L)
    2.0 * libm::atan2(widening_m, 2.0 * length_m).to_degrees()
}

/// Loss coefficient [-] of a sudden expansion on its entry velocity (Borda–Carnot).
///
/// `ratio` is entry over exit area [-], from 0 (a dump into a large space) to 1.
///
/// # Example
/// Half of the area it opens into: (1 − ½)² (`reference/losses`, library):
/// ```
/// use coolpath_core::path::loss::sudden_expansion;
///
/// assert!((sudden_expansion(0.5) - 0.25).abs() < 1e-12);
/// ```
#[must_use]
pub fn sudden_expansion(ratio: f64) -> f64 {
    // K = (1 − A₁/A₂)²
    (1.0 - ratio) * (1.0 - ratio)
}

/// Loss coefficient [-] of a sudden contraction on its exit velocity; `ratio` is exit over entry
/// area [-].
///
/// # Sources
/// Crane TP-410 form as coded in the library `fluids` (`contraction_sharp`): library.
///
/// # Example
/// To half of the area: ½ (1 − ½) (`reference/losses`, library):
/// ```
/// use coolpath_core::path::loss::sudden_contraction;
///
/// assert!((sudden_contraction(0.5) - 0.25).abs() < 1e-12);
/// ```
#[must_use]
pub fn sudden_contraction(ratio: f64) -> f64 {
    // K = ½ (1 − A₂/A₁)
    0.5 * (1.0 - ratio)
}

/// Loss coefficient [-] of the gap between a core and a wall close behind it, on the velocity in the
/// core's face.
///
/// What leaves the core turns sideways and out through the gap's open sides, whose jet is lost in the
/// deck. With the jet's speed W/(ρ C_d A_gap) and the face's W/(ρ A_core),
/// ½ρ (W/(ρ C_d A_gap))² = K ½ρ (W/(ρ A_core))². That the air comes out of the core with a speed of its
/// own is left out, and the jet is taken as even along the sides, so that nothing is lost at a wide gap.
///
/// # Arguments
/// * `core_m2` - face of the core, m²
/// * `gap_m2` - open sides of the gap, m²: perimeter times gap
/// * `discharge` - discharge coefficient of the gap [-]
///
/// # Sources
/// Derived: an orifice in series with the core. Its coefficient is an input (common practice).
///
/// # Example
/// A gap with as much area as the core and C_d 0.5: (1/0.5)²:
/// ```
/// use coolpath_core::path::loss::standoff;
///
/// assert!((standoff(0.02, 0.02, 0.5) - 4.0).abs() < 1e-12);
/// assert!((standoff(0.02, 0.01, 0.5) - 16.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn standoff(core_m2: f64, gap_m2: f64, discharge: f64) -> f64 {
    // K = (A_core / (C_d A_gap))²
    let narrowing = core_m2 / (discharge * gap_m2);
    narrowing * narrowing
}

/// End of laminar and beginning of turbulent flow, Reynolds number [-] (textbook values).
const TRANSITION: (f64, f64) = (2040.0, 4000.0);

/// Darcy friction factor [-] of a rough pipe: 64/Re below Re 2040, Colebrook above Re 4000.
///
/// `roughness` is roughness height over diameter [-]. Between the two no single value holds; it
/// is interpolated, so that the pressure drop rises steadily with the flow.
///
/// # Example
/// 64/1000 in laminar flow; 0.0180 in a smooth pipe at Re 100 000 (the chart by L. F. Moody, 1944,
/// from memory):
/// ```
/// use coolpath_core::path::loss::friction_factor;
///
/// assert!((friction_factor(1000.0, 0.0) - 0.064).abs() < 1e-12);
/// assert!((friction_factor(1e5, 0.0) - 0.0180).abs() < 5e-5);
/// ```
#[must_use]
pub fn friction_factor(reynolds: f64, roughness: f64) -> f64 {
    let (laminar_end, turbulent_start) = TRANSITION;
    let laminar = 64.0 / reynolds.clamp(1e-9, laminar_end);
    if reynolds <= laminar_end {
        return laminar;
    }
    if reynolds >= turbulent_start {
        return colebrook(reynolds, roughness);
    }
    let share = (reynolds - laminar_end) / (turbulent_start - laminar_end);
    laminar + share * (colebrook(turbulent_start, roughness) - laminar)
}

/// Colebrook's friction factor [-], to machine precision.
fn colebrook(reynolds: f64, roughness: f64) -> f64 {
    // 1/√f = −2 log₁₀(ε/3.7 + 2.51/(Re √f)), as a fixed point in x = 1/√f with Newton's step
    let a = roughness / 3.7;
    let b = 2.51 / reynolds;
    let mut x = -2.0 * libm::log10(a + 5.74 / libm::pow(reynolds, 0.9));
    for _ in 0..50 {
        let inside = a + b * x;
        let g = x + 2.0 * libm::log10(inside);
        let slope = 1.0 + 2.0 * b / (core::f64::consts::LN_10 * inside);
        let step = g / slope;
        x -= step;
        if step.abs() <= 1e-14 * x.abs() {
            break;
        }
    }
    1.0 / (x * x)
}
