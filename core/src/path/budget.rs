//! How many states of a network may be worked out before a search gives up, by name.
//!
//! A state is one evaluation of all balances; it takes half a microsecond to one and a half.
//! Searches inside searches spend of the same budget, so that the whole is bounded however its parts
//! turn out.

use crate::path::network::Cowl;
use crate::path::report::SolveError;
use crate::path::state::{State, Trial};
use core::cell::Cell;

/// States for one condition, a shutter that holds the oil included.
pub const CONDITION_STATES: u32 = 14_000;
/// States for a search, for each condition in which it solves.
pub const SEARCH_STATES: u32 = 80_000;

/// How closely the balances are closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Precision {
    /// As far as rounding lets them.
    #[default]
    Full,
    /// To a billionth: for what is only compared with an answer, such as the ends of a range. A
    /// head is then off by a millionth of a kelvin at most.
    Difference,
}

/// A number of states, and how many of them have been worked out.
#[derive(Debug, Clone)]
pub struct Budget<'a> {
    most: u32,
    precision: Precision,
    spent: Cell<u32>,
    whole: Option<&'a Budget<'a>>,
}

impl<'a> Budget<'a> {
    /// Of so many states.
    #[must_use]
    pub fn of(most: u32) -> Self {
        Self {
            most,
            precision: Precision::Full,
            spent: Cell::new(0),
            whole: None,
        }
    }

    /// Of one condition by itself.
    #[must_use]
    pub fn of_a_condition() -> Self {
        Self::of(CONDITION_STATES)
    }

    /// Of one condition among the many of a search, which spends the search's too.
    #[must_use]
    pub fn of_a_condition_in(whole: &'a Budget<'a>) -> Self {
        Self {
            whole: Some(whole),
            precision: whole.precision,
            ..Self::of_a_condition()
        }
    }

    /// Of a search in so many conditions.
    #[must_use]
    pub fn of_a_search(conditions: usize) -> Self {
        let conditions = u32::try_from(conditions.max(1)).unwrap_or(u32::MAX);
        Self::of(SEARCH_STATES.saturating_mul(conditions))
    }

    /// The same, for what is only compared with an answer.
    #[must_use]
    pub fn for_differences(self) -> Self {
        Self {
            precision: Precision::Difference,
            ..self
        }
    }

    /// How closely the balances are to be closed.
    #[must_use]
    pub fn precision(&self) -> Precision {
        self.precision
    }

    /// States worked out so far.
    #[must_use]
    pub fn spent(&self) -> u32 {
        self.spent.get()
    }

    /// Nothing is left of it, or of the whole to which it belongs.
    #[must_use]
    pub fn is_spent(&self) -> bool {
        self.lasts().is_err()
    }

    /// That something is left.
    ///
    /// # Errors
    /// [`SolveError::GaveUp`] with the states of what is spent.
    pub fn lasts(&self) -> Result<(), SolveError> {
        match self.whole {
            _ if self.spent() >= self.most => Err(SolveError::GaveUp {
                states: self.spent(),
            }),
            Some(whole) => whole.lasts(),
            None => Ok(()),
        }
    }

    pub(super) fn spend(&self) {
        self.spent.set(self.spent().saturating_add(1));
        if let Some(whole) = self.whole {
            whole.spend();
        }
    }

    /// As [`Cowl::state`], counted.
    pub(super) fn state(&self, cowl: &Cowl, trial: Trial) -> State {
        self.spend();
        cowl.state(trial)
    }

    /// As [`Cowl::state_near`], counted.
    pub(super) fn state_near(&self, cowl: &Cowl, trial: Trial, near: &State) -> State {
        self.spend();
        cowl.state_near(trial, near)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_spends_the_whole_and_ends_with_it() {
        let whole = Budget::of(3);
        let part = Budget::of_a_condition_in(&whole);
        part.spend();
        part.spend();
        assert_eq!((part.spent(), whole.spent()), (2, 2));
        assert!(!part.is_spent());
        let other = Budget::of_a_condition_in(&whole);
        other.spend();
        assert_eq!((part.spent(), other.spent(), whole.spent()), (2, 1, 3));
        assert!(part.is_spent() && other.is_spent() && whole.is_spent());
    }
}
