//! Windows of a flight.

use crate::document::condition::Phase;
use crate::document::flown::phase_of_rate;
use crate::document::quantity::Quantity;
use crate::document::reading::{Moment, Reading};
use crate::prove::log::{Session, Stretch};
use crate::units::si::knot;

/// Least airspeed in flight, m/s (from memory).
const FLYING_M_S: f64 = knot(40.0);

/// What the aircraft did in a window.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FlightPhase {
    /// On the ground.
    Ground,
    /// Climbing.
    Climb,
    /// Level.
    Level,
    /// Descending.
    Descent,
}

impl FlightPhase {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Ground, Self::Climb, Self::Level, Self::Descent];

    /// Its name in tables.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Ground => "ground",
            Self::Climb => "climb",
            Self::Level => "level",
            Self::Descent => "descent",
        }
    }

    /// The phase of a name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|phase| phase.name() == name)
    }
}

/// A piece of flight in which little changed.
#[derive(Debug, Clone, PartialEq)]
pub struct Window {
    /// Flight or file that it belongs to.
    pub flight: String,
    /// Start, s since the flight's or session's.
    pub start_s: f64,
    /// What the aircraft did.
    pub phase: FlightPhase,
    /// What was noted of it, such as a sensor's fault.
    pub note: String,
    /// The means, as the instruments showed them.
    pub reading: Reading,
}

impl Window {
    /// The means, each instrument's correction not added.
    #[must_use]
    pub fn moment(&self) -> Option<&Moment> {
        self.reading.moments.first()
    }
}

/// The stretches of a session that are read as one moment, as windows.
#[must_use]
pub fn windows_of(flight: &str, session: &Session, stretches: &[Stretch]) -> Vec<Window> {
    stretches
        .iter()
        .map(|stretch| (stretch, stretch.reading(session, &stretch.label())))
        .filter(|(_, reading)| reading.is_steady() && !reading.moments.is_empty())
        .map(|(stretch, reading)| Window {
            flight: flight.to_owned(),
            start_s: stretch.read_s.0,
            phase: phase_of(session, stretch.read_s, &reading),
            note: String::new(),
            reading,
        })
        .collect()
}

/// By airspeed, then by the rate of climb; without either the flight counts as level.
fn phase_of(session: &Session, read_s: (f64, f64), reading: &Reading) -> FlightPhase {
    let rate = session
        .channel(Quantity::Altitude)
        .and_then(|altitude| session.slope(altitude, read_s.0, read_s.1))
        .unwrap_or(0.0);
    phase_by(reading, rate)
}

/// By airspeed, then by a rate of climb, m/s.
pub(super) fn phase_by(reading: &Reading, rate: f64) -> FlightPhase {
    let speed = reading
        .moments
        .first()
        .and_then(|moment| moment.get(Quantity::Airspeed));
    if speed.is_some_and(|speed| speed < FLYING_M_S) {
        return FlightPhase::Ground;
    }
    match phase_of_rate(rate) {
        Phase::Climb => FlightPhase::Climb,
        Phase::Descent => FlightPhase::Descent,
        Phase::Cruise | Phase::Ground => FlightPhase::Level,
    }
}
