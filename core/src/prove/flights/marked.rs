//! Windows of flights with the cylinder marked that burned less than the others.

use crate::document::design::Design;
use crate::document::reading::Moment;
use crate::prove::flights::fit;
use crate::prove::flights::window::Window;
use crate::prove::sick::{blocked_nozzle, not_firing};

/// The windows with a cylinder marked that burned less than the others: moment by moment where it did
/// not fire, flight by flight where a nozzle passed too little.
pub(super) fn with_sick_marked(design: &Design, windows: &[Window]) -> Vec<Window> {
    let mut marked = windows.to_vec();
    let engine = &design.installation.engine;
    for window in &mut marked {
        if window.reading.sick.is_none() {
            window.reading.sick = window.moment().and_then(not_firing);
        }
    }
    let mut flights: Vec<String> = marked.iter().map(|window| window.flight.clone()).collect();
    flights.sort();
    flights.dedup();
    for flight in flights {
        let own: Vec<&Window> = marked
            .iter()
            .filter(|window| window.flight == flight && window.reading.sick.is_none())
            .collect();
        let pairs: Vec<(&Moment, f64)> = own
            .iter()
            .filter_map(|window| {
                let moment = window.moment()?;
                let condition = moment.condition(engine, window.reading.mixture).ok()?;
                let phi = fit::mixture(&design.installation, &condition)?;
                Some((moment, phi / engine.peak_egt))
            })
            .collect();
        let (moments, ratios): (Vec<&Moment>, Vec<f64>) = pairs.into_iter().unzip();
        let Some(sick) = blocked_nozzle(&moments, &ratios) else {
            continue;
        };
        for window in &mut marked {
            if window.flight == flight && window.reading.sick.is_none() {
                window.reading.sick = Some(sick);
            }
        }
    }
    marked
}
