//! What the page knows: the design, what was typed, and how it is shown. Pure; no browser here.

pub mod action;
pub mod document;
pub mod field;
pub mod reduce;
#[cfg(test)]
mod tests;

pub use action::{Action, List};
pub use field::FieldKey;

use coolpath_core::units::UnitSystem;
use coolpath_core::{Design, demo};
use std::collections::BTreeMap;

/// Texts that stand in fields as they were typed.
pub type Drafts = BTreeMap<FieldKey, String>;

/// A state to which undo can return.
#[derive(Debug, Clone, PartialEq)]
pub struct Snapshot {
    /// Design.
    pub design: Design,
    /// Typed texts.
    pub drafts: Drafts,
    /// The field whose typing led away from here, so that one word is one step.
    pub left_by: Option<FieldKey>,
}

/// State of the page.
#[derive(Debug, Clone, PartialEq)]
pub struct State {
    /// Last valid design.
    pub design: Design,
    /// Typed texts; those that are no valid value are not in the design.
    pub drafts: Drafts,
    /// Units shown.
    pub system: UnitSystem,
    /// Condition that the drawing and the charts show.
    pub shown: usize,
    /// States before this one, the latest last.
    pub past: Vec<Snapshot>,
    /// States undone, the latest last.
    pub future: Vec<Snapshot>,
}

impl Default for State {
    fn default() -> Self {
        Self {
            design: demo::design(),
            drafts: Drafts::new(),
            system: UnitSystem::default(),
            shown: 1,
            past: Vec::new(),
            future: Vec::new(),
        }
    }
}

impl State {
    /// Fields whose text is no valid value, with what is wrong with it.
    #[must_use]
    pub fn faults(&self) -> Vec<(FieldKey, String)> {
        self.drafts
            .iter()
            .filter_map(|(key, text)| {
                key.input()
                    .and_then(|input| field::value(input, text, self.system).err())
                    .map(|fault| (key.clone(), fault))
            })
            .collect()
    }
}
