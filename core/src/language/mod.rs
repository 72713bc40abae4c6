//! Texts in the language that was chosen.
//!
//! A text's key is its English wording, so that whoever reads the code reads what the page says. [`tr()`]
//! gives a text as it stands, [`tr!`](crate::tr) fills its places, [`counted`] counts something,
//! [`tr_later`] marks a text of a table that is put into words where it is shown. Without another language
//! every text stays as it is written.
//!
//! ```
//! use coolpath_core::language::tr;
//!
//! assert_eq!(tr("Upper deck"), "Upper deck");
//! assert_eq!(tr!("{} under {}", "20 °F", tr("limit")), "20 °F under limit");
//! ```

mod places;

pub use crate::tr;
pub use places::{Place, places, places_of};

use places::Part;
use serde::Deserialize;
use std::collections::{BTreeMap, HashMap};
use std::fmt::Display;
use std::sync::OnceLock;

/// How a language words counts: given the count, its category of the Unicode plural rules
/// ("one", "few", "other").
pub type PluralRule = fn(usize) -> String;

/// A language: every text by its English wording.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Language {
    /// What it calls itself.
    pub name: String,
    /// Its decimal mark.
    pub decimal: char,
    /// Texts by the room of the code in which they first stand. Their places are `{}` in order, or `{0}`,
    /// `{1}` in another.
    pub texts: BTreeMap<String, HashMap<String, String>>,
    /// What is counted, by the English word for one, then by category; the place is the count.
    pub counted: HashMap<String, BTreeMap<String, String>>,
}

struct Spoken {
    texts: HashMap<String, String>,
    counted: HashMap<String, BTreeMap<String, String>>,
    decimal: char,
    plural: PluralRule,
}

static SPOKEN: OnceLock<Spoken> = OnceLock::new();

/// Speaks another language from now on.
///
/// Only the first choice counts: half a page in one language and half in another helps nobody.
pub fn speak(language: Language, plural: PluralRule) {
    SPOKEN.get_or_init(|| Spoken {
        texts: language.texts.into_values().flatten().collect(),
        counted: language.counted,
        decimal: language.decimal,
        plural,
    });
}

/// A text in the chosen language; as it is where that has none.
#[must_use]
pub fn tr(english: &str) -> &str {
    SPOKEN.get().map_or(english, |spoken| {
        let text = spoken.texts.get(english);
        text.map_or(english, String::as_str)
    })
}

/// A text of a table, which is put into words by [`tr()`] where it is shown.
#[must_use]
pub const fn tr_later(english: &'static str) -> &'static str {
    english
}

/// A text in the chosen language, its places filled with values in their order: `tr!("{} of {}", done, all)`.
///
/// The number of places is checked when it is compiled.
#[macro_export]
macro_rules! tr {
    ($english:literal, $($value:expr),+ $(,)?) => {{
        const {
            assert!(
                $crate::language::places($english) == [$(stringify!($value)),+].len(),
                "as many values as places"
            );
        }
        $crate::language::filled($english, &[$(&$value as &dyn ::std::fmt::Display),+])
    }};
}

/// A text with its places filled, for [`tr!`](crate::tr).
#[must_use]
pub fn filled(english: &'static str, values: &[&dyn Display]) -> String {
    fill(tr(english), values, decimal_mark())
}

fn fill(text: &str, values: &[&dyn Display], decimal: char) -> String {
    let mut filled = String::with_capacity(text.len());
    places::split(text, &mut |part| match part {
        Part::Words(words) => filled.push_str(words),
        Part::Place(place) => {
            if let Some(value) = values.get(place.value) {
                filled.push_str(&with_mark(shown(value, place), decimal));
            }
        }
    });
    filled
}

fn shown(value: &dyn Display, place: Place) -> String {
    match (place.decimals, place.signed) {
        (Some(decimals), true) => with_minus(&format!("{value:+.decimals$}")),
        (Some(decimals), false) => with_minus(&format!("{value:.decimals$}")),
        (None, true) => with_minus(&format!("{value:+}")),
        (None, false) => value.to_string(),
    }
}

/// A number with a true minus.
fn with_minus(text: &str) -> String {
    text.replace('-', "−")
}

/// A count with what is counted: "1 reading", "3 readings".
#[must_use]
pub fn counted(count: usize, one: &'static str, more: &'static str) -> String {
    let word = SPOKEN.get().and_then(|spoken| {
        let words = spoken.counted.get(one)?;
        let own = words.get(&(spoken.plural)(count));
        own.or_else(|| words.get("other"))
    });
    match word {
        Some(word) => fill(word, &[&count], decimal_mark()),
        None => format!("{count} {}", if count == 1 { one } else { more }),
    }
}

/// The decimal mark of the chosen language.
#[must_use]
pub fn decimal_mark() -> char {
    SPOKEN.get().map_or('.', |spoken| spoken.decimal)
}

/// A number with the chosen language's decimal mark.
#[must_use]
pub fn number(text: String) -> String {
    with_mark(text, decimal_mark())
}

/// Other texts than numbers, such as names and versions, stay as they are.
fn with_mark(text: String, mark: char) -> String {
    let is_number = |text: &str| {
        let digits = text.trim_start_matches(['-', '−', '+', '±']);
        digits.matches('.').count() == 1
            && digits
                .chars()
                .all(|each| each.is_ascii_digit() || each == '.')
    };
    if mark != '.' && is_number(&text) {
        text.replace('.', mark.encode_utf8(&mut [0; 4]))
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_filled_in_their_order_or_by_number() {
        assert_eq!(tr!("{} of {}", 1, 2), "1 of 2");
        assert_eq!(fill("{1} – {0}", &[&"a", &"b"], '.'), "b – a");
        assert_eq!(tr!("{:.1} or {:+.2}", 1.25, 2.0), "1.2 or +2.00");
        assert_eq!(tr!("{:+.0} %", -20.6), "−21 %");
        // A place without a value is left out, braces are doubled.
        assert_eq!(fill("{} {} {{}}", &[&"a"], '.'), "a  {}");
        // A brace alone, as a translator may leave it, stands for itself.
        assert_eq!(fill("a } b {0} c { d", &[&1], '.'), "a } b 1 c { d");
    }

    #[test]
    fn numbers_alone_get_the_decimal_mark() {
        let in_words = |value: &dyn Display| fill("{}", &[value], ',');
        assert_eq!(in_words(&1.5), "1,5");
        assert_eq!(in_words(&"−0.25"), "−0,25");
        assert_eq!(in_words(&"Cowl 1.2 b"), "Cowl 1.2 b");
        assert_eq!(in_words(&"0.1.0"), "0.1.0");
        assert_eq!(in_words(&"12"), "12");
    }

    #[test]
    fn one_and_more_are_told_apart() {
        assert_eq!(counted(1, "reading", "readings"), "1 reading");
        assert_eq!(counted(0, "reading", "readings"), "0 readings");
    }
}
