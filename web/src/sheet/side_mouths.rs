//! Inlets in section: lips, their ducts, scoops under the chin and flush inlets.

use super::Part;
use super::fills::cut_fill;
use super::ink::{Ink, Layer};
use super::mouths::{Edge, Mouth, Station};
use super::path::Outline;
use super::point::Plane;
use super::proportions::MOUTH;
use super::scene::Scene;

/// One lip in section: from its inner wall round its nose to its outside.
#[derive(Debug, Clone, Copy)]
pub struct LipSection {
    /// +1 for the upper or outboard lip, −1 for the other.
    pub sign: f64,
    /// Where the opening ends, second coordinate, in.
    pub edge: f64,
    /// Where the inner wall ends, in.
    pub wall: (f64, f64),
    /// Where the outer skin is met, in.
    pub skin: (f64, f64),
}

/// Draws a lip in section; its nose is an arc of the lip's radius, square, or a line.
pub fn lip_section(ink: &mut Ink, class: &str, mouth: &Mouth, lip: &LipSection) {
    let plane: Plane = ink.plane;
    let radius = mouth.lip;
    let x = MOUTH + radius;
    let inner = plane.at(x, lip.edge);
    let outer = plane.at(x, lip.edge + lip.sign * 2.0 * radius);
    let wall = plane.at(lip.wall.0, lip.wall.1);
    let around = |outline: Outline| match mouth.edge {
        Edge::Thin => outline.line(outer),
        Edge::Blunt => {
            let back = -plane.px(radius).max(0.8);
            outline
                .line(inner.moved(back, 0.0))
                .line(outer.moved(back, 0.0))
                .line(outer)
        }
        Edge::Round => {
            let middle = inner.toward(outer, 0.5);
            let up = if outer.y < inner.y { 1.0 } else { -1.0 };
            outline.arc(
                middle,
                plane.px(radius).max(0.8),
                180.0 - up * 90.0,
                180.0 + up * 90.0,
            )
        }
    };
    if mouth.edge != Edge::Thin {
        let aft = inner.moved(plane.px(1.5), 0.0);
        let body = around(Outline::start(aft).line(inner))
            .line(plane.at(lip.skin.0, lip.skin.1))
            .closed();
        let fill = cut_fill(ink);
        ink.styled(Layer::Metal, "lip", &body, &fill);
    }
    let line = around(Outline::start(wall).line(inner));
    ink.path(Layer::Metal, class, &line);
}

/// Lips and duct of the inlet that the section cuts.
pub fn mouth_section(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    let Some(mouth) = frame.shown_mouth() else {
        return;
    };
    let class = scene.class("o nofill", Part::Inlets);
    let half = 0.5 * mouth.height;
    // The duct's height grows with the root of its area.
    let (length, end) = mouth.diffuser.map_or((2.4, half), |(length, ratio)| {
        (length.max(0.5), half * ratio.max(1.0).sqrt())
    });
    for sign in [1.0, -1.0] {
        let reach = 2.4_f64.min(length.max(1.2));
        let wall = mouth.up + sign * (half + (end - half) * reach / length.max(reach));
        let x = MOUTH + mouth.lip;
        let edge = mouth.up + sign * half;
        let outer = edge + sign * 2.0 * mouth.lip;
        let skin = if sign > 0.0 {
            (x + 1.1, frame.skin_above(x + 1.1))
        } else {
            (x + 0.25, outer)
        };
        let section = LipSection {
            sign,
            edge,
            wall: (MOUTH + reach, wall),
            skin,
        };
        lip_section(ink, &class, mouth, &section);
        if mouth.diffuser.is_some() {
            // On to the deck, or as far as there is room.
            let far = length.min(frame.front_baffle - MOUTH + 1.0);
            let grown = mouth.up + sign * (half + (end - half) * far / length);
            let duct = [(MOUTH + reach, wall), (MOUTH + far.max(reach), grown)];
            ink.line(Layer::Metal, "p", &duct);
        }
    }
}

/// Scoops under the chin and flush inlets in the top skin.
pub fn other_mouths(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    let class = scene.class("o nofill", Part::Inlets);
    let tallest = |station: Station| {
        frame
            .mouths
            .iter()
            .filter(|mouth| mouth.station == station)
            .map(|mouth| mouth.height)
            .reduce(f64::max)
    };
    if let Some(height) = tallest(Station::Belly) {
        let floor = frame.chin - height - 0.1;
        let rise = frame.front_baffle;
        let start = (rise - 3.6, floor);
        let scoop = ink.cubics(&[[
            start,
            (rise - 0.4, floor),
            (rise + 0.2, floor + 0.4 * height),
            (rise + 0.2, frame.chin + 1.2),
        ]]);
        let scoop = scoop.line(ink.plane.at(rise + 0.2, -3.4));
        ink.path(Layer::Metal, &class, &scoop);
        let nose = ink.plane.at(start.0, start.1);
        ink.path(
            Layer::Metal,
            "o fillm",
            &Outline::circle(nose, ink.plane.px(0.2)),
        );
        ink.line(
            Layer::Metal,
            &class,
            &[
                (rise - 2.6, frame.skin_below(rise - 2.6)),
                (rise - 2.6, -3.4),
            ],
        );
    }
    if let Some(height) = tallest(Station::Flush) {
        let x = frame.front_baffle - 2.6;
        let skin = frame.skin_above(x);
        let ramp = [
            (x - 1.0, frame.skin_above(x - 1.0)),
            (x + 1.8, skin - 0.2),
            (x + 4.2, frame.skin_above(x + 4.2) - height.min(3.0)),
        ];
        ink.line(Layer::Metal, &class, &ramp);
        let lip = ink.plane.at(x + 4.2, frame.skin_above(x + 4.2));
        ink.path(
            Layer::Metal,
            "o fillm",
            &Outline::circle(lip, ink.plane.px(0.2)),
        );
    }
}
