//! What can be chosen in each view, and where.

use super::half;
use super::hit::Target;
use super::ink::Ink;
use super::point::Area;
use super::proportions::{FINS, MOUTH, SIDE_BAFFLE};
use super::scene::Scene;
use super::side_beyond::core_area;
use super::stations::inlet_place;
use super::{Part, View, front, words};
use coolpath_core::language::tr;
use coolpath_core::units::typed::UnitSystem;

/// What can be chosen in a view, in the order of the air's way.
#[must_use]
pub fn targets(ink: &Ink, scene: &Scene, view: View, system: UnitSystem) -> Vec<Target> {
    let boxes = match view {
        View::Front => front_boxes(ink, scene),
        View::Plan => plan_boxes(ink, scene),
        View::All | View::Side => side_boxes(ink, scene),
    };
    boxes
        .into_iter()
        .map(|(part, area)| Target {
            part,
            area,
            label: label(scene, part, system),
        })
        .collect()
}

/// A part's name with what it shows, for those who hear the drawing.
fn label(scene: &Scene, part: Part, system: UnitSystem) -> String {
    let name = part.label();
    let Some(readout) = scene.readout else {
        return name.to_owned();
    };
    let said = match part {
        Part::Inlets => words::flow(readout.inlet_kg_s(), system),
        Part::UpperDeck => words::pressure(readout.upper_pa, system),
        Part::LowerDeck => words::pressure(readout.lower_pa, system),
        Part::Exit => words::flow(readout.exit_kg_s(), system),
        Part::Engine => words::spoken(
            &words::judged_temperature(readout.head.kelvin, system),
            readout.head.state,
        ),
        Part::Cooler => words::spoken(
            &words::judged_temperature(readout.oil.kelvin, system),
            readout.oil.state,
        ),
        Part::Shutter => tr!("{:.0}° from open", scene.shutter_deg),
        Part::Propeller => return name.to_owned(),
    };
    format!("{name}: {said}")
}

fn side_boxes(ink: &Ink, scene: &Scene) -> Vec<(Part, Area)> {
    let frame = &scene.frame;
    let plane = ink.plane;
    let (first, rear, wall) = (frame.first(), frame.rear_baffle, frame.firewall);
    let (x, mouth) = inlet_place(frame);
    let tall = frame.shown_mouth().map_or(1.0, |mouth| 0.5 * mouth.height);
    let mut boxes = vec![
        (
            Part::Inlets,
            plane.area((x - 4.2, mouth + tall + 0.9), (x + 2.3, mouth - tall - 0.9)),
        ),
        (
            Part::UpperDeck,
            plane.area((first - 4.2, frame.top - 0.3), (rear + 0.5, FINS + 0.1)),
        ),
        (
            Part::Engine,
            plane.area((first - 3.6, FINS + 0.1), (rear - 0.6, -3.7)),
        ),
    ];
    if let Some((x, z)) = frame.core.shutter {
        boxes.push((
            Part::Shutter,
            plane.area((x - 2.0, z + 2.2), (x + 2.0, z - 2.2)),
        ));
    }
    boxes.push((Part::Cooler, core_area(ink, frame).grown(2.0)));
    boxes.push((
        Part::LowerDeck,
        plane.area((first - 3.0, -8.2), (wall - 6.0, frame.chin + 0.5)),
    ));
    boxes.push((
        Part::Exit,
        plane.area(
            (wall - 1.5, frame.bottom + 0.6),
            (wall + 7.0, frame.tip.1 - 0.6),
        ),
    ));
    boxes.push((
        Part::Propeller,
        plane.area(
            (-frame.spinner_length, 0.2 * frame.spinner),
            (0.0, -frame.spinner),
        ),
    ));
    boxes
}

fn front_boxes(ink: &Ink, scene: &Scene) -> Vec<(Part, Area)> {
    let frame = &scene.frame;
    let plane = ink.plane;
    let mut boxes: Vec<(Part, Area)> = Vec::new();
    for mouth in &frame.mouths {
        let (u, z) = front::mouth_middle(frame, mouth);
        let (half_width, half_height) = (0.5 * mouth.width + 1.0, 0.5 * mouth.height + 1.0);
        boxes.push((
            Part::Inlets,
            plane.area(
                (u - half_width, z + half_height),
                (u + half_width, z - half_height),
            ),
        ));
    }
    let seal = if frame.plenum {
        frame.lid
    } else {
        frame.top - 1.0
    };
    boxes.push((
        Part::UpperDeck,
        plane.area((4.5, seal), (SIDE_BAFFLE + 1.0, 3.7)),
    ));
    boxes.push((Part::Engine, plane.area((4.0, 3.7), (16.2, -3.7))));
    if let Some(scoop) = frame.core.scoop {
        boxes.push((
            Part::Cooler,
            plane.area((-3.8, frame.chin), (3.8, scoop.floor)),
        ));
    }
    for lip in &frame.lips {
        let half = 0.5 * lip.width;
        boxes.push((
            Part::Exit,
            plane.area(
                (lip.middle - half, frame.bottom),
                (lip.middle + half, frame.bottom - lip.gap.max(lip.open_gap)),
            ),
        ));
    }
    let r = 0.7 * frame.spinner;
    boxes.push((Part::Propeller, plane.area((-r, r), (r, -r))));
    boxes
}

fn plan_boxes(ink: &Ink, scene: &Scene) -> Vec<(Part, Area)> {
    let frame = &scene.frame;
    let plane = ink.plane;
    let mut boxes: Vec<(Part, Area)> = Vec::new();
    let halves = half::halves(scene);
    for half in &halves {
        if let Some(mouth) = frame.front_mouth(half.side) {
            let v = mouth.outboard;
            let wide = 0.5 * mouth.width + 1.0;
            let (a, b) = (
                half.at(MOUTH - 1.5, v - wide),
                half.at(MOUTH + 3.5, v + wide),
            );
            boxes.push((Part::Inlets, plane.area(a, b)));
        }
    }
    for half in &halves {
        let (x0, x1) = (frame.first() - 3.6, frame.last() + 3.6);
        let (a, b) = (half.at(x0, 4.0), half.at(x1, 16.0));
        boxes.push((Part::Engine, plane.area(a, b)));
    }
    let core = &frame.core;
    let half = half::Half::of(core.side);
    let v = core.outboard;
    if let Some((x, _)) = core.shutter {
        let r = 0.5 * core.disc;
        let (a, b) = (half.at(x - r, v - r), half.at(x + r, v + r));
        boxes.push((Part::Shutter, plane.area(a, b)));
    }
    let wide = 0.5 * core.size.0;
    let deep = 0.5 * if core.flat { core.size.1 } else { core.size.2 };
    let x = core.middle.0;
    let (a, b) = (half.at(x - deep, v - wide), half.at(x + deep, v + wide));
    boxes.push((Part::Cooler, plane.area(a, b)));
    for half in &halves {
        let wide = frame.main_exit().map_or(6.0, |lip| 0.5 * lip.width);
        let (a, b) = (
            half.at(frame.firewall + 1.0, 0.0),
            half.at(frame.firewall + 7.0, wide),
        );
        boxes.push((Part::Exit, plane.area(a, b)));
    }
    for half in &halves {
        let (a, b) = (
            half.at(-frame.spinner_length, 0.0),
            half.at(0.0, frame.spinner),
        );
        boxes.push((Part::Propeller, plane.area(a, b)));
    }
    boxes
}
