//! Reads the tables in `reference/` and judges computed numbers against them.
//!
//! ```no_run
//! use coolpath_tests::table::{Table, compare};
//!
//! # fn impact_pressure_pa(cas_kt: f64) -> f64 { cas_kt }
//! compare("impact pressure follows from calibrated airspeed", |comparison| {
//!     for row in Table::read("airspeed").rows_where("quantity", "impact pressure") {
//!         comparison.row(&row, impact_pressure_pa(row.input("cas_kt")));
//!     }
//! });
//! ```

use std::fmt::{self, Display};
use std::fs;
use std::path::PathBuf;

use serde_json::Value;

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

/// Greatest absolute difference that still passes.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Tolerance(f64);

impl Tolerance {
    /// A difference in the unit of the numbers compared.
    ///
    /// # Panics
    /// If the difference is negative or not finite.
    #[must_use]
    pub fn absolute(difference: f64) -> Self {
        assert!(
            difference.is_finite() && difference >= 0.0,
            "a tolerance must be at least 0, not {difference}"
        );
        Self(difference)
    }

    /// Half a unit in the last digit of a number as printed.
    ///
    /// # Panics
    /// If the text is no number.
    #[must_use]
    pub fn printed(number: &str) -> Self {
        match half_last_digit(number) {
            Some(half) => Self(half),
            None => panic!("`{number}` is no number"),
        }
    }
}

/// Gathers comparisons and fails with the worst of them.
///
/// # Panics
/// If any comparison is off by more than its tolerance, or if none was made.
pub fn compare(claim: &str, gather: impl FnOnce(&mut Comparison)) {
    let mut comparison = Comparison::default();
    gather(&mut comparison);
    if let Err(message) = comparison.verdict() {
        panic!("{claim}: {message}");
    }
}

/// What [`compare`] has gathered so far.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Comparison {
    made: usize,
    failed: usize,
    worst: Option<Miss>,
}

#[derive(Debug, Clone, PartialEq)]
struct Miss {
    place: String,
    actual: f64,
    expected: String,
    difference: f64,
    tolerance: f64,
}

impl Miss {
    /// Difference in units of the tolerance; anything that is no number is worst of all.
    fn severity(&self) -> f64 {
        if self.difference.is_nan() {
            f64::INFINITY
        } else if self.tolerance > 0.0 {
            self.difference / self.tolerance
        } else {
            f64::MAX
        }
    }
}

impl Comparison {
    /// Compares with an expected number.
    pub fn value(&mut self, place: impl Display, actual: f64, expected: f64, tolerance: Tolerance) {
        let difference = (actual - expected).abs();
        self.judge(place, actual, expected.to_string(), difference, tolerance);
    }

    /// Compares with the cell of a row, by half the last digit printed there.
    pub fn cell(&mut self, row: &Row<'_>, column: &str, actual: f64) {
        let tolerance = Tolerance(row.half_last_digit(column));
        let place = format!("{row}, column `{column}`");
        self.value(place, actual, row.number(column), tolerance);
    }

    /// Compares with a row that has the columns `role`, `value` and `tolerance`.
    ///
    /// The role `value` asks for the number itself, `low` for no less and `high` for no more.
    ///
    /// # Panics
    /// If the role is another one.
    pub fn row(&mut self, row: &Row<'_>, actual: f64) {
        let tolerance = Tolerance::absolute(row.number("tolerance"));
        let expected = row.number("value");
        match row.text("role") {
            "value" => self.value(row, actual, expected, tolerance),
            "low" => self.at_least(row, actual, expected, tolerance),
            "high" => self.at_most(row, actual, expected, tolerance),
            role => panic!("{row}, column `role`: `{role}` is none of value, low, high"),
        }
    }

    /// Requires a number no less than `low`.
    pub fn at_least(&mut self, place: impl Display, actual: f64, low: f64, tolerance: Tolerance) {
        let expected = format!("at least {low}");
        self.judge(place, actual, expected, low - actual, tolerance);
    }

    /// Requires a number no more than `high`.
    pub fn at_most(&mut self, place: impl Display, actual: f64, high: f64, tolerance: Tolerance) {
        let expected = format!("at most {high}");
        self.judge(place, actual, expected, actual - high, tolerance);
    }

    fn judge(
        &mut self,
        place: impl Display,
        actual: f64,
        expected: String,
        difference: f64,
        Tolerance(tolerance): Tolerance,
    ) {
        self.made += 1;
        if difference <= tolerance {
            return;
        }
        self.failed += 1;
        let miss = Miss {
            place: place.to_string(),
            actual,
            expected,
            difference,
            tolerance,
        };
        if !matches!(&self.worst, Some(worst) if worst.severity() >= miss.severity()) {
            self.worst = Some(miss);
        }
    }

    /// Passes, or names the worst case.
    ///
    /// # Errors
    /// The message, if a comparison failed or none was made.
    pub fn verdict(&self) -> Result<(), String> {
        if self.made == 0 {
            return Err("nothing was compared".to_owned());
        }
        let Some(worst) = &self.worst else {
            return Ok(());
        };
        Err(format!(
            "{} of {} comparisons failed; worst is {}: {} instead of {}, off by {:e}, tolerance {:e}",
            self.failed,
            self.made,
            worst.place,
            worst.actual,
            worst.expected,
            worst.difference,
            worst.tolerance
        ))
    }
}

fn reference_text(file: &str) -> String {
    let path: PathBuf = [env!("CARGO_MANIFEST_DIR"), "..", "reference", file]
        .iter()
        .collect();
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SAMPLE: &str = "\
id,quantity,inputs,role,value,tolerance,wet
A1,height,speed_kt=90 side=left,value,12.50,0.01,true
A2,\"width, net\",speed_kt=110,low,3e2,0,false
A3,depth,,high,,0,no
";

    fn sample() -> Table {
        Table::parse("sample.csv", SAMPLE)
    }

    fn message(action: impl FnOnce() + std::panic::UnwindSafe) -> String {
        let cause = std::panic::catch_unwind(action).expect_err("it did not panic");
        cause
            .downcast_ref::<String>()
            .cloned()
            .unwrap_or_else(|| "no text".to_owned())
    }

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

    #[test]
    fn differences_up_to_the_tolerance_pass() {
        let mut comparison = Comparison::default();
        comparison.value("edge", 1.5, 1.0, Tolerance::absolute(0.5));
        comparison.value("exact", 2.0, 2.0, Tolerance::absolute(0.0));
        comparison.at_least("low", 3.0, 3.0, Tolerance::absolute(0.0));
        comparison.at_most("high", 2.9, 3.0, Tolerance::absolute(0.0));
        assert_eq!(comparison.verdict(), Ok(()));
    }

    #[test]
    fn the_worst_case_is_reported_with_its_tolerance() {
        let mut comparison = Comparison::default();
        comparison.value("first", 1.2, 1.0, Tolerance::absolute(0.1));
        comparison.value("second", 100.0, 103.0, Tolerance::absolute(0.5));
        comparison.value("third", 7.0, 7.0, Tolerance::absolute(0.5));
        assert_eq!(
            comparison.verdict(),
            Err(
                "2 of 3 comparisons failed; worst is second: 100 instead of 103, off by 3e0, \
                 tolerance 5e-1"
                    .to_owned()
            )
        );
    }

    #[test]
    fn what_is_no_number_fails() {
        let tolerance = Tolerance::absolute(1e9);
        for judge in [
            (|c, t| Comparison::value(c, "here", f64::NAN, 1.0, t)) as fn(&mut Comparison, _),
            |c, t| c.at_least("here", f64::NAN, 1.0, t),
            |c, t| c.at_most("here", f64::INFINITY, 1.0, t),
        ] {
            let mut comparison = Comparison::default();
            comparison.value("elsewhere", 1e10, 0.0, Tolerance::absolute(0.0));
            judge(&mut comparison, tolerance);
            let said = comparison.verdict().expect_err("it passed");
            assert!(said.starts_with("2 of 2"), "{said}");
        }
    }

    #[test]
    fn no_comparison_at_all_fails() {
        let said = message(|| compare("everything agrees", |_| {}));
        assert_eq!(said, "everything agrees: nothing was compared");
    }

    #[test]
    fn rows_are_judged_by_their_role() {
        let table = sample();
        let mut comparison = Comparison::default();
        comparison.row(&table.row("A1"), 12.505);
        comparison.row(&table.row("A2"), 310.0);
        comparison.cell(&table.row("A1"), "value", 12.504);
        assert_eq!(comparison.verdict(), Ok(()));

        comparison.row(&table.row("A2"), 299.0);
        let said = comparison.verdict().expect_err("it passed");
        assert!(said.contains("sample.csv line 3 (A2): 299 instead of at least 300"));
    }

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

    #[test]
    fn negative_tolerances_are_refused() {
        let said = message(|| {
            let _ = Tolerance::absolute(-1.0);
        });
        assert!(said.starts_with("a tolerance must be at least 0"), "{said}");
    }
}
