//! What stands outside an exit, and what its open flap adds.

use crate::document::condition::Phase;
use crate::document::installation::exit::BY_ANGLE;
use crate::document::installation::{Exit, ExitPlace};

/// Angle at which the suction and the drag of an open flap are given, degrees.
const FLAP_REFERENCE_DEG: f64 = 30.0;

impl Exit {
    /// Pressure outside, Pa gauge.
    ///
    /// # Arguments
    /// * `flap_opening` - from 0 to 1
    /// * `phase` - what the aircraft does
    /// * `dynamic_pa` - dynamic pressure of the flight, Pa
    /// * `propeller_pa` - pressure rise of the propeller, Pa
    ///
    /// # Example
    /// C_p −0.2 at 1000 Pa in level flight; 0.1 in a climb; a tenth of the propeller's 600 Pa below
    /// the outside on the ground:
    /// ```
    /// use coolpath_core::document::condition::Phase;
    /// use coolpath_core::document::installation::Exit;
    ///
    /// let exit = Exit {
    ///     pressure_coefficient: -0.2,
    ///     by_attitude: true,
    ///     climb_pressure: 0.1,
    ///     ground_pressure: -0.1,
    ///     ..Exit::default()
    /// };
    /// assert!((exit.outside_pa(0.0, Phase::Cruise, 1000.0, 600.0) + 200.0).abs() < 1e-9);
    /// assert!((exit.outside_pa(0.0, Phase::Climb, 1000.0, 600.0) - 100.0).abs() < 1e-9);
    /// assert!((exit.outside_pa(0.0, Phase::Ground, 0.0, 600.0) + 60.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn outside_pa(
        &self,
        flap_opening: f64,
        phase: Phase,
        dynamic_pa: f64,
        propeller_pa: f64,
    ) -> f64 {
        self.coefficient(flap_opening, phase) * dynamic_pa + self.ground_share(phase) * propeller_pa
    }

    /// Pressure coefficient outside at a flap opening from 0 to 1 \[-\].
    #[must_use]
    pub fn coefficient(&self, flap_opening: f64, phase: Phase) -> f64 {
        let level = self.level_pressure();
        let shut = match phase {
            Phase::Climb if self.by_attitude => self.pressure_in_climb(),
            _ => level,
        };
        // What the flap adds is the same in every attitude.
        if self.flap {
            shut + self.flap_share(flap_opening) * (self.flap_pressure - level)
        } else {
            shut
        }
    }

    /// Pressure outside over the propeller's pressure rise, beside what flight makes \[-\].
    pub(crate) fn ground_share(&self, phase: Phase) -> f64 {
        match phase {
            Phase::Ground if self.by_attitude => self.ground_pressure,
            _ => 0.0,
        }
    }

    /// Pressure coefficient in level flight, the flap closed \[-\].
    fn level_pressure(&self) -> f64 {
        match self.place {
            ExitPlace::Typed => self.pressure_coefficient,
            ExitPlace::Belly => self.belly_pressure,
            ExitPlace::UnderWing => self.under_wing_pressure,
            ExitPlace::Firewall => self.firewall_pressure,
            ExitPlace::WingRoot => self.wing_root_pressure,
        }
    }

    fn pressure_in_climb(&self) -> f64 {
        match self.place {
            ExitPlace::Typed => self.climb_pressure,
            _ => self.level_pressure() + self.climb_rise,
        }
    }

    /// Drag area of the open flap, m².
    ///
    /// # Example
    /// 0.3 m by 0.2 m at 30°, on the area of 0.03 m² that it adds; at a smaller angle less per area:
    /// ```
    /// use coolpath_core::document::installation::{Exit, FlapGiven};
    /// use coolpath_core::units::quantity::metre;
    ///
    /// let exit = Exit {
    ///     flap: true,
    ///     flap_given: FlapGiven::Angle,
    ///     width: metre(0.3),
    ///     flap_chord: metre(0.2),
    ///     flap_angle: 30.0,
    ///     flap_drag: 0.4,
    ///     ..Exit::default()
    /// };
    /// assert!((exit.flap_drag_m2(1.0) - 0.4 * 0.03).abs() < 1e-12);
    /// assert!(exit.flap_drag_m2(0.5) < 0.5 * exit.flap_drag_m2(1.0));
    /// ```
    #[must_use]
    pub fn flap_drag_m2(&self, flap_opening: f64) -> f64 {
        let added = (self.area_m2(flap_opening) - self.closed_area_m2()).max(0.0);
        let slant = if BY_ANGLE(self) {
            self.flap_share(flap_opening)
        } else {
            1.0
        };
        self.flap_drag * slant * added
    }

    /// Share of the flap's suction that stands at an opening from 0 to 1 \[-\].
    fn flap_share(&self, flap_opening: f64) -> f64 {
        if BY_ANGLE(self) {
            // sin θ / sin 30°
            let sine = |degrees: f64| libm::sin(degrees.to_radians());
            sine(flap_opening * self.flap_angle) / sine(FLAP_REFERENCE_DEG)
        } else {
            flap_opening
        }
    }
}
