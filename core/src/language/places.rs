//! Places of a text that values are put into.

/// A piece of a text.
pub enum Part<'a> {
    /// As it stands.
    Words(&'a str),
    /// Where a value goes.
    Place(Place),
}

/// Where a value goes, and how: `{}`, `{1}`, `{:.2}`, `{0:+.1}`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
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

/// The places of a text, in their order.
#[must_use]
pub fn places_of(text: &str) -> Vec<Place> {
    let mut found = Vec::new();
    split(text, &mut |part| {
        if let Part::Place(place) = part {
            found.push(place);
        }
    });
    found
}

/// How many places a text has; doubled braces are none. Of no text that [`tr!`](crate::tr) could not fill.
///
/// ```
/// use coolpath_core::language::places;
///
/// assert_eq!(places("{} of {:.1}, {{so}}"), 2);
/// ```
///
/// # Panics
/// On a form other than `{}`, `{0}`, `{:.2}`, `{:+}` and `{:+.2}`; of a text in the sources, when it is compiled.
#[must_use]
pub const fn places(text: &str) -> usize {
    let bytes = text.as_bytes();
    let (mut at, mut found) = (0, 0);
    while at < bytes.len() {
        if bytes[at] == b'{' {
            if at + 1 < bytes.len() && bytes[at + 1] == b'{' {
                at += 1;
            } else {
                at = form_end(bytes, at + 1);
                found += 1;
            }
        }
        at += 1;
    }
    found
}

/// Where a place ends that begins before `at`.
const fn form_end(bytes: &[u8], mut at: usize) -> usize {
    at = behind_digits(bytes, at);
    if bytes[at] == b':' {
        at += 1;
        if bytes[at] == b'+' {
            at += 1;
        }
        if bytes[at] == b'.' {
            at = behind_digits(bytes, at + 1);
        }
    }
    assert!(bytes[at] == b'}', "no form of a place");
    at
}

const fn behind_digits(bytes: &[u8], mut at: usize) -> usize {
    while bytes[at].is_ascii_digit() {
        at += 1;
    }
    at
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
        // A brace alone stands for itself.
        let place = from.strip_prefix('{').and_then(|from| from.split_once('}'));
        let Some((inside, after)) = place else {
            part(Part::Words(&from[..1]));
            rest = &from[1..];
            continue;
        };
        part(Part::Place(Place::read(inside, next)));
        next += 1;
        rest = after;
    }
    part(Part::Words(rest));
}
