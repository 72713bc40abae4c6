//! Dimensions of the selected part, and the fields that they are edited in.

use super::cooler_dimensions::{hose, side, width};
pub use super::dimension_line::DimensionField;
use super::dimension_line::{Span, Told, dimension};
use super::front::mouth_middle;
use super::hit::rectangle;
use super::ink::{Anchor, FIELD, Ink, Layer};
use super::mouths::INCHES;
use super::point::{Area, point};
use super::proportions::MOUTH;
use super::scene::Scene;
use super::{Part, View};
use crate::kit::svg_text::escaped;
use coolpath_core::document::installation::Installation;
use coolpath_core::document::table;
use coolpath_core::units::typed::UnitSystem;

/// Draws the dimensions of the selected part in a view.
pub fn draw(
    ink: &mut Ink,
    scene: &Scene,
    view: View,
    alone: bool,
    system: UnitSystem,
) -> Vec<DimensionField> {
    match (scene.selected, view) {
        (Some(Part::Exit), View::Side) => exit_gap(ink, scene, system).into_iter().collect(),
        (Some(Part::Exit), View::Front) => exit_widths(ink, scene, system, false),
        (Some(Part::Exit), View::Plan) if alone => exit_widths(ink, scene, system, true),
        (Some(Part::Inlets), View::Side) => inlet_height(ink, scene, system).into_iter().collect(),
        (Some(Part::Shutter), View::Side) => hose(ink, scene, system).into_iter().collect(),
        (Some(Part::Cooler), View::Side) => side(ink, scene, system),
        (Some(Part::Cooler), View::Plan) => width(ink, scene, system).into_iter().collect(),
        (Some(Part::Inlets), View::Front) => inlet_width(ink, scene, system).into_iter().collect(),
        _ => Vec::new(),
    }
}

fn exit_gap(ink: &mut Ink, scene: &Scene, system: UnitSystem) -> Option<DimensionField> {
    let frame = &scene.frame;
    let lip = frame.main_exit().filter(|lip| lip.measured)?;
    let plane = ink.plane;
    let x = (frame.firewall + 9.4).min(scene.reach.right - 3.4);
    let closed = frame.closed_tip;
    let span = Span {
        from: plane.at(x, frame.bottom),
        to: plane.at(x, closed.1),
        ends: [
            plane.at(x - 0.5, frame.bottom),
            plane.at(closed.0, closed.1),
        ],
        // In the cabin, where it covers no air.
        field: plane.at(x, frame.bottom).moved(0.0, -30.0),
    };
    Some(dimension(
        ink,
        &span,
        Told::length("exit.gap_m", lip.place, lip.gap / INCHES, system),
    ))
}

fn exit_widths(
    ink: &mut Ink,
    scene: &Scene,
    system: UnitSystem,
    plan: bool,
) -> Vec<DimensionField> {
    let plane = ink.plane;
    let frame = &scene.frame;
    let mut fields = Vec::new();
    for lip in frame.lips.iter().filter(|lip| lip.measured) {
        let (a, b) = (lip.middle - 0.5 * lip.width, lip.middle + 0.5 * lip.width);
        let span = if plan {
            let x = frame.firewall + 8.2;
            let aft = frame.firewall + 2.4;
            Span {
                from: plane.at(x, a),
                to: plane.at(x, b),
                ends: [plane.at(aft, a), plane.at(aft, b)],
                field: plane.at(x, lip.middle),
            }
        } else {
            let z = frame.bottom + 1.2;
            Span {
                from: plane.at(a, z).moved(0.0, -6.0),
                to: plane.at(b, z).moved(0.0, -6.0),
                ends: [plane.at(a, frame.bottom), plane.at(b, frame.bottom)],
                field: plane.at(lip.middle, z).moved(0.0, -6.0),
            }
        };
        let metres = lip.width / INCHES;
        fields.push(dimension(
            ink,
            &span,
            Told::length("exit.width_m", lip.place, metres, system),
        ));
    }
    fields
}

/// Ids of an inlet's width and height.
fn inlet_ids(ring: bool) -> (&'static str, &'static str) {
    if ring {
        ("inlet.diameter_m", "inlet.diameter_m")
    } else {
        ("inlet.width_m", "inlet.height_m")
    }
}

fn inlet_height(ink: &mut Ink, scene: &Scene, system: UnitSystem) -> Option<DimensionField> {
    let frame = &scene.frame;
    let mouth = frame.shown_mouth().filter(|mouth| mouth.measured)?;
    let plane = ink.plane;
    let (low, high) = (mouth.up - 0.5 * mouth.height, mouth.up + 0.5 * mouth.height);
    let x = -4.8;
    let span = Span {
        from: plane.at(x, high),
        to: plane.at(x, low),
        ends: [plane.at(MOUTH, high), plane.at(MOUTH, low)],
        // Below the stream that enters.
        field: plane.at(x, low.min(mouth.up - 1.6)).moved(0.0, 32.0),
    };
    let ids = inlet_ids(mouth.form == super::mouths::Form::Ring);
    Some(dimension(
        ink,
        &span,
        Told::length(ids.1, mouth.place, mouth.height / INCHES, system),
    ))
}

fn inlet_width(ink: &mut Ink, scene: &Scene, system: UnitSystem) -> Option<DimensionField> {
    let frame = &scene.frame;
    let mouth = frame
        .front_mouth(-1.0)
        .or_else(|| frame.front_mouth(1.0))
        .filter(|mouth| mouth.measured)?;
    let plane = ink.plane;
    let (u, z) = mouth_middle(frame, mouth);
    let low = z - 0.5 * mouth.height - 2.0 * mouth.lip;
    let down = |u: f64| plane.at(u, low).moved(0.0, 22.0);
    let (left, right) = (u - 0.5 * mouth.width, u + 0.5 * mouth.width);
    let edge = z - 0.5 * mouth.height;
    let span = Span {
        from: down(left),
        to: down(right),
        ends: [plane.at(left, edge), plane.at(right, edge)],
        field: down(u),
    };
    let ids = inlet_ids(mouth.form == super::mouths::Form::Ring);
    Some(dimension(
        ink,
        &span,
        Told::length(ids.0, mouth.place, mouth.width / INCHES, system),
    ))
}

impl DimensionField {
    /// What it is called: its entry's own name and what is measured, such as "Left inlet width".
    fn name(&self, installation: &Installation) -> String {
        // What follows a comma tells how to measure it.
        let label = table::by_id(self.input).map_or("", |input| input.label);
        let label = label.split(',').next().unwrap_or(label);
        let inlet = installation.inlets.get(self.place).map(|entry| &entry.name);
        let exit = installation.exits.get(self.place).map(|entry| &entry.name);
        let (entry, begins) = match self.input.split_once('.') {
            Some(("inlet", _)) => (inlet, "Inlet "),
            Some(("exit", _)) => (exit, "Exit "),
            _ => (None, ""),
        };
        match (
            entry.filter(|name| !name.trim().is_empty()),
            label.strip_prefix(begins),
        ) {
            (Some(name), Some(measured)) => format!("{name} {measured}"),
            // Another language may name it in one word.
            (Some(name), None) => format!("{name}: {label}"),
            (None, _) => label.to_owned(),
        }
    }

    /// Puts the field into a room, with an area about it that a pointer can hit.
    pub fn settle(&mut self, room: &Area, frame: &Area, least: f64) {
        self.area = self.area.kept_in(room);
        let (width, height) = (self.area.width().max(least), self.area.height().max(least));
        self.hit = Area::about(self.area.middle(), width, height).kept_in(frame);
    }
}

/// A field as it is drawn; the page lays its input over it.
pub fn field(ink: &mut Ink, field: &DimensionField, installation: &Installation) {
    let name = escaped(&field.name(installation));
    let open = format!(
        "<g class=\"dimbox\" data-dimension=\"{}\" data-place=\"{}\" role=\"button\" \
         tabindex=\"0\" aria-label=\"{name}, {}\"><rect class=\"hit\" {}/>\
         <rect class=\"dimbg\" {} rx=\"4\"/>",
        field.input,
        field.place,
        escaped(&field.text),
        rectangle(&field.hit),
        rectangle(&field.area)
    );
    ink.raw(Layer::Tags, &open, field.area);
    let middle = field.area.middle();
    let at = point(middle.x, middle.y + 5.0);
    ink.text(Layer::Tags, &FIELD, at, Anchor::Middle, &field.text);
    ink.raw(Layer::Tags, "</g>", Area::NOTHING);
}
