//! The program `coolpath`: builds the page, serves it and packs it for others, and answers from the
//! command line what the page answers.
//!
//! A build yields a folder of files for any static web server, and one file that works from a disk.

pub mod args;
pub mod batch;
pub mod bindings;
pub mod check;
pub mod compile;
pub mod design_file;
pub mod early;
pub mod folder;
pub mod guide;
pub mod install;
pub mod languages;
pub mod open;
pub mod origin;
pub mod page_build;
pub mod parts;
pub mod policy;
pub mod release;
pub mod remap;
pub mod request;
pub mod schema;
pub mod serve;
pub mod single_file;
pub mod size;
pub mod sources;
pub mod template;
pub mod wasm_target;
pub mod workspace;
