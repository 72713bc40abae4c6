//! From the documents to the network: an installation in a condition, in plain SI numbers.

mod cooler;
mod engine;
mod error;
mod exits;
mod oil;
mod outside;

pub use cooler::shutter_passage;
pub use engine::Burning;
pub use error::PrepareError;

use crate::air::propeller::Slipstream;
use crate::air::{atmosphere, propeller};
use crate::answer::gas::exhaust_temperature;
use crate::answer::known_point::{KnownPoint, known_point};
use crate::answer::prepare::cooler::cooler_branch;
pub(crate) use crate::answer::prepare::engine::FUEL_DENSITY;
use crate::answer::prepare::engine::{burning, heads};
use crate::answer::prepare::exits::exit_elements;
use crate::answer::prepare::oil::oil_loop;
use crate::answer::prepare::outside::outside;
use crate::document::condition::{Condition, Phase};
use crate::document::installation;
use crate::document::installation::{InletSide, Installation, TakeOff, UpperDeck};
use crate::engine::mixture;
use crate::path::drag;
use crate::path::element::Inlet;
use crate::path::network::{Cowl, FreeStream, Opening};
use crate::path::openings::{MAX_OPENINGS, Openings};
use crate::path::split_deck::{Draws, Halves};
use crate::path::state::State;

/// Loss of air that runs out through an inlet: sharp entrance from the deck and a free jet [-].
const REVERSE_INLET_LOSS: f64 = 1.5;

/// A condition in numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prepared {
    /// The network with the shutter at a given opening.
    pub cowl: Cowl,
    /// The engine's known point.
    pub point: KnownPoint,
    /// Brake power, W.
    pub brake_power_w: f64,
    /// Share of rated power that the same air gives at best power [-].
    pub share: f64,
    /// Share of the cylinders that fire [-].
    pub firing: f64,
    /// Equivalence ratio [-].
    pub phi: f64,
    /// Charge air, kg/s.
    pub charge_kg_s: f64,
    /// Charge temperature, K.
    pub charge_k: f64,
    /// Mean exhaust gas at the probes, K.
    pub exhaust_k: f64,
    /// Fuel flow, kg/s.
    pub fuel_kg_s: f64,
    /// Pressure altitude, m.
    pub pressure_altitude_m: f64,
    /// Thrust of the propeller, N.
    pub thrust_n: f64,
    /// What the aircraft does.
    pub phase: Phase,
    /// Opening of the cowl flap, 0 closed to 1 open [-].
    pub flap: f64,
    /// Pressure rise of the propeller, Pa.
    pub pressure_rise_pa: f64,
    /// Tailwind beyond the airspeed, which counts as none, m/s.
    pub tailwind_m_s: f64,
    /// Spillage drag share [-].
    pub spillage: f64,
    /// Drag area of the open flaps, m².
    pub flap_drag_m2: f64,
}

impl Prepared {
    /// Density of the air that the engine draws over that of the outside air [-]; `None` where nothing more is
    /// said of its way than that it has an intake of its own.
    ///
    /// p_m/p₀ T₀/T: ram of the scoop less what its filter takes from the flow of full throttle, or the lower
    /// deck's pressure and warmth.
    #[must_use]
    pub fn intake_density_ratio(&self, installation: &Installation, state: &State) -> Option<f64> {
        let decks = &installation.decks;
        let stream = &self.cowl.stream;
        // A scoop with neither ram nor filter says no more than an intake of its own.
        let is_told = decks.scoop_recovery > 0.0 || decks.filter_drop.value > 0.0;
        if self.cowl.lower_induction_kg_s > 0.0 {
            let pressure = 1.0 + state.trial.lower_pa / stream.pressure_pa;
            Some(pressure * stream.total_k / self.charge_k)
        } else if decks.has_scoop() && is_told {
            // Δp = Δp_r (W/W_r)²/σ, W/W_r = σ at full throttle
            let sigma = stream.density / atmosphere::DENSITY_SL;
            let ram_pa = decks.scoop_recovery * stream.impact_pa;
            Some(1.0 + (ram_pa - sigma * decks.filter_drop.value) / stream.pressure_pa)
        } else {
            None
        }
    }

    /// Speed, m/s, that a drag, N, or a change of it costs in level flight at constant power; `None` without
    /// thrust.
    #[must_use]
    pub fn speed_cost(&self, installation: &Installation, drag_n: f64) -> Option<f64> {
        drag::speed_cost(
            self.cowl.stream.speed_m_s,
            drag_n,
            installation.airframe.induced_share,
            self.thrust_n,
        )
    }

    /// Sets the shutter to an opening from 0 to 1.
    pub(crate) fn set_shutter(&mut self, installation: &Installation, opening: f64) {
        self.cowl.cooler.duct.shutter_passage = shutter_passage(installation, opening);
    }
}

/// Prepares an installation in a condition, with the shutter open.
///
/// # Errors
/// [`PrepareError`] by name.
///
/// # Example
/// The dynamic pressure is ½ρV² of the air and the speed beside it:
/// ```
/// use coolpath_core::answer::prepare::{PrepareError, prepare};
/// use coolpath_core::document::example;
///
/// let design = example::design();
/// let stream = prepare(&design.installation, &design.conditions[3])?.cowl.stream;
/// let by_hand = 0.5 * stream.density * stream.speed_m_s * stream.speed_m_s;
/// assert!((stream.dynamic_pa - by_hand).abs() < 1e-9 * by_hand);
/// # Ok::<(), PrepareError>(())
/// ```
pub fn prepare(
    installation: &Installation,
    condition: &Condition,
) -> Result<Prepared, PrepareError> {
    prepare_breathing(installation, condition, None)
}

/// The same of an engine whose charge has a temperature, K, that is known otherwise.
///
/// # Errors
/// As [`prepare`].
pub(crate) fn prepare_breathing(
    installation: &Installation,
    condition: &Condition,
    charge_k: Option<f64>,
) -> Result<Prepared, PrepareError> {
    installation.has_a_path()?;
    let point = known_point(installation).map_err(PrepareError::KnownPoint)?;
    let engine = &installation.engine;
    let airframe = &installation.airframe;
    let air = outside(installation, condition)?;
    let from_lower = installation
        .decks
        .draws_from_lower_deck(condition.warm_induction);
    let charge_k =
        charge_k.unwrap_or(air.stream.total_k + condition.induction_warming_k(from_lower));
    let burning = burning(installation, condition, charge_k)?;
    // A cylinder that does not fire breathes, but gives neither heat nor power.
    let firing = condition.firing.0.clamp(0.1, 1.0);
    let brake_power_w = firing * burning.brake_w;
    let (phi, charge_kg_s) = (burning.phi, burning.charge_kg_s);
    let slipstream = propeller::slipstream(
        brake_power_w,
        airframe.propeller_efficiency,
        airframe.propeller_diameter.value,
        air.stream.speed_m_s,
        air.stream.density,
    );
    let stream = FreeStream {
        propeller_rise_pa: rise_at_inlets_pa(installation, condition.phase, &slipstream),
        ..air.stream
    };
    let mut heads = heads(installation, &point, &burning, charge_k);
    heads.gas_w_k *= firing;
    let decks = &installation.decks;
    let discharge = decks.leak_discharge;
    let exhaust_kg_s = charge_kg_s + mixture::fuel_flow(charge_kg_s, phi);
    let (exits, flap_drag_m2) =
        exit_elements(installation, condition, &stream, &slipstream, exhaust_kg_s);
    let cowl = Cowl {
        stream,
        inlets: inlet_elements(installation, condition.phase, &stream),
        halves: halves(installation),
        fins: point.resistance,
        heads,
        seal_m2: discharge * decks.seal_area_m2(),
        blast_m2: discharge * decks.blast_area_m2(),
        overboard: Opening {
            effective_area_m2: discharge * decks.overboard_leak.value,
            outside_pa: decks.overboard_pressure * stream.dynamic_pa,
        },
        cabin: Opening {
            effective_area_m2: discharge * decks.cabin_area_m2(),
            outside_pa: 0.0,
        },
        // Warm air is drawn round the exhaust.
        induction_kg_s: if decks.induction_from_upper_deck && !condition.warm_induction {
            charge_kg_s
        } else {
            0.0
        },
        lower_induction_kg_s: if from_lower { charge_kg_s } else { 0.0 },
        inflow: inflow(installation, condition.phase, &stream, &slipstream),
        cooler: cooler_branch(
            installation,
            &stream,
            condition.phase,
            slipstream.pressure_rise_pa,
        )?,
        exits,
        exhaust_heat_w: engine.exhaust_heat_share * brake_power_w,
        skin_w_k: decks.skin_conductance,
        oil: oil_loop(installation, condition, brake_power_w),
    };
    Ok(Prepared {
        cowl,
        point,
        brake_power_w,
        share: burning.share,
        firing,
        phi,
        charge_kg_s,
        charge_k,
        exhaust_k: exhaust_temperature(engine, condition.rpm, phi, burning.manifold_pa),
        fuel_kg_s: mixture::fuel_flow(charge_kg_s, phi),
        pressure_altitude_m: air.pressure_altitude_m,
        thrust_n: slipstream.thrust_n,
        phase: condition.phase,
        flap: condition.flap,
        pressure_rise_pa: slipstream.pressure_rise_pa,
        tailwind_m_s: air.tailwind_m_s,
        spillage: airframe.spillage,
        flap_drag_m2,
    })
}

/// Rise in total pressure that the propeller gives the air before the inlets, Pa.
fn rise_at_inlets_pa(installation: &Installation, phase: Phase, slipstream: &Slipstream) -> f64 {
    let airframe = &installation.airframe;
    // A propeller behind the exit gives the inlets nothing.
    let share = if installation.engine.kind.is_pusher() {
        0.0
    } else if phase == Phase::Ground {
        airframe.propeller_share_rest
    } else {
        airframe.propeller_share
    };
    share * slipstream.pressure_rise_pa
}

/// The leak between the outside and the lower deck.
fn inflow(
    installation: &Installation,
    phase: Phase,
    stream: &FreeStream,
    slipstream: &Slipstream,
) -> Opening {
    let decks = &installation.decks;
    let (of_ram, of_rise) = decks.inflow_shares(phase);
    Opening {
        effective_area_m2: decks.leak_discharge * decks.inflow_leak.value,
        outside_pa: of_ram * stream.impact_pa + of_rise * slipstream.pressure_rise_pa,
    }
}

fn inlet_elements(
    installation: &Installation,
    phase: Phase,
    stream: &FreeStream,
) -> Openings<Inlet> {
    let mut inlets = Openings::default();
    for inlet in &installation.inlets {
        let share = rise_of_side(installation, phase, inlet.side);
        let before = FreeStream {
            propeller_rise_pa: share * stream.propeller_rise_pa,
            ..*stream
        };
        inlets.push(inlet_element(inlet, phase, &before));
    }
    inlets
}

/// Propeller's pressure rise at an inlet over the mean of both sides [-].
fn rise_of_side(installation: &Installation, phase: Phase, side: InletSide) -> f64 {
    let decks = &installation.decks;
    if decks.upper == UpperDeck::One || phase != Phase::Climb {
        return 1.0;
    }
    match side {
        InletSide::Both => 1.0,
        InletSide::Right => decks.right_rise,
        InletSide::Left => 2.0 - decks.right_rise,
    }
}

/// How the upper deck is split.
fn halves(installation: &Installation) -> Option<Halves> {
    let decks = &installation.decks;
    if decks.upper == UpperDeck::One {
        return None;
    }
    let mut left_share = [0.5; MAX_OPENINGS];
    for (share, inlet) in left_share.iter_mut().zip(&installation.inlets) {
        *share = inlet.side.left_share();
    }
    Some(Halves {
        across_m2: decks.leak_discharge * decks.across.value,
        left_share,
        cooler_on_left: installation.cooler.take_off == TakeOff::Left,
        draws: Draws {
            blast: decks.blast_side.left_share(),
            cabin: decks.cabin_side.left_share(),
            induction: decks.induction_side.left_share(),
        },
    })
}

fn inlet_element(inlet: &installation::Inlet, phase: Phase, stream: &FreeStream) -> Inlet {
    Inlet {
        area_m2: inlet.area_m2(),
        // H₀ = k qc + s T/A
        ram_pa: inlet.recovery() * stream.impact_pa + stream.propeller_rise_pa,
        lip_loss: inlet.lip_loss(),
        diffusion_loss: inlet.diffusion_loss(),
        reverse_loss: REVERSE_INLET_LOSS,
        density: stream.density,
        incidence: inlet.incidence(phase),
    }
}
