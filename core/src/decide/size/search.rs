//! Finding one opening: the smallest exit, inlets for a velocity ratio.
//!
//! Each search has a budget of states for each condition ([`budget`](crate::path::budget)).

use crate::answer::solve_condition::solve_in_search;
use crate::answer::solved::EvaluateError;
use crate::decide::size::judge::{Judge, Warm, cruise_drag_within};
use crate::decide::size::request::{Bounds, Demand, Margin, SizeError};
use crate::document::check::DesignError;
use crate::document::design::Design;
use crate::document::installation::Installation;
use crate::document::installation::areas::{
    exit_m2, exit_reach_m2, inlets_m2, inlets_reach_m2, resized,
};
use crate::language::tr_later;
use crate::math::root::fallible_root;
use crate::path::budget::Budget;
use serde::{Deserialize, Serialize};

/// Sizes that hold every limit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Found {
    /// Area of all inlets, m².
    pub inlets_m2: f64,
    /// Net area of the first exit, m².
    pub exit_m2: f64,
    /// What binds, and how far inside it lies.
    pub binding: Margin,
    /// Mean cooling drag of the level conditions, N.
    pub cruise_drag_n: f64,
    /// The installation with these sizes.
    pub installation: Installation,
}

impl Found {
    /// Exit area over inlet area [-].
    #[must_use]
    pub fn ratio(&self) -> f64 {
        self.exit_m2 / self.inlets_m2
    }
}

/// Tolerance of an area, share of itself [-].
const AREA_TOLERANCE: f64 = 1e-6;

/// Bounds as they were asked for, within what the openings' dimensions permit; locked ones stay.
pub(super) fn permitted(design: &Design, bounds: &Bounds) -> Result<Bounds, SizeError> {
    for (least, most) in [bounds.inlets_m2, bounds.exit_m2] {
        if !(least > 0.0 && most >= least && most.is_finite()) {
            return Err(SizeError::Bounds);
        }
    }
    design.check().map_err(refused)?;
    let installation = &design.installation;
    Ok(Bounds {
        inlets_m2: within(
            tr_later("inlets"),
            bounds.inlets_m2,
            inlets_reach_m2(installation),
        )?,
        exit_m2: within(
            tr_later("exit"),
            bounds.exit_m2,
            exit_reach_m2(installation),
        )?,
    })
}

fn refused(error: DesignError) -> SizeError {
    SizeError::Evaluate(EvaluateError::Design(error))
}

/// The part of asked bounds that can be reached, m².
pub(super) fn within(
    what: &'static str,
    (least, most): (f64, f64),
    reach_m2: (f64, f64),
) -> Result<(f64, f64), SizeError> {
    let slack = 1e-9 * most;
    if least > reach_m2.1 + slack || most < reach_m2.0 - slack {
        return Err(SizeError::Unbuildable {
            what: what.into(),
            reach_m2,
        });
    }
    Ok((
        least.clamp(reach_m2.0, reach_m2.1),
        most.clamp(reach_m2.0, reach_m2.1),
    ))
}

/// The smallest exit, within its bounds, that holds every limit with the inlets as they stand.
///
/// # Errors
/// [`SizeError::OutOfReach`] with what is missed most at the largest exit.
///
/// # Example
/// The smallest exit that holds every limit leaves nothing to spare of one of them:
/// ```
/// use coolpath_core::decide::size::{Demand, SizeError, smallest_exit};
/// use coolpath_core::document::example;
/// use coolpath_core::units::quantity::kelvin;
/// use coolpath_core::units::si::{degf, inch2};
///
/// let mut design = example::design();
/// design.installation.engine.head_limit = kelvin(degf(430.0));
/// let demand = Demand::nominal(&design);
/// let found = smallest_exit(&design, &demand, (inch2(20.0), inch2(140.0)))?;
/// assert!(found.binding.by.abs() < 0.05);
/// assert!((found.ratio() - found.exit_m2 / found.inlets_m2).abs() < 1e-12);
/// # Ok::<(), SizeError>(())
/// ```
pub fn smallest_exit(
    design: &Design,
    demand: &Demand,
    exit_m2: (f64, f64),
) -> Result<Found, SizeError> {
    let inlets = inlets_m2(&design.installation);
    let bounds = permitted(
        design,
        &Bounds {
            inlets_m2: (inlets, inlets),
            exit_m2,
        },
    )?;
    let search = Budget::of_a_search(design.conditions.len());
    let judge = Judge::new(design, demand, &search);
    let mut warm = vec![None; design.conditions.len()];
    let (exit, binding) = exit_for(
        &judge,
        &design.installation,
        inlets,
        bounds.exit_m2,
        &mut warm,
    )?;
    found(design, (inlets, exit), binding, &search)
}

pub(super) fn found(
    design: &Design,
    (inlets, exit): (f64, f64),
    binding: Margin,
    search: &Budget<'_>,
) -> Result<Found, SizeError> {
    let installation = resized(&design.installation, inlets, exit);
    let sized = Design {
        installation,
        ..design.clone()
    };
    sized.check().map_err(refused)?;
    let installation = sized.installation;
    Ok(Found {
        inlets_m2: inlets,
        exit_m2: exit,
        binding,
        cruise_drag_n: cruise_drag_within(design, &installation, search)
            .map_err(SizeError::Evaluate)?,
        installation,
    })
}

/// The smallest exit for an inlet area; heads and oil cool as the exit grows.
pub(super) fn exit_for(
    judge: &Judge<'_>,
    installation: &Installation,
    inlets: f64,
    (least, most): (f64, f64),
    warm: &mut Warm,
) -> Result<(f64, Margin), SizeError> {
    let at = |exit: f64| resized(installation, inlets, exit);
    let largest = judge.worst(&at(most), warm)?;
    if largest.by < 0.0 {
        return Err(SizeError::OutOfReach {
            shortfall: largest,
            inlets_m2: inlets,
            exit_m2: most,
        });
    }
    let mut exit = least;
    let mut binding = judge.worst(&at(exit), warm)?;
    // Each pass opens the exit until the worst condition is held; the others follow or bind next.
    while binding.by < 0.0 {
        let place = judge.place_of(&binding);
        let opened = least_holding(|area| judge.margin(&at(area), place, warm), exit, most)?;
        if opened <= exit {
            break;
        }
        exit = opened;
        binding = judge.worst(&at(exit), warm)?;
    }
    Ok((exit, binding))
}

/// The smallest area between two that holds a margin, rounded to the holding side; the larger of
/// the two if the margin does not change its sign between them.
pub(super) fn least_holding(
    mut margin: impl FnMut(f64) -> Result<Margin, SizeError>,
    least: f64,
    most: f64,
) -> Result<f64, SizeError> {
    let miss = |ln_area: f64| margin(libm::exp(ln_area)).map(|margin| margin.scaled);
    let root = fallible_root(miss, libm::log(least), libm::log(most), AREA_TOLERANCE)?;
    Ok(root.map_or(most, |root| {
        (libm::exp(root.x) * (1.0 + 2.0 * AREA_TOLERANCE)).min(most)
    }))
}

/// Inlets with a velocity ratio in a condition, the exit as it stands.
///
/// # Errors
/// [`SizeError::RatioOutOfReach`] with the ratios at both bounds.
pub fn inlets_for_velocity_ratio(
    design: &Design,
    condition: usize,
    ratio: f64,
    inlets_bounds_m2: (f64, f64),
) -> Result<Found, SizeError> {
    let exit = exit_m2(&design.installation);
    let bounds = permitted(
        design,
        &Bounds {
            inlets_m2: inlets_bounds_m2,
            exit_m2: (exit, exit),
        },
    )?;
    let named = design
        .conditions
        .get(condition)
        .filter(|named| named.airspeed.value > 0.0)
        .ok_or(SizeError::NoAirspeed { condition })?;
    let search = Budget::of_a_search(design.conditions.len());
    let ratio_at = |inlets: f64| -> Result<f64, SizeError> {
        let sized = resized(&design.installation, inlets, exit);
        let found = solve_in_search(&sized, named, None, &search).map_err(SizeError::Evaluate)?;
        let stream = &found.prepared.cowl.stream;
        let flow: f64 = found.solution.state.inlets.iter().sum();
        // V₁/V₀ = W / (ρ₀ A₁ V₀)
        Ok(flow / (stream.density * inlets_m2(&sized) * stream.speed_m_s))
    };
    let (least, most) = bounds.inlets_m2;
    let (smallest, largest) = (ratio_at(least)?, ratio_at(most)?);
    if !(largest <= ratio && ratio <= smallest) {
        return Err(SizeError::RatioOutOfReach { smallest, largest });
    }
    let miss = |ln_inlets: f64| ratio_at(libm::exp(ln_inlets)).map(|there| there - ratio);
    let root = fallible_root(miss, libm::log(least), libm::log(most), AREA_TOLERANCE)?;
    let inlets = root.map_or(least, |root| libm::exp(root.x));
    let demand = Demand::nominal(design);
    let judge = Judge::new(design, &demand, &search);
    let mut warm = vec![None; design.conditions.len()];
    let binding = judge.worst(&resized(&design.installation, inlets, exit), &mut warm)?;
    found(design, (inlets, exit), binding, &search)
}
