//! Sweeps: one quantity varied over a range, everything else as in a condition.

use crate::answer::band::{Band, Figures, bands_with, figures};
use crate::answer::head_readings::hottest_reading;
use crate::answer::model_error;
use crate::answer::solve_condition::solve_condition;
use crate::answer::solved::Solved;
use crate::document::condition::{AirKind, Condition, SpeedKind};
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::document::limits::LimitChoice;
use crate::math::normal::RANGE_DEVIATIONS;
use crate::math::root::bracketed_root;
use crate::path::state::Trial;
use crate::units::quantity::{kelvin, metre_per_s};

/// What a sweep varies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Swept {
    /// Outside air temperature, K.
    Oat,
    /// Indicated airspeed, m/s.
    Airspeed,
    /// Area of the first exit, as a share of its own [-].
    ExitArea,
}

/// One point of a sweep.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// The quantity varied, SI.
    pub x: f64,
    /// The answers there.
    pub figures: Figures<f64>,
    /// Speed that the cooling drag costs in level flight, m/s, if the propeller pulls.
    pub speed_cost_m_s: Option<f64>,
    /// Pressure across the baffles that would bring the hottest head to its limit, Pa; `None`
    /// where no flow would.
    pub required_drop_pa: Option<f64>,
}

/// A condition with the swept quantity set.
fn varied(
    installation: &Installation,
    condition: &Condition,
    swept: Swept,
    x: f64,
) -> (Installation, Condition) {
    let mut installation = installation.clone();
    let mut condition = condition.clone();
    match swept {
        Swept::Oat => {
            condition.air = AirKind::Oat;
            condition.oat = kelvin(x);
        }
        Swept::Airspeed => {
            condition.speed = SpeedKind::Indicated;
            condition.airspeed = metre_per_s(x);
        }
        Swept::ExitArea => {
            if let Some(exit) = installation.exits.first_mut() {
                exit.set_closed_area(x * exit.closed_area_m2());
            }
        }
    }
    (installation, condition)
}

/// Bands of the answers at one point of a sweep, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PointBand {
    /// The quantity varied, SI.
    pub x: f64,
    /// Hottest head, K.
    pub head_hottest: Band,
    /// Oil at the gauge, K.
    pub oil: Band,
    /// Pressure across the baffles, Pa.
    pub baffle_drop: Band,
    /// Pressure that the heads require, Pa.
    pub required_drop: Band,
    /// Speed that the cooling drag costs, m/s.
    pub speed_cost: Band,
}

/// Bands at one value of a sweep; `None` where it has no solution.
///
/// Where an end of a range leaves no required pressure or no speed cost, that end counts as no
/// change of it.
#[must_use]
pub fn point_band(
    design: &Design,
    condition: &Condition,
    swept: Swept,
    x: f64,
) -> Option<PointBand> {
    let (installation, condition) = varied(&design.installation, condition, swept, x);
    let design = Design {
        installation,
        ..design.clone()
    };
    let nominal = solve_condition(&design.installation, &condition, None).ok()?;
    let design = design.with_only(condition);
    let limit_k = head_limit_k(&design.installation, &nominal);
    let required = required_drop(&design.installation, &nominal, limit_k).unwrap_or_default();
    let cost = speed_cost(&design.installation, &nominal).unwrap_or_default();
    let (bands, [mut required_drop, speed_cost]) =
        bands_with(&design, 0, |installation, solved| {
            [
                self::required_drop(installation, solved, limit_k).unwrap_or(required),
                speed_cost(installation, solved).unwrap_or(cost),
            ]
        })
        .ok()?;
    // A head that the model misses asks for as much more as a lower limit would.
    for side in [-1.0, 1.0] {
        let by = side * RANGE_DEVIATIONS * model_error::HEAD_K;
        let there =
            self::required_drop(&design.installation, &nominal, limit_k - by).unwrap_or(required);
        required_drop.add(there - required);
    }
    Some(PointBand {
        x,
        head_hottest: bands.figures.head_hottest,
        oil: bands.figures.oil,
        baffle_drop: bands.figures.baffle_drop,
        required_drop,
        speed_cost,
    })
}

fn speed_cost(installation: &Installation, found: &Solved) -> Option<f64> {
    found
        .prepared
        .speed_cost(installation, figures(installation, found).drag)
}

/// Answers over a list of values; values without a solution are left out.
///
/// # Example
/// The point at a share of 1 of the exit is the condition itself:
/// ```
/// use coolpath_core::answer::evaluate::evaluate;
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::answer::sweep::{Swept, sweep};
/// use coolpath_core::document::example;
///
/// let design = example::design();
/// let (installation, climb) = (&design.installation, &design.conditions[1]);
/// let points = sweep(installation, climb, Swept::ExitArea, &[1.0, 1.2]);
/// let own = evaluate(&design, 1)?.head_hottest.value;
/// assert!((points[0].figures.head_hottest - own).abs() < 1e-3);
/// assert!(points[1].figures.head_hottest < own, "a wider exit cools");
/// # Ok::<(), EvaluateError>(())
/// ```
#[must_use]
pub fn sweep(
    installation: &Installation,
    condition: &Condition,
    swept: Swept,
    values: &[f64],
) -> Vec<Point> {
    let mut points = Vec::with_capacity(values.len());
    let mut near: Option<Solved> = None;
    for &x in values {
        let (installation, condition) = varied(installation, condition, swept, x);
        let Ok(found) = solve_condition(&installation, &condition, near.as_ref()) else {
            continue;
        };
        let figures = figures(&installation, &found);
        points.push(Point {
            x,
            figures,
            speed_cost_m_s: speed_cost(&installation, &found),
            required_drop_pa: required_drop(
                &installation,
                &found,
                head_limit_k(&installation, &found),
            ),
        });
        near = Some(found);
    }
    points
}

/// The lowest limit of the heads that counts in a condition, K.
fn head_limit_k(installation: &Installation, found: &Solved) -> f64 {
    let engine = &installation.engine;
    engine
        .limits(found.prepared.phase, LimitChoice::Lowest)
        .head
        .kelvin
}

/// Pressure across the fins at which the hottest head stands at a limit, K, with the lower deck
/// and the oil as they are.
fn required_drop(installation: &Installation, found: &Solved, limit: f64) -> Option<f64> {
    let state = &found.solution.state;
    let cowl = &found.prepared.cowl;
    let at = |flow: f64| {
        let mut there = *found;
        let trial = Trial {
            fin_kg_s: flow,
            ..state.trial
        };
        there.solution.state = cowl.state_near(trial, state);
        there
    };
    let miss = |ln_flow: f64| hottest_reading(installation, &at(libm::exp(ln_flow))) - limit;
    let reference = found.prepared.point.flow_kg_s;
    let (low, high) = (libm::log(reference * 1e-3), libm::log(reference * 30.0));
    let root = bracketed_root(miss, low, high, 1e-10).ok()?;
    Some(at(libm::exp(root.x)).solution.state.fins.drop_pa)
}

/// Values of x at which the available pressure crosses the required one, by interpolation.
///
/// # Example
/// 100 Pa are missing at 0 and 300 Pa to spare at 4: a quarter of the way:
/// ```
/// use coolpath_core::answer::band::Figures;
/// use coolpath_core::answer::sweep::{Point, crossings};
///
/// let point = |x: f64, available: f64| Point {
///     x,
///     figures: Figures { baffle_drop: available, ..Figures::default() },
///     speed_cost_m_s: None,
///     required_drop_pa: Some(1000.0),
/// };
/// assert_eq!(crossings(&[point(0.0, 900.0), point(4.0, 1300.0)]), [1.0]);
/// ```
#[must_use]
pub fn crossings(points: &[Point]) -> Vec<f64> {
    let surplus = |point: &Point| {
        point
            .required_drop_pa
            .map(|needed| point.figures.baffle_drop - needed)
    };
    points
        .windows(2)
        .filter_map(|pair| {
            let (a, b) = (surplus(&pair[0])?, surplus(&pair[1])?);
            (a * b < 0.0 || (a == 0.0 && b != 0.0))
                .then(|| pair[0].x + (pair[1].x - pair[0].x) * a / (a - b))
        })
        .collect()
}
