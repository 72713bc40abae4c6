//! The files of a check.

use crate::check::args::CheckArgs;
use crate::design_file::{FileError, text};
use coolpath_core::document::design::Design;
use coolpath_core::document::reading::Reading;
use coolpath_core::prove::flights::{
    TableError, Window, WindowTable, check_only_windows, windows_of,
};
use coolpath_core::prove::log::column_map::{self, ColumnMap, NoUse};
use coolpath_core::prove::log::{
    Criteria, Kind, Layout, LogError, LogReader, LogTable, Session, Stretch, guess, plain_windows,
    stretches, whole_flight,
};
use std::path::{Path, PathBuf};

/// Time from row to row of a log without a clock, s: as the page takes it.
const ROW_S: f64 = 1.0;
/// Records in one go.
const RECORDS: usize = 10_000;

/// What is wrong with a file.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum InputError {
    /// It cannot be read, or is no design.
    #[error(transparent)]
    File(#[from] FileError),
    /// A log is refused.
    #[error("{file}: {error}", file = file.display())]
    Log {
        /// The file.
        file: PathBuf,
        /// Why, with the line.
        error: LogError,
    },
    /// A table of windows is refused.
    #[error("{file}: {error}", file = file.display())]
    Table {
        /// The file.
        file: PathBuf,
        /// Why, with the line.
        error: TableError,
    },
    /// An entry of the column map stands for nothing.
    #[error("{file}: column `{column}`: {error}", file = file.display())]
    Column {
        /// The column map's file.
        file: PathBuf,
        /// The entry.
        column: String,
        /// Why.
        error: NoUse,
    },
    /// A name in the column map that no file has.
    #[error("{file}: no file that was read has a column named `{column}`", file = file.display())]
    NoSuchColumn {
        /// The column map's file.
        file: PathBuf,
        /// The name.
        column: String,
    },
    /// A flight that the table does not hold.
    #[error("{file}: no flight is named `{flight}`", file = file.display())]
    NoSuchFlight {
        /// The table.
        file: PathBuf,
        /// The name.
        flight: String,
    },
}

/// A window and the file that it stands in.
#[derive(Debug)]
pub struct Found {
    /// The file.
    pub file: String,
    /// The window.
    pub window: Window,
}

/// A reading to fit on, and where it stands.
#[derive(Debug)]
pub struct ToFit {
    /// The file.
    pub file: String,
    /// Flight, or session of the log.
    pub flight: String,
    /// Start, s.
    pub start_s: f64,
    /// The reading.
    pub reading: Reading,
}

/// All that was read.
#[derive(Debug, Default)]
pub struct Flights {
    /// What is fitted to.
    pub fit: Vec<ToFit>,
    /// What is compared.
    pub on: Vec<Found>,
    fit_files: Vec<String>,
    on_files: Vec<String>,
}

fn column_map(file: &Path) -> Result<ColumnMap, InputError> {
    let map: ColumnMap = serde_json::from_str(&text(file)?).map_err(|error| FileError::Json {
        file: file.to_owned(),
        what: "column map, such as {\"CHT A\": [\"head_1_k\", \"°F\"]}",
        error,
    })?;
    for (column, (name, symbol)) in &map {
        column_map::strictly_used(name, symbol).map_err(|error| InputError::Column {
            file: file.to_owned(),
            column: column.clone(),
            error,
        })?;
    }
    Ok(map)
}

impl Flights {
    /// Reads the logs and the table of a check.
    ///
    /// # Errors
    /// [`InputError`] with the file.
    pub fn read(args: &CheckArgs) -> Result<Self, InputError> {
        let map = match &args.columns {
            Some(file) => column_map(file)?,
            None => ColumnMap::new(),
        };
        // Names that no file had so far.
        let mut strange: Vec<String> = map.keys().cloned().collect();
        let mut found = Self::default();
        for file in &args.fit {
            let (table, sessions) = log(file, &map)?;
            keep_strange(&mut strange, &map, &table);
            found.fit_files.push(file.display().to_string());
            found.add_fit(args, file, &sessions);
        }
        for file in &args.on {
            let (table, sessions) = log(file, &map)?;
            keep_strange(&mut strange, &map, &table);
            found.on_files.push(file.display().to_string());
            found.on.extend(windows(args, file, &sessions));
        }
        if let Some(file) = &args.windows {
            let text = text(file)?;
            let table = WindowTable::read(&text, &map).map_err(|error| InputError::Table {
                file: file.clone(),
                error,
            })?;
            strange.retain(|name| !table.columns.contains(name));
            found.add_table(args, file, table)?;
        }
        match (&args.columns, strange.pop()) {
            (Some(file), Some(column)) => Err(InputError::NoSuchColumn {
                file: file.clone(),
                column,
            }),
            _ => Ok(found),
        }
    }

    fn add_fit(&mut self, args: &CheckArgs, file: &Path, sessions: &[Session]) {
        let name = file.display().to_string();
        if !args.whole {
            let steady = windows(args, file, sessions);
            self.fit.extend(steady.into_iter().map(ToFit::of));
        }
        if args.steady_only {
            return;
        }
        for (place, session) in sessions.iter().enumerate() {
            let found: Vec<Stretch> = if args.whole {
                whole_flight(session).into_iter().collect()
            } else {
                let all = stretches(session, &Criteria::default()).into_iter();
                all.filter(|stretch| stretch.kind.is_moving()).collect()
            };
            self.fit.extend(found.iter().map(|stretch| ToFit {
                file: name.clone(),
                flight: flight(file, place, sessions.len()),
                start_s: stretch.from_s,
                reading: Reading {
                    log: flight(file, place, sessions.len()),
                    ..stretch.reading(session, &stretch.label())
                },
            }));
        }
    }

    /// Adds what the design itself marks “check only”.
    pub fn add_own(&mut self, file: &Path, design: &Design) {
        let name = file.display().to_string();
        self.on_files.push(name.clone());
        self.on
            .extend(check_only_windows(design).into_iter().map(|window| Found {
                file: name.clone(),
                window,
            }));
    }

    fn add_table(
        &mut self,
        args: &CheckArgs,
        file: &Path,
        table: WindowTable,
    ) -> Result<(), InputError> {
        let flights = table.flights();
        let asked = [&args.fit_flights, &args.on_flights, &args.except_flights];
        for flight in asked.into_iter().flatten() {
            if !flights.contains(&flight.as_str()) {
                return Err(InputError::NoSuchFlight {
                    file: file.to_owned(),
                    flight: flight.clone(),
                });
            }
        }
        let name = file.display().to_string();
        self.on_files.push(name.clone());
        if !args.fit_flights.is_empty() {
            self.fit_files.push(name.clone());
        }
        for window in table.windows {
            let own = |list: &[String]| list.contains(&window.flight);
            let fit = own(&args.fit_flights);
            let on = own(&args.on_flights) || (args.on_flights.is_empty() && !fit);
            if own(&args.except_flights) {
                continue;
            }
            let found = Found {
                file: name.clone(),
                window,
            };
            match (fit, on) {
                (true, true) => {
                    self.fit.push(ToFit::of(Found {
                        file: name.clone(),
                        window: found.window.clone(),
                    }));
                    self.on.push(found);
                }
                (true, false) => self.fit.push(ToFit::of(found)),
                (false, true) => self.on.push(found),
                (false, false) => {}
            }
        }
        Ok(())
    }

    /// Files that were read to fit on.
    #[must_use]
    pub fn read_for_fit(&self) -> String {
        self.fit_files.join(", ")
    }

    /// Files that were read to compare with.
    #[must_use]
    pub fn read_for_on(&self) -> String {
        self.on_files.join(", ")
    }
}

impl ToFit {
    fn of(found: Found) -> Self {
        Self {
            file: found.file,
            flight: found.window.flight.clone(),
            start_s: found.window.start_s,
            reading: Reading {
                log: found.window.flight,
                ..found.window.reading
            },
        }
    }
}

fn keep_strange(strange: &mut Vec<String>, map: &ColumnMap, table: &LogTable) {
    let strangers = column_map::strangers(map, table);
    strange.retain(|name| strangers.contains(&name.as_str()));
}

/// A log's columns and its sessions.
fn log(file: &Path, map: &ColumnMap) -> Result<(LogTable, Vec<Session>), InputError> {
    let refused = |error| InputError::Log {
        file: file.to_owned(),
        error,
    };
    let text = text(file)?;
    let mut reader = LogReader::of(text.clone(), Layout::of(&text)).map_err(refused)?;
    while reader.advance(RECORDS).map_err(refused)? {}
    let table = reader.finish().map_err(refused)?;
    let mut uses = guess(&table);
    column_map::recall(map, &table, &mut uses);
    let sessions = Session::all(&table, &uses, ROW_S);
    Ok((table, sessions))
}

/// The windows of a log: the page's steady stretches, or plain ones of a length.
fn windows(args: &CheckArgs, file: &Path, sessions: &[Session]) -> Vec<Found> {
    let mut found = Vec::new();
    for (place, session) in sessions.iter().enumerate() {
        let own = match args.window_s {
            Some(window_s) => plain_windows(session, window_s),
            None => stretches(session, &Criteria::default()),
        };
        let steady: Vec<_> = own
            .into_iter()
            .filter(|stretch| stretch.kind == Kind::Steady)
            .collect();
        let windows = windows_of(&flight(file, place, sessions.len()), session, &steady);
        found.extend(windows.into_iter().map(|window| Found {
            file: file.display().to_string(),
            window,
        }));
    }
    found
}

/// Name of a log's session.
fn flight(file: &Path, place: usize, sessions: usize) -> String {
    let name = file.file_stem().unwrap_or_default().to_string_lossy();
    if sessions > 1 {
        format!("{name} session {}", place + 1)
    } else {
        name.into_owned()
    }
}
