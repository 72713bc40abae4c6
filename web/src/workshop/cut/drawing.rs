//! A drawing: lines and texts in millimetres, y upward.

use coolpath_core::language::tr;

/// A point, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Rightward.
    pub x: f64,
    /// Upward.
    pub y: f64,
}

/// A point, mm.
#[must_use]
pub const fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stroke {
    /// Full: the first cut.
    Full,
    /// Dashed: likely.
    Dashed,
    /// Dotted: never beyond.
    Dotted,
    /// Full: a rib of a duct.
    Rib,
    /// Thin: marks and scales.
    Thin,
}

/// A part of a drawing.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// A line through points.
    Path {
        /// Its points, mm.
        points: Vec<Point>,
        /// Whether it returns to its first point.
        closed: bool,
        /// How it is drawn.
        stroke: Stroke,
    },
    /// A text that begins at a point.
    Text {
        /// Where its first letter stands, mm.
        at: Point,
        /// Height of its letters, mm.
        size: f64,
        /// The text.
        text: String,
    },
}

/// A drawing.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drawing {
    /// Its parts.
    pub items: Vec<Item>,
}

/// Width of a letter over its height, about (from memory).
const LETTER: f64 = 0.5;

/// A text in lines of so many letters at most, broken between words.
#[must_use]
pub fn wrapped(text: &str, letters: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + word.chars().count() < letters => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

impl Drawing {
    /// Adds an open line.
    pub fn line(&mut self, from: Point, to: Point, stroke: Stroke) {
        self.items.push(Item::Path {
            points: vec![from, to],
            closed: false,
            stroke,
        });
    }

    /// Adds a closed line.
    pub fn outline(&mut self, points: Vec<Point>, stroke: Stroke) {
        self.items.push(Item::Path {
            points,
            closed: true,
            stroke,
        });
    }

    /// Adds a text.
    pub fn text(&mut self, at: Point, size: f64, text: impl Into<String>) {
        self.items.push(Item::Text {
            at,
            size,
            text: text.into(),
        });
    }

    /// Adds texts below each other, each with the height of its letters, mm; gives back where a
    /// next one would stand.
    pub fn texts(&mut self, begin: Point, lines: impl IntoIterator<Item = (f64, String)>) -> Point {
        lines.into_iter().fold(begin, |place, (size, text)| {
            self.text(place, size, text);
            at(place.x, place.y - 1.6 * size)
        })
    }

    /// Adds a sentence above all that is drawn, in lines of so many letters at most.
    pub fn headed(&mut self, sentence: &str, letters: usize) {
        const SIZE: f64 = 3.5;
        let lines = wrapped(sentence, letters);
        let (low, high) = self.extent();
        let top = high.y + 4.0 + 1.6 * SIZE * lines.len() as f64;
        self.texts(at(low.x, top), lines.into_iter().map(|line| (SIZE, line)));
    }

    /// Lower left and upper right corner of all that is drawn, mm.
    #[must_use]
    pub fn extent(&self) -> (Point, Point) {
        let mut low = at(f64::INFINITY, f64::INFINITY);
        let mut high = at(f64::NEG_INFINITY, f64::NEG_INFINITY);
        let mut take = |point: Point| {
            low = at(low.x.min(point.x), low.y.min(point.y));
            high = at(high.x.max(point.x), high.y.max(point.y));
        };
        for item in &self.items {
            match item {
                Item::Path { points, .. } => points.iter().copied().for_each(&mut take),
                Item::Text {
                    at: begin,
                    size,
                    text,
                } => {
                    take(*begin);
                    let wide = LETTER * size * text.chars().count() as f64;
                    take(at(begin.x + wide, begin.y + size));
                }
            }
        }
        if low.x > high.x {
            return (at(0.0, 0.0), at(0.0, 0.0));
        }
        (low, high)
    }

    /// The drawing with its lines mirrored left to right; texts stay readable.
    #[must_use]
    pub fn flipped(&self) -> Self {
        let flip = |item: &Item| match item {
            Item::Path {
                points,
                closed,
                stroke,
            } => Item::Path {
                points: points.iter().map(|point| at(-point.x, point.y)).collect(),
                closed: *closed,
                stroke: *stroke,
            },
            text => text.clone(),
        };
        Self {
            items: self.items.iter().map(flip).collect(),
        }
    }

    /// Adds check scales of 1 in and 20 mm, one above the other.
    pub fn check_scales(&mut self, begin: Point) {
        for (row, (length, name)) in [(25.4, tr("1 in")), (20.0, tr("20 mm"))]
            .into_iter()
            .enumerate()
        {
            let y = begin.y - 7.0 * row as f64;
            let (from, to) = (at(begin.x, y), at(begin.x + length, y));
            self.line(from, to, Stroke::Thin);
            for end in [from, to] {
                self.line(at(end.x, y - 1.5), at(end.x, y + 1.5), Stroke::Thin);
            }
            self.text(
                at(to.x + 2.0, y - 1.2),
                3.0,
                tr!("{}: measure it before you cut", name),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::workshop::cut::{dxf, svg};

    #[test]
    fn a_sentence_stands_above_the_drawing_in_every_form_of_it() {
        let mut drawing = Drawing::default();
        drawing.line(at(0.0, 0.0), at(100.0, 50.0), Stroke::Full);
        let sentence =
            "Not what was typed: the last valid value was used in place of Exit gap “wide”.";
        drawing.headed(sentence, 40);
        let texts: Vec<&str> = drawing
            .items
            .iter()
            .filter_map(|item| match item {
                Item::Text { at, text, .. } => {
                    assert!(at.y > 50.0);
                    Some(text.as_str())
                }
                Item::Path { .. } => None,
            })
            .collect();
        assert_eq!(texts.join(" "), sentence);
        assert!(texts.iter().all(|line| line.chars().count() <= 40));
        assert!(svg::file(&drawing, "x").contains("Not what was typed"));
        assert!(dxf::file(&drawing).contains("Not what was typed"));
    }
}
