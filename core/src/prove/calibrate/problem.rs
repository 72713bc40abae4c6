//! The least-squares problem, as far as its values are known.

use crate::prove::calibrate::observed::Steady;
use core::cell::RefCell;
use levenberg_marquardt::LeastSquaresProblem;
use nalgebra::storage::Owned;
use nalgebra::{DMatrix, DVector, Dyn};

/// Step of a derivative, in prior deviations.
pub(super) const STEP: f64 = 1e-3;

/// A set of values with one of them a step farther.
pub(super) fn stepped(x: &[f64], at: usize) -> Vec<f64> {
    let mut next = x.to_vec();
    next[at] += STEP;
    next
}

/// What is known at one set of values.
pub(super) struct Known {
    pub x: Vec<f64>,
    pub steady: Vec<Vec<Steady>>,
    pub residuals: DVector<f64>,
    pub slopes: Option<Slopes>,
}

/// How residuals and conditions change with each parameter, per prior deviation.
pub(super) struct Slopes {
    /// Of the residuals.
    pub jacobian: DMatrix<f64>,
    /// Of the conditions, parameter by parameter.
    pub conditions: Vec<Vec<Steady>>,
    /// What the model says a step beside the values, parameter by parameter.
    pub moved: Vec<Vec<Vec<Steady>>>,
}

/// The least-squares problem as far as its values are known.
pub(super) struct Problem<'a> {
    pub x: DVector<f64>,
    pub known: &'a [Known],
    /// The first set of values that was asked for in vain, and whether its derivatives were.
    pub missing: &'a RefCell<Option<(Vec<f64>, bool)>>,
}

impl Problem<'_> {
    fn find(&self, wants_jacobian: bool) -> Option<&Known> {
        let found = self
            .known
            .iter()
            .find(|known| known.x.as_slice() == self.x.as_slice());
        match found {
            Some(known) if !wants_jacobian || known.slopes.is_some() => Some(known),
            _ => {
                let x = self.x.iter().copied().collect();
                self.missing
                    .borrow_mut()
                    .get_or_insert((x, wants_jacobian && found.is_some()));
                None
            }
        }
    }
}

impl LeastSquaresProblem<f64, Dyn, Dyn> for Problem<'_> {
    type ResidualStorage = Owned<f64, Dyn>;
    type JacobianStorage = Owned<f64, Dyn, Dyn>;
    type ParameterStorage = Owned<f64, Dyn>;

    fn set_params(&mut self, x: &DVector<f64>) {
        self.x.copy_from(x);
    }

    fn params(&self) -> DVector<f64> {
        self.x.clone()
    }

    fn residuals(&self) -> Option<DVector<f64>> {
        self.find(false).map(|known| known.residuals.clone())
    }

    fn jacobian(&self) -> Option<DMatrix<f64>> {
        let known = self.find(true)?;
        Some(known.slopes.as_ref()?.jacobian.clone())
    }
}
