//! Trace of a log's session: heads and oil over time, steady windows shaded.

use crate::charts::canvas::Role;
use crate::charts::figure::{Figure, Size};
use crate::charts::lines::{LineChart, Series};
use coolpath_core::document::installation::Engine;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::language::tr;
use coolpath_core::prove::log::{Channel, Criteria, Fate, Kind, Session, Stretch, Why};
use coolpath_core::units::si::deltaf;
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};

/// Points along the trace.
const POINTS: usize = 240;

/// Most crosses, so that a torn log still draws fast.
const CROSSES: usize = 300;

/// Heads and oil that were set aside, by minute, but for values that no thermometer shows.
fn set_aside(session: &Session, shown: impl Fn(f64) -> f64) -> Vec<(f64, f64)> {
    let temperatures = session
        .channels
        .iter()
        .filter(|channel| channel.quantity.is_head() || channel.quantity == Quantity::Oil);
    temperatures
        .flat_map(|channel| &channel.set_aside)
        .filter(|one| one.why == Why::TooFast)
        .filter_map(|one| Some((session.seconds.get(one.row)? / 60.0, shown(one.value))))
        .take(CROSSES)
        .collect()
}

/// What the trace says, and how it is read.
fn words(steady: usize, aside: bool) -> (String, String) {
    let (title, mut read) = match steady {
        0 => (
            tr("No steady window in this log").to_owned(),
            would_take(&Criteria::default()),
        ),
        1 => (
            tr("One steady stretch").to_owned(),
            tr("It is shaded.").to_owned(),
        ),
        count => (
            tr!("{} steady stretches", count),
            tr("They are shaded.").to_owned(),
        ),
    };
    if aside {
        read.push_str(tr(
            " Crosses were set aside: nothing moves there and back so fast.",
        ));
    }
    (title, read)
}

/// What a steady window is.
fn would_take(criteria: &Criteria) -> String {
    tr!(
        "It would take {:.0} s in which heads and oil change by less than {:.0} °F a minute.",
        criteria.window_s,
        60.0 * criteria.drift_k_s / deltaf(1.0)
    )
}

/// Minutes of the steady stretches.
fn shades(stretches: &[Stretch]) -> Vec<(f64, f64)> {
    stretches
        .iter()
        .filter(|stretch| stretch.kind == Kind::Steady)
        .map(|stretch| (stretch.from_s / 60.0, stretch.to_s / 60.0))
        .collect()
}

/// Limits of heads and oil, K, of those that a log holds.
fn limits(engine: &Engine, held: [bool; 2]) -> impl Iterator<Item = (&'static str, f64)> {
    let all = [
        (tr("CHT"), engine.head_limit.value),
        (tr("oil"), engine.oil_limit.value),
    ];
    let pairs = all.into_iter().zip(held);
    pairs.filter_map(|(limit, held)| held.then_some(limit))
}

/// Figure of a session.
///
/// # Arguments
/// * `engine` - whose limits are drawn, of what the log holds
#[must_use]
pub fn figure(
    session: &Session,
    stretches: &[Stretch],
    engine: &Engine,
    system: UnitSystem,
    size: Size,
) -> Figure {
    let unit = Dimension::Temperature.shown(system);
    let step_s = (session.duration_s() / POINTS as f64).max(1e-9);
    let times: Vec<f64> = (0..POINTS).map(|at| (at as f64 + 0.5) * step_s).collect();
    let mean = |channel: &Channel, time: f64| {
        let rows = session.rows_between(time - 0.5 * step_s, time + 0.5 * step_s);
        session
            .mean(channel, rows)
            .map(|kelvin| unit.from_si(kelvin))
    };
    let heads: Vec<&Channel> = session
        .channels
        .iter()
        .filter(|channel| channel.quantity.is_head() && channel.fate != Fate::Dead)
        .collect();
    let oil = session.channel(Quantity::Oil);
    // Hottest head, coolest head and oil at each time, each computed once.
    let points: Vec<[Option<f64>; 3]> = times
        .iter()
        .map(|time| {
            let now = || heads.iter().filter_map(|head| mean(head, *time));
            [
                now().reduce(f64::max),
                now().reduce(f64::min),
                oil.and_then(|oil| mean(oil, *time)),
            ]
        })
        .collect();
    let series: Vec<Series> = [
        (tr("hottest head"), Role::First),
        (tr("coolest head"), Role::Second),
        (tr("oil"), Role::Third),
    ]
    .into_iter()
    .enumerate()
    .map(|(which, (name, role))| Series {
        name,
        role,
        points: times
            .iter()
            .zip(&points)
            .filter_map(|(time, point)| Some((time / 60.0, point[which]?)))
            .collect(),
        band: Vec::new(),
    })
    .filter(|series| series.points.len() > 1)
    .collect();
    let steady = shades(stretches);
    let crosses = set_aside(session, |kelvin| unit.from_si(kelvin));
    let (title, sentence) = words(steady.len(), !crosses.is_empty());
    let chart = LineChart {
        label: tr("Heads and oil over the log").to_owned(),
        along: tr("minutes").to_owned(),
        up: unit.symbol.to_owned(),
        series,
        limits: limits(engine, [!heads.is_empty(), oil.is_some()])
            .map(|(whose, kelvin)| (whose, unit.from_si(kelvin)))
            .collect(),
        marks: Vec::new(),
        shades: steady,
        crosses,
    };
    let rows: Vec<(f64, Vec<String>)> =
        times
            .iter()
            .zip(&points)
            .step_by(4)
            .map(|(time, point)| {
                let mut row = vec![rounded_text(time / 60.0, 3)];
                row.extend(point.map(|value| {
                    value.map_or_else(|| "–".to_owned(), |value| format!("{value:.0}"))
                }));
                (time / 60.0, row)
            })
            .collect();
    Figure {
        title,
        topic: tr("Heads and oil over the log").to_owned(),
        sentence,
        svg: chart.svg(size),
        columns: vec![
            tr("Minute").to_owned(),
            tr!("Hottest head, {}", unit.symbol),
            tr!("Coolest head, {}", unit.symbol),
            tr!("Oil, {}", unit.symbol),
        ],
        readout: chart.readout(size, rows.iter().map(|row| row.0).collect()),
        rows: rows.into_iter().map(|row| row.1).collect(),
        source: tr("Your log as recorded; values set aside and dead probes are left out.")
            .to_owned(),
    }
}
