//! A sizing from question to answer: the nominal size, then the one with allowances for what is not
//! known, in the page's own order.

use crate::batch::args::Find;
use coolpath_core::answer::band::bands;
use coolpath_core::answer::evaluate::evaluate;
use coolpath_core::answer::verdict::{DEFAULT_CHANCE, judge};
use coolpath_core::decide::size;
use coolpath_core::decide::size::{Allowance, Bounds, Demand, FlapSize, Found, Remedy, SizeError};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::areas::resized;
use coolpath_core::document::limits::LimitChoice;

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Question {
    /// What is sought.
    pub find: Find,
    /// Bounds of both openings, locked ones with equal ends.
    pub bounds: Bounds,
    /// Chance with which each limit is to be held [-].
    pub chance: f64,
    /// Least pressure across the baffles in flight, Pa.
    pub least_drop_pa: f64,
    /// Velocity ratio [-] and the place of its condition.
    pub ratio: (f64, usize),
}

/// A size.
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
            Self::Flap(flap) => flap.design.clone(),
        }
    }
}

/// What was found.
#[derive(Debug, Clone, PartialEq)]
pub struct Sizing {
    /// The size by the best estimate.
    pub nominal: Result<Sized, SizeError>,
    /// The size that holds each limit with the chance; `None` where no limit was asked about.
    pub robust: Option<Result<Sized, SizeError>>,
    /// What else would mend a size that is out of reach, the largest gain first.
    pub remedies: Vec<Remedy>,
}

/// The answer to a question.
#[must_use]
pub fn sizing(design: &Design, question: &Question) -> Sizing {
    let none = vec![Allowance::default(); design.conditions.len()];
    let demand = question.demand(none);
    let nominal = question.sized(design, &demand, &question.bounds);
    let mut found = Sizing {
        remedies: remedies(design, &nominal, &demand),
        nominal,
        robust: None,
    };
    // A velocity ratio asks nothing of the limits.
    if question.find != Find::Ratio {
        found.hold(design, question, question.bounds);
        let mut bounds = question.bounds;
        // The inlets are settled; the exit follows the spread.
        if let (Find::Both | Find::Inlets, Some(Ok(Sized::Openings(openings)))) =
            (question.find, &found.robust)
        {
            bounds.inlets_m2 = (openings.inlets_m2, openings.inlets_m2);
        }
        // A larger opening has another spread: once more, at the robust size.
        found.hold(design, question, bounds);
    }
    found
}

impl Question {
    fn demand(&self, allowances: Vec<Allowance>) -> Demand {
        Demand {
            allowances,
            least_drop_pa: self.least_drop_pa,
            limits: LimitChoice::default(),
        }
    }

    fn sized(&self, design: &Design, demand: &Demand, bounds: &Bounds) -> Result<Sized, SizeError> {
        let openings =
            |found: Result<Found, SizeError>| found.map(|found| Sized::Openings(Box::new(found)));
        match self.find {
            Find::Exit => openings(size::smallest_exit(design, demand, bounds.exit_m2)),
            Find::Both | Find::Inlets => openings(size::least_drag(design, demand, bounds)),
            Find::Ratio => openings(size::inlets_for_velocity_ratio(
                design,
                self.ratio.1,
                self.ratio.0,
                bounds.inlets_m2,
            )),
            Find::Flap => {
                size::flap(design, demand, bounds.exit_m2).map(|flap| Sized::Flap(Box::new(flap)))
            }
        }
    }
}

impl Sizing {
    /// The size found last, the robust one first.
    #[must_use]
    pub fn best(&self) -> Option<&Sized> {
        let robust = self.robust.as_ref().and_then(|robust| robust.as_ref().ok());
        robust.or(self.nominal.as_ref().ok())
    }

    /// Finds the robust size with the allowances at the size found last; at the present one if there
    /// is none.
    fn hold(&mut self, design: &Design, question: &Question, bounds: Bounds) {
        let base = self
            .best()
            .map_or_else(|| design.clone(), |sized| sized.applied(design));
        let places = 0..design.conditions.len();
        // Every condition is looked at, and the last one without an allowance is named.
        let mut allowances = Vec::new();
        let mut open = None;
        for place in places {
            match size::allowance(&base, place, question.chance) {
                Ok(allowance) => allowances.push(allowance),
                Err(error) => open = Some(error),
            }
        }
        if let Some(error) = open {
            self.robust = Some(Err(error));
            return;
        }
        let demand = question.demand(allowances);
        let robust = question.sized(design, &demand, &bounds);
        if self.remedies.is_empty() {
            self.remedies = remedies(design, &robust, &demand);
        }
        self.robust = Some(robust);
    }
}

/// What would mend a size that is out of reach, tried at its best permitted openings.
fn remedies(design: &Design, sized: &Result<Sized, SizeError>, demand: &Demand) -> Vec<Remedy> {
    let Err(SizeError::OutOfReach {
        inlets_m2, exit_m2, ..
    }) = sized
    else {
        return Vec::new();
    };
    let mut best = design.clone();
    best.installation = resized(&design.installation, *inlets_m2, *exit_m2);
    size::remedies(&best, demand).unwrap_or_default()
}

/// Least chance over the conditions that both limits hold, from the bands.
#[must_use]
pub fn least_chance(design: &Design) -> f64 {
    let chance = |place| {
        let answer = evaluate(design, place).ok()?;
        let bands = bands(design, place).ok()?;
        let judged = judge(
            &design.installation,
            &answer,
            Some(&bands),
            None,
            DEFAULT_CHANCE,
        );
        judged.chance_inside.map(|chance| chance.share)
    };
    (0..design.conditions.len())
        .map(|place| chance(place).unwrap_or(0.0))
        .fold(1.0, f64::min)
}
