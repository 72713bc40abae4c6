//! Undo and redo, and how they are kept over a reload: each step as the small difference to its
//! neighbour on the way to the present.

use crate::state::field_key::FieldKey;
use crate::state::json;
use crate::state::page::{ColumnUnits, Drafts, Link, Snapshot, State};
use crate::state::patch::{patch, patched};
use coolpath_core::document::design::Design;
use coolpath_core::units::typed::UnitSystem;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::rc::Rc;

/// Most steps that undo remembers.
const PAST_MAX: usize = 100;
/// Most steps that are stored, each way.
const STORED_STEPS: usize = 50;
/// Most letters of stored steps, each way.
const STORED_LETTERS: usize = 150_000;

/// A step as it is stored, the nearest to the present first.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Step {
    /// The patch, from the neighbour nearer to the present.
    pub patch: String,
    /// What was done, where the difference does not say it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub did: Option<String>,
}

/// Goes one step back.
pub fn undo(state: &mut State) {
    if let Some(before) = state.past.pop() {
        let here = state.snapshot(None, before.did.clone());
        state.future.push(Rc::new(here));
        stand_at(state, &before);
        loosen(&mut state.past);
    }
}

/// Takes an undo back.
pub fn redo(state: &mut State) {
    if let Some(after) = state.future.pop() {
        let here = state.snapshot(None, after.did.clone());
        state.past.push(Rc::new(here));
        stand_at(state, &after);
        loosen(&mut state.future);
    }
}

/// The last step's neighbour is the present again, which may change.
fn loosen(steps: &mut [Rc<Snapshot>]) {
    if let Some(last) = steps.last_mut() {
        Rc::make_mut(last).link = Link::default();
    }
}

fn stand_at(state: &mut State, snapshot: &Snapshot) {
    state.design = snapshot.design.clone();
    state.drafts = snapshot.drafts.clone();
    state.system = snapshot.system;
    state.column_units = snapshot.column_units.clone();
    state.show_within();
}

/// Remembers the present before it changes; letters of one word are one step.
pub fn remember(next: &mut State, state: &State, key: Option<&FieldKey>, did: Option<String>) {
    let continues = key.is_some()
        && state.future.is_empty()
        && state
            .past
            .last()
            .is_some_and(|last| last.left_by.as_ref() == key);
    if !continues {
        next.past.push(Rc::new(state.snapshot(key.cloned(), did)));
        if next.past.len() > PAST_MAX {
            next.past.remove(0);
        }
    }
    next.future.clear();
}

/// What a snapshot holds, as one JSON value.
fn value(
    design: &Design,
    drafts: &Drafts,
    system: UnitSystem,
    columns: &ColumnUnits,
) -> Option<Value> {
    let texts: BTreeMap<String, &String> = drafts
        .iter()
        .map(|(key, text)| (format!("{} {}", key.id, key.place), text))
        .collect();
    let design = json::value(design).ok()?;
    Some(json!({ "design": design, "drafts": texts, "units": system, "columns": columns }))
}

fn value_of(snapshot: &Snapshot) -> Option<Value> {
    value(
        &snapshot.design,
        &snapshot.drafts,
        snapshot.system,
        &snapshot.column_units,
    )
}

fn present(state: &State) -> Option<Value> {
    value(
        &state.design,
        &state.drafts,
        state.system,
        &state.column_units,
    )
}

fn snapshot_of(value: &Value, did: Option<String>) -> Option<Snapshot> {
    let part = |name: &str| value.get(name);
    let texts: BTreeMap<String, String> = json::of_value(part("drafts")?).ok()?;
    let drafts = texts
        .into_iter()
        .filter_map(|(name, text)| {
            let (id, place) = name.rsplit_once(' ')?;
            Some((FieldKey::new(id, place.parse().ok()?), text))
        })
        .collect();
    Some(Snapshot {
        design: json::of_value(part("design")?).ok()?,
        drafts,
        system: json::of_value(part("units")?).ok()?,
        column_units: json::of_value(part("columns")?).ok()?,
        left_by: None,
        did,
        link: Link::default(),
    })
}

/// Steps as they are stored, the nearest first; the farthest are left out where they are too many.
#[must_use]
pub fn stored(state: &State, steps: &[Rc<Snapshot>]) -> Vec<Step> {
    let mut stored = Vec::new();
    let mut letters = 0;
    let mut nearer: Option<&Rc<Snapshot>> = None;
    for snapshot in steps.iter().rev().take(STORED_STEPS) {
        let to_here = || {
            let from = nearer.map_or_else(|| present(state), |near| value_of(near))?;
            Some(Rc::from(patch(&from, &value_of(snapshot)?).to_string()))
        };
        // The present may still change; a neighbour in the past does not.
        let known = nearer.and_then(|_| snapshot.link.0.get().cloned());
        let Some(text) = known.or_else(to_here) else {
            break;
        };
        if nearer.is_some() {
            let _ = snapshot.link.0.set(text.clone());
        }
        letters += text.len();
        if letters > STORED_LETTERS {
            break;
        }
        stored.push(Step {
            patch: text.to_string(),
            did: snapshot.did.clone(),
        });
        nearer = Some(snapshot);
    }
    stored
}

/// Steps from their stored form, as far as they can be followed, the latest last.
#[must_use]
pub fn read(state: &State, steps: &[Step]) -> Vec<Rc<Snapshot>> {
    let mut found = Vec::new();
    let Some(mut here) = present(state) else {
        return found;
    };
    for step in steps {
        let next = serde_json::from_str(&step.patch)
            .ok()
            .and_then(|patch: Value| patched(&here, &patch));
        let Some(next) = next else { break };
        let Some(snapshot) = snapshot_of(&next, step.did.clone()) else {
            break;
        };
        found.push(Rc::new(snapshot));
        here = next;
    }
    found.reverse();
    found
}
