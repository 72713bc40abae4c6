//! Which typed texts were refused, on the face of everything that is printed or downloaded.

use yew::prelude::*;

/// The sentence that names them; `None` where every text was used.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Refused(pub Option<AttrValue>);

/// The sentence, as it holds now.
#[hook]
pub fn use_refused() -> Option<AttrValue> {
    use_context::<Refused>().and_then(|refused| refused.0)
}

/// The sentence as a paragraph of what is printed.
#[function_component]
pub fn RefusedNote() -> Html {
    match use_refused() {
        Some(sentence) => html! { <p class="refused"><strong>{ sentence }</strong></p> },
        None => Html::default(),
    }
}
