//! A list of inlets, exits or conditions: each with its name, its fields and what can be done.

use crate::design::fields::group_fields::GroupFields;
use crate::kit::controls::on_text;
use crate::state::reduce::{length, most};
use crate::state::{Action, List, State};
use coolpath_core::document::fault::Spot;
use std::rc::Rc;
use yew::prelude::*;

/// A list to show.
#[derive(Properties, Clone)]
pub struct Props {
    /// The list.
    pub list: List,
    /// State of the page.
    pub state: Rc<State>,
    /// What editing does.
    pub dispatch: Callback<Action>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        self.list == other.list && Rc::ptr_eq(&self.state, &other.state)
    }
}

/// Words of a list.
struct Words {
    one: &'static str,
    many: &'static str,
    prefix: &'static str,
}

fn words(list: List) -> Words {
    match list {
        List::Inlets => Words {
            one: "inlet",
            many: "inlets",
            prefix: "inlet",
        },
        List::Exits => Words {
            one: "exit",
            many: "exits",
            prefix: "exit",
        },
        List::Conditions => Words {
            one: "condition",
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
    let Props {
        list,
        state,
        dispatch,
    } = props;
    let list = *list;
    let count = length(&state.design, list);
    let words = words(list);
    html! {
        <>
            if let Some(fault) = state.fault_at(Spot::List(words.many)) {
                <p class="fault">{ fault }</p>
            }
            { for (0..count).map(|place| entry(props, list, place, count)) }
            <button type="button" class="quiet" disabled={count >= most(list)}
                onclick={dispatch.reform(move |_: MouseEvent| Action::Add(list))}>
                { format!("Add {} {}", if words.one.starts_with(['i', 'e']) { "an" } else { "a" }, words.one) }
            </button>
        </>
    }
}

fn entry(props: &Props, list: List, place: usize, count: usize) -> Html {
    let Props {
        state, dispatch, ..
    } = props;
    let words = words(list);
    let name = name_of(state, list, place);
    let id = format!("{}-name-{place}", words.prefix);
    let on_name = {
        let dispatch = dispatch.clone();
        on_text(move |text| {
            dispatch.emit(Action::Name {
                list,
                place,
                name: text,
            });
        })
    };
    let button = |text: &'static str, action: Action, disabled: bool| {
        let label = format!("{text} {name}");
        html! {
            <button type="button" class="quiet" aria-label={label} {disabled}
                onclick={dispatch.reform(move |_: MouseEvent| action.clone())}>{ text }</button>
        }
    };
    // Conditions are many: only the one that the drawing shows stands open at first.
    let open = list != List::Conditions || place == state.shown;
    html! {
        <details class="entry" key={format!("{}-{place}", words.prefix)} {open}>
            <summary>{ name.clone() }</summary>
            <div class="field">
                <label for={id.clone()}>{ format!("Name of the {}", words.one) }</label>
                <input id={id} type="text" autocomplete="off" value={name.clone()} oninput={on_name} />
            </div>
            if list == List::Inlets {
                if let Some(fault) = state.fault_at(Spot::Outline(place)) {
                    <p class="fault">{ fault }</p>
                }
            }
            <GroupFields prefix={words.prefix} {place} state={state.clone()} dispatch={dispatch.clone()} />
            <div class="buttons">
                if list == List::Conditions {
                    { button("Show in the drawing", Action::Show(place), place == state.shown) }
                    { button("Move up", Action::MoveUp(list, place), place == 0) }
                }
                { button("Copy", Action::Copy(list, place), count >= most(list)) }
                { button("Remove", Action::Remove(list, place), count <= 1) }
            </div>
        </details>
    }
}
