//! A list of objects as comma-separated values.

use serde_json::{Map, Value};

/// The table of some objects: a column for each key, those of inner objects joined with `_`.
///
/// Lists of plain values stand in one cell; lists of objects are left out. A text that a
/// spreadsheet would take for a formula gets a quotation mark before it.
///
/// # Arguments
/// * `first` - columns that stand first, in this order; the others follow by the alphabet
///
/// # Errors
/// [`csv::Error`] if a row cannot be written.
pub fn csv(value: &Value, first: &[&str]) -> Result<String, csv::Error> {
    let alone = std::slice::from_ref(value);
    let list = value.as_array().map_or(alone, Vec::as_slice);
    let rows: Vec<Map<String, Value>> = list.iter().map(flat).collect();
    let mut columns: Vec<&str> = first
        .iter()
        .copied()
        .filter(|column| rows.iter().any(|row| row.contains_key(*column)))
        .collect();
    let mut others: Vec<&str> = rows
        .iter()
        .flat_map(|row| row.keys())
        .map(String::as_str)
        .collect();
    others.sort_unstable();
    others.dedup();
    others.retain(|column| !columns.contains(column));
    columns.extend(others);
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(&columns)?;
    for row in &rows {
        writer.write_record(
            columns
                .iter()
                .map(|column| row.get(*column).map_or_else(String::new, cell)),
        )?;
    }
    let bytes = writer.into_inner().map_err(|error| error.into_error())?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

fn flat(value: &Value) -> Map<String, Value> {
    let mut row = Map::new();
    if let Value::Object(object) = value {
        add(&mut row, "", object);
    }
    row
}

fn add(row: &mut Map<String, Value>, prefix: &str, object: &Map<String, Value>) {
    for (key, value) in object {
        let name = format!("{prefix}{key}");
        match value {
            Value::Object(inner) => add(row, &format!("{name}_"), inner),
            Value::Array(list) if list.iter().any(Value::is_object) => {}
            plain => {
                row.insert(name, plain.clone());
            }
        }
    }
}

fn cell(value: &Value) -> String {
    match value {
        Value::Null => String::new(),
        Value::String(text) => harmless(text),
        Value::Array(list) => harmless(&list.iter().map(cell).collect::<Vec<_>>().join("; ")),
        other => other.to_string(),
    }
}

/// A text that no spreadsheet runs.
fn harmless(text: &str) -> String {
    let number = text.parse::<f64>().is_ok();
    if !number && text.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn keys_become_columns_and_what_is_missing_stays_empty() {
        let value = json!([
            { "b_k": 1.5, "name": "one, two", "head": { "low_k": 1, "high_k": -2 }, "w": ["x", "y"] },
            { "name": "three", "error": "none" },
        ]);
        let text = csv(&value, &["name", "absent"]).expect("a table");
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(lines[0], "name,b_k,error,head_high_k,head_low_k,w");
        assert_eq!(lines[1], "\"one, two\",1.5,,-2,1,x; y");
        assert_eq!(lines[2], "three,,none,,,");
    }

    #[test]
    fn no_text_becomes_a_formula_and_no_number_a_text() {
        let value = json!([{ "a": "=1+1", "b": "-2.5", "c": "@x", "d": -3, "e": [-1.0, 2.0] }]);
        let text = csv(&value, &[]).expect("a table");
        assert_eq!(text.lines().nth(1), Some("'=1+1,-2.5,'@x,-3,'-1.0; 2.0"));
    }
}
