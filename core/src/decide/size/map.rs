//! A sizing with the map of what sizes around it give.

use crate::decide::size::course::{Question, Sizes, Sizing};
use crate::decide::size::{Bounds, Spot, spots};
use crate::document::design::Design;
use crate::document::installation::areas::{exit_m2, inlets_m2};
use serde::{Deserialize, Serialize};

/// What is found at a grid of areas, SI.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Grid {
    /// Inlet areas, m².
    pub inlets_m2: Vec<f64>,
    /// Exit areas, m².
    pub exits_m2: Vec<f64>,
    /// What they give, one row per inlet area; `None` where a condition has no answer.
    pub spots: Vec<Vec<Option<Spot>>>,
}

/// A point to mark: inlet and exit area, m².
pub type Point = (f64, f64);

/// What of a spot is drawn; `None` where it is not known.
pub type Quantity = fn(&Spot) -> Option<f64>;

impl Grid {
    /// A quantity at the crossing of a row and a column.
    #[must_use]
    pub fn at(&self, row: usize, column: usize, of: Quantity) -> Option<f64> {
        of(self.spots.get(row)?.get(column)?.as_ref()?)
    }

    /// All values of a quantity.
    pub fn values(&self, of: Quantity) -> impl Iterator<Item = f64> + '_ {
        self.spots.iter().flatten().flatten().filter_map(of)
    }

    /// A quantity between the grid's lines, where all four corners about the point have it.
    #[must_use]
    pub fn between(&self, (inlets, exit): Point, of: Quantity) -> Option<f64> {
        let cell = |list: &[f64], value: f64| {
            let last = list.len().checked_sub(2)?;
            let at = list.partition_point(|known| *known <= value);
            let at = at.saturating_sub(1).min(last);
            let share = (value - list[at]) / (list[at + 1] - list[at]);
            (-1e-9..=1.0 + 1e-9).contains(&share).then_some((at, share))
        };
        let (row, down) = cell(&self.inlets_m2, inlets)?;
        let (column, across) = cell(&self.exits_m2, exit)?;
        let corner = |r: usize, c: usize| self.at(row + r, column + c, of);
        let mix = |from: f64, to: f64, share: f64| from + share * (to - from);
        let low = mix(corner(0, 0)?, corner(0, 1)?, across);
        let high = mix(corner(1, 0)?, corner(1, 1)?, across);
        Some(mix(low, high, down))
    }
}

/// What has been found so far.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Report {
    /// The sizes.
    pub sizes: Sizes,
    /// What both areas give.
    pub grid: Grid,
    /// Bounds that were asked for.
    pub bounds: Bounds,
    /// Chance that was asked for [-].
    pub chance: f64,
}

/// Lines of the grid each way.
pub const LINES: usize = 13;

/// A sizing under way, and the picture after it.
pub struct Mapping {
    design: Design,
    bounds: Bounds,
    chance: f64,
    sizing: Sizing,
    grid: Grid,
}

impl Mapping {
    /// A sizing of a checked design, with a map of sizes after it.
    #[must_use]
    pub fn new(design: Design, question: Question) -> Self {
        Self {
            bounds: question.bounds,
            chance: question.chance,
            sizing: Sizing::new(design.clone(), question),
            design,
            grid: Grid::default(),
        }
    }

    /// Steps done and steps in all.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        let (done, all) = self.sizing.progress();
        (done + self.grid.inlets_m2.len(), all + LINES)
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
            chance: self.chance,
        }
    }

    fn grid_row(&mut self) -> bool {
        let row = self.grid.inlets_m2.len();
        if row == LINES {
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
            let last = (LINES - 1) as f64;
            // By equal factors: lines bend most where openings are small.
            let at = |place: usize| least * libm::pow(most / least, place as f64 / last);
            (0..LINES)
                .map(|place| if place + 1 == LINES { most } else { at(place) })
                .collect()
        };
        let (inlets, exits) = (list(about(inlets_m2, own.0)), list(about(exit_m2, own.1)));
        let spots = spots(&self.design, inlets[row], &exits);
        self.grid.inlets_m2.push(inlets[row]);
        self.grid.exits_m2 = exits;
        self.grid.spots.push(spots);
        row + 1 < LINES
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::verdict::DEFAULT_CHANCE;
    use crate::decide::size::course::{Seek, Sized};
    use crate::decide::size::{SizeError, USUAL_VELOCITY_RATIO};
    use crate::document::example;

    /// The example with the propeller's share known, without any of which the ground run has no answer, and its mixture.
    fn known_share() -> Design {
        let mut design = example::design();
        for known in ["airframe.propeller_share", "engine.full_rich_phi"] {
            design.measured.push(known.to_owned());
        }
        design
    }

    fn question(design: &Design, seek: Seek) -> Question {
        Question {
            seek,
            bounds: Bounds::usual(&design.installation),
            chance: DEFAULT_CHANCE,
            least_drop_pa: 0.0,
            ratio: USUAL_VELOCITY_RATIO,
            ratio_condition: 3,
            turn_around: None,
        }
    }

    fn done(seek: Seek) -> Report {
        done_with(known_share(), seek)
    }

    fn done_with(design: Design, seek: Seek) -> Report {
        let question = question(&design, seek);
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
        let question = Question {
            chance: 0.7,
            ..question(&design, Seek::Both)
        };
        let report = Mapping::new(design, question).finished();
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
