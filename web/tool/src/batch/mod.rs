//! A design's answers without the page: the core's own functions, printed as JSON or as a table.

pub mod args;
pub mod card;
pub mod chances;
pub mod compare;
pub mod evaluate;
pub mod presets;
pub mod size;
pub mod table;

use crate::batch::args::DesignArgs;
use crate::design_file;
use crate::design_file::{FileError, STANDARD_INPUT};
use coolpath_core::answer::solved::EvaluateError;
use coolpath_core::decide::size::SizeError;
use coolpath_core::document::design::Design;
use serde_json::Value;
use std::io::{self, IsTerminal};

/// Why there is nothing to print.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum BatchError {
    /// The design file is at fault.
    #[error(transparent)]
    File(#[from] FileError),
    /// The design has no answer.
    #[error(transparent)]
    Evaluate(#[from] EvaluateError),
    /// No size was found to apply.
    #[error(transparent)]
    Size(#[from] SizeError),
    /// Nothing stands on standard input.
    #[error("name a design file, or send one to standard input")]
    NoInput,
    /// No condition has the number or name.
    #[error("no condition is numbered or named `{asked}`; the design has {known}")]
    NoSuchCondition {
        /// What was asked for.
        asked: String,
        /// The design's conditions.
        known: String,
    },
    /// A size with a chance where no limit was asked about.
    #[error("a size with this chance was not sought: --find ratio asks nothing of the limits")]
    NothingRobust,
}

impl BatchError {
    /// Whether the command line is at fault, not the design.
    #[must_use]
    pub fn is_wrong_usage(&self) -> bool {
        matches!(
            self,
            Self::NoInput | Self::NoSuchCondition { .. } | Self::NothingRobust
        )
    }
}

/// What is printed.
#[derive(Debug, Clone, PartialEq)]
pub struct Printed {
    /// The answer; a list of objects is a table's rows.
    pub value: Value,
    /// Columns that stand first in a table, in this order.
    pub first: &'static [&'static str],
    /// Whether all that was asked has an answer.
    pub whole: bool,
}

/// The design that is asked about.
///
/// # Errors
/// [`BatchError`] if it cannot be read or is refused.
pub fn design(args: &DesignArgs) -> Result<Design, BatchError> {
    if args.design.as_os_str() == STANDARD_INPUT && io::stdin().is_terminal() {
        return Err(BatchError::NoInput);
    }
    Ok(design_file::design(&args.design)?)
}

/// Place of a condition by its number from 1, or else by its name.
///
/// # Errors
/// [`BatchError::NoSuchCondition`] with those that the design has.
pub fn place(design: &Design, asked: &str) -> Result<usize, BatchError> {
    let conditions = &design.conditions;
    let number = asked.parse().ok();
    number
        .and_then(|number: usize| number.checked_sub(1))
        .filter(|place| *place < conditions.len())
        .or_else(|| conditions.iter().position(|one| one.name == asked))
        .ok_or_else(|| BatchError::NoSuchCondition {
            asked: asked.to_owned(),
            known: conditions
                .iter()
                .enumerate()
                .map(|(place, one)| format!("{} {}", place + 1, one.name))
                .collect::<Vec<_>>()
                .join(", "),
        })
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;

    #[test]
    fn a_condition_is_found_by_number_and_by_name() {
        let design = example::design();
        assert_eq!(place(&design, "2").ok(), Some(1));
        let name = design.conditions[1].name.clone();
        assert_eq!(place(&design, &name).ok(), Some(1));
        for asked in ["0", "99", "Nowhere", ""] {
            let error = place(&design, asked).expect_err(asked);
            assert!(error.is_wrong_usage());
            assert!(error.to_string().contains(&name), "{error}");
        }
    }
}
