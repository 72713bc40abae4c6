//! The reducer: a state and an action give the next state.

use crate::state::action::{Action, List};
use crate::state::choices;
use crate::state::field;
use crate::state::field_key::FieldKey;
use crate::state::page::Drafts;
use crate::state::page::Snapshot;
use crate::state::page::State;
use crate::state::readings;
use crate::state::readings::ReadingEdit;
use coolpath_core::document::alternative::MAX_ALTERNATIVES;
use coolpath_core::document::design::Design;
use coolpath_core::document::design::{MAX_CONDITIONS, mark};
use coolpath_core::document::example;
use coolpath_core::path::openings::MAX_OPENINGS;

/// Most steps that undo remembers.
const PAST_MAX: usize = 100;

/// The next state.
#[must_use]
pub fn reduce(state: &State, action: Action) -> State {
    let mut next = state.clone();
    match action {
        Action::Undo => {
            if let Some(before) = next.past.pop() {
                next.future.push(snapshot(state, None));
                restore(&mut next, before);
            }
            return next;
        }
        Action::Redo => {
            if let Some(after) = next.future.pop() {
                next.past.push(snapshot(state, None));
                restore(&mut next, after);
            }
            return next;
        }
        Action::Show(place) => {
            next.shown = place.min(next.design.conditions.len().saturating_sub(1));
            return next;
        }
        Action::Units(system) => {
            next.system = system;
            // A valid text stands for a value, which is shown anew; an invalid one is kept.
            next.drafts.retain(|key, text| {
                key.input()
                    .is_some_and(|input| field::value(input, text, state.system).is_err())
                    || readings::is_kept_on_switch(state, key, text)
            });
            return next;
        }
        Action::Type { key, text } => {
            remember(&mut next, state, Some(&key));
            typed(&mut next, key, text);
        }
        Action::Reading(edit) => {
            let key = match &edit {
                ReadingEdit::Cell(place, quantity, _) => {
                    Some(readings::cell_key(*place, *quantity))
                }
                ReadingEdit::Correction(quantity, _) => Some(readings::correction_key(*quantity)),
                _ => None,
            };
            remember(&mut next, state, key.as_ref());
            readings::edit(&mut next, edit);
        }
        other => {
            remember(&mut next, state, None);
            changed(&mut next, other);
        }
    }
    next
}

fn changed(next: &mut State, action: Action) {
    match action {
        Action::Choose { id, place, option } => {
            if let Some(choice) = choices::by_id(id) {
                (choice.set)(&mut next.design, place, &option);
            }
        }
        Action::Set { key, value } => {
            if let Some(input) = key.input() {
                input.set(&mut next.design, key.place, value);
                next.drafts.remove(&key);
            }
        }
        Action::Measured { key, measured } => {
            let name = mark(&key.id, key.place);
            next.design.measured.retain(|other| *other != name);
            if measured {
                next.design.measured.push(name);
            }
        }
        Action::NameDesign(name) => next.design.name = name,
        Action::NotePage(page) => next.design.installation.engine.limits_page = page,
        Action::Name { list, place, name } => rename(&mut next.design, list, place, name),
        Action::Add(list) => {
            let last = length(&next.design, list).saturating_sub(1);
            copy(next, list, last);
        }
        Action::Copy(list, place) => copy(next, list, place),
        Action::Remove(list, place) => remove(next, list, place),
        Action::MoveUp(list, place) => swap(next, list, place),
        Action::AddAlternative(alternative) => {
            if next.design.alternatives.len() < MAX_ALTERNATIVES {
                next.design.alternatives.push(*alternative);
            }
        }
        Action::NameAlternative(place, name) => {
            if let Some(alternative) = next.design.alternatives.get_mut(place) {
                alternative.name = name;
            }
        }
        Action::Adopt(place) => adopt(next, place),
        Action::RemoveAlternative(place) => {
            if place < next.design.alternatives.len() {
                next.design.alternatives.remove(place);
            }
        }
        Action::Change(edit) => readings::change(next, edit),
        Action::Adjust(design) => {
            let mut drafts = std::mem::take(&mut next.drafts);
            readings::drop_changed(&mut drafts, next, &design);
            next.drafts = drafts;
            next.design = *design;
        }
        Action::Open(design) => {
            next.design = *design;
            next.drafts = Drafts::new();
            next.shown = next
                .shown
                .min(next.design.conditions.len().saturating_sub(1));
        }
        Action::Example => {
            next.design = example::design();
            next.drafts = Drafts::new();
            next.shown = 1;
        }
        Action::Type { .. }
        | Action::Reading(_)
        | Action::Undo
        | Action::Redo
        | Action::Show(_)
        | Action::Units(_) => {}
    }
}

/// Exchanges the design's installation with an alternative; texts typed for the old one go.
fn adopt(next: &mut State, place: usize) {
    let design = &mut next.design;
    if let Some(alternative) = design.alternatives.get_mut(place) {
        std::mem::swap(&mut design.installation, &mut alternative.installation);
        alternative.name = format!("Before “{}”", alternative.name);
        next.drafts
            .retain(|key, _| key.id.starts_with("condition."));
    }
}

fn typed(next: &mut State, key: FieldKey, text: String) {
    let Some(input) = key.input() else { return };
    if let Ok(value) = field::value(input, &text, next.system) {
        input.set(&mut next.design, key.place, value);
    }
    next.drafts.insert(key, text);
}

fn snapshot(state: &State, left_by: Option<FieldKey>) -> Snapshot {
    Snapshot {
        design: state.design.clone(),
        drafts: state.drafts.clone(),
        left_by,
    }
}

fn remember(next: &mut State, state: &State, key: Option<&FieldKey>) {
    let continues = key.is_some()
        && state.future.is_empty()
        && state
            .past
            .last()
            .is_some_and(|last| last.left_by.as_ref() == key);
    if !continues {
        next.past.push(snapshot(state, key.cloned()));
        if next.past.len() > PAST_MAX {
            next.past.remove(0);
        }
    }
    next.future.clear();
}

fn restore(next: &mut State, snapshot: Snapshot) {
    next.design = snapshot.design;
    next.drafts = snapshot.drafts;
    next.shown = next
        .shown
        .min(next.design.conditions.len().saturating_sub(1));
}

/// Number of entries in a list.
#[must_use]
pub fn length(design: &Design, list: List) -> usize {
    match list {
        List::Inlets => design.installation.inlets.len(),
        List::Exits => design.installation.exits.len(),
        List::Conditions => design.conditions.len(),
    }
}

/// Most entries of a list.
#[must_use]
pub fn most(list: List) -> usize {
    match list {
        List::Inlets | List::Exits => MAX_OPENINGS,
        List::Conditions => MAX_CONDITIONS,
    }
}

fn prefix(list: List) -> &'static str {
    match list {
        List::Inlets => "inlet.",
        List::Exits => "exit.",
        List::Conditions => "condition.",
    }
}

fn rename(design: &mut Design, list: List, place: usize, name: String) {
    let slot = match list {
        List::Inlets => design
            .installation
            .inlets
            .get_mut(place)
            .map(|entry| &mut entry.name),
        List::Exits => design
            .installation
            .exits
            .get_mut(place)
            .map(|entry| &mut entry.name),
        List::Conditions => design
            .conditions
            .get_mut(place)
            .map(|entry| &mut entry.name),
    };
    if let Some(slot) = slot {
        *slot = name;
    }
}

fn copy(next: &mut State, list: List, place: usize) {
    if length(&next.design, list) >= most(list) {
        return;
    }
    let installation = &mut next.design.installation;
    match list {
        List::Inlets => insert_copy(&mut installation.inlets, place, |entry| &mut entry.name),
        List::Exits => insert_copy(&mut installation.exits, place, |entry| &mut entry.name),
        List::Conditions => {
            insert_copy(&mut next.design.conditions, place, |entry| &mut entry.name);
        }
    }
    moved(next, list, |at| Some(if at > place { at + 1 } else { at }));
}

fn insert_copy<T: Clone>(entries: &mut Vec<T>, place: usize, name: impl Fn(&mut T) -> &mut String) {
    if let Some(entry) = entries.get(place) {
        let mut entry = entry.clone();
        name(&mut entry).push_str(" (copy)");
        entries.insert(place + 1, entry);
    }
}

fn remove(next: &mut State, list: List, place: usize) {
    if length(&next.design, list) <= 1 || place >= length(&next.design, list) {
        return;
    }
    match list {
        List::Inlets => drop(next.design.installation.inlets.remove(place)),
        List::Exits => drop(next.design.installation.exits.remove(place)),
        List::Conditions => drop(next.design.conditions.remove(place)),
    }
    moved(next, list, |at| match at {
        at if at == place => None,
        at if at > place => Some(at - 1),
        at => Some(at),
    });
    next.shown = next.shown.min(next.design.conditions.len() - 1);
}

fn swap(next: &mut State, list: List, place: usize) {
    if place == 0 || place >= length(&next.design, list) {
        return;
    }
    match list {
        List::Inlets => next.design.installation.inlets.swap(place - 1, place),
        List::Exits => next.design.installation.exits.swap(place - 1, place),
        List::Conditions => next.design.conditions.swap(place - 1, place),
    }
    moved(next, list, |at| {
        Some(match at {
            at if at == place => place - 1,
            at if at + 1 == place => place,
            at => at,
        })
    });
}

/// Lets texts and marks follow their entry when a list changes.
fn moved(next: &mut State, list: List, new_place: impl Fn(usize) -> Option<usize>) {
    let prefix = prefix(list);
    let drafts = std::mem::take(&mut next.drafts);
    next.drafts = drafts
        .into_iter()
        .filter_map(|(key, text)| {
            if !key.id.starts_with(prefix) {
                return Some((key, text));
            }
            new_place(key.place).map(|place| (FieldKey { place, ..key }, text))
        })
        .collect();
    let marks = std::mem::take(&mut next.design.measured);
    next.design.measured = marks
        .into_iter()
        .filter_map(|name| {
            if !name.starts_with(prefix) {
                return Some(name);
            }
            let (id, place) = match name.split_once('#') {
                None => (name.clone(), 0),
                Some((id, at)) => (id.to_owned(), at.parse().ok()?),
            };
            new_place(place).map(|place| mark(&id, place))
        })
        .collect();
}
