//! Name, file, example.

use crate::browser::files;
use crate::kit::controls::name_field;
use crate::kit::page::{use_dispatch, use_notify, use_page};
use crate::state::{Action, document};
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use web_sys::HtmlInputElement;
use yew::platform::spawn_local;
use yew::prelude::*;

/// The toolbar.
#[function_component]
pub fn Toolbar() -> Html {
    let design = use_page(|page| page.design.clone());
    let (dispatch, notify) = (use_dispatch(), use_notify());
    let asking = use_state(|| false);
    let on_name = {
        let dispatch = dispatch.clone();
        move |name| dispatch.emit(Action::NameDesign(name))
    };
    let on_save = {
        let (design, notify) = (design.clone(), notify.clone());
        Callback::from(move |_: MouseEvent| notify.emit(save(&design)))
    };
    let on_open = {
        let (dispatch, notify) = (dispatch.clone(), notify.clone());
        Callback::from(move |event: Event| {
            let Some(element) = event.target_dyn_into::<HtmlInputElement>() else {
                return;
            };
            let Some(file) = element.files().and_then(|files| files.get(0)) else {
                return;
            };
            element.set_value("");
            open(file, dispatch.clone(), notify.clone());
        })
    };
    let ask = {
        let asking = asking.clone();
        Callback::from(move |_: MouseEvent| asking.set(!*asking))
    };
    let example = {
        let (asking, dispatch) = (asking.clone(), dispatch.clone());
        Callback::from(move |_: MouseEvent| {
            asking.set(false);
            dispatch.emit(Action::Example);
        })
    };
    html! {
        <div class="toolbar">
            { name_field("design-name", tr("Aircraft"), &design.name, on_name) }
            <div class="buttons">
                <button type="button" onclick={on_save}>{ tr("Save to a file") }</button>
                <label class="button" for="open-file">{ tr("Open a file") }</label>
                <input id="open-file" class="visually-hidden" type="file" accept=".json,application/json" onchange={on_open} />
                <button type="button" onclick={ask.clone()}>{ tr("Back to the example") }</button>
            </div>
            if *asking {
                <p class="question" role="alert">
                    { tr("This replaces your inputs by the example. Undo brings them back. ") }
                    <button type="button" onclick={example}>{ tr("Replace them") }</button>
                    <button type="button" onclick={ask}>{ tr("Keep mine") }</button>
                </p>
            }
        </div>
    }
}

/// Saves a design to a file, and says what came of it.
pub fn save(design: &Design) -> String {
    let name = document::file_name(design);
    match document::file_text(design) {
        Ok(text) => files::told(&name, files::download(&name, "application/json", &text)),
        Err(error) => tr!("The design could not be written to a file: {}", error),
    }
}

/// Opens a design file; on any fault nothing changes but the notice.
pub fn open(file: web_sys::File, dispatch: Callback<Action>, notify: Callback<String>) {
    spawn_local(async move {
        let name = file.name();
        let opened = match files::text_of(file).await {
            Ok(text) => document::opening(&text),
            Err(sentence) => Err(sentence),
        };
        match opened {
            Ok(action) => {
                dispatch.emit(action);
                notify.emit(tr!(
                    "{} is open. Undo brings back what stood here before.",
                    name
                ));
            }
            Err(sentence) => notify.emit(sentence),
        }
    });
}
