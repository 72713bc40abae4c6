//! What can happen to the page's state.

use crate::state::field_key::FieldKey;
use crate::state::page::State;
use crate::state::readings::{ChangeEdit, ReadingEdit};
use coolpath_core::document::alternative::Alternative;
use coolpath_core::document::design::Design;
use coolpath_core::document::usual_condition::UsualCondition;
use coolpath_core::units::typed::UnitSystem;

/// A list in the design.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum List {
    /// Inlets.
    Inlets,
    /// Exits.
    Exits,
    /// Conditions.
    Conditions,
}

/// Something the builder did.
#[derive(Debug, Clone, PartialEq)]
pub enum Action {
    /// Typed in a numeric field.
    Type {
        /// The field.
        key: FieldKey,
        /// Its whole text.
        text: String,
    },
    /// Said which of the manual's limits a typed one is.
    Limit {
        /// The field.
        key: FieldKey,
        /// Its whole text, with the unit.
        text: String,
        /// "continuous" or "redline".
        which: &'static str,
    },
    /// Chose one of the options of a choice.
    Choose {
        /// The choice.
        id: &'static str,
        /// Its place in a list.
        place: usize,
        /// The option.
        option: String,
    },
    /// Set an input to a value, SI, such as by a phrase that stands for it.
    Set {
        /// The field.
        key: FieldKey,
        /// Value, SI.
        value: f64,
    },
    /// Marked an input as measured, or took the mark away.
    Measured {
        /// The field.
        key: FieldKey,
        /// Whether it is measured.
        measured: bool,
    },
    /// Wrote texts of a panel, or took them away, all at once.
    Note(Vec<(FieldKey, Option<String>)>),
    /// Named the design.
    NameDesign(String),
    /// Noted the page of the manual.
    NotePage(String),
    /// Named an entry of a list.
    Name {
        /// The list.
        list: List,
        /// The entry.
        place: usize,
        /// Its name.
        name: String,
    },
    /// Added an entry like the last one.
    Add(List),
    /// Added a condition that binds many cowls.
    AddUsual(UsualCondition),
    /// Copied an entry.
    Copy(List, usize),
    /// Removed an entry.
    Remove(List, usize),
    /// Moved an entry one place up.
    MoveUp(List, usize),
    /// Showed another condition in the drawing and the charts.
    Show(usize),
    /// Switched units.
    Units(UnitSystem),
    /// Kept an installation as an alternative.
    AddAlternative(Box<Alternative>),
    /// Named an alternative.
    NameAlternative(usize, String),
    /// Took an alternative for the design; what stood there takes its place.
    Adopt(usize),
    /// Removed an alternative.
    RemoveAlternative(usize),
    /// Edited the readings.
    Reading(ReadingEdit),
    /// Edited the change log.
    Change(ChangeEdit),
    /// Took over values that were computed, such as by a calibration.
    Adjust(Box<Design>),
    /// Opened a design.
    Open(Box<Design>),
    /// Brought back a stored state, with its texts and units.
    BringBack(Box<State>),
    /// Returned to the worked example.
    Example,
    /// Took the last change back.
    Undo,
    /// Took an undo back.
    Redo,
}
