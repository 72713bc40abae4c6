//! Contour of the hottest head over inlet and exit area, with the limit and two points.

use crate::charts::canvas::{Role, axes, drawn, font, px};
use crate::charts::figure::{Figure, Readout, Size};
use crate::charts::line_ends;
use coolpath_core::units::typed::{Chosen, Dimension, UnitSystem, rounded_text};
use plotters::coord::Shift;
use plotters::prelude::*;
use std::ops::Range;

/// Hottest heads over a grid of areas, SI.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Grid {
    /// Inlet areas, m².
    pub inlets_m2: Vec<f64>,
    /// Exit areas, m².
    pub exits_m2: Vec<f64>,
    /// Heads, K, one row per inlet area; `None` where a condition has no answer.
    pub heads_k: Vec<Vec<Option<f64>>>,
}

/// A point to mark: inlet and exit area, m².
pub type Point = (f64, f64);

/// Pieces of the line on which a grid has a level, as pairs of (inlet, exit).
#[must_use]
pub fn level_lines(grid: &Grid, level_k: f64) -> Vec<[Point; 2]> {
    let mut pieces = Vec::new();
    for row in 0..grid.inlets_m2.len().saturating_sub(1) {
        for column in 0..grid.exits_m2.len().saturating_sub(1) {
            let corner = |r: usize, c: usize| {
                let head = grid
                    .heads_k
                    .get(row + r)?
                    .get(column + c)
                    .copied()
                    .flatten()?;
                Some((
                    (grid.inlets_m2[row + r], grid.exits_m2[column + c]),
                    head - level_k,
                ))
            };
            let (Some(a), Some(b), Some(c), Some(d)) =
                (corner(0, 0), corner(0, 1), corner(1, 1), corner(1, 0))
            else {
                continue;
            };
            let crossings: Vec<Point> = [(a, b), (b, c), (c, d), (d, a)]
                .into_iter()
                .filter(|(from, to)| (from.1 < 0.0) != (to.1 < 0.0))
                .map(|(from, to)| {
                    let share = from.1 / (from.1 - to.1);
                    (
                        from.0.0 + share * (to.0.0 - from.0.0),
                        from.0.1 + share * (to.0.1 - from.0.1),
                    )
                })
                .collect();
            for pair in crossings.chunks_exact(2) {
                pieces.push([pair[0], pair[1]]);
            }
        }
    }
    pieces
}

/// What a contour is drawn of.
struct Picture<'a> {
    grid: &'a Grid,
    limit_k: f64,
    present: Point,
    proposed: Option<Point>,
    frame: (f64, f64, f64, f64),
    system: UnitSystem,
}

/// A line of equal heads: its name, its colour, its pieces in pixels of the drawing.
struct Level {
    name: String,
    role: Role,
    pieces: Vec<[(i32, i32); 2]>,
}

impl Picture<'_> {
    /// Levels by round temperatures, the limit last.
    fn levels(&self, place: impl Fn(&Point) -> (i32, i32)) -> Vec<Level> {
        let temperature = Dimension::Temperature.shown(self.system);
        let step = if self.system.is_customary(Chosen::Temperature) {
            20.0
        } else {
            10.0
        };
        let limit = temperature.from_si(self.limit_k);
        let round = (-6..=10).map(|n| (limit / step).round() * step + step * f64::from(n));
        // A line beside the limit's says nothing more, and their names would touch.
        let round = round.filter(|level| (level - limit).abs() > 0.3 * step);
        let of = |name: String, kelvin: f64, role: Role| Level {
            name,
            role,
            pieces: level_lines(self.grid, kelvin)
                .iter()
                .map(|[a, b]| [place(a), place(b)])
                .collect(),
        };
        round
            .map(|level| {
                let name = rounded_text(level, 3);
                of(name, temperature.to_si(level), Role::Second)
            })
            .chain(std::iter::once(of(
                limit_name(limit, temperature.symbol),
                self.limit_k,
                Role::Limit,
            )))
            .filter(|level| !level.pieces.is_empty())
            .collect()
    }
}

impl Level {
    /// Upper left corner of its name on a gap in itself, where it leaves through the top or the bottom
    /// and has room for one inside the plot.
    fn gap(&self, (along, up): (&Range<i32>, &Range<i32>)) -> Option<(i32, i32)> {
        let wide = line_ends::wide(&self.name) as i32;
        let middle = self.pieces.get(self.pieces.len() / 2)?[0];
        let corner = (middle.0 - wide / 2, middle.1 - tall() / 2);
        if self.role == Role::Limit {
            // It is named in any case.
            let kept = |at: i32, from: i32, to: i32| at.min(to).max(from);
            return Some((
                kept(corner.0, along.start, along.end - wide),
                kept(corner.1, up.start, up.end - tall()),
            ));
        }
        let inside = corner.0 >= along.start
            && corner.0 + wide <= along.end
            && corner.1 >= up.start
            && corner.1 + tall() <= up.end;
        inside.then_some(corner)
    }
}

fn limit_name(limit: f64, symbol: &str) -> String {
    format!("{limit:.0} {symbol} limit")
}

/// Height of a letter of the labels, pixels of the drawing.
fn tall() -> i32 {
    px(line_ends::TEXT_PX + 3) as i32
}

/// How many pieces pass through a box, those of the limit counting four times.
fn crossed(levels: &[Level], (left, top): (i32, i32), (wide, tall): (i32, i32)) -> usize {
    let inside = |(x, y): (f64, f64)| {
        x > f64::from(left)
            && x < f64::from(left + wide)
            && y > f64::from(top)
            && y < f64::from(top + tall)
    };
    let passes = |[a, b]: &[(i32, i32); 2]| {
        (0..=8).any(|at| {
            let share = f64::from(at) / 8.0;
            let between = |from: i32, to: i32| f64::from(from) + share * f64::from(to - from);
            inside((between(a.0, b.0), between(a.1, b.1)))
        })
    };
    levels
        .iter()
        .map(|level| {
            let weight = if level.role == Role::Limit { 4 } else { 1 };
            weight * level.pieces.iter().filter(|piece| passes(piece)).count()
        })
        .sum()
}

/// Upper left corner of a name beside a mark: of six places inside the plot the one that the fewest
/// lines cross.
fn free_place(
    levels: &[Level],
    mark: (i32, i32),
    wide: i32,
    (along, up): (&Range<i32>, &Range<i32>),
) -> (i32, i32) {
    let (gap, tall) = (px(9) as i32, tall());
    let (left, right) = (mark.0 - gap - wide, mark.0 + gap);
    let (over, under, level) = (mark.1 - gap - tall, mark.1 + gap, mark.1 - tall / 2);
    let center = mark.0 - wide / 2;
    [
        (right, level),
        (left, level),
        (center, over),
        (center, under),
        (right, over),
        (left, under),
    ]
    .into_iter()
    .filter(|(x, y)| {
        *x >= along.start && x + wide <= along.end && *y >= up.start && y + tall <= up.end
    })
    .min_by_key(|corner| crossed(levels, *corner, (wide, tall)))
    .unwrap_or((right, level))
}

/// Lines of equal heads, the limit's thicker, and the two points by name.
fn drawing(picture: &Picture, size: Size) -> String {
    let area = Dimension::Area.shown(picture.system);
    let temperature = Dimension::Temperature.shown(picture.system);
    let (left, right, bottom, top) = picture.frame;
    let limit = limit_name(temperature.from_si(picture.limit_k), temperature.symbol);
    let aside = line_ends::room(&[limit.as_str()]);
    drawn(size, "Hottest head over inlet and exit area", |surface| {
        let mut chart = ChartBuilder::on(surface)
            .margin(px(8))
            .margin_right(px(8 + aside))
            .x_label_area_size(px(46))
            .y_label_area_size(px(62))
            .build_cartesian_2d(left..right, bottom..top)?;
        axes(
            &mut chart,
            &format!("all inlets, {}", area.symbol),
            &format!("exit, net, {}", area.symbol),
            3,
        )?;
        let (along, up) = chart.plotting_area().get_pixel_range();
        let place =
            |point: &Point| chart.backend_coord(&(area.from_si(point.0), area.from_si(point.1)));
        let levels = picture.levels(place);
        let mut ends = Vec::new();
        for level in &levels {
            let width = if level.role == Role::Limit { 3 } else { 1 };
            let style = level.role.colour().stroke_width(px(width));
            for piece in &level.pieces {
                surface.draw(&PathElement::new(piece.to_vec(), style))?;
            }
            let all = level.pieces.iter().flatten();
            let end = all.max_by_key(|point| point.0).copied().unwrap_or_default();
            let colour = if level.role == Role::Limit {
                Role::Limit.colour()
            } else {
                Role::Ink.colour()
            };
            if end.0 >= along.end - px(3) as i32 {
                ends.push((level.name.as_str(), colour, end.1));
            } else if let Some(corner) = level.gap((&along, &up)) {
                named(surface, &level.name, corner, colour)?;
            }
        }
        line_ends::draw(surface, &ends, (along.end, up.start, up.end))?;
        let ink = Role::Ink.colour();
        let label = |text: &str, mark: (i32, i32)| {
            let wide = line_ends::wide(text) as i32;
            named(
                surface,
                text,
                free_place(&levels, mark, wide, (&along, &up)),
                ink,
            )
        };
        let here = place(&picture.present);
        if let Some(point) = &picture.proposed {
            let mark = place(point);
            surface.draw(&PathElement::new(
                vec![here, mark],
                Role::Ink.dashed().stroke_width(px(1)),
            ))?;
            label("proposed", mark)?;
            surface.draw(&TriangleMarker::new(
                mark,
                px(8),
                Role::First.colour().filled(),
            ))?;
        }
        label("you are here", here)?;
        surface.draw(&Circle::new(here, px(5), Role::Ground.colour().filled()))?;
        surface.draw(&Circle::new(here, px(5), ink.stroke_width(px(2))))?;
        Ok(())
    })
}

/// A name on a ground of its own, so that no line strikes it through.
fn named(
    surface: &DrawingArea<SVGBackend<'_>, Shift>,
    text: &str,
    (x, y): (i32, i32),
    colour: RGBColor,
) -> Result<(), Box<dyn std::error::Error>> {
    let wide = line_ends::wide(text) as i32;
    surface.draw(&Rectangle::new(
        [(x, y), (x + wide, y + tall())],
        Role::Ground.colour().mix(0.9).filled(),
    ))?;
    let style = font(line_ends::TEXT_PX).color(&colour);
    surface.draw(&Text::new(text.to_owned(), (x, y + px(1) as i32), style))?;
    Ok(())
}

/// Where the heads hold.
fn answer(grid: &Grid, limit_k: f64) -> &'static str {
    let mut heads = grid.heads_k.iter().flatten().flatten();
    if !level_lines(grid, limit_k).is_empty() {
        "Above and to the right of the thick line the heads hold"
    } else if heads.any(|head| *head <= limit_k) {
        "Every size of this chart holds the heads"
    } else {
        "No size of this chart holds the heads"
    }
}

/// The contour as a figure.
#[must_use]
pub fn figure(
    grid: &Grid,
    limit_k: f64,
    present: Point,
    proposed: Option<Point>,
    system: UnitSystem,
    size: Size,
) -> Figure {
    let area = Dimension::Area.shown(system);
    let temperature = Dimension::Temperature.shown(system);
    let ends = |list: &[f64]| {
        let first = list.first().map_or(0.0, |m2| area.from_si(*m2));
        let last = list.last().map_or(1.0, |m2| area.from_si(*m2));
        if first < last {
            (first, last)
        } else {
            (first - 1.0, first + 1.0)
        }
    };
    let (left, right) = ends(&grid.inlets_m2);
    let (bottom, top) = ends(&grid.exits_m2);
    let limit = temperature.from_si(limit_k);
    let picture = Picture {
        grid,
        limit_k,
        present,
        proposed,
        frame: (left, right, bottom, top),
        system,
    };
    let svg = drawing(&picture, size);
    let aside = line_ends::room(&[limit_name(limit, temperature.symbol).as_str()]);
    let shown = |m2: f64| rounded_text(area.from_si(m2), 3);
    Figure {
        title: answer(grid, limit_k).to_owned(),
        topic: "Hottest head over inlet and exit area".to_owned(),
        sentence: format!(
            "All conditions, shutter open, at the best estimate. Thick line: your head limit, \
             {limit:.0} {}.",
            temperature.symbol
        ),
        svg,
        columns: std::iter::once(format!("All inlets, {}", area.symbol))
            .chain(
                grid.exits_m2
                    .iter()
                    .map(|m2| format!("exit {}", shown(*m2))),
            )
            .collect(),
        rows: grid
            .inlets_m2
            .iter()
            .zip(&grid.heads_k)
            .map(|(inlets, heads)| {
                std::iter::once(shown(*inlets))
                    .chain(heads.iter().map(|head| {
                        head.map_or_else(
                            || "–".to_owned(),
                            |head| format!("{:.0}", temperature.from_si(head)),
                        )
                    }))
                    .collect()
            })
            .collect(),
        source: "Hottest head of all conditions, shutter open; an estimate until flown.".to_owned(),
        readout: Readout::new(
            size,
            (8 + 62, 8 + aside),
            (left, right),
            grid.inlets_m2.iter().map(|m2| area.from_si(*m2)).collect(),
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_takes_the_place_that_the_fewest_lines_cross() {
        let level = |role, pieces: Vec<[(i32, i32); 2]>| Level {
            name: String::new(),
            role,
            pieces,
        };
        let plot = (&(0..4000), &(0..2000));
        let (mark, wide) = ((2000, 1000), 300);
        assert_eq!(free_place(&[], mark, wide, plot).0, 2000 + px(9) as i32);
        // A line to the right of the mark pushes the name to its left, the limit there back again.
        let right = level(Role::Second, vec![[(2100, 0), (2100, 2000)]]);
        let many: Vec<[(i32, i32); 2]> = (0..40)
            .map(|y| [(2100, 50 * y), (2100, 50 * y + 50)])
            .collect();
        let right_fine = level(Role::Second, many);
        assert!(free_place(&[right_fine], mark, wide, plot).0 < 2000);
        assert_eq!(crossed(&[right], (2050, 900), (300, 200)), 1);
        let limit = level(Role::Limit, vec![[(2060, 1000), (2300, 1000)]]);
        assert_eq!(crossed(&[limit], (2050, 900), (300, 200)), 4);
        // At the right edge there is room on the left only.
        assert!(free_place(&[], (3990, 1000), wide, plot).0 < 3990);
    }

    #[test]
    fn the_limit_and_where_one_is_are_named_and_the_title_says_where_heads_hold() {
        let list: Vec<f64> = (1..6).map(|n| 0.01 * f64::from(n)).collect();
        let grid = |base: f64| Grid {
            inlets_m2: list.clone(),
            exits_m2: list.clone(),
            heads_k: list
                .iter()
                .map(|x| list.iter().map(|y| Some(base - 800.0 * (x + y))).collect())
                .collect(),
        };
        let size = Size {
            width: 320,
            height: 300,
        };
        let made = |base: f64| {
            let system = UnitSystem::Metric;
            figure(
                &grid(base),
                460.0,
                (0.02, 0.02),
                Some((0.04, 0.03)),
                system,
                size,
            )
        };
        let crossed = made(500.0);
        assert!(crossed.title.starts_with("Above and to the right"));
        for words in ["you are here", "proposed", "187 °C limit"] {
            assert!(crossed.svg.contains(words), "{words}");
        }
        assert_eq!(made(900.0).title, "No size of this chart holds the heads");
        assert_eq!(
            made(450.0).title,
            "Every size of this chart holds the heads"
        );
    }

    #[test]
    fn the_level_line_of_a_plane_is_straight_and_in_place() {
        let list: Vec<f64> = (0..5).map(f64::from).collect();
        let grid = Grid {
            inlets_m2: list.clone(),
            exits_m2: list.clone(),
            // Falls by 10 K per step of either area.
            heads_k: list
                .iter()
                .map(|x| list.iter().map(|y| Some(500.0 - 10.0 * (x + y))).collect())
                .collect(),
        };
        let pieces = level_lines(&grid, 465.0);
        assert_eq!(pieces.len(), 7);
        for (x, y) in pieces.into_iter().flatten() {
            assert!((x + y - 3.5).abs() < 1e-12, "({x}, {y})");
        }
    }
}
