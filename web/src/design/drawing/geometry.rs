//! Where everything stands in the side view: from the design's inches to the drawing's units.
//!
//! Inlet and exit heights, the cooler's height and depth and the duct's diameter are to one
//! scale; the cowl around them is a sketch.

use coolpath_core::answer::evaluate::Answer;
use coolpath_core::document::installation::{ExitShape, InletShape, Installation};
use coolpath_core::path::butterfly;

/// Width of the drawing, units.
pub const WIDTH: f64 = 480.0;
/// Height of the drawing, units.
pub const HEIGHT: f64 = 400.0;
/// Units per metre of the parts that are to scale.
const PER_METRE: f64 = 10.0 / 0.0254;
/// Widest stream, units.
const STREAM_MAX: f64 = 26.0;
/// Thinnest stream that is still seen, units.
const STREAM_MIN: f64 = 1.5;

/// Firewall's place, units from the left.
pub const FIREWALL_X: f64 = 392.0;
/// Lower end of the firewall, units from the top.
pub const FIREWALL_END: f64 = 300.0;

/// Sizes in drawing units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sizes {
    /// Height of the first inlet.
    pub inlet: f64,
    /// Gap of the first exit.
    pub exit: f64,
    /// Height of the cooler's core.
    pub cooler_height: f64,
    /// Depth of the cooler's core.
    pub cooler_depth: f64,
    /// Diameter of the cooler's duct.
    pub duct: f64,
    /// Angle of the shutter's disc from open, degrees.
    pub shutter_deg: f64,
}

/// Widths of the streams, drawing units, in proportion to their mass flow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Streams {
    /// Through the inlets.
    pub inlet: f64,
    /// Through the fins.
    pub fins: f64,
    /// Past the seals.
    pub leak: f64,
    /// Through the cooler.
    pub cooler: f64,
    /// Through the exits.
    pub exit: f64,
}

/// How hot a stream is, in five steps that also differ in dash and word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Heat {
    /// Within 10 K of the outside air.
    Cool,
    /// Up to 35 K above it.
    Mild,
    /// Up to 65 K above it.
    Warm,
    /// Hotter.
    Hot,
}

impl Heat {
    /// Step of a temperature above the outside air, K.
    #[must_use]
    pub fn of(above_outside_k: f64) -> Self {
        match above_outside_k {
            k if k < 10.0 => Self::Cool,
            k if k < 35.0 => Self::Mild,
            k if k < 65.0 => Self::Warm,
            _ => Self::Hot,
        }
    }

    /// Style class of a stream.
    #[must_use]
    pub fn class(self) -> &'static str {
        match self {
            Self::Cool => "stream heat-cool",
            Self::Mild => "stream heat-mild",
            Self::Warm => "stream heat-warm",
            Self::Hot => "stream heat-hot",
        }
    }
}

/// Height of an inlet's opening, m.
fn inlet_height_m(installation: &Installation) -> f64 {
    installation
        .inlets
        .first()
        .map_or(0.05, |inlet| match inlet.shape {
            InletShape::Rectangle => inlet.height.value,
            InletShape::Ring => inlet.diameter.value,
            InletShape::Traced => inlet.traced_area.value.sqrt(),
        })
}

/// Gap of an exit, m; an exit known by its area is drawn as wide as a usual cowl bottom.
fn exit_gap_m(installation: &Installation, flap: f64) -> f64 {
    const USUAL_WIDTH_M: f64 = 0.36;
    installation.exits.first().map_or(0.08, |exit| {
        let width = match exit.shape {
            ExitShape::LipGap => exit.width.value,
            ExitShape::Traced | ExitShape::Louvers => USUAL_WIDTH_M,
        };
        exit.area_m2(flap).max(0.0) / width.max(0.05)
    })
}

/// Sizes of an installation, with its flap and shutter where they stand.
#[must_use]
pub fn sizes(installation: &Installation, flap: f64, opening: f64) -> Sizes {
    let units = |metres: f64, most: f64| (metres * PER_METRE).clamp(2.0, most);
    Sizes {
        inlet: units(inlet_height_m(installation), 78.0),
        exit: units(exit_gap_m(installation, flap), 74.0),
        cooler_height: units(installation.cooler.core_height_m(), 100.0),
        cooler_depth: units(installation.cooler.depth.value, 44.0),
        duct: units(installation.cooler.duct_diameter.value, 64.0),
        shutter_deg: butterfly::angle_from_open(opening),
    }
}

/// Stream widths of an answer.
#[must_use]
pub fn streams(answer: &Answer) -> Streams {
    let most = [
        answer.inlet_flow.value,
        answer.exit_flow.value,
        answer.fin_flow.value,
    ]
    .into_iter()
    .fold(1e-9, |most: f64, flow| most.max(flow.abs()));
    let width = |flow: f64| (flow.abs() / most * STREAM_MAX).clamp(STREAM_MIN, STREAM_MAX);
    Streams {
        inlet: width(answer.inlet_flow.value),
        fins: width(answer.fin_flow.value),
        leak: width(answer.leak_flow.value),
        cooler: width(answer.cooler_flow.value),
        exit: width(answer.exit_flow.value),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::evaluate::evaluate;
    use coolpath_core::document::example;

    #[test]
    fn parts_are_to_one_scale() {
        let design = example::design();
        let sizes = sizes(&design.installation, 0.0, 1.0);
        let inlet = &design.installation.inlets[0];
        let cooler = &design.installation.cooler;
        let per_metre = sizes.inlet / inlet.height.value;
        assert!((sizes.duct / cooler.duct_diameter.value - per_metre).abs() < 1e-9);
        assert!((sizes.cooler_height / cooler.face_height.value - per_metre).abs() < 1e-9);
        assert_eq!(sizes.shutter_deg, 0.0);
    }

    #[test]
    fn stream_widths_are_in_proportion_to_the_flows() {
        let answer = evaluate(&example::design(), 1).expect("solved");
        let widths = streams(&answer);
        let ratio = answer.fin_flow.value / answer.inlet_flow.value;
        assert!((widths.fins / widths.inlet - ratio).abs() < 1e-9);
        assert!(widths.leak < widths.fins);
    }
}
