//! What is compared or fitted, in SI.

use coolpath_core::answer::evaluate::answer;
use coolpath_core::answer::head_readings::{each_reading, hottest_reading, mean_reading};
use coolpath_core::answer::solve_condition::solve_condition;
use coolpath_core::answer::solved::Solved;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::Installation;
use coolpath_core::engine::egt::below_peak;
use coolpath_core::units::typed::{Dimension, UnitSystem, parse};

/// A quantity of a solved condition.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// Hottest head, K.
    HeadHottest,
    /// Mean head, K.
    HeadMean,
    /// Head of cylinder 1, K.
    HeadOne,
    /// Head of cylinder 1 above the mean of the others, K.
    OneAboveOthers,
    /// EGT of cylinder 1 above that of the others, K.
    EgtOneAboveOthers,
    /// Oil at the gauge, K.
    Oil,
    /// Upper minus lower deck, Pa.
    BaffleDrop,
    /// Speed that the cooling drag costs, below zero, m/s.
    Speed,
}

/// Names in the files.
const NAMES: [(&str, Measure); 8] = [
    ("head_hottest", Measure::HeadHottest),
    ("head_mean", Measure::HeadMean),
    ("head_one", Measure::HeadOne),
    ("one_above_others", Measure::OneAboveOthers),
    ("egt_one_above_others", Measure::EgtOneAboveOthers),
    ("oil", Measure::Oil),
    ("baffle_drop", Measure::BaffleDrop),
    ("speed", Measure::Speed),
];

impl Measure {
    /// The quantity of a name in the files.
    ///
    /// # Panics
    /// If it is none.
    #[must_use]
    pub fn named(name: &str) -> Self {
        let found = NAMES.iter().find(|(own, _)| *own == name);
        found.map_or_else(|| panic!("no quantity is named `{name}`"), |(_, own)| *own)
    }

    /// Its name in the files.
    #[must_use]
    pub fn name(self) -> &'static str {
        let found = NAMES.iter().find(|(_, own)| *own == self);
        found.map_or("", |(name, _)| name)
    }

    /// SI value of a text with its unit.
    ///
    /// # Panics
    /// If it is none.
    #[must_use]
    pub fn parsed(self, text: &str) -> f64 {
        let dimension = match self {
            Self::HeadHottest | Self::HeadMean | Self::HeadOne | Self::Oil => {
                Dimension::Temperature
            }
            Self::OneAboveOthers | Self::EgtOneAboveOthers => Dimension::TemperatureDifference,
            Self::BaffleDrop => Dimension::Pressure,
            Self::Speed => Dimension::Speed,
        };
        si(text, dimension)
    }

    /// Its value in a solved condition; `None` where the condition has none.
    #[must_use]
    pub fn of(self, design: &Design, solved: &Solved) -> Option<f64> {
        let installation = &design.installation;
        let state = &solved.solution.state;
        Some(match self {
            Self::HeadHottest => hottest_reading(installation, solved),
            Self::HeadMean => mean_reading(installation, solved),
            Self::HeadOne => *each_reading(installation, solved).first()?,
            Self::OneAboveOthers => {
                let each = each_reading(installation, solved);
                above_others(&each)?
            }
            Self::EgtOneAboveOthers => {
                let each = exhausts(installation, solved.prepared.phi);
                above_others(&each)?
            }
            Self::Oil => solved.oil_gauge_k(installation),
            Self::BaffleDrop => state.trial.upper_pa - state.trial.lower_pa,
            Self::Speed => {
                let answer = answer(installation, design.conditions.first()?, solved);
                -answer.speed_cost?.value
            }
        })
    }
}

/// The only condition of a design, solved.
#[must_use]
pub fn solved(design: &Design, near: Option<&Solved>) -> Option<Solved> {
    solve_condition(&design.installation, design.conditions.first()?, near).ok()
}

/// EGT below its peak of each cylinder, K.
fn exhausts(installation: &Installation, phi: f64) -> Vec<f64> {
    let trims: Vec<f64> = installation.cylinders.iter().map(|own| own.fuel).collect();
    let mean = trims.iter().sum::<f64>() / trims.len() as f64;
    let ratio = |trim: f64| phi * (1.0 + trim - mean) / installation.engine.peak_egt;
    trims
        .into_iter()
        .map(|trim| below_peak(ratio(trim)))
        .collect()
}

fn above_others(each: &[f64]) -> Option<f64> {
    let (first, others) = each.split_first()?;
    (!others.is_empty()).then(|| first - others.iter().sum::<f64>() / others.len() as f64)
}

/// SI value of a text with its unit.
///
/// # Panics
/// If it is none.
pub(super) fn si(text: &str, dimension: Dimension) -> f64 {
    parse(text, dimension, UnitSystem::Customary)
        .unwrap_or_else(|error| panic!("`{text}`: {error}"))
}
