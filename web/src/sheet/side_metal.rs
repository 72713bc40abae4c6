//! Side view: the metal that the section cuts, over the air.

use super::Part;
use super::core_place::CoolerPlace;
use super::fills::{core_fill, cut_fill};
use super::ink::{Anchor, Ink, Layer, NUMBER};
use super::louvers::louver_places;
use super::number::short;
use super::path::{Outline, cubic_points};
use super::point::{Area, Point};
use super::proportions::{BARREL, BORE, Frame, MOUTH};
use super::readout::State;
use super::scene::Scene;
use super::side_beyond::core_area;
use super::side_mouths::{mouth_section, other_mouths};
use coolpath_core::document::installation::ExitEdge;

/// Draws cylinders, baffles, seals, skins, firewall, lip and cooler.
pub fn draw(ink: &mut Ink, scene: &Scene) {
    cooler(ink, scene);
    cylinders(ink, scene);
    baffles(ink, scene);
    if scene.frame.plenum {
        lid(ink, scene);
    } else {
        curl(ink, scene);
    }
    skins(ink, scene);
    mouth_section(ink, scene);
    other_mouths(ink, scene);
    lip(ink, scene);
    louvers(ink, scene);
    firewall(ink, &scene.frame, scene.reach.right);
    let line = [
        (-scene.frame.spinner_length - 1.5, 0.0),
        (scene.frame.rear_baffle + 6.0, 0.0),
    ];
    ink.line(Layer::Metal, "c", &line);
}

fn cylinders(ink: &mut Ink, scene: &Scene) {
    let plane = ink.plane;
    let px = |inches: f64| plane.px(inches);
    let hot = |place: usize| {
        scene
            .readout
            .filter(|readout| readout.hottest.is_none_or(|hottest| hottest == place))
            .and_then(|readout| readout.head.state)
            .map_or("", State::class)
    };
    let fill = format!(" fill-rule=\"evenodd\"{}", cut_fill(ink));
    for (place, &x) in scene.frame.cylinders.iter().enumerate() {
        let middle = plane.at(x, 0.0);
        let wall = Outline::circle(middle, px(BARREL)).and(&Outline::circle(middle, px(BORE)));
        ink.styled(
            Layer::Metal,
            &scene.class("p wall", Part::Engine),
            &wall,
            &fill,
        );
        let state = hot(place);
        let class = if state.is_empty() {
            "bore".to_owned()
        } else {
            format!("bore bore-{state}")
        };
        ink.path(Layer::Metal, &class, &Outline::circle(middle, px(BORE)));
        let arm = px(4.1);
        let centre = Outline::through(&[middle.moved(-arm, 0.0), middle.moved(arm, 0.0)])
            .jump(middle.moved(0.0, -arm))
            .line(middle.moved(0.0, arm));
        ink.path(Layer::Metal, "c", &centre);
        let wrap = |from: f64, to: f64| {
            Outline::start(middle.around(px(3.78), from)).arc(middle, px(3.78), from, to)
        };
        let wraps = wrap(8.0, 68.0).and(&wrap(112.0, 172.0));
        ink.path(Layer::Metal, "p nofill", &wraps);
        if plane.scale > super::air::SMALL {
            let at = middle.moved(px(1.15), -px(0.7));
            let number = (2 * place + 1).to_string();
            ink.text(Layer::Metal, &NUMBER, at, Anchor::Middle, &number);
        }
    }
}

fn baffles(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    let class = scene.class("cut", Part::UpperDeck);
    front_baffle(ink, frame, &class);
    let top = if frame.plenum {
        frame.lid - 0.15
    } else {
        frame.seal() - 1.5
    };
    let x = frame.rear_baffle;
    let core = &frame.core;
    if core.place.is_bound() {
        ink.line(Layer::Metal, &class, &[(x, top), (x, -3.4)]);
        return;
    }
    let middle = core.line.first().map_or(3.1, |line| line.1);
    let half = 0.5 * core.hose;
    let high = (middle + half).min(top);
    let low = middle - half;
    ink.line(Layer::Metal, &class, &[(x, top), (x, high)]);
    ink.line(Layer::Metal, &class, &[(x, low), (x, low.min(-3.4))]);
}

/// The wall before the cylinders and the ramp that ends in it, open where the cooler covers it.
fn front_baffle(ink: &mut Ink, frame: &Frame, class: &str) {
    let (x, core) = (frame.front_baffle, &frame.core);
    let mut lowest = -3.4;
    if core.place == CoolerPlace::FrontBaffle {
        let low = core.middle.1 - 0.5 * core.size.1;
        ink.line(Layer::Metal, class, &[(x, low.min(lowest) - 0.5), (x, low)]);
        lowest = low + core.size.1;
    }
    let mut wall = vec![(x, lowest), (x, frame.ramp)];
    if let Some(mouth) = frame.shown_mouth() {
        wall.push((MOUTH + 3.2, mouth.up - 0.5 * mouth.height - 0.1));
    }
    ink.line(Layer::Metal, class, &wall);
}

/// A rigid lid, with a boot behind the inlet that lets the engine move.
fn lid(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    let (up, half) = frame
        .shown_mouth()
        .map_or((2.5, 1.75), |mouth| (mouth.up, 0.5 * mouth.height));
    let start = (up + half + 0.15).min(frame.lid - 0.4);
    let rise = [
        (MOUTH + 3.9, start),
        (MOUTH + 4.0, (start + 3.2).min(frame.lid)),
        (frame.first() - 5.2, frame.lid),
        (frame.first() - 2.0, frame.lid),
    ];
    let outline = ink
        .cubics(&[rise])
        .line(ink.plane.at(frame.rear_baffle + 0.1, frame.lid));
    ink.path(Layer::Metal, &scene.class("lid", Part::UpperDeck), &outline);
    ink.path(Layer::Metal, "lid-i", &outline);
    for sign in [1.0, -1.0] {
        let at = |along: f64, out: f64| (MOUTH + along, up + sign * (half + out));
        let boot = [
            at(2.2, 0.2),
            at(2.6, 0.6),
            at(3.0, 0.05),
            at(3.4, 0.6),
            at(3.9, 0.15),
        ];
        ink.line(Layer::Metal, "seal", &boot);
    }
}

/// The rear seal: it folds forward and touches the skin; pushed back, it lifts off.
fn curl(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    let (x, skin) = (frame.rear_baffle, frame.seal());
    let lifted = scene
        .readout
        .is_some_and(super::readout::Readout::pushed_back);
    let off = if lifted { 0.55 } else { 0.0 };
    let end = x - 2.1;
    let curve = [
        (x, skin - 2.1),
        (x + 0.05, skin - 0.9 - off),
        (x - 0.3, skin - 0.5 - off),
        (end, frame.skin_above(end) - 0.42 - off),
    ];
    let outline = ink.cubics(&[curve]);
    ink.path(
        Layer::Metal,
        &scene.class("seal", Part::UpperDeck),
        &outline,
    );
}

fn skins(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    let upper = ink.cubics(&frame.upper_skin);
    ink.path(Layer::Metal, "o nofill", &upper);
    let behind = [
        (frame.firewall, frame.top),
        (frame.firewall + 4.5, frame.top + 0.12),
        (
            (frame.firewall + 9.0).min(scene.reach.right),
            frame.top + 0.3,
        ),
    ];
    ink.line(Layer::Metal, "o nofill", &behind);
    let hinge = ink.plane.at(frame.hinge.0, frame.hinge.1);
    let Some(scoop) = frame.core.scoop else {
        let lower = ink.cubics(&frame.lower_skin).line(hinge);
        ink.path(Layer::Metal, "o nofill", &lower);
        return;
    };
    // The scoop's duct takes the skin's place between its mouth and its end.
    let mut points = cubic_points(frame.lower_skin[0], 12);
    points.extend(cubic_points(frame.lower_skin[1], 16).into_iter().skip(1));
    let start = scoop.mouth + 1.5;
    points.retain(|(x, _)| *x < start);
    points.push((start, frame.skin_below(start)));
    ink.line(Layer::Metal, "o nofill", &points);
    if scoop.end < frame.hinge.0 && frame.core.own_exit {
        ink.line(
            Layer::Metal,
            "o nofill",
            &[(scoop.end, frame.chin), frame.hinge],
        );
    } else if !frame.core.own_exit {
        let back = scoop.face + frame.core.size.2;
        ink.line(
            Layer::Metal,
            "o nofill",
            &[
                (back, scoop.floor),
                ((back + 5.0).min(frame.hinge.0), frame.chin),
                frame.hinge,
            ],
        );
    }
}

fn lip(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    if frame.main_exit().is_none() {
        let end = (frame.firewall + 2.4, frame.bottom - 0.2);
        ink.line(Layer::Metal, "o nofill", &[frame.hinge, end]);
        return;
    }
    if let Some(length) = frame.main_exit().and_then(|lip| lip.tube) {
        tube(ink, scene, length);
    }
    let flap = frame.main_exit().is_some_and(|lip| lip.flap);
    let class = scene.class(if flap { "cut" } else { "o nofill" }, Part::Exit);
    ink.line(Layer::Metal, &class, &[frame.hinge, frame.tip]);
    if !flap {
        return;
    }
    let hinge = ink.plane.at(frame.hinge.0, frame.hinge.1);
    if frame.flap_turn.abs() > 0.02 {
        ink.line(Layer::Metal, "ghost", &[frame.hinge, frame.closed_tip]);
        let at = |tip: (f64, f64)| ink.plane.at(tip.0, tip.1).from(hinge);
        let angle = |to: Point| to.y.atan2(to.x).to_degrees();
        let (from, to) = (angle(at(frame.closed_tip)), angle(at(frame.tip)));
        let radius = 0.8 * at(frame.tip).length();
        let arc = Outline::start(hinge.around(radius, from)).arc(hinge, radius, from, to);
        ink.path(Layer::Metal, "dimln", &arc);
    }
    ink.path(Layer::Metal, "o fillm", &Outline::circle(hinge, 3.0));
}

/// An augmentor's wall from its flared mouth, as far as the view reaches.
fn tube(ink: &mut Ink, scene: &Scene, length: f64) {
    let frame = &scene.frame;
    let start = frame.firewall - 1.2;
    let end = (start + length).min(scene.reach.right - 0.4);
    let class = scene.class("cut", Part::Exit);
    for (wall, flare) in [(frame.bottom - 0.1, 0.7), (frame.tip.1 + 0.1, -0.5)] {
        let points = [(start - 0.8, wall + flare), (start, wall), (end, wall)];
        ink.line(Layer::Metal, &class, &points);
    }
}

/// Louvers: short slanted dashes that open aft in the lower skin.
fn louvers(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    let room = (frame.hinge.0 - 18.2) / frame.louvers.len().max(1) as f64;
    for (count, middle) in louver_places(frame) {
        // A row shows as many as there is room for; the others stand beside them.
        let shown = f64::from(count.clamp(1, 12))
            .min((room / 0.8).floor())
            .max(1.0);
        let step = (room / shown).min(1.1);
        let mut outline = Outline::start(ink.plane.at(middle, frame.chin));
        let mut place = 0.0;
        while place < shown {
            let x = middle + (place - 0.5 * (shown - 1.0)) * step;
            outline = outline
                .jump(ink.plane.at(x, frame.chin))
                .line(ink.plane.at(x + 0.6 * step, frame.chin - 0.55));
            place += 1.0;
        }
        ink.path(Layer::Metal, &scene.class("cut", Part::Exit), &outline);
    }
}

fn firewall(ink: &mut Ink, frame: &Frame, right: f64) {
    const RADIUS: f64 = 2.4;
    const RAMP: f64 = 3.4;
    const THICK: f64 = 0.42;
    let plane = ink.plane;
    let (x, top, low) = (frame.firewall, frame.top, frame.bottom);
    let start = Outline::start(plane.at(x, top));
    let (inside, outside) = (low + THICK, x + THICK);
    let turned = match frame.main_exit().map(|lip| lip.edge) {
        Some(ExitEdge::Sharp) => start
            .line(plane.at(x, low))
            .line(plane.at(right, low))
            .line(plane.at(right, inside))
            .line(plane.at(outside, inside)),
        // A plate from the firewall to the belly, 30° to the stream.
        Some(ExitEdge::Ramp) => {
            let along = RAMP / 30_f64.to_radians().tan();
            start
                .line(plane.at(x, low + RAMP))
                .line(plane.at(x + along, low))
                .line(plane.at(right, low))
                .line(plane.at(right, inside))
                .line(plane.at(x + along, inside))
                .line(plane.at(outside, low + RAMP))
        }
        _ => {
            let middle = plane.at(x + RADIUS, low + RADIUS);
            start
                .arc(middle, plane.px(RADIUS), 180.0, 90.0)
                .line(plane.at(right, low))
                .line(plane.at(right, inside))
                .arc(middle, plane.px(RADIUS - THICK), 90.0, 180.0)
        }
    };
    let fill = cut_fill(ink);
    let outline = turned.line(plane.at(outside, top)).closed();
    ink.styled(Layer::Metal, "o", &outline, &fill);
}

fn cooler(ink: &mut Ink, scene: &Scene) {
    let frame = &scene.frame;
    let core = &frame.core;
    let area = core_area(ink, frame);
    if let Some(scoop) = core.scoop {
        scoop_walls(ink, scene, scoop.floor + core.size.1);
    }
    let fill = core_fill(ink);
    ink.styled(
        Layer::Metal,
        &scene.class("p", Part::Cooler),
        &Outline::boxed(area),
        &fill,
    );
    if core.behind {
        let middle = area.middle();
        let (wide, high) = (0.5 * area.width(), 0.5 * area.height());
        let seam = if core.flat {
            [middle.moved(-wide, 0.0), middle.moved(wide, 0.0)]
        } else {
            [middle.moved(0.0, -high), middle.moved(0.0, high)]
        };
        let class = scene.class("p", Part::Cooler);
        ink.path(Layer::Metal, &class, &Outline::through(&seam));
    }
    if core.place.is_on_baffle() {
        let face = if core.place == CoolerPlace::FrontBaffle {
            area.right
        } else {
            area.left
        };
        let flange = Area {
            left: face - ink.plane.px(0.25),
            right: face + ink.plane.px(0.25),
            top: area.top - ink.plane.px(0.4),
            bottom: area.bottom + ink.plane.px(0.4),
        };
        ink.path(Layer::Metal, "p fillm", &Outline::boxed(flange));
    }
    if let Some((x, z)) = core.shutter {
        shutter(ink, scene, (x, z));
    }
}

/// The disc, turned by its angle from open.
fn shutter(ink: &mut Ink, scene: &Scene, (x, z): (f64, f64)) {
    let core = &scene.frame.core;
    let plane = ink.plane;
    let middle = plane.at(x, z);
    if core.place == CoolerPlace::Firewall {
        let housing = Area::about(middle, plane.px(core.disc + 0.3), plane.px(core.disc + 0.4));
        let class = scene.class("p nofill", Part::Shutter);
        ink.path(Layer::Metal, &class, &Outline::rounded(housing, 2.0));
    }
    let radius = plane.px(0.48 * core.disc);
    let end = middle.around(radius, -scene.shutter_deg);
    let other = middle.around(radius, 180.0 - scene.shutter_deg);
    ink.styled(
        Layer::Metal,
        &scene.class("disc", Part::Shutter),
        &Outline::through(&[other, end]),
        &format!(" data-angle=\"{}\"", short(scene.shutter_deg)),
    );
    ink.path(Layer::Metal, "dot", &Outline::circle(middle, 2.6));
}

fn scoop_walls(ink: &mut Ink, scene: &Scene, roof: f64) {
    let frame = &scene.frame;
    let core = &frame.core;
    let Some(scoop) = core.scoop else { return };
    let class = scene.class("o nofill", Part::Cooler);
    let chin = frame.chin;
    let back = scoop.face + core.size.2;
    let into = ink.cubics(&[[
        (scoop.mouth + 1.6, chin),
        (scoop.mouth + 5.0, chin + 0.2),
        (scoop.face - 3.0, roof),
        (scoop.face, roof),
    ]]);
    ink.path(Layer::Metal, &class, &into);
    if core.own_exit {
        let out = ink.cubics(&[[
            (back, roof),
            (back + 3.0, roof),
            (scoop.end - 3.0, scoop.floor + scoop.outlet),
            (scoop.end, chin.max(scoop.floor + scoop.outlet)),
        ]]);
        ink.path(Layer::Metal, &class, &out);
    }
    let end = if core.own_exit { scoop.end - 1.2 } else { back };
    ink.line(
        Layer::Metal,
        &class,
        &[(scoop.mouth + 0.4, scoop.floor), (end, scoop.floor)],
    );
    for (x, z, radius) in [
        (scoop.mouth + 0.3, scoop.floor, 0.22),
        (scoop.mouth + 1.5, chin, 0.2),
    ] {
        let lip = Outline::circle(ink.plane.at(x, z), ink.plane.px(radius));
        ink.path(Layer::Metal, "o fillm", &lip);
    }
}
