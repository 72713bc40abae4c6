//! Lengths as a tape measure gives them: feet and inches, and fractions of an inch.

/// Inches of a typed length that holds feet with inches (`5'6"`, `5 ft 6 1/2 in`) or a fraction
/// (`4 5/8`, `2-1/8"`, `7/16`), and whether its unit stands in the text; `None` if it is neither.
///
/// # Example
/// ```
/// use coolpath_core::units::feet_inches::inches;
///
/// assert_eq!(inches("5'6\""), Some((66.0, true)));
/// assert_eq!(inches("4 5/8"), Some((4.625, false)));
/// assert_eq!(inches("14.5"), None);
/// ```
#[must_use]
pub fn inches(text: &str) -> Option<(f64, bool)> {
    let text = text.trim().to_lowercase();
    if let Some((feet, rest)) = feet_of(&text) {
        let (inches, _) = rest_inches(rest)?;
        // Twelve inches are a foot: more is a slip.
        return (inches < 12.0).then_some((12.0 * feet + inches, true));
    }
    if !text.contains(['/', '⁄']) {
        return None;
    }
    rest_inches(&text)
}

/// Whole feet, and the text of the inches after them.
fn feet_of(text: &str) -> Option<(f64, &str)> {
    const MARKS: [&str; 5] = ["feet", "foot", "ft", "'", "′"];
    let end = text.find(|c: char| !c.is_ascii_digit())?;
    let (feet, rest) = text.split_at(end);
    let rest = rest.trim_start();
    let after = MARKS.iter().find_map(|mark| rest.strip_prefix(mark))?;
    // An apostrophe before three digits groups thousands.
    let grouped = rest.starts_with('\'')
        && after.len() >= 3
        && after.bytes().take(3).all(|b| b.is_ascii_digit());
    let inches = after.trim();
    if grouped || inches.is_empty() {
        return None;
    }
    Some((feet.parse().ok()?, inches))
}

/// Inches of a text without feet, and whether their unit stands in it.
fn rest_inches(text: &str) -> Option<(f64, bool)> {
    const MARKS: [&str; 6] = ["inches", "inch", "in", "\"", "″", "''"];
    let text = text.trim();
    let mark = MARKS.iter().find_map(|mark| text.strip_suffix(mark));
    let number = mark.unwrap_or(text).trim();
    Some((mixed(number)?, mark.is_some()))
}

/// A decimal number, a fraction, or a whole number with one.
fn mixed(text: &str) -> Option<f64> {
    let Some((above, below)) = text.split_once(['/', '⁄']) else {
        return decimal(text);
    };
    let above = above.trim_end();
    let (whole, above) = match above.rfind([' ', '-', '\u{a0}']) {
        Some(at) => {
            let (whole, above) = above.split_at(at);
            let gap = above.chars().next().map_or(0, char::len_utf8);
            (digits(whole.trim())?, &above[gap..])
        }
        None => (0.0, above),
    };
    let (above, below) = (digits(above)?, digits(below.trim())?);
    let proper = below > 0.0 && (above < below || whole == 0.0);
    proper.then(|| whole + above / below)
}

fn digits(text: &str) -> Option<f64> {
    let is_plain = !text.is_empty() && text.len() <= 6 && text.bytes().all(|b| b.is_ascii_digit());
    is_plain.then(|| text.parse().ok()).flatten()
}

fn decimal(text: &str) -> Option<f64> {
    let (whole, part) = text.split_once(['.', ',']).unwrap_or((text, "0"));
    digits(whole)?;
    digits(part)?;
    text.replace(',', ".").parse().ok()
}
