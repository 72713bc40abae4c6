//! Places of a text that values are put into.

/// A piece of a text.
pub enum Part<'a> {
    /// As it stands.
    Words(&'a str),
    /// Where a value goes.
    Place(Place),
}

/// Where a value goes, and how: `{}`, `{1}`, `{:.2}`, `{0:+.1}`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Which value, counted from 0.
    pub value: usize,
    /// Decimals of a number.
    pub decimals: Option<usize>,
    /// Whether a number above zero has its sign.
    pub signed: bool,
}

impl Place {
    fn read(inside: &str, next: usize) -> Self {
        let (value, form) = inside.split_once(':').unwrap_or((inside, ""));
        Self {
            value: value.parse().unwrap_or(next),
            decimals: form
                .split_once('.')
                .and_then(|(_, decimals)| decimals.parse().ok()),
            signed: form.starts_with('+'),
        }
    }
}

/// How many places a text has; doubled braces are none.
///
/// ```
/// use coolpath_core::language::places;
///
/// assert_eq!(places("{} of {:.1}, {{so}}"), 2);
/// ```
#[must_use]
pub const fn places(text: &str) -> usize {
    let bytes = text.as_bytes();
    let (mut at, mut found) = (0, 0);
    while at < bytes.len() {
        if bytes[at] == b'{' {
            if at + 1 < bytes.len() && bytes[at + 1] == b'{' {
                at += 1;
            } else {
                found += 1;
            }
        }
        at += 1;
    }
    found
}

/// Hands the parts of a text over, one after another.
pub fn split<'a>(text: &'a str, part: &mut dyn FnMut(Part<'a>)) {
    let (mut rest, mut next) = (text, 0);
    while let Some(at) = rest.find(['{', '}']) {
        part(Part::Words(&rest[..at]));
        let from = &rest[at..];
        if from.starts_with("{{") || from.starts_with("}}") {
            part(Part::Words(&from[..1]));
            rest = &from[2..];
            continue;
        }
        let Some((inside, after)) = from[1..].split_once('}') else {
            rest = from;
            break;
        };
        part(Part::Place(Place::read(inside, next)));
        next += 1;
        rest = after;
    }
    part(Part::Words(rest));
}
