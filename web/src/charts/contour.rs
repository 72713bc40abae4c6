//! Contour of the hottest head over inlet and exit area, with the limit and two points.

use crate::charts::canvas::{Role, axes, drawn, font, px};
use crate::charts::figure::{Figure, Readout, Size};
use coolpath_core::units::typed::{Chosen, Dimension, UnitSystem, rounded_text};
use plotters::prelude::*;

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

/// Lines of equal heads, the limit's thicker, and the two points by name.
fn drawing(
    grid: &Grid,
    limit_k: f64,
    present: Point,
    proposed: Option<Point>,
    (left, right, bottom, top): (f64, f64, f64, f64),
    system: UnitSystem,
    size: Size,
) -> String {
    let area = Dimension::Area.shown(system);
    let temperature = Dimension::Temperature.shown(system);
    let at = |point: &Point| (area.from_si(point.0), area.from_si(point.1));
    let step = if system.is_customary(Chosen::Temperature) {
        20.0
    } else {
        10.0
    };
    let limit = temperature.from_si(limit_k);
    let levels: Vec<f64> = (-6..=10)
        .map(|n| (limit / step).round() * step + step * f64::from(n))
        .collect();
    drawn(size, "Hottest head over inlet and exit area", |surface| {
        let mut chart = ChartBuilder::on(surface)
            .margin(px(8))
            .x_label_area_size(px(46))
            .y_label_area_size(px(62))
            .build_cartesian_2d(left..right, bottom..top)?;
        axes(
            &mut chart,
            &format!("all inlets, {}", area.symbol),
            &format!("exit, net, {}", area.symbol),
            3,
        )?;
        for level in &levels {
            let pieces = level_lines(grid, temperature.to_si(*level));
            chart.draw_series(pieces.iter().map(|piece| {
                PathElement::new(
                    piece.iter().map(at).collect::<Vec<_>>(),
                    Role::Second.colour().stroke_width(px(1)),
                )
            }))?;
            if let Some(piece) = pieces.get(pieces.len() / 2) {
                chart.draw_series(std::iter::once(Text::new(
                    rounded_text(*level, 3),
                    at(&piece[0]),
                    font(14),
                )))?;
            }
        }
        chart.draw_series(level_lines(grid, limit_k).iter().map(|piece| {
            PathElement::new(
                piece.iter().map(at).collect::<Vec<_>>(),
                Role::Limit.colour().stroke_width(px(3)),
            )
        }))?;
        let named = |text: String, point: &Point| {
            let (x, y) = at(point);
            // Toward the middle, so that it stays inside.
            let (over, up) = (0.012 * (right - left), 0.02 * (top - bottom));
            let wide = 0.018 * (right - left) * text.chars().count() as f64;
            let x = if x > 0.6 * right + 0.4 * left {
                x - over - wide
            } else {
                x + over
            };
            Text::new(text, (x, y + up + 0.05 * (top - bottom)), font(14))
        };
        chart.draw_series(std::iter::once(Circle::new(
            at(&present),
            px(5),
            Role::Ink.colour().stroke_width(px(2)),
        )))?;
        chart.draw_series(std::iter::once(named("now".to_owned(), &present)))?;
        chart.draw_series(
            proposed
                .iter()
                .map(|point| named("proposed".to_owned(), point)),
        )?;
        if let Some(piece) = level_lines(grid, limit_k).first() {
            let text = format!("limit {limit:.0} {}", temperature.symbol);
            chart.draw_series(std::iter::once(named(text, &piece[0])))?;
        }
        chart.draw_series(
            proposed
                .iter()
                .map(|point| TriangleMarker::new(at(point), px(6), Role::First.colour().filled())),
        )?;
        Ok(())
    })
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
    let frame = (left, right, bottom, top);
    let svg = drawing(grid, limit_k, present, proposed, frame, system, size);
    let shown = |m2: f64| rounded_text(area.from_si(m2), 3);
    Figure {
        title: "Hottest head over inlet and exit area".to_owned(),
        sentence: format!(
            "The thick line is your head limit, {limit:.0} {}: above and to the right of it every \
             condition holds at the best estimate. Circle: as it is. Triangle: proposed.",
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
            (8 + 62, 8),
            (left, right),
            grid.inlets_m2.iter().map(|m2| area.from_si(*m2)).collect(),
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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
