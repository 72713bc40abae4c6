//! Exits and the cowl flap.

use crate::document::group::group;
use crate::document::row::Row;
use crate::units::si::{inch, inch2};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Area, Length};

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
}

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
            /// A flap opens it further.
            flap: bool = false;
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
            /// Area taken up by pipes, hoses and brackets.
            pipes_area, "pipes_area_m2": Area = inch2(0.0), Area,
                in 0.0, inch2(300.0), likely None, Example,
                "Area blocked by exhaust pipes and brackets", "measure across the flow", if |_| true;
            /// Discharge coefficient [-].
            discharge, "discharge": f64 = 0.85, Ratio,
                in 0.3, 1.0, likely Some((0.65, 0.95)), FromMemory,
                "Exit discharge coefficient",
                "0.95 with a radiused lower firewall edge, 0.75 sharp or obstructed", if |_| true;
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
                if |_| true;
            /// Angle between jet and flight path, degrees.
            jet_angle, "jet_angle_deg": f64 = 15.0, Angle,
                in 0.0, 90.0, likely Some((0.0, 30.0)), FromMemory,
                "Angle of the exit jet to the flight path", "look along the lip", if |_| true;
            /// Area with the flap fully open.
            flap_area, "flap_open_area_m2": Area = inch2(75.0), Area,
                in inch2(0.5), inch2(1000.0), likely None, Example,
                "Exit area with the flap open", "measure with the flap open", if |exit| exit.flap;
            /// Pressure coefficient with the flap open [-].
            flap_pressure, "flap_pressure_coefficient": f64 = -0.20, Ratio,
                in -1.5, 0.6, likely Some((-0.40, 0.0)), FromMemory,
                "Exit pressure coefficient with the flap open", "an open flap adds suction",
                if |exit| exit.flap;
            /// Drag of the open flap over dynamic pressure × area gained [-].
            flap_drag, "flap_drag": f64 = 0.3, Ratio,
                in 0.0, 2.0, likely Some((0.1, 0.8)), FromMemory,
                "Drag of the open flap, on the area it adds", "a plate at a slant to the stream",
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
        };
        gross - self.pipes_area.value
    }

    /// Gives the closed exit a net area, m², by the dimension that its shape leaves free.
    pub fn set_closed_area(&mut self, net_m2: f64) {
        let free = (net_m2 + self.pipes_area.value) / self.per_free();
        if let Some(row) = self.free_row() {
            (row.set)(self, row.settled(free));
        }
    }

    /// Net areas of the closed exit, least and most, m², between which that dimension stays
    /// permitted.
    #[must_use]
    pub(crate) fn closed_reach_m2(&self) -> (f64, f64) {
        let (least, most) = self.free_row().map_or((0.0, 0.0), |row| row.permitted);
        let net = |free: f64| free * self.per_free() - self.pipes_area.value;
        (net(least), net(most))
    }

    /// Net areas with the flap open, least and most, m², that are permitted.
    #[must_use]
    pub(crate) fn open_reach_m2(&self) -> (f64, f64) {
        let row = Self::ROWS
            .iter()
            .find(|row| row.id == "exit.flap_open_area_m2");
        let (least, most) = row.map_or((0.0, 0.0), |row| row.permitted);
        let pipes_m2 = self.pipes_area.value;
        (least - pipes_m2, most - pipes_m2)
    }

    /// The dimension that the shape leaves free.
    fn free_row(&self) -> Option<&'static Row<Self>> {
        let id = match self.shape {
            ExitShape::LipGap => "exit.gap_m",
            ExitShape::Traced => "exit.traced_area_m2",
            ExitShape::Louvers => "exit.louver_area_m2",
        };
        Self::ROWS.iter().find(|row| row.id == id)
    }

    /// Gross area over the free dimension, m or \[-\].
    fn per_free(&self) -> f64 {
        match self.shape {
            ExitShape::LipGap => self.width.value,
            ExitShape::Traced => 1.0,
            ExitShape::Louvers => f64::from(self.louver_count.max(1)),
        }
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
        let open = self.flap_area.value - self.pipes_area.value;
        closed + flap_opening * (open - closed)
    }

    /// Pressure coefficient outside [-] at a flap opening from 0 to 1.
    #[must_use]
    pub(crate) fn outside_coefficient(&self, flap_opening: f64) -> f64 {
        if !self.flap {
            return self.pressure_coefficient;
        }
        self.pressure_coefficient + flap_opening * (self.flap_pressure - self.pressure_coefficient)
    }
}
