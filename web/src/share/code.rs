//! A design as a code: for a link's fragment, for a message, for a QR code. Pure.
//!
//! `coolpath1.` and the design file's JSON, its numbers rounded to twelve digits, compressed (zlib, with
//! its checksum) and written in the 64 letters that a link may hold.

use crate::state::document::design_of;
use crate::state::json;
use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use miniz_oxide::deflate::compress_to_vec_zlib;
use miniz_oxide::inflate::decompress_to_vec_zlib_with_limit;
use qrcodegen::{QrCode, QrCodeEcc};
use serde_json::Value;

/// What every code begins with, before its version.
const NAME: &str = "coolpath";
/// Version of the code that this program writes.
const VERSION: u32 = 1;
/// Most bytes that a code may unfold to.
const MOST_BYTES: usize = 8_000_000;
/// Strongest compression.
const LEVEL: u8 = 10;

/// The code of a design.
///
/// # Errors
/// serde's message, if a number cannot be written.
pub fn code(design: &Design) -> Result<String, String> {
    let mut value = json::value(design).map_err(|error| error.to_string())?;
    leave_out_defaults(&mut value)?;
    round(&mut value);
    let text = value.to_string();
    let packed = compress_to_vec_zlib(text.as_bytes(), LEVEL);
    Ok(format!(
        "{NAME}{VERSION}.{}",
        URL_SAFE_NO_PAD.encode(packed)
    ))
}

/// Leaves out what a group holds by default, which reading it puts back; a code then fits into a QR
/// code. A later version's other default takes the place of one that nobody touched.
fn leave_out_defaults(value: &mut Value) -> Result<(), String> {
    let usual = Design::default();
    let usual = json::value(&usual).map_err(|error| error.to_string())?;
    thin_installation(&mut value["installation"], &usual["installation"]);
    if let Some(others) = value.get_mut("alternatives").and_then(Value::as_array_mut) {
        for other in others {
            thin_installation(&mut other["installation"], &usual["installation"]);
        }
    }
    thin_list(&mut value["conditions"], &usual["conditions"][0]);
    Ok(())
}

fn thin_installation(own: &mut Value, usual: &Value) {
    let Value::Object(groups) = own else {
        return;
    };
    for (name, group) in groups {
        match &usual[name.as_str()] {
            Value::Array(list) => thin_list(group, list.first().unwrap_or(&Value::Null)),
            usual => thin(group, usual),
        }
    }
}

fn thin_list(list: &mut Value, usual: &Value) {
    for item in list.as_array_mut().into_iter().flatten() {
        thin(item, usual);
    }
}

/// Leaves out the members of an object that are as usual.
fn thin(own: &mut Value, usual: &Value) {
    if let (Value::Object(own), Value::Object(usual)) = (own, usual) {
        own.retain(|key, member| usual.get(key) != Some(member));
    }
}

/// Rounds every number to twelve significant digits.
fn round(value: &mut Value) {
    match value {
        Value::Number(number) => {
            let rounded = number
                .as_f64()
                .filter(|_| number.is_f64())
                .and_then(|exact| format!("{exact:.11e}").parse::<f64>().ok())
                .and_then(serde_json::Number::from_f64);
            if let Some(rounded) = rounded {
                *number = rounded;
            }
        }
        Value::Array(list) => list.iter_mut().for_each(round),
        Value::Object(map) => map.values_mut().for_each(round),
        _ => {}
    }
}

/// Whether a link's fragment, without its `#`, is meant as a code.
#[must_use]
pub fn is_code(fragment: &str) -> bool {
    fragment
        .strip_prefix(NAME)
        .is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()))
}

/// The design of a code, or of a link that carries one.
///
/// # Errors
/// A sentence that says what is wrong; nothing has been changed.
pub fn design_of_code(text: &str) -> Result<Design, String> {
    let plain: String = text.chars().filter(|c| !c.is_whitespace()).collect();
    let code = plain.rsplit_once('#').map_or(plain.as_str(), |(_, c)| c);
    if code.is_empty() {
        return Err(tr("Paste a code or a link first.").to_owned());
    }
    let foreign = || tr("This is no code of this program. Nothing was changed.").to_owned();
    let (version, letters) = code
        .strip_prefix(NAME)
        .and_then(|rest| rest.split_once('.'))
        .ok_or_else(foreign)?;
    let version: u32 = version.parse().map_err(|_| foreign())?;
    if version > VERSION {
        return Err(tr!(
            "This code comes from a later version of this program (code {}). Nothing was changed.",
            version
        ));
    }
    let broken =
        || tr("This code is incomplete or was changed on its way. Nothing was changed.").to_owned();
    let packed = URL_SAFE_NO_PAD.decode(letters).map_err(|_| broken())?;
    let bytes = decompress_to_vec_zlib_with_limit(&packed, MOST_BYTES).map_err(|_| broken())?;
    let text = String::from_utf8(bytes).map_err(|_| broken())?;
    design_of(&text)
}

/// Modules of a QR code of a text: width, and an SVG path over squares of size 1; `None` if the
/// text is longer than a QR code holds (2,953 bytes).
#[must_use]
pub fn qr_path(text: &str) -> Option<(i32, String)> {
    let qr = QrCode::encode_binary(text.as_bytes(), QrCodeEcc::Low).ok()?;
    let mut path = String::new();
    for y in 0..qr.size() {
        let mut x = 0;
        while x < qr.size() {
            let run = (x..qr.size())
                .take_while(|at| qr.get_module(*at, y))
                .count();
            if run > 0 {
                path.push_str(&format!("M{x} {y}h{run}v1h-{run}z"));
            }
            x += run.max(1) as i32;
        }
    }
    Some((qr.size(), path))
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;

    #[test]
    fn a_code_gives_the_design_back_and_is_short() {
        let design = example::design();
        let code = code(&design).expect("a code");
        assert!(code.len() < 2900, "{} letters", code.len());
        assert!(is_code(&code));
        let back = design_of_code(&code).expect("a design");
        assert_eq!(back.name, design.name);
        for (input, place) in design.places() {
            let (one, two) = (input.value(&design, place), input.value(&back, place));
            let (one, two) = (one.expect("a value"), two.expect("a value"));
            assert!((one - two).abs() <= 1e-11 * one.abs(), "{}", input.id);
        }
        assert_eq!(back.installation.inlets.len(), 2);
        let link = format!("https://example.org/a/?x=1#{code}");
        assert_eq!(design_of_code(&link).expect("a design"), back);
        let wrapped: String = code
            .as_bytes()
            .chunks(70)
            .map(|line| format!("{}\r\n", String::from_utf8_lossy(line)))
            .collect();
        assert_eq!(design_of_code(&wrapped).expect("a design"), back);
    }

    #[test]
    fn broken_foreign_and_later_codes_say_what_is_wrong() {
        let code = code(&example::design()).expect("a code");
        let says = |text: &str| design_of_code(text).expect_err("refused");
        assert!(says("").contains("Paste"));
        assert!(says("hello").contains("no code of this program"));
        assert!(says("coolpathx.abc").contains("no code of this program"));
        assert!(says(&code[..code.len() / 2]).contains("incomplete"));
        let mut swapped: Vec<char> = code.chars().collect();
        swapped.swap(100, 500);
        swapped[300] = if swapped[300] == 'A' { 'B' } else { 'A' };
        assert!(says(&swapped.into_iter().collect::<String>()).contains("incomplete"));
        assert!(says(&code.replacen("coolpath1", "coolpath7", 1)).contains("later version"));
        let packed = compress_to_vec_zlib(b"{\"coolpath_design\": 99}", LEVEL);
        let later = format!("coolpath1.{}", URL_SAFE_NO_PAD.encode(packed));
        assert!(says(&later).contains("later version"));
        // What unfolds to too much is refused, not unfolded.
        let packed = compress_to_vec_zlib(&vec![b' '; MOST_BYTES + 1], LEVEL);
        let bomb = format!("coolpath1.{}", URL_SAFE_NO_PAD.encode(packed));
        assert!(says(&bomb).contains("incomplete"));
    }

    #[cfg(not(target_arch = "wasm32"))]
    #[test]
    fn a_reader_reads_the_qr_code_of_the_example() {
        let code = code(&example::design()).expect("a code");
        let (size, path) = qr_path(&code).expect("it fits");
        // The path back into modules, drawn with three pixels each and a margin.
        let mut dark = vec![false; (size * size) as usize];
        for run in path.split('M').skip(1) {
            let (at, rest) = run.split_once('h').expect("a run");
            let (x, y) = at.split_once(' ').expect("a place");
            let (x, y): (i32, i32) = (x.parse().expect("x"), y.parse().expect("y"));
            let length: i32 = rest
                .split_once('v')
                .expect("a length")
                .0
                .parse()
                .expect("n");
            for at in x..x + length {
                dark[(y * size + at) as usize] = true;
            }
        }
        let (scale, margin) = (3, 4);
        let side = ((size + 2 * margin) * scale) as usize;
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| {
            let module = |at: usize| at as i32 / scale - margin;
            let (x, y) = (module(x), module(y));
            let inside = (0..size).contains(&x) && (0..size).contains(&y);
            if inside && dark[(y * size + x) as usize] {
                0
            } else {
                255
            }
        });
        let grids = image.detect_grids();
        let (_, read) = grids[0].decode().expect("readable");
        assert_eq!(read, code);
        assert_eq!(qr_path(&"x".repeat(2954)), None);
    }
}
