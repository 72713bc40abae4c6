//! The header: name, aircraft menu, views, undo, units, share, print.

use crate::browser::window;
use crate::kit::controls::on_option;
use crate::share::panel::Share;
use crate::shell::route::View;
use crate::shell::shelf::Shelf;
use crate::shell::toolbar::Toolbar;
use crate::state::{Action, State};
use coolpath_core::document::design::Design;
use coolpath_core::units::typed::UnitSystem;
use std::rc::Rc;
use yew::prelude::*;

/// What the header needs.
#[derive(Properties, Clone)]
pub struct Props {
    /// View that is shown.
    pub view: View,
    /// State of the page.
    pub state: Rc<State>,
    /// Design.
    pub design: Rc<Design>,
    /// What the buttons do.
    pub dispatch: Callback<Action>,
    /// Shows a sentence.
    pub notify: Callback<String>,
    /// Begins the questions of one's own aircraft.
    pub on_ask: Callback<()>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        self.view == other.view && Rc::ptr_eq(&self.state, &other.state)
    }
}

/// The header.
#[function_component]
pub fn Header(props: &Props) -> Html {
    let Props {
        view,
        state,
        design,
        dispatch,
        notify,
        on_ask,
    } = props;
    let ask = on_ask.reform(|_: MouseEvent| ());
    let name = if design.name.trim().is_empty() {
        "Unnamed aircraft".to_owned()
    } else {
        design.name.clone()
    };
    html! {
        <header class="top">
            <h1 class="brand">{ emblem() }{ "Coolpath" }</h1>
            <details class="menu aircraft">
                <summary><span class="menu-name">{ name }</span></summary>
                <div class="menu-body">
                    <Toolbar state={state.clone()} dispatch={dispatch.clone()} notify={notify.clone()} />
                    <div class="buttons"><button type="button" onclick={ask}>{ "Enter my aircraft" }</button></div>
                    <Shelf state={state.clone()} dispatch={dispatch.clone()} notify={notify.clone()} />
                </div>
            </details>
            <nav class="tabs" aria-label="Views">
                { for View::ALL.into_iter().map(|to| html! {
                    <a href={format!("#{}", to.fragment())} aria-current={(to == *view).then_some("page")}>
                        <svg viewBox="0 0 24 24" aria-hidden="true"><path d={to.sign()} /></svg>{ to.name() }
                    </a>
                }) }
            </nav>
            { tools(props) }
        </header>
    }
}

fn tools(props: &Props) -> Html {
    let Props {
        state,
        design,
        dispatch,
        notify,
        ..
    } = props;
    let on_units = {
        let dispatch = dispatch.clone();
        on_option(move |option| {
            let system = match option.as_str() {
                "metric" => UnitSystem::Metric,
                _ => UnitSystem::Customary,
            };
            dispatch.emit(Action::Units(system));
        })
    };
    let print = Callback::from(|_: MouseEvent| window::print());
    let customary = state.system == UnitSystem::Customary;
    let undone = state.undo_name();
    html! {
        <div class="tools">
            <button type="button" class="undo" data-what={undone.as_ref().map(|what| format!(": {what}"))}
                title={undone.map(|what| format!("Undo: {what}"))}
                onclick={dispatch.reform(|_: MouseEvent| Action::Undo)} disabled={state.past.is_empty()}>{ "Undo" }</button>
            <button type="button" class="flat redo" onclick={dispatch.reform(|_: MouseEvent| Action::Redo)} disabled={state.future.is_empty()}>{ "Redo" }</button>
            <label class="visually-hidden" for="units">{ "Units" }</label>
            <select id="units" onchange={on_units}>
                <option value="customary" selected={customary}>{ "in, °F, kt, inH₂O" }</option>
                <option value="metric" selected={!customary}>{ "mm, °C, km/h, Pa" }</option>
            </select>
            <Share design={design.clone()} dispatch={dispatch.clone()} notify={notify.clone()} />
            <button type="button" class="flat" onclick={print}>{ "Print" }</button>
        </div>
    }
}

fn emblem() -> Html {
    html! {
        <svg class="emblem" width="30" height="22" viewBox="0 0 30 22" aria-hidden="true">
            <path class="emblem-cool" d="M1 6h9c5 0 4 10 9 10" />
            <path class="emblem-hot" d="M19 16h10M25 12l4 4-4 4" />
            <circle cx="14.5" cy="11" r="2.2" />
        </svg>
    }
}
