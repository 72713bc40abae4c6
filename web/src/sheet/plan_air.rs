//! The air in the plan: from an inlet over the cylinders, and to the cooler.

use super::air::{self, Heat, Spacing};
use super::core_place::CoolerPlace;
use super::half::Half;
use super::ink::Ink;
use super::mouths::Mouth;
use super::path::{Corner, Track, beside, corner};
use super::proportions::MOUTH;
use super::readout::Readout;
use super::scene::Scene;

/// Flow of the inlets in the nose of a side, kg/s.
fn inlet_flow(scene: &Scene, readout: &Readout, side: f64) -> f64 {
    scene
        .frame
        .mouths
        .iter()
        .filter(|mouth| mouth.side == side && mouth.station == super::mouths::Station::Front)
        .filter_map(|mouth| readout.inlets_kg_s.get(mouth.place))
        .sum()
}

/// Draws the lanes of one half.
pub fn draw(ink: &mut Ink, scene: &Scene, half: Half) {
    let Some(readout) = scene.readout else { return };
    let frame = &scene.frame;
    let Some(mouth) = frame.front_mouth(half.side) else {
        return;
    };
    let plane = ink.plane;
    let heat = Heat {
        outside_k: readout.outside_k,
    };
    let paint = heat.paint(readout.upper_k);
    let cylinders = frame.cylinders.len().max(1) as f64;
    let per = readout.fin_kg_s.abs() / (2.0 * cylinders);
    let core_here = half.side == frame.core.side && frame.core.place != CoolerPlace::OwnScoop;
    let cooler = if core_here {
        readout.cooler_kg_s.abs()
    } else {
        0.0
    };
    let entering = inlet_flow(scene, readout, half.side);
    let whole = entering.abs().max(cylinders * per + cooler);
    let width = |flow: f64| air::width_px(flow, plane.scale);
    let base = base_line(scene, half, mouth, ink);
    // Lanes are laid from outboard inward, front cylinder first, so that none crosses; a lane
    // further outboard lies to the right of the way on the aircraft's right.
    let aside = |from_outer: f64| half.side * (0.5 * width(whole) - width(from_outer));
    let backward = readout.fin_kg_s < 0.0;
    let mut taken = 0.0;
    for &x in &frame.cylinders {
        let line = beside(&base, aside(taken + 0.5 * per));
        taken += per;
        let mut way: Vec<Corner> = line[..3].to_vec();
        let mut end = corner(plane.at(x + half.offset, 0.0), 0.0);
        end.at.y = way[2].at.y;
        way.push(end);
        air::lane(ink, &way, width(per), &paint, backward);
        air::across(ink, end.at, &heat.edge(readout.upper_k), !backward);
    }
    if cooler > 0.0 {
        let line = beside(&base, aside(whole - 0.5 * cooler));
        cooler_lane(ink, scene, half, (&line, width(cooler)), &heat);
    }
    let track = Track::new(&base[..3]);
    let spacing = Spacing {
        first: plane.px(2.2),
        before_end: plane.px(2.0),
        step: plane.px(6.5),
    };
    let colour = heat.edge(readout.upper_k);
    air::chevrons(
        ink,
        &track,
        width(entering),
        &colour,
        spacing,
        entering < 0.0,
    );
}

fn base_line(scene: &Scene, half: Half, mouth: &Mouth, ink: &Ink) -> Vec<Corner> {
    let frame = &scene.frame;
    let deck = mouth.outboard.clamp(7.2, 12.0);
    [
        (scene.reach.left + 1.0, mouth.outboard, 0.0),
        (MOUTH + 2.5, mouth.outboard, 3.0),
        (frame.first() - 3.2, deck, 3.0),
        (frame.firewall, deck, 0.0),
    ]
    .into_iter()
    .map(|(x, v, radius)| {
        let (a, b) = half.at(x, v);
        corner(ink.plane.at(a, b), ink.plane.px(radius))
    })
    .collect()
}

fn cooler_lane(
    ink: &mut Ink,
    scene: &Scene,
    half: Half,
    (line, width): (&[Corner], f64),
    heat: &Heat,
) {
    let frame = &scene.frame;
    let core = &frame.core;
    let Some(readout) = scene.readout else { return };
    let plane = ink.plane;
    let at = |x: f64, v: f64, radius: f64| {
        let (a, b) = half.at(x, v);
        corner(plane.at(a, b), plane.px(radius))
    };
    let backward = readout.cooler_kg_s < 0.0;
    if core.place == CoolerPlace::FrontBaffle {
        let mut way: Vec<Corner> = line[..2].to_vec();
        way.push(at(core.middle.0, core.outboard, 0.0));
        air::lane(ink, &way, width, &heat.paint(readout.upper_k), backward);
        return;
    }
    let mut way: Vec<Corner> = line[..3].to_vec();
    let mut turn = at(frame.rear_baffle - 4.0, 0.0, 2.0);
    turn.at.y = way[2].at.y;
    let end = if core.flat {
        core.middle.0
    } else {
        core.middle.0 - 0.5 * core.size.2
    };
    way.extend([
        turn,
        at(frame.rear_baffle - 1.8, core.outboard, 2.0),
        at(end.max(frame.rear_baffle), core.outboard, 0.0),
    ]);
    air::lane(ink, &way, width, &heat.paint(readout.upper_k), backward);
}
