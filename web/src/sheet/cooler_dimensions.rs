//! Dimensions of the oil cooler and of its hose, drawn in the cabin, where they cover no air.

use super::core_place::CoolerPlace;
use super::dimension_line::{DimensionField, Span, dimension};
use super::half::Half;
use super::ink::Ink;
use super::mouths::INCHES;
use super::scene::Scene;
use coolpath_core::units::typed::UnitSystem;

/// Aft of the firewall, and before the right end of what is drawn, in.
const AFT: f64 = 6.0;
const BEFORE_END: f64 = 3.4;
/// From the rear baffle to the end of the shutter's housing, in.
const HOUSING: f64 = 0.5;

/// x of the dimension's line, in.
fn place(scene: &Scene) -> f64 {
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
    upright(
        ink,
        scene,
        (end, middle, core.disc),
        "cooler.duct_diameter_m",
        system,
    )
}

/// Height of the core, where it was measured and stands upright in the side view.
pub fn height(ink: &mut Ink, scene: &Scene, system: UnitSystem) -> Option<DimensionField> {
    let core = &scene.frame.core;
    if !core.measured || core.flat || core.scoop.is_some() {
        return None;
    }
    let end = core.middle.0 + 0.5 * core.size.2;
    let found = (end, core.middle.1, core.size.1);
    upright(ink, scene, found, "cooler.face_height_m", system)
}

/// An upright dimension about a height, from what ends at `end`.
fn upright(
    ink: &mut Ink,
    scene: &Scene,
    (end, middle, size): (f64, f64, f64),
    input: &'static str,
    system: UnitSystem,
) -> Option<DimensionField> {
    let plane = ink.plane;
    let x = place(scene);
    let (low, high) = (middle - 0.5 * size, middle + 0.5 * size);
    let span = Span {
        from: plane.at(x, high),
        to: plane.at(x, low),
        ends: [plane.at(end, high), plane.at(end, low)],
        field: plane.at(x, middle),
    };
    Some(dimension(ink, &span, input, 0, size / INCHES, system))
}

/// Width of one core in the plan, on the side that it stands on.
pub fn width(ink: &mut Ink, scene: &Scene, system: UnitSystem) -> Option<DimensionField> {
    let core = &scene.frame.core;
    if core.scoop.is_some() {
        return None;
    }
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
        "cooler.face_width_m",
        0,
        one / INCHES,
        system,
    ))
}
