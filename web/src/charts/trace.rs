//! Trace of a log's session: heads and oil over time, steady windows shaded.

use super::canvas::Role;
use super::figure::{Figure, Size};
use super::lines::{LineChart, Series};
use coolpath_core::log::{Channel, Fate, Kind, Session, Stretch};
use coolpath_core::readings::Quantity;
use coolpath_core::units::{Dimension, UnitSystem, rounded_text};

/// Points along the trace.
const POINTS: usize = 240;

/// Figure of a session.
#[must_use]
pub fn figure(session: &Session, stretches: &[Stretch], system: UnitSystem, size: Size) -> Figure {
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
    let over = |of: &dyn Fn(f64) -> Option<f64>| -> Vec<(f64, f64)> {
        times
            .iter()
            .filter_map(|time| Some((time / 60.0, of(*time)?)))
            .collect()
    };
    let extreme = |time: f64, pick: fn(f64, f64) -> f64| {
        heads
            .iter()
            .filter_map(|head| mean(head, time))
            .reduce(pick)
    };
    let oil = session.channel(Quantity::Oil);
    let all = [
        (
            "hottest head",
            Role::First,
            over(&|time| extreme(time, f64::max)),
        ),
        (
            "coolest head",
            Role::Second,
            over(&|time| extreme(time, f64::min)),
        ),
        ("oil", Role::Third, over(&|time| mean(oil?, time))),
    ];
    let series: Vec<Series> = all
        .into_iter()
        .filter(|(_, _, points)| points.len() > 1)
        .map(|(name, role, points)| Series {
            name,
            role,
            points,
            band: Vec::new(),
        })
        .collect();
    let steady: Vec<(f64, f64)> = stretches
        .iter()
        .filter(|stretch| stretch.kind == Kind::Steady)
        .map(|stretch| (stretch.from_s / 60.0, stretch.to_s / 60.0))
        .collect();
    let sentence = match steady.len() {
        0 => "No steady window: no 120 s in which heads and oil change by less than 2 °F a minute."
            .to_owned(),
        1 => "One steady stretch, shaded.".to_owned(),
        count => format!("{count} steady stretches, shaded."),
    };
    let chart = LineChart {
        label: "Heads and oil over the log".to_owned(),
        along: "minutes".to_owned(),
        up: unit.symbol.to_owned(),
        series,
        limits: Vec::new(),
        marks: Vec::new(),
        shades: steady,
    };
    let rows: Vec<(f64, Vec<String>)> = times
        .iter()
        .step_by(4)
        .map(|time| {
            let shown = |value: Option<f64>| {
                value.map_or_else(|| "–".to_owned(), |value| format!("{value:.0}"))
            };
            (
                time / 60.0,
                vec![
                    rounded_text(time / 60.0, 3),
                    shown(extreme(*time, f64::max)),
                    shown(extreme(*time, f64::min)),
                    shown(oil.and_then(|oil| mean(oil, *time))),
                ],
            )
        })
        .collect();
    Figure {
        title: "Heads and oil over the log".to_owned(),
        sentence,
        svg: chart.svg(size),
        columns: vec![
            "Minute".to_owned(),
            format!("Hottest head, {}", unit.symbol),
            format!("Coolest head, {}", unit.symbol),
            format!("Oil, {}", unit.symbol),
        ],
        readout: chart.readout(size, rows.iter().map(|row| row.0).collect()),
        rows: rows.into_iter().map(|row| row.1).collect(),
        source: "Your log, as it is; spikes and dead probes are left out.".to_owned(),
    }
}
