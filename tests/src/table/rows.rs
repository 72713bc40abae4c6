//! Tables of `reference/` as rows whose cells are read by column name.

use std::fmt::{self, Display};

use crate::table::text::reference_text;

/// Column in which a row keeps its name.
const ID: &str = "id";
/// Column that holds `key=value` pairs, separated by spaces.
const INPUTS: &str = "inputs";

/// One CSV file of `reference/`.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    file: String,
    columns: Vec<String>,
    rows: Vec<Line>,
}

#[derive(Debug, Clone, PartialEq)]
struct Line {
    number: u64,
    cells: Vec<String>,
}

impl Table {
    /// Reads `reference/<name>.csv`.
    ///
    /// # Panics
    /// If the file cannot be read, or is malformed or empty.
    #[must_use]
    pub fn read(name: &str) -> Self {
        let file = format!("{name}.csv");
        Self::parse(&file, &reference_text(&file))
    }

    /// Takes the text of a CSV file; `file` names it in messages.
    ///
    /// # Panics
    /// If the text is malformed, names a column twice or has no rows.
    #[must_use]
    pub fn parse(file: &str, text: &str) -> Self {
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let columns: Vec<String> = match reader.headers() {
            Ok(headers) => headers.iter().map(str::to_owned).collect(),
            Err(error) => panic!("{file}: {error}"),
        };
        for (at, column) in columns.iter().enumerate() {
            assert!(
                !columns[..at].contains(column),
                "{file}: column `{column}` appears twice"
            );
        }
        let rows: Vec<Line> = reader
            .records()
            .map(|record| match record {
                Ok(record) => Line {
                    number: record.position().map_or(0, csv::Position::line),
                    cells: record.iter().map(str::to_owned).collect(),
                },
                Err(error) => panic!("{file}: {error}"),
            })
            .collect();
        assert!(!rows.is_empty(), "{file}: no rows");
        Self {
            file: file.to_owned(),
            columns,
            rows,
        }
    }

    /// All rows in their order.
    pub fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().map(|line| Row { table: self, line })
    }

    /// The rows whose cell in `column` reads `text`.
    ///
    /// # Panics
    /// If there is no such column, or no such row.
    #[must_use]
    pub fn rows_where(&self, column: &str, text: &str) -> Vec<Row<'_>> {
        let found: Vec<_> = self.rows().filter(|row| row.text(column) == text).collect();
        assert!(
            !found.is_empty(),
            "{}: no row has `{text}` in column `{column}`",
            self.file
        );
        found
    }

    /// The one row whose `id` is the given one.
    ///
    /// # Panics
    /// If no row, or more than one, has that `id`.
    #[must_use]
    pub fn row(&self, id: &str) -> Row<'_> {
        let found = self.rows_where(ID, id);
        assert!(
            found.len() == 1,
            "{}: {} rows have the id `{id}`",
            self.file,
            found.len()
        );
        found[0]
    }

    fn position(&self, column: &str) -> Option<usize> {
        self.columns.iter().position(|name| name == column)
    }
}

/// One row of a [`Table`]. Displayed, it says where it stands.
#[derive(Debug, Clone, Copy)]
pub struct Row<'t> {
    table: &'t Table,
    line: &'t Line,
}

impl<'t> Row<'t> {
    /// A cell as it stands.
    ///
    /// # Panics
    /// If the table has no such column.
    #[must_use]
    pub fn text(&self, column: &str) -> &'t str {
        match self.table.position(column) {
            Some(at) => &self.line.cells[at],
            None => panic!(
                "{self}: no column `{column}`; there are: {}",
                self.table.columns.join(", ")
            ),
        }
    }

    /// A cell that holds a finite number.
    ///
    /// # Panics
    /// If there is no such column, or the cell holds anything else.
    #[must_use]
    pub fn number(&self, column: &str) -> f64 {
        self.parsed(self.text(column), column)
    }

    /// A cell that holds a finite number or nothing.
    ///
    /// # Panics
    /// If there is no such column, or the cell holds anything else.
    #[must_use]
    pub fn number_if_any(&self, column: &str) -> Option<f64> {
        match self.text(column) {
            "" => None,
            text => Some(self.parsed(text, column)),
        }
    }

    /// A cell that holds `true` or `false`.
    ///
    /// # Panics
    /// If there is no such column, or the cell holds anything else.
    #[must_use]
    pub fn flag(&self, column: &str) -> bool {
        match self.text(column) {
            "true" => true,
            "false" => false,
            text => panic!("{self}, column `{column}`: `{text}` is neither true nor false"),
        }
    }

    /// A number among the `key=value` pairs of the column `inputs`.
    ///
    /// # Panics
    /// If the pair is missing, or its value is no finite number.
    #[must_use]
    pub fn input(&self, key: &str) -> f64 {
        self.parsed(self.input_text(key), key)
    }

    /// A text among the `key=value` pairs of the column `inputs`.
    ///
    /// # Panics
    /// If the pair is missing.
    #[must_use]
    pub fn input_text(&self, key: &str) -> &'t str {
        let inputs = self.text(INPUTS);
        inputs
            .split_whitespace()
            .filter_map(|pair| pair.split_once('='))
            .find_map(|(name, value)| (name == key).then_some(value))
            .unwrap_or_else(|| panic!("{self}, column `{INPUTS}`: no `{key}` in `{inputs}`"))
    }

    /// Half a unit in the last digit that a cell prints.
    ///
    /// # Panics
    /// If there is no such column, or the cell holds no number.
    #[must_use]
    pub fn half_last_digit(&self, column: &str) -> f64 {
        let text = self.text(column);
        half_last_digit(text).unwrap_or_else(|| self.no_number(text, column))
    }

    fn parsed(&self, text: &str, place: &str) -> f64 {
        match text.parse::<f64>() {
            Ok(number) if number.is_finite() => number,
            _ => self.no_number(text, place),
        }
    }

    fn no_number(&self, text: &str, place: &str) -> ! {
        panic!("{self}, column `{place}`: `{text}` is no finite number")
    }
}

impl Display for Row<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} line {}", self.table.file, self.line.number)?;
        match self.table.position(ID) {
            Some(at) => write!(f, " ({})", self.line.cells[at]),
            None => Ok(()),
        }
    }
}

/// Half a unit in the last printed digit: 0.005 for `281.65`, 5e-11 for `1.78938e-5`.
///
/// Zeros at the end count as printed digits: `100` gives 0.5. `None` if the text is no decimal
/// number.
#[must_use]
pub fn half_last_digit(text: &str) -> Option<f64> {
    text.parse::<f64>().ok().filter(|value| value.is_finite())?;
    let (mantissa, exponent) = match text.split_once(['e', 'E']) {
        Some((mantissa, exponent)) => (mantissa, exponent.parse::<i32>().ok()?),
        None => (text, 0),
    };
    let decimals = match mantissa.split_once('.') {
        Some((_, decimals)) => i32::try_from(decimals.len()).ok()?,
        None => 0,
    };
    // Parsed, not computed, so that the result is the double nearest to it.
    format!("5e{}", exponent - decimals - 1).parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::table::sample::{message, sample};

    #[test]
    fn cells_are_read_by_column_name() {
        let table = sample();
        let row = table.row("A2");
        assert_eq!(row.text("quantity"), "width, net");
        assert_eq!(row.number("value"), 300.0);
        assert!(!row.flag("wet"));
        assert!(table.row("A1").flag("wet"));
        assert_eq!(table.row("A3").number_if_any("value"), None);
        assert_eq!(table.row("A1").number_if_any("value"), Some(12.5));
        assert_eq!(table.rows().count(), 3);
    }

    #[test]
    fn inputs_are_read_by_key() {
        let table = sample();
        assert_eq!(table.row("A1").input("speed_kt"), 90.0);
        assert_eq!(table.row("A1").input_text("side"), "left");
    }

    #[test]
    fn what_is_missing_is_named_with_file_row_and_column() {
        for (action, expected) in [
            (
                (|| {
                    let _ = sample().row("A1").text("colour");
                }) as fn(),
                "sample.csv line 2 (A1): no column `colour`",
            ),
            (
                || {
                    let _ = sample().row("A3").number("value");
                },
                "sample.csv line 4 (A3), column `value`: `` is no finite number",
            ),
            (
                || {
                    let _ = sample().row("A3").flag("wet");
                },
                "sample.csv line 4 (A3), column `wet`: `no` is neither true nor false",
            ),
            (
                || {
                    let _ = sample().row("A2").input("side");
                },
                "sample.csv line 3 (A2), column `inputs`: no `side` in `speed_kt=110`",
            ),
            (
                || {
                    let _ = sample().row("A9");
                },
                "sample.csv: no row has `A9` in column `id`",
            ),
            (
                || {
                    let _ = Table::parse("short.csv", "a,b\n1\n");
                },
                "short.csv: ",
            ),
            (
                || {
                    let _ = Table::parse("twice.csv", "a,a\n1,2\n");
                },
                "twice.csv: column `a` appears twice",
            ),
            (
                || {
                    let _ = Table::parse("empty.csv", "a,b\n");
                },
                "empty.csv: no rows",
            ),
        ] {
            let message = message(action);
            assert!(message.starts_with(expected), "{message}");
        }
    }

    #[test]
    fn infinite_and_undefined_cells_are_refused() {
        for cell in ["inf", "NaN", "1,5"] {
            let text = format!("value\n\"{cell}\"\n");
            let said = message(move || {
                let table = Table::parse("odd.csv", &text);
                table.rows().for_each(|row| {
                    let _ = row.number("value");
                });
            });
            assert!(said.contains("is no finite number"), "{said}");
        }
    }

    #[test]
    fn half_of_the_last_printed_digit() {
        for (text, half) in [
            ("281.65", 0.005),
            ("1.78938e-5", 5e-11),
            ("1.78938E-05", 5e-11),
            ("-0.39", 0.005),
            ("447", 0.5),
            ("100", 0.5),
            ("2.0", 0.05),
            ("+6", 0.5),
            ("3.", 0.5),
            ("4e3", 500.0),
        ] {
            assert_eq!(half_last_digit(text), Some(half), "{text}");
        }
        for text in ["", "-", "band", "inf", "nan", "1e", "1.2.3"] {
            assert_eq!(half_last_digit(text), None, "{text}");
        }
    }
}
