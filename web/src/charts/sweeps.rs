//! Charts of sweeps: over outside air, over airspeed, over the exit's opening.

use crate::charts::canvas::Role;
use crate::charts::figure::{Figure, Size};
use crate::charts::lines::{HERE, LineChart, Series};
use crate::charts::stretches::{enough_pressure, inside, where_holds};
use coolpath_core::answer::band::Band;
use coolpath_core::answer::sweep::{Point, PointBand, Swept, point_band, sweep};
use coolpath_core::document::condition::Condition;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::Installation;
use coolpath_core::document::limits::LimitChoice;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::si::knot;
use coolpath_core::units::typed::{Dimension, Unit, UnitSystem, rounded_text};

pub(super) const SOURCE: &str = tr_later(
    "Computed from your inputs, the shutter fully open; an estimate until flown. \
    Shaded: the likely range, from the ranges of all assumptions.",
);
const STEPS: u32 = 24;
/// Steps between the places at which bands are computed: they change slowly along a chart.
const BAND_STEPS: usize = 6;

/// What a chart of a sweep is drawn from.
#[derive(Clone, Copy)]
pub struct View<'a> {
    /// Installation.
    pub installation: &'a Installation,
    /// Condition.
    pub condition: &'a Condition,
    /// Units.
    pub system: UnitSystem,
    /// Room.
    pub size: Size,
    /// Bands of the sweep; empty while they are not yet known.
    pub bands: &'a [PointBand],
}

fn values(from: f64, to: f64) -> Vec<f64> {
    (0..=STEPS)
        .map(|step| from + (to - from) * f64::from(step) / f64::from(STEPS))
        .collect()
}

/// Values that a chart of a sweep runs over, SI.
fn swept_values(swept: Swept) -> Vec<f64> {
    const KNOT: f64 = knot(1.0);
    match swept {
        Swept::Oat => values(244.0, 318.0),
        Swept::Airspeed => values(50.0 * KNOT, 160.0 * KNOT),
        Swept::ExitArea => values(0.4, 1.8),
    }
}

/// Values of a sweep at which its bands are computed, SI.
#[must_use]
pub fn band_values(swept: Swept) -> Vec<f64> {
    swept_values(swept)
        .into_iter()
        .step_by(BAND_STEPS)
        .collect()
}

/// Bands at one value of a sweep, with the shutter as the charts have it.
#[must_use]
pub fn band_at(design: &Design, condition: &Condition, swept: Swept, x: f64) -> Option<PointBand> {
    point_band(design, &condition.with_shutter_open(), swept, x)
}

pub(super) fn points(view: &View<'_>, swept: Swept) -> Vec<Point> {
    sweep(
        view.installation,
        &view.condition.with_shutter_open(),
        swept,
        &swept_values(swept),
    )
}

/// What one line shows: its name, its value at a point and its band there.
pub(super) struct Line {
    pub name: &'static str,
    pub role: Role,
    pub value: fn(&Point) -> Option<f64>,
    pub band: fn(&PointBand) -> Band,
}

pub(super) fn series(
    line: &Line,
    points: &[Point],
    bands: &[PointBand],
    along: &Unit,
    up: &Unit,
) -> Series {
    // A width is a difference: it takes the unit's factor and not its offset.
    let width = |si: f64| si / up.factor;
    Series {
        name: line.name,
        role: line.role,
        points: points
            .iter()
            .filter_map(|point| Some((along.from_si(point.x), up.from_si((line.value)(point)?))))
            .collect(),
        band: bands
            .iter()
            .map(|known| {
                let band = (line.band)(known);
                (along.from_si(known.x), width(band.below), width(band.above))
            })
            .collect(),
    }
}

pub(super) fn table(
    points: &[Point],
    along: &Unit,
    cells: impl Fn(&Point) -> Vec<Option<f64>>,
) -> Vec<Vec<String>> {
    points
        .iter()
        .map(|point| {
            std::iter::once(Some(along.from_si(point.x)))
                .chain(cells(point))
                .map(|cell| cell.map_or_else(|| "–".to_owned(), |value| rounded_text(value, 3)))
                .collect()
        })
        .collect()
}

pub(super) fn shown_along(points: &[Point], along: &Unit) -> Vec<f64> {
    points.iter().map(|point| along.from_si(point.x)).collect()
}

/// Hottest head and oil over outside air.
#[must_use]
pub fn over_oat(view: &View<'_>) -> Figure {
    temperatures(view, &points(view, Swept::Oat), Swept::Oat)
}

/// Both charts over airspeed, from one sweep: pressures first, then head and oil.
#[must_use]
pub fn over_airspeed(view: &View<'_>) -> [Figure; 2] {
    let points = points(view, Swept::Airspeed);
    [
        required_and_available(view, &points),
        temperatures(view, &points, Swept::Airspeed),
    ]
}

fn temperatures(view: &View<'_>, points: &[Point], swept: Swept) -> Figure {
    let View {
        installation,
        condition,
        system,
        size,
        bands,
    } = *view;
    let temperature = Dimension::Temperature.shown(system);
    let (what, along, own) = match swept {
        Swept::Oat => ("OAT", temperature, None),
        _ => (
            tr("airspeed (indicated)"),
            Dimension::Speed.shown(system),
            Some(condition.airspeed.value),
        ),
    };
    let limits = installation
        .engine
        .limits(condition.phase, LimitChoice::Lowest);
    let (head_limit, oil_limit) = (limits.head.kelvin, limits.oil.kelvin);
    let within = |limit: f64, value: fn(&Point) -> f64| {
        where_holds(&inside(points, limit, value), points, along)
    };
    let chart = LineChart {
        crosses: Vec::new(),
        shades: Vec::new(),
        label: tr!("Head and oil over {}, {}", what, condition.name),
        along: format!("{what}, {}", along.symbol),
        up: temperature.symbol.to_owned(),
        series: vec![
            series(
                &Line {
                    name: tr("hottest head"),
                    role: Role::First,
                    value: |point| Some(point.figures.head_hottest),
                    band: |known| known.head_hottest,
                },
                points,
                bands,
                along,
                temperature,
            ),
            series(
                &Line {
                    name: tr("oil"),
                    role: Role::Third,
                    value: |point| Some(point.figures.oil),
                    band: |known| known.oil,
                },
                points,
                bands,
                along,
                temperature,
            ),
        ],
        limits: vec![
            (tr("CHT"), temperature.from_si(head_limit)),
            (tr("oil"), temperature.from_si(oil_limit)),
        ],
        marks: own
            .map(|speed| (along.from_si(speed), tr(HERE)))
            .into_iter()
            .collect(),
    };
    Figure {
        title: tr!(
            "Heads stay within your limit {}, oil {}",
            within(head_limit, |point| point.figures.head_hottest),
            within(oil_limit, |point| point.figures.oil)
        ),
        topic: tr!("Head and oil over {}, {}", what, condition.name),
        sentence: String::new(),
        svg: chart.svg(size),
        columns: vec![
            format!("{what}, {}", along.symbol),
            tr!("Hottest head, {}", temperature.symbol),
            tr!("Oil, {}", temperature.symbol),
        ],
        rows: table(points, along, |point| {
            vec![
                Some(temperature.from_si(point.figures.head_hottest)),
                Some(temperature.from_si(point.figures.oil)),
            ]
        }),
        source: tr(SOURCE).to_owned(),
        readout: chart.readout(size, shown_along(points, along)),
    }
}

/// Available and required pressure across the baffles over airspeed.
fn required_and_available(view: &View<'_>, points: &[Point]) -> Figure {
    let View {
        installation,
        condition,
        system,
        size,
        bands,
    } = *view;
    let speed = Dimension::Speed.shown(system);
    let pressure = Dimension::Pressure.shown(system);
    let available = |point: &Point| Some(pressure.from_si(point.figures.baffle_drop));
    let required = |point: &Point| point.required_drop_pa.map(|drop| pressure.from_si(drop));
    let chart = LineChart {
        crosses: Vec::new(),
        shades: Vec::new(),
        label: tr!(
            "Required and available Δp over airspeed, {}",
            condition.name
        ),
        along: tr!("airspeed (indicated), {}", speed.symbol),
        up: tr!("Δp across the baffles, {}", pressure.symbol),
        series: vec![
            series(
                &Line {
                    name: tr("available"),
                    role: Role::First,
                    value: |point| Some(point.figures.baffle_drop),
                    band: |known| known.baffle_drop,
                },
                points,
                bands,
                speed,
                pressure,
            ),
            series(
                &Line {
                    name: tr("required"),
                    role: Role::Limit,
                    value: |point| point.required_drop_pa,
                    band: |known| known.required_drop,
                },
                points,
                bands,
                speed,
                pressure,
            ),
        ],
        limits: Vec::new(),
        marks: vec![(speed.from_si(condition.airspeed.value), tr(HERE))],
    };
    let head_limit = installation.engine.head_limit.value;
    Figure {
        title: enough_pressure(points, head_limit, speed),
        topic: tr!(
            "Required and available Δp over airspeed, {}",
            condition.name
        ),
        sentence: String::new(),
        svg: chart.svg(size),
        columns: vec![
            tr!("Airspeed, {}", speed.symbol),
            tr!("Available, {}", pressure.symbol),
            tr!("Required, {}", pressure.symbol),
        ],
        rows: table(points, speed, |point| {
            vec![available(point), required(point)]
        }),
        source: tr!(
            "Required: what brings the hottest head to your limit. {}",
            tr(SOURCE)
        ),
        readout: chart.readout(size, shown_along(points, speed)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::sweep::crossings;
    use coolpath_core::document::example;

    const SIZE: Size = Size {
        width: 400,
        height: 260,
    };

    #[test]
    fn every_sweep_becomes_a_figure_whose_table_fits_its_columns() {
        let design = example::design();
        for condition in &design.conditions {
            for system in [UnitSystem::Customary, UnitSystem::Metric] {
                let view = View {
                    installation: &design.installation,
                    condition,
                    system,
                    size: SIZE,
                    bands: &[],
                };
                let [pressures, temperatures] = over_airspeed(&view);
                for figure in [
                    over_oat(&view),
                    temperatures,
                    pressures,
                    crate::charts::exit_sweep::speed_over_exit(&view),
                ] {
                    assert_eq!(figure.readout.along.len(), figure.rows.len());
                    assert!(figure.rows.len() > 20, "{}", figure.title);
                    assert!(
                        figure
                            .rows
                            .iter()
                            .all(|row| row.len() == figure.columns.len())
                    );
                    assert!(!figure.svg.contains("NaN") && figure.svg.contains("<svg"));
                    assert!(!figure.title.contains("NaN"), "{}", figure.title);
                }
            }
        }
    }

    #[test]
    fn the_chart_of_heads_and_that_of_pressures_name_the_same_speed() {
        let design = example::design();
        let points = sweep(
            &design.installation,
            &design.conditions[1].with_shutter_open(),
            Swept::Airspeed,
            &swept_values(Swept::Airspeed),
        );
        let limit = design.installation.engine.head_limit.value;
        let [(from, _)] = inside(&points, limit, |point| point.figures.head_hottest)[..] else {
            panic!("one stretch");
        };
        let crossing = crossings(&points)[0];
        assert!((from - crossing).abs() < 0.3, "{from} and {crossing} m/s");
    }

    #[test]
    fn the_crossing_is_told_in_words_where_the_example_climbs_too_slowly() {
        let design = example::design();
        let [figure, _] = over_airspeed(&View {
            installation: &design.installation,
            condition: &design.conditions[1],
            system: UnitSystem::Customary,
            size: SIZE,
            bands: &[],
        });
        assert!(figure.title.starts_with("Below "), "{}", figure.title);
    }

    #[test]
    fn a_temperature_band_is_a_difference_and_widens_the_chart() {
        let design = example::design();
        let condition = &design.conditions[3];
        let bands: Vec<PointBand> = band_values(Swept::Oat)
            .into_iter()
            .filter_map(|x| band_at(&design, condition, Swept::Oat, x))
            .collect();
        assert_eq!(bands.len(), 5);
        let line = Line {
            name: "oil",
            role: Role::Third,
            value: |point| Some(point.figures.oil),
            band: |known| known.oil,
        };
        let unit = Dimension::Temperature.shown(UnitSystem::Customary);
        let series = series(&line, &[], &bands, unit, unit);
        let kelvin = bands[0].oil.above;
        assert!(kelvin > 1.0 && kelvin < 60.0, "{kelvin} K");
        assert!((series.band[0].2 - 1.8 * kelvin).abs() < 1e-9);
        let view = |bands| View {
            installation: &design.installation,
            condition,
            system: UnitSystem::Customary,
            size: SIZE,
            bands,
        };
        let shaded = over_oat(&view(&bands)).svg;
        assert!(shaded.contains("polygon") && !shaded.contains("NaN"));
        assert!(!over_oat(&view(&[])).svg.contains("polygon"));
    }
}
