//! The air in the side view: two stacks of lanes, joined by the cylinders and the cooler.

use super::air::{self, Heat, INCHES_PER_KG_S, Paint, Spacing};
use super::core_place::CoolerPlace;
use super::ink::Ink;
use super::path::{Corner, Track, beside, corner};
use super::proportions::{FINS, Frame, MOUTH};
use super::readout::Readout;
use super::scene::Reach;
use super::strands::{Branch, Leg, Strand, Strands};

/// Distance of a lane from the barrel's middle, in.
const BESIDE_BARREL: f64 = 3.1;
/// Where the air begins to warm on its way down the fins, in above the crankshaft.
const WARMS: f64 = 1.8;

/// Everything that the lanes follow from.
pub struct SideAir<'a> {
    frame: &'a Frame,
    readout: &'a Readout,
    strands: &'a Strands,
    heat: Heat,
    reach: Reach,
    scale: f64,
    upper: Vec<Corner>,
    lower: Vec<Corner>,
}

/// Height of the bottom of the lower stack, in.
fn lower_floor(frame: &Frame) -> f64 {
    match frame.core.scoop {
        Some(scoop) => (scoop.floor + frame.core.size.1).max(frame.chin) + 0.8,
        None => frame.chin + 1.0,
    }
}

/// Middle of the lower stack, in.
#[must_use]
pub fn lower_middle(frame: &Frame, strands: &Strands) -> f64 {
    lower_floor(frame) + 0.5 * strands.lower * INCHES_PER_KG_S
}

/// Middle of the exit's gap where the lip ends, in.
#[must_use]
pub fn exit_middle(frame: &Frame) -> f64 {
    0.5 * (frame.bottom + frame.tip.1) + 0.2
}

/// Middle of the upper stack over the cylinders, in.
#[must_use]
pub fn upper_middle(strands: &Strands) -> f64 {
    FINS + 0.65 + 0.5 * strands.upper * INCHES_PER_KG_S
}

/// Heights of what passes the rear baffle above the cooler's hole, in: blast tubes, cabin air,
/// induction air.
#[must_use]
pub fn baffle_holes(frame: &Frame) -> [f64; 3] {
    let core = &frame.core;
    let above = match core.place {
        CoolerPlace::OwnScoop => 2.0,
        _ => core.line.first().map_or(3.1, |line| line.1) + 0.5 * core.hose,
    };
    let most = frame.seal() - 2.2;
    let blast = (above + 0.6 + 0.5 * frame.blast.1).min(most);
    let cabin_half = 0.5 * frame.cabin.unwrap_or(0.0);
    let cabin = (blast + 0.5 * frame.blast.1 + 0.5 + cabin_half).min(most);
    let induction = (cabin + cabin_half + 1.6).min(most);
    [blast, cabin, induction]
}

impl<'a> SideAir<'a> {
    /// The lanes' common lines.
    #[must_use]
    pub fn new(
        ink: &Ink,
        frame: &'a Frame,
        readout: &'a Readout,
        strands: &'a Strands,
        reach: Reach,
    ) -> Self {
        let plane = ink.plane;
        let at = |x: f64, z: f64, radius: f64| corner(plane.at(x, z), plane.px(radius));
        let inches = INCHES_PER_KG_S;
        let mouth = frame.shown_mouth().map_or(2.5, |mouth| mouth.up);
        let nose = mouth + (0.5 * strands.upper - strands.upper_middle(Branch::Front)) * inches;
        let deck = upper_middle(strands);
        let upper = vec![
            at(reach.left + 1.0, nose, 0.0),
            at(MOUTH + 2.9, nose, 3.4),
            at(frame.first() - 3.5, deck, 3.4),
            at(frame.firewall, deck, 0.0),
        ];
        let low = lower_middle(frame, strands);
        let out = exit_middle(frame);
        let bend = if frame.core.scoop.is_some() { 8.0 } else { 5.5 };
        let falls = if frame.flap_turn > 0.09 { 1.2 } else { 0.9 };
        let lower = vec![
            at(frame.first() - 4.0, low, 0.0),
            at(frame.firewall - bend, low, 6.0),
            at(frame.firewall + 3.0, out, 6.0),
            at(reach.right, out - falls, 0.0),
        ];
        Self {
            frame,
            readout,
            strands,
            heat: Heat {
                outside_k: readout.outside_k,
            },
            reach,
            scale: plane.scale,
            upper,
            lower,
        }
    }

    /// px of a flow's width.
    fn px(&self, flow: f64) -> f64 {
        flow * INCHES_PER_KG_S * self.scale
    }

    /// Draws all lanes and their chevrons.
    pub fn draw(&self, ink: &mut Ink) {
        for strand in &self.strands.list {
            match strand.through {
                Some(Branch::Fin(place)) => self.fin_strand(ink, strand, place),
                Some(_) => self.cooler_strand(ink, strand),
                None => self.deck_strand(ink, strand),
            }
        }
        let own = self.frame.core.scoop.is_some();
        if own
            && !self
                .strands
                .list
                .iter()
                .any(|s| s.through == Some(Branch::Cooler))
        {
            self.scoop_alone(ink);
        }
        self.main_chevrons(ink);
    }

    fn main_chevrons(&self, ink: &mut Ink) {
        let flow = self.strands.through(Branch::Front);
        let px = |inches: f64| inches * self.scale;
        if flow > 0.0 {
            let way: f64 = self.readout.inlet_kg_s();
            let middle = self.strands.upper_middle(Branch::Front);
            let line = beside(&self.upper, self.px(0.5 * self.strands.upper - middle));
            let track = Track::new(&line[..3]);
            let colour = self.heat.edge(self.readout.upper_k);
            let spacing = Spacing {
                first: px(2.2),
                before_end: px(3.0),
                step: px(6.5),
            };
            air::chevrons(ink, &track, self.px(flow), &colour, spacing, way < 0.0);
        }
        let out = self.strands.through(Branch::Lip);
        if out > 0.0 {
            let track = Track::new(&self.lower[1..]);
            let colour = self.heat.edge(self.readout.lower_k);
            let spacing = Spacing {
                first: px(10.5),
                before_end: px(1.2),
                step: px(5.2),
            };
            let against = self.readout.exit_kg_s() < 0.0;
            air::chevrons(ink, &track, self.px(out), &colour, spacing, against);
        }
    }

    /// The lane at a height of the upper stack, up to where the cylinders begin.
    fn upper_at(&self, middle: f64) -> Vec<Corner> {
        beside(&self.upper, self.px(0.5 * self.strands.upper - middle))
    }

    fn lower_at(&self, middle: f64) -> Vec<Corner> {
        beside(&self.lower, self.px(0.5 * self.strands.lower - middle))
    }

    /// From the outside to the stack's height, for what enters before the cylinders.
    fn front_end(&self, ink: &Ink, branch: Branch, middle: f64) -> Option<Vec<Corner>> {
        let frame = self.frame;
        let plane = ink.plane;
        let at = |x: f64, z: f64, radius: f64| corner(plane.at(x, z), plane.px(radius));
        let group = self.strands.upper_middle(branch);
        let height =
            upper_middle(self.strands) + (group - 0.5 * self.strands.upper) * INCHES_PER_KG_S;
        let base = match branch {
            Branch::Front => return Some(self.upper_at(middle)[..3].to_vec()),
            Branch::Belly => {
                let rise = frame.front_baffle - 1.2;
                let mouth = belly_mouth(frame);
                vec![
                    at(self.reach.left + 1.0, mouth, 0.0),
                    at(rise, mouth, 2.5),
                    at(rise, height, 2.0),
                    at(frame.firewall, height, 0.0),
                ]
            }
            Branch::Flush => {
                let skin = frame.skin_above(frame.front_baffle);
                vec![
                    at(frame.front_baffle - 6.0, skin + 1.7, 0.0),
                    at(frame.front_baffle - 2.4, skin + 1.5, 2.0),
                    at(frame.first() - 2.4, height, 2.5),
                    at(frame.firewall, height, 0.0),
                ]
            }
            _ => return None,
        };
        let line = beside(&base, self.px(group - middle));
        Some(line[..3].to_vec())
    }

    /// From the stack to the outside, for what leaves behind the cylinders.
    fn rear_end(&self, ink: &Ink, branch: Branch, middle: f64) -> Vec<Corner> {
        let frame = self.frame;
        let plane = ink.plane;
        let at = |x: f64, z: f64, radius: f64| corner(plane.at(x, z), plane.px(radius));
        let baffle = frame.rear_baffle;
        let stack = self.upper_at(middle)[2].at.y;
        let leaves = |x: f64, radius: f64| {
            let mut corner = at(x, 0.0, radius);
            corner.at.y = stack;
            corner
        };
        let [blast, cabin, induction] = baffle_holes(frame);
        match branch {
            Branch::Blast => vec![
                leaves(baffle - 5.0, 1.6),
                at(baffle - 2.0, blast, 1.6),
                at(baffle + 2.6, blast, 0.0),
            ],
            Branch::Cabin => vec![
                leaves(baffle - 4.6, 1.6),
                at(baffle - 1.8, cabin, 1.6),
                at(frame.firewall + 2.0, cabin, 0.0),
            ],
            Branch::Induction => vec![
                leaves(baffle - 4.4, 1.6),
                at(baffle - 1.6, induction, 1.6),
                at(baffle + 3.4, induction, 0.0),
            ],
            Branch::Overboard => {
                let floor = frame
                    .shown_mouth()
                    .map_or(0.5, |mouth| mouth.up - 0.5 * mouth.height);
                let start = self.upper_at(middle)[0];
                let mut turn = at(MOUTH + 2.1, 0.0, 0.8);
                turn.at.y = start.at.y;
                vec![turn, at(MOUTH + 2.1, floor - 2.4, 0.0)]
            }
            _ => {
                let over = frame.seal() - if frame.plenum { 0.75 } else { 0.55 };
                vec![
                    leaves(baffle - 4.4, 1.6),
                    at(baffle - 1.7, over, 1.2),
                    at(baffle + 1.1, over, 0.9),
                    at(baffle + 1.1, over - 2.2, 0.0),
                ]
            }
        }
    }

    /// From where a leg's other end lies to the stack above the cylinders.
    fn above(&self, ink: &Ink, leg: Option<Leg>, through: Option<Branch>) -> Vec<Corner> {
        let Some(leg) = leg else { return Vec::new() };
        let end = if Some(leg.from) == through {
            leg.to
        } else {
            leg.from
        };
        self.front_end(ink, end, leg.middle).unwrap_or_else(|| {
            let mut line = self.rear_end(ink, end, leg.middle);
            line.reverse();
            line
        })
    }

    /// From the lower stack to where a leg's other end lies.
    fn below(&self, ink: &Ink, leg: Option<Leg>, through: Option<Branch>) -> Vec<Corner> {
        let Some(leg) = leg else { return Vec::new() };
        let end = if Some(leg.to) == through {
            leg.from
        } else {
            leg.to
        };
        self.tail(ink, end, leg.middle)
    }

    fn tail(&self, ink: &Ink, end: Branch, middle: f64) -> Vec<Corner> {
        let line = self.lower_at(middle);
        match end {
            Branch::Lip => line[1..].to_vec(),
            Branch::Inflow | Branch::Louvers | Branch::Blast | Branch::Seal => {
                let (x, end) = self.low_end(end);
                let plane = ink.plane;
                let mut turn = corner(plane.at(x, 0.0), plane.px(0.9));
                turn.at.y = line[0].at.y;
                vec![turn, corner(plane.at(end.0, end.1), 0.0)]
            }
            _ => line[1..2].to_vec(),
        }
    }

    /// Where a small stream of the lower deck turns, and where it ends.
    fn low_end(&self, branch: Branch) -> (f64, (f64, f64)) {
        let frame = self.frame;
        match branch {
            Branch::Inflow => {
                // Before a scoop, if there is one.
                let x = if frame.core.scoop.is_some() {
                    8.4
                } else {
                    14.6
                };
                (x, (x - 1.2, frame.skin_below(x - 1.2) - 1.3))
            }
            Branch::Louvers => {
                let x = super::side_metal::louver_places(frame)
                    .last()
                    .map_or(frame.firewall - 8.0, |row| row.1);
                (x, (x + 0.9, frame.chin - 1.9))
            }
            _ => {
                let x = frame.rear_baffle + 3.0;
                (x, (x, lower_floor(frame) + 1.0))
            }
        }
    }

    fn fin_strand(&self, ink: &mut Ink, strand: &Strand, place: usize) {
        let plane = ink.plane;
        let frame = self.frame;
        let side = if place % 2 == 0 { -1.0 } else { 1.0 };
        let x = frame.cylinders.get(place / 2).copied().unwrap_or_default();
        let cylinders = frame.cylinders.len().max(1) as f64;
        let half = self.readout.fin_kg_s.abs() / (2.0 * cylinders) * INCHES_PER_KG_S;
        let height = |line: &[Corner], place: usize| line.get(place).map(|c| c.at.y);
        let stack = strand
            .upper
            .and_then(|leg| height(&self.upper_at(leg.middle), 2));
        let low = strand
            .lower
            .and_then(|leg| height(&self.lower_at(leg.middle), 0));
        let aside = self.px(strand.aside);
        let beside_barrel = x + side * BESIDE_BARREL;
        let under = x + side * (0.5 * half + 0.02);
        let point = |x: f64, y: f64, dx: f64| corner(plane.at(x, 0.0).moved(dx, 0.0), y);
        let px = |inches: f64| plane.px(inches);
        let mut top = point(beside_barrel, px((half + 0.9).min(1.5)), aside);
        top.at.y = stack.unwrap_or_else(|| plane.at(0.0, FINS + 0.65).y);
        let mut cut = point(beside_barrel, 0.0, aside);
        cut.at.y = plane.at(0.0, WARMS).y;
        let bottom = plane.at(0.0, -3.12).y - side * aside;
        let mut low_side = point(beside_barrel, px(2.7), aside);
        low_side.at.y = bottom;
        let mut low_middle = point(under, px(0.3), aside);
        low_middle.at.y = bottom;
        let mut floor = point(under, px(if side < 0.0 { half + 0.9 } else { 0.9 }), aside);
        floor.at.y = low.unwrap_or_else(|| plane.at(0.0, lower_floor(frame)).y);
        let mut first = self.above(ink, strand.upper, strand.through);
        first.extend([top, cut]);
        let mut second = vec![cut, low_side, low_middle, floor];
        second.extend(self.below(ink, strand.lower, strand.through));
        let width = self.px(strand.flow);
        let reversed = strand.backward || self.turned(strand.upper);
        let (entering, leaving) = (self.readout.before_fins_k, self.readout.behind_fins_k);
        let (above, behind) = if strand.backward {
            (leaving, entering)
        } else {
            (entering, leaving)
        };
        let upper = self.heat.paint(self.readout.upper_k);
        let down = self.warming(ink, above, behind);
        if strand.upper.is_some() {
            air::lane(ink, &first, width, &upper, reversed);
        }
        air::lane(ink, &second, width, &down, strand.backward);
    }

    /// Down the fins into the lower deck.
    fn warming(&self, ink: &mut Ink, above: f64, behind: f64) -> Paint {
        let top = ink.plane.at(0.0, WARMS);
        let end = ink.plane.at(0.0, lower_middle(self.frame, self.strands));
        let span = end.y - top.y;
        let share = |z: f64| ((ink.plane.at(0.0, z).y - top.y) / span.max(1.0)).clamp(0.0, 1.0);
        let stops = [
            (0.0, above),
            (share(0.9), above),
            (share(-4.6), behind),
            (1.0, self.readout.lower_k),
        ];
        self.heat.gradient(ink, &stops, top, end)
    }

    /// Whether a leg ends in an opening that air runs through the wrong way.
    fn turned(&self, leg: Option<Leg>) -> bool {
        leg.is_some_and(|leg| {
            matches!(leg.from, Branch::Seal | Branch::Blast | Branch::Overboard)
                || matches!(leg.to, Branch::Front | Branch::Belly | Branch::Flush)
        })
    }

    fn deck_strand(&self, ink: &mut Ink, strand: &Strand) {
        let width = self.px(strand.flow);
        if let Some(leg) = strand.upper {
            let Some(mut line) = self.front_end(ink, leg.from, leg.middle) else {
                return self.turned_strand(ink, leg, width);
            };
            if leg.to == Branch::Overboard && leg.from == Branch::Belly {
                // Straight out of the riser by the joint round the spinner.
                let rise = self.frame.front_baffle - 1.2;
                let at = |x: f64, radius: f64| corner(ink.plane.at(x, 0.6), ink.plane.px(radius));
                line.truncate(2);
                line.extend([at(rise, 0.8), at(rise - 2.8, 0.0)]);
                air::lane(
                    ink,
                    &line,
                    width,
                    &self.heat.paint(self.readout.upper_k),
                    false,
                );
                return self.head(ink, &line);
            }
            if leg.to == Branch::Overboard {
                line.truncate(1);
            }
            let ends_outside = matches!(leg.to, Branch::Front | Branch::Belly | Branch::Flush);
            if ends_outside {
                return;
            }
            line.extend(self.rear_end(ink, leg.to, leg.middle));
            air::lane(
                ink,
                &line,
                width,
                &self.heat.paint(self.readout.upper_k),
                false,
            );
            self.head(ink, &line);
        } else if let Some(leg) = strand.lower {
            let mut line = self.tail(ink, leg.from, leg.middle);
            line.reverse();
            if leg.from == Branch::Inflow {
                let colour = self.heat.edge(self.readout.outside_k);
                air::arrow(ink, &line, &colour, false);
            }
            line.extend(self.tail(ink, leg.to, leg.middle));
            if matches!(leg.from, Branch::Seal | Branch::Blast | Branch::Inflow) {
                // It mixes with the bay's air before it joins: no riser.
                line.remove(0);
            }
            let paint = self.heat.paint(self.readout.lower_k);
            air::lane(ink, &line, width, &paint, leg.from == Branch::Lip);
            if leg.to == Branch::Louvers {
                self.head(ink, &line);
            }
        }
    }

    /// A strand between the openings behind the cylinders, or out of the inlets.
    fn turned_strand(&self, ink: &mut Ink, leg: Leg, width: f64) {
        let mut line = self.rear_end(ink, leg.from, leg.middle);
        line.reverse();
        match self.front_end(ink, leg.to, leg.middle) {
            Some(mut front) => {
                front.reverse();
                line.extend(front);
            }
            None => line.extend(self.rear_end(ink, leg.to, leg.middle)),
        }
        let paint = self.heat.paint(self.readout.upper_k);
        air::lane(ink, &line, width, &paint, true);
    }

    /// An arrowhead at the end of a thin lane.
    fn head(&self, ink: &mut Ink, line: &[Corner]) {
        if let [.., before, end] = line {
            let start = corner(before.at.toward(end.at, 0.6), 0.0);
            let colour = self.heat.edge(self.readout.upper_k);
            air::arrow(ink, &[start, *end], &colour, false);
        }
    }

    fn cooler_strand(&self, ink: &mut Ink, strand: &Strand) {
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

    /// Height on the sheet of a strand's lane in the lower stack, at x inches.
    fn lower_y(&self, strand: &Strand, x: f64, otherwise: &super::point::Point) -> f64 {
        let Some(leg) = strand.lower else {
            return otherwise.y;
        };
        let line = self.lower_at(leg.middle);
        let points: Vec<(f64, f64)> = line.iter().map(|c| (c.at.x, c.at.y)).collect();
        let left = otherwise.x - x * self.scale;
        super::path::height_at(&points, left + x * self.scale)
    }

    /// Through the core into the lower deck.
    fn cooling(&self, ink: &mut Ink) -> Paint {
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
            let (from, to) = (ink.plane.at(x - half, 0.0), ink.plane.at(x + half, 0.0));
            self.heat
                .gradient(ink, &[(0.0, before), (1.0, behind)], from, to)
        }
    }

    fn scoop_line(&self, ink: &Ink) -> Vec<Corner> {
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
    fn scoop_alone(&self, ink: &mut Ink) {
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

/// Middle of the mouth of a scoop under the chin, in.
#[must_use]
pub fn belly_mouth(frame: &Frame) -> f64 {
    frame
        .mouths
        .iter()
        .filter(|mouth| mouth.station == super::mouths::Station::Belly)
        .map(|mouth| mouth.height)
        .reduce(f64::max)
        .map_or(frame.chin, |height| frame.chin - 0.5 * height - 0.1)
}
