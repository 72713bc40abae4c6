//! Keys that undo, redo, save and help, and the fields whose texts undo takes back.

use crate::state::action::Action;
use crate::state::panel_texts;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::table;
use coolpath_core::language::tr_later;

/// What a key asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Wish {
    /// Something is done to the state.
    Act(Action),
    /// The design is saved to a file.
    Save,
    /// The list of keys is shown.
    Help,
}

/// A key that was pressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pressed<'a> {
    /// With Control or Command held.
    pub command: bool,
    /// With Shift held.
    pub shift: bool,
    /// Its name.
    pub key: &'a str,
    /// Whether one types in a field.
    pub typing: bool,
}

/// What a pressed key asks for; while one types in a field, only with Control or Command held.
#[must_use]
pub fn wish(pressed: Pressed<'_>) -> Option<Wish> {
    let Pressed {
        command,
        shift,
        key,
        typing,
    } = pressed;
    if !command {
        return (key == "?" && !typing).then_some(Wish::Help);
    }
    match (key.to_lowercase().as_str(), shift) {
        ("z", false) => Some(Wish::Act(Action::Undo)),
        ("z", true) | ("y", false) => Some(Wish::Act(Action::Redo)),
        ("s", false) => Some(Wish::Save),
        _ => None,
    }
}

/// The keys and what each does, for the list.
pub const LIST: [(&str, &str); 11] = [
    ("?", tr_later("This list")),
    (tr_later("Ctrl or ⌘ + Z"), tr_later("Undo")),
    (
        tr_later("Ctrl or ⌘ + Shift + Z, Ctrl + Y"),
        tr_later("Redo"),
    ),
    (
        tr_later("Ctrl or ⌘ + S"),
        tr_later("Save the design to a file"),
    ),
    (tr_later("Ctrl or ⌘ + P"), tr_later("Print what is shown")),
    (
        tr_later("Tab"),
        tr_later("On to the next field, button or part of the drawing"),
    ),
    (
        tr_later("Enter or space"),
        tr_later("Choose the part or the dimension that has the focus"),
    ),
    (
        "↑ ↓",
        tr_later("In a number: one step, 1/16 in or 1 mm in a length"),
    ),
    (tr_later("Shift + ↑ ↓"), tr_later("In a number: ten steps")),
    (
        tr_later("Esc"),
        tr_later("Close a dimension’s field as it was; close a list like this one"),
    ),
    (
        tr_later("Enter"),
        tr_later("Close a dimension’s field with what was typed"),
    ),
];

/// Whether the text of a field, by its name in the markup, is kept with every letter, so that undo
/// here takes it back.
#[must_use]
pub fn is_of_state(element: &str) -> bool {
    const NAMES: [&str; 7] = [
        "inlet-name",
        "exit-name",
        "condition-name",
        "point-name",
        "point-set",
        "change-day",
        "change-what",
    ];
    if element == "design-name" || panel_texts::is_element(element) {
        return true;
    }
    let Some((id, place)) = element.rsplit_once('-') else {
        return false;
    };
    if place.is_empty() || !place.bytes().all(|digit| digit.is_ascii_digit()) {
        return false;
    }
    let is_input = || table::all().any(|input| input.id.replace('.', "-") == id);
    let is_cell = || {
        let name = id
            .strip_prefix("reading-")
            .or_else(|| id.strip_prefix("instrument-"));
        name.is_some_and(|name| Quantity::ALL.iter().any(|quantity| quantity.key() == name))
    };
    NAMES.contains(&id) || is_input() || is_cell()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn control_z_undoes_and_with_shift_or_y_redoes() {
        let with = |shift, key| asked(true, shift, key, true);
        assert_eq!(with(false, "z"), Some(Wish::Act(Action::Undo)));
        assert_eq!(with(true, "Z"), Some(Wish::Act(Action::Redo)));
        assert_eq!(with(false, "y"), Some(Wish::Act(Action::Redo)));
        assert_eq!(with(false, "s"), Some(Wish::Save));
        assert_eq!(with(false, "a"), None);
    }

    #[test]
    fn a_key_alone_does_nothing_while_one_types() {
        assert_eq!(asked(false, true, "?", false), Some(Wish::Help));
        assert_eq!(asked(false, true, "?", true), None);
        for key in ["z", "s", "p", "y"] {
            assert_eq!(asked(false, false, key, false), None, "{key}");
        }
    }

    fn asked(command: bool, shift: bool, key: &str, typing: bool) -> Option<Wish> {
        wish(Pressed {
            command,
            shift,
            key,
            typing,
        })
    }

    #[test]
    fn only_fields_whose_letters_are_kept_are_undone_here() {
        for own in [
            "design-name",
            "inlet-width_m-0",
            "exit-name-1",
            "reading-oil_k-3",
            "card-notches",
            "area-0-2",
            "point-set-4",
            "change-day-0",
        ] {
            assert!(is_of_state(own), "{own}");
        }
        for foreign in ["", "question-3", "size-0", "share-code", "inlet-width_m"] {
            assert!(!is_of_state(foreign), "{foreign}");
        }
    }
}
