//! A figure: a chart with its title, a sentence, the numbers as a table, and its source.

/// Space that a chart may take, CSS pixels.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Size {
    /// Width.
    pub width: u32,
    /// Height.
    pub height: u32,
}

/// Width of a chart in a section of its own that fills a page of this width, all CSS pixels: none is
/// laid out wider than it is shown, which would make its text small.
#[must_use]
pub fn room(page: u32, most: u32) -> u32 {
    page.saturating_sub(frame(page)).min(most)
}

/// Width of a chart in one of two columns of equal width, and in the wider one of two.
///
/// # Arguments
/// * `aside` - width of the narrower column; `None` where both are alike
#[must_use]
pub fn column(page: u32, aside: Option<u32>, most: u32) -> u32 {
    if page < TWO_COLUMNS {
        return room(page, most);
    }
    let inside = page.saturating_sub(frame(page) + GAP);
    let width = aside.map_or(inside / 2, |aside| inside.saturating_sub(aside));
    width.min(most)
}

/// What a section's frame and a scroll bar take of the page's width, CSS pixels.
fn frame(page: u32) -> u32 {
    if page < WIDE { 21 } else { 54 }
}

/// From this width on sections have wide margins, CSS pixels.
const WIDE: u32 = 960 - 44;
/// Between two columns, CSS pixels.
const GAP: u32 = 28;
/// Pages narrower than this have one column, CSS pixels.
const TWO_COLUMNS: u32 = 1056 - 44;

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

/// Where the rows of a figure's table stand along its chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Readout {
    /// Left end of the plot, share of the chart's width [-].
    pub left: f64,
    /// Right end of the plot, share of the chart's width [-].
    pub right: f64,
    /// Values along the axis at both ends.
    pub ends: (f64, f64),
    /// Value along the axis of each row.
    pub along: Vec<f64>,
}

impl Readout {
    /// Readout of a plot between margins, CSS pixels, of a chart of this size.
    #[must_use]
    pub fn new(size: Size, margins: (u32, u32), ends: (f64, f64), along: Vec<f64>) -> Self {
        let width = f64::from(size.drawable().width);
        Self {
            left: f64::from(margins.0) / width,
            right: 1.0 - f64::from(margins.1) / width,
            ends,
            along,
        }
    }

    /// The row nearest to a share of the chart's width.
    #[must_use]
    pub fn row_at(&self, share: f64) -> Option<usize> {
        let (from, to) = self.ends;
        let value = from + (to - from) * (share - self.left) / (self.right - self.left);
        let distance = |at: &usize| (self.along[*at] - value).abs();
        (0..self.along.len()).min_by(|a, b| distance(a).total_cmp(&distance(b)))
    }

    /// Share of the chart's width at which a row stands.
    #[must_use]
    pub fn share_of(&self, row: usize) -> Option<f64> {
        let (from, to) = self.ends;
        let value = self.along.get(row)?;
        Some(self.left + (self.right - self.left) * (value - from) / (to - from))
    }
}

/// A chart with all that belongs to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Title: what the chart says.
    pub title: String,
    /// What the chart is of; its file is called so.
    pub topic: String,
    /// How it is read, in a sentence, where that is not plain.
    pub sentence: String,
    /// The chart itself: the project's own markup.
    pub svg: String,
    /// Heads of the table's columns.
    pub columns: Vec<String>,
    /// Rows of the table.
    pub rows: Vec<Vec<String>>,
    /// Where the numbers come from.
    pub source: String,
    /// Where the rows stand along the chart.
    pub readout: Readout,
}

impl Figure {
    /// What stands under the title: what the chart is of and how it is read.
    #[must_use]
    pub fn caption(&self) -> String {
        if self.sentence.is_empty() {
            format!("{}.", self.topic)
        } else {
            format!("{}. {}", self.topic, self.sentence)
        }
    }

    /// A row of the table in words, each cell under its column's name.
    #[must_use]
    pub fn row_text(&self, row: usize) -> Option<String> {
        let cells = self.rows.get(row)?;
        Some(
            self.columns
                .iter()
                .zip(cells)
                .map(|(column, cell)| format!("{column} {cell}"))
                .collect::<Vec<_>>()
                .join("; "),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_readout_finds_the_row_under_a_place_and_the_place_of_a_row() {
        let size = Size {
            width: 400,
            height: 200,
        };
        let readout = Readout::new(size, (60, 8), (0.0, 10.0), vec![0.0, 5.0, 10.0]);
        assert_eq!(readout.row_at(0.0), Some(0));
        assert_eq!(readout.row_at(1.0), Some(2));
        for row in 0..3 {
            let share = readout.share_of(row).expect("a row");
            assert_eq!(readout.row_at(share), Some(row));
        }
        assert_eq!(readout.share_of(3), None);
    }
}
