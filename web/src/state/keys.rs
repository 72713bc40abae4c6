//! Keys that undo and redo, and the fields whose texts they take back.

use crate::state::action::Action;
use crate::state::panel_texts;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::table;

/// What a pressed key does, with Control or Command held, or without.
#[must_use]
pub fn action(command: bool, shift: bool, key: &str) -> Option<Action> {
    if !command {
        return None;
    }
    match (key.to_lowercase().as_str(), shift) {
        ("z", false) => Some(Action::Undo),
        ("z", true) | ("y", false) => Some(Action::Redo),
        _ => None,
    }
}

/// Whether the text of a field, by its name in the markup, is kept with every letter, so that undo
/// here takes it back.
#[must_use]
pub fn is_of_state(element: &str) -> bool {
    const NAMES: [&str; 3] = ["inlet-name", "exit-name", "condition-name"];
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
        assert_eq!(action(true, false, "z"), Some(Action::Undo));
        assert_eq!(action(true, true, "Z"), Some(Action::Redo));
        assert_eq!(action(true, false, "y"), Some(Action::Redo));
        assert_eq!(action(false, false, "z"), None);
        assert_eq!(action(true, false, "a"), None);
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
        ] {
            assert!(is_of_state(own), "{own}");
        }
        for foreign in ["", "question-3", "size-0", "share-code", "inlet-width_m"] {
            assert!(!is_of_state(foreign), "{foreign}");
        }
    }
}
