//! Texts and languages: the list is that of the sources, and every language has all of it.

use coolpath_core::language::{Language, places, places_of};
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
