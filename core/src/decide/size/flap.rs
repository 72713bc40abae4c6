//! Closed and open area of a cowl flap, and what it saves against a fixed exit.

use crate::answer::solved::EvaluateError;
use crate::decide::size::judge::{Judge, cruise_drag_n, cruise_speed_of};
use crate::decide::size::request::{Bounds, Demand, Margin, SizeError};
use crate::decide::size::search::{least_holding, permitted, smallest_exit, within};
use crate::document::condition::Phase;
use crate::document::design::Design;
use crate::document::installation::areas::inlets_m2;
use crate::language::tr_later;
use crate::path::budget::Budget;
use serde::{Deserialize, Serialize};

/// Areas of a cowl flap.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FlapSize {
    /// Net area with the flap closed, for level flight and descent, m².
    pub closed_m2: f64,
    /// What binds with the flap closed.
    pub closed_binding: Margin,
    /// Net area with the flap open, for ground and climb, m².
    pub open_m2: f64,
    /// What binds with the flap open.
    pub open_binding: Margin,
    /// Net area of the fixed exit that would hold every condition, m².
    pub fixed_m2: f64,
    /// Speed saved in cruise against that fixed exit, m/s, if the propeller pulls.
    pub saved_m_s: Option<f64>,
    /// The design with the flap.
    pub design: Design,
}

/// Sizes a flap on the first exit, the inlets as they stand.
///
/// # Arguments
/// * `exit_m2` - bounds of the net area, m²
///
/// # Errors
/// [`SizeError::OutOfReach`] with what is missed most at the largest opening.
pub fn flap(design: &Design, demand: &Demand, exit_m2: (f64, f64)) -> Result<FlapSize, SizeError> {
    let inlets = inlets_m2(&design.installation);
    let bounds = permitted(
        design,
        &Bounds {
            inlets_m2: (inlets, inlets),
            exit_m2,
        },
    )?;
    let mut without = design.clone();
    without.installation.exits[0].flap = false;
    let fixed = smallest_exit(&without, demand, exit_m2)?;
    let search = Budget::of_a_search(design.conditions.len());
    let mut flapped = design.clone();
    flapped.installation.exits[0].flap = true;
    for condition in &mut flapped.conditions {
        condition.flap = match condition.phase {
            Phase::Ground | Phase::Climb => 1.0,
            Phase::Cruise | Phase::Descent => 0.0,
        };
    }
    let (closed_m2, closed_binding) = opening(&flapped, demand, bounds.exit_m2, false, &search)?;
    flapped.installation.exits[0].set_closed_area(closed_m2);
    // An open flap is never smaller than a closed one.
    let open_reach_m2 = flapped.installation.exits[0].open_reach_m2();
    let asked = (closed_m2, exit_m2.1.max(closed_m2));
    let open_bounds = within(tr_later("open flap"), asked, open_reach_m2)?;
    let (open_m2, open_binding) = opening(&flapped, demand, open_bounds, true, &search)?;
    flapped.installation.exits[0].set_open_area(open_m2);
    flapped
        .check()
        .map_err(|error| SizeError::Evaluate(EvaluateError::Design(error)))?;
    let drag_n = cruise_drag_n(&flapped, &flapped.installation).map_err(SizeError::Evaluate)?;
    Ok(FlapSize {
        closed_m2,
        closed_binding,
        open_m2,
        open_binding,
        fixed_m2: fixed.exit_m2,
        saved_m_s: cruise_speed_of(design, fixed.cruise_drag_n - drag_n),
        design: flapped,
    })
}

/// Smallest area for the conditions with the flap open, or with it closed.
fn opening(
    design: &Design,
    demand: &Demand,
    (least, most): (f64, f64),
    open: bool,
    search: &Budget<'_>,
) -> Result<(f64, Margin), SizeError> {
    let mut judge = Judge::new(design, demand, search);
    judge
        .places
        // It goes to the ground and the climb, the flap open.
        .retain(|&place| {
            let flap = design.conditions.get(place).map_or(1.0, |it| it.flap);
            (flap > 0.5) == open
        });
    let mut warm = vec![None; design.conditions.len()];
    let mut worst = |net_m2: f64| {
        let mut sized = design.clone();
        if open {
            sized.installation.exits[0].set_open_area(net_m2);
        } else {
            sized.installation.exits[0].set_closed_area(net_m2);
        }
        judge.worst(&sized.installation, &mut warm)
    };
    let at_least = worst(least)?;
    if at_least.by >= 0.0 {
        return Ok((least, at_least));
    }
    let at_most = worst(most)?;
    if at_most.by < 0.0 {
        return Err(SizeError::OutOfReach {
            shortfall: at_most,
            inlets_m2: inlets_m2(&design.installation),
            exit_m2: most,
        });
    }
    let area = least_holding(&mut worst, least, most)?;
    Ok((area, worst(area)?))
}
