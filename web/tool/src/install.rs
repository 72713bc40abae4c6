//! What lets a browser install the folder and serve it without a network.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use sha2::{Digest, Sha256};

use crate::page_build::File;
use serde_json::json;

/// Name of the manifest.
pub const MANIFEST_NAME: &str = "coolpath.webmanifest";
/// Name of the icon.
pub const ICON_NAME: &str = "icon.svg";
/// Name of the service worker.
pub const WORKER_NAME: &str = "worker.js";

/// Name of the icon that a system may cut to its own shape.
pub const MASKABLE_NAME: &str = "icon-maskable.svg";
/// Name of the picture that is shown before the page is installed.
pub const SCREENSHOT_NAME: &str = "screenshot.webp";

/// The manifest.
///
/// # Arguments
/// * `screenshot` - the picture's file, WebP
pub fn manifest(screenshot: &[u8]) -> String {
    let pictures = match webp_size(screenshot) {
        Some((width, height)) => json!([{
            "src": SCREENSHOT_NAME,
            "sizes": format!("{width}x{height}"),
            "type": "image/webp",
            "form_factor": "wide",
            "label": "The worked example: drawing to scale, verdict and conditions",
        }]),
        None => json!([]),
    };
    let icon = |name: &str, purpose: &str| json!({ "src": name, "sizes": "any", "type": "image/svg+xml", "purpose": purpose });
    let manifest = json!({
        "id": "./",
        "name": "Coolpath",
        "short_name": "Coolpath",
        "description": "Sizes the cooling air of an air-cooled, horizontally opposed piston engine.",
        "lang": "en",
        "categories": ["utilities"],
        "start_url": "./",
        "scope": "./",
        "display": "standalone",
        "background_color": "#f5f3ee",
        "theme_color": "#0a5e66",
        "icons": [icon(ICON_NAME, "any"), icon(MASKABLE_NAME, "maskable")],
        "screenshots": pictures,
        "file_handlers": [
            { "action": "./", "accept": { "application/json": [".json"], "text/csv": [".csv"] } },
        ],
        "shortcuts": [
            { "name": "Size the openings", "url": "./#size" },
            { "name": "Plenum or seals?", "url": "./#compare" },
            { "name": "Shutter today", "url": "./#card" },
        ],
    });
    format!("{manifest:#}\n")
}

/// Width and height, px, of a picture in WebP's extended form; `None` of anything else.
fn webp_size(file: &[u8]) -> Option<(u32, u32)> {
    (file.get(..4)? == b"RIFF" && file.get(8..16)? == b"WEBPVP8X").then_some(())?;
    // Less one, three bytes each, the low one first.
    let number = |at: usize| {
        let bytes = file.get(at..at + 3)?;
        Some(
            1 + bytes
                .iter()
                .rev()
                .fold(0, |sum, &byte| sum << 8 | u32::from(byte)),
        )
    };
    Some((number(24)?, number(27)?))
}

/// The icon: a stream in at the front, down through the fins, out under the firewall.
pub const ICON: &str = concat!(
    "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 64 64\">",
    "<rect width=\"64\" height=\"64\" rx=\"12\" fill=\"#f5f3ee\"/>",
    "<path fill=\"none\" stroke=\"#0a5e66\" stroke-width=\"5\" stroke-linejoin=\"round\" ",
    "d=\"M8 20h22l10 26h14M44 36l11 10-11 10\"/></svg>\n"
);

/// The icon without corners of its own, all of it within the middle that every shape leaves.
pub const MASKABLE: &str = concat!(
    "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 64 64\">",
    "<rect width=\"64\" height=\"64\" fill=\"#f5f3ee\"/>",
    "<path fill=\"none\" stroke=\"#0a5e66\" stroke-width=\"3.5\" stroke-linejoin=\"round\" ",
    "d=\"M15 23h16l7 18h10M41 34l7 7-7 7\"/></svg>\n"
);

/// The service worker for some files: it knows their names, and a version that changes with any
/// byte of them, of itself, or of the languages, which it keeps only once they are chosen.
pub fn worker(source: &str, files: &[File], languages: &[File]) -> String {
    let mut digest = Sha256::new();
    digest.update(source);
    for (name, content) in files.iter().chain(languages) {
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
    fn the_manifest_says_how_large_its_picture_is() {
        let picture = include_bytes!("../../../reference/pictures/readme-light.webp");
        let manifest: serde_json::Value =
            serde_json::from_str(&manifest(picture)).expect("a manifest");
        let sizes = manifest["screenshots"][0]["sizes"].as_str().expect("sizes");
        let (width, height) = sizes.split_once('x').expect("two");
        let each = [width, height].map(|text| text.parse::<u32>().expect("a number"));
        assert!(
            each.iter().all(|size| (320..3840).contains(size)),
            "{sizes}"
        );
        assert_eq!(manifest["id"], "./");
        assert_eq!(webp_size(b"RIFF....WEBPVP8 "), None);
        assert_eq!(webp_size(b""), None);
    }

    #[test]
    fn a_changed_byte_is_another_version() {
        let files = |content: &str| vec![("a.js".to_owned(), content.as_bytes().to_vec())];
        let (one, same) = (worker("w", &files("1"), &[]), worker("w", &files("1"), &[]));
        assert_eq!(one, same);
        assert!(one.contains("const FILES = [\"a.js\"];"));
        assert_ne!(one, worker("w", &files("2"), &[]));
        assert_ne!(
            one.lines().next(),
            worker("v", &files("1"), &[]).lines().next()
        );
    }
}
