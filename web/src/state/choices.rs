//! The table of choices: every option of the design that is not a number, in plain words.

use crate::state::json;
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

/// One option.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Choosable {
    /// Its name in the file.
    pub value: &'static str,
    phrase: &'static str,
}

impl Choosable {
    /// What the builder calls it.
    #[must_use]
    pub fn phrase(&self) -> &'static str {
        tr(self.phrase)
    }
}

/// One choice.
pub struct Choice {
    /// Identifier, group and field.
    pub id: &'static str,
    label: &'static str,
    /// The options.
    pub options: &'static [Choosable],
    /// The option taken in a design, as its name in the file.
    pub get: fn(&Design, usize) -> Option<String>,
    /// Takes an option; false if it or the place does not exist.
    pub set: fn(&mut Design, usize, &str) -> bool,
    /// Whether the choice plays a part in a design.
    pub used: fn(&Design, usize) -> bool,
}

impl Choice {
    /// What is chosen.
    #[must_use]
    pub fn label(&self) -> &'static str {
        tr(self.label)
    }
}

/// The choice with an id.
#[must_use]
pub fn by_id(id: &str) -> Option<&'static Choice> {
    all().find(|choice| choice.id == id)
}

/// All choices, group by group.
pub fn all() -> impl Iterator<Item = &'static Choice> {
    [
        engine::CHOICES,
        decks::CHOICES,
        cooler::CHOICES,
        openings::CHOICES,
        conditions::CHOICES,
    ]
    .into_iter()
    .flatten()
}

/// The choices of a group.
pub fn of_group(prefix: &str) -> impl Iterator<Item = &'static Choice> {
    all().filter(move |choice| {
        choice
            .id
            .strip_prefix(prefix)
            .is_some_and(|rest| rest.starts_with('.'))
    })
}

/// Name in the file of a stored option.
fn name<T: Serialize>(stored: &T) -> Option<String> {
    match json::value(stored).ok()? {
        Value::String(text) => Some(text),
        other => Some(other.to_string()),
    }
}

/// Takes an option by its name in the file.
fn take<T: DeserializeOwned>(slot: &mut T, option: &str) -> bool {
    let text = json::of_value(&Value::String(option.to_owned()));
    match text.or_else(|_| serde_json::from_str(option)) {
        Ok(value) => {
            *slot = value;
            true
        }
        Err(_) => false,
    }
}

/// A choice of the installation, with `if |installation| …` where it does not always play a part.
macro_rules! choice {
    ($id:literal, $label:literal, $group:ident.$field:ident, $options:tt) => {
        choice!($id, $label, $group.$field, $options, if |_| true)
    };
    ($id:literal, $label:literal, $group:ident.$field:ident, [$(($value:literal, $phrase:literal)),* $(,)?],
        if |$installation:pat_param| $used:expr) => {
        Choice {
            id: $id,
            label: $label,
            options: &[$(Choosable { value: $value, phrase: $phrase }),*],
            get: |design, place| {
                if place == 0 { name(&design.installation.$group.$field) } else { None }
            },
            set: |design, place, option| {
                place == 0 && take(&mut design.installation.$group.$field, option)
            },
            used: |design, _| {
                let $installation = &design.installation;
                $used
            },
        }
    };
}

/// A choice of an entry of a list, with `if |installation, entry| …` where it does not always play a part.
macro_rules! listed {
    ($id:literal, $label:literal, $($list:ident).+ => $field:ident, $options:tt) => {
        listed!($id, $label, $($list).+ => $field, $options, if |_, _| true)
    };
    ($id:literal, $label:literal, $($list:ident).+ => $field:ident, [$(($value:literal, $phrase:literal)),* $(,)?],
        if |$installation:pat_param, $entry:pat_param| $used:expr) => {
        Choice {
            id: $id,
            label: $label,
            options: &[$(Choosable { value: $value, phrase: $phrase }),*],
            get: |design, place| {
                design.$($list).+.get(place).and_then(|entry| name(&entry.$field))
            },
            set: |design, place, option| {
                design.$($list).+.get_mut(place).is_some_and(|entry| take(&mut entry.$field, option))
            },
            used: |design, place| {
                let $installation = &design.installation;
                design.$($list).+.get(place).is_some_and(|$entry| $used)
            },
        }
    };
}

mod conditions;
mod cooler;
mod decks;
mod draw_sides;
mod engine;
mod engine_kind;
mod induction;
mod openings;

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::installation::ExitShape;

    /// The example with one of everything.
    fn design() -> Design {
        let mut design = coolpath_core::document::example::design();
        design.readings.push(Default::default());
        design
    }

    #[test]
    fn every_option_can_be_taken_and_is_given_back() {
        for choice in all() {
            let mut design = design();
            for option in choice.options {
                assert!(
                    (choice.set)(&mut design, 0, option.value),
                    "{} {}",
                    choice.id,
                    option.value
                );
                assert_eq!(
                    (choice.get)(&design, 0).as_deref(),
                    Some(option.value),
                    "{}",
                    choice.id
                );
            }
            assert!(
                !(choice.set)(&mut design, 0, "no such option"),
                "{}",
                choice.id
            );
            assert_eq!((choice.get)(&design, 99), None, "{}", choice.id);
        }
    }

    #[test]
    fn a_choice_plays_a_part_where_its_row_says_so() {
        let mut design = design();
        let used = |design: &Design, id: &str| (by_id(id).expect(id).used)(design, 0);
        design.installation.exits[0].shape = ExitShape::LipGap;
        assert!(!used(&design, "exit.louver_count"));
        design.installation.exits[0].shape = ExitShape::Louvers;
        assert!(used(&design, "exit.louver_count"));
        design.installation.shutter.fitted = false;
        assert!(!used(&design, "condition.shutter"));
        assert!(used(&design, "condition.phase") && used(&design, "engine.kind"));
    }

    #[test]
    fn a_draw_has_a_side_only_where_it_is_taken_from_a_deck_that_is_split() {
        let used = |change: fn(&mut coolpath_core::document::installation::Decks)| {
            let mut design = design();
            change(&mut design.installation.decks);
            all()
                .filter(|choice| choice.id.starts_with("decks.") && choice.id.ends_with("_side"))
                .map(|choice| (choice.used)(&design, 0))
                .collect::<Vec<bool>>()
        };
        use coolpath_core::document::installation::UpperDeck;
        assert_eq!(
            used(|decks| {
                decks.cabin_air = true;
                decks.induction_from_upper_deck = true;
            }),
            [false; 3]
        );
        assert_eq!(
            used(|decks| {
                decks.upper = UpperDeck::Halves;
                decks.induction_from_upper_deck = true;
            }),
            [true, true, false]
        );
        assert_eq!(
            used(|decks| {
                decks.upper = UpperDeck::Halves;
                decks.blast_tubes = 0;
                decks.cabin_air = true;
            }),
            [false, false, true]
        );
    }

    #[test]
    fn the_examples_choices_are_among_the_options() {
        let design = design();
        for choice in all() {
            let taken = (choice.get)(&design, 0).expect("a value");
            assert!(
                choice.options.iter().any(|option| option.value == taken),
                "{}: {taken}",
                choice.id
            );
        }
    }
}
