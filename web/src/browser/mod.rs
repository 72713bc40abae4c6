//! What the browser lends: files, storage, window, long jobs.

pub mod clipboard;
pub mod copying;
pub mod files;
pub mod job;
pub mod language;
pub mod other_windows;
pub mod picture;
pub mod popovers;
pub mod sending;
pub mod storage;
pub mod window;
