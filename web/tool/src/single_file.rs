//! The page as one file that works from a disk, without server or network.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;

use crate::bindings::Bindings;
use crate::guide;
use crate::parts::Part;
use crate::policy;
use crate::size::gzipped;
use crate::sources::Sources;
use crate::template::{self, Contents, TemplateError};

/// Name of the single file.
pub const FILE_NAME: &str = "coolpath.html";

/// The single file's text.
///
/// # Errors
/// [`TemplateError`] if the template lacks a placeholder.
pub fn page(sources: &Sources, bindings: &Bindings) -> Result<String, TemplateError> {
    let script = inline_script(&format!(
        "\n{}\n// coolpath:page\n{}\n{}",
        with_parts_inside(bindings),
        sources.loader_common,
        sources.loader_single
    ));
    let style = inline_style(&format!("\n{}", sources.style));
    let parts = bindings.parts.iter();
    let programs: String = std::iter::once(data_block("program", &bindings.program))
        .chain(parts.map(|part| data_block(&part.name, &part.program)))
        .collect();
    template::filled(
        &sources.template,
        Contents {
            policy: &policy::meta_element(&policy::of_single_file(&script, &style)),
            origin: &sources.origin.meta_elements(),
            style: &format!("<style>{style}</style>"),
            early: &sources.early,
            script: &format!(
                "{}\n{programs}<script type=\"module\">{script}</script>",
                guide::template(sources)
            ),
        },
    )
}

/// A program as a data block: browsers do not run its type, so that the policy need not allow it.
fn data_block(id: &str, program: &[u8]) -> String {
    format!(
        "<script type=\"application/gzip;base64\" id=\"{id}\">{}</script>\n",
        STANDARD.encode(gzipped(program))
    )
}

/// The connecting script, which takes the program's parts out of the file instead of fetching them.
fn with_parts_inside(bindings: &Bindings) -> String {
    bindings
        .parts
        .iter()
        .fold(bindings.script.clone(), |script, Part { name, .. }| {
            script.replace(
                &format!("fetch(new URL(\"./{name}\", import.meta.url))"),
                &format!("embeddedPart(\"{name}\")"),
            )
        })
}

/// A script's text that cannot end its element, nor change how a browser reads on.
///
/// The sequences occur in string literals only, where the escape means the same character.
/// Anywhere else it would be a syntax error, which is seen at once.
fn inline_script(script: &str) -> String {
    let script = plain_line_ends(script);
    let mut safe = String::with_capacity(script.len());
    for (at, character) in script.char_indices() {
        let rest = &script.as_bytes()[at..];
        let dangerous = ["</script", "<script", "<!--"]
            .iter()
            .any(|start| starts_with_ignoring_case(rest, start));
        if dangerous {
            // Behind a backslash the sign is escaped already, and a second one would undo that.
            let backslashes = safe.len() - safe.trim_end_matches('\\').len();
            safe.push_str(if backslashes.is_multiple_of(2) {
                "\\x3C"
            } else {
                "x3C"
            });
        } else {
            safe.push(character);
        }
    }
    safe
}

/// A style sheet's text that cannot end its element.
fn inline_style(style: &str) -> String {
    let style = plain_line_ends(style);
    let mut safe = String::with_capacity(style.len());
    for (at, character) in style.char_indices() {
        safe.push(character);
        if starts_with_ignoring_case(&style.as_bytes()[at..], "</style") {
            safe.push('\\');
        }
    }
    safe
}

fn plain_line_ends(text: &str) -> String {
    text.replace("\r\n", "\n").replace('\r', "\n")
}

fn starts_with_ignoring_case(text: &[u8], start: &str) -> bool {
    text.get(..start.len())
        .is_some_and(|head| head.eq_ignore_ascii_case(start.as_bytes()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::origin::Origin;
    use flate2::read::GzDecoder;
    use std::io::Read;

    fn sources(style: &str) -> Sources {
        Sources {
            origin: Origin {
                version: "1.2.3",
                commit: None,
                date: None,
                notices: None,
            },
            template: include_str!("../../../index.html").to_owned(),
            style: style.to_owned(),
            loader_common: "// common é\n".to_owned(),
            loader_folder: "// folder\n".to_owned(),
            loader_single: "// single\n".to_owned(),
            engine: String::new(),
            early: String::new(),
            picture: Vec::new(),
            worker: String::new(),
            languages: Vec::new(),
            guide: "<h1>Guide</h1>\n".to_owned(),
        }
    }

    fn bindings(script: &str) -> Bindings {
        Bindings {
            script: script.to_owned(),
            program: b"\0asm".to_vec(),
            parts: vec![Part {
                name: "split_a.wasm".to_owned(),
                program: b"\0asm part".to_vec(),
            }],
        }
    }

    /// Text between two marks, the first of its kind.
    fn between<'a>(text: &'a str, from: &str, to: &str) -> &'a str {
        let start = text.find(from).expect("the first mark") + from.len();
        let length = text[start..].find(to).expect("the second mark");
        &text[start..start + length]
    }

    #[test]
    fn the_policy_names_the_digests_of_what_stands_between_the_tags() {
        let page = page(&sources("p { color: red }"), &bindings("let a = 1;\r\n")).unwrap();
        let script = between(&page, "<script type=\"module\">", "</script>");
        let style = between(&page, "<style>", "</style>");
        let policy = between(&page, "Content-Security-Policy\" content=\"", "\">");
        assert!(script.contains("let a = 1;\n"));
        assert_eq!(policy, policy::of_single_file(script, style));
        assert!(!page.contains('\r'));
    }

    #[test]
    fn nothing_in_a_script_can_end_its_element() {
        for text in ["</script>", "</SCRIPT >", "<script>", "<!--<script>"] {
            let page = page(
                &sources(""),
                &bindings(&format!("let a = \"{text}alert(1)\";")),
            )
            .unwrap();
            let script = between(&page, "<script type=\"module\">", "</script>");
            assert!(script.contains("alert(1)"), "{text} ended the script");
            assert!(script.ends_with("// single\n"), "{text} ended the script");
            assert!(!script.contains("<!--") && !script.to_lowercase().contains("<script"));
        }
    }

    #[test]
    fn comparisons_in_a_script_stay_as_they_are() {
        let script = "for (let i = 0; i <2 && i<n; i++) a <<= 1; // é";
        assert_eq!(inline_script(script), script);
        assert_eq!(inline_script("'</ScRipt>'"), "'\\x3C/ScRipt>'");
        assert_eq!(inline_script(r"'\</script>'"), r"'\x3C/script>'");
        assert_eq!(inline_script(r"'\\</script>'"), r"'\\\x3C/script>'");
    }

    #[test]
    fn nothing_in_a_style_sheet_can_end_its_element() {
        let page = page(
            &sources("a::after { content: \"</Style>x\" }"),
            &bindings(""),
        )
        .unwrap();
        assert!(between(&page, "<style>", "</style>").contains("<\\/Style>x"));
    }

    #[test]
    fn the_program_is_in_the_file_with_its_parts_and_nothing_is_fetched() {
        const FETCH: &str = "fetch(new URL(\"./split_a.wasm\", import.meta.url))";
        let page = page(&sources(""), &bindings(FETCH)).unwrap();
        for (id, program) in [
            ("program", &b"\0asm"[..]),
            ("split_a.wasm", &b"\0asm part"[..]),
        ] {
            let text = between(&page, &format!("id=\"{id}\">"), "</script>");
            let packed = STANDARD.decode(text).expect("base64");
            let mut unpacked = Vec::new();
            let read = GzDecoder::new(&packed[..]).read_to_end(&mut unpacked);
            assert_eq!(
                (read.ok(), unpacked.as_slice()),
                (Some(program.len()), program)
            );
        }
        assert!(page.contains("embeddedPart(\"split_a.wasm\")") && !page.contains("fetch("));
        assert!(!page.contains(" src=") && !page.contains("rel=\"stylesheet\""));
    }
}
