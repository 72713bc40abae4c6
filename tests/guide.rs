//! The guide holds: its numbers are today's, its links lead somewhere, its labels stand on the page, and
//! each equation names the function that computes it.

use coolpath_tests::guide::markup::{Element, elements};
use coolpath_tests::guide::worked::FIGURES;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// How certain a relation or a number is.
const TAGS: [&str; 5] = [
    "published",
    "library",
    "derived",
    "common practice",
    "from memory",
];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("the project")
}

/// Chapters by file name.
fn chapters() -> Vec<(String, String)> {
    let mut found: Vec<(String, String)> = fs::read_dir(root().join("web/guide"))
        .expect("the guide")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|end| end == "html"))
        .map(|path| {
            let name = path.file_name().expect("a name").to_string_lossy();
            (
                name.into_owned(),
                fs::read_to_string(&path).expect("a text"),
            )
        })
        .collect();
    found.sort();
    assert!(found.len() >= 6, "contents and five chapters");
    found
}

fn read(name: &str, text: &str) -> Vec<Element> {
    assert!(
        !text.contains(['{', '}']),
        "{name} holds a place that was never filled"
    );
    elements(text).unwrap_or_else(|fault| panic!("{name}: {fault}"))
}

/// All elements with the file that each stands in.
fn all() -> Vec<(String, Element)> {
    chapters()
        .into_iter()
        .flat_map(|(name, text)| {
            let found = read(&name, &text);
            found
                .into_iter()
                .map(move |element| (name.clone(), element))
        })
        .collect()
}

/// Source files below a folder.
fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder").flatten() {
        let path = entry.path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|end| end == "rs") {
            found.push(path);
        }
    }
}

/// All source text below a folder of the project, line breaks inside literals taken out.
fn source_text(folder: &str) -> String {
    let mut files = Vec::new();
    sources(&root().join(folder), &mut files);
    files
        .iter()
        .map(|path| fs::read_to_string(path).expect("a text"))
        .collect()
}

#[test]
fn every_place_has_one_name_and_every_link_leads_to_one() {
    let all = all();
    let mut names = BTreeSet::new();
    for (file, element) in &all {
        if let Some(id) = element.attribute("id") {
            // The single file shows the guide inside the page, whose names it must not take.
            assert!(id.starts_with("guide-"), "{file}: {id}");
            assert!(names.insert(id.to_owned()), "{file}: {id} stands twice");
        }
    }
    let mut links = 0;
    for (file, element) in &all {
        for name in ["href", "src"] {
            let Some(target) = element.attribute(name) else {
                continue;
            };
            let Some(place) = target.strip_prefix('#') else {
                panic!("{file}, line {}: {target} leaves the guide", element.line);
            };
            assert!(names.contains(place), "{file}: nothing is called {place}");
            links += 1;
        }
    }
    assert!(links > 40, "{links} links");
    // Links of the page into the guide.
    for piece in source_text("web/src").split("guide.html#").skip(1) {
        let place: String = piece
            .chars()
            .take_while(|c| c.is_ascii_alphanumeric() || *c == '-')
            .collect();
        assert!(names.contains(&place), "the page links to {place}");
    }
}

#[test]
fn every_number_that_is_quoted_is_what_the_program_says_today() {
    let mut quoted = 0;
    let mut wrong = Vec::new();
    for (file, element) in all() {
        let Some(key) = element.attribute("data-answer") else {
            continue;
        };
        quoted += 1;
        let place = format!("{file}, line {}: {key}", element.line);
        let Some(figure) = FIGURES.get(key) else {
            wrong.push(format!("{place} is no figure"));
            continue;
        };
        let today = figure.text(&element.text);
        if element.text != today {
            wrong.push(format!("{place} is {today}, not {}", element.text));
        }
        // Its unit follows, or, in tables and ranges, is named in the markup.
        let unit = figure.unit();
        let behind = element.behind.trim_start_matches(['\u{a0}', ' ', '\n']);
        match element.attribute("data-unit") {
            Some(named) if named != unit => {
                wrong.push(format!("{place} has the unit {unit}, not {named}"));
            }
            None if !behind.starts_with(unit) => {
                wrong.push(format!("{place} is followed by {behind:?}, not by {unit}"));
            }
            _ => {}
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(quoted > 60, "{quoted} numbers");
}

/// A text without its marked numbers, without what is typed, and without its tags.
fn unmarked(text: &str) -> String {
    let mut left = text.to_owned();
    for name in ["data", "kbd"] {
        let (start, end) = (format!("<{name}"), format!("</{name}>"));
        while let Some(from) = left.find(&start) {
            let length = left[from..].find(&end).expect("it is closed") + end.len();
            left.replace_range(from..from + length, "¤");
        }
    }
    let mut plain = String::new();
    let mut inside = false;
    for c in left.chars() {
        match c {
            '<' => inside = true,
            '>' => inside = false,
            c if !inside => plain.push(c),
            _ => {}
        }
    }
    plain.replace("&nbsp;", " ")
}

#[test]
fn no_number_of_a_job_stands_unmarked_before_its_unit() {
    let (_, text) = chapters()
        .into_iter()
        .find(|(name, _)| name == "jobs.html")
        .expect("the jobs");
    let plain = unmarked(&text);
    for unit in [
        "°F", "in", "in²", "inH₂O", "kt", "%", "lbf", "ft", "rpm", "hp", "lb/s",
    ] {
        for (at, _) in plain.match_indices(&format!(" {unit}")) {
            let after = plain[at + 1 + unit.len()..].chars().next();
            let is_unit = !after.is_some_and(char::is_alphanumeric);
            let before = plain[..at].chars().next_back();
            assert!(
                !(is_unit && before.is_some_and(|c| c.is_ascii_digit())),
                "a number that nothing checks: {:?}",
                plain[..at + unit.len() + 1]
                    .chars()
                    .rev()
                    .take(40)
                    .collect::<String>()
                    .chars()
                    .rev()
                    .collect::<String>()
            );
        }
    }
}

#[test]
fn every_label_that_is_named_stands_on_the_page() {
    let page = [source_text("web/src"), source_text("core/src")].concat();
    let mut labels = 0;
    for (file, element) in all() {
        if element.attribute("class") == Some("label") {
            let label = &element.text;
            assert!(
                page.contains(&format!("\"{label}")) || page.contains(&format!("{label}\"")),
                "{file}, line {}: the page has no “{label}”",
                element.line
            );
            labels += 1;
        }
    }
    assert!(labels > 40, "{labels} labels");
}

/// Whether a function stands in the core: `room::file::function` or `room::file::Type::function`.
fn exists(path: &str) -> bool {
    let parts: Vec<&str> = path.split("::").collect();
    let Some((function, before)) = parts.split_last() else {
        return false;
    };
    let (modules, owner): (Vec<&str>, Option<&str>) = match before.split_last() {
        Some((last, rest)) if last.starts_with(char::is_uppercase) => (rest.to_vec(), Some(*last)),
        _ => (before.to_vec(), None),
    };
    let stem = root().join("core/src").join(modules.join("/"));
    let text = fs::read_to_string(stem.with_extension("rs"))
        .or_else(|_| fs::read_to_string(stem.join("mod.rs")))
        .unwrap_or_default();
    let body = match owner {
        // An implementation ends with the first brace at the margin.
        Some(owner) => text
            .split(&format!("\nimpl {owner} {{"))
            .skip(1)
            .map(|block| block.split("\n}").next().unwrap_or(""))
            .collect(),
        None => text,
    };
    body.contains(&format!("fn {function}(")) || body.contains(&format!("fn {function}<"))
}

#[test]
fn every_equation_names_a_function_of_the_core_its_source_and_its_tag() {
    assert!(exists("path::drag::cooling_drag") && exists("engine::heads::FinConductance::at"));
    assert!(!exists("path::drag::cooling") && !exists("engine::heads::Heads::at"));
    let text = chapters()
        .into_iter()
        .find(|(name, _)| name == "method.html")
        .expect("the method")
        .1;
    let (mut equations, mut formulas) = (0, 0);
    for piece in text.split("<figure").skip(1) {
        let piece = format!("<figure{}", piece.split("</figure>").next().unwrap_or(""));
        let figure = read("method.html", &format!("{piece}</figure>"));
        let functions = figure[0].attribute("data-function").unwrap_or_default();
        assert!(!functions.is_empty(), "{}", figure[0].text);
        for function in functions.split_ascii_whitespace() {
            assert!(exists(function), "the core has no {function}");
        }
        let is_formula = |element: &Element| {
            element.name == "math" && element.attribute("display") == Some("block")
        };
        let own = figure.iter().filter(|element| is_formula(element)).count();
        assert!(own > 0, "{functions}: no equation");
        formulas += own;
        let tags: Vec<&str> = figure
            .iter()
            .filter(|element| element.attribute("class") == Some("tag"))
            .map(|element| element.text.as_str())
            .collect();
        assert!(!tags.is_empty(), "{functions}: no tag");
        for tag in tags {
            assert!(TAGS.contains(&tag), "{functions}: {tag} is no tag");
        }
        equations += 1;
    }
    assert!(equations >= 20, "{equations} equations");
    assert_eq!(
        text.matches("display=\"block\"").count(),
        formulas,
        "none outside a figure"
    );
}

#[test]
fn every_word_of_the_glossary_has_a_name_and_stands_in_order() {
    let (name, text) = chapters()
        .into_iter()
        .find(|(name, _)| name == "words.html")
        .expect("the words");
    let words: Vec<String> = read(&name, &text)
        .into_iter()
        .filter(|element| element.name == "dt")
        .map(|element| {
            let id = element.attribute("id").unwrap_or_default();
            assert!(id.starts_with("guide-word-"), "{}: {id}", element.text);
            element.text.to_lowercase().replace('δ', "d")
        })
        .collect();
    assert!(words.len() >= 50, "{} words", words.len());
    let plain = |word: &String| word.replace(['-', '₂'], "");
    assert!(words.iter().map(plain).is_sorted(), "{words:#?}");
}
