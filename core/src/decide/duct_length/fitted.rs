//! A widening duct fitted behind inlets: what it recovers, and the area ratio that recovers most.

use crate::document::installation::{Inlet, Installation};
use crate::math::highest::highest;
use crate::units::quantity::metre;

/// Width to which the best area ratio is found [-].
const RATIO_TOLERANCE: f64 = 1e-6;

/// Permitted range of a number of an inlet, SI.
pub(super) fn permitted(id: &str) -> (f64, f64) {
    let row = Inlet::ROWS.iter().find(|row| row.id == id);
    row.map_or((0.0, 0.0), |row| row.permitted)
}

/// Pressure recovery of an inlet's widening duct [-], of the dynamic pressure in its opening; never less
/// than the nothing that a sudden end recovers.
///
/// # Example
/// A ring of 4 in, twice the area after 8 in: tan(θ/2) = 4 (√2 − 1)/16 and sin(θ/2) = 0.103002, so that
/// C_p = 1 − ¼ − 1.5 · 2.6 · 0.103002 · ¼ = 0.649573:
/// ```
/// use coolpath_core::decide::duct_length::recovery;
/// use coolpath_core::document::installation::{Inlet, InletShape};
/// use coolpath_core::units::quantity::metre;
///
/// let ring = Inlet {
///     shape: InletShape::Ring,
///     diameter: metre(4.0 * 0.0254),
///     diffuser_factor: 1.5,
///     ..Inlet::default()
/// };
/// assert!((recovery(&ring, 2.0, 8.0 * 0.0254) - 0.649_573).abs() < 1e-6);
/// ```
#[must_use]
pub fn recovery(inlet: &Inlet, area_ratio: f64, length_m: f64) -> f64 {
    1.0 - fitted(inlet, area_ratio, length_m).diffusion_loss()
}

/// Area ratio that recovers most at a length \[-\], by the model's own relation.
///
/// # Arguments
/// * `length_m` - length of the duct, m
///
/// # Example
/// Steeper than 45° the loss is that of a sudden step, f (1 − 1/AR)²; C_p is then highest at
/// AR = (1 + f)/f, five thirds for f = 1.5, so also for a duct without length:
/// ```
/// use coolpath_core::decide::duct_length::best_area_ratio;
/// use coolpath_core::document::installation::Inlet;
///
/// let inlet = Inlet { diffuser_factor: 1.5, ..Inlet::default() };
/// assert!((best_area_ratio(&inlet, 0.0) - 5.0 / 3.0).abs() < 1e-5);
/// ```
#[must_use]
pub fn best_area_ratio(inlet: &Inlet, length_m: f64) -> f64 {
    let (least, most) = permitted("inlet.diffuser_area_ratio");
    let recovered = |ratio: f64| recovery(inlet, ratio, length_m);
    highest(recovered, least, most, RATIO_TOLERANCE)
}

/// An inlet with a widening duct.
fn fitted(inlet: &Inlet, area_ratio: f64, length_m: f64) -> Inlet {
    Inlet {
        diffuser: true,
        diffuser_ratio: area_ratio,
        diffuser_length: metre(length_m),
        ..inlet.clone()
    }
}

/// Places of all inlets that stand as one does: with a widening duct, or without.
#[must_use]
pub fn alike(installation: &Installation, inlet: usize) -> Vec<usize> {
    let inlets = &installation.inlets;
    let Some(asked) = inlets.get(inlet) else {
        return Vec::new();
    };
    (0..inlets.len())
        .filter(|place| inlets[*place].diffuser == asked.diffuser)
        .collect()
}

/// The installation with one duct behind each of some inlets.
///
/// # Example
/// Both inlets of the example get it:
/// ```
/// use coolpath_core::decide::duct_length::{alike, with_duct};
/// use coolpath_core::document::example;
///
/// let own = example::design().installation;
/// let ducted = with_duct(&own, &alike(&own, 0), 2.0, 0.2);
/// assert!(ducted.inlets.iter().all(|inlet| inlet.diffuser && inlet.diffuser_ratio == 2.0));
/// ```
#[must_use]
pub fn with_duct(
    installation: &Installation,
    inlets: &[usize],
    area_ratio: f64,
    length_m: f64,
) -> Installation {
    let mut ducted = installation.clone();
    for place in inlets {
        if let Some(inlet) = ducted.inlets.get_mut(*place) {
            *inlet = fitted(inlet, area_ratio, length_m);
        }
    }
    ducted
}

/// The installation without ducts behind some inlets, their areas multiplied by a factor.
pub(super) fn without_duct(
    installation: &Installation,
    inlets: &[usize],
    factor: f64,
) -> Installation {
    let mut bare = installation.clone();
    for place in inlets {
        if let Some(inlet) = bare.inlets.get_mut(*place) {
            inlet.diffuser = false;
            inlet.scale_area(factor);
        }
    }
    bare
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::example;

    const INCH: f64 = 0.0254;

    fn inlet() -> Inlet {
        example::design().installation.inlets[0].clone()
    }

    #[test]
    fn nothing_is_recovered_where_nothing_widens() {
        for inches in [0.5, 2.0, 8.0, 60.0] {
            assert_eq!(recovery(&inlet(), 1.0, inches * INCH), 0.0);
        }
    }

    #[test]
    fn a_very_long_duct_recovers_what_its_area_ratio_allows() {
        for ratio in [1.2, 2.0, 4.0] {
            let ideal = 1.0 - 1.0 / (ratio * ratio);
            let short_of = |metres: f64| ideal - recovery(&inlet(), ratio, metres);
            // The loss falls as the angle: a tenth at ten times the length.
            assert!(
                short_of(100.0) > 0.0 && short_of(100.0) < 2e-3 * ideal,
                "{ratio}"
            );
            let tenth = short_of(1000.0) / short_of(100.0);
            assert!((tenth - 0.1).abs() < 1e-3, "{ratio}: {tenth}");
        }
    }

    #[test]
    fn along_the_line_of_best_recovery_both_grow_with_the_length() {
        let at = |inches: u32| {
            let length = f64::from(inches) * INCH;
            let ratio = best_area_ratio(&inlet(), length);
            (ratio, recovery(&inlet(), ratio, length))
        };
        for inches in 2..24 {
            let (shorter, longer) = (at(inches), at(inches + 1));
            assert!(longer.0 > shorter.0 && longer.1 > shorter.1, "{inches} in");
        }
    }

    #[test]
    fn no_other_area_ratio_recovers_more_than_the_best() {
        for inches in [1.0, 4.0, 12.0, 60.0] {
            let length = inches * INCH;
            let best = recovery(&inlet(), best_area_ratio(&inlet(), length), length);
            for step in 0..=700 {
                let ratio = 1.0 + 0.01 * f64::from(step);
                let other = recovery(&inlet(), ratio, length);
                assert!(
                    other <= best + 1e-9,
                    "{inches} in, {ratio}: {other} over {best}"
                );
            }
        }
    }

    #[test]
    fn only_inlets_that_stand_as_the_asked_one_get_the_duct() {
        let mut installation = example::design().installation;
        installation.inlets[1].diffuser = true;
        assert_eq!(alike(&installation, 0), [0]);
        assert_eq!(alike(&installation, 1), [1]);
        assert_eq!(alike(&installation, 7), [0; 0]);
        let ducted = with_duct(&installation, &[0, 7], 3.0, 0.3);
        assert_eq!(ducted.inlets[0].diffuser_ratio, 3.0);
        assert_eq!(ducted.inlets[0].diffuser_length, metre(0.3));
        assert_eq!(ducted.inlets[1], installation.inlets[1]);
    }
}
