//! Earlier states of the page, and what is kept but cannot be read.

use crate::browser::{files, storage, window};
use crate::kit::page::{use_dispatch, use_notify, use_page};
use crate::state::differences::{differences, listed};
use crate::state::slots::Kept;
use crate::state::{Action, State};
use coolpath_core::language::tr;
use web_sys::HtmlElement;
use yew::platform::spawn_local;
use yew::prelude::*;

type Found = (Vec<Kept>, Vec<(String, String)>);

/// The list.
#[function_component]
pub fn BringBack() -> Html {
    let state = use_page(|page| page.state.clone());
    let (dispatch, notify) = (use_dispatch(), use_notify());
    let found = use_state(|| None::<Found>);
    let forgetting = use_state(|| None::<String>);
    let promised = use_promise(&state);
    let on_toggle = {
        let found = found.clone();
        Callback::from(move |event: Event| {
            let open = event
                .target_dyn_into::<HtmlElement>()
                .is_some_and(|element| element.has_attribute("open"));
            found.set(open.then(storage::states));
        })
    };
    let bring = |kept: &Kept| {
        let (state, dispatch, notify) = (kept.state.clone(), dispatch.clone(), notify.clone());
        let (time, found) = (window::clock_time(kept.saved_ms), found.clone());
        Callback::from(move |_: MouseEvent| {
            dispatch.emit(Action::BringBack(Box::new(state.clone())));
            notify.emit(tr!(
                "What stood here at {} is back. Undo brings back what stood here before.",
                time
            ));
            found.set(Some(storage::states()));
        })
    };
    let list = found.as_ref().map(|(kept, _)| {
        let items = kept.iter().map(|one| {
            let name = one.state.design.name.clone();
            let time = window::clock_time(one.saved_ms);
            let differs = listed(&differences((&*state).into(), (&one.state).into()));
            let label = tr!("Bring back {}, {}", name, time);
            html! {
                <li key={one.key.clone()}>
                    <span>{ tr!("{} · {} · differs in {}", time, name, differs) }
                        if one.is_open { { tr(" · open in another window") } }</span>
                    <button type="button" class="quiet" aria-label={label} onclick={bring(one)}>{ tr("Bring back") }</button>
                </li>
            }
        });
        html! {
            <>
                if kept.is_empty() {
                    <p class="hint">{ tr("Nothing is kept yet. What stands here is kept before a large change, and every two minutes while you type.") }</p>
                }
                <ul>{ for items }</ul>
            </>
        }
    });
    let unreadable = found.as_ref().map(|(_, texts)| {
        html! { <>{ for texts.iter().enumerate().map(|(at, (key, text))| {
            unreadable(at, key, text, &notify, &forgetting, &found)
        }) }</> }
    });
    html! {
        <details class="bring-back" ontoggle={on_toggle}>
            <summary>{ tr("Bring back") }</summary>
            { list.unwrap_or_default() }
            { unreadable.unwrap_or_default() }
            <p class="hint">{ match promised {
                Some(true) => tr("This browser has promised to keep what is stored here."),
                Some(false) => tr("This browser may clear what is stored here when its disk runs short. A saved file is safe."),
                None => tr("A saved file is safe from whatever happens to this browser."),
            } }</p>
        </details>
    }
}

fn unreadable(
    at: usize,
    key: &str,
    text: &str,
    notify: &Callback<String>,
    forgetting: &UseStateHandle<Option<String>>,
    found: &UseStateHandle<Option<Found>>,
) -> Html {
    let save = {
        let (text, notify) = (text.to_owned(), notify.clone());
        let name = format!("coolpath-not-read-{}.json", at + 1);
        Callback::from(move |_: MouseEvent| {
            let done = files::download(&name, "application/json", &text);
            notify.emit(files::told(&name, done));
        })
    };
    let ask = {
        let (key, forgetting) = (key.to_owned(), forgetting.clone());
        Callback::from(move |_: MouseEvent| forgetting.set(Some(key.clone())))
    };
    let keep = {
        let forgetting = forgetting.clone();
        Callback::from(move |_: MouseEvent| forgetting.set(None))
    };
    let forget = {
        let (key, forgetting, found) = (key.to_owned(), forgetting.clone(), found.clone());
        Callback::from(move |_: MouseEvent| {
            storage::forget_text(&key);
            forgetting.set(None);
            found.set(Some(storage::states()));
        })
    };
    html! {
        <p key={key.to_owned()}>
            { tr!("Something stored here ({} letters) cannot be read by this version. It stays as it is. ", text.len()) }
            <button type="button" class="quiet" onclick={save}>{ tr("Save what could not be read") }</button>
            if forgetting.as_deref() == Some(key) {
                { tr(" Forget it? This cannot be undone. ") }
                <button type="button" onclick={forget}>{ tr("Forget it") }</button>
                <button type="button" onclick={keep}>{ tr("Leave it") }</button>
            } else {
                <button type="button" class="quiet" onclick={ask}>{ tr("Forget what could not be read") }</button>
            }
        </p>
    }
}

/// Whether the browser has promised to keep what is stored; asked once, at the first change, since
/// some browsers put the question to the builder.
#[hook]
fn use_promise(state: &State) -> Option<bool> {
    let promised = use_state(|| None::<bool>);
    let changed = !state.past.is_empty();
    {
        let promised = promised.clone();
        use_effect_with(changed, move |changed| {
            if *changed {
                spawn_local(async move { promised.set(window::ask_to_persist().await) });
            }
        });
    }
    *promised
}
