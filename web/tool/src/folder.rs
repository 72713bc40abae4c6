//! The page as a folder of files for any static web server.

use crate::bindings::{Bindings, PROGRAM_NAME, SCRIPT_NAME};
use crate::guide;
use crate::install;
use crate::languages;
use crate::page_build::File;
use crate::policy;
use crate::size::{brotli, gzipped};
use crate::sources::Sources;
use crate::template::{self, Contents, TemplateError};

/// Name of the script that starts the page.
pub const LOADER_NAME: &str = "loader.js";

/// Name of the script that starts the engine in a worker.
pub const ENGINE_NAME: &str = "engine.js";

/// Name of the style sheet.
pub const STYLE_NAME: &str = "style.css";

/// The folder's files, by name.
///
/// All of them name each other relatively, so that the folder may lie under any address.
///
/// # Errors
/// [`TemplateError`] if the template lacks a placeholder.
pub fn files(sources: &Sources, bindings: &Bindings) -> Result<Vec<File>, TemplateError> {
    let page = template::filled(
        &sources.template,
        Contents {
            policy: &policy::meta_element(&policy::of_folder()),
            origin: &(sources.origin.meta_elements()
                + &languages::meta_element(&sources.languages)),
            style: &format!(
                "<link rel=\"stylesheet\" href=\"{STYLE_NAME}\">\n\
                 <link rel=\"modulepreload\" href=\"{SCRIPT_NAME}\">\n\
                 <link rel=\"preload\" href=\"{PROGRAM_NAME}\" as=\"fetch\" \
                 type=\"application/wasm\" crossorigin>\n\
                 <link rel=\"manifest\" href=\"{}\">",
                install::MANIFEST_NAME
            ),
            early: &sources.early,
            script: &format!("<script type=\"module\" src=\"{LOADER_NAME}\"></script>"),
        },
    )?;
    let loader = format!("{}\n{}", sources.loader_common, sources.loader_folder);
    let own: [(&str, Vec<u8>); 10] = [
        ("index.html", page.into_bytes()),
        (
            guide::FILE_NAME,
            guide::document(sources, STYLE_NAME).into_bytes(),
        ),
        (STYLE_NAME, sources.style.clone().into_bytes()),
        (LOADER_NAME, loader.into_bytes()),
        (ENGINE_NAME, sources.engine.clone().into_bytes()),
        (SCRIPT_NAME, bindings.script.clone().into_bytes()),
        (PROGRAM_NAME, bindings.program.clone()),
        (
            install::MANIFEST_NAME,
            install::manifest(&sources.picture).into_bytes(),
        ),
        (install::ICON_NAME, install::ICON.into()),
        (install::MASKABLE_NAME, install::MASKABLE.into()),
    ];
    let parts = bindings.parts.iter();
    let mut files: Vec<File> = own
        .map(|(name, content)| (name.to_owned(), content))
        .into_iter()
        .chain(parts.map(|part| (part.name.clone(), part.program.clone())))
        .collect();
    let languages = languages::files(&sources.languages);
    let worker = install::worker(&sources.worker, &files, &languages);
    files.push((install::WORKER_NAME.to_owned(), worker.into_bytes()));
    // Kept by the service worker once one is chosen.
    files.extend(languages);
    // Of no use without a network.
    files.push((install::SCREENSHOT_NAME.to_owned(), sources.picture.clone()));
    Ok(files)
}

/// Kinds of files that a server may send packed.
const PACKED: [&str; 7] = ["wasm", "js", "css", "html", "svg", "webmanifest", "json"];

/// Packed copies of files, each beside its own under the names that servers look for.
#[must_use]
pub fn packed(files: &[File]) -> Vec<File> {
    let kind = |name: &str| {
        name.rsplit_once('.')
            .map(|(_, kind)| PACKED.contains(&kind))
    };
    let mut wanted: Vec<&File> = files
        .iter()
        .filter(|(name, _)| kind(name) == Some(true))
        .collect();
    // Each of the two threads gets as much as the other: the largest, the third largest, and so on.
    wanted.sort_by_key(|(_, content)| std::cmp::Reverse(content.len()));
    let share = |of: usize| {
        let own = wanted.iter().skip(of).step_by(2);
        own.flat_map(|(name, content)| {
            [
                (format!("{name}.br"), brotli(content)),
                (format!("{name}.gz"), gzipped(content)),
            ]
        })
        .collect::<Vec<File>>()
    };
    let (mut packed, beside) = std::thread::scope(|scope| {
        let other = scope.spawn(|| share(1));
        let own = share(0);
        // What a thread that panicked leaves out, a server sends as it is.
        (own, other.join().unwrap_or_default())
    });
    packed.extend(beside);
    packed
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::origin::Origin;
    use crate::parts::Part;

    #[test]
    fn every_file_that_the_page_names_is_there_under_a_relative_address() {
        let bindings = Bindings {
            script: "export default 1".to_owned(),
            program: vec![0],
            parts: vec![Part {
                name: "split_a.wasm".to_owned(),
                program: vec![1],
            }],
        };
        let sources = Sources {
            origin: Origin {
                version: "1.2.3",
                commit: None,
                date: None,
                notices: None,
            },
            template: include_str!("../../../index.html").to_owned(),
            style: "p{}".to_owned(),
            loader_common: include_str!("../../loader/common.js").to_owned(),
            loader_folder: include_str!("../../loader/folder.js").to_owned(),
            loader_single: String::new(),
            engine: include_str!("../../loader/engine.js").to_owned(),
            early: String::new(),
            picture: Vec::new(),
            worker: include_str!("../../loader/worker.js").to_owned(),
            languages: Vec::new(),
            guide: "<h1 id=\"guide-top\">Guide</h1>\n".to_owned(),
        };
        let files = files(&sources, &bindings).unwrap();
        let text = |name: &str| {
            let (_, bytes) = files
                .iter()
                .find(|(file, _)| *file == name)
                .expect("the file is there");
            String::from_utf8(bytes.clone()).unwrap()
        };

        let page = text("index.html");
        assert!(page.contains("href=\"style.css\""));
        assert!(page.contains("name=\"coolpath-version\" content=\"1.2.3\""));
        assert!(page.contains("src=\"loader.js\""));
        assert!(!page.contains("=\"/") && !page.contains("://127") && !page.contains("https:"));
        let loader = text("loader.js");
        assert!(loader.contains("import(\"./coolpath_web.js\")"));
        assert!(loader.contains("new URL(\"coolpath_web_bg.wasm\", import.meta.url)"));
        assert!(loader.contains("new URL(\"engine.js\", import.meta.url)"));
        assert!(text("engine.js").contains("from \"./coolpath_web.js\""));
        assert_eq!(text("coolpath_web.js"), "export default 1");
        assert_eq!(text("style.css"), "p{}");
        assert!(page.contains("href=\"coolpath.webmanifest\""));
        assert!(loader.contains("new URL(\"worker.js\", import.meta.url)"));
        assert!(
            text("worker.js").contains("\"split_a.wasm\""),
            "a view that was not looked at yet is there without a network too"
        );
        let guide = text("guide.html");
        assert!(guide.contains("href=\"style.css\"") && guide.contains("id=\"guide-top\""));
        assert!(!guide.contains("<script") && !guide.contains("https:"));
        assert!(
            text("worker.js").contains("\"guide.html\""),
            "it is there without a network"
        );
    }
}
