//! What the browser lends: files, storage, window, short tasks.

pub mod files;
pub mod other_windows;
pub mod short_tasks;
pub mod storage;
pub mod window;
