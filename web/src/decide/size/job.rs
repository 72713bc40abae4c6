//! The sizing in steps short enough for the page to answer in between, and the picture of it.

use crate::charts::contour::Grid;
use crate::state::Action;
use coolpath_core::decide::size;
use coolpath_core::decide::size::Bounds;
use coolpath_core::decide::size::course::{Question, Sized, Sizes, Sizing};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::areas::{exit_m2, inlets_m2};

/// Takes a size over: texts of all fields that it does not change stay.
#[must_use]
pub fn taken(sized: &Sized, design: &Design) -> Action {
    Action::Adjust(Box::new(sized.applied(design)))
}

/// What has been found so far.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// The sizes.
    pub sizes: Sizes,
    /// What both areas give.
    pub grid: Grid,
    /// Bounds that were asked for.
    pub bounds: Bounds,
}

/// Lines of the contour's grid each way.
const GRID: usize = 13;

/// A sizing under way, and the picture after it.
pub struct Job {
    design: Design,
    bounds: Bounds,
    sizing: Sizing,
    grid: Grid,
}

impl Job {
    /// A sizing of a checked design.
    #[must_use]
    pub fn new(design: Design, question: Question) -> Self {
        Self {
            bounds: question.bounds,
            sizing: Sizing::new(design.clone(), question),
            design,
            grid: Grid::default(),
        }
    }

    /// Steps done and steps in all.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        let (done, all) = self.sizing.progress();
        (done + self.grid.inlets_m2.len(), all + GRID)
    }

    /// Does one step; false when all is done.
    pub fn advance(&mut self) -> bool {
        let (done, all) = self.sizing.progress();
        if done < all {
            self.sizing.advance();
            return true;
        }
        self.grid_row()
    }

    /// What was found, once all is done; the steps that are left are done at once.
    #[must_use]
    pub fn finished(mut self) -> Report {
        while self.advance() {}
        Report {
            sizes: self.sizing.finished(),
            grid: self.grid,
            bounds: self.bounds,
        }
    }

    fn grid_row(&mut self) -> bool {
        let row = self.grid.inlets_m2.len();
        if row == GRID {
            return false;
        }
        let own = (
            inlets_m2(&self.design.installation),
            exit_m2(&self.design.installation),
        );
        let Bounds { inlets_m2, exit_m2 } = self.bounds;
        // Locked openings still get a picture about them.
        let about = |(least, most): (f64, f64), own: f64| {
            if most > least {
                (least.min(own), most.max(own))
            } else {
                (0.5 * own, 2.0 * own)
            }
        };
        let list = |(least, most): (f64, f64)| -> Vec<f64> {
            let last = (GRID - 1) as f64;
            // By equal factors: lines bend most where openings are small.
            let at = |place: usize| least * (most / least).powf(place as f64 / last);
            (0..GRID)
                .map(|place| if place + 1 == GRID { most } else { at(place) })
                .collect()
        };
        let (inlets, exits) = (list(about(inlets_m2, own.0)), list(about(exit_m2, own.1)));
        let spots = size::spots(&self.design, inlets[row], &exits);
        self.grid.inlets_m2.push(inlets[row]);
        self.grid.exits_m2 = exits;
        self.grid.spots.push(spots);
        row + 1 < GRID
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decide::size::request::Request;
    use coolpath_core::decide::size::SizeError;
    use coolpath_core::decide::size::course::Seek;
    use coolpath_core::document::example;
    use coolpath_core::units::typed::UnitSystem;

    /// The example with the propeller's share known: without any of it the ground run has no answer.
    fn known_share() -> Design {
        let mut design = example::design();
        design.measured.push("airframe.propeller_share".to_owned());
        design
    }

    fn done(seek: Seek) -> Report {
        done_with(known_share(), seek)
    }

    fn done_with(design: Design, seek: Seek) -> Report {
        let mut request = Request::about(&design.installation, UnitSystem::Customary);
        request.condition = 3;
        let question = request
            .question(seek, &design, UnitSystem::Customary)
            .expect("numbers");
        let mut job = Job::new(design, question);
        while job.advance() {}
        assert_eq!(job.progress().0, job.progress().1);
        job.finished()
    }

    #[test]
    fn every_question_ends_with_a_report_and_a_whole_grid() {
        for seek in [Seek::Exit, Seek::Ratio, Seek::Both, Seek::Flap] {
            let report = done(seek);
            assert_eq!(report.grid.spots.len(), GRID);
            assert_eq!(report.sizes.robust.is_none(), seek == Seek::Ratio);
        }
    }

    #[test]
    fn a_range_with_an_end_without_an_answer_gets_no_robust_size_and_is_named() {
        let mut design = example::design();
        // Its range begins at no share, which leaves a ground run without air.
        design.installation.airframe.propeller_share_rest = 0.15;
        // So little air would overheat the example's oil at any size.
        design.installation.oil.heat_share = 0.06;
        let report = done_with(design, Seek::Both);
        assert!(report.sizes.nominal.is_ok());
        let Some(Err(error)) = &report.sizes.robust else {
            panic!("a robust size in spite of an open range");
        };
        assert!(matches!(error, SizeError::OpenRange { .. }));
        let text = error.to_string();
        assert!(
            text.contains("propeller") && text.contains("Ground run"),
            "{text}"
        );
    }

    #[test]
    fn a_chance_of_seven_in_ten_is_reached_by_larger_openings() {
        let design = known_share();
        let request = Request::about(&design.installation, UnitSystem::Customary)
            .with(crate::decide::size::request::Text::Chance, "70".to_owned());
        let question = request
            .question(Seek::Both, &design, UnitSystem::Customary)
            .expect("numbers");
        let report = Job::new(design.clone(), question).finished();
        let openings = |sized: &Result<Sized, SizeError>| match sized {
            Ok(Sized::Openings(found)) => (**found).clone(),
            other => panic!("{other:?}"),
        };
        let (nominal, robust) = (
            openings(&report.sizes.nominal),
            openings(report.sizes.robust.as_ref().expect("a robust size")),
        );
        assert!(robust.inlets_m2 > nominal.inlets_m2 && robust.exit_m2 > nominal.exit_m2);
        // It leaves nothing on the table, but for the share of the two limits, which is a guess.
        let chance = report.sizes.robust_chance;
        assert!((chance - 0.7).abs() < 0.03, "{chance}");
        assert!(report.sizes.nominal_chance < 0.5);
    }

    #[test]
    fn the_example_can_be_sized_nominally_and_its_ranges_ask_for_more_than_openings() {
        let report = done(Seek::Both);
        assert!(report.sizes.nominal.is_ok());
        assert!(matches!(
            report.sizes.robust,
            Some(Err(SizeError::OutOfReach { .. }))
        ));
        assert!(!report.sizes.remedies.is_empty());
    }
}
