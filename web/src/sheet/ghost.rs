//! Outline of the design before the last edit, dashed under the new one.

use super::View;
use super::front;
use super::half;
use super::ink::{Ink, Layer};
use super::mouths::{Mouth, Station};
use super::path::Outline;
use super::proportions::{Frame, MOUTH};
use super::scene::Scene;
use super::side_beyond::core_area;

/// Draws what has changed, as it was.
pub fn draw(ink: &mut Ink, scene: &Scene, view: View) {
    let Some(before) = &scene.before else { return };
    match view {
        View::Front => in_front(ink, scene, before),
        View::Plan => in_plan(ink, scene, before),
        View::All | View::Side => in_side(ink, scene, before),
    }
}

fn in_side(ink: &mut Ink, scene: &Scene, before: &Frame) {
    let now = &scene.frame;
    if before.tip != now.tip || before.hinge != now.hinge {
        ink.line(Layer::Ghost, "ghost", &[before.hinge, before.tip]);
    }
    if before.lower_skin != now.lower_skin {
        let skin = ink.cubics(&before.lower_skin);
        ink.path(Layer::Ghost, "ghost", &skin);
    }
    if before.upper_skin != now.upper_skin {
        let skin = ink.cubics(&before.upper_skin);
        ink.path(Layer::Ghost, "ghost", &skin);
    }
    let old = before.shown_mouth();
    if let Some(old) = old.filter(|_| old != now.shown_mouth()) {
        for sign in [1.0, -1.0] {
            let z = old.up + sign * 0.5 * old.height;
            ink.line(Layer::Ghost, "ghost", &[(MOUTH, z), (MOUTH + 2.4, z)]);
        }
    }
    if before.core != now.core {
        let area = core_area(ink, before);
        ink.path(Layer::Ghost, "ghost", &Outline::boxed(area));
    }
}

fn changed<'a>(before: &'a Frame, now: &'a Frame) -> impl Iterator<Item = &'a Mouth> {
    before.mouths.iter().filter(|old| !now.mouths.contains(old))
}

fn in_front(ink: &mut Ink, scene: &Scene, before: &Frame) {
    let now = &scene.frame;
    for mouth in changed(before, now) {
        let middle = front::mouth_middle(before, mouth);
        let outline = front::mouth_outline(ink, mouth, middle, 0.0);
        ink.path(Layer::Ghost, "ghost", &outline);
    }
    if before.lips != now.lips {
        for lip in &before.lips {
            let (a, b) = (lip.middle - 0.5 * lip.width, lip.middle + 0.5 * lip.width);
            let area = ink
                .plane
                .area((a, before.bottom), (b, before.bottom - lip.open_gap));
            ink.path(Layer::Ghost, "ghost", &Outline::boxed(area));
        }
    }
}

fn in_plan(ink: &mut Ink, scene: &Scene, before: &Frame) {
    let now = &scene.frame;
    for half in half::halves(scene) {
        for mouth in changed(before, now)
            .filter(|mouth| mouth.station == Station::Front && mouth.side == half.side)
        {
            for v in [mouth.inner(), mouth.inner() + mouth.width] {
                let line = [half.at(MOUTH, v), half.at(MOUTH + 2.4, v)];
                ink.line(Layer::Ghost, "ghost", &line);
            }
        }
        if before.core != now.core && half.side == before.core.side {
            let core = &before.core;
            let (x, v) = (core.middle.0, core.outboard);
            let deep = 0.5 * if core.flat { core.size.1 } else { core.size.2 };
            let wide = 0.5 * core.size.0;
            let area = ink
                .plane
                .area(half.at(x - deep, v - wide), half.at(x + deep, v + wide));
            ink.path(Layer::Ghost, "ghost", &Outline::boxed(area));
        }
        if before.lips != now.lips {
            let wide = before.main_exit().map_or(0.0, |lip| 0.5 * lip.width);
            let aft = before.firewall + 2.4;
            let line = [
                half.at(before.hinge.0, wide),
                half.at(aft, wide),
                half.at(aft, 0.0),
            ];
            ink.line(Layer::Ghost, "ghost", &line);
        }
    }
}
