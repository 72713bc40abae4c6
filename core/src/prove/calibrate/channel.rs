//! What readings and model both give.

use crate::document::installation::Lags;
use crate::document::quantity::Quantity;
use crate::document::reading::Moment;
use crate::language::tr;
use serde::{Deserialize, Serialize};

/// Something that readings and model both give.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Channel {
    /// Mean of the heads as their probes read them.
    HeadMean,
    /// Hottest head minus that mean.
    HeadSpread,
    /// Hottest head, where only one was read.
    HeadAlone,
    /// Oil at the gauge.
    Oil,
    /// Upper minus lower deck.
    BaffleDrop,
    /// Upper deck above static.
    UpperDeck,
    /// Lower deck above static.
    LowerDeck,
    /// Mean of the exhaust temperatures.
    Exhaust,
}

/// Number of channels.
pub(crate) const CHANNELS: usize = 8;

impl Channel {
    /// All of them.
    pub const ALL: [Self; CHANNELS] = [
        Self::HeadMean,
        Self::HeadSpread,
        Self::HeadAlone,
        Self::Oil,
        Self::BaffleDrop,
        Self::UpperDeck,
        Self::LowerDeck,
        Self::Exhaust,
    ];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::HeadMean => tr("mean of the heads"),
            Self::HeadSpread => tr("hottest head above the mean"),
            Self::HeadAlone => tr("head"),
            Self::Oil => tr("oil"),
            Self::BaffleDrop => tr("Δp across the baffles"),
            Self::UpperDeck => tr("upper deck"),
            Self::LowerDeck => tr("lower deck"),
            Self::Exhaust => tr("mean exhaust temperature"),
        }
    }

    /// Whether it is a pressure.
    #[must_use]
    pub fn is_pressure(self) -> bool {
        matches!(self, Self::BaffleDrop | Self::UpperDeck | Self::LowerDeck)
    }

    /// Its time constant in each moment, s, whose heads are so much slower than in cruise \[-\];
    /// `None` for what follows at once.
    pub(crate) fn lags_s(self, lags: &Lags, slowness: &[f64]) -> Option<Vec<f64>> {
        match self {
            Self::Oil => Some(vec![lags.oil; slowness.len()]),
            Self::Exhaust => None,
            channel if channel.is_pressure() => None,
            _ => Some(slowness.iter().map(|slower| lags.heads * slower).collect()),
        }
    }

    /// What the instruments say, SI.
    #[must_use]
    pub fn measured(self, moment: &Moment) -> Option<f64> {
        match self {
            Self::HeadMean => moment.head_mean(),
            Self::HeadSpread => Some(moment.head_hottest()? - moment.head_mean()?),
            Self::HeadAlone => match moment.head_mean() {
                None => moment.head_hottest(),
                Some(_) => None,
            },
            Self::Oil => moment.get(Quantity::Oil),
            Self::BaffleDrop => moment.get(Quantity::BaffleDrop).or_else(|| {
                // Both decks count by themselves.
                let decks = [Quantity::UpperDeck, Quantity::LowerDeck];
                let both = decks.iter().all(|deck| moment.get(*deck).is_some());
                (!both).then(|| moment.baffle_drop()).flatten()
            }),
            Self::UpperDeck => moment.get(Quantity::UpperDeck),
            Self::LowerDeck => moment.get(Quantity::LowerDeck),
            Self::Exhaust => moment.exhaust_mean(),
        }
    }
}
