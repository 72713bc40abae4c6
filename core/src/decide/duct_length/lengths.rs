//! The lengths of a widening duct with what the network answers, and which of them pays.

use crate::answer::solved::EvaluateError;
use crate::document::design::Design;
use crate::document::table::by_id;
use crate::language::tr;
use serde::{Deserialize, Serialize};

/// Cooling of the hottest head for which another inch of duct is worth building, K: half a degree
/// Fahrenheit (from memory: a judgement without a source).
pub const WORTH_AN_INCH_K: f64 = 0.5 / 1.8;

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum DuctError {
    /// There is no inlet at this place.
    #[error("{}", tr("There is no such inlet."))]
    NoSuchInlet {
        /// The place asked for.
        place: usize,
        /// How many inlets the design has.
        count: usize,
    },
    /// An inlet takes in no air, so that a duct behind it recovers nothing.
    #[error(
        "{}",
        tr!(
            "“{}” takes in no air in “{}”: a duct behind it would recover nothing.",
            .inlet, .condition
        )
    )]
    NoAir {
        /// Name of the inlet.
        inlet: String,
        /// Name of the condition.
        condition: String,
    },
    /// A condition has no answer.
    #[error("{}", tr!("“{}” has no answer: {}", .condition, .error))]
    NoAnswer {
        /// Name of the condition.
        condition: String,
        /// Length of the duct with which it has none, m; `None` without a duct.
        length_m: Option<f64>,
        /// Why.
        error: EvaluateError,
    },
    /// The design is refused, or has no such condition.
    #[error(transparent)]
    Design(#[from] EvaluateError),
}

/// What the network answers.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Answered {
    /// Hottest head, K.
    pub head_k: f64,
    /// Oil at the gauge, K.
    pub oil_k: f64,
    /// Cooling drag, N.
    pub drag_n: f64,
}

/// A duct and what comes of it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Duct {
    /// Length, m.
    pub length_m: f64,
    /// Area at its end over that of the opening [-].
    pub area_ratio: f64,
    /// Share of the dynamic pressure in the opening that it recovers [-].
    pub recovery: f64,
    /// What the network answers with it.
    pub answered: Answered,
}

/// One length.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Row {
    /// With the design's own area ratio.
    pub own: Duct,
    /// With the area ratio that recovers most at this length.
    pub best: Duct,
}

/// Wider inlets instead of a duct.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Wider {
    /// Area of all inlets together, m².
    pub inlets_m2: f64,
    /// How much of it is added, m².
    pub added_m2: f64,
    /// What the network answers with them in the asked condition.
    pub answered: Answered,
    /// Their cooling drag less that of the duct, in the asked condition, N.
    pub drag_n: f64,
    /// The same in the first level condition.
    pub level: Option<Level>,
}

/// What a difference in drag is in level flight.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Level {
    /// Place of the condition.
    pub condition: usize,
    /// Cooling drag of the wider inlets less that of the duct, N.
    pub drag_n: f64,
    /// Speed that this costs at constant power, m/s; `None` without thrust.
    pub speed_m_s: Option<f64>,
}

/// All lengths, and what pays.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Lengths {
    /// Places of the inlets that get the duct.
    pub inlets: Vec<usize>,
    /// Without any widening duct behind these.
    pub without: Answered,
    /// One row a length, the shortest first.
    pub rows: Vec<Row>,
    /// Place of the row that pays for itself on the line of best recovery; `None` where the longest duct
    /// still gains from another inch.
    pub pays: Option<usize>,
    /// Inlets without a duct that hold the same hottest head; `None` if no permitted size does.
    pub wider: Option<Wider>,
}

impl Lengths {
    /// The duct to build: on the line of best recovery, of the length that pays, else the longest.
    #[must_use]
    pub fn advised(&self) -> Option<&Duct> {
        let row = self.pays.map_or(self.rows.last(), |at| self.rows.get(at));
        row.map(|row| &row.best)
    }

    /// The same if as a whole it cools by what one more inch must: where air turns round, a duct may even
    /// warm a head.
    #[must_use]
    pub fn worthwhile(&self) -> Option<&Duct> {
        self.advised()
            .filter(|duct| self.without.head_k - duct.answered.head_k >= WORTH_AN_INCH_K)
    }
}

/// The same design with the loss of these inlets' ducts at the low and at the high end of its likely
/// range; nothing where it is marked as measured.
///
/// # Example
/// Two ends about the default:
/// ```
/// use coolpath_core::decide::duct_length::at_likely_losses;
/// use coolpath_core::document::example;
///
/// let ends = at_likely_losses(&example::design(), &[0, 1]);
/// let factors = ends.map(|design| design.map(|design| design.installation.inlets[1].diffuser_factor));
/// assert_eq!(factors, [Some(1.0), Some(2.5)]);
/// ```
#[must_use]
pub fn at_likely_losses(design: &Design, inlets: &[usize]) -> [Option<Design>; 2] {
    [0, 1].map(|end| {
        let input = by_id("inlet.diffuser_loss_factor")?;
        let mut moved = design.clone();
        for &inlet in inlets {
            let (low, high) = design.likely(input, inlet)?;
            input.set(&mut moved, inlet, if end == 0 { low } else { high });
        }
        Some(moved)
    })
}

/// Place of the shortest of some lengths an inch apart beyond which no inch more cools by so much; `None`
/// where the last inch still does.
///
/// # Arguments
/// * `heads_k` - hottest head at each length, the shortest first, K
///
/// # Example
/// The first inch more gains 2 K, the second 1 K, the third 0.2 K: the third length pays.
/// ```
/// use coolpath_core::decide::duct_length::paying;
///
/// assert_eq!(paying(&[480.0, 478.0, 477.0, 476.8]), Some(2));
/// assert_eq!(paying(&[480.0, 478.0, 477.0]), None);
/// assert_eq!(paying(&[480.0, 479.9, 479.9]), Some(0));
/// ```
#[must_use]
pub fn paying(heads_k: &[f64]) -> Option<usize> {
    let gains = heads_k.windows(2).map(|pair| pair[0] - pair[1]);
    let worth: Vec<bool> = gains.map(|gain| gain >= WORTH_AN_INCH_K).collect();
    let place = worth
        .iter()
        .rposition(|worth| *worth)
        .map_or(0, |at| at + 1);
    (place < worth.len()).then_some(place)
}
