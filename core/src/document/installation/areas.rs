//! Areas of an installation's openings, and the installation with other areas.

use crate::document::installation::Installation;

/// Area of all inlets, m².
#[must_use]
pub fn inlets_m2(installation: &Installation) -> f64 {
    installation
        .inlets
        .iter()
        .map(|inlet| inlet.area_m2())
        .sum()
}

/// Net area of the first exit with the flap closed, m².
#[must_use]
pub fn exit_m2(installation: &Installation) -> f64 {
    installation
        .exits
        .first()
        .map_or(0.0, |exit| exit.closed_area_m2())
}

/// Areas of all inlets together, least and most, m², at which every dimension of each is permitted
/// while all grow alike.
#[must_use]
pub fn inlets_reach_m2(installation: &Installation) -> (f64, f64) {
    let mut factors = (0.0_f64, f64::INFINITY);
    for inlet in &installation.inlets {
        let own = inlet.area_factors();
        factors = (factors.0.max(own.0), factors.1.min(own.1));
    }
    let area_m2 = inlets_m2(installation);
    (factors.0 * area_m2, factors.1 * area_m2)
}

/// Net areas of the first exit, least and most, m², at which its free dimension is permitted.
#[must_use]
pub fn exit_reach_m2(installation: &Installation) -> (f64, f64) {
    let first = installation.exits.first();
    first.map_or((0.0, 0.0), |exit| exit.closed_reach_m2())
}

/// The installation with other areas: all inlets grow alike and keep their proportions.
///
/// # Example
/// The areas come out as they were asked for:
/// ```
/// use coolpath_core::document::example;
/// use coolpath_core::document::installation::areas::{exit_m2, inlets_m2, resized};
///
/// let sized = resized(&example::design().installation, 0.03, 0.04);
/// assert!((inlets_m2(&sized) - 0.03).abs() < 1e-12);
/// assert!((exit_m2(&sized) - 0.04).abs() < 1e-12);
/// ```
#[must_use]
pub fn resized(installation: &Installation, inlets: f64, exit: f64) -> Installation {
    let mut sized = installation.clone();
    let factor = inlets / inlets_m2(installation);
    for inlet in &mut sized.inlets {
        inlet.scale_area(factor);
    }
    if let Some(first) = sized.exits.first_mut() {
        first.set_closed_area(exit);
    }
    sized
}
