//! All texts of the page: what the sources word, and what their tables hold.

pub mod made_up;
pub mod sources;

use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::table;
use coolpath_web::state::choices;
use serde_json::{Map, Value};
use sources::Found;
use std::collections::{BTreeMap, BTreeSet};

/// Every text, by the room of the code in which it first stands.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Texts {
    /// Texts by room, each with what its places are filled with.
    pub texts: BTreeMap<String, BTreeMap<String, Vec<String>>>,
    /// What is counted: the word for one, and for more.
    pub counted: BTreeMap<String, String>,
    /// Sentences that no language reaches, each behind its room.
    pub bare: Vec<String>,
}

/// Whether a literal reads as a sentence: four words or more, and nothing of markup.
fn is_sentence(text: &str) -> bool {
    let is_word = |word: &&str| {
        let letters = word.trim_matches([',', '.', ':', ';', '(', ')', '“', '”']);
        letters.len() > 1
            && letters
                .chars()
                .all(|sign| sign.is_alphabetic() || sign == '’')
    };
    let is_markup = text.contains(['=', '<', '_', '√', '\r']) || text.contains("fill");
    !is_markup && text.split_whitespace().filter(is_word).count() >= 4
}

impl Texts {
    /// All of the project.
    ///
    /// # Panics
    /// If a source cannot be read as Rust.
    #[must_use]
    pub fn of_project() -> Self {
        let mut all = Self::default();
        sources::walk(&mut |room, found| match found {
            Found::Text(text, places) => all.note(room, &text, &places),
            Found::Count(one, more) => {
                all.counted.insert(one, more);
            }
            Found::Bare(text) if is_sentence(&text) => all.bare.push(format!("{room}: {text}")),
            Found::Bare(_) => {}
        });
        for input in table::all() {
            all.note("core/document", input.label, &[]);
            all.note("core/document", input.source, &[]);
        }
        for quantity in Quantity::ALL {
            all.note("core/document", quantity.label(), &[]);
        }
        for choice in choices::all() {
            all.note("state", choice.label(), &[]);
            for option in choice.options {
                all.note("state", option.phrase(), &[]);
            }
        }
        // What stands in those tables is no call.
        let texts = all.texts.values().flat_map(BTreeMap::keys);
        let known: BTreeSet<&str> = texts.map(String::as_str).collect();
        all.bare.retain(|bare| {
            let text = bare.split_once(": ").map_or("", |(_, text)| text);
            !known.contains(text)
        });
        all
    }

    fn note(&mut self, room: &str, text: &str, places: &[String]) {
        let has_words = text.chars().any(char::is_alphabetic);
        if !has_words || self.texts.values().any(|known| known.contains_key(text)) {
            return;
        }
        let own = self.texts.entry(room.to_owned()).or_default();
        own.insert(text.to_owned(), places.to_vec());
    }

    /// As the list of texts is written.
    #[must_use]
    pub fn list(&self) -> String {
        let text = serde_json::to_string_pretty(&Map::from_iter([
            ("texts".to_owned(), serde_json::json!(self.texts)),
            ("counted".to_owned(), serde_json::json!(self.counted)),
        ]));
        text.expect("texts are JSON") + "\n"
    }

    /// What a language lacks of these texts, and has beyond them.
    #[must_use]
    pub fn against(&self, language: &Value) -> (Vec<String>, Vec<String>) {
        // What is counted is no text: a word may be both.
        let own: Vec<String> = self
            .texts
            .values()
            .flat_map(BTreeMap::keys)
            .cloned()
            .chain(self.counted.keys().map(|one| format!("{{}} {one}")))
            .collect();
        let in_rooms = language["texts"].as_object().into_iter().flatten();
        let counted = language["counted"].as_object().into_iter();
        let theirs: Vec<String> = in_rooms
            .filter_map(|(_, texts)| texts.as_object())
            .flat_map(Map::keys)
            .cloned()
            .chain(counted.flat_map(Map::keys).map(|one| format!("{{}} {one}")))
            .collect();
        let beside = |some: &[String], others: &[String]| {
            let others: BTreeSet<_> = others.iter().collect();
            let lone = some.iter().filter(|text| !others.contains(text));
            lone.cloned().collect::<Vec<_>>()
        };
        (beside(&own, &theirs), beside(&theirs, &own))
    }
}
