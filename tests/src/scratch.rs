//! Files of a test's own.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

/// A file that goes when this is dropped.
pub struct Scratch(PathBuf);

impl Scratch {
    /// Writes a file where no other test has one.
    ///
    /// # Arguments
    /// * `name` - end of its name
    /// * `content` - what it holds
    ///
    /// # Panics
    /// If the system's folder for passing files takes none.
    pub fn new(name: &str, content: &[u8]) -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let number = COUNT.fetch_add(1, Ordering::Relaxed);
        let own = format!("coolpath-{}-{number}-{name}", std::process::id());
        let path = std::env::temp_dir().join(own);
        std::fs::write(&path, content).expect("a temporary file");
        Self(path)
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        &self.0
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        let _ = std::fs::remove_file(&self.0);
    }
}
