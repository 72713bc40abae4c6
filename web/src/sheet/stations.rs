//! What is tagged and what can be chosen in each view, and where.

use super::hit::Target;
use super::ink::Ink;
use super::point::{Area, Point};
use super::proportions::{FINS, Frame, MOUTH, SIDE_BAFFLE};
use super::readout::State;
use super::scene::Scene;
use super::side_beyond::core_area;
use super::side_ways::{exit_middle, lower_middle, upper_middle};
use super::tags::Wanted;
use super::{Part, Request, View, front, words};
use coolpath_core::units::UnitSystem;

/// Tags above and below a view.
pub type Rails = (Vec<Wanted>, Vec<Wanted>);

/// Collects the tags of one view.
struct Tags<'a> {
    scene: &'a Scene<'a>,
    system: UnitSystem,
}

impl Tags<'_> {
    fn tag(
        &self,
        part: Part,
        (label, short): (&str, &str),
        value: &str,
        anchor: Point,
        rank: u8,
    ) -> Wanted {
        let asked = self.scene.unanswered.contains(&part);
        let value = if asked { "?" } else { value };
        let first = value.split(" · ").next().unwrap_or(value);
        let first = first.split(", ").next().unwrap_or(first);
        Wanted {
            part,
            label: (label.to_owned(), short.to_owned()),
            value: (value.to_owned(), first.to_owned()),
            state: None,
            anchor,
            rank,
        }
    }

    fn judged(&self, tag: Wanted, state: State) -> Wanted {
        let known = !self.scene.unanswered.contains(&tag.part);
        Wanted {
            state: known.then_some(state),
            ..tag
        }
    }
}

/// Tags of a view, above and below.
#[must_use]
pub fn rails(ink: &Ink, scene: &Scene, request: &Request, view: View, alone: bool) -> Rails {
    let tags = Tags {
        scene,
        system: request.system,
    };
    match view {
        View::Front => front_rails(ink, &tags, request),
        View::Plan if alone => plan_rails(ink, &tags),
        View::Plan => (Vec::new(), Vec::new()),
        View::All | View::Side => side_rails(ink, &tags, request),
    }
}

fn leak_tag(tags: &Tags, anchor: Point) -> Option<Wanted> {
    let readout = tags.scene.readout?;
    let value = words::flow(readout.seal_kg_s.abs(), tags.system);
    if tags.scene.leak_reversed() {
        let long = format!("{value}, into the deck");
        let names = ("Seal leak, reversed", "Leak, reversed");
        let tag = tags.tag(Part::UpperDeck, names, &long, anchor, 4);
        return Some(tags.judged(tag, State::Close));
    }
    let name = if tags.scene.frame.plenum {
        "Lid leak"
    } else {
        "Seal leak"
    };
    Some(tags.tag(Part::UpperDeck, (name, name), &value, anchor, 1))
}

fn exit_label(frame: &Frame) -> String {
    let turn = frame.flap_turn.to_degrees().round();
    match frame.main_exit() {
        Some(lip) if lip.flap && turn.abs() >= 1.0 => format!("Exit, flap {turn:.0}°"),
        Some(lip) if lip.flap => "Exit, flap shut".to_owned(),
        _ => "Exit".to_owned(),
    }
}

fn side_rails(ink: &Ink, tags: &Tags, request: &Request) -> Rails {
    let scene = tags.scene;
    let frame = &scene.frame;
    let plane = ink.plane;
    let system = tags.system;
    let core = &frame.core;
    let (mut above, mut below) = (Vec::new(), Vec::new());
    if let Some((x, z)) = core.shutter {
        let value = words::shutter(request.shutter);
        let anchor = plane.at(x, z);
        let tag = tags.tag(Part::Shutter, ("Shutter", "Shutter"), &value, anchor, 2);
        if core.scoop.is_some() {
            below.push(tag);
        } else {
            above.push(tag);
        }
    }
    let Some(readout) = scene.readout else {
        return (above, below);
    };
    let mouth = frame.shown_mouth().map_or(2.5, |mouth| mouth.up);
    let value = words::flow(readout.inlet_kg_s(), system);
    let inlet = plane.at(MOUTH + 1.2, mouth);
    above.push(tags.tag(Part::Inlets, ("Inlets", "Inlets"), &value, inlet, 7));
    let value = format!(
        "{} · {}",
        words::pressure(readout.upper_pa, system),
        words::air_temperature(readout.upper_k, system)
    );
    let deck = plane.at(frame.first() + 3.75, upper_middle(&scene.strands));
    above.push(tags.tag(
        Part::UpperDeck,
        ("Upper deck", "Upper deck"),
        &value,
        deck,
        6,
    ));
    above.extend(leak_tag(
        tags,
        plane.at(frame.rear_baffle - 0.6, frame.seal() - 0.5),
    ));
    let value = words::judged_temperature(readout.oil.kelvin, system);
    let (x, z) = core.middle;
    let names = ("Oil temperature", "Oil");
    let oil = tags.tag(Part::Cooler, names, &value, plane.at(x, z), 8);
    let oil = tags.judged(oil, readout.oil.state);
    if core.scoop.is_some() {
        below.push(oil);
    } else {
        above.push(oil);
    }
    below.extend(lower_tags(tags, ink));
    (above, below)
}

fn lower_tags(tags: &Tags, ink: &Ink) -> Vec<Wanted> {
    let scene = tags.scene;
    let frame = &scene.frame;
    let (plane, system) = (ink.plane, tags.system);
    let Some(readout) = scene.readout else {
        return Vec::new();
    };
    let last = frame.cylinders.len().saturating_sub(1);
    let hottest = readout.hottest.unwrap_or(last).min(last);
    let x = frame.cylinders.get(hottest).copied().unwrap_or_default();
    let value = words::judged_temperature(readout.head.kelvin, system);
    let names = (words::hottest(system, false), words::hottest(system, true));
    let head = tags.tag(Part::Engine, names, &value, plane.at(x, -1.3), 9);
    let head = tags.judged(head, readout.head.state);
    let value = format!(
        "{} · {}",
        words::pressure(readout.lower_pa, system),
        words::air_temperature(readout.lower_k, system)
    );
    let low = plane.at(frame.rear_baffle + 1.4, lower_middle(frame, &scene.strands));
    let names = ("Lower deck", "Lower deck");
    let lower = tags.tag(Part::LowerDeck, names, &value, low, 5);
    let label = exit_label(frame);
    let value = words::flow(readout.exit_kg_s(), system);
    let anchor = plane.at(frame.firewall + 2.4, exit_middle(frame));
    let exit = tags.tag(Part::Exit, (&label, "Exit"), &value, anchor, 3);
    vec![head, lower, exit]
}

fn front_rails(ink: &Ink, tags: &Tags, request: &Request) -> Rails {
    let scene = tags.scene;
    let frame = &scene.frame;
    let (plane, system) = (ink.plane, tags.system);
    let (mut above, mut below) = (Vec::new(), Vec::new());
    let mouth = frame
        .front_mouth(-1.0)
        .or_else(|| frame.mouths.first())
        .map(|mouth| (front::mouth_middle(frame, mouth), mouth));
    if let Some(readout) = scene.readout {
        if let Some(((u, z), _)) = mouth {
            let value = words::pressure(readout.ram_pa, system);
            let names = ("Ram at inlet", "Ram");
            above.push(tags.tag(Part::Inlets, names, &value, plane.at(u, z), 5));
        }
        let value = words::pressure(readout.upper_pa - readout.lower_pa, system);
        let names = ("Across the fins", "Fins");
        let anchor = plane.at(12.4, 2.4);
        above.push(tags.tag(Part::Engine, names, &value, anchor, 6));
    }
    if let Some(((u, z), mouth)) = mouth {
        // The dimension takes the tag's place.
        if scene.selected != Some(Part::Inlets) || scene.touch {
            let sum: f64 = request
                .installation
                .inlets
                .iter()
                .map(|i| i.area_m2())
                .sum();
            let name = match request.installation.inlets.len() {
                1 => "Inlet",
                2 => "Both inlets",
                _ => "All inlets",
            };
            let anchor = plane.at(u - 0.25 * mouth.width, z - 0.3 * mouth.height);
            let value = words::area(sum, system);
            below.push(tags.tag(Part::Inlets, (name, name), &value, anchor, 4));
        }
    }
    if scene.selected != Some(Part::Exit) || scene.touch {
        let sum: f64 = request
            .installation
            .exits
            .iter()
            .map(|exit| exit.area_m2(request.flap.clamp(0.0, 1.0)))
            .sum();
        let (middle, gap, half) = frame.main_exit().map_or((0.0, 0.4, 5.0), |lip| {
            (lip.middle, lip.gap, 0.5 * lip.width)
        });
        let anchor = plane.at(middle - 0.55 * half, frame.bottom - 0.72 * gap);
        let value = words::area(sum, system);
        let names = ("Exit, net", "Exit");
        below.push(tags.tag(Part::Exit, names, &value, anchor, 3));
    }
    (above, below)
}

fn plan_rails(ink: &Ink, tags: &Tags) -> Rails {
    let scene = tags.scene;
    let frame = &scene.frame;
    let (plane, system) = (ink.plane, tags.system);
    let Some(readout) = scene.readout else {
        return (Vec::new(), Vec::new());
    };
    let (mut above, mut below) = (Vec::new(), Vec::new());
    let flow_of = |side: f64| -> f64 {
        frame
            .mouths
            .iter()
            .filter(|mouth| mouth.side == side)
            .filter_map(|mouth| readout.inlets_kg_s.get(mouth.place))
            .sum()
    };
    for (side, names) in [
        (-1.0, ("Right inlet", "Right inlet")),
        (1.0, ("Left inlet", "Left inlet")),
    ] {
        if let Some(mouth) = frame.front_mouth(side) {
            let anchor = plane.at(MOUTH + 1.0, side * mouth.outboard);
            let value = words::flow(flow_of(side), system);
            let tag = tags.tag(Part::Inlets, names, &value, anchor, 5);
            if side > 0.0 {
                below.push(tag);
            } else {
                above.push(tag);
            }
        }
    }
    above.extend(leak_tag(tags, plane.at(frame.last() + 3.0, -SIDE_BAFFLE)));
    let exit = plane.at(
        frame.firewall + 4.5,
        frame.main_exit().map_or(0.0, |lip| -0.25 * lip.width),
    );
    let value = words::flow(readout.exit_kg_s(), system);
    if scene.selected != Some(Part::Exit) || scene.touch {
        above.push(tags.tag(Part::Exit, ("Exit", "Exit"), &value, exit, 4));
    }
    let last = frame.cylinders.len().saturating_sub(1);
    let hottest = readout.hottest.unwrap_or(last).min(last);
    let x = frame.cylinders.get(hottest).copied().unwrap_or_default();
    let value = words::judged_temperature(readout.head.kelvin, system);
    let names = (words::hottest(system, false), words::hottest(system, true));
    let head = tags.tag(Part::Engine, names, &value, plane.at(x - 1.6, 12.6), 9);
    below.push(tags.judged(head, readout.head.state));
    let core = &frame.core;
    let value = words::judged_temperature(readout.oil.kelvin, system);
    let anchor = plane.at(core.middle.0, core.side * core.outboard);
    let names = ("Oil temperature", "Oil");
    let oil = tags.tag(Part::Cooler, names, &value, anchor, 8);
    let oil = tags.judged(oil, readout.oil.state);
    if core.side > 0.0 {
        below.push(oil);
    } else {
        above.push(oil);
    }
    (above, below)
}

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
            Some(readout.head.state),
        ),
        Part::Cooler => words::spoken(
            &words::judged_temperature(readout.oil.kelvin, system),
            Some(readout.oil.state),
        ),
        Part::Shutter => format!("{:.0}° from open", scene.shutter_deg),
        Part::Propeller => return name.to_owned(),
    };
    format!("{name}: {said}")
}

fn side_boxes(ink: &Ink, scene: &Scene) -> Vec<(Part, Area)> {
    let frame = &scene.frame;
    let plane = ink.plane;
    let (first, rear, wall) = (frame.first(), frame.rear_baffle, frame.firewall);
    let mouth = frame.shown_mouth().map_or(2.5, |mouth| mouth.up);
    let tall = frame.shown_mouth().map_or(2.0, |mouth| 0.5 * mouth.height);
    let mut boxes = vec![
        (
            Part::Inlets,
            plane.area(
                (MOUTH - 3.0, mouth + tall + 0.9),
                (MOUTH + 3.5, mouth - tall - 0.9),
            ),
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
    let halves = super::plan::halves(scene);
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
    let half = super::plan::Half::of(core.side);
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
