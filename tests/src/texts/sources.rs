//! What the sources word: `tr("…")`, `tr!("…", …)`, `tr_later("…")`, `counted(…, "…", "…")`.

use crate::rust_files::rust_files;
use proc_macro2::{Delimiter, Group, TokenStream, TokenTree};
use std::fs;
use std::path::Path;

/// What stands in a source.
pub enum Found {
    /// A text, with what its places are filled with.
    Text(String, Vec<String>),
    /// What is counted: the word for one, and for more.
    Count(String, String),
    /// A literal that no language reaches.
    Bare(String),
}

/// Calls whose texts no user reads.
const OF_FAULTS: [&str; 7] = [
    "expect",
    "panic",
    "assert",
    "assert_eq",
    "assert_ne",
    "unreachable",
    "debug_assert",
];

/// Where no text of the page stands: what puts it into words, and tests.
const NO_TEXTS: [&str; 3] = ["language", "damaged_texts.rs", "nothing_is_lost.rs"];

/// Hands over what stands in the sources of core and page, with the room in which it stands.
///
/// # Panics
/// If a source cannot be read as Rust.
pub fn walk(found: &mut dyn FnMut(&str, Found)) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    for (folder, before) in [("core/src", "core/"), ("web/src", "")] {
        let folder = root.join(folder);
        for path in rust_files(&folder) {
            let inside = path.strip_prefix(&folder).expect("a file of the folder");
            let first = inside.iter().next().expect("a name").to_string_lossy();
            if NO_TEXTS.contains(&first.as_ref()) || is_of_tests(inside) {
                continue;
            }
            let room = format!("{before}{}", first.trim_end_matches(".rs"));
            let source = fs::read_to_string(&path).expect("a source can be read");
            let tokens: TokenStream = source
                .parse()
                .unwrap_or_else(|error| panic!("{}: {error}", path.display()));
            of_tokens(tokens, &mut |one| found(&room, one));
        }
    }
}

/// Whether a source holds tests alone.
fn is_of_tests(inside: &Path) -> bool {
    inside.ends_with("tests.rs") || inside.iter().any(|part| part == "tests")
}

/// What stands in some tokens.
pub fn of_tokens(tokens: TokenStream, found: &mut dyn FnMut(Found)) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        if let Some(attribute) = attribute(&tokens[at..]) {
            let is_test = ["test", "cfg(test)"].contains(&attribute.as_str())
                || attribute.starts_with("cfg(all(test");
            at = if is_test {
                behind_item(&tokens, at)
            } else {
                at + match attribute.as_str() {
                    "inner" => 3,
                    // Sentences of errors stand in attributes.
                    error if error.starts_with("error") => 1,
                    _ => 2,
                }
            };
            continue;
        }
        if let (TokenTree::Ident(name), Some(group)) = (token, arguments(&tokens[at + 1..])) {
            let name = name.to_string();
            match name.as_str() {
                "tr" | "tr_later" => text(group, found),
                "counted" => count(group, found),
                _ => {}
            }
            if ["tr", "tr_later", "counted"].contains(&name.as_str())
                || OF_FAULTS.contains(&name.as_str())
            {
                // Of its own literals all is said; calls inside have theirs.
                let inner = group.stream().into_iter();
                let inner = inner.filter(|token| !matches!(token, TokenTree::Literal(_)));
                of_tokens(inner.collect(), found);
                at += if matches!(tokens.get(at + 1), Some(TokenTree::Punct(_))) {
                    3
                } else {
                    2
                };
                continue;
            }
        }
        match token {
            TokenTree::Group(group) => of_tokens(group.stream(), found),
            TokenTree::Literal(_) => {
                if let Some(text) = worded(token) {
                    found(Found::Bare(text));
                }
            }
            _ => {}
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

/// What an attribute says that begins here.
fn attribute(tokens: &[TokenTree]) -> Option<String> {
    match tokens {
        [TokenTree::Punct(mark), TokenTree::Group(group), ..]
            if mark.as_char() == '#' && group.delimiter() == Delimiter::Bracket =>
        {
            Some(group.stream().to_string().replace(' ', ""))
        }
        [TokenTree::Punct(mark), TokenTree::Punct(inner), ..]
            if mark.as_char() == '#' && inner.as_char() == '!' =>
        {
            Some("inner".to_owned())
        }
        _ => None,
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

fn text(arguments: &Group, found: &mut dyn FnMut(Found)) {
    let parts = parts(arguments);
    let Some(text) = parts.first().and_then(|first| worded(first.first()?)) else {
        return;
    };
    let places = parts[1..]
        .iter()
        .map(|part| part.iter().cloned().collect::<TokenStream>().to_string())
        .collect();
    found(Found::Text(text, places));
}

fn count(arguments: &Group, found: &mut dyn FnMut(Found)) {
    let parts = parts(arguments);
    if let [_, one, more] = parts.as_slice()
        && let ([one], [more]) = (one.as_slice(), more.as_slice())
        && let (Some(one), Some(more)) = (worded(one), worded(more))
    {
        found(Found::Count(one, more));
    }
}
