//! Side view: what lies beyond the section, and the bodies of hoses.

use super::Part;
use super::core_place::FLARE;
use super::ink::{Ink, Layer};
use super::number::short;
use super::path::{Corner, Outline, Track, corner};
use super::point::Area;
use super::proportions::{CASE, FINS, Frame};
use super::scene::{Scene, broken};

/// Draws propeller, crankcase, exhaust and barrels, then the hoses.
pub fn draw(ink: &mut Ink, scene: &Scene) {
    if scene.frame.pusher {
        propeller_behind(ink, scene);
    } else {
        blades(ink, &scene.frame);
    }
    engine(ink, &scene.frame);
    exhaust(ink, scene);
    spinner(ink, scene);
    for &x in &scene.frame.cylinders {
        let fins = Outline::circle(ink.plane.at(x, 0.0), ink.plane.px(FINS));
        ink.path(Layer::Beyond, "t2 fillf", &fins);
    }
    small_hoses(ink, &scene.frame);
    cooler_hose(ink, scene);
}

fn blades(ink: &mut Ink, frame: &Frame) {
    let end = frame.top + 1.8;
    for sign in [1.0, -1.0] {
        let (root, tip) = (0.75 * frame.spinner * sign, end * sign);
        let blade = [
            (-2.9, root),
            (-3.4, 0.55 * tip),
            (-3.1, tip),
            (-1.75, tip),
            (-1.3, 0.55 * tip),
            (-1.6, root),
        ];
        // The broken end has a line of its own.
        ink.line(Layer::Beyond, "t nofill", &blade[..3]);
        ink.line(Layer::Beyond, "t nofill", &blade[3..]);
        let (from, to) = (ink.plane.at(-3.5, tip), ink.plane.at(-1.4, tip));
        let height = ink.plane.px(0.35);
        ink.path(Layer::Beyond, "t2", &broken(from, to, height));
    }
}

/// A pusher's propeller, in thin broken lines: how far behind it turns is not known here.
fn propeller_behind(ink: &mut Ink, scene: &Scene) {
    let (x, frame) = (scene.reach.right - 1.2, &scene.frame);
    for end in [frame.top + 1.8, frame.bottom - 4.0] {
        let root = 0.25 * end;
        let blade = [
            (x - 0.8, root),
            (x - 1.0, end),
            (x + 0.6, end),
            (x + 0.4, root),
        ];
        ink.line(Layer::Beyond, "phantom2", &blade);
    }
}

fn boxed(ink: &mut Ink, class: &str, a: (f64, f64), b: (f64, f64), radius: f64) {
    let outline = Outline::rounded(ink.plane.area(a, b), ink.plane.px(radius));
    ink.path(Layer::Beyond, class, &outline);
}

fn engine(ink: &mut Ink, frame: &Frame) {
    let (first, baffle, wall) = (frame.first(), frame.rear_baffle, frame.firewall);
    for (rise, drop) in [(0.0, 0.0), (-0.6, 0.6)] {
        let upper = [(baffle + 0.6, 2.9 + rise), (wall - 0.1, 6.6 + rise)];
        let lower = [(baffle + 0.6, -3.4 + drop), (wall - 0.1, -7.4 + drop)];
        ink.line(Layer::Beyond, "t", &upper);
        ink.line(Layer::Beyond, "t", &lower);
    }
    let shaft = [
        (CASE, 1.5),
        (2.0, 1.5),
        (2.0, 3.0),
        (0.2, 3.0),
        (0.2, -3.0),
        (2.0, -3.0),
        (2.0, -1.5),
        (CASE, -1.5),
    ];
    ink.line(Layer::Beyond, "t fillp", &shaft);
    boxed(ink, "t fillp", (CASE, 3.9), (baffle + 0.6, -3.9), 0.8);
    let sump = [
        (first - 2.5, -3.9),
        (first - 1.6, -8.0),
        (baffle - 1.6, -8.0),
        (baffle - 0.4, -3.9),
    ];
    ink.line(Layer::Beyond, "t fillp", &sump);
    boxed(
        ink,
        "t fillp",
        (baffle + 0.6, 3.1),
        (baffle + 4.0, -2.9),
        0.5,
    );
    boxed(
        ink,
        "t fillp",
        (baffle + 4.0, 2.4),
        (baffle + 6.3, 0.3),
        0.3,
    );
    boxed(
        ink,
        "t fillp",
        (baffle + 4.0, -0.6),
        (baffle + 7.0, -2.8),
        0.9,
    );
}

/// A tube drawn as two strokes: its walls, and the sheet between them.
fn tube(ink: &mut Ink, layer: Layer, track: &Track, diameter: f64, class: &str) {
    let width = ink.plane.px(diameter);
    ink.bounds
        .take_area(track.outline().bounds().grown(0.5 * width + 1.0));
    for (suffix, stroke) in [("o", width + 1.8), ("i", width - 0.4)] {
        ink.styled(
            layer,
            &format!("{class}-{suffix}"),
            track.outline(),
            &format!(" style=\"stroke-width:{}\"", short(stroke.max(0.6))),
        );
    }
}

fn exhaust(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    let plane = ink.plane;
    let at = |x: f64, z: f64, radius: f64| corner(plane.at(x, z), plane.px(radius));
    let (pipe, drop) = frame.main_exit().map_or((1.75, 0.3), |lip| {
        (lip.pipe.unwrap_or(1.75).min(4.0), 0.25 * lip.gap)
    });
    let collector = -9.8;
    let (wall, bottom) = (frame.firewall, frame.bottom);
    let mut tubes: Vec<Vec<Corner>> = Vec::new();
    let first = frame.first() + 1.2;
    let end = (wall + 6.4).min(scene.reach.right);
    tubes.push(vec![
        at(first, -4.1, 0.0),
        at(first, collector, 2.2),
        at(wall - 9.0, collector, 5.0),
        at(wall - 1.0, bottom - 0.9 - drop, 5.0),
        at(end, bottom - 1.4 - drop, 0.0),
    ]);
    for &x in frame.cylinders.iter().skip(1) {
        tubes.push(vec![
            at(x + 1.2, -4.1, 0.0),
            at(x + 1.2, -8.2, 1.6),
            at(x + 3.4, collector, 1.6),
            at(x + 5.0, collector, 0.0),
        ]);
    }
    // All walls first, so that the tubes open into each other.
    let tracks: Vec<Track> = tubes.iter().map(|tube| Track::new(tube)).collect();
    let width = plane.px(pipe);
    for (class, stroke) in [("pipe-o", width + 1.8), ("pipe-i", width - 0.2)] {
        for track in &tracks {
            ink.bounds
                .take_area(track.outline().bounds().grown(0.5 * width + 1.0));
            ink.styled(
                Layer::Beyond,
                class,
                track.outline(),
                &format!(" style=\"stroke-width:{}\"", short(stroke.max(0.6))),
            );
        }
    }
}

fn spinner(ink: &mut Ink, scene: &Scene) {
    let (radius, length) = (scene.frame.spinner, scene.frame.spinner_length);
    let half = |sign: f64| {
        [
            (0.0, sign * radius),
            (-0.55 * length, sign * radius),
            (-length, 0.42 * sign * radius),
            (-length, 0.0),
        ]
    };
    let mut back = half(-1.0);
    back.reverse();
    let outline = ink.cubics(&[half(1.0), back]).closed();
    ink.path(
        Layer::Beyond,
        &scene.class("o fillp", Part::Propeller),
        &outline,
    );
}

fn small_hoses(ink: &mut Ink, frame: &Frame) {
    let [blast, cabin, induction] = super::side_ways::baffle_holes(frame);
    let plane = ink.plane;
    let straight = |x0: f64, x1: f64, z: f64| {
        Track::new(&[corner(plane.at(x0, z), 0.0), corner(plane.at(x1, z), 0.0)])
    };
    let baffle = frame.rear_baffle;
    if frame.blast.0 > 0 && frame.blast.1 > 0.0 {
        let track = straight(baffle, baffle + 2.6, blast);
        tube(ink, Layer::Hose, &track, frame.blast.1, "hose");
    }
    if let Some(diameter) = frame.cabin.filter(|diameter| *diameter > 0.0) {
        let track = straight(baffle, frame.firewall, cabin);
        tube(ink, Layer::Hose, &track, diameter, "hose");
    }
    if frame.induction {
        let track = straight(baffle, baffle + 3.0, induction);
        tube(ink, Layer::Hose, &track, 2.2, "hose");
    }
}

fn cooler_hose(ink: &mut Ink, scene: &Scene) {
    let core = &scene.frame.core;
    let plane = ink.plane;
    let line: Vec<Corner> = core
        .line
        .iter()
        .map(|&(x, z, radius)| corner(plane.at(x, z), plane.px(radius)))
        .collect();
    if let Some(scoop) = core.scoop {
        let chin = scene.frame.chin;
        let roof = scoop.floor + core.size.1;
        let back = scoop.face + core.size.2;
        let duct = [
            (scoop.mouth, chin),
            (scoop.mouth + 2.0, chin + 0.2),
            (scoop.face, roof),
            (back, roof),
            (scoop.end - 2.2, chin + 0.1),
            (scoop.end, chin),
            (scoop.end, scoop.floor),
            (scoop.mouth, scoop.floor),
        ];
        let outline = ink.through(&duct).closed();
        ink.path(Layer::Hose, "fillp2", &outline);
        return;
    }
    let near = core.place.is_on_baffle();
    if near && core.shutter.is_none() {
        return;
    }
    let track = Track::new(&line);
    tube(ink, Layer::Hose, &track, core.hose, "hose");
    if near {
        return;
    }
    let housing = core.shutter.map_or(0.3, |_| core.hose + 0.95);
    let (step, half) = (plane.px(0.62), plane.px(0.5 * core.hose));
    let mut rings = Outline::start(track.at(plane.px(housing)).0);
    let mut along = plane.px(housing);
    while along < track.length() - plane.px(0.2) {
        let (p, ahead) = track.at(along);
        let side = ahead.turned();
        rings = rings
            .jump(p.moved(-side.x * half, -side.y * half))
            .line(p.moved(side.x * half, side.y * half));
        along += step.max(2.0);
    }
    ink.path(Layer::Hose, "t3", &rings);
    flare(ink, scene);
}

/// The duct that widens from the hose to the core.
fn flare(ink: &mut Ink, scene: &Scene) {
    let core = &scene.frame.core;
    let (half_hose, half_core) = (0.5 * core.hose, 0.5 * core.size.1);
    let (x, z) = core.middle;
    let face = 0.5 * core.size.2;
    let points = if core.flat {
        let (low, high) = (z + face, z + face + FLARE);
        [
            (x - half_hose, high),
            (x - half_core, low),
            (x + half_core, low),
            (x + half_hose, high),
        ]
    } else {
        let (near, far) = (x - face - FLARE, x - face);
        [
            (near, z + half_hose),
            (far, z + half_core),
            (far, z - half_core),
            (near, z - half_hose),
        ]
    };
    let outline = ink.through(&points).closed();
    ink.path(Layer::Hose, "p fillm", &outline);
}

/// The box of the core, px.
#[must_use]
pub fn core_area(ink: &Ink, frame: &Frame) -> Area {
    let core = &frame.core;
    let (x, z) = core.middle;
    let (_, height, depth) = core.size;
    let (across, along) = if core.flat {
        (height, depth)
    } else {
        (depth, height)
    };
    ink.plane.area(
        (x - 0.5 * across, z + 0.5 * along),
        (x + 0.5 * across, z - 0.5 * along),
    )
}
