//! Conditions that bind a cowl and are easily forgotten, made from those that a design has.

use crate::document::condition::{AirKind, Condition, Mixture, Phase, PowerKind, ShutterPolicy};
use crate::document::design::Design;
use crate::language::tr;
use crate::units::quantity::{metre, metre_per_s};
use crate::units::si::{foot, knot};

/// A condition to add. Speeds and powers are common practice, to be typed over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UsualCondition {
    /// Full power at the end of an approach on a hot day.
    GoAround,
    /// Taxiing on a warm day with the wind behind.
    TaxiDownwind,
    /// A closed throttle at cruise speed in the coldest air of the design.
    IdleDescent,
}

/// Speed below the climb's at which a go-around begins, m/s.
const SLOWER: f64 = knot(10.0);
/// Height of a go-around, m.
const LOW: f64 = foot(1000.0);

impl UsualCondition {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::GoAround, Self::TaxiDownwind, Self::IdleDescent];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::GoAround => tr("Go-around, hot day"),
            Self::TaxiDownwind => tr("Taxi, wind behind"),
            Self::IdleDescent => tr("Closed-throttle descent, cold"),
        }
    }

    /// The condition for a design.
    ///
    /// # Example
    /// A go-around is the example's first climb, 10 kt slower and at full power:
    /// ```
    /// use coolpath_core::document::example;
    /// use coolpath_core::document::usual_condition::UsualCondition;
    /// use coolpath_core::units::si::knot;
    ///
    /// let design = example::design();
    /// let made = UsualCondition::GoAround.of(&design);
    /// assert!((made.airspeed.value - knot(75.0)).abs() < 1e-9);
    /// assert_eq!(made.power_share, 1.0);
    /// ```
    #[must_use]
    pub fn of(self, design: &Design) -> Condition {
        let first = |phase: Phase| {
            let mut all = design.conditions.iter();
            let found = all.find(|condition| condition.phase == phase);
            found.cloned().unwrap_or_else(|| Condition {
                phase,
                ..Condition::default()
            })
        };
        let made = match self {
            Self::GoAround => {
                let climb = first(Phase::Climb);
                Condition {
                    air: AirKind::HotDay,
                    altitude: metre(LOW),
                    airspeed: metre_per_s(
                        (climb.airspeed.value - SLOWER).max(0.5 * climb.airspeed.value),
                    ),
                    power: PowerKind::Share,
                    power_share: 1.0,
                    rpm: design.installation.engine.rated_rpm,
                    mixture: Mixture::FullRich,
                    flap: 1.0,
                    ..climb
                }
            }
            Self::TaxiDownwind => Condition {
                airspeed: metre_per_s(knot(5.0)),
                wind: metre_per_s(knot(-10.0)),
                power: PowerKind::Share,
                power_share: 0.10,
                mixture: Mixture::FullRich,
                flap: 1.0,
                shutter: ShutterPolicy::Fixed,
                shutter_opening: 1.0,
                ..first(Phase::Ground)
            },
            Self::IdleDescent => {
                let cruise = first(Phase::Cruise);
                let coldest = design
                    .conditions
                    .iter()
                    .filter(|condition| condition.air == AirKind::Oat)
                    .min_by(|a, b| a.oat.value.total_cmp(&b.oat.value));
                Condition {
                    phase: Phase::Descent,
                    air: AirKind::Oat,
                    oat: coldest.map_or(cruise.oat, |condition| condition.oat),
                    altitude: coldest.map_or(cruise.altitude, |condition| condition.altitude),
                    power: PowerKind::Share,
                    power_share: 0.10,
                    rpm: 1500.0,
                    flap: 0.0,
                    ..cruise
                }
            }
        };
        Condition {
            name: self.name().to_owned(),
            ..made
        }
    }
}
