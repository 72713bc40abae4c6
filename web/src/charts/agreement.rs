//! Predicted against measured: every reading's heads and oil, before and after a calibration.

use crate::charts::canvas::{Role, axes, drawn, font, px};
use crate::charts::figure::{Figure, Readout, Size};
use crate::charts::line_ends;
use coolpath_core::document::design::Design;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::math::order;
use coolpath_core::prove::calibrate::{Channel, Outcome, Residual};
use coolpath_core::units::typed::{Dimension, Unit, UnitSystem};
use plotters::prelude::*;

/// Margins of the plot, CSS pixels.
const MARGIN: u32 = 8;
const LABELS_LEFT: u32 = 62;
/// Most rows of the table.
const ROWS: usize = 120;

fn is_temperature(channel: Channel) -> bool {
    matches!(
        channel,
        Channel::HeadMean | Channel::HeadAlone | Channel::Oil
    )
}

/// Name of the line on which prediction and reading agree.
const SAME: &str = tr_later("exact");

/// Room right of the plot, CSS pixels.
fn aside() -> u32 {
    MARGIN + line_ends::room(&[tr(SAME)])
}

/// The cloud of points about the line on which prediction and reading agree.
fn drawing(points: &[&Residual], unit: &Unit, (low, high): (f64, f64), size: Size) -> String {
    let shown = |kelvin: f64| unit.from_si(kelvin);
    drawn(size, tr("Predicted against measured"), |area| {
        let mut chart = ChartBuilder::on(area)
            .margin(px(MARGIN))
            .margin_right(px(aside()))
            .x_label_area_size(px(46))
            .y_label_area_size(px(LABELS_LEFT))
            .build_cartesian_2d(low..high, low..high)?;
        axes(
            &mut chart,
            &tr!("measured, {}", unit.symbol),
            &tr!("predicted, {}", unit.symbol),
            4,
        )?;
        chart.draw_series(LineSeries::new(
            [(low, low), (high, high)],
            Role::Ink.colour().stroke_width(px(1)),
        ))?;
        chart.draw_series(points.iter().map(|point| {
            Cross::new(
                (shown(point.measured), shown(point.before)),
                px(3),
                Role::Second.colour().stroke_width(px(1)),
            )
        }))?;
        chart.draw_series(points.iter().map(|point| {
            Circle::new(
                (shown(point.measured), shown(point.after)),
                px(3),
                Role::First.colour().filled(),
            )
        }))?;
        let words = |text: &str, share: f64| {
            Text::new(
                text.to_owned(),
                (low + 0.04 * (high - low), low + share * (high - low)),
                font(14),
            )
        };
        chart.draw_series([words(tr("● after"), 0.97), words(tr("× before"), 0.91)])?;
        let (along, up) = chart.plotting_area().get_pixel_range();
        let names = [(tr(SAME), Role::Ink.colour(), up.start)];
        line_ends::draw(area, &names, (along.end, up.start, up.end))
    })
}

/// How far prediction and reading are apart on average, before and after.
fn answer(points: &[&Residual], unit: &Unit) -> String {
    let mean = |of: fn(&Residual) -> f64| {
        let apart =
            |point: &&Residual| (unit.from_si(of(point)) - unit.from_si(point.measured)).abs();
        points.iter().map(apart).sum::<f64>() / points.len().max(1) as f64
    };
    tr!(
        "The model is {:.0} {} off the readings on average, {:.0} before the fit",
        mean(|point| point.after),
        unit.symbol,
        mean(|point| point.before)
    )
}

/// Figure of a calibration's temperatures; `None` without any.
#[must_use]
pub fn figure(
    outcome: &Outcome,
    design: &Design,
    system: UnitSystem,
    size: Size,
) -> Option<Figure> {
    let unit = Dimension::Temperature.shown(system);
    let mut points: Vec<&Residual> = outcome
        .residuals
        .iter()
        .filter(|residual| is_temperature(residual.channel))
        .collect();
    order::by_number(&mut points, |point| point.measured);
    let shown = |kelvin: f64| unit.from_si(kelvin);
    let ends = points.iter().fold((f64::MAX, f64::MIN), |(low, high), p| {
        let all = [p.measured, p.before, p.after].map(shown);
        (
            all.into_iter().fold(low, f64::min),
            all.into_iter().fold(high, f64::max),
        )
    });
    let first = points.first()?;
    let spare = (0.05 * (ends.1 - ends.0)).max(1.0);
    let (low, high) = (ends.0 - spare, ends.1 + spare);
    let svg = drawing(&points, unit, (low, high), size);
    let step = points.len().div_ceil(ROWS).max(1);
    let rows: Vec<&&Residual> = points.iter().step_by(step).collect();
    let name = |residual: &Residual| {
        design
            .readings
            .get(residual.reading)
            .map_or("", |reading| reading.name.as_str())
            .to_owned()
    };
    let degrees = |kelvin: f64| format!("{:.0}", shown(kelvin));
    Some(Figure {
        title: answer(&points, unit),
        topic: tr("Predicted against measured").to_owned(),
        sentence: tr!(
            "On the diagonal they agree. {} comparisons of heads and oil, from {} to {}.",
            points.len(),
            degrees(first.measured),
            degrees(points[points.len() - 1].measured),
        ),
        svg,
        columns: [
            tr("Reading"),
            tr("What"),
            tr("Measured"),
            tr("Before"),
            tr("After"),
        ]
        .map(str::to_owned)
        .to_vec(),
        readout: Readout::new(
            size,
            (MARGIN + LABELS_LEFT, aside()),
            (low, high),
            rows.iter().map(|row| shown(row.measured)).collect(),
        ),
        rows: rows
            .iter()
            .map(|row| {
                vec![
                    name(row),
                    row.channel.name().to_owned(),
                    degrees(row.measured),
                    degrees(row.before),
                    degrees(row.after),
                ]
            })
            .collect(),
        source: tr(
            "Measured: your readings with the instruments' corrections. Predicted: the model at \
                 the same moments.",
        )
        .to_owned(),
    })
}
