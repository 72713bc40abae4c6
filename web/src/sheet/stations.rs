//! What is tagged in each view, and where.

use super::ink::Ink;
use super::mouths::Station;
use super::point::Point;
use super::proportions::{Frame, MOUTH, SIDE_BAFFLE};
use super::readout::State;
use super::scene::Scene;
use super::side_levels::{exit_middle, lower_middle, upper_middle};
use super::side_ways::belly_mouth;
use super::tags::Wanted;
use super::{Part, Request, View, front, plan, words};
use coolpath_core::language::tr;
use coolpath_core::units::typed::UnitSystem;

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

    fn judged(&self, tag: Wanted, state: Option<State>) -> Wanted {
        let known = !self.scene.unanswered.contains(&tag.part);
        Wanted {
            state: state.filter(|_| known),
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
        let long = tr!("{}, into the deck", value);
        let names = (tr("Seal leak, reversed"), tr("Leak, reversed"));
        let tag = tags.tag(Part::UpperDeck, names, &long, anchor, 4);
        return Some(tags.judged(tag, Some(State::Close)));
    }
    let name = if tags.scene.frame.plenum {
        tr("Lid leak")
    } else {
        tr("Seal leak")
    };
    Some(tags.tag(Part::UpperDeck, (name, name), &value, anchor, 1))
}

/// A stream's tag; one that runs the wrong way says so.
fn stream_tag(tags: &Tags, part: Part, name: &str, flow: f64, anchor: Point, rank: u8) -> Wanted {
    let value = words::flow(flow.abs(), tags.system);
    let short = part.label();
    if flow < 0.0 {
        let label = tr!("{}, reversed", short);
        let tag = tags.tag(part, (&label, &label), &value, anchor, rank);
        return tags.judged(tag, Some(State::Close));
    }
    tags.tag(part, (name, short), &value, anchor, rank)
}

/// Where the inlets are in the side view: in the nose, else under the chin or in the top skin.
#[must_use]
pub fn inlet_place(frame: &Frame) -> (f64, f64) {
    if let Some(mouth) = frame.shown_mouth() {
        return (MOUTH + 1.2, mouth.up);
    }
    let under = frame
        .mouths
        .iter()
        .any(|mouth| mouth.station == Station::Belly);
    let x = frame.front_baffle - 2.4;
    if under {
        (x, belly_mouth(frame))
    } else {
        (x, frame.skin_above(x) + 0.8)
    }
}

fn exit_label(frame: &Frame) -> String {
    let turn = frame.flap_turn.to_degrees().round();
    match frame.main_exit() {
        Some(lip) if lip.flap && turn.abs() >= 1.0 => tr!("Exit, flap {:.0}°", turn),
        Some(lip) if lip.flap => tr("Exit, flap shut").to_owned(),
        Some(lip) if lip.tube.is_some() => tr("Augmentor").to_owned(),
        _ => tr("Exit").to_owned(),
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
        let tag = tags.tag(
            Part::Shutter,
            (tr("Shutter"), tr("Shutter")),
            &value,
            anchor,
            2,
        );
        if core.scoop.is_some() {
            below.push(tag);
        } else {
            above.push(tag);
        }
    }
    let Some(readout) = scene.readout else {
        return (above, below);
    };
    let (x, z) = inlet_place(frame);
    let inlet = plane.at(x, z);
    let flow = readout.inlet_kg_s();
    above.push(stream_tag(tags, Part::Inlets, tr("Inlets"), flow, inlet, 7));
    let value = format!(
        "{} · {}",
        words::pressure(readout.upper_pa, system),
        words::air_temperature(readout.upper_k, system)
    );
    let deck = plane.at(frame.first() + 3.75, upper_middle(&scene.strands));
    above.push(tags.tag(
        Part::UpperDeck,
        (tr("Upper deck"), tr("Upper deck")),
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
    let names = (tr("Oil temperature"), tr("Oil"));
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
    let names = (tr("Lower deck"), tr("Lower deck"));
    let lower = tags.tag(Part::LowerDeck, names, &value, low, 5);
    let label = exit_label(frame);
    let anchor = plane.at(frame.firewall + 2.4, exit_middle(frame));
    let exit = stream_tag(tags, Part::Exit, &label, readout.exit_kg_s(), anchor, 3);
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
            let names = (tr("Ram at inlet"), tr("Ram"));
            above.push(tags.tag(Part::Inlets, names, &value, plane.at(u, z), 5));
        }
        let value = words::pressure(readout.upper_pa - readout.lower_pa, system);
        let names = (tr("Across the fins"), tr("Fins"));
        let anchor = plane.at(12.4, 2.4);
        above.push(tags.tag(Part::Engine, names, &value, anchor, 6));
    }
    if let Some(((u, z), mouth)) = mouth {
        // The dimension takes the tag's place.
        if scene.selected != Some(Part::Inlets) {
            let sum: f64 = request
                .installation
                .inlets
                .iter()
                .map(|i| i.area_m2())
                .sum();
            let name = match request.installation.inlets.len() {
                1 => tr("Inlet"),
                2 => tr("Both inlets"),
                _ => tr("All inlets"),
            };
            let anchor = plane.at(u - 0.25 * mouth.width, z - 0.3 * mouth.height);
            let value = words::area(sum, system);
            below.push(tags.tag(Part::Inlets, (name, name), &value, anchor, 4));
        }
    }
    if scene.selected != Some(Part::Exit) {
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
        let names = (tr("Exit, net"), tr("Exit"));
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
        (-1.0, (tr("Right inlet"), tr("Right inlet"))),
        (1.0, (tr("Left inlet"), tr("Left inlet"))),
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
        -frame.main_exit().map_or(0.0, |_| plan::exit_place(frame)),
    );
    let value = words::flow(readout.exit_kg_s(), system);
    if scene.selected != Some(Part::Exit) {
        above.push(tags.tag(Part::Exit, (tr("Exit"), tr("Exit")), &value, exit, 4));
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
    let names = (tr("Oil temperature"), tr("Oil"));
    let oil = tags.tag(Part::Cooler, names, &value, anchor, 8);
    let oil = tags.judged(oil, readout.oil.state);
    if core.side > 0.0 {
        below.push(oil);
    } else {
        above.push(oil);
    }
    (above, below)
}
