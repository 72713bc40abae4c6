//! Log import: the text of an engine monitor's file → columns → sessions → stretches → readings.
//!
//! Any text with one record a line is taken: [`encoding`] guesses how the bytes are to be decoded,
//! [`Layout::of`] finds separator, decimal sign and header, [`LogReader`] reads the records some at
//! a time, [`guess`] maps columns to quantities with a unit each, and [`Session`] cleans what the
//! probes gave and finds steady windows and climbs. Every guess can be overruled.

mod cells;
mod clean;
pub mod column_map;
mod column_unit;
mod columns;
mod layout;
mod number;
mod plain;
mod records;
mod sessions;
mod stretch_reading;
mod stretches;
mod table;
mod together;
mod whole;

pub use crate::prove::log::cells::Cells;
pub use crate::prove::log::clean::{Channel, Fate, SetAside, Why};
pub use crate::prove::log::columns::{ColumnUse, guess};
pub use crate::prove::log::layout::{Encoding, LOOKED_AT, Layout, Separator, encoding};
pub(crate) use crate::prove::log::number::number;
pub use crate::prove::log::plain::{PLAIN_DEGF_PER_MINUTE, plain_windows};
pub use crate::prove::log::sessions::Session;
pub use crate::prove::log::stretch_reading::SETTLED_OIL_DEGF_PER_MINUTE;
pub use crate::prove::log::stretches::{
    Criteria, Kind, MOMENT_S, STEADY_DEGF_PER_MINUTE, Stretch, stretches,
};
pub use crate::prove::log::table::{LogColumn, LogError, LogReader, LogTable};
pub use crate::prove::log::together::{Offer, Reason, offers};
pub use crate::prove::log::whole::{SHORTEST_S, whole_flight};
