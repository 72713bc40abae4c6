//! What is stored in the browser, and what a design file holds.

use crate::state::field_key::FieldKey;
use crate::state::page::Drafts;
use crate::state::page::State;
use crate::state::readings;
use coolpath_core::document::design::Design;
use coolpath_core::document::design::VERSION;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::units::typed::UnitSystem;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The page's state as it is stored in the browser.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Stored {
    /// Version of this form.
    pub coolpath_state: u32,
    /// Design.
    pub design: Design,
    /// Typed texts: input, place, text.
    pub drafts: Vec<(String, usize, String)>,
    /// Units.
    pub units: UnitSystem,
    /// Condition shown.
    pub shown: usize,
    /// Units of the readings, where one was chosen.
    #[serde(default)]
    pub column_units: BTreeMap<Quantity, String>,
}

const STATE_VERSION: u32 = 1;

/// Text to store for a state.
///
/// # Errors
/// serde's message, if a number cannot be written.
pub fn stored_text(state: &State) -> Result<String, serde_json::Error> {
    serde_json::to_string(&Stored {
        coolpath_state: STATE_VERSION,
        design: state.design.clone(),
        drafts: state
            .drafts
            .iter()
            .map(|(key, text)| (key.id.clone(), key.place, text.clone()))
            .collect(),
        units: state.system,
        shown: state.shown,
        column_units: state.column_units.clone(),
    })
}

/// State from a stored text.
///
/// # Errors
/// A sentence that says what is wrong with it.
pub fn state_of(text: &str) -> Result<State, String> {
    let stored: Stored = serde_json::from_str(text).map_err(|error| error.to_string())?;
    if stored.coolpath_state > STATE_VERSION {
        return Err(format!(
            "it comes from a later version ({})",
            stored.coolpath_state
        ));
    }
    stored.design.check().map_err(|error| error.to_string())?;
    let last = stored.design.conditions.len() - 1;
    Ok(State {
        drafts: stored
            .drafts
            .into_iter()
            .map(|(id, place, text)| (FieldKey { id, place }, text))
            .filter(|(key, _)| key.input().is_some() || readings::is_known(key))
            .collect::<Drafts>(),
        design: stored.design,
        system: stored.units,
        shown: stored.shown.min(last),
        column_units: stored.column_units,
        ..State::default()
    })
}

/// Text of a design file.
///
/// # Errors
/// serde's message, if a number cannot be written.
pub fn file_text(design: &Design) -> Result<String, serde_json::Error> {
    serde_json::to_string_pretty(design)
}

/// Design in a file's text.
///
/// # Errors
/// A sentence with line and column; nothing has been changed.
pub fn design_of(text: &str) -> Result<Design, String> {
    let plain = text.trim_start_matches('\u{feff}');
    let version = serde_json::from_str::<serde_json::Value>(plain)
        .ok()
        .and_then(|value| {
            value
                .get("coolpath_design")
                .and_then(serde_json::Value::as_u64)
        });
    if version.is_some_and(|found| found > u64::from(VERSION)) {
        return Err(format!(
            "This file comes from a later version of this program (format {}). Nothing was changed.",
            version.unwrap_or_default()
        ));
    }
    let design: Design = serde_json::from_str(plain)
        .map_err(|error| format!("This is no design file: {error}. Nothing was changed."))?;
    design
        .check()
        .map_err(|error| format!("{error} Nothing was changed."))?;
    Ok(design)
}

/// File name for a design.
#[must_use]
pub fn file_name(design: &Design) -> String {
    format!("{}.coolpath.json", file_stem(&design.name))
}

/// Beginning of a file's name, from a name that may hold anything.
#[must_use]
pub fn file_stem(name: &str) -> String {
    let plain: String = name
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' })
        .collect::<String>()
        .to_lowercase();
    let words: Vec<&str> = plain.split('-').filter(|word| !word.is_empty()).collect();
    let stem = if words.is_empty() {
        "design".to_owned()
    } else {
        words.join("-")
    };
    stem.chars().take(60).collect()
}
