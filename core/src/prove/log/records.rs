//! A text that comes in pieces, cut into records.

use csv_core::{ReadRecordResult, Reader, ReaderBuilder};

/// What was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Cut {
    /// A record.
    Record,
    /// None before more text comes.
    NeedsMore,
    /// The end.
    End,
}

/// Records under way.
pub(super) struct Records {
    parser: Reader,
    text: String,
    /// Bytes of the text that were read.
    read: usize,
    is_ended: bool,
    /// Where the record under way begins: line, from 1.
    line: u64,
    is_begun: bool,
    cells: Vec<u8>,
    filled: usize,
    ends: Vec<usize>,
    count: usize,
}

impl Records {
    /// Records of cells that stand between separators.
    pub(super) fn new(separator: u8) -> Self {
        Self {
            parser: ReaderBuilder::new().delimiter(separator).build(),
            text: String::new(),
            read: 0,
            is_ended: false,
            line: 1,
            is_begun: false,
            cells: vec![0; 1024],
            filled: 0,
            ends: vec![0; 128],
            count: 0,
        }
    }

    /// Gives the next piece of the text, which is all read before another comes.
    pub(super) fn feed(&mut self, text: String) {
        self.text.drain(..self.read);
        self.read = 0;
        if self.text.is_empty() {
            self.text = text;
        } else {
            self.text.push_str(&text);
        }
    }

    /// Says that no more text comes.
    pub(super) fn end(&mut self) {
        self.is_ended = true;
    }

    /// Bytes that were given and not read.
    pub(super) fn unread(&self) -> usize {
        self.text.len() - self.read
    }

    /// Reads to the end of the next record.
    pub(super) fn next(&mut self) -> Cut {
        if !self.is_begun {
            (self.filled, self.count, self.is_begun) = (0, 0, true);
            self.line = self.parser.line();
        }
        loop {
            let left = &self.text.as_bytes()[self.read..];
            if left.is_empty() && !self.is_ended {
                return Cut::NeedsMore;
            }
            let (result, read, filled, ends) = self.parser.read_record(
                left,
                &mut self.cells[self.filled..],
                &mut self.ends[self.count..],
            );
            self.read += read;
            self.filled += filled;
            self.count += ends;
            match result {
                ReadRecordResult::InputEmpty => {}
                ReadRecordResult::OutputFull => self.cells.resize(2 * self.cells.len(), 0),
                ReadRecordResult::OutputEndsFull => self.ends.resize(2 * self.ends.len(), 0),
                ReadRecordResult::Record => {
                    self.is_begun = false;
                    return Cut::Record;
                }
                ReadRecordResult::End => return Cut::End,
            }
        }
    }

    /// Line in which the record found last begins, from 1.
    pub(super) fn line(&self) -> u64 {
        self.line
    }

    /// The record found last.
    pub(super) fn record(&self) -> Record<'_> {
        // Text cut at separators stays text.
        let text = core::str::from_utf8(&self.cells[..self.filled]).unwrap_or("");
        Record {
            text,
            ends: &self.ends[..self.count],
        }
    }
}

/// A record: its cells.
#[derive(Clone, Copy)]
pub(super) struct Record<'a> {
    text: &'a str,
    ends: &'a [usize],
}

impl<'a> Record<'a> {
    /// How many there are.
    pub(super) fn len(&self) -> usize {
        self.ends.len()
    }

    /// The cell at a place.
    pub(super) fn get(&self, at: usize) -> Option<&'a str> {
        let end = *self.ends.get(at)?;
        let start = if at == 0 { 0 } else { self.ends[at - 1] };
        self.text.get(start..end)
    }

    /// All of them.
    pub(super) fn iter(&self) -> impl Iterator<Item = &'a str> + use<'a> {
        let own = *self;
        (0..own.len()).filter_map(move |at| own.get(at))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use csv::StringRecord;

    /// Records with their lines of a text that comes in pieces of so many bytes, or a little less.
    fn cut(text: &str, size: usize) -> Vec<(u64, Vec<String>)> {
        let mut records = Records::new(b',');
        let mut found = Vec::new();
        let mut rest = text;
        loop {
            match records.next() {
                Cut::Record => {
                    let cells = records.record().iter().map(str::to_owned).collect();
                    found.push((records.line(), cells));
                }
                Cut::End => return found,
                Cut::NeedsMore if rest.is_empty() => records.end(),
                Cut::NeedsMore => {
                    let mut at = size.min(rest.len());
                    while !rest.is_char_boundary(at) {
                        at += 1;
                    }
                    records.feed(rest[..at].to_owned());
                    rest = &rest[at..];
                }
            }
        }
    }

    /// The same by the library that reads a whole text.
    fn whole(text: &str) -> Vec<(u64, Vec<String>)> {
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .from_reader(text.as_bytes());
        let mut record = StringRecord::new();
        let mut found = Vec::new();
        while reader.read_record(&mut record).expect("text") {
            let line = record.position().map_or(0, csv::Position::line);
            found.push((line, record.iter().map(str::to_owned).collect()));
        }
        found
    }

    #[test]
    fn pieces_of_any_size_give_the_records_of_the_whole() {
        let long = format!("{}\n{}", "é,".repeat(3000), "x".repeat(5000));
        for text in [
            "a,b\n1,2\n\n\n3,4,5\r\n6\n",
            "#k,a=\"1\",b=\"2\"\n\"q,\n\nr\",°F,\"a\"\"b\"\nlast",
            "a,\"open\n1,2\n3,4\n",
            "",
            "\n",
            &long,
        ] {
            for size in [1, 2, 3, 7, 1000] {
                assert_eq!(cut(text, size), whole(text), "{size} of {text:.30}");
            }
        }
    }
}
