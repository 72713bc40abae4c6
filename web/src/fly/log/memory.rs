//! What the builder chose for a log's columns, by their names, so that the next log needs no
//! choosing.

use crate::browser::storage;
use coolpath_core::prove::log::column_map::ColumnMap;

/// Where it is kept.
const KEY: &str = "coolpath:log-columns";

/// What columns of logs were used for; empty where nothing is kept or it cannot be read.
#[must_use]
pub fn kept() -> ColumnMap {
    storage::text(KEY)
        .and_then(|text| serde_json::from_str(&text).ok())
        .unwrap_or_default()
}

/// Keeps what columns of logs were used for; without storage they are guessed the next time.
pub fn keep(memory: &ColumnMap) {
    if let Ok(text) = serde_json::to_string(memory) {
        storage::keep_text(KEY, &text);
    }
}
