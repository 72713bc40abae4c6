//! Rooms stand on one-way stairs: no file imports from a room above its own, and no files import
//! one another in a circle. Files and functions stay short enough to be read at once.

use coolpath_tests::rust_files::rust_files;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// Rooms of core, each may import those before it.
const CORE: [&str; 11] = [
    "language", "units", "math", "air", "engine", "path", "document", "answer", "decide", "prove",
    "workshop",
];
/// Rooms of the page; those in one row stand side by side.
const WEB: [&[&str]; 6] = [
    &["state", "kit"],
    &["browser", "charts", "sheet"],
    &["engine"],
    &["design", "share"],
    &["decide", "workshop", "fly"],
    &["report", "shell"],
];

/// Files of the page beside the rooms: its parts, and tests over all of it.
const BESIDE: [&str; 3] = ["damaged_texts", "nothing_is_lost", "views"];

/// Lines of a file, and of a function, beyond which it is to be split.
const LONGEST_FILE: usize = 500;
const LONGEST_FUNCTION: usize = 100;
type Module = Vec<String>;

/// What a folder's files import of one another, by module.
struct Imports {
    modules: BTreeSet<Module>,
    edges: BTreeMap<Module, BTreeSet<Module>>,
}

fn module_of(path: &Path, root: &Path) -> Module {
    let inside = path.strip_prefix(root).expect("a file of the folder");
    let mut parts: Module = inside
        .with_extension("")
        .iter()
        .map(|part| part.to_string_lossy().into_owned())
        .collect();
    if parts
        .last()
        .is_some_and(|last| ["mod", "lib", "main"].contains(&last.as_str()))
    {
        parts.pop();
    }
    parts
}

/// Code without comments and without the unit tests at its end.
fn code(text: &str) -> String {
    let body = text
        .split("#[cfg(test)]\nmod tests {")
        .next()
        .unwrap_or(text);
    body.lines()
        .filter(|line| !line.trim_start().starts_with("//"))
        .collect::<Vec<_>>()
        .join("\n")
}

/// Every path that begins with `crate` or `super`, whole, groups unfolded one deep.
fn paths(code: &str, own: &Module) -> Vec<Module> {
    let mut found = Vec::new();
    let is_word = |c: char| c.is_alphanumeric() || c == '_';
    for start in ["crate::", "super::"] {
        for (at, _) in code.match_indices(start) {
            let before = code[..at].chars().next_back();
            if before.is_some_and(|c| is_word(c) || c == ':') {
                continue;
            }
            let mut base = if start == "crate::" {
                Module::new()
            } else {
                own[..own.len().saturating_sub(1)].to_vec()
            };
            let mut rest = &code[at + start.len()..];
            loop {
                if let Some(group) = rest.strip_prefix('{') {
                    let inner = group.split('}').next().unwrap_or("");
                    for item in inner.split(',') {
                        let mut whole = base.clone();
                        whole.extend(item.trim().split("::").map(str::to_owned));
                        found.push(whole);
                    }
                    break;
                }
                let word: String = rest.chars().take_while(|&c| is_word(c)).collect();
                if word == "super" {
                    base.pop();
                } else {
                    base.push(word.clone());
                }
                rest = &rest[word.len()..];
                match rest.strip_prefix("::") {
                    Some(further) if !word.is_empty() => rest = further,
                    _ => {
                        found.push(base);
                        break;
                    }
                }
            }
        }
    }
    found
}

/// Names that a `mod.rs` hands on from its children: the child that holds each.
fn handed_on(code: &str, own: &Module, modules: &BTreeSet<Module>) -> Vec<(Module, Module)> {
    let mut found = Vec::new();
    for piece in code.split("pub use ").skip(1) {
        let statement = piece.split(';').next().unwrap_or("");
        let Some((child, names)) = statement.split_once("::") else {
            continue;
        };
        let mut home = own.clone();
        home.push(child.trim().to_owned());
        if !modules.contains(&home) {
            continue;
        }
        for name in names.trim_matches(['{', '}']).split(',') {
            let mut alias = own.clone();
            alias.push(name.trim().trim_matches(['{', '}', '\n', ' ']).to_owned());
            found.push((alias, home.clone()));
        }
    }
    found
}

impl Imports {
    fn of(root: &Path) -> Self {
        let texts: BTreeMap<Module, String> = rust_files(root)
            .iter()
            .map(|path| {
                let text = std::fs::read_to_string(path).expect("a source file");
                (module_of(path, root), code(&text))
            })
            .collect();
        let modules: BTreeSet<Module> = texts.keys().cloned().collect();
        let homes: BTreeMap<Module, Module> = texts
            .iter()
            .flat_map(|(module, code)| handed_on(code, module, &modules))
            .collect();
        let mut edges: BTreeMap<Module, BTreeSet<Module>> = BTreeMap::new();
        for (module, code) in &texts {
            for path in paths(code, module) {
                let target = (0..=path.len())
                    .rev()
                    .map(|length| path[..length].to_vec())
                    .find_map(|part| {
                        homes
                            .get(&part)
                            .cloned()
                            .or(modules.contains(&part).then_some(part))
                    })
                    .unwrap_or_default();
                if !target.is_empty() && &target != module {
                    edges.entry(module.clone()).or_default().insert(target);
                }
            }
        }
        Self { modules, edges }
    }

    fn from(&self, module: &Module) -> impl Iterator<Item = &Module> {
        self.edges.get(module).into_iter().flatten()
    }

    /// The rooms that the files stand in; a file beside them counts as one.
    fn rooms(&self) -> BTreeSet<&str> {
        self.modules
            .iter()
            .filter_map(|module| module.first().map(String::as_str))
            .collect()
    }

    /// A way from a file back to itself.
    fn circle(&self) -> Option<Vec<String>> {
        self.modules.iter().find_map(|start| {
            let mut seen = BTreeSet::new();
            let mut way: Vec<(Module, Vec<String>)> = vec![(start.clone(), vec![start.join("/")])];
            while let Some((module, so_far)) = way.pop() {
                for next in self.from(&module) {
                    let mut longer = so_far.clone();
                    longer.push(next.join("/"));
                    if next == start {
                        return Some(longer);
                    }
                    if seen.insert(next.clone()) {
                        way.push((next.clone(), longer));
                    }
                }
            }
            None
        })
    }

    /// Imports from a room that stands above the importing file's.
    fn upward(&self, step: impl Fn(&str) -> Option<usize>) -> Vec<String> {
        let mut found = Vec::new();
        for (module, targets) in &self.edges {
            for target in targets {
                let at = |file: &Module| file.first().and_then(|room| step(room));
                if let (Some(own), Some(other)) = (at(module), at(target))
                    && other > own
                {
                    found.push(format!("{} imports {}", module.join("/"), target.join("/")));
                }
            }
        }
        found
    }
}

fn sources(folder: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("..")
        .join(folder)
}

fn step_of_core(room: &str) -> Option<usize> {
    CORE.iter().position(|name| *name == room)
}

fn step_of_web(room: &str) -> Option<usize> {
    WEB.iter().position(|row| row.contains(&room))
}

#[test]
fn core_stands_on_one_way_stairs() {
    let imports = Imports::of(&sources("core/src"));
    assert!(imports.modules.len() > 90, "the folder was read");
    assert_eq!(
        imports.rooms(),
        CORE.into_iter().collect(),
        "every file has a room"
    );
    assert_eq!(imports.upward(step_of_core), Vec::<String>::new());
    assert_eq!(imports.circle(), None);
}

#[test]
fn the_page_stands_on_one_way_stairs() {
    let imports = Imports::of(&sources("web/src"));
    assert!(imports.modules.len() > 90, "the folder was read");
    let stairs = WEB.iter().copied().flatten().copied();
    assert_eq!(
        imports.rooms(),
        stairs.chain(BESIDE).collect(),
        "every file has a room"
    );
    assert_eq!(imports.upward(step_of_web), Vec::<String>::new());
    assert_eq!(imports.circle(), None);
}

#[test]
fn an_import_is_found_however_it_is_written() {
    let own: Module = vec!["path".to_owned(), "solve".to_owned()];
    let found = paths(
        "use crate::air::{wind::Speed, sun};\nlet x = super::decks::size(); crate::units::si::inch(1.0);",
        &own,
    );
    let found: BTreeSet<String> = found.iter().map(|path| path.join("/")).collect();
    let expected = [
        "air/wind/Speed",
        "air/sun",
        "path/decks/size",
        "units/si/inch",
    ];
    assert_eq!(found, expected.map(str::to_owned).into_iter().collect());
}

/// Name and lines of every function, as `cargo fmt` lays them out: a body ends with the brace that
/// stands as far in as its `fn`.
fn functions(text: &str) -> Vec<(String, usize)> {
    const BEFORE: [&str; 4] = ["pub", "const", "async", "fn"];
    let lines: Vec<&str> = text.lines().collect();
    let mut found = Vec::new();
    for (first, line) in lines.iter().enumerate() {
        let inside = line.trim_start();
        let word = inside.split([' ', '(']).next().unwrap_or("");
        let Some((_, after)) = inside.split_once("fn ").filter(|_| BEFORE.contains(&word)) else {
            continue;
        };
        let indent = &line[..line.len() - inside.len()];
        let mut signature = lines[first..].iter().take_while(|line| !line.is_empty());
        let has_body = signature
            .find(|line| line.ends_with(['{', ';', '}']))
            .is_some_and(|line| line.ends_with('{'));
        let end = format!("{indent}}}");
        let length = lines[first..].iter().position(|line| *line == end);
        if let (true, Some(length)) = (has_body, length) {
            let name = after.split(['(', '<']).next().unwrap_or("");
            found.push((name.to_owned(), length + 1));
        }
    }
    found
}

/// Files and functions of a folder that are too long, each by its path and name.
fn too_long(folder: &str) -> Vec<String> {
    let root = sources(folder);
    let list = rust_files(&root);
    assert!(list.len() > 10, "{folder} was read");
    let mut found = Vec::new();
    for path in list {
        let inside = path.strip_prefix(&root).expect("a file of the folder");
        let name = format!("{folder}/{}", inside.display());
        let text = std::fs::read_to_string(&path).expect("a source file");
        let lines = text.lines().count();
        if lines > LONGEST_FILE {
            found.push(format!("{name}: {lines} lines"));
        }
        for (function, lines) in functions(&text) {
            if lines > LONGEST_FUNCTION {
                found.push(format!("{name}, {function}: {lines} lines"));
            }
        }
    }
    found
}

#[test]
fn files_and_functions_stay_short() {
    let found: Vec<String> = ["core", "web", "tests"].map(too_long).concat();
    assert!(found.is_empty(), "too long: {found:#?}");
}

#[test]
fn a_function_is_measured_from_its_name_to_its_brace() {
    let text = "\
impl Cowl {
    pub fn area(&self) -> f64 {
        if self.open {
            1.0
        } else {
            0.0
        }
    }
    const fn pressure(
        &self,
    ) -> f64 {
        0.0
    }
    fn short(&self) {}
    fn of_a_trait(&self);
}
";
    let expected = [("area", 7), ("pressure", 5)];
    let expected = expected.map(|(name, lines)| (name.to_owned(), lines));
    assert_eq!(functions(text), expected);
}
