//! Designs kept in this browser under their names.

use crate::browser::{files, storage};
use crate::kit::page::{use_dispatch, use_notify, use_page};
use crate::state::{Action, document};
use coolpath_core::language::tr;
use yew::prelude::*;

/// What the builder must confirm.
#[derive(Debug, Clone, PartialEq)]
enum Question {
    /// Replacing a kept design of the same name.
    Replace,
    /// Forgetting a kept design.
    Forget(String),
}

/// The shelf.
#[function_component]
pub fn Shelf() -> Html {
    let design = use_page(|page| page.design.clone());
    let (dispatch, notify) = (use_dispatch(), use_notify());
    let names = use_state(storage::kept_names);
    let question = use_state(|| None::<Question>);
    let name = design.name.trim().to_owned();
    let keep = {
        let (design, notify, names, question) = (
            design.clone(),
            notify.clone(),
            names.clone(),
            question.clone(),
        );
        Callback::from(move |()| {
            question.set(None);
            notify.emit(match storage::keep(&design) {
                Ok(()) => tr!(
                    "“{}” is kept in this browser, on this machine only.",
                    design.name.trim()
                ),
                Err(sentence) => sentence,
            });
            names.set(storage::kept_names());
        })
    };
    let on_keep = {
        let (name, notify, question, keep) =
            (name.clone(), notify.clone(), question.clone(), keep.clone());
        Callback::from(move |_: MouseEvent| {
            if name.is_empty() {
                notify.emit(tr("Name the design first: it is kept under its name.").to_owned());
            } else if storage::kept_names().contains(&name) {
                question.set(Some(Question::Replace));
            } else {
                keep.emit(());
            }
        })
    };
    let on_open = |name: &str| {
        let (name, dispatch, notify) = (name.to_owned(), dispatch.clone(), notify.clone());
        Callback::from(move |_: MouseEvent| match storage::kept(&name) {
            Ok(design) => {
                dispatch.emit(Action::Open(Box::new(design)));
                notify.emit(tr!(
                    "“{}” is open. Undo brings back what stood here before.",
                    name
                ));
            }
            Err(sentence) => {
                let file = format!("{}.not-read.json", document::file_stem(&name));
                let saved = storage::kept_text(&name).map_or_else(String::new, |text| {
                    let done = files::download(&file, "application/json", &text);
                    files::told(&file, done)
                });
                notify.emit(tr!("{} It stays as it is. {}", sentence, saved));
            }
        })
    };
    let ask_forget = |name: &str| {
        let (name, question) = (name.to_owned(), question.clone());
        Callback::from(move |_: MouseEvent| question.set(Some(Question::Forget(name.clone()))))
    };
    html! {
        <details class="shelf">
            <summary>{ tr!("Saved on this device ({})", names.len()) }</summary>
            <button type="button" onclick={on_keep}>{ tr("Keep this design") }</button>
            { question.as_ref().map(|asked| ask(asked, &name, &keep, &names, &question)) }
            if names.is_empty() {
                <p class="hint">{ tr("Nothing is kept yet. A design is kept under its name.") }</p>
            }
            <ul>
                { for names.iter().map(|kept| html! {
                    <li key={kept.clone()}>
                        <span>{ kept.clone() }</span>
                        <button type="button" class="quiet" aria-label={tr!("Open kept {}", kept)} onclick={on_open(kept)}>{ tr("Open") }</button>
                        <button type="button" class="quiet" aria-label={tr!("Forget kept {}", kept)} onclick={ask_forget(kept)}>{ tr("Forget") }</button>
                    </li>
                }) }
            </ul>
        </details>
    }
}

/// The question, with what either answer does.
fn ask(
    asked: &Question,
    name: &str,
    keep: &Callback<()>,
    names: &UseStateHandle<Vec<String>>,
    question: &UseStateHandle<Option<Question>>,
) -> Html {
    let cancel = {
        let question = question.clone();
        Callback::from(move |_: MouseEvent| question.set(None))
    };
    match asked {
        Question::Replace => html! {
            <p class="question" role="alert">
                { tr!("“{}” is already kept. Replace it by what stands here? ", name) }
                <button type="button" onclick={keep.reform(|_: MouseEvent| ())}>{ tr("Replace it") }</button>
                <button type="button" onclick={cancel}>{ tr("Leave it") }</button>
            </p>
        },
        Question::Forget(gone) => {
            let forget = {
                let (gone, names, question) = (gone.clone(), names.clone(), question.clone());
                Callback::from(move |_: MouseEvent| {
                    storage::forget(&gone);
                    question.set(None);
                    names.set(storage::kept_names());
                })
            };
            html! {
                <p class="question" role="alert">
                    { tr!("Forget “{}”? This cannot be undone. ", gone) }
                    <button type="button" onclick={forget}>{ tr("Forget it") }</button>
                    <button type="button" onclick={cancel}>{ tr("Leave it") }</button>
                </p>
            }
        }
    }
}
