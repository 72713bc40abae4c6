//! What keeps the design from being answered, by name, with the way to the field.

use crate::browser::window;
use crate::kit::page::use_page;
use coolpath_core::language::tr;
use yew::prelude::*;

/// The list; nothing where nothing is wrong.
#[function_component]
pub fn Withheld() -> Html {
    let marked = use_page(|page| page.state.withheld());
    if marked.is_empty() {
        return Html::default();
    }
    html! {
        <div class="stale" id="withheld" role="status">
            <p>{ tr("No answers until this is mended; nothing of it is lost:") }</p>
            <ul>
                { for marked.into_iter().map(|one| {
                    let go = one.element.map(|element| {
                        Callback::from(move |_: MouseEvent| window::go_to(&element))
                    });
                    html! {
                        <li>{ one.words }{ " " }
                            if let Some(go) = go {
                                <button type="button" class="quiet" onclick={go}>{ tr("Go to the field") }</button>
                            }
                        </li>
                    }
                }) }
            </ul>
        </div>
    }
}
