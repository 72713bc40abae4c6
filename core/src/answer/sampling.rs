//! Uncertainty by sampling: every assumption drawn from its range, every condition solved.
//!
//! A Latin hypercube: each assumption's distribution is cut into as many slices of equal chance as
//! there are draws, each slice is used once at its middle, and the slices are shuffled. An
//! assumption is taken as two half-normals that meet at its value (the median), so that the ends of
//! its likely range are its 5th and 95th percentiles; what passes the permitted range is held at
//! its end. Assumptions are drawn independently of each other, but for the thermostat, which opens
//! over at least 5 K. Each condition has its own draws of power, airspeed and air, and of the
//! model's own error, those of heads, oil and pressure independent of each other. The same seed
//! gives the same numbers on every machine.
//!
//! # Sources
//! McKay, Beckman, Conover, A Comparison of Three Methods for Selecting Values of Input Variables,
//! Technometrics 21, 1979 (method from memory).

use crate::answer::band::{Band, figures};
use crate::answer::model_error;
use crate::answer::model_error::missed;
use crate::answer::pieces::Pieces;
use crate::answer::solve_condition::{solve_condition, solve_draw};
use crate::answer::solved::{EvaluateError, Solved};
use crate::answer::spread::{Doubt, uncertain, uncertain_in};
use crate::document::design::Design;
use crate::document::limits::LimitChoice;
use crate::document::table::Input;
use crate::math::normal::RANGE_DEVIATIONS;
use crate::math::normal::normal_quantile;
use crate::math::order;
use crate::path::report::SolveError;
use core::ops::Range;

/// Draws that are made unless the builder asks for others.
pub const DEFAULT_DRAWS: usize = 2000;
/// Seed that is used unless the builder asks for another.
pub const DEFAULT_SEED: u64 = 1;

/// What a draw gives in a condition.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drawn {
    /// Hottest head, K.
    pub head: f64,
    /// Oil at the gauge, K.
    pub oil: f64,
    /// Pressure across the baffles, Pa.
    pub baffle_drop: f64,
    /// Cooling drag, N.
    pub drag: f64,
}

/// Why a draw has no numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Missing {
    /// Nothing drives the air: neither limit can be held.
    NoAir,
    /// The assumptions contradict each other, such as at the engine's known point.
    Contradiction,
    /// The solver found no balance.
    Unsolved,
}

impl Missing {
    fn of(error: &EvaluateError) -> Self {
        match error {
            EvaluateError::Design(_)
            | EvaluateError::NoSuchCondition { .. }
            | EvaluateError::Prepare(_)
            | EvaluateError::Told(_) => Self::Contradiction,
            EvaluateError::Solve(SolveError::NoDrivingPressure { .. }) => Self::NoAir,
            EvaluateError::Solve(_) => Self::Unsolved,
        }
    }
}

/// An assumption and its slices in the order of the draws.
#[derive(Debug, Clone)]
pub(crate) struct Assumption {
    pub(crate) input: &'static Input,
    pub(crate) place: usize,
    value: f64,
    range: (f64, f64),
    /// Slice of each draw.
    pub(crate) slices: Vec<u32>,
}

impl Assumption {
    fn drawn((input, place, value, range): Doubt, slices: Vec<u32>) -> Self {
        Self {
            input,
            place,
            value,
            range,
            slices,
        }
    }

    /// Whether it plays a part in a condition: its own, or the installation's.
    pub(crate) fn concerns(&self, condition: usize) -> bool {
        !self.input.id.starts_with("condition.") || self.place == condition
    }
}

/// Slices of the model's error in the order of the draws: heads, oil, pressure.
type Errors = [Vec<u32>; 3];

impl Assumption {
    /// Value of a draw whose slice lies so many standard deviations from the median.
    fn at(&self, deviations: f64) -> f64 {
        let (low, high) = self.range;
        let reach = if deviations < 0.0 {
            self.value - low
        } else {
            high - self.value
        };
        let (least, most) = self.input.permitted;
        (self.value + reach * deviations / RANGE_DEVIATIONS).clamp(least, most)
    }
}

/// A sampling under way.
#[derive(Debug, Clone)]
pub struct Sampling {
    design: Design,
    pub(crate) assumptions: Vec<Assumption>,
    errors: Vec<Errors>,
    /// Deviations of a normal variable at the middle of each slice.
    deviations: Vec<f64>,
    nominal: Vec<Option<Solved>>,
    /// Draws of each condition.
    pub(crate) drawn: Vec<Vec<Result<Drawn, Missing>>>,
}

impl Sampling {
    /// A sampling of a design.
    ///
    /// # Errors
    /// [`EvaluateError`] if the design is refused.
    ///
    /// # Example
    /// A hundred draws of every condition, some at a time:
    /// ```
    /// use coolpath_core::answer::pieces::Pieces;
    /// use coolpath_core::answer::sampling::Sampling;
    /// use coolpath_core::answer::solved::EvaluateError;
    /// use coolpath_core::document::example;
    ///
    /// let mut sampling = Sampling::new(&example::design(), 100, 7)?;
    /// while sampling.advance(40) {}
    /// assert_eq!(sampling.progress(), (100, 100));
    /// assert_eq!(sampling.drawn(1).len(), 100);
    /// # Ok::<(), EvaluateError>(())
    /// ```
    pub fn new(design: &Design, draws: usize, seed: u64) -> Result<Self, EvaluateError> {
        design.check()?;
        let draws = draws.max(10);
        let mut random = fastrand::Rng::with_seed(seed);
        let mut slices = || {
            let mut slices: Vec<u32> = (0..draws as u32).collect();
            shuffle(&mut slices, &mut random);
            slices
        };
        let conditions = 0..design.conditions.len();
        let assumptions = uncertain(design)
            .chain(conditions.clone().flat_map(|at| uncertain_in(design, at)))
            .map(|doubt| Assumption::drawn(doubt, slices()))
            .collect();
        let errors = conditions
            .map(|_| core::array::from_fn(|_| slices()))
            .collect();
        Ok(Self {
            assumptions,
            errors,
            deviations: (0..draws)
                .map(|slice| normal_quantile((slice as f64 + 0.5) / draws as f64))
                .collect(),
            nominal: design
                .conditions
                .iter()
                .map(|condition| solve_condition(&design.installation, condition, None).ok())
                .collect(),
            drawn: vec![Vec::with_capacity(draws); design.conditions.len()],
            design: design.clone(),
        })
    }

    /// Gives a copy of the design what a draw takes its assumptions for.
    pub(crate) fn vary(&self, draw: usize, varied: &mut Design) {
        for assumption in &self.assumptions {
            let slice = assumption.slices[draw] as usize;
            let value = assumption.at(self.deviations[slice]);
            assumption.input.set(varied, assumption.place, value);
        }
        keep_thermostat_in_order(varied);
    }

    /// Independent normal deviations, each one of those of the slices.
    pub(crate) fn deviations<const COUNT: usize>(
        &self,
        random: &mut fastrand::Rng,
    ) -> [f64; COUNT] {
        let list = &self.deviations;
        core::array::from_fn(|_| list[random.u64(0..list.len() as u64) as usize])
    }

    /// The solution of a condition by the best estimate.
    pub(crate) fn nominal(&self, place: usize) -> Option<&Solved> {
        self.nominal.get(place)?.as_ref()
    }

    /// The model's errors of a draw in a condition: heads and oil, K, pressure, share of itself.
    fn errors_of(&self, draw: usize, place: usize) -> [f64; 3] {
        let sizes = [
            model_error::HEAD_K,
            model_error::OIL_K,
            model_error::DROP_SHARE,
        ];
        core::array::from_fn(|at| {
            let slice = self.errors[place][at][draw] as usize;
            sizes[at] * self.deviations[slice]
        })
    }

    /// A condition in a draw, whose assumptions a design was given.
    ///
    /// # Errors
    /// [`EvaluateError`] of the draw.
    pub(crate) fn solved(
        &self,
        draw: usize,
        place: usize,
        varied: &Design,
    ) -> Result<Solved, EvaluateError> {
        let [_, oil, _] = self.errors_of(draw, place);
        let installation = &varied.installation;
        solve_draw(
            installation,
            &missed(installation, &varied.conditions[place], oil),
            self.nominal[place].as_ref(),
        )
    }

    /// What a draw, whose assumptions a design was given, gives in a condition.
    fn found(&self, draw: usize, place: usize, varied: &Design) -> Result<Drawn, Missing> {
        let [head, oil, drop] = self.errors_of(draw, place);
        let installation = &varied.installation;
        let found = self
            .solved(draw, place, varied)
            .map_err(|error| Missing::of(&error))?;
        let figures = figures(installation, &found);
        Ok(Drawn {
            head: figures.head_hottest + head,
            oil: figures.oil + oil,
            baffle_drop: figures.baffle_drop * (1.0 + drop),
            drag: figures.drag,
        })
    }

    /// Draws in all.
    pub(crate) fn draws(&self) -> usize {
        self.deviations.len()
    }

    /// The draws of a condition made so far, in their order.
    pub fn drawn(&self, place: usize) -> &[Result<Drawn, Missing>] {
        self.drawn.get(place).map_or(&[], Vec::as_slice)
    }

    /// What the draws say of a condition; `None` while too few of them have an answer.
    #[must_use]
    pub fn summary(&self, place: usize) -> Option<Summary> {
        let drawn = self.drawn.get(place)?;
        let solved: Vec<&Drawn> = drawn.iter().flatten().collect();
        if solved.len() < 10 {
            return None;
        }
        let missing = |why: Missing| drawn.iter().filter(|found| **found == Err(why)).count();
        let contradictions = missing(Missing::Contradiction);
        let count = (drawn.len() - contradictions) as f64;
        let share = |holds: &dyn Fn(&Drawn) -> bool| {
            solved.iter().filter(|d| holds(d)).count() as f64 / count
        };
        let engine = &self.design.installation.engine;
        let phase = self.design.conditions.get(place)?.phase;
        let limits = engine.limits(phase, LimitChoice::Lowest);
        let head_holds = |d: &Drawn| d.head <= limits.head.kelvin;
        let oil_holds = |d: &Drawn| d.oil <= limits.oil.kelvin;
        Some(Summary {
            head: percentiles(solved.iter().map(|d| d.head)),
            oil: percentiles(solved.iter().map(|d| d.oil)),
            baffle_drop: percentiles(solved.iter().map(|d| d.baffle_drop)),
            drag: percentiles(solved.iter().map(|d| d.drag)),
            head_inside: share(&head_holds),
            oil_inside: share(&oil_holds),
            both_inside: share(&|d| head_holds(d) && oil_holds(d)),
            oil_too_cold: share(&|d| d.oil < engine.oil_minimum.value),
            without_air: missing(Missing::NoAir),
            contradictions,
            unsolved: missing(Missing::Unsolved),
            left_out: contradictions as f64 / drawn.len() as f64,
        })
    }
}

/// Each draw is a piece.
impl Pieces for Sampling {
    fn progress(&self) -> (usize, usize) {
        (self.drawn.first().map_or(0, Vec::len), self.draws())
    }

    fn numbers(&self, draws: Range<usize>) -> Vec<f64> {
        let mut varied = self.design.clone();
        let mut numbers = Vec::new();
        for draw in draws {
            self.vary(draw, &mut varied);
            for place in 0..varied.conditions.len() {
                numbers.extend(as_numbers(&self.found(draw, place, &varied)));
            }
        }
        numbers
    }

    fn take(&mut self, numbers: &[f64]) {
        let mut found = numbers.as_chunks().0.iter();
        while !found.as_slice().is_empty() {
            for (drawn, numbers) in self.drawn.iter_mut().zip(&mut found) {
                drawn.push(of_numbers(numbers));
            }
        }
    }
}

/// What a draw gives in a condition as numbers: no head where there is none, and the reason behind it.
fn as_numbers(drawn: &Result<Drawn, Missing>) -> [f64; 4] {
    match drawn {
        Ok(drawn) => [drawn.head, drawn.oil, drawn.baffle_drop, drawn.drag],
        Err(missing) => [f64::NAN, f64::from(*missing as u8), 0.0, 0.0],
    }
}

/// What numbers say of a draw.
fn of_numbers(&[head, oil, baffle_drop, drag]: &[f64; 4]) -> Result<Drawn, Missing> {
    if !head.is_nan() {
        return Ok(Drawn {
            head,
            oil,
            baffle_drop,
            drag,
        });
    }
    let all = [Missing::NoAir, Missing::Contradiction, Missing::Unsolved];
    let said = all
        .into_iter()
        .find(|missing| f64::from(*missing as u8) == oil);
    Err(said.unwrap_or(Missing::Unsolved))
}

/// Least range over which a thermostat opens, K.
const LEAST_OPENING_K: f64 = 5.0;

/// Opening and full-open temperature belong to one valve: drawn apart they could change places.
fn keep_thermostat_in_order(design: &mut Design) {
    let oil = &mut design.installation.oil;
    let latest = oil.thermostat_full.value - LEAST_OPENING_K;
    oil.thermostat_opens.value = oil.thermostat_opens.value.min(latest);
}

/// Shuffles a list (Fisher and Yates); by 64-bit numbers on every machine, which the generator's
/// own shuffle is not.
pub(crate) fn shuffle<T>(list: &mut [T], random: &mut fastrand::Rng) {
    for last in (1..list.len()).rev() {
        let other = random.u64(0..=last as u64) as usize;
        list.swap(last, other);
    }
}

/// 5th, 10th, 50th, 90th and 95th percentile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Percentiles {
    /// One case in twenty lies below.
    pub p05: f64,
    /// One case in ten lies below.
    pub p10: f64,
    /// As many below as above.
    pub p50: f64,
    /// One case in ten lies above.
    pub p90: f64,
    /// One case in twenty lies above.
    pub p95: f64,
}

/// Difference of two spreads above which the drawn one counts \[-\].
const SPREADS_APART: f64 = 0.2;

impl Percentiles {
    /// Band from the 5th to the 95th percentile about a nominal answer.
    #[must_use]
    pub fn band(&self, nominal: f64) -> Band {
        Band {
            below: (nominal - self.p05).max(0.0),
            above: (self.p95 - nominal).max(0.0),
        }
    }

    /// The band to show, and whether it is the drawn one: where the first order's spread is more
    /// than a fifth off, the draws know better. What is open stays open.
    #[must_use]
    pub fn shown(&self, first_order: &Band, nominal: f64) -> (Band, bool) {
        if first_order.is_open() {
            return (*first_order, false);
        }
        let drawn = self.p95 - self.p05;
        let apart = first_order.below + first_order.above - drawn;
        if apart.abs() > SPREADS_APART * drawn {
            (self.band(nominal), true)
        } else {
            (*first_order, false)
        }
    }
}

/// What the draws say of a condition.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Summary {
    /// Hottest head, K.
    pub head: Percentiles,
    /// Oil at the gauge, K.
    pub oil: Percentiles,
    /// Pressure across the baffles, Pa.
    pub baffle_drop: Percentiles,
    /// Cooling drag, N.
    pub drag: Percentiles,
    /// Share of the draws with the heads inside the limit that holds there [-]; a draw without an
    /// answer is outside unless it contradicts itself.
    pub head_inside: f64,
    /// Share of the draws with the oil inside its limit [-].
    pub oil_inside: f64,
    /// Share of the draws with both inside [-].
    pub both_inside: f64,
    /// Share of the draws with the oil below its least temperature, which counts in flight \[-\].
    pub oil_too_cold: f64,
    /// Draws in which nothing drives the air: in the shares as outside, in no percentile.
    pub without_air: usize,
    /// Draws whose assumptions contradict each other; left out.
    pub contradictions: usize,
    /// Draws that the solver could not balance: in the shares as outside, in no percentile.
    pub unsolved: usize,
    /// Share of the draws that was left out [-].
    pub left_out: f64,
}

/// Percentiles of a list, straight between neighbours.
pub(crate) fn percentiles(values: impl Iterator<Item = f64>) -> Percentiles {
    let mut sorted: Vec<f64> = values.collect();
    order::ascending(&mut sorted);
    let at = |share: f64| {
        let place = share * (sorted.len() - 1) as f64;
        let below = place as usize;
        let above = (below + 1).min(sorted.len() - 1);
        sorted[below] + (place - below as f64) * (sorted[above] - sorted[below])
    };
    Percentiles {
        p05: at(0.05),
        p10: at(0.1),
        p50: at(0.5),
        p90: at(0.9),
        p95: at(0.95),
    }
}
