//! Cases of `reference/` whose numbers are read by path.

use std::fmt::{self, Display};

use serde_json::Value;

use crate::table::text::reference_text;

/// One case of a JSON file of `reference/`.
#[derive(Debug, Clone, PartialEq)]
pub struct Case {
    file: String,
    name: String,
    value: Value,
}

impl Case {
    /// Reads `reference/<name>.json`, a list of objects that each have a `name`.
    ///
    /// # Panics
    /// If the file cannot be read, or holds anything else or nothing.
    #[must_use]
    pub fn read_all(name: &str) -> Vec<Self> {
        let file = format!("{name}.json");
        Self::parse_all(&file, &reference_text(&file))
    }

    /// Takes the text of a JSON file; `file` names it in messages.
    ///
    /// # Panics
    /// If the text is no list of objects with a `name`, or the list is empty.
    #[must_use]
    pub fn parse_all(file: &str, text: &str) -> Vec<Self> {
        let list: Vec<Value> =
            serde_json::from_str(text).unwrap_or_else(|error| panic!("{file}: {error}"));
        assert!(!list.is_empty(), "{file}: no cases");
        list.into_iter()
            .enumerate()
            .map(|(at, value)| {
                let Some(name) = value.get("name").and_then(Value::as_str) else {
                    panic!("{file}: case {at} has no name");
                };
                Self {
                    file: file.to_owned(),
                    name: name.to_owned(),
                    value,
                }
            })
            .collect()
    }

    /// The case's name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What stands at a path such as `inputs/exits/0/area_m2`.
    ///
    /// # Panics
    /// If nothing stands there.
    #[must_use]
    pub fn value(&self, path: &str) -> &Value {
        self.value
            .pointer(&format!("/{path}"))
            .unwrap_or_else(|| panic!("{self}: nothing at `{path}`"))
    }

    /// The number at a path.
    ///
    /// # Panics
    /// If no number stands there.
    #[must_use]
    pub fn number(&self, path: &str) -> f64 {
        let value = self.value(path);
        value
            .as_f64()
            .unwrap_or_else(|| panic!("{self}: `{path}` is {value}, no number"))
    }

    /// The length of the list at a path.
    ///
    /// # Panics
    /// If no list stands there.
    #[must_use]
    pub fn count(&self, path: &str) -> usize {
        let value = self.value(path);
        match value.as_array() {
            Some(list) => list.len(),
            None => panic!("{self}: `{path}` is {value}, no list"),
        }
    }
}

impl Display for Case {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} case `{}`", self.file, self.name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::table::sample::message;

    #[test]
    fn cases_are_read_by_path() {
        let text = r#"[{"name": "calm", "inputs": {"exits": [{"area_m2": 0.02}]}}]"#;
        let cases = Case::parse_all("sample.json", text);
        assert_eq!(cases[0].name(), "calm");
        assert_eq!(cases[0].number("inputs/exits/0/area_m2"), 0.02);
        assert_eq!(cases[0].count("inputs/exits"), 1);
        let said = message(move || {
            let _ = cases[0].number("inputs/flow");
        });
        assert_eq!(said, "sample.json case `calm`: nothing at `inputs/flow`");
    }
}
