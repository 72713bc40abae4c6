//! Dimensions of the selected part, and the fields that they are edited in.

use super::cooler_dimensions::{height, hose, width};
use super::front::mouth_middle;
use super::hit::rectangle;
use super::ink::{Anchor, FIELD, Ink, Layer};
use super::mouths::INCHES;
use super::path::Outline;
use super::point::{Area, Point, point};
use super::proportions::MOUTH;
use super::scene::Scene;
use super::words;
use super::{Part, View};
use crate::kit::svg_text::escaped;
use coolpath_core::document::installation::Installation;
use coolpath_core::document::table;
use coolpath_core::units::typed::UnitSystem;

/// A dimension whose value can be edited in place.
#[derive(Debug, Clone, PartialEq)]
pub struct DimensionField {
    /// Id of the input.
    pub input: &'static str,
    /// Its place in the list of inlets or exits.
    pub place: usize,
    /// Value, m.
    pub metres: f64,
    /// Value as it is written.
    pub text: String,
    /// Box of the field, px.
    pub area: Area,
    /// Box that can be clicked or tapped, px.
    pub hit: Area,
}

/// Height of a field, px.
const HEIGHT: f64 = 26.0;
/// Shorter dimensions have their arrows outside, px.
const SHORT: f64 = 34.0;

/// What is dimensioned between two points.
pub(super) struct Span {
    /// The measured points.
    pub(super) from: Point,
    pub(super) to: Point,
    /// Where the extension lines begin.
    pub(super) ends: [Point; 2],
    /// Middle of the field.
    pub(super) field: Point,
}

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
        (Some(Part::Cooler), View::Side) => height(ink, scene, system).into_iter().collect(),
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
        "exit.gap_m",
        lip.place,
        lip.gap / INCHES,
        system,
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
            "exit.width_m",
            lip.place,
            metres,
            system,
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
        ids.1,
        mouth.place,
        mouth.height / INCHES,
        system,
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
        ids.0,
        mouth.place,
        mouth.width / INCHES,
        system,
    ))
}

/// Extension lines with a gap, arrows of 8 × 4.8 px, and the value in a field.
pub(super) fn dimension(
    ink: &mut Ink,
    span: &Span,
    input: &'static str,
    place: usize,
    metres: f64,
    system: UnitSystem,
) -> DimensionField {
    let text = words::length(metres, system);
    let width = FIELD.width(&text, ink.widths) + 18.0;
    let along = span.to.from(span.from);
    let (length, ahead) = (along.length(), along.unit());
    let level = ahead.x.abs() > ahead.y.abs();
    for (end, p) in span.ends.iter().zip([span.from, span.to]) {
        let out = p.from(*end);
        if out.length() > 5.0 {
            let out = out.unit();
            let line = Outline::through(&[
                end.moved(out.x * 3.0, out.y * 3.0),
                p.moved(out.x * 5.0, out.y * 5.0),
            ]);
            ink.path(Layer::Dimensions, "dimex", &line);
        }
    }
    let middle = span.from.toward(span.to, 0.5);
    let inline = span.field.from(middle).length() < 1.0;
    let outside = length < SHORT || (inline && level && length < width + 26.0);
    let step = |p: Point, by: f64| p.moved(ahead.x * by, ahead.y * by);
    if outside {
        let lines = Outline::through(&[step(span.from, -16.0), span.from])
            .jump(span.to)
            .line(step(span.to, 16.0));
        ink.path(Layer::Dimensions, "dimln", &lines);
    } else {
        let line = Outline::through(&[span.from, span.to]);
        ink.path(Layer::Dimensions, "dimln", &line);
    }
    if !inline {
        // The line goes on to the field.
        let near = if span.field.from(span.from).length() < span.field.from(span.to).length() {
            span.from
        } else {
            span.to
        };
        let line = Outline::through(&[near, span.field]);
        ink.path(Layer::Dimensions, "dimln", &line);
    }
    let turn = if outside { -1.0 } else { 1.0 };
    head(ink, span.from, ahead.times(-turn));
    head(ink, span.to, ahead.times(turn));
    // A value that has no room on its line stands beneath it.
    let field = if inline && outside {
        if level {
            span.field.moved(0.0, 21.0)
        } else {
            span.field.moved(0.5 * width + 14.0, 0.0)
        }
    } else {
        span.field
    };
    let area = Area::about(field, width, HEIGHT);
    DimensionField {
        input,
        place,
        metres,
        text,
        area,
        hit: area,
    }
}

fn head(ink: &mut Ink, tip: Point, ahead: Point) {
    let side = ahead.turned();
    let at = |along: f64, aside: f64| {
        tip.moved(
            ahead.x * along + side.x * aside,
            ahead.y * along + side.y * aside,
        )
    };
    let outline = Outline::through(&[tip, at(-8.0, -2.4), at(-8.0, 2.4)]).closed();
    ink.path(Layer::Dimensions, "dimah", &outline);
}

impl DimensionField {
    /// What it is called: its entry's own name and what is measured, such as "Left inlet width".
    fn name(&self, installation: &Installation) -> String {
        // What follows a comma tells how to measure it.
        let label = table::by_id(self.input).map_or("", |input| input.label);
        let label = label.split(',').next().unwrap_or(label);
        let inlet = installation.inlets.get(self.place).map(|entry| &entry.name);
        let exit = installation.exits.get(self.place).map(|entry| &entry.name);
        let entry = label
            .strip_prefix("Inlet ")
            .zip(inlet)
            .or_else(|| label.strip_prefix("Exit ").zip(exit));
        match entry {
            Some((measured, name)) if !name.trim().is_empty() => format!("{name} {measured}"),
            _ => label.to_owned(),
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
