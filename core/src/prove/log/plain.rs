//! Plain windows: means of a given length in which no temperature moves fast, so that short flights
//! count too.

use crate::prove::log::sessions::Session;
use crate::prove::log::stretches::{Criteria, Kind, Stretch, TRIED_EVERY_S, drift_if_steady};
use crate::units::si::deltaf;

/// Fastest change of a head or the oil in a plain window, °F a minute: twice what counts as steady.
pub const PLAIN_DEGF_PER_MINUTE: f64 = 4.0;

/// Windows of a length, s, in flight, one after the other without overlap, in which no head and not
/// the oil changes faster than [`PLAIN_DEGF_PER_MINUTE`]. Nothing else is asked of them: climbs and
/// descents count, and so do changes of airspeed and power.
#[must_use]
pub fn plain_windows(session: &Session, window_s: f64) -> Vec<Stretch> {
    let criteria = Criteria {
        window_s,
        drift_k_s: deltaf(PLAIN_DEGF_PER_MINUTE) / 60.0,
        climb_m_s: f64::INFINITY,
        speed_m_s: f64::INFINITY,
    };
    let mut found = Vec::new();
    let mut from_s = 0.0;
    while window_s > 0.0 && from_s + window_s <= session.duration_s() {
        let to_s = from_s + window_s;
        match drift_if_steady(session, &criteria, from_s, to_s) {
            None => from_s += TRIED_EVERY_S,
            Some(drift_k_s) => {
                found.push(Stretch {
                    kind: Kind::Steady,
                    from_s,
                    to_s,
                    drift_k_s,
                    read_s: (from_s, to_s),
                });
                from_s = to_s;
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::quantity::Quantity;
    use crate::units::si::{foot, knot};

    /// Ten minutes of climb in which a head warms by 1, then 3, then 6 °F a minute.
    fn climb() -> Session {
        Session::made(
            600,
            &[
                (Quantity::Altitude, |t| foot(1000.0 + 12.0 * t)),
                (Quantity::Airspeed, |_| knot(100.0)),
                (Quantity::Head1, |t| {
                    let minutes = [
                        t.min(180.0),
                        (t - 180.0).clamp(0.0, 180.0),
                        (t - 360.0).max(0.0),
                    ];
                    let rates = [1.0, 3.0, 6.0];
                    let degf: f64 = minutes
                        .iter()
                        .zip(rates)
                        .map(|(s, rate)| s * rate / 60.0)
                        .sum();
                    430.0 + deltaf(degf)
                }),
            ],
        )
    }

    #[test]
    fn a_climb_counts_as_long_as_no_head_moves_faster_than_four_degrees_a_minute() {
        let found = plain_windows(&climb(), 60.0);
        assert_eq!(found.len(), 6, "{found:?}");
        for (window, begun) in found.iter().zip([0.0, 60.0, 120.0, 180.0, 240.0, 300.0]) {
            assert_eq!((window.from_s, window.to_s), (begun, begun + 60.0));
        }
        let last = &found[5];
        assert!((last.drift_k_s - deltaf(3.0) / 60.0).abs() < 1e-9);
        let reading = last.reading(&climb(), "six");
        assert!(reading.is_steady());
        let altitude = reading.moments[0].get(Quantity::Altitude).expect("logged");
        assert!((altitude - foot(1000.0 + 12.0 * 329.5)).abs() < 1e-6);
        assert!(plain_windows(&climb(), 0.0).is_empty());
    }
}
