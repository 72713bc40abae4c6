//! The reducer: a state and an action give the next state.

use crate::state::action::{Action, List};
use crate::state::choices;
use crate::state::field;
use crate::state::field_key::FieldKey;
use crate::state::history;
use crate::state::json;
use crate::state::page::Drafts;
use crate::state::page::State;
use crate::state::panel_texts;
use crate::state::readings;
use crate::state::readings::ReadingEdit;
use coolpath_core::document::alternative::MAX_ALTERNATIVES;
use coolpath_core::document::condition::Condition;
use coolpath_core::document::design::{Assumed, Design, MAX_CONDITIONS, mark};
use coolpath_core::document::example;
use coolpath_core::document::installation::Installation;
use coolpath_core::document::table::Input;
use coolpath_core::language::tr;
use coolpath_core::path::openings::MAX_OPENINGS;
use coolpath_core::units::typed::UnitSystem;
use serde::Serialize;
use serde::de::DeserializeOwned;

/// The next state.
#[must_use]
pub fn reduce(state: &State, action: Action) -> State {
    let mut next = state.clone();
    match action {
        Action::Undo => {
            history::undo(&mut next);
            return next;
        }
        Action::Redo => {
            history::redo(&mut next);
            return next;
        }
        Action::Show(place) => {
            next.shown = place.min(next.design.conditions.len().saturating_sub(1));
            return next;
        }
        Action::Units(system) => switch_units(&mut next, state, system),
        Action::Type { key, text } => {
            history::remember(&mut next, state, Some(&key), None);
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
            history::remember(&mut next, state, key.as_ref(), None);
            readings::edit(&mut next, edit);
        }
        other => {
            if !can_be_kept(&other) {
                return next;
            }
            history::remember(&mut next, state, None, deed(state, &other));
            changed(&mut next, other);
        }
    }
    next
}

/// Whether what an action brings can be written and read again: a number that is none, from a
/// computation gone wrong, never enters the design.
fn can_be_kept(action: &Action) -> bool {
    fn returns<T: Serialize + DeserializeOwned>(value: &T) -> bool {
        json::value(value)
            .and_then(|value| json::of_value::<T>(&value))
            .is_ok()
    }
    match action {
        Action::Set { value, .. } => value.is_finite(),
        Action::AddAlternative(alternative) => returns(alternative.as_ref()),
        Action::Adjust(design) | Action::Open(design) => returns(design.as_ref()),
        Action::BringBack(state) => returns(&state.design),
        _ => true,
    }
}

/// What an action does, in words, where the difference of the states does not say it.
fn deed(state: &State, action: &Action) -> Option<String> {
    match action {
        Action::Adopt(place) => {
            let alternative = state.design.alternatives.get(*place)?;
            Some(tr!("adopting “{}”", alternative.name))
        }
        Action::Open(design) => Some(tr!("opening “{}”", design.name)),
        Action::BringBack(state) => Some(tr!("bringing back “{}”", state.design.name)),
        Action::Example => Some(tr("going back to the example").to_owned()),
        Action::Copy(..) => Some(tr("copying an entry").to_owned()),
        Action::Remove(..) => Some(tr("removing an entry").to_owned()),
        Action::MoveUp(..) => Some(tr("moving an entry up").to_owned()),
        _ => None,
    }
}

/// Shows other units: a valid text stands for a value, which is shown anew; another is kept, and
/// where it means something in the new units, the value that it shows is taken.
fn switch_units(next: &mut State, state: &State, system: UnitSystem) {
    next.system = system;
    next.drafts.retain(|key, text| {
        key.input()
            .is_some_and(|input| field::value(input, text, state.system).is_err())
            || readings::is_kept_on_switch(state, key, text)
            || panel_texts::is_known(key)
    });
    panel_texts::switch_units(&mut next.drafts, state.system, system);
    let now_valid: Vec<(FieldKey, f64)> = next
        .drafts
        .iter()
        .filter_map(|(key, text)| {
            let value = field::value(key.input()?, text, system).ok()?;
            Some((key.clone(), value))
        })
        .collect();
    for (key, value) in now_valid {
        if let Some(input) = key.input() {
            set(&mut next.design, input, key.place, value);
        }
    }
    readings::take_valid(next);
    if next.design != state.design {
        history::remember(
            next,
            state,
            None,
            Some(tr("another unit system").to_owned()),
        );
    }
}

/// Sets an input; another value than the one that was measured is no longer measured, and none is assumed any more.
fn set(design: &mut Design, input: &Input, place: usize, value: f64) {
    let name = mark(input.id, place);
    design.assumed.retain(|taken| taken.input != name);
    let before = input.value(design, place);
    if before.is_some_and(|before| before.to_bits() != value.to_bits()) {
        design.measured.retain(|other| *other != name);
    }
    input.set(design, place, value);
}

fn changed(next: &mut State, action: Action) {
    match action {
        Action::Choose { id, place, option } => {
            if let Some(choice) = choices::by_id(id) {
                (choice.set)(&mut next.design, place, &option);
            }
        }
        Action::Limit { key, text, which } => {
            note_limit(&mut next.design, &key, which);
            typed(next, key, text);
        }
        Action::Set { key, value } => {
            if let Some(input) = key.input() {
                set(&mut next.design, input, key.place, value);
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
        Action::Note(texts) => note(&mut next.drafts, texts),
        Action::NameDesign(name) => next.design.name = name,
        Action::NotePage(page) => next.design.installation.engine.limits_page = page,
        Action::Name { list, place, name } => rename(&mut next.design, list, place, name),
        Action::Add(list) => match length(&next.design, list).checked_sub(1) {
            Some(last) => copy(next, list, last),
            None => begin(&mut next.design, list),
        },
        Action::AddUsual(usual) => {
            if next.design.conditions.len() < MAX_CONDITIONS {
                let made = usual.of(&next.design);
                next.design.conditions.push(made);
            }
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
            next.show_within();
        }
        Action::BringBack(state) => {
            let State {
                design,
                drafts,
                system,
                column_units,
                ..
            } = *state;
            next.design = design;
            next.drafts = drafts;
            next.system = system;
            next.column_units = column_units;
            next.show_within();
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
        alternative.name = tr!("Before “{}”", alternative.name);
        next.drafts
            .retain(|key, _| key.id.starts_with("condition.") || panel_texts::is_known(key));
    }
}

/// Notes with the page of the manual which limit is given: words of the document, the same in every language.
fn note_limit(design: &mut Design, key: &FieldKey, which: &str) {
    let of = if key.id == "engine.oil_limit_k" {
        "oil"
    } else {
        "head"
    };
    let begins = format!("{of} limit is the ");
    let page = &mut design.installation.engine.limits_page;
    let mut notes: Vec<String> = page
        .split("; ")
        .filter(|note| !note.is_empty() && !note.starts_with(&begins))
        .map(str::to_owned)
        .collect();
    let limit = if which == "redline" {
        "redline"
    } else {
        "continuous limit"
    };
    notes.push(format!("{begins}{limit}"));
    *page = notes.join("; ");
}

fn typed(next: &mut State, key: FieldKey, text: String) {
    match key.input() {
        Some(input) => {
            if let Ok(value) = field::value(input, &text, next.system) {
                set(&mut next.design, input, key.place, value);
            }
        }
        None if panel_texts::is_known(&key) => {}
        None => return,
    }
    next.drafts.insert(key, text);
}

/// Writes texts of panels, or takes them away.
fn note(drafts: &mut Drafts, texts: Vec<(FieldKey, Option<String>)>) {
    for (key, text) in texts {
        match text.filter(|_| panel_texts::is_known(&key)) {
            Some(text) => drop(drafts.insert(key, text)),
            None => drop(drafts.remove(&key)),
        }
    }
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

/// The first entry of a list that a file left empty.
fn begin(design: &mut Design, list: List) {
    let usual = Installation::default();
    match list {
        List::Inlets => design.installation.inlets = usual.inlets,
        List::Exits => design.installation.exits = usual.exits,
        List::Conditions => design.conditions.push(Condition::default()),
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
        name(&mut entry).push_str(tr(" (copy)"));
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
    next.show_within();
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

/// Lets texts, marks and what is shown follow their entry when a list changes.
fn moved(next: &mut State, list: List, new_place: impl Fn(usize) -> Option<usize>) {
    let prefix = prefix(list);
    if list == List::Conditions {
        next.shown = new_place(next.shown).unwrap_or(next.shown);
    }
    let drafts = std::mem::take(&mut next.drafts);
    next.drafts = drafts
        .into_iter()
        .filter_map(|(key, text)| {
            let follows = list == List::Conditions && key.id == panel_texts::MINUTES;
            if !follows && !key.id.starts_with(prefix) {
                return Some((key, text));
            }
            new_place(key.place).map(|place| (FieldKey { place, ..key }, text))
        })
        .collect();
    let moved_mark = |name: &str| {
        if !name.starts_with(prefix) {
            return Some(name.to_owned());
        }
        let (id, place) = match name.split_once('#') {
            None => (name, 0),
            Some((id, at)) => (id, at.parse().ok()?),
        };
        new_place(place).map(|place| mark(id, place))
    };
    let design = &mut next.design;
    design.measured = design
        .measured
        .iter()
        .filter_map(|name| moved_mark(name))
        .collect();
    let assumed = std::mem::take(&mut design.assumed).into_iter();
    design.assumed = assumed
        .filter_map(|taken| {
            let input = moved_mark(&taken.input)?;
            Some(Assumed { input, ..taken })
        })
        .collect();
}
