//! What keeps the design from being answered, by name, with the way to the field.

use crate::browser::window;
use crate::state::State;
use std::rc::Rc;
use yew::prelude::*;

/// What the list needs.
#[derive(Properties, Clone)]
pub struct Props {
    /// State of the page.
    pub state: Rc<State>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.state, &other.state)
    }
}

/// The list; nothing where nothing is wrong.
#[function_component]
pub fn Withheld(props: &Props) -> Html {
    let marked = props.state.withheld();
    if marked.is_empty() {
        return Html::default();
    }
    html! {
        <div class="stale" id="withheld" role="status">
            <p>{ "No answers until this is mended; nothing of it is lost:" }</p>
            <ul>
                { for marked.into_iter().map(|one| {
                    let go = one.element.map(|element| {
                        Callback::from(move |_: MouseEvent| window::go_to(&element))
                    });
                    html! {
                        <li>{ one.words }{ " " }
                            if let Some(go) = go {
                                <button type="button" class="quiet" onclick={go}>{ "Go to the field" }</button>
                            }
                        </li>
                    }
                }) }
            </ul>
        </div>
    }
}
