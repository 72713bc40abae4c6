//! The foot of the page: the list of keys and what this program is; and the keys themselves.

use crate::browser::window;
use crate::kit::dialog::Dialog;
use crate::kit::page::{use_dispatch, use_notify, use_page};
use crate::part;
use crate::shell::about::About;
use crate::shell::toolbar;
use crate::state::keys;
use crate::state::keys::{Pressed, Wish};
use coolpath_core::language::tr;
use yew::prelude::*;

/// What is laid over the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Over {
    Keys,
    About,
}

/// The foot.
#[function_component]
pub fn Foot() -> Html {
    let over = use_state(|| None::<Over>);
    {
        let set = over.setter();
        use_keys(Callback::from(move |()| set.set(Some(Over::Keys))));
    }
    let button = |to: Over, label: &'static str| {
        let set = over.setter();
        let press = Callback::from(move |_: MouseEvent| set.set(Some(to)));
        html! { <button type="button" class="quiet" onclick={press}>{ label }</button> }
    };
    let on_close = {
        let set = over.setter();
        Callback::from(move |()| set.set(None))
    };
    html! {
        <footer class="foot">
            { button(Over::Keys, tr("Keyboard shortcuts")) }
            { button(Over::About, tr("About")) }
            { match *over {
                Some(Over::Keys) => html! { <Dialog title={tr("Keyboard shortcuts")} {on_close}>{ list() }</Dialog> },
                Some(Over::About) => html! { <Dialog title={tr("About Coolpath")} {on_close}>{ part!(About) }</Dialog> },
                None => Html::default(),
            } }
        </footer>
    }
}

fn list() -> Html {
    html! {
        <>
            <dl class="keys">
                { for keys::LIST.map(|(keys, does)| html! { <div><dt>{ tr(keys) }</dt><dd>{ tr(does) }</dd></div> }) }
            </dl>
            <p class="hint">{ tr("While you type in a field, only keys with Ctrl or ⌘ act. A length may be typed as it is measured: 2 1/8, 5'6\", 7/16, 3*2.5, 4 in + 3 mm.") }</p>
        </>
    }
}

/// Hears the page's keys.
#[hook]
fn use_keys(help: Callback<()>) {
    let (dispatch, notify) = (use_dispatch(), use_notify());
    let design = use_page(|page| page.design.clone());
    // A key always finds the design as it stands.
    use_effect_with(design, move |design| {
        let design = design.clone();
        window::on_key(move |event| {
            let field = window::typed_in();
            let wish = keys::wish(Pressed {
                command: (event.ctrl_key() || event.meta_key()) && !event.alt_key(),
                shift: event.shift_key(),
                key: &event.key(),
                typing: field.is_some(),
            });
            let Some(wish) = wish else { return };
            // A text that is typed nowhere else yet has the browser's own undo.
            let foreign = field.is_some_and(|id| !keys::is_of_state(&id));
            if foreign && matches!(wish, Wish::Act(_)) {
                return;
            }
            event.prevent_default();
            match wish {
                Wish::Act(action) => dispatch.emit(action),
                Wish::Save => notify.emit(toolbar::save(&design)),
                Wish::Help => help.emit(()),
            }
        })
    });
}
