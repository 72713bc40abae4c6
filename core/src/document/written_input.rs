//! Inputs in what is written of an answer: each by its id.

use crate::document::table::{Input, by_id};
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::borrow::Cow;

impl Serialize for Input {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.id)
    }
}

impl<'de> Deserialize<'de> for &'static Input {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let id = Cow::<str>::deserialize(deserializer)?;
        by_id(&id).ok_or_else(|| D::Error::custom(id))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_input_is_written_by_its_id_and_another_id_is_refused() {
        let input = by_id("decks.seal_gap_m").expect("an input");
        let text = serde_json::to_string(input).expect("a text");
        assert_eq!(text, "\"decks.seal_gap_m\"");
        let back: &'static Input = serde_json::from_str(&text).expect("the input");
        assert!(std::ptr::eq(back, input));
        assert!(serde_json::from_str::<&'static Input>("\"no such\"").is_err());
    }
}
