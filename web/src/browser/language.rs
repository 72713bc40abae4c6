//! The language of the page. One that was chosen is fetched before anything is shown; English needs nothing.

use crate::browser::storage::storage;
use crate::browser::window;
use coolpath_core::language::{self, Language, tr};
use js_sys::Intl::PluralRules;
use js_sys::{Array, Function, Reflect};
use std::cell::RefCell;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{AbortSignal, RequestInit, Response};

/// Where the chosen language's code is stored; no entry is English.
const CHOSEN: &str = "coolpath:language";

/// How long the page waits for its language before it speaks English, ms.
const PATIENCE_MS: u32 = 15_000;

thread_local! {
    static MISSED: RefCell<Option<String>> = const { RefCell::new(None) };
    static SPOKEN: RefCell<Option<Spoken>> = const { RefCell::new(None) };
    static PLURALS: RefCell<Option<JsValue>> = const { RefCell::new(None) };
}

/// The language that is spoken, as a worker of the page is told it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spoken {
    /// Its code.
    pub code: String,
    /// Its file.
    pub text: String,
}

/// The language that the page speaks; `None` for English.
#[must_use]
pub fn spoken() -> Option<Spoken> {
    SPOKEN.with_borrow(Clone::clone)
}

/// A language that the page came with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offered {
    /// Its code (BCP 47), such as "de".
    pub code: String,
    /// What it calls itself.
    pub name: String,
}

/// The languages that the page came with beside English, by what its head says: "de Deutsch; fr Français".
#[must_use]
pub fn offered() -> Vec<Offered> {
    read_offered(&window::meta("coolpath-languages").unwrap_or_default())
}

fn read_offered(text: &str) -> Vec<Offered> {
    let one = |entry: &str| {
        let (code, name) = entry.trim().split_once(' ')?;
        Some(Offered {
            code: code.to_owned(),
            name: name.trim().to_owned(),
        })
    };
    text.split(';').filter_map(one).collect()
}

/// The language that was chosen, if the page came with it.
#[must_use]
pub fn chosen() -> Option<Offered> {
    let code = storage()?.get_item(CHOSEN).ok()??;
    offered().into_iter().find(|offered| offered.code == code)
}

/// Chooses a language, or English, and starts the page anew in it.
///
/// # Errors
/// A sentence where this browser does not keep the choice: then what is typed may not be kept either, and a new
/// start would lose it.
pub fn choose(code: Option<&str>) -> Result<(), String> {
    let kept = storage().is_some_and(|storage| {
        match code {
            Some(code) => storage.set_item(CHOSEN, code),
            None => storage.remove_item(CHOSEN),
        }
        .is_ok()
    });
    if !kept {
        return Err(tr("This browser does not keep the choice. Nothing was changed.").to_owned());
    }
    if let Some(window) = web_sys::window() {
        let _ = window.location().reload();
    }
    Ok(())
}

/// Brings the chosen language; without it the page speaks English and [`missed`] says why.
pub async fn bring(offered: &Offered) {
    match brought(offered).await {
        Ok(()) => speak_of(&offered.code),
        Err(why) => MISSED.set(Some(why)),
    }
}

/// Why the chosen language is not spoken.
#[must_use]
pub fn missed() -> Option<String> {
    MISSED.with_borrow(Clone::clone)
}

async fn brought(offered: &Offered) -> Result<(), String> {
    let text = fetched(&format!("texts-{}.json", offered.code))
        .await
        .map_err(|error| error.as_string().unwrap_or_else(|| format!("{error:?}")))?;
    speak(Spoken {
        code: offered.code.clone(),
        text,
    })
}

/// Speaks a language from now on, in the page or in one of its workers.
///
/// # Errors
/// What is wrong with its file.
pub fn speak(spoken: Spoken) -> Result<(), String> {
    let language: Language =
        serde_json::from_str(&spoken.text).map_err(|error| error.to_string())?;
    // Without its rules every count is worded as "other".
    PLURALS.set(plural_rules(&spoken.code).ok());
    SPOKEN.set(Some(spoken));
    language::speak(language, category);
    Ok(())
}

/// The text of a file that lies beside the page's scripts.
async fn fetched(name: &str) -> Result<String, JsValue> {
    let window = web_sys::window().ok_or(JsValue::UNDEFINED)?;
    let init = RequestInit::new();
    init.set_signal(Some(&AbortSignal::timeout_with_u32(PATIENCE_MS)));
    let asked = window.fetch_with_str_and_init(&window::beside_scripts(name), &init);
    let response: Response = JsFuture::from(asked).await?.dyn_into()?;
    if !response.ok() {
        return Err(format!("{name}: {}", response.status()).into());
    }
    let text = JsFuture::from(response.text()?).await?;
    text.as_string().ok_or(JsValue::UNDEFINED)
}

fn speak_of(code: &str) {
    let document = web_sys::window().and_then(|window| window.document());
    if let Some(root) = document.and_then(|document| document.document_element()) {
        let _ = root.set_attribute("lang", code);
    }
}

/// The browser's plural rules; an error for what is no code of a language.
fn plural_rules(code: &str) -> Result<JsValue, JsValue> {
    let intl = Reflect::get(&js_sys::global(), &"Intl".into())?;
    let rules: Function = Reflect::get(&intl, &"PluralRules".into())?.dyn_into()?;
    Reflect::construct(&rules, &Array::of1(&code.into()))
}

fn category(count: usize) -> String {
    let found = PLURALS.with_borrow(|rules| {
        let rules: &PluralRules = rules.as_ref()?.unchecked_ref();
        rules.select(count as f64).as_string()
    });
    found.unwrap_or_else(|| "other".to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn languages_are_read_from_the_pages_head() {
        let found = read_offered("de Deutsch; pt-BR Português do Brasil;; x");
        let told: Vec<_> = found
            .iter()
            .map(|one| (one.code.as_str(), one.name.as_str()))
            .collect();
        assert_eq!(told, [("de", "Deutsch"), ("pt-BR", "Português do Brasil")]);
        assert!(read_offered("").is_empty());
    }
}
