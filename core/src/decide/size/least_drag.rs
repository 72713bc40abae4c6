//! Finding both openings for the least drag in cruise, one inlet area at a time.

use crate::decide::size::judge::{Judge, Warm};
use crate::decide::size::request::{Bounds, Demand, SizeError};
use crate::decide::size::search::{Found, exit_for, found, permitted};
use crate::document::design::Design;
use crate::math::highest::GOLDEN;
use crate::path::budget::Budget;

/// Steps of the first look over the permitted inlets.
const FIRST_LOOK: usize = 8;
/// Steps of the golden section after it.
const GOLDEN_STEPS: usize = 10;

/// Inlets and exit for the least mean drag in cruise that hold every limit.
///
/// For each inlet area the smallest exit that holds is taken; a look over the bounds and a golden
/// section between the neighbours of its best find the inlets.
///
/// # Errors
/// [`SizeError::OutOfReach`] with what is missed least, if no size holds.
pub fn least_drag(design: &Design, demand: &Demand, bounds: &Bounds) -> Result<Found, SizeError> {
    let mut search = LeastDrag::new(design, demand, bounds);
    loop {
        if let Some(found) = search.advance() {
            return found;
        }
    }
}

/// One inlet area, with what holds there.
#[derive(Clone)]
struct Tried {
    ln_inlets: f64,
    found: Option<Found>,
}

impl Tried {
    fn drag_n(&self) -> f64 {
        self.found
            .as_ref()
            .map_or(f64::INFINITY, |found| found.cruise_drag_n)
    }
}

/// An interval of the golden section, its ends and two points within.
struct Section {
    ends: (f64, f64),
    inner: (Tried, Tried),
}

/// The search of [`least_drag`] under way.
pub(super) struct LeastDrag {
    design: Design,
    demand: Demand,
    bounds: Result<Bounds, SizeError>,
    budget: Budget<'static>,
    warm: Warm,
    looks: usize,
    best: Option<Tried>,
    nearest: Option<SizeError>,
    section: Option<Section>,
}

impl LeastDrag {
    /// Calls of [`advance`](Self::advance) until the end, at most.
    pub(super) const MOST_STEPS: usize = FIRST_LOOK + 1 + 1 + GOLDEN_STEPS;

    pub(super) fn new(design: &Design, demand: &Demand, bounds: &Bounds) -> Self {
        Self {
            bounds: permitted(design, bounds),
            budget: Budget::of_a_search(design.conditions.len()),
            warm: vec![None; design.conditions.len()],
            design: design.clone(),
            demand: demand.clone(),
            looks: 0,
            best: None,
            nearest: None,
            section: None,
        }
    }

    /// Looks at one inlet area more (at two where the golden section begins); what was found once that
    /// was the last.
    pub(super) fn advance(&mut self) -> Option<Result<Found, SizeError>> {
        self.look().unwrap_or_else(|error| Some(Err(error)))
    }

    fn look(&mut self) -> Result<Option<Result<Found, SizeError>>, SizeError> {
        let bounds = self.bounds.clone()?;
        let (low, high) = (libm::log(bounds.inlets_m2.0), libm::log(bounds.inlets_m2.1));
        let step = (high - low) / FIRST_LOOK as f64;
        let first = if step > 0.0 { FIRST_LOOK } else { 0 };
        let look = self.looks;
        self.looks += 1;
        if look <= first {
            self.try_at(low + step * look as f64, &bounds)?;
            if look == first {
                return Ok(self.after_the_first(step));
            }
        } else if let Some(section) = self.section.take() {
            self.section = Some(self.narrowed(section, &bounds)?);
        } else if let Some(middle) = self.best.as_ref().map(|best| best.ln_inlets) {
            let ends = ((middle - step).max(low), (middle + step).min(high));
            let width = GOLDEN * (ends.1 - ends.0);
            let inner = (
                self.try_at(ends.1 - width, &bounds)?,
                self.try_at(ends.0 + width, &bounds)?,
            );
            self.section = Some(Section { ends, inner });
        }
        let is_last = self.looks == Self::MOST_STEPS;
        Ok(is_last.then(|| self.result()))
    }

    /// What the first look ends with where no golden section follows.
    fn after_the_first(&self, step: f64) -> Option<Result<Found, SizeError>> {
        let is_last = self.best.is_none() || step <= 0.0;
        is_last.then(|| self.result())
    }

    fn result(&self) -> Result<Found, SizeError> {
        let best = self.best.as_ref().and_then(|best| best.found.clone());
        best.ok_or_else(|| self.nearest.clone().unwrap_or(SizeError::Bounds))
    }

    fn narrowed(&mut self, section: Section, bounds: &Bounds) -> Result<Section, SizeError> {
        let (a, b) = section.ends;
        let (c, d) = section.inner;
        // Where neither side holds, larger inlets are the way.
        Ok(if c.drag_n() < d.drag_n() {
            let b = d.ln_inlets;
            let left = self.try_at(b - GOLDEN * (b - a), bounds)?;
            Section {
                ends: (a, b),
                inner: (left, c),
            }
        } else {
            let a = c.ln_inlets;
            let right = self.try_at(a + GOLDEN * (b - a), bounds)?;
            Section {
                ends: (a, b),
                inner: (d, right),
            }
        })
    }

    /// The smallest exit at these inlets; keeps the best, or what is missed least.
    fn try_at(&mut self, ln_inlets: f64, bounds: &Bounds) -> Result<Tried, SizeError> {
        let inlets = libm::exp(ln_inlets);
        let judge = Judge::new(&self.design, &self.demand, &self.budget);
        let own = &self.design.installation;
        let found = match exit_for(&judge, own, inlets, bounds.exit_m2, &mut self.warm) {
            Ok((exit, binding)) => {
                Some(found(&self.design, (inlets, exit), binding, &self.budget)?)
            }
            Err(error @ SizeError::OutOfReach { .. }) => {
                if is_nearer(&error, self.nearest.as_ref()) {
                    self.nearest = Some(error);
                }
                None
            }
            Err(error) => return Err(error),
        };
        let tried = Tried { ln_inlets, found };
        let best = self.best.as_ref().map_or(f64::INFINITY, Tried::drag_n);
        if tried.drag_n() < best {
            self.best = Some(tried.clone());
        }
        Ok(tried)
    }
}

fn is_nearer(error: &SizeError, than: Option<&SizeError>) -> bool {
    let miss = |error: &SizeError| match error {
        SizeError::OutOfReach { shortfall, .. } => shortfall.scaled,
        _ => f64::NEG_INFINITY,
    };
    than.is_none_or(|than| miss(error) > miss(than))
}
