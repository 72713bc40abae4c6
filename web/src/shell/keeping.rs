//! What keeps the builder's work: two windows told of each other, earlier states.

use crate::part;
use crate::shell::bring_back::BringBack;
use crate::shell::two_windows::TwoWindows;
use yew::prelude::*;

/// The offer of two windows, and earlier states.
#[function_component]
pub fn Keeping() -> Html {
    html! {
        <>
            { part!(TwoWindows) }
            { part!(BringBack) }
        </>
    }
}
