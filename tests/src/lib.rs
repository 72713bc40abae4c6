//! What the tests of this project share.

#[cfg(feature = "page-tests")]
pub mod browser;
pub mod table;
