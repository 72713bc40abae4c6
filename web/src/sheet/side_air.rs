//! The air in the side view: two stacks of lanes, joined by the cylinders and the cooler.

use super::air::{self, Heat, INCHES_PER_KG_S, Paint, Spacing};
use super::ink::Ink;
use super::path::{Corner, Track, beside, corner};
use super::proportions::{FINS, Frame, MOUTH};
use super::readout::Readout;
use super::scene::Reach;
use super::side_levels::{exit_middle, lower_floor, lower_middle, upper_middle};
use super::strands::{Branch, Leg, Strand, Strands};

/// Distance of a lane from the barrel's middle, in.
const BESIDE_BARREL: f64 = 3.1;
/// Where the air begins to warm on its way down the fins, in above the crankshaft.
const WARMS: f64 = 1.8;

/// Everything that the lanes follow from.
pub struct SideAir<'a> {
    pub(super) frame: &'a Frame,
    pub(super) readout: &'a Readout,
    pub(super) strands: &'a Strands,
    pub(super) heat: Heat,
    pub(super) reach: Reach,
    pub(super) scale: f64,
    pub(super) upper: Vec<Corner>,
    pub(super) lower: Vec<Corner>,
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
    pub(super) fn px(&self, flow: f64) -> f64 {
        flow * INCHES_PER_KG_S * self.scale
    }

    /// Draws all lanes and their chevrons.
    pub fn draw(&self, ink: &mut Ink) {
        let down = self.warming(ink);
        for strand in &self.strands.list {
            match strand.through {
                Some(Branch::Fin(place)) => self.fin_strand(ink, strand, place, &down),
                Some(_) => self.cooler_strand(ink, strand),
                None => self.deck_strand(ink, strand),
            }
        }
        let core = &self.frame.core;
        if core.scoop.is_some() && core.own_exit {
            self.scoop_alone(ink);
        }
        self.main_chevrons(ink);
        self.turned_leak(ink);
    }

    /// The arrow of a leak that runs into the deck.
    fn turned_leak(&self, ink: &mut Ink) {
        let back = self
            .strands
            .list
            .iter()
            .filter_map(|strand| strand.upper)
            .find(|leg| leg.from == Branch::Seal);
        if let Some(leg) = back {
            let over = self.rear_end(ink, Branch::Seal, leg.middle);
            let colour = self.heat.edge(self.readout.upper_k);
            air::arrow(ink, &over[1..], &colour, true);
        }
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
    pub(super) fn upper_at(&self, middle: f64) -> Vec<Corner> {
        beside(&self.upper, self.px(0.5 * self.strands.upper - middle))
    }

    pub(super) fn lower_at(&self, middle: f64) -> Vec<Corner> {
        beside(&self.lower, self.px(0.5 * self.strands.lower - middle))
    }

    fn fin_strand(&self, ink: &mut Ink, strand: &Strand, place: usize, down: &Paint) {
        let plane = ink.plane;
        let frame = self.frame;
        let side = if place.is_multiple_of(2) { -1.0 } else { 1.0 };
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
        let upper = self.heat.paint(self.readout.upper_k);
        if strand.upper.is_some() {
            air::lane(ink, &first, width, &upper, reversed);
        }
        air::lane(ink, &second, width, down, strand.backward);
        let leaves = |end: Branch| matches!(end, Branch::Inflow | Branch::Louvers);
        if strand.lower.is_some_and(|leg| leaves(leg.to)) {
            let colour = self.heat.edge(self.readout.lower_k);
            self.head(ink, &second, &colour);
        }
    }

    /// Down the fins into the lower deck; turned round, the fins' air comes from below.
    fn warming(&self, ink: &mut Ink) -> Paint {
        let (entering, leaving) = (self.readout.before_fins_k, self.readout.behind_fins_k);
        let (above, behind) = if self.readout.fin_kg_s < 0.0 {
            (leaving, entering)
        } else {
            (entering, leaving)
        };
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
        let colour = self.heat.edge(self.readout.upper_k);
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
                return self.head(ink, &line, &colour);
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
            self.head(ink, &line, &colour);
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
                let colour = self.heat.edge(self.readout.lower_k);
                self.head(ink, &line, &colour);
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
    fn head(&self, ink: &mut Ink, line: &[Corner], colour: &str) {
        if let [.., before, end] = line {
            let start = corner(before.at.toward(end.at, 0.6), 0.0);
            air::arrow(ink, &[start, *end], colour, false);
        }
    }
}
