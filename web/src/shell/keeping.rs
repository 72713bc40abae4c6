//! What keeps the builder's work: undo by keys, two windows told of each other, earlier states.

use crate::browser::window;
use crate::kit::page::use_dispatch;
use crate::shell::bring_back::BringBack;
use crate::shell::two_windows::TwoWindows;
use crate::state::keys;
use yew::prelude::*;

/// Undo by keys, the offer of two windows, and earlier states.
#[function_component]
pub fn Keeping() -> Html {
    let dispatch = use_dispatch();
    {
        use_effect_with((), move |()| {
            window::on_key(move |event| {
                let command = (event.ctrl_key() || event.meta_key()) && !event.alt_key();
                let Some(action) = keys::action(command, event.shift_key(), &event.key()) else {
                    return;
                };
                // A text that is typed nowhere else yet has the browser's own undo.
                let foreign = window::typed_in().is_some_and(|id| !keys::is_of_state(&id));
                if !foreign {
                    event.prevent_default();
                    dispatch.emit(action);
                }
            })
        });
    }
    html! {
        <>
            <TwoWindows />
            <BringBack />
        </>
    }
}
