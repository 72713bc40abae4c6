//! How a file is to be read: encoding, separator, decimal sign, header.

use crate::language::tr;
use crate::prove::log::number::{clock, number};

/// Encoding of a file's bytes; the browser decodes it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Encoding {
    /// UTF-8, with or without a mark.
    Utf8,
    /// UTF-16, low byte first.
    Utf16Le,
    /// UTF-16, high byte first.
    Utf16Be,
    /// One byte a character (Windows' superset of Latin-1).
    Latin1,
}

impl Encoding {
    /// Its label in the encoding standard.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Utf8 => "utf-8",
            Self::Utf16Le => "utf-16le",
            Self::Utf16Be => "utf-16be",
            Self::Latin1 => "windows-1252",
        }
    }
}

/// Bytes looked at to guess an encoding.
pub const LOOKED_AT: usize = 65_536;

/// Guesses the encoding: by a mark, by where zero bytes stand, by whether the bytes are UTF-8.
///
/// # Example
/// A mark tells the order of the bytes:
/// ```
/// use coolpath_core::prove::log::{Encoding, encoding};
///
/// assert_eq!(encoding(&[0xff, 0xfe, b'T', 0]), Encoding::Utf16Le);
/// assert_eq!(encoding("°F".as_bytes()), Encoding::Utf8);
/// ```
#[must_use]
pub fn encoding(bytes: &[u8]) -> Encoding {
    match bytes {
        [0xff, 0xfe, ..] => return Encoding::Utf16Le,
        [0xfe, 0xff, ..] => return Encoding::Utf16Be,
        _ => {}
    }
    let start = &bytes[..bytes.len().min(LOOKED_AT)];
    let zeros = |odd: usize| {
        start
            .iter()
            .skip(odd)
            .step_by(2)
            .filter(|byte| **byte == 0)
            .count()
    };
    let (even, odd) = (zeros(0), zeros(1));
    if odd > start.len() / 5 && even < odd / 10 {
        return Encoding::Utf16Le;
    }
    if even > start.len() / 5 && odd < even / 10 {
        return Encoding::Utf16Be;
    }
    match core::str::from_utf8(start) {
        Ok(_) => Encoding::Utf8,
        // Cut in the middle of a character by the end of what was looked at.
        Err(error) if error.error_len().is_none() && start.len() < bytes.len() => Encoding::Utf8,
        Err(_) => Encoding::Latin1,
    }
}

/// What stands between the cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Separator {
    /// Comma.
    Comma,
    /// Semicolon.
    Semicolon,
    /// Tabulator.
    Tab,
    /// Upright line.
    Bar,
}

impl Separator {
    /// All of them, the likelier first where files do not tell.
    pub const ALL: [Self; 4] = [Self::Tab, Self::Semicolon, Self::Comma, Self::Bar];

    /// The character.
    #[must_use]
    pub fn byte(self) -> u8 {
        match self {
            Self::Comma => b',',
            Self::Semicolon => b';',
            Self::Tab => b'\t',
            Self::Bar => b'|',
        }
    }

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Comma => tr("comma"),
            Self::Semicolon => tr("semicolon"),
            Self::Tab => tr("tab"),
            Self::Bar => tr("upright line"),
        }
    }
}

/// How a text is cut into cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Layout {
    /// What stands between the cells.
    pub separator: Separator,
    /// Numbers carry a decimal comma.
    pub decimal_comma: bool,
    /// Rows before the first row of numbers.
    pub header_rows: usize,
}

/// Lines looked at to guess a layout.
const LINES: usize = 60;
/// Most header rows.
pub(super) const MOST_HEADER_ROWS: usize = 12;

impl Layout {
    /// Guesses the layout of a text.
    ///
    /// # Example
    /// Semicolons part what decimal commas do not:
    /// ```
    /// use coolpath_core::prove::log::{Layout, Separator};
    ///
    /// let layout = Layout::of("Time;CHT 1;OAT\n10:00:00;190,5;15,0\n10:00:01;190,6;15,0\n");
    /// assert_eq!(layout.separator, Separator::Semicolon);
    /// ```
    #[must_use]
    pub fn of(text: &str) -> Self {
        let lines: Vec<&str> = text
            .lines()
            .map(|line| line.trim_start_matches('\u{feff}'))
            .filter(|line| !line.trim().is_empty())
            .take(LINES)
            .collect();
        let separator = separator_of(&lines);
        let cut = |line: &str| -> Vec<String> {
            line.split(char::from(separator.byte()))
                .map(|cell| cell.trim().trim_matches('"').to_owned())
                .collect()
        };
        let decimal_comma = separator != Separator::Comma && {
            let cells: Vec<String> = lines.iter().flat_map(|line| cut(line)).collect();
            let with = |sign: char| {
                cells
                    .iter()
                    .filter(|cell| {
                        cell.split_once(sign).is_some_and(|(before, after)| {
                            let digits = |part: &str| {
                                !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit())
                            };
                            digits(before.trim_start_matches(['-', '+'])) && digits(after)
                        })
                    })
                    .count()
            };
            with(',') > 0 && with(',') >= with('.')
        };
        let is_data = |line: &&str| {
            let cells = cut(line);
            let filled = cells.iter().filter(|cell| !cell.is_empty()).count();
            let numbers = cells
                .iter()
                .filter(|cell| number(cell, decimal_comma).is_some() || clock(cell).is_some())
                .count();
            numbers > 0 && 2 * numbers >= filled
        };
        let header_rows = lines
            .iter()
            .position(is_data)
            .unwrap_or(1)
            .min(MOST_HEADER_ROWS);
        Self {
            separator,
            decimal_comma,
            header_rows,
        }
    }
}

/// The separator that cuts most lines into the same number of cells, more than one.
fn separator_of(lines: &[&str]) -> Separator {
    let score = |separator: Separator| {
        let mut counts: Vec<usize> = lines
            .iter()
            .map(|line| {
                line.bytes()
                    .filter(|byte| *byte == separator.byte())
                    .count()
            })
            .collect();
        counts.sort_unstable();
        let usual = counts.get(counts.len() / 2).copied().unwrap_or(0);
        if usual == 0 {
            return 0;
        }
        // A share of 1000 lines, so that it stays a whole number.
        1000 * counts.iter().filter(|count| **count == usual).count() / counts.len()
    };
    Separator::ALL
        .into_iter()
        .rev()
        .max_by_key(|separator| score(*separator))
        .unwrap_or(Separator::Comma)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn encodings_are_told_apart() {
        assert_eq!(encoding("Höhe;1".as_bytes()), Encoding::Utf8);
        assert_eq!(encoding(b"H\xf6he;1"), Encoding::Latin1);
        let wide: Vec<u8> = "Time\tCHT1\n0\t380\n"
            .encode_utf16()
            .flat_map(u16::to_le_bytes)
            .collect();
        assert_eq!(encoding(&wide), Encoding::Utf16Le);
        let marked: Vec<u8> = [0xfe, 0xff].into_iter().chain([0, b'T']).collect();
        assert_eq!(encoding(&marked), Encoding::Utf16Be);
        assert_eq!(encoding(&[]), Encoding::Utf8);
    }

    #[test]
    fn a_decimal_comma_beside_a_semicolon_is_no_separator() {
        let layout =
            Layout::of("Zeit;IAS (kt);Höhe (ft)\n10:00:00;118,0;3.500\n10:00:01;118,5;3.510\n");
        assert_eq!(
            layout,
            Layout {
                separator: Separator::Semicolon,
                decimal_comma: true,
                header_rows: 1
            }
        );
    }

    #[test]
    fn a_line_of_facts_and_two_lines_of_names_are_header() {
        let text = "#kind,version=\"1\",tail=\"X\"\nTime (s),CHT1 (deg F),OAT (deg C)\nTime,CHT1,OAT\n0,380,15\n1,381,15\n2,382,15\n";
        let layout = Layout::of(text);
        assert_eq!(
            (layout.separator, layout.header_rows),
            (Separator::Comma, 3)
        );
        assert!(!layout.decimal_comma);
    }
}
