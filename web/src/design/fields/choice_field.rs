//! One choice among plain words.

use crate::design::choice_sketches::sketch;
use crate::design::fields::names;
use crate::kit::controls::on_option;
use crate::kit::page::{use_dispatch, use_page};
use crate::state::{Action, choices};
use coolpath_core::document::fault::Spot;
use yew::prelude::*;

/// A choice to show.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Its row in the table of choices.
    pub id: &'static str,
    /// Place in a list.
    #[prop_or_default]
    pub place: usize,
}

/// A choice.
#[function_component]
pub fn ChoiceField(props: &Props) -> Html {
    let (key, place) = (props.id, props.place);
    let dispatch = use_dispatch();
    let (taken, owner, fault) = use_page(move |page| {
        let design = &page.state.design;
        (
            choices::by_id(key).and_then(|choice| (choice.get)(design, place)),
            names::owner(design, key, place),
            page.state.fault_at(Spot::Choice(key, place)),
        )
    });
    let Some(choice) = choices::by_id(key) else {
        return Html::default();
    };
    let taken = taken.unwrap_or_default();
    let id = format!("{}-{place}", key.replace('.', "-"));
    let on_change = on_option(move |option| {
        dispatch.emit(Action::Choose {
            id: key,
            place,
            option,
        });
    });
    // An option that a file brought and this list has not is shown as it is.
    let is_listed = choice.options.iter().any(|option| option.value == taken);
    let fault_id = format!("{id}-fault");
    html! {
        <div class={classes!("field", fault.is_some().then_some("field-fault"))}>
            <label for={id.clone()}>{ names::label(owner.as_deref(), choice.label()) }</label>
            <select id={id} onchange={on_change} aria-invalid={fault.is_some().then_some("true")}
                aria-describedby={fault.is_some().then(|| fault_id.clone())}>
                if !is_listed {
                    <option value={taken.clone()} selected=true>{ taken.clone() }</option>
                }
                { for choice.options.iter().map(|option| html! {
                    <option value={option.value} selected={option.value == taken}>{ option.phrase() }</option>
                }) }
            </select>
            if let Some(lines) = sketch(key, &taken) {
                <svg class="sketch" viewBox="0 0 72 40" aria-hidden="true"><path d={lines} /></svg>
            }
            if let Some(fault) = fault {
                <p class="fault" id={fault_id}>{ fault }</p>
            }
        </div>
    }
}
