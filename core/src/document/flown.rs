//! What the aircraft did at a moment of a reading: it tells how openings stand in the air.

use crate::document::condition::Phase;
use crate::document::quantity::Quantity;
use crate::document::reading::{Moment, Reading};
use crate::units::si::foot;

/// Least rate of climb or descent, m/s: as level counts what a steady stretch of a log may show (from memory).
const CLIMBING_M_S: f64 = foot(300.0) / 60.0;
/// Moments so far before and after tell the rate, s (from memory).
const ABOUT_S: f64 = 45.0;

/// What an aircraft does whose altitude changes by so much a second.
#[must_use]
pub(crate) fn phase_of_rate(rate_m_s: f64) -> Phase {
    if rate_m_s > CLIMBING_M_S {
        Phase::Climb
    } else if rate_m_s < -CLIMBING_M_S {
        Phase::Descent
    } else {
        Phase::Cruise
    }
}

impl Reading {
    /// What the aircraft did at a moment that flew: as it was noted, else as the altitude changes about it,
    /// else level.
    ///
    /// # Example
    /// Five metres a second are a climb:
    /// ```
    /// use coolpath_core::document::condition::Phase;
    /// use coolpath_core::document::quantity::Quantity;
    /// use coolpath_core::document::reading::{Moment, Reading};
    /// use std::sync::Arc;
    ///
    /// let moment = |seconds: f64| Moment {
    ///     seconds,
    ///     values: [(Quantity::Altitude, 300.0 + 5.0 * seconds)].into_iter().collect(),
    /// };
    /// let reading = Reading {
    ///     moments: Arc::new([0.0, 10.0, 20.0].map(moment).to_vec()),
    ///     ..Reading::default()
    /// };
    /// assert_eq!(reading.phase_at(&moment(10.0)), Phase::Climb);
    /// assert_eq!(Reading::default().phase_at(&moment(10.0)), Phase::Cruise);
    /// ```
    #[must_use]
    pub fn phase_at(&self, moment: &Moment) -> Phase {
        if let Some(flown) = self.flown {
            return flown;
        }
        let mut near = self.moments.iter().filter_map(|other| {
            let is_near = (other.seconds - moment.seconds).abs() <= ABOUT_S;
            let altitude_m = other.get(Quantity::Altitude).filter(|_| is_near)?;
            Some((other.seconds, altitude_m))
        });
        let first = near.next();
        match first.zip(near.next_back()) {
            Some(((from_s, from_m), (to_s, to_m))) if to_s > from_s => {
                phase_of_rate((to_m - from_m) / (to_s - from_s))
            }
            _ => Phase::Cruise,
        }
    }
}
