//! The page's state: the design, what was typed, and how it is shown.

use crate::state::field_key::FieldKey;
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::units::typed::UnitSystem;
use std::cell::OnceCell;
use std::collections::BTreeMap;
use std::rc::Rc;

/// Texts that stand in fields as they were typed.
pub type Drafts = BTreeMap<FieldKey, String>;

/// Units of the readings' quantities, by their symbols, where one was chosen.
pub type ColumnUnits = BTreeMap<Quantity, String>;

/// A state to which undo can return, with the units in which its texts were typed.
#[derive(Debug, Clone, PartialEq)]
pub struct Snapshot {
    /// Design.
    pub design: Design,
    /// Typed texts.
    pub drafts: Drafts,
    /// Units shown.
    pub system: UnitSystem,
    /// Units of the readings.
    pub column_units: ColumnUnits,
    /// The field whose typing led away from here, so that one word is one step.
    pub left_by: Option<FieldKey>,
    /// What was done between here and its neighbour on the way to the present, where the
    /// difference of the two does not say it.
    pub did: Option<String>,
    /// How to come here from that neighbour, as it is stored; set once the neighbour is fixed.
    pub link: Link,
}

/// A text worked out once. It follows from what stands beside it, so that it makes no difference.
#[derive(Debug, Clone, Default)]
pub struct Link(pub OnceCell<Rc<str>>);

impl PartialEq for Link {
    fn eq(&self, _: &Self) -> bool {
        true
    }
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
    /// Units in which quantities of the readings are noted.
    pub column_units: ColumnUnits,
    /// Condition that the drawing and the charts show.
    pub shown: usize,
    /// States before this one, the latest last.
    pub past: Vec<Rc<Snapshot>>,
    /// States undone, the latest last.
    pub future: Vec<Rc<Snapshot>>,
}

impl Default for State {
    fn default() -> Self {
        Self {
            design: example::design(),
            drafts: Drafts::new(),
            system: UnitSystem::default(),
            column_units: ColumnUnits::new(),
            shown: 1,
            past: Vec::new(),
            future: Vec::new(),
        }
    }
}

impl State {
    /// What undo would come back to.
    #[must_use]
    pub fn snapshot(&self, left_by: Option<FieldKey>, did: Option<String>) -> Snapshot {
        Snapshot {
            design: self.design.clone(),
            drafts: self.drafts.clone(),
            system: self.system,
            column_units: self.column_units.clone(),
            left_by,
            did,
            link: Link::default(),
        }
    }

    /// Keeps the condition shown within the list.
    pub fn show_within(&mut self) {
        let last = self.design.conditions.len().saturating_sub(1);
        self.shown = self.shown.min(last);
    }
}
