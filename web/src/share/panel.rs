//! "Share": a link, a code and a QR code of the design, and opening one.

use crate::browser::copying::{Copied, copied, select_all};
use crate::browser::sending::{Parcel, Sent, sent};
use crate::browser::{sending, storage, window};
use crate::kit::controls::{on_text, use_unfolding};
use crate::kit::later::use_after_pause;
use crate::kit::page::{use_dispatch, use_notify, use_page};
use crate::kit::shared::Shared;
use crate::part;
use crate::share::code::{code, design_of_code, is_code, qr_path};
use crate::state::{Action, document};
use coolpath_core::document::design::Design;
use yew::platform::spawn_local;
use yew::prelude::*;

/// A link longer than this is cut by some messengers (from memory).
const LONG_LINK: usize = 8000;

/// The panel; it packs the design only while it stands open.
#[function_component]
pub fn Share() -> Html {
    let design = use_page(|page| page.design.clone());
    let (dispatch, notify) = (use_dispatch(), use_notify());
    let (open, on_toggle) = use_unfolding();
    let pasted = use_state(String::new);
    let fault = use_state(String::new);
    let on_paste = {
        let (pasted, fault) = (pasted.clone(), fault.clone());
        on_text(move |text| {
            pasted.set(text);
            fault.set(String::new());
        })
    };
    let on_open = {
        let (pasted, fault) = (pasted.clone(), fault.clone());
        Callback::from(move |_: MouseEvent| match design_of_code(&pasted) {
            Ok(design) => {
                notify.emit(format!(
                    "“{}” is open. Undo brings back what stood here before.",
                    design.name
                ));
                dispatch.emit(Action::Open(Box::new(design)));
                pasted.set(String::new());
            }
            Err(sentence) => fault.set(sentence),
        })
    };
    html! {
        <details class="share" id="share" ontoggle={on_toggle}>
            <summary>{ "Share" }</summary>
            if *open {
                <div class="share-body">
                { part!(Given { design }) }
                <div class="field">
                    <label for="paste-code">{ "Open a code or a link that you were given" }</label>
                    <textarea id="paste-code" rows="3" autocomplete="off" spellcheck="false" value={(*pasted).clone()} oninput={on_paste} />
                </div>
                <p class="fault" role="alert">{ (*fault).clone() }</p>
                <div class="buttons"><button type="button" onclick={on_open} disabled={pasted.trim().is_empty()}>{ "Open the code" }</button></div>
                </div>
            }
        </details>
    }
}

/// What is given away.
#[derive(Properties, Clone, PartialEq)]
struct GivenProps {
    design: Shared<Design>,
}

/// The design as a link or a code, as a file, and as a QR code.
#[function_component]
fn Given(props: &GivenProps) -> Html {
    let design = &props.design;
    let notify = use_notify();
    let came = use_state(|| None::<Copied>);
    let code = match code(design) {
        Ok(code) => code,
        Err(error) => return html! { <p class="fault" role="alert">{ error }</p> },
    };
    // A link from a disk works on no other machine.
    let link = window::address().map(|address| format!("{address}#{code}"));
    let text = link.clone().unwrap_or_else(|| code.clone());
    let length = text.len();
    let copy = {
        let (text, came) = (text.clone(), came.clone());
        Callback::from(move |_: MouseEvent| {
            let (text, came) = (text.clone(), came.clone());
            spawn_local(async move {
                let done = copied(text, "Copied: paste it into a message.").await;
                came.set(Some(done));
            });
        })
    };
    let send = {
        let (text, design) = (text.clone(), design.clone());
        Callback::from(move |_: MouseEvent| {
            let (text, design, notify) = (text.clone(), design.clone(), notify.clone());
            spawn_local(async move {
                let parcel = if text.len() > LONG_LINK {
                    match document::file_text(&design) {
                        Ok(file) => Parcel::File(document::file_name(&design), file),
                        Err(error) => return notify.emit(error.to_string()),
                    }
                } else {
                    Parcel::Text(text)
                };
                if sent(&design.name, &parcel).await == Sent::Refused {
                    notify.emit(
                        "The system does not take it. Copy the text, or save a file and send that."
                            .to_owned(),
                    );
                }
            });
        })
    };
    html! {
        <>
            <div class="field">
                <label for="share-code">{ if link.is_some() { "Link with the whole design: copy it" } else { "Code with the whole design: copy it, and paste it on the other machine" } }</label>
                <textarea id="share-code" rows="4" readonly=true spellcheck="false" value={text.clone()} onfocus={select_all()} />
            </div>
            <div class="buttons">
                <button type="button" class="primary" onclick={copy}>{ "Copy" }</button>
                if sending::is_possible() {
                    <button type="button" onclick={send}>{ "Send…" }</button>
                }
            </div>
            <div aria-live="polite">{ came.as_ref().map(|came| came.view("Link or code".to_owned())) }</div>
            <p class="hint">
                { format!("{length} letters. The design travels in the text itself; no server keeps it. Numbers are rounded to twelve digits.") }
                if length > LONG_LINK {
                    { " Some messengers cut texts of this length: send a file, saved from the menu under the aircraft’s name." }
                }
            </p>
            { part!(QrView { text: AttrValue::from(text), code: AttrValue::from(code) }) }
        </>
    }
}

/// What a QR code is to hold: the text, or if that is too long the code alone.
#[derive(Properties, Clone, PartialEq)]
struct QrProps {
    text: AttrValue,
    code: AttrValue,
}

/// The QR code, which takes as long to draw as all charts; never that of an earlier text.
#[function_component]
fn QrView(props: &QrProps) -> Html {
    let settled = use_after_pause(props);
    let drawn = use_memo(settled.clone(), |wanted| {
        qr_path(&wanted.text).or_else(|| qr_path(&wanted.code))
    });
    match &*drawn {
        Some((size, path)) if settled == *props => html! {
            <svg class="qr" viewBox={format!("-4 -4 {0} {0}", size + 8)} role="img" aria-label="QR code of the design">
                <rect x="-4" y="-4" width={(size + 8).to_string()} height={(size + 8).to_string()} fill="#fff" />
                <path d={path.clone()} fill="#000" />
            </svg>
        },
        None => html! {
            <p class="hint">{ "Too much for a QR code (2,953 bytes): readings take the room. Send a file instead." }</p>
        },
        // As large, so that the page does not jump while somebody types.
        Some(_) => html! {
            <svg class="qr" viewBox="0 0 1 1" role="img" aria-label="The QR code is being drawn">
                <rect width="1" height="1" fill="#fff" />
            </svg>
        },
    }
}

/// The code that the link's fragment carries, if it carries one.
fn shared_code() -> Option<String> {
    let fragment = window::fragment();
    is_code(&fragment).then_some(fragment)
}

/// A design that came with the link: opened at once where nothing is stored yet, else asked about, since
/// nothing is replaced without asking.
#[function_component]
pub fn Arrived() -> Html {
    let (dispatch, notify) = (use_dispatch(), use_notify());
    let arrived = use_state(shared_code);
    // Nothing is stored before the page has been drawn once.
    let has_nothing = use_state(|| !storage::holds_any() && storage::kept_names().is_empty());
    {
        let (arrived, dispatch) = (arrived.clone(), dispatch.clone());
        use_effect_with((), move |()| {
            if let Some(design) = arrived
                .as_ref()
                .filter(|_| *has_nothing)
                .and_then(|code| design_of_code(code).ok())
            {
                notify.emit(format!("“{}” came with the link and is open.", design.name));
                dispatch.emit(Action::Open(Box::new(design)));
                window::drop_fragment();
                arrived.set(None);
            }
            window::on_fragment(move || {
                if let Some(code) = shared_code() {
                    arrived.set(Some(code));
                }
            })
        });
    }
    let Some(code) = (*arrived).clone() else {
        return Html::default();
    };
    let done = {
        let arrived = arrived.clone();
        move || {
            window::drop_fragment();
            arrived.set(None);
        }
    };
    let keep = {
        let done = done.clone();
        Callback::from(move |_: MouseEvent| done())
    };
    match design_of_code(&code) {
        Err(sentence) => html! {
            <p class="question" id="arrived" role="alert">{ format!("The link carries a design that cannot be opened. {sentence} ") }
                <button type="button" onclick={keep}>{ "Close" }</button></p>
        },
        Ok(design) => {
            let name = design.name.clone();
            let take = {
                let dispatch = dispatch.clone();
                Callback::from(move |_: MouseEvent| {
                    dispatch.emit(Action::Open(Box::new(design.clone())));
                    done();
                })
            };
            html! {
                <p class="question" id="arrived" role="alert">{ format!("The link carries the design “{name}”. Open it in place of what stands here? Undo brings yours back. ") }
                    <button type="button" onclick={take}>{ "Open it" }</button>
                    <button type="button" onclick={keep}>{ "Keep mine" }</button></p>
            }
        }
    }
}
