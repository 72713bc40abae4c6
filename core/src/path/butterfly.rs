//! The butterfly in the oil-cooler duct: loss against angle, and what leaks past it when closed.
//!
//! # Sources
//! Weisbach's experiments with a disc in a round pipe, as tabulated in Perry's Chemical Engineers'
//! Handbook (`reference/shutter`): published; 0° and 15° to 65° in odd fives are
//! from memory. Other sources
//! differ by a factor of two at 45° and of 3.5 at 60°, so an angle is a band. What stays open past
//! a closed disc is derived from how far reported shutters move the oil.

/// Angle from open, degrees, and loss coefficient on the duct velocity [-].
const ROUND_DISC: [(f64, f64); 15] = [
    (0.0, 0.10),
    (5.0, 0.24),
    (10.0, 0.52),
    (15.0, 0.90),
    (20.0, 1.54),
    (25.0, 2.51),
    (30.0, 3.91),
    (35.0, 6.22),
    (40.0, 10.8),
    (45.0, 18.7),
    (50.0, 32.6),
    (55.0, 58.8),
    (60.0, 118.0),
    (65.0, 256.0),
    (70.0, 751.0),
];

/// Contraction of the jet through a narrow gap or hole [-] (0.60–0.63, textbook orifice value).
const CONTRACTION: f64 = 0.62;

/// Loss coefficient [-] of the disc alone at an angle from open, degrees, on the duct velocity.
///
/// ln K is interpolated in the table. Past 70° the gap beside the disc sets the loss:
/// K grows as (1 − sin θ)⁻² from the last tabulated point; at 90° it is infinite.
///
/// # Example
/// 18.7 at 45° (Weisbach, `reference/weisbach_butterfly`); nothing passes a closed disc:
/// ```
/// use coolpath_core::path::butterfly::disc_loss;
///
/// assert!((disc_loss(45.0) - 18.7).abs() < 1e-9);
/// assert_eq!(disc_loss(90.0), f64::INFINITY);
/// ```
#[must_use]
pub fn disc_loss(angle_deg: f64) -> f64 {
    let (last_angle, last_loss) = ROUND_DISC[ROUND_DISC.len() - 1];
    if angle_deg >= 90.0 {
        return f64::INFINITY;
    }
    if angle_deg >= last_angle {
        let gap = |deg: f64| 1.0 - libm::sin(deg.to_radians());
        let narrowing = gap(last_angle) / gap(angle_deg);
        return last_loss * narrowing * narrowing;
    }
    let angle = angle_deg.max(0.0);
    let upper = ROUND_DISC
        .iter()
        .position(|&(deg, _)| deg > angle)
        .unwrap_or(1);
    let (a0, k0) = ROUND_DISC[upper - 1];
    let (a1, k1) = ROUND_DISC[upper];
    let share = (angle - a0) / (a1 - a0);
    libm::exp(libm::log(k0) * (1.0 - share) + libm::log(k1) * share)
}

/// Factor [-] between the highest and the lowest published loss at an angle from open, degrees.
///
/// 1 when open, 2 at 45°, 3.5 from 60° on, ln-linear between.
///
/// # Example
/// √2 halfway to the two of 45°:
/// ```
/// use coolpath_core::path::butterfly::source_spread;
///
/// assert!((source_spread(22.5) - core::f64::consts::SQRT_2).abs() < 1e-12);
/// assert!((source_spread(75.0) - 3.5).abs() < 1e-12);
/// ```
#[must_use]
pub fn source_spread(angle_deg: f64) -> f64 {
    let angle = angle_deg.clamp(0.0, 60.0);
    let ln_spread = if angle <= 45.0 {
        core::f64::consts::LN_2 * angle / 45.0
    } else {
        let (at_45, at_60) = (core::f64::consts::LN_2, libm::log(3.5));
        at_45 + (at_60 - at_45) * (angle - 45.0) / 15.0
    };
    libm::exp(ln_spread)
}

/// Angle from open, degrees, of an opening from 0 (closed) to 1 (open).
///
/// # Example
/// A quarter open stands at three quarters of 90°:
/// ```
/// use coolpath_core::path::butterfly::angle_from_open;
///
/// assert_eq!(angle_from_open(0.25), 67.5);
/// ```
#[must_use]
pub fn angle_from_open(opening: f64) -> f64 {
    90.0 * (1.0 - opening)
}

/// What lets air past a shutter beside the angle of its disc.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Leakage {
    /// Area that stays open past the closed disc, as a share of the duct's [-].
    pub closed_gap: f64,
    /// Area of holes drilled in the disc, as a share of the duct's [-].
    pub drilled_share: f64,
}

/// Inverse loss √(1/K) [-] of the fitted shutter at an opening.
///
/// Zero means that nothing passes. The gap beside a closed disc is the last of the slot that the disc
/// opens as it turns, one and the same opening: they do not add, the wider one counts. Holes drilled
/// in the disc are another opening and add at every angle.
///
/// # Arguments
/// * `opening` - 0 closed to 1 open [-]
/// * `leakage` - what passes beside the disc and through it
/// * `source_exponent` - −0.5 takes the lowest published loss, 0 the middle, +0.5 the highest [-]
///
/// # Sources
/// The blend to the fourth power is from memory, a usual one between two limits; the opening of a
/// slot is an orifice in a wall: K = (1/(0.62 a) − 1)² (`reference/butterfly_gap`, derived).
///
/// # Example
/// ```
/// use coolpath_core::path::butterfly::{Leakage, passage};
///
/// let leakage = Leakage { closed_gap: 0.12, drilled_share: 0.0 };
/// let closed = passage(0.0, leakage, 0.0);
/// assert!((1.0 / (closed * closed) - 155.0).abs() < 1.0);
/// ```
#[must_use]
pub fn passage(opening: f64, leakage: Leakage, source_exponent: f64) -> f64 {
    let angle = angle_from_open(opening);
    let scatter = libm::pow(source_spread(angle), source_exponent);
    // g = 1/√K
    let disc = 1.0 / (disc_loss(angle) * scatter).sqrt();
    let gap = hole(leakage.closed_gap);
    // g = (g_disc⁴ + g_gap⁴)^¼;  parallel openings under one Δp add their g
    let (disc_2, gap_2) = (disc * disc, gap * gap);
    (disc_2 * disc_2 + gap_2 * gap_2).sqrt().sqrt() + hole(leakage.drilled_share)
}

/// Inverse loss √(1/K) [-] of a sharp hole that is a share of the duct [-].
fn hole(share: f64) -> f64 {
    // c = 0.62 a;  g = c / (1 − c)
    let contracted = CONTRACTION * share;
    contracted / (1.0 - contracted)
}
