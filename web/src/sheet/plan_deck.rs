//! Plan: baffles with their seal, or the lid's edge, and the leaks past them.

use super::Part;
use super::air::{self, Heat};
use super::half::Half;
use super::ink::{Ink, Layer};
use super::path::{Corner, Outline, corner};
use super::proportions::{Frame, MOUTH, SIDE_BAFFLE};
use super::scene::Scene;

/// Baffles with their seal, or the edge of the lid, and the leaks past them.
pub fn draw(ink: &mut Ink, scene: &Scene, half: Half) {
    let frame = &scene.frame;
    let class = scene.class("cut", Part::UpperDeck);
    let front = frame.front_baffle;
    let corner_start = (front, SIDE_BAFFLE - 2.2);
    let rim = [
        corner_start,
        (front + 1.6, SIDE_BAFFLE),
        (frame.rear_baffle, SIDE_BAFFLE),
        (frame.rear_baffle, 0.0),
    ];
    if let Some(mouth) = frame.front_mouth(half.side) {
        let (inner, outer) = (
            (mouth.inner() - 0.7).max(4.3),
            (mouth.inner() + mouth.width + 0.7).min(SIDE_BAFFLE - 2.3),
        );
        ink.line(
            Layer::Metal,
            &class,
            &half.all(&[(front, 4.2), (front, inner)]),
        );
        ink.line(
            Layer::Metal,
            &class,
            &half.all(&[(front, outer), corner_start]),
        );
        for (from, to) in [(mouth.inner(), inner), (mouth.inner() + mouth.width, outer)] {
            let ramp = half.all(&[(MOUTH + 2.4, from), (front, to)]);
            ink.line(Layer::Metal, "p nofill", &ramp);
        }
    } else {
        ink.line(
            Layer::Metal,
            &class,
            &half.all(&[(front, 4.2), corner_start]),
        );
    }
    let rim = half.all(&rim);
    if frame.plenum {
        ink.line(Layer::Metal, &scene.class("lid", Part::UpperDeck), &rim);
        ink.line(Layer::Metal, "lid-i", &rim);
    } else {
        ink.line(Layer::Metal, &scene.class("cut", Part::UpperDeck), &rim);
        ink.line(
            Layer::Metal,
            &scene.class("seal", Part::UpperDeck),
            &rim[1..],
        );
    }
    if let Some(area) = frame.across {
        wall(ink, scene, half, area);
    }
    fasteners(ink, frame, half);
    leaks(ink, scene, half);
}

/// The wall between the halves of the deck, with its opening.
fn wall(ink: &mut Ink, scene: &Scene, half: Half, area_in2: f64) {
    /// Height of the deck over the crankcase, in, for the width of the opening.
    const HEIGHT: f64 = 4.0;
    let frame = &scene.frame;
    let (front, rear) = (frame.front_baffle, frame.rear_baffle);
    let gap = (area_in2 / HEIGHT).min(0.8 * (rear - front));
    let middle = 0.5 * (front + rear);
    let class = scene.class("cut", Part::UpperDeck);
    for (from, to) in [(front, middle - 0.5 * gap), (middle + 0.5 * gap, rear)] {
        ink.line(Layer::Metal, &class, &half.all(&[(from, 0.0), (to, 0.0)]));
    }
}

/// Rivets of the lid's flange, or the inward folds of the seal.
fn fasteners(ink: &mut Ink, frame: &Frame, half: Half) {
    let plane = ink.plane;
    let start = half.at(frame.front_baffle + 2.6, SIDE_BAFFLE);
    let step = if frame.plenum { 1.6 } else { 1.25 };
    // Each mark: where it begins, and how far it goes.
    let mut strokes: Vec<(f64, f64, f64, f64)> = Vec::new();
    let mut x = frame.front_baffle + 2.6;
    while x < frame.rear_baffle - 0.4 {
        if frame.plenum {
            strokes.push((x, SIDE_BAFFLE - 0.6, 0.05, 0.0));
        } else {
            strokes.push((x, SIDE_BAFFLE, -0.5, -0.75));
        }
        x += step;
    }
    if !frame.plenum {
        let mut v = 2.0;
        while v < SIDE_BAFFLE - 0.6 {
            strokes.push((frame.rear_baffle, v, -0.75, 0.5));
            v += step;
        }
    }
    let start = Outline::start(plane.at(start.0, start.1));
    let marks = strokes.iter().fold(start, |marks, &(x, v, dx, dv)| {
        let (a, b) = (half.at(x, v), half.at(x + dx, v + dv));
        marks.jump(plane.at(a.0, a.1)).line(plane.at(b.0, b.1))
    });
    let class = if frame.plenum { "rivet" } else { "tick" };
    ink.path(Layer::Metal, class, &marks);
}

fn leaks(ink: &mut Ink, scene: &Scene, half: Half) {
    let Some(readout) = scene.readout else { return };
    let frame = &scene.frame;
    let heat = Heat {
        outside_k: readout.outside_k,
    };
    let colour = heat.edge(readout.upper_k);
    let plane = ink.plane;
    let place = |points: [(f64, f64); 2]| {
        points.map(|(x, v)| {
            let (a, b) = half.at(x, v);
            corner(plane.at(a, b), 0.0)
        })
    };
    let mut all: Vec<[Corner; 2]> = Vec::new();
    let beside_side = |x: f64| [(x - 0.4, SIDE_BAFFLE - 1.3), (x + 0.3, SIDE_BAFFLE + 1.6)];
    all.push(place(beside_side(frame.first() + 2.6)));
    if !frame.plenum {
        all.push(place(beside_side(frame.rear_baffle - 3.4)));
    }
    all.push(place([
        (frame.rear_baffle - 1.3, 14.4),
        (frame.rear_baffle + 1.7, 14.9),
    ]));
    for leak in &all {
        air::arrow(ink, leak, &colour, scene.leak_reversed());
    }
}
