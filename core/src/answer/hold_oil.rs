//! The shutter opening that holds an oil temperature.
//!
//! First the state in which the gauge shows the target is found, whatever it leaves for the
//! shutter; the opening whose loss uses that up follows without a search.

use crate::answer::prepare::Prepared;
use crate::answer::prepare::shutter_passage;
use crate::answer::solved::{EvaluateError, Near, ShutterState, Solved};
use crate::document::condition::Condition;
use crate::document::installation::Installation;
use crate::math::root::{bracketed_root, fallible_root};
use crate::path::budget::Budget;
use crate::path::report::{Gauge, Solution, SolveError, gauge_temperature};
use crate::path::solve::{solve_for_gauge, solve_within};
use crate::units::quantity::kelvin_apart;

/// Finds the opening that brings the gauge to the condition's target.
///
/// # Arguments
/// * `neighbour` - a condition nearby, whose solutions the search begins at
pub(crate) fn held(
    installation: &Installation,
    condition: &Condition,
    mut prepared: Prepared,
    neighbour: Option<&Solved>,
    budget: &Budget<'_>,
) -> Result<Solved, EvaluateError> {
    let gauge = Gauge {
        target_k: condition.oil_target.value,
        after_cooler: installation.oil.probe.is_after_cooler(),
    };
    let known = neighbour.map(|there| there.near).unwrap_or_default();
    let start = known.open.or(neighbour.map(|there| there.solution.start()));
    let open = solve_within(&prepared.cowl, start, budget).map_err(EvaluateError::Solve)?;
    let mut near = Near {
        open: Some(open.start()),
        at_target: None,
    };
    let open_k = gauge_temperature(&open.state, gauge.after_cooler);
    let open_gauge_k = Some(open_k);
    if open_k >= gauge.target_k {
        let excess = kelvin_apart(open_k - gauge.target_k);
        let shutter = ShutterState::OpenTooHot { excess };
        return Ok(Solved {
            prepared,
            solution: open,
            shutter,
            opening: 1.0,
            open_gauge_k,
            near,
        });
    }
    let start = known.at_target.unwrap_or(open.state.trial.into());
    let wanted = solve_for_gauge(&prepared.cowl, gauge, start, budget)
        .map_err(EvaluateError::Solve)?
        .and_then(|solution| {
            let opening = opening_for(installation, &prepared, &solution)?;
            Some((opening, solution))
        });
    if let Some((opening, at_target)) = wanted {
        near.at_target = Some(at_target.start());
        prepared.set_shutter(installation, opening);
        let start = at_target.state.trial.into();
        let solution =
            solve_within(&prepared.cowl, Some(start), budget).map_err(EvaluateError::Solve)?;
        return Ok(Solved {
            prepared,
            solution,
            shutter: ShutterState::Holds,
            opening,
            open_gauge_k,
            near,
        });
    }
    prepared.set_shutter(installation, 0.0);
    let closed =
        solve_within(&prepared.cowl, Some(open.start()), budget).map_err(EvaluateError::Solve)?;
    let closed_k = gauge_temperature(&closed.state, gauge.after_cooler);
    if closed_k <= gauge.target_k {
        let shortfall = kelvin_apart(gauge.target_k - closed_k);
        let shutter = ShutterState::ClosedTooCold { shortfall };
        return Ok(Solved {
            prepared,
            solution: closed,
            shutter,
            opening: 0.0,
            open_gauge_k,
            near,
        });
    }
    let opening = searched_opening(installation, &prepared, gauge, budget)?;
    prepared.set_shutter(installation, opening);
    let solution =
        solve_within(&prepared.cowl, Some(open.start()), budget).map_err(EvaluateError::Solve)?;
    Ok(Solved {
        prepared,
        solution,
        shutter: ShutterState::Holds,
        opening,
        open_gauge_k,
        near,
    })
}

/// Opening whose loss uses up what a state leaves for the shutter; `None` if none does.
fn opening_for(
    installation: &Installation,
    prepared: &Prepared,
    solution: &Solution,
) -> Option<f64> {
    let state = &solution.state;
    let duct = &prepared.cowl.cooler.duct;
    let flow = state.cooler.flow_kg_s;
    let (from, _) = prepared
        .cowl
        .cooler_ends(state.trial.upper_pa, state.trial.lower_pa);
    let density =
        crate::air::atmosphere::density(prepared.cowl.stream.pressure_pa + from, state.cooler.in_k);
    let open_loss = 1.0 / (duct.shutter_passage * duct.shutter_passage);
    let flux = flow / duct.area_m2;
    let dynamic_pa = 0.5 * flux * flux / density;
    let loss = open_loss + state.residual.cooler_pa / dynamic_pa;
    if !(flow > 0.0 && loss > 0.0) {
        return None;
    }
    let wanted = 1.0 / loss.sqrt();
    bracketed_root(
        |opening| shutter_passage(installation, opening) - wanted,
        0.0,
        1.0,
        1e-14,
    )
    .ok()
    .map(|root| root.x)
}

/// The opening found by trying; for states that the direct way does not reach.
fn searched_opening(
    installation: &Installation,
    prepared: &Prepared,
    gauge: Gauge,
    budget: &Budget<'_>,
) -> Result<f64, EvaluateError> {
    let mut trial = *prepared;
    let mut near = None;
    let miss = |opening: f64| {
        trial.set_shutter(installation, opening);
        let solution = solve_within(&trial.cowl, near, budget)?;
        near = Some(solution.start());
        Ok(gauge_temperature(&solution.state, gauge.after_cooler) - gauge.target_k)
    };
    fallible_root(miss, 0.0, 1.0, 1e-12)
        .and_then(|root| root.map_err(|_| SolveError::NoShutterPosition))
        .map(|root| root.x)
        .map_err(EvaluateError::Solve)
}
