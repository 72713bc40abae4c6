//! What differs between two states of the page, in words.

use crate::state::choices;
use crate::state::compared::View;
use crate::state::field;
use crate::state::field_key::FieldKey;
use crate::state::page::{Drafts, State};
use crate::state::panel_texts;
use crate::state::readings;
use coolpath_core::document::design::Design;
use coolpath_core::document::table::Input;
use coolpath_core::language::{counted, tr};
use coolpath_core::units::typed;

/// One thing that differs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Difference {
    /// What it is, such as an input's label.
    pub name: String,
    /// What happened to it, with its name.
    pub words: String,
    /// Whether it is a numeric input.
    pub is_input: bool,
}

/// Everything that differs, the numeric inputs first.
#[must_use]
pub fn differences(before: View<'_>, after: View<'_>) -> Vec<Difference> {
    let mut found = Vec::new();
    inputs(before, after, &mut found);
    chosen(before.design, after.design, &mut found);
    lists(before.design, after.design, &mut found);
    names(before.design, after.design, &mut found);
    rest(before, after, &mut found);
    for (name, words) in panel_texts::differences(before, after) {
        note(&mut found, name, words);
    }
    found
}

/// One difference in words; several by their number and the names of up to three.
#[must_use]
pub fn told(found: &[Difference]) -> Option<String> {
    match found {
        [] => None,
        [one] => Some(one.words.clone()),
        many => Some(listed(many)),
    }
}

/// The number of inputs and of other things that differ, and the names of up to three.
#[must_use]
pub fn listed(found: &[Difference]) -> String {
    let inputs = found.iter().filter(|one| one.is_input).count();
    let others = found.len() - inputs;
    let counts: Vec<String> = [
        (inputs, counted(inputs, "input", "inputs")),
        (others, counted(others, "other change", "other changes")),
    ]
    .into_iter()
    .filter(|(count, _)| *count > 0)
    .map(|(_, words)| words)
    .collect();
    let names: Vec<&str> = found.iter().take(3).map(|one| one.name.as_str()).collect();
    let more = if found.len() > 3 { ", …" } else { "" };
    if counts.is_empty() {
        return tr("nothing").to_owned();
    }
    format!("{}: {}{more}", counts.join(tr(" and ")), names.join(", "))
}

/// Number of an input's entry where there are several, such as " 2".
fn ordinal(design: &Design, input: &Input, place: usize) -> String {
    let several = place > 0 || input.value(design, 1).is_some();
    if several {
        format!(" {}", place + 1)
    } else {
        String::new()
    }
}

fn shown(view: View<'_>, input: &'static Input, place: usize) -> (String, bool) {
    match view.drafts.get(&FieldKey::new(input.id, place)) {
        Some(draft) => (draft.clone(), true),
        None => {
            let value = input.value(view.design, place);
            let text = value.map(|si| field::shown(si, input.dimension, view.system));
            (text.unwrap_or_default(), false)
        }
    }
}

fn inputs(before: View<'_>, after: View<'_>, found: &mut Vec<Difference>) {
    for (input, place) in after.design.places() {
        let Some(old) = input.value(before.design, place) else {
            continue;
        };
        let same_value = input.value(after.design, place).map(f64::to_bits) == Some(old.to_bits());
        let key = FieldKey::new(input.id, place);
        let same_text = before.drafts.get(&key) == after.drafts.get(&key);
        // A text that is merely shown anew is no change.
        let only_shown = before.drafts.contains_key(&key) != after.drafts.contains_key(&key)
            && shown(before, input, place).0 == shown(after, input, place).0;
        if same_value && (same_text || only_shown || before.system != after.system) {
            continue;
        }
        let name = format!("{}{}", input.label, ordinal(after.design, input, place));
        let text = |view: View<'_>| match shown(view, input, place) {
            (text, true) if typed::parse(&text, input.dimension, view.system).is_err() => {
                format!("“{text}”")
            }
            (text, _) => text,
        };
        let (old, new) = (text(before), text(after));
        let unit = input.dimension.shown(after.system).symbol;
        // A text may have been typed with a unit of its own.
        let own = new
            .chars()
            .any(|letter| letter.is_alphabetic() || letter == '°');
        let unit = if own || unit.is_empty() {
            String::new()
        } else {
            format!(" {unit}")
        };
        found.push(Difference {
            words: format!("{name} {old} → {new}{unit}"),
            name,
            is_input: true,
        });
    }
}

fn note(found: &mut Vec<Difference>, name: &str, words: String) {
    found.push(Difference {
        name: name.to_owned(),
        words,
        is_input: false,
    });
}

fn chosen(before: &Design, after: &Design, found: &mut Vec<Difference>) {
    for choice in choices::all() {
        for place in 0.. {
            let (Some(old), Some(new)) = ((choice.get)(before, place), (choice.get)(after, place))
            else {
                break;
            };
            if old != new {
                let option = choice.options.iter().find(|option| option.value == new);
                let phrase = option.map_or(new.as_str(), |option| option.phrase());
                note(
                    found,
                    choice.label(),
                    format!("{}: {phrase}", choice.label()),
                );
            }
        }
    }
}

fn lists(before: &Design, after: &Design, found: &mut Vec<Difference>) {
    for ((one, more), old, new) in [
        (
            (tr("inlet"), tr("inlets")),
            before.installation.inlets.len(),
            after.installation.inlets.len(),
        ),
        (
            (tr("exit"), tr("exits")),
            before.installation.exits.len(),
            after.installation.exits.len(),
        ),
        (
            (tr("condition"), tr("conditions")),
            before.conditions.len(),
            after.conditions.len(),
        ),
        (
            (tr("alternative"), tr("alternatives")),
            before.alternatives.len(),
            after.alternatives.len(),
        ),
        (
            (tr("reading"), tr("readings")),
            before.readings.len(),
            after.readings.len(),
        ),
        (
            (tr("change"), tr("changes")),
            before.changes.len(),
            after.changes.len(),
        ),
    ] {
        let words = match (old, new) {
            (old, new) if new == old + 1 => tr!("one more {}", one),
            (old, new) if old == new + 1 => tr!("one {} less", one),
            (old, new) if old == new => continue,
            _ => tr!("{} {} instead of {}", new, more, old),
        };
        note(found, more, words);
    }
}

fn names(before: &Design, after: &Design, found: &mut Vec<Difference>) {
    let mut one = |what: &str, old: &str, new: &str| {
        if old != new {
            note(found, what, format!("{what} “{old}” → “{new}”"));
        }
    };
    one(tr("name of the design"), &before.name, &after.name);
    one(
        tr("page of the limits"),
        &before.installation.engine.limits_page,
        &after.installation.engine.limits_page,
    );
    let (old, new) = (&before.installation, &after.installation);
    for (old, new) in old.inlets.iter().zip(&new.inlets) {
        one(tr("name of an inlet"), &old.name, &new.name);
    }
    for (old, new) in old.exits.iter().zip(&new.exits) {
        one(tr("name of an exit"), &old.name, &new.name);
    }
    for (old, new) in before.conditions.iter().zip(&after.conditions) {
        one(tr("name of a condition"), &old.name, &new.name);
    }
}

fn rest(before: View<'_>, after: View<'_>, found: &mut Vec<Difference>) {
    let (old, new) = (before.design, after.design);
    let same_count = |old: usize, new: usize| old == new;
    let mut one = |what: &str, differs: bool| {
        if differs {
            note(found, what, tr!("change of {}", what));
        }
    };
    one(tr("what was measured"), old.measured != new.measured);
    one(tr("calibrated ranges"), old.calibrated != new.calibrated);
    let outlines = |design: &Design| -> Vec<Vec<[f64; 2]>> {
        let inlets = design.installation.inlets.iter();
        inlets.map(|inlet| inlet.outline.clone()).collect()
    };
    let inlets = (old.installation.inlets.len(), new.installation.inlets.len());
    one(
        tr("traced outlines"),
        same_count(inlets.0, inlets.1) && outlines(old) != outlines(new),
    );
    one(
        tr("alternatives"),
        same_count(old.alternatives.len(), new.alternatives.len())
            && old.alternatives != new.alternatives,
    );
    let cells = |drafts: &Drafts| -> Vec<(FieldKey, String)> {
        let others = drafts.iter().filter(|(key, _)| readings::is_known(key));
        others
            .map(|(key, text)| (key.clone(), text.clone()))
            .collect()
    };
    one(
        tr("readings"),
        same_count(old.readings.len(), new.readings.len())
            && (old.readings != new.readings
                || old.instruments != new.instruments
                || cells(before.drafts) != cells(after.drafts)),
    );
    one(
        tr("change log"),
        same_count(old.changes.len(), new.changes.len()) && old.changes != new.changes,
    );
}

impl State {
    /// What undo takes back; `None` where there is nothing.
    #[must_use]
    pub fn undo_name(&self) -> Option<String> {
        let before = self.past.last()?;
        let said = || told(&differences((&**before).into(), self.into()));
        before.did.clone().or_else(said).or_else(same)
    }

    /// What redo brings again; `None` where there is nothing.
    #[must_use]
    pub fn redo_name(&self) -> Option<String> {
        let after = self.future.last()?;
        let said = || told(&differences(self.into(), (&**after).into()));
        after.did.clone().or_else(said).or_else(same)
    }
}

fn same() -> Option<String> {
    Some(tr("the last edit").to_owned())
}
