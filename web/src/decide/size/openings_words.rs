//! Openings of a size in words: areas, dimensions, what is cut.

use crate::kit::format;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::areas::{exit_m2, inlets_m2};
use coolpath_core::document::installation::{ExitShape, Inlet, InletShape, Installation};
use coolpath_core::language::tr;
use coolpath_core::units::feet_inches::Rounded;
use coolpath_core::units::typed::{Dimension, UnitSystem};

pub(super) fn area(m2: f64, system: UnitSystem) -> String {
    format::quantity(m2, Dimension::Area, system, 3)
}

/// How a length is shown: as it stands in the design, or as the smallest that may be cut.
pub(super) type Shown = fn(f64, UnitSystem) -> String;

pub(super) fn as_it_is(m: f64, system: UnitSystem) -> String {
    format::quantity(m, Dimension::Length, system, 4)
}

/// A smallest size is never rounded down; what is computed goes on with the exact one.
pub(super) fn to_cut(m: f64, system: UnitSystem) -> String {
    format::cut_length(m, system, Rounded::Up)
}

/// Whether two areas are one and the same, as far as anybody cuts.
pub(super) fn is_same_area(a_m2: f64, b_m2: f64) -> bool {
    (a_m2 / b_m2 - 1.0).abs() <= 1e-3
}

/// How a size's lengths are shown beside the design's own.
pub(super) fn shown_beside(own_m2: f64, m2: f64) -> Shown {
    if is_same_area(own_m2, m2) {
        as_it_is
    } else {
        to_cut
    }
}

/// Dimensions of an inlet of the chosen shape.
pub(super) fn inlet_words(inlet: &Inlet, system: UnitSystem, length: Shown) -> String {
    match inlet.shape {
        InletShape::Rectangle => format!(
            "{} × {}",
            length(inlet.width.value, system).trim_end_matches([' ', 'i', 'n', 'm']),
            length(inlet.height.value, system),
        ),
        InletShape::Ring => tr!("{} across", length(inlet.diameter.value, system)),
        InletShape::Traced => area(inlet.area_m2(), system),
    }
}

/// What is measured of the first exit, and how much.
pub(super) fn exit_words(
    installation: &Installation,
    system: UnitSystem,
    length: Shown,
) -> (&'static str, String) {
    match installation.exits.first() {
        Some(exit) if exit.shape == ExitShape::LipGap => {
            (tr("Exit gap"), length(exit.gap.value, system))
        }
        Some(exit) if exit.shape == ExitShape::Louvers => {
            (tr("Louver"), area(exit.louver_area.value, system))
        }
        Some(exit) if exit.shape == ExitShape::Augmentor => (
            tr("Augmentor tube"),
            length(exit.tube_diameter.value, system),
        ),
        Some(exit) => (tr("Exit, gross"), area(exit.traced_area.value, system)),
        None => (tr("Exit"), format::NONE.to_owned()),
    }
}

/// Which openings a size changes, in a sentence's middle; `None` where it changes none.
pub(super) fn changes(of: &Design, sized: &Design, system: UnitSystem) -> Option<String> {
    let (old, new) = (&of.installation, &sized.installation);
    let mut parts = Vec::new();
    if !is_same_area(inlets_m2(old), inlets_m2(new))
        && let Some(inlet) = new.inlets.first()
    {
        parts.push(tr!("each inlet to {}", inlet_words(inlet, system, to_cut)));
    }
    if !is_same_area(exit_m2(old), exit_m2(new)) {
        let (what, size) = exit_words(new, system, to_cut);
        parts.push(tr!("the {} to {}", what.to_lowercase(), size));
    }
    (!parts.is_empty()).then(|| parts.join(tr(" and ")))
}
