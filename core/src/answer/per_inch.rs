//! What one more square inch of an opening is worth.
//!
//! Central differences of the solved network, the shutter left where it stands: the slope at the
//! present size, not a forecast for a big change.

use crate::answer::band::{Figures, figures};
use crate::answer::solved::{EvaluateError, Solved};
use crate::document::condition::Phase;
use crate::document::installation::Installation;
use crate::path::network::Cowl;
use crate::path::solve;
use crate::units::quantity::{kelvin_apart, kg_per_s, metre_per_s, pascal};
use crate::units::si::inch2;
use uom::si::f64::{MassRate, Pressure, TemperatureInterval, Velocity};

/// An opening whose size can be changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Opening {
    /// An inlet by its place.
    Inlet(usize),
    /// An exit by its place.
    Exit(usize),
    /// Leak between the decks.
    Seal,
}

/// Change of the answers per square inch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worth {
    /// The opening.
    pub opening: Opening,
    /// Hottest head.
    pub head: TemperatureInterval,
    /// Oil at the gauge.
    pub oil: TemperatureInterval,
    /// Pressure across the baffles.
    pub baffle_drop: Pressure,
    /// Air through the inlets.
    pub inlet_flow: MassRate,
    /// True airspeed in level flight at constant power; `None` outside level flight.
    pub speed: Option<Velocity>,
}

const SQUARE_INCH_M2: f64 = inch2(1.0);
/// Half the change tried, in square inches: small against an opening, large against rounding.
const HALF_STEP: f64 = 0.05;

/// Worth of one more square inch at one opening, which the solved condition must have.
///
/// # Errors
/// [`EvaluateError::Solve`] if a neighbouring size has no solution.
///
/// # Panics
/// If there is no such inlet or exit.
///
/// # Example
/// A wider exit lets more air through:
/// ```
/// use coolpath_core::answer::per_inch::{Opening, worth_of};
/// use coolpath_core::answer::solve_condition::solve_condition;
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::document::example;
///
/// let design = example::design();
/// let (installation, climb) = (&design.installation, &design.conditions[1]);
/// let solved = solve_condition(installation, climb, None)?;
/// let exit = worth_of(installation, climb.phase, &solved, Opening::Exit(0))?;
/// assert!(exit.inlet_flow.value > 0.0);
/// assert!(exit.head.value < 0.0, "and cools the heads");
/// # Ok::<(), EvaluateError>(())
/// ```
pub fn worth_of(
    installation: &Installation,
    phase: Phase,
    solved: &Solved,
    opening: Opening,
) -> Result<Worth, EvaluateError> {
    // A leak may be too small to take anything away from it.
    let less = if opening == Opening::Seal {
        0.0
    } else {
        -HALF_STEP
    };
    let low = at(installation, solved, opening, less)?;
    let high = at(installation, solved, opening, HALF_STEP)?;
    let slope =
        |figure: fn(&Figures<f64>) -> f64| (figure(&high) - figure(&low)) / (HALF_STEP - less);
    // More drag is less speed.
    let speed = || {
        solved
            .prepared
            .speed_cost(installation, -slope(|figures| figures.drag))
    };
    Ok(Worth {
        opening,
        head: kelvin_apart(slope(|figures| figures.head_hottest)),
        oil: kelvin_apart(slope(|figures| figures.oil)),
        baffle_drop: pascal(slope(|figures| figures.baffle_drop)),
        inlet_flow: kg_per_s(slope(|figures| figures.inlet_flow)),
        speed: (phase == Phase::Cruise)
            .then(speed)
            .flatten()
            .map(metre_per_s),
    })
}

/// Figures with an opening changed by so many square inches.
fn at(
    installation: &Installation,
    solved: &Solved,
    opening: Opening,
    square_inches: f64,
) -> Result<Figures<f64>, EvaluateError> {
    let mut varied = *solved;
    let cowl: &mut Cowl = &mut varied.prepared.cowl;
    let change_m2 = square_inches * SQUARE_INCH_M2;
    match opening {
        Opening::Inlet(place) => cowl.inlets.as_mut_slice()[place].area_m2 += change_m2,
        Opening::Exit(place) => cowl.exits.as_mut_slice()[place].area_m2 += change_m2,
        Opening::Seal => {
            cowl.seal_m2 += installation.decks.leak_discharge * change_m2;
        }
    }
    varied.solution =
        solve::solve(cowl, Some(solved.solution.start())).map_err(EvaluateError::Solve)?;
    Ok(figures(installation, &varied))
}
