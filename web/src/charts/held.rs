//! Predicted against measured, each with its band, for readings that the fit has not seen.

use crate::charts::canvas::{Role, axes, drawn, font, px};
use crate::charts::figure::{Figure, Readout, Size};
use crate::charts::line_ends;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::math::order;
use coolpath_core::prove::flights::{Checked, Figure as What, Judged, ReadAndPredicted};
use coolpath_core::units::typed::{Dimension, UnitSystem};
use plotters::prelude::*;

/// Margins of the plot, CSS pixels.
const MARGIN: u32 = 10;
const LABELS_LEFT: u32 = 66;
const LABELS_BELOW: u32 = 50;
/// Size of all text, CSS pixels.
const TEXT: u32 = 14;
/// Most rows of the table.
const ROWS: usize = 200;

const SHOWN: [(What, Role, &str); 2] = [
    (What::HeadHottest, Role::First, tr_later("● hottest head")),
    (What::Oil, Role::Third, tr_later("■ oil")),
];

/// One window of a figure, shown units.
struct Point {
    what: What,
    role: Role,
    name: String,
    held: bool,
    measured: f64,
    predicted: f64,
    low: f64,
    high: f64,
}

impl Point {
    fn new(
        (what, role): (What, Role),
        name: String,
        one: &ReadAndPredicted,
        shown: impl Fn(f64) -> f64,
    ) -> Self {
        Self {
            what,
            role,
            name,
            held: one.is_inside(),
            measured: shown(one.measured),
            predicted: shown(one.predicted),
            low: shown(one.low),
            high: shown(one.high),
        }
    }
}

fn points(
    checked: &Checked,
    named: &dyn Fn(&Judged) -> String,
    shown: impl Fn(f64) -> f64 + Copy,
) -> Vec<Point> {
    let mut found: Vec<Point> = SHOWN
        .into_iter()
        .flat_map(|(what, role, _)| {
            checked.judged.iter().filter_map(move |judged| {
                let one = judged.get(what)?;
                Some(Point::new((what, role), named(judged), &one, shown))
            })
        })
        .collect();
    order::by_number(&mut found, |one| one.measured);
    found
}

/// Name of the line on which prediction and reading agree.
const SAME: &str = tr_later("exact");

/// Room right of the plot, CSS pixels.
fn aside() -> u32 {
    MARGIN + line_ends::room(&[tr(SAME)])
}

/// Bands across the line on which prediction and reading agree.
fn drawing(points: &[Point], symbol: &str, (low, high): (f64, f64), size: Size) -> String {
    drawn(size, tr("Predicted against measured, with bands"), |area| {
        let mut chart = ChartBuilder::on(area)
            .margin(px(MARGIN))
            .margin_right(px(aside()))
            .x_label_area_size(px(LABELS_BELOW))
            .y_label_area_size(px(LABELS_LEFT))
            .build_cartesian_2d(low..high, low..high)?;
        axes(
            &mut chart,
            &tr!("read, {}", symbol),
            &tr!("predicted, {}", symbol),
            4,
        )?;
        chart.draw_series(LineSeries::new(
            [(low, low), (high, high)],
            Role::Ink.colour().stroke_width(px(1)),
        ))?;
        chart.draw_series(points.iter().map(|point| {
            let ends = vec![(point.measured, point.low), (point.measured, point.high)];
            let line = if point.held { point.role } else { Role::Limit };
            PathElement::new(ends, line.colour().stroke_width(px(2)))
        }))?;
        let at = |point: &Point| (point.measured, point.predicted);
        let of = |what: What| points.iter().filter(move |point| point.what == what);
        chart.draw_series(
            of(What::HeadHottest)
                .map(|point| Circle::new(at(point), px(4), point.role.colour().filled())),
        )?;
        chart.draw_series(of(What::Oil).map(|point| {
            let half = i32::try_from(px(4)).unwrap_or(0);
            EmptyElement::at(at(point))
                + Rectangle::new([(-half, -half), (half, half)], point.role.colour().filled())
        }))?;
        // What missed is told by its shape too.
        chart.draw_series(
            points.iter().filter(|point| !point.held).map(|point| {
                Cross::new(at(point), px(7), Role::Limit.colour().stroke_width(px(2)))
            }),
        )?;
        let words = |text: &str, share: f64| {
            let place = (low + 0.03 * (high - low), low + share * (high - low));
            Text::new(text.to_owned(), place, font(TEXT))
        };
        let line = 1.5 * f64::from(TEXT) / f64::from(size.drawable().height - LABELS_BELOW);
        let mut keys: Vec<&str> = SHOWN
            .into_iter()
            .filter(|(what, ..)| of(*what).next().is_some())
            .map(|(.., name)| tr(name))
            .collect();
        if points.iter().any(|point| !point.held) {
            keys.push(tr("× outside its band"));
        }
        let keys = keys.into_iter().enumerate();
        chart.draw_series(keys.map(|(at, text)| words(text, 0.985 - line * at as f64)))?;
        let (along, up) = chart.plotting_area().get_pixel_range();
        let names = [(tr(SAME), Role::Ink.colour(), up.start)];
        line_ends::draw(area, &names, (along.end, up.start, up.end))
    })
}

/// Figure of a check, its title the answer; `None` where nothing was predicted.
#[must_use]
pub fn figure(
    checked: &Checked,
    answer: &str,
    fitted_on: &str,
    named: &dyn Fn(&Judged) -> String,
    system: UnitSystem,
    size: Size,
) -> Option<Figure> {
    let unit = Dimension::Temperature.shown(system);
    let points = points(checked, named, |kelvin| unit.from_si(kelvin));
    points.first()?;
    let ends = points.iter().fold((f64::MAX, f64::MIN), |(low, high), p| {
        (
            low.min(p.low).min(p.measured),
            high.max(p.high).max(p.measured),
        )
    });
    let spare = (0.04 * (ends.1 - ends.0)).max(1.0);
    let range = (ends.0 - spare, ends.1 + spare);
    let step = points.len().div_ceil(ROWS).max(1);
    let rows: Vec<&Point> = points.iter().step_by(step).collect();
    let cell = |value: f64| format!("{value:.0}");
    let what = |point: &Point| match point.what {
        What::Oil => tr("oil"),
        _ => tr("hottest head"),
    };
    Some(Figure {
        title: answer.to_owned(),
        topic: tr("Predicted against read").to_owned(),
        sentence: tr!(
            "{}. Each vertical line is a nine-in-ten band; where it crosses the diagonal, the prediction held.",
            fitted_on
        ),
        svg: drawing(&points, unit.symbol, range, size),
        columns: [
            tr("Window"),
            tr("What"),
            tr("Read"),
            tr("Predicted"),
            tr("From"),
            tr("To"),
            tr("Band"),
        ]
        .map(str::to_owned)
        .to_vec(),
        readout: Readout::new(
            size,
            (MARGIN + LABELS_LEFT, aside()),
            range,
            rows.iter().map(|row| row.measured).collect(),
        ),
        rows: rows
            .iter()
            .map(|row| {
                vec![
                    row.name.clone(),
                    what(row).to_owned(),
                    cell(row.measured),
                    cell(row.predicted),
                    cell(row.low),
                    cell(row.high),
                    if row.held { tr("held") } else { tr("not held") }.to_owned(),
                ]
            })
            .collect(),
        source: tr(
            "Read: what is marked “check only”, with the instruments' corrections. Predicted: the \
                 model fitted without it.",
        )
        .to_owned(),
    })
}
