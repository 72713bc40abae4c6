//! Which typed texts were refused, on the face of everything that is printed or downloaded.

use crate::kit::page::use_page;
use yew::prelude::*;

/// The sentence that names them, as it holds now; `None` where every text was used.
#[hook]
pub fn use_refused() -> Option<AttrValue> {
    use_page(|page| page.refused.clone())
}

/// The sentence as a paragraph of what is printed.
#[function_component]
pub fn RefusedNote() -> Html {
    match use_refused() {
        Some(sentence) => html! { <p class="refused"><strong>{ sentence }</strong></p> },
        None => Html::default(),
    }
}
