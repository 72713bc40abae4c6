//! Evaluate: an installation in its conditions → stations, flows, temperatures, margins.

use crate::answer::prepare::{PrepareError, Prepared, condition_at, prepare};
use crate::answer::warning::{Warning, warnings};
use crate::document::condition::{Condition, Phase, ShutterPolicy};
use crate::document::design::Design;
use crate::document::installation::{Installation, OilProbe};
use crate::document::table::Si;
use crate::path::drag;
use crate::path::drag::Drag;
use crate::path::network::Cowl;
use crate::path::solve;
use crate::path::solve::{Report, Solution, SolveError, gauge_temperature};
use crate::path::state::State;
use uom::si::f64::{
    Force, MassRate, Power, Pressure, TemperatureInterval, ThermodynamicTemperature, Velocity,
};

/// Why a condition has no answer.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum EvaluateError {
    /// It could not be prepared.
    Prepare(PrepareError),
    /// The network has no solution.
    Solve(SolveError),
}

impl core::fmt::Display for EvaluateError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Prepare(PrepareError::Design(error)) => error.fmt(f),
            Self::Prepare(PrepareError::KnownPoint(error)) => write!(
                f,
                "The engine's known point contradicts itself: {}.",
                known_point_reason(error)
            ),
            Self::Prepare(PrepareError::Cooler(_)) => f.write_str(
                "The cooler's rating asks for more heat than its air and oil flow can carry.",
            ),
            Self::Prepare(PrepareError::FuelFlow {
                possible_kg_s: (least, most),
                ..
            }) => write!(
                f,
                "This power cannot burn this fuel flow: {:.1} to {:.1} US gal/h would fit.",
                least / GALLON_PER_HOUR_KG_S,
                most / GALLON_PER_HOUR_KG_S
            ),
            Self::Prepare(PrepareError::TwiceByFuel) => f.write_str(
                "The fuel flow cannot give both power and mixture: give one of them another way.",
            ),
            Self::Prepare(PrepareError::TooFast { mach }) => {
                write!(f, "Mach {mach:.2} is beyond this model (0.6).")
            }
            Self::Prepare(PrepareError::NoSuchCondition { .. }) => {
                f.write_str("There is no such condition.")
            }
            Self::Solve(SolveError::NoDrivingPressure { .. }) => f.write_str(
                "No driving pressure: with no airspeed and no propeller nothing moves the air.",
            ),
            Self::Solve(SolveError::IntakeStarved { .. }) => f.write_str(
                "The openings cannot feed the engine's intake from the upper deck: it would pull \
                 the deck far below the outside pressure.",
            ),
            Self::Solve(SolveError::NoOilBalance) => {
                f.write_str("The oil has no steady temperature: its heat has nowhere to go.")
            }
            Self::Solve(SolveError::NotConverged {
                residual,
                iterations,
            }) => write!(
                f,
                "The solver did not close the balances (residual {residual:.1e} after \
                 {iterations} steps). Nothing is shown rather than a doubtful number."
            ),
        }
    }
}

impl core::error::Error for EvaluateError {}

/// One US gallon of petrol an hour, kg/s.
const GALLON_PER_HOUR_KG_S: f64 = 6.0 * 0.453_592_37 / 3600.0;

fn known_point_reason(error: &crate::engine::heads::CylinderError) -> &'static str {
    match error {
        crate::engine::heads::CylinderError::FlowTooSmall { .. } => {
            "its air flow is too small to carry its heat"
        }
        crate::engine::heads::CylinderError::TemperatureOrder { .. } => {
            "air, oil, head and gas temperature must rise in this order"
        }
    }
}

/// What the shutter does in a condition.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum ShutterState {
    /// None is fitted.
    NotFitted,
    /// It stands where it was put.
    Fixed,
    /// It holds the target.
    Holds,
    /// Fully open is not enough.
    OpenTooHot {
        /// Gauge above the target.
        excess: TemperatureInterval,
    },
    /// Closed is still too cold.
    ClosedTooCold {
        /// Gauge below the target.
        shortfall: TemperatureInterval,
    },
}

/// Which limit stands nearer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
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
    /// Mean head.
    pub head_mean: ThermodynamicTemperature,
    /// Hottest head as its probe reads it.
    pub head_hottest: ThermodynamicTemperature,
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
    /// The solver's report.
    pub report: Report,
    /// The network.
    pub cowl: Cowl,
    /// The solved state of the network.
    pub state: State,
}

/// A solved condition before it is put into words.
#[derive(Debug, Clone, Copy)]
pub struct Solved {
    /// The prepared numbers, with the shutter where it stands.
    pub prepared: Prepared,
    /// The solution.
    pub solution: Solution,
    /// What the shutter does.
    pub shutter: ShutterState,
    /// Opening of the shutter [-].
    pub opening: f64,
}

/// Evaluates one condition of a design.
///
/// # Errors
/// [`EvaluateError`] by name.
pub fn evaluate(design: &Design, place: usize) -> Result<Answer, EvaluateError> {
    checked(design)?;
    evaluate_checked(design, place)
}

/// Evaluates all conditions of a design, in their order; a refused design is checked once and
/// refuses them all.
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
    design
        .check()
        .map_err(|error| EvaluateError::Prepare(PrepareError::Design(error)))
}

fn evaluate_checked(design: &Design, place: usize) -> Result<Answer, EvaluateError> {
    let condition = condition_at(&design.conditions, place).map_err(EvaluateError::Prepare)?;
    let solved = solved(&design.installation, condition, None)?;
    Ok(answer(&design.installation, condition, &solved))
}

/// Solves one condition without checking ranges, from a neighbouring solution if there is one.
///
/// # Errors
/// [`EvaluateError`] by name.
pub fn solved(
    installation: &Installation,
    condition: &Condition,
    neighbour: Option<&Solved>,
) -> Result<Solved, EvaluateError> {
    let mut prepared = prepare(installation, condition).map_err(EvaluateError::Prepare)?;
    let start = neighbour.map(|near| near.solution.state.trial);
    if !installation.shutter.fitted {
        let solution = solve::solve(&prepared.cowl, start).map_err(EvaluateError::Solve)?;
        return Ok(Solved {
            prepared,
            solution,
            shutter: ShutterState::NotFitted,
            opening: 1.0,
        });
    }
    if condition.shutter == ShutterPolicy::Fixed {
        let opening = condition.shutter_opening;
        prepared.set_shutter(installation, opening);
        let solution = solve::solve(&prepared.cowl, start).map_err(EvaluateError::Solve)?;
        return Ok(Solved {
            prepared,
            solution,
            shutter: ShutterState::Fixed,
            opening,
        });
    }
    crate::answer::hold_oil::held(installation, condition, prepared, start)
}

/// Hottest head as its probe reads it, K.
#[must_use]
pub fn hottest_reading(installation: &Installation, solved: &Solved) -> f64 {
    let engine = &installation.engine;
    let state = &solved.solution.state;
    let point = &solved.prepared.point;
    let heads = &solved.prepared.cowl.heads;
    let above_mean = 0.5 * engine.head_spread.value;
    let by_air = engine.spread_air_share * above_mean;
    let by_gas = above_mean - by_air;
    // At the known point: fewer fins raise the head by `by_air`, hotter gas by `by_gas`.
    let fin = point.fins.at(point.flow_kg_s);
    let hotter = point.head_k + by_air;
    let fin_factor = (point.gas_w_k * (point.gas_k - hotter)
        - point.oil_w_k * (hotter - point.oil_k))
        / (fin * (hotter - point.air_k));
    let sum = point.gas_w_k + fin_factor * fin + point.oil_w_k;
    let gas_shift_k = by_gas * sum / point.gas_w_k;
    let head_k = heads.temperature_with(
        fin_factor.max(0.05) * state.terms.fin_w_k,
        gas_shift_k,
        state.fins.in_k,
        state.trial.oil_k,
    );
    head_k + engine.head_reading_bias_k()
}

/// Puts a solved condition into words and quantities.
#[must_use]
pub fn answer(installation: &Installation, condition: &Condition, solved: &Solved) -> Answer {
    let Solved {
        prepared,
        solution,
        shutter,
        opening,
    } = solved;
    let state = &solution.state;
    let cowl = &prepared.cowl;
    let stream = &cowl.stream;
    let after_cooler = installation.oil.probe == OilProbe::AfterCooler;
    let oil_k = gauge_temperature(state, after_cooler);
    let hottest_k = hottest_reading(installation, solved);
    let head_margin = installation.engine.head_limit.value - hottest_k;
    let oil_margin = installation.engine.oil_limit.value - oil_k;
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
    let parts = drag::cooling_drag(cowl, state, prepared.spillage, prepared.flap_drag_m2);
    Answer {
        name: condition.name.clone(),
        phase: condition.phase,
        head_mean: Si::from_si(state.head_k),
        head_hottest: Si::from_si(hottest_k),
        head_margin: Si::from_si(head_margin),
        oil: Si::from_si(oil_k),
        oil_hot: Si::from_si(state.trial.oil_k),
        oil_margin: Si::from_si(oil_margin),
        binding: if head_margin <= oil_margin {
            Limit::Head
        } else {
            Limit::Oil
        },
        upper_deck: Si::from_si(state.trial.upper_pa),
        lower_deck: Si::from_si(state.trial.lower_pa),
        baffle_drop: Si::from_si(state.trial.upper_pa - state.trial.lower_pa),
        ram: Si::from_si(
            cowl.inlets
                .as_slice()
                .first()
                .map_or(0.0, |inlet| inlet.ram_pa),
        ),
        upper_deck_air: Si::from_si(state.upper_k),
        behind_fins: Si::from_si(state.fins.out_k),
        lower_deck_air: Si::from_si(state.lower_k),
        fin_flow: Si::from_si(state.fins.flow_kg_s),
        leak_flow: Si::from_si(state.seal_kg_s),
        cooler_flow: Si::from_si(state.cooler.flow_kg_s),
        inlet_flow: Si::from_si(inlet_flow),
        exit_flow: Si::from_si(exit_flow),
        // V₁/V₀ = W / (ρ₀ A₁ V₀)
        inlet_velocity_ratio: moving
            .then(|| inlet_flow / (stream.density * inlet_area * stream.speed_m_s)),
        exit_velocity_ratio: moving.then(|| state.exits[0].speed_m_s / stream.speed_m_s),
        area_ratio: exit_area / inlet_area,
        fin_heat: Si::from_si(state.fins.heat_w),
        cooler_heat: Si::from_si(state.cooler.heat_w),
        oil_heat: Si::from_si(state.oil_heat_w),
        drag: Si::from_si(parts.total_n()),
        drag_parts: parts,
        speed_cost: (condition.phase == Phase::Cruise)
            .then(|| {
                drag::speed_cost(
                    stream.speed_m_s,
                    parts.total_n(),
                    installation.airframe.induced_share,
                    prepared.thrust_n,
                )
            })
            .flatten()
            .map(Si::from_si),
        shutter: *shutter,
        shutter_opening: installation.shutter.fitted.then_some(*opening),
        fuel_flow: Si::from_si(prepared.fuel_kg_s),
        mixture: prepared.phi,
        brake_power: Si::from_si(prepared.brake_power_w),
        true_airspeed: Si::from_si(stream.speed_m_s),
        outside_air: Si::from_si(stream.temperature_k),
        warnings: warnings(installation, prepared, state, condition.phase, oil_k),
        report: solution.report,
        cowl: *cowl,
        state: *state,
    }
}
