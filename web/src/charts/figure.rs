//! A figure: a chart with its title, a sentence, the numbers as a table, and its source.

/// Space that a chart may take, CSS pixels.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Size {
    /// Width.
    pub width: u32,
    /// Height.
    pub height: u32,
}

impl Size {
    /// Smallest width and height at which axes and labels still fit.
    const LEAST: u32 = 160;

    /// A size that can be drawn, whatever the window says.
    #[must_use]
    pub fn drawable(self) -> Self {
        Self {
            width: self.width.max(2 * Self::LEAST),
            height: self.height.max(Self::LEAST),
        }
    }
}

/// A chart with all that belongs to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Title.
    pub title: String,
    /// What the chart says, in a sentence.
    pub sentence: String,
    /// The chart itself: the project's own markup.
    pub svg: String,
    /// Heads of the table's columns.
    pub columns: Vec<String>,
    /// Rows of the table.
    pub rows: Vec<Vec<String>>,
    /// Where the numbers come from.
    pub source: String,
}
