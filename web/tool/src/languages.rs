//! The languages that the page comes with beside English: `web/texts/CODE.json`.

use crate::page_build::File;
use crate::sources::{self, SourceError};
use crate::workspace::Workspace;
use coolpath_core::language::Language;
use std::{fs, io};

/// The list of all texts, from which a language is made.
pub const ENGLISH: &str = "english.json";

/// A language and its file.
#[derive(Debug, Clone)]
pub struct Spoken {
    /// Its code (BCP 47).
    pub code: String,
    /// What it calls itself.
    pub name: String,
    /// Its file.
    pub text: String,
}

/// The languages of a project.
///
/// # Errors
/// [`SourceError`] if a file cannot be read, is no language, or is not called by a code.
pub fn read(workspace: &Workspace) -> Result<Vec<Spoken>, SourceError> {
    let folder = workspace.texts();
    let mut found = Vec::new();
    let wrong = |path: &std::path::Path, why: String| SourceError {
        path: path.to_owned(),
        source: io::Error::other(why),
    };
    let entries = fs::read_dir(&folder).map_err(|source| SourceError {
        path: folder.clone(),
        source,
    })?;
    for path in entries.flatten().map(|entry| entry.path()) {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        let Some(code) = name.strip_suffix(".json").filter(|_| name != ENGLISH) else {
            continue;
        };
        if !is_code(code) {
            return Err(wrong(&path, "a language is called by its code".to_owned()));
        }
        let text = sources::text(path.clone())?;
        let language: Language =
            serde_json::from_str(&text).map_err(|error| wrong(&path, error.to_string()))?;
        found.push(Spoken {
            code: code.to_owned(),
            name: language.name,
            text,
        });
    }
    found.sort_by(|one, other| one.code.cmp(&other.code));
    Ok(found)
}

/// Such as "de" or "pt-BR".
fn is_code(name: &str) -> bool {
    name.split('-').enumerate().all(|(at, part)| {
        let usual = if at == 0 { 2..=3 } else { 2..=8 };
        usual.contains(&part.len()) && part.chars().all(|sign| sign.is_ascii_alphanumeric())
    })
}

/// What the page's head says of them; nothing where there is none.
#[must_use]
pub fn meta_element(languages: &[Spoken]) -> String {
    if languages.is_empty() {
        return String::new();
    }
    let each: Vec<String> = languages
        .iter()
        .map(|one| {
            format!(
                "{} {}",
                one.code,
                one.name.replace(['"', '<', '&', ';'], "")
            )
        })
        .collect();
    format!(
        "\n<meta name=\"coolpath-languages\" content=\"{}\">",
        each.join("; ")
    )
}

/// Their files, which the page fetches once one is chosen.
#[must_use]
pub fn files(languages: &[Spoken]) -> Vec<File> {
    let file = |one: &Spoken| {
        (
            format!("texts-{}.json", one.code),
            one.text.clone().into_bytes(),
        )
    };
    languages.iter().map(file).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spoken(code: &str, name: &str) -> Spoken {
        Spoken {
            code: code.to_owned(),
            name: name.to_owned(),
            text: "{}".to_owned(),
        }
    }

    #[test]
    fn the_head_names_what_the_page_came_with() {
        assert_eq!(meta_element(&[]), "");
        let two = [spoken("de", "Deutsch"), spoken("fr", "\"Français\"")];
        assert!(meta_element(&two).contains("content=\"de Deutsch; fr Français\""));
        assert_eq!(files(&two)[1].0, "texts-fr.json");
    }

    #[test]
    fn a_code_is_told_from_other_names() {
        assert!(is_code("de") && is_code("pt-BR") && is_code("qps"));
        assert!(
            !is_code("deutsch")
                && !is_code("d")
                && !is_code("de-x")
                && !is_code("de..")
                && !is_code("../de")
        );
    }
}
