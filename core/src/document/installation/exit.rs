//! Exits and the cowl flap.

use crate::document::group::group;
use crate::document::installation::exit_place::ExitPlace;
use crate::document::row::{Row, is_hundredths};
use crate::units::quantity::square_metre;
use crate::units::si::{degf, inch, inch2};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Area, Length, ThermodynamicTemperature};

/// How an exit's area is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ExitShape {
    /// Width between the sides × gap between lip and firewall.
    #[default]
    LipGap,
    /// Traced or added-up area.
    Traced,
    /// Louvers: number × area of one.
    Louvers,
    /// The mouth of an augmentor tube, round the exhaust stacks in it.
    Augmentor,
}

/// Edge that the air leaves over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ExitEdge {
    /// Not known: the discharge coefficient is typed.
    #[default]
    Typed,
    /// Square lower edge of the firewall.
    Sharp,
    /// Ramp from the firewall down to the lip.
    Ramp,
    /// Rounded lower edge of the firewall.
    Rounded,
    /// Slots of louvers.
    Louver,
}

/// How an open flap is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FlapGiven {
    /// By the area of the exit with the flap open.
    #[default]
    Area,
    /// By its length and its angle.
    Angle,
}

fn row(id: &str) -> Option<&'static Row<Exit>> {
    Exit::ROWS.iter().find(|row| row.id == id)
}

fn round_m2(diameter_m: f64) -> f64 {
    core::f64::consts::FRAC_PI_4 * diameter_m * diameter_m
}

impl ExitEdge {
    fn is_typed(&self) -> bool {
        *self == Self::Typed
    }
}

impl FlapGiven {
    fn is_area(&self) -> bool {
        *self == Self::Area
    }
}

/// Usual number of stacks in an augmentor.
const USUAL_STACKS: u8 = 2;

fn is_usual_stacks(count: &u8) -> bool {
    *count == USUAL_STACKS
}

const AUGMENTOR: fn(&Exit) -> bool = |exit| exit.shape == ExitShape::Augmentor;

/// Whether the flap's area follows from its angle: it needs the width of a lip.
pub(super) const BY_ANGLE: fn(&Exit) -> bool =
    |exit| exit.flap && exit.flap_given == FlapGiven::Angle && exit.shape == ExitShape::LipGap;

group! {
    /// One exit from the lower deck.
    pub struct Exit, "exit" {
        choices {
            /// Name.
            name: String = "Exit".to_owned();
            /// How its area is given.
            shape: ExitShape = ExitShape::LipGap;
            /// Number of louvers.
            louver_count: u8 = 6;
            /// Exhaust stacks that end in the augmentor's mouth.
            #[serde(skip_serializing_if = "is_usual_stacks")]
            stack_count: u8 = USUAL_STACKS;
            /// A flap opens it further.
            flap: bool = false;
            /// Edge that the air leaves over.
            #[serde(skip_serializing_if = "ExitEdge::is_typed")]
            edge: ExitEdge = ExitEdge::Typed;
            /// The pressure outside is given for level flight, climb and ground apart.
            #[serde(skip_serializing_if = "core::ops::Not::not")]
            by_attitude: bool = false;
            /// Where it lies: the pressure outside goes by that.
            #[serde(skip_serializing_if = "ExitPlace::is_typed")]
            place: ExitPlace = ExitPlace::Typed;
            /// How the open flap is given.
            #[serde(skip_serializing_if = "FlapGiven::is_area")]
            flap_given: FlapGiven = FlapGiven::Area;
        }
        numbers {
            /// Width.
            width, "width_m": Length = inch(14.0), Length,
                in inch(0.5), inch(48.0), likely None, Example,
                "Exit width", "measure between the sides", if |exit| exit.shape == ExitShape::LipGap;
            /// Gap between lip and firewall, square to the flow.
            gap, "gap_m": Length = inch(3.6), Length,
                in inch(0.1), inch(24.0), likely None, Example,
                "Exit gap, lip to firewall", "measure square to the flow",
                if |exit| exit.shape == ExitShape::LipGap;
            /// Traced area.
            traced_area, "traced_area_m2": Area = inch2(48.0), Area,
                in inch2(0.5), inch2(800.0), likely None, Example,
                "Exit traced area", "trace the opening", if |exit| exit.shape == ExitShape::Traced;
            /// Area of one louver.
            louver_area, "louver_area_m2": Area = inch2(0.8), Area,
                in inch2(0.05), inch2(20.0), likely None, Example,
                "Area of one louver", "width times gap of its slot",
                if |exit| exit.shape == ExitShape::Louvers;
            /// Inner diameter of the augmentor's tube.
            tube_diameter, "tube_diameter_m": Length = inch(4.5), Length,
                in inch(2.0), inch(14.0), likely None, Example,
                "Augmentor tube diameter", "measure inside", if AUGMENTOR;
            /// Length of the augmentor's tube.
            tube_length, "tube_length_m": Length = inch(24.0), Length,
                in inch(3.0), inch(80.0), likely None, Example,
                "Augmentor tube length", "from the stacks' ends; mixing takes some five diameters",
                if AUGMENTOR;
            /// Inner diameter of each exhaust stack in the augmentor.
            stack_diameter, "stack_diameter_m": Length = inch(1.75), Length,
                in inch(0.5), inch(4.0), likely None, Example,
                "Exhaust stack diameter in the augmentor", "measure inside, where it ends", if AUGMENTOR;
            /// Exhaust gas where it leaves the stacks.
            gas_temperature, "gas_temperature_k": ThermodynamicTemperature = degf(1250.0), Temperature,
                in degf(500.0), degf(1700.0), likely Some((degf(1050.0), degf(1400.0))), FromMemory,
                "Exhaust gas where it enters the augmentor", "some 100 to 200 °F below the EGT",
                if AUGMENTOR;
            /// Mean square over squared mean of the exhaust's pulsing flow [-].
            pulses, "exhaust_pulses": f64 = 1.2, Ratio,
                in 1.0, 3.0, likely Some((1.0, 1.6)), FromMemory,
                "Push of the exhaust's pulses over that of a steady stream",
                "1 where several cylinders blow into one stack; a single one pulses more", if AUGMENTOR;
            /// Friction factor of the augmentor's wall [-].
            tube_friction, "tube_friction": f64 = 0.03, Ratio,
                in 0.005, 0.2, likely Some((0.015, 0.06)), FromMemory,
                "Friction factor of the augmentor's tube", "sheet metal, not yet mixed flow", if AUGMENTOR;
            /// Area taken up by pipes, hoses and brackets.
            pipes_area, "pipes_area_m2": Area = inch2(0.0), Area,
                in 0.0, inch2(300.0), likely None, Example,
                "Area blocked by exhaust pipes and brackets", "measure across the flow", if |_| true;
            /// Discharge coefficient [-].
            discharge, "discharge": f64 = 0.85, Ratio,
                in 0.3, 1.0, likely Some((0.65, 0.95)), FromMemory,
                "Exit discharge coefficient",
                "0.95 with a radiused lower firewall edge, 0.75 sharp or obstructed",
                if |exit| exit.edge_in_use() == ExitEdge::Typed;
            /// Discharge coefficient over a square edge [-].
            sharp_discharge, "sharp_discharge": f64 = 0.70, Ratio,
                in 0.3, 1.0, likely Some((0.61, 0.80)), Derived,
                "Exit discharge coefficient, square edge",
                "a plane jet round a square edge contracts to π/(π+2) = 0.61 from a wide space, less \
                 from a narrow deck",
                if |exit| exit.edge_in_use() == ExitEdge::Sharp;
            /// Discharge coefficient over a ramp [-].
            ramp_discharge, "ramp_discharge": f64 = 0.86, Ratio,
                in 0.3, 1.0, likely Some((0.75, 0.93)), FromMemory,
                "Exit discharge coefficient, ramp",
                "some 30° to the lip: between a square edge and a rounded one",
                if |exit| exit.edge_in_use() == ExitEdge::Ramp;
            /// Discharge coefficient over a rounded edge [-].
            rounded_discharge, "rounded_discharge": f64 = 0.94, Ratio,
                in 0.3, 1.0, likely Some((0.88, 0.98)), Library,
                "Exit discharge coefficient, rounded edge",
                "no contraction from a radius of a fifth of the gap on; what is lost is that of a rounded \
                 entrance", if |exit| exit.edge_in_use() == ExitEdge::Rounded;
            /// Discharge coefficient of louvers [-].
            louver_discharge, "louver_discharge": f64 = 0.60, Ratio,
                in 0.2, 1.0, likely Some((0.45, 0.72)), FromMemory,
                "Exit discharge coefficient, louvers",
                "a row of sharp slots, each turning its air aft",
                if |exit| exit.edge_in_use() == ExitEdge::Louver;
            /// Velocity coefficient of the jet [-].
            velocity_coefficient, "velocity_coefficient": f64 = 0.98, Ratio,
                in 0.5, 1.0, likely Some((0.90, 1.0)), FromMemory,
                "Exit velocity coefficient",
                "speed of the jet over that of one without loss; touches the drag, not the flow",
                if |_| true;
            /// Pressure coefficient outside [-].
            pressure_coefficient, "pressure_coefficient": f64 = -0.10, Ratio,
                in -1.0, 0.6, likely Some((-0.30, 0.15)), FromMemory,
                "Exit pressure coefficient",
                "what stands under the belly behind the lip; in a climb it can be above zero",
                if |exit| exit.place == ExitPlace::Typed;
            /// Pressure coefficient outside in a climb [-].
            climb_pressure, "climb_pressure_coefficient": f64 = 0.0, Ratio,
                in -1.0, 0.8, likely Some((-0.20, 0.20)), FromMemory,
                "Exit pressure coefficient in a climb",
                "the belly faces the stream more the higher the nose stands",
                if |exit| exit.by_attitude && exit.place == ExitPlace::Typed;
            /// Pressure coefficient on the belly ahead of the wing [-].
            #[serde(skip_serializing_if = "is_hundredths::<{ -5 }>")]
            belly_pressure, "belly_pressure_coefficient": f64 = -0.05, Ratio,
                in -1.0, 0.8, likely Some((-0.25, 0.15)), FromMemory,
                "Exit pressure coefficient on the belly ahead of the wing", "air that the wing turns up slows there",
                if |exit| exit.place == ExitPlace::Belly;
            /// Pressure coefficient under the wing [-].
            #[serde(skip_serializing_if = "is_hundredths::<{ 0 }>")]
            under_wing_pressure, "under_wing_pressure_coefficient": f64 = 0.0, Ratio,
                in -1.0, 0.8, likely Some((-0.25, 0.25)), FromMemory,
                "Exit pressure coefficient under the wing", "above the outside near its leading edge, below behind it",
                if |exit| exit.place == ExitPlace::UnderWing;
            /// Pressure coefficient at the lower edge of the firewall [-].
            #[serde(skip_serializing_if = "is_hundredths::<{ -10 }>")]
            firewall_pressure, "firewall_pressure_coefficient": f64 = -0.1, Ratio,
                in -1.0, 0.8, likely Some((-0.25, 0.1)), FromMemory,
                "Exit pressure coefficient at the lower edge of the firewall", "air speeds up round the lip",
                if |exit| exit.place == ExitPlace::Firewall;
            /// Pressure coefficient in the side at the wing root [-].
            #[serde(skip_serializing_if = "is_hundredths::<{ -20 }>")]
            wing_root_pressure, "wing_root_pressure_coefficient": f64 = -0.2, Ratio,
                in -1.0, 0.8, likely Some((-0.45, 0.05)), FromMemory,
                "Exit pressure coefficient in the side at the wing root", "air speeds up round the cowl's shoulder and over the root",
                if |exit| exit.place == ExitPlace::WingRoot;
            /// Rise of that coefficient in a climb [-].
            #[serde(skip_serializing_if = "is_hundredths::<12>")]
            climb_rise, "climb_pressure_rise": f64 = 0.12, Ratio,
                in -0.6, 0.6, likely Some((-0.10, 0.30)), FromMemory,
                "Exit pressure coefficient: rise in a climb", "most under the wing, least at its root",
                if |exit| exit.by_attitude && exit.place != ExitPlace::Typed;
            /// Pressure outside on the ground over the propeller's pressure rise [-].
            ground_pressure, "ground_pressure_share": f64 = 0.0, Ratio,
                in -0.5, 0.5, likely Some((-0.15, 0.15)), FromMemory,
                "Exit pressure on the ground, over the propeller's pressure rise",
                "the slipstream over the lip draws a little, gear and ground dam it",
                if |exit| exit.by_attitude;
            /// Angle between jet and flight path, degrees.
            jet_angle, "jet_angle_deg": f64 = 15.0, Angle,
                in 0.0, 90.0, likely Some((0.0, 30.0)), FromMemory,
                "Angle of the exit jet to the flight path", "look along the lip", if |_| true;
            /// Area with the flap fully open.
            flap_area, "flap_open_area_m2": Area = inch2(75.0), Area,
                in inch2(0.5), inch2(1000.0), likely None, Example,
                "Exit area with the flap open", "measure with the flap open",
                if |exit| exit.flap && !BY_ANGLE(exit);
            /// Length of the flap from its hinge to its edge.
            flap_chord, "flap_chord_m": Length = inch(8.0), Length,
                in inch(1.0), inch(30.0), likely None, Example,
                "Cowl flap length, hinge to edge", "measure along the flap", if BY_ANGLE;
            /// Angle of the flap fully open, from closed, degrees.
            flap_angle, "flap_open_angle_deg": f64 = 20.0, Angle,
                in 1.0, 60.0, likely None, Example,
                "Cowl flap angle, fully open", "from its closed position", if BY_ANGLE;
            /// Pressure coefficient with the flap open [-].
            flap_pressure, "flap_pressure_coefficient": f64 = -0.20, Ratio,
                in -1.5, 0.6, likely Some((-0.40, 0.0)), FromMemory,
                "Exit pressure coefficient with the flap open",
                "an open flap adds suction; where it goes by its angle, at 30°",
                if |exit| exit.flap;
            /// Drag of the open flap over dynamic pressure × area gained [-].
            flap_drag, "flap_drag": f64 = 0.3, Ratio,
                in 0.0, 2.0, likely Some((0.1, 0.8)), FromMemory,
                "Drag of the open flap, on the area it adds",
                "a plate at a slant to the stream; where it goes by its angle, at 30°",
                if |exit| exit.flap;
        }
    }
}

impl Exit {
    /// Net area with the flap closed, or without a flap, m²; may be negative when more is blocked
    /// than is open.
    #[must_use]
    pub fn closed_area_m2(&self) -> f64 {
        let gross = match self.shape {
            ExitShape::LipGap => self.width.value * self.gap.value,
            ExitShape::Traced => self.traced_area.value,
            ExitShape::Louvers => f64::from(self.louver_count) * self.louver_area.value,
            ExitShape::Augmentor => round_m2(self.tube_diameter.value) - self.stacks_m2(),
        };
        gross - self.pipes_area.value
    }

    /// Gives the closed exit a net area, m², by the dimension that its shape leaves free.
    pub fn set_closed_area(&mut self, net_m2: f64) {
        let free = self.free_of(net_m2 + self.pipes_area.value);
        if let Some(row) = self.free_row() {
            (row.set)(self, row.settled(free));
        }
    }

    /// Net areas of the closed exit, least and most, m², between which that dimension stays
    /// permitted.
    #[must_use]
    pub(crate) fn closed_reach_m2(&self) -> (f64, f64) {
        let (least, most) = self.free_row().map_or((0.0, 0.0), |row| row.permitted);
        let net = |free: f64| self.gross_of(free) - self.pipes_area.value;
        (net(least), net(most))
    }

    /// Net areas with the flap open, least and most, m², that are permitted.
    #[must_use]
    pub(crate) fn open_reach_m2(&self) -> (f64, f64) {
        let id = if BY_ANGLE(self) {
            "exit.flap_open_angle_deg"
        } else {
            "exit.flap_open_area_m2"
        };
        let (least, most) = row(id).map_or((0.0, 0.0), |row| row.permitted);
        let net = |end: f64| {
            if BY_ANGLE(self) {
                self.closed_area_m2() + self.added_m2(end)
            } else {
                end - self.pipes_area.value
            }
        };
        (net(least), net(most))
    }

    /// Gives the exit with its flap open a net area, m²: by the flap's angle where it goes by that.
    pub fn set_open_area(&mut self, net_m2: f64) {
        if !BY_ANGLE(self) {
            self.flap_area = square_metre(net_m2 + self.pipes_area.value);
            return;
        }
        let sine = (net_m2 - self.closed_area_m2()) / (self.width.value * self.flap_chord.value);
        self.flap_angle = libm::asin(sine.clamp(0.0, 1.0)).to_degrees();
        if let Some(row) = row("exit.flap_open_angle_deg") {
            self.flap_angle = row.settled(self.flap_angle);
        }
    }

    /// Area, m², that the flap adds at an angle, degrees.
    fn added_m2(&self, angle_deg: f64) -> f64 {
        // A = w L sin θ
        self.width.value * self.flap_chord.value * libm::sin(angle_deg.to_radians())
    }

    /// The dimension that the shape leaves free.
    fn free_row(&self) -> Option<&'static Row<Self>> {
        let id = match self.shape {
            ExitShape::LipGap => "exit.gap_m",
            ExitShape::Traced => "exit.traced_area_m2",
            ExitShape::Louvers => "exit.louver_area_m2",
            ExitShape::Augmentor => "exit.tube_diameter_m",
        };
        row(id)
    }

    /// Gross area, m², at a value of the free dimension.
    fn gross_of(&self, free: f64) -> f64 {
        match self.shape {
            ExitShape::LipGap => free * self.width.value,
            ExitShape::Traced => free,
            ExitShape::Louvers => free * f64::from(self.louver_count.max(1)),
            ExitShape::Augmentor => round_m2(free) - self.stacks_m2(),
        }
    }

    /// Value of the free dimension that gives a gross area, m².
    fn free_of(&self, gross_m2: f64) -> f64 {
        match self.shape {
            ExitShape::LipGap => gross_m2 / self.width.value,
            ExitShape::Traced => gross_m2,
            ExitShape::Louvers => gross_m2 / f64::from(self.louver_count.max(1)),
            ExitShape::Augmentor => {
                ((gross_m2 + self.stacks_m2()) / core::f64::consts::FRAC_PI_4).sqrt()
            }
        }
    }

    /// Area of all stacks in the augmentor's mouth, m².
    ///
    /// # Example
    /// Two of 40 mm: 2 · π/4 · 0.0016 m²:
    /// ```
    /// use coolpath_core::document::installation::Exit;
    /// use coolpath_core::units::quantity::metre;
    /// use core::f64::consts::FRAC_PI_4;
    ///
    /// let exit = Exit { stack_count: 2, stack_diameter: metre(0.04), ..Exit::default() };
    /// assert!((exit.stacks_m2() - 2.0 * FRAC_PI_4 * 0.0016).abs() < 1e-15);
    /// ```
    #[must_use]
    pub fn stacks_m2(&self) -> f64 {
        f64::from(self.stack_count) * round_m2(self.stack_diameter.value)
    }

    /// Net area, m², at a flap opening from 0 to 1.
    ///
    /// # Example
    /// 0.3 m by 0.1 m less 0.005 m² of pipes, and 0.05 m² less these with the flap open; half open lies
    /// halfway between 0.025 and 0.045 m²:
    /// ```
    /// use coolpath_core::document::installation::{Exit, ExitShape};
    /// use coolpath_core::units::quantity::{metre, square_metre};
    ///
    /// let exit = Exit {
    ///     shape: ExitShape::LipGap,
    ///     width: metre(0.3),
    ///     gap: metre(0.1),
    ///     pipes_area: square_metre(0.005),
    ///     flap: true,
    ///     flap_area: square_metre(0.05),
    ///     ..Exit::default()
    /// };
    /// assert!((exit.area_m2(0.0) - 0.025).abs() < 1e-12);
    /// assert!((exit.area_m2(0.5) - 0.035).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn area_m2(&self, flap_opening: f64) -> f64 {
        let closed = self.closed_area_m2();
        if !self.flap {
            return closed;
        }
        if BY_ANGLE(self) {
            return closed + self.added_m2(flap_opening * self.flap_angle);
        }
        let open = self.flap_area.value - self.pipes_area.value;
        closed + flap_opening * (open - closed)
    }

    /// The edge that the air leaves over: louvers are slots, unless a coefficient of one's own was typed for them.
    #[must_use]
    pub fn edge_in_use(&self) -> ExitEdge {
        let is_untold = self.edge == ExitEdge::Typed && self.discharge == Self::default().discharge;
        if is_untold && self.shape == ExitShape::Louvers {
            return ExitEdge::Louver;
        }
        self.edge
    }

    /// Discharge coefficient over the exit's edge \[-\].
    #[must_use]
    pub fn discharge_coefficient(&self) -> f64 {
        match self.edge_in_use() {
            ExitEdge::Typed => self.discharge,
            ExitEdge::Sharp => self.sharp_discharge,
            ExitEdge::Ramp => self.ramp_discharge,
            ExitEdge::Rounded => self.rounded_discharge,
            ExitEdge::Louver => self.louver_discharge,
        }
    }
}
