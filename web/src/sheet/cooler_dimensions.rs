//! Dimensions of the oil cooler and of its hose, drawn in the cabin, where they cover no air.

use super::core_place::CoolerPlace;
use super::dimension_line::{DimensionField, Span, Told, dimension};
use super::half::Half;
use super::ink::Ink;
use super::mouths::INCHES;
use super::point::Point;
use super::scene::Scene;
use super::words;
use crate::kit::format;
use coolpath_core::units::typed::{Dimension, UnitSystem};

/// Aft of the firewall, and before the right end of what is drawn, in.
const AFT: f64 = 6.0;
const BEFORE_END: f64 = 3.4;
/// From a core on the front baffle forward to its dimension, in.
const BEFORE_CORE: f64 = 6.0;
/// From a scoop's mouth forward to its dimension, in.
const BEFORE_MOUTH: f64 = 1.8;
/// From the rear baffle to the end of the shutter's housing, in.
const HOUSING: f64 = 0.5;

/// x of the dimension's line, in.
fn place(scene: &Scene) -> f64 {
    if scene.frame.core.place == CoolerPlace::FrontBaffle {
        return scene.frame.core.middle.0 - BEFORE_CORE;
    }
    (scene.frame.firewall + AFT).min(scene.reach.right - BEFORE_END)
}

/// Inner diameter of the hose, where one is drawn in the side view.
pub fn hose(ink: &mut Ink, scene: &Scene, system: UnitSystem) -> Option<DimensionField> {
    let core = &scene.frame.core;
    let is_drawn = core.place == CoolerPlace::Firewall || core.shutter.is_some();
    if !core.ducted || core.scoop.is_some() || !is_drawn {
        return None;
    }
    let middle = core.line.first()?.1;
    let end = scene.frame.rear_baffle + HOUSING + core.disc;
    let told = Told::length("cooler.duct_diameter_m", 0, core.disc / INCHES, system);
    Some(upright(
        ink,
        place(scene),
        (end, middle, core.disc),
        None,
        told,
    ))
}

/// What the cooler has in the side view: the height of its core, and its scoop's mouth.
pub fn side(ink: &mut Ink, scene: &Scene, system: UnitSystem) -> Vec<DimensionField> {
    [height(ink, scene, system), mouth(ink, scene, system)]
        .into_iter()
        .flatten()
        .collect()
}

/// Height of a core that stands upright: measured, or so many rows of one height.
fn height(ink: &mut Ink, scene: &Scene, system: UnitSystem) -> Option<DimensionField> {
    let core = &scene.frame.core;
    if core.flat {
        return None;
    }
    let end = core.middle.0 + 0.5 * core.size.2;
    let end = if core.place == CoolerPlace::FrontBaffle {
        end - core.size.2
    } else {
        end
    };
    let found = (end, core.middle.1, core.size.1);
    let told = match core.rows {
        Some((rows, pitch_m)) => Told {
            text: format!("{rows} × {}", words::length(pitch_m, system)),
            ..Told::length("cooler.row_pitch_m", 0, pitch_m, system)
        },
        None => Told::length("cooler.face_height_m", 0, core.size.1 / INCHES, system),
    };
    let x = place(scene);
    // A core in a scoop stands as high as the exit's stream: its figure goes into the cabin.
    let field = core
        .scoop
        .map(|_| ink.plane.at(x, scene.frame.bottom).moved(0.0, -30.0));
    Some(upright(ink, x, found, field, told))
}

/// Mouth of the cooler's own scoop, which is an area.
fn mouth(ink: &mut Ink, scene: &Scene, system: UnitSystem) -> Option<DimensionField> {
    let scoop = scene.frame.core.scoop?;
    let plane = ink.plane;
    let (low, high) = (scoop.floor, scoop.floor + scoop.height);
    let x = scoop.mouth - BEFORE_MOUTH;
    let span = Span {
        from: plane.at(x, high),
        to: plane.at(x, low),
        ends: [plane.at(scoop.mouth, high), plane.at(scoop.mouth, low)],
        // Before the chin, over the stream that enters.
        field: plane.at(x, high).moved(-40.0, -34.0),
    };
    let told = Told {
        input: "cooler.own_inlet_area_m2",
        place: 0,
        value: scoop.area_m2,
        text: format::quantity(scoop.area_m2, Dimension::Area, system, 3),
    };
    Some(dimension(ink, &span, told))
}

/// An upright dimension about a height, from what ends at `end`; its figure stands in it or elsewhere.
fn upright(
    ink: &mut Ink,
    x: f64,
    (end, middle, size): (f64, f64, f64),
    field: Option<Point>,
    told: Told,
) -> DimensionField {
    let plane = ink.plane;
    let (low, high) = (middle - 0.5 * size, middle + 0.5 * size);
    let span = Span {
        from: plane.at(x, high),
        to: plane.at(x, low),
        ends: [plane.at(end, high), plane.at(end, low)],
        field: field.unwrap_or(plane.at(x, middle)),
    };
    dimension(ink, &span, told)
}

/// Width of one core in the plan, on the side that it stands on; a core in a scoop stands in the middle,
/// of which a half plan shows half.
pub fn width(ink: &mut Ink, scene: &Scene, system: UnitSystem) -> Option<DimensionField> {
    let core = &scene.frame.core;
    let half = Half::of(core.side);
    let outer = core.outboard + 0.5 * core.size.0;
    let one = if core.beside {
        0.5 * core.size.0
    } else {
        core.size.0
    };
    let inner = outer - one;
    if scene.half_plan && inner < 0.0 {
        return None;
    }
    let plane = ink.plane;
    let at = |x: f64, v: f64| {
        let (x, v) = half.at(x, v);
        plane.at(x, v)
    };
    let x = place(scene);
    let across = if core.flat { core.size.1 } else { core.size.2 };
    let end = core.middle.0 + 0.5 * across;
    let span = Span {
        from: at(x, inner),
        to: at(x, outer),
        ends: [at(end, inner), at(end, outer)],
        field: at(x, 0.5 * (inner + outer)),
    };
    Some(dimension(
        ink,
        &span,
        Told::length("cooler.face_width_m", 0, one / INCHES, system),
    ))
}
