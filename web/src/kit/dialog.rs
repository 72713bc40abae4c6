//! A dialog over the page; the browser keeps the focus in it and closes it by Escape.

use coolpath_core::language::tr;
use web_sys::HtmlDialogElement;
use yew::prelude::*;

/// What it holds.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Its name.
    pub title: AttrValue,
    /// Called when it was closed; it is not to be shown any more then.
    pub on_close: Callback<()>,
    /// What stands in it.
    pub children: Html,
}

/// The dialog, open as long as it is shown.
#[function_component]
pub fn Dialog(props: &Props) -> Html {
    let element = use_node_ref();
    {
        let element = element.clone();
        use_effect_with((), move |()| {
            if let Some(dialog) = element.cast::<HtmlDialogElement>() {
                let _ = dialog.show_modal();
            }
        });
    }
    // Closed by the browser, which gives the focus back to where it was.
    let close = {
        let element = element.clone();
        Callback::from(move |_: MouseEvent| {
            if let Some(dialog) = element.cast::<HtmlDialogElement>() {
                dialog.close();
            }
        })
    };
    let on_close = props.on_close.reform(|_: Event| ());
    html! {
        <dialog ref={element} class="dialog" aria-labelledby="dialog-title" onclose={on_close}>
            <div class="dialog-head">
                <h2 id="dialog-title">{ props.title.clone() }</h2>
                <button type="button" class="quiet" onclick={close}>{ tr("Close") }</button>
            </div>
            { props.children.clone() }
        </dialog>
    }
}
