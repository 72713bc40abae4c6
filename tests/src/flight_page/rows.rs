//! Rows of a table of predictions.

use coolpath_core::prove::flights::{Checked, Figure, Judged, Window, summary};
use coolpath_core::units::si::deltaf;
use std::fmt::{Result, Write};

/// How predictions compare, °F; none where nothing was read.
#[derive(Debug, Clone, Copy)]
pub struct InDegf {
    /// Windows in which it was read.
    pub count: usize,
    /// Mean of predicted minus measured.
    pub bias: f64,
    /// Root mean square of it.
    pub rms: f64,
    /// Windows whose band holds what was measured.
    pub held: usize,
}

/// How a figure compares over some windows.
pub fn in_degf<'a>(judged: impl IntoIterator<Item = &'a Judged>, figure: Figure) -> Option<InDegf> {
    let found = summary(judged, figure)?;
    Some(InDegf {
        count: found.count,
        bias: found.bias / deltaf(1.0),
        rms: found.rms / deltaf(1.0),
        held: (found.inside_share * found.count as f64).round() as usize,
    })
}

/// Head of a table of predictions.
///
/// # Errors
/// None: a text takes anything.
pub fn head(text: &mut String, first: &str) -> Result {
    writeln!(
        text,
        "| {first} | what | windows | bias | rms | held | refused |"
    )?;
    writeln!(text, "|---|---|---|---|---|---|---|")
}

/// Three rows of what a check found of some windows.
///
/// # Errors
/// None: a text takes anything.
pub fn rows(text: &mut String, title: &str, found: &Checked, windows: &[Window]) -> Result {
    rows_of(
        text,
        title,
        &found.judged,
        windows.len() - found.judged.len(),
    )
}

/// Three rows of some predictions.
///
/// # Errors
/// None: a text takes anything.
pub fn rows_of<'a>(
    text: &mut String,
    title: &str,
    judged: impl IntoIterator<Item = &'a Judged> + Clone,
    refused: usize,
) -> Result {
    for figure in Figure::MAIN {
        match in_degf(judged.clone(), figure) {
            None => writeln!(
                text,
                "| {title} | {} | 0 | | | | {refused} |",
                figure.name()
            )?,
            Some(found) => writeln!(
                text,
                "| {title} | {} | {} | {:+.1} | {:.1} | {} | {refused} |",
                figure.name(),
                found.count,
                found.bias,
                found.rms,
                found.held
            )?,
        }
    }
    Ok(())
}
