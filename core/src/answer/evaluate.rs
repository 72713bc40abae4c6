//! Evaluate: an installation in its conditions → stations, flows, temperatures, margins.

use crate::air::atmosphere::DENSITY_SL;
use crate::answer::absurd::Shown;
use crate::answer::cabin::{CabinAir, cabin_air};
use crate::answer::head_readings::{each_reading, hottest_reading, mean_reading};
use crate::answer::prepare::{FUEL_DENSITY, Prepared};
use crate::answer::solve_condition::solve_condition;
use crate::answer::solved::{EvaluateError, ShutterState, Solved, condition_at};
use crate::answer::warning::{Warning, full_throttle_share, warnings};
use crate::document::condition::{Condition, Phase};
use crate::document::design::Design;
use crate::document::installation::{Engine, Installation};
use crate::document::limits::{LimitChoice, Limits};
use crate::path::drag;
use crate::path::drag::Drag;
use crate::path::network::Cowl;
use crate::path::report::Report;
use crate::path::state::State;
use crate::units::quantity::{kelvin, kelvin_apart, kg_per_s, metre_per_s, newton, pascal, watt};
use serde::{Deserialize, Serialize};
use uom::si::f64::{
    Force, MassRate, Power, Pressure, TemperatureInterval, ThermodynamicTemperature, Velocity,
};

/// Which limit stands nearer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Limit {
    /// Hottest head.
    Head,
    /// Oil.
    Oil,
}

impl Limit {
    /// Name for files.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Head => "head",
            Self::Oil => "oil",
        }
    }
}

/// The answer for one condition.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// Name of the condition.
    pub name: String,
    /// What the aircraft does.
    pub phase: Phase,
    /// Mean of the heads as their probes read them.
    pub head_mean: ThermodynamicTemperature,
    /// Hottest head as its probe reads it.
    pub head_hottest: ThermodynamicTemperature,
    /// Each head as its probe reads it, number 1 first; empty where they are not known one by one.
    pub heads: Vec<ThermodynamicTemperature>,
    /// Place of the hottest of them.
    pub hottest_cylinder: Option<usize>,
    /// The lowest limits that count in the condition: what it is judged by.
    pub limits: Limits,
    /// Limit minus hottest head.
    pub head_margin: TemperatureInterval,
    /// Oil at the gauge.
    pub oil: ThermodynamicTemperature,
    /// Oil where it is hottest.
    pub oil_hot: ThermodynamicTemperature,
    /// Limit minus gauge.
    pub oil_margin: TemperatureInterval,
    /// Nearer limit.
    pub binding: Limit,
    /// Upper deck above static.
    pub upper_deck: Pressure,
    /// Lower deck above static.
    pub lower_deck: Pressure,
    /// Upper minus lower deck.
    pub baffle_drop: Pressure,
    /// Total pressure before the first inlet, above static.
    pub ram: Pressure,
    /// Upper deck temperature.
    pub upper_deck_air: ThermodynamicTemperature,
    /// Air behind the fins.
    pub behind_fins: ThermodynamicTemperature,
    /// Lower deck temperature.
    pub lower_deck_air: ThermodynamicTemperature,
    /// Air through the fins.
    pub fin_flow: MassRate,
    /// Air past the seals.
    pub leak_flow: MassRate,
    /// Air through the oil cooler.
    pub cooler_flow: MassRate,
    /// Air through all inlets.
    pub inlet_flow: MassRate,
    /// Air through all exits, without the cooler's own.
    pub exit_flow: MassRate,
    /// Mean velocity in the inlets over true airspeed [-]; `None` at rest.
    pub inlet_velocity_ratio: Option<f64>,
    /// Velocity in the first exit over true airspeed [-]; `None` at rest.
    pub exit_velocity_ratio: Option<f64>,
    /// Exit area over inlet area [-].
    pub area_ratio: f64,
    /// Heat from the fins.
    pub fin_heat: Power,
    /// Heat from the oil cooler.
    pub cooler_heat: Power,
    /// Heat into the oil.
    pub oil_heat: Power,
    /// Cooling drag.
    pub drag: Force,
    /// Its parts.
    pub drag_parts: Drag,
    /// Speed that the cooling drag costs in level flight at constant power; `None` otherwise.
    pub speed_cost: Option<Velocity>,
    /// What the shutter does.
    pub shutter: ShutterState,
    /// Opening of the shutter, 0 closed to 1 open [-]; `None` without a shutter.
    pub shutter_opening: Option<f64>,
    /// Fuel flow.
    pub fuel_flow: MassRate,
    /// Equivalence ratio [-].
    pub mixture: f64,
    /// Brake power.
    pub brake_power: Power,
    /// True airspeed.
    pub true_airspeed: Velocity,
    /// Outside air.
    pub outside_air: ThermodynamicTemperature,
    /// Warnings, most urgent first.
    pub warnings: Vec<Warning>,
    /// Air to the cabin, where some is taken.
    pub cabin: Option<CabinAir>,
    /// Power at full throttle over rated power [-], where the way of the engine's own air is told.
    pub full_throttle: Option<f64>,
    /// The solver's report.
    pub report: Report,
    /// The network.
    pub cowl: Cowl,
    /// The solved state of the network.
    pub state: State,
}

impl Answer {
    /// Fuel flow as the engine's own gauge would show it, m³/s.
    #[must_use]
    pub fn fuel_on_gauge_m3_s(&self, engine: &Engine) -> f64 {
        self.fuel_flow.value / (FUEL_DENSITY * engine.fuel_flow_scale)
    }

    /// Pressure outside the first exit, Pa above the undisturbed air.
    #[must_use]
    pub fn exit_outside_pa(&self) -> f64 {
        let exits = self.cowl.exits.as_slice();
        exits.first().map_or(0.0, |exit| exit.outside_pa)
    }

    /// Pressure used on the air's way, Pa: ram to upper deck, upper to lower deck, lower deck to
    /// the outside of the first exit.
    #[must_use]
    pub fn pressure_used_pa(&self) -> [f64; 3] {
        [
            self.ram.value - self.upper_deck.value,
            self.upper_deck.value - self.lower_deck.value,
            self.lower_deck.value - self.exit_outside_pa(),
        ]
    }
}

/// Evaluates one condition of a design.
///
/// # Errors
/// [`EvaluateError`] by name.
///
/// # Example
/// What enters through the inlets and the gaps of the lower deck leaves again:
/// ```
/// use coolpath_core::answer::evaluate::evaluate;
/// use coolpath_core::answer::solved::EvaluateError;
/// use coolpath_core::document::example;
///
/// let cruise = evaluate(&example::design(), 3)?;
/// let state = &cruise.state;
/// let entering = cruise.inlet_flow.value + state.inflow_kg_s;
/// let leaving = cruise.exit_flow.value
///     + state.overboard_kg_s
///     + state.cabin_kg_s
///     + cruise.cowl.induction_kg_s;
/// assert!((entering - leaving).abs() < 1e-6 * entering);
/// # Ok::<(), EvaluateError>(())
/// ```
pub fn evaluate(design: &Design, place: usize) -> Result<Answer, EvaluateError> {
    checked(design)?;
    evaluate_checked(design, place)
}

/// Evaluates all conditions of a design, in their order; a refused design is checked once and
/// refuses them all.
///
/// # Example
/// One answer for each condition, in their order:
/// ```
/// use coolpath_core::answer::evaluate::evaluate_all;
/// use coolpath_core::document::example;
///
/// let design = example::design();
/// let answers = evaluate_all(&design);
/// assert_eq!(answers.len(), design.conditions.len());
/// assert!(answers.iter().all(Result::is_ok));
/// ```
#[must_use]
pub fn evaluate_all(design: &Design) -> Vec<Result<Answer, EvaluateError>> {
    let places = 0..design.conditions.len();
    match checked(design) {
        Ok(()) => places
            .map(|place| evaluate_checked(design, place))
            .collect(),
        Err(error) => places.map(|_| Err(error.clone())).collect(),
    }
}

fn checked(design: &Design) -> Result<(), EvaluateError> {
    design.check().map_err(EvaluateError::Design)
}

fn evaluate_checked(design: &Design, place: usize) -> Result<Answer, EvaluateError> {
    let condition = condition_at(design, place)?;
    let solved = solve_condition(&design.installation, condition, None)?;
    Ok(answer(&design.installation, condition, &solved))
}

/// Puts a solved condition into words and quantities.
#[must_use]
pub fn answer(installation: &Installation, condition: &Condition, solved: &Solved) -> Answer {
    let Solved {
        prepared,
        solution,
        shutter,
        opening,
        ..
    } = solved;
    let state = &solution.state;
    let cowl = &prepared.cowl;
    let stream = &cowl.stream;
    let oil_k = solved.oil_gauge_k(installation);
    let hottest_k = hottest_reading(installation, solved);
    let mean_k = mean_reading(installation, solved);
    let each_k = each_reading(installation, solved);
    let engine = &installation.engine;
    let limits = engine.limits(condition.phase, LimitChoice::Lowest);
    let head_margin = limits.head.kelvin - hottest_k;
    let oil_margin = limits.oil.kelvin - oil_k;
    let inlet_area: f64 = cowl
        .inlets
        .as_slice()
        .iter()
        .map(|inlet| inlet.area_m2)
        .sum();
    let exit_area: f64 = cowl.exits.as_slice().iter().map(|exit| exit.area_m2).sum();
    let inlet_flow: f64 = state.inlets.iter().sum();
    let exit_flow: f64 = state.exits.iter().map(|exit| exit.flow_kg_s).sum();
    let moving = stream.speed_m_s > 0.0;
    let intake = prepared.intake_density_ratio(installation, state);
    let parts = drag::cooling_drag(cowl, state, prepared.spillage, prepared.flap_drag_m2);
    Answer {
        name: condition.name.clone(),
        phase: condition.phase,
        head_mean: kelvin(mean_k),
        head_hottest: kelvin(hottest_k),
        hottest_cylinder: (0..each_k.len()).max_by(|&a, &b| each_k[a].total_cmp(&each_k[b])),
        heads: each_k.into_iter().map(kelvin).collect(),
        limits,
        head_margin: kelvin_apart(head_margin),
        oil: kelvin(oil_k),
        oil_hot: kelvin(state.trial.oil_k),
        oil_margin: kelvin_apart(oil_margin),
        binding: if head_margin <= oil_margin {
            Limit::Head
        } else {
            Limit::Oil
        },
        upper_deck: pascal(state.trial.upper_pa),
        lower_deck: pascal(state.trial.lower_pa),
        baffle_drop: pascal(state.trial.upper_pa - state.trial.lower_pa),
        ram: pascal(
            cowl.inlets
                .as_slice()
                .first()
                .map_or(0.0, |inlet| inlet.ram_pa),
        ),
        upper_deck_air: kelvin(state.upper_k),
        behind_fins: kelvin(state.fins.out_k),
        lower_deck_air: kelvin(state.lower_k),
        fin_flow: kg_per_s(state.fins.flow_kg_s),
        leak_flow: kg_per_s(state.seal_kg_s),
        cooler_flow: kg_per_s(state.cooler.flow_kg_s),
        inlet_flow: kg_per_s(inlet_flow),
        exit_flow: kg_per_s(exit_flow),
        // V₁/V₀ = W / (ρ₀ A₁ V₀)
        inlet_velocity_ratio: moving
            .then(|| inlet_flow / (stream.density * inlet_area * stream.speed_m_s)),
        exit_velocity_ratio: moving.then(|| state.exits[0].speed_m_s / stream.speed_m_s),
        area_ratio: exit_area / inlet_area,
        fin_heat: watt(state.fins.heat_w),
        cooler_heat: watt(state.cooler.heat_w),
        oil_heat: watt(state.oil_heat_w),
        drag: newton(parts.total_n()),
        drag_parts: parts,
        speed_cost: speed_cost(installation, condition, prepared, parts.total_n()),
        shutter: *shutter,
        shutter_opening: installation.shutter.fitted.then_some(*opening),
        fuel_flow: kg_per_s(prepared.fuel_kg_s),
        mixture: prepared.phi,
        brake_power: watt(prepared.brake_power_w),
        true_airspeed: metre_per_s(stream.speed_m_s),
        outside_air: kelvin(stream.temperature_k),
        warnings: warnings(
            installation,
            solved,
            condition.phase,
            Shown {
                hottest_k,
                mean_k,
                gauge_k: oil_k,
            },
        ),
        cabin: cabin_air(installation, prepared, state),
        full_throttle: intake.map(|ratio| full_throttle_share(ratio * stream.density / DENSITY_SL)),
        report: solution.report,
        cowl: *cowl,
        state: *state,
    }
}

/// What cooling costs of the airspeed in cruise, by its drag in N.
fn speed_cost(
    installation: &Installation,
    condition: &Condition,
    prepared: &Prepared,
    drag_n: f64,
) -> Option<Velocity> {
    if condition.phase != Phase::Cruise {
        return None;
    }
    prepared.speed_cost(installation, drag_n).map(metre_per_s)
}
