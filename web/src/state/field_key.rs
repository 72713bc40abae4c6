//! The key of a numeric field.

use coolpath_core::document::table;
use coolpath_core::document::table::Input;

/// A numeric field: an input of the table and its place in a list.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct FieldKey {
    /// Identifier in the table of inputs.
    pub id: String,
    /// Place in a list, 0 for all else.
    pub place: usize,
}

impl FieldKey {
    /// Key of an input at a place.
    #[must_use]
    pub fn new(id: &str, place: usize) -> Self {
        Self {
            id: id.to_owned(),
            place,
        }
    }

    /// The row of the table; none for a key from a foreign file.
    #[must_use]
    pub fn input(&self) -> Option<&'static Input> {
        table::by_id(&self.id)
    }

    /// Name of the field in the page's markup.
    #[must_use]
    pub fn element_id(&self) -> String {
        format!("{}-{}", self.id.replace('.', "-"), self.place)
    }
}
