//! Sampled spread of a temperature, condition by condition, against its limit.

use crate::charts::canvas::{Role, axes, drawn, px};
use crate::charts::figure::{Figure, Readout, Size};
use crate::charts::line_ends;
use crate::kit::format;
use coolpath_core::answer::sampling::Percentiles;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use plotters::prelude::*;

/// Margins of the plot, CSS pixels.
const MARGIN: u32 = 8;
const LABELS_LEFT: u32 = 62;
/// Half the width of a condition's bar, of the room that it has.
const HALF_BAR: f64 = 0.28;

/// A condition's bar.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Name of the condition.
    pub condition: String,
    /// Where the draws lie; `None` without an answer.
    pub found: Option<Percentiles>,
    /// The lowest limit that counts there, K.
    pub limit_k: f64,
}

/// Figure of a temperature; conditions without an answer have no percentiles.
#[must_use]
pub fn figure(
    what: &str,
    conditions: &[Row],
    draws: usize,
    system: UnitSystem,
    size: Size,
) -> Figure {
    let unit = Dimension::Temperature.shown(system);
    let shown = |kelvin: f64| unit.from_si(kelvin);
    let found: Vec<(f64, &Percentiles)> = conditions
        .iter()
        .enumerate()
        .filter_map(|(at, row)| Some((at as f64 + 1.0, row.found.as_ref()?)))
        .collect();
    let limits: Vec<f64> = conditions.iter().map(|row| shown(row.limit_k)).collect();
    let bars = found.iter().flat_map(|(_, p)| [shown(p.p10), shown(p.p90)]);
    let (low, high) = ends(bars.chain(limits.iter().copied()));
    let (left, right) = (0.5, conditions.len().max(1) as f64 + 0.5);
    // The last condition's limit is the one beside whose line there is room.
    let last = conditions.last().map_or(0.0, |row| row.limit_k);
    let name = tr!("limit {}", format::whole_degrees(last, system));
    let aside = MARGIN + line_ends::room(&[&name]);
    let svg = drawn(size, what, |area| {
        let mut chart = ChartBuilder::on(area)
            .margin(px(MARGIN))
            .margin_right(px(aside))
            .x_label_area_size(px(46))
            .y_label_area_size(px(LABELS_LEFT))
            .build_cartesian_2d(left..right, low..high)?;
        axes(
            &mut chart,
            tr("condition number, as in the table"),
            unit.symbol,
            4,
        )?;
        for (at, percentiles) in &found {
            let (from, to) = (at - HALF_BAR, at + HALF_BAR);
            chart.draw_series([Rectangle::new(
                [(from, shown(percentiles.p10)), (to, shown(percentiles.p90))],
                Role::Band.colour().filled(),
            )])?;
            let median = shown(percentiles.p50);
            chart.draw_series(LineSeries::new(
                [(from, median), (to, median)],
                Role::First.colour().stroke_width(px(3)),
            ))?;
        }
        let stretches = stretches(&limits);
        for (from, to, limit) in &stretches {
            chart.draw_series(LineSeries::new(
                [(*from, *limit), (*to, *limit)],
                Role::Limit.dashed().stroke_width(px(1)),
            ))?;
        }
        let (along, up) = chart.plotting_area().get_pixel_range();
        let height = chart.backend_coord(&(right, shown(last))).1;
        let names = [(name.as_str(), Role::Limit.colour(), height)];
        line_ends::draw(area, &names, (along.end, up.start, up.end))
    });
    Figure {
        title: answer(what, conditions),
        topic: tr!("{}, the middle eight trials in ten", what),
        sentence: tr("The median is the line across each bar; your limit is dashed.").to_owned(),
        svg,
        columns: vec![
            tr("Condition").to_owned(),
            tr!("10th, {}", unit.symbol),
            tr!("Median, {}", unit.symbol),
            tr!("90th, {}", unit.symbol),
            tr!("Limit, {}", unit.symbol),
        ],
        rows: (1..)
            .zip(conditions)
            .map(|(number, row)| cells(number, row, system))
            .collect(),
        source: tr!(
            "{} trials, every assumption drawn from its likely range.",
            draws
        ),
        readout: Readout::new(
            size,
            (MARGIN + LABELS_LEFT, aside),
            (left, right),
            (1..=conditions.len()).map(|at| at as f64).collect(),
        ),
    }
}

/// A condition's row of the table.
fn cells(number: usize, row: &Row, system: UnitSystem) -> Vec<String> {
    let degrees = |kelvin: f64| format::whole_degrees(kelvin, system);
    let cell = |of: fn(&Percentiles) -> f64| {
        let found = row.found.as_ref();
        found.map_or_else(|| format::NONE.to_owned(), |found| degrees(of(found)))
    };
    vec![
        format!("{number}: {}", row.condition),
        cell(|found| found.p10),
        cell(|found| found.p50),
        cell(|found| found.p90),
        degrees(row.limit_k),
    ]
}

/// Ends of the axis about all values.
fn ends(all: impl Iterator<Item = f64>) -> (f64, f64) {
    const ROOM: f64 = 10.0;
    let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    (low - ROOM, high + ROOM)
}

/// Stretches of neighbours with the same limit: from, to, and the limit.
fn stretches(limits: &[f64]) -> Vec<(f64, f64, f64)> {
    let mut found: Vec<(f64, f64, f64)> = Vec::new();
    for (at, &limit) in limits.iter().enumerate() {
        let (from, to) = (at as f64 + 0.5, at as f64 + 1.5);
        match found.last_mut().filter(|before| before.2 == limit) {
            Some(before) => before.1 = to,
            None => found.push((from, to, limit)),
        }
    }
    found
}

/// In which conditions more than one draw in ten is over the limit.
fn answer(what: &str, conditions: &[Row]) -> String {
    let is_over = |row: &Row| {
        row.found
            .as_ref()
            .is_some_and(|found| found.p90 > row.limit_k)
    };
    let over: Vec<&str> = conditions
        .iter()
        .filter(|row| is_over(row))
        .map(|row| row.condition.as_str())
        .collect();
    match over.as_slice() {
        [] => {
            tr!(
                "{}: at least nine trials in ten are within your limit in every condition",
                what
            )
        }
        [one] => tr!(
            "{}: more than one trial in ten is over your limit in {}",
            what,
            one
        ),
        many => tr!(
            "{}: more than one trial in ten is over your limit in {} of {} conditions",
            what,
            many.len(),
            conditions.len()
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn conditions_without_an_answer_keep_their_place() {
        let found = Percentiles {
            p05: 455.0,
            p10: 460.0,
            p50: 480.0,
            p90: 500.0,
            p95: 505.0,
        };
        let row = |condition: &str, found| Row {
            condition: condition.to_owned(),
            found,
            limit_k: 490.0,
        };
        let list = [row("Ground", None), row("Climb", Some(found))];
        let size = Size {
            width: 400,
            height: 240,
        };
        let figure = figure("Heads", &list, 100, UnitSystem::Metric, size);
        assert_eq!(figure.rows[0], ["1: Ground", "–", "–", "–", "217"]);
        assert_eq!(figure.rows[1], ["2: Climb", "187", "207", "227", "217"]);
        assert!(figure.svg.contains("var(--chart-band)"));
        // The limit's name stands right of the plot, where its line has ended.
        let line_end = figure
            .svg
            .split("<polyline")
            .find(|line| line.contains("--chart-limit"))
            .and_then(|line| line.split("points=\"").nth(1))
            .and_then(|points| points.split('"').next())
            .and_then(|points| points.split_whitespace().last())
            .and_then(|point| point.split(',').next())
            .and_then(|x| x.parse::<f64>().ok())
            .expect("a limit's line");
        let name = figure
            .svg
            .split("<text")
            .find(|text| text.contains("limit 217"));
        let place = name
            .and_then(|text| text.split("x=\"").nth(1))
            .and_then(|x| x.split('"').next())
            .and_then(|x| x.parse::<f64>().ok())
            .expect("a name");
        assert!(place > line_end, "{place} and {line_end}");
        assert!(
            figure.title.ends_with("over your limit in Climb"),
            "{}",
            figure.title
        );
    }
    #[test]
    fn a_line_is_drawn_for_each_stretch_of_conditions_with_the_same_limit() {
        assert_eq!(
            stretches(&[400.0, 400.0, 380.0, 400.0]),
            [(0.5, 2.5, 400.0), (2.5, 3.5, 380.0), (3.5, 4.5, 400.0)]
        );
        assert!(stretches(&[]).is_empty());
    }
}
