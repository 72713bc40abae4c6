//! Which limits hold in a condition: the manual's redlines, or a lower limit beside them.

use crate::document::condition::Phase;
use crate::document::design::Design;
use crate::document::installation::{Engine, SecondLimit};
use crate::language::tr;

/// Kind of a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LimitKind {
    /// The manual's redline.
    Redline,
    /// The manual's limit for continuous operation.
    Continuous,
    /// The builder's own.
    Personal,
}

impl LimitKind {
    /// The limit in words, such as "your continuous limit".
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Redline => tr("limit"),
            Self::Continuous => tr("continuous limit"),
            Self::Personal => tr("personal limit"),
        }
    }
}

/// A limit that holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Held {
    /// The limit, K.
    pub kelvin: f64,
    /// Which it is.
    pub kind: LimitKind,
}

/// The limits that hold in a condition.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Of the hottest head, as its probe reads it.
    pub head: Held,
    /// Of the oil at the gauge.
    pub oil: Held,
}

/// Which limits are to be held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum LimitChoice {
    /// The lowest that counts in each condition.
    #[default]
    Lowest,
    /// The manual's redlines alone.
    Redline,
}

impl SecondLimit {
    /// Kind of the limit beside the redline, if there is one.
    #[must_use]
    pub fn kind(self) -> Option<LimitKind> {
        match self {
            Self::None => None,
            Self::Continuous => Some(LimitKind::Continuous),
            Self::Personal => Some(LimitKind::Personal),
        }
    }
}

impl Engine {
    /// The limits that hold in a phase of flight.
    ///
    /// A continuous limit counts where engines run for long, in cruise and descent; a personal one
    /// counts always; neither ever lifts the redline (common practice).
    ///
    /// # Example
    /// ```
    /// use coolpath_core::document::condition::Phase;
    /// use coolpath_core::document::installation::{Engine, SecondLimit};
    /// use coolpath_core::document::limits::{LimitChoice, LimitKind};
    ///
    /// let engine = Engine { head_second: SecondLimit::Continuous, ..Engine::default() };
    /// let kind = |phase| engine.limits(phase, LimitChoice::Lowest).head.kind;
    /// assert_eq!(kind(Phase::Climb), LimitKind::Redline);
    /// assert_eq!(kind(Phase::Cruise), LimitKind::Continuous);
    /// ```
    #[must_use]
    pub fn limits(&self, phase: Phase, choice: LimitChoice) -> Limits {
        let lowest = |redline: f64, second: SecondLimit, kelvin: f64| {
            let long = matches!(phase, Phase::Cruise | Phase::Descent);
            let counts = |kind: &LimitKind| {
                choice == LimitChoice::Lowest
                    && (long || *kind != LimitKind::Continuous)
                    && kelvin < redline
            };
            match second.kind().filter(counts) {
                Some(kind) => Held { kelvin, kind },
                None => Held {
                    kelvin: redline,
                    kind: LimitKind::Redline,
                },
            }
        };
        Limits {
            head: lowest(
                self.head_limit.value,
                self.head_second,
                self.head_second_limit.value,
            ),
            oil: lowest(
                self.oil_limit.value,
                self.oil_second,
                self.oil_second_limit.value,
            ),
        }
    }

    /// The lowest limits that count in every phase of flight, so no continuous one.
    #[must_use]
    pub fn limits_always(&self) -> Limits {
        // Nothing but a continuous limit tells one phase from another.
        self.limits(Phase::Climb, LimitChoice::Lowest)
    }
}

impl Design {
    /// The lowest limits that count in a condition; where there is no such condition, those that count
    /// always.
    #[must_use]
    pub fn limits_in(&self, place: usize) -> Limits {
        let engine = &self.installation.engine;
        self.conditions.get(place).map_or_else(
            || engine.limits_always(),
            |condition| engine.limits(condition.phase, LimitChoice::Lowest),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::quantity::kelvin;

    #[test]
    fn a_second_limit_above_the_redline_never_lifts_it() {
        let mut engine = Engine {
            oil_second: SecondLimit::Personal,
            ..Engine::default()
        };
        engine.oil_second_limit = kelvin(engine.oil_limit.value + 1.0);
        let oil = |engine: &Engine, choice| engine.limits(Phase::Climb, choice).oil;
        assert_eq!(oil(&engine, LimitChoice::Lowest).kind, LimitKind::Redline);
        engine.oil_second_limit = kelvin(engine.oil_limit.value - 1.0);
        let lowest = oil(&engine, LimitChoice::Lowest);
        assert_eq!(lowest.kind, LimitKind::Personal);
        assert_eq!(lowest.kelvin, engine.oil_second_limit.value);
        assert_eq!(engine.limits_always().oil, lowest);
        engine.oil_second = SecondLimit::Continuous;
        assert_eq!(engine.limits_always().oil.kind, LimitKind::Redline);
        let redline = oil(&engine, LimitChoice::Redline);
        assert_eq!(redline.kelvin, engine.oil_limit.value);
    }
}
