//! What a design's own readings are used for: which the fit sees, and which it is checked on.

use crate::document::design::Design;
use crate::document::quantity::Quantity;
use crate::document::reading::{Reading, Used};
use crate::prove::flights::window::{FlightPhase, Window, phase_by};

/// Readings of one flight.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Source {
    /// Log that they came from; empty for what was typed.
    pub log: String,
    /// Steady ones.
    pub steady: usize,
    /// Stretches that are not steady.
    pub stretches: usize,
    /// How long these are together, s.
    pub stretches_s: f64,
    /// How long the flight is that counts as a whole, s; 0 without one.
    pub whole_s: f64,
}

/// Where readings come from, log by log in the order in which they stand.
pub fn sources<'a>(readings: impl IntoIterator<Item = &'a Reading>) -> Vec<Source> {
    let mut found: Vec<Source> = Vec::new();
    for reading in readings {
        let at = match found.iter().position(|source| source.log == reading.log) {
            Some(at) => at,
            None => {
                found.push(Source {
                    log: reading.log.clone(),
                    ..Source::default()
                });
                found.len() - 1
            }
        };
        let source = &mut found[at];
        if reading.whole {
            source.whole_s += reading.duration_s();
        } else if reading.is_steady() {
            source.steady += 1;
        } else {
            source.stretches += 1;
            source.stretches_s += reading.duration_s();
        }
    }
    found
}

/// The readings of a design that the fit sees, log by log.
#[must_use]
pub fn fitted_on(design: &Design) -> Vec<Source> {
    sources(design.fitted_readings())
}

/// The readings of a design that no fit sees, as windows, in their order. A stretch of a flight that is
/// fitted whole was seen, whatever it is marked.
#[must_use]
pub fn check_only_windows(design: &Design) -> Vec<Window> {
    let own = design.readings.iter();
    own.filter(|reading| reading.used() == Used::CheckOnly && !design.is_fitted_whole(reading))
        .map(window_of)
        .collect()
}

/// A reading as a window of its log, or of its set.
pub(super) fn window_of(reading: &Reading) -> Window {
    Window {
        flight: if reading.log.is_empty() {
            reading.set.clone()
        } else {
            reading.log.clone()
        },
        start_s: 0.0,
        phase: phase_of(reading),
        note: String::new(),
        reading: reading.clone(),
    }
}

fn phase_of(reading: &Reading) -> FlightPhase {
    let altitudes = || {
        let moments = reading.moments.iter();
        moments.filter_map(|moment| Some((moment.seconds, moment.get(Quantity::Altitude)?)))
    };
    let rate = match (altitudes().next(), altitudes().next_back()) {
        (Some(first), Some(last)) if last.0 > first.0 => (last.1 - first.1) / (last.0 - first.0),
        _ => 0.0,
    };
    phase_by(reading, rate)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::reading::{Moment, Values};
    use crate::units::si::{foot, knot};
    use std::sync::Arc;

    fn climb(log: &str) -> Reading {
        let at = |seconds: f64| Moment {
            seconds,
            values: [
                (Quantity::Altitude, foot(1000.0 + 10.0 * seconds)),
                (Quantity::Airspeed, knot(90.0)),
            ]
            .into_iter()
            .collect(),
        };
        Reading {
            log: log.to_owned(),
            moments: Arc::new(vec![at(0.0), at(60.0), at(300.0)]),
            ..Reading::default()
        }
    }

    #[test]
    fn sources_count_what_the_fit_sees_log_by_log() {
        let mut design = Design {
            readings: vec![
                climb("a.csv"),
                Reading::steady("typed", Values::new()),
                climb("a.csv"),
                climb("b.csv"),
            ],
            ..crate::document::example::design()
        };
        design.readings[3].check_only = true;
        let found = fitted_on(&design);
        let told: Vec<(&str, usize, usize, f64)> = found
            .iter()
            .map(|one| {
                let name = one.log.as_str();
                (name, one.steady, one.stretches, one.stretches_s)
            })
            .collect();
        assert_eq!(told, [("a.csv", 0, 2, 600.0), ("", 1, 0, 0.0)]);
        let windows = check_only_windows(&design);
        assert_eq!(windows.len(), 1);
        assert_eq!(windows[0].flight, "b.csv");
        assert_eq!(windows[0].phase, FlightPhase::Climb);
        // A stretch of a flight that is fitted whole was seen, and checks nothing.
        design.readings.push(Reading {
            whole: true,
            ..climb("b.csv")
        });
        assert!(check_only_windows(&design).is_empty());
        design.readings[4].left_out = true;
        assert_eq!(check_only_windows(&design).len(), 1);
    }
}
