//! A size that is taken over.

use crate::state::Action;
use coolpath_core::decide::size::course::Sized;
use coolpath_core::document::design::Design;

/// Takes a size over: texts of all fields that it does not change stay.
#[must_use]
pub fn taken(sized: &Sized, design: &Design) -> Action {
    Action::Adjust(Box::new(sized.applied(design)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decide::size::request::Request;
    use coolpath_core::decide::size::SizeError;
    use coolpath_core::decide::size::course::Seek;
    use coolpath_core::decide::size::map::{LINES, Mapping, Report};
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
        let mut job = Mapping::new(design, question);
        while job.advance() {}
        assert_eq!(job.progress().0, job.progress().1);
        job.finished()
    }

    #[test]
    fn every_question_ends_with_a_report_and_a_whole_grid() {
        for seek in [Seek::Exit, Seek::Ratio, Seek::Both, Seek::Flap] {
            let report = done(seek);
            assert_eq!(report.grid.spots.len(), LINES);
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
        let report = Mapping::new(design.clone(), question).finished();
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
        assert!(!report.sizes.helping().is_empty());
    }
}
