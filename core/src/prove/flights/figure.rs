//! What of a flight is compared with the model.

use crate::document::quantity::Quantity;
use crate::document::reading::Moment;
use serde::{Deserialize, Serialize};

/// What is compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Figure {
    /// Mean of the heads that were read.
    HeadMean,
    /// Hottest of them.
    HeadHottest,
    /// Oil at the gauge.
    Oil,
    /// Pressure across the baffles.
    BaffleDrop,
    /// One head; the first is 0.
    Head(usize),
}

/// Names of the heads, one by one.
const HEADS: [&str; 8] = [
    "head_1", "head_2", "head_3", "head_4", "head_5", "head_6", "head_7", "head_8",
];

impl Figure {
    /// The temperatures that every check is judged by.
    pub const MAIN: [Self; 3] = [Self::HeadMean, Self::HeadHottest, Self::Oil];

    /// All of them, the main ones first.
    pub fn all() -> impl Iterator<Item = Self> {
        let heads = (0..HEADS.len()).map(Self::Head);
        Self::MAIN
            .into_iter()
            .chain([Self::BaffleDrop])
            .chain(heads)
    }

    /// Its name in tables.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::HeadMean => "head_mean",
            Self::HeadHottest => "head_hottest",
            Self::Oil => "oil",
            Self::BaffleDrop => "baffle_drop",
            Self::Head(place) => HEADS.get(place).copied().unwrap_or("head"),
        }
    }

    /// Whether it is a pressure, Pa; all others are temperatures, K.
    #[must_use]
    pub fn is_pressure(self) -> bool {
        self == Self::BaffleDrop
    }

    /// What was read of it in a moment, SI.
    #[must_use]
    pub fn measured(self, moment: &Moment) -> Option<f64> {
        match self {
            Self::HeadMean => moment.head_mean(),
            Self::HeadHottest => moment.head_hottest(),
            Self::Oil => moment.get(Quantity::Oil),
            Self::BaffleDrop => moment.baffle_drop(),
            Self::Head(place) => moment.get(*Quantity::HEADS.get(place)?),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_head_has_a_figure_and_a_name_of_its_own() {
        let names: std::collections::BTreeSet<&str> = Figure::all().map(Figure::name).collect();
        assert_eq!(names.len(), 4 + Quantity::HEADS.len());
        let mut moment = Moment::default();
        moment.values.insert(Quantity::HEADS[2], 450.0);
        assert_eq!(Figure::Head(2).measured(&moment), Some(450.0));
        assert_eq!(Figure::Head(1).measured(&moment), None);
    }
}
