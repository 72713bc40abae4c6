//! What the card for the pocket says: two conditions side by side, a row for each OAT. Pure.

use crate::decide::card::words;
use crate::kit::format;
use coolpath_core::answer::solved::ShutterState;
use coolpath_core::decide::shutter_card::{CardPoint, tape_card, usual_oats_k};
use coolpath_core::document::condition::{Condition, Phase};
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::typed::UnitSystem;

/// A condition on the card, with its points.
pub struct Column<'a> {
    /// The condition.
    pub condition: &'a Condition,
    /// Its points; an OAT without an answer has none.
    pub points: &'a [CardPoint],
}

/// Cells of one condition at one OAT: where the lever or the tape goes, and the oil there.
#[derive(Debug, Clone, PartialEq)]
pub struct Cells {
    /// Notch, or strips of tape.
    pub set: String,
    /// Oil at the gauge.
    pub oil: String,
    /// Whether the oil is over its limit there.
    pub over: bool,
}

impl Cells {
    /// Of an OAT at which the card has nothing to say.
    fn none() -> Self {
        Self {
            set: format::NONE.to_owned(),
            oil: format::NONE.to_owned(),
            over: false,
        }
    }
}

/// Places of the first climb and the first level condition; what is missing is the first or the last.
#[must_use]
pub fn usual_pair(design: &Design) -> [usize; 2] {
    let first = |phase: Phase| design.conditions.iter().position(|one| one.phase == phase);
    let last = design.conditions.len().saturating_sub(1);
    [
        first(Phase::Climb).unwrap_or(0),
        first(Phase::Cruise).unwrap_or(last),
    ]
}

/// Rows of the card: the OAT, and the cells of each column.
#[must_use]
pub fn rows(
    design: &Design,
    columns: &[Column],
    (notches, strips): (u32, u32),
    system: UnitSystem,
) -> Vec<(String, Vec<Cells>)> {
    let fitted = design.installation.shutter.fitted;
    let limit = design.installation.engine.oil_limit.value;
    let cell = |column: &Column, oat_k: f64| {
        let point = column
            .points
            .iter()
            .find(|point| (point.oat.value - oat_k).abs() < 0.01);
        // Where oil congeals in the cold core no setting can be told.
        let Some(point) = point.filter(|point| point.congealing.is_none()) else {
            return Cells::none();
        };
        let (set, oil_k) = if fitted {
            (notch(point, notches), point.oil.value)
        } else {
            let Some(taped) = taped(design, column.condition, oat_k, strips) else {
                return Cells::none();
            };
            taped
        };
        Cells {
            set,
            oil: format::whole_degrees(oil_k, system),
            over: oil_k > limit,
        }
    };
    usual_oats_k(system)
        .into_iter()
        .map(|oat_k| {
            let cells = columns.iter().map(|column| cell(column, oat_k)).collect();
            (format::whole_degrees(oat_k, system), cells)
        })
        .collect()
}

/// Strips of tape, and the oil under them, K; `None` where there is no answer.
fn taped(design: &Design, condition: &Condition, oat_k: f64, strips: u32) -> Option<(String, f64)> {
    let installation = &design.installation;
    let tape = tape_card(installation, condition, &[oat_k]).pop()?.ok()?;
    let oil_k = words::oil_under_k(installation, condition, oat_k, tape, strips)?;
    Some((words::strips(tape, strips), oil_k))
}

/// The notch alone; what it is counted of stands in the column's head.
fn notch(point: &CardPoint, notches: u32) -> String {
    match point.state {
        ShutterState::OpenTooHot { .. } => tr!("{} open", notches),
        ShutterState::ClosedTooCold { .. } => tr("0 shut").to_owned(),
        _ => words::notch(point.opening, notches).to_string(),
    }
}

/// What the card holds the oil at, such as "190 °F"; one for each column where they differ.
#[must_use]
pub fn held(columns: &[Column], system: UnitSystem) -> String {
    let mut targets: Vec<String> = columns
        .iter()
        .map(|column| format::degrees(column.condition.oil_target.value, system))
        .collect();
    targets.dedup();
    targets.join(tr(" and "))
}

/// What a dash stands for, where oil may congeal in the cold core.
#[must_use]
pub fn congealing(columns: &[Column]) -> Option<String> {
    let mut points = columns.iter().flat_map(|column| column.points);
    points.any(|point| point.congealing.is_some()).then(|| {
        tr!(
            "{} Oil may congeal in the cold core: no setting.",
            format::NONE
        )
    })
}

/// From which OAT a jammed shutter passes the oil's limit, a line for each condition in which it does.
#[must_use]
pub fn jams(design: &Design, columns: &[Column], system: UnitSystem) -> Vec<String> {
    let limit = design.installation.engine.oil_limit.value;
    if !design.installation.shutter.fitted {
        return Vec::new();
    }
    let mut found = Vec::new();
    for (what, oil) in [
        (
            tr("Jammed shut"),
            (|point| point.oil_jammed_shut.value) as fn(&CardPoint) -> f64,
        ),
        (tr("Jammed open"), |point| point.oil_jammed_open.value),
    ] {
        for column in columns {
            let first = column.points.iter().find(|point| oil(point) > limit);
            found.extend(first.map(|point| {
                tr!(
                    "{}, oil goes over {} from {} outside in {}.",
                    what,
                    format::degrees(limit, system),
                    format::degrees(point.oat.value, system),
                    column.condition.name
                )
            }));
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::decide::shutter_card::shutter_card;
    use coolpath_core::document::example;

    fn points(design: &Design, place: usize, system: UnitSystem) -> Vec<CardPoint> {
        shutter_card(design, &design.conditions[place], &usual_oats_k(system))
            .into_iter()
            .flatten()
            .collect()
    }

    #[test]
    fn climb_and_level_flight_stand_side_by_side_at_each_oat() {
        let design = example::design();
        let pair = usual_pair(&design);
        assert_eq!(design.conditions[pair[0]].phase, Phase::Climb);
        assert_eq!(design.conditions[pair[1]].phase, Phase::Cruise);
        let both = pair.map(|place| points(&design, place, UnitSystem::Customary));
        let columns = [0, 1].map(|at| Column {
            condition: &design.conditions[pair[at]],
            points: &both[at],
        });
        let rows = rows(&design, &columns, (6, 8), UnitSystem::Customary);
        assert_eq!(rows.len(), usual_oats_k(UnitSystem::Customary).len());
        assert_eq!(rows[0].0, "−20");
        // Warmer air asks for a notch at least as open, and the lever has no more than it has.
        let notches = |at: usize| -> Vec<u32> {
            let digits = |text: &str| text.split(' ').next().and_then(|n| n.parse().ok());
            rows.iter()
                .filter_map(|row| digits(&row.1[at].set))
                .collect()
        };
        for at in [0, 1] {
            assert!(notches(at).is_sorted(), "{:?}", notches(at));
            // Where oil may congeal there is no notch.
            let told = both[at].iter().filter(|point| point.congealing.is_none());
            assert_eq!(notches(at).len(), told.count());
            assert!(notches(at).iter().all(|notch| *notch <= 6));
        }
        assert_ne!(notches(0), notches(1), "a climb is not level flight");
        // A shutter jammed shut is told where its oil passes the limit, and nowhere else.
        let told = jams(&design, &columns, UnitSystem::Customary);
        for (at, column) in columns.iter().enumerate() {
            let passes = both[at].iter().any(|point| {
                point.oil_jammed_shut.value > design.installation.engine.oil_limit.value
            });
            let is_told = told.iter().any(|line| {
                line.starts_with("Jammed shut") && line.contains(&column.condition.name)
            });
            assert_eq!(passes, is_told, "{told:?}");
        }
    }

    #[test]
    fn without_a_shutter_strips_of_tape_stand_there_and_a_missing_point_is_a_dash() {
        let mut design = example::design();
        design.installation.shutter.fitted = false;
        let mut found = points(&design, 3, UnitSystem::Metric);
        found.remove(0);
        let columns = [Column {
            condition: &design.conditions[3],
            points: &found,
        }];
        let rows = rows(&design, &columns, (6, 8), UnitSystem::Metric);
        assert_eq!((rows[0].0.as_str(), rows[1].0.as_str()), ("−30", "−25"));
        assert_eq!(rows[0].1[0].set, format::NONE);
        // The oil is that under the tape: near what is wanted, not what a bare core would leave.
        let (row, point) = (&rows[3].1[0], &found[2]);
        assert!(row.set.ends_with(" of 8"), "{row:?}");
        let taped_degc: f64 = row.oil.parse().expect("a number");
        assert!(
            taped_degc > point.oil.value - 273.15 + 5.0 && taped_degc < 88.0,
            "{row:?}"
        );
        assert!(
            rows[1..].iter().all(|row| row.1[0].set.contains(" of 8")
                || row.1[0].set == format::NONE
                || row.1[0].set.starts_with("none")
                || row.1[0].set.starts_with("as many")),
            "{rows:?}"
        );
        assert!(jams(&design, &columns, UnitSystem::Metric).is_empty());
    }

    #[test]
    fn oil_over_its_limit_is_marked() {
        let mut design = example::design();
        let found = points(&design, 3, UnitSystem::Customary);
        let hottest = found
            .iter()
            .map(|point| point.oil.value)
            .fold(0.0, f64::max);
        design.installation.engine.oil_limit.value = hottest - 0.5;
        let columns = [Column {
            condition: &design.conditions[3],
            points: &found,
        }];
        let rows = rows(&design, &columns, (6, 8), UnitSystem::Customary);
        assert!(rows.iter().any(|row| row.1[0].over));
        assert!(
            rows.iter()
                .zip(&found)
                .all(|(row, point)| { row.1[0].over == (point.oil.value > hottest - 0.5) })
        );
    }

    #[test]
    fn where_oil_may_congeal_no_notch_is_given_and_it_is_said() {
        let design = example::design();
        let mut found = points(&design, 3, UnitSystem::Customary);
        let thick = found.len() / 3;
        for (at, point) in found.iter_mut().enumerate() {
            point.congealing = (at < thick).then(|| coolpath_core::units::quantity::pascal(1e4));
        }
        let columns = [Column {
            condition: &design.conditions[3],
            points: &found,
        }];
        let rows = rows(&design, &columns, (6, 8), UnitSystem::Customary);
        for (at, (oat, cells)) in rows.iter().enumerate() {
            assert_eq!(cells[0].set == format::NONE, at < thick, "{oat}");
        }
        assert!(congealing(&columns).is_some_and(|said| said.contains("may congeal")));
        for point in &mut found {
            point.congealing = None;
        }
        let columns = [Column {
            condition: &design.conditions[3],
            points: &found,
        }];
        assert_eq!(congealing(&columns), None);
        assert_eq!(held(&columns, UnitSystem::Customary), "190 °F");
    }
}
