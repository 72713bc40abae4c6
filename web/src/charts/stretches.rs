//! Where on a chart something holds, in words. Pure.

use coolpath_core::answer::sweep::{Point, crossings};
use coolpath_core::language::tr;
use coolpath_core::units::typed::Unit;

/// A stretch along a chart, from and to, SI.
type Stretch = (f64, f64);

/// Stretches along in which something holds.
///
/// # Arguments
/// * `meeting` - where it begins or ends to hold between two points, of which it holds at one
fn stretches(
    points: &[Point],
    holds: impl Fn(&Point) -> bool,
    meeting: impl Fn(&Point, &Point) -> f64,
) -> Vec<Stretch> {
    let mut found: Vec<Stretch> = Vec::new();
    let mut before: Option<&Point> = None;
    for point in points {
        let held = before.filter(|before| holds(before));
        match (held, holds(point)) {
            (None, true) => {
                let from = before.map_or(point.x, |before| meeting(before, point));
                found.push((from, point.x));
            }
            (Some(_), true) => {
                if let Some(last) = found.last_mut() {
                    last.1 = point.x;
                }
            }
            (Some(before), false) => {
                if let Some(last) = found.last_mut() {
                    last.1 = meeting(before, point);
                }
            }
            (None, false) => {}
        }
        before = Some(point);
    }
    found
}

/// Where a value meets a limit between two points.
fn limit_met(limit: f64, value: fn(&Point) -> f64, a: &Point, b: &Point) -> f64 {
    a.x + (b.x - a.x) * (limit - value(a)) / (value(b) - value(a))
}

/// Stretches along in which a value stays within a limit.
pub(super) fn inside(points: &[Point], limit: f64, value: fn(&Point) -> f64) -> Vec<Stretch> {
    let holds = |point: &Point| value(point) <= limit;
    stretches(points, holds, |a, b| limit_met(limit, value, a, b))
}

/// Stretches along in which there is the pressure that the heads need. Where no flow would bring them
/// to their limit, they themselves tell on which side of it they stay.
fn enough(points: &[Point], head_limit: f64) -> Vec<Stretch> {
    let head = |point: &Point| point.figures.head_hottest;
    let holds = |point: &Point| match point.required_drop_pa {
        Some(needed) => needed <= point.figures.baffle_drop,
        None => head(point) <= head_limit,
    };
    stretches(points, holds, |a, b| {
        let crossing = crossings(&[*a, *b]).first().copied();
        crossing
            .unwrap_or_else(|| limit_met(head_limit, head, a, b))
            .clamp(a.x, b.x)
    })
}

/// A value along in words.
fn shown(x: f64, along: &Unit) -> String {
    format!("{:.0} {}", along.from_si(x), along.symbol).replace('-', "−")
}

/// Whether a stretch begins, and whether it ends, on the chart: its own ends count as neither.
fn ends_on(points: &[Point], (first, last): Stretch) -> (bool, bool) {
    (
        points.first().is_some_and(|point| point.x < first),
        points.last().is_some_and(|point| point.x > last),
    )
}

/// Stretches in words, as what follows “stays within”.
pub(super) fn where_holds(found: &[Stretch], points: &[Point], along: &Unit) -> String {
    if found.is_empty() {
        return tr("nowhere on this chart").to_owned();
    }
    let shown = |x| shown(x, along);
    found
        .iter()
        .map(|&(first, last)| match ends_on(points, (first, last)) {
            (false, false) => tr("everywhere on this chart").to_owned(),
            (false, true) => tr!("up to {}", shown(last)),
            (true, false) => tr!("from {} up", shown(first)),
            (true, true) => tr!("from {} to {}", shown(first), shown(last)),
        })
        .collect::<Vec<_>>()
        .join(tr(" and "))
}

/// What a chart of required and available pressure over airspeed says.
pub(super) fn enough_pressure(points: &[Point], head_limit: f64, speed: &Unit) -> String {
    let found = enough(points, head_limit);
    let over = |side: &str, x: f64| {
        tr!(
            "{} {} the heads go over your limit at this power",
            side,
            shown(x, speed)
        )
    };
    let one = match found[..] {
        [stretch] => Some((stretch, ends_on(points, stretch))),
        _ => None,
    };
    match one {
        _ if points.is_empty() => tr("No speed of this chart has an answer").to_owned(),
        _ if found.is_empty() => {
            tr("At no speed of this chart is there enough pressure to hold your head limit")
                .to_owned()
        }
        Some((_, (false, false))) => {
            tr("At every speed of this chart there is more pressure than the heads need").to_owned()
        }
        Some(((from, _), (true, false))) => over(tr("Below"), from),
        Some(((_, to), (false, true))) => over(tr("Above"), to),
        _ => tr!(
            "At this power the heads stay within your limit only {}",
            where_holds(&found, points, speed)
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::band::Figures;
    use coolpath_core::units::typed::{Dimension, UnitSystem};

    const LIMIT_K: f64 = 500.0;

    /// Points at 10, 20, 30 … m/s by their hottest heads, K.
    fn by_heads(heads: &[f64]) -> Vec<Point> {
        let point = |(at, head): (usize, &f64)| Point {
            x: 10.0 * (at + 1) as f64,
            figures: Figures {
                head_hottest: *head,
                baffle_drop: 1000.0,
                ..Figures::default()
            },
            speed_cost_m_s: None,
            required_drop_pa: None,
        };
        heads.iter().enumerate().map(point).collect()
    }

    /// The same, heads at their limit, by the pressures that they require, Pa, of 1000 Pa that there are.
    fn by_pressures(required: &[Option<f64>]) -> Vec<Point> {
        let mut points = by_heads(&vec![LIMIT_K; required.len()]);
        for (point, required) in points.iter_mut().zip(required) {
            point.required_drop_pa = *required;
        }
        points
    }

    fn stays(points: &[Point]) -> String {
        let found = inside(points, LIMIT_K, |point| point.figures.head_hottest);
        where_holds(&found, points, Dimension::Speed.shown(UnitSystem::Metric))
    }

    fn title(points: &[Point]) -> String {
        enough_pressure(points, LIMIT_K, Dimension::Speed.shown(UnitSystem::Metric))
    }

    #[test]
    fn an_end_of_the_chart_is_no_end_of_what_holds() {
        assert_eq!(
            stays(&by_heads(&[400.0, 450.0])),
            "everywhere on this chart"
        );
        assert_eq!(stays(&by_heads(&[400.0, 600.0])), "up to 54 km/h");
        assert_eq!(stays(&by_heads(&[600.0, 400.0])), "from 54 km/h up");
        assert_eq!(
            stays(&by_heads(&[600.0, 400.0, 600.0])),
            "from 54 km/h to 90 km/h"
        );
        assert_eq!(stays(&by_heads(&[600.0, 501.0])), "nowhere on this chart");
        assert_eq!(stays(&[]), "nowhere on this chart");
    }

    #[test]
    fn a_gap_between_is_no_part_of_what_holds() {
        assert_eq!(
            stays(&by_heads(&[400.0, 600.0, 600.0, 400.0])),
            "up to 54 km/h and from 126 km/h up"
        );
    }

    #[test]
    fn the_side_on_which_the_heads_are_over_is_that_of_the_lines() {
        let some = |required: &[f64]| {
            let required: Vec<Option<f64>> = required.iter().copied().map(Some).collect();
            title(&by_pressures(&required))
        };
        let over = "the heads go over your limit at this power";
        assert_eq!(some(&[1500.0, 500.0]), format!("Below 54 km/h {over}"));
        assert_eq!(some(&[500.0, 1500.0]), format!("Above 54 km/h {over}"));
        assert_eq!(
            some(&[500.0, 1500.0, 1500.0, 500.0]),
            "At this power the heads stay within your limit only up to 54 km/h and from 126 km/h up"
        );
        assert!(some(&[500.0, 900.0]).starts_with("At every speed"));
        assert!(some(&[1500.0, 1100.0]).starts_with("At no speed"));
        assert_eq!(title(&[]), "No speed of this chart has an answer");
    }

    #[test]
    fn heads_that_no_flow_brings_to_their_limit_tell_their_side_themselves() {
        let mut points = by_pressures(&[None, Some(500.0), Some(900.0)]);
        points[0].figures.head_hottest = 300.0;
        assert!(title(&points).starts_with("At every speed"));
        points[0].figures.head_hottest = 700.0;
        let said = title(&points);
        assert!(
            said.starts_with("Below ") && said.ends_with("at this power"),
            "{said}"
        );
    }
}
