//! What all views of one drawing share.

use super::core_place::CoolerPlace;
use super::path::Outline;
use super::point::{Plane, Point};
use super::proportions::Frame;
use super::readout::Readout;
use super::strands::{CoolerJoints, Strands};
use super::{Part, Request};

/// How far a side view or plan reaches before the spinner and behind the firewall, in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// x of the left end.
    pub left: f64,
    /// x of the right end.
    pub right: f64,
}

/// One installation in one condition, ready to be drawn.
pub struct Scene<'a> {
    /// Its lengths.
    pub frame: Frame,
    /// Those of the design before the last edit.
    pub before: Option<Frame>,
    /// What it answers.
    pub readout: Option<&'a Readout>,
    /// Its air.
    pub strands: Strands,
    /// The part that is selected.
    pub selected: Option<Part>,
    /// Parts that nobody has answered for yet.
    pub unanswered: &'a [Part],
    /// Angle of the shutter from open, degrees.
    pub shutter_deg: f64,
    /// Whether it is drawn for a finger on a small screen.
    pub touch: bool,
    /// Whether the plan shows one half.
    pub half_plan: bool,
    /// Ends of the side view.
    pub reach: Reach,
}

impl<'a> Scene<'a> {
    /// The scene that a request asks for.
    #[must_use]
    pub fn new(request: &Request<'a>, half_plan: bool) -> Self {
        let frame = Frame::of(request.installation, request.flap, &request.proportions);
        let louvers: Vec<usize> = frame.louvers.iter().map(|row| row.place).collect();
        let joints = CoolerJoints {
            upper: frame.core.place != CoolerPlace::OwnScoop,
            lower: !frame.core.own_exit,
            front: frame.core.place == CoolerPlace::FrontBaffle,
        };
        let strands = request.readout.map_or_else(Strands::default, |readout| {
            Strands::of(
                readout,
                &frame.mouths,
                &louvers,
                frame.cylinders.len(),
                joints,
            )
        });
        let touch = request.touch;
        let (lead, tail) = if touch { (2.5, 7.0) } else { (4.0, 13.0) };
        let scoop_end = frame.core.scoop.map_or(0.0, |scoop| scoop.end + 2.0);
        Self {
            before: request
                .before
                .map(|before| Frame::of(before, request.flap, &request.proportions))
                .filter(|before| *before != frame),
            readout: request.readout,
            strands,
            selected: request.selected,
            unanswered: request.unanswered,
            shutter_deg: coolpath_core::path::butterfly::angle_from_open(
                request.shutter.clamp(0.0, 1.0),
            ),
            touch,
            half_plan,
            reach: Reach {
                left: -frame.spinner_length - lead,
                right: (frame.firewall + tail).max(scoop_end),
            },
            frame,
        }
    }

    /// Style classes of a shape of a part: selected, or not answered for yet.
    #[must_use]
    pub fn class(&self, class: &str, part: Part) -> String {
        let mut all = class.to_owned();
        if self.selected == Some(part) {
            all.push_str(" sel");
        }
        if self.unanswered.contains(&part) {
            all.push_str(" ask");
        }
        all
    }

    /// Whether leaks run from the lower to the upper deck.
    #[must_use]
    pub fn leak_reversed(&self) -> bool {
        self.readout.is_some_and(|readout| readout.seal_kg_s < 0.0)
    }
}

/// Distance between drawn fins, in: true spacing would blur.
#[must_use]
pub fn fin_step(plane: &Plane) -> f64 {
    (3.4 / plane.scale).max(0.36)
}

/// A zigzag of a break line between two points.
#[must_use]
pub fn broken(from: Point, to: Point, height: f64) -> Outline {
    let side = to.from(from).unit().turned();
    let at = |share: f64, aside: f64| {
        from.toward(to, share)
            .moved(side.x * aside * height, side.y * aside * height)
    };
    Outline::through(&[at(0.0, 0.0), at(0.38, 1.0), at(0.62, -1.0), at(1.0, 0.0)])
}
