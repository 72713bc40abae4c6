//! Plan: seen from above with the top cowl or the plenum's lid off.
//!
//! x runs aft, v to the aircraft's left, which is down the page.

use super::Part;
use super::air::{self, Heat, Spacing};
use super::core_place::{CoolerPlace, FLARE};
use super::fills::{core_fill, cut_fill};
use super::half::{Half, halves};
use super::ink::{Ink, Layer};
use super::mouths::{Edge, Mouth};
use super::path::{Outline, corner};
use super::plan_air;
use super::plan_deck;
use super::point::Area;
use super::proportions::{CASE, Frame, MOUTH, SIDE_BAFFLE};
use super::scene::{Scene, fin_step};
use super::side_mouths::{LipSection, lip_section};

/// Draws the view.
pub fn draw(ink: &mut Ink, scene: &Scene) {
    for half in halves(scene) {
        middle_parts(ink, scene, half);
        bank(ink, &scene.frame, scene, half);
        if half.side == scene.frame.core.side {
            cooler(ink, scene, half);
        }
        if scene.readout.is_some() {
            plan_air::draw(ink, scene, half);
        }
        plan_deck::draw(ink, scene, half);
        nose(ink, scene, half);
        rear(ink, scene, half);
    }
    let frame = &scene.frame;
    let right = scene.reach.right;
    ink.line(
        Layer::Metal,
        "c",
        &[(scene.reach.left + 0.6, 0.0), (right, 0.0)],
    );
    if scene.half_plan && alike(frame) {
        // Two ticks at each end say that the other half is alike.
        for x in [scene.reach.left + 1.1, right - 1.1] {
            let p = ink.plane.at(x, 0.0);
            let ticks = Outline::through(&[p.moved(-2.0, -4.0), p.moved(-2.0, 4.0)])
                .jump(p.moved(2.0, -4.0))
                .line(p.moved(2.0, 4.0));
            ink.path(Layer::Metal, "t2", &ticks);
        }
    }
    louvers(ink, scene, frame);
}

/// Whether both halves have the same inlets.
fn alike(frame: &Frame) -> bool {
    let form = |side: f64| {
        frame
            .front_mouth(side)
            .map(|mouth| (mouth.width, mouth.height, mouth.lip, mouth.diffuser))
    };
    form(1.0) == form(-1.0)
}

fn boxed(ink: &mut Ink, layer: Layer, class: &str, ends: [(f64, f64); 2], radius: f64) {
    let area = ink.plane.area(ends[0], ends[1]);
    let outline = Outline::rounded(area, ink.plane.px(radius));
    ink.path(layer, class, &outline);
}

fn middle_parts(ink: &mut Ink, scene: &Scene, half: Half) {
    let frame = &scene.frame;
    let (radius, length) = (frame.spinner, frame.spinner_length);
    let plane = ink.plane;
    let tip = half.at(-length, 0.0);
    let cubic = [
        tip,
        half.at(-length, 0.42 * radius),
        half.at(-0.55 * length, radius),
        half.at(0.0, radius),
    ];
    let outline = ink.cubics(&[cubic]).line(plane.at(0.0, 0.0));
    ink.path(
        Layer::Beyond,
        &scene.class("o fillp", Part::Propeller),
        &outline,
    );
    let back = frame.rear_baffle + 0.6;
    let case = half.all(&[
        (CASE, 0.0),
        (CASE, 3.9),
        (back, 3.9),
        (back + 3.4, 3.0),
        (back + 3.4, 0.0),
    ]);
    ink.line(Layer::Beyond, "t fillp", &case);
    if frame.blast.0 > 0 && half.side == frame.core.side {
        let tubes = f64::from(frame.blast.0.min(4));
        let mut place = 0.0;
        while place < tubes {
            let v = 1.2 + 1.3 * place;
            let radius = 0.5 * frame.blast.1.max(0.2);
            let ends = [
                half.at(frame.rear_baffle, v - radius),
                half.at(frame.rear_baffle + 2.6, v + radius),
            ];
            boxed(ink, Layer::Hose, "p fillm", ends, 0.0);
            place += 1.0;
        }
    }
}

fn bank(ink: &mut Ink, frame: &Frame, scene: &Scene, half: Half) {
    let step = fin_step(&ink.plane);
    for &x0 in &frame.cylinders {
        let x = x0 + half.offset;
        let part = |from: f64, to: f64, wide: f64| [half.at(x - wide, from), half.at(x + wide, to)];
        boxed(ink, Layer::Beyond, "p fillf", part(3.9, 9.3, 3.45), 0.0);
        let head = scene.class("p fillf", Part::Engine);
        boxed(ink, Layer::Beyond, &head, part(9.3, 14.6, 3.6), 0.2);
        boxed(ink, Layer::Beyond, "p fillp", part(14.6, 16.1, 3.1), 0.5);
        let mut fins = ink.through(&[half.at(x, 4.4)]);
        for (from, to, wide) in [(4.4, 9.1, 3.45), (9.65, 14.4, 3.6)] {
            let mut v = from;
            while v < to {
                let (a, b) = (half.at(x - wide, v), half.at(x + wide, v));
                fins = fins
                    .jump(ink.plane.at(a.0, a.1))
                    .line(ink.plane.at(b.0, b.1));
                v += step;
            }
        }
        ink.path(Layer::Beyond, "fin", &fins);
        ink.line(Layer::Metal, "c", &half.all(&[(x, 2.6), (x, 17.0)]));
    }
}

fn cooler(ink: &mut Ink, scene: &Scene, half: Half) {
    let frame = &scene.frame;
    let core = &frame.core;
    let (width, height, depth) = core.size;
    let v = core.outboard;
    let (x, _) = core.middle;
    let fill = core_fill(ink);
    let face = |ink: &mut Ink, layer: Layer, class: &str, along: f64, fill: &str| {
        let inner = v - 0.5 * width;
        // A half plan ends at the centre line.
        let inner = if scene.half_plan {
            inner.max(0.0)
        } else {
            inner
        };
        let area: Area = ink.plane.area(
            half.at(x - 0.5 * along, inner),
            half.at(x + 0.5 * along, v + 0.5 * width),
        );
        ink.styled(layer, class, &Outline::boxed(area), fill);
    };
    match core.place {
        CoolerPlace::OwnScoop => {
            face(
                ink,
                Layer::Metal,
                &scene.class("h", Part::Cooler),
                depth,
                "",
            );
            return;
        }
        CoolerPlace::RearBaffle | CoolerPlace::FrontBaffle => {}
        CoolerPlace::Firewall => hose(ink, scene, half),
    }
    if core.flat {
        face(
            ink,
            Layer::Metal,
            &scene.class("h", Part::Cooler),
            height,
            "",
        );
    } else {
        face(
            ink,
            Layer::Metal,
            &scene.class("p", Part::Cooler),
            depth,
            &fill,
        );
    }
    if core.beside && !core.flat {
        let ends = [-0.5, 0.5].map(|share| half.at(x + share * depth, v));
        ink.line(Layer::Metal, &scene.class("p", Part::Cooler), &ends);
    }
    if let Some((at, _)) = core.shutter {
        // The disc turns about an upright axis of the page: an ellipse d × d cos α.
        let middle = half.at(at, v);
        let middle = ink.plane.at(middle.0, middle.1);
        let radius = ink.plane.px(0.48 * core.disc);
        let narrow = (radius * scene.shutter_deg.to_radians().cos().abs()).max(1.2);
        let class = scene.class("discp", Part::Shutter);
        let markup = format!(
            "<ellipse class=\"{class}\" cx=\"{}\" cy=\"{}\" rx=\"{}\" ry=\"{}\"/>",
            super::number::short(middle.x),
            super::number::short(middle.y),
            super::number::short(narrow),
            super::number::short(radius)
        );
        let bounds = Area::about(middle, 2.0 * narrow, 2.0 * radius);
        ink.raw(Layer::Metal, &markup, bounds);
        let axis = [
            middle.moved(0.0, -radius - 4.0),
            middle.moved(0.0, radius + 4.0),
        ];
        ink.path(Layer::Metal, "t2", &Outline::through(&axis));
    }
}

fn hose(ink: &mut Ink, scene: &Scene, half: Half) {
    let frame = &scene.frame;
    let core = &frame.core;
    let (v, radius) = (core.outboard, 0.5 * core.hose);
    let start = frame.rear_baffle;
    let end = if core.flat {
        core.middle.0 + radius
    } else {
        core.middle.0 - 0.5 * core.size.2 - FLARE
    };
    if end <= start {
        return;
    }
    let round = if core.flat { radius } else { 0.0 };
    let ends = [half.at(start, v - radius), half.at(end, v + radius)];
    boxed(ink, Layer::Hose, "p fillm", ends, round);
    let housing = core.shutter.map_or(0.3, |_| core.hose + 0.95);
    let mut rings = ink.through(&[half.at(start, v)]);
    let mut x = start + housing;
    while x < end - 0.4 {
        let (a, b) = (half.at(x, v - radius), half.at(x, v + radius));
        rings = rings
            .jump(ink.plane.at(a.0, a.1))
            .line(ink.plane.at(b.0, b.1));
        x += 0.62_f64.max(2.0 / ink.plane.scale);
    }
    ink.path(Layer::Hose, "t3", &rings);
    if !core.flat {
        let wide = 0.5 * core.size.0;
        let points = half.all(&[
            (end, v - radius),
            (end + FLARE, v - wide),
            (end + FLARE, v + wide),
            (end, v + radius),
        ]);
        let outline = ink.through(&points).closed();
        ink.path(Layer::Hose, "p fillm", &outline);
    }
}

fn nose(ink: &mut Ink, scene: &Scene, half: Half) {
    let frame = &scene.frame;
    let wide = frame.half_width;
    let mouth = frame.front_mouth(half.side);
    let (start, radius) = mouth.map_or((frame.spinner + 0.6, 0.1), |mouth| {
        (mouth.outer(), mouth.lip)
    });
    let x = MOUTH + radius;
    let skin = [
        (x, start),
        (x + 2.7, (start + 1.5).min(wide)),
        (frame.first() - 5.0, wide),
        (frame.first() + 4.0, wide),
    ]
    .map(|(x, v)| half.at(x, v));
    let end = half.at(frame.firewall, wide - 0.5);
    let behind = half.at(scene.reach.right, wide - 1.0);
    let outline = ink
        .cubics(&[skin])
        .line(ink.plane.at(end.0, end.1))
        .line(ink.plane.at(behind.0, behind.1));
    ink.path(Layer::Metal, "o nofill", &outline);
    let Some(mouth) = mouth else {
        let front = half.all(&[(x, start), (0.5, frame.spinner + 0.6)]);
        ink.line(Layer::Metal, "o nofill", &front);
        return;
    };
    let inner = mouth.inner() - 2.0 * mouth.lip;
    let root = half.all(&[(x, inner), (0.5, frame.spinner + 0.6)]);
    ink.line(Layer::Metal, "o nofill", &root);
    lips(ink, scene, half, mouth);
}

fn lips(ink: &mut Ink, scene: &Scene, half: Half, mouth: &Mouth) {
    let class = scene.class("o nofill", Part::Inlets);
    for (edge, sign) in [(mouth.inner() + mouth.width, 1.0), (mouth.inner(), -1.0)] {
        let outer = edge + sign * 2.0 * mouth.lip;
        let section = LipSection {
            sign: sign * half.side,
            edge: half.side * edge,
            wall: half.at(MOUTH + 2.4, edge),
            skin: half.at(MOUTH + mouth.lip + 0.4, outer + sign * 0.1),
        };
        lip_section(ink, &class, mouth, &section);
        if mouth.edge == Edge::Thin {
            let wall = half.all(&[(MOUTH + mouth.lip, edge), (MOUTH + 2.4, edge)]);
            ink.line(Layer::Metal, "p", &wall);
        }
        if let Some((length, ratio)) = mouth.diffuser {
            let far = length.min(scene.frame.front_baffle - MOUTH + 1.0).max(2.6);
            let grown = 0.5 * mouth.width * (ratio.max(1.0).sqrt() - 1.0) * far / length.max(far);
            let end = (edge + sign * grown).clamp(4.4, SIDE_BAFFLE - 0.4);
            let duct = half.all(&[(MOUTH + 2.4, edge), (MOUTH + far, end)]);
            ink.line(Layer::Metal, "p", &duct);
        }
    }
}

fn rear(ink: &mut Ink, scene: &Scene, half: Half) {
    let frame = &scene.frame;
    let wall = ink.plane.area(
        half.at(frame.firewall, 0.0),
        half.at(frame.firewall + 0.42, frame.half_width - 0.5),
    );
    let fill = cut_fill(ink);
    ink.styled(Layer::Metal, "o", &Outline::boxed(wall), &fill);
    let class = scene.class("h", Part::Exit);
    let aft = frame.firewall + 2.4;
    for lip in &frame.lips {
        // What of this exit lies on this half.
        let (a, b) = (
            half.side * (lip.middle - 0.5 * lip.width),
            half.side * (lip.middle + 0.5 * lip.width),
        );
        let (low, high) = (a.min(b).max(0.0), a.max(b));
        if high <= 0.1 {
            continue;
        }
        let mut edge = vec![(frame.hinge.0, high), (aft, high), (aft, low)];
        if low > 0.1 {
            edge.push((frame.hinge.0, low));
        }
        ink.line(Layer::Metal, &class, &half.all(&edge));
        if lip.flap {
            let line = half.all(&[(frame.hinge.0, low), (frame.hinge.0, high)]);
            ink.line(Layer::Metal, "h", &line);
        }
    }
    out(ink, scene, half);
}

/// Where half of the air leaves, outboard of the centre line, in.
#[must_use]
pub fn exit_place(frame: &Frame) -> f64 {
    match frame.lips.as_slice() {
        [] => 0.0,
        [lip] => 0.25 * lip.width.max(2.0),
        [lip, ..] => lip.middle.abs(),
    }
}

/// The warm air behind the exit.
fn out(ink: &mut Ink, scene: &Scene, half: Half) {
    let Some(readout) = scene.readout else { return };
    let frame = &scene.frame;
    if frame.main_exit().is_none() {
        return;
    }
    let heat = Heat {
        outside_k: readout.outside_k,
    };
    let each = 0.5 * readout.exit_kg_s();
    let v = exit_place(frame);
    let plane = ink.plane;
    let (a, b) = (
        half.at(frame.firewall + 2.4, v),
        half.at(scene.reach.right, v),
    );
    let way = [
        corner(plane.at(a.0, a.1), 0.0),
        corner(plane.at(b.0, b.1), 0.0),
    ];
    let width = air::width_px(each, plane.scale);
    let track = air::lane(ink, &way, width, &heat.paint(readout.lower_k), each < 0.0);
    let spacing = Spacing {
        first: plane.px(2.2),
        before_end: plane.px(1.0),
        step: plane.px(4.6),
    };
    let colour = heat.edge(readout.lower_k);
    air::chevrons(ink, &track, width, &colour, spacing, each < 0.0);
}

/// Rows of louvers beneath, hidden.
fn louvers(ink: &mut Ink, scene: &Scene, frame: &Frame) {
    for (count, x) in super::louvers::louver_places(frame) {
        let rows = f64::from(count.clamp(1, 12));
        for half in halves(scene) {
            let mut outline = ink.through(&[half.at(x, 2.0)]);
            let mut place = 0.0;
            while place < (0.5 * rows).ceil() {
                let from = half.at(x - 3.0 + 1.1 * place, 2.0);
                let to = half.at(x - 3.0 + 1.1 * place, 6.0);
                outline = outline
                    .jump(ink.plane.at(from.0, from.1))
                    .line(ink.plane.at(to.0, to.1));
                place += 1.0;
            }
            ink.path(Layer::Metal, &scene.class("h", Part::Exit), &outline);
        }
    }
}
