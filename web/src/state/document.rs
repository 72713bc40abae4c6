//! What is stored in the browser, and what a design file holds.

use crate::state::action::Action;
use crate::state::field_key::FieldKey;
use crate::state::history;
use crate::state::history::Step;
use crate::state::json;
use crate::state::page::{ColumnUnits, Drafts, State};
use crate::state::panel_texts;
use crate::state::readings;
use coolpath_core::document::design::Design;
use coolpath_core::document::design::VERSION;
use coolpath_core::language::tr;
use coolpath_core::units::typed::UnitSystem;
use serde::{Deserialize, Serialize};

/// The page's state as it is stored in the browser.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Stored {
    /// Version of this form.
    pub coolpath_state: u32,
    /// When it was stored, ms since 1970; 0 where that was not noted.
    #[serde(default)]
    pub saved_ms: f64,
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
    pub column_units: ColumnUnits,
    /// Steps that undo takes back, the latest first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub past: Vec<Step>,
    /// Steps that redo brings again, the next first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub future: Vec<Step>,
}

const STATE_VERSION: u32 = 1;

/// Text to store for a state at a time, ms since 1970, with the steps of undo or without.
///
/// # Errors
/// serde's message, if a number cannot be written.
pub fn stored_text(
    state: &State,
    saved_ms: f64,
    with_steps: bool,
) -> Result<String, serde_json::Error> {
    let steps = |steps| {
        if with_steps {
            history::stored(state, steps)
        } else {
            Vec::new()
        }
    };
    json::text(&Stored {
        coolpath_state: STATE_VERSION,
        saved_ms,
        design: state.design.clone(),
        drafts: state
            .drafts
            .iter()
            .map(|(key, text)| (key.id.clone(), key.place, text.clone()))
            .collect(),
        units: state.system,
        shown: state.shown,
        column_units: state.column_units.clone(),
        past: steps(&state.past),
        future: steps(&state.future),
    })
}

/// State from a stored text, whatever is wrong with its design.
///
/// # Errors
/// A sentence that says why it cannot be read.
pub fn state_of(text: &str) -> Result<State, String> {
    Ok(state_at(text)?.0)
}

/// State from a stored text, and when it was stored, ms since 1970.
///
/// # Errors
/// A sentence that says why it cannot be read.
pub fn state_at(text: &str) -> Result<(State, f64), String> {
    let stored: Stored = serde_json::from_str(text).map_err(|error| error.to_string())?;
    if stored.coolpath_state > STATE_VERSION || stored.design.coolpath_design > VERSION {
        return Err(tr("it comes from a later version of this program").to_owned());
    }
    let mut state = State {
        drafts: stored
            .drafts
            .into_iter()
            .map(|(id, place, text)| (FieldKey { id, place }, text))
            .filter(|(key, _)| {
                key.input().is_some() || readings::is_known(key) || panel_texts::is_known(key)
            })
            .collect::<Drafts>(),
        design: stored.design,
        system: stored.units,
        shown: stored.shown,
        column_units: stored.column_units,
        ..State::default()
    };
    state.show_within();
    state.past = history::read(&state, &stored.past);
    state.future = history::read(&state, &stored.future);
    // The steps of undo lead from the design as it was stored.
    state.design = state.design.renewed().0;
    Ok((state, stored.saved_ms))
}

/// Text of a design file.
///
/// # Errors
/// serde's message, if a number cannot be written.
pub fn file_text(design: &Design) -> Result<String, serde_json::Error> {
    json::pretty(design)
}

/// What opening a file's text does: a design file, or a state that was saved from storage.
///
/// # Errors
/// A sentence with line and column; nothing has been changed.
pub fn opening(text: &str) -> Result<Action, String> {
    let plain = text.trim_start_matches('\u{feff}');
    let is_state = serde_json::from_str::<serde_json::Value>(plain)
        .is_ok_and(|value| value.get("coolpath_state").is_some());
    if !is_state {
        return Ok(Action::Open(Box::new(design_of(text)?)));
    }
    let state = state_of(plain)
        .map_err(|reason| tr!("This file cannot be read: {}. Nothing was changed.", reason))?;
    Ok(Action::BringBack(Box::new(state)))
}

/// Design in a file's text, whatever is wrong with it: the page marks that.
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
        return Err(tr!(
            "This file comes from a later version of this program (format {}). Nothing was changed.",
            version.unwrap_or_default()
        ));
    }
    serde_json::from_str::<Design>(plain)
        .map(|design| design.renewed().0)
        .map_err(|error| tr!("This is no design file: {}. Nothing was changed.", error))
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
