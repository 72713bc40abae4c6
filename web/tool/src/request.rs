//! Which file a request's address means.

use std::path::{Path, PathBuf};

/// What to answer to an address.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Target {
    /// A file, relative to the served folder.
    File(PathBuf),
    /// The same address with a slash at its end, so that relative addresses work.
    Redirect(String),
    /// Nothing that is served.
    Nothing,
}

/// The file that an address means.
///
/// # Arguments
/// * `address` - path of the request, as sent
/// * `prefix` - path that the folder is served under, `/` or such as `/a/b/`
pub fn target(address: &str, prefix: &str) -> Target {
    let path = address.split(['?', '#']).next().unwrap_or_default();
    if prefix != "/" && path == &prefix[..prefix.len() - 1] {
        return Target::Redirect(prefix.to_owned());
    }
    match path.strip_prefix(prefix).and_then(relative_file) {
        Some(file) => Target::File(file),
        None => Target::Nothing,
    }
}

/// Whether a host, with a port or without, is a name that only this machine has.
pub fn is_loopback(host: &str) -> bool {
    let name = match host.rsplit_once(':') {
        Some((name, port)) if !port.is_empty() && port.bytes().all(|b| b.is_ascii_digit()) => name,
        _ => host,
    };
    ["localhost", "127.0.0.1", "[::1]"]
        .iter()
        .any(|own| name.eq_ignore_ascii_case(own))
}

/// Whether a browser that lists these encodings takes one of them.
pub fn takes(encoding: &str, encodings: &str) -> bool {
    encodings.split(',').any(|listed| {
        let (name, weight) = listed.split_once(';').unwrap_or((listed, ""));
        let refused = weight
            .trim()
            .strip_prefix("q=")
            .is_some_and(|q| q.parse() == Ok(0.0));
        name.trim().eq_ignore_ascii_case(encoding) && !refused
    })
}

/// A path that stays inside the folder whatever the system makes of it.
fn relative_file(path: &str) -> Option<PathBuf> {
    let decoded = decoded(path)?;
    if decoded.is_empty() {
        return Some(PathBuf::from("index.html"));
    }
    decoded.split('/').map(plain_name).collect()
}

/// A name without any meaning of its own to a file system.
fn plain_name(name: &str) -> Option<&str> {
    let plain = !name.is_empty()
        && !name.starts_with('.')
        && !name.contains(['\\', ':'])
        && !name.chars().any(char::is_control);
    plain.then_some(name)
}

fn decoded(path: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(path.len());
    let mut rest = path.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let mut digit = || char::from(rest.next()?).to_digit(16);
            let (high, low) = (digit()?, digit()?);
            bytes.push(u8::try_from(16 * high + low).ok()?);
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok()
}

/// The media type of a file, by its name's end.
pub fn media_type(file: &Path) -> &'static str {
    let extension = file.extension().and_then(|extension| extension.to_str());
    match extension {
        Some("html") => "text/html; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("webmanifest") => "application/manifest+json",
        Some("wasm") => "application/wasm",
        Some("json") => "application/json",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("webp") => "image/webp",
        Some("txt") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(name: &str) -> Target {
        Target::File(PathBuf::from(name))
    }

    #[test]
    fn gzip_is_sent_only_to_whoever_names_it() {
        assert!(takes("gzip", "gzip") && takes("gzip", "br;q=1.0, GZIP;q=0.5"));
        assert!(takes("br", "br;q=1.0, gzip") && !takes("br", "gzip, brx"));
        let refuse = ["", "br, deflate", "gzip;q=0"];
        assert!(refuse.iter().all(|listed| !takes("gzip", listed)));
    }

    #[test]
    fn files_are_found_under_the_prefix() {
        assert_eq!(target("/", "/"), file("index.html"));
        assert_eq!(target("/style.css?v=1", "/"), file("style.css"));
        assert_eq!(target("/a/b/", "/a/b/"), file("index.html"));
        assert_eq!(target("/a/b/x/y.js", "/a/b/"), file("x/y.js"));
        assert_eq!(target("/my%20page%C3%A9.html", "/"), file("my pageé.html"));
    }

    #[test]
    fn outside_the_prefix_there_is_nothing() {
        assert_eq!(
            target("/a/b", "/a/b/"),
            Target::Redirect("/a/b/".to_owned())
        );
        for address in ["/", "/style.css", "/a/", "/a/bc/", "style.css", ""] {
            assert_eq!(target(address, "/a/b/"), Target::Nothing, "{address}");
        }
    }

    #[test]
    fn no_address_leaves_the_folder() {
        for address in [
            "/../secret",
            "/x/../../secret",
            "/%2e%2e/secret",
            "/..%2fsecret",
            "/%2e%2e%2Fsecret",
            "/x/..",
            "/.",
            "/.git/config",
            "//etc/passwd",
            "/%2fetc/passwd",
            "/..\\secret",
            "/%5c%5chost%5cshare",
            "/C:/secret",
            "/a%00.html",
            "/a%0a.html",
            "/x/",
            "/%",
            "/%2",
            "/%zz",
            "/%ff",
            "/%+1",
        ] {
            assert_eq!(target(address, "/"), Target::Nothing, "{address}");
        }
    }

    #[test]
    fn a_browser_is_told_the_types_that_it_insists_on() {
        let of = |name: &str| media_type(Path::new(name));
        assert_eq!(of("coolpath_web_bg.wasm"), "application/wasm");
        assert_eq!(of("loader.js"), "text/javascript; charset=utf-8");
        assert_eq!(of("style.css"), "text/css; charset=utf-8");
        assert_eq!(of("index.html"), "text/html; charset=utf-8");
        assert_eq!(of("README"), "application/octet-stream");
    }
}
