//! The installation as the builder describes it: a document of plain numbers and choices.
//!
//! Quantities are `uom` types, stored in SI units; each key in the file ends with its unit. Both
//! a choice and the numbers of the choices not taken are kept, so that switching back loses
//! nothing.

mod air_between;
mod airframe;
pub mod areas;
mod cooler;
mod cooler_fins;
mod cylinder;
mod decks;
mod engine;
mod exit;
mod exit_place;
mod exit_pressure;
mod inlet;
mod lags;
mod oil;
mod reference;
pub mod seal_leak;
mod shutter;

pub use crate::document::installation::cooler_fins::FinKind;
pub use air_between::{FinPassages, PoorerEnd, PoorerSide};
pub use airframe::Airframe;
pub use cooler::{
    Cooler, CoolerDischarge, CoolerRating, CoolerSupply, Cover, Hose, SecondCooler, TakeOff,
};
pub use cylinder::Cylinder;
pub use decks::{Breathes, Decks, Sealing, UpperDeck};
pub use engine::{CylinderData, Engine, EngineKind, FuelSystem, HeadProbe, SecondLimit};
pub use exit::{Exit, ExitEdge, ExitShape, FlapGiven};
pub use exit_place::ExitPlace;
pub use inlet::{Inlet, InletPosition, InletShape, InletSide, Lip};
pub use lags::Lags;
pub use oil::{Grade, Oil, OilProbe, oil_heat_share_id};
pub use reference::{ChartDensity, Reference, ReferenceKind};
pub use shutter::Shutter;

use serde::{Deserialize, Serialize};

/// One engine installation.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Installation {
    /// Aircraft and propeller.
    pub airframe: Airframe,
    /// Engine and its limits.
    pub engine: Engine,
    /// The known point that the heads and fins are scaled from.
    pub reference: Reference,
    /// Inlets, at least one and at most four.
    pub inlets: Vec<Inlet>,
    /// Upper and lower deck: sealing, leaks, draws.
    pub decks: Decks,
    /// Oil.
    pub oil: Oil,
    /// Oil cooler and its duct.
    pub cooler: Cooler,
    /// Shutter in the cooler's duct.
    pub shutter: Shutter,
    /// Exits, at least one and at most four.
    pub exits: Vec<Exit>,
    /// Cylinders, number 1 first, where they are known one by one.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cylinders: Vec<Cylinder>,
    /// How slowly heads and oil follow.
    #[serde(skip_serializing_if = "is_usual")]
    pub lags: Lags,
}

/// Files without own time constants stay readable for earlier versions.
fn is_usual(lags: &Lags) -> bool {
    *lags == Lags::default()
}

impl Default for Installation {
    fn default() -> Self {
        Self {
            airframe: Airframe::default(),
            engine: Engine::default(),
            reference: Reference::default(),
            inlets: vec![Inlet::default()],
            decks: Decks::default(),
            oil: Oil::default(),
            cooler: Cooler::default(),
            shutter: Shutter::default(),
            exits: vec![Exit::default()],
            cylinders: Vec::new(),
            lags: Lags::default(),
        }
    }
}
