//! Shutter card: which opening holds the oil temperature, over outside air temperature.
//!
//! At each temperature the draws, and the tape, have a budget of states
//! ([`budget`](crate::path::budget)).

use crate::answer::opening_band::opening_ends;
use crate::answer::solve_condition::{solve_condition, solve_in_search};
use crate::answer::solved::{EvaluateError, ShutterState, Solved};
use crate::answer::warning::congealing_drop_pa;
use crate::document::condition::{AirKind, Condition, ShutterPolicy};
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::math::root::fallible_root;
use crate::path::budget::Budget;
use crate::units::quantity::{kelvin, pascal};
use crate::units::si::degf;
use crate::units::typed::{Dimension, UnitSystem};
use uom::si::f64::{Pressure, ThermodynamicTemperature};

/// Outside temperatures of the usual card, K, round in the unit shown: −20 to 110 °F by tens, or −30 to
/// 40 °C by fives.
#[must_use]
pub fn usual_oats_k(system: UnitSystem) -> Vec<f64> {
    let unit = Dimension::Temperature.shown(system);
    let (first, last, step) = if unit.from_si(degf(32.0)).abs() < 1.0 {
        (-6, 8, 5.0)
    } else {
        (-2, 11, 10.0)
    };
    (first..=last)
        .map(|at: i8| unit.to_si(step * f64::from(at)))
        .collect()
}

/// What the shutter does at one outside temperature.
#[derive(Debug, Clone, Copy)]
pub struct CardPoint {
    /// Outside air on the gauge.
    pub oat: ThermodynamicTemperature,
    /// What the shutter does.
    pub state: ShutterState,
    /// Opening, 0 closed to 1 open [-].
    pub opening: f64,
    /// Where nine of ten draws of all assumptions put the opening [-], in order.
    pub opening_band: (f64, f64),
    /// Oil at the gauge with the shutter where it is put.
    pub oil: ThermodynamicTemperature,
    /// Oil at the gauge with the shutter jammed shut.
    pub oil_jammed_shut: ThermodynamicTemperature,
    /// Oil at the gauge with the shutter jammed open.
    pub oil_jammed_open: ThermodynamicTemperature,
    /// Share of the pump's oil that the thermostat sends through the cooler [-].
    pub oil_through_cooler: f64,
    /// Oil pressure drop in the cold core; `Some` where it passes the limit at which the oil may
    /// congeal.
    pub congealing: Option<Pressure>,
}

/// The card of one condition at a list of outside temperatures, K.
///
/// Conditions given by hot day or standard offset are taken at their altitude with each OAT in
/// turn. Points without a solution are errors by name.
///
/// # Example
/// Where the shutter can hold the oil, the gauge shows the temperature that was asked for:
/// ```
/// use coolpath_core::answer::solved::{EvaluateError, ShutterState};
/// use coolpath_core::decide::shutter_card::shutter_card;
/// use coolpath_core::document::example;
/// use coolpath_core::units::si::degf;
///
/// let design = example::design();
/// let cruise = &design.conditions[4];
/// for point in shutter_card(&design, cruise, &[degf(20.0), degf(40.0)]) {
///     let point = point?;
///     if point.state == ShutterState::Holds {
///         assert!((point.oil.value - cruise.oil_target.value).abs() < 0.01);
///     }
///     assert!((0.0..=1.0).contains(&point.opening));
/// }
/// # Ok::<(), EvaluateError>(())
/// ```
#[must_use]
pub fn shutter_card(
    design: &Design,
    condition: &Condition,
    oats_k: &[f64],
) -> Vec<Result<CardPoint, EvaluateError>> {
    oats_k
        .iter()
        .map(|&oat_k| card_point(design, condition, oat_k))
        .collect()
}

fn card_point(
    design: &Design,
    condition: &Condition,
    oat_k: f64,
) -> Result<CardPoint, EvaluateError> {
    let installation = &design.installation;
    let holding = Condition {
        air: AirKind::Oat,
        oat: kelvin(oat_k),
        shutter: ShutterPolicy::HoldOil,
        ..condition.clone()
    };
    let found = solve_condition(installation, &holding, None)?;
    let at_opening = |opening: f64| -> Result<Solved, EvaluateError> {
        let fixed = Condition {
            shutter: ShutterPolicy::Fixed,
            shutter_opening: opening,
            ..holding.clone()
        };
        solve_condition(installation, &fixed, Some(&found))
    };
    let gauge = |solved: &Solved| kelvin(solved.oil_gauge_k(installation));
    let opening_band = opening_ends(&design.with_only(holding.clone()))?;
    let state = &found.solution.state;
    Ok(CardPoint {
        oat: kelvin(oat_k),
        state: found.shutter,
        opening: found.opening,
        opening_band,
        oil: gauge(&found),
        oil_jammed_shut: gauge(&at_opening(0.0)?),
        oil_jammed_open: gauge(&at_opening(1.0)?),
        oil_through_cooler: if state.terms.pump_kg_s > 0.0 {
            state.terms.cooler.share
        } else {
            1.0
        },
        congealing: congealing_drop_pa(installation, state).map(pascal),
    })
}

/// Most of a core's face that may be taped over: it must never be blanked fully [-].
pub const MOST_TAPED: f64 = 0.9;

/// What tape over the core's face does at one outside temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Tape {
    /// This share of the face taped over holds the oil temperature [-].
    Holds(f64),
    /// Without tape the oil is already hotter.
    NoneTooHot,
    /// With all tape that is permitted the oil is still colder.
    MostTooCold,
}

/// Tape over the core's face that holds a condition's oil temperature, the shutter open, at a list
/// of outside temperatures, K.
#[must_use]
pub fn tape_card(
    installation: &Installation,
    condition: &Condition,
    oats_k: &[f64],
) -> Vec<Result<Tape, EvaluateError>> {
    oats_k
        .iter()
        .map(|&oat_k| tape(installation, condition, oat_k))
        .collect()
}

/// Oil at the gauge, K, of a condition at an outside temperature, K, with a share of the core's face taped over and
/// the shutter open.
///
/// # Errors
/// [`EvaluateError`] by name.
///
/// # Example
/// Half of the core taped over leaves the oil hotter:
/// ```
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::decide::shutter_card::taped_oil_k;
/// use coolpath_core::document::example;
///
/// let design = example::design();
/// let oil_k = |share| taped_oil_k(&design.installation, &design.conditions[4], 258.15, share);
/// assert!(oil_k(0.5)? > oil_k(0.0)? + 5.0);
/// # Ok::<(), EvaluateError>(())
/// ```
pub fn taped_oil_k(
    installation: &Installation,
    condition: &Condition,
    oat_k: f64,
    share: f64,
) -> Result<f64, EvaluateError> {
    let search = Budget::of_a_search(1);
    taped_gauge(installation, condition, oat_k, &search)(share)
}

/// What the gauge shows, K, over the share of the core's face that is taped over.
fn taped_gauge<'a>(
    installation: &Installation,
    condition: &Condition,
    oat_k: f64,
    search: &'a Budget<'a>,
) -> impl FnMut(f64) -> Result<f64, EvaluateError> + use<'a> {
    let open = Condition {
        air: AirKind::Oat,
        oat: kelvin(oat_k),
        ..condition.with_shutter_open()
    };
    let mut taped = installation.clone();
    move |share| {
        taped.cooler.blanked_share = share;
        let found = solve_in_search(&taped, &open, None, search)?;
        Ok(found.oil_gauge_k(&taped))
    }
}

fn tape(
    installation: &Installation,
    condition: &Condition,
    oat_k: f64,
) -> Result<Tape, EvaluateError> {
    let search = Budget::of_a_search(1);
    let mut gauge_k = taped_gauge(installation, condition, oat_k, &search);
    let mut miss = |share: f64| gauge_k(share).map(|oil_k| oil_k - condition.oil_target.value);
    if miss(0.0)? >= 0.0 {
        return Ok(Tape::NoneTooHot);
    }
    if miss(MOST_TAPED)? <= 0.0 {
        return Ok(Tape::MostTooCold);
    }
    let root = fallible_root(miss, 0.0, MOST_TAPED, 1e-4)?;
    Ok(root.map_or(Tape::MostTooCold, |root| Tape::Holds(root.x)))
}
