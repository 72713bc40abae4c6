//! Where the lanes of the side view run: from each opening to the stacks, and from them to each
//! opening.

use super::air::INCHES_PER_KG_S;
use super::core_place::CoolerPlace;
use super::ink::Ink;
use super::mouths::Station;
use super::path::{Corner, beside, corner};
use super::proportions::{Frame, MOUTH};
use super::side_air::SideAir;
use super::side_levels::{lower_floor, upper_middle};
use super::strands::{Branch, Leg};

/// How far behind the front baffle the cooler's air goes down to it, in.
pub const BEHIND_FRONT: f64 = 0.5;

/// Heights of what passes the rear baffle above the cooler's hole, in: blast tubes, cabin air,
/// induction air.
#[must_use]
pub fn baffle_holes(frame: &Frame) -> [f64; 3] {
    let core = &frame.core;
    let above = match core.place {
        CoolerPlace::OwnScoop | CoolerPlace::FrontBaffle => 2.0,
        _ => core.line.first().map_or(3.1, |line| line.1) + 0.5 * core.hose,
    };
    let most = frame.seal() - 2.2;
    let blast = (above + 0.6 + 0.5 * frame.blast.1).min(most);
    let cabin_half = 0.5 * frame.cabin.unwrap_or(0.0);
    let cabin = (blast + 0.5 * frame.blast.1 + 0.5 + cabin_half).min(most);
    let induction = (cabin + cabin_half + 1.6).min(most);
    [blast, cabin, induction]
}

/// Middle of the mouth of a scoop under the chin, in.
#[must_use]
pub fn belly_mouth(frame: &Frame) -> f64 {
    frame
        .mouths
        .iter()
        .filter(|mouth| mouth.station == Station::Belly)
        .map(|mouth| mouth.height)
        .reduce(f64::max)
        .map_or(frame.chin, |height| frame.chin - 0.5 * height - 0.1)
}

impl SideAir<'_> {
    /// From the outside to the stack's height, for what enters before the cylinders.
    pub(super) fn front_end(&self, ink: &Ink, branch: Branch, middle: f64) -> Option<Vec<Corner>> {
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
    pub(super) fn rear_end(&self, ink: &Ink, branch: Branch, middle: f64) -> Vec<Corner> {
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
            Branch::Cooler if frame.core.place == CoolerPlace::FrontBaffle => {
                let (x, z) = (frame.front_baffle + BEHIND_FRONT, frame.core.middle.1);
                vec![leaves(x, 0.6), at(x, z, 0.0)]
            }
            Branch::Cooler => {
                let hole = frame.core.line.first().map_or(3.1, |line| line.1);
                vec![leaves(baffle - 5.2, 2.0), at(baffle - 2.2, hole, 0.0)]
            }
            Branch::Fin(place) => {
                let x = frame.cylinders.get(place / 2).copied();
                vec![leaves(x.unwrap_or(baffle), 0.0)]
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
    pub(super) fn above(
        &self,
        ink: &Ink,
        leg: Option<Leg>,
        through: Option<Branch>,
    ) -> Vec<Corner> {
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
    pub(super) fn below(
        &self,
        ink: &Ink,
        leg: Option<Leg>,
        through: Option<Branch>,
    ) -> Vec<Corner> {
        let Some(leg) = leg else { return Vec::new() };
        let end = if Some(leg.to) == through {
            leg.from
        } else {
            leg.to
        };
        self.tail(ink, end, leg.middle)
    }

    pub(super) fn tail(&self, ink: &Ink, end: Branch, middle: f64) -> Vec<Corner> {
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
            Branch::Fin(place) => {
                let x = self.frame.cylinders.get(place / 2).copied();
                let mut turn = corner(ink.plane.at(x.unwrap_or_default(), 0.0), 0.0);
                turn.at.y = line[0].at.y;
                vec![turn]
            }
            _ => line[1..2].to_vec(),
        }
    }

    /// Where a small stream of the lower deck turns, and where it ends.
    pub(super) fn low_end(&self, branch: Branch) -> (f64, (f64, f64)) {
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
                let x = super::louvers::louver_places(frame)
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
}
