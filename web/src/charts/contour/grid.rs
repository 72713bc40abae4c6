//! The lines on which what a grid of sizes gives has one level.

pub use coolpath_core::decide::size::map::{Grid, Point, Quantity};

/// Pieces of the line on which a grid has a level, as pairs of (inlet, exit).
#[must_use]
pub fn level_lines(grid: &Grid, of: Quantity, level: f64) -> Vec<[Point; 2]> {
    let mut pieces = Vec::new();
    for row in 0..grid.inlets_m2.len().saturating_sub(1) {
        for column in 0..grid.exits_m2.len().saturating_sub(1) {
            let corner = |r: usize, c: usize| {
                let value = grid.at(row + r, column + c, of)?;
                let place = (grid.inlets_m2[row + r], grid.exits_m2[column + c]);
                Some((place, value - level))
            };
            let (Some(a), Some(b), Some(c), Some(d)) =
                (corner(0, 0), corner(0, 1), corner(1, 1), corner(1, 0))
            else {
                continue;
            };
            // A corner that has the level itself counts as above it, so that no line breaks there.
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

/// Lower edges of the regions in which a quantity that grows with the exit is above a level, each from
/// left to right as (inlet, exit); a column in which it is not known all the way up parts them.
#[must_use]
pub fn lower_edges(grid: &Grid, of: Quantity, level: f64) -> Vec<Vec<Point>> {
    let mut edges: Vec<Vec<Point>> = vec![Vec::new()];
    let mut before: Option<Vec<f64>> = None;
    for (row, inlets) in grid.inlets_m2.iter().enumerate() {
        let columns = 0..grid.exits_m2.len();
        let values: Option<Vec<f64>> = columns.map(|column| grid.at(row, column, of)).collect();
        let Some(values) = values.filter(|values| values.len() > 1) else {
            before = None;
            edges.push(Vec::new());
            continue;
        };
        // Where the line leaves through the top or the bottom between two columns.
        if let Some(earlier) = &before {
            let from = grid.inlets_m2[row - 1];
            for (edge, at) in [(0, 0), (1, values.len() - 1)] {
                let (a, b) = (earlier[at] - level, values[at] - level);
                if (a < 0.0) != (b < 0.0) {
                    let place = from + a / (a - b) * (inlets - from);
                    let exit = if edge == 0 {
                        grid.exits_m2[0]
                    } else {
                        grid.exits_m2[at]
                    };
                    if let Some(edge) = edges.last_mut() {
                        edge.push((place, exit));
                    }
                }
            }
        }
        if values[values.len() - 1] >= level
            && let Some(edge) = edges.last_mut()
        {
            let below = values.iter().rposition(|value| *value < level);
            let exit = below.map_or(grid.exits_m2[0], |at| {
                let share = (level - values[at]) / (values[at + 1] - values[at]);
                grid.exits_m2[at] + share * (grid.exits_m2[at + 1] - grid.exits_m2[at])
            });
            edge.push((*inlets, exit));
        }
        before = Some(values);
    }
    edges.retain(|edge| edge.len() > 1);
    edges
}

/// A spot whose head is so hot and has a limit, K, and a drag, N.
#[cfg(test)]
pub(super) fn made(head_k: f64, limit_k: f64, drag_n: f64) -> coolpath_core::decide::size::Spot {
    use coolpath_core::decide::size::{Nearest, Spot};
    let nearest = |kelvin, margin_k| Nearest {
        condition: 0,
        kelvin,
        margin_k,
    };
    Spot {
        hottest_k: head_k,
        head: nearest(head_k, limit_k - head_k),
        oil: nearest(360.0, 20.0),
        cruise_drag_n: Some(drag_n),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plane() -> Grid {
        let list: Vec<f64> = (0..5).map(f64::from).collect();
        Grid {
            inlets_m2: list.clone(),
            exits_m2: list.clone(),
            // Heads fall by 10 K per step of either area; drag grows by 2 N and 4 N.
            spots: list
                .iter()
                .map(|x| {
                    let cell = |y: &f64| {
                        Some(made(
                            500.0 - 10.0 * (x + y),
                            465.0,
                            10.0 + 2.0 * x + 4.0 * y,
                        ))
                    };
                    list.iter().map(cell).collect()
                })
                .collect(),
        }
    }

    #[test]
    fn the_level_line_of_a_plane_is_straight_and_in_place() {
        let pieces = level_lines(&plane(), |spot| Some(spot.hottest_k), 465.0);
        assert_eq!(pieces.len(), 7);
        for (x, y) in pieces.into_iter().flatten() {
            assert!((x + y - 3.5).abs() < 1e-12, "({x}, {y})");
        }
        // The limit's own line is the same one.
        let limit = level_lines(&plane(), |spot| Some(spot.head.margin_k), 0.0);
        assert_eq!(limit.len(), 7);
        // A level that lies on the grid's own lines breaks nowhere.
        let on_grid = level_lines(&plane(), |spot| Some(spot.hottest_k), 470.0);
        assert!(on_grid.len() >= 3, "{on_grid:?}");
    }

    #[test]
    fn the_edge_of_a_drag_lies_where_the_drag_is_and_leaves_through_top_and_bottom() {
        let drag: Quantity = |spot| spot.cruise_drag_n;
        let edges = lower_edges(&plane(), drag, 20.0);
        assert_eq!(edges.len(), 1);
        for (x, y) in &edges[0] {
            assert!((10.0 + 2.0 * x + 4.0 * y - 20.0).abs() < 1e-9, "({x}, {y})");
        }
        assert_eq!(edges[0].first(), Some(&(0.0, 2.5)));
        // 12 N stands at the left edge and leaves through the bottom; from there all of it is above.
        let low = lower_edges(&plane(), drag, 13.0);
        assert!(
            low[0].contains(&(1.5, 0.0)) && low[0].last() == Some(&(4.0, 0.0)),
            "{low:?}"
        );
        // 30 N comes in through the top.
        let high = lower_edges(&plane(), drag, 30.0);
        assert_eq!(high[0].first(), Some(&(2.0, 4.0)));
        assert!(lower_edges(&plane(), drag, 99.0).is_empty());
        let mut open = plane();
        open.spots[2][1] = None;
        assert_eq!(lower_edges(&open, drag, 20.0).len(), 2);
    }

    #[test]
    fn between_the_lines_a_plane_is_itself() {
        let head: Quantity = |spot| Some(spot.hottest_k);
        let found = plane().between((1.25, 3.5), head).expect("inside");
        assert!((found - (500.0 - 47.5)).abs() < 1e-9);
        assert_eq!(plane().between((4.0, 4.0), head), Some(420.0));
        assert_eq!(plane().between((4.5, 1.0), head), None);
    }
}
