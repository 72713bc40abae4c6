//! Charts of sweeps: over outside air, over airspeed, over the exit's opening.

use super::canvas::Role;
use super::figure::{Figure, Size};
use super::lines::{LineChart, Series};
use coolpath_core::condition::ShutterPolicy;
use coolpath_core::sweep::{Point, Swept, crossings, sweep};
use coolpath_core::units::{Dimension, Unit, UnitSystem, rounded_text};
use coolpath_core::{Condition, Installation};

const SOURCE: &str = "Computed from your inputs, the shutter fully open; an estimate until flown.";
const STEPS: u32 = 24;

fn values(from: f64, to: f64) -> Vec<f64> {
    (0..=STEPS)
        .map(|step| from + (to - from) * f64::from(step) / f64::from(STEPS))
        .collect()
}

/// The condition with the shutter fully open, so that the whole cooler counts.
fn open(condition: &Condition) -> Condition {
    Condition {
        shutter: ShutterPolicy::Fixed,
        shutter_opening: 1.0,
        ..condition.clone()
    }
}

fn series(
    name: &'static str,
    role: Role,
    points: &[Point],
    along: &Unit,
    value: impl Fn(&Point) -> Option<f64>,
) -> Series {
    let points = points
        .iter()
        .filter_map(|point| Some((along.from_si(point.x), value(point)?)))
        .collect();
    Series { name, role, points }
}

fn table(
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

/// Hottest head and oil over outside air.
#[must_use]
pub fn over_oat(
    installation: &Installation,
    condition: &Condition,
    system: UnitSystem,
    size: Size,
) -> Figure {
    let points = sweep(
        installation,
        &open(condition),
        Swept::Oat,
        &values(244.0, 318.0),
    );
    temperatures(installation, condition, system, size, &points, Swept::Oat)
}

/// Both charts over airspeed, from one sweep: pressures first, then head and oil.
#[must_use]
pub fn over_airspeed(
    installation: &Installation,
    condition: &Condition,
    system: UnitSystem,
    size: Size,
) -> [Figure; 2] {
    let points = sweep(installation, &open(condition), Swept::Airspeed, &speeds());
    [
        required_and_available(condition, system, size, &points),
        temperatures(
            installation,
            condition,
            system,
            size,
            &points,
            Swept::Airspeed,
        ),
    ]
}

fn speeds() -> Vec<f64> {
    const KNOT: f64 = 1852.0 / 3600.0;
    values(50.0 * KNOT, 160.0 * KNOT)
}

/// First and last x at which a value stays within a limit, interpolated between the points.
fn inside(points: &[Point], limit: f64, value: fn(&Point) -> f64) -> Option<(f64, f64)> {
    let holds = |point: &Point| value(point) <= limit;
    let first = points.iter().position(holds)?;
    let last = points.iter().rposition(holds)?;
    let meeting =
        |a: &Point, b: &Point| a.x + (b.x - a.x) * (limit - value(a)) / (value(b) - value(a));
    let from = match first.checked_sub(1) {
        Some(before) => meeting(&points[before], &points[first]),
        None => points[first].x,
    };
    let to = points
        .get(last + 1)
        .map_or(points[last].x, |after| meeting(&points[last], after));
    Some((from, to))
}

fn temperatures(
    installation: &Installation,
    condition: &Condition,
    system: UnitSystem,
    size: Size,
    points: &[Point],
    swept: Swept,
) -> Figure {
    let temperature = Dimension::Temperature.shown(system);
    let (what, along, own) = match swept {
        Swept::Oat => ("OAT", temperature, None),
        _ => (
            "airspeed (indicated)",
            Dimension::Speed.shown(system),
            Some(condition.airspeed.value),
        ),
    };
    let head_limit = installation.engine.head_limit.value;
    let oil_limit = installation.engine.oil_limit.value;
    let within = |limit: f64, value: fn(&Point) -> f64| match inside(points, limit, value) {
        Some((first, last)) => format!(
            "from {:.0} to {:.0} {}",
            along.from_si(first),
            along.from_si(last),
            along.symbol
        ),
        None => "nowhere on this chart".to_owned(),
    };
    let chart = LineChart {
        label: format!("Head and oil over {what}, {}", condition.name),
        along: format!("{what}, {}", along.symbol),
        up: temperature.symbol.to_owned(),
        series: vec![
            series("hottest head", Role::First, points, along, |point| {
                Some(temperature.from_si(point.figures.head_hottest))
            }),
            series("oil", Role::Third, points, along, |point| {
                Some(temperature.from_si(point.figures.oil))
            }),
        ],
        limits: vec![
            temperature.from_si(head_limit),
            temperature.from_si(oil_limit),
        ],
        marks: own.map(|speed| along.from_si(speed)).into_iter().collect(),
    };
    Figure {
        title: format!("Head and oil over {what}: {}", condition.name),
        sentence: format!(
            "Heads stay within your limit {}, oil {}.",
            within(head_limit, |point| point.figures.head_hottest),
            within(oil_limit, |point| point.figures.oil)
        ),
        svg: chart.svg(size),
        columns: vec![
            format!("{what}, {}", along.symbol),
            format!("Hottest head, {}", temperature.symbol),
            format!("Oil, {}", temperature.symbol),
        ],
        rows: table(points, along, |point| {
            vec![
                Some(temperature.from_si(point.figures.head_hottest)),
                Some(temperature.from_si(point.figures.oil)),
            ]
        }),
        source: SOURCE.to_owned(),
    }
}

/// Available and required pressure across the baffles over airspeed.
fn required_and_available(
    condition: &Condition,
    system: UnitSystem,
    size: Size,
    points: &[Point],
) -> Figure {
    let speed = Dimension::Speed.shown(system);
    let pressure = Dimension::Pressure.shown(system);
    let found: Vec<f64> = crossings(points)
        .iter()
        .map(|x| speed.from_si(*x))
        .collect();
    let sentence = match found.as_slice() {
        [] if points.iter().all(|p| {
            p.required_drop_pa
                .is_some_and(|r| r < p.figures.baffle_drop)
        }) =>
        {
            "At every speed of this chart there is more pressure than the heads need.".to_owned()
        }
        [] => {
            "At no speed of this chart is there enough pressure to hold your head limit.".to_owned()
        }
        [one] => format!(
            "The lines cross at {one:.0} {}: slower than that, heads pass your limit at this power.",
            speed.symbol
        ),
        many => format!(
            "The lines cross at {} {}: with the propeller's help at low speed there is more than one.",
            many.iter()
                .map(|x| format!("{x:.0}"))
                .collect::<Vec<_>>()
                .join(", "),
            speed.symbol
        ),
    };
    let available = |point: &Point| Some(pressure.from_si(point.figures.baffle_drop));
    let required = |point: &Point| point.required_drop_pa.map(|drop| pressure.from_si(drop));
    let chart = LineChart {
        label: format!(
            "Required and available Δp over airspeed, {}",
            condition.name
        ),
        along: format!("airspeed (indicated), {}", speed.symbol),
        up: format!("Δp across the baffles, {}", pressure.symbol),
        series: vec![
            series("available", Role::First, points, speed, available),
            series("required", Role::Limit, points, speed, required),
        ],
        limits: Vec::new(),
        marks: vec![speed.from_si(condition.airspeed.value)],
    };
    Figure {
        title: format!(
            "Required and available Δp over airspeed: {}",
            condition.name
        ),
        sentence,
        svg: chart.svg(size),
        columns: vec![
            format!("Airspeed, {}", speed.symbol),
            format!("Available, {}", pressure.symbol),
            format!("Required, {}", pressure.symbol),
        ],
        rows: table(points, speed, |point| {
            vec![available(point), required(point)]
        }),
        source: format!("Required: what brings the hottest head to your limit. {SOURCE}"),
    }
}

/// Knots that cooling costs, over the exit's opening.
#[must_use]
pub fn speed_over_exit(
    installation: &Installation,
    condition: &Condition,
    system: UnitSystem,
    size: Size,
) -> Figure {
    let points = sweep(
        installation,
        &open(condition),
        Swept::ExitArea,
        &values(0.4, 1.8),
    );
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
        label: format!(
            "Speed that cooling costs over exit area, {}",
            condition.name
        ),
        along: format!("net area of the first exit, {}", area.symbol),
        up: format!("costs, {}", speed.symbol),
        series: vec![series("cooling drag", Role::First, &points, &along, cost)],
        limits: Vec::new(),
        marks: vec![along.from_si(1.0)],
    };
    let slope = points
        .first()
        .zip(points.last())
        .and_then(|(first, last)| Some(cost(last)? - cost(first)?))
        .unwrap_or_default();
    Figure {
        title: format!("Speed over exit opening: {}", condition.name),
        sentence: format!(
            "From the smallest to the largest exit of this chart cooling costs {slope:.1} {} more; \
             the table shows what that does to the heads.",
            speed.symbol
        ),
        svg: chart.svg(size),
        columns: vec![
            format!("Net area, {}", area.symbol),
            format!("Costs, {}", speed.symbol),
            format!("Hottest head, {}", temperature.symbol),
        ],
        rows: table(&points, &along, |point| {
            vec![
                cost(point),
                Some(temperature.from_si(point.figures.head_hottest)),
            ]
        }),
        source: SOURCE.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::demo;

    const SIZE: Size = Size {
        width: 400,
        height: 260,
    };

    #[test]
    fn every_sweep_becomes_a_figure_whose_table_fits_its_columns() {
        let design = demo::design();
        for condition in &design.conditions {
            for system in [UnitSystem::Customary, UnitSystem::Metric] {
                let [pressures, temperatures] =
                    over_airspeed(&design.installation, condition, system, SIZE);
                for figure in [
                    over_oat(&design.installation, condition, system, SIZE),
                    temperatures,
                    pressures,
                    speed_over_exit(&design.installation, condition, system, SIZE),
                ] {
                    assert!(figure.rows.len() > 20, "{}", figure.title);
                    assert!(
                        figure
                            .rows
                            .iter()
                            .all(|row| row.len() == figure.columns.len())
                    );
                    assert!(!figure.svg.contains("NaN") && figure.svg.contains("<svg"));
                    assert!(!figure.sentence.contains("NaN"), "{}", figure.sentence);
                }
            }
        }
    }

    #[test]
    fn the_chart_of_heads_and_that_of_pressures_name_the_same_speed() {
        let design = demo::design();
        let condition = open(&design.conditions[1]);
        let points = sweep(&design.installation, &condition, Swept::Airspeed, &speeds());
        let limit = design.installation.engine.head_limit.value;
        let (from, _) =
            inside(&points, limit, |point| point.figures.head_hottest).expect("somewhere");
        let crossing = crossings(&points)[0];
        assert!((from - crossing).abs() < 0.3, "{from} and {crossing} m/s");
        assert_eq!(
            inside(&points, 0.0, |point| point.figures.head_hottest),
            None
        );
    }

    #[test]
    fn the_crossing_is_told_in_words_where_the_example_climbs_too_slowly() {
        let design = demo::design();
        let [figure, _] = over_airspeed(
            &design.installation,
            &design.conditions[1],
            UnitSystem::Customary,
            SIZE,
        );
        assert!(
            figure.sentence.starts_with("The lines cross at"),
            "{}",
            figure.sentence
        );
    }
}
