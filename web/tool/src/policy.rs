//! What the page may load and run, as its content security policy.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

/// Policy of the folder: only its own files, and no inline script or style sheet.
///
/// Style attributes stay allowed, since the charts measure their texts with a styled element.
pub fn of_folder() -> String {
    policy(&[
        "default-src 'self'",
        "script-src 'self' 'wasm-unsafe-eval'",
        "style-src 'self'",
        "img-src 'self' data: blob:",
    ])
}

/// Policy of a document of the folder that runs nothing: its style sheet and its icon.
pub fn of_document() -> String {
    policy(&["default-src 'none'", "style-src 'self'", "img-src 'self'"])
}

/// Policy of the single file: its one script and its one style sheet by their digests, and
/// nothing from anywhere else but workers that the script makes itself.
///
/// # Arguments
/// * `script` - the script element's text, to the byte
/// * `style` - the style element's text, to the byte
pub fn of_single_file(script: &str, style: &str) -> String {
    policy(&[
        "default-src 'none'",
        &format!("script-src {} 'wasm-unsafe-eval'", source_hash(script)),
        &format!("style-src {}", source_hash(style)),
        "img-src data: blob:",
        "worker-src blob:",
    ])
}

fn policy(sources: &[&str]) -> String {
    const COMMON: [&str; 4] = [
        "style-src-attr 'unsafe-inline'",
        "object-src 'none'",
        "base-uri 'none'",
        "form-action 'none'",
    ];
    [sources, &COMMON].concat().join("; ")
}

/// The element that carries a policy in a page.
pub fn meta_element(policy: &str) -> String {
    format!("<meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">")
}

/// The source expression that allows an inline element with just this text.
pub fn source_hash(text: &str) -> String {
    format!("'sha256-{}'", STANDARD.encode(Sha256::digest(text)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Directives of a policy by name.
    fn sources<'a>(policy: &'a str, name: &str) -> Vec<&'a str> {
        policy
            .split("; ")
            .map(|directive| directive.split(' ').collect::<Vec<_>>())
            .find(|words| words[0] == name)
            .unwrap_or_else(|| panic!("{name} in {policy}"))[1..]
            .to_vec()
    }

    #[test]
    fn digests_equal_those_of_the_standard_test_messages() {
        // FIPS 180-2, appendix B.1, and the digest of the empty message.
        assert_eq!(
            source_hash("abc"),
            "'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='"
        );
        assert_eq!(
            source_hash(""),
            "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='"
        );
    }

    #[test]
    fn the_folder_runs_no_inline_script_and_no_eval() {
        let policy = of_folder();
        assert_eq!(
            sources(&policy, "script-src"),
            ["'self'", "'wasm-unsafe-eval'"]
        );
        assert_eq!(sources(&policy, "style-src"), ["'self'"]);
        assert_eq!(sources(&policy, "default-src"), ["'self'"]);
    }

    #[test]
    fn a_document_runs_no_script_at_all() {
        let policy = of_document();
        assert_eq!(sources(&policy, "default-src"), ["'none'"]);
        assert_eq!(sources(&policy, "style-src"), ["'self'"]);
        assert!(!policy.contains("script-src"));
    }

    #[test]
    fn the_single_file_runs_its_own_script_alone() {
        let policy = of_single_file("run()", "p{}");
        assert_eq!(
            sources(&policy, "script-src"),
            [source_hash("run()").as_str(), "'wasm-unsafe-eval'"]
        );
        assert_eq!(sources(&policy, "style-src"), [source_hash("p{}").as_str()]);
        assert_eq!(sources(&policy, "default-src"), ["'none'"]);
        assert!(
            !policy.contains("'self'"),
            "the disk around it is not its own"
        );
    }

    #[test]
    fn both_allow_inline_style_for_attributes_only() {
        for policy in [of_folder(), of_document(), of_single_file("", "")] {
            assert_eq!(policy.matches("'unsafe-inline'").count(), 1);
            assert_eq!(sources(&policy, "style-src-attr"), ["'unsafe-inline'"]);
            for name in ["object-src", "base-uri", "form-action"] {
                assert_eq!(sources(&policy, name), ["'none'"]);
            }
            assert!(!policy.contains('"'), "it stands inside an attribute");
        }
    }
}
