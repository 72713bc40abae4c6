//! Windows, stretches and the design of `reference/flights`.

use crate::table::text::reference_text;
use coolpath_core::document::design::Design;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::Reading;
use coolpath_core::prove::flights::{Window, WindowTable, windows_of};
use coolpath_core::prove::log::column_map::ColumnMap;
use coolpath_core::prove::log::{
    Criteria, Kind, Layout, LogReader, Session, Stretch, guess, stretches,
};
use std::sync::Arc;

/// Flights in which a cylinder was sick.
pub const SICK: [&str; 2] = ["F06", "F08"];
/// The flight that is fitted to first.
pub const FITTED: &str = "F01";
/// Name of the windows about a step of fuel in it.
pub const STEP: &str = "F01 step";

/// Records read in one go.
const RECORDS: usize = 10_000;

/// What the pages are made of.
#[derive(Debug, Clone)]
pub struct Flights {
    /// The design to begin with.
    pub design: Design,
    /// Steady windows of all flights; oil that was doubted is taken out.
    pub windows: Vec<Window>,
    /// Steady stretches, climbs and descents of one whole flight, [`FITTED`].
    pub whole: Vec<Reading>,
    /// Two windows of it, before and after a step of fuel.
    pub step: Vec<Window>,
}

fn text(name: &str) -> String {
    reference_text(&format!("flights/{name}"))
}

fn table(name: &str) -> Vec<Window> {
    let table = WindowTable::read(&text(name), &ColumnMap::new());
    let mut windows = match table {
        Ok(table) => table.windows,
        Err(error) => panic!("{name}: {error}"),
    };
    windows.iter_mut().for_each(without_doubtful_oil);
    windows
}

impl Flights {
    /// Reads the files.
    ///
    /// # Panics
    /// If one cannot be read.
    #[must_use]
    pub fn read() -> Self {
        let json = |name: &str, error: serde_json::Error| -> ! { panic!("{name}: {error}") };
        let (design, whole) = ("six_310hp_design.json", "f01_stretches.json");
        Self {
            design: serde_json::from_str(&text(design)).unwrap_or_else(|error| json(design, error)),
            windows: table("steady_windows.csv"),
            whole: serde_json::from_str(&text(whole)).unwrap_or_else(|error| json(whole, error)),
            step: table("fuel_step.csv"),
        }
    }

    /// Windows of some flights.
    #[must_use]
    pub fn of(&self, flights: &[&str]) -> Vec<Window> {
        let own = self.windows.iter();
        own.filter(|window| flights.contains(&window.flight.as_str()))
            .cloned()
            .collect()
    }

    /// Every window, and after them the two about the step of fuel.
    #[must_use]
    pub fn all(&self) -> Vec<Window> {
        let own = self.windows.iter().chain(&self.step);
        own.cloned().collect()
    }

    /// Windows of all healthy flights but some.
    #[must_use]
    pub fn healthy_but(&self, left_out: &[&str]) -> Vec<Window> {
        let own = self.windows.iter();
        own.filter(|window| {
            let flight = window.flight.as_str();
            !SICK.contains(&flight) && !left_out.contains(&flight)
        })
        .cloned()
        .collect()
    }

    /// Names of the healthy flights, in their order.
    #[must_use]
    pub fn healthy(&self) -> Vec<&str> {
        let own = self.windows.iter().map(|window| window.flight.as_str());
        let mut names: Vec<&str> = own.filter(|flight| !SICK.contains(flight)).collect();
        names.dedup();
        names
    }
}

/// Whether a window is of a healthy flight that the first fit did not see.
#[must_use]
pub fn is_other(window: &Window) -> bool {
    let flight = window.flight.as_str();
    ![FITTED, STEP].contains(&flight) && !SICK.contains(&flight)
}

/// Takes the oil out of a window whose oil sensor was doubted.
fn without_doubtful_oil(window: &mut Window) {
    if window.note.contains("oil sensor") {
        for moment in Arc::make_mut(&mut window.reading.moments) {
            moment.values.remove(&Quantity::Oil);
        }
    }
}

/// The readings of windows.
#[must_use]
pub fn readings(windows: &[Window]) -> Vec<Reading> {
    let own = windows.iter();
    own.map(|window| window.reading.clone()).collect()
}

/// What `coolpath check --fit` takes from a log: its steady stretches, climbs and descents, each value
/// rounded to six digits.
///
/// # Panics
/// If the text is no log.
#[must_use]
pub fn stretches_of(log: &str) -> Vec<Reading> {
    let mut found = Vec::new();
    for session in sessions(log) {
        let all = stretches(&session, &Criteria::default());
        let (steady, moving): (Vec<Stretch>, Vec<Stretch>) =
            all.into_iter().partition(|own| own.kind == Kind::Steady);
        let windows = windows_of("", &session, &steady);
        found.extend(windows.into_iter().map(|window| window.reading));
        let moving = moving.iter().filter(|own| own.kind.is_moving());
        found.extend(moving.map(|own| own.reading(&session, &own.label())));
    }
    found.iter_mut().for_each(rounded);
    found
}

fn sessions(log: &str) -> Vec<Session> {
    let read = || {
        let mut reader = LogReader::of(log.to_owned(), Layout::of(log))?;
        while reader.advance(RECORDS)? {}
        reader.finish()
    };
    match read() {
        Ok(table) => Session::all(&table, &guess(&table), 1.0),
        Err(error) => panic!("{error}"),
    }
}

fn rounded(reading: &mut Reading) {
    for moment in Arc::make_mut(&mut reading.moments) {
        for value in moment.values.values_mut() {
            let text = format!("{value:.5e}");
            *value = text.parse().unwrap_or(*value);
        }
    }
}
