//! What cooling costs over the exit's opening.

use crate::charts::canvas::Role;
use crate::charts::figure::Figure;
use crate::charts::lines::{HERE, LineChart};
use crate::charts::sweeps::{Line, SOURCE, View, points, series, shown_along, table};
use coolpath_core::answer::sweep::{Point, Swept};
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, Unit};

/// Knots that cooling costs, over the exit's opening.
#[must_use]
pub fn speed_over_exit(view: &View<'_>) -> Figure {
    let View {
        installation,
        condition,
        system,
        size,
        bands,
    } = *view;
    let points = points(view, Swept::ExitArea);
    let speed = Dimension::Speed.shown(system);
    let temperature = Dimension::Temperature.shown(system);
    let area = Dimension::Area.shown(system);
    let own = installation
        .exits
        .first()
        .map_or(0.0, |exit| exit.closed_area_m2());
    // Along the axis stands the area itself.
    let along = Unit {
        factor: area.factor / own.max(1e-9),
        ..*area
    };
    let cost = |point: &Point| point.speed_cost_m_s.map(|cost| speed.from_si(cost));
    let chart = LineChart {
        crosses: Vec::new(),
        shades: Vec::new(),
        label: tr!(
            "Speed that cooling costs over exit area, {}",
            condition.name
        ),
        along: tr!("net area of the first exit, {}", area.symbol),
        up: tr!("costs, {}", speed.symbol),
        series: vec![series(
            &Line {
                name: tr("cooling drag"),
                role: Role::First,
                value: |point| point.speed_cost_m_s,
                band: |known| known.speed_cost,
            },
            &points,
            bands,
            &along,
            speed,
        )],
        limits: Vec::new(),
        marks: vec![(along.from_si(1.0), tr(HERE))],
    };
    let slope = points
        .first()
        .zip(points.last())
        .and_then(|(first, last)| Some(cost(last)? - cost(first)?))
        .unwrap_or_default();
    Figure {
        title: tr!(
            "From the smallest exit to the largest, cooling costs {:.1} {} more",
            slope,
            speed.symbol
        ),
        topic: tr!("Speed over exit opening, {}", condition.name),
        sentence: tr("The table shows what that does to the heads.").to_owned(),
        svg: chart.svg(size),
        columns: vec![
            tr!("Net area, {}", area.symbol),
            tr!("Costs, {}", speed.symbol),
            tr!("Hottest head, {}", temperature.symbol),
        ],
        rows: table(&points, &along, |point| {
            vec![
                cost(point),
                Some(temperature.from_si(point.figures.head_hottest)),
            ]
        }),
        source: SOURCE.to_owned(),
        readout: chart.readout(size, shown_along(&points, &along)),
    }
}
