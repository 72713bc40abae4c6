//! The records of a log as columns of numbers.

use crate::language::tr;
use crate::prove::log::cells::Cells;
use crate::prove::log::layout::Layout;
use crate::prove::log::number::{clock, number};
use crate::prove::log::records::{Cut, Records};

/// Why a text is no log.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum LogError {
    /// Nothing in it.
    Empty,
    /// A character that no text holds.
    NotText {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
    },
    /// A quotation mark opens and never closes.
    OpenQuote {
        /// Line, from 1.
        line: u64,
        /// Cell of the line, from 1.
        column: usize,
    },
    /// No row holds numbers.
    NoNumbers {
        /// Rows that were read.
        rows: usize,
    },
    /// More columns than any log has.
    TooWide {
        /// Line, from 1.
        line: u64,
        /// Cells in it.
        cells: usize,
    },
}

impl core::fmt::Display for LogError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Empty => f.write_str(tr("The file is empty.")),
            Self::NotText { line, column } => f.write_str(&tr!(
                "Line {}, column {}: this is no text. A log is a text file with one \
                 record a line.",
                line,
                column
            )),
            Self::OpenQuote { line, column } => f.write_str(&tr!(
                "Line {}, cell {}: a quotation mark opens here and does not close.",
                line,
                column
            )),
            Self::NoNumbers { rows } => f.write_str(&tr!(
                "No numbers in any of the {} rows: another separator, or no log.",
                rows
            )),
            Self::TooWide { line, cells } => f.write_str(&tr!(
                "Line {} has {} cells; at most {} are read.",
                line,
                cells,
                MOST_COLUMNS
            )),
        }
    }
}

impl core::error::Error for LogError {}

/// Most columns.
const MOST_COLUMNS: usize = 1000;
/// Line ends within one cell that can only come from an open quotation mark.
const LINE_ENDS_IN_CELL: usize = 3;
/// Rows of another length that are told.
const TOLD: usize = 5;

/// Between the header cells of a column in its name.
pub(crate) const HEADER_JOINT: &str = " · ";

/// A column of a log.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LogColumn {
    /// Its name: all its header cells.
    pub name: String,
    /// Numbers, or seconds of a clock; NaN where there is none.
    pub values: Cells,
    /// Cells that held a number.
    pub numbers: usize,
    /// Cells that held a clock.
    pub clocks: usize,
    /// Cells that held something else, such as words or dashes.
    pub words: usize,
}

/// A log as columns.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LogTable {
    /// Columns.
    pub columns: Vec<LogColumn>,
    /// Rows of numbers.
    pub rows: usize,
    /// First rows with another number of cells than the first: line and cells.
    pub ragged: Vec<(u64, usize)>,
    /// How many there are of them.
    pub ragged_count: usize,
}

/// Reads a log, some records at a time; its text may come in pieces.
pub struct LogReader {
    records: Records,
    layout: Layout,
    /// Line and column, from 0, at which what was given ends.
    given: (usize, usize),
    /// Whether it holds nothing.
    is_blank: bool,
    header: Vec<Vec<String>>,
    table: LogTable,
}

impl core::fmt::Debug for LogReader {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.debug_struct("LogReader")
            .field("layout", &self.layout)
            .finish_non_exhaustive()
    }
}

impl LogReader {
    /// A reader of a text that is still to come.
    #[must_use]
    pub fn new(layout: Layout) -> Self {
        Self {
            records: Records::new(layout.separator.byte()),
            layout,
            given: (0, 0),
            is_blank: true,
            header: Vec::new(),
            table: LogTable::default(),
        }
    }

    /// A reader of a whole text.
    ///
    /// # Errors
    /// [`LogError::NotText`] if it holds what no text does.
    ///
    /// # Example
    /// A log of two rows, and what its columns are guessed to hold:
    /// ```
    /// use coolpath_core::document::quantity::Quantity;
    /// use coolpath_core::prove::log::{ColumnUse, Layout, LogError, LogReader, guess};
    ///
    /// let text = "Time,CHT1 (deg F),OAT (deg F)\n10:00:00,380,59\n10:00:01,381,59\n";
    /// let mut reader = LogReader::of(text.to_owned(), Layout::of(text))?;
    /// while reader.advance(100)? {}
    /// let table = reader.finish()?;
    /// let values: Vec<f64> = table.columns[1].values.iter().collect();
    /// assert_eq!(values, [380.0, 381.0]);
    /// let uses = guess(&table);
    /// assert_eq!(uses[0], ColumnUse::Clock);
    /// assert!(matches!(uses[1], ColumnUse::Quantity(Quantity::Head1, _)));
    /// # Ok::<(), LogError>(())
    /// ```
    pub fn of(text: String, layout: Layout) -> Result<Self, LogError> {
        let mut reader = Self::new(layout);
        reader.feed(text)?;
        reader.end();
        Ok(reader)
    }

    /// Gives the next piece of the text; the one before is read first.
    ///
    /// # Errors
    /// [`LogError::NotText`] if it holds what no text does.
    ///
    /// # Example
    /// A text cut in the middle of a number:
    /// ```
    /// use coolpath_core::prove::log::{Layout, LogError, LogReader};
    ///
    /// let pieces = ["Time,CHT1\n0,38", "0\n1,381\n"];
    /// let mut reader = LogReader::new(Layout::of(&pieces.concat()));
    /// for piece in pieces {
    ///     reader.feed(piece.to_owned())?;
    ///     while reader.advance(100)? {}
    /// }
    /// reader.end();
    /// while reader.advance(100)? {}
    /// assert_eq!(reader.finish()?.columns[1].values.get(0), Some(380.0));
    /// # Ok::<(), LogError>(())
    /// ```
    pub fn feed(&mut self, mut text: String) -> Result<(), LogError> {
        if self.given == (0, 0) && text.starts_with('\u{feff}') {
            text.drain(..'\u{feff}'.len_utf8());
        }
        let end = text.find('\0');
        let before = &text[..end.unwrap_or(text.len())];
        let (line, column) = self.given;
        self.given = match before.rfind('\n') {
            Some(last) => {
                let ends = before.bytes().filter(|byte| *byte == b'\n').count();
                (line + ends, before[last + 1..].chars().count())
            }
            None => (line, column + before.chars().count()),
        };
        if end.is_some() {
            let (line, column) = self.given;
            return Err(LogError::NotText {
                line: line + 1,
                column: column + 1,
            });
        }
        self.is_blank &= text.trim().is_empty();
        self.records.feed(text);
        Ok(())
    }

    /// Makes room for what is still to come, judged by the rows so far.
    ///
    /// # Arguments
    /// * `read` - share of the text that was read \[-\]
    pub fn make_room(&mut self, read: f64) {
        // A row more or less is no matter: a list grows by itself where it must.
        const MORE: f64 = 1.02;
        let so_far = self.table.rows as f64;
        let rest = (MORE * so_far / read.clamp(1e-3, 1.0) - so_far).max(0.0) as usize;
        for column in &mut self.table.columns {
            column.values.reserve(rest);
        }
    }

    /// Says that no more text comes.
    pub fn end(&mut self) {
        self.records.end();
    }

    /// Bytes that were given and not read.
    #[must_use]
    pub fn unread(&self) -> usize {
        self.records.unread()
    }

    /// Reads some more records; false when all that was given is read.
    ///
    /// # Errors
    /// [`LogError`] with line and cell.
    pub fn advance(&mut self, records: usize) -> Result<bool, LogError> {
        for _ in 0..records {
            if self.records.next() != Cut::Record {
                return Ok(false);
            }
            self.take()?;
        }
        Ok(true)
    }

    fn take(&mut self) -> Result<(), LogError> {
        let (line, record) = (self.records.line(), self.records.record());
        if record.len() > MOST_COLUMNS {
            return Err(LogError::TooWide {
                line,
                cells: record.len(),
            });
        }
        let open = record
            .iter()
            .position(|cell| cell.matches('\n').count() > LINE_ENDS_IN_CELL);
        if let Some(at) = open {
            return Err(LogError::OpenQuote {
                line,
                column: at + 1,
            });
        }
        if self.header.len() < self.layout.header_rows {
            self.header
                .push(record.iter().map(|cell| cell.trim().to_owned()).collect());
            return Ok(());
        }
        if record.iter().all(|cell| cell.trim().is_empty()) {
            return Ok(());
        }
        let (rows, width) = (self.table.rows, self.table.columns.len());
        if rows == 0 {
            let names = self.header.iter().map(Vec::len).max().unwrap_or(0);
            let wide = names.max(record.len()).min(MOST_COLUMNS);
            self.table.columns = (0..wide).map(|at| column(&self.header, at)).collect();
        } else if record.len() != width {
            self.table.ragged_count += 1;
            if self.table.ragged.len() < TOLD {
                self.table.ragged.push((line, record.len()));
            }
        }
        for (at, column) in self.table.columns.iter_mut().enumerate() {
            column.push(
                record.get(at).unwrap_or("").trim(),
                self.layout.decimal_comma,
            );
        }
        self.table.rows += 1;
        Ok(())
    }

    /// The table, when all is read.
    ///
    /// # Errors
    /// [`LogError::Empty`] if there was no text, [`LogError::NoNumbers`] if no column holds numbers.
    pub fn finish(mut self) -> Result<LogTable, LogError> {
        if self.is_blank {
            return Err(LogError::Empty);
        }
        // A last column without name or content comes from a separator at the line's end.
        while self.table.columns.last().is_some_and(LogColumn::is_nothing) {
            self.table.columns.pop();
        }
        if self.table.columns.iter().all(|column| column.numbers == 0) {
            return Err(LogError::NoNumbers {
                rows: self.table.rows,
            });
        }
        Ok(self.table)
    }
}

fn column(header: &[Vec<String>], at: usize) -> LogColumn {
    // A line of facts about the file names no column.
    let named = |row: &&Vec<String>| !row.first().is_some_and(|first| first.starts_with('#'));
    let mut parts: Vec<&str> = Vec::new();
    for cell in header.iter().filter(named).filter_map(|row| row.get(at)) {
        if !cell.is_empty() && !parts.contains(&cell.as_str()) {
            parts.push(cell);
        }
    }
    LogColumn {
        name: if parts.is_empty() {
            String::new()
        } else {
            parts.join(HEADER_JOINT)
        },
        ..LogColumn::default()
    }
}

impl LogColumn {
    fn push(&mut self, cell: &str, decimal_comma: bool) {
        let value = if cell.is_empty() {
            None
        } else if let Some(value) = number(cell, decimal_comma) {
            self.numbers += 1;
            Some(value)
        } else if let Some(value) = clock(cell) {
            self.clocks += 1;
            Some(value)
        } else {
            self.words += 1;
            None
        };
        self.values.push(value.unwrap_or(f64::NAN));
    }

    fn is_nothing(&self) -> bool {
        self.name.is_empty() && self.numbers + self.clocks + self.words == 0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    pub(super) fn read(text: &str) -> Result<LogTable, LogError> {
        let mut reader = LogReader::of(text.to_owned(), Layout::of(text))?;
        while reader.advance(2)? {}
        reader.finish()
    }

    #[test]
    fn columns_keep_their_numbers_and_name_what_is_none() {
        let table = read("Time,IAS (kt),Alert,\n00:00:00,105,\"OIL, HIGH\",\n00:00:01,---,,\n00:00:02,106,,\n00:00:03,107\n")
            .expect("a log");
        assert_eq!(table.rows, 4);
        assert_eq!(table.columns.len(), 3);
        let ias = &table.columns[1];
        assert_eq!((ias.numbers, ias.words), (3, 1));
        assert!(ias.values.get(1).is_some_and(f64::is_nan));
        assert_eq!(table.columns[0].clocks, 4);
        assert_eq!(table.columns[2].words, 1);
        assert_eq!((table.ragged_count, table.ragged[0]), (1, (5, 2)));
    }

    #[test]
    fn quotes_in_the_middle_of_a_cell_are_kept_and_an_open_one_is_told() {
        let table =
            read("#k,a=\"1\",b=\"2\"\nTime,CHT1,x\n0,380,1\n1,381,2\n2,382,3\n").expect("a log");
        assert_eq!(table.columns[1].name, "CHT1");
        assert_eq!(table.columns[1].numbers, 3);
        let mut text = "Time,CHT1,Note\n0,380,a\n1,381,\"open\n".to_owned();
        for second in 2..20 {
            text.push_str(&format!("{second},380,b\n"));
        }
        let told = read(&text).expect_err("told");
        assert_eq!(told, LogError::OpenQuote { line: 3, column: 3 });
    }

    #[test]
    fn what_is_no_log_is_told() {
        assert_eq!(read(" \n"), Err(LogError::Empty));
        assert_eq!(
            read("abc\nd\0e"),
            Err(LogError::NotText { line: 2, column: 2 })
        );
        // Also where the text comes in pieces.
        let mut reader = LogReader::new(Layout::of("abc\n"));
        for piece in ["abc\nd", "e\nfg"] {
            reader.feed(piece.to_owned()).expect("text");
        }
        assert_eq!(
            reader.feed("h\0".to_owned()),
            Err(LogError::NotText { line: 3, column: 4 })
        );
        assert_eq!(
            read("only\nwords\nhere\n"),
            Err(LogError::NoNumbers { rows: 2 })
        );
    }
}
