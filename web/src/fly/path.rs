//! How far the flight test has come: the state of each step in words, and the step that is next.

use coolpath_core::document::design::Design;
use coolpath_core::document::reading::Used;
use coolpath_core::language::{counted, tr};
use yew::prelude::*;

/// A step that can be next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Next {
    /// Readings are wanted.
    Readings,
    /// A fit is wanted.
    Fit,
    /// A check on readings that the fit has not seen is wanted.
    Check,
}

/// Whether a panel's step is next.
#[derive(Properties, Debug, Clone, Copy, PartialEq, Eq)]
pub struct StepProps {
    /// Whether it is, so that it stands open.
    pub next: bool,
}

/// Whether a panel is opened: from when its step is next, and not closed again while it is used.
#[hook]
pub fn use_opened(next: bool) -> bool {
    let opened = use_mut_ref(|| false);
    let open = next || *opened.borrow();
    *opened.borrow_mut() = open;
    open
}

/// The step that is next.
#[must_use]
pub fn next(design: &Design) -> Next {
    if design.readings.iter().all(|reading| !reading.is_fitted()) {
        Next::Readings
    } else if design.calibrated.is_empty() {
        Next::Fit
    } else {
        Next::Check
    }
}

/// What was read.
#[must_use]
pub fn readings(design: &Design) -> String {
    let used = || design.readings.iter().filter(|reading| !reading.left_out);
    let steady = used().filter(|reading| reading.is_steady()).count();
    let moving = |whole: bool| {
        let own = used().filter(move |reading| !reading.is_steady() && reading.whole == whole);
        own.fold((0, 0.0), |(count, minutes), reading| {
            (count + 1, minutes + reading.duration_s() / 60.0)
        })
    };
    let (stretches, minutes) = moving(false);
    let (flights, flown) = moving(true);
    let marked = used().filter(|reading| reading.check_only).count();
    let mut said = Vec::new();
    if flights > 0 {
        let what = counted(flights, "whole flight", "whole flights");
        said.push(if flights > 1 {
            tr!("{} of {:.0} min in all", what, flown)
        } else {
            tr!("{} of {:.0} min", what, flown)
        });
    }
    if steady > 0 {
        said.push(counted(steady, "reading", "readings"));
    }
    if stretches > 0 {
        let what = counted(stretches, "stretch", "stretches");
        said.push(tr!("{} of {:.0} min", what, minutes));
    }
    if said.is_empty() {
        return tr("none yet").to_owned();
    }
    if marked > 0 {
        said.push(tr!("{} for checking only", marked));
    }
    said.join(", ")
}

/// What was fitted.
#[must_use]
pub fn fit(design: &Design) -> String {
    match (next(design), design.calibrated.len()) {
        (_, fitted) if fitted > 0 => counted(fitted, "value fitted", "values fitted"),
        (Next::Readings, _) => tr("needs readings").to_owned(),
        _ => tr("ready").to_owned(),
    }
}

/// What there is to compare: readings of two sets.
#[must_use]
pub fn sets(design: &Design) -> String {
    let sets: std::collections::BTreeSet<&str> = design
        .readings
        .iter()
        .map(|reading| reading.set.trim())
        .filter(|set| !set.is_empty())
        .collect();
    match (design.readings.len(), sets.len()) {
        (0 | 1, _) => tr("needs readings").to_owned(),
        (_, 0 | 1) => tr("needs readings in two sets").to_owned(),
        _ => tr("ready").to_owned(),
    }
}

/// What there is to check on, while no check of this design is known.
#[must_use]
pub fn check(design: &Design) -> String {
    let marked = design.readings.iter();
    match marked
        .filter(|reading| reading.used() == Used::CheckOnly)
        .count()
    {
        0 => tr("needs readings for checking only").to_owned(),
        count => tr!("ready, {}", counted(count, "reading", "readings")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;
    use coolpath_core::document::reading::{Moment, Reading, Values};
    use std::sync::Arc;

    #[test]
    fn the_path_tells_what_there_is_and_what_is_next() {
        let mut design = example::design();
        design.readings.clear();
        design.calibrated.clear();
        assert_eq!(
            (
                next(&design),
                readings(&design).as_str(),
                fit(&design).as_str()
            ),
            (Next::Readings, "none yet", "needs readings")
        );
        design.readings.push(Reading {
            check_only: true,
            ..Reading::steady("unseen", Values::new())
        });
        assert_eq!(next(&design), Next::Readings);
        assert_eq!(check(&design), "ready, 1 reading");
        design.readings.push(Reading::steady("one", Values::new()));
        let at = |seconds: f64| Moment {
            seconds,
            ..Moment::default()
        };
        design.readings.push(Reading {
            moments: Arc::new(vec![at(0.0), at(720.0)]),
            ..Reading::default()
        });
        assert_eq!(
            readings(&design),
            "2 readings, 1 stretch of 12 min, 1 for checking only"
        );
        assert_eq!((next(&design), fit(&design).as_str()), (Next::Fit, "ready"));
        design.readings.push(Reading {
            whole: true,
            moments: Arc::new(vec![at(0.0), at(3000.0)]),
            ..Reading::default()
        });
        assert!(readings(&design).starts_with("1 whole flight of 50 min, 2 readings, 1 stretch"));
    }
}
