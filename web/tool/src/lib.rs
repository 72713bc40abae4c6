//! Builds the Coolpath page and serves it; checks designs on flights.
//!
//! A build yields a folder of files for any static web server, and one file that works from a disk.

pub mod args;
pub mod bindings;
pub mod check;
pub mod compile;
pub mod folder;
pub mod install;
pub mod open;
pub mod page_build;
pub mod policy;
pub mod request;
pub mod serve;
pub mod single_file;
pub mod size;
pub mod sources;
pub mod template;
pub mod wasm_target;
pub mod workspace;
