//! Front view: the aircraft's right half from outside, its left half in section at cylinder 1.
//!
//! u runs to the aircraft's left, which is the page's right; z runs up.

use super::Part;
use super::air::{self, Heat, Spacing};
use super::core_place::SCOOP_WIDTH;
use super::ink::{Ink, Layer};
use super::mouths::{Form, Mouth, Station};
use super::path::{Outline, corner, cubic_points, height_at};
use super::proportions::{Frame, SIDE_BAFFLE};
use super::scene::{Scene, broken, fin_step};
use super::side_ways::belly_mouth;

/// Draws the view.
pub fn draw(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    for side in [1.0, -1.0] {
        let body = cowl(ink, frame, side);
        ink.path(Layer::Beyond, "fillp2", &body);
    }
    cylinder(ink, scene);
    if scene.readout.is_some() {
        fin_air(ink, scene);
    }
    deck(ink, scene);
    exits(ink, scene);
    for side in [1.0, -1.0] {
        let body = cowl(ink, frame, side);
        ink.path(Layer::Metal, "o nofill", &body);
    }
    scoop(ink, scene);
    for mouth in &frame.mouths {
        inlet(ink, scene, mouth);
    }
    propeller(ink, scene);
    let (half, top) = (frame.half_width, frame.top);
    ink.line(
        Layer::Metal,
        "c",
        &[(0.0, top + 1.6), (0.0, frame.chin - 0.8)],
    );
    ink.line(Layer::Metal, "c", &[(-half - 1.4, 0.0), (half + 1.4, 0.0)]);
}

/// Half of the exits' whole width, in.
#[must_use]
pub fn half_exit(frame: &Frame) -> f64 {
    frame
        .lips
        .iter()
        .map(|lip| lip.middle.abs() + 0.5 * lip.width)
        .fold(3.0, f64::max)
}

fn top_curve(frame: &Frame) -> [(f64, f64); 4] {
    let (half, top) = (frame.half_width, frame.top);
    [
        (0.0, top),
        (0.62 * half, top),
        (half, 0.86 * top),
        (half, 0.6),
    ]
}

fn cowl(ink: &Ink, frame: &Frame, side: f64) -> Outline {
    let half = frame.half_width;
    let flat = half_exit(frame);
    let turned = |points: [(f64, f64); 4]| points.map(|(u, z)| (side * u, z));
    let top = turned(top_curve(frame));
    let bottom = turned([
        (half, 0.6),
        (half, 0.9 * frame.bottom),
        ((flat + 6.5).min(half), frame.chin),
        ((flat + 0.4).min(half - 1.0), frame.chin),
    ]);
    ink.cubics(&[top, bottom])
        .line(ink.plane.at(0.0, frame.chin))
}

fn boxed(ink: &mut Ink, class: &str, a: (f64, f64), b: (f64, f64), radius: f64) {
    let outline = Outline::rounded(ink.plane.area(a, b), ink.plane.px(radius));
    ink.path(Layer::Beyond, class, &outline);
}

/// Upright or level fins of a cylinder between two places.
fn fins(ink: &Ink, from: f64, to: f64, half: f64) -> Outline {
    let step = fin_step(&ink.plane);
    let mut outline = Outline::start(ink.plane.at(from, half));
    let mut u = from;
    while u < to {
        outline = outline
            .jump(ink.plane.at(u, half))
            .line(ink.plane.at(u, -half));
        u += step;
    }
    outline
}

fn cylinder(ink: &mut Ink, scene: &Scene) {
    let plane = ink.plane;
    let case = Outline::start(plane.at(0.0, 4.1))
        .line(plane.at(3.0, 4.1))
        .arc(plane.at(3.0, 3.0), plane.px(1.1), -90.0, 0.0)
        .arc(plane.at(3.0, -3.0), plane.px(1.1), 0.0, 90.0)
        .line(plane.at(0.0, -4.1));
    ink.path(Layer::Beyond, "p fillp", &case.closed());
    ink.line(
        Layer::Beyond,
        "t fillp",
        &[(0.0, -4.1), (3.4, -4.1), (3.0, -8.0), (0.0, -8.0)],
    );
    boxed(ink, "p fillf", (4.0, 3.45), (9.3, -3.45), 0.0);
    let head = scene.class("p fillf", Part::Engine);
    boxed(ink, &head, (9.3, 3.6), (14.6, -3.6), 0.2);
    boxed(ink, "p fillp", (14.6, 2.7), (16.1, -2.7), 0.5);
    let all = fins(ink, 4.5, 9.1, 3.45).and(&fins(ink, 9.65, 14.4, 3.6));
    ink.path(Layer::Beyond, "fin", &all);
}

/// The air that passes one cylinder.
fn fin_air(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    let Some(readout) = scene.readout else { return };
    let plane = ink.plane;
    let heat = Heat {
        outside_k: readout.outside_k,
    };
    let each = readout.fin_kg_s / (2.0 * frame.cylinders.len().max(1) as f64);
    let reversed = each < 0.0;
    let lid = if frame.plenum {
        frame.lid
    } else {
        frame.top - 2.0
    };
    let top = 0.5 * (3.6 + lid) + 0.3;
    let (mut above, mut behind) = (readout.before_fins_k, readout.behind_fins_k);
    if reversed {
        core::mem::swap(&mut above, &mut behind);
    }
    let paint = heat.gradient(
        ink,
        &[(0.0, above), (0.3, above), (0.8, behind), (1.0, behind)],
        plane.at(0.0, 3.5),
        plane.at(0.0, -5.5),
    );
    let mut way = vec![
        corner(plane.at(9.4, top), 0.0),
        corner(plane.at(9.4, -6.9), 0.0),
    ];
    if reversed {
        way.reverse();
    }
    let width = air::width_px(each, plane.scale);
    let track = air::lane(ink, &way, width, &paint, reversed);
    for (first, kelvin) in [
        (plane.px(1.0), if reversed { behind } else { above }),
        (
            track.length() - plane.px(1.1),
            if reversed { above } else { behind },
        ),
    ] {
        let spacing = Spacing {
            first,
            before_end: 0.0,
            step: 1e6,
        };
        air::chevrons(ink, &track, 1.6 * width, &heat.edge(kelvin), spacing, false);
    }
    let colour = heat.edge(readout.upper_k);
    air::across(ink, plane.at(9.4, top + 0.9), &colour, !reversed);
}

/// Baffles, seal or lid, and the leak past them.
fn deck(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    let plane = ink.plane;
    ink.line(Layer::Metal, "p", &[(4.4, -4.05), (8.6, -4.05)]);
    ink.line(Layer::Metal, "p", &[(10.2, -4.2), (14.6, -4.2)]);
    let skin = cubic_points(top_curve(frame), 30);
    let at_baffle = height_at(&skin, SIDE_BAFFLE);
    let end = if frame.plenum {
        frame.lid - 2.2
    } else {
        at_baffle - 1.9
    };
    let end = end.max(2.5);
    let class = scene.class("cut", Part::UpperDeck);
    ink.line(
        Layer::Metal,
        &class,
        &[
            (SIDE_BAFFLE, end),
            (SIDE_BAFFLE, -3.6),
            (SIDE_BAFFLE - 1.4, -4.2),
        ],
    );
    let leak = if frame.plenum {
        let lid = ink.cubics(&[[
            (0.0, frame.lid + 0.2),
            (9.0, frame.lid + 0.2),
            (SIDE_BAFFLE, frame.lid - 0.2),
            (SIDE_BAFFLE, end),
        ]]);
        ink.path(Layer::Metal, &scene.class("lid", Part::UpperDeck), &lid);
        ink.path(Layer::Metal, "lid-i", &lid);
        vec![
            corner(plane.at(SIDE_BAFFLE - 1.2, 2.2), 0.0),
            corner(plane.at(SIDE_BAFFLE + 1.3, 1.6), 0.0),
        ]
    } else {
        let lifted = scene
            .readout
            .is_some_and(super::readout::Readout::pushed_back);
        let off = if lifted { 0.5 } else { 0.0 };
        let tip = SIDE_BAFFLE - 1.9;
        let seal = ink.cubics(&[[
            (SIDE_BAFFLE, end - 0.5),
            (SIDE_BAFFLE + 0.1, end + 0.7 - off),
            (SIDE_BAFFLE - 0.2, end + 1.35 - off),
            (tip, height_at(&skin, tip) - 0.45 - off),
        ]]);
        ink.path(Layer::Metal, &scene.class("seal", Part::UpperDeck), &seal);
        vec![
            corner(plane.at(SIDE_BAFFLE - 2.2, end - 0.6), 0.0),
            corner(
                plane.at(SIDE_BAFFLE - 0.35, at_baffle - 0.75),
                plane.px(0.7),
            ),
            corner(plane.at(SIDE_BAFFLE + 1.0, end + 0.4), plane.px(0.8)),
            corner(plane.at(SIDE_BAFFLE + 1.2, end - 2.2), 0.0),
        ]
    };
    if let Some(readout) = scene.readout {
        let heat = Heat {
            outside_k: readout.outside_k,
        };
        let colour = heat.edge(readout.upper_k);
        air::arrow(ink, &leak, &colour, scene.leak_reversed());
    }
}

/// The exits and their pipes, hidden behind the lower skin.
fn exits(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    for lip in &frame.lips {
        let (left, right) = (lip.middle - 0.5 * lip.width, lip.middle + 0.5 * lip.width);
        let bottom = frame.bottom - lip.gap;
        let class = scene.class("h", Part::Exit);
        let box_points = [
            (left, bottom),
            (left, frame.bottom),
            (right, frame.bottom),
            (right, bottom),
        ];
        ink.line(Layer::Metal, &class, &box_points);
        if let Some(pipe) = lip.pipe {
            let count = f64::from(lip.pipes);
            let apart = (0.45 * lip.width).min(6.0);
            let mut place = 0.0;
            while place < count {
                let u = lip.middle + (place - 0.5 * (count - 1.0)) * apart;
                let middle = ink.plane.at(u, frame.bottom - 0.5 * lip.gap);
                let circle = Outline::circle(middle, ink.plane.px(0.5 * pipe));
                ink.path(Layer::Metal, "h2", &circle);
                place += 1.0;
            }
        }
        if lip.flap && lip.open_gap > lip.gap + 0.05 {
            let open = frame.bottom - lip.open_gap;
            let flap = [
                (left, frame.chin),
                (left, open),
                (right, open),
                (right, frame.chin),
            ];
            ink.line(Layer::Metal, &scene.class("p nofill", Part::Exit), &flap);
        }
    }
}

fn scoop(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    let Some(scoop) = frame.core.scoop else {
        return;
    };
    let half = 0.5 * SCOOP_WIDTH;
    let (chin, floor) = (frame.chin, scoop.floor);
    let body = [
        (-half - 0.5, chin),
        (-half, floor - 0.25),
        (half, floor - 0.25),
        (half + 0.5, chin),
    ];
    ink.line(Layer::Metal, &scene.class("o fillm", Part::Cooler), &body);
    let mouth = ink
        .plane
        .area((-half + 0.2, chin - 0.1), (half - 0.2, floor));
    let outline = Outline::rounded(mouth, ink.plane.px(0.3));
    ink.path(Layer::Metal, "p void", &outline);
}

/// Outline of an inlet, grown by so many inches all round.
#[must_use]
pub fn mouth_outline(ink: &Ink, mouth: &Mouth, (u, z): (f64, f64), grown: f64) -> Outline {
    let plane = ink.plane;
    let (half_width, half_height) = (0.5 * mouth.width + grown, 0.5 * mouth.height + grown);
    match &mouth.form {
        Form::Ring => Outline::circle(plane.at(u, z), plane.px(half_width)),
        Form::Rounded(radius) => Outline::rounded(
            plane.area(
                (u - half_width, z + half_height),
                (u + half_width, z - half_height),
            ),
            plane.px((radius + grown).max(0.0)),
        ),
        Form::Traced(points) => {
            let (across, along) = (
                1.0 + 2.0 * grown / mouth.width,
                1.0 + 2.0 * grown / mouth.height,
            );
            // Traced from in front; the other side is its mirror image.
            let turned: Vec<(f64, f64)> = points
                .iter()
                .map(|&(x, y)| (u + mouth.side * x * across, z + y * along))
                .collect();
            ink.through(&turned).closed()
        }
    }
}

/// Middle of an inlet in the front view, in.
#[must_use]
pub fn mouth_middle(frame: &Frame, mouth: &Mouth) -> (f64, f64) {
    let u = mouth.side * mouth.outboard;
    match mouth.station {
        Station::Front => (u, mouth.up),
        Station::Belly => (u, belly_mouth(frame)),
        Station::Flush => (u, frame.top - 0.9 - 0.5 * mouth.height.min(3.0)),
    }
}

fn inlet(ink: &mut Ink, scene: &Scene, mouth: &Mouth) {
    let frame = &scene.frame;
    let (u, z) = mouth_middle(frame, mouth);
    let opening = mouth_outline(ink, mouth, (u, z), 0.0);
    match mouth.station {
        Station::Flush => {
            let class = scene.class("h", Part::Inlets);
            ink.path(Layer::Metal, &class, &opening);
            return;
        }
        Station::Front if mouth.side > 0.0 => {
            // It stands before the section.
            let class = scene.class("phantom", Part::Inlets);
            ink.path(Layer::Metal, &class, &opening);
        }
        Station::Front | Station::Belly => {
            let lip = mouth_outline(ink, mouth, (u, z), 2.0 * mouth.lip);
            ink.path(Layer::Metal, "t fillm", &lip);
            let class = scene.class("o void", Part::Inlets);
            ink.path(Layer::Metal, &class, &opening);
            if mouth.station == Station::Front {
                behind_mouth(ink, mouth, (u, z));
            }
        }
    }
    let (half_width, half_height) = (0.5 * mouth.width + 0.9, 0.5 * mouth.height + 0.9);
    ink.line(
        Layer::Metal,
        "c",
        &[(u - half_width, z), (u + half_width, z)],
    );
    ink.line(
        Layer::Metal,
        "c",
        &[(u, z - half_height), (u, z + half_height)],
    );
}

/// Fins of the cylinder seen through an inlet.
fn behind_mouth(ink: &mut Ink, mouth: &Mouth, (u, z): (f64, f64)) {
    let clip = ink.name();
    let outline = mouth_outline(ink, mouth, (u, z), -0.05);
    ink.defs.push_str(&format!(
        "<clipPath id=\"{clip}\"><path d=\"{}\"/></clipPath>",
        outline.data()
    ));
    let half = 0.5 * mouth.width;
    let (top, low) = ((z + 0.5 * mouth.height).min(3.3), z - 0.5 * mouth.height);
    if top <= low {
        return;
    }
    let step = fin_step(&ink.plane);
    let mut fins = Outline::start(ink.plane.at(u - half, top)).line(ink.plane.at(u + half, top));
    let mut at = u - half;
    while at < u + half {
        fins = fins.jump(ink.plane.at(at, top)).line(ink.plane.at(at, low));
        at += step;
    }
    ink.styled(
        Layer::Metal,
        "fin",
        &fins,
        &format!(" clip-path=\"url(#{clip})\""),
    );
}

fn propeller(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    let plane = ink.plane;
    let px = |inches: f64| plane.px(inches);
    let radius = frame.spinner;
    for sign in [1.0, -1.0].into_iter().filter(|_| !frame.pusher) {
        let end = if sign > 0.0 {
            frame.top + 1.8
        } else {
            (frame.bottom + 0.6).max(-frame.top - 4.0)
        };
        let root = sign * 0.8 * radius;
        for edge in [
            [(-1.4, root), (-2.6, 0.62 * end), (-2.2, end)],
            [(2.2, end), (2.3, 0.62 * end), (1.5, root)],
        ] {
            ink.line(Layer::Metal, "phantom2", &edge);
        }
        let (from, to) = (plane.at(-2.6, end), plane.at(2.6, end));
        ink.path(Layer::Metal, "t2", &broken(from, to, px(0.35)));
    }
    let middle = plane.at(0.0, 0.0);
    // The half in front of the outside is seen, the other stands before the section.
    let left = |r: f64| Outline::start(middle.around(r, 90.0)).arc(middle, r, 90.0, 270.0);
    let right =
        Outline::start(middle.around(px(radius), -90.0)).arc(middle, px(radius), -90.0, 90.0);
    ink.path(
        Layer::Metal,
        &scene.class("o fillp", Part::Propeller),
        &left(px(radius)),
    );
    ink.path(Layer::Metal, "t nofill", &left(px(radius + 0.55)));
    ink.path(Layer::Metal, "t nofill", &left(px(0.42 * radius)));
    ink.path(Layer::Metal, "phantom2", &right);
    ink.path(Layer::Metal, "p fillm", &Outline::circle(middle, px(1.2)));
}
