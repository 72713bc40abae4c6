//! Names within a plot, put where nothing is covered.

use crate::charts::canvas::{Role, font, px};
use crate::charts::line_ends;
use plotters::coord::Shift;
use plotters::prelude::*;
use std::ops::Range;

/// A place in pixels of the drawing.
pub type Pixel = (i32, i32);

/// What a line weighs against a name that it would cross.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// A line among others.
    Fine,
    /// A limit: four times as much.
    Limit,
}

/// Lines and names of a plot so far.
pub struct FreeLabels {
    along: Range<i32>,
    up: Range<i32>,
    pieces: Vec<(Weight, [Pixel; 2])>,
    taken: Vec<(Pixel, Pixel)>,
}

/// Height of a name, pixels of the drawing.
pub fn tall() -> i32 {
    px(line_ends::TEXT_PX + 3) as i32
}

/// What a name that is covered weighs: more than any lines.
const COVERED: usize = 1000;

impl FreeLabels {
    /// A plot without anything.
    pub fn new(along: Range<i32>, up: Range<i32>) -> Self {
        Self {
            along,
            up,
            pieces: Vec::new(),
            taken: Vec::new(),
        }
    }

    /// Adds a line's pieces.
    pub fn add_line(&mut self, weight: Weight, pieces: &[[Pixel; 2]]) {
        self.pieces
            .extend(pieces.iter().map(|piece| (weight, *piece)));
    }

    /// Keeps names away from a mark.
    pub fn add_mark(&mut self, (x, y): Pixel) {
        let half = px(8) as i32;
        self.taken
            .push(((x - half, y - half), (2 * half, 2 * half)));
    }

    /// Whether a name lies inside the plot.
    fn is_inside(&self, (x, y): Pixel, wide: i32) -> bool {
        x >= self.along.start
            && x + wide <= self.along.end
            && y >= self.up.start
            && y + tall() <= self.up.end
    }

    /// What a name there would cover.
    fn covered(&self, (left, top): Pixel, wide: i32) -> usize {
        let inside = |(x, y): (f64, f64)| {
            x > f64::from(left)
                && x < f64::from(left + wide)
                && y > f64::from(top)
                && y < f64::from(top + tall())
        };
        let passes = |[a, b]: &[Pixel; 2]| {
            // Most pieces lie wholly beside it.
            let may_pass = a.0.max(b.0) > left
                && a.0.min(b.0) < left + wide
                && a.1.max(b.1) > top
                && a.1.min(b.1) < top + tall();
            may_pass
                && (0..=8).any(|at| {
                    let share = f64::from(at) / 8.0;
                    let between =
                        |from: i32, to: i32| f64::from(from) + share * f64::from(to - from);
                    inside((between(a.0, b.0), between(a.1, b.1)))
                })
        };
        let lines: usize = self
            .pieces
            .iter()
            .filter(|(_, piece)| passes(piece))
            .map(|(weight, _)| match weight {
                Weight::Fine => 1,
                Weight::Limit => 4,
            })
            .sum();
        let names = self.taken.iter().filter(|((x, y), (w, h))| {
            left < x + w && *x < left + wide && top < y + h && *y < top + tall()
        });
        lines + COVERED * names.count()
    }

    /// Of some upper left corners the one within the plot that covers least, and what it covers.
    fn best(&self, corners: impl Iterator<Item = Pixel>, wide: i32) -> Option<(Pixel, usize)> {
        corners
            .filter(|corner| self.is_inside(*corner, wide))
            .map(|corner| (corner, self.covered(corner, wide)))
            .min_by_key(|(_, covered)| *covered)
    }

    /// Takes a place for a name beside a mark: the best of six.
    pub fn beside(&mut self, text: &str, mark: Pixel) -> Pixel {
        let wide = line_ends::wide(text) as i32;
        let (gap, tall) = (px(9) as i32, tall());
        let (left, right) = (mark.0 - gap - wide, mark.0 + gap);
        let (over, under, level) = (mark.1 - gap - tall, mark.1 + gap, mark.1 - tall / 2);
        let center = mark.0 - wide / 2;
        let corners = [
            (right, level),
            (left, level),
            (center, over),
            (center, under),
            (right, over),
            (left, under),
        ];
        let corner = self
            .best(corners.into_iter(), wide)
            .map_or((right, level), |(corner, _)| corner);
        self.taken.push((corner, (wide, tall)));
        corner
    }

    /// Takes a place for a line's name on a gap in the line itself; `None` where it would cover another
    /// name or does not fit, unless it must stand.
    pub fn on_line(
        &mut self,
        text: &str,
        pieces: &[[Pixel; 2]],
        must_stand: bool,
    ) -> Option<Pixel> {
        let wide = line_ends::wide(text) as i32;
        let corners = pieces
            .iter()
            .map(|piece| (piece[0].0 - wide / 2, piece[0].1 - tall() / 2));
        let found = match self.best(corners.clone(), wide) {
            Some((corner, covered)) if covered < COVERED || must_stand => corner,
            None if must_stand => {
                let middle = corners.clone().nth(pieces.len() / 2)?;
                let kept = |at: i32, from: i32, to: i32| at.min(to).max(from);
                (
                    kept(middle.0, self.along.start, self.along.end - wide),
                    kept(middle.1, self.up.start, self.up.end - tall()),
                )
            }
            _ => return None,
        };
        self.taken.push((found, (wide, tall())));
        Some(found)
    }

    /// Takes a place for a region's name where no corner of it leaves the region and nothing is covered.
    pub fn in_region(&mut self, text: &str, is_in: impl Fn(Pixel) -> bool) -> Option<Pixel> {
        let wide = line_ends::wide(text) as i32;
        let (step, tall) = (px(12), tall());
        let columns = self.along.clone().step_by(step as usize);
        let rows = || self.up.clone().step_by(step as usize);
        let corners = columns.flat_map(|x| rows().map(move |y| (x, y)));
        let fits = |(x, y): &Pixel| {
            [
                (*x, *y),
                (x + wide, *y),
                (*x, y + tall),
                (x + wide, y + tall),
            ]
            .into_iter()
            .all(&is_in)
        };
        let inside: Vec<Pixel> = corners.filter(fits).collect();
        // Well inside: of what covers least the place nearest to the middle of all.
        let count = i32::try_from(inside.len())
            .ok()
            .filter(|count| *count > 0)?;
        let middle = |of: fn(&Pixel) -> i32| inside.iter().map(of).sum::<i32>() / count;
        let (x, y) = (middle(|corner| corner.0), middle(|corner| corner.1));
        let (corner, covered) = inside
            .iter()
            .filter(|corner| self.is_inside(**corner, wide))
            .map(|corner| (*corner, self.covered(*corner, wide)))
            .min_by_key(|(corner, covered)| {
                (*covered, (corner.0 - x).abs() + (corner.1 - y).abs())
            })?;
        // Fine lines may pass behind a region's name, but neither a limit nor another name.
        if covered >= 4 {
            return None;
        }
        self.taken.push((corner, (wide, tall)));
        Some(corner)
    }
}

/// A name on a ground of its own, so that no line strikes it through.
///
/// # Errors
/// What plotters says.
pub fn named(
    surface: &DrawingArea<SVGBackend<'_>, Shift>,
    text: &str,
    (x, y): Pixel,
    colour: RGBColor,
) -> Result<(), Box<dyn std::error::Error>> {
    let wide = line_ends::wide(text) as i32;
    surface.draw(&Rectangle::new(
        [(x, y), (x + wide, y + tall())],
        Role::Ground.colour().mix(0.8).filled(),
    ))?;
    let style = font(line_ends::TEXT_PX).color(&colour);
    surface.draw(&Text::new(text.to_owned(), (x, y + px(1) as i32), style))?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plot() -> FreeLabels {
        FreeLabels::new(0..4000, 0..2000)
    }

    #[test]
    fn a_name_takes_the_place_that_the_fewest_lines_cross() {
        let mark = (2000, 1000);
        assert_eq!(plot().beside("a name", mark).0, 2000 + px(9) as i32);
        // A line to the right of the mark pushes the name to its left.
        let many: Vec<[Pixel; 2]> = (0..40)
            .map(|y| [(2100, 50 * y), (2100, 50 * y + 50)])
            .collect();
        let mut crowded = plot();
        crowded.add_line(Weight::Fine, &many);
        assert!(crowded.beside("a name", mark).0 < 2000);
        let line = [[(2060, 930), (2300, 930)]];
        let weighed = |weight| {
            let mut plot = plot();
            plot.add_line(weight, &line);
            plot.covered((2050, 900), 300)
        };
        assert_eq!((weighed(Weight::Fine), weighed(Weight::Limit)), (1, 4));
        // At the right edge there is room on the left only.
        assert!(plot().beside("a name", (3990, 1000)).0 < 3990);
    }

    #[test]
    fn no_name_covers_another_and_a_limit_is_named_in_any_case() {
        let mut labels = plot();
        let first = labels.beside("you are here", (2000, 1000));
        let second = labels.beside("proposed", (2040, 1000));
        let wide = |text| line_ends::wide(text) as i32;
        assert!(
            (first.1 - second.1).abs() >= tall()
                || first.0 + wide("you are here") <= second.0
                || second.0 + wide("proposed") <= first.0
        );
        let pieces = [[(2100, 1000), (2200, 1000)]];
        assert_eq!(labels.on_line("420 °F", &pieces, false), None);
        assert!(labels.on_line("CHT limit", &pieces, true).is_some());
        assert_eq!(labels.in_region("holds", |(x, _)| x < 40), None);
        assert!(labels.in_region("holds", |(x, _)| x < 1500).is_some());
    }
}
