//! Contour of heads, limits and drag over inlet and exit area, with the openings as they are and as
//! they are proposed.

mod drawing;
mod free_labels;
pub mod grid;

use crate::charts::contour::drawing::{HEAD_MARGIN, OIL_MARGIN, Picture, drawing, limit_names};
pub use crate::charts::contour::grid::{Grid, Point};
use crate::charts::contour::grid::{Quantity, level_lines};
use crate::charts::figure::{Figure, Readout, Size};
use crate::charts::plane::Plane;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};

/// What the chart is of.
const TOPIC: &str = tr_later("CHT, oil and drag over inlet and exit area");
/// The table has every so many of the grid's lines each way.
const TABLE_STEP: usize = 3;

/// Where a limit holds on the chart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Where {
    Everywhere,
    Beyond,
    Nowhere,
}

fn held(grid: &Grid, margin: Quantity) -> Where {
    if !level_lines(grid, margin, 0.0).is_empty() {
        Where::Beyond
    } else if grid.values(margin).any(|margin| margin >= 0.0) {
        Where::Everywhere
    } else {
        Where::Nowhere
    }
}

/// Where both limits hold.
fn answer(grid: &Grid) -> &'static str {
    match (held(grid, HEAD_MARGIN), held(grid, OIL_MARGIN)) {
        (Where::Everywhere, Where::Everywhere) => tr("Every size on this chart holds both limits"),
        (Where::Beyond, Where::Everywhere) => tr(
            "Above and to the right of the thick line CHT is within its limit; oil is everywhere",
        ),
        (Where::Everywhere, Where::Beyond) => tr(
            "Above and to the right of the thick line oil is within its limit; CHT is everywhere",
        ),
        (Where::Beyond, Where::Beyond) => {
            tr("Above and to the right of both thick lines CHT and oil are within limits")
        }
        (Where::Nowhere, Where::Nowhere) => tr("No size on this chart holds either limit"),
        (Where::Nowhere, _) => tr("No size on this chart holds the CHT limit"),
        (_, Where::Nowhere) => tr("No size on this chart holds the oil limit"),
    }
}

/// The contour as a figure, and the plane of its axes in m² for what is laid over it.
///
/// # Arguments
/// * `limits_k` - the limits of heads and oil, K, where they are the same in every condition
#[must_use]
pub fn figure(
    grid: &Grid,
    limits_k: [Option<f64>; 2],
    present: Point,
    proposed: Option<Point>,
    system: UnitSystem,
    size: Size,
) -> (Figure, Option<Plane>) {
    let area = Dimension::Area.shown(system);
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
    let picture = Picture {
        grid,
        limits_k,
        present,
        proposed,
        frame: (left, right, bottom, top),
        system,
    };
    let (svg, plane) = drawing(&picture, size, tr(TOPIC));
    let [heads, oil] = limit_names(limits_k, system, false);
    let (columns, rows) = table(grid, system);
    let figure = Figure {
        title: answer(grid).to_owned(),
        topic: tr(TOPIC).to_owned(),
        sentence: tr!(
            "All conditions, shutter open, at the best estimate. Thick lines: {}, {}. Thin lines: \
             hottest CHT. Dotted lines and shade: cooling drag in cruise.", heads, oil
        ),
        svg,
        columns,
        rows,
        source: tr(
            "Worst of all conditions, shutter open; drag as flown in cruise. An estimate until flown.",
        )
            .to_owned(),
        readout: Readout::new(size, (0, 0), (left, right), Vec::new()),
    };
    (figure, plane)
}

/// Every third size each way as a row.
fn table(grid: &Grid, system: UnitSystem) -> (Vec<String>, Vec<Vec<String>>) {
    let (area, force) = (
        Dimension::Area.shown(system),
        Dimension::Force.shown(system),
    );
    let temperature = Dimension::Temperature.shown(system);
    let none = || "–".to_owned();
    let degrees = |kelvin: f64| format!("{:.0}", temperature.from_si(kelvin));
    let mut rows = Vec::new();
    for (inlets, spots) in grid.inlets_m2.iter().zip(&grid.spots).step_by(TABLE_STEP) {
        for (exit, spot) in grid.exits_m2.iter().zip(spots).step_by(TABLE_STEP) {
            rows.push(vec![
                rounded_text(area.from_si(*inlets), 3),
                rounded_text(area.from_si(*exit), 3),
                spot.map_or_else(none, |spot| degrees(spot.hottest_k)),
                spot.map_or_else(none, |spot| degrees(spot.oil.kelvin)),
                spot.and_then(|spot| spot.cruise_drag_n)
                    .map_or_else(none, |newton| rounded_text(force.from_si(newton), 3)),
            ]);
        }
    }
    let columns = vec![
        tr!("All inlets, {}", area.symbol),
        tr!("Exit, net, {}", area.symbol),
        tr!("Hottest CHT, {}", temperature.symbol),
        tr!("Oil, {}", temperature.symbol),
        tr!("Drag in cruise, {}", force.symbol),
    ];
    (columns, rows)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_marks_and_steps_of_drag_are_named_and_the_title_says_where_limits_hold() {
        let list: Vec<f64> = (1..8).map(|n| 0.01 * f64::from(n)).collect();
        let grid = |base: f64| Grid {
            inlets_m2: list.clone(),
            exits_m2: list.clone(),
            spots: list
                .iter()
                .map(|x| {
                    let cell = |y: &f64| {
                        Some(grid::made(
                            base - 800.0 * (x + y),
                            460.0,
                            300.0 * (x + 2.0 * y),
                        ))
                    };
                    list.iter().map(cell).collect()
                })
                .collect(),
        };
        let made = |base: f64, width: u32| {
            let size = Size { width, height: 440 };
            figure(
                &grid(base),
                [Some(460.0), Some(380.0)],
                (0.02, 0.02),
                Some((0.05, 0.03)),
                UnitSystem::Metric,
                size,
            )
        };
        let (crossed, plane) = made(500.0, 700);
        assert!(crossed.title.starts_with("Above and to the right"));
        for words in [
            "you are here",
            "proposed",
            "CHT limit 187 °C",
            "40 N drag",
            "too hot",
        ] {
            assert!(crossed.svg.contains(words), "{words}");
        }
        let plane = plane.expect("a plane");
        assert_eq!(plane.size, (700.0, 440.0));
        assert!((plane.along.ends.1 - 0.07).abs() < 1e-12);
        assert!(crossed.rows.len() == 9 && crossed.rows.iter().all(|row| row.len() == 5));
        let (narrow, _) = made(500.0, 330);
        assert!(narrow.svg.contains("CHT limit") && !narrow.svg.contains("N drag"));
        assert_eq!(
            made(900.0, 700).0.title,
            "No size on this chart holds the CHT limit"
        );
        assert_eq!(
            made(450.0, 700).0.title,
            "Every size on this chart holds both limits"
        );
    }
}
