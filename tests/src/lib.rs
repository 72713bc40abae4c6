//! Evidence: reading the tables of `reference/`, reports beside predictions, an invented flight log, and a
//! page driver.

pub mod blocked_log;
pub mod choices;
pub mod designs;
pub mod faulty_log;
pub mod flight_log;
pub mod flight_page;
pub mod guide;
pub mod plain_halves;
pub mod plain_network;
pub mod probes;
pub mod random_design;
pub mod reports;
pub mod restless_flight;
pub mod rust_files;
#[cfg(feature = "page-tests")]
pub mod scratch;
pub mod table;
pub mod texts;

#[cfg(feature = "page-tests")]
pub mod browser;
