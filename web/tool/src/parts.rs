//! Divides the compiled program: what the first answer needs, and parts that are fetched when a view is
//! first looked at.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use wasm_encoder::RawSection;
use wasm_split_cli_support::{Options, transform};
use wasmparser::Parser;

use crate::compile::Care;

/// Name under which the program asks for the script that brings its parts.
const SCRIPT: &str = "./parts.js";

/// Section of a program that machines do not need: names, and who made it.
const CUSTOM: u8 = 0;

/// Why a program could not be divided.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum PartsError {
    /// A file could not be read or written.
    #[error("{path} cannot be used: {source}")]
    File {
        /// The file or folder.
        path: PathBuf,
        /// What the system says.
        source: io::Error,
    },
    /// The program has not the form that can be divided.
    #[error("the page's program could not be divided: {0}")]
    Divider(Box<dyn std::error::Error + Send + Sync>),
    /// The scripts have not the form that can be joined.
    #[error("the scripts of the page's program have another form than expected: {0}")]
    Script(&'static str),
}

/// A part of the program.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// Name of its file.
    pub name: String,
    /// It, in WebAssembly's binary format.
    pub program: Vec<u8>,
}

/// A divided program.
#[derive(Debug, Clone)]
pub struct Divided {
    /// File of what is needed first, which still lacks its connecting script.
    pub main: PathBuf,
    /// The parts.
    pub parts: Vec<Part>,
    /// The script that brings the parts, an ECMAScript module.
    script: String,
}

/// Divides a program that holds its relocations.
///
/// # Arguments
/// * `program` - its file; what is made lies beside it
/// * `script_name` - name of the script that connects it with the browser
/// * `care` - a draft's parts keep the names of their functions
///
/// # Errors
/// [`PartsError`] if the program has no relocations or a file cannot be used.
pub fn divided(program: &Path, script_name: &str, care: Care) -> Result<Divided, PartsError> {
    let folder = program.with_extension("parts");
    let of = |path: &Path| {
        let path = path.to_owned();
        move |source| PartsError::File { path, source }
    };
    // Parts of an earlier build would be taken for this one's.
    match fs::remove_dir_all(&folder) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(of(&folder)(error)),
        _ => Ok(()),
    }?;
    let input = fs::read(program).map_err(of(program))?;
    let main = folder.join("main.wasm");
    let main_script = format!("./{script_name}");
    let mut options = Options::new(&input);
    options.output_dir = &folder;
    options.main_out_path = &main;
    options.link_name = SCRIPT;
    options.main_module = &main_script;
    let made = transform(options).map_err(|error| PartsError::Divider(error.into()))?;
    let mut parts = Vec::new();
    for path in made.split_modules {
        let named = fs::read(&path).map_err(of(&path))?;
        let name = path.file_name().and_then(|name| name.to_str());
        parts.push(Part {
            name: name.ok_or(PartsError::Script("a name"))?.to_owned(),
            program: match care {
                Care::Whole => without_names(&named)?,
                Care::Draft => named,
            },
        });
    }
    parts.sort_by(|a, b| a.name.cmp(&b.name));
    let script = folder.join(SCRIPT);
    Ok(Divided {
        main,
        parts,
        script: fs::read_to_string(&script).map_err(of(&script))?,
    })
}

/// A program without the sections that only people read.
fn without_names(program: &[u8]) -> Result<Vec<u8>, PartsError> {
    let mut plain = wasm_encoder::Module::new();
    for payload in Parser::new(0).parse_all(program) {
        let payload = payload.map_err(|error| PartsError::Divider(error.into()))?;
        if let Some((id, range)) = payload.as_section()
            && id != CUSTOM
            && let (Ok(from), Ok(to)) = (usize::try_from(range.start), usize::try_from(range.end))
            && let Some(data) = program.get(from..to)
        {
            plain.section(&RawSection { id, data });
        }
    }
    Ok(plain.finish())
}

impl Divided {
    /// The connecting script with the one that brings the parts in it, so that one file brings both.
    ///
    /// # Errors
    /// [`PartsError::Script`] if either has another form than expected.
    pub fn joined(&self, connecting: &str) -> Result<String, PartsError> {
        let import = format!(" from \"{SCRIPT}\"");
        let (imports, rest): (Vec<&str>, Vec<&str>) = connecting
            .lines()
            .partition(|line| line.starts_with("import ") && line.contains(&import));
        let names: Vec<&str> = imports
            .iter()
            .filter_map(|line| line.strip_prefix("import * as ")?.split(' ').next())
            .collect();
        if names.len() != imports.len() {
            return Err(PartsError::Script("an import"));
        }
        let (own, bringing): (Vec<&str>, Vec<&str>) = self
            .script
            .lines()
            .partition(|line| line.starts_with("import "));
        if own.len() != 1 || !own[0].starts_with("import { initSync }") {
            return Err(PartsError::Script("the start"));
        }
        let loaders: Vec<&str> = bringing
            .iter()
            .filter_map(|line| line.strip_prefix("export const ")?.split(' ').next())
            .collect();
        let brought = format!("const parts = {{ {} }};", loaders.join(", "));
        let aliases = names.iter().map(|name| format!("const {name} = parts;"));
        let lines = rest
            .into_iter()
            .map(str::to_owned)
            .chain(
                bringing
                    .iter()
                    .map(|line| line.strip_prefix("export ").unwrap_or(line).to_owned()),
            )
            .chain([brought])
            .chain(aliases);
        Ok(lines.fold(String::new(), |text, line| text + &line + "\n"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn divided_into(script: &str) -> Divided {
        Divided {
            main: PathBuf::new(),
            parts: Vec::new(),
            script: script.to_owned(),
        }
    }

    #[test]
    fn two_scripts_become_one_that_imports_nothing() {
        let parts = divided_into(
            "import { initSync } from \"./a.js\";\nexport const load_x = wrap();\nlet y;\n",
        );
        let joined = parts.joined(
            "import * as one from \"./parts.js\"\nimport * as two from \"./parts.js\"\nexport { a as default };\n",
        );
        let expected = "export { a as default };\nconst load_x = wrap();\nlet y;\n\
            const parts = { load_x };\nconst one = parts;\nconst two = parts;\n";
        assert_eq!(joined.expect("a script"), expected);
    }

    #[test]
    fn scripts_of_another_form_are_refused() {
        let connecting = "import { b } from \"./parts.js\"\n";
        let good = "import { initSync } from \"./a.js\";\n";
        for (script, connecting) in [(good, connecting), ("let y;\n", "let a;\n")] {
            let joined = divided_into(script).joined(connecting);
            assert!(matches!(joined, Err(PartsError::Script(_))), "{joined:?}");
        }
    }

    #[test]
    fn names_are_taken_out_and_nothing_else() {
        let mut program = wasm_encoder::Module::new();
        let mut types = wasm_encoder::TypeSection::new();
        types.ty().function([], []);
        program.section(&types);
        let bare = program.clone().finish();
        program.section(&wasm_encoder::CustomSection {
            name: "name".into(),
            data: (&[1, 2, 3][..]).into(),
        });
        let named = program.finish();
        assert!(named.len() > bare.len());
        assert_eq!(without_names(&named).expect("a program"), bare);
    }

    #[test]
    fn a_program_without_relocations_is_refused() {
        let folder = std::env::temp_dir().join(format!("coolpath-parts-{}", std::process::id()));
        fs::create_dir_all(&folder).expect("a folder");
        let program = folder.join("a.wasm");
        fs::write(&program, wasm_encoder::Module::new().finish()).expect("a file");
        assert!(matches!(
            divided(&program, "a.js", Care::Whole),
            Err(PartsError::Divider(_))
        ));
        fs::remove_dir_all(&folder).expect("its end");
    }
}
