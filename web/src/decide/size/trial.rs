//! A size that is tried by hand on the map of sizes: where it may lie, and what is said of it. Pure.

use crate::decide::size::openings_words::changes;
use crate::decide::size::result::OFFERED_FROM;
use crate::kit::format;
use coolpath_core::answer::verdict::{odds_about, odds_percent};
use coolpath_core::decide::size::{Bounds, Nearest, Spot};
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::Installation;
use coolpath_core::document::installation::areas::{exit_reach_m2, inlets_reach_m2, resized};
use coolpath_core::document::limits::{LimitKind, Limits};
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Chosen, Dimension, UnitSystem};

/// Inlet and exit area, m².
pub type Point = (f64, f64);

/// Where a size may be moved to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// Ends for the inlets, m²; equal where they stay.
    pub inlets_m2: (f64, f64),
    /// Ends for the exit, m²; equal where it stays.
    pub exit_m2: (f64, f64),
    /// Step of an arrow key, m²; a pointer moves in halves of it.
    pub step_m2: f64,
}

/// The part of a range that dimensions permit; the first one where they permit none of it.
fn common((least, most): (f64, f64), reach: (f64, f64)) -> (f64, f64) {
    let (low, high) = (least.max(reach.0), most.min(reach.1));
    if low <= high {
        (low, high)
    } else {
        (least, least)
    }
}

impl Room {
    /// Room on a chart with these ends; an opening whose bounds are one value stays there.
    #[must_use]
    pub fn new(
        installation: &Installation,
        ends: ((f64, f64), (f64, f64)),
        bounds: &Bounds,
        system: UnitSystem,
    ) -> Self {
        let of = |ends: (f64, f64), bounds: (f64, f64), reach: (f64, f64)| {
            if bounds.0 < bounds.1 {
                common(ends, reach)
            } else {
                bounds
            }
        };
        let step_m2 = if system.is_customary(Chosen::Length) {
            Dimension::Area.units()[0].to_si(1.0)
        } else {
            5e-4
        };
        Self {
            inlets_m2: of(ends.0, bounds.inlets_m2, inlets_reach_m2(installation)),
            exit_m2: of(ends.1, bounds.exit_m2, exit_reach_m2(installation)),
            step_m2,
        }
    }

    /// The point nearest to one that was pointed at, at whole halves of a step.
    #[must_use]
    pub fn at(&self, (inlets, exit): Point) -> Point {
        let half = 0.5 * self.step_m2;
        let snapped = |m2: f64| (m2 / half).round() * half;
        self.kept((snapped(inlets), snapped(exit)))
    }

    /// The point within the room.
    fn kept(&self, (inlets, exit): Point) -> Point {
        (
            inlets.clamp(self.inlets_m2.0, self.inlets_m2.1),
            exit.clamp(self.exit_m2.0, self.exit_m2.1),
        )
    }

    /// Where a key leads to; arrows go along the axes, ten steps with Shift.
    #[must_use]
    pub fn by_key(&self, key: &str, is_shifted: bool, from: Point) -> Option<Point> {
        let step = if is_shifted { 10.0 } else { 1.0 } * self.step_m2;
        let (along, up) = match key {
            "ArrowRight" => (step, 0.0),
            "ArrowLeft" => (-step, 0.0),
            "ArrowUp" => (0.0, step),
            "ArrowDown" => (0.0, -step),
            _ => return None,
        };
        Some(self.kept((from.0 + along, from.1 + up)))
    }
}

/// Odds of a size that is tried.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Odds {
    /// They are being worked out.
    Unknown,
    /// Least chance of all conditions that both limits hold [-].
    Known(f64),
}

/// Why a size is not offered; `None` where it is, or its odds are not known yet.
#[must_use]
pub fn refusal(
    spot: Option<&Spot>,
    odds: Odds,
    point: Point,
    bounds: &Bounds,
    design: &Design,
    system: UnitSystem,
) -> Option<String> {
    let Some(spot) = spot else {
        return Some(tr("Not offered: a condition has no answer at this size.").to_owned());
    };
    if !spot.holds() {
        let (what, nearest) = if spot.head.margin_k < spot.oil.margin_k {
            (tr("CHT"), &spot.head)
        } else {
            (tr("oil"), &spot.oil)
        };
        let name = design.condition_name(nearest.condition);
        let over = format::quantity(
            -nearest.margin_k,
            Dimension::TemperatureDifference,
            system,
            2,
        );
        return Some(tr!(
            "Not offered: {} is {} over its limit in “{}”.",
            what,
            over,
            name
        ));
    }
    let slack = 1e-9;
    let within = |(least, most): (f64, f64), m2: f64| (least - slack..=most + slack).contains(&m2);
    if !within(bounds.inlets_m2, point.0) || !within(bounds.exit_m2, point.1) {
        return Some(tr("Not offered: it lies outside the bounds you set.").to_owned());
    }
    match odds {
        Odds::Known(chance) if chance < OFFERED_FROM => Some(tr!(
            "Not offered: both limits hold by the best estimate, but the odds are only {}.",
            odds_percent(chance)
        )),
        _ => None,
    }
}

/// One figure of a size that is tried: its name, its value, how it stands.
pub type Figure = (&'static str, String, String);

/// Heads, oil, drag and odds of a size.
///
/// # Arguments
/// * `now_n` - cooling drag of the openings as they are, N
#[must_use]
pub fn figures(
    spot: Option<&Spot>,
    odds: Odds,
    now_n: Option<f64>,
    design: &Design,
    system: UnitSystem,
) -> [Figure; 4] {
    let temperature = |nearest: Option<Nearest>, of: fn(&Limits) -> LimitKind| {
        nearest.map_or_else(
            || (format::NONE.to_owned(), String::new()),
            |nearest| {
                let place = design.condition_name(nearest.condition);
                let difference = format::difference(nearest.margin_k, system);
                let stands = if difference.starts_with("0 ") {
                    tr("at its limit").to_owned()
                } else {
                    let limits = design.limits_in(nearest.condition);
                    format::margin(nearest.margin_k, of(&limits), system)
                };
                (
                    format::temperature(nearest.kelvin, system),
                    format!("{stands}, {place}"),
                )
            },
        )
    };
    let (head, head_more) = temperature(spot.map(|spot| spot.head), |limits| limits.head.kind);
    let (oil, oil_more) = temperature(spot.map(|spot| spot.oil), |limits| limits.oil.kind);
    let drag_n = spot.and_then(|spot| spot.cruise_drag_n);
    let force = Dimension::Force.shown(system);
    let change = drag_n.zip(now_n).map_or_else(String::new, |(then, now)| {
        tr!(
            "{} {} from now, cruise",
            format::signed(force.from_si(then - now), 1),
            force.symbol
        )
    });
    let odds = match odds {
        Odds::Unknown => "…".to_owned(),
        Odds::Known(chance) => odds_about(chance),
    };
    [
        (tr("CHT"), head, head_more),
        (tr("Oil"), oil, oil_more),
        (
            tr("Cooling drag"),
            drag_n.map_or_else(
                || format::NONE.to_owned(),
                |newton| format::quantity(newton, Dimension::Force, system, 3),
            ),
            change,
        ),
        (
            tr("Odds"),
            odds,
            tr("both limits, worst condition").to_owned(),
        ),
    ]
}

/// The design with the size that is tried.
#[must_use]
pub fn applied(design: &Design, (inlets_m2, exit_m2): Point) -> Design {
    Design {
        installation: resized(&design.installation, inlets_m2, exit_m2),
        ..design.clone()
    }
}

/// The size as areas, and what is to be cut.
#[must_use]
pub fn size_words(design: &Design, point: Point, system: UnitSystem) -> String {
    let area = |m2: f64| format::quantity(m2, Dimension::Area, system, 3);
    let cut = changes(design, &applied(design, point), system).map_or_else(
        || tr("These are the openings as they are").to_owned(),
        |changes| tr!("Cut {}", changes),
    );
    tr!(
        "All inlets {}, exit {}. {}.",
        area(point.0),
        area(point.1),
        format::unbroken(&cut)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::decide::size::spots;
    use coolpath_core::document::example;
    use coolpath_core::document::installation::areas::{exit_m2, inlets_m2};

    const BOUNDS: Bounds = Bounds {
        inlets_m2: (0.014, 0.07),
        exit_m2: (0.015, 0.09),
    };

    fn own(design: &Design) -> Point {
        (
            inlets_m2(&design.installation),
            exit_m2(&design.installation),
        )
    }

    #[test]
    fn a_size_moves_in_steps_stays_inside_and_keeps_what_is_locked() {
        let design = example::design();
        let ends = (BOUNDS.inlets_m2, BOUNDS.exit_m2);
        let room = Room::new(&design.installation, ends, &BOUNDS, UnitSystem::Customary);
        let inch2 = 0.0254 * 0.0254;
        let at = room.at((40.3 * inch2, 61.2 * inch2));
        assert!((at.0 / inch2 - 40.5).abs() < 1e-9 && (at.1 / inch2 - 61.0).abs() < 1e-9);
        let right = room.by_key("ArrowRight", false, at).expect("a step");
        assert!((right.0 / inch2 - 41.5).abs() < 1e-9 && right.1 == at.1);
        let down = room.by_key("ArrowDown", true, at).expect("ten steps");
        assert!((down.1 / inch2 - 51.0).abs() < 1e-9);
        assert_eq!(room.by_key("Enter", false, at), None);
        assert_eq!(room.at((9.0, 0.0)).0, room.inlets_m2.1);
        let locked = Bounds {
            exit_m2: (own(&design).1, own(&design).1),
            ..BOUNDS
        };
        let room = Room::new(&design.installation, ends, &locked, UnitSystem::Metric);
        assert_eq!(room.at((0.03, 0.08)).1, own(&design).1);
    }

    #[test]
    fn what_is_over_a_limit_is_not_offered_and_says_so_and_what_holds_is() {
        let design = example::design();
        let (inlets, exit) = own(&design);
        let system = UnitSystem::Customary;
        let said = |point: Point, odds| {
            let spot = spots(&design, point.0, &[point.1])[0];
            refusal(spot.as_ref(), odds, point, &BOUNDS, &design, system)
        };
        let now = said((inlets, exit), Odds::Known(0.15)).expect("a reason");
        assert!(
            now.starts_with("Not offered: CHT is ") && now.contains("°F over its limit in “"),
            "{now}"
        );
        let large = (2.2 * inlets, 1.5 * exit);
        assert_eq!(said(large, Odds::Known(0.9)), None);
        assert_eq!(said(large, Odds::Unknown), None);
        let unlikely = said(large, Odds::Known(0.3)).expect("a reason");
        assert!(unlikely.ends_with("the odds are only 30 %."), "{unlikely}");
        let beyond = said((3.0 * inlets, 2.0 * exit), Odds::Known(0.9)).expect("a reason");
        assert!(beyond.contains("outside the bounds"), "{beyond}");
        assert!(
            refusal(None, Odds::Unknown, large, &BOUNDS, &design, system)
                .is_some_and(|reason| reason.contains("no answer"))
        );
    }

    #[test]
    fn a_size_that_is_tried_says_heads_oil_drag_and_odds() {
        let design = example::design();
        let (inlets, exit) = own(&design);
        let point = (1.5 * inlets, 1.2 * exit);
        let spot = spots(&design, point.0, &[point.1])[0].expect("an answer");
        let found = figures(
            Some(&spot),
            Odds::Known(0.62),
            Some(spot.cruise_drag_n.expect("a drag") - 4.44822),
            &design,
            UnitSystem::Customary,
        );
        assert!(found[0].1.ends_with(" °F") && found[1].1.ends_with(" °F"));
        assert!(found[2].1.ends_with(" lbf"), "{found:?}");
        assert_eq!(found[2].2, "+1.0 lbf from now, cruise");
        assert_eq!(found[3].1, "≈ 60 %");
        let words = size_words(&design, point, UnitSystem::Customary);
        assert!(
            words.contains("Cut each inlet to") && words.contains("exit gap to"),
            "{words}"
        );
    }
}
