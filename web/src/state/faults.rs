//! What is not used and what is refused: typed texts that are no value, and a design's own faults.

use crate::state::field;
use crate::state::field_key::FieldKey;
use crate::state::page::State;
use coolpath_core::document::check::DesignError;
use coolpath_core::document::design::Design;
use coolpath_core::document::fault::{Fault, Spot};
use coolpath_core::document::table;
use coolpath_core::language::tr;
use coolpath_core::units::typed;
use coolpath_core::units::typed::UnitSystem;

impl State {
    /// Fields of the design whose text is no valid value, with what is wrong with it: the answers
    /// are for the last valid values.
    #[must_use]
    pub fn faults(&self) -> Vec<(FieldKey, String)> {
        self.drafts
            .iter()
            .filter_map(|(key, text)| {
                let fault = field::value(key.input()?, text, self.system).err()?;
                Some((key.clone(), fault))
            })
            .collect()
    }

    /// What stands on the face of everything that is printed or downloaded: which typed texts were
    /// refused, and which value was used in place of each; `None` where every text was used.
    #[must_use]
    pub fn refused_sentence(&self) -> Option<String> {
        let refused: Vec<String> = self
            .faults()
            .into_iter()
            .filter_map(|(key, _)| {
                let input = key.input()?;
                let text = self.drafts.get(&key)?;
                let used = input.value(&self.design, key.place)?;
                let unit = input.dimension.shown(self.system).symbol;
                let space = if unit.is_empty() { "" } else { " " };
                let place = if key.place > 0 {
                    format!(" {}", key.place + 1)
                } else {
                    String::new()
                };
                let used = field::shown(used, input.dimension, self.system);
                Some(tr!(
                    "{}{} “{}” ({}{}{} was used)",
                    input.label,
                    place,
                    text.trim(),
                    used,
                    space,
                    unit
                ))
            })
            .collect();
        (!refused.is_empty()).then(|| {
            tr!(
                "Not what was typed: the last valid value was used in place of {}.",
                refused.join("; ")
            )
        })
    }

    /// What keeps the design from being answered, each with the name of the field to mend.
    #[must_use]
    pub fn withheld(&self) -> Vec<Marked> {
        self.design
            .faults()
            .into_iter()
            .filter(|fault| fault.alternative.is_none() && !matches!(fault.spot, Spot::Reading(_)))
            .map(|fault| marked(&self.design, &fault, self.system))
            .collect()
    }

    /// What is wrong with an alternative, in words.
    #[must_use]
    pub fn alternative_faults(&self, place: usize) -> Vec<String> {
        let faults = self.design.alternative_faults(place);
        faults
            .iter()
            .map(|fault| words(&fault.error, self.system))
            .collect()
    }

    /// What is wrong with an input's value as it stands in the design.
    #[must_use]
    pub fn fault_at(&self, spot: Spot) -> Option<String> {
        let error = self.design.fault_at(spot)?;
        Some(words(&error, self.system))
    }
}

/// A fault of the design, where to mend it and what it is called there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Marked {
    /// Name of the field in the page's markup; `None` where there is no field.
    pub element: Option<String>,
    /// What is wrong, in words.
    pub words: String,
}

fn marked(design: &Design, fault: &Fault, system: UnitSystem) -> Marked {
    let element = match fault.spot {
        Spot::Input(id, place) => {
            let has_field = table::by_id(id).is_some_and(|input| input.used(design, place));
            has_field.then(|| FieldKey::new(id, place).element_id())
        }
        Spot::Choice(id, place) => Some(FieldKey::new(id, place).element_id()),
        Spot::List(_) | Spot::Outline(_) | Spot::Reading(_) | Spot::File => None,
    };
    Marked {
        element,
        words: words(&fault.error, system),
    }
}

/// A design's fault in the units shown.
#[must_use]
pub fn words(error: &DesignError, system: UnitSystem) -> String {
    match error {
        DesignError::OutOfRange {
            id, place, value, ..
        } => table::by_id(id).map_or_else(
            || error.to_string(),
            |input| {
                let unit = input.dimension.shown(system);
                let value = typed::rounded_text(unit.from_si(*value), 4);
                let must = field::range(input).must(system);
                tr!("{}; number {} is {}.", must, place + 1, value)
            },
        ),
        DesignError::Range {
            id,
            label,
            place,
            range,
        } => {
            let dimension = table::by_id(id).map(|input| input.dimension);
            let end = |si: f64| {
                let unit = dimension.map(|dimension| dimension.shown(system));
                unit.map_or_else(String::new, |unit| {
                    format!(
                        "{} {}",
                        typed::rounded_text(unit.from_si(si), 4),
                        unit.symbol
                    )
                })
            };
            tr!(
                "{}, number {}: its calibrated range, {} to {}, is not in order, too wide, or \
                 does not hold the value. Type another value, or tick “I measured this”.",
                label,
                place + 1,
                end(range.0).trim(),
                end(range.1).trim()
            )
        }
        _ => error.to_string(),
    }
}
