//! The kinds of work that prove an installation in flight: fits and checks.

use crate::engine::protocol::Part;
use crate::engine::task::{Begun, Course, Going, Kinds, kinds};
use coolpath_core::document::design::Design;
use coolpath_core::prove::calibrate::{CalibrateError, Calibration, Outcome, Parameter, Scatter};
use coolpath_core::prove::flights::{Checked, Checking, check_only_windows, with_sick_readings};
use serde::{Deserialize, Serialize};

/// Solutions in one step of a fit.
const SOLUTIONS: usize = 15;

/// A few assumptions found from a design's readings.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Fit {
    /// The design.
    pub design: Design,
    /// What is found.
    pub free: Vec<Parameter>,
    /// How far its readings may be off.
    pub scatter: Scatter,
}

impl Course for Fit {
    type Kind = FlightWork;
    type Going = Calibration;

    fn begin(&self) -> Result<Calibration, String> {
        let marked = with_sick_readings(&self.design);
        Calibration::new(&marked, &self.free, self.scatter).map_err(|error| error.to_string())
    }
}

impl Going for Calibration {
    type Found = Outcome;

    fn progress(&self) -> (usize, usize) {
        Self::progress(self)
    }

    fn advance(&mut self) -> Result<Option<Outcome>, String> {
        if Self::advance(self, SOLUTIONS) {
            return Ok(None);
        }
        let outcome = self.outcome().unwrap_or(Err(CalibrateError::NotSettled));
        outcome.map(Some).map_err(|error| error.to_string())
    }
}

/// What a design's readings say of those that it is only checked on.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Check {
    /// The design.
    pub design: Design,
}

impl Course for Check {
    type Kind = FlightWork;
    type Going = Option<Checking>;

    fn begin(&self) -> Result<Option<Checking>, String> {
        let windows = check_only_windows(&self.design);
        let begun = Checking::new(&self.design, &[], &windows);
        begun.map(Some).map_err(|error| error.to_string())
    }
}

/// Nothing is left of it once it is done.
impl Going for Option<Checking> {
    type Found = Checked;

    fn progress(&self) -> (usize, usize) {
        self.as_ref().map_or((0, 0), Checking::progress)
    }

    fn advance(&mut self) -> Result<Option<Checked>, String> {
        let is_under_way = self.as_mut().is_some_and(|check| check.advance(SOLUTIONS));
        if is_under_way {
            return Ok(None);
        }
        let found = self.take().map(Checking::outcome).transpose();
        found.map_err(|error| error.to_string())
    }
}

kinds! {
    /// Work after a flight, as it is told a worker.
    FlightWork in Flights:
    /// A fit.
    Fit begins Course,
    /// A check on readings that the fit has not seen.
    Check begins Course,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::protocol::{Question, Said};
    use crate::engine::serve::answer;
    use coolpath_core::document::example;
    use coolpath_core::document::quantity::Quantity;
    use coolpath_core::document::reading::{Reading, Values};
    use coolpath_core::prove::calibrate::usual_choice;
    use coolpath_core::units::si::{degf, knot};
    use std::fmt::Debug;

    /// A cruise whose hottest head reads so much, °F.
    fn reading(set: &str, oat_degf: f64, head_degf: f64) -> Reading {
        let values: Values = [
            (Quantity::PowerShare, 0.75),
            (Quantity::Rpm, 2500.0),
            (Quantity::Airspeed, knot(130.0)),
            (Quantity::Altitude, 1500.0),
            (Quantity::Oat, degf(oat_degf)),
            (Quantity::HEADS[0], degf(head_degf)),
            (Quantity::HEADS[1], degf(head_degf - 10.0)),
            (Quantity::Oil, degf(0.5 * head_degf)),
        ]
        .into_iter()
        .collect();
        Reading {
            set: set.to_owned(),
            ..Reading::steady(set, values)
        }
    }

    fn flown() -> Design {
        let mut design = example::design();
        design.readings = vec![
            reading("old", 60.0, 380.0),
            reading("new", 70.0, 370.0),
            Reading {
                check_only: true,
                log: "b.csv".to_owned(),
                ..reading("other", 50.0, 375.0)
            },
            Reading::steady("empty", Values::new()),
        ];
        design
    }

    /// What a worker says at last that is asked for two steps each time, and what it said how far it was.
    fn asked<C: Course<Kind = FlightWork>>(course: C) -> (Said, Vec<(usize, usize)>) {
        let work = serde_json::to_string::<FlightWork>(&course.into()).expect("a text");
        let (mut from, mut told) = (0, Vec::new());
        loop {
            let said = answer::<FlightWork>(&Question {
                part: Part::Flights,
                work: work.clone(),
                from,
                to: from + 2,
            });
            let Said::Progress(done, all) = said else {
                return (said, told);
            };
            from = done;
            told.push((done, all));
        }
    }

    /// That a worker finds what the page finds by itself, to the bit; and how far it said that it was.
    fn same<C>(course: &C) -> Vec<(usize, usize)>
    where
        C: Course<Kind = FlightWork> + Clone,
        <C::Going as Going>::Found: Debug,
    {
        let mut going = course.begin().expect("readings");
        let own = loop {
            if let Some(found) = Going::advance(&mut going).expect("an end") {
                break found;
            }
        };
        let (said, told) = asked(course.clone());
        let Said::Found(text) = said else {
            panic!("{said:?}");
        };
        let found: <C::Going as Going>::Found =
            serde_json::from_str(&text).expect("what was written");
        assert_eq!(format!("{found:?}"), format!("{own:?}"));
        told
    }

    #[test]
    fn a_fit_is_told_to_the_bit_and_first_counts_what_it_tries_then_what_it_considers() {
        let design = flown();
        let told = same(&Fit {
            free: usual_choice(&design),
            design,
            scatter: Scatter::default(),
        });
        let fitting = told.iter().take_while(|(_, all)| *all == 0).count();
        assert!(fitting > 1 && fitting + 5 < told.len(), "{told:?}");
        for part in [&told[..fitting], &told[fitting..]] {
            assert!(part.is_sorted_by(|one, next| one.0 < next.0 && one.1 == next.1));
        }
    }

    #[test]
    fn a_check_is_told_to_the_bit() {
        same(&Check { design: flown() });
    }

    #[test]
    fn what_cannot_be_fitted_is_refused_with_the_words_of_the_page() {
        let mut design = flown();
        design.readings.truncate(0);
        let fit = Fit {
            free: usual_choice(&design),
            design,
            scatter: Scatter::default(),
        };
        let own = fit.begin().expect_err("no readings");
        assert_eq!(asked(fit).0, Said::Refused(own));
    }
}
