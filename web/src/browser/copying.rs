//! Copying a text: to the clipboard, or from a field where the browser keeps the clipboard shut.

use crate::browser::clipboard;
use coolpath_core::language::tr;
use web_sys::HtmlTextAreaElement;
use yew::prelude::*;

/// What came of copying.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Copied {
    sentence: &'static str,
    /// The text, where the builder must copy it.
    text: Option<String>,
}

/// Puts a text into the clipboard; says what to do with it there.
pub async fn copied(text: String, then: &'static str) -> Copied {
    if clipboard::copied(&text).await {
        return Copied {
            sentence: then,
            text: None,
        };
    }
    Copied {
        sentence: tr("The browser will not open the clipboard here. Copy the text below."),
        text: Some(text),
    }
}

impl Copied {
    /// The sentence, and the text in a field with a name.
    pub fn view(&self, name: String) -> Html {
        html! { <>
            <p class="hint">{ self.sentence }</p>
            if let Some(text) = &self.text {
                <textarea rows="6" readonly=true aria-label={name} value={text.clone()} onfocus={select_all()} />
            }
        </> }
    }
}

/// Selects the whole text of a field that gets the focus.
#[must_use]
pub fn select_all() -> Callback<FocusEvent> {
    Callback::from(|event: FocusEvent| {
        if let Some(field) = event.target_dyn_into::<HtmlTextAreaElement>() {
            field.select();
        }
    })
}
