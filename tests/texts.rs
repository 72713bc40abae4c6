//! Texts and languages: the list is that of the sources, and every language has all of it.

use coolpath_core::language::{Language, places, places_of};
use coolpath_tests::texts::sources::{Found, of_tokens};
use coolpath_tests::texts::{Texts, made_up};
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../web/texts")
}

/// Fails on a text that a language lacks or has too many, and on one with other places than the English.
fn expect_whole(texts: &Texts, language: &Value, name: &str) {
    let (missing, unused) = texts.against(language);
    assert!(missing.is_empty(), "{name} lacks {missing:#?}");
    assert!(
        unused.is_empty(),
        "{name} has {unused:#?}, which the page never says"
    );
    let read: Language = serde_json::from_value(language.clone()).expect("a language");
    let mut seen = BTreeSet::new();
    for (english, own) in read.texts.values().flatten() {
        let [mut one, mut other] = [english, own].map(|text| places_of(text));
        one.sort();
        other.sort();
        assert_eq!(one, other, "{name}: {english}: {own}");
        assert!(seen.insert(english), "{name} has {english} twice");
    }
    for (one, words) in &read.counted {
        assert!(words.contains_key("other"), "{name}: {one}");
    }
}

#[test]
fn the_list_of_texts_is_that_of_the_sources() {
    let kept = fs::read_to_string(folder().join("english.json")).expect("the list");
    let now = Texts::of_project().list();
    assert!(kept == now, "the list is old: run texts_list");
}

/// Names of the example's and what a design notes of itself, which are the same in every language.
const NAMES: [&str; 4] = [
    "core/document: Opened from an earlier format: {} took today's default.",
    "core/document: Example: two-seat tourer, flat four, 150 hp",
    "core/document: Ground run, warm day",
    "core/document: Cruise climb, hot day",
];

#[test]
fn no_sentence_is_out_of_reach_of_a_language() {
    let texts = Texts::of_project();
    let bare: Vec<_> = texts
        .bare
        .iter()
        .filter(|text| !NAMES.contains(&text.as_str()))
        .collect();
    assert!(bare.is_empty(), "{bare:#?}");
    // Neither markup nor a path is a text.
    let is_markup = |text: &&String| {
        let path =
            text.starts_with('M') && text[1..].starts_with(|sign: char| sign.is_ascii_digit());
        path || text.contains(['<', '#']) || text.contains("var(") || text.contains("-{")
    };
    let markup: Vec<_> = texts
        .texts
        .values()
        .flat_map(|own| own.keys())
        .filter(is_markup)
        .collect();
    assert!(markup.is_empty(), "{markup:#?}");
}

#[test]
fn literals_of_a_source_are_told_apart() {
    const SOURCE: &str = r##"
        /// This is a comment of four words.
        #[error("{}", tr!("no root in {} steps", .steps))]
        fn words(count: usize) -> String {
            let bare = "Nobody can translate this one";
            assert!(bare.len() > 1, "this is a sentence of a fault");
            tr!("{} and {}", tr("Upper deck"), counted(count, "reading", "readings"))
        }
        #[cfg(test)]
        mod tests { const TEXT: &str = "This is only of a test"; }
    "##;
    let mut told = Vec::new();
    of_tokens(SOURCE.parse().expect("Rust"), &mut |found| {
        told.push(match found {
            Found::Text(text, places) => format!("{text}, {}", places.len()),
            Found::Count(one, more) => format!("{one}, {more}"),
            Found::Bare(text) => format!("bare {text}"),
        });
    });
    told.retain(|text| text != "bare {}");
    assert_eq!(
        told,
        [
            "no root in {} steps, 1",
            "bare Nobody can translate this one",
            "{} and {}, 2",
            "Upper deck, 0",
            "reading, readings"
        ]
    );
}

#[test]
fn every_language_has_every_text() {
    let texts = Texts::of_project();
    let mut seen = 0;
    for entry in fs::read_dir(folder()).expect("texts").flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        if name == "english.json" {
            continue;
        }
        let text = fs::read_to_string(entry.path()).expect("a file");
        expect_whole(&texts, &serde_json::from_str(&text).expect("JSON"), &name);
        seen += 1;
    }
    println!("{seen} languages");
    expect_whole(&texts, &made_up::language(&texts), "the made-up language");
}

#[test]
fn a_missing_and_an_unused_text_are_found() {
    let texts = Texts::of_project();
    let mut language = made_up::language(&texts);
    let rooms = language["texts"].as_object_mut().expect("rooms");
    let decide = rooms["decide"].as_object_mut().expect("texts");
    let gone = decide.keys().next().expect("a text").clone();
    decide.remove(&gone);
    decide.insert("Nobody says this".to_owned(), "x".into());
    let (missing, unused) = texts.against(&language);
    assert_eq!(missing, [gone]);
    assert_eq!(unused, ["Nobody says this"]);
}

#[test]
fn the_made_up_language_is_longer_and_keeps_places() {
    assert_eq!(made_up::accented("Size 2"), "Šîžé 2");
    let long = made_up::in_words("The design has changed: this size is for {} of {:.1}.");
    assert!(
        long.starts_with('[') && long.ends_with(']') && places(&long) == 2,
        "{long}"
    );
    for (text, usual) in [
        ("Undo", 0.6..=1.0),
        ("Workshop", 0.6..=1.0),
        ("Size the openings", 0.3..=0.4),
        ("Nothing yet: a generic engine of this power", 0.3..=0.4),
    ] {
        let [short, long] =
            [text, &made_up::in_words(text)].map(|text| text.chars().count() as f64);
        assert!(
            usual.contains(&(long / short - 1.0)),
            "{text}: {}",
            made_up::in_words(text)
        );
    }
    // A space at an end stays there.
    assert!(
        made_up::in_words(" of ").starts_with(" [") && made_up::in_words(" of ").ends_with("] ")
    );
}
