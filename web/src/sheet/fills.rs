//! Fills of cut metal and of the cooler's core.

use super::ink::Ink;

fn hatched(ink: &Ink, pattern: &str) -> String {
    // One prefix for the whole drawing; its last letter tells the view.
    let stem = &ink.id[..ink.id.len().saturating_sub(1)];
    format!(" style=\"fill:url(#{stem}{pattern})\"")
}

/// Fill of cut metal.
#[must_use]
pub fn cut_fill(ink: &Ink) -> String {
    hatched(ink, "h")
}

/// Fill of the cooler's core.
#[must_use]
pub fn core_fill(ink: &Ink) -> String {
    hatched(ink, "x")
}
