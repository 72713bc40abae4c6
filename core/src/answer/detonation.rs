//! Signs that together call for caution against detonation.
//!
//! The model knows nothing of detonation itself: two signs of four are a caution, no more.
//!
//! # Sources
//! The four signs and their bounds are common practice, from memory. The mixture 75 °F rich of peak
//! EGT is 1.10 times that at peak: derived from one engine's logs.

use crate::answer::prepare::Prepared;
use crate::document::installation::Installation;
use crate::language::tr;
use crate::path::state::State;
use crate::units::si::degf;
use crate::units::typed::{Dimension, UnitSystem};

/// Compression ratio from which it counts [-].
const HIGH_COMPRESSION: f64 = 9.5;
/// Share of rated power above which a mixture near peak counts [-].
const HIGH_POWER: f64 = 0.75;
/// Mixture 75 °F rich of peak EGT over that at peak [-].
const RICH_BY_75_DEGF: f64 = 1.10;
/// Induction air above which it counts, K.
const WARM_AIR_K: f64 = degf(100.0);

/// Which signs are there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct DetonationSigns {
    /// High compression.
    pub compression: bool,
    /// Ignition advance beyond the engine's standard.
    pub advance: bool,
    /// Mixture from peak to 75 °F rich of it at high power.
    pub mixture: bool,
    /// Warm induction air.
    pub warm_air: bool,
}

impl DetonationSigns {
    /// The signs of a solved condition.
    #[must_use]
    pub fn of(installation: &Installation, prepared: &Prepared, state: &State) -> Self {
        let engine = &installation.engine;
        let induction_k = if installation.decks.induction_from_upper_deck {
            state.upper_k
        } else {
            prepared.charge_k
        };
        let over_peak = prepared.phi / engine.peak_egt;
        Self {
            compression: engine.compression_ratio >= HIGH_COMPRESSION,
            advance: engine.ignition_advance > 0.0,
            mixture: prepared.share > HIGH_POWER && (1.0..=RICH_BY_75_DEGF).contains(&over_peak),
            warm_air: induction_k > WARM_AIR_K,
        }
    }

    /// How many signs are there.
    #[must_use]
    pub fn count(&self) -> usize {
        [self.compression, self.advance, self.mixture, self.warm_air]
            .into_iter()
            .filter(|there| *there)
            .count()
    }

    /// The signs that are there, in words.
    #[must_use]
    pub fn words(&self, system: UnitSystem) -> Vec<String> {
        let unit = Dimension::Temperature.shown(system);
        let warm = unit.from_si(WARM_AIR_K);
        [
            (self.compression, tr("high compression").to_owned()),
            (
                self.advance,
                tr("ignition advanced beyond the maker's").to_owned(),
            ),
            (
                self.mixture,
                tr("a mixture near peak EGT at high power").to_owned(),
            ),
            (
                self.warm_air,
                tr!("induction air over {:.0} {}", warm, unit.symbol),
            ),
        ]
        .into_iter()
        .filter_map(|(there, words)| there.then_some(words))
        .collect()
    }
}
