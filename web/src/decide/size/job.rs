//! The sizing in steps short enough for the page to answer in between.

use crate::charts::contour::Grid;
use crate::decide::size::request::{Ask, Numbers};
use crate::kit::verdict;
use crate::state::Action;
use coolpath_core::answer::band::bands;
use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::decide::size;
use coolpath_core::decide::size::{Allowance, Bounds, Demand, FlapSize, Found, Remedy, SizeError};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::areas::exit_m2;
use coolpath_core::document::installation::areas::inlets_m2;
use coolpath_core::document::installation::areas::resized;
use coolpath_core::document::limits::LimitChoice;

/// A size by either chance.
#[derive(Debug, Clone, PartialEq)]
pub enum Sized {
    /// Fixed openings.
    Openings(Box<Found>),
    /// A cowl flap.
    Flap(Box<FlapSize>),
}

impl Sized {
    /// The design with this size.
    #[must_use]
    pub fn applied(&self, design: &Design) -> Design {
        match self {
            Self::Openings(found) => Design {
                installation: found.installation.clone(),
                ..design.clone()
            },
            Self::Flap(flap) => Design {
                installation: flap.design.installation.clone(),
                conditions: flap.design.conditions.clone(),
                ..design.clone()
            },
        }
    }

    /// Takes this size over: texts of all fields that it does not change stay.
    #[must_use]
    pub fn taken(&self, design: &Design) -> Action {
        Action::Adjust(Box::new(self.applied(design)))
    }
}

/// What has been found so far.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// The nominal size.
    pub nominal: Result<Sized, SizeError>,
    /// The size with allowances; `None` until it is computed.
    pub robust: Option<Result<Sized, SizeError>>,
    /// Least chance over the conditions that both limits hold at the nominal size.
    pub nominal_chance: f64,
    /// The same at the size with allowances.
    pub robust_chance: f64,
    /// What would fix the size that is out of reach.
    pub remedies: Vec<Remedy>,
    /// Hottest heads over both areas.
    pub grid: Grid,
}

/// Lines of the contour's grid each way.
const GRID: usize = 14;

/// A sizing under way.
pub struct Job {
    design: Design,
    ask: Ask,
    numbers: Numbers,
    condition: usize,
    allowances: Vec<Allowance>,
    /// Why a condition has no allowance.
    open: Option<SizeError>,
    step: usize,
    /// What has been found so far.
    pub report: Option<Report>,
}

impl Job {
    /// A sizing of a checked design.
    #[must_use]
    pub fn new(design: Design, ask: Ask, numbers: Numbers, condition: usize) -> Self {
        Self {
            design,
            ask,
            numbers,
            condition,
            allowances: Vec::new(),
            open: None,
            step: 0,
            report: None,
        }
    }

    /// Steps done and steps in all.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        (self.step, 3 + 2 * self.design.conditions.len() + GRID)
    }

    fn demand(&self, allowances: Vec<Allowance>) -> Demand {
        Demand {
            allowances,
            least_drop_pa: self.numbers.least_drop_pa,
            limits: LimitChoice::default(),
        }
    }

    fn sized_within(&self, demand: &Demand, ask: Ask, bounds: &Bounds) -> Result<Sized, SizeError> {
        let openings =
            |found: Result<Found, SizeError>| found.map(|found| Sized::Openings(Box::new(found)));
        match ask {
            Ask::Exit => openings(size::smallest_exit(&self.design, demand, bounds.exit_m2)),
            Ask::Both => openings(size::least_drag(&self.design, demand, bounds)),
            Ask::Ratio => openings(size::inlets_for_velocity_ratio(
                &self.design,
                self.condition,
                self.numbers.ratio,
                bounds.inlets_m2,
            )),
            Ask::Flap => size::flap(&self.design, demand, bounds.exit_m2)
                .map(|flap| Sized::Flap(Box::new(flap))),
        }
    }

    /// Does one step; false when all is done.
    pub fn advance(&mut self) -> bool {
        let conditions = self.design.conditions.len();
        let step = self.step;
        self.step += 1;
        if step == 0 {
            let demand = self.demand(vec![Allowance::default(); conditions]);
            let nominal = self.sized_within(&demand, self.ask, &self.numbers.bounds);
            let remedies = self.remedies_of(&nominal, &demand);
            self.report = Some(Report {
                nominal,
                robust: None,
                nominal_chance: 1.0,
                robust_chance: 1.0,
                remedies,
                grid: Grid::default(),
            });
            return true;
        }
        if step <= conditions {
            // The spread is that of the proposed size; of the present one if there is none.
            self.allow(step - 1);
            return true;
        }
        if step == conditions + 1 {
            self.size_with_allowances(self.ask, self.numbers.bounds);
            return true;
        }
        if step <= 2 * conditions + 1 {
            // A larger opening has another spread: once more, at the robust size.
            if step == conditions + 2 {
                self.allowances.clear();
                self.open = None;
            }
            self.allow(step - conditions - 2);
            return true;
        }
        if step == 2 * conditions + 2 {
            // The inlets are settled; the exit follows the spread.
            let mut bounds = self.numbers.bounds;
            if let (Ask::Both, Some(Ok(Sized::Openings(found)))) = (
                self.ask,
                self.report
                    .as_ref()
                    .and_then(|report| report.robust.as_ref()),
            ) {
                bounds.inlets_m2 = (found.inlets_m2, found.inlets_m2);
            }
            self.size_with_allowances(self.ask, bounds);
            return true;
        }
        self.grid_row(step - 2 * conditions - 3)
    }

    /// Adds the allowance of a condition at the size found last, or as it is.
    fn allow(&mut self, place: usize) {
        let report = self.report.as_ref();
        let found = report
            .and_then(|report| report.robust.as_ref()?.as_ref().ok())
            .or_else(|| report.and_then(|report| report.nominal.as_ref().ok()));
        let base = found.map_or_else(|| self.design.clone(), |sized| sized.applied(&self.design));
        let allowance = size::allowance(&base, place, self.numbers.chance);
        match allowance {
            Ok(allowance) => self.allowances.push(allowance),
            Err(error) => self.open = Some(error),
        }
        let chance = chance(&base, place);
        if let Some(report) = &mut self.report {
            match &report.robust {
                None => report.nominal_chance = report.nominal_chance.min(chance),
                Some(_) => report.robust_chance = report.robust_chance.min(chance),
            }
        }
    }

    fn size_with_allowances(&mut self, ask: Ask, bounds: Bounds) {
        // A velocity ratio asks nothing of the limits.
        if ask == Ask::Ratio {
            return;
        }
        // Without an allowance no size can be promised.
        if let Some(error) = &self.open {
            if let Some(report) = &mut self.report {
                report.robust = Some(Err(error.clone()));
            }
            return;
        }
        let demand = self.demand(self.allowances.clone());
        let robust = self.sized_within(&demand, ask, &bounds);
        let more = self.remedies_of(&robust, &demand);
        if let Some(report) = &mut self.report {
            if report.remedies.is_empty() {
                report.remedies = more;
            }
            report.robust = Some(robust);
        }
    }

    /// What would fix a size that is out of reach, tried at its best permitted openings.
    fn remedies_of(&self, sized: &Result<Sized, SizeError>, demand: &Demand) -> Vec<Remedy> {
        let Err(SizeError::OutOfReach {
            inlets_m2, exit_m2, ..
        }) = sized
        else {
            return Vec::new();
        };
        let mut best = self.design.clone();
        best.installation = resized(&self.design.installation, *inlets_m2, *exit_m2);
        size::remedies(&best, demand).unwrap_or_default()
    }

    fn grid_row(&mut self, row: usize) -> bool {
        let Some(report) = &mut self.report else {
            return false;
        };
        let own = (
            inlets_m2(&self.design.installation),
            exit_m2(&self.design.installation),
        );
        let Bounds { inlets_m2, exit_m2 } = self.numbers.bounds;
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
            (0..GRID)
                .map(|at| least + (most - least) * at as f64 / last)
                .collect()
        };
        let (inlets, exits) = (list(about(inlets_m2, own.0)), list(about(exit_m2, own.1)));
        let heads = size::hottest_heads(&self.design, inlets[row], &exits);
        report.grid.inlets_m2.push(inlets[row]);
        report.grid.exits_m2 = exits;
        report.grid.heads_k.push(heads);
        row + 1 < GRID
    }
}

/// Chance that both limits hold in a condition, the shutter fully open where it holds no oil.
fn chance(design: &Design, place: usize) -> f64 {
    let (Ok(answer), Ok(spread)) = (evaluate(design, place), bands(design, place)) else {
        return 0.0;
    };
    verdict::of(&design.installation, &answer, Some(&spread))
        .chance
        .unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decide::size::request::Request;
    use coolpath_core::document::example;
    use coolpath_core::units::typed::UnitSystem;

    /// The example with the propeller's share known: without any of it the ground run has no answer.
    fn known_share() -> Design {
        let mut design = example::design();
        design.measured.push("airframe.propeller_share".to_owned());
        design
    }

    fn done(ask: Ask) -> Report {
        done_with(known_share(), ask)
    }

    fn done_with(design: Design, ask: Ask) -> Report {
        let numbers = Request::about(&design.installation, UnitSystem::Customary)
            .numbers(&design, UnitSystem::Customary)
            .expect("numbers");
        let mut job = Job::new(design, ask, numbers, 3);
        while job.advance() {}
        assert_eq!(job.progress().0, job.progress().1);
        job.report.expect("a report")
    }

    #[test]
    fn every_question_ends_with_a_report_and_a_whole_grid() {
        for ask in [Ask::Exit, Ask::Ratio, Ask::Both, Ask::Flap] {
            let report = done(ask);
            assert_eq!(report.grid.heads_k.len(), GRID);
            assert_eq!(report.robust.is_none(), ask == Ask::Ratio);
        }
    }

    #[test]
    fn a_range_with_an_end_without_an_answer_gets_no_robust_size_and_is_named() {
        let mut design = example::design();
        // Its range begins at no share, which leaves a ground run without air.
        design.installation.airframe.propeller_share_rest = 0.15;
        // So little air would overheat the example's oil at any size.
        design.installation.oil.heat_share = 0.06;
        let report = done_with(design, Ask::Both);
        assert!(report.nominal.is_ok());
        let Some(Err(error)) = &report.robust else {
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
    fn a_chance_of_seven_in_ten_is_held_by_larger_openings() {
        let design = known_share();
        let request = Request::about(&design.installation, UnitSystem::Customary)
            .with(crate::decide::size::request::Text::Chance, "70".to_owned());
        let numbers = request
            .numbers(&design, UnitSystem::Customary)
            .expect("numbers");
        let mut job = Job::new(design.clone(), Ask::Both, numbers, 3);
        while job.advance() {}
        let report = job.report.expect("a report");
        let openings = |sized: &Result<Sized, SizeError>| match sized {
            Ok(Sized::Openings(found)) => (**found).clone(),
            other => panic!("{other:?}"),
        };
        let (nominal, robust) = (
            openings(&report.nominal),
            openings(&report.robust.expect("a robust size")),
        );
        assert!(robust.inlets_m2 > nominal.inlets_m2 && robust.exit_m2 > nominal.exit_m2);
        // The spread is that of the robust size itself.
        let sized = Sized::Openings(Box::new(robust)).applied(&design);
        let spread = size::allowance(&sized, 1, 0.7).expect("an allowance");
        let margin = size::smallest_exit(
            &sized,
            &Demand {
                allowances: vec![spread; 6],
                least_drop_pa: 0.0,
                limits: LimitChoice::default(),
            },
            (0.5 * exit_m2(&sized.installation), 0.2),
        )
        .expect("it holds");
        let exit = exit_m2(&sized.installation);
        assert!((margin.exit_m2 / exit - 1.0).abs() < 0.02);
    }

    #[test]
    fn the_example_can_be_sized_nominally_and_its_ranges_ask_for_more_than_openings() {
        let report = done(Ask::Both);
        assert!(report.nominal.is_ok());
        assert!(matches!(
            report.robust,
            Some(Err(SizeError::OutOfReach { .. }))
        ));
        assert!(!report.remedies.is_empty());
    }
}
