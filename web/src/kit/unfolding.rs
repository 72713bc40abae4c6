//! A panel that draws and computes only while it stands open.

use crate::kit::controls::use_unfolding;
use yew::prelude::*;

/// What a panel that unfolds is called, and what stands in it.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Its place, for links.
    pub id: &'static str,
    /// What can be read while it is closed.
    pub title: &'static str,
    /// What is drawn only while it stands open.
    pub children: Children,
}

/// The panel.
#[function_component]
pub fn Unfolding(props: &Props) -> Html {
    let (open, on_toggle) = use_unfolding();
    html! {
        <details class="section" id={props.id} ontoggle={on_toggle}>
            <summary>{ props.title }</summary>
            if *open { { props.children.clone() } }
        </details>
    }
}
