//! The table of choices: every option of the design that is not a number, in plain words.

use crate::state::json;
use coolpath_core::document::design::Design;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

/// One option.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Choosable {
    /// Its name in the file.
    pub value: &'static str,
    /// What the builder calls it.
    pub phrase: &'static str,
}

/// One choice.
pub struct Choice {
    /// Identifier, group and field.
    pub id: &'static str,
    /// What is chosen.
    pub label: &'static str,
    /// The options.
    pub options: &'static [Choosable],
    /// The option taken in a design, as its name in the file.
    pub get: fn(&Design, usize) -> Option<String>,
    /// Takes an option; false if it or the place does not exist.
    pub set: fn(&mut Design, usize, &str) -> bool,
}

/// The choice with an id.
#[must_use]
pub fn by_id(id: &str) -> Option<&'static Choice> {
    CHOICES.iter().find(|choice| choice.id == id)
}

/// All choices.
#[must_use]
pub fn all() -> &'static [Choice] {
    CHOICES
}

/// The choices of a group.
pub fn of_group(prefix: &str) -> impl Iterator<Item = &'static Choice> {
    CHOICES.iter().filter(move |choice| {
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

macro_rules! choice {
    ($id:literal, $label:literal, $group:ident.$field:ident, [$(($value:literal, $phrase:literal)),* $(,)?]) => {
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
        }
    };
}

macro_rules! listed {
    ($id:literal, $label:literal, $($list:ident).+ => $field:ident, [$(($value:literal, $phrase:literal)),* $(,)?]) => {
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
        }
    };
}

mod draw_sides;
mod engine_kind;
mod induction;
mod table;
use table::CHOICES;

/// Whether a choice plays a part in a design.
#[must_use]
pub fn is_used(choice: &Choice, design: &Design, place: usize) -> bool {
    use coolpath_core::document::installation::{
        CoolerDischarge, CoolerRating, CoolerSupply, CylinderData, ExitShape, ReferenceKind,
        UpperDeck,
    };
    let installation = &design.installation;
    match choice.id {
        "reference.chart_density" => installation.reference.kind == ReferenceKind::Chart,
        "cooler.hose" | "cooler.bends" => !installation.cooler.supply.is_on_baffle(),
        "cooler.cover" => installation.cooler.blanked_share > 0.0,
        "cooler.wall_behind" => installation.cooler.discharge == CoolerDischarge::LowerDeck,
        "cooler.own_exit_by_attitude" => installation.cooler.discharge == CoolerDischarge::OwnExit,
        "decks.cabin_muff" => installation.decks.cabin_air,
        "decks.blast_side" | "decks.cabin_side" | "decks.induction_side" => {
            draw_sides::is_used(choice.id, &installation.decks)
        }
        "cooler.rows" => installation.cooler.counts_rows(),
        "cooler.fin_kind" => installation.cooler.rating == CoolerRating::FromFins,
        "exit.louver_count" => installation
            .exits
            .get(place)
            .is_some_and(|exit| exit.shape == ExitShape::Louvers),
        "exit.stack_count" => installation
            .exits
            .get(place)
            .is_some_and(|exit| exit.shape == ExitShape::Augmentor),
        "exit.flap_given" => installation
            .exits
            .get(place)
            .is_some_and(|exit| exit.flap && exit.shape == ExitShape::LipGap),
        "inlet.side" => installation.decks.upper == UpperDeck::Halves,
        "cooler.take_off" => {
            installation.decks.upper == UpperDeck::Halves
                && installation.cooler.supply != CoolerSupply::OwnInlet
        }
        "engine.poorer_side" | "engine.poorer_end" | "engine.fin_passages" => {
            installation.engine.cylinder_data == CylinderData::Unknown
        }
        "condition.shutter" => installation.shutter.fitted,
        _ => true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The example with one of everything.
    fn design() -> Design {
        let mut design = coolpath_core::document::example::design();
        design.readings.push(Default::default());
        design
    }

    #[test]
    fn every_option_can_be_taken_and_is_given_back() {
        for choice in CHOICES {
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
    fn a_draw_has_a_side_only_where_it_is_taken_from_a_deck_that_is_split() {
        let used = |change: fn(&mut coolpath_core::document::installation::Decks)| {
            let mut design = design();
            change(&mut design.installation.decks);
            CHOICES
                .iter()
                .filter(|choice| choice.id.starts_with("decks.") && choice.id.ends_with("_side"))
                .map(|choice| is_used(choice, &design, 0))
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
        for choice in CHOICES {
            let taken = (choice.get)(&design, 0).expect("a value");
            assert!(
                choice.options.iter().any(|option| option.value == taken),
                "{}: {taken}",
                choice.id
            );
        }
    }
}
