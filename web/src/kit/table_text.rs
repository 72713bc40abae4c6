//! A table as a text for other programs: a file of separated values, or what is pasted into a
//! spreadsheet. Pure.

use crate::kit::format::NONE;
use coolpath_core::language::decimal_mark;

/// A table that leaves the page.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct TableText {
    /// What it is of; the file is called so.
    pub title: String,
    /// Heads of the columns.
    pub columns: Vec<String>,
    /// Rows.
    pub rows: Vec<Vec<String>>,
}

/// What stands between two cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Between {
    /// A comma, or a semicolon where the decimal sign is a comma.
    Comma,
    /// A tab: a spreadsheet takes such a text from the clipboard.
    Tab,
}

impl TableText {
    /// A table.
    pub fn new(title: impl Into<String>, columns: &[&str], rows: Vec<Vec<String>>) -> Self {
        Self {
            title: title.into(),
            columns: columns.iter().map(|column| (*column).to_owned()).collect(),
            rows,
        }
    }

    /// The text: numbers as numbers, a unit that all of a column share in its head.
    ///
    /// # Arguments
    /// * `said` - a sentence that must stand on its face, as the first row
    /// * `decimal_comma` - whether numbers have a decimal comma
    #[must_use]
    pub fn text(&self, between: Between, decimal_comma: bool, said: Option<&str>) -> String {
        let separator = match (between, decimal_comma) {
            (Between::Tab, _) => '\t',
            (Between::Comma, true) => ';',
            (Between::Comma, false) => ',',
        };
        let units: Vec<Option<&str>> = (0..self.columns.len())
            .map(|at| self.shared_unit(at))
            .collect();
        let head = self.columns.iter().zip(&units);
        let head = head.map(|(name, unit)| match unit {
            Some(unit) => format!("{name}, {unit}"),
            None => name.clone(),
        });
        let mut text = String::new();
        let mut line = |cells: &mut dyn Iterator<Item = String>| {
            for (at, cell) in cells.enumerate() {
                if at > 0 {
                    text.push(separator);
                }
                text.push_str(&written(&cell, separator, decimal_comma));
            }
            text.push_str("\r\n");
        };
        if let Some(said) = said {
            line(&mut std::iter::once(said.to_owned()));
        }
        line(&mut head.into_iter());
        for row in &self.rows {
            line(&mut row.iter().enumerate().map(
                |(at, cell)| match units.get(at).copied().flatten() {
                    Some(_) => parted(cell).map_or("", |(number, _)| number).to_owned(),
                    None => cell.clone(),
                },
            ));
        }
        text
    }

    /// The unit behind every number of a column, if it is one and the same.
    fn shared_unit(&self, at: usize) -> Option<&str> {
        let mut shared = None;
        for cell in self.rows.iter().filter_map(|row| row.get(at)) {
            if is_none(cell) {
                continue;
            }
            let (_, unit) = parted(cell)?;
            if *shared.get_or_insert(unit) != unit {
                return None;
            }
        }
        shared
    }
}

fn is_none(cell: &str) -> bool {
    cell.is_empty() || cell == NONE
}

/// A number and the unit behind it.
fn parted(cell: &str) -> Option<(&str, &str)> {
    let (number, unit) = cell.split_once(' ')?;
    let is_word = !unit.is_empty() && unit.len() < 16 && !unit.contains([' ', ',', ';', '(']);
    (is_word && number_of(number).is_some()).then_some((number, unit))
}

/// A number as other programs read it; `None` for any other text.
fn number_of(cell: &str) -> Option<String> {
    let plain = cell.replace('−', "-").replace(decimal_mark(), ".");
    let digits = plain.strip_prefix(['-', '+']).unwrap_or(&plain);
    let is_plain = digits.bytes().all(|b| b.is_ascii_digit() || b == b'.')
        && digits.starts_with(|c: char| c.is_ascii_digit())
        && digits.matches('.').count() <= 1;
    is_plain.then(|| plain.trim_start_matches('+').to_owned())
}

/// A cell as it is written: a number as one, any other text so that no spreadsheet computes it.
fn written(cell: &str, separator: char, decimal_comma: bool) -> String {
    if is_none(cell) {
        return String::new();
    }
    if let Some(number) = number_of(cell) {
        return if decimal_comma {
            number.replace('.', ",")
        } else {
            number
        };
    }
    let mut text = cell.replace('−', "-");
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        text.insert(0, '\'');
    }
    if separator == '\t' {
        return text.replace(['\t', '\r', '\n'], " ");
    }
    // The other separator too, since a spreadsheet of another language cuts at it.
    if text.contains(['"', ',', ';', '\t', '\r', '\n']) {
        text = format!("\"{}\"", text.replace('"', "\"\""));
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sheet(cells: &[&str]) -> TableText {
        let rows = cells.iter().map(|cell| vec![(*cell).to_owned()]).collect();
        TableText::new("a", &["What"], rows)
    }

    fn lines(sheet: &TableText, decimal_comma: bool) -> Vec<String> {
        let text = sheet.text(Between::Comma, decimal_comma, None);
        text.split_terminator("\r\n").map(str::to_owned).collect()
    }

    #[test]
    fn a_number_stays_one_whatever_its_minus_and_the_decimal_sign() {
        let of = sheet(&["−12.5", "+3", "7", "−0.25", "2.5e3", "1.2.3"]);
        assert_eq!(
            lines(&of, false),
            ["What", "-12.5", "3", "7", "-0.25", "2.5e3", "1.2.3"]
        );
        assert_eq!(lines(&of, true)[1..3], ["-12,5", "3"]);
    }

    #[test]
    fn no_text_is_computed_by_a_spreadsheet() {
        let hostile = [
            "=HYPERLINK(1)",
            "+1+1",
            "-2+3",
            "−2+3",
            "@SUM(A1)",
            "\tx",
            "\rx",
        ];
        for line in &lines(&sheet(&hostile), false)[1..] {
            let first = line.trim_start_matches('"').chars().next();
            assert_eq!(first, Some('\''), "{line:?}");
        }
        let pasted = sheet(&["\t=1"]).text(Between::Tab, false, None);
        assert_eq!(pasted, "What\r\n' =1\r\n");
    }

    #[test]
    fn separators_quotes_and_line_ends_stay_inside_their_cell() {
        let of = sheet(&["a, b", "say \"so\"", "two\nlines", "a;b"]);
        let text = of.text(Between::Comma, false, None);
        assert_eq!(
            text,
            "What\r\n\"a, b\"\r\n\"say \"\"so\"\"\"\r\n\"two\nlines\"\r\n\"a;b\"\r\n"
        );
    }

    #[test]
    fn a_unit_that_a_column_shares_stands_in_its_head() {
        let rows = [
            ["a", "455 °F", "1 kt"],
            ["b", "–", "2 km/h"],
            ["c", "−5 °F", "3 kt"],
        ];
        let rows = rows.map(|row| row.map(str::to_owned).to_vec()).to_vec();
        let of = TableText::new("a", &["Name", "CHT", "Speed"], rows);
        assert_eq!(
            lines(&of, false),
            [
                "Name,\"CHT, °F\",Speed",
                "a,455,1 kt",
                "b,,2 km/h",
                "c,-5,3 kt"
            ]
        );
        assert_eq!(lines(&of, true)[0], "Name;\"CHT, °F\";Speed");
    }

    #[test]
    fn what_was_refused_stands_on_its_face() {
        let text = sheet(&["1"]).text(Between::Comma, false, Some("Not what was typed: x."));
        assert_eq!(text, "Not what was typed: x.\r\nWhat\r\n1\r\n");
    }
}
