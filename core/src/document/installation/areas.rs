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

/// The installation with other areas: all inlets grow alike and keep their proportions.
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
