//! The cooler's air in the side view: through its hose, or its own scoop.

use super::air::{self, Paint, Spacing};
use super::core_place::CoolerPlace;
use super::ink::Ink;
use super::path::{Corner, beside, corner, height_at};
use super::point::Point;
use super::side_air::SideAir;
use super::side_ways::BEHIND_FRONT;
use super::strands::Strand;

impl SideAir<'_> {
    pub(super) fn cooler_strand(&self, ink: &mut Ink, strand: &Strand) {
        let frame = self.frame;
        let core = &frame.core;
        let plane = ink.plane;
        let at = |x: f64, z: f64, radius: f64| corner(plane.at(x, z), plane.px(radius));
        let width = self.px(strand.flow);
        let mut line;
        let (depth, height) = (core.size.2, core.middle.1);
        if core.scoop.is_some() {
            line = self.scoop_line(ink);
            line.truncate(4);
            let x = core.middle.0 + 0.5 * depth + 2.6;
            let mut join = at(x, 0.0, 1.6);
            join.at.y = self.lower_y(strand, x, &plane.at(x, 0.0));
            line.push(join);
        } else if core.place == CoolerPlace::FrontBaffle {
            line = self.front_line(ink, strand);
        } else {
            line = self.above(ink, strand.upper, strand.through);
            let hole = core.line.first().map_or(3.1, |corner| corner.1);
            let near = core.place == CoolerPlace::RearBaffle;
            let (leaves, enters) = if near { (3.4, 1.2) } else { (5.2, 2.2) };
            let mut turn = at(frame.rear_baffle - leaves, 0.0, 2.0);
            turn.at.y = strand.upper.map_or(plane.at(0.0, hole).y, |leg| {
                self.upper_at(leg.middle)[2].at.y
            });
            let mut middle = vec![turn, at(frame.rear_baffle - enters, hole, 2.0)];
            middle.extend(core.line.iter().map(|&(x, z, radius)| at(x, z, radius)));
            if core.flat {
                middle.push(at(core.middle.0, height - 0.5 * depth - 0.6, 0.6));
            } else {
                middle.push(at(core.middle.0 + 0.5 * depth + 0.95, height, 1.0));
            }
            line.extend(beside(&middle, -self.px(strand.aside)));
            if strand.lower.is_some() {
                let x = line.last().map_or(0.0, |corner| corner.at.x);
                let mut join = line.last().copied().unwrap_or(at(0.0, 0.0, 0.0));
                join.radius = plane.px(1.2);
                join.at.y = self.lower_y(strand, (x - plane.origin.x) / plane.scale, &join.at);
                line.push(join);
            }
        }
        if let Some(leg) = strand.lower {
            let tail = self.below(ink, Some(leg), strand.through);
            let x = line.last().map_or(0.0, |corner| corner.at.x);
            line.extend(tail.into_iter().filter(|corner| corner.at.x > x + 1.0));
        } else if let Some(end) = line.last() {
            let colour = self.heat.edge(self.readout.behind_cooler_k);
            air::across(ink, end.at.moved(4.0, 0.0), &colour, false);
        }
        let paint = self.cooling(ink);
        let track = air::lane(ink, &line, width, &paint, strand.backward);
        let way = self.readout.cooler_kg_s;
        let spacing = Spacing {
            first: 0.52 * track.length(),
            before_end: 0.3 * track.length(),
            step: plane.px(5.0),
        };
        let colour = self.heat.edge(self.readout.before_cooler_k);
        air::chevrons(ink, &track, 1.6 * width, &colour, spacing, way < 0.0);
    }

    /// Down behind the front baffle, forward through the core before it, and along the skin into the
    /// lower stack.
    fn front_line(&self, ink: &Ink, strand: &Strand) -> Vec<Corner> {
        let (frame, core, plane) = (self.frame, &self.frame.core, ink.plane);
        let at = |x: f64, z: f64, radius: f64| corner(plane.at(x, z), plane.px(radius));
        let down = frame.front_baffle + BEHIND_FRONT;
        let before = core.middle.0 - 0.5 * core.size.2 - 0.9;
        let mut line = self.above(ink, strand.upper, strand.through);
        line.retain(|corner| corner.at.x < plane.at(down - 0.6, 0.0).x);
        let mut turn = at(down, 0.0, 0.6);
        turn.at.y = strand
            .upper
            .map_or(plane.at(0.0, frame.ramp + 1.0).y, |leg| {
                self.upper_at(leg.middle)[2].at.y
            });
        let height = core.middle.1;
        let mut middle = vec![turn, at(down, height, 0.5), at(before, height, 0.8)];
        if strand.lower.is_some() {
            let (under, aft) = (height - 0.5 * core.size.1 - 0.7, frame.front_baffle + 2.0);
            middle.push(at(before, under, 1.2));
            middle.push(at(aft, (frame.skin_below(aft) + 1.0).min(under), 1.5));
        }
        line.extend(beside(&middle, -self.px(strand.aside)));
        if strand.lower.is_some() {
            let x = frame.first() + 1.6;
            let mut join = at(x, 0.0, 1.5);
            join.at.y = self.lower_y(strand, x, &at(x, height, 0.0).at);
            line.push(join);
        }
        line
    }

    /// Height on the sheet of a strand's lane in the lower stack, at x inches.
    pub(super) fn lower_y(&self, strand: &Strand, x: f64, otherwise: &Point) -> f64 {
        let Some(leg) = strand.lower else {
            return otherwise.y;
        };
        let line = self.lower_at(leg.middle);
        let points: Vec<(f64, f64)> = line.iter().map(|c| (c.at.x, c.at.y)).collect();
        let left = otherwise.x - x * self.scale;
        height_at(&points, left + x * self.scale)
    }

    /// Through the core into the lower deck.
    pub(super) fn cooling(&self, ink: &mut Ink) -> Paint {
        let core = &self.frame.core;
        let readout = self.readout;
        let half = 0.5 * core.size.2;
        let (x, z) = core.middle;
        let (mut before, mut behind) = (readout.before_cooler_k, readout.behind_cooler_k);
        if readout.cooler_kg_s < 0.0 {
            core::mem::swap(&mut before, &mut behind);
        }
        if core.flat {
            let (from, to) = (ink.plane.at(0.0, z + half), ink.plane.at(0.0, z - half));
            self.heat
                .gradient(ink, &[(0.0, before), (1.0, behind)], from, to)
        } else {
            let (mut from, mut to) = (ink.plane.at(x - half, 0.0), ink.plane.at(x + half, 0.0));
            if core.place == CoolerPlace::FrontBaffle {
                // Its air goes forward.
                core::mem::swap(&mut from, &mut to);
            }
            self.heat
                .gradient(ink, &[(0.0, before), (1.0, behind)], from, to)
        }
    }

    pub(super) fn scoop_line(&self, ink: &Ink) -> Vec<Corner> {
        let plane = ink.plane;
        let at = |x: f64, z: f64, radius: f64| corner(plane.at(x, z), plane.px(radius));
        let core = &self.frame.core;
        let Some(scoop) = core.scoop else {
            return Vec::new();
        };
        let mouth = scoop.floor + 0.5 * scoop.height;
        let face = core.middle.1;
        let back = scoop.face + core.size.2;
        let out = scoop.floor + 0.5 * scoop.outlet;
        vec![
            at(self.reach.left + 1.0, mouth, 0.0),
            at(scoop.mouth + 2.0, mouth, 3.0),
            at(scoop.face - 1.5, face, 3.0),
            at(back + 1.5, face, 3.0),
            at(scoop.end - 1.2, out, 3.0),
            at(self.reach.right, out - 0.8, 0.0),
        ]
    }

    /// The stream of a cooler that neither deck feeds nor receives.
    pub(super) fn scoop_alone(&self, ink: &mut Ink) {
        let line = self.scoop_line(ink);
        let way = self.readout.cooler_kg_s;
        let width = air::width_px(way, self.scale);
        let paint = self.cooling(ink);
        let track = air::lane(ink, &line, width, &paint, way < 0.0);
        let px = |inches: f64| inches * self.scale;
        for (first, end, kelvin) in [
            (
                px(4.0),
                track.length() - px(19.0),
                self.readout.before_cooler_k,
            ),
            (
                track.length() - px(14.0),
                px(2.0),
                self.readout.behind_cooler_k,
            ),
        ] {
            let spacing = Spacing {
                first,
                before_end: end,
                step: px(6.5),
            };
            let colour = self.heat.edge(kelvin);
            air::chevrons(ink, &track, 2.0 * width, &colour, spacing, way < 0.0);
        }
    }
}
