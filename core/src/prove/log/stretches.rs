//! Steady windows and climbs: the stretches of a session that can become readings.
//!
//! Steady means a rate below 2 °F a minute of every head and of the oil (14 CFR 25.1045(a),
//! published) over 120 s. Windows that follow each other at the same airspeed are one stretch, and
//! its calmest window is its reading: ten minutes of cruise are no five readings. Real flights hardly contain any, so whole climbs and descents are offered
//! too, as a moment every [`MOMENT_S`].

use crate::document::quantity::Quantity;
use crate::language::tr;
use crate::prove::log::sessions::Session;
use crate::units::si::{deltaf, foot, knot};
use crate::units::typed::rounded_text;

/// Between two moments of a stretch that becomes a reading, s.
pub const MOMENT_S: f64 = 15.0;

/// A temperature that changes less is steady, °F a minute (14 CFR 25.1045(a)).
pub const STEADY_DEGF_PER_MINUTE: f64 = 2.0;

/// When a window counts as steady.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Criteria {
    /// Length, s.
    pub window_s: f64,
    /// Most change of a head or of the oil, K/s.
    pub drift_k_s: f64,
    /// Farthest that the airspeed may be from its mean, m/s (from memory).
    pub speed_m_s: f64,
    /// Most change of altitude, m/s (from memory).
    pub climb_m_s: f64,
}

impl Default for Criteria {
    fn default() -> Self {
        Self {
            window_s: 120.0,
            drift_k_s: deltaf(STEADY_DEGF_PER_MINUTE) / 60.0,
            speed_m_s: knot(8.0),
            climb_m_s: foot(300.0) / 60.0,
        }
    }
}

/// Between the starts of two windows that are tried, s.
pub(super) const TRIED_EVERY_S: f64 = 10.0;
/// Least airspeed of a window in flight, m/s (from memory).
pub(super) const FLYING_M_S: f64 = knot(40.0);
/// Least rate of climb or descent, m/s (from memory).
const CLIMBING_M_S: f64 = foot(200.0) / 60.0;
/// Shortest climb or descent, s.
const SHORTEST_CLIMB_S: f64 = 150.0;
/// Over which the rate of climb is taken, s.
const RATE_OVER_S: f64 = 30.0;
/// Longest level piece within a climb, s.
const BRIDGED_S: f64 = 45.0;

/// Shortest run on the ground, s (from memory).
const SHORTEST_GROUND_S: f64 = 60.0;
/// An engine that turns slower stands still, rpm (from memory).
const RUNNING_RPM: f64 = 300.0;

/// What a stretch is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A steady window.
    Steady,
    /// A climb.
    Climb,
    /// A descent.
    Descent,
    /// The engine runs on the ground.
    Ground,
    /// Chosen by the builder.
    Chosen,
    /// From take-off to landing.
    Whole,
}

impl Kind {
    /// Whether it is a climb or a descent.
    #[must_use]
    pub fn is_moving(self) -> bool {
        matches!(self, Self::Climb | Self::Descent)
    }

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Steady => tr("Steady"),
            Self::Climb => tr("Climb"),
            Self::Descent => tr("Descent"),
            Self::Ground => tr("Ground run"),
            Self::Chosen => tr("Stretch"),
            Self::Whole => tr("Whole flight"),
        }
    }
}

/// A stretch of a session.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// What it is.
    pub kind: Kind,
    /// From, s since the session's start.
    pub from_s: f64,
    /// To, s.
    pub to_s: f64,
    /// Fastest change of a head or the oil over it, K/s; of a steady one over its calmest window.
    pub drift_k_s: f64,
    /// What becomes the reading, s: of a steady one its calmest window, else all of it.
    pub read_s: (f64, f64),
}

/// The stretches of a session: steady windows, then climbs and descents, then ground runs.
#[must_use]
pub fn stretches(session: &Session, criteria: &Criteria) -> Vec<Stretch> {
    let mut found = steady_windows(session, criteria);
    found.extend(climbs(session));
    found.extend(ground_runs(session));
    found
}

fn steady_windows(session: &Session, criteria: &Criteria) -> Vec<Stretch> {
    let mut found: Vec<Stretch> = Vec::new();
    let mut from_s = 0.0;
    while from_s + criteria.window_s <= session.duration_s() {
        let to_s = from_s + criteria.window_s;
        let Some(drift_k_s) = drift_if_steady(session, criteria, from_s, to_s) else {
            from_s += TRIED_EVERY_S;
            continue;
        };
        match found.last_mut() {
            Some(last)
                if from_s - last.to_s < 2.0 * TRIED_EVERY_S
                    && speed_between(session, last.read_s, (from_s, to_s)) < criteria.speed_m_s =>
            {
                last.to_s = to_s;
                if drift_k_s < last.drift_k_s {
                    last.drift_k_s = drift_k_s;
                    last.read_s = (from_s, to_s);
                }
            }
            _ => found.push(Stretch {
                kind: Kind::Steady,
                from_s,
                to_s,
                drift_k_s,
                read_s: (from_s, to_s),
            }),
        }
        from_s = to_s;
    }
    found
}

/// Difference of mean airspeed between two windows, m/s; 0 where none was logged.
fn speed_between(session: &Session, one: (f64, f64), other: (f64, f64)) -> f64 {
    let mean = |(from_s, to_s): (f64, f64)| {
        let speed = session.channel(Quantity::Airspeed)?;
        session.mean(speed, session.rows_between(from_s, to_s))
    };
    match (mean(one), mean(other)) {
        (Some(one), Some(other)) => (one - other).abs(),
        _ => 0.0,
    }
}

/// The fastest drift of a window that is steady; `None` if it is not, or not in flight.
pub(super) fn drift_if_steady(
    session: &Session,
    criteria: &Criteria,
    from_s: f64,
    to_s: f64,
) -> Option<f64> {
    let rows = session.rows_between(from_s, to_s);
    if let Some(speed) = session.channel(Quantity::Airspeed) {
        let mean = session.mean(speed, rows.clone())?;
        let far = speed.values[rows.clone()]
            .iter()
            .any(|value| (value - mean).abs() > criteria.speed_m_s);
        if mean < FLYING_M_S || far {
            return None;
        }
    }
    if let Some(altitude) = session.channel(Quantity::Altitude)
        && session
            .slope(altitude, from_s, to_s)
            .is_none_or(|rate| rate.abs() > criteria.climb_m_s)
    {
        return None;
    }
    let drift = drift(session, from_s, to_s)?;
    (drift <= criteria.drift_k_s).then_some(drift)
}

/// Fastest change of a head or the oil between two times, K/s; `None` without any of them.
fn drift(session: &Session, from_s: f64, to_s: f64) -> Option<f64> {
    session
        .channels
        .iter()
        .filter(|channel| channel.quantity.is_head() || channel.quantity == Quantity::Oil)
        .filter_map(|channel| session.slope(channel, from_s, to_s))
        .map(f64::abs)
        .reduce(f64::max)
}

fn climbs(session: &Session) -> Vec<Stretch> {
    let Some(altitude) = session.channel(Quantity::Altitude) else {
        return Vec::new();
    };
    let mut found: Vec<Stretch> = Vec::new();
    let mut at_s = 0.0;
    while at_s + RATE_OVER_S <= session.duration_s() {
        let rate = session
            .slope(altitude, at_s, at_s + RATE_OVER_S)
            .unwrap_or(0.0);
        let kind = if rate > CLIMBING_M_S {
            Some(Kind::Climb)
        } else if rate < -CLIMBING_M_S {
            Some(Kind::Descent)
        } else {
            None
        };
        if let Some(kind) = kind {
            let to_s = at_s + RATE_OVER_S;
            match found.last_mut() {
                Some(last) if last.kind == kind && at_s - last.to_s <= BRIDGED_S => {
                    last.to_s = to_s;
                }
                _ => found.push(Stretch {
                    kind,
                    from_s: at_s,
                    to_s,
                    drift_k_s: 0.0,
                    read_s: (at_s, to_s),
                }),
            }
        }
        at_s += RATE_OVER_S / 3.0;
    }
    found.retain(|stretch| stretch.to_s - stretch.from_s >= SHORTEST_CLIMB_S);
    for stretch in &mut found {
        stretch.drift_k_s = drift(session, stretch.from_s, stretch.to_s).unwrap_or(0.0);
        stretch.read_s = (stretch.from_s, stretch.to_s);
    }
    found
}

/// Where the engine runs slower than flight, by the airspeed; none without an airspeed.
fn ground_runs(session: &Session) -> Vec<Stretch> {
    let Some(speed) = session.channel(Quantity::Airspeed) else {
        return Vec::new();
    };
    let runs = |row: usize| {
        let over = |quantity: Quantity, least: f64| {
            let channel = session.channel(quantity)?;
            channel.values.get(row).map(|value| *value > least)
        };
        // Without either column nothing says that it stands still.
        over(Quantity::Rpm, RUNNING_RPM)
            .or_else(|| over(Quantity::FuelFlow, 0.0))
            .unwrap_or(true)
    };
    let mut found: Vec<Stretch> = Vec::new();
    for (row, &at_s) in session.seconds.iter().enumerate() {
        let slow = speed
            .values
            .get(row)
            .is_some_and(|speed| *speed < FLYING_M_S);
        if !slow || !runs(row) {
            continue;
        }
        match found.last_mut() {
            Some(last) if at_s - last.to_s <= BRIDGED_S => last.to_s = at_s,
            _ => found.push(Stretch {
                kind: Kind::Ground,
                from_s: at_s,
                to_s: at_s,
                drift_k_s: 0.0,
                read_s: (at_s, at_s),
            }),
        }
    }
    found.retain(|stretch| stretch.to_s - stretch.from_s >= SHORTEST_GROUND_S);
    for stretch in &mut found {
        stretch.drift_k_s = drift(session, stretch.from_s, stretch.to_s).unwrap_or(0.0);
        stretch.read_s = (stretch.from_s, stretch.to_s);
    }
    found
}

impl Stretch {
    /// A stretch of the builder's choice.
    #[must_use]
    pub fn chosen(from_s: f64, to_s: f64) -> Self {
        Self::all_of(Kind::Chosen, from_s, to_s)
    }

    /// A stretch that is read all along.
    pub(super) fn all_of(kind: Kind, from_s: f64, to_s: f64) -> Self {
        Self {
            kind,
            from_s,
            to_s,
            drift_k_s: 0.0,
            read_s: (from_s, to_s),
        }
    }

    /// Its name, with the minutes between which it lies.
    #[must_use]
    pub fn label(&self) -> String {
        tr!(
            "{} {}–{} min",
            self.kind.name(),
            rounded_text(self.from_s / 60.0, 3),
            rounded_text(self.to_s / 60.0, 3)
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Five minutes of climb, then five level and steady; one row a second.
    fn flight() -> Session {
        Session::made(
            600,
            &[
                (Quantity::Altitude, |t| foot(1000.0 + 10.0 * t.min(300.0))),
                (Quantity::Airspeed, |t| {
                    knot(if t < 300.0 { 90.0 } else { 130.0 })
                }),
                (Quantity::Head1, |t| 400.0 + 0.1 * t.min(300.0)),
                (Quantity::Head2, |t| 405.0 + 0.1 * t.min(300.0)),
            ],
        )
    }

    #[test]
    fn the_climb_and_the_steady_windows_after_it_are_found() {
        let session = flight();
        let found = stretches(&session, &Criteria::default());
        let of = |kind| -> Vec<&Stretch> { found.iter().filter(|s| s.kind == kind).collect() };
        let steady = of(Kind::Steady);
        assert_eq!(steady.len(), 1, "{found:?}");
        assert!(steady[0].from_s >= 299.0 && steady[0].drift_k_s < 1e-9);
        assert!(steady[0].to_s - steady[0].from_s >= 240.0);
        assert_eq!(steady[0].read_s.1 - steady[0].read_s.0, 120.0);
        let climbs = of(Kind::Climb);
        assert_eq!(climbs.len(), 1);
        assert!(climbs[0].from_s < 1.0 && (climbs[0].to_s - 300.0).abs() < 31.0);
        assert!((climbs[0].drift_k_s - 0.1).abs() < 0.01);
    }

    #[test]
    fn a_ground_run_is_named_and_an_engine_that_stands_is_none() {
        let session = Session::made(
            600,
            &[
                (Quantity::Altitude, |_| foot(900.0)),
                // A tail wind on the ramp; then the engine is shut down.
                (Quantity::Airspeed, |t| {
                    knot(if t < 20.0 { 0.0 } else { 6.0 })
                }),
                (Quantity::Rpm, |t| if t < 400.0 { 1000.0 } else { 0.0 }),
                (Quantity::Head1, |t| 350.0 + 0.05 * t),
            ],
        );
        let found = stretches(&session, &Criteria::default());
        assert_eq!(found.len(), 1, "{found:?}");
        assert_eq!(found[0].kind, Kind::Ground);
        assert_eq!((found[0].from_s, found[0].to_s), (0.0, 399.0));
        assert!(
            found[0].label().starts_with("Ground run 0–6"),
            "{}",
            found[0].label()
        );
    }

    #[test]
    fn a_climb_becomes_moments_and_a_window_its_means() {
        let session = flight();
        let found = stretches(&session, &Criteria::default());
        let steady = found[0].reading(&session, "one");
        assert!(steady.is_steady());
        let moment = &steady.moments[0];
        assert!((moment.get(Quantity::Head2).expect("a head") - 435.0).abs() < 1e-9);
        let climb = found.last().expect("a climb").reading(&session, "two");
        assert!(climb.moments.len() >= 19, "{}", climb.moments.len());
        assert_eq!(climb.moments[1].seconds, MOMENT_S);
        // The mean of seconds 15 to 29.
        let head = climb.moments[1].get(Quantity::Head1).expect("a head");
        assert!((head - 402.2).abs() < 1e-9, "{head}");
    }
}
