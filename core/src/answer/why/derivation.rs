//! An answer with its equation and the terms put in.

use crate::units::typed::Dimension;

/// One term of an equation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Term {
    /// Symbol in the equation.
    pub symbol: &'static str,
    /// What it is.
    pub meaning: &'static str,
    /// Value, SI.
    pub value: f64,
    /// What it measures.
    pub dimension: Dimension,
    /// Identifier of the input it is, if it is one.
    pub input: Option<&'static str>,
}

/// An answer with its equation.
#[derive(Debug, Clone)]
pub struct Derivation {
    /// The answer.
    pub answer: &'static str,
    /// Symbol of the answer.
    pub symbol: &'static str,
    /// The equation, in the symbols of its terms.
    pub equation: &'static str,
    /// Source of the equation.
    pub source: &'static str,
    /// The terms, in the order that `recompute` takes.
    pub terms: Vec<Term>,
    /// The answer's value, SI, from the solved state.
    pub value: f64,
    /// What it measures.
    pub dimension: Dimension,
    /// The answer from the terms' values.
    pub recompute: fn(&[f64]) -> f64,
}

pub(super) const fn term(
    symbol: &'static str,
    meaning: &'static str,
    value: f64,
    dimension: Dimension,
    input: Option<&'static str>,
) -> Term {
    Term {
        symbol,
        meaning,
        value,
        dimension,
        input,
    }
}
