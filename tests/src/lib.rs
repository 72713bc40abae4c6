//! Evidence: reading the tables of `reference/`, an invented flight log, and a page driver.

pub mod flight_log;
pub mod plain_network;
pub mod random_design;
#[cfg(feature = "page-tests")]
pub mod scratch;
pub mod table;

#[cfg(feature = "page-tests")]
pub mod browser;
