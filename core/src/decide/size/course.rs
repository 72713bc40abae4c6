//! A sizing from question to answer, in steps: the nominal size, then the one with allowances for
//! what is not known, at its own spread.

use crate::answer::band::bands;
use crate::answer::evaluate::evaluate;
use crate::answer::verdict::{DEFAULT_CHANCE, judge};
use crate::decide::size::{
    Allowance, Bounds, Demand, FlapSize, Found, Remedy, SizeError, allowance, flap,
    inlets_for_velocity_ratio, least_drag, remedies, smallest_exit,
};
use crate::document::design::Design;
use crate::document::installation::areas::resized;
use crate::document::limits::LimitChoice;

/// What is sought.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seek {
    /// Smallest exit for the inlets as they are.
    Exit,
    /// Inlets for a velocity ratio, the exit as it is.
    Ratio,
    /// Both for least drag in cruise; a locked one has equal bounds.
    Both,
    /// Closed and open area of a cowl flap.
    Flap,
}

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Question {
    /// What is sought.
    pub seek: Seek,
    /// Bounds of both openings, locked ones with equal ends.
    pub bounds: Bounds,
    /// Chance with which each limit is to be held [-].
    pub chance: f64,
    /// Least pressure across the baffles in flight, Pa.
    pub least_drop_pa: f64,
    /// Inlet velocity ratio [-], if that is sought.
    pub ratio: f64,
    /// Place of the condition that it is meant for.
    pub ratio_condition: usize,
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
    /// The design with this size; names, readings and alternatives are its own.
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
}

/// What has been found so far.
#[derive(Debug, Clone, PartialEq)]
pub struct Sizes {
    /// The size by the best estimate.
    pub nominal: Result<Sized, SizeError>,
    /// The size that holds each limit with the chance; `None` until it is computed, and where no limit
    /// was asked about.
    pub robust: Option<Result<Sized, SizeError>>,
    /// Least chance over the conditions that both limits hold at the nominal size.
    pub nominal_chance: f64,
    /// The same at the size with allowances.
    pub robust_chance: f64,
    /// What else would mend a size that is out of reach, the largest gain first.
    pub remedies: Vec<Remedy>,
}

impl Sizes {
    /// The size found last, the robust one first.
    #[must_use]
    pub fn best(&self) -> Option<&Sized> {
        let robust = self.robust.as_ref().and_then(|robust| robust.as_ref().ok());
        robust.or(self.nominal.as_ref().ok())
    }
}

/// A sizing under way.
pub struct Sizing {
    design: Design,
    question: Question,
    allowances: Vec<Allowance>,
    /// Why a condition has no allowance.
    open: Option<SizeError>,
    step: usize,
    found: Option<Sizes>,
}

impl Sizing {
    /// A sizing of a checked design.
    #[must_use]
    pub fn new(design: Design, question: Question) -> Self {
        Self {
            design,
            question,
            allowances: Vec::new(),
            open: None,
            step: 0,
            found: None,
        }
    }

    /// Steps done and steps in all.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        (self.step, 6 + 3 * self.design.conditions.len())
    }

    /// What has been found; `None` before the first step.
    #[must_use]
    pub fn found(&self) -> Option<&Sizes> {
        self.found.as_ref()
    }

    /// All steps that are left, at once.
    ///
    /// # Example
    /// The example's climb is too hot at first, and the nominal size mends it:
    /// ```
    /// use coolpath_core::answer::evaluate::evaluate;
    /// use coolpath_core::decide::size::course::{Question, Seek, Sizing};
    /// use coolpath_core::decide::size::Bounds;
    /// use coolpath_core::document::example;
    ///
    /// let design = example::design();
    /// let question = Question {
    ///     seek: Seek::Both,
    ///     bounds: Bounds { inlets_m2: (0.014, 0.069), exit_m2: (0.015, 0.094) },
    ///     chance: 0.9,
    ///     least_drop_pa: 0.0,
    ///     ratio: 0.45,
    ///     ratio_condition: 0,
    /// };
    /// let found = Sizing::new(design.clone(), question).finished();
    /// let sized = found.nominal.expect("a size").applied(&design);
    /// let margin_k = |design| evaluate(design, 1).expect("an answer").head_margin.value;
    /// assert!(margin_k(&design) < 0.0 && margin_k(&sized) > -0.01);
    /// ```
    #[must_use]
    pub fn finished(mut self) -> Sizes {
        while self.advance() {}
        let found = self.found.take();
        found.unwrap_or_else(|| self.nominally())
    }

    /// Does one step; false when all is done.
    ///
    /// The nominal size and what would fix it; allowances at that size, the size that holds with them,
    /// what would fix that; since a larger opening has another spread, all of it once more at the robust
    /// size; then the chances there.
    pub fn advance(&mut self) -> bool {
        let conditions = self.design.conditions.len();
        let (step, all) = self.progress();
        if step >= all {
            return false;
        }
        self.step += 1;
        let round = conditions + 2;
        if step == 0 {
            self.found = Some(self.nominally());
        } else if step == 1 {
            self.remedy(&self.nominal_demand());
        } else if step < 2 + 2 * round {
            let (second, within) = (step >= 2 + round, (step - 2) % round);
            if within < conditions {
                if second && within == 0 {
                    self.allowances.clear();
                    self.open = None;
                }
                self.allow(within, second);
            } else if within == conditions {
                self.size_with_allowances(self.bounds(second));
            } else {
                if self.open.is_none() && self.question.seek != Seek::Ratio {
                    self.remedy(&self.demand(self.allowances.clone()));
                }
                if self.robust().is_none() {
                    // Nothing to look at once more.
                    self.step = all;
                }
            }
        } else {
            self.look_at_robust(step - 2 - 2 * round);
        }
        self.step < all
    }

    /// The size with allowances, if there is one.
    fn robust(&self) -> Option<&Sized> {
        self.found.as_ref()?.robust.as_ref()?.as_ref().ok()
    }

    /// Bounds of a search with allowances. In the second the inlets are settled; the exit follows the
    /// spread.
    fn bounds(&self, second: bool) -> Bounds {
        let mut bounds = self.question.bounds;
        if second
            && let (Seek::Both, Some(Sized::Openings(found))) = (self.question.seek, self.robust())
        {
            bounds.inlets_m2 = (found.inlets_m2, found.inlets_m2);
        }
        bounds
    }

    /// Adds what would fix the size found last, if it is out of reach and nothing is known yet.
    fn remedy(&mut self, demand: &Demand) {
        let Some(found) = self
            .found
            .as_ref()
            .filter(|found| found.remedies.is_empty())
        else {
            return;
        };
        let sized = found.robust.as_ref().unwrap_or(&found.nominal);
        let remedies = self.remedies_of(sized, demand);
        if let Some(found) = &mut self.found {
            found.remedies = remedies;
        }
    }

    fn nominal_demand(&self) -> Demand {
        self.demand(vec![Allowance::default(); self.design.conditions.len()])
    }

    /// Counts the chance of a condition at the size with allowances.
    fn look_at_robust(&mut self, place: usize) {
        let Some(sized) = self.robust() else { return };
        let chance = chance_inside(&sized.applied(&self.design), place);
        if let Some(found) = &mut self.found {
            found.robust_chance = found.robust_chance.min(chance);
        }
    }

    fn demand(&self, allowances: Vec<Allowance>) -> Demand {
        Demand {
            allowances,
            least_drop_pa: self.question.least_drop_pa,
            limits: LimitChoice::default(),
        }
    }

    fn sized_within(&self, demand: &Demand, bounds: &Bounds) -> Result<Sized, SizeError> {
        let design = &self.design;
        let openings =
            |found: Result<Found, SizeError>| found.map(|found| Sized::Openings(Box::new(found)));
        match self.question.seek {
            Seek::Exit => openings(smallest_exit(design, demand, bounds.exit_m2)),
            Seek::Both => openings(least_drag(design, demand, bounds)),
            Seek::Ratio => openings(inlets_for_velocity_ratio(
                design,
                self.question.ratio_condition,
                self.question.ratio,
                bounds.inlets_m2,
            )),
            Seek::Flap => {
                flap(design, demand, bounds.exit_m2).map(|flap| Sized::Flap(Box::new(flap)))
            }
        }
    }

    fn nominally(&self) -> Sizes {
        Sizes {
            nominal: self.sized_within(&self.nominal_demand(), &self.question.bounds),
            robust: None,
            nominal_chance: 1.0,
            robust_chance: 1.0,
            remedies: Vec::new(),
        }
    }

    /// Adds the allowance of a condition at the size found last, or as it is.
    fn allow(&mut self, place: usize, second: bool) {
        let best = self.found.as_ref().and_then(Sizes::best);
        let base = best.map_or_else(|| self.design.clone(), |sized| sized.applied(&self.design));
        // A velocity ratio asks nothing of the limits.
        if self.question.seek != Seek::Ratio {
            match allowance(&base, place, self.question.chance) {
                Ok(allowance) => self.allowances.push(allowance),
                Err(error) => self.open = Some(error),
            }
        }
        if let Some(found) = self.found.as_mut().filter(|_| !second) {
            let chance = chance_inside(&base, place);
            found.nominal_chance = found.nominal_chance.min(chance);
        }
    }

    fn size_with_allowances(&mut self, bounds: Bounds) {
        if self.question.seek == Seek::Ratio {
            return;
        }
        // Without an allowance no size can be promised.
        if let Some(error) = &self.open {
            if let Some(found) = &mut self.found {
                found.robust = Some(Err(error.clone()));
            }
            return;
        }
        let demand = self.demand(self.allowances.clone());
        let robust = self.sized_within(&demand, &bounds);
        if let Some(found) = &mut self.found {
            found.robust = Some(robust);
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
        remedies(&best, demand).unwrap_or_default()
    }
}

/// Chance that both limits hold in a condition, from the bands; none without an answer.
fn chance_inside(design: &Design, place: usize) -> f64 {
    let (Ok(answer), Ok(spread)) = (evaluate(design, place), bands(design, place)) else {
        return 0.0;
    };
    let installation = &design.installation;
    judge(installation, &answer, Some(&spread), None, DEFAULT_CHANCE)
        .chance_inside
        .map_or(0.0, |chance| chance.share)
}

/// Least chance over the conditions that both limits hold, from the bands.
#[must_use]
pub fn least_chance(design: &Design) -> f64 {
    (0..design.conditions.len())
        .map(|place| chance_inside(design, place))
        .fold(1.0, f64::min)
}
