//! All of a flight, from take-off to landing, as one stretch.
//!
//! On the ground the airspeed says nothing of the air that passes the engine, and an engine that stands
//! still is no condition; heads and oil may begin at any temperature, so nothing is lost without it.
//! It becomes a moment every [`MOMENT_S`](crate::prove::log::MOMENT_S), rarer in a flight of more than two
//! hours. Means over Δt smooth what the heads follow, so that their time constant comes out short by
//! Δt²/12τ (derived: the variance of a mean's place in time over that of the lag): 2 s of 100 s at 15 s,
//! 8 s in a flight of four hours, less than it is known to.

use crate::document::quantity::Quantity;
use crate::prove::log::sessions::Session;
use crate::prove::log::stretches::{FLYING_M_S, Kind, Stretch};

/// Shortest flight that is read as a whole, s (from memory: some time constants of the heads).
pub const SHORTEST_S: f64 = 300.0;

/// A session's flight, from the first to the last row that flies; `None` without an airspeed, or of a
/// session that hardly flies.
#[must_use]
pub fn whole_flight(session: &Session) -> Option<Stretch> {
    let speed = session.channel(Quantity::Airspeed)?;
    let flies = |value: &f64| *value > FLYING_M_S;
    let first = speed.values.iter().position(flies)?;
    let last = speed.values.iter().rposition(flies)?;
    let (from_s, to_s) = (*session.seconds.get(first)?, *session.seconds.get(last)?);
    (to_s - from_s >= SHORTEST_S).then(|| Stretch::all_of(Kind::Whole, from_s, to_s))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::prove::log::stretches::MOMENT_S;
    use crate::units::si::{foot, knot};

    fn session(rows: u32) -> Session {
        Session::made(
            rows,
            &[
                (Quantity::Altitude, |_| foot(3000.0)),
                (Quantity::Airspeed, |t| {
                    knot(if (240.0..3240.0).contains(&t) {
                        110.0
                    } else {
                        8.0
                    })
                }),
                (Quantity::Head1, |t| 400.0 + 0.01 * t),
            ],
        )
    }

    #[test]
    fn a_flight_is_read_from_take_off_to_landing_without_the_ground() {
        let session = session(3600);
        let flight = whole_flight(&session).expect("a flight");
        assert_eq!((flight.from_s, flight.to_s), (240.0, 3239.0));
        let reading = flight.reading(&session, &flight.label());
        assert!(
            reading.whole && reading.name == "Whole flight 4–54 min",
            "{}",
            reading.name
        );
        assert_eq!(reading.moments.len(), 199);
        assert_eq!(reading.moments[1].seconds, MOMENT_S);
        // The means of rows 240 to 254.
        let first = reading.moments[0].get(Quantity::Head1).expect("a head");
        assert!((first - (400.0 + 2.47)).abs() < 1e-9, "{first}");
    }

    #[test]
    fn a_ground_run_and_a_hop_are_no_flight() {
        assert_eq!(whole_flight(&session(200)), None);
        assert_eq!(whole_flight(&session(400)), None);
    }
}
