//! The installation as the builder describes it: a document of plain numbers and choices.
//!
//! Quantities are `uom` types, stored in SI units; each key in the file ends with its unit. Both
//! a choice and the numbers of the choices not taken are kept, so that switching back loses
//! nothing.

mod airframe;
pub mod areas;
mod decks;
mod engine;
mod exit;
mod inlet;
mod lags;
mod oil;

pub use crate::document::installation::airframe::Airframe;
pub use crate::document::installation::decks::{Decks, Sealing};
pub use crate::document::installation::engine::{
    ChartDensity, Engine, EngineKind, HeadProbe, Reference, ReferenceKind, SecondLimit,
};
pub use crate::document::installation::exit::{Exit, ExitShape};
pub use crate::document::installation::inlet::{Inlet, InletPosition, InletShape, Lip};
pub use crate::document::installation::lags::Lags;
pub use crate::document::installation::oil::{
    Cooler, CoolerDischarge, CoolerRating, CoolerSupply, Grade, Hose, Oil, OilProbe, Shutter,
};

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
            lags: Lags::default(),
        }
    }
}
