//! Windows of flights with the cylinder marked that burned less than the others.

use crate::document::design::Design;
use crate::document::reading::{Moment, Reading, Sick};
use crate::prove::flights::fit;
use crate::prove::flights::own::window_of;
use crate::prove::flights::window::Window;
use crate::prove::sick::{blocked_nozzle, not_firing};
use crate::prove::sick_since::{became_blocked, stopped_firing};

/// The cylinder of each reading that may not be firing, or whose nozzle may be partly blocked;
/// readings of one log, or of one set where they are of no log, are judged together.
#[must_use]
pub fn sick_in(design: &Design, readings: &[Reading]) -> Vec<Option<Sick>> {
    let windows: Vec<Window> = readings.iter().map(window_of).collect();
    let marked = with_sick_marked(design, &windows);
    marked.iter().map(|window| window.reading.sick).collect()
}

/// The design with such a cylinder noted in its readings, so that no mean includes it.
#[must_use]
pub fn with_sick_readings(design: &Design) -> Design {
    let mut marked = design.clone();
    let found = sick_in(design, &design.readings);
    for (reading, sick) in marked.readings.iter_mut().zip(found) {
        reading.sick = sick;
    }
    marked
}

/// Between two moments of a whole flight that are looked at for a nozzle, s: the mixture of each is solved.
const LOOKED_EVERY_S: f64 = 60.0;

/// The cylinder of a whole flight that stopped firing, or whose nozzle became blocked, and since when.
fn sick_since(design: &Design, reading: &Reading) -> Option<Sick> {
    if let Some(sick) = stopped_firing(&reading.moments) {
        return Some(sick);
    }
    let mut next_s = 0.0;
    let looked_at = reading.moments.iter().filter(|moment| {
        let due = moment.seconds >= next_s;
        if due {
            next_s = moment.seconds + LOOKED_EVERY_S;
        }
        due
    });
    let (moments, ratios): (Vec<Moment>, Vec<f64>) = looked_at
        .filter_map(|moment| Some((moment.clone(), ratio(design, reading, moment)?)))
        .unzip();
    became_blocked(&moments, &ratios)
}

/// Mixture of a moment over that of peak EGT \[-\]; `None` if it has no answer.
fn ratio(design: &Design, reading: &Reading, moment: &Moment) -> Option<f64> {
    let engine = &design.installation.engine;
    let condition = moment.condition(engine, reading.mixture).ok()?;
    Some(fit::mixture(&design.installation, &condition)? / engine.peak_egt)
}

/// The cylinder that may not be firing in most moments of a reading.
fn mostly_not_firing(reading: &Reading) -> Option<Sick> {
    let mut found: Vec<Sick> = reading.moments.iter().filter_map(not_firing).collect();
    (2 * found.len() > reading.moments.len())
        .then(|| found.pop())
        .flatten()
}

/// The windows with a cylinder marked that burned less than the others: moment by moment where it did
/// not fire, flight by flight where a nozzle passed too little.
pub(super) fn with_sick_marked(design: &Design, windows: &[Window]) -> Vec<Window> {
    let mut marked = windows.to_vec();
    for window in &mut marked {
        if window.reading.sick.is_none() {
            window.reading.sick = if window.reading.whole {
                sick_since(design, &window.reading)
            } else {
                mostly_not_firing(&window.reading)
            };
        }
    }
    let mut flights: Vec<String> = marked.iter().map(|window| window.flight.clone()).collect();
    flights.sort();
    flights.dedup();
    // What was typed without a flight is of none: points of several days tell no nozzle.
    flights.retain(|flight| !flight.is_empty());
    for flight in flights {
        let own: Vec<&Window> = marked
            .iter()
            .filter(|window| window.flight == flight && window.reading.sick.is_none())
            // Exhausts at the start of a climb are not settled.
            .filter(|window| window.reading.is_steady())
            .collect();
        let pairs: Vec<(&Moment, f64)> = own
            .iter()
            .filter_map(|window| {
                let moment = window.moment()?;
                Some((moment, ratio(design, &window.reading, moment)?))
            })
            .collect();
        let (moments, ratios): (Vec<&Moment>, Vec<f64>) = pairs.into_iter().unzip();
        let Some(sick) = blocked_nozzle(&moments, &ratios) else {
            continue;
        };
        for window in &mut marked {
            // A whole flight has said by itself whether and since when.
            let open = window.reading.sick.is_none() && !window.reading.whole;
            if window.flight == flight && open {
                window.reading.sick = Some(sick);
            }
        }
    }
    marked
}
