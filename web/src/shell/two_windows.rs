//! Two windows on one design: the later one sees it, and neither loses anything.

use crate::browser::other_windows::Said;
use crate::browser::{other_windows, storage};
use crate::kit::page::{use_dispatch, use_notify};
use crate::state::Action;
use coolpath_core::language::tr;
use std::time::Duration;
use yew::platform::{spawn_local, time::sleep};
use yew::prelude::*;

/// A window that says nothing for so long is closed.
const PATIENCE: Duration = Duration::from_millis(1500);

/// The offer, where another window has the same design open.
#[function_component]
pub fn TwoWindows() -> Html {
    let (dispatch, notify) = (use_dispatch(), use_notify());
    let offered = use_state(|| None::<String>);
    let hushed = use_mut_ref(|| false);
    {
        let (offered, notify, hushed) = (offered.clone(), notify, hushed.clone());
        use_effect_with((), move |()| {
            let other = storage::other_window();
            let asked = other.clone();
            let answered = hushed.clone();
            let quiet = other_windows::listen(move |said| match said {
                Said::IsOpen(mark) if Some(&mark) == asked.as_ref() => {
                    if !answered.replace(true) {
                        offered.set(Some(mark));
                    }
                }
                Said::IsOpen(_) => {}
                Said::Taken => notify.emit(
                    tr(
                        "Another window goes on with this design. What stands here is kept: typing \
                     here goes on in this window's own copy.",
                    )
                    .to_owned(),
                ),
            });
            let closed = other_windows::note_while_open();
            if let Some(mark) = other {
                other_windows::ask(&mark);
                spawn_local(async move {
                    sleep(PATIENCE).await;
                    if !*hushed.borrow() {
                        storage::note_open(&mark, false);
                    }
                });
            }
            move || {
                quiet();
                closed();
            }
        });
    }
    let Some(mark) = (*offered).clone() else {
        return Html::default();
    };
    let apart = {
        let offered = offered.clone();
        Callback::from(move |_: MouseEvent| offered.set(None))
    };
    let take = {
        let (offered, dispatch) = (offered.clone(), dispatch.clone());
        Callback::from(move |_: MouseEvent| {
            if let Some(state) = storage::state_of_window(&mark) {
                dispatch.emit(Action::BringBack(Box::new(state)));
            }
            other_windows::take(&mark);
            offered.set(None);
        })
    };
    html! {
        <p class="question" id="two-windows" role="alert">
            { tr("Another window of this page has this design open too. Each window keeps what is typed in it. ") }
            <button type="button" onclick={apart}>{ tr("Keep both apart: a copy of its own here") }</button>
            <button type="button" onclick={take}>{ tr("Take over here what stands there") }</button>
        </p>
    }
}
