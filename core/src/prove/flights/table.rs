//! A table of windows: one row each, by flight.
//!
//! A line of names, then rows. `flight` and `t0_s` are needed, `phase` and `flags` may stand; what
//! the other columns hold is guessed from their names and numbers as a log's are, and can be given.
//! Unlike a log, a cell of a used column that is neither empty nor a number is refused by its line:
//! a table was written, a log was recorded.

use crate::document::reading::{Reading, Values};
use crate::language::tr;
use crate::prove::flights::window::{FlightPhase, Window};
use crate::prove::log::column_map::{ColumnMap, recall};
use crate::prove::log::{ColumnUse, Layout, LogError, LogReader, guess, number};
use csv::{ReaderBuilder, StringRecord};

/// Why a text is no table of windows.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum TableError {
    /// It cannot be read at all.
    #[error("{0}")]
    Log(LogError),
    /// A column that every table needs.
    #[error("{}", tr!("line 1: no column is named `{}`", .0))]
    NoColumn(&'static str),
    /// No column holds a quantity.
    #[error(
        "{}",
        tr("line 1: no column was recognised; a column map can name them")
    )]
    NoQuantity,
    /// A cell that is no number.
    #[error("{}", tr!("line {}: `{}` in column `{}` is no number", .line, .cell, .column))]
    Cell {
        /// Line, from 1.
        line: u64,
        /// Its column's name.
        column: String,
        /// What stands there.
        cell: String,
    },
    /// A number that no instrument shows.
    #[error(
        "{}",
        tr!(
            "line {}: {} in column `{}` is outside what can be read there",
            .line, .cell, .column
        )
    )]
    Impossible {
        /// Line, from 1.
        line: u64,
        /// Its column's name.
        column: String,
        /// What stands there.
        cell: String,
    },
    /// A phase that is none.
    #[error(
        "{}",
        tr!(
            "line {}: `{}` is no phase; ground, climb, level and descent are",
            .line, .found
        )
    )]
    Phase {
        /// Line, from 1.
        line: u64,
        /// What stands there.
        found: String,
    },
    /// A row without its flight.
    #[error("{}", tr!("line {}: the flight is not named", .line))]
    NoFlight {
        /// Line, from 1.
        line: u64,
    },
    /// A record cannot be read.
    #[error("{}", tr!("line {}: cannot be read", .line))]
    Unreadable {
        /// Line, from 1.
        line: u64,
    },
}

/// Windows of some flights.
#[derive(Debug, Clone, PartialEq)]
pub struct WindowTable {
    /// Names of its columns.
    pub columns: Vec<String>,
    /// The windows in the table's order.
    pub windows: Vec<Window>,
}

/// Where the columns that are no quantities stand.
struct Places {
    flight: usize,
    start: usize,
    phase: Option<usize>,
    note: Option<usize>,
}

impl WindowTable {
    /// Reads a table.
    ///
    /// # Arguments
    /// * `columns` - what columns hold, by name; others are guessed
    ///
    /// # Errors
    /// [`TableError`] with the line.
    pub fn read(text: &str, columns: &ColumnMap) -> Result<Self, TableError> {
        let text = text.trim_start_matches('\u{feff}');
        let layout = Layout {
            header_rows: 1,
            ..Layout::of(text)
        };
        let mut whole = LogReader::of(text.to_owned(), layout).map_err(TableError::Log)?;
        while whole.advance(1000).map_err(TableError::Log)? {}
        let whole = whole.finish().map_err(TableError::Log)?;
        let names: Vec<&str> = whole.columns.iter().map(|c| c.name.as_str()).collect();
        let at = |name: &str| names.iter().position(|other| *other == name);
        let places = Places {
            flight: at("flight").ok_or(TableError::NoColumn("flight"))?,
            start: at("t0_s").ok_or(TableError::NoColumn("t0_s"))?,
            phase: at("phase"),
            note: at("flags"),
        };
        let mut uses = guess(&whole);
        recall(columns, &whole, &mut uses);
        for at in [Some(places.flight), Some(places.start), places.phase] {
            if let Some(slot) = at.and_then(|at| uses.get_mut(at)) {
                *slot = ColumnUse::Nothing;
            }
        }
        let any = |used: &ColumnUse| matches!(used, ColumnUse::Quantity(..));
        if !uses.iter().any(any) {
            return Err(TableError::NoQuantity);
        }
        let mut reader = ReaderBuilder::new()
            .delimiter(layout.separator.byte())
            .flexible(true)
            .from_reader(text.as_bytes());
        let mut windows = Vec::with_capacity(whole.rows);
        for record in reader.records() {
            let record = record.map_err(|error| TableError::Unreadable {
                line: error.position().map_or(0, csv::Position::line),
            })?;
            if record.iter().all(|cell| cell.trim().is_empty()) {
                continue;
            }
            let row = Row {
                record: &record,
                names: &names,
                decimal_comma: layout.decimal_comma,
            };
            windows.push(row.window(&places, &uses)?);
        }
        let columns = names.into_iter().map(str::to_owned).collect();
        Ok(Self { columns, windows })
    }

    /// Names of the flights in the table's order, each once.
    #[must_use]
    pub fn flights(&self) -> Vec<&str> {
        let mut found: Vec<&str> = Vec::new();
        for window in &self.windows {
            if !found.contains(&window.flight.as_str()) {
                found.push(&window.flight);
            }
        }
        found
    }
}

struct Row<'a> {
    record: &'a StringRecord,
    names: &'a [&'a str],
    decimal_comma: bool,
}

impl Row<'_> {
    fn line(&self) -> u64 {
        self.record.position().map_or(0, csv::Position::line)
    }

    fn cell(&self, at: usize) -> &str {
        self.record.get(at).unwrap_or("").trim()
    }

    fn name(&self, at: usize) -> String {
        self.names.get(at).copied().unwrap_or("").to_owned()
    }

    fn number(&self, at: usize) -> Result<Option<f64>, TableError> {
        let cell = self.cell(at);
        if cell.is_empty() {
            return Ok(None);
        }
        match number(cell, self.decimal_comma) {
            Some(value) => Ok(Some(value)),
            None => Err(TableError::Cell {
                line: self.line(),
                column: self.name(at),
                cell: cell.to_owned(),
            }),
        }
    }

    fn window(&self, places: &Places, uses: &[ColumnUse]) -> Result<Window, TableError> {
        let line = self.line();
        let flight = self.cell(places.flight);
        if flight.is_empty() {
            return Err(TableError::NoFlight { line });
        }
        let phase = match places.phase.map(|at| self.cell(at)) {
            None | Some("") => FlightPhase::Level,
            Some(name) => FlightPhase::named(name).ok_or_else(|| TableError::Phase {
                line,
                found: name.to_owned(),
            })?,
        };
        let start_s = self.number(places.start)?.unwrap_or(0.0);
        let note = places.note.map(|at| self.cell(at).to_owned());
        Ok(Window {
            flight: flight.to_owned(),
            start_s,
            phase,
            note: note.unwrap_or_default(),
            reading: Reading::steady(&format!("{flight} {start_s:.0} s"), self.values(uses)?),
        })
    }

    fn values(&self, uses: &[ColumnUse]) -> Result<Values, TableError> {
        let mut values = Values::new();
        for (at, used) in uses.iter().enumerate() {
            let ColumnUse::Quantity(quantity, unit) = used else {
                continue;
            };
            let Some(value) = self.number(at)? else {
                continue;
            };
            let si = unit.to_si(value);
            let (least, most) = quantity.permitted();
            if !(least..=most).contains(&si) {
                return Err(TableError::Impossible {
                    line: self.line(),
                    column: self.name(at),
                    cell: self.cell(at).to_owned(),
                });
            }
            values.insert(*quantity, si);
        }
        Ok(values)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::quantity::Quantity;
    use crate::units::si::{degf, gal_h, inhg};

    const HEADER: &str = "flight,t0_s,phase,alt_press_ft,ias_kt,tas_kt,oat_C,oil_F,oil_psi,rpm,\
                          map_inHg,ff_gph,pct_pwr,cht1_F,cht2_F,egt1_F,max_drift_F,flags\n";

    fn read(rows: &str) -> Result<WindowTable, TableError> {
        WindowTable::read(&format!("{HEADER}{rows}"), &ColumnMap::new())
    }

    #[test]
    fn rows_become_windows_with_their_units() {
        let table = read(
            "A,100,level,6000,150,170,10,187,76,2500,24,16.5,75,300,380,1390,2.5,\n\
             B,220,climb,3000,110,118,20,,76,2600,27,28,88,340,400,1200,2.5,oil probe out\n",
        )
        .expect("a table");
        assert_eq!(table.flights(), ["A", "B"]);
        let [one, other] = table.windows.as_slice() else {
            panic!("two windows: {table:?}");
        };
        let value = |window: &Window, quantity| {
            let moment = window.moment().expect("a moment");
            moment.get(quantity)
        };
        let near = |quantity, expected: f64| {
            let found = value(one, quantity).expect("read");
            assert!((found - expected).abs() < 1e-9, "{quantity:?}: {found}");
        };
        near(Quantity::Oat, 283.15);
        near(Quantity::Oil, degf(187.0));
        near(Quantity::Manifold, inhg(24.0));
        near(Quantity::FuelFlow, gal_h(16.5));
        near(Quantity::PowerShare, 0.75);
        near(Quantity::Head2, degf(380.0));
        near(Quantity::Egt1, degf(1390.0));
        assert_eq!((one.start_s, one.phase), (100.0, FlightPhase::Level));
        assert_eq!(value(other, Quantity::Oil), None);
        assert_eq!(other.phase, FlightPhase::Climb);
        assert_eq!(other.note, "oil probe out");
    }

    #[test]
    fn faults_name_their_line() {
        let good = "A,100,level,6000,150,170,10,187,76,2500,24,16.5,75,300,380,1390,2.5,\n";
        let told = |row: &str| read(&format!("{good}{row}")).expect_err("refused");
        assert_eq!(
            told("A,220,level,6000,fast,170,10,187,76,2500,24,16.5,75,300,380,1390,2.5,\n"),
            TableError::Cell {
                line: 3,
                column: "ias_kt".to_owned(),
                cell: "fast".to_owned()
            }
        );
        assert_eq!(
            told("A,220,hover,6000,150,170,10,187,76,2500,24,16.5,75,300,380,1390,2.5,\n"),
            TableError::Phase {
                line: 3,
                found: "hover".to_owned()
            }
        );
        assert_eq!(
            told(",220,level,6000,150,170,10,187,76,2500,24,16.5,75,300,380,1390,2.5,\n"),
            TableError::NoFlight { line: 3 }
        );
        assert_eq!(
            told("A,220,level,6000,150,170,10,187,76,2500,24,16.5,75,300,980,1390,2.5,\n"),
            TableError::Impossible {
                line: 3,
                column: "cht2_F".to_owned(),
                cell: "980".to_owned()
            }
        );
        let none = WindowTable::read("t0_s,oil_F\n1,180\n", &ColumnMap::new());
        assert_eq!(none, Err(TableError::NoColumn("flight")));
    }

    #[test]
    fn a_column_map_goes_before_the_names() {
        let map = [("oil_F".to_owned(), ("oil_k".to_owned(), "°C".to_owned()))];
        let row = "A,100,level,6000,150,170,10,87,76,2500,24,16.5,75,300,380,1390,2.5,\n";
        let table = WindowTable::read(&format!("{HEADER}{row}"), &map.into_iter().collect());
        let window = &table.expect("a table").windows[0];
        let oil = window.moment().and_then(|moment| moment.get(Quantity::Oil));
        assert!((oil.expect("oil") - 360.15).abs() < 1e-9);
    }
}
