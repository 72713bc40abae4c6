//! A design that came with the page's link.

use crate::browser::{storage, window};
use crate::kit::page::{use_dispatch, use_notify};
use crate::share::code::{design_of_code, is_code};
use crate::state::Action;
use coolpath_core::language::tr;
use yew::prelude::*;

/// The code that the link's fragment carries, if it carries one.
fn shared_code() -> Option<String> {
    let fragment = window::fragment();
    is_code(&fragment).then_some(fragment)
}

/// A design that came with the link: opened at once where nothing is stored yet, else asked about, since
/// nothing is replaced without asking.
#[function_component]
pub fn Arrived() -> Html {
    let (dispatch, notify) = (use_dispatch(), use_notify());
    let arrived = use_state(shared_code);
    // Nothing is stored before the page has been drawn once.
    let has_nothing = use_state(|| !storage::holds_any() && storage::kept_names().is_empty());
    {
        let (arrived, dispatch) = (arrived.clone(), dispatch.clone());
        use_effect_with((), move |()| {
            if let Some(design) = arrived
                .as_ref()
                .filter(|_| *has_nothing)
                .and_then(|code| design_of_code(code).ok())
            {
                notify.emit(tr!("“{}” came with the link and is open.", design.name));
                dispatch.emit(Action::Open(Box::new(design)));
                window::drop_fragment();
                arrived.set(None);
            }
            window::on_fragment(move || {
                if let Some(code) = shared_code() {
                    arrived.set(Some(code));
                }
            })
        });
    }
    let Some(code) = (*arrived).clone() else {
        return Html::default();
    };
    let done = {
        let arrived = arrived.clone();
        move || {
            window::drop_fragment();
            arrived.set(None);
        }
    };
    let keep = {
        let done = done.clone();
        Callback::from(move |_: MouseEvent| done())
    };
    match design_of_code(&code) {
        Err(sentence) => html! {
            <p class="question" id="arrived" role="alert">{ tr!("The link carries a design that cannot be opened. {} ", sentence) }
                <button type="button" onclick={keep}>{ tr("Close") }</button></p>
        },
        Ok(design) => {
            let name = design.name.clone();
            let take = {
                let dispatch = dispatch.clone();
                Callback::from(move |_: MouseEvent| {
                    dispatch.emit(Action::Open(Box::new(design.clone())));
                    done();
                })
            };
            html! {
                <p class="question" id="arrived" role="alert">{ tr!("The link carries the design “{}”. Open it in place of what stands here? Undo brings yours back. ", name) }
                    <button type="button" onclick={take}>{ tr("Open it") }</button>
                    <button type="button" onclick={keep}>{ tr("Keep mine") }</button></p>
            }
        }
    }
}
