//! Shutter opening that holds the oil temperature, over outside air temperature.

use crate::charts::canvas::{Role, axes, drawn, px};
use crate::charts::figure::{Figure, Readout, Size};
use crate::charts::lines::{LineChart, Series};
use crate::kit::format;
use coolpath_core::answer::solved::ShutterState;
use coolpath_core::decide::shutter_card::{CardPoint, shutter_card, usual_oats_k};
use coolpath_core::document::condition::Condition;
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use plotters::prelude::*;

/// The card's point at an outside temperature; `None` without a solution.
#[must_use]
pub fn point(design: &Design, condition: &Condition, oat_k: f64) -> Option<CardPoint> {
    let found = shutter_card(design, condition, &[oat_k]);
    found.into_iter().flatten().next()
}

/// Points of the card of one condition; those without a solution are left out.
#[must_use]
pub fn points(design: &Design, condition: &Condition, system: UnitSystem) -> Vec<CardPoint> {
    usual_oats_k(system)
        .into_iter()
        .filter_map(|oat_k| point(design, condition, oat_k))
        .collect()
}

/// What the shutter does, in words.
fn deed(point: &CardPoint, system: UnitSystem) -> String {
    let unit = Dimension::TemperatureDifference.shown(system);
    let amount = |kelvin: f64| format!("{:.0} {}", unit.from_si(kelvin), unit.symbol);
    match point.state {
        ShutterState::OpenTooHot { excess } => {
            tr!("fully open; oil {} above target", amount(excess.value))
        }
        ShutterState::ClosedTooCold { shortfall } => {
            tr!("fully closed; oil {} below target", amount(shortfall.value))
        }
        _ => tr!("holds at {:.0} % open", 100.0 * point.opening),
    }
}

/// Over which OATs the shutter holds its oil.
fn answer(condition: &Condition, points: &[CardPoint], system: UnitSystem) -> String {
    let shown = |kelvin: f64| format::degrees(kelvin, system);
    let held: Vec<&CardPoint> = points
        .iter()
        .filter(|point| matches!(point.state, ShutterState::Holds))
        .collect();
    let target = shown(condition.oil_target.value);
    match (held.first(), held.last()) {
        (Some(first), Some(last)) => tr!(
            "The shutter holds {} oil from {} to {} OAT",
            target,
            shown(first.oat.value),
            shown(last.oat.value)
        ),
        _ => tr!(
            "The shutter cannot hold {} oil at any OAT on this chart",
            target
        ),
    }
}

/// Opening with its band; a triangle where the shutter stands at its stop.
fn drawing(
    condition: &Condition,
    points: &[CardPoint],
    (least, most): (f64, f64),
    system: UnitSystem,
    size: Size,
) -> String {
    let temperature = Dimension::Temperature.shown(system);
    let oat = |point: &CardPoint| temperature.from_si(point.oat.value);
    let percent = |opening: f64| 100.0 * opening;
    drawn(
        size,
        &tr!("Shutter opening over OAT, {}", condition.name),
        |area| {
            let mut chart = ChartBuilder::on(area)
                .margin(px(8))
                .x_label_area_size(px(46))
                .y_label_area_size(px(62))
                .build_cartesian_2d(least..most, 0.0..104.0)?;
            axes(
                &mut chart,
                &tr!("OAT, {}", temperature.symbol),
                tr("open, %"),
                3,
            )?;
            let outline: Vec<(f64, f64)> = points
                .iter()
                .map(|point| (oat(point), percent(point.opening_band.0)))
                .chain(
                    points
                        .iter()
                        .rev()
                        .map(|point| (oat(point), percent(point.opening_band.1))),
                )
                .collect();
            let edge: Vec<(f64, f64)> = outline.iter().chain(outline.first()).copied().collect();
            chart.draw_series(std::iter::once(Polygon::new(outline, Role::Band.colour())))?;
            chart.draw_series(std::iter::once(PathElement::new(
                edge,
                Role::First.colour().stroke_width(px(1)),
            )))?;
            chart.draw_series(LineSeries::new(
                points
                    .iter()
                    .map(|point| (oat(point), percent(point.opening))),
                Role::First.colour().stroke_width(px(2)),
            ))?;
            let stops = points
                .iter()
                .filter(|point| !matches!(point.state, ShutterState::Holds));
            chart.draw_series(stops.map(|point| {
                TriangleMarker::new(
                    (oat(point), percent(point.opening)),
                    px(4),
                    Role::Limit.colour().filled(),
                )
            }))?;
            Ok(())
        },
    )
}

/// The card of one condition as a figure.
#[must_use]
pub fn figure(
    condition: &Condition,
    points: &[CardPoint],
    system: UnitSystem,
    size: Size,
) -> Figure {
    let temperature = Dimension::Temperature.shown(system);
    let oat = |point: &CardPoint| temperature.from_si(point.oat.value);
    let percent = |opening: f64| 100.0 * opening;
    let least = points.iter().map(oat).fold(f64::INFINITY, f64::min);
    let most = points.iter().map(oat).fold(f64::NEG_INFINITY, f64::max);
    // The first OAT's number is to stand clear of the other axis.
    let (least, most) = if least < most {
        let room = 0.04 * (most - least);
        (least - room, most + room)
    } else {
        (0.0, 1.0)
    };
    Figure {
        title: answer(condition, points, system),
        topic: tr!("Shutter opening over OAT, {}", condition.name),
        sentence: tr("Triangles: at its stop.").to_owned(),
        svg: drawing(condition, points, (least, most), system, size),
        columns: vec![
            tr!("OAT, {}", temperature.symbol),
            tr("Opening").to_owned(),
            tr("Band of the loss tables").to_owned(),
            tr!("Oil, {}", temperature.symbol),
            tr!("Oil, jammed shut, {}", temperature.symbol),
            tr!("Oil, jammed open, {}", temperature.symbol),
        ],
        rows: points
            .iter()
            .map(|point| {
                let shown = |kelvin: f64| format::whole_degrees(kelvin, system);
                vec![
                    shown(point.oat.value),
                    deed(point, system),
                    format!(
                        "{:.0}–{:.0} %",
                        percent(point.opening_band.0),
                        percent(point.opening_band.1)
                    ),
                    shown(point.oil.value),
                    shown(point.oil_jammed_shut.value),
                    shown(point.oil_jammed_open.value),
                ]
            })
            .collect(),
        source: tr(
            "Loss of the disc after Weisbach; the band spans what is likely for every assumption. Triangles \
             mark a shutter at its stop. An estimate until flown.",
        )
            .to_owned(),
        readout: Readout::new(
            size,
            (8 + 62, 8),
            (least, most),
            points.iter().map(oat).collect(),
        ),
    }
}

/// Oil over outside air with the shutter as it should be, jammed shut and jammed open.
#[must_use]
pub fn jams(
    condition: &Condition,
    points: &[CardPoint],
    limit_k: f64,
    system: UnitSystem,
    size: Size,
) -> Figure {
    let unit = Dimension::Temperature.shown(system);
    let oat = |point: &CardPoint| unit.from_si(point.oat.value);
    let line = |name, role, of: fn(&CardPoint) -> f64| Series {
        name,
        role,
        points: points
            .iter()
            .map(|point| (oat(point), unit.from_si(of(point))))
            .collect(),
        band: Vec::new(),
    };
    let chart = LineChart {
        crosses: Vec::new(),
        shades: Vec::new(),
        label: tr!("Oil with a jammed shutter, {}", condition.name),
        along: tr!("OAT, {}", unit.symbol),
        up: tr!("oil, {}", unit.symbol),
        series: vec![
            line(tr("as set"), Role::First, |point| point.oil.value),
            line(tr("jammed shut"), Role::Limit, |point| {
                point.oil_jammed_shut.value
            }),
            line(tr("jammed open"), Role::Third, |point| {
                point.oil_jammed_open.value
            }),
        ],
        limits: vec![(tr("oil"), unit.from_si(limit_k))],
        marks: Vec::new(),
    };
    let shown = |kelvin: f64| format::whole_degrees(kelvin, system);
    let title = match points
        .iter()
        .find(|point| point.oil_jammed_shut.value > limit_k)
    {
        Some(point) => tr!(
            "Jammed shut, oil goes over your limit at {} {} OAT and above",
            shown(point.oat.value),
            unit.symbol
        ),
        None => tr("Even jammed shut, oil stays within your limit").to_owned(),
    };
    Figure {
        title,
        topic: tr!("Oil with a jammed shutter, {}", condition.name),
        sentence: String::new(),
        svg: chart.svg(size),
        columns: ["OAT", tr("As set"), tr("Jammed shut"), tr("Jammed open")]
            .map(|name| format!("{name}, {}", unit.symbol))
            .to_vec(),
        rows: points
            .iter()
            .map(|point| {
                [
                    point.oat,
                    point.oil,
                    point.oil_jammed_shut,
                    point.oil_jammed_open,
                ]
                .map(|temperature| shown(temperature.value))
                .to_vec()
            })
            .collect(),
        source: tr("Computed from your inputs; an estimate until flown.").to_owned(),
        readout: chart.readout(size, points.iter().map(oat).collect()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;

    #[test]
    fn the_card_opens_further_as_the_day_gets_hotter() {
        let design = example::design();
        let condition = &design.conditions[3];
        let points = points(&design, condition, UnitSystem::Customary);
        assert_eq!(points.len(), 14);
        for pair in points.windows(2) {
            assert!(pair[1].opening >= pair[0].opening - 1e-9);
        }
        let size = Size {
            width: 360,
            height: 240,
        };
        let figure = figure(condition, &points, UnitSystem::Customary, size);
        assert_eq!(figure.rows.len(), points.len());
        assert!(
            figure
                .rows
                .iter()
                .all(|row| row.len() == figure.columns.len())
        );
        assert!(!figure.svg.contains("NaN") && figure.svg.contains("polyline"));
        let limit = design.installation.engine.oil_limit.value;
        let jams = jams(condition, &points, limit, UnitSystem::Customary, size);
        assert_eq!(jams.rows.len(), points.len());
        assert!(
            jams.title
                .starts_with("Jammed shut, oil goes over your limit at ")
        );
    }
}
