//! What lets a browser install the folder and serve it without a network.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use sha2::{Digest, Sha256};

use crate::page_build::File;

/// Name of the manifest.
pub const MANIFEST_NAME: &str = "coolpath.webmanifest";
/// Name of the icon.
pub const ICON_NAME: &str = "icon.svg";
/// Name of the service worker.
pub const WORKER_NAME: &str = "worker.js";

/// The manifest.
pub const MANIFEST: &str = r##"{
  "name": "Coolpath",
  "short_name": "Coolpath",
  "description": "Sizes the cooling air of an air-cooled, horizontally opposed piston engine.",
  "start_url": "./",
  "scope": "./",
  "display": "standalone",
  "background_color": "#f5f3ee",
  "theme_color": "#0a5e66",
  "icons": [{ "src": "icon.svg", "sizes": "any", "type": "image/svg+xml", "purpose": "any" }]
}
"##;

/// The icon: a stream in at the front, down through the fins, out under the firewall.
pub const ICON: &str = concat!(
    "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 64 64\">",
    "<rect width=\"64\" height=\"64\" rx=\"12\" fill=\"#f5f3ee\"/>",
    "<path fill=\"none\" stroke=\"#0a5e66\" stroke-width=\"5\" stroke-linejoin=\"round\" ",
    "d=\"M8 20h22l10 26h14M44 36l11 10-11 10\"/></svg>\n"
);

/// The service worker for some files: it knows their names, and a version that changes with any
/// byte of them or of itself.
pub fn worker(source: &str, files: &[File]) -> String {
    let mut digest = Sha256::new();
    digest.update(source);
    for (name, content) in files {
        digest.update(name);
        digest.update(content);
    }
    let version = URL_SAFE_NO_PAD.encode(&digest.finalize()[..12]);
    let names: Vec<String> = files
        .iter()
        .map(|(name, _)| format!("\"{name}\""))
        .collect();
    format!(
        "const VERSION = \"{version}\";\nconst FILES = [{}];\n{source}",
        names.join(", ")
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_changed_byte_is_another_version() {
        let files = |content: &str| vec![("a.js".to_owned(), content.as_bytes().to_vec())];
        let (one, same) = (worker("w", &files("1")), worker("w", &files("1")));
        assert_eq!(one, same);
        assert!(one.contains("const FILES = [\"a.js\"];"));
        assert_ne!(one, worker("w", &files("2")));
        assert_ne!(one.lines().next(), worker("v", &files("1")).lines().next());
    }
}
