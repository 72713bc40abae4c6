//! A sizing from question to answer, in steps: the nominal size, then the one with allowances for
//! what is not known, at its own spread.

use crate::decide::size::chance::{chance_inside, chance_of_each};
use crate::decide::size::least_drag::LeastDrag;
use crate::decide::size::{
    Allowance, Bounds, Demand, FlapSize, Found, Margin, Remedy, SizeError, TurnAround, allowance,
    flap, inlets_for_velocity_ratio, remedies, smallest_exit, turn_around_margin,
};
use crate::document::design::Design;
use crate::document::installation::areas::resized;
use crate::document::limits::LimitChoice;
use serde::{Deserialize, Serialize};
use std::collections::VecDeque;

/// What is sought.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
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
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Question {
    /// What is sought.
    pub seek: Seek,
    /// Bounds of both openings, locked ones with equal ends.
    pub bounds: Bounds,
    /// Chance with which both limits are to be held in each condition [-].
    pub chance: f64,
    /// Least pressure across the baffles in flight, Pa.
    pub least_drop_pa: f64,
    /// Inlet velocity ratio [-], if that is sought.
    pub ratio: f64,
    /// Place of the condition that it is meant for.
    pub ratio_condition: usize,
    /// A turn-around that must hold the limits too; a velocity ratio asks nothing of it.
    pub turn_around: Option<TurnAround>,
}

/// A size.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
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
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Sizes {
    /// The size by the best estimate.
    pub nominal: Result<Sized, SizeError>,
    /// The size that holds both limits with the chance; `None` until it is computed, and where no limit
    /// was asked about.
    pub robust: Option<Result<Sized, SizeError>>,
    /// Least chance over the conditions that both limits hold at the nominal size.
    pub nominal_chance: f64,
    /// The same at the size with allowances.
    pub robust_chance: f64,
    /// The same with the openings as they are.
    pub present_chance: f64,
    /// How the turn-around stands at the nominal size, if it was asked about.
    pub nominal_turn_around: Option<Margin>,
    /// The same at the size with allowances, which it has too.
    pub robust_turn_around: Option<Margin>,
    /// What else would mend a size that is out of reach, the largest gain first; why that is not known.
    pub remedies: Result<Vec<Remedy>, SizeError>,
}

impl Sizes {
    /// Nothing yet but the nominal size.
    fn nominally(nominal: Result<Sized, SizeError>) -> Self {
        Self {
            nominal,
            robust: None,
            nominal_chance: 1.0,
            robust_chance: 1.0,
            present_chance: 1.0,
            nominal_turn_around: None,
            robust_turn_around: None,
            remedies: Ok(Vec::new()),
        }
    }

    /// What else would mend a size, as far as it is known.
    #[must_use]
    pub fn helping(&self) -> &[Remedy] {
        self.remedies.as_deref().unwrap_or_default()
    }

    /// The size found last, the robust one first.
    #[must_use]
    pub fn best(&self) -> Option<&Sized> {
        let robust = self.robust.as_ref().and_then(|robust| robust.as_ref().ok());
        robust.or(self.nominal.as_ref().ok())
    }
}

/// Which of the three sizes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Round {
    /// By the best estimate.
    Nominal,
    /// With allowances for the spread at the nominal size.
    Robust,
    /// Once more with those for the spread at the size found last, which is another, until the chance of
    /// both limits together is the wanted one.
    Settled,
}

/// Most rounds in which a size settles; two are enough for nearly all.
const MOST_SETTLING: usize = 4;

/// A piece of the work, short enough for a page to answer after it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Step {
    /// A condition's allowance at the size found last.
    Allow(Round, usize),
    /// A piece of a search.
    Search(Round),
    /// What would fix a size that is out of reach.
    Remedy(Round),
    /// A condition's chance at the size found last.
    Judge(usize),
}

/// A sizing under way.
pub struct Sizing {
    design: Design,
    question: Question,
    /// For each condition, until one has none.
    allowances: Vec<Allowance>,
    /// Chance for each limit by itself, in each condition.
    each: Vec<f64>,
    /// Chances of both together, in the conditions that were judged since the last search.
    judged: Vec<f64>,
    /// Rounds in which the size settled.
    settling: usize,
    /// Why a condition has no allowance.
    open: Option<SizeError>,
    search: Option<LeastDrag>,
    /// The round whose search counts the turn-around, since its size for steady flight does not hold it.
    turning: Option<Round>,
    plan: VecDeque<Step>,
    done: usize,
    found: Option<Sizes>,
}

impl Sizing {
    /// A sizing of a checked design.
    #[must_use]
    pub fn new(design: Design, question: Question) -> Self {
        Self {
            plan: plan(design.conditions.len(), question.seek),
            each: vec![question.chance; design.conditions.len()],
            judged: Vec::new(),
            settling: 1,
            design,
            question,
            allowances: Vec::new(),
            open: None,
            search: None,
            turning: None,
            done: 0,
            found: None,
        }
    }

    /// Steps done and steps in all, as far as is known.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        (self.done, self.done + self.plan.len())
    }

    /// What has been found; `None` before the nominal size is.
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
    ///     turn_around: None,
    /// };
    /// let found = Sizing::new(design.clone(), question).finished();
    /// let sized = found.nominal.expect("a size").applied(&design);
    /// let margin_k = |design| evaluate(design, 1).expect("an answer").head_margin.value;
    /// assert!(margin_k(&design) < 0.0 && margin_k(&sized) > -0.01);
    /// ```
    #[must_use]
    pub fn finished(mut self) -> Sizes {
        while self.advance() {}
        self.found
            .unwrap_or_else(|| Sizes::nominally(Err(SizeError::Bounds)))
    }

    /// Does one step; false when all is done.
    pub fn advance(&mut self) -> bool {
        let Some(step) = self.plan.pop_front() else {
            return false;
        };
        self.done += 1;
        match step {
            Step::Search(round) => self.search(round),
            Step::Remedy(round) => self.remedy(round),
            Step::Allow(round, place) => self.allow(place, round),
            Step::Judge(place) => self.judge(place),
        }
        !self.plan.is_empty()
    }

    /// The size with allowances, if there is one.
    fn robust(&self) -> Option<&Sized> {
        self.found.as_ref()?.robust.as_ref()?.as_ref().ok()
    }

    /// The design with the size found last, or as it is.
    fn best(&self) -> Design {
        let best = self.found.as_ref().and_then(Sizes::best);
        best.map_or_else(|| self.design.clone(), |sized| sized.applied(&self.design))
    }

    /// Nothing asks for allowances, or one of them cannot be had.
    fn is_without_allowances(&self) -> bool {
        self.question.seek == Seek::Ratio || self.open.is_some()
    }

    fn demand(&self, round: Round) -> Demand {
        Demand {
            allowances: match round {
                Round::Nominal => vec![Allowance::default(); self.design.conditions.len()],
                Round::Robust | Round::Settled => self.allowances.clone(),
            },
            least_drop_pa: self.question.least_drop_pa,
            limits: LimitChoice::default(),
            turn_around: self
                .question
                .turn_around
                .clone()
                .filter(|_| self.turning == Some(round)),
        }
    }

    /// Takes a search one piece further.
    fn search(&mut self, round: Round) {
        if round != Round::Nominal && self.is_without_allowances() {
            // Without an allowance no size can be promised.
            if let Some(error) = self.open.clone() {
                self.searched(round, Err(error));
            }
            return;
        }
        if let Some(sized) = self.sized(round) {
            self.searched(round, sized);
        }
    }

    /// What a search found, once it ends.
    fn sized(&mut self, round: Round) -> Option<Result<Sized, SizeError>> {
        let (design, demand) = (&self.design, &self.demand(round));
        let bounds = &self.question.bounds;
        Some(match self.question.seek {
            Seek::Exit => smallest_exit(design, demand, bounds.exit_m2).map(openings),
            Seek::Both => {
                let begin = || LeastDrag::new(design, demand, bounds);
                let search = self.search.get_or_insert_with(begin);
                let found = search.advance()?;
                self.search = None;
                found.map(openings)
            }
            Seek::Ratio => inlets_for_velocity_ratio(
                design,
                self.question.ratio_condition,
                self.question.ratio,
                bounds.inlets_m2,
            )
            .map(openings),
            Seek::Flap => {
                flap(design, demand, bounds.exit_m2).map(|flap| Sized::Flap(Box::new(flap)))
            }
        })
    }

    /// Keeps what a search found; pieces of it that are left are not needed. Where the turn-around is not
    /// held by it, all of it is searched once more with the turn-around.
    fn searched(&mut self, round: Round, sized: Result<Sized, SizeError>) {
        self.plan.retain(|step| *step != Step::Search(round));
        let (sized, turned) = match self.turned(round, &sized) {
            None => (sized, None),
            Some(Err(error)) => (Err(error), None),
            Some(Ok(margin)) if margin.by < 0.0 && self.turning != Some(round) => {
                self.turning = Some(round);
                for _ in 0..pieces(self.question.seek) {
                    self.plan.push_front(Step::Search(round));
                }
                return;
            }
            Some(Ok(margin)) => (sized, Some(margin)),
        };
        match (round, &mut self.found) {
            (Round::Nominal, _) => {
                let mut found = Sizes::nominally(sized);
                found.nominal_turn_around = turned;
                self.found = Some(found);
            }
            // What was found before is better than nothing.
            _ if self.settling > 1 && sized.is_err() => self.plan.clear(),
            (_, Some(found)) => {
                found.robust = Some(sized);
                found.robust_turn_around = turned;
            }
            (_, None) => {}
        }
    }

    /// How the turn-around stands at a size, if there is one and it is asked about.
    fn turned(
        &self,
        round: Round,
        sized: &Result<Sized, SizeError>,
    ) -> Option<Result<Margin, SizeError>> {
        let sized = sized.as_ref().ok()?;
        if self.question.seek == Seek::Ratio {
            return None;
        }
        let demand = Demand {
            turn_around: Some(self.question.turn_around.clone()?),
            ..self.demand(round)
        };
        Some(turn_around_margin(&sized.applied(&self.design), &demand))
    }

    /// Adds what would fix the size found last, tried at its best permitted openings, if it is out of
    /// reach and nothing is known yet.
    fn remedy(&mut self, round: Round) {
        let is_asked = round == Round::Nominal || !self.is_without_allowances();
        let demand = self.demand(round);
        if let Some(found) = &mut self.found
            && is_asked
            && found.helping().is_empty()
            && let Err(SizeError::OutOfReach {
                inlets_m2, exit_m2, ..
            }) = found.robust.as_ref().unwrap_or(&found.nominal)
        {
            let mut best = self.design.clone();
            best.installation = resized(&best.installation, *inlets_m2, *exit_m2);
            found.remedies = remedies(&best, &demand);
        }
        if round == Round::Robust && self.robust().is_none() {
            // Nothing to look at once more.
            self.plan.clear();
        }
    }

    /// Adds the allowance of a condition at the size found last, or at the openings as they are.
    fn allow(&mut self, place: usize, round: Round) {
        let base = self.best();
        let chance = chance_inside(&base, place);
        if round == Round::Settled {
            self.each[place] = chance_of_each(
                self.question.chance,
                self.each[place],
                chance,
                self.settling - 1,
            );
        }
        if place == 0 {
            self.allowances.clear();
            self.open = None;
        }
        // A velocity ratio asks nothing of the limits.
        if self.question.seek != Seek::Ratio {
            match allowance(&base, place, self.each[place]) {
                Ok(allowance) => self.allowances.push(allowance),
                Err(error) => self.open = Some(error),
            }
        }
        if let Some(found) = self.found.as_mut().filter(|_| round == Round::Robust) {
            found.nominal_chance = found.nominal_chance.min(chance);
            let present = chance_inside(&self.design, place);
            found.present_chance = found.present_chance.min(present);
        }
    }

    /// Counts the chance of a condition at the size with allowances; after the last one the size settles
    /// once more if the least chance is not the wanted one.
    fn judge(&mut self, place: usize) {
        let Some(sized) = self.robust() else { return };
        let chance = chance_inside(&sized.applied(&self.design), place);
        if place == 0 {
            self.judged.clear();
        }
        self.judged.push(chance);
        let conditions = self.design.conditions.len();
        let (Some(found), true) = (&mut self.found, place + 1 == conditions) else {
            return;
        };
        found.robust_chance = self.judged.iter().copied().fold(1.0, f64::min);
        let is_asked = self.question.seek != Seek::Ratio;
        if is_asked && found.robust_chance < self.question.chance && self.settling < MOST_SETTLING {
            self.settling += 1;
            self.plan
                .extend(round(Round::Settled, conditions, self.question.seek));
            self.plan.extend((0..conditions).map(Step::Judge));
        }
    }
}

fn openings(found: Found) -> Sized {
    Sized::Openings(Box::new(found))
}

/// Pieces of one search.
fn pieces(seek: Seek) -> usize {
    match seek {
        Seek::Both => LeastDrag::MOST_STEPS,
        Seek::Exit | Seek::Ratio | Seek::Flap => 1,
    }
}

/// Steps of a sizing in so many conditions.
///
/// The nominal size and what would fix it; allowances at that size, the size that holds with them, what
/// would fix that; since a larger opening has another spread, all of it once more at the robust size;
/// then the chances there, after which it may settle again.
fn plan(conditions: usize, seek: Seek) -> VecDeque<Step> {
    let rounds = [Round::Nominal, Round::Robust, Round::Settled];
    rounds
        .into_iter()
        .flat_map(|which| round(which, conditions, seek))
        .chain((0..conditions).map(Step::Judge))
        .collect()
}

/// Steps of one round.
fn round(which: Round, conditions: usize, seek: Seek) -> impl Iterator<Item = Step> {
    let allowed = if which == Round::Nominal {
        0
    } else {
        conditions
    };
    (0..allowed)
        .map(move |place| Step::Allow(which, place))
        .chain(std::iter::repeat_n(Step::Search(which), pieces(seek)))
        .chain([Step::Remedy(which)])
}
