//! "Share": a link, a code and a QR code of the design, and opening one.

use crate::browser::copying::{Copied, copied, select_all};
use crate::browser::sending::{Parcel, Sent, sent};
use crate::browser::{sending, window};
use crate::kit::controls::on_text;
use crate::kit::later::use_after_pause;
use crate::kit::page::{use_dispatch, use_notify, use_page};
use crate::kit::shared::Shared;
use crate::part;
use crate::share::code::{code, design_of_code, qr_path};
use crate::state::{Action, document};
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use yew::platform::spawn_local;
use yew::prelude::*;

/// A link longer than this is cut by some messengers (from memory).
const LONG_LINK: usize = 8000;

/// What stands behind “Share”; the design is packed while that is open.
#[function_component]
pub fn ShareBody() -> Html {
    let design = use_page(|page| page.design.clone());
    let (dispatch, notify) = (use_dispatch(), use_notify());
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
                notify.emit(tr!(
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
        <div class="share-body">
            { part!(Given { design }) }
            <div class="field">
                <label for="paste-code">{ tr("Open a code or a link that you were given") }</label>
                <textarea id="paste-code" rows="3" autocomplete="off" spellcheck="false" value={(*pasted).clone()} oninput={on_paste} />
            </div>
            <p class="fault" role="alert">{ (*fault).clone() }</p>
            <div class="buttons"><button type="button" onclick={on_open} disabled={pasted.trim().is_empty()}>{ tr("Open the code") }</button></div>
        </div>
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
                let done = copied(text, tr("Copied: paste it into a message.")).await;
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
                        tr(
                            "The system does not take it. Copy the text, or save a file and send that.",
                        )
                            .to_owned(),
                    );
                }
            });
        })
    };
    html! {
        <>
            <div class="field">
                <label for="share-code">{ if link.is_some() { tr("Link with the whole design: copy it") } else { tr("Code with the whole design: copy it, and paste it on the other machine") } }</label>
                <textarea id="share-code" rows="4" readonly=true spellcheck="false" value={text.clone()} onfocus={select_all()} />
            </div>
            <div class="buttons">
                <button type="button" class="primary" onclick={copy}>{ tr("Copy") }</button>
                if sending::is_possible() {
                    <button type="button" onclick={send}>{ tr("Send…") }</button>
                }
            </div>
            <div aria-live="polite">{ came.as_ref().map(|came| came.view(tr("Link or code").to_owned())) }</div>
            <p class="hint">
                { tr!("{} letters. The design travels in the text itself; no server keeps it. Numbers are rounded to twelve digits.", length) }
                if length > LONG_LINK {
                    { tr(" Some messengers cut texts of this length: send a file, saved from the menu under the aircraft’s name.") }
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
            <svg class="qr" viewBox={format!("-4 -4 {0} {0}", size + 8)} role="img" aria-label={tr("QR code of the design")}>
                <rect x="-4" y="-4" width={(size + 8).to_string()} height={(size + 8).to_string()} fill="#fff" />
                <path d={path.clone()} fill="#000" />
            </svg>
        },
        None => html! {
            <p class="hint">{ tr("Too much for a QR code (2,953 bytes): readings take the room. Send a file instead.") }</p>
        },
        // As large, so that the page does not jump while somebody types.
        Some(_) => html! {
            <svg class="qr" viewBox="0 0 1 1" role="img" aria-label={tr("The QR code is being drawn")}>
                <rect width="1" height="1" fill="#fff" />
            </svg>
        },
    }
}
