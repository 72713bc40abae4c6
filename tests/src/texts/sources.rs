//! What the sources word: `tr("…")`, `tr!("…", …)`, `tr_later("…")`, `counted(…, "…", "…")`.

use crate::texts::Texts;
use proc_macro2::{Delimiter, Group, TokenStream, TokenTree};
use std::fs;
use std::path::{Path, PathBuf};

/// Notes all texts of the sources.
pub fn walk(all: &mut Texts) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    for (folder, before) in [("core/src", "core/"), ("web/src", "")] {
        let folder = root.join(folder);
        let mut found = Vec::new();
        files(&folder, &mut found);
        for path in found {
            let inside = path.strip_prefix(&folder).expect("a file of the folder");
            let first = inside.iter().next().expect("a name").to_string_lossy();
            if first == "language" {
                continue;
            }
            let room = format!("{before}{}", first.trim_end_matches(".rs"));
            let source = fs::read_to_string(&path).expect("a source can be read");
            let tokens: TokenStream = source
                .parse()
                .unwrap_or_else(|error| panic!("{}: {error}", path.display()));
            noted(tokens, &room, all);
        }
    }
}

fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    let entries = fs::read_dir(folder).expect("the folder can be read");
    let mut entries: Vec<_> = entries.flatten().map(|entry| entry.path()).collect();
    entries.sort();
    for path in entries {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        if path.is_dir() && name != "tests" {
            files(&path, found);
        } else if name.ends_with(".rs") && name != "tests.rs" {
            found.push(path);
        }
    }
}

fn noted(tokens: TokenStream, room: &str, all: &mut Texts) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        if is_test(&tokens[at..]) {
            at = behind_item(&tokens, at);
            continue;
        }
        if let (TokenTree::Ident(name), Some(arguments)) = (token, arguments(&tokens[at + 1..])) {
            match name.to_string().as_str() {
                "tr" | "tr_later" => text(arguments, room, all),
                "counted" => count(arguments, all),
                _ => {}
            }
        }
        if let TokenTree::Group(group) = token {
            noted(group.stream(), room, all);
        }
        at += 1;
    }
}

/// `(…)` or `!(…)`.
fn arguments(tokens: &[TokenTree]) -> Option<&Group> {
    let rest = match tokens.first()? {
        TokenTree::Punct(mark) if mark.as_char() == '!' => &tokens[1..],
        _ => tokens,
    };
    match rest.first()? {
        TokenTree::Group(group) if group.delimiter() == Delimiter::Parenthesis => Some(group),
        _ => None,
    }
}

/// Whether an attribute begins that only tests see.
fn is_test(tokens: &[TokenTree]) -> bool {
    match tokens {
        [TokenTree::Punct(mark), TokenTree::Group(group), ..] if mark.as_char() == '#' => {
            let said = group.stream().to_string().replace(' ', "");
            said.starts_with("cfg(test") || said.starts_with("cfg(all(test")
        }
        _ => false,
    }
}

/// First place behind an item that begins with an attribute.
fn behind_item(tokens: &[TokenTree], from: usize) -> usize {
    let ends = |token: &TokenTree| match token {
        TokenTree::Group(group) => group.delimiter() == Delimiter::Brace,
        TokenTree::Punct(mark) => mark.as_char() == ';',
        _ => false,
    };
    let end = tokens[from..].iter().position(ends);
    end.map_or(tokens.len(), |end| from + end + 1)
}

fn worded(token: &TokenTree) -> Option<String> {
    let literal = syn::parse_str::<syn::LitStr>(&token.to_string());
    Some(literal.ok()?.value())
}

/// What stands between the commas.
fn parts(group: &Group) -> Vec<Vec<TokenTree>> {
    let mut parts = vec![Vec::new()];
    for token in group.stream() {
        match token {
            TokenTree::Punct(mark) if mark.as_char() == ',' => parts.push(Vec::new()),
            other => parts.last_mut().expect("a part").push(other),
        }
    }
    parts.retain(|part| !part.is_empty());
    parts
}

fn text(arguments: &Group, room: &str, all: &mut Texts) {
    let parts = parts(arguments);
    let Some(text) = parts.first().and_then(|first| worded(first.first()?)) else {
        return;
    };
    let places: Vec<String> = parts[1..]
        .iter()
        .map(|part| part.iter().cloned().collect::<TokenStream>().to_string())
        .collect();
    all.note(room, &text, &places);
}

fn count(arguments: &Group, all: &mut Texts) {
    let parts = parts(arguments);
    let [_, one, more] = parts.as_slice() else {
        return;
    };
    if let ([one], [more]) = (one.as_slice(), more.as_slice())
        && let (Some(one), Some(more)) = (worded(one), worded(more))
    {
        all.counted.insert(one, more);
    }
}
