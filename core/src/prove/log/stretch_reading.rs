//! A stretch of a log as a reading.

use crate::document::condition::Phase;
use crate::document::flown::phase_of_rate;
use crate::document::quantity::Quantity;
use crate::document::reading::{Moment, Reading, Values};
use crate::prove::log::sessions::Session;
use crate::prove::log::stretches::{Kind, MOMENT_S, Stretch};
use crate::units::si::deltaf;
use std::sync::Arc;

/// Change of the oil up to which it counts as settled, °F a minute. Its time constant in flight is some 200 s (from
/// logs of one six): at the 2 °F a minute that a steady head may have it would still lie 7 °F off.
pub const SETTLED_OIL_DEGF_PER_MINUTE: f64 = 0.8;

impl Stretch {
    /// Whether the oil is noted with the stretch: where the stretch is read as one moment, only if the oil had settled.
    #[must_use]
    pub fn notes_oil(&self, session: &Session) -> bool {
        let Some(oil) = session.channel(Quantity::Oil) else {
            return false;
        };
        let (from_s, to_s) = self.read_s;
        self.kind != Kind::Steady
            || session
                .slope(oil, from_s, to_s)
                .is_none_or(|rate| rate.abs() <= deltaf(SETTLED_OIL_DEGF_PER_MINUTE) / 60.0)
    }

    /// The stretch as a reading: the means of its calmest window if it is steady, else a moment every [`MOMENT_S`], or
    /// rarer if it is long. Oil that had not settled in a steady window is left out.
    #[must_use]
    pub fn reading(&self, session: &Session, name: &str) -> Reading {
        let notes_oil = self.notes_oil(session);
        let moment = |from_s: f64, to_s: f64, seconds: f64| {
            let rows = session.rows_between(from_s, to_s);
            let values: Values = session
                .channels
                .iter()
                .filter(|channel| channel.quantity != Quantity::Oil || notes_oil)
                .filter_map(|channel| {
                    let mean = session.mean(channel, rows.clone())?;
                    Some((channel.quantity, mean))
                })
                .collect();
            Moment { seconds, values }
        };
        let (begin_s, end_s) = self.read_s;
        let duration_s = end_s - begin_s;
        let moments = if self.kind == Kind::Steady {
            vec![moment(begin_s, end_s, 0.0)]
        } else {
            let most = crate::document::reading::MAX_MOMENTS as f64;
            let step_s = MOMENT_S.max(duration_s / (most - 1.0));
            let count = libm::floor(duration_s / step_s) as usize;
            (0..count)
                .map(|at| {
                    let from_s = begin_s + at as f64 * step_s;
                    moment(from_s, from_s + step_s, at as f64 * step_s)
                })
                .filter(|moment| !moment.values.is_empty())
                .collect()
        };
        let first_s = moments.first().map_or(0.0, |first| first.seconds);
        let moments = moments
            .into_iter()
            .map(|moment| Moment {
                seconds: moment.seconds - first_s,
                ..moment
            })
            .collect();
        Reading {
            name: name.to_owned(),
            whole: self.kind == Kind::Whole,
            // Means tell no rate; level is what is taken where nothing is noted.
            flown: session
                .channel(Quantity::Altitude)
                .filter(|_| self.kind == Kind::Steady)
                .and_then(|altitude| session.slope(altitude, begin_s, end_s))
                .map(phase_of_rate)
                .filter(|phase| *phase != Phase::Cruise),
            moments: Arc::new(moments),
            ..Reading::default()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::prove::log::stretches::{Criteria, stretches};

    /// The steady stretch of ten level minutes in which the heads stand and the oil goes so.
    fn settling(oil: fn(f64) -> f64) -> (Session, Stretch) {
        let session = Session::made(600, &[(Quantity::Head1, |_| 440.0), (Quantity::Oil, oil)]);
        let found = stretches(&session, &Criteria::default());
        let steady = found.into_iter().find(|one| one.kind == Kind::Steady);
        (session, steady.expect("a steady stretch"))
    }

    #[test]
    fn oil_that_still_settles_is_left_out_of_a_steady_reading() {
        let (session, steady) = settling(|t| 350.0 + deltaf(1.5) / 60.0 * t);
        assert!(!steady.notes_oil(&session));
        let reading = steady.reading(&session, "settling");
        assert_eq!(reading.moments[0].values.get(&Quantity::Oil), None);
        assert!(reading.moments[0].values.contains_key(&Quantity::Head1));
        let (session, steady) = settling(|t| 350.0 + deltaf(0.5) / 60.0 * t);
        let reading = steady.reading(&session, "settled");
        assert!(reading.moments[0].values.contains_key(&Quantity::Oil));
        // Read all along, it is followed with its time constant.
        let climb = Stretch {
            kind: Kind::Climb,
            ..steady
        };
        assert!(climb.notes_oil(&session));
    }
}
