//! The page's state: the design, what was typed, and how it is shown.

use crate::state::field_key::FieldKey;
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::units::typed::UnitSystem;
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
    /// Units in which quantities of the readings are noted, by their symbols, where one was chosen.
    pub column_units: BTreeMap<Quantity, String>,
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
            design: example::design(),
            drafts: Drafts::new(),
            system: UnitSystem::default(),
            column_units: BTreeMap::new(),
            shown: 1,
            past: Vec::new(),
            future: Vec::new(),
        }
    }
}
