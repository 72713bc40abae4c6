//! A hot turn-around as it is asked about.

use crate::answer::minutes::{Leg, Warmth};
use crate::document::condition::Phase;
use crate::document::design::Design;
use serde::{Deserialize, Serialize};

/// A turn-around.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct TurnAround {
    /// Ground runs and climbs with their times, in order.
    pub(super) legs: Vec<Leg>,
    /// Where the engine was stopped; `None` for the steady answer of the first leg.
    pub(super) start: Option<Warmth>,
    /// How long it stood, s.
    pub(super) soak_s: f64,
}

impl TurnAround {
    /// The turn-around in a flight: its first ground runs and climbs up to the first leg that is
    /// neither; `None` without any.
    ///
    /// # Arguments
    /// * `start` - head and oil when the engine is stopped; `None` for the steady answer of the first leg
    /// * `soak_s` - how long it stands, s
    ///
    /// # Example
    /// The example's cruise is no part of it:
    /// ```
    /// use coolpath_core::answer::minutes::Leg;
    /// use coolpath_core::decide::size::TurnAround;
    /// use coolpath_core::document::example;
    ///
    /// let design = example::design();
    /// let legs = [0, 1, 2, 3].map(|condition| Leg { condition, seconds: 300.0 });
    /// let of = |legs: &[Leg]| TurnAround::new(&design, legs, None, 1800.0);
    /// assert_eq!(of(&legs), of(&legs[..3]));
    /// assert_eq!(of(&legs[3..]), None);
    /// ```
    #[must_use]
    pub fn new(design: &Design, legs: &[Leg], start: Option<Warmth>, soak_s: f64) -> Option<Self> {
        let belongs = |leg: &&Leg| {
            let condition = design.conditions.get(leg.condition);
            condition.is_some_and(|it| matches!(it.phase, Phase::Ground | Phase::Climb))
        };
        let legs: Vec<Leg> = legs
            .iter()
            .skip_while(|leg| !belongs(leg))
            .take_while(belongs)
            .copied()
            .collect();
        (!legs.is_empty()).then_some(Self {
            legs,
            start,
            soak_s,
        })
    }
}
