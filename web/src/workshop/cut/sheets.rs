//! A drawing on sheets of paper: one, or as many tiles as it needs, with marks to join them.

use crate::workshop::cut::drawing::{Drawing, Point, at};
use crate::workshop::cut::svg;
use coolpath_core::language::tr;

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 210 × 297 mm.
    A4,
    /// 8½ × 11 in.
    Letter,
}

impl Paper {
    /// Both.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => tr("US Letter"),
        }
    }

    /// Class of a sheet, for the style sheet's page size.
    #[must_use]
    pub fn class(self) -> &'static str {
        match self {
            Self::A4 => "sheet sheet-a4",
            Self::Letter => "sheet sheet-letter",
        }
    }

    /// Frame of a tile, mm: the paper less 10 mm on each side and a line of text.
    #[must_use]
    pub fn frame(self) -> (f64, f64) {
        match self {
            Self::A4 => (190.0, 265.0),
            Self::Letter => (195.0, 247.0),
        }
    }
}

/// Strip that neighbouring tiles share, mm.
const OVERLAP: f64 = 10.0;
/// Room around the drawing, mm.
const MARGIN: f64 = 2.0;

/// One sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Tile {
    /// What stands above its frame.
    pub title: String,
    /// Its frame with what lies in it, as SVG of the frame's size.
    pub svg: String,
}

/// The sheets of a drawing.
#[must_use]
pub fn tiles(drawing: &Drawing, name: &str, paper: Paper) -> Vec<Tile> {
    let (low, high) = drawing.extent();
    let (wide, tall) = paper.frame();
    let corner = at(low.x - MARGIN, low.y - MARGIN);
    let count = |length: f64, frame: f64| {
        let length = length + 2.0 * MARGIN;
        if length <= frame {
            1
        } else {
            ((length - OVERLAP) / (frame - OVERLAP)).ceil() as usize
        }
    };
    let (columns, rows) = (count(high.x - low.x, wide), count(high.y - low.y, tall));
    let top = corner.y + (rows as f64) * (tall - OVERLAP) + OVERLAP;
    let mut list = Vec::with_capacity(columns * rows);
    for row in 0..rows {
        for column in 0..columns {
            let begin = at(
                corner.x + column as f64 * (wide - OVERLAP),
                top - tall - row as f64 * (tall - OVERLAP),
            );
            let number = row * columns + column + 1;
            let title = if columns * rows == 1 {
                tr!("{}. Print at 100 %.", name)
            } else {
                tr!(
                    "{}: sheet {} of {}, row {}, column {}. Print at 100 %; lay the dashed lines and \
                     crosses of neighbours on each other.",
                    name,
                    number,
                    columns * rows,
                    row + 1,
                    column + 1
                )
            };
            list.push(Tile {
                svg: tile(
                    drawing,
                    begin,
                    (wide, tall),
                    (column, columns),
                    (row, rows),
                    name,
                ),
                title,
            });
        }
    }
    list
}

fn tile(
    drawing: &Drawing,
    begin: Point,
    (wide, tall): (f64, f64),
    (column, columns): (usize, usize),
    (row, rows): (usize, usize),
    name: &str,
) -> String {
    let mut content = svg::elements(drawing, begin, tall);
    content.push_str(&format!(
        "<rect class=\"frame\" x=\"0\" y=\"0\" width=\"{wide}\" height=\"{tall}\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.15\"/>"
    ));
    // Joins lie in the middle of the shared strips.
    let half = 0.5 * OVERLAP;
    let mut uprights = Vec::new();
    let mut levels = Vec::new();
    if column > 0 {
        uprights.push(half);
    }
    if column + 1 < columns {
        uprights.push(wide - half);
    }
    if row > 0 {
        levels.push(half);
    }
    if row + 1 < rows {
        levels.push(tall - half);
    }
    let mut join = |path: String| {
        content.push_str(&format!(
            "<path d=\"{path}\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.15\" stroke-dasharray=\"3 2\"/>"
        ));
    };
    for x in &uprights {
        join(format!("M{x} 0V{tall}"));
        for y in [0.25 * tall, 0.75 * tall] {
            join(format!("M{} {y}H{}", x - 4.0, x + 4.0));
        }
    }
    for y in &levels {
        join(format!("M0 {y}H{wide}"));
        for x in [0.25 * wide, 0.75 * wide] {
            join(format!("M{x} {}V{}", y - 4.0, y + 4.0));
        }
    }
    svg::window(&content, wide, tall, name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::workshop::cut::drawing::Stroke;

    fn wide(mm: f64) -> Drawing {
        let mut drawing = Drawing::default();
        drawing.line(at(0.0, 0.0), at(mm, 0.0), Stroke::Full);
        drawing
    }

    #[test]
    fn a_small_drawing_takes_one_sheet_and_a_wide_one_as_many_as_it_needs() {
        for paper in Paper::ALL {
            let (frame, _) = paper.frame();
            assert_eq!(tiles(&wide(100.0), "small", paper).len(), 1);
            let list = tiles(&wide(508.0), "wide", paper);
            assert_eq!(list.len(), 3);
            let reached = 3.0 * (frame - OVERLAP) + OVERLAP;
            assert!(reached >= 508.0 + 2.0 * MARGIN);
            assert!(list[1].title.contains("sheet 2 of 3"));
            assert!(list[0].svg.contains(&format!("width=\"{frame:.3}mm\"")));
        }
    }

    #[test]
    fn neighbours_show_the_same_place_at_the_join() {
        let list = tiles(&wide(300.0), "two", Paper::A4);
        assert_eq!(list.len(), 2);
        // The line begins at 2 mm on the first sheet and 180 mm further left on the second.
        assert!(list[0].svg.contains("M2.000 "), "{}", list[0].svg);
        assert!(list[1].svg.contains("M-178.000 "), "{}", list[1].svg);
    }
}
