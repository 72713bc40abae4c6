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
/// assert_eq!(inches("4⅝"), Some((4.625, false)));
/// assert_eq!(inches("14.5"), None);
/// ```
#[must_use]
pub fn inches(text: &str) -> Option<(f64, bool)> {
    let text = spelled(text.trim()).to_lowercase();
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

/// A text with the fractions that are one letter spelled out.
fn spelled(text: &str) -> String {
    const LETTERS: [(char, &str); 7] = [
        ('½', " 1/2"),
        ('¼', " 1/4"),
        ('¾', " 3/4"),
        ('⅛', " 1/8"),
        ('⅜', " 3/8"),
        ('⅝', " 5/8"),
        ('⅞', " 7/8"),
    ];
    LETTERS
        .iter()
        .fold(text.to_owned(), |text, (letter, words)| {
            text.replace(*letter, words)
        })
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

/// Which way a length is rounded to what a rule shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rounded {
    /// To the nearest mark.
    Nearest,
    /// To the next mark at or above: a smallest size.
    Up,
    /// To the next mark at or below: a largest size.
    Down,
}

impl Rounded {
    /// Whole marks of a length measured in marks; a length within a thousandth of one is on it.
    fn marks(self, marks: f64) -> f64 {
        let nearest = libm::round(marks);
        match self {
            _ if (marks - nearest).abs() < 1e-3 => nearest,
            Self::Nearest => nearest,
            Self::Up => libm::ceil(marks),
            Self::Down => libm::floor(marks),
        }
    }
}

/// Inches as a rule with sixteenths shows them, such as `2 3/16`.
///
/// # Example
/// 2.17 in lie between 2 1/8 and 2 3/16:
/// ```
/// use coolpath_core::units::feet_inches::{Rounded, sixteenths};
///
/// assert_eq!(sixteenths(2.17, Rounded::Up), "2 3/16");
/// assert_eq!(sixteenths(2.17, Rounded::Down), "2 1/8");
/// assert_eq!(sixteenths(0.49, Rounded::Nearest), "1/2");
/// assert_eq!(sixteenths(3.0, Rounded::Up), "3");
/// ```
#[must_use]
pub fn sixteenths(inches: f64, rounded: Rounded) -> String {
    let marks = rounded.marks(16.0 * inches);
    let whole = libm::trunc(marks / 16.0);
    let mut above = (marks - 16.0 * whole).abs() as u32;
    if above == 0 || !marks.is_finite() {
        return format!("{whole:.0}");
    }
    let mut below = 16;
    while above.is_multiple_of(2) {
        above /= 2;
        below /= 2;
    }
    if whole == 0.0 {
        let sign = if marks < 0.0 { "-" } else { "" };
        return format!("{sign}{above}/{below}");
    }
    format!("{whole:.0} {above}/{below}")
}

/// Whole millimetres of a length in millimetres.
///
/// # Example
/// ```
/// use coolpath_core::units::feet_inches::{Rounded, whole_millimetres};
///
/// assert_eq!(whole_millimetres(55.2, Rounded::Up), "56");
/// assert_eq!(whole_millimetres(55.2, Rounded::Nearest), "55");
/// ```
#[must_use]
pub fn whole_millimetres(millimetres: f64, rounded: Rounded) -> String {
    format!("{:.0}", rounded.marks(millimetres))
}
