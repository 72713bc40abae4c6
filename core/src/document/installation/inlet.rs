//! Inlets.

use crate::document::condition::Phase;
use crate::document::group::group;
use crate::document::row::Row;
use crate::path::inlet_map::Incidence;
use crate::units::si::{inch, inch2};
use crate::units::typed::Dimension;
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;
use uom::si::f64::{Area, Length};

/// Shape of an inlet's opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum InletShape {
    /// Width × height with rounded corners.
    #[default]
    Rectangle,
    /// Round, by diameter.
    Ring,
    /// Any other shape, by its traced area.
    Traced,
}

/// Where an inlet stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum InletPosition {
    /// In front, clear of the spinner and outboard of the blade roots.
    #[default]
    ForwardClear,
    /// In front, close to the spinner behind the blade roots.
    BehindBladeRoot,
    /// A scoop under the belly, in the boundary layer.
    BellyScoop,
    /// Flush with the skin.
    Flush,
}

/// Lip of an inlet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Lip {
    /// Thin sheet or a knife edge.
    Thin,
    /// Blunt edge, flush with a wall.
    Blunt,
    /// Rounded, by its radius.
    #[default]
    Rounded,
}

/// Which half of a split upper deck something belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum InletSide {
    /// Both alike.
    #[default]
    Both,
    /// The left, seen from the pilot's seat.
    Left,
    /// The right.
    Right,
}

const AT_ANGLE: fn(&Inlet) -> bool = |inlet| inlet.at_angle;

impl InletSide {
    pub(super) fn is_both(&self) -> bool {
        *self == Self::Both
    }

    /// Share of its air that goes to the left half, or comes from there [-].
    #[must_use]
    pub(crate) fn left_share(self) -> f64 {
        match self {
            Self::Both => 0.5,
            Self::Left => 1.0,
            Self::Right => 0.0,
        }
    }
}

const UPWASH: f64 = 3.0;
const NOSE: f64 = 1.6;
const SEPARATION: f64 = 2.0;
const CLIMB_ANGLE_DEG: f64 = 4.0;

fn is_usual_angle(angle: &f64) -> bool {
    *angle == CLIMB_ANGLE_DEG
}

fn is_usual_upwash(upwash: &f64) -> bool {
    *upwash == UPWASH
}

fn is_usual_nose(nose: &f64) -> bool {
    *nose == NOSE
}

fn is_usual_separation(factor: &f64) -> bool {
    *factor == SEPARATION
}

group! {
    /// One inlet.
    pub struct Inlet, "inlet" {
        choices {
            /// Name.
            name: String = "Inlet".to_owned();
            /// Shape.
            shape: InletShape = InletShape::Rectangle;
            /// Position.
            position: InletPosition = InletPosition::ForwardClear;
            /// Lip.
            lip: Lip = Lip::Rounded;
            /// Half of a split upper deck that it feeds.
            #[serde(skip_serializing_if = "InletSide::is_both")]
            side: InletSide = InletSide::Both;
            /// The stream meets its face at an angle in a climb.
            #[serde(skip_serializing_if = "core::ops::Not::not")]
            at_angle: bool = false;
            /// A widening duct leads from the opening to the upper deck.
            diffuser: bool = false;
            /// Traced outline about its middle, m; empty if only the area is known.
            outline: Vec<[f64; 2]> = Vec::new();
        }
        numbers {
            /// Width.
            width, "width_m": Length = inch(6.0), Length,
                in inch(0.5), inch(40.0), likely None, Example,
                "Inlet width", "measure the opening", if |inlet| inlet.shape == InletShape::Rectangle;
            /// Height.
            height, "height_m": Length = inch(3.25), Length,
                in inch(0.25), inch(24.0), likely None, Example,
                "Inlet height", "measure the opening", if |inlet| inlet.shape == InletShape::Rectangle;
            /// Radius of the corners of the opening.
            corner_radius, "corner_radius_m": Length = inch(0.75), Length,
                in 0.0, inch(12.0), likely None, Example,
                "Inlet corner radius", "measure the opening", if |inlet| inlet.shape == InletShape::Rectangle;
            /// Diameter.
            diameter, "diameter_m": Length = inch(5.0), Length,
                in inch(0.5), inch(24.0), likely None, Example,
                "Inlet ring diameter", "measure the opening", if |inlet| inlet.shape == InletShape::Ring;
            /// Traced area.
            traced_area, "traced_area_m2": Area = inch2(20.0), Area,
                in inch2(0.5), inch2(600.0), likely None, Example,
                "Inlet traced area", "trace the opening and count squares",
                if |inlet| inlet.shape == InletShape::Traced;
            /// Radius of the lip.
            lip_radius, "lip_radius_m": Length = inch(0.3), Length,
                in 0.0, inch(4.0), likely None, Example,
                "Inlet lip radius", "measure the lip's inside", if |inlet| inlet.lip == Lip::Rounded;
            /// Loss of a thin lip [-].
            thin_lip_loss, "thin_lip_loss": f64 = 1.0, Ratio,
                in 0.0, 2.0, likely Some((0.8, 1.1)), Derived,
                "Loss of a thin lip", "momentum of the flow drawn round a thin edge",
                if |inlet| inlet.lip == Lip::Thin;
            /// Loss of a blunt flush edge [-].
            blunt_lip_loss, "blunt_lip_loss": f64 = 0.5, Ratio,
                in 0.0, 2.0, likely Some((0.44, 0.57)), Library,
                "Loss of a blunt edge", "handbook values for a sharp flush entrance",
                if |inlet| inlet.lip == Lip::Blunt;
            /// Angle between the stream and the opening's axis in a climb, degrees.
            #[serde(skip_serializing_if = "is_usual_angle")]
            climb_angle, "climb_angle_deg": f64 = CLIMB_ANGLE_DEG, Angle,
                in 0.0, 45.0, likely Some((0.0, 6.0)), FromMemory,
                "Angle of the stream to the inlet's axis in a climb",
                "angle of attack plus how far the axis points up", if AT_ANGLE;
            /// Crossflow round the lips over that of the stream [-].
            #[serde(skip_serializing_if = "is_usual_upwash")]
            upwash, "lip_crossflow": f64 = UPWASH, Ratio,
                in 1.0, 10.0, likely Some((2.0, 5.6)), Derived,
                "Crossflow round the inlet's lips over that of the stream",
                "potential flow: 2 on a slender round body, 5.6 on plates five inlet heights long", if AT_ANGLE;
            /// What a rounded lip tolerates, as the edge term of a parabolic nose [-].
            #[serde(skip_serializing_if = "is_usual_nose")]
            nose, "lip_nose_term": f64 = NOSE, Ratio,
                in 0.0, 5.0, likely Some((1.0, 2.5)), FromMemory,
                "What a rounded lip tolerates before the flow separates",
                "a: the flow round the lip peaks at √(1 + a²) times the stream",
                if |inlet| inlet.at_angle && inlet.lip == Lip::Rounded;
            /// Loss beyond the tolerated angle over that of the momentum balance [-].
            #[serde(skip_serializing_if = "is_usual_separation")]
            separation, "lip_separation_factor": f64 = SEPARATION, Ratio,
                in 0.0, 10.0, likely Some((1.0, 5.0)), FromMemory,
                "Loss beyond the tolerated angle, over momentum's",
                "1 in a long even duct; more where it is short or widens",
                if AT_ANGLE;
            /// Ram recovery in front, clear of spinner and roots [-].
            recovery_forward, "recovery_forward": f64 = 0.97, Ratio,
                in 0.3, 1.0, likely Some((0.90, 1.0)), FromMemory,
                "Ram recovery, clear of the spinner", "before any loss inside",
                if |inlet| inlet.position == InletPosition::ForwardClear;
            /// Ram recovery behind the blade roots [-].
            recovery_root, "recovery_root": f64 = 0.85, Ratio,
                in 0.3, 1.0, likely Some((0.70, 0.95)), FromMemory,
                "Ram recovery, behind the blade roots", "the spinner's wake and the root's swirl",
                if |inlet| inlet.position == InletPosition::BehindBladeRoot;
            /// Ram recovery of a belly scoop [-].
            recovery_belly, "recovery_belly": f64 = 0.75, Ratio,
                in 0.2, 1.0, likely Some((0.60, 0.90)), FromMemory,
                "Ram recovery, belly scoop", "boundary layer of the belly",
                if |inlet| inlet.position == InletPosition::BellyScoop;
            /// Ram recovery of a flush inlet [-].
            recovery_flush, "recovery_flush": f64 = 0.55, Ratio,
                in 0.0, 1.0, likely Some((0.35, 0.75)), FromMemory,
                "Ram recovery, flush inlet", "depends on its ramp and place",
                if |inlet| inlet.position == InletPosition::Flush;
            /// Area at the end of the diffuser over that of the opening [-].
            diffuser_ratio, "diffuser_area_ratio": f64 = 1.8, Ratio,
                in 1.0, 8.0, likely None, Example,
                "Diffuser area ratio", "end area over opening", if |inlet| inlet.diffuser;
            /// Length of the diffuser.
            diffuser_length, "diffuser_length_m": Length = inch(8.0), Length,
                in inch(0.5), inch(60.0), likely None, Example,
                "Diffuser length", "along its middle", if |inlet| inlet.diffuser;
            /// Loss over that of a cone with clean inflow [-].
            diffuser_factor, "diffuser_loss_factor": f64 = 1.5, Ratio,
                in 0.5, 5.0, likely Some((1.0, 2.5)), Published,
                "Diffuser loss over that of a clean cone",
                "1 is the handbook's clean cone; a chart point in Dixon, Fluid Mechanics and \
                 Thermodynamics of Turbomachinery, ex. 2.3, loses 2.5 times that",
                if |inlet| inlet.diffuser;
        }
    }
}

/// The dimensions that grow with the area.
static AREAL: LazyLock<Vec<&'static Row<Inlet>>> = LazyLock::new(|| {
    const IDS: [&str; 5] = [
        "inlet.width_m",
        "inlet.height_m",
        "inlet.corner_radius_m",
        "inlet.diameter_m",
        "inlet.traced_area_m2",
    ];
    let areal = |row: &&'static Row<Inlet>| IDS.contains(&row.id);
    Inlet::ROWS.iter().filter(areal).collect()
});

impl Inlet {
    /// Area of the opening, m².
    ///
    /// # Example
    /// 0.3 by 0.1 m, its corners rounded to semicircles: 0.03 − (4 − π) · 0.0025 m²:
    /// ```
    /// use coolpath_core::document::installation::{Inlet, InletShape};
    /// use coolpath_core::units::quantity::metre;
    /// use core::f64::consts::PI;
    ///
    /// let inlet = Inlet {
    ///     shape: InletShape::Rectangle,
    ///     width: metre(0.3),
    ///     height: metre(0.1),
    ///     corner_radius: metre(0.05),
    ///     ..Inlet::default()
    /// };
    /// assert!((inlet.area_m2() - (0.03 - (4.0 - PI) * 0.0025)).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        match self.shape {
            InletShape::Rectangle => {
                let (width, height) = (self.width.value, self.height.value);
                let radius = self.corner_radius.value.min(0.5 * width.min(height));
                // A = w h − (4 − π) r²
                width * height - (4.0 - core::f64::consts::PI) * radius * radius
            }
            InletShape::Ring => {
                core::f64::consts::FRAC_PI_4 * self.diameter.value * self.diameter.value
            }
            InletShape::Traced => self.traced_area.value,
        }
    }

    /// Multiplies the area by a factor; the proportions stay, the lip's radius too. Dimensions
    /// that play no part grow along within what is permitted.
    pub fn scale_area(&mut self, factor: f64) {
        let along = factor.sqrt();
        for row in AREAL.iter() {
            let by = if row.dimension == Dimension::Area {
                factor
            } else {
                along
            };
            let value = by * (row.get)(self);
            let (least, most) = row.permitted;
            let value = if (row.used)(self) {
                row.settled(value)
            } else {
                value.clamp(least, most)
            };
            (row.set)(self, value);
        }
    }

    /// Factors of the area, least and most \[-\], between which every dimension stays permitted.
    #[must_use]
    pub(crate) fn area_factors(&self) -> (f64, f64) {
        let mut reach = (0.0_f64, f64::INFINITY);
        for row in AREAL.iter().filter(|row| (row.used)(self)) {
            let value = (row.get)(self);
            if value <= 0.0 {
                continue;
            }
            let power = if row.dimension == Dimension::Area {
                1.0
            } else {
                2.0
            };
            let factor = |end: f64| libm::pow(end / value, power);
            reach.0 = reach.0.max(factor(row.permitted.0));
            reach.1 = reach.1.min(factor(row.permitted.1));
        }
        reach
    }

    /// Hydraulic diameter of the opening, m.
    ///
    /// # Example
    /// 0.3 by 0.1 m with sharp corners: 4 · 0.03/0.8 m:
    /// ```
    /// use coolpath_core::document::installation::{Inlet, InletShape};
    /// use coolpath_core::units::quantity::metre;
    ///
    /// let inlet = Inlet {
    ///     shape: InletShape::Rectangle,
    ///     width: metre(0.3),
    ///     height: metre(0.1),
    ///     corner_radius: metre(0.0),
    ///     ..Inlet::default()
    /// };
    /// assert!((inlet.hydraulic_diameter_m() - 0.15).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn hydraulic_diameter_m(&self) -> f64 {
        match self.shape {
            InletShape::Rectangle => {
                let (width, height) = (self.width.value, self.height.value);
                let radius = self.corner_radius.value.min(0.5 * width.min(height));
                let perimeter =
                    2.0 * (width + height) - (8.0 - 2.0 * core::f64::consts::PI) * radius;
                // D_h = 4 A / U
                4.0 * self.area_m2() / perimeter
            }
            InletShape::Ring => self.diameter.value,
            InletShape::Traced => (self.traced_area.value / core::f64::consts::FRAC_PI_4).sqrt(),
        }
    }

    /// Ram recovery of the chosen position [-].
    #[must_use]
    pub fn recovery(&self) -> f64 {
        match self.position {
            InletPosition::ForwardClear => self.recovery_forward,
            InletPosition::BehindBladeRoot => self.recovery_root,
            InletPosition::BellyScoop => self.recovery_belly,
            InletPosition::Flush => self.recovery_flush,
        }
    }

    /// Loss of the chosen lip [-] on the velocity in excess of the approach speed.
    #[must_use]
    pub fn lip_loss(&self) -> f64 {
        match self.lip {
            Lip::Thin => self.thin_lip_loss,
            Lip::Blunt => self.blunt_lip_loss,
            Lip::Rounded => crate::path::loss::rounded_entrance(
                self.lip_radius.value / self.hydraulic_diameter_m(),
            ),
        }
    }

    /// Height of the opening across which a stream from below meets it, m.
    #[must_use]
    pub fn height_m(&self) -> f64 {
        match self.shape {
            InletShape::Rectangle => self.height.value,
            InletShape::Ring | InletShape::Traced => self.hydraulic_diameter_m(),
        }
    }

    /// How the stream meets the opening in a phase of flight.
    ///
    /// # Example
    /// At an angle only in a climb, and only where that is said:
    /// ```
    /// use coolpath_core::document::condition::Phase;
    /// use coolpath_core::document::installation::Inlet;
    /// use coolpath_core::path::inlet_map::Incidence;
    ///
    /// let mut inlet = Inlet { at_angle: true, climb_angle: 60.0, ..Inlet::default() };
    /// assert!((inlet.incidence(Phase::Climb).chord - 1.0).abs() < 1e-12);
    /// assert_eq!(inlet.incidence(Phase::Cruise), Incidence::default());
    /// inlet.at_angle = false;
    /// assert_eq!(inlet.incidence(Phase::Climb), Incidence::default());
    /// ```
    #[must_use]
    pub fn incidence(&self, phase: Phase) -> Incidence {
        if !self.at_angle || phase != Phase::Climb || self.climb_angle <= 0.0 {
            return Incidence::default();
        }
        let radius_m = match self.lip {
            Lip::Rounded => self.lip_radius.value,
            Lip::Thin | Lip::Blunt => 0.0,
        };
        Incidence::new(
            self.climb_angle,
            self.upwash,
            radius_m / self.height_m(),
            self.nose,
            self.separation,
        )
    }

    /// Share of the dynamic pressure in the opening that is lost on the way to the deck [-].
    ///
    /// # Example
    /// Without a diffuser all is lost; one to twice the area, with a cone that loses nothing, leaves the
    /// dump at its end, 1/2²:
    /// ```
    /// use coolpath_core::document::installation::Inlet;
    ///
    /// let dump = Inlet { diffuser: false, ..Inlet::default() };
    /// assert_eq!(dump.diffusion_loss(), 1.0);
    /// let diffuser = Inlet {
    ///     diffuser: true,
    ///     diffuser_ratio: 2.0,
    ///     diffuser_factor: 0.0,
    ///     ..Inlet::default()
    /// };
    /// assert!((diffuser.diffusion_loss() - 0.25).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn diffusion_loss(&self) -> f64 {
        if !self.diffuser {
            return 1.0;
        }
        let ratio = self.diffuser_ratio;
        let angle = crate::path::loss::equivalent_cone_angle(
            self.area_m2(),
            ratio,
            self.diffuser_length.value,
        );
        // K = f K_cone(AR, θ) + 1/AR², at most a plain dump
        let cone = self.diffuser_factor * crate::path::loss::conical_diffuser(ratio, angle);
        (cone + 1.0 / (ratio * ratio)).min(1.0)
    }
}
