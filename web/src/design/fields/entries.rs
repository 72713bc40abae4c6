//! A list of inlets, exits or conditions: each with its name, its fields and what can be done.

use crate::design::fields::group_fields::GroupFields;
use crate::kit::controls::name_field;
use crate::kit::page::{use_dispatch, use_page};
use crate::part;
use crate::state::reduce::{length, most};
use crate::state::{Action, List, State};
use coolpath_core::document::fault::Spot;
use coolpath_core::document::usual_condition::UsualCondition;
use coolpath_core::language::tr;
use yew::prelude::*;

/// A list to show.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// The list.
    pub list: List,
}

/// What a list shows beside the fields of its entries.
#[derive(Debug, Clone, PartialEq)]
struct Shown {
    names: Vec<String>,
    outline_faults: Vec<Option<String>>,
    fault: Option<String>,
    /// Condition that the drawing shows.
    place: usize,
}

impl Shown {
    fn of(state: &State, list: List) -> Self {
        let places = 0..length(&state.design, list);
        let outline = |place| match list {
            List::Inlets => state.fault_at(Spot::Outline(place)),
            List::Exits | List::Conditions => None,
        };
        Self {
            names: places
                .clone()
                .map(|place| name_of(state, list, place))
                .collect(),
            outline_faults: places.map(outline).collect(),
            fault: state.fault_at(Spot::List(words(list).many)),
            place: state.shown,
        }
    }
}

/// Words of a list.
struct Words {
    add: &'static str,
    name: &'static str,
    many: &'static str,
    prefix: &'static str,
}

fn words(list: List) -> Words {
    match list {
        List::Inlets => Words {
            add: tr("Add an inlet"),
            name: tr("Name of the inlet"),
            many: "inlets",
            prefix: "inlet",
        },
        List::Exits => Words {
            add: tr("Add an exit"),
            name: tr("Name of the exit"),
            many: "exits",
            prefix: "exit",
        },
        List::Conditions => Words {
            add: tr("Add a condition"),
            name: tr("Name of the condition"),
            many: "conditions",
            prefix: "condition",
        },
    }
}

fn name_of(state: &State, list: List, place: usize) -> String {
    let installation = &state.design.installation;
    match list {
        List::Inlets => installation
            .inlets
            .get(place)
            .map(|entry| entry.name.clone()),
        List::Exits => installation
            .exits
            .get(place)
            .map(|entry| entry.name.clone()),
        List::Conditions => state
            .design
            .conditions
            .get(place)
            .map(|entry| entry.name.clone()),
    }
    .unwrap_or_default()
}

/// A list of entries.
#[function_component]
pub fn Entries(props: &Props) -> Html {
    let list = props.list;
    let shown = use_page(move |page| Shown::of(&page.state, list));
    let dispatch = use_dispatch();
    let words = words(list);
    html! {
        <>
            if let Some(fault) = &shown.fault {
                <p class="fault">{ fault.clone() }</p>
            }
            { for (0..shown.names.len()).map(|place| entry(list, &shown, place, &dispatch)) }
            <button type="button" class="quiet" disabled={shown.names.len() >= most(list)}
                onclick={dispatch.reform(move |_: MouseEvent| Action::Add(list))}>
                { words.add }
            </button>
            if list == List::Conditions {
                { usual_conditions(shown.names.len() >= most(list), &dispatch) }
            }
        </>
    }
}

/// Conditions that bind many cowls, to be added at once.
fn usual_conditions(full: bool, dispatch: &Callback<Action>) -> Html {
    html! {
        <p class="usual">
            <span>{ tr("Often forgotten: ") }</span>
            { for UsualCondition::ALL.into_iter().map(|usual| html! {
                <button type="button" class="quiet" disabled={full}
                    onclick={dispatch.reform(move |_: MouseEvent| Action::AddUsual(usual))}>
                    { tr!("Add “{}”", usual.name()) }
                </button>
            }) }
        </p>
    }
}

fn entry(list: List, shown: &Shown, place: usize, dispatch: &Callback<Action>) -> Html {
    let words = words(list);
    let (name, count) = (shown.names[place].clone(), shown.names.len());
    let on_name = {
        let dispatch = dispatch.clone();
        move |name| dispatch.emit(Action::Name { list, place, name })
    };
    let button = |text: &'static str, action: Action, disabled: bool| {
        let label = format!("{text} {name}");
        html! {
            <button type="button" class="quiet" aria-label={label} {disabled}
                onclick={dispatch.reform(move |_: MouseEvent| action.clone())}>{ text }</button>
        }
    };
    // Conditions are many: only the one that the drawing shows stands open at first.
    let open = list != List::Conditions || place == shown.place;
    html! {
        <details class="entry" key={format!("{}-{place}", words.prefix)} {open}>
            <summary>{ name.clone() }</summary>
            { name_field(format!("{}-name-{place}", words.prefix), words.name, &name, on_name) }
            if let Some(fault) = &shown.outline_faults[place] {
                <p class="fault">{ fault.clone() }</p>
            }
            { part!(GroupFields { prefix: words.prefix, place }) }
            <div class="buttons">
                if list == List::Conditions {
                    { button(tr("Show in the drawing"), Action::Show(place), place == shown.place) }
                    { button(tr("Move up"), Action::MoveUp(list, place), place == 0) }
                }
                { button(tr("Copy"), Action::Copy(list, place), count >= most(list)) }
                { button(tr("Remove"), Action::Remove(list, place), count <= 1) }
            </div>
        </details>
    }
}
