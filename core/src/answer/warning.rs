//! What the builder should be told beside the numbers.

use crate::answer::absurd::{Absurd, Shown};
use crate::answer::cabin::cabin_air;
use crate::answer::detonation::DetonationSigns;
use crate::answer::gas::breathing;
use crate::answer::prepare::Prepared;
use crate::answer::solved::Solved;
use crate::document::condition::Phase;
use crate::document::installation::{Engine, FinPassages, Installation, ReferenceKind};
use crate::engine::breathing::{FILLING, swept_air};
use crate::engine::mixture::GAS_TABLE_RANGE;
use crate::engine::oil::Viscosity;
use crate::path::element::Inlet;
use crate::path::network::Supply;
use crate::path::state::State;
use crate::units::si::degf;

/// A warning.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Warning {
    /// Heads and fins come from a generic engine.
    GenericEngine,
    /// Air runs upward through the fins.
    ReversedFins,
    /// Air runs backward through the cooler.
    ReversedCooler,
    /// An exit draws air in.
    ReversedExit {
        /// Its place in the list.
        place: usize,
    },
    /// An inlet blows air out.
    ReversedInlet {
        /// Its place in the list.
        place: usize,
    },
    /// More power than an engine without supercharger gives at this altitude.
    AboveFullThrottle {
        /// Power at full throttle over rated power [-].
        available: f64,
    },
    /// The mixture lies at or beyond the end of the gas-temperature curve.
    MixtureAtEnd {
        /// Equivalence ratio [-].
        phi: f64,
    },
    /// Oil in the cold core is too thick to flow.
    Congealing {
        /// Oil pressure drop in the cold core and lines, Pa.
        drop_pa: f64,
    },
    /// A share of the cooler's face is covered.
    CoolerCovered {
        /// Covered area over the whole face [-].
        share: f64,
    },
    /// Rings are not yet seated.
    BreakIn,
    /// Something lies on a cylinder.
    DebrisOnCylinder,
    /// Oil below its least temperature to fly, or too cool to boil off its water.
    ColdOil {
        /// Below the least to fly.
        below_least: bool,
        /// What warms it.
        by: Warming,
    },
    /// The lower deck heats the oil through the sump.
    SumpHeated,
    /// The face of the inlet is faster than its approach speed: the lip must turn the air in.
    InletOverdrawn {
        /// Face speed over approach speed [-].
        ratio: f64,
    },
    /// The cooler's own inlet is faster than its approach speed.
    CoolerInletOverdrawn {
        /// Face speed over approach speed [-].
        ratio: f64,
    },
    /// The upper deck stands below the outside static pressure.
    UpperDeckBelowAmbient,
    /// The wind blows from behind, faster than the aircraft moves.
    Tailwind {
        /// By how much, m/s.
        beyond_m_s: f64,
    },
    /// The model has left its ground: the numbers are no prediction.
    Absurd(Absurd),
    /// The blast tubes bring less than what they cool needs.
    BlastShort {
        /// Air through each, kg/s.
        flow_kg_s: f64,
    },
    /// What leaves an augmentor is hot.
    AugmentorHot {
        /// Mixed exhaust and air, K.
        mixed_k: f64,
    },
    /// The air at the fuel lines is hot.
    FuelVapour {
        /// Air of the lower deck, K.
        air_k: f64,
    },
    /// Cabin air passes the exhaust.
    CabinHeat {
        /// Behind the muff, K.
        air_k: f64,
    },
    /// Rated power, speed, displacement and air consumption do not fit together.
    Filling {
        /// Charge air at rated power, kg/s.
        rated_kg_s: f64,
        /// Air at sea level that the cylinders sweep at rated speed, kg/s.
        swept_kg_s: f64,
    },
    /// The engine's known point is a reading at little power.
    ReadingAtLowPower {
        /// Its power over rated power [-].
        share: f64,
    },
    /// Several signs together call for caution against detonation.
    Detonation {
        /// Which.
        signs: DetonationSigns,
    },
}

/// What warms oil that stays too cold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Warming {
    /// Tape over the cooler, or a shutter, since none is fitted.
    TapeOrShutter,
    /// The shutter, which is open.
    Shutter,
    /// Tape over the cooler, since the shutter is shut.
    Tape,
}

/// Signs from which a caution against detonation is given.
const DETONATION_SIGNS: usize = 2;

/// Air of the lower deck above which fuel in the lines may boil, K (from memory: petrol begins to boil
/// near 110 °F at sea level, earlier at altitude, and lines take up the bay's heat slowly).
const VAPOUR_AIR_K: f64 = degf(220.0);
/// Power of a reading over rated power [-] below which its errors grow too much on the way to a climb's power (from memory).
const LEAST_READING_SHARE: f64 = 0.5;
/// Full throttle ratings are quoted generously by a few per cent.
const THROTTLE_MARGIN: f64 = 1.03;

/// Power at full throttle over sea-level rated power [-], from density ratio σ.
///
/// P/P₀ = 1.132 σ − 0.132 (textbook fit for engines without supercharger, from memory).
///
/// # Example
/// All of it at sea level, 0.4340 in air of half the density:
/// ```
/// use coolpath_core::answer::warning::full_throttle_share;
///
/// assert!((full_throttle_share(1.0) - 1.0).abs() < 1e-12);
/// assert!((full_throttle_share(0.5) - 0.434).abs() < 1e-12);
/// ```
#[must_use]
pub fn full_throttle_share(sigma: f64) -> f64 {
    1.132 * sigma - 0.132
}

/// Oil-side pressure drop, Pa, in a core whose walls are near the air's temperature.
///
/// Laminar: Δp ∝ μ V̇ from the rated point, with the viscosity at the mean of oil and air.
#[must_use]
fn cold_core_drop(
    installation: &Installation,
    viscosity: &Viscosity,
    oil_k: f64,
    air_k: f64,
    oil_m3_s: f64,
) -> f64 {
    let film_k = 0.5 * (oil_k + air_k);
    let rated_k = degf(200.0);
    let thicker = viscosity.dynamic(film_k) / viscosity.dynamic(rated_k);
    let cooler = &installation.cooler;
    let cores = cooler.second.cores().oil_drop();
    installation.oil.rated_drop.value * cores * thicker * oil_m3_s / cooler.rated_oil_flow.value
}

/// Oil pressure drop in the cold core, Pa, where it passes the limit at which the oil may congeal.
pub(crate) fn congealing_drop_pa(installation: &Installation, state: &State) -> Option<f64> {
    let (at_40, at_100) = installation.oil.grade.viscosities_cst();
    let viscosity = Viscosity::from_two_points(at_40, at_100).ok()?;
    let oil_k = state.trial.oil_k;
    let oil_m3_s = state.terms.cooler_oil_kg_s() / crate::engine::oil::density(oil_k);
    let drop_pa = cold_core_drop(installation, &viscosity, oil_k, state.cooler.in_k, oil_m3_s);
    (drop_pa > installation.oil.drop_limit.value).then_some(drop_pa)
}

/// Face speed of an inlet at a flow, kg/s, over the speed at which the air arrives [-].
fn overdrawn(inlet: &Inlet, flow_kg_s: f64) -> f64 {
    flow_kg_s / (inlet.density * inlet.area_m2) / inlet.approach_speed().max(1e-9)
}

/// The warning of cold oil. A descent is too short to boil water off.
fn cold_oil(
    installation: &Installation,
    solved: &Solved,
    phase: Phase,
    gauge_k: f64,
) -> Option<Warning> {
    let engine = &installation.engine;
    let below_least = phase != Phase::Ground && gauge_k < engine.oil_minimum.value;
    let keeps_water =
        matches!(phase, Phase::Cruise | Phase::Climb) && gauge_k < engine.oil_wanted.value;
    (below_least || keeps_water).then_some(Warning::ColdOil {
        below_least,
        by: if !installation.shutter.fitted {
            Warming::TapeOrShutter
        } else if solved.opening > 0.0 {
            Warming::Shutter
        } else {
            Warming::Tape
        },
    })
}

/// Warnings of a solved condition, most urgent first.
#[must_use]
pub fn warnings(
    installation: &Installation,
    solved: &Solved,
    phase: Phase,
    shown: Shown,
) -> Vec<Warning> {
    let (prepared, state) = (&solved.prepared, &solved.solution.state);
    let cowl = &prepared.cowl;
    let gauge_k = shown.gauge_k;
    let absurd = Absurd::of(cowl, state, phase, shown);
    let mut found: Vec<Warning> = absurd.into_iter().map(Warning::Absurd).collect();
    let signs = DetonationSigns::of(installation, prepared, state);
    if signs.count() >= DETONATION_SIGNS {
        found.push(Warning::Detonation { signs });
    }
    if state.fins.flow_kg_s < 0.0 {
        found.push(Warning::ReversedFins);
    }
    if state.cooler.flow_kg_s < 0.0 {
        found.push(Warning::ReversedCooler);
    }
    let places = cowl.exits.as_slice().len();
    for (place, exit) in state.exits.iter().take(places).enumerate() {
        if exit.flow_kg_s < 0.0 {
            found.push(Warning::ReversedExit { place });
        }
    }
    for (place, (inlet, &flow)) in cowl.inlets.as_slice().iter().zip(&state.inlets).enumerate() {
        if flow < 0.0 {
            found.push(Warning::ReversedInlet { place });
            continue;
        }
        let ratio = overdrawn(inlet, flow);
        if ratio > 1.0 && phase != Phase::Ground {
            found.push(Warning::InletOverdrawn { ratio });
        }
    }
    if let Supply::OwnInlet(inlet) = cowl.cooler.supply {
        let ratio = overdrawn(&inlet, state.cooler.flow_kg_s);
        if ratio > 1.0 && phase != Phase::Ground {
            found.push(Warning::CoolerInletOverdrawn { ratio });
        }
    }
    if prepared.tailwind_m_s > 0.0 {
        found.push(Warning::Tailwind {
            beyond_m_s: prepared.tailwind_m_s,
        });
    }
    if state.trial.upper_pa < 0.0 && phase != Phase::Ground {
        found.push(Warning::UpperDeckBelowAmbient);
    }
    let share = prepared.brake_power_w / installation.engine.rated_power.value;
    let sigma = cowl.stream.density / crate::air::atmosphere::DENSITY_SL;
    // An intake of its own draws the outside air as it is.
    let intake = prepared
        .intake_density_ratio(installation, state)
        .unwrap_or(1.0);
    let available = full_throttle_share(sigma * intake);
    if share > available * THROTTLE_MARGIN {
        found.push(Warning::AboveFullThrottle { available });
    }
    if prepared.phi <= GAS_TABLE_RANGE.0 + 1e-9 || prepared.phi >= GAS_TABLE_RANGE.1 - 1e-9 {
        found.push(Warning::MixtureAtEnd { phi: prepared.phi });
    }
    if let Some(drop_pa) = congealing_drop_pa(installation, state) {
        found.push(Warning::Congealing { drop_pa });
    }
    found.extend(cold_oil(installation, solved, phase, gauge_k));
    if state.sump_heat_w < 0.0 {
        found.push(Warning::SumpHeated);
    }
    if installation.cooler.blanked_share > 0.0 {
        found.push(Warning::CoolerCovered {
            share: installation.cooler.blanked_share,
        });
    }
    found.extend(airs_owed(installation, prepared, state, phase));
    found.extend(of_the_engine(installation));
    found
}

/// What is said of the engine in every condition.
fn of_the_engine(installation: &Installation) -> Vec<Warning> {
    let engine = &installation.engine;
    let mut found = Vec::new();
    if engine.break_in {
        found.push(Warning::BreakIn);
    }
    if engine.fin_passages == FinPassages::Debris {
        found.push(Warning::DebrisOnCylinder);
    }
    found.extend(filling(engine));
    match installation.reference.kind {
        ReferenceKind::Generic => found.push(Warning::GenericEngine),
        ReferenceKind::Readings => {
            let share = installation.reference.reading_power.value / engine.rated_power.value;
            if share < LEAST_READING_SHARE {
                found.push(Warning::ReadingAtLowPower { share });
            }
        }
        ReferenceKind::Chart => {}
    }
    found
}

/// The warning of an engine that breathes more or less than its cylinders can.
fn filling(engine: &Engine) -> Option<Warning> {
    let rated_kg_s = breathing(engine).rated_air();
    let swept_kg_s = swept_air(engine.displacement.value, engine.rated_rpm);
    let (least, most) = FILLING;
    // Nothing is swept where no displacement is given.
    let fits = swept_kg_s <= 0.0 || (least..=most).contains(&(rated_kg_s / swept_kg_s));
    (!fits).then_some(Warning::Filling {
        rated_kg_s,
        swept_kg_s,
    })
}

/// Air that others need, and what is hot behind or beside the engine.
fn airs_owed(
    installation: &Installation,
    prepared: &Prepared,
    state: &State,
    phase: Phase,
) -> Vec<Warning> {
    let cowl = &prepared.cowl;
    let mut found = Vec::new();
    let tubes = f64::from(installation.decks.blast_tubes);
    if tubes > 0.0 && phase != Phase::Ground {
        let flow_kg_s = state.blast_kg_s / tubes;
        if flow_kg_s < installation.decks.blast_least.value {
            found.push(Warning::BlastShort { flow_kg_s });
        }
    }
    for (exit, flow) in cowl.exits.as_slice().iter().zip(&state.exits) {
        if let Some(ejector) = exit.ejector {
            found.push(Warning::AugmentorHot {
                mixed_k: ejector.mixed_k(flow.flow_kg_s, state.lower_k, cowl.stream.pressure_pa),
            });
        }
    }
    if state.lower_k > VAPOUR_AIR_K {
        found.push(Warning::FuelVapour {
            air_k: state.lower_k,
        });
    }
    if let Some(cabin) = cabin_air(installation, prepared, state)
        && cabin.heat_w > 0.0
    {
        found.push(Warning::CabinHeat { air_k: cabin.air_k });
    }
    found
}

impl Warning {
    /// Short name for files.
    #[must_use]
    pub fn name(&self) -> &'static str {
        match self {
            Self::GenericEngine => "generic_engine",
            Self::ReversedFins => "reversed_fins",
            Self::ReversedCooler => "reversed_cooler",
            Self::ReversedExit { .. } => "reversed_exit",
            Self::ReversedInlet { .. } => "reversed_inlet",
            Self::AboveFullThrottle { .. } => "above_full_throttle",
            Self::MixtureAtEnd { .. } => "mixture_at_end_of_curve",
            Self::Congealing { .. } => "congealing_cooler",
            Self::CoolerCovered { .. } => "cooler_covered",
            Self::BreakIn => "break_in",
            Self::DebrisOnCylinder => "debris_on_cylinder",
            Self::ColdOil { .. } => "cold_oil",
            Self::SumpHeated => "sump_heated",
            Self::InletOverdrawn { .. } => "inlet_overdrawn",
            Self::CoolerInletOverdrawn { .. } => "cooler_inlet_overdrawn",
            Self::UpperDeckBelowAmbient => "upper_deck_below_ambient",
            Self::Tailwind { .. } => "tailwind",
            Self::Absurd(what) => what.name(),
            Self::BlastShort { .. } => "blast_short",
            Self::AugmentorHot { .. } => "augmentor_hot",
            Self::FuelVapour { .. } => "fuel_vapour",
            Self::CabinHeat { .. } => "cabin_heat",
            Self::Detonation { .. } => "detonation_signs",
            Self::Filling { .. } => "displacement_does_not_fit",
            Self::ReadingAtLowPower { .. } => "reading_at_low_power",
        }
    }
}
