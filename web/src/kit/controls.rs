//! What controls say when they are used: a text, a tick, an option, a part that is unfolded.

use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement, HtmlSelectElement, HtmlTextAreaElement};
use yew::prelude::*;

/// Hears the text of a field, whole, at every keystroke.
pub fn on_text(heard: impl Fn(String) + 'static) -> Callback<InputEvent> {
    Callback::from(move |event: InputEvent| {
        let Some(target) = event.target() else { return };
        if let Some(field) = target.dyn_ref::<HtmlInputElement>() {
            heard(field.value());
        } else if let Some(field) = target.dyn_ref::<HtmlTextAreaElement>() {
            heard(field.value());
        }
    })
}

/// Hears whether a box was ticked.
pub fn on_tick(heard: impl Fn(bool) + 'static) -> Callback<Event> {
    Callback::from(move |event: Event| {
        if let Some(field) = event.target_dyn_into::<HtmlInputElement>() {
            heard(field.checked());
        }
    })
}

/// Hears the value of the option that was chosen.
pub fn on_option(heard: impl Fn(String) + 'static) -> Callback<Event> {
    Callback::from(move |event: Event| {
        if let Some(list) = event.target_dyn_into::<HtmlSelectElement>() {
            heard(list.value());
        }
    })
}

/// Hears the place of the option that was chosen.
pub fn on_place(heard: impl Fn(usize) + 'static) -> Callback<Event> {
    Callback::from(move |event: Event| {
        if let Some(list) = event.target_dyn_into::<HtmlSelectElement>()
            && let Ok(place) = usize::try_from(list.selected_index())
        {
            heard(place);
        }
    })
}

/// Whether a part that unfolds stands open, and what its element is to call when that changes.
#[hook]
pub fn use_unfolding() -> (UseStateHandle<bool>, Callback<Event>) {
    let open = use_state(|| false);
    let on_toggle = {
        let open = open.clone();
        Callback::from(move |event: Event| {
            if let Some(part) = event.target_dyn_into::<Element>() {
                open.set(part.has_attribute("open"));
            }
        })
    };
    (open, on_toggle)
}

/// A field with its label above it, for a name or a note.
pub fn name_field(
    id: impl Into<AttrValue>,
    label: impl Into<AttrValue>,
    text: &str,
    heard: impl Fn(String) + 'static,
) -> Html {
    let id: AttrValue = id.into();
    html! {
        <div class="field">
            <label for={id.clone()}>{ label.into() }</label>
            <input {id} type="text" autocomplete="off" value={text.to_owned()} oninput={on_text(heard)} />
        </div>
    }
}

/// A list of options with its label above it; `heard` gets the place of the one that was chosen.
pub fn option_field(
    id: &'static str,
    label: &'static str,
    options: impl IntoIterator<Item = String>,
    chosen: usize,
    heard: impl Fn(usize) + 'static,
) -> Html {
    html! {
        <div class="field">
            <label for={id}>{ label }</label>
            <select {id} onchange={on_place(heard)}>
                { for options.into_iter().enumerate().map(|(at, option)| html! {
                    <option selected={at == chosen}>{ option }</option>
                }) }
            </select>
        </div>
    }
}
