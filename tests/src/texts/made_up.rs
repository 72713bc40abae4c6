//! A made-up language in which every text is longer and accented, and numbers have a comma.

use crate::texts::Texts;
use coolpath_core::language::places;
use serde_json::{Map, Value, json};

/// Its code, one of those that are set apart for private use.
pub const CODE: &str = "qps";

/// Letters and what they become, each of about its width.
const ACCENTED: [(&str, &str); 2] = [
    ("abcdefghijklmnopqrstuvwxyz", "åƀçđéƒğĥîĵķļɱñöþɋŕšţûṽŵẋýž"),
    ("ABCDEFGHIJKLMNOPQRSTUVWXYZ", "ÅɃÇĐÉƑĞĤÎĴĶĻṀÑÖÞɊŔŠŢÛṼŴẊÝŽ"),
];

/// A text with accents; letter by letter, so that a part of a text is a part of it here too.
#[must_use]
pub fn accented(text: &str) -> String {
    let letter = |sign: char| {
        let found = ACCENTED.iter().find_map(|(plain, accented)| {
            let at = plain.chars().position(|own| own == sign)?;
            accented.chars().nth(at)
        });
        found.unwrap_or(sign)
    };
    text.chars().map(letter).collect()
}

/// A text in the made-up language: accented outside its places, in brackets, and longer by some 35 %, a short
/// one by 65 %, as texts grow between languages.
#[must_use]
pub fn in_words(text: &str) -> String {
    let mut own = String::new();
    let mut inside = false;
    for sign in text.chars() {
        inside = sign == '{' || inside && sign != '}';
        own.push_str(&if inside {
            sign.to_string()
        } else {
            accented(&sign.to_string())
        });
    }
    // Spaces at the ends join it to its neighbours.
    let (trimmed, length) = (own.trim(), text.trim().chars().count());
    // An abbreviation is about as long in every language.
    let is_short = text.len() < 5 && !text.contains(char::is_lowercase);
    if trimmed.is_empty() || is_short {
        return own;
    }
    // Places are filled with what is as long in every language.
    let length = length.saturating_sub(2 * places(text));
    let share = if length < 10 { 0.65 } else { 0.35 };
    let more = ((share * length as f64).round() as usize).saturating_sub(2);
    let filling: String = "öñé åļ ".chars().cycle().take(more).collect();
    own.replace(trimmed, &format!("[{trimmed}{filling}]"))
}

/// The language, as the page fetches it.
#[must_use]
pub fn language(texts: &Texts) -> Value {
    let rooms = texts.texts.iter().map(|(room, texts)| {
        let texts = texts
            .keys()
            .map(|text| (text.clone(), json!(in_words(text))));
        (room.clone(), Value::Object(texts.collect()))
    });
    let counted = texts.counted.iter().map(|(one, more)| {
        let words = json!({ "one": in_words(&format!("{{}} {one}")), "other": in_words(&format!("{{}} {more}")) });
        (one.clone(), words)
    });
    json!({
        "name": "Måđé ûþ",
        "decimal": ",",
        "texts": Map::from_iter(rooms),
        "counted": Map::from_iter(counted),
    })
}
