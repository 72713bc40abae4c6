//! Designs and states as JSON, each written and read in one way only: every other way would stand in
//! the program once more for each type.

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::ser::{CompactFormatter, Formatter, PrettyFormatter};
use serde_json::{Error, Serializer, Value};
use std::io::{Result as Written, Write};

/// How a text is laid out.
enum Layout {
    Compact(CompactFormatter),
    Pretty(PrettyFormatter<'static>),
}

/// Hands a piece of layout to whichever is chosen.
macro_rules! laid_out {
    ($($piece:ident($($extra:ident: $kind:ty)?)),* $(,)?) => {
        impl Formatter for Layout {
            $(fn $piece<W: ?Sized + Write>(&mut self, to: &mut W $(, $extra: $kind)?) -> Written<()> {
                match self {
                    Self::Compact(layout) => layout.$piece(to $(, $extra)?),
                    Self::Pretty(layout) => layout.$piece(to $(, $extra)?),
                }
            })*
        }
    };
}

laid_out!(
    begin_array(),
    end_array(),
    begin_array_value(first: bool),
    end_array_value(),
    begin_object(),
    end_object(),
    begin_object_key(first: bool),
    begin_object_value(),
    end_object_value(),
);

fn written<T: Serialize>(value: &T, layout: Layout) -> Result<String, Error> {
    let mut bytes = Vec::new();
    value.serialize(&mut Serializer::with_formatter(&mut bytes, layout))?;
    String::from_utf8(bytes).map_err(serde::ser::Error::custom)
}

/// As a text of one line.
///
/// # Errors
/// serde's message, if a number cannot be written.
pub fn text<T: Serialize>(value: &T) -> Result<String, Error> {
    written(value, Layout::Compact(CompactFormatter))
}

/// As a text for people.
///
/// # Errors
/// serde's message, if a number cannot be written.
pub fn pretty<T: Serialize>(value: &T) -> Result<String, Error> {
    written(value, Layout::Pretty(PrettyFormatter::new()))
}

/// As a value that can be looked into.
///
/// # Errors
/// serde's message, if a number cannot be written.
pub fn value<T: Serialize>(value: &T) -> Result<Value, Error> {
    serde_json::from_str(&text(value)?)
}

/// What a value stands for.
///
/// # Errors
/// serde's message, if it does not fit.
pub fn of_value<T: DeserializeOwned>(value: &Value) -> Result<T, Error> {
    serde_json::from_str(&value.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::design::Design;
    use coolpath_core::document::example;

    #[test]
    fn both_layouts_are_those_of_the_library() {
        let design = example::design();
        let compact = serde_json::to_string(&design).expect("a text");
        assert_eq!(text(&design).expect("a text"), compact);
        let spread = serde_json::to_string_pretty(&design).expect("a text");
        assert_eq!(pretty(&design).expect("a text"), spread);
        assert_ne!(compact, spread);
    }

    #[test]
    fn a_value_holds_every_bit_and_gives_the_design_back() {
        let mut design = example::design();
        design.installation.airframe.propeller_share_rest = 0.1 + 0.2;
        let through = value(&design).expect("a value");
        assert_eq!(through, serde_json::to_value(&design).expect("a value"));
        let back: Design = of_value(&through).expect("a design");
        assert_eq!(back, design);
        assert!(of_value::<Design>(&Value::Bool(true)).is_err());
    }
}
